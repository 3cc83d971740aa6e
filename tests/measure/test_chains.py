"""Which edges follow on from each other on the sewn garment?"""

from __future__ import annotations

import pytest

from boltside.measure.chains import broken_links, neighbours
from boltside.measure.garment import make_garment
from boltside.measure.model import MeasureError
from boltside.pattern import EdgePart, Pattern, RolePart, RolePlay, Seam

from .handmade import choice, four_edges, pattern, piece, rectangle, when


def part(dotted: str) -> EdgePart:
    piece_name, _, edge = dotted.partition(".")
    return EdgePart(piece=piece_name, edge=edge)


def seam(name: str, join: str, to: str) -> Seam:
    return Seam(name=name, join=tuple(part(one) for one in join.split()), to=tuple(part(one) for one in to.split()))


def shirt(*seams: Seam) -> Pattern:
    """Front, back and a facing, rectangles with edges bottom, right, top, left."""
    shape = rectangle(200, 400)
    return pattern(
        piece("front", four_edges(), shape),
        piece("back", four_edges(), shape),
        piece("facing", four_edges(), shape),
        choices=(choice("opening", "front", "back"),),
        roles=(
            RolePart(
                role="opened",
                plays=(
                    RolePlay(piece="front", when=when(opening="front")),
                    RolePlay(piece="back", when=when(opening="back")),
                ),
            ),
        ),
        seams=seams,
    )


def links(chain: str, *others: Seam, opening: str = "front") -> list[tuple[str, str]]:
    """What does not follow on in the chain, with these other seams sewn."""
    asked = seam("asked", chain, "facing.top")
    garment = make_garment(shirt(asked, *others), "92", {"opening": opening})
    return [(f"{a.piece}.{a.edge}", f"{b.piece}.{b.edge}") for a, b in broken_links(garment, asked, asked.join)]


SIDE = seam("side", "front.right", "back.right")


@pytest.mark.parametrize("chain", ["front.top", "front.top front.top", "front.bottom front.right front.top"])
def test_edges_of_one_piece_follow_on_round_it(chain: str) -> None:
    assert links(chain) == []


def test_edges_across_a_piece_do_not_unless_the_piece_is_sewn_to_itself_between() -> None:
    assert links("front.top front.bottom") == [("front.top", "front.bottom")]
    assert links("front.top front.bottom", seam("tube", "front.left", "front.right")) == []


def test_edges_of_two_pieces_follow_on_where_a_seam_joins_their_neighbours() -> None:
    assert links("front.top back.top") == [("front.top", "back.top")]
    assert links("front.top back.top", SIDE) == []
    assert links("back.top front.top", SIDE) == []
    assert links("front.top back.top", seam("side", "back.right facing.right", "front.right")) == []


def test_a_seam_elsewhere_does_not_help() -> None:
    assert links("front.left back.left", SIDE) == [("front.left", "back.left")]
    assert links("front.top back.top", seam("other", "front.right", "facing.right")) == [("front.top", "back.top")]


def test_the_seam_itself_does_not_join_its_own_chain() -> None:
    asked = seam("asked", "front.top back.top", "front.right back.right")
    garment = make_garment(shirt(asked), "92", {"opening": "front"})
    assert len(broken_links(garment, asked, asked.join)) == 1


@pytest.mark.parametrize("opening", ["front", "back"])
def test_roles_are_the_pieces_that_play_them(opening: str) -> None:
    other = "back" if opening == "front" else "front"
    assert links(f"as:opened.top {other}.top", SIDE, opening=opening) == []
    assert links(f"{other}.top front.top back.top", seam("side", "as:opened.right", "facing.right"), opening=opening)


def test_neighbours_are_those_round_the_piece() -> None:
    garment = make_garment(shirt(), "92", {"opening": "front"})
    assert neighbours(garment, part("front.top")) == {"right", "top", "left"}
    with pytest.raises(MeasureError, match="no edge 'middle'"):
        neighbours(garment, part("front.middle"))
