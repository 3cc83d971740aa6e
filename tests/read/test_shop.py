"""The shop's own file, and a shop without one."""

from __future__ import annotations

from pathlib import Path

import pytest

from boltside.errors import ProblemsFound
from boltside.pattern import Shop
from boltside.read.shop import read_shop

TESTS = Path(__file__).parents[1]


def test_a_shop_without_the_file_has_no_label_and_sells_in_euros(tmp_path: Path) -> None:
    assert read_shop(tmp_path) == Shop(label="", currency="EUR", accent=None) == Shop()


def test_what_the_shop_says() -> None:
    shop = read_shop(TESTS / "garment" / "data")
    assert (shop.label, shop.currency, shop.accent) == ("The Fixtures", "EUR", "#336677")
    assert [one.name for one in shop.techniques] == ["buttonhole"]


def test_the_currency_may_be_left_out(tmp_path: Path) -> None:
    (tmp_path / "shop.yaml").write_text("boltside: 1\nlabel: Somewhere\n", encoding="utf-8")
    assert read_shop(tmp_path) == Shop(label="Somewhere", currency="EUR", accent=None)


def test_everything_wrong_is_said_at_once(tmp_path: Path) -> None:
    file = tmp_path / "shop.yaml"
    file.write_text("boltside: 1\nlabel: Somewhere\ncurrency: Euro\naccent: teal\nlabl: x\n", encoding="utf-8")
    with pytest.raises(ProblemsFound) as found:
        read_shop(tmp_path)
    assert [(problem.line, problem.column, problem.code) for problem in found.value.problems] == [
        (3, 11, "wrong-value"),
        (4, 9, "wrong-value"),
        (5, 1, "unknown-key"),
    ]
