"""A run resumes where it stopped, makes nothing twice, and fails by name."""

import json
import sys

import pytest
from pieces_for_lays import jacket

from boltside.lay.brackets import PlanSteps, ReachableSet, plan_cover
from boltside.lay.pool import Pool
from boltside.lay.run import LaysFailed, Progress, run_plans
from boltside.lay.store import LayStore, Receipts

DYING_WORKER = "import os, sys; sys.stdin.readline(); os._exit(1)"


def plans(*widths: float) -> dict[str, PlanSteps]:
    items = {item.item_id: item for item in jacket()}
    sets = [
        ReachableSet(choices={"flap": "with"}, item_ids=frozenset(items)),
        ReachableSet(choices={"flap": "without"}, item_ids=frozenset(items) - {"flap"}),
    ]
    return {
        f"jacket, {width:.0f} mm": plan_cover(items, sets, bolt_width_mm=width, way="folded", one_way=False)
        for width in widths
    }


@pytest.fixture
def store_path(tmp_path):
    return tmp_path / "lays.json"


def draft(store_path, *widths, **options):
    return run_plans(
        plans(*widths), store=LayStore(store_path), receipts=Receipts(None), quality="draft", workers=1, **options
    )


def test_a_second_run_makes_nothing_and_changes_no_byte(store_path):
    first = draft(store_path, 430.0, 730.0)
    text = store_path.read_bytes()
    second = draft(store_path, 430.0, 730.0, only_stored=True)
    assert first == second
    draft(store_path, 430.0, 730.0, pool=Pool(workers=1, command=(sys.executable, "-c", DYING_WORKER)))
    assert store_path.read_bytes() == text


def test_an_interrupted_run_goes_on_where_it_stopped(store_path):
    class Stop(Exception):
        pass

    def stop_after_the_first(progress: Progress) -> None:
        if LayStore(store_path)._entries:
            raise Stop

    import boltside.lay.run as run

    told_every_s = run._TELL_EVERY_S
    try:
        run._TELL_EVERY_S = 0.0  # type: ignore[misc]
        with pytest.raises(Stop):
            draft(store_path, 430.0, 520.0, 730.0, tell=stop_after_the_first)
    finally:
        run._TELL_EVERY_S = told_every_s  # type: ignore[misc]
    kept = len(LayStore(store_path))
    assert kept >= 1
    told: list[Progress] = []
    draft(store_path, 430.0, 520.0, 730.0, tell=told.append)
    assert told[-1].from_store == kept
    assert told[-1].finished == told[-1].expected > kept


def test_without_solving_a_missing_lay_is_named(store_path):
    with pytest.raises(LaysFailed) as failed:
        draft(store_path, 730.0, only_stored=True)
    assert failed.value.sentences == ["jacket, 730 mm (back, band, flap, sleeve): not laid yet"]


def test_a_failing_worker_fails_its_lays_by_name_and_the_store_keeps_what_was_made(store_path):
    draft(store_path, 430.0)
    before = json.loads(store_path.read_text())
    with pytest.raises(LaysFailed) as failed:
        draft(store_path, 430.0, 730.0, pool=Pool(workers=1, command=(sys.executable, "-c", DYING_WORKER)))
    assert failed.value.sentences == [
        "jacket, 730 mm (back, band, flap, sleeve): the solver's process broke off, it ended with exit code 1"
    ]
    assert json.loads(store_path.read_text()) == before


def test_a_tampered_lay_is_found(store_path):
    draft(store_path, 730.0)
    data = json.loads(store_path.read_text())
    data[1]["length"] -= 500
    store_path.write_text(json.dumps(data))
    with pytest.raises(LaysFailed, match=r"the stored lay is wrong: .* lies outside the cloth"):
        draft(store_path, 730.0, only_stored=True)


def test_lays_that_are_no_longer_asked_for_go_unless_told_to_stay(store_path):
    draft(store_path, 430.0, 730.0)
    both = len(LayStore(store_path))
    draft(store_path, 430.0, keep_others=True)
    assert len(LayStore(store_path)) == both
    draft(store_path, 430.0)
    assert len(LayStore(store_path)) < both


def test_progress_says_how_much_is_left():
    progress = Progress(finished=30, from_store=10, expected=60, elapsed_s=40)
    assert progress.seconds_left == 60  # 20 made in 40 s, 30 to go
    assert str(progress) == "30 of 60 lays, 10 kept from before, about 60 s left"
    assert Progress(finished=1, from_store=1, expected=2, elapsed_s=5).seconds_left is None
