"""Answers for two garments, worked out once more by code that shares nothing with the calculators or the lay engine.

As `test_answers_from_scratch.py`, whose shop this is: which pieces are cut is read by hand, how long a lay is and
whether it is right is looked at by shapely, which lay answers by the laws that a buyer may rely on.
"""

from __future__ import annotations

import json
import random
from collections.abc import Iterator
from fractions import Fraction
from functools import cache
from itertools import combinations_with_replacement, product
from math import ceil
from typing import Any

import pytest
from bought_by_hand import SQUARING_MM, stepped
from look_at_answers import DRAWN_APART_MM, as_drawn
from look_at_lays import HAIR_MM, SELVEDGE_MM, Laid, look_at
from read_by_hand import naps_asked
from stored_shop import MADE_IN, NEVER_LESS, PATTERNS, Shop, shop_of

from boltside.calculators.door import answer

SEED, ADDED = 4711, 200
Pair = tuple[str, str]


class Twos:
    """A pattern's pairs and the lays of both garments, as stored."""

    def __init__(self, shop: Shop) -> None:
        self.shop = shop
        self.pairs = [self.sorted_pair(pair) for pair in shop.raw.get("together", [])]
        self.laid = shop.of_pairs
        self.needed = cache(self._needed)

    def sorted_pair(self, pair: list[str]) -> Pair:
        first, second = sorted(pair, key=self.shop.sizes.index)
        return first, second

    def names(self, pair: Pair, garment: int, lines: frozenset[str]) -> set[str]:
        """The pieces of one garment in a joint lay: `front@86`, twins `front@92.1`."""
        twin = f".{garment + 1}" if pair[0] == pair[1] else ""
        return {f"{line}@{pair[garment]}{twin}" for line in lines}

    def look(self, cloth: str, pair: Pair, lay: Laid, hair_mm: float, apart_mm: float) -> float:
        """The length that a joint lay truly takes, after all that makes it right was looked at."""
        pieces, outlines = {}, {}
        for garment, size in enumerate(pair):
            for line, how in self.shop.modes(cloth, size).items():
                (name,) = self.names(pair, garment, frozenset({line}))
                if name in lay.ids:
                    pieces[name], outlines[name, "both"] = how, self.shop.outlines[line, size]
        return look_at(outlines, "both", lay, pieces, hair_mm, apart_mm)

    def _needed(self, cloth: str, pair: Pair, way: str, nap: str, ids: frozenset[str], width_mm: float) -> int | None:
        """What is to be told of both: the shortest joint lay, or one behind the other; raised by the laws."""
        wanted = self.names(pair, 0, ids) | self.names(pair, 1, ids)
        joint = next(
            (
                one
                for one in self.laid.get((cloth, pair), [])
                if one.ids >= wanted
                and one.width_mm <= width_mm
                and one.with_nap >= (nap == "with")
                and one.way in MADE_IN[way]
            ),
            None,
        )
        each = [self.shop.needed(cloth, size, way, nap, ids, width_mm) for size in pair]
        if joint is None or each[0] is None or each[1] is None:
            return None
        behind_mm = sum(ceil(self._told_by(cloth, size, way, nap, ids, width_mm).length_mm - 1e-6) for size in pair)
        others = [each[0], each[1], min(ceil(joint.length_mm - 1e-6), behind_mm)]
        fewer = [one for one in self.shop.asked(cloth, pair[0]) if one < ids]
        raising = [self.needed(cloth, pair, way, nap, one, width_mm) for one in fewer]
        raising += [self.needed(cloth, pair, way, "without", ids, width_mm)] if nap == "with" else []
        less = [one for one in NEVER_LESS[way] if one in self.shop.raw["cloths"][cloth]["ways"]]
        raising += [self.needed(cloth, pair, one, nap, ids, width_mm) for one in less]
        wider = [one for one in self.shop.raw["cloths"][cloth]["widths_mm"] if one > width_mm]
        raising += [self.needed(cloth, pair, way, nap, ids, min(wider))] if wider else []
        order = self.shop.sizes.index
        for other in self.pairs:
            if other != pair and order(other[0]) <= order(pair[0]) and order(other[1]) <= order(pair[1]):
                raising.append(self.needed(cloth, other, way, nap, ids, width_mm))
        return max(others + [one for one in raising if one is not None])

    def _told_by(self, cloth: str, size: str, way: str, nap: str, ids: frozenset[str], width_mm: float) -> Laid:
        """The lay that a single length is told by: that of the narrowest listed width with the same length."""
        length = self.shop.needed(cloth, size, way, nap, ids, width_mm)
        listed = sorted(one for one in self.shop.raw["cloths"][cloth]["widths_mm"] if one <= width_mm)
        start = next(one for one in listed if self.shop.needed(cloth, size, way, nap, ids, one) == length)
        found = self.shop.own(cloth, size, way, nap, ids, start)
        assert found is not None
        return found


@pytest.fixture(scope="module")
def twos() -> dict[str, Twos]:
    found = {name: Twos(shop_of(name)) for name in PATTERNS}
    for two in found.values():
        answer("open", json.dumps(two.shop.sheet))
    return found


def cases(two: Twos, pairs: list[Pair]) -> Iterator[tuple[Pair, str, dict[str, str], str, str, str, frozenset[str]]]:
    """Pair, cloth, choices, way, what is said of the nap, the nap, lines: of all sizes' own choices."""
    shop = two.shop
    for pair, cloth in product(pairs, shop.raw["cloths"]):
        for chosen in shop.choices(pair[0]):
            lines = [frozenset(shop.pieces(cloth, size, chosen)) for size in pair]
            if not lines[0] or lines[0] != lines[1] or chosen not in shop.choices(pair[1]):
                continue
            for way in shop.raw["cloths"][cloth]["ways"]:
                for said, nap in naps_asked(shop.raw, cloth, chosen).items():
                    yield pair, cloth, chosen, way, said, nap, lines[0]


def to_buy(need_mm: int) -> tuple[int, int]:
    """Mm in steps of 5 cm and eighths of a yard; from the need and the squaring of the ends."""
    return stepped(Fraction(need_mm + SQUARING_MM))


def asked(two: Twos, pair: Pair, cloth: str, chosen: dict[str, str], way: str, said: str, width_mm: float) -> Any:
    request = {"pattern": two.shop.name, "size": pair[1], "second": pair[0], "choices": chosen,
               "cloths": {cloth: {"width": f"{width_mm} mm", "way": way, "nap": said}}}  # fmt: skip
    fragments = {one["id"]: one for one in json.loads(answer("cloth", json.dumps(request)))["fragments"]}
    return fragments[f"cloth.{cloth}"]


@pytest.mark.outside  # shapely and a cutting list read by hand, see the head of the file
def test_every_joint_answer(twos: dict[str, Twos]) -> None:
    """Each listed pair in every set, way and nap, on every listed width."""
    told = {"joint": 0, "no-shorter": 0}
    for two in twos.values():
        for pair, cloth, chosen, way, said, nap, lines in cases(two, two.pairs):
            for width_mm in two.shop.raw["cloths"][cloth]["widths_mm"]:
                need_mm = two.needed(cloth, pair, way, nap, lines, width_mm)
                note = asked(two, pair, cloth, chosen, way, said, width_mm)
                where = (two.shop.name, pair, cloth, chosen, way, nap, width_mm)
                if need_mm is None:
                    assert note["kind"] == "problem" or note["data"]["together"] == "added", where
                    continue
                data = note["data"]
                assert (data["needed_mm"], data["buy_mm"], data["buy_eighth_yards"]) == (
                    need_mm, *to_buy(need_mm)), where  # fmt: skip
                alone = [two.shop.needed(cloth, size, way, nap, lines, width_mm) for size in pair]
                kind = "joint" if need_mm < sum(one or 0 for one in alone) else "no-shorter"
                assert data["together"] == kind, where
                told[data["together"]] += 1
                look_at_drawing(two, pair, cloth, data, nap, lines)
    print(told)
    assert not any(two.pairs for two in twos.values()) or told["joint"] >= 10


def look_at_drawing(two: Twos, pair: Pair, cloth: str, data: dict[str, Any], nap: str, lines: frozenset[str]) -> None:
    """The lay that the answer names: it serves the answer, and is right to the millimetre."""
    file = two.shop.files[data["lay"]["key"]]
    drawn = file["lays"][str(data["lay"]["number"])]
    assert tuple(file["sizes"]) == pair and drawn["length_mm"] <= data["needed_mm"]
    assert drawn["nap"] or nap == "without"
    if "behind" not in drawn:
        at = []
        for item, _, x, y, turned, mirrored, *_ in drawn["at"]:
            (name,) = two.names(pair, file["garments"][item], frozenset({file["items"][item]}))
            at.append((name, x, y, bool(turned), bool(mirrored)))
        ids = frozenset(one[0] for one in at)
        assert ids >= two.names(pair, 0, lines) | two.names(pair, 1, lines)
        lay, hair_mm = as_drawn(drawn, data["way"], at)
        two.look(cloth, pair, lay, hair_mm, DRAWN_APART_MM)
        return
    assert sum(part["length_mm"] for part in drawn["behind"]) == drawn["length_mm"]
    for garment, (size, part) in enumerate(zip(pair, drawn["behind"], strict=True)):
        assert {file["garments"][item] for item, *_ in part["at"]} == {garment}
        at = [(file["items"][item], x, y, bool(turned), bool(over)) for item, _, x, y, turned, over, *_ in part["at"]]
        lay, hair_mm = as_drawn(part, data["way"], at)
        assert lay.ids >= lines
        look_at(two.shop.outlines, size, lay, two.shop.of_lay(cloth, size, lay), hair_mm, DRAWN_APART_MM)


@pytest.mark.outside
def test_two_hundred_added_answers(twos: dict[str, Twos]) -> None:
    """Any other two sizes: both lengths added, then squared and rounded once."""
    chance = random.Random(SEED)
    print(f"seed {SEED}")
    for _ in range(ADDED):
        two = chance.choice(list(twos.values()))
        shop = two.shop
        pair = chance.choice([one for one in combinations_with_replacement(shop.sizes, 2) if one not in two.pairs])
        cloth = chance.choice(list(shop.raw["cloths"]))
        chosen = chance.choice(shop.choices(pair[0]))
        if chosen not in shop.choices(pair[1]):
            continue
        lines = [frozenset(shop.pieces(cloth, size, chosen)) for size in pair]
        if not lines[0] or not lines[1]:
            continue
        way = chance.choice(shop.raw["cloths"][cloth]["ways"])
        said, nap = chance.choice(sorted(naps_asked(shop.raw, cloth, chosen).items()))
        width_mm = chance.randint(880, 1650)
        each = [shop.expected_mm(cloth, size, way, nap, ids, width_mm)
                for size, ids in zip(pair, lines, strict=True)]  # fmt: skip
        note = asked(two, pair, cloth, chosen, way, said, width_mm)
        if each[0] is None or each[1] is None:
            assert note["kind"] == "problem"
            continue
        data, need_mm = note["data"], each[0] + each[1]
        assert (data["needed_mm"], data["together"]) == (need_mm, "added")
        assert (data["buy_mm"], data["buy_eighth_yards"]) == to_buy(need_mm)


def test_every_stored_joint_lay_is_right(twos: dict[str, Twos]) -> None:
    """Inside, apart, all pieces of both, halves on the fold, pairs mirrored, nothing head to foot on cloth with nap."""
    for two in twos.values():
        assert {pair for _, pair in two.laid} == set(two.pairs)
        for (cloth, pair), laid in two.laid.items():
            for lay in laid:
                true_mm = two.look(cloth, pair, lay, HAIR_MM, 0.0)
                assert 0 <= lay.length_mm + HAIR_MM - true_mm <= 0.1 + HAIR_MM
                assert lay.width_mm > 2 * SELVEDGE_MM
