"""The designer's Markdown as HTML that can do no harm.

Rendered by the library that the site engine uses. Raw HTML in the text is shown as text; what comes out is written
anew from a short list of elements and attributes, with links only to where a reader would expect them.
"""

from __future__ import annotations

import re
from html import escape
from html.parser import HTMLParser
from urllib.parse import urlsplit

import markdown  # type: ignore[import-untyped]

EXTENSIONS = ("tables", "fenced_code", "sane_lists")
"""Beyond plain Markdown: tables and blocks of code, as the site engine has them, and lists that do not run together."""

ELEMENTS: dict[str, frozenset[str]] = {
    **dict.fromkeys(("p", "br", "hr", "em", "strong", "code", "pre", "blockquote", "ul", "li"), frozenset()),
    **dict.fromkeys(("h3", "h4", "h5", "h6", "table", "thead", "tbody", "tr"), frozenset()),
    "ol": frozenset({"start"}),
    "th": frozenset({"colspan"}),
    "td": frozenset({"colspan"}),
    "a": frozenset({"href", "title"}),
    "img": frozenset({"src", "alt", "title"}),
}
"""What may stand in a step, and the attributes that may stand there."""

EMPTY = frozenset({"br", "hr", "img"})
WORD = re.compile("[\ue000-\uf8ff]")
SCHEMES = frozenset({"", "http", "https", "mailto"})
ADDRESSES = frozenset({"href", "src"})


def steps_html(text: str) -> str:
    """The Markdown text as HTML.

    Arguments: the text as the designer wrote it. Returns: HTML of the elements in :data:`ELEMENTS` only, every one
    closed.
    """
    renderer = markdown.Markdown(extensions=list(EXTENSIONS))
    renderer.preprocessors.deregister("html_block")
    renderer.inlinePatterns.deregister("html")
    cleaner = _Cleaner()
    cleaner.feed(renderer.convert(text))
    cleaner.close()
    return cleaner.text()


class _Cleaner(HTMLParser):
    """Writes the HTML anew with what is allowed; text of everything else stays as text."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self._parts: list[str] = []
        self._open: list[str] = []

    def text(self) -> str:
        """What was written, with every element closed."""
        return "".join(self._parts) + "".join(f"</{name}>" for name in reversed(self._open))

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag not in ELEMENTS:
            return
        kept = [(name, value or "") for name, value in attrs if name in ELEMENTS[tag]]
        kept = [(name, value) for name, value in kept if name not in ADDRESSES or _harmless(value)]
        attributes = "".join(f' {name}="{_plain(value)}"' for name, value in kept)
        self._parts.append(f"<{tag}{attributes}>")
        if tag not in EMPTY:
            self._open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        if tag in self._open:
            while True:
                closed = self._open.pop()
                self._parts.append(f"</{closed}>")
                if closed == tag:
                    break

    def handle_data(self, data: str) -> None:
        # Braces are for the numbers of words that depend on size and choices; those of the text are written out.
        self._parts.append(escape(data, quote=False).replace("{", "&#123;"))


def _plain(value: str) -> str:
    """An attribute's value: without words that are filled in, for these are elements where they depend on the unit."""
    return escape(WORD.sub("", value)).replace("{", "&#123;")


def _harmless(address: str) -> bool:
    """Whether a link leads to a page, a mail or a place in this shop. Signs that browsers skip are skipped first."""
    plain = "".join(sign for sign in address if sign > " " and sign != "\x7f")
    try:
        parts = urlsplit(plain)
    except ValueError:
        return False
    return parts.scheme.lower() in SCHEMES and not plain.startswith(("//", "\\", "/\\"))
