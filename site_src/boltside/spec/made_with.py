"""How do gathers, what is pulled on, channels of elastic and the length of all seams stand in the spec sheet?"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from boltside.measure.channels import channel_cases
from boltside.measure.gathers import gather_cases
from boltside.measure.pull_on import body_mm, pull_on_cases, room_mm
from boltside.measure.sewn import sewn_cases
from boltside.pattern import EdgePart, Notion, Pattern
from boltside.spec.json_form import Json, condition_json, tidy


def gathers_json(pattern: Pattern) -> list[Json]:
    """Every seam with gathers: what is gathered to what, from where it is marked, and both lengths by size."""
    return [
        {
            "name": seam.name,
            "join": _titles(pattern, seam.join),
            "to": _titles(pattern, seam.to),
            "from": None if seam.marks is None else seam.marks.start,
            "free_mm": 0 if seam.marks is None else tidy(seam.marks.free_mm),
            "cases": [
                {
                    "when": condition_json(case.when),
                    "join_mm": _sized({size: pair[0] for size, pair in case.by_size.items()}),
                    "to_mm": _sized({size: pair[1] for size, pair in case.by_size.items()}),
                }
                for case in gather_cases(pattern, seam)
            ],
        }
        for seam in pattern.seams
        if seam.gather_ratio is not None
    ]


def pull_on_json(pattern: Pattern) -> list[Json]:
    """Every ring that is pulled on: over what, how large that is by size, how much more is needed, how far it opens."""
    made = []
    for ring in pattern.pull_on:
        body = {size: mm for size in pattern.sizes if (mm := body_mm(pattern, ring, size)) is not None}
        found = pull_on_cases(pattern, ring)
        cases = [{"when": condition_json(case.when), "mm": _sized(case.by_size)} for case in found]
        made.append({"name": ring.name, "title": ring.title, "over": ring.over, "room_mm": tidy(room_mm(ring)),
                     "body_mm": _sized(body, 0), "cases": cases})  # fmt: skip
    return made


def channels_json(pattern: Pattern, notion: Notion) -> list[Json]:
    """How high the channel of an elastic is, by choices and size."""
    return [{"when": condition_json(case.when), "mm": _sized(case.by_size)} for case in channel_cases(pattern, notion)]


def sewn_json(pattern: Pattern) -> list[Json]:
    """The length of all seams and hems in mm, what has one condition added up; nothing where no reel is told."""
    if all(notion.reel_m is None for notion in pattern.notions):
        return []
    added: dict[str, Json] = {}
    for case in sewn_cases(pattern):
        when = condition_json(case.when)
        one = added.setdefault(repr(when), {"when": when, "mm": {}})
        for size, mm in case.by_size.items():
            one["mm"][size] = one["mm"].get(size, 0) + mm
    return list(added.values())


def _sized(mm: Mapping[str, float], digits: int = 1) -> Json:
    return {size: tidy(one, digits) for size, one in mm.items()}


def _titles(pattern: Pattern, parts: Sequence[EdgePart]) -> str:
    """The pieces of a side in words, those that can play a role joined by *or*."""
    title = {piece.name: piece.title for piece in pattern.pieces}
    plays = {f"as:{role.role}": [play.piece for play in role.plays] for role in pattern.roles}
    said = [" or ".join(title[name] for name in plays.get(part.piece, [part.piece])) for part in parts]
    each = list(dict.fromkeys(said))
    return " and ".join([", ".join(each[:-1]), each[-1]]) if len(each) > 1 else each[0]
