"""How does a file of lays look, line by line? Short, sorted, and the same bytes for the same lays.

After the header, which says who made the lays, there is a line for each cloth in each size with its pieces (name,
length, width and area), and then a line a lay, whose placements name the pieces by their number. Version 1 had
everything in each line; it is still read.
"""

import json
import re
from collections.abc import Iterable, Mapping, Sequence
from typing import Any, Final

from .codec import FOLD_OVER, REPEAT, Json, check_likeness, lay_from_json, one_line
from .store_text import NotALayFile, shown

FORMAT: Final = "boltside lays"
FORMAT_VERSION: Final = 2

_OLD_NAME: Final = re.compile(r"^(?P<front>.*), (?:flat|folded)(?P<size>, size [^,]*), [\d.]+ cm wide \(.*\)$")
"""Names of version 1: pattern, cloth, way, size, width and pieces in one text."""


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


def read(rows: Sequence[tuple[Any, int | None]]) -> list[tuple[Json, int | None]]:
    """The lays of a file, each with its line. Every one of them makes sense; whether it is right, the verifier says.

    Raises: :class:`NotALayFile`.
    """
    (header, at_header), *others = rows
    if not isinstance(header, dict) or header.get("format") != FORMAT:
        raise NotALayFile("the first line is not the header of a file of lays", at_header)
    version = header.get("version")
    if type(version) is not int or version not in (1, FORMAT_VERSION):
        raise NotALayFile(f"version {_short_text(version)}, expected {FORMAT_VERSION}", at_header)
    made = _stamps(header, at_header) if version > 1 else []
    found: list[tuple[Json, int | None]] = []
    places: dict[str, tuple[Json, int | None]] = {}
    plan: str = ""
    pieces: list[Any] = []
    for row, at in others:
        try:
            if not isinstance(row, dict):
                raise ValueError("it is no lay")
            if version > 1 and "pieces" in row:
                plan, pieces = row["plan"], row["pieces"]
                continue
            entry = checked(from_version_1(row) if version == 1 else _long(row, plan, pieces, made))
        except KeyError as error:
            raise NotALayFile(f"a lay makes no sense (it has no {error})", at) from error
        except (IndexError, TypeError, ValueError) as error:
            raise NotALayFile(f"a lay makes no sense ({error})", at) from error
        before, at_before = places.setdefault(entry["key"], (entry, at))
        if before is entry:
            found.append((entry, at))
        elif before != entry:
            where = "" if at_before is None else f" in line {at_before}"
            raise NotALayFile(f"another lay has the same key{where}", at)
    return found


def checked(entry: Json) -> Json:
    """The entry itself, if it is a lay with a key, a plan and, where there is one, a likeness.

    Raises: KeyError, TypeError or ValueError.
    """
    for what in ("key", "plan"):
        if not isinstance(entry[what], str):
            raise ValueError(f"its {what} is no text")
        entry[what].encode()  # half of a surrogate pair can't be written again
    lay_from_json(entry)
    if "like" in entry:
        check_likeness(entry["like"])
    return entry


def _stamps(header: Json, at: int | None) -> list[str]:
    makers = header.get("made_by")
    if isinstance(makers, list):
        stamps = [maker.get("stamp") if isinstance(maker, dict) else None for maker in makers]
        known = [stamp for stamp in stamps if isinstance(stamp, str)]
        if len(known) == len(stamps):
            return known
    raise NotALayFile("the header does not say who made the lays", at)


def _short_text(value: object) -> str:
    return shown(value) if value is None or isinstance(value, (str, int)) else "of another kind"


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
    for only_some in (FOLD_OVER, REPEAT):
        if only_some in entry:
            short[only_some] = entry[only_some]
    if entry["one_way"]:
        short["nap"] = 1
    if entry["quality"] != "full":
        short["quality"] = entry["quality"]
    if "like" in entry:
        short["made"] = made.index(entry["like"]["made"])
    short["at"] = [[numbers[p[0], *_shape(entry, p[0])], *p[1:]] for p in entry["placements"]]
    return short


def _long(row: Json, plan: str, pieces: Sequence[Sequence[Any]], made: Sequence[str]) -> Json:
    used = {p[0]: _numbered(pieces, p[0]) for p in row["at"]}
    long = {
        "key": row["key"],
        "plan": plan,
        "length": row["length"],
        "width": row["width"],
        "way": row["way"],
        "one_way": row.get("nap", 0),
        "quality": row.get("quality", "full"),
        "placements": [[used[p[0]][0], *p[1:]] for p in row["at"]],
    }
    for only_some in (FOLD_OVER, REPEAT):
        if only_some in row:
            long[only_some] = row[only_some]
    if "made" in row:
        shapes = {piece[0]: list(piece[1:]) for piece in used.values() if len(piece) > 1}
        long["like"] = {"made": _numbered(made, row["made"]), "shapes": shapes}
    return long


def _numbered(listed: Sequence[Any], number: object) -> Any:
    """The one of this number; none is counted from the end."""
    if type(number) is not int or not 0 <= number < len(listed):
        raise ValueError("a number names nothing above it")
    return listed[number]


def _order(line: str) -> tuple[Any, ...]:
    row = json.loads(line)
    return (row["way"], row.get("nap", 0), row["width"], sorted({p[0] for p in row["at"]}), line)
