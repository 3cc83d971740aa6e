"""A thousand cloth answers of the shop's own sheets, worked out once more by code that shares nothing with the
calculators or the lay engine.

Which pieces are cut is read from `pattern.yaml` by hand-written code (`read_by_hand.py`); how long a lay is, from where
its pieces lie, looked at by shapely (`look_at_lays.py`); which lay answers, by the laws that a buyer may rely on
(`stored_shop.py`); washing, steps of width and of amounts, and words by fractions (`bought_by_hand.py`); stripes and
checks by moving the pieces of the drawing (`in_step_by_hand.py`).
"""

from __future__ import annotations

import json
import random
from collections import Counter
from itertools import combinations

import pytest
from asked_by_chance import draw
from look_at_answers import look_at_answer, look_at_step, look_at_stored
from look_at_lays import SHARED_MM2
from shapely import Polygon
from stored_shop import PATTERNS, Shop, shop_of

from boltside.calculators.door import answer

SEED, ANSWERS = 4711, 1000
MUST_BE_ASKED = {
    "figure", "too-narrow", "narrower-than-laid", "nap with", "nap without", "page in cm", "page in in",
    *(f"figure, {way}" for way in ("flat", "folded", "middle", "part-folded")), "too-narrow, middle",
    *(f"wash {how}" for how in ("silent", "not-counted", "washed", "usual", "own", "own, only along",
                                "own, only across", "own, not typed")),
    "stripes plain", "stripes own, even", "stripes own, uneven", "moved into step", "typed with a comma",
    "1 rows", "2 rows", "3 rows", "4 rows",
}  # fmt: skip


@pytest.fixture(scope="module")
def shops() -> dict[str, Shop]:
    found = {name: shop_of(name) for name in PATTERNS}
    for shop in found.values():
        answer("open", json.dumps(shop.sheet))
    return found


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
    cloths = [(shop, cloth) for shop in shops.values() for cloth in shop.raw["cloths"]]
    # Each way of laying more is asked for more often.
    weights = [max(2, 3 * len(shop.raw["cloths"][cloth]["ways"]) - 4) for shop, cloth in cloths]
    told: Counter[str] = Counter()
    asked_of: Counter[tuple[str, str]] = Counter()
    for shop, cloth in chance.choices(cloths, weights, k=ANSWERS):
        asked = draw(chance, shop, cloth)
        said = {one["id"]: one for one in json.loads(answer("cloth", json.dumps(asked.request)))["fragments"]}
        asked_of[shop.name, cloth] += 1
        told.update(asked.told())
        try:
            told.update(look_at_answer(chance, asked, said))
        except AssertionError as error:
            raise AssertionError(f"{asked.request}: {error}") from error
    for what, times in sorted(told.items()):
        print(f"{times:5} {what}")
    print(dict(asked_of))
    assert sum(asked_of.values()) == ANSWERS
    assert len(asked_of) == len(cloths) and min(asked_of.values()) >= 25, asked_of
    must = MUST_BE_ASKED | ({"in step"} if any(shop.in_step for shop in shops.values()) else set())
    assert not must - set(told), must - set(told)
    assert min(told[one] for one in must) >= 10, told


def test_every_stored_lay_is_right(shops: dict[str, Shop]) -> None:
    """Inside, apart, all pieces, halves on the fold, pairs mirrored, nothing head to foot on cloth with nap; with
    stripes and checks in step too."""
    for shop in shops.values():
        assert set(shop.laid) == {
            (cloth, size) for cloth in shop.raw["cloths"] for size in shop.sizes if shop.asked(cloth, size)
        }
        for (cloth, size), laid in shop.laid.items():
            assert laid
            for lay in laid:
                look_at_stored(shop, cloth, size, lay)
        for (cloth, size, kind), laid in shop.in_step.items():
            for lay in laid:
                look_at_stored(shop, cloth, size, lay)
                look_at_step(shop, cloth, size, kind, lay)


def test_pieces_are_far_enough_from_each_other_to_be_told_apart() -> None:
    """The check of overlaps can fail: two squares one millimetre into each other share more than is allowed."""
    squares = [Polygon([(x, 0), (x + 10, 0), (x + 10, 10), (x, 10)]) for x in (0, 9)]
    shared = [one.intersection(other).area for one, other in combinations(squares, 2)]
    assert shared == [10.0] and shared[0] > SHARED_MM2
