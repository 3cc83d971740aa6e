"""A thousand cloth answers of the shop's own sheets, worked out once more by code that shares nothing with the
calculators or the lay engine.

Which pieces are cut is read from `pattern.yaml` by hand-written code; how long a lay is, from where its pieces lie,
looked at by shapely; which lay answers, by the laws that a buyer may rely on (`stored_shop.py`); width steps, rounding
and words by fractions.
"""

from __future__ import annotations

import json
import random
import re
import shutil
from fractions import Fraction
from itertools import combinations
from math import ceil
from typing import Any

import pytest
from read_by_hand import naps_asked
from shapely import Polygon
from stored_shop import DATA, HAIR_MM, PATTERNS, SELVEDGE_MM, SHARED_MM2, Laid, Pieces, Shop, look_at

from boltside.calculators.door import answer
from boltside.plan import LaysMissing

SEED, ANSWERS = 4711, 1000
SQUARING_MM = 30
"""Squaring of the ends. Common practice."""
STEP_MM, EIGHTH_YARD_MM = Fraction(50), Fraction(9144, 80)
INCH_MM = Fraction(254, 10)
DRAWN_HAIR_MM = 0.51
"""Places in drawings are in whole millimetres."""
DRAWN_APART_MM = 0.75
"""So two pieces of a drawing are nearer to each other than in truth by 1.42 mm at most."""


@pytest.fixture(scope="module")
def shops(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Shop]:
    """Read from a copy, so that a run of the solver beside it is not disturbed."""
    copy = tmp_path_factory.mktemp("copy") / "data"
    shutil.copytree(DATA, copy, ignore=shutil.ignore_patterns("*.new", "drafting", "benchmark"))
    found = {}
    for name in PATTERNS:
        folder = copy / "patterns" / name
        try:
            found[name] = Shop(folder)
        except LaysMissing:
            if (folder / "lays.journal").exists():
                pytest.skip(f"{name}: the lays are being solved")
            raise
        answer("open", json.dumps(found[name].sheet))
    return found


def stepped(length_mm: int) -> tuple[int, int]:
    """To buy: mm in steps of 5 cm, and eighths of a yard; each from the need and 30 mm."""
    to_buy = Fraction(length_mm + SQUARING_MM)
    return ceil(to_buy / STEP_MM) * 50, ceil(to_buy / EIGHTH_YARD_MM)


def typed(chance: random.Random, mm: int) -> tuple[str, str, Fraction]:
    """A width as people type it, the unit of the page, and what it is in mm."""
    tenths = Fraction(mm, 10)
    quarters = round(mm / INCH_MM * 4)
    ones, rest = divmod(quarters, 4)
    words = f"{ones} {rest}/4" if rest else f"{ones}"
    inches = Fraction(quarters, 4) * INCH_MM
    return chance.choice(
        [
            (f"{float(tenths):g}", "cm", Fraction(mm)),
            (f"{float(tenths):g} cm".replace(".", ","), "in", Fraction(mm)),
            (f"{mm / 1000:.3f} m", "cm", Fraction(mm)),
            (f"{mm} mm", "in", Fraction(mm)),
            (f'{words}"', "cm", inches),
            (words, "in", inches) if inches <= 2000 else (f"{words} in", "in", inches),
        ]
    )


def yards(text: str) -> int:
    """Eighths in a mixed number of yards."""
    return int(sum(Fraction(part) for part in text.split()) * 8)


def usable_mm(width_mm: float, way: str) -> float:
    """Between the selvedges, or from the fold to them."""
    return (width_mm - 2 * SELVEDGE_MM) / (2 if way == "folded" else 1)


def look_at_stored(shop: Shop, cloth: str, size: str, lay: Laid) -> None:
    """A stored lay holds its pieces, and is as long as they reach."""
    pieces = {name: shop.modes(cloth, size)[name] for name in lay.ids}
    true_mm = look_at(shop, size, lay, pieces, usable_mm(lay.width_mm, lay.way), HAIR_MM, 0.0)
    assert true_mm <= lay.length_mm + HAIR_MM
    assert lay.length_mm - true_mm <= 0.1, "the lay is longer than its pieces reach"


def look_at_drawing(shop: Shop, data: dict[str, Any], size: str, nap: str, needed: Pieces) -> None:
    """The lay that the answer names, as the page gets it: it serves the answer, and is right to the millimetre."""
    cloth, way, _ = data["lay"]["key"].split(".")
    assert (way, data["lay"]["key"]) == (data["way"], f"{cloth}.{way}.{size}")
    file = shop.files[data["lay"]["key"]]
    drawn = file["lays"][str(data["lay"]["number"])]
    assert drawn["width_mm"] <= data["lay"]["width_mm"] <= data["width_mm"]
    assert drawn["length_mm"] <= data["needed_mm"]
    assert drawn["nap"] or nap == "without"
    # A lay with nap that serves cloth without is not turned anyway.
    at = [(file["items"][item], x, y, bool(turned), bool(over)) for item, _, x, y, turned, over in drawn["at"]]
    lay = Laid(frozenset(one[0] for one in at), way, drawn["nap"], drawn["width_mm"], drawn["length_mm"], at)
    assert lay.ids >= set(needed)
    pieces = {name: shop.modes(cloth, size)[name] for name in lay.ids}
    look_at(shop, size, lay, pieces, usable_mm(lay.width_mm, way), DRAWN_HAIR_MM, DRAWN_APART_MM)


def test_hand_written_cutting_list_is_the_sheet_s(shops: dict[str, Shop]) -> None:
    """Also in number and mode, in every size; every line of the sheet's list is needed by some choices."""
    for shop in shops.values():
        seen = set()
        for size in shop.sizes if shop.name != "ferrylight" else shop.sizes[:1]:
            for chosen in shop.choices(size):
                asked = {"pattern": shop.name, "size": size, "choices": chosen}
                said = json.loads(answer("panel", json.dumps(asked)))["fragments"]
                rows = next(one for one in said if one["id"] == "cutting-list")["data"]["rows"]
                for cloth in shop.raw["cloths"]:
                    mine = shop.pieces(cloth, size, chosen)
                    seen |= set(mine)
                    theirs = {row["id"]: (row["mode"], row["count"]) for row in rows if row["cloth"] == cloth}
                    assert theirs == mine, (size, chosen, cloth)
        assert seen == {item["id"] for item in shop.sheet["items"]}


@pytest.mark.outside  # shapely, fractions and a cutting list read by hand, see the head of the file
def test_a_thousand_cloth_answers(shops: dict[str, Shop]) -> None:
    chance = random.Random(SEED)
    print(f"seed {SEED}")
    told = {"figure": 0, "too-narrow": 0, "flat": 0, "folded": 0, "saves": 0, "with": 0, "unfolded": 0}
    told["narrower-than-laid"] = 0
    asked_of: dict[tuple[str, str], int] = {
        (shop.name, cloth): 0 for shop in shops.values() for cloth in shop.raw["cloths"]
    }
    while sum(asked_of.values()) < ANSWERS:
        name, cloth = chance.choice(list(asked_of))
        shop = shops[name]
        size = chance.choice(shop.sizes)
        chosen = chance.choice(shop.choices(size))
        pieces = shop.pieces(cloth, size, chosen)
        if not pieces:
            continue
        ids = frozenset(pieces)
        way = chance.choice(["folded", "flat"])
        said_nap, nap = chance.choice(sorted(naps_asked(shop.raw, cloth, chosen).items()))
        text, unit, width_mm = typed(chance, chance.choice([chance.randint(400, 1990), chance.randint(880, 1600)]))
        where = (name, size, chosen, cloth, way, nap, text, unit)
        request = {"pattern": name, "size": size, "choices": chosen, "unit": unit}
        request |= {"cloths": {cloth: {"width": text, "way": way, "nap": said_nap}}}
        said = {one["id"]: one for one in json.loads(answer("cloth", json.dumps(request)))["fragments"]}
        note, how = said[f"cloth.{cloth}"], said[f"cloth.{cloth}.how"]
        asked_of[name, cloth] += 1
        told[way] += 1
        told["with"] += nap == "with"
        need_mm = shop.expected_mm(cloth, size, way, nap, ids, width_mm)
        flat_mm = shop.expected_mm(cloth, size, "flat", nap, ids, width_mm)
        narrowest_mm = ceil(shop.across_mm(cloth, size, way, ids))
        data = note["data"]
        assert data["width_mm"] == pytest.approx(float(width_mm), abs=0.005), where
        assert data["nap_used"] == nap, where
        if need_mm is None:
            told[data["code"]] += 1
            check_refusal(note, narrowest_mm, width_mm, way, flat_mm, where)
            continue
        told["figure"] += 1
        assert width_mm >= narrowest_mm - 1, where
        buy_mm, eighths = stepped(need_mm)
        assert (data["needed_mm"], data["buy_mm"], data["buy_eighth_yards"]) == (need_mm, buy_mm, eighths), where
        reckoned_mm = data["reckoned_width_mm"]
        assert reckoned_mm == max(one for one in shop.widths_mm(cloth) if one <= width_mm), where
        own = shop.own(cloth, size, way, nap, ids, reckoned_mm)
        assert own is not None and own.length_mm <= need_mm
        told["unfolded"] += own.way != way
        look_at_stored(shop, cloth, size, own)
        look_at_drawing(shop, data, size, nap, pieces)
        with_nap = ", with nap" if nap == "with" else ""
        assert note["text"].endswith(f" wide{with_nap}: {buy_mm / 1000:.2f} m"), where
        in_yards = re.fullmatch(rf".* wide{with_nap}: (.*) yd", note["text_inch"])
        assert in_yards is not None and yards(in_yards[1]) == eighths, where
        saves_mm = 0
        if way == "folded" and flat_mm is not None and need_mm - flat_mm >= STEP_MM:
            saves_mm = buy_mm - stepped(flat_mm)[0]
            told["saves"] += 1
        assert data["flat_saves_mm"] == saves_mm, where
        assert (f"Laid flat it takes {saves_mm / 1000:.2f} m less." in how["text"]) == bool(saves_mm), where
        assert f"The pieces take {ceil(Fraction(need_mm, 10)) / 100:.2f} m" in how["text"], where
    print(told, asked_of)
    assert min(asked_of.values()) >= 25 and min(told.values()) >= 10, (asked_of, told)


def check_refusal(
    note: dict[str, Any], narrowest_mm: int, width_mm: Fraction, way: str, flat_mm: int | None, where: object
) -> None:
    """Too narrow exactly where a piece does not fit; the narrowest is the bolt on which the widest piece just fits."""
    assert note["kind"] == "problem", where
    assert (note["data"]["code"] == "too-narrow") == (width_mm < narrowest_mm), where
    assert note["data"]["narrowest_mm"] == narrowest_mm, where
    for text, unit_mm in ((note["text"], Fraction(10)), (note["text_inch"], INCH_MM)):
        if note["data"]["code"] == "too-narrow":
            found = re.search(r"The narrowest that works is ([0-9 /]+) (?:cm|in)", text)
            assert found is not None, where
            shown_mm = sum(Fraction(part) for part in found[1].split()) * unit_mm
            assert narrowest_mm <= shown_mm < narrowest_mm + unit_mm, where
        # Who goes by what is said is not sent away again.
        offered = re.search(r"amounts are reckoned from ([0-9 /.]+) (?:cm|in) on", text)
        if note["data"]["reckoned_from_mm"] is not None:
            assert offered is not None, where
            from_mm = sum(Fraction(part) for part in offered[1].split()) * unit_mm
            assert note["data"]["reckoned_from_mm"] <= from_mm < note["data"]["reckoned_from_mm"] + unit_mm, where
    assert ("Laid flat it is wide enough." in note["text"]) == (way == "folded" and flat_mm is not None), where


def test_every_stored_lay_is_right(shops: dict[str, Shop]) -> None:
    """Inside, apart, all pieces, halves on the fold, pairs mirrored, nothing head to foot on cloth with nap."""
    for shop in shops.values():
        assert set(shop.laid) == {
            (cloth, size) for cloth in shop.raw["cloths"] for size in shop.sizes if shop.asked(cloth, size)
        }
        for (cloth, size), laid in shop.laid.items():
            assert laid
            for lay in laid:
                look_at_stored(shop, cloth, size, lay)


def test_pieces_are_far_enough_from_each_other_to_be_told_apart() -> None:
    """The check of overlaps can fail: two squares one millimetre into each other share more than is allowed."""
    squares = [Polygon([(x, 0), (x + 10, 0), (x + 10, 10), (x, 10)]) for x in (0, 9)]
    shared = [one.intersection(other).area for one, other in combinations(squares, 2)]
    assert shared == [10.0] and shared[0] > SHARED_MM2
