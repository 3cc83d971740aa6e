"""What is written when a new shop is made? The template beside this file, with the shop's name put in."""

from __future__ import annotations

import json
import re
import shutil
import tempfile
from pathlib import Path

from boltside.errors import BoltsideError
from boltside.installed import PAGES, folder_of

TEMPLATE = Path(__file__).resolve().parent / "template"
LABEL, LABEL_QUOTED = "@@LABEL@@", "@@LABEL_QUOTED@@"
"""Stand in the template for the shop's name: as words, and as a quoted text of YAML."""
RENAMED = {"gitignore": ".gitignore"}
"""A real `.gitignore` in the template would hide files of this project, and packers pass over such names."""
WITH_LABEL = (".md", ".yml", ".yaml")
READY_PAGES = ("remnants.md", "measuring.md", "buying-cloth.md")
"""Hand-written pages of the demo shop that hold for every shop."""
LABEL_LENGTH_MAX = 60
LABEL_WORDS = re.compile(r"[^\W_](?:[^\W_]|[ '’&.,!+-])*")
SENTENCE_WITH_LINK = re.compile(r" ?\[[^\]]*\]\((?P<page>[\w-]+\.md)[^)]*\)[^.\n]*\.")


class NotMade(BoltsideError):
    """The shop could not be made, and nothing was written; the text says why and what to do."""


def make_shop(folder: Path, *, label: str | None = None) -> Path:
    """Make a new shop in `folder`, whole or not at all; returns the folder.

    Arguments: a folder that is not there yet, or is empty; the shop's name (None: made from the folder's name).
    Raises: NotMade.
    """
    name = label_of(folder) if label is None else label
    if not LABEL_WORDS.fullmatch(name) or len(name) > LABEL_LENGTH_MAX:
        raise NotMade(
            f"the name {name!r} can't be used: a shop's name begins with a letter or digit and holds letters, digits, "
            f"spaces and - ' & . , ! + only, {LABEL_LENGTH_MAX} at most. Give one with --label \"My Shop\""
        )
    try:
        refuse_what_is_there(folder)
        parent = folder.resolve().parent
        parent.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryDirectory(prefix="boltside-new-", dir=parent) as scratch:
            fresh = Path(scratch) / "shop"
            write_files(fresh, name)
            put_in_place(fresh, folder)
    except OSError as error:
        why = error.strerror or str(error)
        raise NotMade(f"the shop can't be written to {folder}: {why}; choose another folder") from error
    return folder


def label_of(folder: Path) -> str:
    """A name from the folder's: `little-harbour` → `Little Harbour`."""
    words = re.split(r"[\s_-]+", folder.resolve().name)
    return " ".join(word[:1].upper() + word[1:] for word in words if word)


def refuse_what_is_there(folder: Path) -> None:
    """Raise NotMade unless the folder is missing or empty."""
    if not folder.exists() and not folder.is_symlink():
        return
    if not folder.is_dir():
        raise NotMade(f"{folder} is there already, and it is no folder; choose another name")
    if any(folder.iterdir()):
        raise NotMade(
            f"{folder} is there already and is not empty; nothing in it was touched. "
            "Choose another name, or remove the folder yourself"
        )


def write_files(place: Path, label: str) -> None:
    """Write the template's files and the ready pages into the new folder `place`."""
    for source in sorted(path for path in TEMPLATE.rglob("*") if path.is_file()):
        target = place / source.relative_to(TEMPLATE)
        target = target.with_name(RENAMED.get(target.name, target.name))
        target.parent.mkdir(parents=True, exist_ok=True)
        if source.suffix in WITH_LABEL:
            text = source.read_text(encoding="utf-8")
            text = text.replace(LABEL_QUOTED, json.dumps(label, ensure_ascii=False)).replace(LABEL, label)
            target.write_text(text, encoding="utf-8", newline="\n")
        else:
            shutil.copyfile(source, target)
    pages = place / "pages"
    known = {path.name for path in pages.glob("*.md")} | set(READY_PAGES)
    for name in READY_PAGES:
        text = (folder_of(PAGES) / name).read_text(encoding="utf-8")
        (pages / name).write_text(without_links_elsewhere(text, known), encoding="utf-8", newline="\n")


def without_links_elsewhere(text: str, known: set[str]) -> str:
    """The page without the sentences that send the reader to a page which this shop does not have."""
    return SENTENCE_WITH_LINK.sub(lambda found: found[0] if found["page"] in known else "", text)


def put_in_place(fresh: Path, folder: Path) -> None:
    """Move the finished files to where they belong: as one folder, or into the empty folder that is there."""
    if not folder.exists():
        fresh.rename(folder.resolve())
        return
    for path in fresh.iterdir():
        path.rename(folder / path.name)
