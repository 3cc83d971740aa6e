"""A finished measurement is held to the ease that the designer states, for the kind of cloth that was chosen."""

from __future__ import annotations

from boltside.measure.ease import ease_off
from boltside.measure.findings import find_faults
from boltside.pattern import Between, BodyChart, Cloth, KindCase, Measurement, Pattern

from .handmade import choice, four_edges, pattern, piece, rectangle, when

SIZES = ("80", "92")
CHART = BodyChart(name="made up", sources=(), rows={"80": {"chest": 280.0}, "92": {"chest": 290.0}})
WIDTH = Between(piece="front", start="a", stop="b", times=2)


def made(ease_mm: dict[str, tuple[float, float]], **more: object) -> Pattern:
    """A front 150 mm wide in size 80 and 160 in size 92, so twice as wide is an ease of 20 and 30 mm."""
    outlines = {"80": rectangle(150, 200), "92": rectangle(160, 200)}
    return pattern(
        piece("front", four_edges(), outlines),
        sizes=SIZES,
        measurements=(Measurement(name="chest", title="Chest", parts=(WIDTH,), body="chest", ease_mm=ease_mm),),
        body_chart=CHART,
        **more,
    )


def off(one: Pattern) -> list[tuple[str, str, float]]:
    return [(o.size, o.kind, round(o.ease_mm, 1)) for o in ease_off(one, one.measurements[0], ["front"])]


def cloth(*cases: KindCase, kinds: tuple[str, ...] = ("woven", "knit")) -> Cloth:
    return Cloth(
        name="outer", title="Outer", kinds=kinds, kind_cases=cases, widths_mm=(1400,), usual_width_mm=1400,
        ways=("flat",), nap=(),
    )  # fmt: skip


def test_an_ease_within_what_is_meant_is_not_told() -> None:
    assert off(made({"woven": (20, 30)})) == []
    assert off(made({"woven": (20.4, 29.6)})) == []


def test_too_little_and_too_much_are_told_in_their_sizes() -> None:
    assert off(made({"woven": (25, 40)})) == [("80", "woven", 20.0)]
    assert off(made({"woven": (0, 25)})) == [("92", "woven", 30.0)]
    assert off(made({"woven": (50, 60)})) == [("80", "woven", 20.0), ("92", "woven", 30.0)]


def test_the_chosen_cloth_decides_which_ease_is_meant() -> None:
    two = (choice("cloth", "woven", "knit"),)
    cases = (KindCase(kinds=("knit",), when=when(cloth="knit")), KindCase(kinds=("woven",)))
    one = made({"woven": (20, 30), "knit": (0, 25)}, choices=two, cloths=(cloth(*cases),))
    assert off(one) == [("92", "knit", 30.0)]
    assert [dict(o.chosen) for o in ease_off(one, one.measurements[0], ["front"])] == [{"cloth": "knit"}]


def test_a_kind_without_a_range_says_nothing() -> None:
    assert off(made({"knit": (500, 600)}, cloths=(cloth(kinds=("woven",)),))) == []


def test_it_is_a_warning_told_once_with_its_sizes() -> None:
    found, _ = find_faults(made({"woven": (50, 60)}))
    assert [(one.code, one.severity, one.path, one.sizes) for one in found] == [
        ("ease-off", "warning", ("measurements", 0), ("80", "92"))
    ]
