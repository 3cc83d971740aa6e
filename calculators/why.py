"""Why is a figure what it is? Each figure's origin as a short list: where from, by which rule, how rounded.

A rule is named with its source where it has one; a custom is called "common practice", a figure that was recalled
rather than looked up "from memory". Edges are shown in the garment's drawing.

>>> times_words(2), times_words(1), times_words(0.9)
('2\xa0×\xa0', '', '0.9\xa0×\xa0')
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from .choices import completed
from .closures import BUTTONHOLE_SOURCE, TEXTBOOK, buttonhole_mm, closure_depends_on, overlap_mm
from .conditions import SIZE, holds
from .drawing import VIEWS, traced
from .elastic import NotionJson
from .finished import ease_meant_mm
from .fragments import NOTHING, Fragment, Said, escaped, say
from .garments import garments, sizes_said
from .laid import Laid, reckoned_width_mm
from .nap import WITH
from .notions import OfOne, count_of, for_each
from .places import case_of
from .repeat import repeat_extra_mm
from .request import SECOND, Request
from .shop_cuts import step_words
from .spread import ONE_LAYER, SQUARING_MM, Spread, on_the_bolt_mm, spread_out
from .stripe_words import RULE_SOURCE, UNEVEN_SOURCE, counted_rows
from .together_words import wanted_sizes
from .units import FINE, Cuts, Shown, measured, metres, millimetres, millimetres_up, needed, width
from .wash import OWN, WHOLE_TENTHS, percent
from .ways import way_words
from .why_together import Reason, counted_up, in_turn, summed, two_behind

COMMON = "common practice"
MEMORY = "from memory"
OURS = "our choice"

VIEW_WORDS = {"front": "Front", "back": "Back"}
BUY_STEP = step_words(FINE)
"""The steps in which amounts are usually bought, in both systems."""


def times_words(times: float) -> str:
    """A factor before a length; nothing for one."""
    return "" if times == 1 else f"{times:g}\u00a0×\u00a0"


def why_fragment(
    name: str, reasons: Sequence[Reason], depends_on: tuple[str, ...], data: Mapping[str, Any], pictures: str = ""
) -> Fragment:
    """The fragment `why.<name>`: its reasons in order, then the drawings in which edges are marked."""
    rows, texts, inches = [], [], []
    for reason in reasons:
        source = f" ({reason.source})" if reason.source else ""
        marked = f' <span class="bs-why-source">({escaped(reason.source)})</span>' if reason.source else ""
        rows.append(f"<li>{reason.said.html}{marked}</li>")
        texts.append(reason.said.text + source)
        inches.append(reason.said.text_inch + source)
    html = f'<ol class="bs-why">{"".join(rows)}</ol>{pictures}' if rows else ""
    said = Said(text=_sentences(texts), text_inch=_sentences(inches), html=html)
    return Fragment(name=f"why.{name}", kind="why", said=said, data=data if rows else {}, depends_on=depends_on)


def _sentences(texts: Sequence[str]) -> str:
    return " ".join(f"{text}." for text in texts)


def why_cloth(request: Request, cloth: Mapping[str, Any]) -> Fragment:
    """Why so much of this cloth: pieces, layout, squaring, rounding."""
    spread, name = spread_out(request, cloth), f"cloth.{cloth['name']}"
    answer = spread.answer
    if answer is None:
        return why_fragment(name, [], spread.amount_depends_on, {})
    sheet = request.sheet
    titles = [item["title"] for item in sheet["items"] if item["id"] in spread.demand]
    members = sheet["sets"][cloth["name"]][answer.members]
    nap = ", no piece turned head to foot" if spread.nap_used == WITH else ""
    step = say(", its notches in step every ", measured(spread.stripes.along_mm)) if spread.stripes.listed else NOTHING
    both = spread.alone and len(wanted_sizes(spread)) > 1
    cut_from = f"Cut from it{f', for {sizes_said(spread.sizes)}' if both else ''}"
    reasons = [Reason(said=say(f"{cut_from}: {', '.join(dict.fromkeys(titles))}"))]
    behind = two_behind(spread)
    if not behind:
        pieces = "the pieces of both garments" if both else "these pieces"
        laid = say(
            "Laid out beforehand on cloth ",
            width(answer.width_mm),
            f" wide, {way_words(spread.kinds, spread.way)}{nap}",
            step,
            f": {pieces} take ",
            needed(answer.length_mm),
        )
        reasons.append(Reason(said=laid))
    if spread.wash.across_tenths:
        lost = percent(spread.wash.across_tenths)
        said = say("The first wash takes ", lost, " of what lies between the selvedges of ", width(spread.width_mm),
                   ": laid out as if it were ", width(spread.lay_width_mm), " wide")  # fmt: skip
        reasons.insert(1, Reason(said=said, source=wash_source(spread)))
    reasons += behind
    reckoned_mm = reckoned_width_mm(cloth, spread.lay_width_mm, answer)
    if answer.width_mm < reckoned_mm and not behind:
        reasons.append(Reason(said=say("No layout up to ", width(reckoned_mm), " wide is shorter")))
    spare = [item["title"] for item in sheet["items"] if item["id"] in members and item["id"] not in spread.demand]
    if spare and not behind:
        more = ", ".join(dict.fromkeys(spare))
        reasons.append(Reason(said=say(f"The layout has room for more ({more}), as none was made without")))
    reasons.append(Reason(said=say(measured(SQUARING_MM), " more, because cut ends are rarely square"), source=COMMON))
    data: dict[str, float] = {"lay_mm": answer.length_mm, "squaring_mm": SQUARING_MM, "buy_mm": spread.buy_mm(answer)}
    if spread.wash.along_tenths:
        reasons.append(_before_the_wash(spread, answer))
        data["before_wash_mm"] = on_the_bolt_mm(answer.length_mm, spread.wash)
    if spread.stripes.one_layer:
        reasons.insert(1, Reason(said=say(ONE_LAYER.removesuffix(".")), source=UNEVEN_SOURCE))
    if spread.stripes.each_row_mm:
        reasons.append(_for_the_repeat(spread, answer))
        data["repeat_mm"] = repeat_extra_mm(spread.stripes.each_row_mm, answer.rows)
    reasons.append(rounded(spread.length_mm(answer), spread.cuts))
    return why_fragment(name, reasons, spread.amount_depends_on, data)


def wash_source(spread: Spread) -> str:
    """On whose word a loss in the wash is counted."""
    return "your figure" if spread.wash.how == OWN else f"{COMMON}, {MEMORY}"


def _before_the_wash(spread: Spread, answer: Laid) -> Reason:
    left = percent(WHOLE_TENTHS - spread.wash.along_tenths)
    said = say("Together ", needed(answer.length_mm + SQUARING_MM), "; as the first wash takes ",
               percent(spread.wash.along_tenths), f" of the length, these are {left} of ",
               needed(on_the_bolt_mm(answer.length_mm, spread.wash)))  # fmt: skip
    return Reason(said=said, source=wash_source(spread))


def _for_the_repeat(spread: Spread, answer: Laid) -> Reason:
    """What the rule of thumb adds: after the wash is counted, for the repeat is meant as it is on the bolt."""
    extra_mm = repeat_extra_mm(spread.stripes.each_row_mm, answer.rows)
    said = say("A repeat more for each row of pieces along the cloth, to match them: ", counted_rows(spread, answer),
               ", ", measured(extra_mm))  # fmt: skip
    if not answer.rows:
        said = say("The pieces lie side by side, so the repeat takes no more")
    return Reason(said=said, source=RULE_SOURCE)


def rounded(length_mm: float, cuts: Cuts = FINE) -> Reason:
    """The last step of every amount to buy: rounded up as the shop cuts."""
    return Reason(said=say("Rounded up to full ", step_words(cuts), ": ", metres(length_mm, cuts)), source=COMMON)


def why_notion(request: Request, notion: NotionJson) -> Fragment:
    """Why so much elastic or tape, or so many buttons: body or edge, rule, the designer's own figure, rounding."""
    name = f"notion.{notion['name']}"
    depends_on = request.depends(notion["when"], *(case["when"] for case in notion["edge_cases"]))
    each = for_each(request, notion)
    if not each:
        return why_fragment(name, [], depends_on, {})
    wanted = {one.size: one for one in garments(request)}
    found = [_of_notion(wanted[one.size or ""], notion, one, depends_on) for one in each]
    reasons = in_turn([one.size for one in each], [of_one for of_one, _ in found])
    if each[0].cut is not None:
        reasons += summed([one.total_mm for one in each])
        reasons.append(rounded(sum(one.total_mm for one in each)))
    else:
        reasons += counted_up([one.count for one in each])
    tabled = each[0].size in notion["tabled_mm"]
    data = {"rule": dict(notion["rule"]) if notion["rule"] else None, "tabled": tabled}
    return why_fragment(name, reasons, depends_on, data, found[0][1])


def _of_notion(
    request: Request, notion: NotionJson, one: OfOne, depends_on: tuple[str, ...]
) -> tuple[list[Reason], str]:
    """The reasons of a notion for one garment, up to the length before rounding, and the drawings beside them."""
    size, count, cut = one.size, one.count, one.cut
    reasons, pictures = [], ""
    if cut is not None and cut.rule_mm is not None:
        if notion["rule"]["take"] == "ring":
            reasons += _ring(notion["rule"], request.sheet["body"]["rows"][size], size)
        else:
            found, pictures = _edge(request, notion, depends_on)
            reasons += found
        reasons.append(Reason(said=say("By this rule: ", measured(cut.rule_mm))))
    if cut is not None and size in notion["tabled_mm"]:
        said = say(f"The designer's own figure for size {size}, which counts: ", measured(cut.total_mm))
        reasons.append(Reason(said=said))
    if count is not None:
        reasons.append(_own_count(notion, size, count))
    if cut is not None and count not in (None, 1):
        reasons.append(Reason(said=say(f"{count} × ", measured(cut.total_mm), ": ", measured(one.total_mm))))
    return reasons, pictures


def _own_count(notion: NotionJson, size: str, count: int) -> Reason:
    spacing_mm = (notion.get("placed") or {}).get("spacing_mm")
    if spacing_mm is not None:
        said = say("As many as stand about ", millimetres(spacing_mm), f" apart, the designer's own wish: {count}")
        return Reason(said=said)
    whose = f"for size {size}" if size in notion["tabled_count"] else "for every size"
    return Reason(said=say(f"The designer's own count {whose}: {count}"))


def _places(request: Request, notion: NotionJson, size: str) -> list[Reason]:
    """On which line they sit, and how far from its ends."""
    case = case_of(notion, request.chosen, size)
    if case is None:
        return []
    row = case["sizes"][size]
    mm, begins = row["mm"], notion["placed"]["from"].partition(" ")[2]
    said = say("The line from ", f"{begins} on, measured on the stitching line: ", measured(row["line_mm"]),
               "; the first ", millimetres(mm[0]), " from there")  # fmt: skip
    if len(mm) > 1:
        said = say(said, ", the last ", millimetres(row["line_mm"] - mm[-1]), " from its other end")
    seams = [part for at in row["seams_mm"] for part in (", ", millimetres(at))][1:]
    crossed = [Reason(said=say("Seams or marks cross it at ", *seams))] if seams else []
    return [Reason(said=said), *crossed]


def plain(measurement: str) -> str:
    """A body measurement's name as a reader says it.

    >>> plain("crotch_length")
    'crotch length'
    """
    return measurement.replace("_", " ")


def _ring(rule: Mapping[str, Any], body: Mapping[str, float], size: str) -> list[Reason]:
    value = body[rule["body"]]
    reasons = [Reason(said=say(f"The {plain(rule['body'])} in the size chart, size {size}: ", measured(value)))]
    if rule["factor"] != 1:
        reasons.append(Reason(said=say(f"Times {rule['factor']:g}"), source="the designer's factor"))
    if rule["minus_mm"]:
        reasons.append(Reason(said=say("Less ", measured(rule["minus_mm"]), ", so that it holds"), source=MEMORY))
    if rule["overlap_mm"]:
        said = say("Plus ", measured(rule["overlap_mm"]), " where the ends lie on each other")
        reasons.append(Reason(said=said, source=MEMORY))
    return reasons


def _edge(request: Request, notion: NotionJson, depends_on: tuple[str, ...]) -> tuple[list[Reason], str]:
    size, rule = request.size or "", notion["rule"]
    case = next(case for case in notion["edge_cases"] if holds(case["when"], request.chosen))
    reasons = _parts(case, size)
    if rule["times"] != 1 or rule["factor"] != 1:
        said = say("The edge, ", case_total(case, size), f", times {rule['times'] * rule['factor']:g}")  # fmt: skip
        reasons.append(Reason(said=said))
    if rule["plus_mm"]:
        reasons.append(Reason(said=say("Plus ", measured(rule["plus_mm"]), " to join and turn in")))
    return reasons, _pictures(request, case, depends_on)


def case_total(case: Mapping[str, Any], size: str) -> Shown:
    """The whole length of a case in this size, in words."""
    return measured(case["mm"][size])


def _parts(case: Mapping[str, Any], size: str) -> list[Reason]:
    return [
        Reason(said=say(f"{part['words']}: {times_words(part['times'])}", measured(part["mm"][size])))
        for part in case["parts"]
        if size in part["mm"]
    ]


def _pictures(request: Request, case: Mapping[str, Any], depends_on: tuple[str, ...]) -> str:
    """The views of the garment in which a part of this length is seen, with the part marked.

    What the figure does not depend on is drawn as the pattern usually is.
    """
    known = {name: word for name, word in request.chosen.items() if name in depends_on and name != SIZE}
    chosen = completed(request.sheet["choices"], known)
    found = []
    for view in VIEWS:
        parts = [one for one in case["parts"] if one["trace"] is not None and one["trace"]["view"] == view]
        lines = [(one["trace"]["line"], one["times"] > 1) for one in parts]
        if lines:
            words = "; ".join(dict.fromkeys(one["words"] for one in parts))
            picture = traced(request.sheet, chosen, view, lines, words)
            caption = escaped(f"{VIEW_WORDS[view]} of the garment: {words}")
            found.append(f'<figure class="bs-why-edge">{picture}<figcaption>{caption}</figcaption></figure>')
    return "".join(found)


def why_closure(request: Request, notion: NotionJson) -> Fragment:
    """Why these buttons or snaps: the designer's count and size, and the rules that go with them."""
    name = f"closure.{notion['name']}"
    depends_on = closure_depends_on(request, notion)
    each = for_each(request, notion)
    if not each:
        return why_fragment(name, [], depends_on, {})
    counts = [[] if one.count is None else [_own_count(notion, one.size, one.count)] for one in each]
    reasons = [*in_turn([one.size for one in each], counts), *counted_up([one.count for one in each])]
    reasons += in_turn([one.size for one in each], [_places(request, notion, one.size) for one in each])
    diameter_mm, thickness_mm = notion["diameter_mm"], notion["thickness_mm"]
    if diameter_mm is not None:
        across = millimetres(diameter_mm)
        said = say("The designer's own size: ", across, "; 40 ligne are 25.4 mm or an inch")
        reasons.append(Reason(said=said, source="unit tables"))
        if "button" in notion["kinds"] and thickness_mm is not None:
            hole = millimetres_up(buttonhole_mm(diameter_mm, thickness_mm))
            said = say("A buttonhole takes the diameter and the thickness: ", across, " + ", millimetres(thickness_mm),
                       ": ", hole)  # fmt: skip
            reasons.append(Reason(said=said, source=BUTTONHOLE_SOURCE))
        said = say("Beyond the centre line three quarters of the diameter: ", millimetres_up(overlap_mm(diameter_mm)))
        reasons.append(Reason(said=said, source=TEXTBOOK))
    return why_fragment(name, reasons, depends_on, {"count": count_of(each)})


def why_difficulty(request: Request) -> Fragment:
    """Why so difficult and so long: the pattern itself, and what each choice adds."""
    sheet = request.sheet
    counting = [c for c in sheet["choices"] if any(one["difficulty"] or one["minutes"] for one in c["alternatives"])]
    reasons = [Reason(said=say(f"The pattern itself: difficulty {sheet['difficulty']}, {sheet['minutes']} min"))]
    for choice in counting:
        for one in choice["alternatives"]:
            if request.chosen.get(choice["name"]) == one["name"] and (one["difficulty"] or one["minutes"]):
                adds = [f"difficulty {one['difficulty']:+d}"] if one["difficulty"] else []
                adds += [f"{one['minutes']:+d} min"] if one["minutes"] else []
                reasons.append(Reason(said=say(f"{choice['title']}: {one['title']}: {', '.join(adds)}")))
    reasons.append(Reason(said=say("Difficulty is shown from 1 to 5, the time in full ten minutes"), source=OURS))
    names = request.depends(*[[{choice["name"]: []}] for choice in counting], size=False)
    depends_on = tuple(sorted({*names, SECOND}))
    return why_fragment("difficulty", reasons, depends_on, {"difficulty": sheet["difficulty"]})


def why_finished(request: Request, measurement: Mapping[str, Any]) -> Fragment:
    """Why a finished measurement is what it is: edge by edge, then the body and the ease."""
    name = f"finished.{measurement['name']}"
    conditions = [case["when"] for case in measurement["cases"]]
    conditions += [case["when"] for cloth in request.sheet["cloths"] for case in cloth["kind_cases"]]
    depends_on = request.depends(*conditions)
    found = []
    for one in garments(request):
        case = next((case for case in measurement["cases"] if holds(case["when"], one.chosen)), None)
        if case is not None and one.size in case["mm"]:
            found.append((one, case, _of_finished(one, measurement, case)))
    if not found:
        return why_fragment(name, [], depends_on, {})
    reasons = in_turn([one.size for one, _, _ in found], [of_one for _, _, of_one in found])
    first, case, _ = found[0]
    data = {
        "parts": [
            {"words": one["words"], "times": one["times"], "mm": one["mm"].get(first.size)} for one in case["parts"]
        ]
    }
    return why_fragment(name, reasons, depends_on, data, _pictures(first, case, depends_on))


def _of_finished(request: Request, measurement: Mapping[str, Any], case: Mapping[str, Any]) -> list[Reason]:
    """The reasons of a finished measurement of one garment."""
    size = request.size or ""
    reasons = _parts(case, size)
    together = "Together, on" if len(reasons) > 1 else "Measured on"
    reasons.append(Reason(said=say(f"{together} the stitching line: ", case_total(case, size))))
    body_mm = request.sheet["body"]["rows"][size].get(measurement["body"]) if measurement["body"] else None
    if body_mm is not None:
        ease_mm = round((case["mm"][size] - body_mm) * 10) / 10
        said = say(f"The {plain(measurement['body'])} in the size chart, size {size}: ", measured(body_mm), "; ease ",
                   measured(ease_mm))  # fmt: skip
        reasons.append(Reason(said=said))
        meant = ease_meant_mm(request, measurement)
        if meant is not None:
            said = say("For this cloth the designer means an ease of ", measured(meant[0]), " to ", measured(meant[1]))
            reasons.append(Reason(said=said))
    return reasons
