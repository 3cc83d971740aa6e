"""Runs every check on what was read of one pattern folder."""

from __future__ import annotations

from boltside.read.book import Book
from boltside.read.check_choices import check_choices
from boltside.read.check_conditions import check_conditions
from boltside.read.check_cutting import check_cutting
from boltside.read.check_names import check_names
from boltside.read.check_parts import check_parts
from boltside.read.check_shapes import check_shapes
from boltside.read.check_sizes import check_sizes
from boltside.read.check_width import check_width


def check_book(book: Book) -> None:
    """Note every problem that shows only when the files are looked at together."""
    check_sizes(book)
    check_parts(book)
    conditions_hold_water = check_conditions(book)
    check_names(book)
    if conditions_hold_water:
        # Combinations mean nothing while a condition asks about something that does not exist.
        check_choices(book)
        check_cutting(book)
    check_shapes(book)
    check_width(book)
