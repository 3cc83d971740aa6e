"""What do finished garments look like? The designer's photographs, each with its size, options and cloth."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from boltside.pages.markup import Html, element, join

Sheet = Mapping[str, Any]

GALLERY_ID, GALLERY_TITLE = "photographs", "Photographs"
MANY = 6
"""From so many photographs on they can be filtered by their tags. Our choice: fewer are seen at a glance."""


def gallery_part(sheet: Sheet) -> Html:
    """The photographs of a pattern; empty where there are none. Addresses are as seen from the pattern's page."""
    photographs = sheet.get("photographs") or []
    if not photographs:
        return Html("")
    return element(
        "section",
        element("h2", GALLERY_TITLE, id="gallery-title"),
        tag_filter(sheet, photographs) if len(photographs) >= MANY else "",
        element("ul", *(element("li", figure(sheet, one), data_tags="|".join(tags(sheet, one)))
                        for one in photographs), class_="gallery bare"),
        id=GALLERY_ID,
        class_="part",
        aria_labelledby="gallery-title",
    )  # fmt: skip


def figure(sheet: Sheet, photograph: Mapping[str, Any]) -> Html:
    """One photograph with its tags under it."""
    return element(
        "figure",
        element("img", src=photograph["file"], alt=photograph["title"], loading="lazy", decoding="async"),
        element("figcaption", ". ".join(tags(sheet, photograph))),
    )


def tags(sheet: Sheet, photograph: Mapping[str, Any]) -> list[str]:
    """What the photograph shows, in the words of the page.

    >>> choice = {"name": "length", "title": "Length", "alternatives": [{"name": "hip", "title": "To the hip"}]}
    >>> tags({"choices": [choice]}, {"size": "92", "choices": {"length": "hip"}, "cloth": "Cord"})
    ['Size 92', 'Length: To the hip', 'Cord']
    """
    found = [f"Size {photograph['size']}"] if photograph["size"] else []
    for choice in sheet["choices"]:
        word = photograph["choices"].get(choice["name"])
        found += [f"{choice['title']}: {one['title']}" for one in choice["alternatives"] if one["name"] == word]
    return [*found, photograph["cloth"]] if photograph["cloth"] else found


def tag_filter(sheet: Sheet, photographs: Sequence[Mapping[str, Any]]) -> Html:
    """One list of all tags; the site's script shows the photographs that have the chosen one."""
    known = dict.fromkeys(tag for one in photographs for tag in tags(sheet, one))
    return element(
        "p",
        element("label", "Show ", for_="gallery-tag"),
        element("select", element("option", "all", value=""), *(element("option", tag, value=tag) for tag in known),
                id="gallery-tag", autocomplete="off", data_gallery_tag=True),
        join([" ", element("span", role="status", data_gallery_count=True)]),
        class_="gallery__filter",
        hidden=True,
    )  # fmt: skip
