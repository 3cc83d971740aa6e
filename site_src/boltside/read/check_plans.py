"""Do the cloth plans name choices that move pieces between cloths, exclude each other, and can each be had?"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import combinations

from boltside.calculators.choices import decisive
from boltside.calculators.conditions import holds
from boltside.calculators.plan_choices import is_had
from boltside.pattern import Condition
from boltside.read import document as doc
from boltside.read.book import Book
from boltside.read.collect import listed, meant, quoted
from boltside.read.combinations import condition, told

PLANS = "cloth_plans"

Entry = tuple[str, str, Sequence[Condition]]
"""A piece, a cloth, and the conditions that must all hold for the piece to be cut from it."""


def check_plans(book: Book) -> None:
    """Note plans that lead nowhere, say too little, are alike or can't be had, and choices that move no piece.

    Asked only while all conditions hold water. Raises: `TooManyCombinations`.
    """
    plans = book.document.cloth_plans
    unknown = [name for name, plan in plans.items() if not _names(book, name, plan)]
    if not plans or unknown:
        return
    if not book.checked.whole(PLANS) or not _say_enough(book, plans) or not _exclude_each_other(book, plans):
        return
    if book.checked.whole("pieces") and book.checked.whole("roles"):
        _move_pieces(book, plans)


def _names(book: Book, name: str, plan: doc.ClothPlanDoc) -> bool:
    """Note choices and alternatives that do not exist; True when all are known."""
    choices = book.document.choices
    fine = True
    for choice, words in plan.choices.items():
        here = (PLANS, name, "choices", choice)
        if choice not in choices:
            fine = False
            book.note(
                "unknown-choice",
                here,
                seen=f"the choice {quoted(choice)}",
                expected=f"one of {listed(choices)}",
                mend=meant(choice, choices, "correct the name"),
                key=True,
            )
            continue
        for at, word in enumerate(words):
            if word not in choices[choice].alternatives:
                fine = False
                known = choices[choice].alternatives
                book.note_unknown("unknown-alternative", (*here, at), word, known, "alternative", choice)
    return fine


def _say_enough(book: Book, plans: Mapping[str, doc.ClothPlanDoc]) -> bool:
    """Note plans that can't be had, choices never asked with them, and choices that only the other plans name."""
    named = list(dict.fromkeys(choice for plan in plans.values() for choice in plan.choices))
    had: set[str] = set()
    asked: set[tuple[str, str]] = set()
    unsaid: dict[tuple[str, str], str] = {}
    for size in book.document.sizes:
        for chosen in book.combinations.over(named, size):
            for name, plan in plans.items():
                if not is_had(plan.choices, chosen):
                    continue
                had.add(name)
                asked |= {(name, choice) for choice in plan.choices if choice in chosen}
                for choice in named:
                    if choice in chosen and choice not in plan.choices:
                        unsaid.setdefault((name, choice), told(chosen))
    fine = True
    for name, plan in plans.items():
        never = [choice for choice in plan.choices if (name, choice) not in asked]
        if name not in had:
            fine = False
            book.note(
                "plan-impossible",
                (PLANS, name),
                seen=f"the plan {quoted(name)}, which no size and no combination allows",
                expected="choices that can be had together",
                mend="change the plan, or a rule",
                key=True,
            )
            continue
        for choice in never:
            fine = False
            book.note(
                "plan-impossible",
                (PLANS, name, "choices", choice),
                seen=f"{quoted(choice)}, which is never asked with the rest of the plan",
                expected="choices that are asked together",
                mend="delete it from this plan, or change the others",
                key=True,
            )
    for (name, choice), where in unsaid.items():
        fine = False
        book.note(
            "missing-key",
            (PLANS, name, "choices"),
            seen=f"no {quoted(choice)} in the plan, though it is asked with {where}",
            expected=f"the key {quoted(choice)}, for another plan names it",
            mend=f"add `{choice}:` with one of {listed(book.document.choices[choice].alternatives)}",
            key=True,
        )
    return fine


def _exclude_each_other(book: Book, plans: Mapping[str, doc.ClothPlanDoc]) -> bool:
    """Note plans that no choice tells apart."""
    fine = True
    for one, other in combinations(plans, 2):
        mine, theirs = plans[one].choices, plans[other].choices
        if all(set(mine[choice]) & set(theirs[choice]) for choice in mine if choice in theirs):
            fine = False
            book.note(
                "plans-alike",
                (PLANS, other),
                seen=f"the plan {quoted(other)}, which can be the chosen one together with {quoted(one)}",
                expected="a choice of which no word stands in both",
                mend="change one of them, or delete it",
                key=True,
            )
    return fine


def _move_pieces(book: Book, plans: Mapping[str, doc.ClothPlanDoc]) -> None:
    """Advise on choices that never move a piece from one cloth to another, nor add one from a cloth of its own."""
    entries = list(_entries(book))
    pieces = book.document.pieces
    # A role is always played, so what stands under it is always cut.
    always = {one.cloth for name, _, one in book.cut_entries() if one.when is None and pieces[name].when is None}
    told_of: set[str] = set()
    for name, plan in plans.items():
        for choice in plan.choices:
            if choice in told_of or _moves(book, choice, entries, always):
                continue
            told_of.add(choice)
            book.note(
                "plan-moves-nothing",
                (PLANS, name, "choices", choice),
                seen=f"{quoted(choice)}, which moves no piece from one cloth to another",
                expected="a choice that decides from which cloth a piece is cut",
                mend="delete it from the plans; it stays a choice of its own",
                key=True,
                severity="advice",
            )


def _entries(book: Book) -> Iterator[Entry]:
    for name, piece in book.pieces.items():
        own = condition(piece.when)
        for source, part in book.sources(name):
            plays: list[Condition] = [()]
            if source != name:
                role = source.removeprefix("as:")
                plays = [condition(play.when) for play in book.document.roles[role] if play.piece == name]
            for play in plays:
                for entry in part.cut:
                    yield name, entry.cloth, (own, play, condition(entry.when))


def _moves(book: Book, choice: str, entries: Sequence[Entry], always: set[str]) -> bool:
    """Whether two alternatives of the choice, all else alike, cut some piece from other cloths, or use other cloths."""
    for piece in dict.fromkeys(piece for piece, _, _ in entries):
        of_piece = [(cloth, whens) for name, cloth, whens in entries if name == piece]
        names = decisive(book.combinations.choices, [when for _, whens in of_piece for when in whens])
        if choice not in names:
            continue
        for size in book.document.sizes:
            seen: dict[tuple[tuple[str, str], ...], set[frozenset[str]]] = {}
            for chosen in book.combinations.over(names, size):
                cut = frozenset(cloth for cloth, whens in of_piece if all(holds(when, chosen) for when in whens))
                rest = tuple(sorted((one, word) for one, word in chosen.items() if one != choice))
                seen.setdefault(rest, set()).add(cut)
            for ways in seen.values():
                used = [way for way in ways if way]
                if len(used) > 1 or (len(ways) > 1 and any(not way <= always for way in used)):
                    return True
    return False
