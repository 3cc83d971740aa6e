"""Broken folders, continued: buttons and snaps along a line. As `cases.py`."""

from __future__ import annotations

from typing import Final

from .cases import YAML, Broken

BUTTONS = "  - {name: buttons, title: Buttons, kind: [button, snap], count: 4, carried_by: buttonholes}\n"


SIZED = "count: 4, diameter_mm: 13, thickness_mm: 3, carried_by: buttonholes"


def placed(more: str, notion: str = SIZED, kind: str = "[button, snap]") -> str:
    """The buttons placed along a line."""
    own = f"name: buttons, title: Buttons, kind: {kind}, {notion}"
    return f"  - {{{own}, placed: {{below: the top, {more}}}}}\n"


WAIST = "along: back.waist, first_mm: %s, last_mm: 20"

CLOSURES: Final = (
    Broken(
        name="no room for the closures",
        code="no-room-for-closures",
        changes={YAML: ((BUTTONS, placed(WAIST % 110)),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:91:128: [no-room-for-closures] "
                "seen `buttons` on a line with 160 mm, of which 30 mm lie between the first and the last place, "
                "too little for 4 at least 18 mm apart in size 80 (also in 92); "
                "expected a place for each, clear of seams and of both ends; "
                "take fewer or smaller ones, or let the first and the last come nearer to the ends"
            ),
        ),
    ),
    Broken(
        name="placed along a line that is cut off",
        code="not-measurable",
        changes={YAML: ((BUTTONS, placed("along: front.waist, first_mm: 20, last_mm: 20", kind="button")),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:91:120: [not-measurable] "
                "seen piece 'front' has no line 'waist' here, in size 80 with band two (also in 92); "
                "expected a line that can be measured in every size and combination where the notion is needed; "
                "say with `when:` where it applies, or correct the piece"
            ),
        ),
    ),
    Broken(
        name="closures nearer to the end than a hole may be",
        code="closures-moved",
        changes={YAML: ((BUTTONS, placed(WAIST % 6, kind="button")),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:91:120: [advice: closures-moved] "
                "seen `buttons` with the first moved to 7.5 mm, in size 80 with opening front (also in 92); "
                "expected places as wished, with equal spaces; "
                "leave it, or choose other distances from the ends or another number"
            ),
        ),
    ),
    Broken(
        name="placed along a line that is not drawn",
        code="unknown-line",
        changes={YAML: ((BUTTONS, placed("along: back.wast, first_mm: 20, last_mm: 20")),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:91:160: [unknown-line] "
                "seen the line `wast` of `back`; "
                "expected one of `waist`; "
                "did you mean `waist`?"
            ),
        ),
    ),
    Broken(
        name="placed without a size",
        code="missing-key",
        changes={YAML: ((BUTTONS, placed(WAIST % 20, "count: 4")),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:91:5: [missing-key] "
                "seen no `diameter_mm`; "
                "expected the key `diameter_mm`, by which the places keep clear of seams; "
                "add `diameter_mm:`"
            ),
            (
                "patterns/plain/pattern.yaml:91:5: [missing-key] "
                "seen no `thickness_mm`; "
                "expected the key `thickness_mm`, by which the places keep clear of seams; "
                "add `thickness_mm:`"
            ),
        ),
    ),
    Broken(
        name="placed neither along a line nor along an edge",
        code="missing-key",
        changes={YAML: ((BUTTONS, placed("along: {upper: top-centre}, first_mm: 20, last_mm: 20")),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:91:160: [missing-key] "
                "seen neither `line` nor `edge`; "
                "expected exactly one of them; "
                "add an interior line or an edge"
            ),
        ),
    ),
    Broken(
        name="an odd number in two rows",
        code="wrong-value",
        changes={
            YAML: (
                (BUTTONS, placed(WAIST % 20 + ", rows: 2", "count: 5, diameter_mm: 13, thickness_mm: 3")),
            )
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:91:66: [wrong-value] "
                "seen 5 in 2 rows; "
                "expected as many in each row; "
                "write 6, or look at `rows`"
            ),
        ),
    ),
    Broken(
        name="a number and a space",
        code="unknown-key",
        changes={YAML: ((BUTTONS, placed(WAIST % 20 + ", spacing_mm: 40")),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:91:199: [unknown-key] "
                "seen the key `spacing_mm`; "
                "expected it only without `count` and `tabled_count`; "
                "delete it"
            ),
        ),
    ),
    Broken(
        name="snaps without interfacing under them",
        code="closure-not-backed",
        changes={YAML: ((BUTTONS, placed(WAIST % 20)),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:91:128: [advice: closure-not-backed] "
                "seen `buttons` at 20, 60, 100, 140 mm without interfacing under them in size 80 with opening front "
                "(also in 92); "
                "expected interfacing under every snap, in both layers, so that none pulls out; "
                "add `interfacing:` to the piece there, or leave it where the cloth is firm enough"
            ),
            (
                "patterns/plain/pattern.yaml:91:153: [advice: closure-not-backed] "
                "seen `buttons` at 20 mm without interfacing under their other halves, on the copy `wearers-right`, "
                "in size 80 with opening back (also in 92); "
                "expected interfacing under every snap, in both layers, so that none pulls out; "
                "add `interfacing:` to the piece there, or leave it where the cloth is firm enough"
            ),
        ),
    ),
    Broken(
        name="snaps whose other halves have no interfacing",
        code="closure-not-backed",
        changes={YAML: ((BUTTONS, placed(
            "along: {line: back.waist}, onto: {edge: front.side}, first_mm: 20, last_mm: 20",
            "count: 4, diameter_mm: 11", "snap")),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:91:76: [advice: closure-not-backed] "
                "seen `buttons` at 20, 60, 100, 140 mm without interfacing under them in size 80 with opening front "
                "(also in 92); "
                "expected interfacing under every snap, in both layers, so that none pulls out; "
                "add `interfacing:` to the piece there, or leave it where the cloth is firm enough"
            ),
            (
                "patterns/plain/pattern.yaml:91:128: [advice: closure-not-backed] "
                "seen `buttons` at 20, 60, 100, 140 mm without interfacing under their other halves, on `front`, "
                "in size 80 with opening front (also in 92); "
                "expected interfacing under every snap, in both layers, so that none pulls out; "
                "add `interfacing:` to the piece there, or leave it where the cloth is firm enough"
            ),
        ),
    ),
    Broken(
        name="placed from nowhere",
        code="missing-key",
        changes={YAML: ((BUTTONS, placed(WAIST % 20).replace("below: the top, ", "")),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:91:128: [missing-key] "
                "seen neither `below` nor `from`; "
                "expected exactly one of them, with the words for the upper end of the line; "
                "add one, such as `below: the neck seam`"
            ),
        ),
    ),
    Broken(
        name="two words for the upper end",
        code="wrong-value",
        changes={YAML: ((BUTTONS, placed("from: the side, " + WAIST % 20)),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:91:136: [wrong-value] "
                "seen `below` and `from` together; "
                "expected exactly one of them, with the words for the upper end of the line; "
                "keep one of them"
            ),
        ),
    ),
    Broken(
        name="several without the last one's place",
        code="missing-key",
        changes={YAML: ((BUTTONS, placed("along: back.waist, first_mm: 20")),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:91:128: [missing-key] "
                "seen no `last_mm`; "
                "expected how far the last one sits from the lower end, wherever a row has more than one; "
                "add `last_mm:`"
            ),
        ),
    ),
    Broken(
        name="words for each row of one",
        code="unknown-key",
        changes={YAML: ((BUTTONS, placed(WAIST % 20 + ", each: on each side")),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:91:199: [unknown-key] "
                "seen the key `each`; "
                "expected it only with several `rows`; "
                "delete it"
            ),
        ),
    ),
    Broken(
        name="an overlap that is too narrow",
        code="narrow-overlap",
        changes={
            YAML: (
                (BUTTONS, placed("along: {line: back.edge-near}, first_mm: 20, last_mm: 20", kind="button")),
            ),
            "patterns/plain/pieces.svg": tuple(
                (f'<path id="back.{size}.line.waist" ', f'<path id="back.{size}.line.edge-near" d="M 8,0 V 300"/>\n'
                 f'<path id="back.{size}.line.waist" ') for size in ("80", "92")
            ),
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:91:120: [warning: narrow-overlap] "
                "seen `buttons`, 13 mm, on a line 8 mm from the edge in size 80 with opening front (also in 92); "
                "expected at least 9.75 mm, three quarters of the diameter; "
                "move the line inwards, widen the overlap, or take a smaller size"
            ),
        ),
    ),
)  # fmt: skip
