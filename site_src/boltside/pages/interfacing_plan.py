"""Where is interfacing pressed on? A drawing for each line of interfacing, seen from the wrong side of the piece.

Without a script all stand there, each with the words for the options that have it; the page's script hides those that
the chosen options do not have.
"""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from typing import Any

from shapely import LineString, Polygon, get_parts
from shapely.geometry.base import BaseGeometry

from boltside.calculators.carries import copy_words
from boltside.calculators.cutting_list import how_cut
from boltside.pages.markup import Html, element
from boltside.pages.words import condition_in_words

TITLE = "Where interfacing goes"
ABOUT = (
    "Pieces are drawn small, with the wrong side up. Press interfacing on where the hatching is, its glue side down."
)
GAP_PARTS = 14
"""Interfacing that ends at the stitching line is drawn this part of the piece's larger side within the edge: wider than
it is, so that it can be seen. Our choice."""
ROOM_MM = 4
"""Room for the line's own width round a drawing, in the drawing's mm."""
HATCH_PARTS = 18
"""So many hatching lines along the piece's larger side. Our choice."""
TO = {
    "stitching": "Up to the stitching line.",
    "cutting": "Out to the cut edge: the seams hold it.",
}


def interfacing_plan(sheet: Mapping[str, Any]) -> Html:
    """The drawings with their words; nothing for a pattern without interfacing."""
    figures = [_figure(sheet, item) for item in sheet["items"] if item["id"] in sheet["pressed"]]
    if not figures:
        return Html("")
    heading = element("h3", TITLE, id="interfacing-plan")
    plan = element("div", *figures, class_="pressed")
    return element("div", heading, element("p", ABOUT, class_="aside"), plan, data_fits_all=True)


def _figure(sheet: Mapping[str, Any], item: Mapping[str, Any]) -> Html:
    picture = sheet["pressed"][item["id"]]
    when = condition_in_words(sheet, item["when"])
    caption = element(
        "figcaption",
        element("span", item["title"], class_="bs-piece"),
        " ",
        element("span", words(picture, item), class_="bs-note"),
        element("span", when, class_="step__when") if when else "",
    )
    condition = json.dumps(item["when"], separators=(",", ":")) if item["when"] else None
    return element("figure", drawing(picture, item["title"]), caption, data_fits=condition or "")


def words(picture: Mapping[str, Any], item: Mapping[str, Any]) -> str:
    """How many are cut, on which copy alone it goes, and how far: for the line of interfacing in the picture."""
    how = str(item["count"]) if item["mode"] == "single" else how_cut(item)
    how += "; one is drawn." if item["mode"] == "pair" else "."
    alone = "" if picture["shown"] is None else f" {copy_words(picture['shown']).capitalize()} alone."
    return f"{how}{alone} {TO[picture['to']]}"


def drawing(picture: Mapping[str, Any], title: str) -> Html:
    """The piece as a line drawing with the interfaced area hatched; one unit is a millimetre of the piece.

    Arguments: the picture of :func:`boltside.spec.pressed.pressed_json`; what is drawn, for those who don't see it.
    """
    piece = Polygon(picture["piece"])
    _, _, width, height = piece.bounds
    larger = max(width, height)
    area: BaseGeometry = Polygon(picture["area"]).buffer(0).intersection(piece.buffer(0))
    if picture["to"] == "stitching":
        area = area.intersection(piece.buffer(-larger / GAP_PARTS / 2))
    return element(
        "svg",
        element("path", d=_path([_upright(picture["piece"], height)])),
        element("path", d=_path([_upright(ring, height) for ring in _rings(area)]), class_="pressed__area"),
        element("path", d=_hatching(area, height, larger / HATCH_PARTS), class_="pressed__hatch"),
        viewBox=f"{-ROOM_MM} {-ROOM_MM} {_plain(width + 2 * ROOM_MM)} {_plain(height + 2 * ROOM_MM)}",
        role="img",
        aria_label=f"{title}: the wrong side, with the interfaced area hatched",
    )


def _rings(area: BaseGeometry) -> list[list[tuple[float, ...]]]:
    parts = getattr(area, "geoms", [area])
    return [list(part.exterior.coords)[:-1] for part in parts if isinstance(part, Polygon) and not part.is_empty]


def _upright(points: Sequence[Sequence[float]], height: float) -> list[tuple[float, float]]:
    return [(x, height - y) for x, y in points]


def _path(rings: Sequence[Sequence[Sequence[float]]]) -> str:
    return "".join("M" + "L".join(f"{_plain(x)} {_plain(y)}" for x, y in ring) + "Z" for ring in rings)


def _hatching(area: BaseGeometry, height: float, step: float) -> str:
    """Slanting lines inside the area, as one path."""
    if area.is_empty:
        return ""
    left, low, right, high = area.bounds
    tall = high - low
    lines = []
    at = left - tall + step / 2
    while at < right:
        inside = LineString([(at, low), (at + tall, high)]).intersection(area)
        lines += [list(part.coords) for part in get_parts(inside) if part.length]
        at += step
    return "".join("M" + "L".join(f"{_plain(x)} {_plain(height - y)}" for x, y in line) for line in lines)


def _plain(number: float) -> str:
    return f"{round(number)}"
