"""Two garments of one pattern: which pieces lie on one length of cloth, under which names."""

from __future__ import annotations

from boltside.lay.model import LayItem
from boltside.pairs import line_in_pair, name_in_pair, pair_demand, pair_key, pair_words, search_for_pair

TWO, TWINS = ("86", "92"), ("92", "92")
NAP, PLAIN, EITHER = frozenset({True}), frozenset({False}), frozenset({True, False})
FRONT, POCKET = "front.outer", "pocket.outer"


def box(line: str, long: float) -> LayItem:
    return LayItem(item_id=line, outline_mm=((0, 0), (long, 0), (long, 100), (0, 100)), mode="single", count=1)


def test_names_tell_line_and_garment() -> None:
    for pair, names in ((TWO, ("front.outer@86", "front.outer@92")), (TWINS, ("front.outer@92.1", "front.outer@92.2"))):
        for garment, name in enumerate(names):
            assert name_in_pair(FRONT, pair, garment) == name
            assert line_in_pair(name, pair) == (FRONT, garment)
    assert (pair_key(TWO), pair_words(TWO), pair_words(TWINS)) == ("86+92", "size 86 with 92", "size 92 twice")


def test_both_garments_have_the_same_options_and_only_pieces_that_their_size_has() -> None:
    """The pocket is not cut in size 86; sets are pairs of the same choice, never one of a choice and one of another."""
    items = [{FRONT: box(FRONT, 300)}, {FRONT: box(FRONT, 320), POCKET: box(POCKET, 90)}]
    bare, pocketed = frozenset({FRONT}), frozenset({FRONT, POCKET})
    reached = [
        [({"pockets": "none"}, bare, EITHER)],
        [({"pockets": "none"}, bare, EITHER), ({"pockets": "two"}, pocketed, EITHER)],
    ]
    demand = pair_demand(TWO, items, reached, [bare, pocketed])
    assert set(demand.items) == {"front.outer@86", "front.outer@92", "pocket.outer@92"}
    assert demand.items["front.outer@92"].outline_mm == box(FRONT, 320).outline_mm
    assert demand.naps == {bare: EITHER}
    assert demand.joint(bare) == {"front.outer@86", "front.outer@92"}


def test_lines_that_only_one_size_has_are_served_by_the_set_that_holds_both() -> None:
    items = [{FRONT: box(FRONT, 300)}, {FRONT: box(FRONT, 320), POCKET: box(POCKET, 90)}]
    bare, pocketed = frozenset({FRONT}), frozenset({FRONT, POCKET})
    reached = [[({}, bare, PLAIN)], [({}, pocketed, PLAIN)]]
    demand = pair_demand(TWO, items, reached, [bare, pocketed])
    assert demand.naps == {pocketed: PLAIN}
    assert demand.joint(pocketed) == {"front.outer@86", "front.outer@92", "pocket.outer@92"}
    assert pair_demand(TWO, items, reached, [bare]).naps == {}, "no row of the published sets could hold it"


def test_one_garment_with_nap_makes_both_lie_so() -> None:
    items = [{FRONT: box(FRONT, 300)}, {FRONT: box(FRONT, 320)}]
    bare = frozenset({FRONT})
    assert pair_demand(TWO, items, [[({}, bare, NAP)], [({}, bare, EITHER)]], [bare]).naps == {bare: NAP}


def test_twins_are_two_of_each_piece_and_are_laid_quickly() -> None:
    items = [{FRONT: box(FRONT, 300)}] * 2
    bare = frozenset({FRONT})
    demand = pair_demand(TWINS, items, [[({}, bare, PLAIN)]] * 2, [bare])
    assert set(demand.items) == {"front.outer@92.1", "front.outer@92.2"}
    search = search_for_pair(demand, widths_mm=(300.0,), ways=("flat",), full=True)
    node = search.next_node()
    assert node is not None and search.quick_will_do(node)
