"""Broken widths of remnants, each with its whole message."""

from __future__ import annotations

from .cases import YAML, Broken

FLAT = "usual_width_mm: 900, widths_mm: [900], ways: [flat]"


def _interfacing(
    name: str, list_mm: str, *messages: str, ways: str = "[flat]", code: str = "wrong-value"
) -> Broken:
    text = f"usual_width_mm: 900, widths_mm: [900], ways: {ways}, remnant_widths_mm: {list_mm}"
    return Broken(name=name, code=code, changes={YAML: ((FLAT, text),)}, messages=messages)


REMNANTS = (
    _interfacing(
        "remnants in centimetres, one as wide as the cloth",
        "[45, 300, 900]",
        "patterns/plain/pattern.yaml:35:132: [wrong-value] "
        "seen a remnant 45 mm wide; "
        "expected at least 300 mm; "
        "look at 45: was it meant in centimetres (then write 450)?",
        "patterns/plain/pattern.yaml:35:141: [wrong-value] "
        "seen a remnant 900 mm wide; "
        "expected less than the narrowest of `widths_mm` (900 mm): wider ones are laid anyway; "
        "delete it",
    ),
    _interfacing(
        "remnants out of order, and one twice",
        "[600, 450, 450]",
        "patterns/plain/pattern.yaml:35:137: [wrong-value] "
        "seen 450 after 600; "
        "expected each width once, the narrowest first; "
        "put the widths in order, each once",
        "patterns/plain/pattern.yaml:35:142: [wrong-value] "
        "seen 450 after 450; "
        "expected each width once, the narrowest first; "
        "put the widths in order, each once",
    ),
    _interfacing(
        "remnants of a cloth that is never flat",
        "[450]",
        "patterns/plain/pattern.yaml:35:114: [wrong-value] "
        "seen widths of remnants of a cloth that is not laid flat; "
        "expected `flat` among its `ways`, for remnants are laid flat only; "
        "add `flat` to `ways`, or delete `remnant_widths_mm`",
        ways="[folded]",
    ),
    _interfacing(
        "too many remnants",
        f"{list(range(300, 430, 10))}",
        "patterns/plain/pattern.yaml:35:131: [wrong-value] "
        "seen a list of 13; "
        "expected at most 12 of them; "
        "change it for `remnant_widths_mm`",
    ),
    _interfacing(
        "a remnant in words",
        "[half]",
        "patterns/plain/pattern.yaml:35:132: [wrong-type] "
        "seen the text `half`; "
        "expected a number; "
        "write a number for `remnant_widths_mm`",
        code="wrong-type",
    ),
)
