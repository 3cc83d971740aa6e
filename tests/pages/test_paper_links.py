"""Links to the paper guides: a size each with its weight, the usual options said, nothing where there are none."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from boltside.calculators.choices import completed
from boltside.pages.paper_links import paper_links
from boltside.pages.pattern_page import pattern_page
from boltside.pages.words import choices_in_words
from boltside.shop_build import PatternFiles, guide_file


def test_without_guides_there_are_no_links(pattern: PatternFiles) -> None:
    assert paper_links(pattern.sheet, []) == ""
    page = pattern_page(pattern.sheet, pattern.default_answer, pattern.default_request, {}, script="", base="")
    assert ".pdf" not in page


def test_each_size_is_linked_with_its_kilobytes(pattern: PatternFiles) -> None:
    sheet: Any = pattern.sheet
    page = pattern_page(
        sheet, pattern.default_answer, pattern.default_request, {}, script="", base="",
        guides=[("92", "paper/x-92.pdf", 46_001), ("98", "paper/x-98.pdf", 47_000)],
    )  # fmt: skip
    assert '<a href="paper/x-92.pdf" type="application/pdf">Size 92</a> (47 kB)' in page
    assert '<a href="paper/x-98.pdf" type="application/pdf">Size 98</a> (47 kB)' in page
    assert choices_in_words(sheet, completed(sheet["choices"], {})) in page


def test_guides_lie_in_the_patterns_folder(pattern: PatternFiles) -> None:
    file = guide_file(pattern.sheet, "92", b"%PDF")
    assert Path(file.path).parent.as_posix() == f"patterns/{pattern.sheet['pattern']}/paper"
