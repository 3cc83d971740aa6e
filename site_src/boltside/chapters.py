"""What does `boltside chapters` do? Writes the chapters of a pattern's films for any size and set of choices."""

from __future__ import annotations

from pathlib import Path

from boltside.calculators.request import usual_size
from boltside.chosen import check_named
from boltside.errors import BoltsideError
from boltside.pages.chapters import chapters_of, file_name
from boltside.pages.guide import guide_of
from boltside.paper.chosen_set import chosen_set
from boltside.read.folder import read_patterns
from boltside.spec.sheet import make_sheet


class NoChapters(BoltsideError):
    """There is nothing to write, or it could not be put where it was asked for."""


def write_chapters(data_dir: Path, name: str, *, size: str | None, choices: str, folder: Path) -> list[Path]:
    """Write a WebVTT file for each film that the steps of this set name; returns where they lie.

    Arguments: the shop's data; the pattern; a size (None: the one its page opens with); choices as in
    `sleeves=long,collar=flat`; the folder. Raises: NoSuchPattern, NoSuchSet, NoChapters, ProblemsFound.
    """
    patterns = read_patterns(data_dir)
    check_named([pattern.folder for pattern in patterns], [name])
    sheet = make_sheet(next(pattern for pattern in patterns if pattern.folder == name), {})
    chosen = chosen_set(sheet, size or usual_size(sheet), choices)
    films = chapters_of(guide_of(sheet, chosen["size"], chosen))
    if not films:
        raise NoChapters(f"no step of {sheet['name']} names a film with these options; steps.md says it with `film:`")
    names: dict[str, str] = {}
    written = []
    try:
        folder.mkdir(parents=True, exist_ok=True)
        for film, text in films.items():
            called = file_name(film, names)
            names[called] = film
            (folder / called).write_text(text, "utf-8")
            written.append(folder / called)
    except OSError as error:
        raise NoChapters(f"cannot write into {folder}: {error.strerror}") from error
    return written
