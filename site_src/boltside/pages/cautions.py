"""The cautions of a pattern's page; their words are the calculators' own (:mod:`boltside.calculators.cautions`)."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from boltside.calculators.cautions import DEFER, TEXTS, caution_names
from boltside.pages.markup import Html, element, join


def cautions(sheet: Mapping[str, Any], sewn: Sequence[Mapping[str, str]] | None = None) -> Html:
    """The cautions of a pattern as a list with the closing sentence; `sewn`: as :func:`caution_names`."""
    entries = [
        element("div", element("dt", title), element("dd", words), class_="caution")
        for title, words in (TEXTS[name] for name in caution_names(sheet, sewn))
    ]
    return join([element("dl", *entries, class_="cautions") if entries else "", element("p", DEFER)])
