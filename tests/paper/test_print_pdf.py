"""The PDF: true to scale, for both papers, the same bytes each time, made without asking anything of anybody."""

from __future__ import annotations

import io
import os
import re
import socket
import subprocess
import sys
from math import dist
from pathlib import Path
from typing import Any

import pytest
from pypdf import PdfReader

from boltside.calculators.closures import closure_fragments
from boltside.calculators.request import read_request
from boltside.pages.closure_strip import FOOT_MM, HEAD_MM, LONGEST_MM, PAGE_WIDE_MM
from boltside.pages.scale_line import LENGTH_MM
from boltside.paper import print_pdf
from boltside.paper.guide import paper_guide
from boltside.paper.print_pdf import PANGO, PaperNotPossible, as_pdf, styles, why_not
from tests.paper.lines import A4_MM, LETTER_MM, MM_PER_POINT, Point, strokes_mm


@pytest.fixture
def reader(sheet: dict[str, Any], printing: None) -> PdfReader:
    return PdfReader(io.BytesIO(as_pdf(paper_guide(sheet, sheet["sizes"][0], {}, styles=styles()))))


@pytest.mark.outside
def test_the_test_line_is_100_mm_on_paper(reader: PdfReader) -> None:
    """Read from the file's own drawing operators with pypdf; units by PDF 32000-1:2008."""
    level = [(one, other) for one, other in strokes_mm(reader, 0) if abs(one[1] - other[1]) < 0.01]
    found = [ends for ends in level if abs(dist(*ends) - LENGTH_MM) <= 0.2]
    assert len(found) == 1
    (left, right), = found
    ends = [one for one in strokes_mm(reader, 0) if abs(one[0][0] - one[1][0]) < 0.01 and abs(dist(*one) - 4) < 0.05]
    assert {round(one[0][0], 1) for one in ends} == {round(left[0], 1), round(right[0], 1)}
    assert 0 < left[0] < right[0] < A4_MM[0]


@pytest.mark.outside
def test_every_page_fits_whole_on_a4_and_on_letter(reader: PdfReader) -> None:
    assert len(reader.pages) > 1
    for page in reader.pages:
        width_mm, height_mm = (float(side) * MM_PER_POINT for side in (page.mediabox.width, page.mediabox.height))
        for paper_mm in (A4_MM, LETTER_MM):
            assert width_mm <= paper_mm[0] + 0.01 and height_mm <= paper_mm[1] + 0.01


@pytest.mark.outside
def test_the_strip_is_the_last_sheet_and_true_to_scale(sheet: dict[str, Any], reader: PdfReader) -> None:
    """Its test length, and each hole as long as the page says, read from the file's own operators."""
    request = read_request(sheet, {"size": sheet["sizes"][0]})
    said = [one for one in closure_fragments(request) if one.data.get("mm")]
    assert said, "the example's usual options have no closure with places"
    rows = [one.data["mm"] for one in said]
    holes_mm = [one.data["buttonhole_mm"] for one in closure_fragments(request) if one.data.get("buttonhole_mm")]
    for row, page in zip(reversed(rows), range(len(reader.pages) - 1, 0, -1), strict=False):
        lengths = [dist(*ends) for ends in strokes_mm(reader, page)]
        assert len([one for one in lengths if abs(one - LENGTH_MM) <= 0.2]) == 1
        for hole_mm in holes_mm:
            assert len([one for one in lengths if abs(one - hole_mm) <= 0.05]) >= len(row)


def test_the_longest_strip_fits_on_its_sheet() -> None:
    margins_mm = [float(one) for one in re.findall(r"@page strip \{ margin: (\S+)mm (\S+)mm; \}", styles())[0]]
    assert LETTER_MM[1] - 2 * margins_mm[0] >= HEAD_MM + LONGEST_MM + FOOT_MM
    assert A4_MM[0] - 2 * margins_mm[1] >= PAGE_WIDE_MM


def test_pages_are_numbered_and_carry_name_size_and_edition(sheet: dict[str, Any], reader: PdfReader) -> None:
    count = len(reader.pages)
    for number, page in enumerate(reader.pages, 1):
        text = page.extract_text()
        assert f"{number} / {count}" in text
        assert sheet["name"] in text
        if number > 1:
            assert f"{sheet['name']} · size {sheet['sizes'][0]} · edition {sheet['edition']}" in text


def test_it_can_be_read_aloud_and_says_what_it_is(sheet: dict[str, Any], reader: PdfReader) -> None:
    root = reader.trailer["/Root"]
    assert root["/Lang"] == "en" and root["/MarkInfo"]["/Marked"]
    assert reader.metadata is not None and reader.metadata.title == f"{sheet['name']}, size {sheet['sizes'][0]}"
    assert reader.metadata.creation_date is None and reader.metadata.modification_date is None


def test_all_faces_are_in_the_file(reader: PdfReader) -> None:
    named = set()
    for page in reader.pages:
        for font in page["/Resources"]["/Font"].values():
            for below in font.get_object().get("/DescendantFonts", [font]):
                descriptor = below.get_object()["/FontDescriptor"].get_object()
                assert {"/FontFile", "/FontFile2", "/FontFile3"} & set(descriptor)
                named.add(descriptor["/FontName"].split("+")[-1].split("-")[0])
    assert {name for name in named if "Source" in name or "Guide" in name or "Jost" in name} == named, named


def test_the_same_guide_is_the_same_file_anywhere(sheet: dict[str, Any], printing: None, tmp_path: Path) -> None:
    document = tmp_path / "guide.html"
    document.write_text(paper_guide(sheet, sheet["sizes"][0], {}, styles=styles()), "utf-8")
    code = "import sys; from boltside.paper.print_pdf import as_pdf; from pathlib import Path; "
    code += "sys.stdout.buffer.write(as_pdf(Path(sys.argv[1]).read_text('utf-8')))"
    made = []
    for seed, day in (("1", "0"), ("2", "86400")):
        environment = {**os.environ, "PYTHONHASHSEED": seed, "SOURCE_DATE_EPOCH": day}
        run = subprocess.run([sys.executable, "-c", code, str(document)], capture_output=True, env=environment)
        assert run.returncode == 0 and not run.stderr, run.stderr
        made.append(run.stdout)
    assert made[0].startswith(b"%PDF-") and made[0] == made[1]


def test_nothing_is_asked_of_network_or_disk(
    sheet: dict[str, Any], printing: None, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """Pictures from elsewhere, and files of this computer, are left out; those that were handed over are there."""
    secret = tmp_path / "secret.svg"
    svg = b'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 10 10" width="10mm" height="10mm">'
    svg += b'<path d="M0 5H7" stroke="black"/></svg>'
    secret.write_bytes(svg)
    (tmp_path / "elsewhere.css").write_text("h1 { display: none }", "utf-8")

    def refuse(*_arguments: object, **_named: object) -> None:
        raise AssertionError("a paper guide asked the network for something")

    monkeypatch.setattr(socket, "socket", refuse)
    monkeypatch.setattr(socket, "create_connection", refuse)
    plain = len(lines_of(sheet, "", {}))
    for address in ("http://127.0.0.1:9/x.svg", "https://example.org/x.svg", secret.as_uri(), "ftp://example.org/x",
                    f"../../..{secret}"):  # fmt: skip
        assert len(lines_of(sheet, f'<img src="{address}">', {"own.svg": svg})) == plain, address
    assert len(lines_of(sheet, '<img src="own.svg">', {"own.svg": svg})) == plain + 1


def lines_of(sheet: dict[str, Any], more: str, pictures: dict[str, bytes]) -> list[tuple[Point, Point]]:
    """The straight lines of all pages of a guide whose introduction is `more`."""
    document = paper_guide({**sheet, "introduction_html": f"<p>So.{more}</p>"}, sheet["sizes"][0], {}, styles=styles())
    found = PdfReader(io.BytesIO(as_pdf(document, pictures)))
    return [
        ends
        for page in range(len(found.pages))
        for ends in strokes_mm(found, page)
        if abs(ends[0][1] - ends[1][1]) < 0.01 and dist(*ends) < 8
    ]


def test_without_library_or_pango_it_says_what_to_install(monkeypatch: pytest.MonkeyPatch) -> None:
    why_not.cache_clear()
    try:
        monkeypatch.setitem(sys.modules, "weasyprint", None)
        assert "pip install 'boltside[paper]'" in why_not()
        with pytest.raises(PaperNotPossible, match="WeasyPrint is not installed"):
            as_pdf("<p>hi")
    finally:
        why_not.cache_clear()


def test_without_pango_it_says_so_for_every_system(monkeypatch: pytest.MonkeyPatch) -> None:
    class NoPango:
        def find_spec(self, name: str, *_rest: object) -> None:
            if name == "weasyprint":
                raise OSError("cannot load library 'libpango-1.0-0'")

    monkeypatch.delitem(sys.modules, "weasyprint", raising=False)
    monkeypatch.setattr(sys, "meta_path", [NoPango(), *sys.meta_path])
    why_not.cache_clear()
    try:
        assert why_not() == PANGO
        for told in ("apt-get install", "dnf install", "brew install", "Windows", "pacman -S"):
            assert told in why_not()
    finally:
        why_not.cache_clear()


def test_what_it_is_made_with_is_known(printing: None) -> None:
    assert len(print_pdf.made_with()) == 64
