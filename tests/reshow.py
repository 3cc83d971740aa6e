"""How long from saving a file to the browser showing it? Run by hand; its figures stand in the handbook.

    python -m tests.reshow SHOP PATTERN [TIMES]

Works on a copy of the shop's folder. A real Chromium has the page open; the time runs from the write of the file to the
moment the page shows the new words.
"""

from __future__ import annotations

import re
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

from playwright.sync_api import Page, sync_playwright

from tests.browser.shop import BROWSER, BROWSER_ARGUMENTS

TIMES = 10
WAIT_MS = 120_000
LOOK_EVERY_MS = 10


def shown_s(page: Page, save: Callable[[str], None], words: str) -> float:
    """Seconds from saving to showing."""
    began_s = time.monotonic()
    save(words)
    page.wait_for_function(
        "words => document.readyState !== 'loading' && document.body.textContent.includes(words)",
        arg=words, polling=LOOK_EVERY_MS, timeout=WAIT_MS,
    )  # fmt: skip
    return time.monotonic() - began_s


def replaced(path: Path, pattern: str) -> Callable[[str], None]:
    """Saves the file with the words in place of what the pattern's group matches."""
    text = path.read_text(encoding="utf-8")
    found = re.search(pattern, text, re.MULTILINE)
    assert found, f"{pattern} is not in {path}"

    def save(words: str) -> None:
        path.write_text(text[: found.start(1)] + words + text[found.end(1) :], encoding="utf-8")

    return save


def main(shop: Path, pattern: str, times: int) -> None:
    """Measure and print."""
    with tempfile.TemporaryDirectory() as scratch:
        copy = Path(scratch) / "shop"
        skipped = shutil.ignore_patterns(".git", ".venv", ".cache", "site", "tests", "*.whl")
        shutil.copytree(shop, copy, ignore=skipped)
        docs = re.search(r"^docs_dir: (\S+)", (copy / "mkdocs.yml").read_text("utf-8"), re.MULTILINE)
        assert docs
        folder = copy / "data" / "patterns" / pattern
        chart = next((copy / "data" / "body_charts").glob("*.csv"))
        what = {
            "a page written by hand": ("", replaced(copy / docs[1] / "index.md", r"\n# ([^{\n]+)")),
            "a pattern's name": (f"patterns/{pattern}/", replaced(folder / "pattern.yaml", r"^name: (.+)$")),
            "a step": (f"patterns/{pattern}/", replaced(folder / "steps.md", r"^## (.+)$")),
            "an age in the body chart": (f"patterns/{pattern}/", replaced(chart, r"^\w+,(\d+ \w+),")),
        }
        server = subprocess.Popen(
            [sys.executable, "-m", "boltside.cli", "serve", "--shop", str(copy), "--no-drafts"],
            stdout=subprocess.PIPE, text=True,
        )  # fmt: skip
        assert server.stdout is not None
        try:
            address = re.search(r"http://\S+/", server.stdout.readline())
            assert address
            with sync_playwright() as playwright:
                browser = playwright.chromium.launch(executable_path=BROWSER, args=BROWSER_ARGUMENTS)
                page = browser.new_page()
                for title, (place, save) in what.items():
                    page.goto(address[0])
                    page.wait_for_selector(f"a[href*='patterns/{pattern}']", timeout=WAIT_MS)
                    page.goto(address[0] + place)
                    took = [shown_s(page, save, f"Shown {number} {time.time_ns()}") for number in range(times)]
                    median = statistics.median(took)
                    print(f"{title}: {median:.2f} s in the middle, {max(took):.2f} s at most, of {times}", flush=True)
                browser.close()
        finally:
            server.terminate()
            server.wait(30)


if __name__ == "__main__":
    main(Path(sys.argv[1]), sys.argv[2], int(sys.argv[3]) if len(sys.argv) > 3 else TIMES)
