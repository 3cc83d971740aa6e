"""Lays small enough to be right on paper. Each optimum is worked out in a comment beside it."""

import pytest

from boltside.lay.model import LayItem, LayRequest, TooWide, Way
from boltside.lay.pool import Order, Pool
from boltside.lay.verify import faults

NEAR_MM = 0.1
"""A ruler shows no more; the solvers leave a gap of some 0.01 mm between pieces."""

TRIANGLE = ((0.0, 0.0), (400.0, 0.0), (0.0, 300.0))
"""A right triangle, 400 along the grain and 300 across."""


def rectangle(along: float, across: float) -> tuple[tuple[float, float], ...]:
    return ((0.0, 0.0), (along, 0.0), (along, across), (0.0, across))


def item(item_id: str, outline: tuple[tuple[float, float], ...], mode: str, count: int) -> LayItem:
    return LayItem(item_id=item_id, outline_mm=outline, mode=mode, count=count)  # type: ignore[arg-type]


def request(way: Way, usable_mm: float, *items: LayItem, one_way: bool = False) -> LayRequest:
    """A request on a bolt that leaves the usable width: selvedges of 15 mm a side, two layers when folded."""
    bolt_mm = usable_mm * (2 if way == "folded" else 1) + 30
    return LayRequest(items=items, bolt_width_mm=bolt_mm, way=way, one_way=one_way)


CASES = {
    # Each rectangle is as wide as the usable cloth, so they lie in a row: 3 x 250.
    "rectangles in a row": (request("flat", 500, item("a", rectangle(250, 500), "single", 3)), 750),
    # Two lie side by side across 500 exactly, so four need two rows of 200.
    "two side by side, twice": (request("flat", 500, item("a", rectangle(200, 250), "single", 4)), 400),
    # Side by side they would need 500.02 across, so both lie in a row.
    "a hair too wide for two": (request("flat", 500, item("a", rectangle(200, 250.01), "single", 2)), 400),
    # Two equal right triangles, one turned by 180 degrees, make up the rectangle 400 x 300.
    "triangles nest when turned": (request("flat", 300, item("a", TRIANGLE, "single", 2)), 400),
    # One-way cloth: both stand alike and, the cloth being exactly 300 wide, at the same height. At y = 0 each is
    # 400 long, so the second starts 400 after the first.
    "triangles on one-way cloth": (request("flat", 300, item("a", TRIANGLE, "single", 2), one_way=True), 800),
    # A mirrored pair is not a turned pair: at one of its edges (y = 0 or 300) each of any two poses that are
    # mirror images is 400 long with the other one's right angle or its whole long side next to it.
    "a mirrored pair does not nest": (request("flat", 300, item("a", TRIANGLE, "pair", 2)), 800),
    # A half of 200 x 150 unfolds to 200 x 300 on flat cloth; two of them beside each other fill 600.
    "fold pieces are laid whole on flat cloth": (request("flat", 600, item("a", rectangle(200, 150), "fold", 2)), 200),
    # Folded in half: halves of 200 and 150 as wide as the cloth, in a row on the fold.
    "fold pieces in a row": (
        request("folded", 300, item("a", rectangle(200, 300), "fold", 1), item("b", rectangle(150, 300), "fold", 1)),
        350,
    ),
    # A pair comes out of one place on doubled cloth: 200 on the fold, then 150.
    "a pair takes one place on doubled cloth": (
        request("folded", 300, item("a", rectangle(200, 300), "fold", 1), item("b", rectangle(150, 300), "pair", 2)),
        350,
    ),
    # Three halves of 100 x 100 would stack across 300, but each must touch the fold: 3 x 100.
    "halves can't be stacked away from the fold": (
        request("folded", 300, item("a", rectangle(100, 100), "fold", 3)),
        300,
    ),
    # Two halves of 100 x 100 need 200 of the fold; the pair of 200 x 200 fills the rest of the width.
    "a pair beside the halves": (
        request("folded", 300, item("a", rectangle(100, 100), "fold", 2), item("b", rectangle(200, 200), "pair", 2)),
        200,
    ),
    # A rectangle is its own mirror image, so two single copies come out of one place on doubled cloth.
    "two symmetric singles from one place": (request("folded", 300, item("a", rectangle(200, 300), "single", 2)), 200),
    # Two equal triangles that are not their own mirror images need two places; turned, they nest: 400.
    "two asymmetric singles need two places": (request("folded", 300, item("a", TRIANGLE, "single", 2)), 400),
    # The same as a pair: one place, 400 long.
    "an asymmetric pair needs one place": (request("folded", 300, item("a", TRIANGLE, "pair", 2)), 400),
    # Two pairs on doubled cloth may lie either way round, also turned over: turned by 180 degrees they nest.
    "two pairs nest on doubled cloth": (request("folded", 300, item("a", TRIANGLE, "pair", 4)), 400),
    # One-way cloth, two pairs: turning over is free (both mirror images come out), turning round is not. Then
    # the right angle sits at x = 0 in every pose, so the second starts where the first one's long side ends.
    "two pairs on one-way doubled cloth": (request("folded", 300, item("a", TRIANGLE, "pair", 4), one_way=True), 800),
    # Halves of triangles with their right angle on the fold, fold edge 400: the fold edges alone need 800.
    "triangles on the fold": (request("folded", 300, item("a", TRIANGLE, "fold", 2)), 800),
    # Halves with a fold edge of 100 that widen to 300 at the top (a trapezium standing on its short side) beside
    # one that narrows from 300 to 100: all sides slope by 100 over 300, so wide top meets narrow top. In a row
    # they are 100 + 300 at the fold, with the wide one's overhang of 100 at its outer end: 500.
    "halves reach into each other": (
        request(
            "folded",
            300,
            item("a", ((100.0, 0.0), (200.0, 0.0), (300.0, 300.0), (0.0, 300.0)), "fold", 1),
            item("b", ((0.0, 0.0), (300.0, 0.0), (200.0, 300.0), (100.0, 300.0)), "fold", 1),
        ),
        500,
    ),
}


@pytest.fixture(scope="module")
def pool():
    with Pool(workers=1, time_out_s=60) as open_pool:
        yield open_pool


@pytest.mark.outside
@pytest.mark.parametrize("name", CASES)
def test_length_is_the_optimum_worked_out_on_paper(name, pool):
    wanted, optimum_mm = CASES[name]
    pool.submit(Order(name=name, request=wanted))
    outcome = pool.next_outcome()
    assert outcome.error is None
    assert faults(wanted, outcome.lay) == []
    assert outcome.lay.length_mm == pytest.approx(optimum_mm, abs=NEAR_MM)


@pytest.mark.outside
@pytest.mark.parametrize(
    ("way", "mode", "across_mm", "narrowest_mm"),
    [
        # Flat: the piece as it is, and two selvedges of 15.
        ("flat", "single", 600.0, 630.0),
        # Flat: a half is laid whole, twice as wide.
        ("flat", "fold", 600.0, 1230.0),
        # Folded: every layer as wide as the piece.
        ("folded", "pair", 600.0, 1230.0),
        ("folded", "fold", 600.0, 1230.0),
    ],
)
def test_a_piece_that_is_too_wide_is_named_with_the_narrowest_cloth(way, mode, across_mm, narrowest_mm):
    from boltside.lay.solve import solve

    pieces = (
        item("narrow", rectangle(50, 50), "single", 1),
        item("broad", rectangle(100, across_mm), mode, 2),
    )
    fits = LayRequest(items=pieces, bolt_width_mm=narrowest_mm, way=way, one_way=False)
    too_narrow = LayRequest(items=pieces, bolt_width_mm=narrowest_mm - 0.04, way=way, one_way=False)
    with pytest.raises(TooWide) as refused:
        solve(too_narrow, "full")
    assert refused.value.item_id == "broad"
    assert refused.value.narrowest_bolt_mm == narrowest_mm
    assert str(refused.value) == (
        f"piece 'broad' is {refused.value.width_mm:.0f} mm wide, {way} cloth offers "
        f"{refused.value.usable_mm:.0f} mm; the narrowest cloth that works is {narrowest_mm:.0f} mm wide"
    )
    from boltside.lay.model import check_widths

    check_widths(fits)
