"""Which size, from the child's measurements? What is said of it: see :mod:`.advice` for how it is found.

>>> sheet = {"sizes": ["86", "92"], "size_by": ["height"], "choices": [], "finished": [], "cloths": [], "notions": [],
...          "body": {"columns": ["height"], "rows": {"86": {"height": 860}, "92": {"height": 920}}},
...          "drawing": {"size": "86"}}
>>> [one.said.text for one in size_fragments(sheet, {"height": "90"}) if one.said.text][:1]
['Size 92.']
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from .advice import Advice, advise, far_apart
from .child import AGE, BODY, HEIGHT, TRUNK, Child, read_child
from .choices import completed
from .conditions import SIZE, holds
from .elastic import cut_length, rule_mm
from .fragments import NOTHING, Fragment, Said, joined, say
from .growth import median_height_mm, months_to_grow
from .longer import changes, changes_said, cloths_said, conditions_of
from .problems import problem
from .request import SECOND, Request, Sheet, mapping, read_request, word
from .size_by_body import Found
from .spread import spread_out
from .typed import hint
from .units import measured
from .wearing import Fitting, off, place_said

ELASTIC_STEP_MM = 10
"""A smaller difference in an elastic nobody feels. Our choice."""
FAR_APART = 3
"""Measurements that point to sizes this many steps apart are worth measuring again. Our choice."""


def size_fragments(sheet: Sheet, asked: Mapping[str, Any]) -> list[Fragment]:
    """Fragments `size` (the size, or why there is none), `size.why`, `size.again` (when to measure again),
    `size.fit.<measurement>` (the finished garment on this child), `size.elastic.<notion>` (closed elastic for this
    child), `size.longer` (where to change its length, and what that takes of the cloth), `size.lasts` (for how long it
    will fit, by height).

    Arguments: the sheet; the request with the measurements and the age as typed, the unit of bare numbers, and the
    choices and cloths of the panel.
    """
    child = read_child(sheet, asked)
    words = {name: word(value) for name, value in mapping(asked.get("choices")).items()}
    depends = _Depends(sheet, child)
    wrong = _impossible(child, depends.size)
    if wrong is not None:
        return [wrong, *_silent(sheet, depends)]
    advice = advise(sheet, child.mm, words, child.age.months)
    if advice is None:
        asked_for = _either([name for name in sheet["size_by"] if name in child.columns] or child.columns)
        said = say(f"Type the {asked_for}.")
        return [problem("size", "nothing-typed", said, depends.size), *_silent(sheet, depends)]
    fitting = Fitting(sheet, words, child.mm)
    why = Fragment(
        name="size.why",
        kind="list",
        said=_why(sheet, child, advice),
        data={"by": {name: one.size for name, one in advice.by.items()}, "decides": advice.decides},
        depends_on=depends.size,
    )
    again = _again(sheet, advice, depends.size)
    if not advice.size:
        return [_no_size(sheet, child, advice, depends.size), why, again, *_silent(sheet, depends)[2:]]
    return [
        _answer(sheet, child, advice, depends.size),
        why,
        again,
        *_fit(sheet, advice, fitting, depends.size),
        *(_ring(sheet, advice, child, words, notion, depends.size) for notion in _rings(sheet)),
        _longer(read_request(sheet, {**asked, "size": advice.size, SECOND: ""}), advice, depends.cloth),
        _lasts(sheet, child, advice, depends.size),
    ]


class _Depends:
    """What the fragments are made from: the child, the choices that the finished measurements depend on, and for what a
    change takes of the cloth all that the cloths depend on."""

    def __init__(self, sheet: Sheet, child: Child) -> None:
        request = read_request(sheet, {})
        conditions = [case["when"] for one in _places(sheet) for case in one["cases"]]
        conditions += [case["when"] for cloth in sheet["cloths"] for case in cloth["kind_cases"]]
        conditions += [notion["when"] for notion in _rings(sheet)]
        self.size = tuple(sorted({*child.depends_on, *request.depends(*conditions, size=False)} - {"size", SECOND}))
        of_cloth = {name for cloth in sheet["cloths"] for name in spread_out(request, cloth).amount_depends_on}
        of_cloth |= {*self.size, *request.depends(*conditions_of(sheet), size=False)}
        self.cloth = tuple(sorted(of_cloth - {"size", SECOND}))


def _places(sheet: Sheet) -> list[Mapping[str, Any]]:
    """The finished measurements of which a child's own can be typed."""
    return [one for one in sheet["finished"] if one["body"] in BODY and one["body"] != HEIGHT]


def _rings(sheet: Sheet) -> list[Mapping[str, Any]]:
    """Closed elastics that go round a part of the body that can be typed."""
    return [
        notion
        for notion in sheet["notions"]
        if notion["rule"] is not None and notion["rule"]["take"] == "ring" and notion["rule"]["body"] in BODY
    ]


def _silent(sheet: Sheet, depends: _Depends) -> list[Fragment]:
    names = ["size.why", "size.again", *(f"size.fit.{one['name']}" for one in _places(sheet))]
    names += [f"size.elastic.{notion['name']}" for notion in _rings(sheet)]
    return [
        *(Fragment(name=name, kind="sentence", depends_on=depends.size) for name in names),
        Fragment(name="size.longer", kind="sentence", depends_on=depends.cloth),
        Fragment(name="size.lasts", kind="sentence", depends_on=depends.size),
    ]


def _impossible(child: Child, depends_on: tuple[str, ...]) -> Fragment | None:
    """The first thing that can't be, with the field it was typed in."""
    for name, one in child.typed.items():
        if one.code is not None:
            return problem("size", one.code, say(f"{name.capitalize()}: ", one.said), depends_on, field=name)
    if child.age.code is not None:
        return problem("size", child.age.code, child.age.said, depends_on, field=AGE)
    height_mm = child.mm.get(HEIGHT)
    for name, mm in child.mm.items():
        if name not in (HEIGHT, TRUNK) and height_mm is not None and mm >= height_mm:
            said = say(f"A {name} of ", measured(mm), " and a height of ", measured(height_mm),
                       " can't both be right. Measure again, or look which field is which.")  # fmt: skip
            return problem("size", "girth-over-height", said, depends_on, field=name)
    return None


def _no_size(sheet: Sheet, child: Child, advice: Advice, depends_on: tuple[str, ...]) -> Fragment:
    decides, too_small = advice.decides, advice.beyond == "lower"
    end = sheet["sizes"][0 if too_small else -1]
    body = say("By age") if decides == AGE else say(f"{decides.capitalize()} ", measured(child.mm[decides]))
    which = "small for the smallest" if too_small else "large for the largest"
    said = say(body, f": too {which} size, {end}")
    if not too_small and decides != AGE:
        said = say(said, ", cut for up to ", measured(sheet["body"]["rows"][end][decides]))
    said = say(said, ".", "" if decides == AGE else _other_unit(sheet, child, decides))
    code = "below-smallest" if too_small else "above-largest"
    return problem("size", code, said, depends_on, nearest=end)


def _answer(sheet: Sheet, child: Child, advice: Advice, depends_on: tuple[str, ...]) -> Fragment:
    size, decides = advice.size, advice.decides
    parts = [say(f"Size {size}.")]
    if advice.other and advice.length_of in ("", size):
        parts.append(_between(advice))
    if decides == AGE:
        parts.append(say("By age alone, the weakest guide: half of all children of an age are larger, half smaller. "
                         "Measure if you can."))  # fmt: skip
    elif decides not in sheet["size_by"]:
        parts.append(say(f"By {decides} alone; this pattern goes by {', then '.join(sheet['size_by'])}."))
    if advice.stretched:
        way = "smaller" if advice.by[decides].side == "lower" else "larger"
        parts.append(say(f"The {decides} is {way} than it is cut for, but the ease is as meant."))
    if advice.moved and advice.before != size:
        where = _and([f"the {place.body}" for place in advice.moved])
        how = off(advice.moved[0])
        parts.append(say(f"By {decides} it would be {advice.before}, too {how} at {where}."))
    if advice.tight:
        where = _and([f"the {place.body}" for place in advice.tight])
        parts.append(say(f"Even this size is tighter at {where} than is meant."))
    parts += [
        _disagreeing(name, advice.by[name], advice.by[decides])
        for name in sheet["size_by"]
        if name in advice.by and name != decides
    ]
    if advice.length_of not in ("", size) and decides != AGE:
        parts.append(say(f"Width of {size}, length of {advice.length_of}."))
    length = advice.length_of if decides not in (HEIGHT, AGE) or advice.length_of != size else ""
    data = {"size": size, "between": advice.other or None, "decides": decides, "length_of": length or None}
    return Fragment(name="size", kind="figure", said=joined(parts), data=data, depends_on=depends_on)


def _between(advice: Advice) -> Said:
    """That the neighbour would do too. A girth just above a size's fits it still, with less ease."""
    upper = advice.side == "upper"
    small, large = (advice.size, advice.other) if upper else (advice.other, advice.size)
    room = "fits now" if upper else "is just outgrown" if advice.decides == HEIGHT else "would still do"
    return say(f"Between two sizes: {small} {room}, {large} leaves room to grow.")


def _disagreeing(name: str, one: Found, best: Found) -> Said:
    """What a measurement that matters, but does not decide, says otherwise; of a fitting height the length speaks."""
    if not one.size:
        return say(f"The {name} is {'smaller' if one.side == 'lower' else 'larger'} than every size.")
    return NOTHING if name == HEIGHT or one.size == best.size else say(f"By {name} it would be {one.size}.")


def _other_unit(sheet: Sheet, child: Child, column: str) -> str:
    """The offer to take a bare number in another unit, where some size would then fit."""
    values = [sheet["body"]["rows"][size][column] for size in sheet["sizes"]]
    return hint(child.typed[column], child.unit, BODY[column], min(values), max(values))


def _why(sheet: Sheet, child: Child, advice: Advice) -> Said:
    reasons = []
    for name, one in advice.by.items():
        if name == AGE:
            mm = median_height_mm(child.age.months or 0.0)
            said = say("At that age half of all children are taller than ", measured(mm), ", says the WHO")
        else:
            said = say(f"{name.capitalize()} ", measured(child.mm[name]))
        if not one.size:
            said = say(said, ": smaller than every size" if one.side == "lower" else ": larger than every size")
        else:
            up_to = sheet["body"]["rows"][one.size][HEIGHT if name == AGE else name]
            said = say(said, f": size {one.size}, cut for up to ", measured(up_to))
        reasons.append(said)
    return say(joined(reasons, "; "), ".")


def _again(sheet: Sheet, advice: Advice, depends_on: tuple[str, ...]) -> Fragment:
    """A warning where the measurements point to sizes far from each other."""
    apart = far_apart(sheet, advice.by)
    if apart < FAR_APART:
        return Fragment(name="size.again", kind="sentence", depends_on=depends_on)
    said = say(f"These measurements lie {apart} sizes apart. Measure once more before you cut.")
    data = {"code": "far-apart", "apart": apart}
    return Fragment(name="size.again", kind="warning", said=said, data=data, depends_on=depends_on)


def _fit(sheet: Sheet, advice: Advice, fitting: Fitting, depends_on: tuple[str, ...]) -> list[Fragment]:
    """Each finished girth on this child, in the size that was found."""
    tried = {place.name: place for place in fitting.places(advice.size)}
    fragments = []
    for one in _places(sheet):
        place = tried.get(one["name"])
        data: dict[str, Any] = {}
        if place is not None:
            meant_mm = None if place.meant_mm is None else list(place.meant_mm)
            data = {"measurement": place.name, "finished_mm": place.finished_mm, "ease_mm": place.ease_mm,
                    "meant_mm": meant_mm, "off": off(place)}  # fmt: skip
        fragments.append(
            Fragment(
                name=f"size.fit.{one['name']}",
                kind="warning" if data.get("off") == "tight" else "sentence",
                said=NOTHING if place is None else place_said(place),
                data=data,
                depends_on=depends_on,
            )
        )
    return fragments


def _ring(
    sheet: Sheet,
    advice: Advice,
    child: Child,
    words: Mapping[str, str],
    notion: Mapping[str, Any],
    depends_on: tuple[str, ...],
) -> Fragment:
    """How long to cut a closed elastic for this child, where that is another length than the size's."""
    name, size, body = f"size.elastic.{notion['name']}", advice.size, notion["rule"]["body"]
    chosen = completed(sheet["choices"], {**words, SIZE: size})
    of_size = cut_length(notion, sheet["body"]["rows"][size], size, chosen)
    own_mm = rule_mm(notion, child.mm, size, chosen)
    if own_mm is None or of_size is None or not holds(notion["when"], chosen):
        return Fragment(name=name, kind="sentence", depends_on=depends_on)
    own_mm = max(round(own_mm), 0)
    data = {"notion": notion["name"], "cut_mm": own_mm, "size_mm": of_size.total_mm}
    if abs(own_mm - of_size.total_mm) < ELASTIC_STEP_MM:
        return Fragment(name=name, kind="sentence", data=data, depends_on=depends_on)
    how = "be too loose" if own_mm < of_size.total_mm else "pull"
    said = say(f"{notion['title']}: for this {body} cut ", measured(own_mm), "; the ", measured(of_size.total_mm),
               f" of size {size} would {how}.")  # fmt: skip
    return Fragment(name=name, kind="sentence", said=said, data=data, depends_on=depends_on)


def _longer(request: Request, advice: Advice, depends_on: tuple[str, ...]) -> Fragment:
    """Where the length is changed, and what that takes of each cloth as it is asked for now."""
    apart = advice.length_of and advice.length_of != advice.size and advice.decides != AGE
    found = changes(request, advice.length_of) if apart else []
    if not found:
        return Fragment(name="size.longer", kind="sentence", depends_on=depends_on)
    cloths, data = cloths_said(request, found)
    said = joined([changes_said(found), cloths])
    if not cloths.html:
        said = joined([said, say("It takes no more cloth than is told above.")])
    return Fragment(
        name="size.longer",
        kind="sentence",
        said=said,
        data={"changes": [{"title": one.title, "by_mm": one.by_mm} for one in found], "cloths": data},
        depends_on=depends_on,
    )


def _lasts(sheet: Sheet, child: Child, advice: Advice, depends_on: tuple[str, ...]) -> Fragment:
    """For how long the length will do: by the growth of children in general."""
    height_mm = child.mm.get(HEIGHT)
    months = None
    if height_mm is not None and advice.length_of:
        until_mm = sheet["body"]["rows"][advice.length_of][HEIGHT]
        months = months_to_grow(height_mm, until_mm, child.age.months)
    if months is None:
        return Fragment(name="size.lasts", kind="sentence", depends_on=depends_on)
    span = f" ({months.least} to {months.most})" if months.least != months.most else ""
    how_long = f"about {months.median} months{span}" if months.most > 1 else "a month at most"
    said = say(f"An estimate: the length of {advice.length_of} will do for {how_long}, "
               "as children grow by the tables of the WHO.")  # fmt: skip
    data = {"months": months.median, "least": months.least, "most": months.most}
    return Fragment(name="size.lasts", kind="sentence", said=said, data=data, depends_on=depends_on)


def _either(names: Sequence[str]) -> str:
    return " or the ".join([", the ".join(names[:-1]), names[-1]]) if len(names) > 1 else names[0]


def _and(names: Sequence[str]) -> str:
    named = list(dict.fromkeys(names))
    return " and ".join([", ".join(named[:-1]), named[-1]]) if len(named) > 1 else named[0]
