"""What measuring finds wrong, in which sizes, and over how few choices it looks."""

from __future__ import annotations

from typing import Any

from boltside.measure import findings
from boltside.measure.findings import Finding, find_faults, forms_of
from boltside.pattern import Between, Case, EdgePart, Measurement, Pattern, Seam

from .handmade import choice, four_edges, pattern, piece, rectangle, when

SIZES = ("80", "92", "104")


def part(piece_name: str, edge: str, **more: Any) -> EdgePart:
    return EdgePart(piece=piece_name, edge=edge, **more)


def two_rectangles(heights_mm: tuple[float, float, float], *seams: Seam, **more: Any) -> Pattern:
    """A front 200 high in every size, and a back of these heights."""
    return pattern(
        piece("front", four_edges(), {size: rectangle(150, 200) for size in SIZES}),
        piece("back", four_edges(), {s: rectangle(150, high) for s, high in zip(SIZES, heights_mm, strict=True)}),
        sizes=SIZES,
        seams=seams,
        **more,
    )


def said(made: Pattern) -> list[tuple[str, tuple[str | int, ...], tuple[str, ...]]]:
    return [(one.code, one.path, one.sizes) for one in find_faults(made)[0]]


SIDE = Seam(name="side", join=(part("front", "right"),), to=(part("back", "right"),))


def test_a_seam_that_fits_is_not_told() -> None:
    assert find_faults(two_rectangles((200, 200.9, 199.1), SIDE)) == ([], 3)


def test_a_seam_that_does_not_fit_is_told_once_with_its_sizes() -> None:
    found, forms = find_faults(two_rectangles((200, 190, 215), SIDE))
    assert forms == 3
    assert found == [
        Finding(
            code="seam-lengths",
            path=("seams", 0),
            seen="seam `side`: 200.0 mm joined to 190.0 mm in size 92",
            expected="189.0 to 191.0 mm joined to it, equal within 1 mm",
            mend="true the outlines, or say in the seam which ease or gather ratio is meant",
            sizes=("92", "104"),
        )
    ]


def test_what_is_meant_is_told_in_mm() -> None:
    """Of 200 mm: an ease of 2 to 4 mm, of 1 to 2 percent, and 1.5 to 2 times as long, worked out on paper."""
    expected = {
        "ease_mm": ((2, 4), "202.0 to 204.0 mm joined to it, an ease of 2 to 4 mm"),
        "ease_percent": ((1, 2), "202.0 to 204.0 mm joined to it, an ease of 1 to 2 %"),
        "gather_ratio": ((1.5, 2), "300.0 to 400.0 mm joined to it, 1.5 to 2 times as long"),
    }
    for key, (limits, words) in expected.items():
        ranges: dict[str, Any] = {key: limits}
        one = Seam(name="side", join=SIDE.join, to=SIDE.to, **ranges)
        (found,) = find_faults(two_rectangles((200, 200, 200), one))[0]
        assert found.expected == words


def test_only_the_choices_of_the_pieces_are_run_through() -> None:
    """A pocket with three choices of its own doubles no side seam."""
    made = two_rectangles(
        (200, 200, 200),
        Seam(name="side", join=SIDE.join, to=SIDE.to, when=when(sides="sewn")),
        choices=(choice("sides", "sewn", "open"), *(choice(f"c{n}", "a", "b", "c") for n in range(12))),
    )
    assert find_faults(made) == ([], 3)
    assert [(size, dict(chosen)) for size, _, chosen in forms_of(made, when(sides="sewn"), ["front", "back"])] == [
        (size, {"sides": "sewn"}) for size in SIZES
    ]


def test_combinations_with_the_same_pieces_are_one_form() -> None:
    shape = {size: rectangle(150, 200) for size in SIZES}
    cases = (Case(mm=10, when=when(hem="a")), Case(mm=10, when=when(hem="b")), Case(mm=30))
    made = pattern(
        piece("front", four_edges(bottom=cases), shape),
        piece("back", four_edges(), shape),
        sizes=SIZES,
        seams=(SIDE,),
        choices=(choice("hem", "a", "b", "c"),),
    )
    assert find_faults(made) == ([], 6)


def test_a_measurement_that_shrinks_is_a_warning_and_a_growing_one_is_none() -> None:
    height = Measurement(name="length", title="Length", parts=(Between(piece="back", start="a", stop="d"),))
    assert said(two_rectangles((200, 230, 260), measurements=(height,))) == []
    assert said(two_rectangles((200, 199.5, 260), measurements=(height,))) == []
    (found,) = find_faults(two_rectangles((200, 230, 220), measurements=(height,)))[0]
    assert (found.code, found.severity, found.sizes) == ("shrinking-grading", "warning", ("104",))
    assert found.seen == "`length` 230.0 mm in size 92 but 220.0 mm in size 104"


def test_a_piece_that_can_not_be_made_is_told_once_and_its_seams_are_left_alone() -> None:
    """Allowances of 90 mm on each side of a piece 150 mm wide that is drawn as cut leave nothing to sew."""
    made = pattern(
        piece("front", four_edges(right=90.0, left=90.0), {s: rectangle(150, 200) for s in SIZES}, drawn="cutting"),
        piece("back", four_edges(), {s: rectangle(150, 200) for s in SIZES}),
        sizes=SIZES,
        seams=(SIDE,),
    )
    assert said(made) == [("not-measurable", ("pieces", "front"), SIZES)]


def test_an_edge_that_is_not_there_is_told_at_the_seam() -> None:
    wrong = Seam(name="side", join=(part("front", "middle"),), to=SIDE.to)
    assert said(two_rectangles((200, 200, 200), wrong)) == [("not-measurable", ("seams", 0), SIZES)]


def test_words_for_where_something_was_seen() -> None:
    assert findings.told({}, "92") == "in size 92"
    assert (
        findings.told({"length": "hip", "size": "92", "lined": "full"}, "92")
        == "in size 92 with length hip, lined full"
    )
