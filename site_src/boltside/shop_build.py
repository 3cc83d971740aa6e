"""What does a shop consist of? Sheets, ready default answers, and every file that is shipped as it is.

Knows nothing of the site engine: `boltside.plugin` hands these to it. A little longer than 400 lines, because what a
file of the shop is and which there are belong together.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable, Mapping, Sequence
from dataclasses import asdict, dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

import boltside.calculators
from boltside.calculators.door import answer
from boltside.calculators.shopping import SHOP_FORMAT
from boltside.errors import BoltsideError
from boltside.pages.chapters import chapter_files
from boltside.pages.closure_strip import strip_files
from boltside.pages.ready_answers import ALL_SIZES, Key
from boltside.pages.remnant_index import index_text, joined_index, pattern_entry
from boltside.pages.table_files import table_files
from boltside.pages.technique_pages import TECHNIQUES_FOLDER
from boltside.paper.guide import TECHNIQUE_PICTURES
from boltside.paper.shop_guides import shop_guides
from boltside.phone.fetch import RuntimeFetchError, cache_dir_of
from boltside.phone.prepare import CALCULATORS_ARCHIVE, PYTHON_ARCHIVE, ensure_prepared
from boltside.scripts import small_script
from boltside.shop_answers import shop_answers

if TYPE_CHECKING:
    from boltside.shop_lays import ShopPattern

SHIPPED = "shop"
"""Folder of the site for everything that is not a page."""
RUNTIME_FOLDER = f"{SHIPPED}/python"
PATTERNS_FOLDER = "patterns"
LAYS_FOLDER = "lays"
ANSWERS_FOLDER = "answers"
PAPER_FOLDER = "paper"
REMNANTS_PATH = f"{PATTERNS_FOLDER}/remnants.json"
SHOP_PATH = f"{PATTERNS_FOLDER}/shop.json"
LAY_FILES_BESIDE = "lay_files.json"
"""Where ready sheets stand in for the data: one file beside them with the lay files of all of them, by key."""
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
    """One pattern's sheet, the files published with it, and the answer for the default choices.

    `lays` are the lay files by key (`<cloth>.<way>.<size>`); `beside` is what buyers look at or keep: photographs,
    the download of a free pattern, tables, paper strips. `remnants` is the pattern's part of the shop's index of
    remnants.
    `warnings` is what the build shows about the pattern. `answers` are the files that answer listed choices before
    Python has come, by size (None: what does not depend on it), the first and the later one; none while a shop is
    worked on. `guides` are the paper guides of the usual options, by size, where they can be made.
    """

    sheet: Sheet
    sheet_file: ShippedFile
    default_answer: Mapping[str, Any]
    default_request: Mapping[str, Any]
    lays: Mapping[str, ShippedFile]
    beside: tuple[ShippedFile, ...]
    warnings: tuple[str, ...] = ()
    answers: tuple[tuple[str | None, ShippedFile, ShippedFile], ...] = ()
    remnants: tuple[Mapping[str, Any], tuple[int | None, ...]] | None = None
    guides: tuple[tuple[str, ShippedFile], ...] = ()

    def files(self) -> list[ShippedFile]:
        """Every file of this pattern that is shipped as it is."""
        answers = [file for _, *both in self.answers for file in both]
        guides = [file for _, file in self.guides]
        return [self.sheet_file, *self.lays.values(), *answers, *guides, *self.beside]


@dataclass(frozen=True, kw_only=True)
class ShopFiles:
    """Everything that a shop is made of besides the hand-written pages and the theme."""

    patterns: tuple[PatternFiles, ...]
    runtime: tuple[ShippedFile, ...]
    calculators: tuple[ShippedFile, ...]
    browser: tuple[ShippedFile, ...]
    at_the_root: tuple[ShippedFile, ...] = ()
    """Scripts that answer for the whole site: browsers let them do so only for what lies beside and below them."""
    techniques: tuple[Mapping[str, Any], ...] = ()
    """How things are done, for all patterns: name, title, short, text (Markdown), drawing (a file name or None)."""
    technique_drawings: tuple[ShippedFile, ...] = ()

    def all_files(self) -> list[ShippedFile]:
        """Every file that is shipped as it is."""
        of_patterns = [file for pattern in self.patterns for file in pattern.files()]
        whole = [self.remnants(), self.listed_patterns()]
        return [*of_patterns, *whole, *self.runtime, *self.calculators, *self.browser, *self.at_the_root,
                *self.technique_drawings]  # fmt: skip

    def remnants(self) -> ShippedFile:
        """What every pattern takes of every cloth, in one file for the page about remnants."""
        index = joined_index([pattern.remnants for pattern in self.patterns if pattern.remnants is not None])
        return ShippedFile(path=REMNANTS_PATH, content=index_text(index).encode("utf-8"))

    def listed_patterns(self) -> ShippedFile:
        """Which patterns there are, and where each one's sheet is, in one file for the page of the shopping list."""
        patterns = {
            pattern.sheet["pattern"]: {
                "name": pattern.sheet["name"],
                "edition": pattern.sheet["edition"],
                "address": f"{PATTERNS_FOLDER}/{pattern.sheet['pattern']}/",
                "sheet": pattern.sheet_file.listed(),
            }
            for pattern in self.patterns
        }
        currency = next((pattern.sheet["currency"] for pattern in self.patterns), "")
        listed = {"format": SHOP_FORMAT, "currency": currency, "patterns": patterns}
        return ShippedFile(path=SHOP_PATH, content=json_text(listed).encode("utf-8"))

    def warnings(self) -> list[str]:
        """What the build shows about all patterns."""
        return [warning for pattern in self.patterns for warning in pattern.warnings]


def collect(
    data_dir: Path,
    *,
    browser_dir: Path,
    project_dir: Path,
    say: Callable[[str], None],
    sheets: Sequence[Path] = (),
    patterns: Sequence[PatternFiles] | None = None,
) -> ShopFiles:
    """Put a shop's parts together.

    Arguments: the folder of the data; the folder of the page's scripts; the project's folder, below which the
    browser's Python is cached; `say` is told what takes long; `sheets` are files with ready sheets that stand in for
    those made from the data; `patterns`, where they are given, are all that is needed of the data.
    Raises: BoltsideError with a full text when the data cannot be made into sheets or a file is missing.
    """
    if patterns is None:
        patterns = with_answers(stand_ins(sheets)) if sheets else patterns_of(data_dir)
    from boltside.shop_lays import read_shop  # only here, as in `patterns_of`: pages can be made without geometry

    techniques = read_shop(data_dir).techniques
    try:
        prepared = ensure_prepared(cache_dir_of(project_dir), calculator_sources(), say)
    except RuntimeFetchError as error:
        raise ShopNotMade(str(error)) from error
    return ShopFiles(
        patterns=tuple(patterns),
        runtime=(ShippedFile(path=f"{RUNTIME_FOLDER}/{PYTHON_ARCHIVE}", content=prepared.archives[PYTHON_ARCHIVE]),),
        calculators=(
            ShippedFile(
                path=f"{RUNTIME_FOLDER}/{CALCULATORS_ARCHIVE}", content=prepared.archives[CALCULATORS_ARCHIVE]
            ),
        ),
        browser=tuple(
            ShippedFile(path=f"{SHIPPED}/{path.name}", content=_script(path))
            for path in sorted(browser_dir.glob("*.mjs"))
        ),
        at_the_root=tuple(
            ShippedFile(path=path.name, content=_script(path)) for path in sorted(browser_dir.glob("*.js"))
        ),
        techniques=tuple(asdict(one) for one in techniques),
        technique_drawings=technique_drawings(data_dir, [one.drawing for one in techniques]),
    )


def _script(path: Path) -> bytes:
    return small_script(path.read_text("utf-8")).encode("utf-8")


def patterns_of(data_dir: Path) -> list[PatternFiles]:
    """The patterns of the data, with their stored lays. Raises: BoltsideError."""
    from boltside.plan import cache_of
    from boltside.shop_lays import read_shop, shop_sheets

    made = with_answers([files_of(made, data_dir) for made in shop_sheets(data_dir)], cache_of(data_dir))
    drawn = [one.drawing for one in read_shop(data_dir).techniques]
    return with_guides(made, technique_drawings(data_dir, drawn), cache_of(data_dir))


def technique_drawings(data_dir: Path, names: Sequence[str | None]) -> tuple[ShippedFile, ...]:
    """The drawings of the shop's techniques, beside their pages; None for a technique without one."""
    return tuple(
        ShippedFile(path=f"{TECHNIQUES_FOLDER}/{name}", content=(data_dir / TECHNIQUES_FOLDER / name).read_bytes())
        for name in names
        if name is not None
    )


def with_answers(patterns: Sequence[PatternFiles], cache_dir: Path | None = None) -> list[PatternFiles]:
    """The patterns with the files that answer listed choices; those of an unchanged pattern come from the cache."""
    made = shop_answers([pattern.sheet for pattern in patterns], cache_dir)
    return [
        replace(pattern, answers=answer_files(pattern.sheet, texts))
        for pattern, texts in zip(patterns, made, strict=True)
    ]


def with_guides(
    patterns: Sequence[PatternFiles], techniques: Sequence[ShippedFile] = (), cache_dir: Path | None = None
) -> list[PatternFiles]:
    """The patterns with the paper guides of their usual options, where this computer can make them.

    Argument `techniques`: the drawings of the shop's techniques.
    """
    of_the_shop = {
        TECHNIQUE_PICTURES + file.path.removeprefix(f"{TECHNIQUES_FOLDER}/"): file.content for file in techniques
    }
    homes = [f"{PATTERNS_FOLDER}/{pattern.sheet['pattern']}/" for pattern in patterns]
    pictures = [
        {file.path.removeprefix(home): file.content for file in pattern.beside} | of_the_shop
        for pattern, home in zip(patterns, homes, strict=True)
    ]
    made = shop_guides([pattern.sheet for pattern in patterns], pictures, cache_dir)
    return [
        replace(pattern, guides=tuple((size, guide_file(pattern.sheet, size, pdf)) for size, pdf in guides.items()))
        for pattern, guides in zip(patterns, made, strict=True)
    ]


def guide_file(sheet: Sheet, size: str, pdf: bytes) -> ShippedFile:
    """A paper guide as a file of the site."""
    path = f"{PATTERNS_FOLDER}/{sheet['pattern']}/{PAPER_FOLDER}/{sheet['pattern']}-{size}.pdf"
    return ShippedFile(path=path, content=pdf)


def answer_files(sheet: Sheet, texts: Mapping[Key, str]) -> tuple[tuple[str | None, ShippedFile, ShippedFile], ...]:
    """The ready answers of a pattern as files."""

    def file(size: str | None, later: bool) -> ShippedFile:
        name = "every-size" if size is None else f"sizes/{size}"
        path = f"{PATTERNS_FOLDER}/{sheet['pattern']}/{ANSWERS_FOLDER}/{name}{'.later' if later else ''}.json"
        return ShippedFile(path=path, content=texts[size, later].encode("utf-8"))

    return tuple((size, file(size, False), file(size, True)) for size in (ALL_SIZES, *sheet["sizes"]))


def files_of(made: ShopPattern, data_dir: Path) -> PatternFiles:
    """One pattern of the data. Raises: ShopNotMade."""
    return pattern_files(
        made.sheet,
        lay_files=made.lay_files,
        folder=data_dir / PATTERNS_FOLDER / made.sheet["pattern"],
        warnings=made.warnings,
    )


def stand_ins(paths: Sequence[Path]) -> list[PatternFiles]:
    """Patterns whose sheets are ready: `lay_files.json` beside a sheet holds its lays, the folder named like its
    pattern its photographs and its download."""
    made = []
    for path in paths:
        sheet = json.loads(path.read_text(encoding="utf-8"))
        shared = path.with_name(LAY_FILES_BESIDE)
        lays = json.loads(shared.read_text(encoding="utf-8")) if shared.exists() else {}
        own = {key: lay for key, lay in lays.items() if lay["pattern"] == sheet["pattern"]}
        made.append(pattern_files(sheet, lay_files=own, folder=path.with_name(sheet["pattern"])))
    return made


def calculator_sources() -> dict[str, bytes]:
    """The sources of the calculators by file name, from which the browser's Python gets them compiled."""
    folder = Path(boltside.calculators.__path__[0])
    return {path.name: path.read_bytes() for path in sorted(folder.glob("*.py"))}


def json_text(value: Mapping[str, Any]) -> str:
    """A sheet or a lay as it is published and opened, the same text each time."""
    return json.dumps(value, sort_keys=True, ensure_ascii=False, separators=(",", ":"))


def pattern_files(
    sheet: Sheet,
    *,
    lay_files: Mapping[str, Mapping[str, Any]] | None = None,
    folder: Path | None = None,
    warnings: Sequence[str] = (),
) -> PatternFiles:
    """Open the sheet with the calculators, have the default answer made, and gather what is shipped with it.

    Arguments: the sheet; its lay files by key; the pattern's folder, needed where the sheet names photographs or a
    download; what the build is to show. Raises: ShopNotMade when a file named by the sheet is not there.
    """
    published = json_text(sheet)
    answer("open", published)
    request = default_request(sheet)
    home = f"{PATTERNS_FOLDER}/{sheet['pattern']}"
    usual = json.loads(answer("panel", json.dumps(request)))
    usual_lays = {one["data"]["lay"]["key"] for one in usual["fragments"] if one["data"].get("lay")}
    for key in sorted(usual_lays & set(lay_files or {})):
        answer("open-lays", json_text((lay_files or {})[key]))  # the page shows the usual lay without a script
    return PatternFiles(
        sheet=sheet,
        sheet_file=ShippedFile(path=f"{home}/spec.json", content=published.encode("utf-8")),
        default_answer=usual,
        default_request=request,
        lays={
            key: ShippedFile(path=f"{home}/{LAYS_FOLDER}/{key}.json", content=json_text(lay).encode("utf-8"))
            for key, lay in sorted((lay_files or {}).items())
        },
        beside=(
            *own_files(sheet, folder),
            *(ShippedFile(path=f"{home}/{path}", content=content) for path, content in table_files(sheet)),
            *(ShippedFile(path=f"{home}/{path}", content=content) for path, content in strip_files(sheet)),
            *(ShippedFile(path=f"{home}/{path}", content=text.encode("utf-8"))
              for path, text in chapter_files(sheet).items()),
        ),
        warnings=tuple(warnings),
        remnants=pattern_entry(sheet, f"{home}/"),
    )


def own_files(sheet: Sheet, folder: Path | None) -> list[ShippedFile]:
    """What the designer put beside the pattern for everybody: photographs, pictures and films of steps, and the
    download where it is free.

    Nothing else of a pattern's folder is ever shipped. Raises: ShopNotMade.
    """
    sale = sheet.get("sale") or {}
    names = [photograph["file"] for photograph in sheet.get("photographs", ())]
    if sale.get("free") and sale.get("download"):
        names.append(sale["download"])
    for step in sheet.get("steps", ()):
        names += [one for one in (step.get("drawing"), (step.get("film") or {}).get("file")) if one]
    found = []
    for name in dict.fromkeys(names):
        path = None if folder is None else folder / name
        if folder is None or path is None or not path.is_file() or not path.resolve().is_relative_to(folder.resolve()):
            raise ShopNotMade(f"{sheet['pattern']}: the file {name} is not in the pattern's folder")
        found.append(ShippedFile(path=f"{PATTERNS_FOLDER}/{sheet['pattern']}/{name}", content=path.read_bytes()))
    return found


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


def option_effects(sheet: Sheet, choice: str) -> dict[str, Any]:
    """The calculators' answer on what each alternative of a choice changes; the sheet has been opened."""
    said: dict[str, Any] = json.loads(answer("effects", json.dumps({"pattern": sheet["pattern"], "choice": choice})))
    return said


def page_files(shop: ShopFiles, pattern: PatternFiles) -> dict[str, Any]:
    """The list that a pattern's page carries: what the worker may load, each file with hash and length."""
    return {
        **calculator_list(shop),
        "sheet": pattern.sheet_file.listed(),
        "lays": {key: file.listed() for key, file in pattern.lays.items()},
        "answers": [[size, first.listed(), later.listed()] for size, first, later in pattern.answers],
        "scripts": script_list(shop),
    }


def remnant_files(shop: ShopFiles) -> dict[str, Any]:
    """The list that the page about remnants carries: as a pattern's, with the shop's index in the sheet's place."""
    return {
        **calculator_list(shop),
        "sheet": {**shop.remnants().listed(), "opens": "open-remnants"},
        "scripts": {name: file for name, file in script_list(shop).items() if name == "running.mjs"},
    }


def script_list(shop: ShopFiles) -> dict[str, Any]:
    """The page's scripts by name, each with hash and length."""
    return {Path(file.path).name: file.listed() for file in shop.browser}


def list_files(shop: ShopFiles) -> dict[str, Any]:
    """The list that the page of the shopping list carries: the shop's patterns in the sheet's place, and scripts."""
    return {
        **calculator_list(shop),
        "sheet": {**shop.listed_patterns().listed(), "opens": "open-shop"},
        "scripts": script_list(shop),
    }


def calculator_list(shop: ShopFiles) -> dict[str, Any]:
    """What every page with calculators carries of such a list."""
    return {
        "runtime": [file.listed() for file in shop.runtime],
        "calculators": [file.listed() for file in shop.calculators],
        "worker": next(file for file in shop.browser if file.path.endswith("/worker.mjs")).listed(),
        "edition_digits": EDITION_DIGITS,
    }
