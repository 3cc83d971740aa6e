"""Which fragments say whether a garment goes on and holds, what is gathered, and how much thread it takes?"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

MADE_WITH_TITLE = "Putting it on, gathers, thread"


def made_with_names(sheet: Mapping[str, Any]) -> list[str]:
    """Their ids, in the order in which they are read."""
    return [
        *(f"pull-on.{ring['name']}" for ring in sheet["pull_on"]),
        *(f"elastic.{one['name']}" for one in sheet["notions"] if "elastic" in one["kinds"]),
        *(f"gathers.{gather['name']}" for gather in sheet["gathers"]),
        *(f"thread.{one['name']}" for one in sheet["notions"] if one["reel_m"] is not None),
    ]
