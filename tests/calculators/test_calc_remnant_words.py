"""What a remnant is enough for in words and addresses, held against RFC 3986 and lengths on paper."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from html import unescape
from types import SimpleNamespace
from typing import Any
from urllib.parse import parse_qsl, quote, urlsplit

import pytest
from cases.paper_sheet import make_paper
from cases.remnant_cases import opening

from boltside.calculators.door import answer
from boltside.calculators.remnant_fits import Piece, Statement
from boltside.calculators.remnant_words import Typed, filled_in

Ask = Callable[..., dict[str, dict[str, Any]]]
CLOTH = {"name": "outer", "also": {}, "ways": ["flat"]}
SHELF: Any = SimpleNamespace(
    cloth=CLOTH, choices=[], table=SimpleNamespace(variants=[()]), nap=lambda _: "never", kinds=lambda _: ["woven"]
)
UNRESERVED = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-._"


@pytest.mark.outside  # RFC 3986, 2.5 (its three signs) and 2.3, and the standard library's reader
@pytest.mark.parametrize(
    ("typed", "coded"),
    [("A", "A"), ("À", "%C3%80"), ("ア", "%E3%82%A2"), (UNRESERVED, UNRESERVED), ("55 1/2 in", None), ("a&b=c", None),
     ("100%", None), ("“1,4”+#?", None)],
)  # fmt: skip
def test_what_was_typed_stands_in_the_address_as_the_rfc_has_it(typed: str, coded: str | None) -> None:
    statement = Statement(size=0, way="flat", offered=1, fit=1, most_cm=1)
    said = Typed(width=typed, unit="cm", wash="washed", loss="")
    address = filled_in({"sizes": ["92"]}, SHELF, statement, 0, said, Piece(1400, 100, "woven", "without"))
    wanted = quote(typed, safe="") if coded is None else coded
    assert address == f"size=92&width.outer={wanted}&wash.outer=washed"
    assert parse_qsl(address, strict_parsing=True)[1] == ("width.outer", typed)


@pytest.mark.outside  # geometry, on paper
def test_sizes_lengths_and_links_are_those_on_paper() -> None:
    # On 100 cm two rectangles beside each other, with sleeves three rows: 3 x 70 = 210 cm in size 92, 3 x 72 = 216 in
    # 98, without 140 and 144. In inches rounded up to a quarter: 144 cm are 56.69, 56 3/4; 216 are 85.04, 85 1/4.
    answer(*opening([make_paper()]))
    asked = {"kind": "woven", "wash": "washed", "nap": "without", "unit": "cm", "size": "", "width": "100"}

    def whole(length: str) -> dict[str, Any]:
        said = json.loads(answer("remnants", json.dumps({**asked, "length": length})))["fragments"]
        return {one["id"]: one for one in said}["remnant.whole.paper-rectangles"]

    assert "Sizes 92 and 98. All options fit. Laid flat, in one layer; takes up to 2.16 m." in whole("216")["text"]
    assert "takes up to 85 1/4 in." in whole("216")["text_inch"]
    shorter = whole("150")
    assert "Sizes 92 and 98. All but Cloth of the sleeves: outer cloth." in shorter["text"]
    assert "takes up to 1.44 m." in shorter["text"] and "takes up to 56 3/4 in." in shorter["text_inch"]
    addresses = re.findall(r'href="([^"]+\?[^"]+)"', shorter["html"])
    links = [dict(parse_qsl(urlsplit(unescape(one)).query)) for one in addresses]
    assert [(one["size"], one["width.outer"], one.get("choice.sleeves", "none")) for one in links] == [
        ("92", "100", "none"), ("98", "100", "none"),
    ]  # fmt: skip
