"""Broken folders, continued: the ease on the child, and where a garment is lengthened. As `cases.py`."""

from __future__ import annotations

from typing import Final

from .cases import YAML, Broken

LENGTHEN = "lengthen:\n  - {title: Body, where: at the waist, lines: [%s], by: %s}\nmeasurements:\n"

ADVICE: Final = (
    Broken(
        name="lengthened by an unknown measurement",
        code="unknown-measurement",
        changes={YAML: (("measurements:\n", LENGTHEN % ("front.waist", "lenght")),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:82:66: [unknown-measurement] "
                "seen the measurement `lenght`; "
                "expected one of `chest`; "
                "correct the name"
            ),
        ),
    ),
    Broken(
        name="lengthened at an unknown line",
        code="unknown-line",
        changes={YAML: (("measurements:\n", LENGTHEN % ("front.wast", "chest")),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:82:48: [unknown-line] "
                "seen the line `wast` of `front`; "
                "expected one of `waist`; "
                "did you mean `waist`?"
            ),
        ),
    ),
    Broken(
        name="worn ease the wrong way round",
        code="wrong-value",
        changes={YAML: (("    ease_mm: {woven: [20, 180]}\n", "    wearing_mm: {woven: [180, 20]}\n"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:88:25: [wrong-value] "
                "seen `[180, 20]`; "
                "expected the smaller number first; "
                "write `[20, 180]`"
            ),
        ),
    ),
    Broken(
        name="worn ease of a cloth that there is not",
        code="wrong-value",
        changes={YAML: (("    ease_mm: {woven: [20, 180]}\n", "    wearing_mm: {knit: [0, 50]}\n"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:88:18: [wrong-value] "
                "seen ease for `knit`, which no cloth is; "
                "expected one of `interfacing`, `woven`, what stands under `kinds`; "
                "delete it, or add `knit` to the kinds of a cloth"
            ),
        ),
    ),
    Broken(
        name="worn ease over no body measurement",
        code="unknown-key",
        changes={
            YAML: (
                ("    body: chest\n", ""),
                ("    ease_mm: {woven: [20, 180]}\n", "    wearing_mm: {woven: [0, 50]}\n"),
            )
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:87:5: [unknown-key] "
                "seen the key `wearing_mm`; "
                "expected it only with `body`; "
                "delete it"
            ),
        ),
    ),
)
