"""Where does each piece of two garments lie, for drawings? One file for a cloth, a way and a pair of sizes.

As the file of a single size (:mod:`boltside.lay_files`), but each piece also says of which garment it is; and where the
two single lays take no more than a joint one, they stand in the file one behind the other.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from boltside.lay.lattice import Node
from boltside.lay.model import Lay, LayItem, Way
from boltside.lay_files import FILE_FORMAT, lay_file
from boltside.pairs import PairDemand, line_in_pair, pair_key
from boltside.published_pairs import ONE, PairLay

Json = dict[str, Any]


def pair_lay_file(
    pattern: str,
    cloth: str,
    way: Way,
    demand: PairDemand,
    singles: Sequence[Mapping[str, LayItem]],
    lays: Sequence[PairLay],
) -> Json:
    """The lays of two garments as plain JSON.

    Arguments: names; what can be asked for of the pair; the pieces of the two garments alone, by line; the lays in the
    order of their numbers. `garments` says for each of the `items` to which of the two `sizes` it belongs, 0 or 1. A
    lay of two has in `behind` the two lays, the first garment's first; its length is that of both.
    """
    key = pair_key(demand.pair)
    joint = [one[0] for one in lays if len(one) == ONE]
    behind = [one for one in lays if len(one) > ONE]
    together = lay_file(pattern, cloth, way, key, demand.items, joint)
    alone = [lay_file(pattern, cloth, way, key, singles[garment], _of(behind, garment)) for garment in (0, 1)]
    known: dict[tuple[str, int], list[list[int]]] = {}
    for file, garment in [(together, None), *((file, at) for at, file in enumerate(alone))]:
        for name, outline in zip(file["items"], file["outlines"], strict=True):
            known.setdefault(_whose(name, garment, demand), outline)
    numbers = {whose: at for at, whose in enumerate(sorted(known, key=lambda one: (one[1], one[0])))}

    def row(file: Json, number: int, garment: int | None) -> Json:
        lay = file["lays"][str(number)]
        places = [[numbers[_whose(file["items"][item], garment, demand)], *rest] for item, *rest in lay["at"]]
        return {**lay, "at": places}

    rows: Json = {}
    for number, answer in enumerate(lays):
        if len(answer) == ONE:
            rows[str(number)] = row(together, joint.index(answer[0]), None)
            continue
        parts = [row(alone[garment], behind.index(answer), garment) for garment in (0, 1)]
        rows[str(number)] = {
            "behind": parts,
            "width_mm": max(part["width_mm"] for part in parts),
            "length_mm": sum(part["length_mm"] for part in parts),
            "nap": all(part["nap"] for part in parts),
        }
    return {
        "format": FILE_FORMAT,
        "pattern": pattern,
        "cloth": cloth,
        "way": way,
        "size": key,
        "sizes": list(demand.pair),
        "items": [line for line, _ in numbers],
        "garments": [garment for _, garment in numbers],
        "outlines": [known[whose] for whose in numbers],
        "lays": rows,
    }


def _whose(name: str, garment: int | None, demand: PairDemand) -> tuple[str, int]:
    """The line and the garment of a piece; ``garment`` is None for a piece of a joint lay, whose name tells both."""
    return line_in_pair(name, demand.pair) if garment is None else (name, garment)


def _of(behind: Sequence[PairLay], garment: int) -> list[tuple[Node, Lay]]:
    return [one[garment] for one in behind]
