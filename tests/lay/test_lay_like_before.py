"""A search may start from finished lays: from their order, always to a right lay, and the same one each time."""

from pieces_for_lays import jacket_request

from boltside.lay.brackets import CoverSearch
from boltside.lay.folded import solve_by_filling
from boltside.lay.lattice import AskedSet, Node
from boltside.lay.like_before import orders_of
from boltside.lay.model import Lay, LayItem, LayRequest, Placement
from boltside.lay.slots import slots_of
from boltside.lay.verify import faults


def strip(name: str, length_mm: float) -> LayItem:
    """A rectangle 100 mm wide."""
    outline = ((0.0, 0.0), (length_mm, 0.0), (length_mm, 100.0), (0.0, 100.0))
    return LayItem(item_id=name, outline_mm=outline, mode="single", count=1)


def put(name: str, x_mm: float, *, turned: bool = False) -> Placement:
    return Placement(item_id=name, copy=0, x_mm=x_mm, y_mm=100.0 if turned else 0.0, turned=turned, mirrored=False)


def test_the_order_is_read_from_where_the_pieces_lie() -> None:
    """Three strips one behind the other: b, c turned round, a; the fourth is in no lay yet."""
    items = tuple(strip(name, length) for name, length in (("a", 50), ("b", 80), ("c", 60), ("d", 20)))
    request = LayRequest(items=items, bolt_width_mm=130, way="flat", one_way=False)
    lay = Lay(
        length_mm=190,
        placements=(put("b", 0), put("c", 140, turned=True), put("a", 140)),
        way="flat", bolt_width_mm=130, one_way=False,
    )  # fmt: skip
    slots = slots_of(request)
    names = [slot.item_id for slot in slots]
    for lying, missing in orders_of(slots, lay):
        assert [names[one.slot] for one in lying] == ["b", "c", "a"]
        assert [names[number] for number in missing] == ["d"]
        assert [(one.low_x, one.high_x) for one in lying] == [(0, 80), (80, 140), (140, 190)]
        assert [one.turned for one in lying] == [False, True, False]


def test_a_lay_that_starts_from_another_is_right_and_the_same_each_time() -> None:
    """From a wider cloth, from a narrower one, and with nap from a lay in which pieces are turned."""
    before = solve_by_filling(jacket_request("folded"), trials=200)
    for width_mm in (700.0, 760.0):
        for one_way in (False, True):
            request = jacket_request("folded", bolt_width_mm=width_mm, one_way=one_way)
            lay = solve_by_filling(request, trials=200, like=[before])
            assert faults(request, lay) == []
            assert lay == solve_by_filling(request, trials=200, like=[before])


def test_its_own_lay_is_found_again_in_few_trials() -> None:
    """Where nothing has changed, starting from the lay itself loses next to nothing of it."""
    request = jacket_request("folded")
    before = solve_by_filling(request, trials=4000)
    again = solve_by_filling(request, trials=12, like=[before])
    assert again.length_mm <= before.length_mm * 1.1
    assert faults(request, again) == []


def test_the_nearest_folded_lays_are_offered() -> None:
    items = {name: strip(name, length) for name, length in (("a", 300), ("b", 200), ("c", 20))}
    asked = [AskedSet(item_ids=frozenset(ids), naps=frozenset({False, True})) for ids in ("ab", "abc", "a")]
    search = CoverSearch(items, asked, widths_mm=[400, 450, 900], ways=["folded", "flat"])
    wanted = Node(way="folded", nap=False, item_ids=frozenset("abc"), width_mm=450)
    assert search.like(wanted) == ()
    laid: dict[str, Lay] = {}
    folded = [("folded", "a", 900), ("folded", "ab", 450), ("folded", "abc", 400)]
    for way, ids, width_mm in (*folded, ("flat", "abc", 450)):
        node = Node(way=way, nap=False, item_ids=frozenset(ids), width_mm=width_mm)  # type: ignore[arg-type]
        laid[f"{way} {ids}"] = solve_by_filling(search.request(node), trials=10)
        search.take(node, laid[f"{way} {ids}"])
    assert search.like(wanted) == (laid["folded ab"], laid["folded abc"], laid["folded a"])
    assert search.like(Node(way="flat", nap=False, item_ids=frozenset("abc"), width_mm=400)) == ()
