"""Words of the command line: every mistake is said with what there is instead."""

from __future__ import annotations

from typing import Any

import pytest

from boltside.paper.chosen_set import NoSuchSet, chosen_set

SHEET: dict[str, Any] = {
    "name": "Tryout",
    "sizes": ["86", "92"],
    "choices": [
        {"name": "sleeves", "title": "Sleeves", "default": "long", "asked_when": [],
         "alternatives": [{"name": "long", "title": "Long"}, {"name": "none", "title": "None"}]},
        {"name": "end", "title": "Sleeve end", "default": "hem", "asked_when": [{"sleeves": ["long"]}],
         "alternatives": [{"name": "hem", "title": "Hemmed"}, {"name": "band", "title": "In a band"}]},
    ],
    "rules": [{"when": [{"end": ["band"]}], "only_sizes": ["92"], "because": "the band does not pass the hand"}],
}  # fmt: skip


def test_what_is_not_named_takes_its_default() -> None:
    assert chosen_set(SHEET, "92", "") == {"size": "92", "sleeves": "long", "end": "hem"}
    assert chosen_set(SHEET, "92", " end = band , ") == {"size": "92", "sleeves": "long", "end": "band"}
    assert chosen_set(SHEET, "86", "sleeves=none") == {"size": "86", "sleeves": "none"}


@pytest.mark.parametrize(
    ("size", "choices", "told"),
    [
        ("93", "", "Tryout has no size '93'; it has 86 and 92"),
        ("92", "sleves=long", "Tryout has no choice 'sleves'; there are sleeves, end; did you mean 'sleeves'?"),
        ("92", "sleeves=lon", "sleeves has no 'lon'; there are long, none; did you mean 'long'?"),
        ("92", "sleeves", "'sleeves' is no choice; choices are written like sleeves=long,end=hem"),
        ("92", "end=hem,end=band", "end is there twice"),
        ("92", "sleeves=none,end=band", "end is not asked here; it is with: Sleeves: long"),
        ("86", "end=band", "these options do not go together: Sleeve end: in a band, only in size 92 "
                           "(the band does not pass the hand)"),
    ],
)  # fmt: skip
def test_every_mistake_is_said(size: str, choices: str, told: str) -> None:
    with pytest.raises(NoSuchSet) as raised:
        chosen_set(SHEET, size, choices)
    assert str(raised.value) == told
