"""Which paper guides does a shop publish? That of the usual options in each size, made side by side, kept in the cache.

A guide is made again only when its text, the style sheet, the faces or the libraries that print it have changed.
"""

from __future__ import annotations

import hashlib
import os
import tempfile
from collections.abc import Mapping, Sequence
from concurrent.futures import ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from multiprocessing import get_context
from pathlib import Path
from typing import Any, Final

from boltside.calculators.choices import broken
from boltside.calculators.request import read_request
from boltside.paper.guide import paper_guide, pictures_in
from boltside.paper.print_pdf import as_pdf, made_with, styles, why_not

Sheet = Mapping[str, Any]
Pictures = Mapping[str, bytes]
Task = tuple[str, Pictures]

GUIDES_CACHE: Final = "paper"
_FEW: Final = 4
"""So many guides are made before the processes of a pool have started."""
LEFT_OUT = "The paper guides (PDF) and the links to them are left out."


def why_none() -> str:
    """Why a shop gets no paper guides here, with what to install, in one line; empty where it gets them."""
    reason = why_not()
    return f"{LEFT_OUT} {reason}" if reason else ""


def shop_guides(
    sheets: Sequence[Sheet], pictures: Sequence[Pictures], cache_dir: Path | None = None
) -> list[dict[str, bytes]]:
    """The paper guides of each sheet's usual options, by size; none where they can't be made here.

    Arguments: the sheets; for each the files that its steps may show, by address; where guides are kept, None for
    nowhere. A size in which the usual options are forbidden has no guide.
    """
    if why_not():
        return [{} for _ in sheets]
    css = styles()
    tasks: dict[tuple[int, str], Task] = {}
    for at, sheet in enumerate(sheets):
        for size in sheet["sizes"]:
            if not broken(sheet["rules"], read_request(sheet, {"size": size}).chosen):
                document = paper_guide(sheet, size, {}, styles=css)
                own = {name: pictures[at][name] for name in pictures_in(document) if name in pictures[at]}
                tasks[at, size] = (document, own)
    places = {one: _place(cache_dir, sheets[one[0]], one[1]) for one in tasks}
    keys = {one: _key(task) for one, task in tasks.items()}
    found = {one: content for one in tasks if (content := _kept(places[one], keys[one])) is not None}
    missing = [one for one in tasks if one not in found]
    for one, content in zip(missing, _made([tasks[one] for one in missing]), strict=True):
        found[one] = content
        _keep(places[one], keys[one], content)
    return [
        {size: found[at, size] for size in sheet["sizes"] if (at, size) in found} for at, sheet in enumerate(sheets)
    ]


def _made(tasks: Sequence[Task]) -> list[bytes]:
    """The PDF of each task, in a process for each core; one after the other where that is quicker."""
    workers = os.cpu_count() or 1
    if workers > 1 and len(tasks) > _FEW:
        # Begun afresh: a copy of a process that has threads may stand still.
        with ProcessPoolExecutor(workers, mp_context=get_context("spawn")) as pool:
            try:
                return [one.result() for one in [pool.submit(as_pdf, *task) for task in tasks]]
            except (BrokenProcessPool, OSError):
                pass
    return [as_pdf(*task) for task in tasks]


def _key(task: Task) -> str:
    document, pictures = task
    found = hashlib.sha256(f"{made_with()}\0{document}".encode())
    for name, content in sorted(pictures.items()):
        found.update(f"\0{name}\0{len(content)}\0".encode() + content)
    return found.hexdigest()


def _place(cache_dir: Path | None, sheet: Sheet, size: str) -> Path | None:
    return None if cache_dir is None else cache_dir / GUIDES_CACHE / f"{sheet['pattern']}.{size}"


def _kept(place: Path | None, key: str) -> bytes | None:
    """The guide that is kept there under this key; None where there is none, or it is damaged."""
    if place is None:
        return None
    try:
        head, content = place.read_bytes().split(b"\n", 1)
    except (OSError, ValueError):
        return None
    return content if head.decode("ascii", "replace") == f"{key} {hashlib.sha256(content).hexdigest()}" else None


def _keep(place: Path | None, key: str, content: bytes) -> None:
    """Keep the guide; where that can't be done it is made again the next time."""
    if place is None:
        return
    try:
        place.parent.mkdir(parents=True, exist_ok=True)
        with tempfile.NamedTemporaryFile("wb", dir=place.parent, delete=False) as file:
            file.write(f"{key} {hashlib.sha256(content).hexdigest()}\n".encode() + content)
        os.replace(file.name, place)
    except OSError:
        return
