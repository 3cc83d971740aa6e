"""What does the shop show first? One card per pattern, and filters over them: size, garment, cloth, difficulty, free.

All cards stand in the page; the filters are native controls that the page's script brings to life. They are hidden
without it. A filter that could not tell two patterns apart is left out.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from boltside.pages.markup import Html, element, join
from boltside.pages.sale import price_words
from boltside.pages.slots import Slots
from boltside.pages.words import listed, size_span

Sheet = Mapping[str, Any]
Shown = tuple[Sheet, Mapping[str, Any], str]
"""A pattern's sheet, the answer for its default choices, and its address."""

MANY = 12
"""From more patterns than this on, cards are narrow rows on a phone. Our choice: about six screens of large cards."""
HARDEST = 5
BETWEEN = "|"
"""Between the words of one filter in a card's data; no title has it."""


def shop_front(patterns: Sequence[Shown]) -> Html:
    """Filters and cards. Argument: for each pattern its sheet, the answer for its default choices, its address."""
    cards = (
        element("li", card(*pattern), **{f"data_{name}": BETWEEN.join(words) for name, words in facts(pattern).items()})
        for pattern in patterns
    )
    many = " cards--many" if len(patterns) > MANY else ""
    return join([filters(patterns), element("ul", *cards, class_=f"cards bare{many}", id="cards")])


def card(sheet: Sheet, answer: Mapping[str, Any], address: str) -> Html:
    """One pattern's card; the whole card is one link."""
    slots = Slots(answer)
    drawing, difficulty = slots.fragment("drawing"), slots.fragment("difficulty")
    kinds = listed(main_kinds(sheet), "or")
    what = f"{sheet['garment'].capitalize()}, {size_span(sheet['sizes'])}{', ' if kinds else ''}{kinds}"
    price = price_words(sheet)
    return element(
        "a",
        element("span", Html(drawing["html"]) if drawing else "", class_="card__drawing", aria_hidden="true"),
        element(
            "span",
            element("span", sheet["name"], class_="card__name"),
            element("span", what, class_="card__facts"),
            element("span", sheet["summary"], class_="card__summary"),
            element("span", Html(difficulty["html"]) if difficulty else "", class_="card__facts"),
            element("span", price, class_="card__price") if price else "",
            class_="card__words",
        ),
        href=address,
        class_="card",
    )


def main_kinds(sheet: Sheet) -> list[str]:
    """Kinds of cloth that the garment itself is made of: those of the cloth that comes first.

    >>> main_kinds({"cloths": [{"kinds": ["woven", "knit"]}, {"kinds": ["lining"]}]})
    ['woven', 'knit']
    """
    return list(sheet["cloths"][0]["kinds"]) if sheet["cloths"] else []


def facts(pattern: Shown) -> dict[str, list[str]]:
    """What the filters look at: the words of one pattern by the name of the filter."""
    sheet, answer, _ = pattern
    difficulty = Slots(answer).fragment("difficulty")
    return {
        "size": list(sheet["sizes"]),
        "garment": [sheet["garment"]],
        "cloth": main_kinds(sheet),
        "difficulty": [str(difficulty["data"]["difficulty"] if difficulty else sheet["difficulty"])],
        "free": ["free"] if (sheet.get("sale") or {}).get("free") else [],
    }


def filters(patterns: Sequence[Shown]) -> Html:
    """The filters that can tell these patterns apart; empty when none can."""
    known = [facts(pattern) for pattern in patterns]
    rows = [
        choose("size", "Size", "any", ((size, size) for size in in_order(known, "size", by_number=True)), known),
        choose("garment", "Garment", "any", ((word, word) for word in in_order(known, "garment")), known),
        choose("cloth", "Cloth", "any", ((word, word) for word in in_order(known, "cloth")), known),
        choose("difficulty", "Difficulty", "any", hardest(known), known),
        only_free(known),
    ]
    if not any(rows):
        return Html("")
    summary = element(
        "summary",
        element("span", "All patterns", data_front_chosen=True),
        element("span", str(len(patterns)), data_front_count=True),
    )
    clear = element("button", "Show all", type="button", class_="plain", data_front_clear=True, hidden=True)
    return join(
        [
            element(
                "form",
                element("details", summary, element("div", *rows, clear, class_="front__rows")),
                element("p", class_="front__said", role="status", data_front_said=True),
                id="front",
                class_="front",
                aria_label="Which patterns",
                data_of=len(patterns),
                hidden=True,
            )
        ]
    )


def in_order(known: Iterable[Mapping[str, Sequence[str]]], name: str, *, by_number: bool = False) -> list[str]:
    """The words that any pattern has for a filter, each once; sizes by number where they are numbers.

    >>> in_order([{"size": ["104", "98"]}, {"size": ["98"]}], "size", by_number=True)
    ['98', '104']
    """
    words = {word for fact in known for word in fact[name]}
    return sorted(words, key=lambda word: (int(word) if by_number and word.isdigit() else 0, word))


def hardest(known: Sequence[Mapping[str, Sequence[str]]]) -> list[tuple[str, str]]:
    """Choices of *at most so difficult*; the hardest there is would leave nothing out, so it is not offered.

    >>> hardest([{"difficulty": ["1"]}, {"difficulty": ["3"]}, {"difficulty": ["2"]}])
    [('1', '1 of 5'), ('2', 'up to 2 of 5')]
    """
    steps = in_order(known, "difficulty")
    return [(step, f"{'up to ' if at else ''}{step} of {HARDEST}") for at, step in enumerate(steps[:-1])]


def choose(
    name: str,
    title: str,
    any_word: str,
    words: Iterable[tuple[str, str]],
    known: Sequence[Mapping[str, Sequence[str]]],
) -> Html:
    """One filter as a native list; left out where all patterns agree."""
    offered = list(words)
    if not offered or len({tuple(fact[name]) for fact in known}) < 2:
        return Html("")
    return element(
        "label",
        element("span", title),
        element("select", element("option", any_word, value=""),
                *(element("option", shown, value=word) for word, shown in offered), name=name, autocomplete="off"),
        class_="front__row",
    )  # fmt: skip


def only_free(known: Sequence[Mapping[str, Sequence[str]]]) -> Html:
    """A box for free patterns alone, where some are free and some are not."""
    if len({tuple(fact["free"]) for fact in known}) < 2:
        return Html("")
    box = element("input", type="checkbox", name="free", value="free", autocomplete="off")
    return element("label", box, element("span", "Free ones only"), class_="tick front__tick")
