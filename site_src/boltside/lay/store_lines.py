"""How does a file of lays look, line by line? Short, sorted, and the same bytes for the same lays.

After the header, which says who made the lays, there is a line for each cloth in each size with its pieces (name,
length, width and area), and then a line a lay, whose placements name the pieces by their number. Version 1 had
everything in each line; it is still read.
"""

import json
import re
from collections.abc import Iterable, Mapping, Sequence
from typing import Any, Final

from .codec import Json, one_line

FORMAT: Final = "boltside lays"
FORMAT_VERSION: Final = 2

_OLD_NAME: Final = re.compile(r"^(?P<front>.*), (?:flat|folded)(?P<size>, size [^,]*), [\d.]+ cm wide \(.*\)$")
"""Names of version 1: pattern, cloth, way, size, width and pieces in one text."""


class NotALayFile(Exception):
    """The text is not a file of lays of a known version; the exception's text says what is wrong."""


def written(entries: Iterable[Json], makers: Mapping[str, Json]) -> str:
    """The text of a file of lays.

    Arguments: the lays, each with key, plan, length, width, way, one_way, quality, placements and, if known, like;
    what is known of the makers that ``like`` names.
    """
    groups: dict[str, list[Json]] = {}
    for entry in entries:
        groups.setdefault(str(entry["plan"]), []).append(entry)
    made = sorted({entry["like"]["made"] for group in groups.values() for entry in group if "like" in entry})
    header = {
        "format": FORMAT,
        "version": FORMAT_VERSION,
        "unit": "0.01 mm",
        "made_by": [{"stamp": stamp, **makers.get(stamp, {})} for stamp in made],
    }
    lines = [one_line(header)]
    for plan in sorted(groups):
        pieces = sorted({(p[0], *_shape(entry, p[0])) for entry in groups[plan] for p in entry["placements"]})
        lines.append(one_line({"plan": plan, "pieces": pieces}))
        numbers = {piece: at for at, piece in enumerate(pieces)}
        lines += sorted(
            (one_line(_short(entry, numbers, made)) for entry in groups[plan]),
            key=_order,
        )
    return "[\n" + ",\n".join(lines) + "\n]\n"


def read(data: Sequence[Any]) -> list[tuple[Json, int]]:
    """The lays of a file, each with the number of its line. Raises: :class:`NotALayFile`."""
    header, *rows = data
    if not isinstance(header, dict) or header.get("format") != FORMAT:
        raise NotALayFile("the first line is not the header of a file of lays")
    version = header.get("version")
    if version == 1:
        return [(from_version_1(row) if isinstance(row, dict) else {}, at) for at, row in enumerate(rows, start=3)]
    if version != FORMAT_VERSION:
        raise NotALayFile(f"version {version!r}, expected {FORMAT_VERSION}; delete the file and run the lays again")
    made = [maker["stamp"] for maker in header["made_by"]]
    found: list[tuple[Json, int]] = []
    plan, pieces = "", []
    for at, row in enumerate(rows, start=3):
        if isinstance(row, dict) and "pieces" in row:
            plan, pieces = str(row["plan"]), row["pieces"]
        else:
            try:
                found.append((_long(row, plan, pieces, made), at))
            except (KeyError, IndexError, TypeError, ValueError) as error:
                raise NotALayFile(f"line {at} makes no sense ({error}); delete it and run the lays again") from error
    return found


def from_version_1(row: Json) -> Json:
    """A line of version 1 as it is kept now; a line of today comes back as it is."""
    if "plan" in row or not isinstance(row.get("name"), str):
        return row
    name = row["name"]
    matched = _OLD_NAME.match(name)
    kept = {what: value for what, value in row.items() if what != "name"}
    return {**kept, "plan": matched["front"] + matched["size"] if matched else name}


def _shape(entry: Json, item_id: str) -> tuple[int, ...]:
    return tuple(entry.get("like", {}).get("shapes", {}).get(item_id, ()))


def _short(entry: Json, numbers: Mapping[tuple[Any, ...], int], made: Sequence[str]) -> Json:
    short = {what: entry[what] for what in ("key", "length", "width", "way")}
    if entry["one_way"]:
        short["nap"] = 1
    if entry["quality"] != "full":
        short["quality"] = entry["quality"]
    if "like" in entry:
        short["made"] = made.index(entry["like"]["made"])
    short["at"] = [[numbers[p[0], *_shape(entry, p[0])], *p[1:]] for p in entry["placements"]]
    return short


def _long(row: Json, plan: str, pieces: Sequence[Sequence[Any]], made: Sequence[str]) -> Json:
    used = {p[0]: pieces[p[0]] for p in row["at"]}
    long = {
        "key": row["key"],
        "plan": plan,
        "length": row["length"],
        "width": row["width"],
        "way": row["way"],
        "one_way": bool(row.get("nap", 0)),
        "quality": row.get("quality", "full"),
        "placements": [[used[p[0]][0], *p[1:]] for p in row["at"]],
    }
    if "made" in row:
        shapes = {piece[0]: list(piece[1:]) for piece in used.values() if len(piece) > 1}
        long["like"] = {"made": made[row["made"]], "shapes": shapes}
    return long


def _order(line: str) -> tuple[Any, ...]:
    row = json.loads(line)
    return (row["way"], row.get("nap", 0), row["width"], sorted({p[0] for p in row["at"]}), line)
