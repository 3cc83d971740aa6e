"""What does the cloth cost?

The buyer types the price of a metre or of a yard, in the shop's currency; a bare number is per metre where the page is
set to centimetres, else per yard. Paid is for the length that the shop cuts, in the measure it sells by. Money is
reckoned in the currency's smallest coin, to the nearest. Nothing of it is kept.

>>> read_price("12,90", "cm", "EUR").coins, read_price("€ 9.5 per yd", "cm", "EUR").per
(1290, 'yd')
>>> cost_coins(1290, buy_mm=1350), money(1742, "EUR"), money(1742, "JPY")
(1742, '17.42 EUR', '1742 JPY')
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from .fragments import NOTHING, Fragment, Said, escaped, joined, quoted, say
from .laid import Laid
from .problems import problem
from .request import Request
from .spread import Spread, spread_out
from .together_words import for_whom
from .typed import LONGEST_TEXT, Unit, plain_text
from .units import MM_PER_M, mixed
from .why import COMMON, why_fragment
from .why_together import Reason

USUAL_DIGITS = 2
DIGITS: Mapping[str, int] = {
    **dict.fromkeys(["BIF", "CLP", "DJF", "GNF", "ISK", "JPY", "KMF", "KRW", "PYG", "RWF", "UGX", "VND", "VUV", "XAF",
                     "XOF", "XPF"], 0),
    **dict.fromkeys(["BHD", "IQD", "JOD", "KWD", "LYD", "OMR", "TND"], 3),
}  # fmt: skip
"""Decimals of currencies that do not have two. Source: ISO 4217, from memory."""

SIGNS: Mapping[str, tuple[str, ...]] = {
    "€": ("EUR",), "£": ("GBP",), "¥": ("JPY", "CNY"), "₹": ("INR",), "₩": ("KRW",),
    "$": ("USD", "CAD", "AUD", "NZD", "SGD", "HKD", "MXN"), "kr": ("SEK", "NOK", "DKK", "ISK"),
}  # fmt: skip
"""Signs that people write, and the currencies they may stand for. From memory."""

METRE, YARD = "m", "yd"
PER_WORDS = {METRE: "metre", YARD: "yard"}
_PER = {"m": METRE, "metre": METRE, "meter": METRE, "yd": YARD, "yard": YARD}

MOST_WHOLE_DIGITS = 7
"""Of the whole part of a price; our choice."""

_PRICE = re.compile(
    r"(?P<before>[^\s\d.,+-]+)?\s*(?P<whole>[0-9]*)(?:[.,](?P<part>[0-9]*))?\s*(?P<after>(?!per\b|an?\b)[^\s\d.,/]+)?"
    r"(?:\s*(?:/|per\b|an?\b)\s*(?P<per>metre|meter|yard|yd|m)\.?)?"
)


@dataclass(frozen=True, kw_only=True)
class Price:
    """A price in the currency's smallest coins, per metre or per yard; or a sentence that says what is wrong with it.

    Both are empty where nothing was typed.
    """

    coins: int | None = None
    per: str = METRE
    said: Said = NOTHING

    @property
    def empty(self) -> bool:
        """True when nothing was typed."""
        return self.coins is None and not self.said.html


def read_price(text: str, unit: Unit, currency: str) -> Price:
    """The price that was typed.

    Arguments: the text; the unit the page is set to, which says of what a bare number is the price; the shop's
    currency, three letters.
    """
    plain = plain_text(text)
    if not plain:
        return Price()
    typed, digits = quoted(text.strip()), DIGITS.get(currency, USUAL_DIGITS)
    other = Price(said=say(f"Prices here are in {currency}; {typed} can't be read as one. Type the number alone."))
    example = "12.90"[: 2 if digits == 0 else 5]
    such_as = f" Type a number such as {example}."
    unread = Price(said=say(f"{typed} can't be read as a price in {currency}.{such_as}"))
    if plain.startswith("-"):
        return Price(said=say(f"A price can't be less than nothing: {typed}.{such_as}"))
    found = _PRICE.fullmatch(plain) if len(plain) <= LONGEST_TEXT else None
    if found is None or not (found["whole"] or found["part"]):
        return unread
    whole, part = found["whole"].lstrip("0") or "0", found["part"] or ""
    for sign in (found["before"], found["after"]):
        if sign and sign != currency.lower() and currency not in SIGNS.get(sign, ()):
            return other
    if len(whole) > MOST_WHOLE_DIGITS or len(part) > digits:
        decimals = "without decimals" if digits == 0 else f"with at most {digits} decimals"
        return Price(said=say(f"{typed} can't be read as a price in {currency}. Type it {decimals}, and thousands "
                              "without a sign between them."))  # fmt: skip
    per = _PER[found["per"]] if found["per"] else YARD if unit == "in" else METRE
    return Price(coins=int(whole) * 10**digits + int(part.ljust(digits, "0") or "0"), per=per)


def cost_coins(coins: int, *, buy_mm: int | None = None, eighth_yards: int = 0) -> int:
    """What a length costs, in the smallest coins, to the nearest, halves up.

    Arguments: the price of a metre and ``buy_mm``, or the price of a yard and ``eighth_yards``.
    """
    amount, whole = (buy_mm, MM_PER_M) if buy_mm is not None else (eighth_yards, 8)
    return (2 * coins * amount + whole) // (2 * whole)


def money(coins: int, currency: str) -> str:
    """An amount of money in words."""
    digits = DIGITS.get(currency, USUAL_DIGITS)
    ones, rest = divmod(coins, 10**digits)
    return f"{ones}.{rest:0{digits}d} {currency}" if digits else f"{ones} {currency}"


def cost_fragments(request: Request) -> list[Fragment]:
    """Fragments `cost.<cloth>` and `cost-total`, each with its `why`; silent where no price was typed.

    Argument: a request whose size is known. The total is of all cloths that have a price; it names those without.
    """
    each = [part for cloth in request.sheet["cloths"] for part in cost_of(request, cloth)]
    return [*each, *cost_total(request)]


def cost_of(request: Request, cloth: Mapping[str, Any]) -> list[Fragment]:
    """The fragments of one cloth. Where no price was typed for it they depend on that alone."""
    spread, price = spread_out(request, cloth), _price(request, cloth)
    depends_on = (*_typed_price(cloth),) if price.empty else (*spread.amount_depends_on, *_typed_price(cloth))
    if spread.answer is not None and price.coins is not None:
        return _cost(request, cloth, spread, spread.answer, price, depends_on)
    return _no_cost(f"cost.{cloth['name']}", cloth["title"], spread, price, depends_on)


def cost_total(request: Request) -> list[Fragment]:
    """The fragments of all cloths together. Where no price was typed they depend on that alone."""
    costs: list[tuple[str, int]] = []
    without: list[str] = []
    typed, everything = set[str](), set[str]()
    nothing_typed = True
    for cloth in request.sheet["cloths"]:
        spread, price = spread_out(request, cloth), _price(request, cloth)
        typed |= {*_typed_price(cloth)}
        everything |= {*spread.amount_depends_on}
        nothing_typed = nothing_typed and price.empty
        if spread.answer is not None and price.coins is not None:
            costs.append((cloth["title"], _coins(spread, spread.answer, price)))
        elif spread.demand:
            without.append(cloth["title"])
    depends_on = tuple(sorted(typed if nothing_typed else typed | everything))
    return _total(currency_of(request), costs, without, depends_on)


def _price(request: Request, cloth: Mapping[str, Any]) -> Price:
    return read_price(request.prices.get(cloth["name"], ""), request.unit, currency_of(request))


def _typed_price(cloth: Mapping[str, Any]) -> tuple[str]:
    return (f"price.{cloth['name']}",)


def _coins(spread: Spread, answer: Laid, price: Price) -> int:
    """What this much cloth costs, in the smallest coins."""
    if price.per == METRE:
        return cost_coins(price.coins or 0, buy_mm=spread.buy_mm(answer))
    return cost_coins(price.coins or 0, eighth_yards=spread.eighth_yards(answer))


def currency_of(request: Request) -> str:
    """The shop's currency, three letters."""
    return str(request.sheet["currency"])


def sold(spread: Spread, answer: Laid, per: str) -> str:
    """The length that is paid for, in the measure in which it is sold."""
    if per == METRE:
        return f"{spread.buy_mm(answer) / MM_PER_M:.2f} m"
    return f"{mixed(spread.eighth_yards(answer), 8)} yd"


def _no_cost(name: str, title: str, spread: Spread, price: Price, depends_on: tuple[str, ...]) -> list[Fragment]:
    fragment = Fragment(name=name, kind="sentence", depends_on=depends_on)
    if price.said.html and spread.demand:
        fragment = problem(name, "not-a-price", say(f"{title}: ", price.said), depends_on)
    return [fragment, why_fragment(name, [], depends_on, {})]


def _cost(
    request: Request,
    cloth: Mapping[str, Any],
    spread: Spread,
    answer: Laid,
    price: Price,
    depends_on: tuple[str, ...],
) -> list[Fragment]:
    currency, coins, name = currency_of(request), price.coins or 0, f"cost.{cloth['name']}"
    cost = _coins(spread, answer, price)
    length = sold(spread, answer, price.per)
    data = {"cloth": cloth["name"], "coins": cost, "price_coins": coins, "per": price.per, "currency": currency}
    reasons = [
        Reason(said=say(f"To buy, as the shop cuts: {length}"), source=COMMON),
        Reason(said=say(f"The price that you typed: {money(coins, currency)} a {PER_WORDS[price.per]}")),
        Reason(said=say(f"{length} × {money(coins, currency)}: {money(cost, currency)}, to the nearest coin"),
               source=COMMON),
    ]  # fmt: skip
    said = joined([say(f"{cloth['title']}, {length}{for_whom(spread)}:"), _sum(cost, currency)])
    return [
        Fragment(name=name, kind="figure", said=said, data=data, depends_on=depends_on),
        why_fragment(name, reasons, depends_on, data),
    ]


def _sum(coins: int, currency: str) -> Said:
    """A sum of money, marked so that the page can show it as it shows a number of things."""
    text = money(coins, currency)
    return Said(text=text, text_inch=text, html=f'<span class="count">{escaped(text)}</span>')


def _total(
    currency: str, costs: list[tuple[str, int]], without: list[str], depends_on: tuple[str, ...]
) -> list[Fragment]:
    name, total = "cost-total", sum(cost for _, cost in costs)
    if not costs or len(costs) + len(without) < 2:
        silent = Fragment(name=name, kind="sentence", depends_on=depends_on)
        return [silent, why_fragment(name, [], depends_on, {})]
    missing = f" (still without a price: {', '.join(without)})" if without else ""
    said = joined([say(f"Cloth together{missing}:"), _sum(total, currency)])
    data = {"coins": total, "currency": currency, "without": without}
    reasons = [Reason(said=say(f"{title}: {money(cost, currency)}")) for title, cost in costs]
    return [
        Fragment(name=name, kind="figure", said=said, data=data, depends_on=depends_on),
        why_fragment(name, reasons, depends_on, data),
    ]
