"""Reads one text file safely: inside its folder, not too large, UTF-8."""

from __future__ import annotations

import re
import stat
from pathlib import Path

from boltside.read.collect import START, Place, Problems, quoted

YAML_BYTES_MAX = 256_000
"""A pattern.yaml has some twenty kilobytes; more than this takes seconds to take apart. Our choice."""

SVG_BYTES_MAX = 20_000_000
"""Twelve sizes of thirty pieces, drawn with many nodes, are below 5 MB. Our choice."""

STEPS_BYTES_MAX = 128_000
SHOP_BYTES_MAX = 64_000
CHART_BYTES_MAX = 512_000


CONTROL = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f\ufffe\uffff]")
"""Letters that no text has; tab and newlines are left out."""

BEGINNINGS: tuple[tuple[bytes, str], ...] = (
    (b"\x89PNG", "a PNG picture"),
    (b"\xff\xd8\xff", "a JPEG picture"),
    (b"%PDF", "a PDF document"),
    (b"PK\x03\x04", "a ZIP archive, or an office document"),
    (b"\x1f\x8b", "a compressed file"),
)
"""How files begin that are taken for text now and then. Source: the formats' own specifications."""

UTF_16 = (b"\xff\xfe", b"\xfe\xff")
"""The byte order marks of UTF-16 (RFC 2781)."""


def shown(path: Path) -> str:
    """The path as problems name it, the same on every system."""
    return path.as_posix()


def read_text(path: Path, root: Path, bytes_max: int, problems: Problems, what: str) -> str | None:
    """The file's text without byte order mark, or None with a problem noted.

    Arguments: `root` is the folder the file may not lie outside of, links followed; `bytes_max` the largest size;
    `what` names the file's purpose in messages.
    """
    name = shown(path)
    try:
        if not path.resolve().is_relative_to(root.resolve()):
            problems.add(
                "unsafe-path",
                name,
                START,
                seen=f"{quoted(path.name)}, a link that leads out of the data folder",
                expected="a file of its own",
                mend="put the file itself there",
            )
            return None
        about = path.stat()
        if not stat.S_ISREG(about.st_mode):
            raise FileNotFoundError
        if about.st_size > bytes_max:
            problems.add(
                "too-large",
                name,
                START,
                seen=f"{about.st_size} bytes",
                expected=f"at most {bytes_max} bytes",
                mend=f"take out of {quoted(path.name)} what does not belong there",
            )
            return None
        with path.open("rb") as file:
            content = file.read(bytes_max)
    except (OSError, ValueError, RuntimeError):
        # RuntimeError: links in a circle (Python 3.11 and 3.12 raise it from resolve).
        problems.add(
            "missing-file",
            name,
            START,
            seen=f"no readable file {quoted(path.name)}",
            expected=what,
            mend=f"add {quoted(path.name)}",
        )
        return None
    return decoded(content, name, problems)


def decoded(content: bytes, name: str, problems: Problems) -> str | None:
    """The bytes as text with plain newlines, or None with the first wrong byte named."""
    if content.startswith(UTF_16):
        problems.add(
            "not-utf-8",
            name,
            START,
            seen="UTF-16 text",
            expected="UTF-8 text",
            mend="save the file as text with the encoding UTF-8",
        )
        return None
    what = next((what for beginning, what in BEGINNINGS if content.startswith(beginning)), None)
    if what is not None or b"\0" in content:
        at = 0 if what is not None else content.index(b"\0")
        problems.add(
            "binary",
            name,
            place_in(content[:at].decode("utf-8", errors="replace")),
            seen=what or "a byte 0, which no text has",
            expected="UTF-8 text",
            mend="export it as text; this file is kept in the form of some other program",
        )
        return None
    try:
        text = content.decode("utf-8")
    except UnicodeDecodeError as error:
        problems.add(
            "not-utf-8",
            name,
            place_in(content[: error.start].decode("utf-8")),
            seen=f"the byte 0x{content[error.start]:02X}",
            expected="UTF-8 text",
            mend="save the file as text with the encoding UTF-8",
        )
        return None
    text = text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")
    control = CONTROL.search(text)
    if control is not None:
        problems.add(
            "not-utf-8",
            name,
            place_in(text[: control.start()]),
            seen=f"the control character U+{ord(control[0]):04X}",
            expected="text",
            mend="save the file as text with the encoding UTF-8, or delete the character",
        )
        return None
    return text


def place_in(before: str) -> Place:
    """Line and column right behind this text."""
    return before.count("\n") + 1, len(before) - (before.rfind("\n") + 1) + 1
