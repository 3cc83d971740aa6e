"""Laws that every published figure of the shop obeys, looked at in every allowed combination of every pattern.

The figures are those of the sheets that the build publishes, made from stored lays; they are read here by code of its
own. Areas and longest pieces come from the cutting outlines.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from functools import cache
from itertools import pairwise, product
from pathlib import Path

import pytest
from shapely import Polygon

from boltside.calculators.choices import all_allowed, completed
from boltside.calculators.conditions import holds
from boltside.calculators.door import answer
from boltside.calculators.lay_file import lying
from boltside.calculators.lays import across
from boltside.calculators.strips import on_table
from boltside.measure.cutting_list import cut_lines
from boltside.measure.lay_items import cutting_outline_mm, lay_item
from boltside.pattern import Pattern
from boltside.read.folder import read_patterns
from boltside.shop_lays import ShopPattern, shop_sheets

DATA = Path(__file__).parents[1] / "data"
SELVEDGES_MM = 30
"""Both selvedges of a bolt. Common practice."""
SLACK_MM = 1
"""Published lengths are rounded up to whole millimetres."""

Demand = frozenset[str]


def names() -> list[str]:
    return sorted(path.parent.name for path in (DATA / "patterns").glob("*/pattern.yaml"))


@cache
def published() -> dict[str, ShopPattern]:
    return {one.sheet["pattern"]: one for one in shop_sheets(DATA)}


@cache
def patterns() -> dict[str, Pattern]:
    return {pattern.folder: pattern for pattern in read_patterns(DATA)}


@cache
def allowed_sets(name: str, size: str) -> tuple[dict[str, str], ...]:
    sheet = published()[name].sheet
    return tuple(all_allowed(sheet["choices"], sheet["rules"], size, steps_too=False))


@cache
def demands(name: str, size: str, cloth: str) -> frozenset[Demand]:
    """Every set of pieces that some allowed combination asks for of a cloth."""
    items = [item for item in published()[name].sheet["items"] if item["cloth"] == cloth]
    found = {frozenset(i["id"] for i in items if holds(i["when"], chosen)) for chosen in allowed_sets(name, size)}
    return frozenset(demand for demand in found if demand)


def steps_of(name: str, cloth: str, way: str, nap: str, size: str, demand: Demand) -> list[list[int]]:
    sheet = published()[name].sheet
    at = [frozenset(members) for members in sheet["sets"][cloth]].index(demand)
    steps: list[list[int]] = sheet["lays"][cloth][way][nap][size][at]
    return steps


def length_mm(steps: list[list[int]], width_mm: float) -> int | None:
    fitting = [step[1] for step in steps if step[0] <= width_mm]
    return fitting[-1] if fitting else None


def tables(name: str) -> Iterator[tuple[str, str, str]]:
    for cloth, ways in published()[name].sheet["lays"].items():
        for way, naps in ways.items():
            for nap in naps:
                yield cloth, way, nap


@pytest.mark.parametrize("name", names())
def test_wider_never_needs_more(name: str) -> None:
    sheet = published()[name].sheet
    seen = 0
    for cloth, way, nap in tables(name):
        for size in sheet["sizes"]:
            for demand in demands(name, size, cloth):
                steps = steps_of(name, cloth, way, nap, size, demand)
                for narrow, wide in pairwise(steps):
                    assert narrow[0] < wide[0] and narrow[1] > wide[1], (cloth, way, nap, size, sorted(demand))
                    seen += 1
    assert seen > 50


@pytest.mark.parametrize("name", names())
def test_larger_never_needs_less(name: str) -> None:
    """The same options in a larger size, and more pieces in the same size."""
    sheet = published()[name].sheet
    widths = {cloth["name"]: cloth["widths_mm"] for cloth in sheet["cloths"]}
    compared = 0
    for cloth, way, nap in tables(name):
        for small, large in pairwise(sheet["sizes"]):
            for demand in demands(name, small, cloth) & demands(name, large, cloth):
                pair = [steps_of(name, cloth, way, nap, size, demand) for size in (small, large)]
                for width in widths[cloth]:
                    less, more = (length_mm(steps, width) for steps in pair)
                    if less is not None and more is not None:
                        assert less <= more, (cloth, way, nap, small, large, width, sorted(demand))
                        compared += 1
        for size in sheet["sizes"]:
            here = demands(name, size, cloth)
            for fewer, more_pieces in product(here, here):
                if fewer < more_pieces:
                    pair = [steps_of(name, cloth, way, nap, size, demand) for demand in (fewer, more_pieces)]
                    for width in widths[cloth]:
                        less, more = (length_mm(steps, width) for steps in pair)
                        assert more is None or (less is not None and less <= more), (cloth, way, nap, size, width)
                        compared += 1
    assert compared > 100


@pytest.mark.parametrize("name", names())
def test_nap_never_needs_less_and_flat_never_more(name: str) -> None:
    sheet = published()[name].sheet
    for cloth in sheet["cloths"]:
        lays = sheet["lays"].get(cloth["name"], {})
        for size in sheet["sizes"]:
            for demand in demands(name, size, cloth["name"]):
                for way, naps in lays.items():
                    if set(naps) == {"with", "without"}:
                        pair = [steps_of(name, cloth["name"], way, nap, size, demand) for nap in ("without", "with")]
                        for width in cloth["widths_mm"]:
                            free, napped = (length_mm(steps, width) for steps in pair)
                            assert napped is None or (free is not None and free <= napped)
                if set(lays) >= {"flat", "folded"}:
                    for nap in lays["flat"]:
                        pair = [steps_of(name, cloth["name"], way, nap, size, demand) for way in ("flat", "folded")]
                        for width in cloth["widths_mm"]:
                            flat, folded = (length_mm(steps, width) for steps in pair)
                            assert folded is None or (flat is not None and flat <= folded)


@pytest.mark.parametrize("name", names())
def test_no_lay_is_shorter_than_area_and_longest_piece_allow(name: str) -> None:
    pattern = patterns()[name]
    lines = {line.line_id: line for line in cut_lines(pattern)}
    sheet = published()[name].sheet
    area: dict[tuple[str, str], float] = {}
    long: dict[tuple[str, str], float] = {}
    for line_id, line in lines.items():
        for size in line.sizes:
            half = 2 if line.mode == "fold" else 1
            area[line_id, size] = Polygon(cutting_outline_mm(pattern, line, size)).area * half * line.count
            along = [x for x, _ in lay_item(pattern, line, size).outline_mm]
            long[line_id, size] = max(along) - min(along)
    for cloth, way, nap in tables(name):
        for size in sheet["sizes"]:
            for demand in demands(name, size, cloth):
                for width, length, *_ in steps_of(name, cloth, way, nap, size, demand):
                    usable = width - SELVEDGES_MM
                    least = max(sum(area[i, size] for i in demand) / usable, *(long[i, size] for i in demand))
                    assert length >= least - SLACK_MM, (cloth, way, nap, size, width, sorted(demand))


@pytest.mark.parametrize("name", names())
def test_each_piece_of_the_cutting_list_lies_in_exactly_one_lay(name: str) -> None:
    """On exactly one cloth, in the lay that answers for it, in as many copies as the list says."""
    shop = published()[name]
    sheet = shop.sheet
    by_id = {item["id"]: item for item in sheet["items"]}
    for size in sheet["sizes"]:
        for chosen in allowed_sets(name, size):
            wanted = [item["id"] for item in sheet["items"] if holds(item["when"], chosen)]
            by_cloth: dict[str, set[str]] = {}
            for line_id in wanted:
                by_cloth.setdefault(by_id[line_id]["cloth"], set()).add(line_id)
            assert sum(len(ids) for ids in by_cloth.values()) == len(wanted) == len(set(wanted))
            for cloth, ids in by_cloth.items():
                assert frozenset(ids) in demands(name, size, cloth)
    looked_at = 0
    for cloth, way, nap in tables(name):
        for size in sheet["sizes"]:
            file = shop.lay_files.get(f"{cloth}.{way}.{size}")
            for demand in demands(name, size, cloth):
                for width_mm, _, number, _ in steps_of(name, cloth, way, nap, size, demand):
                    assert file is not None
                    lay = file["lays"][str(number)]
                    assert lay["nap"] or nap == "without"
                    table = on_table(way, width_mm, lay.get("fold_over_mm"))
                    copies: dict[str, int] = {}
                    for one in lying(file, number, {line_id: by_id[line_id] for line_id in demand}):
                        # Of a pair both copies are cut at once where the cloth lies double.
                        pair = by_id[one.line_id]["mode"] == "pair" and way != "flat"
                        layers = table.layers(sum(across(one)) // 2) if pair else 1
                        copies[one.line_id] = copies.get(one.line_id, 0) + layers
                    for line_id in demand:
                        assert copies.get(line_id, 0) == by_id[line_id]["count"], (line_id, way, size)
                    looked_at += 1
    assert looked_at > 50


@pytest.mark.parametrize("name", names())
def test_every_notion_has_an_amount(name: str) -> None:
    """A count or a length above nothing, wherever the notion is asked for."""
    sheet = published()[name].sheet
    assert json.loads(answer("open", json.dumps(sheet))) == {"opened": name}
    about = sorted({word for notion in sheet["notions"] for condition in notion["when"] for word in condition})
    for size in sheet["sizes"]:
        kinds = {tuple(chosen.get(word) for word in about): chosen for chosen in allowed_sets(name, size)}
        for chosen in kinds.values():
            asked = {"pattern": name, "size": size, "choices": {k: v for k, v in chosen.items() if k != "size"}}
            said = {one["id"]: one for one in json.loads(answer("panel", json.dumps(asked)))["fragments"]}
            for notion in sheet["notions"]:
                fragment = said[f"notion.{notion['name']}"]
                if holds(notion["when"], chosen):
                    amounts = [fragment["data"].get(key) or 0 for key in ("count", "buy_mm", "cut_mm")]
                    assert fragment["kind"] == "figure" and max(amounts) > 0, (notion["name"], size)
                else:
                    assert fragment["text"] == ""


@pytest.mark.parametrize("name", names())
def test_forbidden_means_unreachable(name: str) -> None:
    """A forbidden combination says why, and what to change. A cloth may still be answered where what is forbidden does
    not touch it, but never for pieces that no allowed combination asks for.
    """
    sheet = published()[name].sheet
    assert json.loads(answer("open", json.dumps(sheet))) == {"opened": name}
    hard = [rule for rule in sheet["rules"] if rule["advice"] is None]
    about = {word for rule in hard for key in ("when", "needs", "excludes") for one in rule[key] or [] for word in one}
    deciding = [choice for choice in sheet["choices"] if choice["name"] in about or choice["asked_when"]]
    forbidden = 0
    for size in sheet["sizes"]:
        good = {tuple(sorted(one.items())) for one in allowed_sets(name, size)}
        seen: set[tuple[tuple[str, str], ...]] = set()
        for words in product(*([a["name"] for a in choice["alternatives"]] for choice in deciding)):
            picked = dict(zip((choice["name"] for choice in deciding), words, strict=True))
            full = completed(sheet["choices"], {**picked, "size": size})
            kept = {c["name"] for c in sheet["choices"] if not c["steps_only"]} | {"size"}
            key = tuple(sorted((k, v) for k, v in full.items() if k in kept))
            if key in good or key in seen:
                continue
            seen.add(key)
            said = json.loads(answer("panel", json.dumps({"pattern": name, "size": size, "choices": picked})))
            fragments = {one["id"]: one for one in said["fragments"]}
            assert fragments["choices"]["kind"] == "problem" and fragments["choices"]["text"]
            assert fragments["choices"]["data"]["because"] and fragments["choices"]["data"]["changes"]
            for cloth in sheet["cloths"]:
                asked = {i["id"] for i in sheet["items"] if i["cloth"] == cloth["name"] and holds(i["when"], full)}
                if asked and asked not in demands(name, size, cloth["name"]):
                    assert fragments[f"cloth.{cloth['name']}"]["kind"] == "problem", (size, picked, cloth["name"])
            forbidden += 1
    assert forbidden or not hard
