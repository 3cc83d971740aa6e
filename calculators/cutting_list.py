"""What is cut, from which cloth, how many, and how?

>>> how_cut({"kind": "cut", "mode": "pair", "count": 2, "face": "up"})
'1 mirrored pair'
>>> how_cut({"kind": "cut", "mode": "fold", "count": 1, "face": "up"})
'1 on the fold'
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from .carries import carried_words, carries_conditions
from .conditions import holds
from .fragments import Fragment, Said, escaped
from .garments import garments, sizes_of, sizes_said
from .request import SECOND, Request
from .stretch import CLOTH_STRETCH, STRETCH_NOTES, is_knit


def how_cut(item: Mapping[str, Any]) -> str:
    """How many and in which way a line of the cutting list is cut, in words."""
    count = item["count"]
    if item["mode"] == "pair":
        return "1 mirrored pair" if count == 2 else f"{count // 2} mirrored pairs"
    if item["mode"] == "fold":
        return f"{count} on the fold"
    return f"{count}, wrong side up" if item["face"] == "down" else str(count)


def cutting_list_fragment(request: Request) -> Fragment:
    """Fragment `cutting-list`: the pieces to cut for what was chosen, by cloth, with which copy carries what.

    It depends on the size only where a line of the list does.
    """
    sheet = request.sheet
    conditions = [item["when"] for item in sheet["items"]]
    conditions += [condition for item in sheet["items"] for condition in carries_conditions(item)]
    conditions += [case["when"] for cloth in sheet["cloths"] for case in cloth["kind_cases"]]
    depends_on = tuple(sorted({*request.depends(*conditions, size=False), SECOND}))
    # Which two sizes, is said where there are two.
    depends_on = request.depends(*conditions) if request.second is not None else depends_on
    wanted = garments(request)
    rows, texts, html = [], [], []
    for cloth in sheet["cloths"]:
        of_cloth = [item for item in sheet["items"] if item["cloth"] == cloth["name"]]
        lines = [item for item in of_cloth if any(holds(item["when"], one.chosen) for one in wanted)]
        if not lines:
            continue
        said, shown = [], []
        knit = any(is_knit(cloth, one.chosen) for one in wanted)
        about = f" {CLOTH_STRETCH}" if knit else ""
        for item in lines:
            keys = ("id", "piece", "title", "cloth", "kind", "mode", "count", "face", "grain")
            takers = [one for one in wanted if holds(item["when"], one.chosen)]
            carried = dict.fromkeys(words for one in takers for words in carried_words(item, one.chosen))
            pressed = {inner["id"]: inner for one in takers for inner in _interfaced(one, item)}
            notes, interfaced = [*item["notes"], *carried], list(pressed.values())
            notes += [STRETCH_NOTES[item["stretch"]]] if knit and item["stretch"] in STRETCH_NOTES else []
            notes += [f"with interfacing: {one['title']}" for one in interfaced]
            notes += [f"size {takers[0].size} only"] if len(takers) < len(wanted) else []
            rows.append(
                {key: item[key] for key in keys}
                | {"how": how_cut(item), "notes": notes, "interfaced": [one["id"] for one in interfaced]}
            )
            beside = f" ({'; '.join(notes)})" if notes else ""
            said.append(f"{item['title']}: {how_cut(item)}{beside}")
            spans = f'<span class="bs-piece">{escaped(item["title"])}</span>'
            spans += f' <span class="bs-how">{escaped(how_cut(item))}</span>'
            spans += f' <span class="bs-note">{escaped("; ".join(notes))}</span>' if notes else ""
            shown.append(f"<li>{spans}</li>")
        texts.append(f"{cloth['title']}.{about} {'. '.join(said)}.")
        aside = f'<p class="bs-note">{CLOTH_STRETCH}</p>' if knit else ""
        html.append(f"<dt>{escaped(cloth['title'])}</dt><dd>{aside}<ul>{''.join(shown)}</ul></dd>")
    both = f"Cut everything twice, for two garments: {sizes_said(sizes_of(request))}." if len(wanted) > 1 else ""
    both_html = f'<p class="bs-both">{escaped(both)}</p>' if both else ""
    text = " ".join([both, *texts] if both else texts)
    listed = f'{both_html}<dl class="bs-cutting-list">{"".join(html)}</dl>' if html else ""
    return Fragment(
        name="cutting-list",
        kind="list",
        said=Said(text=text, text_inch=text, html=listed),
        data={"rows": rows} if len(wanted) < 2 else {"rows": rows, "sizes": sizes_of(request)},
        depends_on=depends_on,
    )


def _interfaced(request: Request, item: Mapping[str, Any]) -> list[Mapping[str, Any]]:
    """The interfacing that is pressed onto this line: it goes onto the first cloth that the piece is cut from."""
    of_piece = [one for one in request.sheet["items"] if one["piece"] == item["piece"]]
    first = next(one["cloth"] for one in of_piece if one["kind"] == "cut" or one is item)
    if item["kind"] != "cut" or item["cloth"] != first:
        return []
    return [one for one in of_piece if one["kind"] == "interfacing" and holds(one["when"], request.chosen)]
