"""Are there stripes or checks that are to meet? Asked of each cloth that may have some, folded up: most cloth is plain.

The names of the controls are `pattern.<cloth>`, `every.<cloth>` and `uneven.<cloth>`.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from boltside.calculators.fragments import say
from boltside.calculators.stripe_words import ANOTHER
from boltside.calculators.stripes import LISTED, OWN, PLAIN, YES, may_be_striped
from boltside.calculators.units import Shown
from boltside.pages.controls import radio, tick, typed
from boltside.pages.markup import Html, element, join
from boltside.pages.slots import Slots

STRIPES_QUESTION = "Stripes or checks?"
PLAIN_TITLE = "Plain, or nothing that has to meet"
EVERY = "Starts again every"
HOW_TO_MEASURE = (
    "Measure along the selvedge, from one stripe to the next that is the same. Stripes that only run along the length "
    "of the cloth take no more of it: leave them plain."
)
UNEVEN = "Uneven: upside down they look different"
WHAT_UNEVEN_IS = (
    "Turn a corner of the cloth head to foot and lay it on the rest. If the stripes no longer run on alike, they are "
    "uneven: then every piece is cut from one layer, all the same way up."
)


def stripes_question(cloth: Mapping[str, Any], slots: Slots) -> Html:
    """The question about one cloth, with the repeats that have layouts of their own; nothing for interfacing."""
    if not may_be_striped(cloth["kinds"]):
        return Html("")
    name, title = cloth["name"], cloth["title"]
    answers = {PLAIN: PLAIN_TITLE}
    answers |= {LISTED + one["name"]: one["title"] for one in cloth.get("repeats", ())}
    answers[OWN] = f"{ANOTHER.strip('“”')} repeat, which you type" if len(answers) > 1 else "Yes"
    picks = join(radio(f"pattern.{name}", value, words, checked=value == PLAIN) for value, words in answers.items())
    every = typed(f"every.{name}", EVERY, Html(say(Shown("cm", "inch")).html), label_more=title)
    own = element(
        "div",
        every,
        element("p", HOW_TO_MEASURE, class_="aside"),
        element("div", tick(f"uneven.{name}", YES, UNEVEN, described_by=f"uneven-{name}"), class_="list"),
        element("p", WHAT_UNEVEN_IS, class_="aside", id=f"uneven-{name}"),
        class_="stripes__own",
    )
    return element(
        "details",
        element("summary", STRIPES_QUESTION, element("span", f" {title}", class_="unseen")),
        element("div", picks, class_="list", role="radiogroup", aria_label=f"{title}: {STRIPES_QUESTION}"),
        own,
        slots.one(f"cloth.{name}.repeat.how", "p", class_="aside"),
        class_="folded stripes",
    )
