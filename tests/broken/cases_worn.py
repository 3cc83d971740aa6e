"""Broken folders, continued: what is pulled on, elastic, thread and gathers. As `cases.py`."""

from __future__ import annotations

from typing import Final

from .cases import YAML, Broken

ELASTIC = (
    "  - {name: elastic, title: Elastic, kind: elastic, edge: band.long, rule: {take: ring, body: waist}, "
    "when: {band: two}}\n"
)
RULE = "rule: {take: ring, body: waist"


def elastic(rule: str, more: str) -> str:
    """The elastic with more to its rule and beside it."""
    return ELASTIC.replace(RULE, f"{more}{RULE}{rule}")


def ring(parts: str) -> tuple[str, str]:
    """What is pulled on, put before the notions."""
    return "notions:\n", f"pull_on:\n  - {{name: top, title: The top, {parts}}}\nnotions:\n"


WORN: Final = (
    Broken(
        name="a neck too tight for the head",
        code="too-tight-to-pull-on",
        changes={YAML: (ring("over: head, sum: [{edge: back.top, times: 2}], slit: [{edge: front.top, times: 0.5}]"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:90:5: [warning: too-tight-to-pull-on] "
                "seen `top` opens to 480 mm for a head of 496 mm at P97, 26 mm too little in size 80 (also in 92); "
                "expected at least 506 mm, 10 mm more than the head; "
                "widen it, lengthen the slit, or say in `stretches_to` how far the cloth stretches"
            ),
        ),
    ),
    Broken(
        name="a waist too tight for the hip",
        code="too-tight-to-pull-on",
        changes={YAML: (ring("over: chest, sum: [{edge: back.top, times: 3}], stretches_to: 1"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:90:5: [warning: too-tight-to-pull-on] "
                "seen `top` opens to 480 mm for a chest of 480 mm, 20 mm too little in size 80 (also in 92); "
                "expected at least 500 mm, 20 mm more than the chest; "
                "widen it, lengthen the slit, or say in `stretches_to` how far the cloth stretches"
            ),
        ),
    ),
    Broken(
        name="a channel too narrow for its elastic",
        code="channel-too-narrow",
        changes={YAML: ((ELASTIC, elastic("", "width_mm: 25, channel: {hem: back.hem, less_mm: 4}, ")),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:90:83: [channel-too-narrow] "
                "seen a channel 26 mm high for `elastic`, 25 mm wide, in size 80 with band two (also in 92); "
                "expected at least 27 mm, 2 mm more than the elastic; "
                "make the channel higher, or take a narrower elastic"
            ),
        ),
    ),
    Broken(
        name="a channel in which the elastic has little room",
        code="channel-narrow",
        changes={YAML: ((ELASTIC, elastic("", "width_mm: 25, channel: {hem: back.hem, less_mm: 2}, ")),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:90:83: [advice: channel-narrow] "
                "seen a channel 28 mm high for `elastic`, 25 mm wide, in size 80 with band two (also in 92); "
                "expected at least 31 mm, 6 mm more than the elastic; "
                "make the channel higher, or take a narrower elastic"
            ),
        ),
    ),
    Broken(
        name="a channel measured twice over",
        code="wrong-value",
        changes={
            YAML: ((ELASTIC, elastic("", "width_mm: 20, channel: {hem: back.hem, sum: [{edge: back.hem}]}, ")),)
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:90:83: [wrong-value] "
                "seen `sum` and `hem` together; "
                "expected exactly one of them; "
                "keep one of them"
            ),
        ),
    ),
    Broken(
        name="elastic that does not pass",
        code="elastic-does-not-fit",
        changes={YAML: ((ELASTIC, elastic(", minus_mm: 250", "passes: chest, ")),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:90:5: [warning: elastic-does-not-fit] "
                "seen `elastic` stretched to 378 mm, 1.8 times its length, for a chest of 480 mm in size 80 "
                "(also in 92); "
                "expected an elastic that passes the chest; "
                "make it longer, or leave an opening"
            ),
        ),
    ),
    Broken(
        name="elastic that does not hold",
        code="elastic-does-not-fit",
        changes={YAML: ((ELASTIC, elastic(", minus_mm: -30", "")),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:90:5: [warning: elastic-does-not-fit] "
                "seen `elastic` 490 mm closed round a waist of 460 mm in size 80 (also in 92); "
                "expected a ring that is no longer than the waist, so that it holds; "
                "make it shorter"
            ),
        ),
    ),
    Broken(
        name="elastic that presses sturdy children",
        code="elastic-not-for-all",
        changes={YAML: ((ELASTIC, ELASTIC.replace("body: waist", "body: chest, minus_mm: 100")),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:90:5: [warning: elastic-not-for-all] "
                "seen `elastic` 420 mm closed, stretched by 26 % on 531 mm (P95): the chest of children of "
                "this height, in size 92; "
                "expected a ring that holds on the slimmest and is stretched by 15 % at most on the sturdiest: "
                "462 to 463 mm; "
                "change it, or say in a step that it is tried on before it is closed"
            ),
        ),
    ),
    Broken(
        name="a tabled elastic far from its rule",
        code="tabled-elastic-off",
        changes={YAML: ((ELASTIC, elastic("", 'tabled_mm: {"80": 400}, ')),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:90:69: [advice: tabled-elastic-off] "
                "seen `elastic` 400 mm, by the rule 480 mm, in size 80; "
                "expected figures that agree within 5 %; "
                "look at both; if the tabled one is meant, leave it, for it wins"
            ),
        ),
    ),
    Broken(
        name="a tail and an overlap",
        code="unknown-key",
        changes={YAML: ((ELASTIC, elastic(", tail_mm: 10, overlap_mm: 20", "")),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:90:114: [unknown-key] "
                "seen the key `overlap_mm`; "
                "expected it only without `tail_mm`: ends caught in a seam do not lie on each other; "
                "delete it"
            ),
        ),
    ),
    Broken(
        name="a reel of elastic",
        code="unknown-key",
        changes={YAML: ((ELASTIC, elastic("", "reel_m: 100, ")),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:90:69: [unknown-key] "
                "seen the key `reel_m`; "
                "expected it only with the kind `thread`; "
                "delete it"
            ),
        ),
    ),
    Broken(
        name="marks without gathers",
        code="unknown-key",
        changes={YAML: (("to: [back.side], when:", "to: [back.side], marks: {from: the top}, when:"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:79:55: [unknown-key] "
                "seen the key `marks`; "
                "expected it only with `gather_ratio`; "
                "delete it"
            ),
        ),
    ),
    Broken(
        name="pulled over something that the chart does not have",
        code="unknown-body-column",
        changes={YAML: (ring("over: foot, sum: [{edge: back.top}]"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:90:39: [unknown-body-column] "
                "seen the body measurement `foot`; "
                "expected one of `height`, `chest`, `waist`; "
                "correct the name"
            ),
        ),
    ),
)
