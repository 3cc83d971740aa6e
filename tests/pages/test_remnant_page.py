"""The page about remnants: its questions, its list of files, what stands there without a script; and the index."""

from __future__ import annotations

import hashlib
import json
import re
from typing import Any

from boltside.calculators.remnant_index import is_remnant_index
from boltside.pages.remnant_index import index_text, kinds_in, remnant_index
from boltside.pages.remnant_page import NO_SCRIPT, remnant_page
from boltside.shop_build import REMNANTS_PATH, PatternFiles, ShippedFile, ShopFiles, remnant_files

WORKER = ShippedFile(path="shop/worker.mjs", content=b"// the worker")


def shop_of(*patterns: PatternFiles) -> ShopFiles:
    return ShopFiles(patterns=patterns, runtime=(), calculators=(), browser=(WORKER,))


def page_of(pattern: PatternFiles) -> str:
    return remnant_page([pattern.sheet], remnant_files(shop_of(pattern)), script="../shop/remnant.mjs?1", base="../")


def test_every_question_has_a_label_and_the_name_that_the_calculator_reads(pattern: PatternFiles) -> None:
    html = page_of(pattern)
    names = set(re.findall(r'<(?:input|select)[^>]* name="([^"]+)"', html))
    assert names == {"width", "length", "kind", "nap", "wash", "size"}
    for field in ("width", "length"):
        assert f'for="remnant-{field}"' in html and f'id="remnant-{field}"' in html
    assert re.findall(r'name="kind" value="([^"]+)"', html) == kinds_in([pattern.sheet])
    assert re.findall(r'<option value="([^"]+)"', html) == pattern.sheet["sizes"]
    assert "Woven, no nap, not washed yet, any size" in html
    assert "<noscript><p" in html and NO_SCRIPT.split(".")[0] in html
    assert " style=" not in html


def test_the_page_lists_the_index_with_its_hash_and_the_shop_ships_it(pattern: PatternFiles) -> None:
    shop = shop_of(pattern)
    data = re.search(r'id="remnant-data">(.*?)</script>', page_of(pattern))
    assert data is not None
    listed = json.loads(data[1])["files"]["sheet"]
    shipped = next(file for file in shop.all_files() if file.path == REMNANTS_PATH)
    assert listed == {
        "path": REMNANTS_PATH, "sha256": hashlib.sha256(shipped.content).hexdigest(), "bytes": len(shipped.content),
        "opens": "open-remnants",
    }  # fmt: skip
    assert is_remnant_index(json.loads(shipped.content))


def test_the_index_is_the_same_text_each_time_and_lists_the_shortest_first(sheet: dict[str, Any]) -> None:
    made = [index_text(remnant_index([(sheet, "patterns/a/"), (sheet, "patterns/b/")])) for _ in range(2)]
    assert made[0] == made[1]
    index = json.loads(made[0])
    assert index["order"] == sorted(index["order"]) and len(index["order"]) == 2 * len(sheet["cloths"])
    least = min(step[1] for ways in sheet["lays"].values() for naps in ways.values() for sizes in naps.values()
                for rows in sizes.values() for steps in rows for step in steps)  # fmt: skip
    assert index["order"][0][0] == -(-least // 10)
