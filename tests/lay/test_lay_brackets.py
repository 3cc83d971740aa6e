"""Laws of the brackets: every combination gets a lay that contains its pieces, at most a step too long."""

import itertools
import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from boltside.lay.brackets import (
    PURCHASE_STEP_MM,
    CoverPlan,
    ReachableSet,
    never_less_with_size,
    never_more_when_wider,
    plan,
)
from boltside.lay.model import Lay, LayItem, LayRequest

USABLE_MM = 500.0


def strip(item_id: str, along_mm: float) -> LayItem:
    """A rectangle as wide as the cloth: a lay of such pieces is exactly as long as they are together."""
    outline = ((0.0, 0.0), (along_mm, 0.0), (along_mm, USABLE_MM), (0.0, USABLE_MM))
    return LayItem(item_id=item_id, outline_mm=outline, mode="single", count=1)


class Solver:
    """Lays strips in a row, and remembers what it was asked."""

    def __init__(self) -> None:
        self.asked: list[frozenset[str]] = []

    def __call__(self, request: LayRequest) -> Lay:
        self.asked.append(frozenset(item.item_id for item in request.items))
        length = sum(max(x for x, _ in item.outline_mm) for item in request.items)
        return Lay(
            length_mm=length, placements=(), way="flat", bolt_width_mm=request.bolt_width_mm, one_way=request.one_way
        )


def run(lengths: dict[str, float], combinations: list[ReachableSet]) -> tuple[CoverPlan, Solver]:
    solver = Solver()
    items = {item_id: strip(item_id, along_mm) for item_id, along_mm in lengths.items()}
    found = plan(items, combinations, bolt_width_mm=USABLE_MM + 30, way="flat", one_way=False, solve=solver)
    return found, solver


def combinations_of(choices: dict[str, dict[str, set[str]]], always: set[str]) -> list[ReachableSet]:
    """All combinations of the choices; each alternative adds its pieces."""
    return [
        ReachableSet(
            choices=dict(zip(choices, chosen, strict=True)),
            item_ids=frozenset(always.union(*(choices[c][a] for c, a in zip(choices, chosen, strict=True)))),
        )
        for chosen in itertools.product(*choices.values())
    ]


def random_shop(seed: int) -> tuple[dict[str, float], list[ReachableSet]]:
    """Up to five choices of up to three alternatives, each of which adds up to two pieces."""
    chance = random.Random(seed)
    lengths = {"body": float(chance.randint(100, 400))}
    choices: dict[str, dict[str, set[str]]] = {}
    for choice in range(chance.randint(0, 5)):
        choices[f"c{choice}"] = {}
        for alternative in range(chance.randint(1, 3)):
            added = {f"c{choice}a{alternative}p{piece}" for piece in range(chance.randint(0, 2))}
            lengths.update({piece: chance.choice((5.0, 20.0, 60.0, 150.0)) for piece in sorted(added)})
            choices[f"c{choice}"][f"a{alternative}"] = added
    combinations = combinations_of(choices, {"body"})
    return lengths, chance.sample(combinations, chance.randint(1, len(combinations)))


@settings(max_examples=150, deadline=None)
@given(st.integers(0, 10**6))
def test_every_combination_has_a_lay_that_contains_it_and_is_at_most_a_step_too_long(seed):
    lengths, combinations = random_shop(seed)
    found, _ = run(lengths, combinations)
    for combination in combinations:
        cover = found.covers[combination.item_ids]
        own_mm = sum(lengths[piece] for piece in combination.item_ids)
        assert cover.laid >= combination.item_ids
        assert own_mm - 1e-6 <= cover.length_mm <= own_mm + PURCHASE_STEP_MM + 1e-6


@settings(max_examples=100, deadline=None)
@given(st.integers(0, 10**6))
def test_the_published_length_is_the_least_of_all_lays_that_contain_the_set(seed):
    found, _ = run(*random_shop(seed))
    for wanted, cover in found.covers.items():
        assert cover.length_mm == min(lay.length_mm for laid, lay in found.laid.items() if laid >= wanted)


@settings(max_examples=100, deadline=None)
@given(st.integers(0, 10**6))
def test_a_larger_set_never_needs_less(seed):
    found, _ = run(*random_shop(seed))
    for small, large in itertools.permutations(found.covers, 2):
        if small < large:
            assert found.covers[small].length_mm <= found.covers[large].length_mm


@settings(max_examples=100, deadline=None)
@given(st.integers(0, 10**6))
def test_the_reported_cost_is_never_less_than_the_true_one(seed):
    lengths, combinations = random_shop(seed)
    found, _ = run(lengths, combinations)
    true_mm = max(c.length_mm - sum(lengths[p] for p in wanted) for wanted, c in found.covers.items())
    assert found.largest_cost_mm >= true_mm - 1e-6


@settings(max_examples=100, deadline=None)
@given(st.integers(0, 10**6))
def test_no_set_is_laid_twice_and_the_order_of_combinations_does_not_matter(seed):
    lengths, combinations = random_shop(seed)
    found, solver = run(lengths, combinations)
    assert len(solver.asked) == len(set(solver.asked))
    shuffled = random.Random(seed).sample(combinations, len(combinations))
    assert run(lengths, shuffled)[0].laid.keys() == found.laid.keys()


def test_a_single_set_is_laid_as_it_is():
    found, solver = run({"a": 100, "b": 50}, [ReachableSet(choices={}, item_ids=frozenset("ab"))])
    assert solver.asked == [frozenset("ab")]
    assert found.largest_cost_mm == 0


def test_small_pieces_are_covered_by_one_lay():
    """Three choices of a strip of 10 each: 8 sets, all within 30 of the largest, one lay."""
    choices = {f"choice {name}": {"with": {name}, "without": set()} for name in "abc"}
    found, solver = run({"body": 300, "a": 10, "b": 10, "c": 10}, combinations_of(choices, {"body"}))
    assert solver.asked == [frozenset({"body", "a", "b", "c"})]
    assert {cover.length_mm for cover in found.covers.values()} == {330}


def test_the_choice_that_moves_most_area_is_split_first():
    """A strip of 200 and two of 20: split by the large one, then one lay serves each half (4 sets within 40).

    The body alone was laid too, to find out that all eight sets do not fit one step; so it serves itself.
    """
    choices = {name: {"with": {name}, "without": set()} for name in ("small", "tiny", "large")}
    found, _ = run({"body": 300, "small": 20, "tiny": 20, "large": 200}, combinations_of(choices, {"body"}))
    lengths = {tuple(sorted(wanted - {"body"})): cover.length_mm for wanted, cover in found.covers.items()}
    assert lengths[("large",)] == lengths[("large", "small", "tiny")] == 540
    assert lengths[("small",)] == lengths[("tiny",)] == lengths[("small", "tiny")] == 340
    assert lengths[()] == 300
    assert len(found.laid) == 3


def test_sets_too_wide_for_the_cloth_are_named_and_the_others_are_laid():
    items = {
        "a": strip("a", 100),
        "board": LayItem(item_id="board", outline_mm=((0, 0), (10, 0), (10, 600), (0, 600)), mode="single", count=1),
    }
    sets = [
        ReachableSet(choices={"c": x}, item_ids=ids)
        for x, ids in (("1", frozenset("a")), ("2", frozenset({"a", "board"})))
    ]
    found = plan(items, sets, bolt_width_mm=530, way="flat", one_way=False, solve=Solver())
    assert list(found.covers) == [frozenset("a")]
    assert found.too_wide[frozenset({"a", "board"})].narrowest_bolt_mm == 630


def test_a_combination_without_pieces_needs_no_lay():
    found, solver = run({"a": 100}, [ReachableSet(choices={}, item_ids=frozenset())])
    assert (found.covers, solver.asked) == ({}, [])


@given(st.dictionaries(st.integers(80, 200), st.integers(1, 1000), min_size=1))
def test_length_never_grows_with_width(lengths):
    published = never_more_when_wider(lengths)
    widths = sorted(lengths)
    assert all(published[a][0] >= published[b][0] for a, b in itertools.pairwise(widths))
    for width in widths:
        length, made_for = published[width]
        assert made_for <= width and lengths[made_for] == length <= lengths[width]


@given(st.lists(st.integers(1, 1000), min_size=1))
def test_length_never_shrinks_with_size(lengths):
    published = never_less_with_size(lengths)
    assert all(a <= b for a, b in itertools.pairwise(published))
    assert all(p == min(lengths[i:]) for i, p in enumerate(published))


def test_the_summary_counts():
    found, _ = run(
        {"a": 100, "b": 10},
        [
            ReachableSet(choices={"c": "x"}, item_ids=frozenset("a")),
            ReachableSet(choices={"c": "y"}, item_ids=frozenset("ab")),
        ],
    )
    assert found.summary() == ("1 sets laid for 2 that can be asked for, 1 of them covered, at a cost of 10 mm at most")


def test_the_purchase_step_is_five_centimetres():
    assert pytest.approx(50) == PURCHASE_STEP_MM
