"""Laws of what is published: a buyer who buys wider cloth, fewer pieces or a smaller size is never told more."""

import itertools
import random
from math import ceil

from hypothesis import given, settings
from hypothesis import strategies as st

from boltside.lay.brackets import Cover, CoverPlan
from boltside.lay.lattice import Node
from boltside.lay.model import Lay, LayItem, Placement
from boltside.published_lays import Published, published_cloth

WIDTHS = (900.0, 1100.0, 1400.0)
SIZES = ("68", "74", "80", "86")
SETS = tuple(frozenset(ids) for ids in (["a"], ["a", "b"], ["a", "c"], ["a", "b", "c"], ["d"]))
WAYS = ("folded", "flat", "middle", "part-folded")
NEVER_LESS = {"folded": ("part-folded", "flat"), "part-folded": ("flat",), "middle": ("flat",), "flat": ()}
"""What the cloth is folded less than: a lay so folded also serves these."""


BOX = LayItem(item_id="a", outline_mm=((0, 0), (100, 0), (100, 100), (0, 100)), mode="single", count=9)
PIECES = {size: {"a": BOX} for size in SIZES}


def lay(node: Node, length_mm: float, rows: int = 1) -> Lay:
    """A lay that says it is so long, of so many boxes in a row."""
    placements = tuple(
        Placement(item_id="a", copy=copy, x_mm=100.0 * copy, y_mm=0.0, turned=False, mirrored=False)
        for copy in range(rows)
    )
    return Lay(length_mm=length_mm, placements=placements, way=node.way, bolt_width_mm=node.width_mm, one_way=node.nap)


def random_plans(seed: int) -> dict[str, CoverPlan]:
    """Lengths without any order, sets that some sizes lack, narrow cloth that some sets do not fit."""
    chance = random.Random(seed)
    plans = {}
    naps = chance.choice([(True, False), (False,), (True,)])
    for size in SIZES:
        covers = {}
        for ids in chance.sample(SETS, chance.randint(1, len(SETS))):
            for way, nap in itertools.product(WAYS, naps):
                for width_mm in WIDTHS[chance.randint(0, 2) :]:
                    node = Node(way=way, nap=nap, item_ids=ids, width_mm=width_mm)
                    covers[node] = Cover(node=node, lay=lay(node, chance.uniform(100, 2000), chance.randint(1, 9)))
        # A cover never grows with the width: the lay of narrower cloth serves too.
        for node in sorted(covers, key=lambda node: node.width_mm):
            narrower = [other for other in covers if _same_but_width(other, node) and other.width_mm <= node.width_mm]
            best = min(narrower, key=lambda other: covers[other].length_mm)
            covers[node] = covers[best]
        plans[size] = CoverPlan(covers=covers)
    return plans


def _same_but_width(one: Node, other: Node) -> bool:
    return (one.way, one.nap, one.item_ids) == (other.way, other.nap, other.item_ids)


def lengths(published: Published, repeat_mm: int = 0) -> dict[tuple[str, str, str, frozenset[str], float], int]:
    """What a buyer is told at each width: the steps end where the next begins; with a repeat for each row."""
    told = {}
    for way, by_nap in published.lengths.items():
        for nap, by_size in by_nap.items():
            for size, of_sets in by_size.items():
                for ids, steps in zip(published.sets, of_sets, strict=True):
                    for width_mm in WIDTHS:
                        reached = [length + repeat_mm * rows for width, length, _, rows in steps if width <= width_mm]
                        if reached:
                            told[way, nap, size, frozenset(ids), width_mm] = reached[-1]
    return told


plans_of_a_cloth = st.integers(0, 10**6).map(random_plans)


@settings(max_examples=100, deadline=None)
@given(plans_of_a_cloth)
def test_widths_grow_and_lengths_fall_in_every_row_of_steps(plans):
    published = published_cloth(plans, WAYS, WIDTHS, PIECES)
    for by_nap in published.lengths.values():
        for by_size in by_nap.values():
            for of_sets in by_size.values():
                assert len(of_sets) == len(published.sets)
                for steps in of_sets:
                    for one, other in itertools.pairwise(steps):
                        assert one[0] < other[0] and one[1] > other[1] and one[3] >= other[3]


@settings(max_examples=100, deadline=None)
@given(plans_of_a_cloth, st.sampled_from([0, 40, 640]))
def test_a_larger_size_a_larger_set_nap_or_folding_never_needs_less(plans, repeat_mm):
    """Nor does it with a repeat, when one is added for each row."""
    told = lengths(published_cloth(plans, WAYS, WIDTHS, PIECES), repeat_mm)
    for way, nap, size, ids, width_mm in told:
        here = told[way, nap, size, ids, width_mm]
        for larger in SIZES[SIZES.index(size) + 1 :]:
            assert told.get((way, nap, larger, ids, width_mm), here) >= here
        for other in SETS:
            if other > ids:
                assert told.get((way, nap, size, other, width_mm), here) >= here
        assert told.get((way, "with", size, ids, width_mm), here) >= here or nap == "with"
        for folded_less in NEVER_LESS[way]:
            assert told.get((folded_less, nap, size, ids, width_mm), here) <= here


@settings(max_examples=100, deadline=None)
@given(plans_of_a_cloth)
def test_no_demand_is_told_less_than_its_lay_and_none_is_left_out(plans):
    published = published_cloth(plans, WAYS, WIDTHS, PIECES)
    told = lengths(published)
    for size, plan in plans.items():
        for node, cover in plan.covers.items():
            nap = "with" if node.nap else "without"
            assert told[node.way, nap, size, node.item_ids, node.width_mm] >= ceil(cover.length_mm - 1e-6)


@settings(max_examples=100, deadline=None)
@given(plans_of_a_cloth)
def test_the_lay_that_a_step_names_fits_the_step(plans):
    published = published_cloth(plans, WAYS, WIDTHS, PIECES)
    for way, by_nap in published.lengths.items():
        for nap, by_size in by_nap.items():
            for size, of_sets in by_size.items():
                for ids, steps in zip(published.sets, of_sets, strict=True):
                    for width, length, number, rows in steps:
                        node, made = published.lays[way, size][number]  # type: ignore[index]
                        assert node.item_ids >= set(ids)
                        assert made.bolt_width_mm <= width
                        assert made.length_mm <= length + 1e-6
                        assert rows >= (len(made.placements) if len(made.placements) > 1 else 0)
                        assert node.nap or nap == "without"


def test_narrow_steps_stand_before_the_others_and_only_where_the_cloth_is_flat():
    """At 450 mm a lay happens to be shorter than what was found at 900: then as much is told as there."""
    told = {("flat", 450.0): 880.0, ("flat", 600.0): 700.0, ("flat", 900.0): 705.0, ("folded", 900.0): 760.0}
    covers = {}
    for (way, width_mm), length_mm in told.items():
        node = Node(way=way, nap=False, item_ids=frozenset("a"), width_mm=width_mm)  # type: ignore[arg-type]
        covers[node] = Cover(node=node, lay=lay(node, length_mm))
    published = published_cloth({"68": CoverPlan(covers=covers)}, ["folded", "flat"], [450, 600, *WIDTHS], PIECES)
    assert [step[:2] for step in published.lengths["flat"]["without"]["68"][0]] == [[450, 880], [600, 705]]
    assert [step[:2] for step in published.lengths["folded"]["without"]["68"][0]] == [[900, 760]]


def test_lengths_are_rounded_up_to_whole_millimetres():
    for length_mm, expected in ((500.0, 500), (500.01, 501), (500.99, 501)):
        node = Node(way="flat", nap=False, item_ids=frozenset("a"), width_mm=900.0)
        plan = CoverPlan(covers={node: Cover(node=node, lay=lay(node, length_mm))})
        published = published_cloth({"68": plan}, ["flat"], WIDTHS, PIECES)
        assert published.lengths == {"flat": {"without": {"68": [[[900, expected, 0, 0]]]}}}


def test_naps_that_nobody_can_ask_for_are_absent():
    node = Node(way="flat", nap=True, item_ids=frozenset("a"), width_mm=900.0)
    plan = CoverPlan(covers={node: Cover(node=node, lay=lay(node, 400.0))})
    assert list(published_cloth({"68": plan}, ["flat"], WIDTHS, PIECES).lengths["flat"]) == ["with"]
