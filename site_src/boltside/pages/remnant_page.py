"""What fits this remnant? The questions about a piece of cloth, and the places of the answer.

The names of the controls are what the page's script reads and keeps in the address: `width`, `length`, `kind`, `nap`,
`wash`, `size`. Which way the selvedge runs is shown by a small drawing, because everything depends on it. Only the two
lengths are asked in the open: what kind of cloth it is stands folded away beneath them, told in one line, so that on a
phone the answer begins on the first screen.
"""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from typing import Any

from boltside.calculators.nap import WITH, WITHOUT
from boltside.calculators.typed import LONGEST_TEXT
from boltside.calculators.wash import USUAL, WASHED
from boltside.pages.markup import Html, element, join
from boltside.pages.nap_kinds import nap_picks
from boltside.pages.remnant_index import kinds_in
from boltside.pages.words import upper_first

Sheet = Mapping[str, Any]

NAP_TITLES = {WITHOUT: ("No", "no nap"), WITH: ("Yes", "with nap")}
WASH_TITLES = {USUAL: ("Not yet", "not washed yet"), WASHED: ("Yes", "washed already")}
"""Each answer as it stands under its question, and as it is told in one line with the others."""
ANY_SIZE = "any size"
NO_SCRIPT = (
    "Looking through all patterns needs JavaScript. Without it, the tables on each pattern's page say what it takes "
    "in every size and width for the usual choices."
)
SQUARED = (
    "A size opens the pattern with all of this filled in; how the pieces lie is shown further down there. It asks for "
    "a little more cloth than here, because a shop's cut is seldom square: your piece already is."
)
PIECE = (
    '<svg class="bs-piece-of-cloth" viewBox="0 0 120 104" aria-hidden="true" focusable="false">'
    '<path class="bs-cut-ends" d="M14 14H106M14 80H106"/><path class="bs-selvedges" '
    'd="M14 14V80M18 14V80M102 14V80M106 14V80"/>'
    '<path class="bs-grain-arrow" d="M48 26V68M44 31L48 26L52 31M44 63L48 68L52 63"/>'
    '<text x="55" y="50">length</text><text x="60" y="97" text-anchor="middle">width</text>'
    '<text x="30" y="47" text-anchor="middle" transform="rotate(-90 30 47)">selvedge</text></svg>'
)
"""Drawn by us: cut ends above and below, selvedges at the sides, the grain between them."""


def remnant_page(sheets: Sequence[Sheet], files: Mapping[str, Any], *, script: str, base: str) -> Html:
    """The form, the places of the answer, and what the page's script has to know.

    Arguments: the spec sheets of all patterns; what the worker may load, each with hash and length; the script's
    address; the way from the page to the site's root.
    """
    known = json.dumps({"base": base, "files": files}, sort_keys=True, separators=(",", ":"))
    return join(
        [
            element(
                "div",
                questions(sheets),
                element("div", element("noscript", element("p", NO_SCRIPT, class_="remnant__state")), answer_places()),
                class_="remnants",
            ),
            element("script", Html(known.replace("<", "\\u003c")), type="application/json", id="remnant-data"),
            element("script", type="module", src=script),
        ]
    )


def questions(sheets: Sequence[Sheet]) -> Html:
    """What is asked of the piece of cloth."""
    kinds = {kind: (upper_first(kind), upper_first(kind)) for kind in kinds_in(sheets)}
    groups = {"kind": kinds, "nap": NAP_TITLES, "wash": WASH_TITLES}
    usual = ", ".join([*(next(iter(words.values()))[1] for words in groups.values() if words), ANY_SIZE])
    return element(
        "form",
        element(
            "div",
            Html(PIECE),
            element("div", typed("length", "Length, along the selvedge"),
                    typed("width", "Width, across it"), class_="remnant__typed"),
            class_="remnant__piece",
        ),
        element(
            "details",
            element("summary", element("span", usual, data_said_all=True)),
            element(
                "div",
                picks("kind", "Kind of cloth", kinds),
                picks("nap", "Nap, or a print that points one way?", NAP_TITLES),
                nap_picks("nap"),
                picks("wash", "Washed already?", WASH_TITLES),
                element(
                    "label",
                    element("span", "Only for size"),
                    element("select", element("option", "any", value="", data_said=ANY_SIZE),
                            *(element("option", size, value=size, data_said=f"size {size}")
                              for size in all_sizes(sheets)), name="size", autocomplete="off"),
                    class_="remnant__size",
                ),
                class_="remnant__picks",
            ),
            class_="folded remnant__more",
        ),
        id="remnant",
        class_="remnant",
    )  # fmt: skip


def typed(name: str, title: str) -> Html:
    """A length to type, with the unit of the page behind it."""
    return element(
        "div",
        element("label", title, for_=f"remnant-{name}"),
        element(
            "span",
            element("input", id=f"remnant-{name}", name=name, type="text", inputmode="decimal", autocomplete="off",
                    size=6, maxlength=LONGEST_TEXT),
            element("span", "cm", class_="in-cm"),
            element("span", "inch", class_="in-inch"),
            class_="measure",
        ),
        class_="field",
    )  # fmt: skip


def picks(name: str, title: str, words: Mapping[str, tuple[str, str]]) -> Html:
    """A question with a few answers, the first of which is chosen; each as it is shown, and as it is told elsewhere."""
    return element(
        "div",
        element("span", title, class_="legend", id=f"remnant-{name}-title"),
        element(
            "div",
            *(
                element(
                    "label",
                    element("input", type="radio", name=name, value=value, checked=not at, autocomplete="off",
                            data_said=said),
                    element("span", shown),
                    class_="pick",
                )
                for at, (value, (shown, said)) in enumerate(words.items())
            ),
            class_="chips",
        ),
        role="radiogroup",
        aria_labelledby=f"remnant-{name}-title",
        class_="remnant__pick",
    )  # fmt: skip


def answer_places() -> Html:
    """Where the answer appears: what it comes to, then the patterns; empty until something is asked."""
    bar = element("progress", max=100, value=0, aria_label="Calculator")
    progress = element("p", bar, element("span"), class_="remnant__progress", data_progress=True, hidden=True)
    return element(
        "section",
        element("p", data_fragment="remnant", role="status", class_="remnant__said", hidden=True),
        progress,
        element("p", data_state=True, role="status", class_="remnant__state", hidden=True),
        found("whole", "For the garment itself"),
        found("part", "For a lining, a patch or the like"),
        element("p", data_fragment="remnant.how", class_="aside", hidden=True),
        element("p", SQUARED, class_="aside", data_after=True, hidden=True),
        id="fits",
        aria_label="What fits",
        class_="remnant__answer",
    )


def found(role: str, title: str) -> Html:
    """The place for the patterns that the cloth is enough for in one way."""
    return element(
        "section", element("h2", title), element("div", data_fragments=f"remnant.{role}."), data_found=role, hidden=True
    )


def all_sizes(sheets: Sequence[Sheet]) -> list[str]:
    """Every size of any pattern; by number where they are numbers.

    >>> all_sizes([{"sizes": ["98", "104"]}, {"sizes": ["62", "98"]}])
    ['62', '98', '104']
    """
    words = {size for sheet in sheets for size in sheet["sizes"]}
    return sorted(words, key=lambda word: (int(word) if word.isdigit() else 0, word))
