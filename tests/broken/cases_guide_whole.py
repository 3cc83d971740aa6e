"""Broken folders, continued: guides that do not fit the garment. As `cases.py`; these are found by measuring."""

from __future__ import annotations

from typing import Final

from .cases import STEPS, WHOLE, YAML, Broken


def guide(name: str, code: str, text: str, *messages: str) -> Broken:
    """A folder with this guide, and what is said of it."""
    return Broken(
        name=name,
        code=code,
        changes={STEPS: ((WHOLE, text),)},
        messages=tuple(f"patterns/plain/steps.md:{message}" for message in messages),
    )


SEWN = "## Sew\nsews: [front, back]\n\nSew.\n"

GUIDES: Final = (
    guide("a step that nobody sees", "step-never-shown",
          "## Sew\n\nSew.\n\n## Never\nwhen: {band: two, opening: back}\n\nSew.\n",
          "5:1: [warning: step-never-shown] seen the step “Never”, which no allowed combination has; expected choices "
          "that go together; correct `when:`, or delete the step"),
    guide("a piece that no step sews", "piece-not-sewn", SEWN,
          "1:1: [warning: piece-not-sewn] seen `band` cut, but sewn in no step in size 80 with band two; expected a "
          "step that says `sews:` of each piece that is cut; add `band` to the step that sews it on, or a step that "
          "does"),
    guide("a piece sewn that is not there", "sewn-not-cut", f"{SEWN}\n## Band\nsews: band\n\nSew.\n",
          "6:1: [warning: sewn-not-cut] seen `band` sewn but not cut, in size 80 with band none; expected "
          "pieces that are there whenever the step is shown; narrow `when:`, or list what takes its place: "
          "`sews: [[one, other]]`"),
    guide("a notion that no step uses", "notion-not-used", "## Sew\nuses: buttons\n\nSew.\n",
          "1:1: [warning: notion-not-used] seen `elastic` bought, but used in no step in size 80 with band "
          "two; expected a step that says `uses:` of each notion; add `uses: elastic` to the step that uses it, or "
          "narrow its `when:`"),
    guide("a word that says nothing", "word-unresolved", "## Sew\n\nCut {cut elastic}.\n",
          "1:1: [word-unresolved] seen `{cut elastic}`, which says nothing in size 80 with band none; "
          "expected a word that says something wherever its step is shown; narrow `when:` of the step, or part it in "
          "two"),
    guide("a step without its face", "no-face", "## Sew\nup: right side\n\nSew.\n\n## Press\n\nPress.\n",
          "6:1: [advice: no-face] seen the step “Press” without the face that is up; expected a line `up:`, as other "
          "steps have it; write `up: right side`, `up: wrong side` or what is up in a few words"),
    guide("a technique that the shop does not have", "unknown-technique", "## Sew\ntechnique: pres\n\nSew.\n",
          "1:1: [unknown-technique] seen the technique `pres`; expected one of `press`; did you mean `press`?"),
    Broken(
        name="a technique without its short text",
        code="bad-technique",
        changes={"techniques/press.md": (("short: Set the iron down, do not slide it.\n", ""),)},
        messages=(
            "techniques/press.md:1:1: [bad-technique] seen `# Press a seam`, and 0 lines under it; expected `# ` and a "
            "title, under it `short:` with at most 240 letters, perhaps `drawing:` and `before:`, then the text; write "
            "it as the handbook shows",
        ),
    ),
    Broken(
        name="a side that a choice swaps",
        code="side-written-out",
        changes={
            YAML: (
                ("{carries: [buttonholes]}", "{carries: [{what: buttonholes, when: {band: none}}]}"),
                ("{carries: [buttons]}", "{carries: [buttons, {what: buttonholes, when: {band: two}}]}"),
            ),
            STEPS: (("Sew front to back.", "The holes go into the wearer's left front, right sides together."),),
        },
        messages=(
            "patterns/plain/steps.md:5:1: [advice: side-written-out] seen “wearer's left” written out, though a choice "
            "swaps the sides; expected a word in braces that follows the choice; write `{side PIECE THING}`, `{other "
            "PIECE THING}` or `{seen PIECE THING}`",
        ),
    ),
)  # fmt: skip
