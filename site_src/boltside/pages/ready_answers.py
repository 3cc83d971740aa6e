"""Which files answer every listed choice of a pattern before Python has come?

For each size two: one for what is seen first, one for reasons that open by a tap and what stands far below; and two
like them for what does not depend on the size. They hold every fragment of the panel as slots (:mod:`.ready_form`), and
for each slot a way from what was chosen to its piece, so that the page's script only looks up and joins; the joined
text is, byte for byte, what the calculators' door would say.

    {"names": [[choice, values]], "order": [ids],                 only in the first file of all sizes
     "texts": [text], "ways": [[0, piece of text 0, of text 1, …] | [1, tree]],
     "fragments": {id: {"waits": [names], "text": way, "slots": [text | its place | [way, [pieces]]]}}}

A tree is a number, or [choice, tree of its value 0, of value 1, …], the choice as a place in `names`. What a fragment
`waits` for has to be as the page comes; else it is answered once Python has come.
"""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Mapping, Sequence
from typing import Any

from boltside.pages.ready_cases import Case, PartCases, all_cases, listed_words
from boltside.pages.ready_form import Slot, slots_of

Sheet = Mapping[str, Any]


class _Node:
    """A choice by its place among all names, and a tree for each of its values; alike ones are one and the same."""

    __slots__ = ("branches", "place")

    def __init__(self, place: int, branches: tuple[Tree, ...]) -> None:
        self.place, self.branches = place, branches

    def as_json(self) -> list[Any]:
        """As it stands in a file."""
        return [self.place, *(one.as_json() if isinstance(one, _Node) else one for one in self.branches)]


Tree = _Node | int
Key = tuple[str | None, bool]
ALL_SIZES = None
"""Stands for a size in the keys of what does not depend on it."""
LATER = ("why.", "cutting-list", "guide.", "pull-on.", "elastic.", "gathers.", "thread.")
"""What begins so opens by a tap or stands far below, so it has files of its own, which are fetched after the others."""


def ready_answers(sheet: Sheet, sizes: Sequence[str | None]) -> dict[Key, str]:
    """The files' texts by size and by whether they come later.

    Arguments: the sheet; the sizes that are wanted, :data:`ALL_SIZES` among them for what does not depend on the size.
    """
    words = listed_words(sheet)
    files = {(size, later): _File(words) for size in sizes for later in (False, True)}
    order: list[str] = []
    for ids, by_size in all_cases(sheet, sizes):
        for size, part in by_size.items():
            for at, name in enumerate(ids):
                files[size, name.startswith(LATER)].add(part, at)
        order += ids
    texts = {key: file.as_json() for key, file in files.items()}
    if ALL_SIZES in sizes:
        heading = {"names": [[name, values] for name, values in words.items()], "order": order}
        texts[ALL_SIZES, False] = {**heading, **texts[ALL_SIZES, False]}
    return {key: json.dumps(text, ensure_ascii=False, separators=(",", ":")) for key, text in texts.items()}


class _File:
    """One file while it is put together."""

    def __init__(self, words: Mapping[str, Sequence[str]]) -> None:
        self._words = words
        self._places = {name: at for at, name in enumerate(words)}
        self._nodes: dict[tuple[Any, ...], _Node] = {}
        self._ways: dict[str, int] = {}
        self._fragments: dict[str, dict[str, Any]] = {}

    def as_json(self) -> dict[str, Any]:
        """The file's content; what stands in several slots stands once among the `texts`."""
        seen = Counter(slot for one in self._fragments.values() for slot in one["slots"] if isinstance(slot, str))
        shared = {text: at for at, text in enumerate(text for text, count in seen.items() if count > 1)}
        for fragment in self._fragments.values():
            fragment["slots"] = [
                shared.get(slot, slot) if isinstance(slot, str) else slot for slot in fragment["slots"]
            ]
        ways = [json.loads(way) for way in self._ways]
        return {"texts": list(shared), "ways": ways, "fragments": self._fragments}

    def add(self, part: PartCases, at: int) -> None:
        """Add the fragment of a part at this place."""
        number: dict[str, int] = {}
        of_case = {case: number.setdefault(texts[at], len(number)) for case, texts in part.cases.items()}
        tree = self._tree(part.names, of_case)
        slots = [self._slot(slot, tree) for slot in slots_of(list(number))]
        made: dict[str, Any] = {"waits": list(part.waits)} if part.waits else {}
        if len(number) > 1:
            made["text"] = self._way(_written(1, tree))
        self._fragments[part.ids[at]] = {**made, "slots": slots}

    def _slot(self, slot: Slot, tree: Tree) -> Any:
        if len(slot.pieces) == 1:
            return slot.pieces[0]
        by_text = _written(0, slot.which)
        by_choice = _written(1, self._mapped(tree, slot.which, {}))
        return [self._way(min(by_choice, by_text, key=len)), list(slot.pieces)]

    def _way(self, text: str) -> int:
        return self._ways.setdefault(text, len(self._ways))

    def _tree(self, names: Case, of_case: Mapping[Case, int]) -> Tree:
        """The tree from the values of the names to the number of the text."""

        def grow(at: int, cases: Mapping[Case, int]) -> Tree:
            if at == len(names):
                (number,) = cases.values()
                return number
            values = self._words[names[at]]
            by_value: dict[str, dict[Case, int]] = {}
            for case, number in cases.items():
                by_value.setdefault(case[at], {})[case] = number
            if set(by_value) != set(values):
                return grow(at + 1, cases)  # not asked for what else is chosen
            return self._branched(self._places[names[at]], [grow(at + 1, by_value[value]) for value in values])

        return grow(0, of_case)

    def _branched(self, place: int, branches: Sequence[Tree]) -> Tree:
        """A choice between trees; none where it makes no difference."""
        if all(branch == branches[0] for branch in branches):
            return branches[0]
        return self._nodes.setdefault((place, *branches), _Node(place, tuple(branches)))

    def _mapped(self, tree: Tree, numbers: Sequence[int], known: dict[_Node, Tree]) -> Tree:
        """The tree with other numbers at its ends, and without choices that then make no difference."""
        if isinstance(tree, int):
            return numbers[tree]
        if tree not in known:
            branches = [self._mapped(branch, numbers, known) for branch in tree.branches]
            known[tree] = self._branched(tree.place, branches)
        return known[tree]


def _written(kind: int, content: Tree | Sequence[int]) -> str:
    """A way as it stands in a file: 0 and the piece of each text, or 1 and a tree."""
    way = [1, content.as_json() if isinstance(content, _Node) else content] if kind else [0, *_listed(content)]
    return json.dumps(way, separators=(",", ":"))


def _listed(content: Tree | Sequence[int]) -> Sequence[int]:
    assert isinstance(content, tuple)
    return content
