"""Places of closures in the sheet: for every allowed combination exactly one row, and as many as are bought."""

from __future__ import annotations

from typing import Any

import pytest
from cases.real_sheets import pattern_names, real_sheet

from boltside.calculators.choices import all_allowed
from boltside.calculators.conditions import holds, names_in_all
from boltside.calculators.notions import one_notion
from boltside.calculators.places import places_conditions
from boltside.calculators.request import read_request


def test_the_number_follows_from_the_wished_space(sheet: dict[str, Any]) -> None:
    # Nine tenths of the open edge of the frill, 110 mm high, from 15 to 12 mm before the end: two spaces of 36 come
    # as near to 30 as three of 24, and the smaller number is taken, so 3 in each of 2 rows.
    snaps = next(one for one in sheet["notions"] if one["name"] == "frill-snaps")
    bought = one_notion(read_request(sheet, {"size": "92", "choices": {"length": "waist"}}), snaps)[0]
    assert bought.data["count"] == 6 and bought.said.text == "Snaps, 9 mm: 6"
    both = one_notion(read_request(sheet, {"size": "92", "second": "92", "choices": {"length": "waist"}}), snaps)[0]
    assert both.data["count"] == 12
    assert {"length", "size"} <= set(bought.depends_on)


def every_row(sheet: dict[str, Any]) -> int:
    """Looks at each notion that is placed, in every combination of the choices that it asks about; returns how many."""
    seen = 0
    for notion in sheet["notions"]:
        if notion["placed"] is None:
            continue
        asked = set(names_in_all([notion["when"], *places_conditions(notion)]))
        for size in sheet["sizes"]:
            done = set()
            for chosen in all_allowed(sheet["choices"], sheet["rules"], size, steps_too=False):
                key = tuple((name, chosen.get(name)) for name in sorted(asked))
                if key in done or not holds(notion["when"], chosen):
                    continue
                done.add(key)
                rows = [case["sizes"][size] for case in notion["placed"]["cases"]
                        if size in case["sizes"] and holds(case["when"], chosen)]  # fmt: skip
                assert len(rows) == 1, (notion["name"], size, key)
                choices = {name: word for name, word in chosen.items() if name != "size"}
                bought = one_notion(read_request(sheet, {"size": size, "choices": choices}), notion)[0]
                assert bought.data["count"] == len(rows[0]["mm"]) * notion["placed"]["rows"]
                assert rows[0]["mm"] == sorted(rows[0]["mm"]) and rows[0]["mm"][-1] < rows[0]["line_mm"]
                seen += 1
    return seen


@pytest.mark.parametrize("name", pattern_names())
def test_as_many_places_as_are_bought(name: str) -> None:
    seen = every_row(real_sheet(name))
    assert seen or all(one["placed"] is None for one in real_sheet(name)["notions"])


def test_as_many_places_as_are_bought_in_the_fixture(sheet: dict[str, Any]) -> None:
    assert every_row(sheet) >= 3 * 4
