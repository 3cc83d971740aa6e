"""A run resumes where it stopped, makes nothing twice, and fails by name."""

import json
import sys

import pytest
from pieces_for_lays import jacket

from boltside.lay.brackets import CoverSearch
from boltside.lay.lattice import AskedSet
from boltside.lay.pool import Pool
from boltside.lay.run import LaysFailed, Progress, run_plans
from boltside.lay.store import LayStore, Receipts

DYING_WORKER = "import os, sys; sys.stdin.readline(); os._exit(1)"


def plans(*widths: float) -> dict[str, CoverSearch]:
    items = {item.item_id: item for item in jacket()}
    asked = [
        AskedSet(item_ids=frozenset(items), naps=frozenset({False})),
        AskedSet(item_ids=frozenset(items) - {"flap"}, naps=frozenset({False})),
    ]
    return {
        f"jacket, outer, size {width:.0f}": CoverSearch(items, asked, widths_mm=[width], ways=["folded"])
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
    assert failed.value.sentences == [
        "jacket, outer, size 730, folded, 73 cm wide (back, band, flap, sleeve): "
        "not laid yet, and no other lay serves it"
    ]


def test_a_failing_worker_fails_its_lays_by_name_and_the_store_keeps_what_was_made(store_path):
    draft(store_path, 430.0)
    before = json.loads(store_path.read_text())
    with pytest.raises(LaysFailed) as failed:
        draft(store_path, 430.0, 730.0, pool=Pool(workers=1, command=(sys.executable, "-c", DYING_WORKER)))
    assert failed.value.sentences == [
        f"jacket, outer, size 730, folded, 73 cm wide ({pieces}): the solver's process broke off, "
        "it ended with exit code 1"
        for pieces in ("back, band, flap, sleeve", "back, band, sleeve")
    ]
    assert json.loads(store_path.read_text()) == before


def test_a_tampered_lay_is_found(store_path):
    draft(store_path, 730.0)
    data = json.loads(store_path.read_text())
    next(row for row in data if "length" in row)["length"] -= 500
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
    assert str(progress) == "30 of about 60 lays, 10 kept from before, about 60 s left"
    assert Progress(finished=1, from_store=1, expected=2, elapsed_s=5).seconds_left is None


def two_widths() -> dict[str, CoverSearch]:
    items = {item.item_id: item for item in jacket()}
    asked = [AskedSet(item_ids=frozenset(items), naps=frozenset({True, False}))]
    asked.append(AskedSet(item_ids=frozenset(items) - {"flap"}, naps=frozenset({True, False})))
    return {"jacket": CoverSearch(items, asked, widths_mm=[430, 520, 730], ways=["folded", "flat"])}


def run_two_widths(store_path, **options):
    store = LayStore(store_path)
    return run_plans(two_widths(), store=store, receipts=Receipts(None), quality="draft", workers=1, **options)


def test_a_run_that_was_interrupted_anywhere_ends_with_the_same_bytes(tmp_path):
    """What is laid next depends on the lays that are there only, not on how they came to be there."""
    whole = tmp_path / "whole" / "lays.json"
    run_two_widths(whole)
    text = whole.read_bytes()
    store = LayStore(whole)
    keys = store.keys_of("jacket")
    assert len(keys) > 4

    class Stop(Exception):
        pass

    import boltside.lay.run as run

    told_every_s = run._TELL_EVERY_S
    run._TELL_EVERY_S = 0.0  # type: ignore[misc]
    try:
        for stop_at in (1, 3, len(keys) - 1):
            path = tmp_path / f"stopped {stop_at}" / "lays.json"

            def tell(progress: Progress, stop_at: int = stop_at) -> None:
                if progress.finished == stop_at:
                    raise Stop

            with pytest.raises(Stop):
                run_two_widths(path, tell=tell)
            run_two_widths(path)
            assert path.read_bytes() == text
    finally:
        run._TELL_EVERY_S = told_every_s  # type: ignore[misc]


def test_what_is_missing_but_served_by_another_lay_stops_nothing(tmp_path):
    path = tmp_path / "lays.json"
    all_laid = run_two_widths(path)["jacket"]
    store = LayStore(path)
    top = next(
        key
        for key in store.keys_of("jacket")
        if (lay := store.get(key)) and (lay.way, lay.one_way, lay.bolt_width_mm) == ("folded", True, 430)
        and {p.item_id for p in lay.placements} == {item.item_id for item in jacket()}
    )  # fmt: skip
    store.compact({top})
    served = run_two_widths(path, only_stored=True)["jacket"]
    assert served.covers.keys() == all_laid.covers.keys()
    assert len(served.laid) == 1
    assert served.largest_cost_mm > all_laid.largest_cost_mm
    assert all(served.covers[node].length_mm >= cover.length_mm for node, cover in all_laid.covers.items())


def test_a_lay_without_nap_serves_no_demand_with_nap(tmp_path):
    path = tmp_path / "lays.json"
    run_two_widths(path)
    store = LayStore(path)
    without = {key for key in store.keys_of("jacket") if not store.get(key).one_way}  # type: ignore[union-attr]
    store.compact(without)
    with pytest.raises(LaysFailed) as failed:
        run_two_widths(path, only_stored=True)
    assert all(", with nap" in sentence for sentence in failed.value.sentences)


def test_two_sizes_with_the_same_pieces_share_their_lays(store_path):
    """A lay is kept once, under the size that came last; the other size finds it there."""

    def both() -> dict[str, CoverSearch]:
        (search,), (other,) = plans(730.0).values(), plans(730.0).values()
        return {"jacket, outer, size 86": search, "jacket, outer, size 92": other}

    store = LayStore(store_path)
    made = run_plans(both(), store=store, receipts=Receipts(None), quality="draft", workers=1)
    kept = run_plans(both(), store=LayStore(store_path), receipts=Receipts(None), quality="draft", only_stored=True)
    assert kept == made
    assert all(plan.unserved == () for plan in kept.values())
