"""What does `boltside paper` do? Writes the paper guide of a pattern in any size, with any options that go together."""

from __future__ import annotations

from pathlib import Path

from boltside.calculators.request import usual_size
from boltside.chosen import check_named
from boltside.errors import BoltsideError
from boltside.pages.technique_pages import TECHNIQUES_FOLDER
from boltside.paper.chosen_set import chosen_set
from boltside.paper.guide import TECHNIQUE_PICTURES, paper_guide, pictures_in
from boltside.paper.print_pdf import PaperNotPossible, as_pdf, styles, why_not
from boltside.plan import cache_of
from boltside.read.folder import read_patterns
from boltside.read.shop import read_shop
from boltside.shop_lays import shop_pattern

CM, INCH = "cm", "inch"
UNITS = {CM: "cm", INCH: "in"}
"""How the systems are called on the command line, and by the calculators."""


class NotWritten(BoltsideError):
    """The guide could not be put where it was asked for."""


def write_guide(
    data_dir: Path, name: str, *, size: str | None, choices: str, unit: str = CM, out: Path | None = None
) -> Path:
    """Write the guide of a pattern's size and set of choices as a PDF; returns where it lies.

    Arguments: the shop's data; the pattern; a size (None: the one its page opens with); choices as in
    `sleeves=long,collar=flat`; `cm` or `inch`; the file (None: named by what is in it, in the working folder).
    Raises: PaperNotPossible, NoSuchPattern, NoSuchSet, NotWritten, ProblemsFound, LaysMissing.
    """
    if why_not():
        raise PaperNotPossible(f"no paper guide can be made here. {why_not()}")
    patterns = read_patterns(data_dir)
    check_named([pattern.folder for pattern in patterns], [name])
    pattern = next(pattern for pattern in patterns if pattern.folder == name)
    folder = data_dir / "patterns" / name
    sheet = shop_pattern(pattern, folder, cache_dir=cache_of(data_dir), shop=read_shop(data_dir)).sheet
    chosen = chosen_set(sheet, size or usual_size(sheet), choices)
    document = paper_guide(sheet, chosen["size"], chosen, unit=UNITS[unit], styles=styles())
    place = out or Path(f"{name}-{chosen['size']}.pdf")
    own = {
        address: path.read_bytes()
        for address in pictures_in(document)
        for home, path in [_place_of(address, folder, data_dir / TECHNIQUES_FOLDER)]
        if _lies_in(home, path)
    }
    try:
        place.write_bytes(as_pdf(document, own))
    except OSError as error:
        raise NotWritten(f"cannot write {place}: {error.strerror}") from error
    return place


def _place_of(address: str, folder: Path, techniques: Path) -> tuple[Path, Path]:
    """In which folder the picture with this address may lie, and where."""
    name = address.removeprefix(TECHNIQUE_PICTURES)
    return (folder, folder / address) if name == address else (techniques, techniques / name)


def _lies_in(folder: Path, path: Path) -> bool:
    return path.is_file() and path.resolve().is_relative_to(folder.resolve())
