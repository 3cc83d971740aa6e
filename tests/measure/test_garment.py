"""A garment in one size with certain choices: roles, conditions, cut-offs, allowances, interfacing."""

from __future__ import annotations

import gc
from typing import Any

import pytest

from boltside.measure import garment as garment_module
from boltside.measure.garment import make_garment
from boltside.measure.model import MeasureError
from boltside.pattern import Carried, Case, Copy, CutEntry, CutOff, Interfacing, Pattern, RolePart, RolePlay

from .handmade import choice, edge, four_edges, pattern, piece, rectangle, when

FRONT, BACK = when(opening="front"), when(opening="back")


def opened_either_way(**more: Any) -> Pattern:
    """Front and back halves that swap their roles; the opened one is a pair with 25 mm in the middle."""
    shape = rectangle(
        200,
        400,
        lines={"waist": ((0.0, 150.0), (200.0, 150.0))},
        areas={"strip": ((-50, -50), (30, -50), (30, 300), (-50, 300))},
    )
    edges = four_edges(bottom=30, right=10, top=8, left=0)
    short = CutOff(line="waist", keep="c", edge="waist", allowance_mm=(Case(mm=12),), when=when(length="waist"))
    return pattern(
        piece("front", edges, shape, cut=(), cut_offs=(short,)),
        piece("back", edges, shape, cut=(), cut_offs=(short,)),
        piece("pocket", four_edges(), rectangle(80, 90), when=when(pockets="two")),
        choices=(
            choice("opening", "front", "back"),
            choice("length", "hip", "waist"),
            choice("pockets", "none", "two"),
        ),
        roles=(
            RolePart(
                role="opened",
                plays=(RolePlay(piece="front", when=FRONT), RolePlay(piece="back", when=BACK)),
                allowances_mm={"left": (Case(mm=25),)},
                cut=(CutEntry(cloth="outer", mode="pair", count=2), CutEntry(cloth="lining", mode="pair", count=2)),
                copies=(Copy(name="wearers-left", carries=(Carried(what="buttonholes"),)), Copy(name="wearers-right")),
                interfacing=(
                    Interfacing(cloth="interfacing", area="strip", to="cutting", copies=("wearers-left",)),
                    Interfacing(cloth="interfacing", area="strip", to="stitching", copies=("wearers-right",)),
                ),
            ),
            RolePart(
                role="whole",
                plays=(RolePlay(piece="back", when=FRONT), RolePlay(piece="front", when=BACK)),
                cut=(CutEntry(cloth="outer", mode="fold", count=1, fold_edge="left"),),
                interfacing=(Interfacing(cloth="interfacing", area="strip", to="cutting"),),
            ),
        ),
        **more,
    )


@pytest.mark.parametrize(("opening", "opened", "whole"), [("front", "front", "back"), ("back", "back", "front")])
def test_roles_swap_written_once(opening: str, opened: str, whole: str) -> None:
    made = make_garment(opened_either_way(), "92", {"opening": opening, "length": "hip", "pockets": "none"})
    assert made.roles == {"opened": opened, "whole": whole}
    assert set(made.pieces) == {"front", "back"}
    pair, half = made.piece("as:opened"), made.piece("as:whole")
    assert (pair.name, half.name) == (opened, whole)
    assert [(entry.cloth, entry.mode, entry.count) for entry in pair.cut] == [
        ("outer", "pair", 2),
        ("lining", "pair", 2),
    ]
    assert [copy.name for copy in pair.copies] == ["wearers-left", "wearers-right"]
    assert half.copies == ()
    assert pair.edge("left").allowance_mm == 25
    assert half.edge("left").allowance_mm == 0
    assert pair.cutting_mm == ((-25, -30), (210, -30), (210, 408), (-25, 408))
    assert half.cutting_mm == ((0, -30), (210, -30), (210, 408), (0, 408))


def test_interfacing_goes_as_far_as_it_says_on_the_copies_named() -> None:
    made = make_garment(opened_either_way(), "92", {"opening": "front", "length": "hip", "pockets": "none"})
    left, right = made.pieces["front"].interfaced
    # To the cutting line: 25 mm beyond the middle, 30 mm of hem. To the stitching line: neither.
    assert (left.area_mm2, left.copies, left.mode, left.face) == (pytest.approx(55 * 330), 1, "single", "up")
    assert (right.area_mm2, right.copies, right.mode, right.face) == (pytest.approx(30 * 300), 1, "single", "down")
    (whole,) = made.pieces["back"].interfaced
    # On the fold one copy is twice the half.
    assert (whole.area_mm2, whole.copies, whole.mode) == (pytest.approx(2 * 30 * 330), 1, "fold")
    assert whole.fold_mm == ((0, 408), (0, -30))


def test_cut_offs_shorten_both_players() -> None:
    made = make_garment(opened_either_way(), "92", {"opening": "front", "length": "waist", "pockets": "none"})
    for name in ("front", "back"):
        edges = {e.name: e.length_mm for e in made.pieces[name].edges}
        assert edges == {"right": 250, "top": 200, "left": 250, "waist": 200}
    assert made.pieces["front"].cutting_mm == ((210, 138), (210, 408), (-25, 408), (-25, 138))
    # Interfacing to the cutting line reaches 12 mm below the new waist seam.
    left, right = made.pieces["front"].interfaced
    assert (left.area_mm2, right.area_mm2) == (pytest.approx(55 * 162), pytest.approx(30 * 150))


def test_a_piece_is_there_only_when_its_condition_holds() -> None:
    with_pockets = make_garment(opened_either_way(), "92", {"opening": "front", "length": "hip", "pockets": "two"})
    assert "pocket" in with_pockets.pieces
    without = make_garment(opened_either_way(), "92", {"opening": "front", "length": "hip", "pockets": "none"})
    with pytest.raises(MeasureError, match="there is no piece 'pocket' in size 92"):
        without.piece("pocket")


def test_an_allowance_may_depend_on_choices_and_on_the_size() -> None:
    edges = (
        edge("bottom", "a", Case(mm=40, when=when(size=["92"], hem="deep")), Case(mm=20, when=when(hem="deep")), 10.0),
        *four_edges()[1:],
    )
    shapes = {"92": rectangle(200, 400), "98": rectangle(210, 420)}
    both = pattern(piece("front", edges, shapes), sizes=("92", "98"), choices=(choice("hem", "plain", "deep"),))

    def hem_mm(size: str, hem: str) -> float:
        return make_garment(both, size, {"hem": hem}).pieces["front"].edge("bottom").allowance_mm

    assert (hem_mm("92", "deep"), hem_mm("98", "deep"), hem_mm("92", "plain")) == (40, 20, 10)


def test_the_first_cut_entry_of_a_cloth_that_holds_is_taken() -> None:
    entries = (
        CutEntry(cloth="outer", mode="pair", count=2, when=when(seam="sewn")),
        CutEntry(cloth="outer", mode="fold", count=1, fold_edge="right"),
        CutEntry(cloth="lining", mode="single", count=1, face="down", when=when(seam="none")),
    )
    one = pattern(
        piece("frill", four_edges(), rectangle(300, 100), cut=entries), choices=(choice("seam", "none", "sewn"),)
    )
    sewn = make_garment(one, "92", {"seam": "sewn"}).pieces["frill"]
    assert [(entry.cloth, entry.mode) for entry in sewn.cut] == [("outer", "pair")]
    assert sewn.edge("right").allowance_mm == 10
    plain = make_garment(one, "92", {"seam": "none"}).pieces["frill"]
    assert [(entry.cloth, entry.mode) for entry in plain.cut] == [("outer", "fold"), ("lining", "single")]
    # On the fold in one cloth and not in the other: each has its own cutting line.
    assert plain.edge("right").allowance_mm == 0
    assert max(x for x, _ in plain.by_cloth["outer"].cutting_mm) == 300
    assert max(x for x, _ in plain.by_cloth["lining"].cutting_mm) == 310


def test_problems_name_the_piece_and_the_size() -> None:
    edges = four_edges()
    with pytest.raises(MeasureError, match="piece 'front', size 92: the stitching line crosses itself"):
        make_garment(pattern(piece("front", edges, rectangle(15, 400), drawn="cutting")), "92", {})
    with pytest.raises(MeasureError, match="piece 'front', size 92: there is no outline"):
        make_garment(pattern(piece("front", edges, {"98": rectangle(200, 400)})), "92", {})
    fold = CutEntry(cloth="outer", mode="fold", count=1, fold_edge="middle")
    with pytest.raises(MeasureError, match="the edge 'middle' that should lie on the fold is not there"):
        make_garment(
            pattern(
                piece(
                    "front",
                    edges,
                    rectangle(200, 400),
                    cut=(fold,),
                    interfacing=(Interfacing(cloth="interfacing", area=None, to="cutting"),),
                )
            ),
            "92",
            {},
        )


def test_nothing_is_kept_of_a_pattern_that_is_gone() -> None:
    before = len(garment_module._made)
    one = pattern(piece("front", four_edges(), rectangle(200, 400)))
    first = make_garment(one, "92", {}).pieces["front"]
    assert make_garment(one, "92", {}).pieces["front"] is first
    assert len(garment_module._made) == before + 1
    del one, first
    gc.collect()
    assert len(garment_module._made) <= before
