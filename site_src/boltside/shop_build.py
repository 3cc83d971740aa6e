"""What does a shop consist of? Sheets, ready default answers, and every file that is shipped as it is.

Knows nothing of the site engine: `boltside.plugin` hands these to it.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import boltside.calculators
from boltside.calculators.door import answer
from boltside.errors import BoltsideError
from boltside.phone.fetch import RuntimeFetchError, cache_dir_of, ensure_runtime

SHIPPED = "shop"
"""Folder of the site for everything that is not a page."""
RUNTIME_FOLDER = f"{SHIPPED}/python"
CALCULATORS_FOLDER = f"{SHIPPED}/calculators"
PATTERNS_FOLDER = "patterns"
CALCULATORS_MODULE_FOLDER = "boltside/calculators"
"""Where the calculators stand in the browser's Python, so that their package has the same name there."""
EDITION_DIGITS = 12
"""Digits of a file's hash that go behind its address, so that no older copy is taken from a cache."""

Sheet = Mapping[str, Any]


class ShopNotMade(BoltsideError):
    """The shop's parts could not be put together; the text says why and how to mend it."""


@dataclass(frozen=True, kw_only=True)
class ShippedFile:
    """One file of the site that is not a page: where it goes, its bytes, and its hash in hex."""

    path: str
    content: bytes

    @property
    def sha256(self) -> str:
        """SHA-256 of the content, in hex."""
        return hashlib.sha256(self.content).hexdigest()

    def listed(self) -> dict[str, Any]:
        """How the page's list of files names it: path, sha256, bytes."""
        return {"path": self.path, "sha256": self.sha256, "bytes": len(self.content)}


@dataclass(frozen=True, kw_only=True)
class PatternFiles:
    """One pattern's sheet, its published file, and the answer for the default choices."""

    sheet: Sheet
    sheet_file: ShippedFile
    default_answer: Mapping[str, Any]
    default_request: Mapping[str, Any]


@dataclass(frozen=True, kw_only=True)
class ShopFiles:
    """Everything that a shop is made of besides the hand-written pages and the theme."""

    patterns: tuple[PatternFiles, ...]
    runtime: tuple[ShippedFile, ...]
    calculators: tuple[ShippedFile, ...]
    browser: tuple[ShippedFile, ...]

    def all_files(self) -> list[ShippedFile]:
        """Every file that is shipped as it is."""
        return [*(pattern.sheet_file for pattern in self.patterns), *self.runtime, *self.calculators, *self.browser]


def collect(
    data_dir: Path,
    *,
    browser_dir: Path,
    project_dir: Path,
    say: Callable[[str], None],
    sheets: Sequence[Sheet] | None = None,
) -> ShopFiles:
    """Put a shop's parts together.

    Arguments: the folder of the data; the folder of the page's scripts; the project's folder, below which the
    browser's Python is cached; `say` is told what takes long; `sheets` stands in for those made from the data.
    Raises: BoltsideError with a full text when the data cannot be made into sheets or a file is missing.
    """
    if sheets is None:
        from boltside.plan import shop_sheets

        sheets = shop_sheets(data_dir)
    try:
        runtime = ensure_runtime(cache_dir_of(project_dir), say)
    except RuntimeFetchError as error:
        raise ShopNotMade(str(error)) from error
    return ShopFiles(
        patterns=tuple(pattern_files(sheet) for sheet in sheets),
        runtime=tuple(
            ShippedFile(path=f"{RUNTIME_FOLDER}/{file.name}", content=file.path.read_bytes()) for file in runtime.files
        ),
        calculators=calculator_files(),
        browser=tuple(
            ShippedFile(path=f"{SHIPPED}/{path.name}", content=path.read_bytes())
            for path in sorted(browser_dir.glob("*.mjs"))
        ),
    )


def calculator_files() -> tuple[ShippedFile, ...]:
    """The sources of the calculators, as the browser's Python gets them."""
    folder = Path(boltside.calculators.__path__[0])
    return tuple(
        ShippedFile(path=f"{CALCULATORS_FOLDER}/{path.name}", content=path.read_bytes())
        for path in sorted(folder.glob("*.py"))
    )


def sheet_text(sheet: Sheet) -> str:
    """The sheet as it is published and opened, the same text each time."""
    return json.dumps(sheet, sort_keys=True, ensure_ascii=False, separators=(",", ":"))


def pattern_files(sheet: Sheet) -> PatternFiles:
    """Open the sheet with the calculators and have the default answer made."""
    published = sheet_text(sheet)
    answer("open", published)
    request = default_request(sheet)
    return PatternFiles(
        sheet=sheet,
        sheet_file=ShippedFile(
            path=f"{PATTERNS_FOLDER}/{sheet['pattern']}/spec.json", content=published.encode("utf-8")
        ),
        default_answer=json.loads(answer("panel", json.dumps(request))),
        default_request=request,
    )


def default_request(sheet: Sheet) -> dict[str, Any]:
    """What a page asks before the buyer has touched anything: a size from the middle, all else left to defaults."""
    sizes = sheet["sizes"]
    drawn = sheet["drawing"]["size"]
    return {
        "pattern": sheet["pattern"],
        "size": drawn if drawn in sizes else sizes[len(sizes) // 2],
        "choices": {},
        "cloths": {},
        "unit": "cm",
    }


def page_files(shop: ShopFiles, pattern: PatternFiles) -> dict[str, Any]:
    """The list that a pattern's page carries: what the worker may load, each file with hash and length."""
    calculators = [
        {**file.listed(), "module": f"{CALCULATORS_MODULE_FOLDER}/{Path(file.path).name}"} for file in shop.calculators
    ]
    return {
        "runtime": [file.listed() for file in shop.runtime],
        "calculators": calculators,
        "sheet": pattern.sheet_file.listed(),
        "worker": next(file for file in shop.browser if file.path.endswith("/worker.mjs")).listed(),
        "edition_digits": EDITION_DIGITS,
    }
