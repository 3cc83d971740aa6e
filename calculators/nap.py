"""Does this cloth have a nap, and what is it, for what was chosen?

Cloth with nap (pile, a one-way print, most knits) looks different upside down, so no piece may be turned head to foot.
The designer says for each cloth, perhaps by cases: `always` laid so, `never`, or `ask` the buyer, whose cloth is
usually without.

>>> cases = [{"when": [{"cloth": ["knit"]}], "nap": "always"}, {"when": [], "nap": "ask"}]
>>> nap_said(cases, {"cloth": "knit"}), nap_said(cases, {"cloth": "woven"})
('always', 'ask')
>>> nap_used("ask", "with"), nap_used("ask", ""), nap_used("never", "with"), nap_used("always", "")
('with', 'without', 'without', 'with')
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from .conditions import holds

WITH, WITHOUT = "with", "without"
"""How a lay is made: no piece turned head to foot, or turned wherever that helps."""

ASK = "ask"
FORCED = {"always": WITH, "never": WITHOUT}

NAP_WORDS = {WITH: "with nap, so that no piece is turned head to foot", WITHOUT: "without nap"}

CaseJson = Mapping[str, Any]


def nap_said(cases: Sequence[CaseJson], chosen: Mapping[str, str]) -> str:
    """`always`, `ask` or `never`: the first of the cloth's cases that holds for what was chosen; none: `ask`."""
    return next((str(case["nap"]) for case in cases if holds(case["when"], chosen)), ASK)


def nap_used(said: str, asked: str) -> str:
    """`with` or `without`: what the designer forces, else what the buyer asks for, else `without`."""
    return FORCED.get(said) or (WITH if asked == WITH else WITHOUT)


def kinds_of(cloth: Mapping[str, Any], chosen: Mapping[str, str]) -> list[str]:
    """The kinds of cloth that will do here (woven, knit, interfacing), for what was chosen.

    >>> cases = [{"when": [{"cloth": ["knit"]}], "kinds": ["knit"]}, {"when": [], "kinds": ["woven"]}]
    >>> kinds_of({"kinds": ["woven", "knit"], "kind_cases": cases}, {"cloth": "knit"})
    ['knit']
    """
    for case in cloth["kind_cases"]:
        if holds(case["when"], chosen):
            return list(case["kinds"])
    return list(cloth["kinds"])
