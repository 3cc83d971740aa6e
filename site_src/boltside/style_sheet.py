"""Which one style sheet does every page load? Ours, joined, without what only people read.

One file for all pages: over a slow link each further request costs more than the few rules that a page does not use.
"""

from __future__ import annotations

import hashlib
import re
from collections.abc import Callable, Sequence

COMMENT = re.compile(r"/\*.*?\*/", re.S)
TEXT = re.compile(r'("[^"\n]*")')
FILE_NAMED = re.compile(r'url\("(?!data:)([^"?#]+)"\)')


def joined(sheets: Sequence[str], file_of: Callable[[str], bytes], hash_digits: int) -> str:
    """The style sheets one behind the other, small, each file named in them with the first digits of its hash.

    `file_of` gives the content of a file by its address in the sheets.
    """

    def with_hash(named: re.Match[str]) -> str:
        digits = hashlib.sha256(file_of(named[1])).hexdigest()[:hash_digits]
        return f'url("{named[1]}?{digits}")'

    return FILE_NAMED.sub(with_hash, "".join(small(sheet) for sheet in sheets))


def small(sheet: str) -> str:
    """A style sheet without comments and needless white space; what stands in quotes stays as it is."""
    parts = TEXT.split(COMMENT.sub("", sheet))
    # Split at a group: every second part is one in quotes.
    return "".join(part if number % 2 else squeezed(part) for number, part in enumerate(parts)).strip()


def squeezed(text: str) -> str:
    """Text of a style sheet outside quotes, without the white space that means nothing there."""
    text = re.sub(r"\s+", " ", text)
    text = re.sub(r" ?([{};,]) ?", r"\1", text)
    # Not before a colon: there it tells `a :hover` from `a:hover`.
    return text.replace(": ", ":").replace(";}", "}")
