"""Pages that no one writes: those of patterns, their choices and techniques, and of the shopping list.

Each is a page of Markdown for the site engine. Most are stubs, a heading only, whose content is made later, as HTML.
"""

from __future__ import annotations

import json
from collections.abc import Mapping

from boltside.pages.list_page import DESCRIPTION as LIST_DESCRIPTION
from boltside.pages.list_page import TITLE as LIST_TITLE
from boltside.pages.options_page import option_address, options_description, options_title
from boltside.pages.technique_pages import TECHNIQUES_FOLDER, technique_page, techniques_page
from boltside.pages.technique_pages import TITLE as TECHNIQUES_TITLE
from boltside.shop_build import PATTERNS_FOLDER, PatternFiles, ShopFiles

STUB_KEY = "boltside_pattern"
CHOICE_KEY = "boltside_choice"
TECHNIQUE_KEY, LIST_KEY = "boltside_technique", "boltside_techniques"
"""What a page says of itself: the pattern that it is about, and the choice if it is about one; the technique, or that
it lists them all."""
LIST_MARK = "<!-- shopping list -->"
"""Where the shopping list stands in its page."""
HEADING = "# Pattern\n"
"""What stands in a stub."""


def address_of(pattern: PatternFiles) -> str:
    """The address of a pattern's page, from the site's root."""
    return f"{PATTERNS_FOLDER}/{pattern.sheet['pattern']}/"


def stubs(pattern: PatternFiles) -> list[tuple[str, str]]:
    """Path and text of the stubs of a pattern's pages: its own, and one per choice."""
    sheet = pattern.sheet
    own = {STUB_KEY: sheet["pattern"], "title": sheet["name"], "description": sheet["summary"], "units": True}
    made = [(f"{address_of(pattern)}index.md", written(own, HEADING))]
    for choice in sheet["choices"]:
        meta = {
            **own,
            CHOICE_KEY: choice["name"],
            "title": options_title(sheet, choice),
            "description": options_description(sheet, choice),
        }
        made.append((f"{address_of(pattern)}{option_address(choice)}index.md", written(meta, HEADING)))
    return made


def technique_stubs(shop: ShopFiles) -> list[tuple[str, str]]:
    """Path and text of the pages about techniques: one each, and the list of all."""
    if not shop.techniques:
        return []
    of_all = {LIST_KEY: True, "title": TECHNIQUES_TITLE, "units": True}
    made = [(f"{TECHNIQUES_FOLDER}/index.md", written(of_all, techniques_page(shop.techniques)))]
    for one in shop.techniques:
        using = [
            (pattern.sheet["pattern"], pattern.sheet["name"])
            for pattern in shop.patterns
            if any(one["name"] in step.get("techniques", ()) for step in pattern.sheet["steps"])
        ]
        meta = {TECHNIQUE_KEY: one["name"], "title": one["title"], "units": True}
        made.append((f"{TECHNIQUES_FOLDER}/{one['name']}.md", written(meta, technique_page(one, using))))
    return made


def list_stub() -> str:
    """The page of the shopping list, as a hand-written page would have it."""
    meta = {"title": LIST_TITLE, "description": LIST_DESCRIPTION, "units": True}
    return written(meta, f"# {LIST_TITLE} {{ #list }}\n\n{LIST_MARK}\n")


def written(meta: Mapping[str, object], text: str) -> str:
    """A page of the site engine: its header, then its Markdown."""
    # JSON strings are YAML strings, so that no character of a name can break the header.
    lines = "\n".join(f"{key}: {json.dumps(value)}" for key, value in meta.items())
    return f"---\n{lines}\n---\n\n{text}"
