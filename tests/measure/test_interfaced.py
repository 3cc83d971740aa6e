"""Which copies get interfacing, and how it is cut."""

from __future__ import annotations

import pytest

from boltside.measure.garment import make_garment
from boltside.measure.model import InterfacedArea, MeasureError
from boltside.pattern import Copy, CutEntry, Interfacing, Mode

from .handmade import four_edges, pattern, piece, rectangle

LEFT, RIGHT = Copy(name="left"), Copy(name="right")


def areas_of(entry: CutEntry, *interfacing: Interfacing, copies: tuple[Copy, ...] = ()) -> tuple[InterfacedArea, ...]:
    """Interfaced areas of a rectangle 200 by 400 mm with 10 mm all round."""
    shape = rectangle(
        200,
        400,
        areas={
            "edge": ((-50, 0), (40, 0), (40, 400), (-50, 400)),
            "spot": ((90, 90), (110, 90), (110, 120), (90, 120)),
        },
    )
    made = pattern(piece("front", four_edges(), shape, cut=(entry,), interfacing=interfacing, copies=copies))
    return make_garment(made, "92", {}).pieces["front"].interfaced


def pair(count: int = 2) -> CutEntry:
    return CutEntry(cloth="outer", mode="pair", count=count)


FOLD = CutEntry(cloth="outer", mode="fold", count=2, fold_edge="left")


def how(area: str | None = "spot", *copies: str) -> Interfacing:
    return Interfacing(cloth="interfacing", area=area, to="cutting", copies=copies)


@pytest.mark.parametrize(
    ("entry", "copies", "named", "expected"),
    [
        (pair(), (), (), ("pair", 2, "up")),
        (pair(), (LEFT, RIGHT), (), ("pair", 2, "up")),
        (pair(), (LEFT, RIGHT), ("left", "right"), ("pair", 2, "up")),
        (pair(), (LEFT, RIGHT), ("left",), ("single", 1, "up")),
        (pair(), (LEFT, RIGHT), ("right",), ("single", 1, "down")),
        (pair(4), (LEFT, RIGHT), ("right",), ("single", 2, "down")),
        (CutEntry(cloth="outer", mode="single", count=3, face="down"), (), (), ("single", 3, "down")),
        (FOLD, (), (), ("pair", 4, "up")),
    ],
)
def test_mode_and_count_follow_from_the_copies(
    entry: CutEntry, copies: tuple[Copy, ...], named: tuple[str, ...], expected: tuple[Mode, int, str]
) -> None:
    (area,) = areas_of(entry, how("spot", *named), copies=copies)
    assert (area.mode, area.copies, area.face) == expected
    assert area.area_mm2 == pytest.approx(20 * 30)


def test_a_copy_that_is_not_there_gets_none() -> None:
    assert areas_of(pair(), how("spot", "left"), copies=(RIGHT, Copy(name="middle"))) == ()


def test_an_area_on_the_fold_is_cut_on_the_fold() -> None:
    (area,) = areas_of(FOLD, how("edge"))
    assert (area.mode, area.copies) == ("fold", 2)
    assert area.area_mm2 == pytest.approx(2 * 40 * 400)


def test_the_whole_piece_goes_to_the_line_it_says() -> None:
    to_cutting, to_stitching = areas_of(pair(), how(None), Interfacing(cloth="interfacing", area=None, to="stitching"))
    assert to_cutting.area_mm2 == 220 * 420
    assert to_stitching.area_mm2 == 200 * 400


def test_an_uneven_choice_of_four_copies_is_refused() -> None:
    copies = tuple(Copy(name=name) for name in ("a", "b", "c", "d"))
    with pytest.raises(MeasureError, match="as many copies of one hand as of the other"):
        areas_of(pair(4), how("spot", "a", "b", "c"), copies=copies)
    (area,) = areas_of(pair(4), how("spot", "a", "c"), copies=copies)
    assert (area.mode, area.copies) == ("pair", 2)


@pytest.mark.outside
def test_an_area_to_the_stitching_line_is_smaller_by_the_strip_of_the_allowance() -> None:
    """Source: geometry. A rectangle a by b in one 10 mm larger all round leaves 2 · 10 · (a + b) + 4 · 10²."""
    wide, high, allowance = 200, 400, 10
    strip = 2 * allowance * (wide + high) + 4 * allowance**2
    to_cutting = Interfacing(cloth="interfacing", area=None, to="cutting")
    to_stitching = Interfacing(cloth="interfacing", area=None, to="stitching")
    cutting, stitching = areas_of(pair(), to_cutting, to_stitching)
    assert stitching.area_mm2 == pytest.approx(wide * high)
    assert cutting.area_mm2 - stitching.area_mm2 == pytest.approx(strip)


@pytest.mark.outside
def test_an_area_at_an_edge_loses_the_allowance_at_that_edge() -> None:
    """Source: geometry. The strip is drawn from beyond the left edge to x = 40, as high as the stitching line."""
    cutting, stitching = areas_of(
        pair(),
        Interfacing(cloth="interfacing", area="edge", to="cutting"),
        Interfacing(cloth="interfacing", area="edge", to="stitching"),
    )
    # To the cutting line it reaches 10 mm beyond the stitching line at the left; above and below it ends as drawn.
    assert cutting.area_mm2 == pytest.approx((40 + 10) * 400)
    assert stitching.area_mm2 == pytest.approx(40 * 400)
