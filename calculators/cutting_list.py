"""What is cut, from which cloth, how many, and how?

>>> how_cut({"kind": "cut", "mode": "pair", "count": 2, "face": "up"})
'1 mirrored pair'
>>> how_cut({"kind": "cut", "mode": "fold", "count": 1, "face": "up"})
'1 on the fold'
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from .conditions import holds
from .fragments import Fragment, Said, escaped
from .request import Request


def how_cut(item: Mapping[str, Any]) -> str:
    """How many and in which way a line of the cutting list is cut, in words."""
    count = item["count"]
    if item["mode"] == "pair":
        return "1 mirrored pair" if count == 2 else f"{count // 2} mirrored pairs"
    if item["mode"] == "fold":
        return f"{count} on the fold"
    return f"{count}, wrong side up" if item["face"] == "down" else str(count)


def cutting_list_fragment(request: Request) -> Fragment:
    """Fragment `cutting-list`: the pieces to cut for what was chosen, by cloth.

    It depends on the size only where a line of the list does.
    """
    sheet = request.sheet
    conditions = [item["when"] for item in sheet["items"]]
    depends_on = request.depends(*conditions, size=False)
    rows, texts, html = [], [], []
    for cloth in sheet["cloths"]:
        lines = [i for i in sheet["items"] if i["cloth"] == cloth["name"] and holds(i["when"], request.chosen)]
        if not lines:
            continue
        said = []
        for item in lines:
            keys = ("id", "piece", "title", "cloth", "kind", "mode", "count", "face", "notes")
            rows.append({key: item[key] for key in keys} | {"how": how_cut(item)})
            notes = f" ({'; '.join(item['notes'])})" if item["notes"] else ""
            said.append(f"{item['title']}: {how_cut(item)}{notes}")
        texts.append(f"{cloth['title']}. {'. '.join(said)}.")
        listed = "".join(f"<li>{escaped(line)}</li>" for line in said)
        html.append(f"<dt>{escaped(cloth['title'])}</dt><dd><ul>{listed}</ul></dd>")
    text = " ".join(texts)
    return Fragment(
        name="cutting-list",
        kind="list",
        said=Said(text=text, text_inch=text, html=f'<dl class="bs-cutting-list">{"".join(html)}</dl>' if html else ""),
        data={"rows": rows},
        depends_on=depends_on,
    )
