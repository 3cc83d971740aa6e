"""Every way in which a calculator may say no, by its code: the register that tests and cases go by."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from .fragments import Fragment, Said

PROBLEMS: Mapping[str, str] = {
    "not-json": "the request is not JSON, or not a mapping",
    "unknown-calculator": "no calculator has that name",
    "not-open": "the pattern asked about has not been opened",
    "unknown-pattern": "the shop has no pattern of that name",
    "not-a-sheet": "what should be opened is no spec sheet of this format",
    "not-a-lay-file": "what should be opened is no lay file of this format",
    "no-such-lay": "the lay file does not hold the lay that the sheet names",
    "unknown-cloth": "the pattern has no cloth of that name",
    "unknown-choice": "the pattern has no choice of that name",
    "unknown-size": "the pattern is not cut in that size",
    "unknown-alternative": "a choice was given a word that is not among its alternatives",
    "forbidden-choices": "the designer does not offer these choices together",
    "unknown-way": "the cloth is not laid in that way",
    "unknown-nap": "with nap or without was asked in other words",
    "unknown-wash": "the first wash was asked about in other words",
    "not-a-loss": "what was typed as a loss in the wash can't be read, or no cloth loses so much",
    "unknown-repeat": "the pattern of the cloth was asked about in other words, or the sheet lists no such repeat",
    "not-a-repeat": "no pattern of cloth starts again after the length that was typed, or it is too small to matter",
    "not-in-one-layer": "uneven stripes are cut in a single layer, all one way, and the cloth was never laid so",
    "not-in-step": "in this way of laying no lay keeps the listed stripes in step",
    "not-a-price": "what was typed as a price can't be read, or is in another currency",
    "not-a-length": "what was typed can't be read as a length",
    "negative": "a length below nothing was typed",
    "not-a-width": "no cloth is sold in the width that was typed",
    "too-narrow": "a piece does not fit between the selvedges",
    "narrower-than-laid": "the pieces fit, but no lay was made for so narrow a cloth",
    "not-reckoned": "no lay holds the pieces of these choices",
    "nothing-typed": "no measurement was typed that decides a size",
    "not-a-body": "no child has the measurement that was typed",
    "not-an-age": "the age that was typed can't be read, or nobody of that age wears these sizes",
    "girth-over-height": "a girth as large as the height was typed",
    "below-smallest": "the child is smaller than the smallest size is meant for",
    "above-largest": "the child is larger than the largest size is meant for",
    "far-apart": "the measurements point to sizes that are far from each other (a warning)",
}
"""Code to meaning, for people who read the code; buyers read the sentences."""


def problem(name: str, code: str, said: Said, depends_on: tuple[str, ...], **data: Any) -> Fragment:
    """A fragment that says why there is no figure and what to do.

    Arguments: the fragment's id; a code of :data:`PROBLEMS`; the sentence; what it depends on; data in mm.
    Raises: KeyError for a code that is not registered.
    """
    PROBLEMS[code]
    return Fragment(name=name, kind="problem", said=said, data={"code": code, **data}, depends_on=depends_on)
