"""Can the pairs of sizes under `together` be laid on one length of cloth?"""

from __future__ import annotations

from typing import Final

from boltside.read.book import Book
from boltside.read.collect import quoted

MOST_PAIRS: Final = 12
"""Each pair takes about as much solving as two or three sizes, so a dozen of them doubles or trebles what the run of
sizes takes. Our choice."""


def check_together(book: Book) -> None:
    """Note sizes that the pattern does not have, pairs that stand twice, and more pairs than are solved in a night."""
    it = book.document
    order = {size: at for at, size in enumerate(it.sizes)}
    if len(it.together) > MOST_PAIRS:
        book.note(
            "too-many-pairs",
            ("together",),
            seen=f"{len(it.together)} pairs of sizes",
            expected=f"at most {MOST_PAIRS}",
            mend="keep those that are most often sewn at once; for any other pair the two lengths are added",
            key=True,
        )
        return
    seen: list[list[str]] = []
    for at, pair in enumerate(it.together):
        for place, size in enumerate(pair):
            if size not in order and book.checked.whole("sizes"):
                book.note_unknown("unknown-size", ("together", at, place), size, it.sizes, "size")
        same = sorted(pair, key=lambda size: order.get(size, 0))
        if same in seen:
            book.note(
                "wrong-value",
                ("together", at),
                seen=f"{quoted(same[0])} with {quoted(same[1])} a second time",
                expected="each pair of sizes once, in either order",
                mend="delete one of the two",
            )
        seen.append(same)
