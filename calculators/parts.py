"""What is an answer put together from? Parts, each of which makes the few fragments of one thing.

>>> from .fragments import Fragment
>>> part = single(lambda request, name: Fragment(name=name, kind="sentence"), "difficulty")
>>> [fragment.name for fragment in part.make(None)]
['difficulty']
"""

from __future__ import annotations

from collections.abc import Callable, Hashable
from dataclasses import dataclass
from typing import Any

from .fragments import Fragment
from .request import Request


@dataclass(frozen=True, kw_only=True)
class Part:
    """One thing that an answer tells of.

    ``make`` makes its fragments, the same ids for every request whose size is known. ``alike``, where it is given:
    requests that share what they find and for which it says the same get the same fragments, so that whoever goes
    through many choices need not have them all made.
    """

    make: Callable[[Request], list[Fragment]]
    alike: Callable[[Request], Hashable] | None = None


def single(make: Callable[..., Fragment], *about: Any, alike: Callable[..., Hashable] | None = None) -> Part:
    """A part that makes one fragment. Arguments: what makes and what compares, and what both are about."""
    return several(lambda request, *of: [make(request, *of)], *about, alike=alike)


def several(make: Callable[..., list[Fragment]], *about: Any, alike: Callable[..., Hashable] | None = None) -> Part:
    """A part that makes several fragments. Arguments as for :func:`single`."""
    if alike is None:
        return Part(make=lambda request: make(request, *about))
    return Part(make=lambda request: make(request, *about), alike=lambda request: alike(request, *about))
