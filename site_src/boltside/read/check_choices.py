"""Do the rules leave something to choose, also what is chosen to begin with, and one player for each role?"""

from __future__ import annotations

from boltside.calculators.conditions import holds, names_in_all
from boltside.read.book import Book
from boltside.read.collect import listed, quoted
from boltside.read.combinations import condition, told


def check_choices(book: Book) -> None:
    """Note rules that forbid too much, and roles not played by exactly one piece."""
    sizes = [size for size in book.document.sizes if not _nothing_allowed(book, size)]
    forbidden = [size for size in book.document.sizes if size not in sizes]
    if forbidden:
        book.note(
            "nothing-allowed",
            ("rules",),
            seen=f"no combination left in {listed(forbidden)}",
            expected="at least one combination in each size",
            mend="take one of the rules back",
            key=True,
        )
    for at in range(len(book.document.rules)):
        broken = [size for size in sizes if at in book.combinations.broken_by_default(size)]
        if broken:
            book.note(
                "default-forbidden",
                ("rules", at),
                seen=f"the defaults forbidden by this rule in {listed(broken)}",
                expected="defaults that are allowed in each size",
                mend="change a default, or the rule",
            )
    _never_possible(book, sizes)
    for role in book.document.roles:
        _role_is_single(book, role, sizes)


def _nothing_allowed(book: Book, size: str) -> bool:
    return next(book.combinations.over((), size), None) is None


def _never_possible(book: Book, sizes: list[str]) -> None:
    for name, choice in book.document.choices.items():
        possible = {chosen.get(name) for size in sizes for chosen in book.combinations.over((name,), size)}
        for word in choice.alternatives:
            if sizes and word not in possible:
                book.note(
                    "never-possible",
                    ("choices", name, "alternatives", word),
                    seen=f"{quoted(word)} of {quoted(name)} forbidden in every combination and size",
                    expected="an alternative that can be had",
                    mend="delete it, or change a rule",
                    key=True,
                    severity="warning",
                )


def _role_is_single(book: Book, role: str, sizes: list[str]) -> None:
    plays = [(one.piece, condition(one.when)) for one in book.document.roles[role]]
    if not book.checked.whole("roles", role):
        return
    names = names_in_all(when for _, when in plays)
    for size in sizes:
        for chosen in book.combinations.over(names, size):
            players = [piece for piece, when in plays if holds(when, chosen)]
            if len(players) != 1:
                book.note(
                    "role-not-single",
                    ("roles", role),
                    seen=f"{quoted(role)} played by {listed(players) if players else 'no piece'} with {told(chosen)}",
                    expected="exactly one piece in every allowed combination",
                    mend="change the conditions under this role",
                    key=True,
                )
                return
