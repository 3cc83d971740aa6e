"""Is the shop as light, calm and quick as it is to be? Prints each figure with its target, and whether it is met.

    python -m tests.browser.budgets [SITE] [--quick]

SITE is a built shop; without one the shop of the data is built. What is measured, in Chromium at 360 px:

* bytes that a pattern's page fetches before anybody does anything, ready answers and Python apart;
* what jumps (layout shifts) on every kind of page over the slow link, also when the answers and Python arrive;
* the largest paint beside that of a page written by hand with the same tables, medians of five visits in one run;
* what axe finds on every kind of page (the tests' own shop, which has them all);
* how soon the ready answers are there, and how Python's start compares with the stock one (minutes; not with --quick).
"""

from __future__ import annotations

import re
import statistics
import subprocess
import sys
import tempfile
from pathlib import Path

from playwright.sync_api import Browser, Page, sync_playwright

from .looks import LOOKS, context_for, example_shop, open_look
from .shop import BROWSER, BROWSER_ARGUMENTS, ROOT, build_shop, served
from .slow_link import Visit, compressing, first_visit, python_came
from .test_axe import AXE, all_violations

PAGE_KB = 85.0
LAYOUT_SHIFT = 0.02
PAINT_RATIO = 1.8
VISITS = 5
PHONE = {"width": 360, "height": 740}
BY_HAND = """<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width,initial-scale=1">
<title>{title}</title>
<link rel="stylesheet" href="by-hand.css">
</head>
<body>
<h1>{title}</h1>
<p>{summary}</p>
{tables}
</body>
</html>
"""
BY_HAND_STYLE = """body { max-width: 60rem; margin: 0 auto; padding: 1rem; font: 17px/1.5 system-ui, sans-serif; }
table { border-collapse: collapse; } td, th { padding: .4rem .6rem; border-bottom: 1px solid #999; text-align: right; }
"""


def pages_of(site: Path) -> list[tuple[str, str, bool]]:
    """Every kind of page of a shop: what it is, its address, and whether Python comes to it."""
    patterns = sorted(path.parent.name for path in site.glob("patterns/*/spec.json"))
    options = sorted(path.parent.relative_to(site).as_posix() for path in site.glob("patterns/*/options/*/index.html"))
    by_hand = sorted(path.parent.name for path in site.glob("*/index.html"))
    return [
        ("shop front", "", False),
        *((f"pattern {name}", f"patterns/{name}/", True) for name in patterns),
        *(("options page", f"{one}/", False) for one in options[:1]),
        *((name, f"{name}/", False) for name in by_hand if name != "remnants"),
        ("remnants", "remnants/?length=80&width=112", False),
        ("unknown address", "not-there/", False),
    ]


def visit(browser: Browser, address: str, *, python: bool, calm_ms: int = 3000) -> Visit:
    """A first visit; with Python arriving where it comes to the page."""
    return first_visit(browser, address, after=python_came if python else (lambda page: None), calm_ms=calm_ms)


def page_by_hand(site: Path, page: Path) -> str:
    """Put a page with the tables of another one, written as by hand, beside it; returns its address in the site."""
    text = page.read_text("utf-8")
    tables = re.findall(r"<table.*?</table>", text, re.S)
    bare = [re.sub(r' (?:class|data-\w+|aria-\w+|id)(?:="[^"]*")?', "", table) for table in tables]
    title = re.search(r"<h1[^>]*>(.*?)</h1>", text, re.S)
    summary = re.search(r'name="description" content="([^"]*)', text)
    assert title and summary and tables
    made = page.with_name("by-hand.html")
    made.write_text(BY_HAND.format(title=title[1], summary=summary[1], tables="\n".join(bare)), encoding="utf-8")
    made.with_suffix(".css").write_text(BY_HAND_STYLE, encoding="utf-8")
    return made.relative_to(site).as_posix()


def paint_ratio(browser: Browser, shop: str, address: str, by_hand: str) -> tuple[float, float]:
    """Medians of the largest paint in milliseconds, of the page and of the page by hand, visited by turns."""
    ours, theirs = [], []
    for _ in range(VISITS):
        ours.append(visit(browser, shop + address, python=False).largest_paint_ms)
        theirs.append(visit(browser, shop + by_hand, python=False, calm_ms=1500).largest_paint_ms)
    return statistics.median(ours), statistics.median(theirs)


def axe_summary(browser: Browser) -> tuple[int, int]:
    """Looks gone over, and how much axe found."""
    found = 0
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        (folder / "sheets").mkdir()
        with served(example_shop(folder / "site", folder / "sheets")) as shop:
            for look in LOOKS:
                with context_for(browser, viewport=PHONE) as context:
                    page: Page = context.new_page()
                    open_look(page, shop, look)
                    page.evaluate(AXE)
                    found += len(all_violations(page, look.part))
    return len(LOOKS), found


def said(what: str, figure: str, target: str, met: bool) -> bool:
    """Print one line; gives back whether the target is met."""
    print(f"{'met   ' if met else 'MISSED'}  {what}: {figure} (target {target})", flush=True)
    return met


def other(module: str, *arguments: str) -> bool:
    """Run another measurement in a process of its own, so that neither has the other's browser; whether all is met."""
    print(f"\npython -m {module}", flush=True)
    return subprocess.run([sys.executable, "-m", module, *arguments], cwd=ROOT, check=False).returncode == 0


def main() -> int:
    """Measure and print; 1 when a target is missed."""
    given = [word for word in sys.argv[1:] if not word.startswith("--")]
    met = []
    with tempfile.TemporaryDirectory() as name, sync_playwright() as playwright:
        site = Path(given[0]).resolve() if given else build_shop(Path(name) / "site", sheets=())
        browser = playwright.chromium.launch(executable_path=BROWSER, args=BROWSER_ARGUMENTS)
        with compressing(site) as shop:
            for title, address, python in pages_of(site):
                seen = visit(browser, shop + address, python=python)
                kilobytes = sum(seen.bytes_by_file.values()) / 1000
                if python:
                    html = seen.bytes_by_file[f"/{address}"] / 1000
                    style = sum(size for path, size in seen.bytes_by_file.items() if path.startswith("/assets/")) / 1000
                    figure = (f"{kilobytes:.1f} kB: page {html:.1f}, style and font {style:.1f}, scripts "
                              f"{kilobytes - html - style:.1f}; apart {seen.bytes_apart / 1000:.0f}")  # fmt: skip
                    met.append(said(f"bytes of {title}", figure, f"{PAGE_KB:.0f} kB", kilobytes <= PAGE_KB))
                met.append(said(f"layout shift, {title}", f"{seen.layout_shift:.4f}", f"{LAYOUT_SHIFT}",
                                seen.layout_shift < LAYOUT_SHIFT))  # fmt: skip
            for page in sorted(site.glob("patterns/*/index.html")):
                by_hand = page_by_hand(site, page)
                ours, theirs = paint_ratio(browser, shop, f"{page.parent.relative_to(site).as_posix()}/", by_hand)
                for made in page.parent.glob("by-hand.*"):
                    made.unlink()
                figure = f"{ours:.0f} ms, by hand {theirs:.0f} ms, ratio {ours / theirs:.2f}"
                met.append(said(f"largest paint, {page.parent.name}", figure, f"{PAINT_RATIO}",
                                ours <= PAINT_RATIO * theirs))  # fmt: skip
        looks, found = axe_summary(browser)
        met.append(said("axe", f"{found} violations in {looks} states of all kinds of pages", "0", found == 0))
        browser.close()
        if "--quick" not in sys.argv:
            met.append(other("tests.browser.before_python", str(site)))
            met.append(other("tests.start_time"))
    print(f"\n{sum(met)} of {len(met)} targets met")
    return 0 if all(met) else 1


if __name__ == "__main__":
    sys.exit(main())
