"""How does a table of a hand-written page stand in it? Like the tables of the patterns: in a frame, in both units.

The designer writes centimetres, as in `| 92 | 2 years | 50.1 |`; a page whose header says `units: true` gets the
switch, and its right-aligned numbers are shown in inches too.
"""

from __future__ import annotations

import re

from boltside.calculators.units import MM_PER_CM, measured
from boltside.pages.lengths import both

_TABLE = re.compile(r"<table>(.*?)</table>", re.S)
_NUMBER = re.compile(r'<td align="right">([0-9]+(?:\.[0-9])?)</td>')
_FIRST_CELL = re.compile(r"<tr>\s*<td([^>]*)>(.*?)</td>", re.S)
_HEADING = re.compile(r"<th( [^>]*)?>")


def hand_tables(html: str, *, units: bool) -> str:
    """A page's HTML with its tables in the form of our own.

    Arguments: the page's HTML, as Markdown made it; `units`: numbers are centimetres, to be shown in inches as well.
    """
    return _TABLE.sub(lambda found: _framed(found[1], units=units), html)


def _framed(inside: str, *, units: bool) -> str:
    if units:
        inside = _NUMBER.sub(lambda cell: f"<td>{both(cell[1], _inches(cell[1]))}</td>", inside)
    head, body = inside.split("</thead>", 1)
    head = _HEADING.sub(lambda cell: f'<th scope="col"{cell[1] or ""}>', head)
    body = _FIRST_CELL.sub(r'<tr><th scope="row"\1>\2</th>', body)
    return f'<div class="wide" tabindex="0"><table class="figures">{head}</thead>{body}</table></div>'


def _inches(cm: str) -> str:
    return measured(float(cm) * MM_PER_CM).inch.removesuffix(" in")
