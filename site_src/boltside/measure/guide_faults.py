"""Does the guide fit the garment, in every size and combination? Steps, pieces, notions and words against each other.

Each question is gone through over its own few choices: those of the step, and of what it names.
What a guide does not say (no step says what it sews) is not held against it.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from boltside.calculators.conditions import names_in_all
from boltside.errors import Severity
from boltside.measure.conditions import holds, with_size
from boltside.measure.cutting_list import choices_of_piece, occurring
from boltside.measure.finding import told
from boltside.measure.word_cases import BOUGHT, word_cases
from boltside.pattern import WORD_MARKS, ChoiceSet, Condition, Notion, Pattern, Piece, Step, StepWord

AS: Final = "as:"
WORD: Final = re.compile(f"[{chr(WORD_MARKS)}-\uf8ff]")
SIDE: Final = re.compile(
    r"\b(?:wearer's|wearer’s|your|the child's|on the|to the) (?:left|right)\b(?! sides?\b)|"
    r"\b(?:left|right) (?:front|back|half|sleeve|leg|shoulder|edge)\b",
    re.IGNORECASE,
)
"""A side written out; `right side` is a face, and `left open` no side at all."""

ALWAYS_USED: Final = ("thread",)
"""Kinds of notions that every step uses."""


@dataclass(frozen=True, kw_only=True)
class GuideFault:
    """One thing that is wrong with a guide, at a step, or (None) at the guide as a whole."""

    code: str
    step: Step | None
    seen: str
    expected: str
    mend: str
    severity: Severity = "warning"


def guide_faults(pattern: Pattern) -> list[GuideFault]:
    """All that does not fit. Raises: :class:`boltside.measure.model.MeasureError`."""
    found = [fault for step in pattern.steps for fault in _of_step(pattern, step)]
    if any(step.sews for step in pattern.steps):
        found += [fault for piece in pattern.pieces for fault in _not_sewn(pattern, piece)]
    if any(step.uses for step in pattern.steps):
        found += [fault for notion in pattern.notions for fault in _not_used(pattern, notion)]
    return found


def _of_step(pattern: Pattern, step: Step) -> Iterator[GuideFault]:
    if not any(holds(step.when, chosen) for _, chosen in _combinations(pattern, [step.when])):
        yield GuideFault(
            code="step-never-shown",
            step=step,
            seen=f"the step “{step.plain_title}”, which no allowed combination has",
            expected="choices that go together",
            mend="correct `when:`, or delete the step",
        )
        return
    for one in step.sews:
        yield from _nothing_to_sew(pattern, step, one)
    for word in _words_of(pattern, step):
        yield from _unresolved(pattern, step, word)
    if SIDE.search(step.text) and _sides_swap(pattern, step):
        written = SIDE.search(step.text)
        yield GuideFault(
            code="side-written-out",
            step=step,
            seen=f"“{written[0] if written else ''}” written out, though a choice swaps the sides",
            expected="a word in braces that follows the choice",
            mend="write `{side PIECE THING}`, `{other PIECE THING}` or `{seen PIECE THING}`",
            severity="advice",
        )
    if not step.up and any(other.up for other in pattern.steps):
        yield GuideFault(
            code="no-face",
            step=step,
            seen=f"the step “{step.plain_title}” without the face that is up",
            expected="a line `up:`, as other steps have it",
            mend="write `up: right side`, `up: wrong side` or what is up in a few words",
            severity="advice",
        )


def _nothing_to_sew(pattern: Pattern, step: Step, names: Sequence[str]) -> Iterator[GuideFault]:
    pieces = _players(pattern, names)
    conditions = [step.when, *_role_conditions(pattern, names)]
    asks = [name for piece in pieces for name in choices_of_piece(pattern, piece)]
    for size, chosen in _combinations(pattern, conditions, asks):
        if holds(step.when, chosen) and not any(is_cut(pattern, name, chosen) for name in names):
            yield GuideFault(
                code="sewn-not-cut",
                step=step,
                seen=f"{' or '.join(f'`{one}`' for one in names)} sewn but not cut, {told(chosen, size)}",
                expected="pieces that are there whenever the step is shown",
                mend="narrow `when:`, or list what takes its place: `sews: [[one, other]]`",
            )
            return


def _not_sewn(pattern: Pattern, piece: Piece) -> Iterator[GuideFault]:
    sewing = [step for step in pattern.steps if piece in _players(pattern, _sewn(step))]
    names = [one for step in sewing for one in _sewn(step)]
    conditions = [*(step.when for step in sewing), *_role_conditions(pattern, names)]
    for size, chosen in _combinations(pattern, conditions, choices_of_piece(pattern, piece)):
        if is_cut(pattern, piece.name, chosen) and not any(
            holds(step.when, chosen) and any(plays(pattern, one, chosen) == piece.name for one in _sewn(step))
            for step in sewing
        ):
            yield GuideFault(
                code="piece-not-sewn",
                step=None,
                seen=f"`{piece.name}` cut, but sewn in no step {told(chosen, size)}",
                expected="a step that says `sews:` of each piece that is cut",
                mend=f"add `{piece.name}` to the step that sews it on, or a step that does",
            )
            return


def _sewn(step: Step) -> list[str]:
    return [one for names in step.sews for one in names]


def _not_used(pattern: Pattern, notion: Notion) -> Iterator[GuideFault]:
    if set(notion.kinds) <= set(ALWAYS_USED):
        return
    using = [step for step in pattern.steps if any(notion.name in one for one in step.uses)]
    for size, chosen in _combinations(pattern, [notion.when, *(step.when for step in using)]):
        if holds(notion.when, chosen) and not any(holds(step.when, chosen) for step in using):
            yield GuideFault(
                code="notion-not-used",
                step=None,
                seen=f"`{notion.name}` bought, but used in no step {told(chosen, size)}",
                expected="a step that says `uses:` of each notion",
                mend=f"add `uses: {notion.name}` to the step that uses it, or narrow its `when:`",
            )
            return


def _unresolved(pattern: Pattern, step: Step, word: StepWord) -> Iterator[GuideFault]:
    says, asks = _says(pattern, word)
    for size, chosen in _combinations(pattern, [step.when, *asks]):
        if holds(step.when, chosen) and not says(size, chosen):
            yield GuideFault(
                code="word-unresolved",
                step=step,
                seen=f"`{word}`, which says nothing {told(chosen, size)}",
                expected="a word that says something wherever its step is shown",
                mend="narrow `when:` of the step, or part it in two",
                severity="error",
            )
            return


def _says(pattern: Pattern, word: StepWord) -> tuple[Callable[[str, ChoiceSet], bool], list[Condition]]:
    """Whether a word says something in a size and with choices, and the conditions on which that hangs."""
    if word.kind == "mm":
        return lambda size, chosen: True, []
    if word.kind in BOUGHT:
        notion = next(one for one in pattern.notions if one.name == word.of[0])

        def is_bought(size: str, chosen: ChoiceSet) -> bool:
            if word.kind == "count":
                told_of = notion.count is not None or size in notion.tabled_count or notion.placed is not None
            else:
                has_length = notion.rule is not None or size in notion.tabled_mm
                told_of = word.kind not in ("cut", "closed", "quarters") or has_length
            return told_of and holds(notion.when, chosen)

        return is_bought, [notion.when]
    cases = word_cases(pattern, word)
    return (
        lambda size, chosen: any(holds(when, chosen) and size in by_size for when, by_size in cases),
        [when for when, _ in cases],
    )


def _words_of(pattern: Pattern, step: Step) -> list[StepWord]:
    said = WORD.findall(f"{step.title}{step.text}{step.up}")
    return [pattern.words[ord(sign) - WORD_MARKS] for sign in dict.fromkeys(said)]


def _combinations(
    pattern: Pattern, conditions: Sequence[Condition], names: Iterable[str] = ()
) -> Iterator[tuple[str, dict[str, str]]]:
    """Each size and combination of the choices that are asked about, with the size among the choices."""
    for size, combinations in occurring(pattern, sorted({*names_in_all(conditions), *names})).items():
        for one in combinations:
            yield size, with_size(one, size)


def is_cut(pattern: Pattern, name: str, chosen: ChoiceSet) -> bool:
    """Whether a piece (or whatever plays the role `as:…`) is cut from something. Argument: choices with the size."""
    piece = next((one for one in pattern.pieces if one.name == plays(pattern, name, chosen)), None)
    if piece is None or not holds(piece.when, chosen):
        return False
    roles = [role for role in pattern.roles if plays(pattern, AS + role.role, chosen) == piece.name]
    entries = [*piece.cut, *(entry for role in roles for entry in role.cut)]
    return any(holds(entry.when, chosen) for entry in entries)


def plays(pattern: Pattern, name: str, chosen: ChoiceSet) -> str:
    """The piece that is named, or that plays the role."""
    role = next((one for one in pattern.roles if AS + one.role == name), None)
    if role is None:
        return name
    return next((one.piece for one in role.plays if holds(one.when, chosen)), "")


def _role_conditions(pattern: Pattern, names: Iterable[str]) -> list[Condition]:
    return [play.when for role in pattern.roles if AS + role.role in set(names) for play in role.plays]


def _players(pattern: Pattern, names: Iterable[str]) -> list[Piece]:
    wanted = set(names)
    wanted |= {play.piece for role in pattern.roles if AS + role.role in wanted for play in role.plays}
    return [piece for piece in pattern.pieces if piece.name in wanted]


def _sides_swap(pattern: Pattern, step: Step) -> bool:
    """Whether the same thing lies on one side or the other by what is chosen, where the step is shown."""
    copies = [copy for piece in pattern.pieces for copy in piece.copies]
    copies += [copy for role in pattern.roles for copy in role.copies]
    things = [(one.what, copy.name, copy.when, one.when) for copy in copies for one in copy.carries]
    swapping = [one for one in things if len({name for what, name, _, _ in things if what == one[0]}) > 1]
    asked = [condition for _, _, copy, one in swapping for condition in (copy, one)]
    return any(
        holds(step.when, chosen) and any(holds(copy, chosen) and holds(one, chosen) for _, _, copy, one in swapping)
        for _, chosen in _combinations(pattern, [step.when, *asked])
    )
