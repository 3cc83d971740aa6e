"""Everything a page or a calculator may need to know of a pattern: the spec sheet.

Plain JSON, the same bytes each time. It is made from the pattern and its published lays, and it is the only thing
that leaves the engine: it never holds the sold pattern (see :mod:`boltside.spec.simplify`).
"""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from math import ceil
from typing import Any, get_args

from boltside.lay.model import Way, narrowest_bolt_mm, width_on_cloth_mm
from boltside.measure.cutting_list import cut_lines
from boltside.measure.finished import finished_cases, notion_edge_cases
from boltside.measure.lay_items import cutting_outline_mm, lay_item
from boltside.measure.model import CutLine, LengthCase
from boltside.pattern import Measurement, Notion, Pattern, RingRule
from boltside.spec.drawing import drawing_json
from boltside.spec.json_form import Json, choice_json, condition_json, rule_json, tidy
from boltside.spec.notes import notes_of, title_of
from boltside.spec.simplify import GRID_MM, coarse
from boltside.spec.steps_html import steps_html

FORMAT = 1
"""Version of the sheet; the calculators refuse another."""

CAUSES = {"elastic": "elastic", "button": "small-parts", "snap": "small-parts"}
"""Kinds of notions that bring a caution with them."""

PublishedLays = Mapping[str, Mapping[str, Any]]
"""By cloth: `sets` (lists of cutting-list lines) and `lengths` (way, size, width to set and length in mm)."""

WAYS: tuple[Way, ...] = get_args(Way)


def make_sheet(pattern: Pattern, published: PublishedLays) -> Json:
    """The pattern's spec sheet.

    Arguments: the pattern; its published lays, lengths in whole mm rounded up.
    Raises: :class:`boltside.measure.model.MeasureError` where something can't be measured as the pattern says.
    """
    lines = cut_lines(pattern)
    chart = pattern.body_chart
    return {
        "format": FORMAT,
        "pattern": pattern.folder,
        "name": pattern.name,
        "summary": pattern.summary,
        "garment": pattern.garment,
        "edition": pattern.edition,
        "difficulty": pattern.difficulty,
        "minutes": pattern.minutes,
        "sizes": list(pattern.sizes),
        "size_by": list(pattern.size_by),
        "body": {
            "chart": chart.name,
            "columns": list(chart.rows[pattern.sizes[0]]),
            "rows": {size: {name: tidy(mm) for name, mm in chart.rows[size].items()} for size in pattern.sizes},
            "ages": {size: chart.ages[size] for size in pattern.sizes if size in chart.ages},
            "sources": list(chart.sources),
        },
        "choices": [choice_json(choice) for choice in pattern.choices],
        "rules": [rule_json(rule) for rule in pattern.rules],
        "cloths": [
            {
                "name": cloth.name,
                "title": cloth.title,
                "kinds": list(cloth.kinds),
                "usual_width_mm": tidy(cloth.usual_width_mm),
                "widths_mm": [tidy(width) for width in cloth.widths_mm],
                "ways": list(cloth.ways),
                "one_way": cloth.one_way,
            }
            for cloth in pattern.cloths
        ],
        "items": [_item(pattern, line) for line in lines],
        "sets": {cloth: [list(members) for members in lays["sets"]] for cloth, lays in published.items()},
        "lays": {cloth: lays["lengths"] for cloth, lays in published.items()},
        "finished": [_finished(pattern, measurement) for measurement in pattern.measurements],
        "notions": [_notion(pattern, notion) for notion in pattern.notions],
        "outlines": {
            line.line_id: {size: coarse(cutting_outline_mm(pattern, line, size), GRID_MM) for size in line.sizes}
            for line in lines
        },
        "drawing": drawing_json(pattern),
        "steps": [
            {"title": step.title, "html": steps_html(step.text), "when": condition_json(step.when)}
            for step in pattern.steps
        ],
        "introduction_html": steps_html(pattern.introduction),
        "cautions": cautions(pattern),
    }


def sheet_text(sheet: Mapping[str, Any]) -> str:
    """The sheet as the text of `spec.json`: the same sheet gives the same bytes."""
    return json.dumps(sheet, sort_keys=True, ensure_ascii=False, allow_nan=False, separators=(",", ":")) + "\n"


def cautions(pattern: Pattern) -> list[str]:
    """The cautions to show: the designer's own, and those that elastic and small parts bring with them."""
    caused = [CAUSES[kind] for notion in pattern.notions for kind in notion.kinds if kind in CAUSES]
    return sorted({*pattern.cautions, *caused})


def _item(pattern: Pattern, line: CutLine) -> Json:
    laid = {size: lay_item(pattern, line, size) for size in line.sizes}
    return {
        "id": line.line_id,
        "piece": line.piece,
        "title": title_of(line),
        "cloth": line.cloth,
        "mode": line.mode,
        "count": line.count,
        "face": line.face,
        "kind": line.kind,
        "when": condition_json(line.when),
        "notes": notes_of(pattern, line),
        "narrowest_mm": {
            size: {way: ceil(narrowest_bolt_mm(width_on_cloth_mm(item, way), way)) for way in WAYS}
            for size, item in laid.items()
        },
    }


def _finished(pattern: Pattern, measurement: Measurement) -> Json:
    return {
        "name": measurement.name,
        "title": measurement.title,
        "body": measurement.body,
        "ease_mm": {kind: [tidy(low), tidy(high)] for kind, (low, high) in measurement.ease_mm.items()},
        "cases": _cases(finished_cases(pattern, measurement)),
    }


def _notion(pattern: Pattern, notion: Notion) -> Json:
    return {
        "name": notion.name,
        "title": notion.title,
        "kinds": list(notion.kinds),
        "width_mm": None if notion.width_mm is None else tidy(notion.width_mm),
        "diameter_mm": None if notion.diameter_mm is None else tidy(notion.diameter_mm),
        "count": notion.count,
        "tabled_count": dict(notion.tabled_count),
        "tabled_mm": {size: tidy(mm) for size, mm in notion.tabled_mm.items()},
        "rule": _rule(notion),
        "when": condition_json(notion.when),
        "edge_cases": _cases(notion_edge_cases(pattern, notion)),
    }


def _rule(notion: Notion) -> Json | None:
    rule = notion.rule
    if rule is None:
        return None
    if isinstance(rule, RingRule):
        return {
            "take": "ring",
            "body": rule.body,
            "factor": rule.factor,
            "minus_mm": tidy(rule.minus_mm),
            "overlap_mm": tidy(rule.overlap_mm),
        }
    return {"take": "edge", "times": rule.times, "factor": rule.factor, "plus_mm": tidy(rule.plus_mm)}


def _cases(cases: Sequence[LengthCase]) -> list[Json]:
    return [
        {"when": condition_json(case.when), "mm": {size: tidy(mm) for size, mm in case.mm.items()}} for case in cases
    ]
