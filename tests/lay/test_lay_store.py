"""lays.json and its journal: nothing finished is lost, nothing torn is believed, nothing stale is found."""

import json
import os
import re
import signal
import subprocess
import sys
import time
from dataclasses import replace
from pathlib import Path

import pytest
from pieces_for_lays import jacket, jacket_request

from boltside.lay import folded, solve
from boltside.lay.codec import lay_from_json, lay_to_json, one_line, request_from_json, request_to_json
from boltside.lay.folded import solve_by_filling
from boltside.lay.model import Lay, LayRequest
from boltside.lay.solve import lay_key
from boltside.lay.store import LayStore, Receipts, StoreDamaged


@pytest.fixture(scope="module")
def lay() -> Lay:
    return solve_by_filling(jacket_request("folded"), trials=10)


def test_requests_and_lays_come_back_as_they_were(lay):
    request = jacket_request("folded", one_way=True)
    assert request_from_json(json.loads(one_line(request_to_json(request)))) == request
    assert lay_from_json(json.loads(one_line(lay_to_json(lay)))) == lay


def test_lays_are_kept_over_compacting_and_reopening(tmp_path, lay):
    store = LayStore(tmp_path / "lays.json")
    store.put("k2", "b", lay)
    store.put("k1", "c", lay)
    assert LayStore(tmp_path / "lays.json").get("k1") == lay  # from the journal
    store.compact()
    assert not store.journal.exists()
    again = LayStore(tmp_path / "lays.json")
    assert (again.get("k1"), again.get("k2"), again.get("k3"), len(again)) == (lay, lay, None, 2)


def test_the_file_is_one_json_array_with_a_header_and_one_sorted_line_a_lay(tmp_path, lay):
    store = LayStore(tmp_path / "lays.json")
    for key, name in (("k1", "z"), ("k2", "a"), ("k0", "m")):
        store.put(key, name, lay)
    store.compact()
    text = (tmp_path / "lays.json").read_text(encoding="utf-8")
    header, *entries = json.loads(text)
    assert header["format"] == "boltside lays"
    assert [entry["plan"] for entry in entries if "plan" in entry] == ["a", "m", "z"]
    assert [entry["key"] for entry in entries if "key" in entry] == ["k2", "k0", "k1"]
    assert len(text.splitlines()) == 1 + 1 + 3 + 3 + 1
    assert all(isinstance(number, int) for p in entries[1]["at"] for number in p)


def test_a_file_of_many_lays_takes_less_than_600_bytes_a_lay(tmp_path, lay):
    """2,500 lays of a pattern shall fit 1.5 MB."""
    store = LayStore(tmp_path / "lays.json")
    like = solve.likeness(jacket_request("folded"), "full")
    placements = tuple(replace(p, copy=copy) for copy in range(3) for p in lay.placements)  # 12 pieces and more
    for number in range(50):
        store.put(f"{number:032x}", "ferrylight, outer, size 92", replace(lay, placements=placements), like)
    store.compact()
    assert len(placements) >= 12
    assert (tmp_path / "lays.json").stat().st_size / 50 < 600


def test_likeness_and_maker_come_back_as_they_were(tmp_path, lay):
    request = jacket_request("folded")
    like = solve.likeness(request, "full")
    store = LayStore(tmp_path / "lays.json")
    store.put("k", "jacket", lay, like)
    store.compact(makers=solve.makers())
    again = LayStore(tmp_path / "lays.json")
    assert again._entries["k"]["like"] == like
    assert again.alike("k", like)
    header = json.loads((tmp_path / "lays.json").read_text())[0]
    assert header["made_by"] == [{"stamp": like["made"], **solve.solver_stamp("folded", "full")}]


OLD_FILE = """[
{"format":"boltside lays","made_by":{},"unit":"0.01 mm","version":1},
{"key":"6997","length":39553,"like":{"made":"1323","shapes":{"back.outer":[5649,8568,2971]}},"name":"ferrylight, \
outer, flat, size 104, 90 cm wide (back.outer)","one_way":false,"placements":[["back.outer",0,5649,26932,1,0]],\
"quality":"full","way":"flat","width":90000}
]
""".replace("\\\n", "")


def test_a_file_of_version_1_is_still_read_and_nothing_of_it_is_lost(tmp_path):
    path = tmp_path / "lays.json"
    path.write_text(OLD_FILE)
    store = LayStore(path)
    assert store.keys_of("ferrylight, outer, size 104") == ("6997",)
    lay = store.get("6997")
    assert lay is not None
    assert (lay.length_mm, lay.bolt_width_mm, lay.way, lay.one_way) == (395.53, 900.0, "flat", False)
    store.compact()
    again = LayStore(path)
    assert (again.keys_of("ferrylight, outer, size 104"), again.get("6997")) == (("6997",), lay)
    assert again.alike("6997", {"made": "1323", "shapes": {"back.outer": [5649, 8568, 2971]}})


def test_the_quick_key_is_the_key():
    keys = solve.KeyMaker()
    for way in ("flat", "folded"):
        for one_way in (True, False):
            for quality in ("full", "draft"):
                request = jacket_request(way, one_way=one_way)
                assert keys.key(request, quality) == lay_key(request, quality)


def test_keys_are_those_of_the_first_edition():
    """Lays that were solved before must be found: this key was made by the first edition. Only a changed solver,
    stop rule or outline may change it."""
    stamp = {"solver": "x", "version": "1", "stop": "y"}
    request = LayRequest(items=(jacket()[2],), bolt_width_mm=730.0, way="folded", one_way=False)
    text = one_line({"format": 1, "request": request_to_json(request), "made": stamp})
    assert text == (
        '{"format":1,"made":{"solver":"x","stop":"y","version":"1"},"request":{"items":[{"count":2,"face":"up",'
        '"id":"band","mode":"single","outline":[[0,0],[6000,0],[6000,14000],[0,14000]]}],"one_way":false,'
        '"way":"folded","width":73000}}'
    )


def test_the_same_lays_give_the_same_bytes_in_whatever_order_they_finish(tmp_path, lay):
    texts = []
    for folder, order in (("one", "abc"), ("two", "cab")):
        store = LayStore(tmp_path / folder / "lays.json")
        for name in order:
            store.put(f"key {name}", name, lay)
        store.compact()
        texts.append((tmp_path / folder / "lays.json").read_bytes())
    assert texts[0] == texts[1]


def test_compacting_drops_what_is_not_used_and_leaves_an_unchanged_file_alone(tmp_path, lay):
    path = tmp_path / "lays.json"
    store = LayStore(path)
    store.put("used", "a", lay)
    store.put("stale", "b", lay)
    store.compact({"used"})
    assert "stale" not in LayStore(path)
    os.utime(path, (1, 1))
    LayStore(path).compact({"used"})
    assert path.stat().st_mtime == 1


@pytest.mark.parametrize("cut", range(1, 60, 7))
def test_a_torn_last_line_of_the_journal_is_dropped_and_the_next_lay_is_kept(tmp_path, lay, cut):
    store = LayStore(tmp_path / "lays.json")
    store.put("whole", "a", lay)
    store.put("torn", "b", lay)
    data = store.journal.read_bytes()
    store.journal.write_bytes(data[:-cut])
    again = LayStore(tmp_path / "lays.json")
    assert again.get("whole") == lay
    assert again.get("torn") is None
    assert len(store.journal.read_bytes()) == len(data) - cut  # reading cuts nothing: another process may be writing
    again.put("next", "c", lay)
    assert LayStore(tmp_path / "lays.json").get("next") == lay


WRITER = """
import sys
from pathlib import Path
from boltside.lay.codec import lay_from_json
from boltside.lay.store import LayStore
import json
lay = lay_from_json(json.loads(sys.argv[2]))
store = LayStore(Path(sys.argv[1]))
for number in range(10**9):
    store.put(f"key {number}", f"name {number}", lay)
    print(number, flush=True)
    if number % 5 == 4:
        store.compact()
"""


@pytest.mark.parametrize("after_s", [0.05, 0.1, 0.2])
def test_killed_while_writing_everything_reported_is_still_there(tmp_path, lay, after_s):
    """Each lay is reported after it was kept; whatever was reported before the kill must be readable."""
    path = tmp_path / "lays.json"
    writer = subprocess.Popen(
        [sys.executable, "-c", WRITER, str(path), one_line(lay_to_json(lay))], stdout=subprocess.PIPE, text=True
    )
    assert writer.stdout is not None
    first = writer.stdout.readline()
    time.sleep(after_s)
    writer.send_signal(signal.SIGKILL if hasattr(signal, "SIGKILL") else signal.SIGTERM)
    reported = [int(line) for line in (first + writer.communicate()[0]).split()]
    store = LayStore(path)
    assert len(reported) >= 1
    assert all(store.get(f"key {number}") == lay for number in reported)
    store.compact()
    assert len(LayStore(path)) >= len(reported)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("[{]", "not readable as JSON"),
        ("[]", "not readable as JSON"),
        ('[{"format":"shopping list"}]', "the first line is not the header of a file of lays"),
        ('[{"format":"boltside lays","version":99}]', "version 99, expected 2"),
        ('[{"format":"boltside lays","version":1},\n{"name":"a"}]', "lays.json: a lay makes no sense (it has no 'key'"),
    ],
)
def test_a_damaged_file_is_refused_with_a_sentence(tmp_path, text, said):
    path = tmp_path / "lays.json"
    path.write_text(text)
    with pytest.raises(StoreDamaged, match=re.escape(said)):
        LayStore(path)


def test_a_damaged_line_inside_the_journal_is_refused(tmp_path, lay):
    store = LayStore(tmp_path / "lays.json")
    store.put("a", "a", lay)
    store.journal.write_bytes(b"{torn\n" + store.journal.read_bytes())
    with pytest.raises(StoreDamaged, match=r"lays\.journal:1: not readable"):
        LayStore(tmp_path / "lays.json")


def test_an_entry_that_makes_no_sense_is_named(tmp_path, lay):
    store = LayStore(tmp_path / "lays.json")
    store.put("a", "outer 92", lay)
    store.compact()
    path = tmp_path / "lays.json"
    path.write_text(path.read_text().replace('"way":"folded"', '"way":"sideways"'))
    with pytest.raises(StoreDamaged, match=r"lays\.json:4: a lay makes no sense \('sideways' is none of flat, "):
        LayStore(path)


def changed_requests() -> dict[str, LayRequest]:
    """Each request differs from the jacket's in one thing that matters."""
    base = jacket_request("folded")
    first, *others = jacket()
    moved = ((first.outline_mm[0][0] + 0.01, first.outline_mm[0][1]), *first.outline_mm[1:])
    return {
        "outline": replace(base, items=(replace(first, outline_mm=moved), *others)),
        "count": replace(base, items=(replace(first, count=2), *others)),
        "mode": replace(base, items=(replace(first, mode="single"), *others)),
        "piece left out": replace(base, items=tuple(others)),
        "face": replace(base, items=(first, *others[:-1], replace(others[-1], face="up"))),
        "width": replace(base, bolt_width_mm=base.bolt_width_mm + 0.01),
        "way": replace(base, way="flat"),
        "nap": replace(base, one_way=True),
    }


@pytest.mark.parametrize("what", changed_requests())
def test_any_change_that_matters_gives_another_key(what):
    assert lay_key(changed_requests()[what], "full") != lay_key(jacket_request("folded"), "full")


def test_quality_solver_version_and_stop_rule_are_part_of_the_key(monkeypatch):
    request = jacket_request("folded")
    keys = {lay_key(request, "full"), lay_key(request, "draft")}
    monkeypatch.setattr(folded, "SOLVER_VERSION", "next")
    keys.add(lay_key(request, "full"))
    monkeypatch.setattr(folded, "KEPT_STOP", {**folded.KEPT_STOP, "full": "stop later"})
    keys.add(lay_key(request, "full"))
    monkeypatch.setattr(solve, "KEY_FORMAT", 99)
    keys.add(lay_key(request, "full"))
    assert len(keys) == 5


def test_the_order_in_which_pieces_are_listed_does_not_matter():
    request = jacket_request("folded")
    assert lay_key(replace(request, items=request.items[::-1]), "full") == lay_key(request, "full")


class Verifier:
    """Counts its calls and finds what it is told to find."""

    def __init__(self, *found: str) -> None:
        self.calls = 0
        self.found = list(found)

    def __call__(self, request: LayRequest, lay: Lay) -> list[str]:
        self.calls += 1
        return self.found


def test_a_lay_with_a_receipt_is_not_checked_again_unless_asked(tmp_path, lay):
    request, verifier = jacket_request("folded"), Verifier()
    assert Receipts(tmp_path).checked("key", request, lay, verify=verifier) == []
    assert Receipts(tmp_path).checked("key", request, lay, verify=verifier) == []
    assert verifier.calls == 1
    Receipts(tmp_path).checked("key", request, lay, ignore=True, verify=verifier)
    assert verifier.calls == 2


def test_a_tampered_lay_has_no_receipt(tmp_path, lay):
    request, verifier = jacket_request("folded"), Verifier()
    Receipts(tmp_path).checked("key", request, lay, verify=verifier)
    Receipts(tmp_path).checked("key", request, replace(lay, length_mm=lay.length_mm - 0.01), verify=verifier)
    assert verifier.calls == 2


def test_a_faulty_lay_gets_no_receipt(tmp_path, lay):
    request = jacket_request("folded")
    assert Receipts(tmp_path).checked("key", request, lay, verify=Verifier("wrong")) == ["wrong"]
    assert not list(Path(tmp_path).iterdir())
