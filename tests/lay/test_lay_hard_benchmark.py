"""The benchmarks of flat lays: their sets, and what they report. The long runs are made by hand."""

import json
from pathlib import Path

import pytest
from pieces_for_lays import jacket_request

from boltside.lay import flat_benchmark, hard_benchmark
from boltside.lay.codec import one_line, request_from_json, request_to_json
from boltside.lay.flat import NEVER, bare_length_mm, solve_in_reports
from boltside.lay.hard_benchmark import HardRow
from boltside.lay.model import check_widths
from boltside.lay.packing import Stop
from boltside.lay.verify import faults

FOLDER = Path(__file__).parents[2] / "data" / "benchmark"


def test_there_are_eight_sets_or_more_of_20_to_99_pieces_that_fit_their_cloth():
    sets = hard_benchmark.load(FOLDER)
    assert len(sets) >= 8
    for one in sets:
        request = request_from_json(one["request"])
        check_widths(request)
        pieces = sum(item.count for item in request.items)
        assert 20 <= pieces <= 99
        assert one["name"].startswith(f"{pieces} pieces, {len(request.items)} kinds")


def test_runs_up_to_a_number_of_reports_repeat_and_the_shortest_is_taken():
    request = jacket_request("flat")
    each = [solve_in_reports(request, reports={seed: 3}) for seed in (1, 2)]
    both = solve_in_reports(request, reports={1: 3, 2: 3})
    assert both.length_mm == min(lay.length_mm for lay in each)
    assert both in each
    assert faults(request, both) == []
    bare_mm = [bare_length_mm(request, stop=Stop(failures=NEVER, reports=3)) for _ in range(2)]
    assert bare_mm[0] == bare_mm[1]


def test_one_set_by_each_method(tmp_path):
    request = request_to_json(jacket_request("flat"))
    one = {"name": "jacket", "request": request, "reports": {"bare": {"1": 2}, "ours": {"1": 2}}}
    (tmp_path / "hard.json").write_text(one_line([one]), encoding="utf-8")
    for method in hard_benchmark.METHODS:
        made = hard_benchmark.one(tmp_path, 0, method)
        assert made["sound"] and 300 < made["length_mm"] < 2000 and made["processor_s"] >= 0


def test_budgets_are_noted_once(tmp_path):
    one = {"name": "jacket", "request": request_to_json(jacket_request("flat"))}
    (tmp_path / "hard.json").write_text(one_line([one]), encoding="utf-8")
    hard_benchmark.note_budgets(tmp_path, 0.3)
    noted = (tmp_path / "hard.json").read_text(encoding="utf-8")
    reports = json.loads(noted)[0]["reports"]
    assert reports["bare"].keys() == {"1"}
    assert reports["ours"].keys() == {str(seed) for seed in hard_benchmark.SEEDS}
    hard_benchmark.note_budgets(tmp_path, 0.3)
    assert (tmp_path / "hard.json").read_text(encoding="utf-8") == noted


@pytest.mark.parametrize(("ours_mm", "verdict"), [(970.0, "mean ratio 0.9700"), (1010.0, "greatest 1.0100")])
def test_the_report_of_hard_sets(ours_mm, verdict):
    row = HardRow(
        name="a", bare_mm=1000.0, ours_mm=ours_mm, bare_s=20.0, ours_s=19.0, bound_mm=800.0, sound=ours_mm < 1000
    )
    said = hard_benchmark.report([row])
    assert verdict in said and "processor time 0.95" in said
    assert ("NOT SOUND" in said) == (ours_mm > 1000)


def test_the_report_of_flat_lays():
    rows = [
        flat_benchmark.FlatRow(name="a", ratio=1.0, first_ratio=1.01, spent_s=3.0, first_s=2.0, sound=True),
        flat_benchmark.FlatRow(name="b", ratio=1.004, first_ratio=1.004, spent_s=1.0, first_s=2.0, sound=True),
    ]
    said = flat_benchmark.report(rows)
    assert "today: mean ratio 1.0020, greatest 1.0040" in said
    assert "first failure: mean ratio 1.0070, greatest 1.0100" in said
    assert "processor time 1.00 of the first failure's" in said
    assert flat_benchmark.reached(rows)
