"""How much is to be bought of each cloth, for all garments of a list together?

Two cloths of a list are one purchase only if the buyer has said that they are cut from one cloth, and if that can be:
a kind of cloth that will do for all, the same width on the bolt, the same nap, wash and repeat. Then the lays lie one
behind the other, which is always enough; the ends are squared once, the first wash is counted once, and the sum is
rounded once. Layouts of different garments together were not made, so it is the safe sum and not the least.

>>> one_behind_the_other_mm([950, 1210], [0, 0], Wash())
2190.0
>>> one_behind_the_other_mm([950, 1210], [0, 80.0], Wash(along_tenths=50))
2385.3
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from .fragments import NOTHING, Fragment, Said, escaped, joined, say
from .laid import Laid
from .price import DIGITS, METRE, PER_WORDS, USUAL_DIGITS, Price, cost_coins, money, read_price
from .problems import problem
from .shop_cuts import CUT
from .shopping_items import Item, no_amount
from .spread import Spread, on_the_bolt_mm, spread_out
from .stripe_words import in_note
from .units import MM_PER_M, Cuts, buy_mm, eighth_yards, metres, mixed, needed, width
from .wash import NOT_COUNTED_YET, USUAL_TENTHS, Wash

ITEMS = "items"
"""The name under which a purchase depends on the list's entries."""

SAFE = (
    "Where several garments come from one cloth, their layouts are reckoned one behind the other: always enough, and "
    "perhaps a little more than a layout of all of them together would take."
)
NOT_COUNTED = "Shrinkage is not counted for: "


def one_behind_the_other_mm(lays_mm: Sequence[int], repeats_mm: Sequence[float], wash: Wash) -> float:
    """The length on the bolt, in mm, of lays one behind the other: squared and washed as one cut.

    Arguments: the lengths of the lays and what a typed repeat adds to each, in mm; the wash.
    """
    return on_the_bolt_mm(sum(lays_mm), wash) + round(sum(repeats_mm) * 10) / 10


@dataclass(frozen=True, kw_only=True)
class Need:
    """A cloth that one entry of the list needs, and how it is spread out for it."""

    item: Item
    cloth: str
    title: str
    spread: Spread

    @property
    def named(self) -> str:
        """The garment and its cloth in words."""
        return f"{self.item.named}: {self.title}"


@dataclass(frozen=True, kw_only=True)
class Purchase:
    """What is bought as one length: ``needs`` that are cut from it, the first of which names it."""

    key: str
    needs: tuple[Need, ...]
    apart: Said = NOTHING

    @property
    def first(self) -> Need:
        """The need that stands first on the list."""
        return self.needs[0]

    @property
    def kinds(self) -> list[str]:
        """The kinds of cloth that will do for all."""
        return [kind for kind in self.first.spread.kinds if all(kind in one.spread.kinds for one in self.needs)]

    @property
    def answers(self) -> list[Laid]:
        """The lays; as many as needs where every one has its lay."""
        return [one.spread.answer for one in self.needs if one.spread.answer is not None]

    @property
    def length_mm(self) -> float:
        """The length on the bolt, in mm, before it is rounded up."""
        repeats_mm = [one.spread.repeats_mm(one.spread.answer) for one in self.needs if one.spread.answer is not None]
        return one_behind_the_other_mm([one.length_mm for one in self.answers], repeats_mm, self.first.spread.wash)

    @property
    def cuts(self) -> Cuts:
        """How the shop cuts."""
        return self.first.spread.cuts

    def takes_also(self, need: Need) -> bool:
        """Whether this need can come from the same cloth."""
        return _alike(self.first.spread) == _alike(need.spread) and bool(set(self.kinds) & set(need.spread.kinds))


def _alike(spread: Spread) -> tuple[object, ...]:
    """What has to be the same for two cloths to be one, besides the kind."""
    stripes, wash = spread.stripes, spread.wash
    repeat = (stripes.along_mm, stripes.across_mm, stripes.uneven, stripes.missing)
    return (spread.width_mm, spread.nap_used, wash.along_tenths, wash.across_tenths, *repeat)


def purchases(items: Iterable[Item]) -> tuple[list[Purchase], list[Need]]:
    """What is bought, in the order of the list, and the needs for which there is no lay."""
    found: dict[str, Purchase] = {}
    without: list[Need] = []
    for item in items:
        if item.request is None:
            continue
        for cloth in item.request.sheet["cloths"]:
            spread = spread_out(item.request, cloth)
            if not spread.demand:
                continue
            need = Need(item=item, cloth=cloth["name"], title=cloth["title"], spread=spread)
            if spread.refused or spread.answer is None:
                without.append(need)
                continue
            _put(found, need)
    return list(found.values()), without


def _put(found: dict[str, Purchase], need: Need) -> None:
    """Put a need to the purchase that the buyer named, or where that can't be, to one of its own."""
    key = need.item.bolt(need.cloth)
    named = found.get(key)
    apart = NOTHING
    if named is not None and not named.takes_also(need):
        apart = say(f"Not cut from one cloth with {named.first.named}: kind, width, nap, wash or repeat are not alike. "
                    "Open one of them again to change it.")  # fmt: skip
        key = need.item.own_bolt(need.cloth)
        while key in found and not found[key].takes_also(need):
            key += ".apart"
    there = found.get(key)
    needs = (need,) if there is None else (*there.needs, need)
    found[key] = Purchase(key=key, needs=needs, apart=apart if there is None else there.apart)


def cloth_fragments_of(items: Sequence[Item], currency: str) -> list[Fragment]:
    """Fragments `buy.cloth.<key>` with its `.whose`, `.how`, `.join` and `.cost`; `buy.total`, `buy.safe` and
    `buy.not-counted`.

    Arguments: the entries of the list; the shop's currency, three letters.
    """
    bought, without = purchases(items)
    fragments: list[Fragment] = []
    costs: list[int] = []
    silent: list[str] = []
    for one in bought:
        price = _price(one, currency)
        fragments += _purchase(one, bought, price, currency)
        if price.coins is None:
            silent.append(_title(one))
        else:
            costs.append(_coins(one, price))
    for need in without:
        said = no_amount(need.item.request, need.cloth) if need.item.request is not None else NOTHING
        name = f"buy.cloth.{need.item.own_bolt(need.cloth)}"
        code = need.spread.refused or "not-reckoned"
        fragments.append(problem(name, code, say(f"{need.item.named}: ", said), (ITEMS,), key=name))
    joint = any(len(one.needs) > 1 for one in bought)
    return [
        *fragments,
        _total(costs, silent, currency),
        Fragment(name="buy.safe", kind="sentence", said=say(SAFE if joint else ""), depends_on=(ITEMS,)),
        _not_counted(bought),
    ]


def _purchase(one: Purchase, bought: Sequence[Purchase], price: Price, currency: str) -> list[Fragment]:
    name, spread, depends_on = f"buy.cloth.{one.key}", one.first.spread, (ITEMS, CUT)
    length = metres(one.length_mm, one.cuts)
    said = say(f"{_title(one)}, ", width(spread.width_mm), " wide", in_note(spread), ": ", length)
    data = {
        "key": one.key, "buy_mm": buy_mm(one.length_mm, one.cuts), "buy_eighth_yards": eighth_yards(
            one.length_mm, one.cuts), "width_mm": spread.width_mm,
        "needs": [[need.item.id, need.cloth] for need in one.needs],
    }  # fmt: skip
    others = [other for other in bought if other is not one and all(one.takes_also(need) for need in other.needs)
              and _all_together(one, other)]  # fmt: skip
    join = [{"key": other.key, "named": _named(other)} for other in others]
    return [
        Fragment(name=name, kind="figure", said=said, data=data, depends_on=depends_on),
        Fragment(name=f"{name}.whose", kind="sentence", said=say("; ".join(_whose(one))), depends_on=(ITEMS,)),
        Fragment(name=f"{name}.how", kind="sentence", said=_how(one), depends_on=depends_on),
        Fragment(name=f"{name}.join", kind="sentence", said=one.apart, data={"join": join}, depends_on=(ITEMS,)),
        _cost(one, price, currency),
    ]


def _all_together(one: Purchase, other: Purchase) -> bool:
    """Whether one kind of cloth will do for all the needs of both."""
    return bool(set(one.kinds) & set(other.kinds))


def _title(one: Purchase) -> str:
    return " and ".join(dict.fromkeys(need.title for need in one.needs))


def _whose(one: Purchase) -> list[str]:
    return list(dict.fromkeys(need.item.named for need in one.needs))


def _named(one: Purchase) -> str:
    return f"{_title(one)} ({'; '.join(_whose(one))})"


def _how(one: Purchase) -> Said:
    """What each garment's pieces take, and what is done to the sum."""
    wash, stripes = one.first.spread.wash, one.first.spread.stripes
    shrinks = "squares the ends, shrinks and rounds up" if wash.along_tenths else "squares the ends and rounds up"
    repeats = "; a repeat is added for each row of pieces" if stripes.each_row_mm else ""
    if len(one.needs) == 1:
        return say("The pieces take ", needed(one.answers[0].length_mm), f"{repeats}; the rest {shrinks}.")
    each = joined(
        (say(f"{need.named} takes ", needed(answer.length_mm))
         for need, answer in zip(one.needs, one.answers, strict=True)), between=", "
    )  # fmt: skip
    together = needed(sum(answer.length_mm for answer in one.answers))
    return say(each, "; one behind the other ", together, f"{repeats}; the rest {shrinks}, once for all.")


def _price(one: Purchase, currency: str) -> Price:
    """The price of the piece: the first that was typed for any of its needs."""
    for need in one.needs:
        request = need.item.request
        typed = request.prices.get(need.cloth, "") if request is not None else ""
        if request is not None and typed.strip():
            return read_price(typed, request.unit, currency)
    return Price()


def _coins(one: Purchase, price: Price) -> int:
    """What the piece costs, in the currency's smallest coins."""
    if price.per == METRE:
        return cost_coins(price.coins or 0, buy_mm=buy_mm(one.length_mm, one.cuts))
    return cost_coins(price.coins or 0, eighth_yards=eighth_yards(one.length_mm, one.cuts))


def _cost(one: Purchase, price: Price, currency: str) -> Fragment:
    name, depends_on = f"buy.cloth.{one.key}.cost", (ITEMS, CUT)
    if price.coins is None:
        if price.said.html:
            return problem(name, "not-a-price", price.said, depends_on)
        return Fragment(name=name, kind="sentence", depends_on=depends_on)
    length = f"{buy_mm(one.length_mm, one.cuts) / MM_PER_M:.2f} m"
    if price.per != METRE:
        length = f"{mixed(eighth_yards(one.length_mm, one.cuts), 8)} yd"
    coins = _coins(one, price)
    said = say(f"{length} at {money(price.coins, currency)} a {PER_WORDS[price.per]}: ", _sum(coins, currency))
    data = {"coins": coins, "currency": currency, "per": price.per}
    return Fragment(name=name, kind="figure", said=said, data=data, depends_on=depends_on)


def _sum(coins: int, currency: str) -> Said:
    """A sum of money, marked so that the page can show it as it shows a number of things."""
    text = money(coins, currency)
    return Said(text=text, text_inch=text, html=f'<span class="count">{escaped(text)}</span>')


def _total(costs: Sequence[int], silent: Sequence[str], currency: str) -> Fragment:
    if not costs or len(costs) + len(silent) < 2:
        return Fragment(name="buy.total", kind="sentence", depends_on=(ITEMS, CUT))
    missing = f" (still without a price: {', '.join(dict.fromkeys(silent))})" if silent else ""
    said = say(f"Cloth together{missing}: ", _sum(sum(costs), currency))
    data = {"coins": sum(costs), "currency": currency, "digits": DIGITS.get(currency, USUAL_DIGITS)}
    return Fragment(name="buy.total", kind="figure", said=said, data=data, depends_on=(ITEMS, CUT))


def _not_counted(bought: Sequence[Purchase]) -> Fragment:
    """Of which cloths shrinkage is not counted, as far as they usually shrink."""
    titles = [
        _title(one)
        for one in bought
        if any(need.spread.wash.how == NOT_COUNTED_YET for need in one.needs)
        and any(USUAL_TENTHS.get(kind, 0) for kind in one.kinds)
    ]
    said = say(f"{NOT_COUNTED}{', '.join(dict.fromkeys(titles))}." if titles else "")
    return Fragment(name="buy.not-counted", kind="sentence", said=said, depends_on=(ITEMS,))
