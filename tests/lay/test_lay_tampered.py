"""A changed line of lays.json that still reads: named by its lay if it is told from, else its lay is missed.

Every change is made to the text of the file; what is said comes from a whole run over stored lays.
"""

import json
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from pieces_for_lays import jacket

from boltside.lay.brackets import CoverPlan, CoverSearch
from boltside.lay.folded import solve_by_filling
from boltside.lay.lattice import AskedSet
from boltside.lay.model import LayItem
from boltside.lay.pool import Pool
from boltside.lay.run import LaysFailed, run_plans
from boltside.lay.solve import lay_key, likeness, makers
from boltside.lay.store import LayStore, Receipts
from boltside.published_lays import published_cloth

PLAN = "quay, outer, size 92"
ITEMS = {item.item_id: item for item in jacket()}
ALL = frozenset(ITEMS)
NAME = f"({', '.join(sorted(ALL))})"
Row = dict[str, Any]


def search(*widths_mm: float) -> CoverSearch:
    asked = [AskedSet(item_ids=ALL, naps=frozenset({True}))]
    return CoverSearch(ITEMS, asked, widths_mm=widths_mm or [730.0], ways=["folded", "flat"])


@pytest.fixture(scope="module")
def text(tmp_path_factory: pytest.TempPathFactory) -> str:
    """A file with one lay of each way, on cloth of 73 cm, with nap."""
    store = LayStore(tmp_path_factory.mktemp("right") / "lays.json")
    plan = search()
    for way in range(2):
        request = plan.request(plan.lattice.node((way, 0, 0, 0)))
        lay = solve_by_filling(request, trials=20)
        store.put(lay_key(request, "full"), PLAN, lay, likeness(request, "full"))
    store.compact(makers=makers())
    return store.path.read_text(encoding="utf-8")


def run(folder: Path, text: str, *widths_mm: float, receipts: Path | None = None) -> CoverPlan:
    path = folder / "lays.json"
    path.write_text(text, encoding="utf-8")
    searches = {PLAN: search(*widths_mm)}
    return run_plans(searches, store=LayStore(path), receipts=Receipts(receipts), only_stored=True)[PLAN]


def changed(text: str, way: str, change: Callable[[Row, dict[str, int]], None]) -> str:
    """The text with the lay of one way changed; numbers of pieces by name are given along."""
    lines = text.split("\n")
    numbers = {piece[0]: at for at, piece in enumerate(json.loads(lines[2].rstrip(","))["pieces"])}
    for at, line in enumerate(lines):
        if f'"way":"{way}"' in line:
            row = json.loads(line.rstrip(","))
            change(row, numbers)
            lines[at] = json.dumps(row) + "," * line.endswith(",")
    assert "\n".join(lines) != text
    return "\n".join(lines)


def place(row: Row, numbers: dict[str, int], name: str, copy: int = 0) -> list[int]:
    """[number, copy, x, y, turned, mirrored] of one piece."""
    return next(one for one in row["at"] if one[:2] == [numbers[name], copy])


def longer(row: Row, numbers: dict[str, int]) -> None:
    row["length"] += 20_000


def shorter(row: Row, numbers: dict[str, int]) -> None:
    row["length"] -= 100


def without_a_band(row: Row, numbers: dict[str, int]) -> None:
    row["at"] = [one for one in row["at"] if one[:2] != [numbers["band"], 1]]


def a_sleeve_twice(row: Row, numbers: dict[str, int]) -> None:
    row["at"].append(place(row, numbers, "sleeve"))


def a_third_band(row: Row, numbers: dict[str, int]) -> None:
    number, _, x, y, turned, mirrored = place(row, numbers, "band")
    copies = sum(one[0] == number for one in row["at"])
    row["at"].append([number, copies, x + row["length"], y, turned, mirrored])
    row["at"].append([number, copies + 1, x + row["length"] + 10_000, y, turned, mirrored])


def a_sleeve_turned_round(row: Row, numbers: dict[str, int]) -> None:
    place(row, numbers, "sleeve")[4] = 1


def the_flap_turned_over(row: Row, numbers: dict[str, int]) -> None:
    place(row, numbers, "flap")[5] ^= 1


def both_sleeves_alike(row: Row, numbers: dict[str, int]) -> None:
    place(row, numbers, "sleeve", 1)[5] ^= 1


def a_band_beyond_the_selvedge(row: Row, numbers: dict[str, int]) -> None:
    place(row, numbers, "band")[3] = 71_500 // (1 + (row["way"] == "folded")) - 14_000 + 2


def a_band_beyond_the_fold(row: Row, numbers: dict[str, int]) -> None:
    place(row, numbers, "band")[3] = -2


def the_back_off_the_fold(row: Row, numbers: dict[str, int]) -> None:
    place(row, numbers, "back")[3] = 1


def the_back_across_the_fold(row: Row, numbers: dict[str, int]) -> None:
    place(row, numbers, "back")[5] ^= 1


def a_band_upon_the_back(row: Row, numbers: dict[str, int]) -> None:
    place(row, numbers, "band")[2:4] = place(row, numbers, "back")[2:4]


TAMPERED = [
    (longer, "flat", " mm long, but its pieces lie from 0.00 to "),
    (longer, "folded", " mm long, but its pieces lie from 0.00 to "),
    (shorter, "flat", " lies outside the cloth: x "),
    (shorter, "folded", " lies outside the cloth: x "),
    (without_a_band, "flat", "'band' is laid 1 times, expected 2"),
    (a_sleeve_twice, "flat", "'sleeve' copy 0 is laid 2 times"),
    (a_sleeve_twice, "folded", "'sleeve' is laid 2 times, expected 1"),
    (a_third_band, "flat", "'band' is laid 4 times, expected 2"),
    (a_third_band, "folded", "'band' is laid 3 times, expected 1 or 2"),
    (a_sleeve_turned_round, "flat", "'sleeve' copy 0 is turned round on one-way cloth"),
    (a_sleeve_turned_round, "folded", "'sleeve' copy 0 is turned round on one-way cloth"),
    (the_flap_turned_over, "flat", "'flap' copy 0 is turned over, its face must be down"),
    (the_flap_turned_over, "folded", "'flap' copy 0 is turned over, its face must be down"),
    (both_sleeves_alike, "flat", "'sleeve' has 0 mirrored copies, expected 1"),
    (a_band_beyond_the_selvedge, "flat", "'band' copy 0 lies outside the cloth: "),
    (a_band_beyond_the_selvedge, "folded", "'band' copy 0 lies outside the cloth: "),
    (a_band_beyond_the_fold, "folded", "'band' copy 0 lies outside the cloth: "),
    (the_back_off_the_fold, "folded", "'back' copy 0 lies 0.01 mm away from the fold"),
    (the_back_across_the_fold, "folded", "'back' copy 0 lies across the fold"),
    (a_band_upon_the_back, "flat", " overlap by "),
    (a_band_upon_the_back, "folded", " overlap by "),
]


def test_the_right_file_is_right(tmp_path, text):
    assert len(run(tmp_path, text).laid) == 2


@pytest.mark.parametrize(("change", "way", "said"), TAMPERED, ids=[f"{c.__name__}-{way}" for c, way, _ in TAMPERED])
def test_a_changed_lay_is_named_with_what_is_wrong_receipts_or_not(tmp_path, text, change, way, said):
    """A receipt is for the places and the length as they were: the right file has its receipts already."""
    run(tmp_path, text, receipts=tmp_path / "cache")
    with pytest.raises(LaysFailed) as failed:
        run(tmp_path, changed(text, way, change), receipts=tmp_path / "cache")
    wrong = [sentence for sentence in failed.value.sentences if "the stored lay is wrong" in sentence]
    assert len(wrong) == 1
    assert f"{PLAN}, {way}, 73 cm wide, with nap {NAME}: the stored lay is wrong: " in wrong[0]
    assert said in wrong[0]


def the_flap_left_out(row: Row, numbers: dict[str, int]) -> None:
    row["at"] = [one for one in row["at"] if one[0] != numbers["flap"]]


def the_flap_as_a_second_band(row: Row, numbers: dict[str, int]) -> None:
    place(row, numbers, "flap")[:2] = [numbers["band"], 7]


def no_nap(row: Row, numbers: dict[str, int]) -> None:
    del row["nap"]


def another_key(row: Row, numbers: dict[str, int]) -> None:
    row["key"], row["length"] = row["key"][::-1], row["length"] - 100


def another_quality(row: Row, numbers: dict[str, int]) -> None:
    row["quality"] = "draft"


def no_likeness(row: Row, numbers: dict[str, int]) -> None:
    row["key"] = row["key"][::-1]
    del row["made"]


def narrower_cloth(row: Row, numbers: dict[str, int]) -> None:
    row["width"] = 43_000


def the_other_way(row: Row, numbers: dict[str, int]) -> None:
    row["way"] = "flat"


@pytest.mark.parametrize(
    "change",
    [
        the_flap_left_out,
        the_flap_as_a_second_band,
        no_nap,
        another_key,
        another_quality,
        no_likeness,
        narrower_cloth,
        the_other_way,
    ],
)
def test_a_lay_that_no_longer_belongs_to_its_key_is_not_used_and_missed(tmp_path, text, change):
    """The folded lay alone is there, so that nothing else serves what it served."""
    lines = [line for line in text.split("\n") if '"way":"flat"' not in line]
    lines[-3] = lines[-3].rstrip(",")
    alone = "\n".join(lines)
    assert len(run(tmp_path, alone).laid) == 1
    with pytest.raises(LaysFailed) as failed:
        run(tmp_path, changed(alone, "folded", change), 430.0, 730.0)
    assert all("not laid yet, and no other lay serves it" in sentence for sentence in failed.value.sentences)
    store = LayStore(tmp_path / "lays.json")
    assert [sentence.split(": not used: ")[0] for sentence in store.not_used((), {PLAN})] == [f"{store.path}:4"]


def test_a_lay_of_other_outlines_is_not_used(tmp_path, text):
    """One piece has grown by half a millimetre since."""
    path = tmp_path / "lays.json"
    path.write_text(text, encoding="utf-8")
    band = LayItem(item_id="band", outline_mm=((0, 0), (60.5, 0), (60.5, 140), (0, 140)), mode="single", count=2)
    grown = {**ITEMS, "band": band}
    asked = [AskedSet(item_ids=ALL, naps=frozenset({True}))]
    plan = CoverSearch(grown, asked, widths_mm=[730.0], ways=["folded", "flat"])
    with pytest.raises(LaysFailed, match="not laid yet, and no other lay serves it"):
        run_plans({PLAN: plan}, store=LayStore(path), receipts=Receipts(None), only_stored=True)


def test_no_published_length_is_below_what_its_pieces_take(tmp_path, text):
    """The far ends are worked out here, point by point; a length to buy is a whole millimetre, rounded up."""
    found = run(tmp_path, text, 730.0, 760.0, 905.0)
    published = published_cloth({"92": found}, ["folded", "flat"], [730.0, 760.0, 905.0], {"92": ITEMS})
    seen = 0
    for way, by_nap in published.lengths.items():
        for nap, by_size in by_nap.items():
            for steps in by_size["92"]:
                for width_mm, length_mm, number, _ in steps:
                    node, lay = published.lays[way, "92"][number]
                    ends_mm = [
                        (-x if place.turned else x) + place.x_mm
                        for place in lay.placements
                        for x, _ in ITEMS[place.item_id].outline_mm
                    ]
                    assert min(ends_mm) >= -1e-9
                    assert max(ends_mm) <= lay.length_mm + 1e-9
                    assert lay.length_mm <= length_mm + 1e-9
                    assert node.width_mm <= width_mm
                    assert node.nap >= (nap == "with")
                    assert node.item_ids >= ALL
                    seen += 1
    assert seen >= 2


def test_a_wrong_lay_that_nothing_needs_is_noted_with_its_line_and_left_out(tmp_path, text):
    """The folded lay serves what the flat one did: the run must not fail for a line that it does not need."""
    path = tmp_path / "lays.json"
    path.write_text(changed(text, "flat", longer), encoding="utf-8")
    notes: list[str] = []
    asked = [AskedSet(item_ids=ALL, naps=frozenset({True}))]
    plan = CoverSearch(ITEMS, asked, widths_mm=[730.0], ways=["folded", "flat"], limit_mm=1000.0)
    nobody = Pool(workers=1, command=(sys.executable, "-c", ""))
    run_plans({PLAN: plan}, store=LayStore(path), receipts=Receipts(None), note=notes.append, pool=nobody)
    assert len(notes) == 1
    assert notes[0].endswith(f"; it stands in {path}:4; it was left out")
    assert len(LayStore(path)) == 1
