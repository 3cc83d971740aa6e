"""For which garments is asked: one, or two at once?

Two garments of one pattern, in two sizes or twice in one, with the same options. Each of them is a request of its own;
in answers the smaller size comes first.

>>> sizes_said(["92"]), sizes_said(["92", "98"]), sizes_said(["92", "92"])
('size 92', 'sizes 92 and 98', 'size 92 twice')
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from .choices import completed
from .conditions import SIZE
from .fragments import NOTHING, Said, joined, say
from .request import Request

FOR_BOTH = ", for both"
"""Before an amount that is for two garments, so that nobody buys for one."""


def garments(request: Request) -> tuple[Request, ...]:
    """The garments that were asked for, each as a request for one alone; of two the smaller size first."""
    if request.second is None or request.size is None:
        return (request,)
    sizes = list(request.sheet["sizes"])
    return tuple(one_of(request, size) for size in sorted((request.size, request.second), key=sizes.index))


def one_of(request: Request, size: str) -> Request:
    """The request for one garment alone in this size, with the same options as far as this size has them."""
    # What is asked in this size alone stands in the words that came; else what counts as chosen counts here too.
    chosen = completed(request.sheet["choices"], {**request.words, **request.chosen, SIZE: size})
    return replace(request, size=size, second=None, second_typed="", chosen=chosen)


def sizes_of(request: Request) -> list[str]:
    """The sizes of the garments that were asked for."""
    return [one.size or "" for one in garments(request)]


def pair_key(sizes: Sequence[str]) -> str:
    """How two sizes stand in the sheet, beside single ones.

    >>> pair_key(["92", "98"])
    '92+98'
    """
    return "+".join(sizes)


def sizes_said(sizes: Sequence[str]) -> str:
    """One size or two in words."""
    if len(sizes) == 1:
        return f"size {sizes[0]}"
    return f"size {sizes[0]} twice" if sizes[0] == sizes[1] else f"sizes {sizes[0]} and {sizes[1]}"


def by_garment(sizes: Sequence[str], each: Sequence[Said]) -> Said:
    """What holds for each of the garments: once where it is the same for both, else by size.

    >>> by_garment(["92", "98"], [say("Cut 47 cm."), say("Cut 48 cm.")]).text
    'Size 92: Cut 47 cm. Size 98: Cut 48 cm.'
    >>> by_garment(["92", "92"], [say("Cut 47 cm."), say("Cut 47 cm.")]).text
    'For each garment: Cut 47 cm.'
    """
    if len(each) == 1:
        return each[0]
    if each[0] == each[1]:
        return say("For each garment: ", each[0]) if each[0].html else NOTHING
    return joined(say(f"Size {size}: ", one) for size, one in zip(sizes, each, strict=True) if one.html)


