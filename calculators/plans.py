"""Which parts come from which cloth, and what would another cloth plan take?

A plan's amounts are worked out as the panel works out its own, with the buyer's widths, ways and all else, so that
they are the panel's once the plan is chosen.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from .choices import HARD, broken
from .conditions import holds
from .fragments import NOTHING, Fragment, Said, joined, say
from .mending import reasons
from .plan_choices import present, taken
from .problems import problem
from .request import Request
from .spread import Spread, spread_out
from .units import MM_PER_M, Shown, metres, mixed, width

OWN_MIX = "your own mix"
FEWEST = 2
"""A single plan is no question."""

PlanJson = Mapping[str, Any]
Pair = tuple[str, str]
"""A piece and a cloth that it is cut from."""


@dataclass(frozen=True, kw_only=True)
class Taken:
    """A plan that has been taken: what is chosen then, what is cut from what, why the rules forbid it (or nothing)."""

    plan: PlanJson
    chosen: Mapping[str, str]
    pairs: frozenset[Pair]
    because: Sequence[str]


def plan_fragments(request: Request) -> list[Fragment]:
    """Fragments `plan` (which plan it is), `plan.<name>` for each plan, and `plan-parts` (parts, cloth, amount).

    Arguments: a request whose size is known. A pattern without plans has a silent `plan` only; all are silent where
    the choices that the plans are about are not asked. Of plans that come to the same for what else is
    chosen, the first speaks.
    """
    sheet, chosen = request.sheet, request.chosen
    plans = sheet["cloth_plans"]
    if not plans:
        return [Fragment(name="plan", kind="sentence", data={"present": "", "offered": []})]
    now = {cloth["name"]: spread_out(request, cloth) for cloth in sheet["cloths"]}
    depends_on = _depends_on(request, now)
    offered = {taken_plan.plan["name"]: taken_plan for taken_plan in _offered(request)}
    name = present(plans, chosen)
    asked = len(offered) >= FEWEST
    title = next((plan["title"] for plan in plans if plan["name"] == name), OWN_MIX)
    data = {"present": name, "offered": list(offered) if asked else []}
    said = say(f"Now: {title}.") if asked else NOTHING
    fragments = [Fragment(name="plan", kind="sentence", said=said, data=data, depends_on=depends_on)]
    for plan in plans:
        if asked and plan["name"] in offered:
            fragments.append(_one_plan(request, offered, plan["name"], name, now, depends_on))
        else:
            fragments.append(_not_offered(plan["name"], depends_on))
    fragments.append(_parts(request, now, depends_on) if asked else _no_parts(depends_on))
    return fragments


def _not_offered(name: str, depends_on: tuple[str, ...]) -> Fragment:
    data = {"offered": False, "present": False, "checks": []}
    return Fragment(name=f"plan.{name}", kind="sentence", data=data, depends_on=depends_on)


def _depends_on(request: Request, now: Mapping[str, Spread]) -> tuple[str, ...]:
    """All that the amounts of any plan depend on."""
    sheet = request.sheet
    hard = [rule for rule in sheet["rules"] if any(rule.get(kind) is not None for kind in HARD)]
    conditions = [part for rule in hard for part in (rule["when"], rule["needs"] or [], rule["excludes"] or [])]
    conditions += [[{name: []}] for plan in sheet["cloth_plans"] for name in plan["choices"]]
    conditions += [item["when"] for item in sheet["items"]]
    names = {*request.depends(*conditions), *(name for spread in now.values() for name in spread.amount_depends_on)}
    return tuple(sorted(names))


def _offered(request: Request) -> list[Taken]:
    """The plans that can be taken for what else is chosen, each garment once."""
    sheet = request.sheet
    hard = [rule for rule in sheet["rules"] if any(rule.get(kind) is not None for kind in HARD)]
    found: list[Taken] = []
    for plan in sheet["cloth_plans"]:
        chosen = taken(sheet["choices"], plan["choices"], request.chosen)
        if any(name in chosen for name in plan["choices"]) and all(one.chosen != chosen for one in found):
            because = reasons(broken(hard, chosen))
            pairs = frozenset((item["piece"], item["cloth"]) for item in _cut(request, chosen))
            found.append(Taken(plan=plan, chosen=chosen, pairs=pairs, because=because))
    return found


def _cut(request: Request, chosen: Mapping[str, str]) -> list[Mapping[str, Any]]:
    """What is cut for these choices, interfacing apart: it follows its piece."""
    return [one for one in request.sheet["items"] if one["kind"] == "cut" and holds(one["when"], chosen)]


def _one_plan(
    request: Request,
    offered: Mapping[str, Taken],
    name: str,
    present_name: str,
    now: Mapping[str, Spread],
    depends_on: tuple[str, ...],
) -> Fragment:
    one = offered[name]
    checks = [[f"choice.{choice}", words] for choice, words in one.plan["choices"].items() if choice in one.chosen]
    parts = _parts_words(request, one, list(offered.values()))
    data: dict[str, Any] = {"offered": True, "present": name == present_name, "checks": checks,
                            "chosen": {choice: one.chosen[choice] for choice in one.plan["choices"]
                                       if choice in one.chosen}}  # fmt: skip
    if one.because:
        said = joined([say("Not with your other options."), *(say(reason) for reason in one.because)])
        return problem(f"plan.{name}", "forbidden-choices", said, depends_on, **data, because=list(one.because))
    there = replace(request, chosen=one.chosen)
    amounts = []
    for cloth in request.sheet["cloths"]:
        spread = spread_out(there, cloth)
        if spread.demand or now[cloth["name"]].demand:
            amounts.append((cloth, spread))
    data["cloths"] = [_amount_data(cloth["name"], spread, now[cloth["name"]]) for cloth, spread in amounts]
    bought = joined([_amount_words(cloth["title"], spread, now[cloth["name"]]) for cloth, spread in amounts], ", ")
    lines = [parts] if data["present"] else [parts, say(_upper_first(bought), ".")]
    said = joined(lines)
    html = "".join(f"<p>{line.html}</p>" for line in lines)
    return Fragment(name=f"plan.{name}", kind="list", said=replace(said, html=html), data=data, depends_on=depends_on)


def _parts_words(request: Request, one: Taken, offered: Sequence[Taken]) -> Said:
    """Which parts this plan cuts from which cloth, as far as the plans differ, and what all else comes from."""
    everywhere = frozenset.intersection(*(other.pairs for other in offered))
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


def _parts(request: Request, now: Mapping[str, Spread], depends_on: tuple[str, ...]) -> Fragment:
    """The small table for what is chosen now: each cloth, what is cut from it, how much of it."""
    rows, texts, inches, html = [], [], [], []
    for cloth in request.sheet["cloths"]:
        name, spread = cloth["name"], now[cloth["name"]]
        titles = [item["title"] for item in _cut(request, request.chosen) if item["cloth"] == name]
        if not titles:
            continue
        answer = spread.answer
        amount = say(metres(spread.length_mm(answer), spread.cuts)) if answer else say("no amount")
        parts = say(_upper(_grouped(titles)))
        rows.append({"cloth": name, "parts": titles, "buy_mm": spread.buy_mm(answer) if answer else None})
        texts.append(f"{cloth['title']}, {amount.text}: {parts.text}.")
        inches.append(f"{cloth['title']}, {amount.text_inch}: {parts.text}.")
        head = f'<th scope="row">{say(cloth["title"]).html}</th>'
        html.append(f'<tr>{head}<td class="bs-amount">{amount.html}</td><td>{parts.html}</td></tr>')
    named = '<tr><th scope="col">Cloth</th><th scope="col">Buy</th><th scope="col">Parts</th></tr>'
    table = f'<table class="bs-parts"><thead>{named}</thead><tbody>{"".join(html)}</tbody></table>'
    said = Said(text=" ".join(texts), text_inch=" ".join(inches), html=table if html else "")
    return Fragment(name="plan-parts", kind="list", said=said, data={"rows": rows}, depends_on=depends_on)


def _no_parts(depends_on: tuple[str, ...]) -> Fragment:
    return Fragment(name="plan-parts", kind="list", data={"rows": []}, depends_on=depends_on)


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
