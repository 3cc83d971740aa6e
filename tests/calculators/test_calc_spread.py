"""How a cloth is spread out: nap, way, width."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

Ask = Callable[..., dict[str, dict[str, Any]]]


def test_nap_is_asked_forced_or_never(ask: Ask, sheet: dict[str, Any]) -> None:
    asked = {"outer": {"nap": "with"}, "lining": {"nap": "with"}, "interfacing": {"nap": "with"}}
    plain, napped = ask("cloth"), ask("cloth", cloths=asked)
    knit = ask("cloth", choices={"cloth": "knit"}, cloths={"outer": {"nap": "without"}})
    used = [said["cloth.outer"]["data"]["nap_used"] for said in (plain, napped, knit)]
    assert used == ["without", "with", "with"]
    assert [said["cloth.outer"]["data"]["nap"] for said in (plain, napped, knit)] == ["ask", "ask", "always"]
    longer = sheet["lays"]["outer"]["folded"]["with"]["92"][4][-1]
    assert napped["cloth.outer"]["data"]["needed_mm"] == longer[1] > plain["cloth.outer"]["data"]["needed_mm"]
    assert napped["cloth.outer"]["text"] == "Outer cloth, 140 cm wide, with nap: 0.45 m"
    assert knit["cloth.outer"]["data"]["needed_mm"] == longer[1]
    assert (napped["cloth.interfacing"], napped["cloth.lining"]["data"]["nap_used"]) == (
        plain["cloth.interfacing"],
        "with",
    )
    assert "nap" not in plain["cloth.interfacing.how"]["text"]


def test_nap_in_other_words_is_refused_where_it_is_asked(ask: Ask) -> None:
    said = ask("cloth", cloths={"outer": {"nap": "fuzzy"}, "interfacing": {"nap": "fuzzy"}})
    assert said["cloth.outer"]["data"]["code"] == "unknown-nap"
    assert said["cloth.interfacing"]["kind"] == "figure"


def test_each_cloth_has_its_own_width(ask: Ask) -> None:
    said = ask("cloth", cloths={"outer": {"width": "150"}, "lining": {"width": "110 cm"}})
    widths = {name: said[name]["data"]["reckoned_width_mm"] for name in ("cloth.outer", "cloth.lining")}
    assert widths == {"cloth.outer": 1500, "cloth.lining": 1100}
    assert said["cloth.interfacing"]["data"]["reckoned_width_mm"] == 900


def test_a_way_that_does_not_exist(ask: Ask) -> None:
    said = ask("cloth", cloths={"outer": {"way": "rolled"}})["cloth.outer"]
    assert said["text"] == (
        "Outer cloth: “rolled” is not a way of laying it. It can be folded once, right sides together or laid flat, "
        "in one layer."
    )
