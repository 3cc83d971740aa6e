"""Two hundred drawn answers about remnants, each held against a stored lay that is looked at from scratch.

What an address of the answer fills in is read here; which pieces are then cut is read from `pattern.yaml` by hand, and
that they lie on the piece of cloth, within its length, is seen by shapely (`look_at_lays.py`).
"""

from __future__ import annotations

import json
import random
import re
from html import unescape
from typing import Any
from urllib.parse import parse_qsl, urlsplit

import pytest
from look_at_lays import HAIR_MM, look_at
from read_by_hand import naps_asked
from stored_shop import PATTERNS, Shop, shop_of

from boltside.calculators.choices import completed
from boltside.calculators.door import answer
from boltside.pages.remnant_index import index_text, remnant_index

SEED, ANSWERS, QUESTIONS = 4712, 200, 60
NARROW_ANSWERS, NARROW_QUESTIONS = 60, 80


@pytest.fixture(scope="module")
def shops() -> dict[str, Shop]:
    return {name: shop_of(name) for name in PATTERNS}


def drawn_addresses(
    shops: dict[str, Shop],
    widths_cm: tuple[int, int],
    questions: int,
    answers: int,
    *,
    kinds: tuple[str, ...] = ("woven", "knit", "interfacing"),
    lengths_cm: tuple[int, int] = (10, 120),
) -> list[tuple[dict[str, Any], str]]:
    """Questions about washed pieces in whole centimetres, with addresses of their answers."""
    index = remnant_index([(shop.sheet, f"patterns/{shop.name}/") for shop in shops.values()])
    answer("open-remnants", index_text(index))
    chance = random.Random(SEED)
    print(f"seed {SEED}")
    found = []
    for _ in range(questions):
        asked = {
            "width": str(chance.randint(*widths_cm)), "length": str(chance.randint(*lengths_cm)), "wash": "washed",
            "kind": chance.choice(kinds), "nap": chance.choice(["with", "without"]),
        }  # fmt: skip
        said = json.loads(answer("remnants", json.dumps(asked)))["fragments"]
        for part in said:
            found += [(asked, unescape(one)) for one in re.findall(r'href="([^"]*\?[^"]*)"', part["html"])]
    return chance.sample(found, min(answers, len(found)))


def look(shops: dict[str, Shop], asked: dict[str, Any], address: str) -> tuple[str, str, int]:
    """Hold one answer against a stored lay; the pattern, the cloth, and the width that the lay was made for, in mm."""
    parts = urlsplit(address)
    shop = shops[parts.path.split("/")[1]]
    fields = dict(parse_qsl(parts.query))
    size = fields["size"]
    cloth = next(key.split(".")[1] for key in fields if key.startswith("width."))
    picked = {key.split(".")[1]: value for key, value in fields.items() if key.startswith("choice.")}
    chosen = completed(shop.sheet["choices"], {"size": size, **picked})
    chosen.pop("size")
    assert chosen in shop.choices(size), address
    pieces = shop.pieces(cloth, size, chosen)
    assert pieces, address
    way = fields.get(f"way.{cloth}", shop.raw["cloths"][cloth]["ways"][0])
    nap = naps_asked(shop.raw, cloth, chosen)
    used = nap.get(fields.get(f"nap.{cloth}", "without")) or next(iter(nap.values()))
    assert fields.get(f"nap.{cloth}", "without") == asked["nap"] or len(nap) == 1, address
    width_mm, length_mm = int(asked["width"]) * 10, int(asked["length"]) * 10
    lay = shop.own(cloth, size, way, used, frozenset(pieces), width_mm)
    assert lay is not None, address
    true_mm = look_at(shop.outlines, size, lay, shop.of_lay(cloth, size, lay))
    assert true_mm <= length_mm + HAIR_MM and lay.width_mm <= width_mm, address
    return shop.name, cloth, round(lay.width_mm)


@pytest.mark.outside  # shapely, and a cutting list read by hand, see the head of the file
def test_what_fits_lies_on_the_piece_of_cloth(shops: dict[str, Shop]) -> None:
    seen: dict[tuple[str, str], int] = {}
    for asked, address in drawn_addresses(shops, (50, 170), QUESTIONS, ANSWERS):
        name, cloth, _ = look(shops, asked, address)
        seen[name, cloth] = seen.get((name, cloth), 0) + 1
    print(seen)
    assert len(seen) >= 6 and sum(seen.values()) == ANSWERS, "drawn from most cloths"


@pytest.mark.outside  # as above
def test_what_fits_a_narrow_piece_lies_on_it_too(shops: dict[str, Shop]) -> None:
    """Woven pieces narrower than any bolt of it; the lays on them are those for remnants."""
    seen: dict[tuple[str, str], int] = {}
    drawn = drawn_addresses(
        shops, (40, 89), NARROW_QUESTIONS, NARROW_ANSWERS, kinds=("woven",), lengths_cm=(40, 140)
    )
    for asked, address in drawn:
        name, cloth, width_mm = look(shops, asked, address)
        if width_mm < min(shops[name].raw["cloths"][cloth]["widths_mm"]):
            seen[name, cloth] = seen.get((name, cloth), 0) + 1
    print(seen)
    listing = [
        (shop.name, cloth)
        for shop in shops.values() for cloth, of in shop.raw["cloths"].items() if of.get("remnant_widths_mm")
    ]  # fmt: skip
    assert ("millrace", "outer") in listing and set(seen) <= set(listing)
    assert sum(seen.values()) >= NARROW_ANSWERS // 2 and ("millrace", "outer") in seen
