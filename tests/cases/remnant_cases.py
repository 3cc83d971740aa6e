"""Questions about remnants, from a seed: sound ones of every kind and size, and what people mistype."""

from __future__ import annotations

import json
import random
from collections.abc import Mapping, Sequence
from typing import Any

from boltside.pages.remnant_index import index_text, kinds_in, remnant_index

from .make_cases import ODD_TEXTS

SEED, SOUND = 20261126, 40

Case = tuple[str, str]


def opening(sheets: Sequence[Mapping[str, Any]]) -> Case:
    """What opens the index of these sheets."""
    return "open-remnants", index_text(remnant_index([(sheet, f"patterns/{sheet['pattern']}/") for sheet in sheets]))


def asked(draw: random.Random, kinds: Sequence[str], sizes: Sequence[str]) -> dict[str, str]:
    """One sound question."""
    width_mm, length_mm = draw.choice([draw.randint(300, 1900), draw.choice([900, 1100, 1400])]), draw.randint(60, 1900)
    unit = draw.choice(["cm", "in"])
    width, length = ((f"{one / 25.4:.2f}" if unit == "in" else f"{one / 10:g}") for one in (width_mm, length_mm))
    return {
        "width": width, "length": length, "unit": unit, "kind": draw.choice(kinds), "nap": draw.choice(["with", ""]),
        "wash": draw.choice(["usual", "washed", ""]), "size": draw.choice(["", "", "", *sizes]),
    }  # fmt: skip


def cases(sheets: Sequence[Mapping[str, Any]], seed: int = SEED) -> list[Case]:
    """Calculator and request text, to be answered in this order."""
    draw = random.Random(seed)
    sizes = sorted({size for sheet in sheets for size in sheet["sizes"]})
    sound = [asked(draw, kinds_in(sheets), sizes) for _ in range(SOUND)]
    usual = {"width": "140", "length": "95", "kind": kinds_in(sheets)[0]}
    odd: list[Any] = [{**usual, name: text} for text in ODD_TEXTS for name in ("width", "length")]
    odd += [{**usual, name: text} for name in ("kind", "nap", "wash", "size", "unit") for text in ("", "<b>", "x" * 60)]
    odd += [{**usual, "width": 5, "length": None}, {**usual, "wash": "own"}, {**usual, "length": "6"}, {}, []]
    return [
        ("remnants", json.dumps(usual)),
        ("open-remnants", '{"format": 99}'),
        opening(sheets),
        *(("remnants", json.dumps(one, sort_keys=True)) for one in [*sound, *odd]),
    ]
