"""Broken folders, continued: what steps.md names. As `cases.py`."""

from __future__ import annotations

from typing import Final

from .cases import STEPS, Broken

SEWN = "Sew front to back."
UNDER = "## Sew the sides\n"


def names(name: str, code: str, line: str, message: str) -> Broken:
    """A step whose text is this line."""
    said = f"patterns/plain/steps.md:7:{line.index('{') + 1}: [{code}] {message}"
    return Broken(name=name, code=code, changes={STEPS: ((SEWN, line),)}, messages=(said,))


def heads(name: str, code: str, line: str, column: int, message: str) -> Broken:
    """A step with this line under its heading."""
    said = f"patterns/plain/steps.md:6:{column}: [{code}] {message}"
    return Broken(name=name, code=code, changes={STEPS: ((UNDER, f"{UNDER}{line}\n"),)}, messages=(said,))


GUIDE: Final = (
    names("a word of an unknown kind", "unknown-word", "Sew {lenght front.side} up.",
          "seen the word `{lenght front.side}`; expected a kind of word and what it is about, like "
          "`{cut waist-elastic}`; did you mean `length`?"),
    names("a word about too little", "unknown-word", "Sew the {side front} first.",
          "seen the word `{side front}`; expected one like `{side PIECE THING}`; write one space between its parts, "
          "and no other"),
    names("a length with its unit", "unknown-word", "Sew {mm 10mm} wide.",
          "seen the word `{mm 10mm}`; expected a length in millimetres, like `{mm 15}`; write a number without a unit, "
          "with at most one decimal"),
    names("a word about an unknown notion", "unknown-notion", "Cut {cut elastik} off.",
          "seen the notion `elastik`; expected one of `elastic`, `buttons`; did you mean `elastic`?"),
    names("the length of what has none", "unknown-word", "Cut {cut buttons} off.",
          "seen the word `{cut buttons}`; expected a notion that has a length; say it at the notion, or write it out "
          "here"),
    names("the tail of what laps", "unknown-word", "Leave {tail elastic} at either end.",
          "seen the word `{tail elastic}`; expected a notion that has a `tail_mm`; say it at the notion, or write it "
          "out here"),
    names("the marks of what is not gathered", "unknown-word", "Mark it at {marks side}.",
          "seen the word `{marks side}`; expected a seam that has a `gather_ratio`; say it at the seam, or write it "
          "out here"),
    names("a word about an unknown seam", "unknown-seam", "Gather {ratio sides} so far.",
          "seen the seam `sides`; expected one of `side`, `band`; did you mean `side`?"),
    names("a word about an unknown edge", "unknown-edge", "Sew {length front.hemm} up.",
          "seen the edge `hemm` of `front`; expected one of `top`, `side`, `hem`, `centre`, `waist`; did you mean "
          "`hem`?"),
    names("a word about an unknown thing", "unknown-copy", "The {side front holes} half.",
          "seen the thing that a copy carries `holes` of `front`; expected one of `buttonholes`, "
          "`buttons`; did you mean `buttonholes`?"),
    heads("an unknown piece sewn", "unknown-piece", "sews: [front, bak]", 15,
          "seen the piece `bak`; expected one of `front`, `back`, `band`; did you mean `back`?"),
    heads("an unknown notion used", "unknown-notion", "uses: button", 7,
          "seen the notion `button`; expected one of `elastic`, `buttons`; did you mean `buttons`?"),
    heads("too many words on what is up", "wrong-value", f"up: {'right side ' * 8}", 5,
          "seen `up: right side right side right side right side right side …`; expected the face that is up, in at "
          "most 80 letters, like `up: right side`; write it like this"),
    heads("a drawing that is not there", "missing-file", "drawing: drawings/side.svg", 10,
          "seen no readable file `drawings/side.svg` in the pattern's folder; expected the file that is named; add it, "
          "or correct its name"),
    heads("a film that ends before it begins", "wrong-value", 'film: {address: "https://a.example", from: 9, to: 9}', 7,
          "seen a film from 9 to 9 s; expected an end after the beginning; write both in seconds from the start of "
          "the film"),
    heads("a film that is nowhere", "wrong-value", "film: {from: 9}", 7,
          "seen a film without a `file` or an `address`; expected exactly one of them; name the file of the folder, or "
          "the address where it is shown"),
    heads("a film at no address", "wrong-value", "film: {address: example}", 17,
          "seen the address `example`; expected an address that begins with `https://`; copy the address from the "
          "browser"),
)  # fmt: skip
