"""Laws that every published length of two garments obeys, in every set of every listed pair of the shop."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise, product
from typing import Any

import pytest
from test_laws import length_mm, names, published


def tables(name: str) -> Iterator[tuple[str, str, str, dict[str, Any]]]:
    """Cloth, way, nap, and the steps of every set by size and pair."""
    for cloth, ways in published()[name].sheet["lays"].items():
        for way, naps in ways.items():
            for nap, by_size in naps.items():
                if any("+" in key for key in by_size):
                    yield cloth, way, nap, by_size


def pairs_of(sheet: dict[str, Any]) -> list[list[str]]:
    return list(sheet["together"])


@pytest.mark.parametrize("name", names())
def test_between_one_garment_alone_and_both_behind_each_other(name: str) -> None:
    sheet = published()[name].sheet
    compared = 0
    for cloth, _, _, by_size in tables(name):
        widths = next(one["widths_mm"] for one in sheet["cloths"] if one["name"] == cloth)
        for pair, width in product(pairs_of(sheet), widths):
            for at, steps in enumerate(by_size["+".join(pair)]):
                both = length_mm(steps, width)
                if both is None:
                    continue
                one, other = (length_mm(by_size[size][at], width) for size in pair)
                assert one is not None and other is not None
                assert max(one, other) <= both <= one + other, (cloth, pair, width, at)
                compared += 1
    assert compared > 50 or not pairs_of(sheet)


@pytest.mark.parametrize("name", names())
def test_wider_never_more_larger_pairs_and_sets_and_nap_never_less(name: str) -> None:
    sheet = published()[name].sheet
    order = sheet["sizes"].index
    for cloth, way, nap, by_size in tables(name):
        widths = next(one["widths_mm"] for one in sheet["cloths"] if one["name"] == cloth)
        sets = [frozenset(members) for members in sheet["sets"][cloth]]
        for pair in pairs_of(sheet):
            rows = by_size["+".join(pair)]
            assert len(rows) == len(sets)
            for steps in rows:
                assert all(narrow[0] < wide[0] and narrow[1] > wide[1] for narrow, wide in pairwise(steps))
            for width, (at, ids) in product(widths, enumerate(sets)):
                here = length_mm(rows[at], width)
                if here is None:
                    continue
                for other, more in enumerate(sets):
                    if ids < more:
                        assert (length_mm(rows[other], width) or here) >= here
                for larger in pairs_of(sheet):
                    if order(larger[0]) >= order(pair[0]) and order(larger[1]) >= order(pair[1]):
                        assert (length_mm(by_size["+".join(larger)][at], width) or here) >= here
                lays = sheet["lays"][cloth]
                if nap == "with" and "without" in lays[way]:
                    assert (length_mm(lays[way]["without"]["+".join(pair)][at], width) or here) <= here
                if way == "folded" and "flat" in lays:
                    assert (length_mm(lays["flat"][nap]["+".join(pair)][at], width) or here) <= here
