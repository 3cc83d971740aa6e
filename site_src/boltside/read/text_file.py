"""Reads one text file safely: inside its folder, not too large, UTF-8."""

from __future__ import annotations

import stat
from pathlib import Path

from boltside.read.collect import START, Place, Problems, quoted

YAML_BYTES_MAX = 512_000
"""A pattern.yaml is a few kilobytes; more than this takes seconds to take apart. Our choice."""

SVG_BYTES_MAX = 20_000_000
"""Twelve sizes of thirty pieces, drawn with many nodes, are below 5 MB. Our choice."""

STEPS_BYTES_MAX = 512_000
SHOP_BYTES_MAX = 64_000
CHART_BYTES_MAX = 512_000


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
                mend=f"take out of {quoted(path.name)} what does not belong to the pattern",
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
    for offset, letter in enumerate(text):
        if (letter < " " and letter not in "\n\t") or letter in "\x7f\ufffe\uffff":
            problems.add(
                "not-utf-8",
                name,
                place_in(text[:offset]),
                seen=f"the control character U+{ord(letter):04X}",
                expected="text",
                mend="save the file as text with the encoding UTF-8, or delete the character",
            )
            return None
    return text


def place_in(before: str) -> Place:
    """Line and column right behind this text."""
    return before.count("\n") + 1, len(before) - (before.rfind("\n") + 1) + 1
