"""What a pattern asks of the lay engine, and what a shop gets when lays are there, missing, or few."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path

from boltside.lay.brackets import Cover
from boltside.lay.lattice import Node
from boltside.laying import report
from boltside.plan import dear_warnings, drafts_used, everyday_used, run_pattern, short_list
from boltside.read.folder import read_pattern
from boltside.shop_lays import lay_files, published_lays

DATA = Path(__file__).parents[1] / "data"
MILLRACE = read_pattern(DATA / "patterns" / "millrace", DATA / "body_charts")
FULL = frozenset({"panel-full.outer", "band.outer"})
HALF = frozenset({"panel-half.outer", "band.outer"})
SIZES = MILLRACE.sizes[:2]
FEW = replace(
    MILLRACE,
    sizes=SIZES,
    cloths=tuple(
        replace(cloth, widths_mm=(1100.0, 1400.0, 1500.0), remnant_widths_mm=()) for cloth in MILLRACE.cloths
    ),
)
"""Two sizes and three widths, so that drafts are made in seconds."""


def test_a_quick_start_can_be_published_and_more_lays_only_refine_it(tmp_path: Path) -> None:
    few = run_pattern(FEW, tmp_path, profile="everyday", quality="draft", workers=1)
    quick = run_pattern(FEW, tmp_path, quality="draft", only_stored=True)
    assert {key: set(plan.covers) for key, plan in quick.plans.items()} == {
        key: set(plan.covers) for key, plan in few.plans.items()
    }
    every = run_pattern(FEW, tmp_path, quality="draft", workers=1)
    for key, plan in every.plans.items():
        assert set(quick.plans[key].laid) <= set(plan.laid)
        assert plan.wanting == 0
        for node, cover in plan.covers.items():
            assert cover.length_mm <= quick.plans[key].covers[node].length_mm
    assert dear_warnings(every) == []
    words = report(every)
    assert "4 sets of pieces" in words
    assert f"{drafts_used(every)} of them drafts" in words
    assert "quickly made" not in words
    assert "not all laid yet" not in words
    sheet = published_lays(FEW, every)["outer"]
    assert [frozenset(ids) for ids in sheet["sets"]] == sorted([FULL, HALF], key=sorted)
    files = lay_files(FEW, every)
    assert set(files) == {f"outer.{way}.{size}" for way in MILLRACE.cloths[0].ways for size in SIZES}
    for way, by_nap in sheet["lengths"].items():
        for by_size in by_nap.values():
            for size, of_sets in by_size.items():
                numbers = {number for steps in of_sets for _, _, number, _ in steps}
                assert {str(number) for number in numbers} <= set(files[f"outer.{way}.{size}"]["lays"])


def test_narrow_cloth_is_told_flat_and_the_ordinary_widths_ask_for_the_same_lays(tmp_path: Path) -> None:
    narrow = replace(
        FEW, sizes=SIZES[:1], cloths=tuple(replace(cloth, remnant_widths_mm=(400.0, 750.0)) for cloth in FEW.cloths)
    )
    plain = run_pattern(replace(FEW, sizes=SIZES[:1]), tmp_path / "plain", quality="draft", workers=1)
    both = run_pattern(narrow, tmp_path / "both", quality="draft", workers=1)
    assert both.plans == plain.plans
    assert "lays more for" in report(both) and "lays more for" not in report(plain)
    assert drafts_used(both) > drafts_used(plain)
    told = {way: by_nap["with"]["86"] for way, by_nap in published_lays(narrow, both)["outer"]["lengths"].items()}
    assert all(steps[0][0] == 750 for steps in told["flat"]), "no piece of the skirt fits on 40 cm"
    assert all(steps[0][0] >= 1100 for steps in told["folded"])
    numbers = {str(step[2]) for steps in told["flat"] for step in steps}
    assert numbers <= set(lay_files(narrow, both)["outer.flat.86"]["lays"])
    # Had the lays on narrow cloth come out at 1 mm, no bolt would be told more, and none of its lays be shown.
    short = {key: replace(plan, covers=_all_as_long(plan.covers, 1.0)) for key, plan in both.remnants.items()}
    steps = published_lays(narrow, replace(both, remnants=short))["outer"]["lengths"]["flat"]["with"]["86"]
    assert [[step[:2] for step in of_set] for of_set in steps] == [[[750, 1]]] * len(steps)


def _all_as_long(covers: Mapping[Node, Cover], length_mm: float) -> dict[Node, Cover]:
    return {node: replace(one, lay=replace(one.lay, length_mm=length_mm)) for node, one in covers.items()}


def test_what_covering_costs_too_much_is_told(tmp_path: Path) -> None:
    lays = run_pattern(FEW, tmp_path, profile="everyday", quality="draft", workers=1)
    dear = replace(
        lays, plans={key: replace(plan, largest_cost_mm=77.0, wanting=3) for key, plan in lays.plans.items()}
    )
    assert dear_warnings(dear) == [
        "Warning: patterns/millrace/pattern.yaml:1:1: [warning: covering-dear] "
        f"seen pieces of `outer` in size {max(SIZES)} that may be told 77 mm more than they need; "
        "expected at most 50 mm, one purchase step; "
        "run `boltside lay millrace`, so that smaller sets get lays of their own"
    ]
    assert "6 demands may cost more than 50 mm, more lays would save 27 mm at most" in report(dear)


def test_a_long_list_is_cut_and_counted() -> None:
    text = short_list("quay", "\n".join(f"lay {number}" for number in range(11)))
    assert text.splitlines() == [
        *(f"lay {number}" for number in range(8)),
        "… and 3 more",
        "quay: 11 lays are not there; run `boltside lay quay`",
    ]


def test_the_report_counts_lays_that_were_quickly_made(tmp_path: Path) -> None:
    """Drafts, marked as everyday lays: what the report says of them."""
    lays = run_pattern(FEW, tmp_path, profile="everyday", quality="draft", workers=1)
    quick = replace(
        lays,
        plans={
            key: replace(plan, laid={node: replace(lay, quality="everyday") for node, lay in plan.laid.items()})
            for key, plan in lays.plans.items()
        },
    )
    number = sum(len(plan.laid) for plan in lays.plans.values())
    assert (everyday_used(quick), drafts_used(quick)) == (number, 0)
    assert f"{number} lays ({number} of them quickly made)" in report(quick)
    assert "quickly made" not in report(lays)
