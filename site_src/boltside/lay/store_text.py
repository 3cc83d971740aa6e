"""What stands in a file of lays, as text? Read strictly: what is odd is named with its line, nothing is guessed.

Such files are merged, edited and cut off by other programs, so nothing is taken for granted: neither that a file holds
text, nor that JSON says only what this project writes.
"""

import contextlib
import json
from collections.abc import Sequence
from typing import Any, Final, NoReturn

_MERGE_MARKS: Final = ("<<<<<<<", "|||||||", "=======", ">>>>>>>")
"""How lines begin that version control leaves where two versions of a file could not be brought together."""

_BYTE_ORDER_MARK: Final = b"\xef\xbb\xbf"
_UTF_16: Final = (b"\xff\xfe", b"\xfe\xff")
"""Source: RFC 3629, RFC 2781."""

_SHOWN: Final = 60
"""So many letters of something odd are shown in a message."""


class NotALayFile(Exception):
    """The text is not a file of lays; the exception's text says why, ``line`` where that is known."""

    def __init__(self, seen: str, line: int | None = None) -> None:
        self.line = line
        super().__init__(seen)


def text_of(content: bytes) -> str:
    """Bytes as text with plain newlines. Raises: :class:`NotALayFile`."""
    if content.startswith(_BYTE_ORDER_MARK):
        raise NotALayFile("it begins with a byte order mark, so another program has written it", 1)
    if content.startswith(_UTF_16):
        raise NotALayFile("it is UTF-16 text, not UTF-8", 1)
    try:
        return content.decode("utf-8").replace("\r\n", "\n")
    except UnicodeDecodeError as error:
        line = content.count(b"\n", 0, error.start) + 1
        raise NotALayFile(f"the byte 0x{content[error.start]:02X} is no UTF-8 text", line) from error


def value_of(text: str) -> Any:
    """JSON as this project writes it: keys once each, whole numbers only. Raises: ValueError."""
    try:
        return json.loads(text, object_pairs_hook=_each_key_once, parse_float=_no_number, parse_constant=_no_number)
    except json.JSONDecodeError as error:
        if text.lstrip().startswith(_MERGE_MARKS):
            raise ValueError(f"{shown(text)} is the mark of a merge that was not finished") from error
        raise
    except RecursionError:
        raise ValueError("brackets in each other without end") from None


def rows_of(text: str) -> list[tuple[Any, int | None]]:
    """The rows of a JSON array, each with its line, or None where another program has broken the lines anew.

    Raises: :class:`NotALayFile`.
    """
    if not text.strip():
        raise NotALayFile("it is empty")
    lines = text.rstrip().split("\n")
    inside = lines[1:-1]
    by_line = lines[0] == "[" and lines[-1] == "]" and all(line.endswith(",") for line in inside[:-1])
    if by_line and inside and not inside[-1].endswith(","):
        with contextlib.suppress(ValueError):  # it is said below which line is wrong
            return [(value_of(line.removesuffix(",")), at) for at, line in enumerate(inside, start=2)]
    try:
        data = value_of(text)
    except ValueError as error:
        raise _damage(lines, error) from error
    if not isinstance(data, list) or not data:
        raise NotALayFile("not readable as JSON (it is not a list with a header)")
    return [(row, None) for row in data]


def _damage(lines: Sequence[str], error: ValueError) -> NotALayFile:
    """What is said of a text that can't be taken apart: its first line that can't, where it is written line by line."""
    whole = error.lineno if isinstance(error, json.JSONDecodeError) else None
    if lines[0] == "[" and len(lines) > 1 and lines[1].startswith('{"'):
        bad = _first_bad(lines[1:], 2, last="]")
        if bad is not None and (whole is None or bad[0] <= whole):
            return NotALayFile(f"not readable as JSON ({bad[1]})", bad[0])
    return NotALayFile(f"not readable as JSON ({_said(error)})", whole)


def _first_bad(lines: Sequence[str], start: int, last: str | None = None) -> tuple[int, str] | None:
    """Number and fault of the first line that is no row of its own."""
    for at, line in enumerate(lines, start=start):
        if line == last:
            continue
        try:
            value_of(line.removesuffix(","))
        except ValueError as error:
            return at, _said(error)
    return None


def _said(error: ValueError) -> str:
    return f"{error.msg} at column {error.colno}" if isinstance(error, json.JSONDecodeError) else str(error)


def _each_key_once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found = dict(pairs)
    if len(found) < len(pairs):
        keys = [key for key, _ in pairs]
        raise ValueError(f"the key {next(shown(key) for key in keys if keys.count(key) > 1)} stands twice")
    return found


def _no_number(text: str) -> NoReturn:
    raise ValueError(f"{shown(text)} is no whole number")


def shown(text: object) -> str:
    """Something odd as a message shows it: quoted, on one line, cut where it is long."""
    said = repr(text)
    return said if len(said) <= _SHOWN else said[: _SHOWN - 1] + "…"
