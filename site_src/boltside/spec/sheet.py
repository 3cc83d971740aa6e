"""Everything a page or a calculator may need to know of a pattern: the spec sheet.

Plain JSON, the same bytes each time. It is made from the pattern and its published lays, and it is the only thing
that leaves the engine: it never holds the sold pattern (see :mod:`boltside.spec.simplify`).
"""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from math import ceil
from typing import Any, get_args

from shapely import Polygon

from boltside.lay.model import LayItem, PlainWay, Way, narrowest_bolt_mm, width_on_cloth_mm
from boltside.measure.cutting_list import cut_lines
from boltside.measure.finished import finished_cases, notion_edge_cases
from boltside.measure.guide_faults import guide_faults
from boltside.measure.lay_items import lay_item
from boltside.measure.model import CutLine, LengthCase, MeasureError
from boltside.pattern import ClothRepeat, Measurement, Notion, Pattern, RingRule, Shop, Step
from boltside.spec.drawing import drawing_and_depths
from boltside.spec.guide_words import GuideWords
from boltside.spec.json_form import Json, choice_json, condition_json, plan_json, rule_json, tidy
from boltside.spec.length_parts import Part, parts_json
from boltside.spec.made_with import channels_json, gathers_json, pull_on_json, sewn_json
from boltside.spec.notes import STRETCH_RUNS, carriers_of, notes_of, title_of
from boltside.spec.placed import placed_json
from boltside.spec.pressed import pressed_json
from boltside.spec.steps_html import steps_html
from boltside.spec.techniques import techniques_json

FORMAT = 3
"""Version of the sheet; the calculators refuse another."""

PublishedLays = Mapping[str, Mapping[str, Any]]
"""By cloth: `sets` (cutting-list lines) and `lengths` (way, nap, size to steps of each set: width, length, number of
the lay, rows)."""

WAYS: tuple[Way, ...] = get_args(PlainWay)
"""For these the narrowest bolt is told of every piece; for others where its cloth is laid so."""


def make_sheet(pattern: Pattern, published: PublishedLays, shop: Shop | None = None) -> Json:
    """The pattern's spec sheet.

    Arguments: the pattern; its published lays, lengths in whole mm rounded up; what the shop says for all patterns.
    Raises: :class:`boltside.measure.model.MeasureError` where something can't be measured as the pattern says.
    """
    lines = cut_lines(pattern)
    chart = pattern.body_chart
    drawing, low_mm = drawing_and_depths(pattern)
    words = GuideWords(pattern)
    for fault in guide_faults(pattern):
        if fault.severity == "error":
            raise MeasureError(f"{pattern.folder}: {fault.seen}; expected {fault.expected}; {fault.mend}")
    shop = shop or Shop()
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
        "together": [list(pair) for pair in pattern.together],
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
                **({"remnant_widths_mm": [tidy(one) for one in cloth.remnant_widths_mm]}
                   if cloth.remnant_widths_mm else {}),
                "nap": [{"when": condition_json(case.when), "nap": case.nap} for case in cloth.nap],
                **({"repeats": [_repeat(one) for one in cloth.repeats]} if cloth.repeats else {}),
                "kind_cases": [
                    {"when": condition_json(case.when), "kinds": list(case.kinds)} for case in cloth.kind_cases
                ],
            }
            for cloth in pattern.cloths
        ],
        "cloth_plans": [plan_json(plan) for plan in pattern.cloth_plans],
        "items": [_item(pattern, line) for line in lines],
        "pressed": {line.line_id: pressed_json(pattern, line) for line in lines if line.kind == "interfacing"},
        "sets": {cloth: [list(members) for members in lays["sets"]] for cloth, lays in published.items()},
        "lays": {cloth: lays["lengths"] for cloth, lays in published.items()},
        "lengthen": [
            {
                "title": one.title,
                "where": one.where,
                "pieces": sorted({name for line in one.lines for name in _players(pattern, line.piece)}),
                "by": one.by,
                "when": condition_json(one.when),
            }
            for one in pattern.lengthen
        ],
        "finished": [_finished(pattern, measurement, low_mm) for measurement in pattern.measurements],
        "notions": [_notion(pattern, notion, low_mm) for notion in pattern.notions],
        "gathers": gathers_json(pattern),
        "pull_on": pull_on_json(pattern),
        "sewn": sewn_json(pattern),
        "drawing": drawing,
        "words": words.listed,
        "techniques": techniques_json(pattern, shop),
        "steps": [_step(step, words, shop) for step in pattern.steps],
        "introduction_html": words.html(steps_html(pattern.introduction)),
        "cautions": sorted(pattern.cautions),
        "label": shop.label,
        "currency": shop.currency,
        "sale": _sale(pattern),
        "photographs": [
            {
                "file": photograph.file,
                "title": photograph.title,
                "size": photograph.size,
                "choices": dict(photograph.choices),
                "cloth": photograph.cloth,
            }
            for photograph in pattern.photographs
        ],
    }


def _step(step: Step, words: GuideWords, shop: Shop) -> Json:
    """A step; what it does not say is left out, but for its condition."""
    film = step.film
    said = {
        "up": words.plain(step.up),
        "sews": [list(one) for one in step.sews],
        "uses": [list(one) for one in step.uses],
        "drawing": step.drawing,
        "seen": step.drawing_seen,
        "film": film and {"file": film.file, "address": film.address, "from_s": film.from_s, "to_s": film.to_s},
        "techniques": [one.name for one in shop.techniques if one.name in step.techniques],
        "minutes": step.minutes,
    }
    return {
        "title": words.plain(step.title),
        "html": words.html(steps_html(step.text)),
        "when": condition_json(step.when),
        **{key: value for key, value in said.items() if value},
    }


def _players(pattern: Pattern, piece: str) -> list[str]:
    """The piece, or every piece that may play the role."""
    role = piece.removeprefix("as:")
    if role == piece:
        return [piece]
    return [one.piece for part in pattern.roles if part.role == role for one in part.plays]


def _repeat(one: ClothRepeat) -> Json:
    across_mm = None if one.across_mm is None else tidy(one.across_mm)
    return {
        "name": one.name, "title": one.title, "along_mm": tidy(one.along_mm), "across_mm": across_mm, "even": one.even
    }  # fmt: skip


def sheet_text(sheet: Mapping[str, Any]) -> str:
    """The sheet as the text of `spec.json`: the same sheet gives the same bytes."""
    return json.dumps(sheet, sort_keys=True, ensure_ascii=False, allow_nan=False, separators=(",", ":")) + "\n"


def _item(pattern: Pattern, line: CutLine) -> Json:
    laid = {size: lay_item(pattern, line, size) for size in line.sizes}
    piece = next(piece for piece in pattern.pieces if piece.name == line.piece)
    grain = piece.grain
    listed = next(cloth.ways for cloth in pattern.cloths if cloth.name == line.cloth)
    ways = tuple(way for way in get_args(Way) if way in WAYS or way in listed)
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
        "notes": notes_of(line, grain),
        "grain": grain,
        "stretch": STRETCH_RUNS[grain] if line.kind == "cut" and piece.stretch != "none" else "none",
        "copies": [
            {
                "name": copy.name,
                "drawn": copy.drawn,
                "carries": [{"what": one.what, "when": condition_json(one.when)} for one in copy.carries],
            }
            for copy in carriers_of(pattern, line)
        ],
        "area_mm2": {size: _area_mm2(item) for size, item in laid.items()},
        "narrowest_mm": {
            size: {way: ceil(narrowest_bolt_mm(width_on_cloth_mm(item, way), way)) for way in ways}
            for size, item in laid.items()
        },
    }


def _area_mm2(item: LayItem) -> int:
    """The area of all copies within their cutting lines, in whole square millimetres."""
    sides = 2 if item.mode == "fold" else 1
    return round(Polygon(item.outline_mm).area * sides * item.count)


def _sale(pattern: Pattern) -> Json | None:
    sale = pattern.sale
    if sale is None:
        return None
    return {
        "price": sale.price,
        "free": sale.free,
        "checkout": sale.checkout,
        "download": sale.download,
        "formats": list(sale.formats),
        "languages": list(sale.languages),
    }


def _finished(pattern: Pattern, measurement: Measurement, low_mm: Mapping[str, int]) -> Json:
    return {
        "name": measurement.name,
        "title": measurement.title,
        "body": measurement.body,
        "ease_mm": {kind: [tidy(low), tidy(high)] for kind, (low, high) in measurement.ease_mm.items()},
        "wearing_mm": {kind: [tidy(low), tidy(high)] for kind, (low, high) in measurement.wearing_mm.items()},
        "cases": _cases(pattern, finished_cases(pattern, measurement), measurement.parts, low_mm),
    }


def _notion(pattern: Pattern, notion: Notion, low_mm: Mapping[str, int]) -> Json:
    edge = [] if notion.edge is None else [notion.edge]
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
        "edge_cases": _cases(pattern, notion_edge_cases(pattern, notion), edge, low_mm),
        "thickness_mm": None if notion.thickness_mm is None else tidy(notion.thickness_mm),
        "needs": notion.needs,
        "carried_by": notion.carried_by,
        "placed": placed_json(pattern, notion),
        "passes": list(notion.passes),
        "channel_cases": channels_json(pattern, notion),
        "reel_m": None if notion.reel_m is None else tidy(notion.reel_m),
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
            **({"tail_mm": tidy(rule.tail_mm)} if rule.tail_mm else {}),
        }
    return {"take": "edge", "times": rule.times, "factor": rule.factor, "plus_mm": tidy(rule.plus_mm)}


def _cases(
    pattern: Pattern, cases: Sequence[LengthCase], parts: Sequence[Part], low_mm: Mapping[str, int]
) -> list[Json]:
    return [
        {
            "when": condition_json(case.when),
            "mm": {size: tidy(mm) for size, mm in case.mm.items()},
            "parts": parts_json(pattern, case, parts, low_mm),
        }
        for case in cases
    ]
