"""Which copy is as drawn, and in which hand does its interfacing come out?"""

from __future__ import annotations

from itertools import pairwise

import pytest

from boltside.lay.model import LayItem
from boltside.measure.copies import merged_copies
from boltside.measure.cutting_list import cut_lines
from boltside.measure.lay_items import cutting_outline_mm, lay_item
from boltside.measure.model import CutLine
from boltside.pattern import Carried, Copy, CutEntry, Face, Interfacing, Pattern, RolePart, RolePlay

from .handmade import choice, four_edges, pattern, piece, rectangle, when

BUTTONS, HOLES = Carried(what="buttons"), Carried(what="buttonholes")
LEFT, RIGHT = Copy(name="wearers-left", carries=(HOLES,)), Copy(name="wearers-right", carries=(BUTTONS,))


def drawn_names(*copies: Copy) -> list[str]:
    return [copy.name for copy in copies if copy.drawn]


def test_the_first_named_is_as_drawn_where_nobody_says() -> None:
    assert drawn_names(*merged_copies((), (LEFT, RIGHT))) == ["wearers-left"]
    assert drawn_names(*merged_copies((), (RIGHT, LEFT))) == ["wearers-right"]
    four = tuple(Copy(name=name) for name in "abcd")
    assert drawn_names(*merged_copies(four, ())) == ["a", "b"]


def test_the_role_says_which_and_the_piece_knows_better() -> None:
    of_role = (LEFT, Copy(name="wearers-right", carries=(BUTTONS,), drawn=True))
    assert drawn_names(*merged_copies((), of_role)) == ["wearers-right"]
    merged = merged_copies((Copy(name="wearers-left", drawn=True),), of_role)
    assert drawn_names(*merged) == ["wearers-left"]
    assert {copy.name: copy.carries for copy in merged} == {"wearers-left": (HOLES,), "wearers-right": (BUTTONS,)}


def test_what_is_carried_adds_up_and_is_told_once() -> None:
    (left,) = merged_copies((Copy(name="wearers-left", carries=(HOLES, BUTTONS)),), (LEFT,))
    assert left.carries == (HOLES, BUTTONS)


def swapping() -> Pattern:
    """Front and back, both drawn to the left of the centre line, face up: of a front that is the wearer's right half,
    of a back the wearer's left. Either opens in the middle; a lopsided corner is interfaced on the wearer's left only.
    """
    corner = ((0.0, 0.0), (60.0, 0.0), (0.0, 30.0))
    shape = rectangle(200, 400, areas={"corner": corner})
    return pattern(
        piece("front", four_edges(), shape, cut=(), copies=(Copy(name="wearers-right", drawn=True),)),
        piece("back", four_edges(), shape, cut=(), copies=(Copy(name="wearers-left", drawn=True),)),
        choices=(choice("opening", "front", "back"),),
        roles=(
            RolePart(
                role="opened",
                plays=(
                    RolePlay(piece="front", when=when(opening="front")),
                    RolePlay(piece="back", when=when(opening="back")),
                ),
                cut=(CutEntry(cloth="outer", mode="pair", count=2),),
                copies=(LEFT, RIGHT),
                interfacing=(Interfacing(cloth="interfacing", area="corner", to="cutting", copies=("wearers-left",)),),
            ),
            RolePart(
                role="whole",
                plays=(
                    RolePlay(piece="back", when=when(opening="front")),
                    RolePlay(piece="front", when=when(opening="back")),
                ),
                cut=(CutEntry(cloth="outer", mode="fold", count=1, fold_edge="left"),),
            ),
        ),
    )


@pytest.mark.parametrize(("name", "face"), [("front", "down"), ("back", "up")])
def test_with_roles_swapped_the_interfacing_is_of_the_hand_of_its_copy(name: str, face: Face) -> None:
    made = swapping()
    (line,) = [one for one in cut_lines(made) if one.kind == "interfacing" and one.piece == name]
    assert (line.mode, line.count, line.face, line.carried_by) == ("single", 1, face, ("wearers-left",))
    item = lay_item(made, line, "92")
    assert item.face == face
    # The item's outline is the one that is drawn; `face` alone says that it is laid mirrored.
    assert longer_leg_is_first_anticlockwise(item) == longer_leg_is_first_anticlockwise_as_drawn(made, line)


def longer_leg_is_first_anticlockwise(item: LayItem) -> bool:
    """Of the two legs of a right-angled triangle, which comes first when it is gone round anticlockwise?"""
    return _longer_first(item.outline_mm)


def longer_leg_is_first_anticlockwise_as_drawn(made: Pattern, line: CutLine) -> bool:
    return _longer_first(cutting_outline_mm(made, line, "92"))


def _longer_first(ring: tuple[tuple[float, float], ...]) -> bool:
    area = sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(ring, ring[1:] + ring[:1], strict=True))
    corners = list(ring if area > 0 else ring[::-1])
    assert len(corners) == 3
    legs = [((b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2) ** 0.5 for a, b in pairwise([*corners, corners[0]])]
    long_side = legs.index(max(legs))
    return legs[(long_side + 1) % 3] > legs[(long_side + 2) % 3]


def test_copies_of_both_hands_make_a_pair() -> None:
    made = swapping()
    lines = [one for one in cut_lines(made) if one.kind == "cut" and one.mode == "pair"]
    assert {one.piece: drawn_names(*one.copies) for one in lines} == {
        "front": ["wearers-right"],
        "back": ["wearers-left"],
    }
