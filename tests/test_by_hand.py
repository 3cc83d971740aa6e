"""The hand-written checks of lays, on lays that are right or wrong on paper: each of them can fail."""

from __future__ import annotations

import random
from collections.abc import Sequence
from fractions import Fraction

import pytest
from bought_by_hand import Wash, stepped
from in_step_by_hand import folds_off_mm, look_at_rows, marks_of, out_of_step_mm, pushed_by, rows
from look_at_lays import Laid, Strip, look_at, strips
from shapely import Polygon, box
from shapely.affinity import translate
from shapely.ops import unary_union

SIZE = "98"
HALF = Polygon([(0, 0), (200, 0), (200, 150), (100, 190), (0, 150)])
WEDGE = Polygon([(0, 0), (200, 0), (0, 100)])
OUTLINES = {("half", SIZE): HALF, ("wedge", SIZE): WEDGE, ("strap", SIZE): box(0, 0, 200, 60)}
PIECES = {"half": ("fold", 2), "wedge": ("pair", 2)}
Place = tuple[str, float, float, bool, bool]


def lay(way: str, at: Sequence[Place], *, over_mm: float | None = None, nap: bool = True) -> Laid:
    """On cloth 1 m wide, 50 cm long."""
    return Laid(frozenset(one[0] for one in at), way, nap, 1000, 500, at, over_mm)


@pytest.mark.outside  # geometry, on paper
def test_strips_of_a_bolt_of_one_metre() -> None:
    """Selvedges of 15 mm. To the middle: flaps of 250 mm. Folded over by 300 mm: 400 mm are left single behind it."""
    assert strips("flat", 1000) == [Strip(0, 970)]
    assert strips("folded", 1000) == [Strip(0, 485, 0)]
    assert strips("middle", 1000) == [Strip(0, 235, 0), Strip(265, 500, 500)]
    assert strips("part-folded", 1000, 300) == [Strip(0, 285, 0), Strip(300, 685)]
    assert strips("part-folded", 1000, 500) == strips("folded", 1000)
    for way, over_mm in (("flat", None), ("folded", None), ("middle", None), ("part-folded", 300)):
        cut = strips(way, 1000, over_mm)
        usable_mm = sum((one.high_mm - one.low_mm) * (1 if one.fold_mm is None else 2) for one in cut)
        # Under the selvedge in the flap nothing is cut either.
        assert usable_mm == 1000 - 2 * 15 - {"middle": 30, "part-folded": 15}.get(way, 0)


RIGHT = {
    "folded": lay("folded", [("half", 0, 0, False, False), ("half", 200, 0, False, False),
                             ("wedge", 0, 300, False, False)]),
    "flat": lay("flat", [("half", 0, 190, False, False), ("half", 200, 190, False, False),
                         ("wedge", 0, 500, False, False), ("wedge", 0, 800, False, True)]),
    "middle": lay("middle", [("half", 0, 0, False, False), ("half", 0, 500, False, True),
                             ("wedge", 200, 0, False, False)]),
    "part-folded": lay("part-folded", [("half", 0, 0, False, False), ("half", 200, 0, False, False),
                                       ("wedge", 0, 310, False, False), ("wedge", 200, 410, False, True)],
                       over_mm=300),
}  # fmt: skip
WRONG: dict[str, tuple[str, int, Place]] = {
    "beyond the selvedge": ("flat", 3, ("wedge", 0, 980, False, True)),
    "beyond the cut end": ("flat", 3, ("wedge", 310, 800, False, True)),
    "on another piece": ("flat", 3, ("wedge", 0, 599, False, True)),
    "head to foot": ("flat", 3, ("wedge", 300, 800, True, True)),
    "none of the two mirrored": ("flat", 3, ("wedge", 0, 700, False, False)),
    "not on the fold": ("folded", 1, ("half", 200, 5, False, False)),
    "over the fold": ("folded", 1, ("half", 200, 190, False, True)),
    "across where the selvedges meet": ("middle", 2, ("wedge", 200, 200, False, False)),
    "its outer edge on the other fold": ("middle", 1, ("half", 0, 310, False, False)),
    "on the selvedge under the flap": ("middle", 1, ("half", 0, 260, False, False)),
    "a half in single cloth": ("part-folded", 1, ("half", 200, 320, False, False)),
    "half in the flap, half in single cloth": ("part-folded", 2, ("wedge", 0, 280, False, False)),
    "twice from the flap": ("part-folded", 2, ("wedge", 400, 0, False, False)),
}


@pytest.mark.parametrize("way", RIGHT)
def test_right_lays_are_right(way: str) -> None:
    assert look_at(OUTLINES, SIZE, RIGHT[way], PIECES) == pytest.approx(400)


@pytest.mark.parametrize("fault", WRONG)
def test_every_fault_is_seen(fault: str) -> None:
    way, number, place = WRONG[fault]
    at = [place if at == number else one for at, one in enumerate(RIGHT[way].at)]
    with pytest.raises(AssertionError):
        look_at(OUTLINES, SIZE, RIGHT[way]._replace(at=at), PIECES)


def test_a_piece_too_few_or_wrong_side_up_is_seen() -> None:
    with pytest.raises(AssertionError):
        look_at(OUTLINES, SIZE, RIGHT["flat"]._replace(at=RIGHT["flat"].at[:3]), PIECES)
    strap = lay("flat", [("strap", 0, 60, False, True)])
    with pytest.raises(AssertionError, match="wrong side up"):
        look_at(OUTLINES, SIZE, strap, {"strap": ("single", 1)})
    # From double cloth one place gives two that are their own mirror images, as well as one and a waste one.
    double = lay("folded", [("strap", 0, 60, False, False)])
    assert look_at(OUTLINES, SIZE, double, {"strap": ("single", 2)}) == 200
    assert look_at(OUTLINES, SIZE, double, {"strap": ("single", 1)}) == 200


@pytest.mark.outside  # a worked example: 4 1/4 in x 2 = 8 1/2 in; the rest is geometry
def test_rows_and_what_they_take() -> None:
    square = box(0, 0, 100, 100)

    def row(*at: tuple[float, float]) -> list[Polygon]:
        return [translate(square, x, y) for x, y in at]

    assert rows(pushed_by(row((0, 0), (100, 0)))) == 2
    assert rows(pushed_by(row((0, 0), (0, 100), (300, 100)))) == 2
    assert rows(pushed_by(row((0, 0), (50, 100), (300, 200)))) == 1, "side by side"
    # A row that wanders: no line along the cloth crosses more than two of the three.
    assert rows(pushed_by(row((0, 0), (100, 60), (200, 120)))) == 3
    hook = unary_union([box(0, 0, 300, 50), box(0, 0, 50, 200), box(250, 0, 300, 200)])
    assert rows(pushed_by([hook, translate(square, 100, 80)])) == 2
    outlines = {("a", SIZE): square, ("b", SIZE): square}
    two = Laid(frozenset("ab"), "flat", False, 1000, 200, [("a", 0, 0, False, False), ("b", 200, 100, True, False)])
    every = Fraction(17, 4) * Fraction(254, 10)
    assert 2 * every == Fraction(17, 2) * Fraction(254, 10)
    for seed in range(20):
        assert look_at_rows(
            random.Random(seed), outlines, SIZE, two, {"a": ("single", 1), "b": ("single", 1)}, 2, every, 0
        )
    with pytest.raises(AssertionError, match="2 rows, not 1"):
        look_at_rows(random.Random(1), outlines, SIZE, two, {"a": ("single", 1), "b": ("single", 1)}, 1, every, 0)


@pytest.mark.outside  # geometry, on paper
def test_marks_and_folds_in_step() -> None:
    marks = marks_of(lay("flat", [("a", 10, 20, False, False), ("a", 100, 80, True, True)]), {"a": (30, 5)})
    assert marks == [(40, 25), (70, 85)]
    assert out_of_step_mm(marks, 30, None) == 0 and out_of_step_mm(marks, 30, 60) == 0
    assert out_of_step_mm(marks, 40, None) == 10 and out_of_step_mm(marks, 30, 50) == 10
    # Folds half a bolt apart: 60 cm are ten checks of 6 cm; 62.5 cm are 20 half checks and 2.5 cm.
    assert folds_off_mm(1200, 60) == 0 and folds_off_mm(1260, 60) == 0 and folds_off_mm(1250, 60) == 5


@pytest.mark.outside  # the trade's order, common practice; percentages on paper
def test_the_wash_on_paper() -> None:
    wash = Wash("own", {}, along=Fraction(5, 100), across=Fraction(2, 100))
    assert wash.washed_mm(Fraction(1430)) == 1400 * Fraction(98, 100) + 30
    assert wash.on_bolt_mm(wash.washed_mm(Fraction(1430))) == 1430
    assert wash.bought_mm(920) == 1000 and stepped(wash.bought_mm(920)) == (1000, 9)
    assert stepped(wash.bought_mm(921)) == (1050, 9) and stepped(Fraction(9144, 10)) == (950, 8)
