"""The cutting list over all choices: one line for each different outline and way of cutting."""

from __future__ import annotations

from boltside.calculators.conditions import holds
from boltside.measure.cutting_list import cut_lines
from boltside.pattern import Carried, Case, Copy, CutEntry, CutOff, Interfacing, Outline, Rule

from .handmade import choice, edge, four_edges, pattern, piece, rectangle, when
from .test_garment import opened_either_way

SHORT = CutOff(line="waist", keep="c", edge="waist", allowance_mm=(Case(mm=12),), when=when(length="waist"))


def waisted(width_mm: float = 200) -> Outline:
    return rectangle(width_mm, 400, lines={"waist": ((0.0, 150.0), (width_mm, 150.0))})


def test_a_piece_that_no_choice_changes_is_one_line() -> None:
    made = pattern(piece("front", four_edges(), rectangle(200, 400)), choices=(choice("length", "hip", "waist"),))
    (line,) = cut_lines(made)
    assert (line.line_id, line.when, line.mode, line.count, line.kind) == ("front.outer", (), "single", 1, "cut")


def test_outlines_that_differ_are_lines_of_their_own() -> None:
    made = pattern(
        piece("front", four_edges(), waisted(), cut_offs=(SHORT,)),
        choices=(choice("length", "hip", "waist"), choice("colour", "red", "blue")),
    )
    assert [(line.line_id, line.when) for line in cut_lines(made)] == [
        ("front.outer.hip", ({"length": ("hip",)},)),
        ("front.outer.waist", ({"length": ("waist",)},)),
    ]


def test_choices_that_lead_to_the_same_outline_share_a_line() -> None:
    """The hem's allowance depends on the finish, but the short version has no hem."""
    edges = (edge("bottom", "a", Case(mm=40, when=when(finish="deep")), 15.0), *four_edges()[1:])
    made = pattern(
        piece("front", edges, waisted(), cut_offs=(SHORT,)),
        choices=(choice("length", "hip", "waist"), choice("finish", "plain", "deep")),
    )
    assert [(line.line_id, line.when) for line in cut_lines(made)] == [
        ("front.outer.hip.plain", ({"length": ("hip",), "finish": ("plain",)},)),
        ("front.outer.hip.deep", ({"length": ("hip",), "finish": ("deep",)},)),
        ("front.outer.waist", ({"length": ("waist",)},)),
    ]


def test_allowances_do_not_move_a_drawn_cutting_line() -> None:
    edges = (edge("bottom", "a", Case(mm=40, when=when(finish="deep")), 15.0), *four_edges()[1:])
    made = pattern(
        piece("front", edges, rectangle(200, 400), drawn="cutting"), choices=(choice("finish", "plain", "deep"),)
    )
    assert [(line.line_id, line.when) for line in cut_lines(made)] == [("front.outer", ())]


def test_ways_of_cutting_that_differ_are_lines_of_their_own() -> None:
    entries = (
        CutEntry(cloth="outer", mode="pair", count=2, when=when(seam="sewn")),
        CutEntry(cloth="outer", mode="fold", count=1, fold_edge="left"),
        CutEntry(cloth="lining", mode="single", count=1, when=when(lined="full")),
    )
    made = pattern(
        piece("back", four_edges(left=0), rectangle(200, 400), cut=entries),
        choices=(choice("seam", "none", "sewn"), choice("lined", "none", "full")),
    )
    assert [(line.line_id, line.mode, line.count, line.when) for line in cut_lines(made)] == [
        ("back.outer.none", "fold", 1, ({"seam": ("none",)},)),
        ("back.outer.sewn", "pair", 2, ({"seam": ("sewn",)},)),
        ("back.lining", "single", 1, ({"lined": ("full",)},)),
    ]


def test_a_crosswise_fold_edge_is_unfolded() -> None:
    entry = CutEntry(cloth="outer", mode="fold", count=2, fold_edge="bottom")
    made = pattern(
        piece(
            "band",
            four_edges(),
            rectangle(200, 400),
            cut=(entry,),
            interfacing=(Interfacing(cloth="interfacing", area=None, to="stitching"),),
        )
    )
    band, interfacing = cut_lines(made)
    assert (band.mode, band.count, band.unfolded, band.fold_edge) == ("single", 2, True, "bottom")
    assert (interfacing.mode, interfacing.count, interfacing.unfolded) == ("single", 2, True)


def test_roles_and_interfacing_over_all_choices() -> None:
    lines = {line.line_id: line for line in cut_lines(opened_either_way())}
    expected = {"pocket.outer"}
    for opened, whole in (("front", "back"), ("back", "front")):
        for length in ("hip", "waist"):
            # Cut as a pair where it is opened, on the fold where the other one is; lined only where it is opened.
            expected |= {f"{opened}.outer.{opened}.{length}", f"{whole}.outer.{opened}.{length}"}
            expected |= {f"{opened}.lining.{opened}.{length}"}
            expected |= {f"{opened}.interfacing.strip.wearers-{side}.{opened}.{length}" for side in ("left", "right")}
            expected |= {f"{whole}.interfacing.strip.{opened}.{length}"}
    assert set(lines) == expected
    left = lines["front.interfacing.strip.wearers-left.front.hip"]
    assert (left.mode, left.count, left.carried_by, left.to) == ("single", 1, ("wearers-left",), "cutting")
    assert left.when == ({"opening": ("front",), "length": ("hip",)},)
    pair = lines["front.outer.front.hip"]
    assert [copy.name for copy in pair.copies] == ["wearers-left", "wearers-right"]
    assert lines["pocket.outer"].when == ({"pockets": ("two",)},)


def test_impossible_combinations_give_no_lines() -> None:
    """Sleeve ends are asked with sleeves only; deep cuffs are forbidden."""
    edges = (edge("bottom", "a", Case(mm=40, when=when(end="hemmed")), Case(mm=60, when=when(end="deep")), 10.0),)
    made = pattern(
        piece("sleeve", (*edges, *four_edges()[1:]), rectangle(200, 300), when=when(sleeves="long")),
        choices=(
            choice("sleeves", "none", "long"),
            choice("end", "hemmed", "gathered", "deep", asked_when=when(sleeves="long")),
            choice("width", "slim", "wide"),
        ),
        rules=(
            Rule(when=when(end="deep"), needs=when(width="wide"), because="x"),
            Rule(when=when(end="deep"), needs=when(width="slim"), because="x"),
        ),
    )
    assert [(line.line_id, line.when) for line in cut_lines(made)] == [
        ("sleeve.outer.hemmed", ({"end": ("hemmed",)},)),
        ("sleeve.outer.gathered", ({"end": ("gathered",)},)),
    ]


def test_a_line_may_depend_on_the_size() -> None:
    shapes = {"92": rectangle(200, 400), "98": rectangle(210, 410), "104": rectangle(220, 420)}
    entries = (
        CutEntry(cloth="outer", mode="fold", count=1, fold_edge="left", when=when(size=["92", "98"])),
        CutEntry(cloth="outer", mode="pair", count=2),
    )
    made = pattern(
        piece("back", four_edges(left=0), shapes, cut=entries),
        piece("gusset", four_edges(), shapes, when=when(size=["98", "104"], knees="yes")),
        sizes=("92", "98", "104"),
        choices=(choice("knees", "no", "yes"),),
    )
    fold, pair, gusset = cut_lines(made)
    assert (fold.line_id, fold.sizes, fold.when) == (
        "back.outer.92-98",
        ("92", "98"),
        ({"size": ("92", "98")},),
    )
    assert (pair.line_id, pair.sizes, pair.when) == ("back.outer.104", ("104",), ({"size": ("104",)},))
    assert (gusset.line_id, gusset.sizes) == ("gusset.outer", ("98", "104"))
    assert holds(gusset.when, {"size": "98", "knees": "yes"})
    assert not holds(gusset.when, {"size": "92", "knees": "yes"})
    assert not holds(gusset.when, {"size": "98", "knees": "no"})


def test_copies_come_with_their_line() -> None:
    entry = CutEntry(cloth="outer", mode="pair", count=2)
    copies = (
        Copy(name="wearers-left", carries=(Carried(what="buttonholes"),), drawn=True),
        Copy(name="wearers-right", carries=(Carried(what="buttons"),)),
    )
    made = pattern(piece("front", four_edges(), rectangle(200, 400), cut=(entry,), copies=copies))
    (line,) = cut_lines(made)
    assert line.copies == copies
