"""What is to be bought for a whole shopping list, and what stands on it?

>>> [one.name for one in shopping_fragments({}, {}, {"items": []})]
['buy.total', 'buy.safe', 'buy.not-counted', 'buy.cautions']
>>> shopping_fragments({}, {}, {"items": [{"id": "a1", "pattern": "cap"}]})[0].said.text
'“cap”: This shop has no pattern “cap”, so nothing of it is counted.'
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from .cautions import caution_fragment
from .fragments import Fragment
from .request import Sheet, mapping, word
from .shopping_changes import changes_fragment
from .shopping_cloths import ITEMS, cloth_fragments_of
from .shopping_items import item_fragments, read_items
from .shopping_notions import notion_fragments_of

SHOP_FORMAT = 1
"""The format of the list of a shop's patterns."""


def is_shop(listed: Mapping[str, Any]) -> bool:
    """Whether this is a list of a shop's patterns that can be read here.

    >>> is_shop({"format": 1, "currency": "EUR", "patterns": {}}), is_shop({})
    (True, False)
    """
    return listed.get("format") == SHOP_FORMAT and isinstance(listed.get("patterns"), dict)


def shopping_fragments(
    opened: Mapping[str, Sheet], shop: Mapping[str, Any], asked: Mapping[str, Any]
) -> list[Fragment]:
    """All that is said of a list: its entries, then what is bought.

    Arguments: the opened sheets by pattern; the list of the shop's patterns, empty where it is not open; the list that
    is asked about (:mod:`.shopping_items`).
    """
    items = read_items(asked, opened, mapping(shop.get("patterns")))
    each = [fragment for item in items for fragment in (*item_fragments(item), changes_fragment(item))]
    sewn = [item.request for item in items if item.request is not None]
    return [
        *each,
        *cloth_fragments_of(items, word(shop.get("currency")) or "EUR"),
        *notion_fragments_of(items),
        caution_fragment(sewn, (ITEMS,)),
    ]
