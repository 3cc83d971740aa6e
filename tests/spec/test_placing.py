"""Parts of a drawing in their places: on the centre line, on each other, turned, cut at a line."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import pytest

from boltside.measure.model import MeasureError
from boltside.pattern import DrawingPart, Pattern
from boltside.spec.placing import hangs_on, place

CHOSEN = {"opening": "front", "length": "hip", "sleeves": "long", "sleeve-end": "hemmed", "collar": "none"}
CHOSEN |= {"pockets": "two", "lined": "none"}


def placed(pattern: Pattern, parts: Sequence[DrawingPart], **chosen: str) -> dict[int, list[tuple[float, float]]]:
    found = place(pattern, "92", parts, {**CHOSEN, **chosen})
    return {at: [(round(x, 3), round(y, 3)) for x, y in one.outline_mm] for at, one in found.items()}


FRONT = DrawingPart(piece="front", put="neck-centre")


def test_a_part_without_on_stands_on_the_centre_line_at_height_0(oblong: Pattern) -> None:
    (found,) = place(oblong, "92", [FRONT], CHOSEN).values()
    assert found.points_mm["neck-centre"] == pytest.approx((0, 0))
    # The fixture's front: 159 wide at the chest, 277 long at the centre.
    xs, ys = zip(*found.outline_mm, strict=True)
    assert max(abs(x) for x in xs) == pytest.approx(159)
    assert min(ys) == pytest.approx(-277)


def test_a_part_is_laid_on_a_point_and_turned_about_it(oblong: Pattern) -> None:
    pocket = DrawingPart(piece="pocket", put="top-left", on=("front", "shoulder-tip"), turn_deg=90)
    found = place(oblong, "92", [pocket, FRONT], CHOSEN)
    tip = found[1].points_mm["shoulder-tip"]
    assert found[0].points_mm["top-left"] == pytest.approx(tip)
    # Drawn, the top runs to the right; turned by 90° anticlockwise it runs up. 96 less two allowances of 10.
    right = found[0].points_mm["top-right"]
    assert (right[0] - tip[0], right[1] - tip[1]) == pytest.approx((0, 76))


def test_order_does_not_matter(oblong: Pattern) -> None:
    sleeve = DrawingPart(piece="sleeve", put="head-top", on=("front", "shoulder-tip"), turn_deg=25)
    tab = DrawingPart(piece="tab", put="left", on=("sleeve", "end-front"))
    forward = placed(oblong, [FRONT, sleeve, tab])
    backward = placed(oblong, [tab, sleeve, FRONT])
    assert [forward[0], forward[1], forward[2]] == [backward[2], backward[1], backward[0]]


def test_what_hangs_on_an_absent_part_is_absent(oblong: Pattern) -> None:
    sleeve = DrawingPart(piece="sleeve", put="head-top", on=("front", "shoulder-tip"))
    tab = DrawingPart(piece="tab", put="left", on=("sleeve", "end-front"))
    assert set(placed(oblong, [FRONT, sleeve, tab], sleeves="none")) == {0}


def test_a_circle_is_an_error(oblong: Pattern) -> None:
    one = DrawingPart(piece="front", put="neck-centre", on=("back", "neck-centre"))
    other = DrawingPart(piece="back", put="neck-centre", on=("front", "neck-centre"))
    with pytest.raises(MeasureError, match="in a circle: front on back on front"):
        placed(oblong, [one, other])


@pytest.mark.parametrize(
    ("part", "words"),
    [
        (DrawingPart(piece="hood", put="top"), "names a piece 'hood' that is not there"),
        (DrawingPart(piece="front", put="top"), "piece 'front' has no point 'top' here"),
        (replace(FRONT, keep_line="moon", keep_point="underarm"), "piece 'front' has no line 'moon' here"),
        (DrawingPart(piece="tab", put="left", on=("front", "moon")), "tab is laid on front.moon: no such point"),
    ],
)
def test_what_is_not_there_is_an_error(oblong: Pattern, part: DrawingPart, words: str) -> None:
    with pytest.raises(MeasureError, match=words):
        placed(oblong, [FRONT, part] if part.piece != "front" else [part])


def test_roles_are_played(oblong: Pattern) -> None:
    tab = DrawingPart(piece="tab", put="left", on=("as:opened", "underarm"))
    opened = [DrawingPart(piece="as:opened", put="neck-centre"), tab]
    front = place(oblong, "92", opened, CHOSEN)
    back = place(oblong, "92", opened, {**CHOSEN, "opening": "back"})
    assert front[0].outline_mm != back[0].outline_mm
    assert front[1].points_mm["left"] == front[0].points_mm["underarm"]


def test_one_side_of_a_line_is_kept(oblong: Pattern) -> None:
    whole = DrawingPart(piece="sleeve", put="head-top")
    half = replace(whole, keep_line="middle", keep_point="under-front")
    found = place(oblong, "92", [whole, half], CHOSEN)
    xs = [x for x, _ in found[1].outline_mm]
    all_xs = [x for x, _ in found[0].outline_mm]
    assert max(xs) - min(xs) == pytest.approx((max(all_xs) - min(all_xs)) / 2)
    assert found[1].points_mm["under-front"][0] in (pytest.approx(min(xs)), pytest.approx(max(xs)))


def test_hanging_on_follows_all_the_way(oblong: Pattern) -> None:
    sleeve = DrawingPart(piece="sleeve", put="head-top", on=("front", "shoulder-tip"))
    tab = DrawingPart(piece="tab", put="left", on=("sleeve", "end-front"))
    assert hangs_on(oblong, [tab, FRONT, sleeve], 0) == [0, 1, 2]
    assert hangs_on(oblong, [tab, FRONT, sleeve], 2) == [1, 2]
    assert hangs_on(oblong, [tab, FRONT, sleeve], 1) == [1]
