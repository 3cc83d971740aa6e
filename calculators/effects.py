"""What does each alternative of a choice change? Look, cloth, difficulty, time, and what it goes with.

Each alternative is compared with the pattern as it usually is, in one size and on cloth of the usual width. Where an
alternative needs another choice, that is made too, and said.

>>> more_words(0.0).cm, more_words(150.0).cm, more_words(-50.0).inch
('no\xa0more', '0.15 m more', '2 in less')
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from .choices import completed
from .conditions import SIZE, ConditionJson
from .drawing import svg
from .fragments import Fragment, Said, quoted, say
from .mending import smallest_changes
from .problems import problem
from .request import Request, read_request
from .spread import spread_out
from .units import MM_PER_M, Shown, measured, metres, width


def more_words(mm: float) -> Shown:
    """A difference of amounts to buy, in words of both systems."""
    if not mm:
        return Shown("no\u00a0more", "no\u00a0more")
    than = "more" if mm > 0 else "less"
    return Shown(f"{abs(mm) / MM_PER_M:.2f} m {than}", f"{measured(abs(mm)).inch} {than}")


def effect_fragments(request: Request, choice_name: str) -> list[Fragment]:
    """Fragments `effect.<alternative>` for every alternative of a choice.

    Arguments: a request whose size is known; the choice. What else was chosen does not matter.
    """
    sheet = request.sheet
    choice = next((one for one in sheet["choices"] if one["name"] == choice_name), None)
    if choice is None:
        return [problem("effect", "unknown-choice", say(f"There is no choice {quoted(choice_name)} here."), ())]
    usual = _chosen(request, choice, choice["default"])
    return [_effect(request, choice, one, usual) for one in choice["alternatives"]]


def _effect(
    request: Request, choice: Mapping[str, Any], alternative: Mapping[str, Any], usual: Mapping[str, str]
) -> Fragment:
    sheet, name, word = request.sheet, choice["name"], alternative["name"]
    chosen = _chosen(request, choice, word)
    besides = {
        one: chosen[one] for one in chosen if one not in (SIZE, name) and one in usual and chosen[one] != usual[one]
    }
    needs, excludes, others = _rules(request, name, word)
    cloths = _cloths(request, usual, chosen)
    rows: list[Said] = []
    if alternative["about"]:
        rows.append(say(alternative["about"]))
    if word == choice["default"]:
        rows.append(say("The pattern's usual choice."))
    else:
        default = next(one for one in choice["alternatives"] if one["name"] == choice["default"])
        rows.append(say(f"Compared with “{default['title']}”, size {request.size}", _besides(request, besides), ":"))
        rows += [say(f"{one['title']}, ", width(one["width_mm"]), " wide: ", _amount_words(one)) for one in cloths]
    rows += [say(text) for text in (*needs, *excludes, *others)]
    if alternative["difficulty"] or alternative["minutes"]:
        adds = [f"difficulty {alternative['difficulty']:+d}"] if alternative["difficulty"] else []
        adds += [f"{alternative['minutes']:+d} min"] if alternative["minutes"] else []
        rows.append(say(f"To sew: {', '.join(adds)}"))
    title = f"{sheet['name']}, front and back. {choice['title']}: {alternative['title']}."
    listed = "".join(f"<li>{row.html}</li>" for row in rows)
    html = f'<div class="bs-effect">{svg(sheet, chosen, title)}<ul>{listed}</ul></div>'
    data = {
        "alternative": word, "title": alternative["title"], "difficulty": alternative["difficulty"],
        "minutes": alternative["minutes"], "cloths": {one["name"]: one for one in cloths}, "needs": needs,
        "excludes": excludes, "also": others, "with": besides, "default": word == choice["default"],
    }  # fmt: skip
    said = Said(text=_text([row.text for row in rows]), text_inch=_text([row.text_inch for row in rows]), html=html)
    return Fragment(name=f"effect.{word}", kind="list", said=said, data=data, depends_on=(SIZE,))


def _amount_words(cloth: Mapping[str, Any]) -> Shown:
    if cloth["buy_mm"] is None:
        return Shown("too narrow", "too narrow")
    if cloth["adds_mm"] is None:
        return metres(cloth["buy_mm"])
    return more_words(cloth["adds_mm"])


def _text(rows: Sequence[str]) -> str:
    return " ".join(row if row[-1:] in ".:" else f"{row}." for row in rows)


def _chosen(request: Request, choice: Mapping[str, Any], word: str) -> dict[str, str]:
    """The usual choices with this alternative, and with what it needs to be asked and allowed."""
    sheet, size = request.sheet, request.size or ""
    wanted = {choice["name"]: word, SIZE: size}
    asked_when = {one["name"]: one["asked_when"] for one in sheet["choices"]}
    todo = [choice["name"]]
    while todo:
        for mapping in asked_when[todo.pop()][:1]:
            for name, words in mapping.items():
                if name in asked_when and name not in wanted:
                    default = next(one["default"] for one in sheet["choices"] if one["name"] == name)
                    wanted[name] = default if default in words else words[0]
                    todo.append(name)
    chosen = completed(sheet["choices"], wanted)
    others = tuple(one["name"] for one in sheet["choices"] if one["name"] not in wanted)
    for name, other in smallest_changes(sheet, chosen, others)[:1]:
        if name != SIZE:
            return completed(sheet["choices"], {**chosen, name: other})
    return chosen


def _cloths(request: Request, usual: Mapping[str, str], chosen: Mapping[str, str]) -> list[dict[str, Any]]:
    """For each cloth of which more or less is bought, how much, on cloth of the usual width, usual way."""
    asked = [read_request(request.sheet, {"size": request.size or "", "choices": dict(one)}) for one in (usual, chosen)]
    found = []
    for cloth in request.sheet["cloths"]:
        buys = []
        for one in asked:
            spread = spread_out(one, cloth)
            answer = spread.answer
            buys.append(spread.buy_mm(answer) if answer else None if spread.demand else 0)
        before, after = buys
        if before == 0 and after == 0:
            continue
        adds_mm = None if before is None or after is None else after - before
        found.append({"name": cloth["name"], "title": cloth["title"], "width_mm": cloth["usual_width_mm"],
                      "buy_mm": after, "adds_mm": adds_mm})  # fmt: skip
    return found


def _rules(request: Request, name: str, word: str) -> tuple[list[str], list[str], list[str]]:
    """What the designer's rules say of this alternative: what it needs, what it excludes, what else."""
    needs, excludes, others = [], [], []
    for rule in request.sheet["rules"]:
        because = [rule["because"]] if rule["because"] else []
        for rest in _with(rule["when"], name, word):
            together = _together(request, rest)
            if rule["needs"] is not None:
                needs.append(" ".join([f"{together}Needs {condition_words(request, rule['needs'])}.", *because]))
            elif rule["excludes"] is not None:
                excludes.append(
                    " ".join([f"{together}Not with {condition_words(request, rule['excludes'])}.", *because])
                )
            elif rule["only_sizes"] is not None:
                sizes = size_words(request.sheet["sizes"], rule["only_sizes"])
                others.append(" ".join([f"{together}Only in {sizes}.", *because]))
            elif rule["advice"]:
                others.append(f"{together}{rule['advice']}")
        for rest in _with(rule["excludes"] or [], name, word):
            against = f"Not with {condition_words(request, rule['when'])}."
            excludes.append(" ".join([f"{_together(request, rest)}{against}", *because]))
    return needs, excludes, others


def _with(condition: ConditionJson, name: str, word: str) -> list[dict[str, Sequence[str]]]:
    """For each mapping of the condition that this alternative is part of, what must be chosen besides."""
    return [
        {other: words for other, words in mapping.items() if other != name}
        for mapping in condition
        if word in mapping.get(name, ())
    ]


def _together(request: Request, rest: Mapping[str, Sequence[str]]) -> str:
    return f"With {condition_words(request, [rest])}. " if rest else ""


def size_words(sizes: Sequence[str], some: Sequence[str]) -> str:
    """Some of the sizes in words: a run as its ends.

    >>> size_words(["68", "74", "80"], ["74", "80"]), size_words(["68", "74", "80"], ["68"])
    ('sizes 74 to 80', 'size 68')
    """
    at = [index for index, size in enumerate(sizes) if size in some]
    if len(at) > 1 and at[-1] - at[0] == len(at) - 1:
        return f"sizes {sizes[at[0]]} to {sizes[at[-1]]}"
    return f"{'size' if len(at) == 1 else 'sizes'} {', '.join(sizes[index] for index in at)}"


def condition_words(request: Request, condition: ConditionJson) -> str:
    """A condition in the words of the page: "Length: To the hip", several joined by and, alternatives by or."""
    choices = {one["name"]: one for one in request.sheet["choices"]}
    ways = []
    for mapping in condition:
        parts = []
        for name, words in mapping.items():
            if name == SIZE:
                parts.append(f"size {' or '.join(words)}")
            else:
                titles = {one["name"]: one["title"] for one in choices[name]["alternatives"]}
                parts.append(f"{choices[name]['title']}: {' or '.join(titles[one] for one in words)}")
        ways.append(" and ".join(parts))
    return "; or ".join(ways) or "any choice"


def _besides(request: Request, besides: Mapping[str, str]) -> str:
    """The other choices that were made too, in words."""
    said = [condition_words(request, [{name: [word]}]) for name, word in besides.items()]
    return f", with {' and '.join(said)}" if said else ""
