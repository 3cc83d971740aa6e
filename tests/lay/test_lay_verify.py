"""The verifier passes right lays and names every kind of fault. Seeded mutations of right lays."""

import random
from dataclasses import replace

import pytest
from pieces_for_lays import jacket_request

from boltside.lay.folded import solve_by_filling
from boltside.lay.model import Lay, LayItem, LayRequest, Placement
from boltside.lay.verify import faults

WAYS = ("flat", "folded")


@pytest.fixture(scope="module")
def lays() -> dict[tuple[str, bool], tuple[LayRequest, Lay]]:
    """Right lays of the jacket: the quick search does for flat cloth too."""
    found = {}
    for way in WAYS:
        for one_way in (False, True):
            request = jacket_request(way, one_way=one_way)
            found[way, one_way] = (request, solve_by_filling(request, trials=30))
    return found


def with_placement(lay: Lay, item_id: str, copy: int = 0, **changes: object) -> Lay:
    return replace(
        lay,
        placements=tuple(
            replace(p, **changes) if (p.item_id, p.copy) == (item_id, copy) else p for p in lay.placements
        ),
    )


def placement(lay: Lay, item_id: str, copy: int = 0) -> Placement:
    return next(p for p in lay.placements if (p.item_id, p.copy) == (item_id, copy))


@pytest.mark.parametrize("one_way", [False, True])
@pytest.mark.parametrize("way", WAYS)
def test_right_lays_pass(lays, way, one_way):
    assert faults(*lays[way, one_way]) == []


@pytest.mark.parametrize("way", WAYS)
@pytest.mark.parametrize("seed", range(20))
def test_a_piece_moved_into_another_is_found(lays, way, seed):
    """Moved so that the middles of both boxes agree: the two must be named."""
    request, lay = lays[way, False]
    chance = random.Random(seed)
    first, second = chance.sample([p for p in lay.placements if p.item_id != "back"], 2)
    middles = [
        [(min(values) + max(values)) / 2 for values in zip(*placed_points(request, p), strict=True)]
        for p in (first, second)
    ]
    moved = replace(
        first, x_mm=first.x_mm + middles[1][0] - middles[0][0], y_mm=first.y_mm + middles[1][1] - middles[0][1]
    )
    mutated = replace(lay, placements=tuple(moved if p == first else p for p in lay.placements))
    names = {f"{p.item_id!r} copy {p.copy}" for p in (first, second)}
    assert any(all(name in s for name in names) and "overlap by" in s for s in faults(request, mutated))


def test_an_overlap_of_more_than_one_square_millimetre_is_found_and_less_is_not():
    """Two squares of 100: 0.01 mm into each other are 1.00 mm², 0.02 mm are 2.00 mm²."""
    square = LayItem(item_id="a", outline_mm=((0, 0), (100, 0), (100, 100), (0, 100)), mode="single", count=2)
    request = LayRequest(items=(square,), bolt_width_mm=130, way="flat", one_way=False)

    def lay(second_x_mm: float) -> Lay:
        return Lay(
            length_mm=second_x_mm + 100,
            placements=tuple(
                Placement(item_id="a", copy=copy, x_mm=x, y_mm=0, turned=False, mirrored=False)
                for copy, x in enumerate((0.0, second_x_mm))
            ),
            way="flat",
            bolt_width_mm=130,
            one_way=False,
        )

    assert faults(request, lay(100.0)) == []
    assert faults(request, lay(99.9905)) == []
    assert faults(request, lay(99.98)) == ["'a' copy 0 and 'a' copy 1 overlap by 2.00 mm²"]


@pytest.mark.parametrize("way", WAYS)
@pytest.mark.parametrize("seed", range(10))
def test_a_missing_or_doubled_piece_is_found(lays, way, seed):
    request, lay = lays[way, False]
    chosen = random.Random(seed).choice(lay.placements)
    fewer = replace(lay, placements=tuple(p for p in lay.placements if p != chosen))
    number = sum(p.item_id == chosen.item_id for p in lay.placements)
    if chosen.item_id == "band" and way == "folded":
        assert faults(request, fewer) == ["'band' is laid 0 times, expected 1 or 2"]
    else:
        assert f"{chosen.item_id!r} is laid {number - 1} times, expected {number}" in faults(request, fewer)
    doubled = replace(lay, placements=(*lay.placements, chosen))
    assert f"{chosen.item_id!r} copy {chosen.copy} is laid 2 times" in faults(request, doubled)


@pytest.mark.parametrize("way", WAYS)
def test_a_piece_that_nobody_asked_for_is_found(lays, way):
    request, lay = lays[way, False]
    stranger = Placement(item_id="hood", copy=0, x_mm=0, y_mm=0, turned=False, mirrored=False)
    assert faults(request, replace(lay, placements=(*lay.placements, stranger))) == ["'hood' is laid but not asked for"]


@pytest.mark.parametrize("way", WAYS)
@pytest.mark.parametrize(("axis", "step_mm"), [("x_mm", -0.05), ("x_mm", 2000.0), ("y_mm", -0.05), ("y_mm", 2000.0)])
def test_a_piece_beyond_an_edge_of_the_cloth_is_found(lays, way, axis, step_mm):
    """Every piece is pushed over each edge in turn: from where it lies at that edge, or far beyond."""
    request, lay = lays[way, False]
    for chosen in lay.placements:
        alone = replace(
            lay,
            placements=(chosen,),
            length_mm=1000.0,
        )
        lowest = min(point["xy".index(axis[0])] for point in placed_points(request, chosen))
        moved = with_placement(alone, chosen.item_id, chosen.copy, **{axis: getattr(chosen, axis) - lowest + step_mm})
        assert any(
            sentence.startswith(f"{chosen.item_id!r} copy {chosen.copy} lies outside the cloth")
            for sentence in faults(request, moved)
        )


def placed_points(request: LayRequest, chosen: Placement) -> list[tuple[float, float]]:
    """Where the points of a placed outline lie, worked out point by point."""
    points = list(next(item for item in request.items if item.item_id == chosen.item_id).outline_mm)
    if request.way == "flat" and chosen.item_id == "back":
        points += [(x, -y) for x, y in points]
    sign_x = -1 if chosen.turned else 1
    sign_y = sign_x * (-1 if chosen.mirrored else 1)
    return [(sign_x * x + chosen.x_mm, sign_y * y + chosen.y_mm) for x, y in points]


@pytest.mark.parametrize("way", WAYS)
def test_a_length_shorter_than_the_pieces_is_found(lays, way):
    request, lay = lays[way, False]
    assert any("lies outside the cloth" in s for s in faults(request, replace(lay, length_mm=lay.length_mm - 1)))


@pytest.mark.parametrize("way", WAYS)
def test_a_piece_turned_round_on_one_way_cloth_is_found(lays, way):
    request, lay = lays[way, True]
    for chosen in lay.placements:
        turned = with_placement(lay, chosen.item_id, chosen.copy, turned=True)
        expected = f"{chosen.item_id!r} copy {chosen.copy} is turned round on one-way cloth"
        assert expected in faults(request, turned)


@pytest.mark.parametrize("way", WAYS)
def test_a_single_piece_turned_over_is_found(lays, way):
    request, lay = lays[way, False]
    assert placement(lay, "flap").mirrored  # it lies face down
    over = with_placement(lay, "flap", mirrored=False)
    assert "'flap' copy 0 is turned over, its face must be down" in faults(request, over)
    over = with_placement(lay, "band", mirrored=True)
    assert "'band' copy 0 is turned over, its face must be up" in faults(request, over)


def test_a_pair_with_both_copies_alike_is_found_on_flat_cloth(lays):
    request, lay = lays["flat", False]
    alike = with_placement(lay, "sleeve", copy=1, mirrored=False)
    assert "'sleeve' has 0 mirrored copies, expected 1" in faults(request, alike)


def test_a_pair_may_lie_either_way_round_on_folded_cloth(lays):
    request, lay = lays["folded", False]
    sleeve = placement(lay, "sleeve")
    other = with_placement(lay, "sleeve", mirrored=not sleeve.mirrored)
    assert not [s for s in faults(request, other) if "turned" in s or "mirrored" in s]


def test_a_half_off_the_fold_or_across_it_is_found(lays):
    request, lay = lays["folded", False]
    back = placement(lay, "back")
    off = with_placement(lay, "back", y_mm=0.02)
    assert "'back' copy 0 lies 0.02 mm away from the fold" in faults(request, off)
    across = with_placement(lay, "back", mirrored=not back.mirrored)
    assert "'back' copy 0 lies across the fold" in faults(request, across)


def test_a_whole_piece_turned_over_on_flat_cloth_is_found(lays):
    request, lay = lays["flat", False]
    assert "'back' copy 0 is turned over" in faults(request, with_placement(lay, "back", mirrored=True))


@pytest.mark.parametrize("change", [{"bolt_width_mm": 800.0}, {"way": "folded"}, {"one_way": True}])
def test_a_lay_for_another_cloth_is_found(lays, change):
    request, lay = lays["flat", False]
    assert "the lay was made for another cloth or another way of laying" in faults(request, replace(lay, **change))


def test_an_outline_that_crosses_itself_is_found():
    bow = LayItem(item_id="bow", outline_mm=((0, 0), (100, 100), (100, 0), (0, 50)), mode="single", count=1)
    request = LayRequest(items=(bow,), bolt_width_mm=130, way="flat", one_way=False)
    lay = Lay(
        length_mm=100,
        placements=(Placement(item_id="bow", copy=0, x_mm=0, y_mm=0, turned=False, mirrored=False),),
        way="flat",
        bolt_width_mm=130,
        one_way=False,
    )
    assert faults(request, lay) == ["'bow' has an outline that crosses itself"]


def test_outlines_that_cross_themselves_are_named_and_stop_nothing():
    """Shapely can't cut two such outlines with each other; the other faults of the lay must be found all the same."""
    bow = ((0, 0), (100, 100), (100, 0), (0, 50))
    request = LayRequest(
        items=(
            LayItem(item_id="bow", outline_mm=bow, mode="single", count=2),
            LayItem(item_id="half", outline_mm=bow, mode="fold", count=1),
        ),
        bolt_width_mm=230,
        way="flat",
        one_way=False,
    )
    lay = Lay(
        length_mm=100,
        placements=tuple(
            Placement(item_id=item_id, copy=copy, x_mm=x_mm, y_mm=0, turned=False, mirrored=False)
            for item_id, copy, x_mm in (("bow", 0, 0), ("bow", 1, 10), ("half", 0, 5))
        ),
        way="flat",
        bolt_width_mm=230,
        one_way=False,
    )
    found = faults(request, lay)
    assert found[:2] == ["'bow' has an outline that crosses itself", "'half' has an outline that crosses itself"]
    assert any(sentence.startswith("'bow' copy 1 lies outside the cloth: x 10.00 to 110.00") for sentence in found)


def test_halves_that_meet_in_a_point_only_are_found():
    kite = LayItem(item_id="kite", outline_mm=((50, 0), (100, 50), (50, 90), (0, 50)), mode="fold", count=1)
    request = LayRequest(items=(kite,), bolt_width_mm=230, way="flat", one_way=False)
    at = Placement(item_id="kite", copy=0, x_mm=0, y_mm=90, turned=False, mirrored=False)
    lay = Lay(length_mm=100, placements=(at,), way="flat", bolt_width_mm=230, one_way=False)
    assert faults(request, lay) == ["'kite' does not unfold to one piece"]


@pytest.mark.parametrize("way", WAYS)
@pytest.mark.parametrize(("begin_mm", "more_mm"), [(0.0, 0.02), (0.0, 300.0), (0.02, 0.02), (50.0, 50.0)])
def test_a_length_of_which_the_pieces_leave_an_end_free_is_found(lays, way, begin_mm, more_mm):
    """Nobody shall buy cloth that no piece lies on."""
    request, lay = lays[way, False]
    moved = tuple(replace(p, x_mm=p.x_mm + begin_mm) for p in lay.placements)
    longer = replace(lay, placements=moved, length_mm=lay.length_mm + more_mm)
    assert faults(request, longer) == [
        f"the lay is {longer.length_mm:.2f} mm long, but its pieces lie from {begin_mm:.2f} to "
        f"{lay.length_mm + begin_mm:.2f} mm only"
    ]


@pytest.mark.parametrize("way", WAYS)
def test_copies_that_are_not_numbered_in_a_row_are_found(lays, way):
    """Unfolding and drawing tell the two of a pair apart by their numbers."""
    request, lay = lays[way, False]
    last = max(p.copy for p in lay.placements if p.item_id == "band")
    numbered = replace(
        lay,
        placements=tuple(
            replace(p, copy=last + 5) if (p.item_id, p.copy) == ("band", last) else p for p in lay.placements
        ),
    )
    found = faults(request, numbered)
    assert found == [f"the copies of 'band' are not numbered from 0 to {last}"]
