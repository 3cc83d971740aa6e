"""Is a file that pattern.yaml names (a photograph, a download) there, inside the folder, and what its name says?"""

from __future__ import annotations

import re
import stat
from collections.abc import Mapping
from typing import Final

from boltside.read.book import Book
from boltside.read.collect import Place, listed, quoted
from boltside.read.yaml_tree import Path as TreePath

SAFE_PART: Final = re.compile(r"[A-Za-z0-9_][A-Za-z0-9._-]{0,99}")
"""A folder or file name that every system and every web server takes as it is."""

PARTS_MAX: Final = 6
BEGINNING_BYTES: Final = 12

PICTURE_BYTES_MAX: Final = 8_000_000
"""A photograph of 4000 by 3000 points, well compressed, is below 5 MB. Our choice."""

DOWNLOAD_BYTES_MAX: Final = 90_000_000
"""Below what common hosts of plain pages take as one file. Our choice."""

PICTURES: Final[Mapping[str, tuple[bytes, ...]]] = {
    "jpg": (rb"\xff\xd8\xff",),
    "jpeg": (rb"\xff\xd8\xff",),
    "png": (rb"\x89PNG\r\n\x1a\n",),
    "webp": (rb"RIFF.{4}WEBP",),
}
"""How pictures begin, by ending. Sources: ISO/IEC 10918-1 (JPEG), ISO/IEC 15948 (PNG), RFC 9649 (WebP)."""

DOWNLOADS: Final[Mapping[str, tuple[bytes, ...]]] = {"zip": (rb"PK\x03\x04",), "pdf": (rb"%PDF-",)}
"""How downloads begin, by ending. Sources: the formats' own specifications (ISO 32000 for PDF)."""


def check_file(
    book: Book,
    path: TreePath,
    said: str,
    kinds: Mapping[str, tuple[bytes, ...]],
    bytes_max: int,
    *,
    at: tuple[str, Place] | None = None,
) -> None:
    """Note a file that leads out of the folder, is missing, too large, or not of the kind that its ending says.

    Arguments: where the file is named in pattern.yaml, and how; the endings that are allowed, with how such files
    begin (patterns of bytes); the largest size in bytes; the file and place where it is named, if not in pattern.yaml.
    """
    where = at or (book.yaml_name, book.checked.tree.value_place(path))

    def note(code: str, *, seen: str, expected: str, mend: str) -> None:
        book.problems.add(code, *where, seen=seen, expected=expected, mend=mend)

    parts = said.split("/")
    if not all(SAFE_PART.fullmatch(part) for part in parts) or len(parts) > PARTS_MAX:
        outside = ".." in parts or said.startswith(("/", "~")) or "\\" in said or ":" in said
        note(
            "unsafe-path" if outside else "bad-name",
            seen=f"the file {quoted(said)}",
            expected="a file in the pattern's folder, named by letters, digits, `-`, `_` and `.`, like `photos/a.jpg`",
            mend="put the file into the pattern's folder and write its path from there"
            if outside
            else "rename the file",
        )
        return
    ending = parts[-1].rpartition(".")[2].lower()
    if ending not in kinds or "." not in parts[-1]:
        note(
            "wrong-file",
            seen=f"the file {quoted(said)}",
            expected=f"a file that ends in {listed('.' + one for one in kinds)}",
            mend="save it in one of these forms",
        )
        return
    file = book.folder.joinpath(*parts)
    try:
        if not file.resolve().is_relative_to(book.folder.resolve()):
            note(
                "unsafe-path",
                seen=f"{quoted(said)}, a link that leads out of the pattern's folder",
                expected="a file of its own",
                mend="put the file itself there",
            )
            return
        about = file.stat()
        if not stat.S_ISREG(about.st_mode):
            raise FileNotFoundError
        with file.open("rb") as opened:
            beginning = opened.read(BEGINNING_BYTES)
    except (OSError, ValueError, RuntimeError):
        # RuntimeError: links in a circle (Python 3.11 and 3.12 raise it from resolve).
        note(
            "missing-file",
            seen=f"no readable file {quoted(said)} in the pattern's folder",
            expected="the file that is named",
            mend="add it, or correct its name",
        )
        return
    if about.st_size > bytes_max:
        note(
            "too-large",
            seen=f"{quoted(said)} of {about.st_size} bytes",
            expected=f"at most {bytes_max} bytes",
            mend="save it smaller",
        )
    elif not any(re.match(one, beginning, flags=re.DOTALL) for one in kinds[ending]):
        note(
            "wrong-file",
            seen=f"{quoted(said)}, which does not begin like a file of its ending",
            expected=f"a true `.{ending}` file",
            mend="export it anew; renaming does not change what it is",
        )
