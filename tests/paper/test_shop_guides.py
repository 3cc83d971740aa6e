"""The guides of a shop: one for each size, made once, from the cache as long as nothing has changed."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from boltside.paper import shop_guides as module
from boltside.paper.guide import paper_guide
from boltside.paper.print_pdf import as_pdf, styles
from boltside.paper.shop_guides import shop_guides, why_none


@pytest.fixture
def asked(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """What is printed, document by document, without printing it."""
    found: list[str] = []

    def stand_in(document: str, pictures: dict[str, bytes]) -> bytes:
        found.append(document)
        return f"%PDF {len(document)} {sorted(pictures)}".encode()

    monkeypatch.setattr(module, "as_pdf", stand_in)
    monkeypatch.setattr(module, "why_not", lambda: "")
    monkeypatch.setattr(module, "made_with", lambda: "these libraries")
    monkeypatch.setattr(module.os, "cpu_count", lambda: 1)
    return found


def test_each_size_has_its_guide_and_keeps_it(sheet: dict[str, Any], asked: list[str], tmp_path: Path) -> None:
    made = shop_guides([sheet], [{}], tmp_path)
    assert list(made[0]) == sheet["sizes"] and len(asked) == len(sheet["sizes"])
    assert shop_guides([sheet], [{}], tmp_path) == made and len(asked) == len(sheet["sizes"])
    assert shop_guides([sheet], [{}]) == made and len(asked) == 2 * len(sheet["sizes"])


def test_what_has_changed_is_made_anew_and_nothing_else(
    sheet: dict[str, Any], asked: list[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    shop_guides([sheet], [{}], tmp_path)
    asked.clear()
    first = sheet["sizes"][0]
    sheet["body"]["rows"][first]["height"] += 1
    shop_guides([sheet], [{}], tmp_path)
    assert [f", size {first}<" in document for document in asked].count(True) == 1 and len(asked) <= 2
    asked.clear()
    sheet["steps"][0]["html"] += '<p><img src="a.svg"></p>'
    shop_guides([sheet], [{"a.svg": b"one", "b.svg": b"not asked for"}], tmp_path)
    again = len(asked)
    shop_guides([sheet], [{"a.svg": b"one", "b.svg": b"changed"}], tmp_path)
    assert len(asked) == again
    shop_guides([sheet], [{"a.svg": b"two"}], tmp_path)
    assert len(asked) == 2 * again
    monkeypatch.setattr(module, "made_with", lambda: "newer libraries")
    shop_guides([sheet], [{"a.svg": b"two"}], tmp_path)
    assert len(asked) == 3 * again


def test_a_damaged_guide_is_made_anew(sheet: dict[str, Any], asked: list[str], tmp_path: Path) -> None:
    made = shop_guides([sheet], [{}], tmp_path)
    place = tmp_path / "paper" / f"{sheet['pattern']}.{sheet['sizes'][0]}"
    for harm in (place.read_bytes()[:-1], b"", b"\xff\xfe\n", place.read_bytes() + b"x"):
        place.write_bytes(harm)
        asked.clear()
        assert shop_guides([sheet], [{}], tmp_path) == made
        assert len(asked) == 1


def test_a_size_in_which_the_usual_options_are_forbidden_has_none(sheet: dict[str, Any], asked: list[str]) -> None:
    first = sheet["sizes"][0]
    sheet["rules"] = [{"when": [{"size": [first]}], "only_sizes": sheet["sizes"][1:], "because": "so"}]
    assert list(shop_guides([sheet], [{}])[0]) == sheet["sizes"][1:]


def test_where_none_can_be_made_it_is_said_in_one_line(sheet: dict[str, Any], monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(module, "why_not", lambda: "WeasyPrint is not installed. Install it.")
    assert shop_guides([sheet], [{}]) == [{}]
    assert why_none() == (
        "The paper guides (PDF) and the links to them are left out. WeasyPrint is not installed. Install it."
    )
    monkeypatch.setattr(module, "why_not", lambda: "")
    assert why_none() == ""


def test_side_by_side_they_are_the_same(sheet: dict[str, Any], printing: None) -> None:
    made = shop_guides([sheet, {**sheet, "name": "Other"}], [{}, {}])
    size = sheet["sizes"][0]
    assert made[0][size] == as_pdf(paper_guide(sheet, size, {}, styles=styles()))
    assert made[0][size] != made[1][size]
