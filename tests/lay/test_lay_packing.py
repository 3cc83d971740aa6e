"""The packing library is stopped at a report, and leaves nothing behind."""

import signal
import threading
import time
from dataclasses import replace

import pytest
from pieces_for_lays import jacket

from boltside.lay import flat, packing
from boltside.lay.model import Lay, LayRequest, SolveFailed, usable_width_mm
from boltside.lay.packing import Found, Stop, packed
from boltside.lay.settle import settled
from boltside.lay.slots import slots_of
from boltside.lay.verify import faults


def small_request() -> LayRequest:
    """Five pieces of the jacket: few enough for the library to fail quickly."""
    return LayRequest(items=jacket()[1:], bolt_width_mm=330.0, way="flat", one_way=False)


def packed_few(stop: Stop, seed: int = 1) -> Found:
    request = small_request()
    return packed(slots_of(request), usable_width_mm(request.bolt_width_mm, "flat"), seed=seed, stop=stop)


def test_a_run_ends_at_the_failure_that_is_one_too_many():
    stop = Stop(failures=2)
    reports = [(False, 500.0), (True, 480.0), (False, 470.0), (True, 470.0)]
    assert [stop.enough(failed=failed, shortest_mm=mm) for failed, mm in reports] == [False, False, False, True]


def test_a_run_ends_at_once_when_a_lay_is_short_enough_or_reports_are_many():
    near = Stop(failures=9, at_once_mm=470.0)
    assert [near.enough(failed=False, shortest_mm=mm) for mm in (471.0, 470.0)] == [False, True]
    many = Stop(failures=9, reports=3)
    assert [many.enough(failed=False, shortest_mm=500.0) for _ in range(3)] == [False, False, True]


def test_a_run_never_ends_without_a_lay():
    stop = Stop(failures=1, at_once_mm=1000.0, reports=1)
    assert not stop.enough(failed=True, shortest_mm=None)
    assert stop.enough(failed=False, shortest_mm=900.0)


def test_a_run_in_the_same_process_repeats_exactly_and_leaves_nothing_behind():
    threads, handler = threading.active_count(), signal.getsignal(signal.SIGINT)
    first = packed_few(Stop(failures=1))
    assert threading.active_count() == threads
    assert signal.getsignal(signal.SIGINT) is handler
    began_s = time.process_time()
    time.sleep(0.3)
    assert time.process_time() - began_s < 0.15, "the library works on"
    assert packed_few(Stop(failures=1)) == first


def test_a_lay_that_is_short_enough_ends_the_run_at_its_report():
    first = packed_few(Stop(failures=1, reports=1))
    stop = Stop(failures=1, at_once_mm=first[0])
    assert packed_few(stop) == first
    assert stop.seen == 1


def test_what_the_library_panics_with_is_said():
    class Panic(BaseException):
        """Like those of the library: no Exception."""

    def panics() -> None:
        raise Panic("index out of bounds")

    with pytest.raises(SolveFailed, match="the solver stopped: index out of bounds"):
        packing._not_panicking(panics)


def test_the_shortest_lay_of_all_seeds_is_taken(monkeypatch):
    """A lay near the bound ends the search after the first seed."""
    tried = []

    def found(_slots: object, _request: object, seed: int, _stop: object, _rounds: int) -> Found | None:
        tried.append(seed)
        return {1: (3000.0, ()), 2: (2900.0, ()), 3: None}[seed]

    monkeypatch.setattr(flat, "_settled_run", found)
    rule = flat.FlatRule(seeds=(1, 2, 3), near=0.0, at_once=0.0, text="")
    assert flat.solve_flat(small_request(), rule=rule).length_mm == 2900.0
    assert tried == [1, 2, 3]
    tried.clear()
    near = flat.FlatRule(seeds=(1, 2), near=99.0, at_once=0.0, text="")
    assert flat.solve_flat(small_request(), rule=near).length_mm == 3000.0
    assert tried == [1]


def test_pieces_pushed_from_side_to_side_never_make_a_lay_longer():
    request = small_request()
    usable_mm = usable_width_mm(request.bolt_width_mm, "flat")
    slots = slots_of(request)
    _, placements = packed_few(Stop(failures=9, reports=1))
    before_mm = None
    for rounds in (0, 1, 3):
        length_mm, moved = settled(slots, placements, usable_mm, rounds=rounds)
        lay = Lay(length_mm=length_mm, placements=moved, way="flat", bolt_width_mm=330.0, one_way=False)
        assert faults(request, lay) == []
        assert before_mm is None or length_mm <= before_mm
        before_mm = length_mm


def test_a_lay_begins_at_the_cut_end_also_where_the_pushing_ends_too_soon(monkeypatch):
    request = small_request()
    usable_mm = usable_width_mm(request.bolt_width_mm, "flat")
    _, placements = packed_few(Stop(failures=9, reports=1))
    monkeypatch.setattr("boltside.lay.settle._MOST_PASSES", 0)
    away = [replace(one, x_mm=one.x_mm + 0.76) for one in placements]
    length_mm, moved = settled(slots_of(request), away, usable_mm, rounds=1)
    lay = Lay(length_mm=length_mm, placements=moved, way="flat", bolt_width_mm=330.0, one_way=False)
    assert faults(request, lay) == []


def test_a_rule_says_what_it_does():
    """What is recorded with a lay names the seeds and the nearness that the rule has."""
    for rule in flat.RULES.values():
        assert f"seeds {','.join(map(str, rule.seeds))};" in rule.text
        assert f"within {rule.near} of the bound" in rule.text
    assert f"at once within {flat.FULL_RULE.at_once};" in flat.FULL_RULE.text
