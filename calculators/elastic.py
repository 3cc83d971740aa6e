"""How long is the elastic, and how much of it to buy?

Closed elastic is a body measurement times a factor, less what it pulls in, plus an overlap where the ends lie on each
other ("from memory": a rule of the trade without a source). The designer's own figure for a size wins over the rule;
the difference stands in the data, for her.

>>> ring = {"take": "ring", "body": "waist", "factor": 1, "minus_mm": 20, "overlap_mm": 20}
>>> cut_length({"rule": ring, "tabled_mm": {"86": 470}, "edge_cases": []}, {"waist": 458}, "86", {})
Cut(total_mm=470, overlap_mm=20, rule_mm=458, tail_mm=0)
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from .conditions import holds

NotionJson = Mapping[str, Any]

CAUTION = "Elastic must not mark the skin; check as the child grows."
"""Shown wherever elastic is used. Source: the trade's own caution, common practice."""


STRETCHED = 1.8
"""Elastic stretches to about so many times its length. From memory."""


@dataclass(frozen=True)
class Cut:
    """A length to cut: all of it, the part that overlaps, what the rule alone would give (None: no rule), and the tail
    at either end that is caught in a seam (mm)."""

    total_mm: float
    overlap_mm: float
    rule_mm: float | None
    tail_mm: float = 0

    @property
    def closed_mm(self) -> float:
        """The length of the closed ring, or of what lies on the edge: all less overlap and tails, in mm."""
        return self.total_mm - self.overlap_mm - 2 * self.tail_mm


def cut_length(notion: NotionJson, body: Mapping[str, float], size: str, chosen: Mapping[str, str]) -> Cut | None:
    """The length to cut of one piece of this notion.

    Arguments: the notion; the body measurements of the size in mm; the size; the completed set of choices, which
    decides the edge. Returns None for a notion that has no length (buttons, thread).
    """
    by_rule = rule_mm(notion, body, size, chosen)
    tabled = notion["tabled_mm"].get(size)
    rule = notion["rule"]
    overlap_mm = rule["overlap_mm"] if rule is not None and rule["take"] == "ring" else 0
    tail_mm = rule.get("tail_mm", 0) if rule is not None else 0
    total = by_rule if tabled is None else tabled
    return None if total is None else Cut(total, overlap_mm, by_rule, tail_mm)


def rule_mm(notion: NotionJson, body: Mapping[str, float], size: str, chosen: Mapping[str, str]) -> float | None:
    """What the notion's rule gives, in mm, overlap included; None without a rule or without the edge."""
    rule = notion["rule"]
    if rule is None:
        return None
    if rule["take"] == "ring":
        value = body.get(rule["body"])
        more = rule["overlap_mm"] + 2 * rule.get("tail_mm", 0)
        return None if value is None else value * rule["factor"] - rule["minus_mm"] + more
    for case in notion["edge_cases"]:
        if holds(case["when"], chosen):
            edge = case["mm"].get(size)
            return None if edge is None else edge * rule["times"] * rule["factor"] + rule["plus_mm"]
    return None
