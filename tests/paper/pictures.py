"""Takes pictures of the guides on paper for the handbook: `python -m tests.paper.pictures [FOLDER]`.

Three pages side by side: PDFs of the demo shop's usual options, one of other options in inches, and a pattern's page as
Chromium prints it on A4. Needs the extra `paper`; shows the shop in BOLTSIDE_SITE, else one built from the data.
"""

from __future__ import annotations

import io
import os
import sys
import tempfile
from pathlib import Path

import pypdfium2
from PIL import Image
from playwright.sync_api import sync_playwright

from boltside.paper.command import write_guide
from tests.browser.pictures import PICTURES, READY, READY_MS
from tests.browser.shop import BROWSER, BROWSER_ARGUMENTS, ROOT, build_shop, served

PAGES_IN_A_ROW = 3
GAP_PX, GREY = 10, (136, 136, 136)
SCALE = 0.86
"""Device pixels for a point; as many as three pages in a picture of the allowed size hold."""
USUAL = (("ferrylight", "92"), ("breakwater", "92"), ("windlass", "98"))
OTHER = ("wrackline", "104", "inside=faced,pouch=none")


def take(pdf: bytes, folder: Path, name: str) -> None:
    """The pages of a PDF as pictures, three in a row."""
    pages = [page.render(scale=SCALE).to_pil() for page in pypdfium2.PdfDocument(pdf)]
    for start in range(0, len(pages), PAGES_IN_A_ROW):
        row = pages[start : start + PAGES_IN_A_ROW]
        wide = sum(page.width for page in row) + GAP_PX * (len(row) - 1)
        sheet = Image.new("RGB", (wide, max(page.height for page in row)), GREY)
        at = 0
        for page in row:
            sheet.paste(page, (at, 0))
            at += page.width + GAP_PX
        small = io.BytesIO()
        sheet.quantize(32).save(small, "PNG", optimize=True)
        (folder / f"{name}-{start // PAGES_IN_A_ROW + 1}.png").write_bytes(small.getvalue())


def printed(site: str, pattern: str) -> bytes:
    """A pattern's page as Chromium prints it."""
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=BROWSER, args=BROWSER_ARGUMENTS)
        page = browser.new_page()
        page.goto(f"{site}patterns/{pattern}/")
        page.wait_for_selector(READY, timeout=READY_MS)
        made = page.pdf(format="A4")
        browser.close()
    return made


def main() -> None:
    """Take all pictures."""
    folder = Path(sys.argv[1]) if len(sys.argv) > 1 else PICTURES
    folder.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as made:
        given = os.environ.get("BOLTSIDE_SITE")
        site_dir = Path(given) if given else build_shop(Path(made) / "site", sheets=())
        for pattern, size in USUAL:
            take((site_dir / f"patterns/{pattern}/paper/{pattern}-{size}.pdf").read_bytes(), folder, f"paper-{pattern}")
        pattern, size, choices = OTHER
        other = Path(made) / "other.pdf"
        write_guide(ROOT / "data", pattern, size=size, choices=choices, unit="inch", out=other)
        take(other.read_bytes(), folder, f"paper-{pattern}-inch")
        with served(site_dir) as site:
            take(printed(site, USUAL[0][0]), folder, f"printed-{USUAL[0][0]}")


if __name__ == "__main__":
    main()
