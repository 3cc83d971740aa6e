"""Is an answer of the cloth calculator right? Each amount, word and drawing, against what was worked out by hand."""

from __future__ import annotations

import random
import re
from fractions import Fraction
from math import ceil
from typing import Any

from asked_by_chance import Asked
from bought_by_hand import INCH_MM, STEP_MM, TENTH_MM, mixed, stepped, width_said, yards
from in_step_by_hand import folds_off_mm, look_at_rows, marks_of, out_of_step_mm
from look_at_lays import HAIR_MM, Laid, look_at
from read_by_hand import naps_asked
from stored_shop import LISTED, Shop

DRAWN_HAIR_MM = 0.51
"""Places in drawings are in whole millimetres."""
DRAWN_APART_MM = 0.75
"""So two pieces of a drawing are nearer to each other than in truth by 1.42 mm at most."""
IN_STEP_MM = 0.05
"""Places and marks are stored to 0.01 mm; this is far less than a thread."""
OFFERS = {
    "folded": "Folded once",
    "part-folded": "Folded over in part",
    "middle": "With both selvedges folded to the middle",
    "flat": "Laid flat",
}
"""How a way is offered; of those that save the same the first, which is the least work."""
WIDE_ENOUGH = ("flat", "part-folded", "folded", "middle")
"""Which way is offered where cloth is too narrow: the first that works, asking least."""

Fragments = dict[str, dict[str, Any]]


def look_at_stored(shop: Shop, cloth: str, size: str, lay: Laid) -> None:
    """A stored lay holds its pieces, and is as long as they reach."""
    true_mm = look_at(shop.outlines, size, lay, shop.of_lay(cloth, size, lay))
    assert true_mm <= lay.length_mm + HAIR_MM
    assert lay.length_mm - true_mm <= 0.1, "the lay is longer than its pieces reach"


def look_at_step(shop: Shop, cloth: str, size: str, kind: str, lay: Laid) -> None:
    """A stored lay keeps the marks of all its pieces in step with a listed repeat, and turns none round."""
    repeat = shop.repeat(cloth, kind) or {}
    across_mm = repeat.get("across_mm")
    assert not any(turned for _, _, _, turned, _ in lay.at), "head to foot"
    marks = marks_of(lay, {name: mark for (name, of), mark in shop.marks.items() if of == size})
    assert out_of_step_mm(marks, repeat["along_mm"], across_mm) <= IN_STEP_MM
    if lay.way == "middle" and across_mm is not None:
        assert folds_off_mm(lay.width_mm, across_mm) <= IN_STEP_MM


def drawn_lay(asked: Asked, data: dict[str, Any]) -> tuple[Laid, dict[str, Any]]:
    """The lay that the answer names, as the page gets it: it serves the answer, and is right to the millimetre."""
    shop, (cloth, way, _) = asked.shop, data["lay"]["key"].split(".")
    assert (way, data["lay"]["key"]) == (data["way"], f"{asked.cloth}.{asked.way}.{asked.size}")
    file = shop.files[data["lay"]["key"]]
    drawn = file["lays"][str(data["lay"]["number"])]
    assert drawn["width_mm"] <= data["lay"]["width_mm"] <= asked.washed_mm
    assert drawn["length_mm"] <= data["needed_mm"]
    assert drawn["nap"] or asked.nap == "without"
    # A lay with nap that serves cloth without is not turned anyway.
    at = [(file["items"][item], x, y, bool(turned), bool(over)) for item, _, x, y, turned, over, *_ in drawn["at"]]
    lay, hair_mm = as_drawn(drawn, way, at)
    assert lay.ids >= asked.ids
    look_at(shop.outlines, asked.size, lay, shop.of_lay(cloth, asked.size, lay), hair_mm, DRAWN_APART_MM)
    return lay, drawn


def as_drawn(drawn: dict[str, Any], way: str, at: list[tuple[str, float, float, bool, bool]]) -> tuple[Laid, float]:
    """A drawing as a lay, and by how much its pieces may stand out."""
    over_mm = drawn.get("fold_over_mm")
    assert (over_mm is not None) == (way == "part-folded")
    ids = frozenset(one[0] for one in at)
    hair_mm = DRAWN_HAIR_MM
    if over_mm is not None:  # it too is in whole millimetres
        over_mm, hair_mm = min(over_mm, drawn["width_mm"] / 2), hair_mm + 0.5
    return Laid(ids, way, drawn["nap"], drawn["width_mm"], drawn["length_mm"], at, over_mm), hair_mm


def look_at_answer(chance: random.Random, asked: Asked, said: Fragments) -> list[str]:
    """All that is said of one cloth; returns the kinds of answers that it is, for the table."""
    note = said[f"cloth.{asked.cloth}"]
    data, shop, cloth = note["data"], asked.shop, asked.cloth
    if asked.stripes.uneven and naps_asked(shop.raw, cloth, asked.chosen) == {"": "without"}:
        # The designer says that its pieces may always be turned, so it was never laid one way.
        assert (note["kind"], data["code"]) == ("problem", "not-in-one-layer")
        return [data["code"]]
    assert abs(data["width_mm"] - asked.width_mm) <= Fraction(5, 1000)
    assert data["nap_used"] == asked.nap
    look_at_wash(asked, said[f"cloth.{cloth}.wash"])
    kind = asked.kind
    need = {way: shop.expected_mm(cloth, asked.size, way, kind, asked.ids, asked.washed_mm) for way in asked.ways}
    need_mm = need[asked.way]
    if need_mm is None:
        look_at_refusal(asked, note, need)
        return [data["code"], f"{data['code']}, {asked.way}"]
    assert data["needed_mm"] == need_mm, f"needs {need_mm} mm, said are {data['needed_mm']}"
    reckoned_mm = max(one for one in shop.widths_mm(cloth) if one <= asked.washed_mm)
    assert data["reckoned_width_mm"] == reckoned_mm
    own = shop.own(cloth, asked.size, asked.way, kind, asked.ids, reckoned_mm)
    assert own is not None and own.length_mm <= need_mm
    look_at_stored(shop, cloth, asked.size, own)
    lay, drawn = drawn_lay(asked, data)
    told = ["figure", f"figure, {asked.way}"] + ([f"lies in another way: {own.way}"] if own.way != asked.way else [])
    more_mm = Fraction(0)
    if kind.startswith(LISTED):
        told.append("in step")
        look_at_step(shop, cloth, asked.size, kind, own)
        look_at_drawn_step(asked, lay, drawn)
    elif asked.each_row_mm:
        rows = data["repeat"]["rows"]
        more_mm = rows * asked.each_row_mm
        assert abs(data["repeat"]["extra_mm"] - more_mm) <= Fraction(5, 1000) * max(rows, 1)
        moved = look_at_rows(
            chance, shop.outlines, asked.size, lay, asked.pieces, rows, asked.each_row_mm, DRAWN_APART_MM
        )  # fmt: skip
        told += ["moved into step" if moved else "hooked into one another", f"{min(rows, 4)} rows"]
    look_at_amount(asked, said, asked.wash.bought_mm(need_mm, more_mm), reckoned_mm)
    if not asked.each_row_mm:  # else the rows of the other ways count too
        told += look_at_offer(asked, said, {way: mm for way, mm in need.items() if mm is not None})
    return told


def look_at_drawn_step(asked: Asked, lay: Laid, drawn: dict[str, Any]) -> None:
    """The drawing shows the marks where they are, and there they are in step, to the whole millimetres that it has."""
    assert LISTED + drawn["repeat"] == asked.kind
    marks = marks_of(lay, {name: mark for (name, of), mark in asked.shop.marks.items() if of == asked.size})
    shown = [place[6] for place in drawn["at"] if len(place) > 6]
    assert len(marks) == len(shown) and marks
    for true, place in zip(marks, shown, strict=True):
        assert max(abs(true[0] - place[0]), abs(true[1] - place[1])) <= 1
    assert out_of_step_mm(shown, float(asked.stripes.along_mm), asked.stripes.across_mm) <= 1


def look_at_wash(asked: Asked, washing: dict[str, Any]) -> None:
    """What is counted for the first wash is said in per cent, and how wide the cloth then is."""
    wash = asked.wash
    data = washing["data"]
    assert (Fraction(data["along_tenths"], 1000), Fraction(data["across_tenths"], 1000)) == (wash.along, wash.across)
    lost = re.search(r"los(?:s of|es) ([0-9.]+)\s% in length and (?:in width|([0-9.]+)\s% in width)", washing["text"])
    assert (lost is not None) == (wash.how in ("own", "own, only along", "own, only across")) or wash.how == "usual"
    if lost is not None:
        shown = [Fraction(lost[1]) / 100, Fraction(lost[2] or lost[1]) / 100]
        assert shown == [wash.along, wash.across], washing["text"]
    left = re.search(r"as good as ([0-9.]+) cm wide", washing["text"])
    assert (left is not None) == (wash.across > 0)
    assert left is None or abs(mixed(left[1]) * 10 - asked.washed_mm) <= Fraction(56, 100)


def look_at_amount(asked: Asked, said: Fragments, bought_mm: Fraction, reckoned_mm: int) -> None:
    """What is to be bought, as figures and in words of both systems; rounded up last, and never down."""
    note, how = said[f"cloth.{asked.cloth}"], said[f"cloth.{asked.cloth}.how"]
    data = note["data"]
    buy_mm, eighths = data["buy_mm"], data["buy_eighth_yards"]
    # Two parts are each rounded up to a tenth of a millimetre, so their sum may be a tenth more than that.
    room_mm = TENTH_MM if asked.each_row_mm else 0
    for mine, theirs, most in zip(stepped(bought_mm), (buy_mm, eighths), stepped(bought_mm + room_mm), strict=True):
        assert mine <= theirs <= most, f"{float(bought_mm):.2f} mm are needed, to buy are {buy_mm} mm, {eighths}/8 yd"
    if asked.wash.along or asked.wash.across:
        assert 0 <= data["before_wash_mm"] - float(bought_mm) <= float(TENTH_MM + room_mm) + 1e-6
        assert abs(data["washed_width_mm"] - asked.washed_mm) <= Fraction(6, 1000)
    with_nap = ", with nap" if asked.nap == "with" and not asked.stripes.uneven else ""
    assert note["text"].endswith(f": {buy_mm / 1000:.2f} m")
    assert f" wide{with_nap}" in note["text"] and (", with nap" in note["text"]) == bool(with_nap)
    in_yards = re.fullmatch(r".*: (.*) yd", note["text_inch"])
    assert in_yards is not None and yards(in_yards[1]) == eighths
    for unit, text in (("cm", note["text"]), ("in", note["text_inch"])):
        shown_mm, half_mm = width_said(text, unit)
        assert abs(shown_mm - asked.width_mm) <= half_mm + TENTH_MM / 2, f"{float(shown_mm)} mm in {unit}"
    assert f"Reckoned for {reckoned_mm / 10:g} cm" in how["text"]
    assert f"The pieces take {ceil(Fraction(data['needed_mm'], 10)) / 100:.2f} m" in how["text"]


def look_at_offer(asked: Asked, said: Fragments, need: dict[str, int]) -> list[str]:
    """Another way is offered where that saves a step and more, the one that saves most."""
    note, how = said[f"cloth.{asked.cloth}"], said[f"cloth.{asked.cloth}.how"]["text"]
    exact = {way: asked.wash.bought_mm(mm) for way, mm in need.items()}
    saves = {
        way: stepped(exact[asked.way])[0] - stepped(exact[way])[0]
        for way in OFFERS
        if way in need and rounded(exact[asked.way]) - rounded(exact[way]) >= STEP_MM
    }
    most = max(saves.values(), default=0)
    assert note["data"]["flat_saves_mm"] == saves.get("flat", 0)
    best = next((way for way in OFFERS if most > 0 and saves.get(way) == most), None)
    offered = re.findall(r"([A-Z][a-z ]*) it takes ([0-9.]+) m less\.", how)
    assert offered == ([] if best is None else [(OFFERS[best], f"{most / 1000:.2f}")]), f"{offered}, saving {saves}"
    return [] if best is None else [f"offered: {best}"]


def rounded(mm: Fraction) -> Fraction:
    """Up to a tenth of a millimetre."""
    return ceil(mm / TENTH_MM) * TENTH_MM


def look_at_refusal(asked: Asked, note: dict[str, Any], need: dict[str, int | None]) -> None:
    """Too narrow exactly where a piece does not fit; the narrowest is the bolt on which the pieces just fit."""
    data = note["data"]
    assert note["kind"] == "problem"
    if asked.kind.startswith(LISTED) and data["code"] in ("not-in-step", "not-reckoned"):
        return  # looked at by what is published at all
    narrowest_mm = ceil(asked.shop.across_mm(asked.cloth, asked.size, asked.way, asked.ids))
    from_mm = data["reckoned_from_mm"]
    if asked.way == "part-folded" and from_mm is not None:
        narrowest_mm = min(narrowest_mm, from_mm)
    assert (data["code"] == "too-narrow") == (asked.washed_mm < narrowest_mm)
    assert data["code"] in ("too-narrow", "narrower-than-laid")
    assert data["narrowest_mm"] == narrowest_mm, f"the pieces fit on {narrowest_mm} mm, said are {data['narrowest_mm']}"
    for text, unit_mm in ((note["text"], Fraction(10)), (note["text_inch"], INCH_MM)):
        if data["code"] == "too-narrow":
            found = re.search(r"The narrowest that works(?:, before the wash,)? is ([0-9 /]+) (?:cm|in)", text)
            assert found is not None, text
            look_at_least(asked, mixed(found[1]) * unit_mm, narrowest_mm, unit_mm)
        # Who goes by what is said is not sent away again.
        offered = re.search(r"amounts are reckoned from ([0-9 /.]+) (?:cm|in) on", text)
        assert (offered is not None) == (from_mm is not None)
        if offered is not None:
            look_at_least(asked, mixed(offered[1]) * unit_mm, from_mm, unit_mm)
    works = next((way for way in WIDE_ENOUGH if need.get(way) is not None), None)
    told = re.findall(r"([A-Z][a-z ]*) it is wide enough\.", note["text"])
    assert told == ([] if works is None else [OFFERS[works]]), f"{told}, works {works}"


def look_at_least(asked: Asked, shown_mm: Fraction, washed_mm: int, unit_mm: Fraction) -> None:
    """A least width is told as it is on the bolt, rounded up."""
    bolt_mm = asked.wash.on_bolt_mm(Fraction(washed_mm))
    assert bolt_mm <= shown_mm < rounded(bolt_mm) + unit_mm, f"{float(shown_mm)} mm for {float(bolt_mm)}"
