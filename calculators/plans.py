"""Which parts come from which cloth, and what would another cloth plan take?

A plan's amounts are worked out as the panel works out its own, with the buyer's widths, ways and all else, so that
they are the panel's once the plan is chosen.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from .choices import HARD, broken
from .conditions import ConditionJson, holds
from .fragments import NOTHING, Fragment, Said, joined, say
from .mending import reasons
from .parts import Part, several, single
from .plan_choices import present, taken
from .problems import problem
from .request import Request, Sheet
from .spread import Spread, spread_out
from .units import MM_PER_M, Shown, metres, mixed, width

OWN_MIX = "your own mix"
FEWEST = 2
"""A single plan is no question."""

PlanJson = Mapping[str, Any]


@dataclass(frozen=True, kw_only=True)
class Taken:
    """A plan that has been taken: what is chosen then, why the rules forbid it (or nothing)."""

    plan: PlanJson
    chosen: Mapping[str, str]
    because: Sequence[str]


def plan_fragments(request: Request) -> list[Fragment]:
    """Fragments `plan` (which plan it is); `plan.<name>` for each plan with `plan-takes.<name>.<cloth>`, what it takes
    of each cloth; and `plan-parts.<cloth>`, parts and amount of each cloth now.

    Arguments: a request whose size is known. A pattern without plans has a silent `plan` only; all are silent where
    the choices that the plans are about are not asked. Of plans that come to the same for what else is
    chosen, the first speaks.
    """
    return [fragment for part in plan_parts(request.sheet) for fragment in part.make(request)]


def plan_parts(sheet: Sheet) -> list[Part]:
    """What makes these fragments: one part for the plans, one for each cloth."""
    if not sheet["cloth_plans"]:
        return [single(_no_plans)]
    return [several(_which_plan), *(several(_of_cloth, cloth, alike=_alike) for cloth in sheet["cloths"])]


def _no_plans(request: Request) -> Fragment:
    return Fragment(name="plan", kind="sentence", data={"present": "", "offered": []})


def _which_plan(request: Request) -> list[Fragment]:
    """Fragments `plan` and `plan.<name>`: which plans there are, and what each cuts from what."""
    plans, sheet = request.sheet["cloth_plans"], request.sheet
    about_size = any(rule.get("only_sizes") is not None for rule in sheet["rules"])
    depends_on = request.always("plan", lambda: request.depends(*_conditions(sheet, None), size=about_size))
    offered, name = _by_name(request), present(plans, request.chosen)
    title = next((plan["title"] for plan in plans if plan["name"] == name), OWN_MIX)
    data = {"present": name, "offered": list(offered)}
    said = say(f"Now: {title}.") if offered else NOTHING
    fragments = [Fragment(name="plan", kind="sentence", said=said, data=data, depends_on=depends_on)]
    for plan in plans:
        if plan["name"] in offered:
            fragments.append(_one_plan(request, offered, plan["name"], name, depends_on))
        else:
            fragments.append(_not_offered(plan["name"], depends_on))
    return fragments


def _of_cloth(request: Request, cloth: Mapping[str, Any]) -> list[Fragment]:
    """Fragments `plan-takes.<name>.<cloth>` of every plan, and `plan-parts.<cloth>`."""
    sheet, name = request.sheet, cloth["name"]
    now, then, present_name = _compared(request, cloth)
    depends_on = request.always(
        f"plan {name}", lambda: tuple(sorted({*request.depends(*_conditions(sheet, name)), *now.amount_depends_on}))
    )
    fragments = []
    for plan in sheet["cloth_plans"]:
        there = then.get(plan["name"])
        said, data = NOTHING, dict[str, Any]()
        if there is not None:
            data = _amount_data(name, there, now) if there.demand or now.demand else {}
            if data and plan["name"] != present_name:
                said = say(_upper_first(_amount_words(cloth["title"], there, now)), ".")
        takes = f"plan-takes.{plan['name']}.{name}"
        fragments.append(Fragment(name=takes, kind="sentence", said=said, data=data, depends_on=depends_on))
    said_parts, row = _parts(request, cloth, now) if _by_name(request) else (NOTHING, {})
    fragments.append(Fragment(name=f"plan-parts.{name}", kind="list", said=said_parts, data=row,
                              depends_on=depends_on))  # fmt: skip
    return fragments


def _compared(request: Request, cloth: Mapping[str, Any]) -> tuple[Spread, dict[str, Spread], str]:
    """How a cloth is spread out now, how once each plan that can be had is taken, and which plan it is now."""
    now = spread_out(request, cloth)
    then = {
        name: now if one.chosen == request.chosen else spread_out(_there(request, one), cloth)
        for name, one in _by_name(request).items()
        if not one.because
    }
    return now, then, present(request.sheet["cloth_plans"], request.chosen)


def _alike(request: Request, cloth: Mapping[str, Any]) -> tuple[object, ...]:
    """Requests that share what they find and are alike in this get the same fragments about this cloth."""
    now, then, present_name = _compared(request, cloth)
    return (id(now), tuple((name, id(there)) for name, there in then.items()), present_name, bool(_by_name(request)))


def _there(request: Request, one: Taken) -> Request:
    """The request once the plan is taken; kept, as each cloth asks for it."""
    kept: dict[str, Request] = request.kept.setdefault("there", {})
    if one.plan["name"] not in kept:
        kept[one.plan["name"]] = replace(request, chosen=one.chosen)
    return kept[one.plan["name"]]


def _by_name(request: Request) -> Mapping[str, Taken]:
    """The plans that are offered, by name; none where a single one is left."""
    chosen = ("plans", *request.chosen.items())
    if chosen not in request.shared:
        found = _offered(request)
        request.shared[chosen] = {one.plan["name"]: one for one in found} if len(found) >= FEWEST else {}
    by_name: Mapping[str, Taken] = request.shared[chosen]
    return by_name


def _not_offered(name: str, depends_on: tuple[str, ...]) -> Fragment:
    data = {"offered": False, "present": False, "checks": []}
    return Fragment(name=f"plan.{name}", kind="sentence", data=data, depends_on=depends_on)


def _conditions(sheet: Sheet, cloth: str | None) -> list[ConditionJson]:
    """What decides which plans there are and what is cut from this cloth then, or from any."""
    hard = [rule for rule in sheet["rules"] if any(rule.get(kind) is not None for kind in HARD)]
    conditions = [part for rule in hard for part in (rule["when"], rule["needs"] or [], rule["excludes"] or [])]
    conditions += [[{name: []}] for plan in sheet["cloth_plans"] for name in plan["choices"]]
    return [*conditions, *(item["when"] for item in sheet["items"] if cloth is None or item["cloth"] == cloth)]


def _offered(request: Request) -> list[Taken]:
    """The plans that can be taken for what else is chosen, each garment once."""
    sheet = request.sheet
    hard = [rule for rule in sheet["rules"] if any(rule.get(kind) is not None for kind in HARD)]
    found: list[Taken] = []
    for plan in sheet["cloth_plans"]:
        chosen = taken(sheet["choices"], plan["choices"], request.chosen)
        if any(name in chosen for name in plan["choices"]) and all(one.chosen != chosen for one in found):
            found.append(Taken(plan=plan, chosen=chosen, because=reasons(broken(hard, chosen))))
    return found


def _cut(request: Request, chosen: Mapping[str, str]) -> list[Mapping[str, Any]]:
    """What is cut for these choices, interfacing apart: it follows its piece."""
    return [one for one in request.sheet["items"] if one["kind"] == "cut" and holds(one["when"], chosen)]


def _one_plan(
    request: Request, offered: Mapping[str, Taken], name: str, present_name: str, depends_on: tuple[str, ...]
) -> Fragment:
    one = offered[name]
    checks = [[f"choice.{choice}", words] for choice, words in one.plan["choices"].items() if choice in one.chosen]
    data: dict[str, Any] = {"offered": True, "present": name == present_name, "checks": checks,
                            "chosen": {choice: one.chosen[choice] for choice in one.plan["choices"]
                                       if choice in one.chosen}}  # fmt: skip
    if one.because:
        said = joined([say("Not with your other options."), *(say(reason) for reason in one.because)])
        return problem(f"plan.{name}", "forbidden-choices", said, depends_on, **data, because=list(one.because))
    said = _parts_words(request, one, list(offered.values()))
    return Fragment(name=f"plan.{name}", kind="list", said=said, data=data, depends_on=depends_on)


def _parts_words(request: Request, one: Taken, offered: Sequence[Taken]) -> Said:
    """Which parts this plan cuts from which cloth, as far as the plans differ, and what all else comes from."""
    pairs = [{(item["piece"], item["cloth"]) for item in _cut(request, other.chosen)} for other in offered]
    everywhere = set.intersection(*pairs)
    moved: dict[str, list[str]] = {}
    rest: list[str] = []
    for cloth in request.sheet["cloths"]:
        items = [item for item in _cut(request, one.chosen) if item["cloth"] == cloth["name"]]
        titles = [item["title"] for item in items if (item["piece"], item["cloth"]) not in everywhere]
        if titles:
            moved[cloth["title"]] = titles
        if len(titles) < len(items):
            rest.append(cloth["title"])
    if not moved or list(moved) == rest:
        return say(f"All from {_listed(_lower_first(title) for title in rest)}.")
    said = [f"{_grouped(titles)}: {_lower_first(cloth)}" for cloth, titles in moved.items()]
    said += [f"all else: {_listed(_lower_first(title) for title in rest)}"] if rest else []
    text = "; ".join(said)
    return say(f"{text[:1].upper()}{text[1:]}.")


def _amount_data(name: str, spread: Spread, now: Spread) -> dict[str, Any]:
    answer, before = spread.answer, now.answer
    return {
        "cloth": name,
        "width_mm": spread.width_mm,
        "buy_mm": spread.buy_mm(answer) if answer else None if spread.demand else 0,
        "buy_eighth_yards": spread.eighth_yards(answer) if answer else None if spread.demand else 0,
        "now_mm": now.buy_mm(before) if before else None if now.demand else 0,
    }


def _amount_words(title: str, spread: Spread, now: Spread) -> Said:
    """How much of a cloth, and how much more or less than now."""
    cloth = _lower_first(title)
    answer, before = spread.answer, now.answer
    if spread.demand and answer is None:
        return say(f"{cloth}: no amount on ", width(spread.width_mm))
    if answer is None:
        less = _more(-now.buy_mm(before), -now.eighth_yards(before)) if before else Shown("", "")
        return say(f"no {cloth}", less)
    amount = metres(spread.length_mm(answer), spread.cuts)
    if before is None:
        return say(f"{cloth} ", amount, "" if now.demand else " (none now)")
    mm, eighths = spread.buy_mm(answer) - now.buy_mm(before), spread.eighth_yards(answer) - now.eighth_yards(before)
    return say(f"{cloth} ", amount, _more(mm, eighths))


def _more(mm: int, eighths: int) -> Shown:
    """A difference of what is bought, in brackets; nothing where there is none.

    >>> _more(-100, -1), _more(50, 0)
    (Shown(cm=' (0.10 m less)', inch=' (1/8 yd less)'), Shown(cm=' (0.05 m more)', inch=''))
    """
    cm = f" ({abs(mm) / MM_PER_M:.2f} m {'more' if mm > 0 else 'less'})" if mm else ""
    inch = f" ({mixed(abs(eighths), 8)} yd {'more' if eighths > 0 else 'less'})" if eighths else ""
    return Shown(cm, inch)


def _parts(request: Request, cloth: Mapping[str, Any], spread: Spread) -> tuple[Said, dict[str, Any]]:
    """A row of the small table for what is chosen now: a cloth, how much of it, what is cut from it; and as data."""
    titles = [item["title"] for item in _cut(request, request.chosen) if item["cloth"] == cloth["name"]]
    if not titles:
        return NOTHING, {}
    answer = spread.answer
    amount = say(metres(spread.length_mm(answer), spread.cuts)) if answer else say("no amount")
    parts = say(_upper(_grouped(titles)))
    said = say(f"{cloth['title']}, ", amount, ": ", parts, ".")
    head = f'<th scope="row">{say(cloth["title"]).html}</th>'
    html = f'{head}<td class="bs-amount">{amount.html}</td><td>{parts.html}</td>'
    row = {"cloth": cloth["name"], "parts": titles, "buy_mm": spread.buy_mm(answer) if answer else None}
    return replace(said, html=html), row


def _grouped(titles: Iterable[str]) -> str:
    """Titles in a row, each once; those that differ only behind their comma stand together.

    >>> _grouped(["Flat collar, upper", "Flat collar, under", "Patch pocket", "Patch pocket"])
    'flat collar (upper, under), patch pocket'
    """
    by_head: dict[str, list[str]] = {}
    for title in dict.fromkeys(titles):
        head, _, tail = title.partition(", ")
        by_head.setdefault(head, []).extend([tail] if tail else [])
    said = [(_lower_first(head), ", ".join(tails)) for head, tails in by_head.items()]
    return ", ".join(f"{head} ({tails})" if tails else head for head, tails in said)


def _listed(words: Iterable[str]) -> str:
    """Words in a row.

    >>> _listed(["outer cloth", "lining", "rib"]), _listed(["outer cloth"])
    ('outer cloth, lining and rib', 'outer cloth')
    """
    *first, last = words
    return f"{', '.join(first)} and {last}" if first else last


def _lower_first(text: str) -> str:
    """A title inside a sentence; what is written in capitals stays so."""
    return text if text[1:2].isupper() else text[:1].lower() + text[1:]


def _upper(text: str) -> str:
    return text[:1].upper() + text[1:]


def _upper_first(said: Said) -> Said:
    """A sentence that begins with a capital; it begins with a plain word in every form."""
    return Said(text=_upper(said.text), text_inch=_upper(said.text_inch), html=_upper(said.html))
