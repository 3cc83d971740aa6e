"""What can be wrong: exceptions as one tree, and problems that say where, what was seen, expected, and how to mend.

A problem is a sentence for a designer, not for a programmer. `CODES` lists every kind of problem that a reader or a
check can name; the handbook page `errors.md` shows the same list, and a test compares the two.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final, Literal

Severity = Literal["error", "warning", "advice"]

FIRST_WORDS: Final[dict[Severity, str]] = {"error": "Error", "warning": "Warning", "advice": "Advice"}
"""What a line begins with, so that what has to be mended is told from what may stay."""

PURCHASE_STEP_MM: Final = 50
"""Cloth is bought in steps of five centimetres. Common practice."""

CODES: Final[dict[str, str]] = {
    # files
    "missing-file": "A file or folder that has to be there is not there.",
    "unsafe-path": "A name leads out of the data folder, by dots, slashes or a link.",
    "too-large": "A file is larger than anything the reader expects.",
    "too-deep": "Brackets or elements lie in each other deeper than anything the format has.",
    "too-many-problems": "There are more problems than anybody reads; the rest is not listed.",
    "not-utf-8": "A file is text, but not UTF-8.",
    "binary": "A file that has to be text is something else.",
    "wrong-file": "A photograph or download is not the kind of file that its name says.",
    "bad-name": "A name is not made of lower-case words joined by hyphens.",
    # pattern.yaml as text
    "syntax": "The text can't be taken apart: a bracket, quote, indent or tag is wrong.",
    "duplicate-key": "The same key stands twice in one mapping; only one can be meant.",
    "unknown-key": "A key that the format does not have.",
    "missing-key": "A key that has to be there is not there.",
    "wrong-type": "A number where text belongs, or the like.",
    "wrong-value": "A value of the right type that makes no sense there.",
    # names that lead nowhere
    "unknown-size": "A size that the pattern, or its body chart, does not have.",
    "unknown-choice": "A condition asks about a choice that does not exist.",
    "unknown-alternative": "A choice does not have this alternative.",
    "unknown-cloth": "A cloth that is not under `cloths`.",
    "unknown-role": "A role that is not under `roles`.",
    "unknown-piece": "A piece that is not under `pieces`.",
    "unknown-edge": "An edge that the piece does not have.",
    "unknown-point": "A named point that the outlines do not have.",
    "unknown-line": "An interior line that the outlines do not have.",
    "unknown-area": "An interior area that the outlines do not have.",
    "unknown-copy": "A copy, or something that a copy carries, that no piece has.",
    "unknown-measurement": "A finished measurement that is not under `measurements`.",
    "unknown-notion": "A notion that is not under `notions`.",
    "unknown-seam": "A seam that is not under `seams`.",
    "unknown-body-column": "A body measurement that the body chart does not have.",
    # choices and rules
    "circular-question": "Whether a choice is asked depends, in a circle, on itself.",
    "too-many-combinations": "The choices and rules hang together in more ways than can be looked through.",
    "nothing-allowed": "The rules forbid every combination in a size.",
    "default-forbidden": "The combination that is chosen to begin with is forbidden.",
    "never-possible": "An alternative that no size and no combination allows.",
    "changes-nothing": "An alternative does the same as another one: nothing in the pattern tells them apart.",
    "plans-alike": "Two cloth plans do not exclude each other, so both would be the one that is chosen.",
    "plan-impossible": "A cloth plan that no size and no combination allows, or a choice never asked with it.",
    "plan-moves-nothing": "A choice of a cloth plan that decides nothing about which cloth a piece is cut from.",
    "role-not-single": "In an allowed combination a role is played by no piece or by several.",
    "steps-only-used": "Something besides the steps depends on a choice that only changes steps.",
    # pieces.svg
    "bad-svg": "The drawing can't be taken apart as SVG.",
    "entity-or-dtd": "The drawing has a DOCTYPE or entities, which are never read.",
    "no-units": "The drawing does not say how large it is in mm, cm or in.",
    "not-to-scale": "Width, height and viewBox of the drawing contradict each other.",
    "not-followed": "A construct of SVG that the reader does not follow.",
    "bad-shape": "An element is not the shape that its id promises, or its numbers are wrong.",
    "duplicate-id": "Two elements of the drawing have the same id.",
    "size-missing": "An outline, point, line or area is missing in some sizes.",
    "several-outlines": "One outline was expected, several were drawn.",
    "not-closed": "An outline or area is open.",
    "self-crossing": "An outline or area crosses or touches itself.",
    "point-off-edge": "A point that ends a stretch of an edge does not lie on that edge.",
    "point-off-outline": "A point that begins or ends an edge does not lie on the outline.",
    "edge-order": "The edges do not follow each other round the piece.",
    "shrinking-grading": "A piece or finished measurement gets smaller from one size to the next.",
    "ease-off": "A finished measurement has more or less ease over the body than the pattern says.",
    "edge-without-length": "Two edges begin at the same place.",
    "cut-off-misses": "A cut-off line does not part the piece in two.",
    # how pieces are cut
    "fold-not-straight": "An edge on the fold is not straight, or the piece lies on both sides of it.",
    "fold-off-grain": "An edge on the fold does not run along the grain, so its piece is cut whole, unfolded.",
    "stretch-off-grain": "On a knit the greatest stretch of a piece would run another way than the pattern says.",
    "fold-with-allowance": "An edge on the fold has an allowance.",
    "no-allowance": "An edge has no allowance, neither its own nor the pattern's.",
    "odd-pair": "A mirrored pair with an odd count.",
    "varying-allowance": "An allowance varies on a piece that is drawn with its cutting line.",
    "too-wide": "A piece is wider than every cloth it is to be cut from.",
    # how pieces go together
    "seam-lengths": "Edges that are sewn together differ by more than the ease or gathers that are meant.",
    "broken-chain": "Edges in a row do not follow on from each other on the sewn garment.",
    "not-measurable": "A piece, seam or length can't be worked out as the pattern says.",
    "too-many-pairs": "More pairs of sizes are to share a length of cloth than can be laid in reasonable time.",
    "covering-dear": "Pieces that share a lay with larger sets cost the buyer more cloth than one purchase step.",
    # closures
    "no-room-for-closures": "Buttons or snaps can't be placed: the line is too short, or seams are in the way.",
    "closures-moved": "Buttons or snaps are placed otherwise than wished, to keep clear of a seam.",
    "closure-not-backed": "Snaps sit where a piece under them, or under their other halves, is not interfaced.",
    "narrow-overlap": "An edge laps less than three quarters of the diameter beyond the line of its closures.",
    # what is pulled on, and elastic
    "too-tight-to-pull-on": "A neck or a waist does not open far enough for the head or the hip.",
    "channel-too-narrow": "A channel into which its elastic does not go.",
    "channel-narrow": "A channel in which its elastic has little room.",
    "elastic-not-for-all": "An elastic that is slack on the slimmest children of a size, or presses the sturdiest.",
    "elastic-does-not-fit": "An elastic that does not pass what it is pulled over, or does not hold.",
    "tabled-elastic-off": "A tabled length of elastic that is far from what its rule gives.",
    # steps.md and the body chart
    "bad-step": "A step has no title, or there is no step at all.",
    "unknown-word": "A word in braces that no guide has, or that says nothing of what it names.",
    "word-unresolved": "A word in braces says nothing with some of the choices that show its step.",
    "step-never-shown": "No allowed combination has a step.",
    "piece-not-sewn": "A piece is cut that no step sews.",
    "sewn-not-cut": "A step sews a piece that is not cut with some of the choices that show it.",
    "notion-not-used": "A notion is bought that no step uses.",
    "side-written-out": "A step writes left or right out, though a choice swaps the sides.",
    "no-face": "A step does not say which face is up, though others do.",
    "unknown-technique": "A step names a technique that the shop does not have.",
    "bad-technique": "A technique has no title, no short text, or no text.",
    "bad-chart": "The body chart has a wrong header, a wrong row or a wrong number.",
    # across the shop
    "no-patterns": "There is no pattern at all.",
}
"""Code to what it means, in one line."""


@dataclass(frozen=True, kw_only=True)
class Problem:
    """One problem at one place. `line` and `column` count from 1; `path` is as the reader was given it."""

    code: str
    path: str
    line: int
    column: int
    seen: str
    expected: str
    mend: str
    severity: Severity = "error"

    def __post_init__(self) -> None:
        if self.code not in CODES:
            raise ValueError(f"{self.code!r} is not listed in CODES")

    def __str__(self) -> str:
        kind = self.code if self.severity == "error" else f"{self.severity}: {self.code}"
        return (
            f"{self.path}:{self.line}:{self.column}: [{kind}] seen {self.seen}; expected {self.expected}; {self.mend}"
        )

    @property
    def told(self) -> str:
        """The problem with its severity as first word, as `boltside check` prints it."""
        return f"{FIRST_WORDS[self.severity]}: {self}"


def in_order(problems: Iterable[Problem]) -> tuple[Problem, ...]:
    """The problems, each once, sorted by file, line, column, code."""
    return tuple(sorted(dict.fromkeys(problems), key=lambda one: (one.path, one.line, one.column, one.code, str(one))))


def covering_dear(
    *, path: str, pattern: str, cloth: str, size: str, cost_mm: float, line: int = 1, column: int = 1
) -> Problem:
    """The warning that pieces are told the length of a lay that also holds pieces the buyer does not need.

    Arguments: the file and place to name (the pattern.yaml); the pattern's folder; the cloth and the size in which it
    is dearest; by how many mm the length told may exceed what the pieces would need alone.
    """
    return Problem(
        code="covering-dear",
        path=path,
        line=line,
        column=column,
        seen=f"pieces of `{cloth}` in size {size} that may be told {cost_mm:.0f} mm more than they need",
        expected=f"at most {PURCHASE_STEP_MM} mm, one purchase step",
        mend=f"run `boltside lay {pattern}`, so that smaller sets get lays of their own",
        severity="warning",
    )


class BoltsideError(Exception):
    """Everything that Boltside itself raises; its text can be shown to the designer as it is."""


class ProblemsFound(BoltsideError):
    """The pattern data has problems; all of them are in `problems`, sorted by place."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems = in_order(problems)
        super().__init__("\n".join(str(problem) for problem in self.problems))
