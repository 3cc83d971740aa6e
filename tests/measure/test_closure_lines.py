"""Lines with closures, and the rows on them: the fixture garment on paper, the shop's own patterns by law."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
from cases.real_sheets import pattern, pattern_names

from boltside.calculators.conditions import holds, names_in_all
from boltside.measure.closure_cases import PlacedRow, placed_cases, placed_or_why, wish_of
from boltside.measure.closure_lines import closure_line, seams_beside
from boltside.measure.closure_places import Places, reach_of
from boltside.measure.combinations import combinations
from boltside.measure.garment import make_garment
from boltside.measure.model import MeasureError
from boltside.pattern import Case, EdgePart, Notion, Pattern, Placed, PlacedAlong, Seam
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


def looked_under(own: Pattern, name: str, size: str, **changed: Any) -> PlacedRow:
    """The row of the closures with an opening in front and no collar, and what is under it."""
    one = notion(own, name)
    assert one.placed is not None
    asked = {"opening": "front", "length": "hip", "collar": "none", "size": size}
    cases = placed_or_why(own, replace(one, placed=replace(one.placed, **changed)))
    found = next(case.by_size[size] for case in cases if size in case.by_size and holds(case.when, asked))
    assert isinstance(found, PlacedRow)
    return found


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
    # The opening strip is interfaced up to 180, 210, 240 (README of the garment), so not under what sits above that.
    strip_top = {"80": 180, "92": 210, "104": 240}[size]
    bare = {at for at in found.places.mm if 70 + line - at > strip_top}
    assert set(looked_under(oblong, "closure", size).bare_mm) == bare == {21.5}
    # To the waist 12 is wished, which is too near.
    found = row(oblong, "closure", size, opening="front", length="waist")
    assert found.places.mm[-1] == pytest.approx(line - 19.5) and found.places.last_moved


def test_other_halves_are_looked_under_as_well(oblong: Pattern) -> None:
    # Without a collar only the copy on the wearer's left is interfaced. The places are 21.5 … 160 mm, 5 of them.
    found = looked_under(oblong, "closure", "92", onto=())
    assert found.other == "the copy `wearers-right`"
    assert found.other_bare_mm == found.places.mm[1:], "the first is bare on both"
    # The other half on a named line: the same one, of which 21.5 alone lies above the interfacing.
    found = looked_under(oblong, "closure", "92")
    assert (found.other, found.other_bare_mm) == ("`front`", found.bare_mm) and found.bare_mm == (21.5,)
    # On a line that ends earlier there is nothing under the last ones: the neck edge is shorter than 160 mm.
    shorter = looked_under(oblong, "closure", "92", onto=(PlacedAlong(piece="front", edge="neck"),))
    assert found.places.mm[-1] in shorter.other_bare_mm


def test_interfacing_may_lie_on_another_piece(oblong: Pattern) -> None:
    # The cuff is interfaced all over, so whatever is looked for along its edge is found as far as the edge goes.
    edge = PlacedAlong(piece="collar", edge="neck", when=({"collar": ("stand",)},))
    one = notion(oblong, "closure")
    assert one.placed is not None
    cases = placed_or_why(oblong, replace(one, placed=replace(one.placed, backing=(edge,), first_mm=(Case(mm=22),))))
    asked = {"opening": "front", "length": "hip", "collar": "stand", "size": "92"}
    found = next(case.by_size["92"] for case in cases if holds(case.when, asked))
    assert isinstance(found, PlacedRow) and found.places.mm[0] >= 21.5 and found.places.mm[0] not in found.bare_mm


def test_from_a_mere_corner_no_seam_runs_on(oblong: Pattern) -> None:
    # The collar's neck and end meet in a corner of the one collar: sewn to the front's edge, they cross no line there.
    corner = (EdgePart(piece="front", edge="side"), EdgePart(piece="front", edge="hem"))
    seam = Seam(name="made-up", join=(EdgePart(piece="front", edge="centre"),), to=corner)
    placed = Placed(along=(PlacedAlong(piece="front", line="button-line", upper="neck-centre"),), below="the top",
                    first_mm=(), last_mm=())  # fmt: skip
    line = closure_line(make_garment(oblong, "92", SLEEVED), placed, [seam])
    assert line.crossings_mm == ()
    far = replace(seam, to=(EdgePart(piece="front", edge="side"), EdgePart(piece="sleeve", edge="front-seam")))
    assert len(closure_line(make_garment(oblong, "92", SLEEVED), placed, [far]).crossings_mm) == 1


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


SLEEVED = {"opening": "front", "length": "hip", "sleeves": "long", "sleeve-end": "hemmed"}


def test_a_joint_of_the_other_side_crosses_the_edge(oblong: Pattern) -> None:
    # The sleeve head, 2 × 68, is eased into 65 and 65: front and back armhole meet in its middle.
    placed = Placed(along=(PlacedAlong(piece="sleeve", edge="head"),), below="the underarm", first_mm=(), last_mm=())
    garment = make_garment(oblong, "92", SLEEVED)
    seams = seams_beside(oblong, garment, placed)
    assert [seam.name for seam in seams] == ["armhole"]
    line = closure_line(garment, placed, seams)
    assert (line.length_mm, line.crossings_mm) == (pytest.approx(136), (pytest.approx(68),))


def test_a_seam_that_ends_on_the_edge_crosses_it(oblong: Pattern) -> None:
    # Nothing is gathered below the sleeve but between 30 mm on either side of its middle: of 120 mm, 30 to 90.
    chosen = {**SLEEVED, "sleeve-end": "gathered"}
    placed = Placed(along=(PlacedAlong(piece="sleeve", edge="end"),), below="the seam", first_mm=(), last_mm=())
    garment = make_garment(oblong, "92", chosen)
    line = closure_line(garment, placed, seams_beside(oblong, garment, placed))
    assert set(line.crossings_mm) == {30, 90}


def test_a_seam_on_the_edge_beside_a_line_crosses_the_line(oblong: Pattern) -> None:
    # Made up: the two sleeve seams, equally long, one after the other on the front edge. It is 277 mm long from hem to
    # neck, so they meet 138.5 mm above the hem; the line runs 10 mm beside it from 250 down to 70 mm above the hem.
    seam = Seam(
        name="made-up",
        join=(EdgePart(piece="front", edge="centre"),),
        to=(EdgePart(piece="sleeve", edge="front-seam"), EdgePart(piece="sleeve", edge="back-seam")),
    )
    own = replace(oblong, seams=(*oblong.seams, seam))
    placed = Placed(
        along=(PlacedAlong(piece="front", line="button-line", upper="neck-centre"),),
        below="the top",
        first_mm=(),
        last_mm=(),
        clear_of=(("front", "chest-centre"),),
    )
    garment = make_garment(own, "92", SLEEVED)
    seams = seams_beside(own, garment, placed)
    assert [one.name for one in seams] == ["made-up"]
    line = closure_line(garment, placed, seams)
    assert line.crossings_mm == (pytest.approx(10), pytest.approx(250 - 138.5))
    # Without its upper end the line runs as drawn, from below.
    upside_down = replace(placed, along=(replace(placed.along[0], upper=None),))
    assert closure_line(garment, upside_down, seams).crossings_mm == (pytest.approx(68.5), pytest.approx(170))


def test_what_is_not_there_is_told(oblong: Pattern) -> None:
    garment = make_garment(oblong, "92", SLEEVED)
    for part, words in (
        (PlacedAlong(piece="front", line="no-line"), "has no line 'no-line'"),
        (PlacedAlong(piece="front", line="button-line", upper="nowhere"), "has no point 'nowhere'"),
        (PlacedAlong(piece="front", edge="side", start="neck-centre"), "is not on its edge 'side'"),
        (PlacedAlong(piece="front", edge="side", when=({"sleeves": ("none",)},)), "no part of the line"),
    ):
        placed = Placed(along=(part,), below="the top", first_mm=(), last_mm=())
        with pytest.raises(MeasureError, match=words):
            closure_line(garment, placed, [])


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
        if not found.places.last_moved and one.placed.last_mm:
            assert found.length_mm - found.places.mm[-1] == pytest.approx(wish.last_mm, abs=0.12)
        if wish.count is not None:
            assert len(found.places.mm) == wish.count
    for one in pattern(name).notions:
        for case in placed_or_why(pattern(name), one):
            for size, found_or_why in case.by_size.items():
                assert isinstance(found_or_why, PlacedRow)
                assert found_or_why.bare_mm == (), (one.name, size, "the shop's own closures are all backed")
                assert found_or_why.other_bare_mm == () or "snap" not in one.kinds, (one.name, size)
