"""Prices: how they are typed, what is paid, and the total."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from functools import cache
from typing import Any

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from boltside.calculators.price import cost_coins, money, read_price

Ask = Callable[..., dict[str, dict[str, Any]]]


@cache
def exact_units() -> pint.UnitRegistry[Any]:
    """Units whose factors are fractions; made once, because that takes long."""
    return pint.UnitRegistry(non_int_type=Fraction)


@pytest.mark.outside  # source: the pint library's unit tables
@given(st.integers(0, 100_000), st.integers(1, 80))
def test_law_a_price_per_yard_is_paid_for_yards(coins: int, eighths: int) -> None:
    registry = exact_units()
    length = registry.Quantity(Fraction(eighths, 8), "yard")
    of_a_metre = coins / registry.Quantity(Fraction(1), "yard").to("meter").magnitude
    exact = of_a_metre * length.to("meter").magnitude
    assert abs(cost_coins(coins, eighth_yards=eighths) - exact) <= Fraction(1, 2)


@given(st.integers(0, 100_000), st.integers(1, 120))
@pytest.mark.outside  # source: exact arithmetic with Python's fractions
def test_law_a_price_per_metre_is_paid_for_metres(coins: int, steps: int) -> None:
    exact = coins * Fraction(steps * 50, 1000)
    assert abs(cost_coins(coins, buy_mm=steps * 50) - exact) <= Fraction(1, 2)


@pytest.mark.parametrize(
    ("text", "unit", "coins", "per"),
    [
        ("12.90", "cm", 1290, "m"), ("12,9", "in", 1290, "yd"), ("12.90 EUR", "cm", 1290, "m"),
        ("EUR 12.90 per m", "in", 1290, "m"), ("€9 a yard", "cm", 900, "yd"), ("9.50/yd", "cm", 950, "yd"),
        (" １２ ", "cm", 1200, "m"), ("0", "cm", 0, "m"), (".5", "cm", 50, "m"), ("007", "cm", 700, "m"),
    ],
)  # fmt: skip
def test_how_prices_are_typed(text: str, unit: Any, coins: int, per: str) -> None:
    price = read_price(text, unit, "EUR")
    assert (price.coins, price.per, price.said.text) == (coins, per, "")


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("-3", "A price can't be less than nothing: “-3”. Type a number such as 12.90."),
        ("dear", "“dear” can't be read as a price in EUR. Type a number such as 12.90."),
        ("10 GBP", "Prices here are in EUR; “10 GBP” can't be read as one. Type the number alone."),
        ("$ 10", "Prices here are in EUR; “$ 10” can't be read as one. Type the number alone."),
        ("12.999", "“12.999” can't be read as a price in EUR. Type it with at most 2 decimals, and thousands without a "
                   "sign between them."),
        ("1.234,50", "“1.234,50” can't be read as a price in EUR. Type a number such as 12.90."),
    ],
)  # fmt: skip
def test_what_is_no_price_is_refused_and_the_amount_stands(ask: Ask, text: str, words: str) -> None:
    said = ask("panel", cloths={"outer": {"price": text}})
    assert (said["cost.outer"]["kind"], said["cost.outer"]["data"]["code"]) == ("problem", "not-a-price")
    assert said["cost.outer"]["text"] == f"Outer cloth: {words}"
    assert said["cloth.outer"] == ask("panel")["cloth.outer"]


@pytest.mark.outside  # source: ISO 4217 gives the yen no decimals, the Kuwaiti dinar three; from memory
def test_currencies_with_other_decimals() -> None:
    assert read_price("1200", "cm", "JPY").coins == 1200 and money(1200, "JPY") == "1200 JPY"
    assert read_price("12.5", "cm", "JPY").coins is None
    assert read_price("1.250", "cm", "KWD").coins == 1250 and money(1250, "KWD") == "1.250 KWD"


def test_the_cost_is_of_what_the_shop_cuts(ask: Ask) -> None:
    # 0.40 m of the outer cloth on 140 cm (368 + 30 mm); in yards 398 / 114.3 = 3.48: 1/2 yd. Cut to 1/4 yd the same.
    said = ask("cost", cloths={"outer": {"price": "12.90"}})["cost.outer"]
    assert said["text"] == "Outer cloth, 0.40 m: 5.16 EUR"
    assert said["data"] == {"cloth": "outer", "coins": 516, "price_coins": 1290, "per": "m", "currency": "EUR"}
    assert said["html"].endswith('<span class="count">5.16 EUR</span>')
    by_the_yard = ask("cost", unit="in", cloths={"outer": {"price": "12.90"}})["cost.outer"]
    assert by_the_yard["text"] == by_the_yard["text_inch"] == "Outer cloth, 1/2 yd: 6.45 EUR"
    # Lining on 110 cm: what it needs decides where the coarser step costs more.
    fine, coarse = (
        ask("cost", cut=cut, cloths={"lining": {"price": "10", "width": "110"}})["cost.lining"]["data"]["coins"]
        for cut in ("fine", "coarse")
    )
    buy_mm = ask("cloth", cloths={"lining": {"width": "110"}})["cloth.lining"]["data"]["buy_mm"]
    assert (fine, coarse) == (buy_mm, -(-buy_mm // 100) * 100)


def test_the_total_names_what_is_missing(ask: Ask) -> None:
    none, one, two = (
        ask("cost", cloths={name: {"price": "10.00"} for name in names})
        for names in ((), ("outer",), ("outer", "lining", "interfacing"))
    )
    assert none["cost-total"]["text"] == ""
    assert one["cost-total"]["text"] == (
        "Cloth together (still without a price: Lining, Fusible interfacing): 4.00 EUR"
    )
    assert two["cost-total"]["data"]["coins"] == sum(
        two[f"cost.{name}"]["data"]["coins"] for name in ("outer", "lining", "interfacing")
    )
    assert two["why.cost-total"]["text"].startswith("Outer cloth: 4.00 EUR. Lining: ")


def test_a_cloth_without_an_amount_costs_nothing_and_its_price_is_left_alone(ask: Ask) -> None:
    said = ask("cost", cloths={"outer": {"price": "10", "width": "40"}})
    assert (said["cost.outer"]["text"], said["cost-total"]["text"]) == ("", "")


def test_why_it_costs_so_much(ask: Ask) -> None:
    assert ask("panel", cloths={"outer": {"price": "12.90"}})["why.cost.outer"]["text"] == (
        "To buy, as the shop cuts: 0.40 m (common practice). The price that you typed: 12.90 EUR a metre. "
        "0.40 m × 12.90 EUR: 5.16 EUR, to the nearest coin (common practice)."
    )
