"""Runs every check on what was read of one pattern folder."""

from __future__ import annotations

from boltside.read.book import Book
from boltside.read.check_alternatives import check_alternatives
from boltside.read.check_choices import check_choices
from boltside.read.check_cloths import check_cloths, check_kind_cases
from boltside.read.check_conditions import check_conditions
from boltside.read.check_cutting import check_cutting
from boltside.read.check_forms import check_forms
from boltside.read.check_grading import check_grading
from boltside.read.check_made_with import check_made_with
from boltside.read.check_names import check_names
from boltside.read.check_parts import check_parts
from boltside.read.check_placed import check_placed
from boltside.read.check_plans import check_plans
from boltside.read.check_repeats import check_repeats
from boltside.read.check_sale import check_photographs, check_sale
from boltside.read.check_shapes import check_shapes
from boltside.read.check_sizes import check_sizes
from boltside.read.check_steps import check_steps
from boltside.read.check_stretch import check_stretch
from boltside.read.check_together import check_together
from boltside.read.check_width import check_width
from boltside.read.combinations import STEPS_MAX, TooManyCombinations


def check_book(book: Book) -> None:
    """Note every problem that shows only when the files are looked at together."""
    check_sizes(book)
    check_together(book)
    check_parts(book)
    conditions_hold_water = check_conditions(book)
    check_names(book)
    check_cloths(book)
    check_placed(book)
    check_made_with(book)
    check_repeats(book)
    check_sale(book)
    check_steps(book)
    try:
        if conditions_hold_water:
            # Combinations mean nothing while a condition asks about something that does not exist.
            check_choices(book)
            check_alternatives(book)
            check_kind_cases(book)
            check_plans(book)
            check_forms(book)
            check_cutting(book)
        check_photographs(book, conditions_hold_water=conditions_hold_water)
    except TooManyCombinations:
        book.note(
            "too-many-combinations",
            ("rules",) if book.document.rules else ("choices",),
            seen=f"more than {STEPS_MAX} branches of choices",
            expected="choices that hang together a few at a time",
            mend="take rules apart that ask about many choices at once",
            key=True,
        )
    check_shapes(book)
    check_stretch(book)
    check_grading(book)
    check_width(book)
