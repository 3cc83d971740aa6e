"""The kinds of cloth with nap: buttons that answer the question, and a list on the page about cloths."""

from __future__ import annotations

import json
from pathlib import Path

from boltside.calculators.nap_kinds import KINDS
from boltside.pages.nap_kinds import nap_list, nap_picks
from boltside.plugin import NAP_MARK

from .reading import read

CLOTHS = Path(__file__).parents[2] / "site_src" / "pages" / "cloths.md"


def test_each_kind_answers_the_question() -> None:
    buttons = read(nap_picks("nap.outer")).all("button")
    assert [button.text for button in buttons] == [f"{kind.title}: {'yes' if kind.nap else 'no'}" for kind in KINDS]
    for button, kind in zip(buttons, KINDS, strict=True):
        wanted = "with" if kind.nap else "without"
        assert json.loads(button.attributes["data-checks"] or "") == [["nap.outer", [wanted]]]


def test_the_page_about_cloths_shows_the_list() -> None:
    assert NAP_MARK in CLOTHS.read_text(encoding="utf-8")
    shown = read(nap_list())
    assert [name.text for name in shown.all("dt")] == [f"{kind.title}: {'yes' if kind.nap else 'no'}" for kind in KINDS]
    assert [why.text for why in shown.all("dd")] == [kind.why for kind in KINDS]
