"""The page of the shopping list: its places, its list of files, the shop's patterns; and the button of a pattern."""

from __future__ import annotations

import hashlib
import json
import re
from pathlib import Path

import pytest

from boltside.calculators.shop_cuts import CUTS
from boltside.calculators.shopping import is_shop
from boltside.pages.list_page import NO_SCRIPT, list_page, put_on_list
from boltside.shop_build import SHOP_PATH, PatternFiles, ShippedFile, ShopFiles, list_files

BROWSER = Path(__file__).parents[2] / "site_src" / "browser"
SCRIPTS = ("list", "listed", "code", "buys", "garments", "send", "large")


def shop_of(*patterns: PatternFiles) -> ShopFiles:
    named = ("worker", "running", *SCRIPTS)
    browser = tuple(ShippedFile(path=f"shop/{name}.mjs", content=name.encode()) for name in named)
    return ShopFiles(patterns=patterns, runtime=(), calculators=(), browser=browser)


def page_of(pattern: PatternFiles) -> str:
    files = list_files(shop_of(pattern))
    return list_page(files, script="../shop/list.mjs?1", base="../", shop="Thistle </script> Quay")


def test_every_place_that_the_scripts_fill_is_there(pattern: PatternFiles) -> None:
    html = page_of(pattern)
    asked = set()
    for name in SCRIPTS:
        text = (BROWSER / f"{name}.mjs").read_text(encoding="utf-8")
        asked |= set(re.findall(r'\bplace\("([a-z-]+)"\)', text))
        asked |= set(re.findall(r'document\.querySelector\("\[data-([a-z-]+)\]"\)', text))
    assert len(asked) >= 20
    missing = {name for name in asked if f" data-{name}" not in html}
    assert missing == set()


def test_it_is_empty_until_a_script_fills_it_and_says_so(pattern: PatternFiles) -> None:
    html = page_of(pattern)
    assert NO_SCRIPT.split(":")[0] in html and re.search(r'class="list-page" data-list hidden', html)
    assert re.findall(r'name="list-cut" value="([^"]+)"', html) == list(CUTS)
    assert re.findall(r'name="list-cut" value="([^"]+)" checked', html) == [next(iter(CUTS))]
    assert 'for="list-code"' in html and 'id="list-code"' in html
    assert " style=" not in html and html.count("</script>") == 2


def test_the_shops_patterns_are_listed_with_their_sheets_and_hashes(pattern: PatternFiles) -> None:
    shop = shop_of(pattern)
    data = re.search(r'id="list-data">(.*?)</script>', page_of(pattern))
    assert data is not None
    files = json.loads(data[1])["files"]
    shipped = next(file for file in shop.all_files() if file.path == SHOP_PATH)
    assert files["sheet"] == {
        "path": SHOP_PATH, "sha256": hashlib.sha256(shipped.content).hexdigest(), "bytes": len(shipped.content),
        "opens": "open-shop",
    }  # fmt: skip
    listed = json.loads(shipped.content)
    assert is_shop(listed) and listed["currency"] == pattern.sheet["currency"]
    assert listed["patterns"] == {
        "example-jacket": {
            "name": "Example jacket",
            "edition": "1",
            "address": "patterns/example-jacket/",
            "sheet": pattern.sheet_file.listed(),
        }
    }
    assert {f"{name}.mjs" for name in SCRIPTS} <= set(files["scripts"])


def test_a_patterns_button_says_which_edition_is_put_on_the_list(pattern: PatternFiles) -> None:
    html = put_on_list({**pattern.sheet, "edition": "2 <b>", "name": "A & B"})
    assert 'data-edition="2 &lt;b&gt;"' in html and 'data-name="A &amp; B"' in html
    assert html.startswith('<div class="put" data-put') and "data-put-said hidden>" in html


@pytest.mark.parametrize("name", [*SCRIPTS, "put", "putting"])
def test_scripts_put_words_into_the_page_and_never_markup(name: str) -> None:
    text = (BROWSER / f"{name}.mjs").read_text(encoding="utf-8")
    assert not re.search(r"innerHTML|outerHTML|insertAdjacentHTML|document\.write|eval\(|new Function", text)
