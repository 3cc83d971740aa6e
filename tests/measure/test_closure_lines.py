"""Lines with closures, and the rows on them: the fixture garment on paper, the shop's own patterns by law."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path

import pytest
from cases.real_sheets import pattern, pattern_names

from boltside.calculators.conditions import holds, names_in_all
from boltside.measure.closure_cases import PlacedRow, placed_cases, wish_of
from boltside.measure.closure_lines import closure_line
from boltside.measure.closure_places import Places, reach_of
from boltside.measure.combinations import combinations
from boltside.measure.garment import make_garment
from boltside.pattern import Notion, Pattern
from boltside.read.folder import read_pattern

DATA = Path(__file__).parents[1] / "garment" / "data"


@pytest.fixture(scope="module")
def oblong() -> Pattern:
    """The fixture garment."""
    return read_pattern(DATA / "patterns" / "oblong", DATA / "body_charts")


def notion(own: Pattern, name: str) -> Notion:
    """One of its notions."""
    return next(one for one in own.notions if one.name == name)


def row(own: Pattern, name: str, size: str, **chosen: str) -> PlacedRow:
    """The row of a notion with these choices."""
    return next(case.by_size[size] for case in placed_cases(own, notion(own, name))
                if size in case.by_size and holds(case.when, {**chosen, "size": size}))  # fmt: skip


@pytest.mark.parametrize(("size", "line", "count"), [("80", 140, 4), ("92", 180, 5), ("104", 220, 5)])
def test_buttons_along_the_line_of_the_oblong(oblong: Pattern, size: str, line: int, count: int) -> None:
    # Upper end first. The named point lies 10 mm down (the line ends at 70 + its length, the point at the side's
    # height, 200, 240, 280), so nothing may sit above 10 + 6.5 + 5 = 21.5; the last is wished 20 above the lower end,
    # and a hole along it with bars and clearance asks for 15.5 - 3 + 2 + 5 = 19.5.
    found = row(oblong, "closure", size, opening="front", length="hip")
    assert found.length_mm == line and found.crossings_mm == (10,) and found.edge_mm == 10
    gap = (line - 20 - 21.5) / (count - 1)
    assert found.places.mm == pytest.approx([21.5 + at * gap for at in range(count)], abs=0.051)
    assert found.places == Places(mm=found.places.mm, first_moved=True)
    # To the waist 12 is wished, which is too near.
    found = row(oblong, "closure", size, opening="front", length="waist")
    assert found.places.mm[-1] == pytest.approx(line - 19.5) and found.places.last_moved


def test_the_edge_is_on_the_side_on_which_the_wearer_has_it(oblong: Pattern) -> None:
    # Front drawn to the right of the centre line is the wearer's left half, whose edge is then on the left; the same
    # half drawn for the back is her right half (the pattern says so), with the edge on the left as well.
    front = row(oblong, "closure", "92", opening="front", length="hip")
    assert dict(front.edge_right) == {"wearers-left": False, "wearers-right": True}
    back = row(oblong, "closure", "92", opening="back", length="hip")
    assert dict(back.edge_right) == {"wearers-left": True, "wearers-right": False}


def test_snaps_along_part_of_an_edge_by_their_space(oblong: Pattern) -> None:
    # 0.9 of 110 mm: 99, from 15 to 87; 72 / 30 is 2.4, so two spaces of 36 (three would be 24).
    found = row(oblong, "frill-snaps", "92", length="waist")
    assert (found.length_mm, found.places.mm, found.edge_mm) == (99, (15, 51, 87), None)


def test_the_band_below_the_front_crosses_the_line() -> None:
    # The line goes on from the front to half of the band, 35 mm of it; its middle is the last place.
    own = pattern("ferrylight")
    found = row(own, "buttons", "92", closure="buttons", length="waist")
    assert found.crossings_mm == (pytest.approx(found.length_mm - 35, abs=0.1),)
    assert found.places.mm[-1] == pytest.approx(found.length_mm - 17.5, abs=0.1)


def rows(name: str) -> Iterator[tuple[Pattern, Notion, str, dict[str, str], PlacedRow]]:
    """Every row of a pattern in every set of choices that decides about it."""
    own = pattern(name)
    for one in own.notions:
        if one.placed is not None:
            cases = placed_cases(own, one)
            names = names_in_all([one.when, *(case.when for case in cases)])
            for size in own.sizes:
                for chosen in combinations(own, names, size):
                    asked = {**chosen, "size": size}
                    if holds(one.when, asked):
                        found = [case.by_size[size] for case in cases if holds(case.when, asked)]
                        assert len(found) == 1, (one.name, asked)
                        yield own, one, size, asked, found[0]


@pytest.mark.parametrize("name", pattern_names())
def test_laws_of_the_shops_own_rows(name: str) -> None:
    for own, one, size, asked, found in rows(name):
        assert one.placed is not None
        pieces = [part.piece for part in one.placed.along]
        chosen = next(full for full in combinations(own, [choice.name for choice in own.choices], size)
                      if all(full.get(key, word) == word for key, word in asked.items() if key != "size"))  # fmt: skip
        garment = make_garment(own, size, chosen)
        line = closure_line(garment, one.placed, [])
        assert line.length_mm == pytest.approx(found.length_mm, abs=0.06), (one.name, size, pieces)
        reach = reach_of(one.kinds, one.diameter_mm or 0, one.thickness_mm or 0, one.placed.holes)
        clear = 5 if one.placed.clear_mm is None else one.placed.clear_mm
        for at in found.places.mm:
            for seam in (0.0, found.length_mm, *found.crossings_mm):
                assert at + reach.down_mm + clear <= seam + 0.11 or at - reach.up_mm - clear >= seam - 0.11, (size, at)
        spaces = [b - a for a, b in pairwise(found.places.mm)]
        if found.places.equal and spaces:
            assert max(spaces) - min(spaces) <= 0.21
        wish = wish_of(one, one.placed, line, size, {**chosen, "size": size})
        if not found.places.first_moved:
            assert found.places.mm[0] == pytest.approx(wish.first_mm, abs=0.06)
        if not found.places.last_moved:
            assert found.length_mm - found.places.mm[-1] == pytest.approx(wish.last_mm, abs=0.12)
        if wish.count is not None:
            assert len(found.places.mm) == wish.count
