"""Does my cloth have a nap? The list of kinds, as buttons beside a question and with reasons on a page."""

from __future__ import annotations

import json

from boltside.calculators.nap import WITH, WITHOUT
from boltside.calculators.nap_kinds import KINDS, NOT_LISTED, yes_or_no
from boltside.pages.markup import Html, element, join

NOT_SURE = "Not sure? Pick your cloth"


def nap_picks(control: str) -> Html:
    """The kinds, folded away, each a button that answers the question.

    Argument: the name of the radio buttons that hold the answer, `with` or `without`. Without a script the list can
    be read.
    """
    rows = []
    for kind in KINDS:
        checks = json.dumps([[control, [WITH if kind.nap else WITHOUT]]], separators=(",", ":"))
        button = element("button", kind.title, ": ", element("b", yes_or_no(kind)), type="button", class_="nap-kind",
                         data_checks=checks)  # fmt: skip
        rows.append(element("li", button))
    return element(
        "details",
        element("summary", NOT_SURE),
        element("ul", *rows, class_="nap-kinds bare"),
        element("p", NOT_LISTED, class_="aside"),
        class_="folded small",
    )


def nap_list() -> Html:
    """The kinds with the reason of each, for a hand-written page."""
    rows = [
        join([element("dt", kind.title, ": ", yes_or_no(kind)), element("dd", element("p", kind.why))])
        for kind in KINDS
    ]
    return element("dl", *rows)
