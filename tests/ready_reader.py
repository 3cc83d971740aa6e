"""Looks up ready answers as the page's script does, to hold them to the calculators' door."""

from __future__ import annotations

import json
from collections.abc import Collection, Mapping
from typing import Any

from boltside.pages.ready_answers import ALL_SIZES, Key


class Ready:
    """The opened files of a pattern."""

    def __init__(self, files: Mapping[Key, str]) -> None:
        """Argument: the files' texts by size and by whether they come later."""
        self._opened = {key: json.loads(text) for key, text in files.items()}
        common = self._opened[ALL_SIZES, False]
        self._names, self._order = common["names"], common["order"]

    def look_up(self, size: str, chosen: Mapping[str, str], typed: Collection[str] = ()) -> dict[str, str]:
        """The text of every fragment, in order; "" for one that waits.

        Arguments: the size; the value of each listed choice that is not the usual one, by the name under which
        fragments depend on it; the names of what else is not as the page comes.
        """
        values = [words.index(chosen[name]) for name, words in self._names]
        files = [self._opened[of, later] for of in (ALL_SIZES, size) for later in (False, True)]
        found = {}
        for name in self._order:
            (file,) = [one for one in files if name in one["fragments"]]
            fragment = file["fragments"][name]
            found[name] = "" if {*typed} & {*fragment.get("waits", ())} else _text(file, fragment, values)
        return found


def _text(file: Any, fragment: Any, values: list[int]) -> str:
    number = _end(file["ways"][fragment["text"]][1], values) if "text" in fragment else 0
    made = []
    for slot in fragment["slots"]:
        if isinstance(slot, str):
            made.append(slot)
        elif isinstance(slot, int):
            made.append(file["texts"][slot])
        else:
            kind, *way = file["ways"][slot[0]]
            made.append(slot[1][_end(way[0], values) if kind else way[number]])
    return "".join(made)


def _end(tree: Any, values: list[int]) -> int:
    while not isinstance(tree, int):
        tree = tree[1 + values[tree[0]]]
    return tree
