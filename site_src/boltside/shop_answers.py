"""What does a shop answer before Python has come? The ready answers of all its patterns, made side by side.

They take seconds, so those of a pattern are kept in the cache until its sheet, a calculator or their form changes.
"""

from __future__ import annotations

import hashlib
import json
import os
import tempfile
from collections.abc import Mapping, Sequence
from concurrent.futures import ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from multiprocessing import get_context
from pathlib import Path
from typing import Any, Final

import boltside.calculators
import boltside.pages
from boltside.pages.ready_answers import ALL_SIZES, Key, ready_answers

Sheet = Mapping[str, Any]
Task = tuple[Sheet, tuple[str | None, ...]]

ANSWERS_CACHE = "answers"
FORM = "ready_*.py"
"""The files, among those of the pages, that decide how answers are written down."""
_MANY_BYTES: Final = 100_000
"""Sheets of this size take longer to go through than processes take to start."""


def shop_answers(sheets: Sequence[Sheet], cache_dir: Path | None = None) -> list[dict[Key, str]]:
    """The ready answers of each sheet. Arguments: the sheets; where answers are kept, None for nowhere."""
    texts = [json.dumps(sheet, sort_keys=True, ensure_ascii=False) for sheet in sheets]
    sources = _sources()
    keys = [hashlib.sha256(f"{sources}{text}".encode()).hexdigest() for text in texts]
    places = [_place(cache_dir, sheet) for sheet in sheets]
    found = [_kept(place, key) for place, key in zip(places, keys, strict=True)]
    missing = [at for at, one in enumerate(found) if one is None]
    made = _made([sheets[at] for at in missing], sum(len(texts[at]) for at in missing))
    for at, answers in zip(missing, made, strict=True):
        found[at] = answers
        _keep(places[at], keys[at], answers)
    return [one for one in found if one is not None]


def _made(sheets: Sequence[Sheet], length: int) -> list[dict[Key, str]]:
    """The answers of each sheet, size by size in a process for each core; one after the other where that is quicker."""
    workers = os.cpu_count() or 1
    if workers > 1 and length >= _MANY_BYTES:
        tasks = [(at, size) for at, sheet in enumerate(sheets) for size in (ALL_SIZES, *sheet["sizes"])]
        made: list[dict[Key, str]] = [{} for _ in sheets]
        # Begun afresh: a copy of a process that has threads may stand still.
        with ProcessPoolExecutor(workers, mp_context=get_context("spawn")) as pool:
            try:
                waiting = [(at, pool.submit(ready_answers, sheets[at], (size,))) for at, size in tasks]
                for at, one in waiting:
                    made[at] |= one.result()
                return made
            except (BrokenProcessPool, OSError):
                pass
    return [ready_answers(sheet, (ALL_SIZES, *sheet["sizes"])) for sheet in sheets]


def _sources() -> str:
    """The hash of every calculator and of what writes answers down."""
    folders = [(Path(boltside.calculators.__path__[0]), "*.py"), (Path(boltside.pages.__path__[0]), FORM)]
    found = hashlib.sha256()
    for folder, names in folders:
        for path in sorted(folder.glob(names)):
            found.update(path.name.encode() + b"\0" + path.read_bytes() + b"\0")
    return found.hexdigest()


def _place(cache_dir: Path | None, sheet: Sheet) -> Path | None:
    return None if cache_dir is None else cache_dir / ANSWERS_CACHE / f"{sheet['pattern']}.json"


def _kept(place: Path | None, key: str) -> dict[Key, str] | None:
    """The answers that are kept there under this key; None where there are none, or they are damaged."""
    if place is None:
        return None
    try:
        head, body = place.read_text(encoding="utf-8").split("\n", 1)
        if head != f"{key} {hashlib.sha256(body.encode()).hexdigest()}":
            return None
        return {(size, later): text for size, later, text in json.loads(body)}
    except (OSError, ValueError):
        return None


def _keep(place: Path | None, key: str, answers: Mapping[Key, str]) -> None:
    """Keep the answers; where that can't be done they are made again the next time."""
    if place is None:
        return
    body = json.dumps([[size, later, text] for (size, later), text in answers.items()], ensure_ascii=False)
    head = f"{key} {hashlib.sha256(body.encode()).hexdigest()}"
    try:
        place.parent.mkdir(parents=True, exist_ok=True)
        with tempfile.NamedTemporaryFile("w", encoding="utf-8", dir=place.parent, delete=False) as file:
            file.write(f"{head}\n{body}")
        os.replace(file.name, place)
    except OSError:
        return
