"""Broken folders, continued: stripes and checks that can't be kept to. As `cases.py`."""

from __future__ import annotations

from typing import Final

from .cases import YAML, Broken

OUTER = "widths_mm: [1100, 1400], ways: [folded, flat]}"
FRONT = "  front:\n    title: Front\n"
STEP = (FRONT, f"{FRONT}    in_step: top-side\n")


def _repeats(listed: str, ways: str = "[folded, flat]") -> tuple[str, str]:
    return OUTER, f"widths_mm: [1100, 1400], ways: {ways}, repeats: {listed}}}"


REPEATS: Final = (
    Broken(
        name="repeat too small",
        code="wrong-value",
        changes={YAML: (_repeats("{fine: {title: Fine, along_mm: 4, across_mm: 60}}"), STEP)},
        messages=(
            "patterns/plain/pattern.yaml:34:156: [wrong-value] "
            "seen a repeat of 4 mm; "
            "expected at least 5 mm; "
            "leave it out: what is so small need not be matched",
        ),
    ),
    Broken(
        name="uneven repeat on folded cloth",
        code="wrong-value",
        changes={
            YAML: (_repeats("{rough: {title: Rough, along_mm: 70, even: false}}", ways="[folded]"), STEP),
        },
        messages=(
            "patterns/plain/pattern.yaml:34:162: [wrong-value] "
            "seen an uneven repeat on cloth that is always folded; "
            "expected `flat` among the ways of this cloth, for a fold turns the pattern over; "
            "add `flat` to `ways`",
        ),
    ),
    Broken(
        name="the same repeat twice",
        code="wrong-value",
        changes={
            YAML: (_repeats("{a: {title: A, along_mm: 70}, b: {title: B, along_mm: 70, even: false}}"), STEP),
        },
        messages=(
            "patterns/plain/pattern.yaml:34:155: [wrong-value] "
            "seen `b` with the same repeat as `a`; "
            "expected each repeat once; "
            "delete one of them, and name both in its title",
        ),
    ),
    Broken(
        name="repeats that no piece meets",
        code="missing-key",
        changes={YAML: (_repeats("{a: {title: A, along_mm: 70}}"),)},
        messages=(
            "patterns/plain/pattern.yaml:34:116: [missing-key] "
            "seen repeats of `outer`, and no piece cut from it that is kept in step; "
            "expected `in_step:` and a point at each piece whose stripes are to meet; "
            "add it, for example at the underarm of front and back",
        ),
    ),
    Broken(
        name="in step at a point that is not there",
        code="unknown-point",
        changes={YAML: ((FRONT, f"{FRONT}    in_step: top-sied\n"),)},
        messages=(
            "patterns/plain/pattern.yaml:42:14: [unknown-point] "
            "seen the point `top-sied` of `front`; "
            "expected one of `hem-centre`, `hem-side`, `top-centre`, `top-side`; "
            "did you mean `top-side`?",
        ),
    ),
    Broken(
        name="in step under a role",
        code="unknown-key",
        changes={YAML: (("  as:whole:\n", "  as:whole:\n    in_step: top-side\n"),)},
        messages=(
            "patterns/plain/pattern.yaml:67:5: [unknown-key] "
            "seen the key `in_step`; "
            "expected it only under the piece itself; under `as:…` only `edges`, `cut_offs`, `cut`, `copies`, "
            "`interfacing`; "
            "delete it",
        ),
    ),
)
