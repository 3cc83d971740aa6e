"""What do choices ask for? Read from `pattern.yaml` by code that shares nothing with the engine or the calculators.

It knows the clauses that the shop's own patterns use, and asserts that they use no other.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable
from itertools import pairwise, product
from typing import Any

from shapely import LineString, MultiPoint

Raw = dict[str, Any]
Chosen = dict[str, str]
SIZE = "size"


def applies(when: Any, chosen: Chosen) -> bool:
    """Every named choice has one of the words; of a list of mappings one is enough. Nothing said: always."""
    if when is None:
        return True
    if isinstance(when, list):
        return any(applies(one, chosen) for one in when)
    return all(chosen.get(name) in ([words] if isinstance(words, str) else words) for name, words in when.items())


def every_choice(raw: Raw, size: str) -> list[Chosen]:
    """All combinations that the pattern offers in a size; choices that are not asked are left out."""
    found: list[Chosen] = []
    for words in product(*(one["alternatives"] for one in raw["choices"].values())):
        chosen = dict(zip(raw["choices"], words, strict=True))
        for name, one in raw["choices"].items():
            if not applies(one.get("asked_when"), chosen):
                del chosen[name]
        if chosen not in found and not forbidden(raw, {**chosen, SIZE: size}):
            found.append(chosen)
    return found


def forbidden(raw: Raw, chosen: Chosen) -> list[Raw]:
    """The rules that a combination breaks."""
    broken = []
    for rule in raw.get("rules", []):
        assert set(rule) <= {"when", "needs", "excludes", "only_sizes", "because", "advice"}, rule
        if not applies(rule["when"], chosen):
            continue
        wants = "needs" in rule and not applies(rule["needs"], chosen)
        excludes = "excludes" in rule and applies(rule["excludes"], chosen)
        if wants or excludes or chosen[SIZE] not in rule.get("only_sizes", [chosen[SIZE]]):
            broken.append(rule)
    return broken


def nap_of(raw: Raw, cloth: str, chosen: Chosen) -> str:
    """`always`, `never` or `ask`: the first case that holds; interfacing has none unless it says so."""
    about = raw["cloths"][cloth]
    nap = about.get("nap", "never" if about["kinds"] == ["interfacing"] else "ask")
    if isinstance(nap, str):
        return nap
    return next((str(case["nap"]) for case in nap if applies(case.get("when"), chosen)), "ask")


def naps_asked(raw: Raw, cloth: str, chosen: Chosen) -> dict[str, str]:
    """What a buyer may say about nap, and how the cloth is then laid."""
    return {
        "always": {"": "with"},
        "never": {"": "without"},
        "ask": {"": "without", "with": "with", "without": "without"},
    }[nap_of(raw, cloth, chosen)]


def kinds_of(raw: Raw, cloth: str, chosen: Chosen) -> list[str]:
    """The kinds of cloth that will do: of cases the first that holds."""
    kinds = raw["cloths"][cloth]["kinds"]
    if isinstance(kinds[0], str):
        return list(kinds)
    return list(next(case["kinds"] for case in kinds if applies(case.get("when"), chosen)))


def parts_of(raw: Raw, name: str, chosen: Chosen | None = None) -> list[Raw]:
    """What a piece says of itself, and what the roles say that it plays; without choices, all that it may play."""
    parts = [raw["pieces"][name]]
    for role, plays in raw.get("roles", {}).items():
        for one in plays:
            if one["piece"] == name and (chosen is None or applies(one.get("when"), chosen)):
                parts.append(raw["pieces"].get(f"as:{role}", {}))
    assert all(set(part) <= {"cut", "interfacing"} for part in parts[1:]), f"{name}: more than is known here"
    return parts


def said(parts: list[Raw], key: str) -> list[Raw]:
    """The entries of all parts one after the other."""
    return [entry for part in parts for entry in part.get(key, [])]


def own_names(raw: Raw) -> list[str]:
    """The pieces, without the roles that stand among them."""
    return [name for name in raw["pieces"] if not name.startswith("as:")]


def areas_off_the_fold(raw: Raw, svg: str) -> frozenset[tuple[str, str]]:
    """Pieces and interfaced areas of theirs that do not reach the fold on which the piece is cut.

    Read from the drawing: `pieces.svg` says where the ends of the edge on the fold are, and where the area is.
    """
    found = set()
    for name in own_names(raw):
        piece, parts = raw["pieces"][name], parts_of(raw, name)
        edges = {entry.get("fold_edge") for entry in said(parts, "cut") if entry["mode"] == "fold"}
        for fused in said(parts, "interfacing") if edges else []:
            if fused["area"] == "whole":
                continue
            assert len(edges) == 1, f"{name}: on the fold with more than one edge"
            ends = [(one["name"], one["from"]) for one in [*piece["edges"], piece["edges"][0]]]
            fold = next([first, end] for (edge, first), (_, end) in pairwise(ends) if edge in edges)
            off = [not _reaches(svg, name, size, fused["area"], fold) for size in raw["sizes"]]
            assert all(off) or not any(off), f"{name}: {fused['area']} reaches the fold in some sizes only"
            found |= {(name, fused["area"])} if all(off) else set()
    return frozenset(found)


def _reaches(svg: str, piece: str, size: str, area: str, fold: list[str]) -> bool:
    """Whether the corners of an area come within a millimetre of the line between two points. Drawn in mm."""
    ends = []
    for point in fold:
        at = re.search(rf'id="{piece}.{size}.point.{point}" cx="([-0-9.]+)" cy="([-0-9.]+)"', svg)
        assert at is not None, f"{piece}.{size}: no point {point}"
        ends.append((float(at[1]), float(at[2])))
    path = re.search(rf'id="{piece}.{size}.area.{area}"[^>]* d="([^"]*)"', svg)
    assert path is not None and not set(path[1]) - set("MLCZ0123456789-., "), f"{piece}.{size}: {area}"
    numbers = [float(one) for one in re.findall(r"[-0-9.]+", path[1])]
    hull = MultiPoint(list(zip(numbers[::2], numbers[1::2], strict=True))).convex_hull
    return bool(hull.distance(LineString(ends)) < 1)


def pieces_to_cut(
    raw: Raw,
    ids: Iterable[str],
    cloth: str,
    chosen: Chosen,
    off_fold: Collection[tuple[str, str]] = (),
) -> dict[str, tuple[str, int]]:
    """Name in the lays to mode and count, of all that is cut from a cloth.

    `chosen` may hold the size. A piece whose outline depends on choices is in `ids` once for each, with the words that
    decide behind its name; here exactly one of them belongs to the choices. `off_fold` names interfaced areas that do
    not reach the fold: they are cut for both sides of the opened piece.
    """
    listed = list(ids)
    found = {}
    for name in own_names(raw):
        piece, parts = raw["pieces"][name], parts_of(raw, name, chosen)
        if not applies(piece.get("when"), chosen):
            continue
        cut = [entry for entry in said(parts, "cut") if applies(entry.get("when"), chosen)]
        assert all("copies" not in entry for entry in said(parts, "cut"))
        if not cut:
            assert not said(parts, "interfacing"), f"{name}: interfaced, but not cut"
            continue
        for entry in cut:
            if entry["cloth"] == cloth:
                found[variant(listed, f"{name}.{cloth}", chosen)] = (entry["mode"], entry["count"])
        for fused in said(parts, "interfacing"):
            if fused["cloth"] != cloth or not applies(fused.get("when"), chosen):
                continue
            mode, count = cut[0]["mode"], cut[0]["count"]
            if mode == "fold" and (name, fused["area"]) in off_fold:
                mode, count = "pair", 2 * count
            base = f"{name}.{cloth}.{fused['area']}"
            if "copies" in fused:
                # Only behind some of the copies: as many as these are of all, and one of a pair is no pair.
                share = [fused["copies"]] if isinstance(fused["copies"], str) else fused["copies"]
                assert mode == "pair" and len(piece["copies"]) == 2
                count = count * len(share) // 2
                mode = "pair" if len(share) == 2 else "single"
                base += f".{'-'.join(share)}"
            # Interfaced like the piece itself: as often, and on the fold where the piece is and reaches it.
            found[variant(listed, base, chosen)] = (mode, count)
    return found


def variant(ids: list[str], base: str, chosen: Chosen) -> str:
    """The one name that is the base, or the base and words that were chosen."""
    words = set(chosen.values())
    fitting = [
        one
        for one in ids
        if one == base or (one.startswith(f"{base}.") and set(one[len(base) + 1 :].split(".")) <= words)
    ]
    assert len(fitting) == 1, (base, chosen, fitting)
    return fitting[0]
