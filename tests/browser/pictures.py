"""Takes the handbook's pictures anew: `python -m tests.browser.pictures [FOLDER]`. Long, since each is taken here.

Shows the shop in BOLTSIDE_SITE, else one built from the data. Pages are taken as a small phone and a wide screen show
them, in both colour schemes; then a buyer's way through the first pattern, on the phone.
"""

from __future__ import annotations

import json
import os
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any
from urllib.parse import urljoin, urlsplit

from playwright.sync_api import Browser, Page, ViewportSize, sync_playwright

from .shop import BROWSER, BROWSER_ARGUMENTS, ROOT, build_shop, served

PICTURES = ROOT / "site_src" / "handbook" / "pictures"
LARGEST_BYTES = 180_000
SCREENS: dict[str, tuple[ViewportSize, float]] = {
    "360": ({"width": 360, "height": 740}, 1.5),
    "1280": ({"width": 1280, "height": 900}, 0.875),
}
"""Name to viewport and device pixels per CSS pixel; as many as a picture of the allowed size holds."""
PLACES: list[tuple[str, str, str]] = [
    ("shop-front", "", "body"),
    ("{pattern}", "patterns/{pattern}/", "form[data-ready]"),
    ("option", "patterns/{pattern}/options/{choice}/", "body"),
    ("measuring", "measuring/", "body"),
    ("sizes", "sizes/", "body"),
    ("buying-cloth", "buying-cloth/", "body"),
    ("cloths", "cloths/", "body"),
    ("terms", "glossary/", "body"),
    ("remnants", "remnants/?length=80&width=112", "#fits a"),
    ("not-found", "404.html", "body"),
]
"""Every kind of page: name of its picture, address, and what is there once it is ready. A name or address with
`{pattern}` is taken once for each pattern, one with `{choice}` for the first choice of the pattern that has most."""
PAPER: ViewportSize = {"width": 688, "height": 1017}
"""The inside of a sheet of A4 with margins of 14 mm, in CSS pixels (96 to the inch)."""
READY = "form[data-ready]"
READY_MS = 180_000


@contextmanager
def screen(browser: Browser, name: str, scheme: str) -> Iterator[Page]:
    """A page on one of the screens."""
    viewport, scale = SCREENS[name]
    dark = scheme == "dark"
    context = browser.new_context(viewport=viewport, device_scale_factor=scale, reduced_motion="reduce",
                                  color_scheme="dark" if dark else "light")  # fmt: skip
    try:
        yield context.new_page()
    finally:
        context.close()


def take(page: Page, folder: Path, name: str) -> None:
    """Write one picture. Raises: SystemExit if it is larger than the handbook takes."""
    path = folder / f"{name}.png"
    page.wait_for_timeout(250)  # the font and the drawing have arrived by then
    page.screenshot(path=path)
    size = path.stat().st_size
    print(f"{path.name}: {size // 1000} kB")
    if size > LARGEST_BYTES:
        raise SystemExit(f"{path} has {size} bytes, more than {LARGEST_BYTES}")


def still_pages(browser: Browser, site: str, folder: Path, sheets: list[dict[str, Any]]) -> None:
    """Every kind of page, as it opens."""
    for width in SCREENS:
        for scheme in ("light", "dark"):
            with screen(browser, width, scheme) as page:
                for name, place, ready in places(sheets):
                    page.goto(site + place)
                    page.wait_for_selector(ready, timeout=READY_MS)
                    take(page, folder, f"{name}-{width}-{scheme}")


def places(sheets: list[dict[str, Any]]) -> list[tuple[str, str, str]]:
    """The list of pages with the shop's own patterns and choices filled in."""
    found = []
    richest = richest_sheet(sheets)
    for name, place, ready in PLACES:
        of_choice = "{choice}" in name + place
        if of_choice and not richest["choices"]:
            continue
        for sheet in sheets if "{pattern}" in name + place and not of_choice else [richest]:
            choice = sheet["choices"][0]["name"] if sheet["choices"] else ""
            names = {"pattern": sheet["pattern"], "choice": choice}
            found.append((name.format(**names), place.format(**names), ready))
    return found


def richest_sheet(sheets: list[dict[str, Any]]) -> dict[str, Any]:
    """The pattern with most choices."""
    return max(sheets, key=lambda sheet: len(sheet["choices"]))


def a_buyers_way(browser: Browser, site: str, folder: Path, pattern: str) -> None:
    """Size from measurements, options, a typed width, the counter note, inches, tables."""
    with screen(browser, "360", "light") as page:
        page.goto(f"{site}patterns/{pattern}/")
        page.wait_for_selector(READY, timeout=READY_MS)
        page.get_by_role("link", name="Which size?").click()
        for field in page.locator("#own input").all():
            name = field.get_attribute("name") or ""
            field.fill({"own.height": "99.5", "own.chest": "53", "own.waist": "50"}.get(name, ""))
        page.wait_for_timeout(600)
        page.locator("#own").evaluate("part => part.scrollIntoView({block: 'end'})")
        take(page, folder, "way-1-size")
        page.get_by_role("button", name="Take this size").click()
        last = page.locator("fieldset[data-choice]:not([hidden])").first.get_by_role("radio")
        last.first.check()
        page.locator(".asks").scroll_into_view_if_needed()
        page.locator("fieldset[data-choice]").first.evaluate("part => part.scrollIntoView({block: 'center'})")
        take(page, folder, "way-2-options")
        struck = page.locator("input[aria-disabled]")
        if struck.count():
            struck.first.click(force=True)
            page.locator(".why-not:not([hidden])").evaluate("part => part.scrollIntoView({block: 'center'})")
            take(page, folder, "way-11-struck-out")
        page.get_by_label("Width on the bolt").first.fill("137")
        page.wait_for_timeout(600)
        page.locator(".bolt").first.evaluate("part => part.scrollIntoView({block: 'center'})")
        take(page, folder, "way-3-width")
        before = page.locator("details", has_text="Before you buy").first
        before.locator("summary").first.click()
        before.evaluate("part => part.scrollIntoView()")
        take(page, folder, "way-17-before-buying")
        before.locator("summary").first.click()
        page.evaluate("scrollTo(0, 0)")
        take(page, folder, "way-4-answer")
        page.get_by_role("button", name="Show it large").click()
        take(page, folder, "way-5-counter")
        page.get_by_role("button", name="Close").click()
        page.get_by_role("radio", name="inch", exact=True).check()
        page.evaluate("scrollTo(0, 0)")
        take(page, folder, "way-6-inches")
        page.locator("#size-chart").evaluate("part => part.scrollIntoView()")
        take(page, folder, "way-7-size-chart")
        page.get_by_role("radio", name="cm", exact=True).check()
        page.locator("#cloth").evaluate("part => part.scrollIntoView()")
        take(page, folder, "way-8-cloth-table")
        page.locator("#cutting-list").evaluate("part => part.scrollIntoView()")
        take(page, folder, "way-9-cutting-list")
        page.goto(f"{site}patterns/{pattern}/")
        page.wait_for_selector(READY, timeout=READY_MS)
        lay = page.locator("details[data-lay]:not([hidden])").first
        lay.locator("summary").click()
        lay.locator("svg").wait_for(timeout=READY_MS)
        lay.evaluate("part => part.scrollIntoView()")
        take(page, folder, "way-12-lay")
        page.evaluate("scrollTo(0, 0)")
        page.locator(".note .why summary").first.click()
        page.locator("#note-title").evaluate("part => part.scrollIntoView()")
        take(page, folder, "way-13-why")


def striped(browser: Browser, site: str, folder: Path, sheets: list[dict[str, Any]]) -> None:
    """The question about stripes; a lay that keeps stripes in step, where a pattern has one; a lay with nap."""
    first = richest_sheet(sheets)
    cloth = first["cloths"][0]["name"]
    with screen(browser, "360", "light") as page:
        page.goto(f"{site}patterns/{first['pattern']}/?pattern.{cloth}=own&every.{cloth}=12")
        page.wait_for_selector(READY, timeout=READY_MS)
        page.wait_for_timeout(600)
        page.locator(".bolt").first.evaluate("part => part.scrollIntoView()")
        take(page, folder, "stripes-360")
        page.goto(f"{site}patterns/{first['pattern']}/?nap.{cloth}=with")
        lay_of(page, cloth)
        take(page, folder, "nap-360")
        for sheet in sheets:
            for one in (one for one in sheet["cloths"] if one.get("repeats")):
                repeat = f"repeat%3A{one['repeats'][0]['name']}"
                page.goto(f"{site}patterns/{sheet['pattern']}/?pattern.{one['name']}={repeat}")
                lay_of(page, one["name"])
                take(page, folder, f"stripes-lay-{sheet['pattern']}-360")
                break


def lay_of(page: Page, cloth: str) -> None:
    """Open the drawing of a cloth's lay on the page, as its address asks for it, and bring it into sight."""
    page.wait_for_selector(READY, timeout=READY_MS)
    page.wait_for_timeout(600)
    lay = page.locator(f"details[data-lay={cloth}]")
    lay.locator("summary").click()
    lay.locator("svg").wait_for(timeout=READY_MS)
    page.wait_for_timeout(600)
    lay.evaluate("part => part.scrollIntoView()")


def a_cloth_plan(browser: Browser, site: str, folder: Path, sheets: list[dict[str, Any]]) -> None:
    """The plans of the first pattern that has any, the last of them taken."""
    pattern = next((sheet["pattern"] for sheet in sheets if sheet["cloth_plans"]), None)
    if pattern is None:
        return
    with screen(browser, "360", "light") as page:
        page.goto(f"{site}patterns/{pattern}/")
        page.wait_for_selector(READY, timeout=READY_MS)
        page.locator("[data-plan]:not([hidden]) button").last.click()
        page.wait_for_timeout(600)
        page.locator("[data-plans]").evaluate("part => part.scrollIntoView()")
        take(page, folder, "plan-switch-360")


def a_calculator_that_cannot_start(browser: Browser, site: str, folder: Path, pattern: str) -> None:
    """What a buyer sees when a file does not arrive."""
    with screen(browser, "360", "dark") as page:
        page.route(lambda url: urlsplit(url).path.endswith("python.bin"), lambda route: route.abort())
        page.goto(f"{site}patterns/{pattern}/")
        page.wait_for_selector("[data-state]:not([hidden])", timeout=READY_MS)
        page.locator("[data-state]").scroll_into_view_if_needed()
        take(page, folder, "way-10-without-calculator")


def finding(browser: Browser, site: str, folder: Path) -> None:
    """The shop front's filters open, and the search with what it found."""
    with screen(browser, "360", "light") as page:
        page.goto(site)
        page.locator(".front details summary").click()
        take(page, folder, "way-14-filters")
        page.goto(site)
        page.get_by_role("button", name="Search").click()
        page.get_by_role("searchbox").fill("elastic")
        page.get_by_role("dialog").get_by_role("link").first.wait_for()
        take(page, folder, "way-15-search")


def two_at_once(browser: Browser, site: str, folder: Path, sheet: dict[str, Any]) -> None:
    """Two sizes in the panel, and how their pieces lie: the first listed pair, laid flat, as it opens."""
    first, second = sheet["together"][0]
    cloth = sheet["cloths"][0]
    flat = f"&way.{cloth['name']}=flat" if "flat" in cloth["ways"][1:] else ""
    for width in SCREENS:
        for scheme in ("light", "dark"):
            with screen(browser, width, scheme) as page:
                page.goto(f"{site}patterns/{sheet['pattern']}/?size={first}&second={second}{flat}")
                page.wait_for_selector(READY, timeout=READY_MS)
                page.get_by_text("for both:").first.wait_for(timeout=READY_MS)
                take(page, folder, f"two-{width}-{scheme}")
                lay = page.locator("details[data-lay]:not([hidden])").first
                lay.locator("summary").click()
                lay.locator(".bs-second, .bs-lay-of").first.wait_for(timeout=READY_MS)
                lay.evaluate("part => part.scrollIntoView()")
                take(page, folder, f"two-lay-{width}-{scheme}")


def shopping_list(browser: Browser, site: str, folder: Path, sheets: list[dict[str, Any]]) -> None:
    """A list with two garments from one cloth and a third, its garments, a line filling the screen, and the button."""
    for width in (360, 320):
        for scheme in ("light", "dark"):
            dark = scheme == "dark"
            context = browser.new_context(
                viewport={"width": width, "height": 740},
                device_scale_factor=1.5,
                reduced_motion="reduce",
                color_scheme="dark" if dark else "light",
            )
            page = context.new_page()
            for sheet in [*sheets[:2], sheets[0]]:
                page.goto(f"{site}patterns/{sheet['pattern']}/")
                page.wait_for_selector("form[data-ready]", timeout=READY_MS)
                page.get_by_role("button", name="Put on my list").click()
                page.get_by_text("On your list.").wait_for(timeout=READY_MS)
            if width == 360:
                page.locator("[data-put]").evaluate("part => part.scrollIntoView({block: 'center'})")
                take(page, folder, f"list-put-{width}-{scheme}")
            page.goto(f"{site}list/")
            page.wait_for_selector("[data-list][data-shown=now]", timeout=READY_MS)
            page.locator(".buy__more summary").first.click()
            page.get_by_role("button", name="Cut from one cloth with").last.click()
            page.get_by_text("one behind the other").first.wait_for(timeout=READY_MS)
            page.get_by_role("checkbox").nth(1).check()
            take(page, folder, f"list-{width}-{scheme}")
            if width == 360:
                page.locator("#garments").evaluate("part => part.scrollIntoView()")
                take(page, folder, f"list-garments-{width}-{scheme}")
                page.get_by_role("button", name="Show it large, line by line").click()
                take(page, folder, f"list-large-{width}-{scheme}")
            context.close()


def the_whole_garment(browser: Browser, site: str, folder: Path, pattern: str) -> None:
    """Below the panel: what is cut and ticked off, where interfacing goes, where closures sit, the guide."""
    for scheme in ("light", "dark"):
        with screen(browser, "360", scheme) as page:
            page.goto(f"{site}patterns/{pattern}/")
            page.wait_for_selector(READY, timeout=READY_MS)
            page.locator("#cutting-list").evaluate("part => part.scrollIntoView()")
            page.locator(".cutting input").first.check()
            take(page, folder, f"cutting-list-360-{scheme}")
            page.locator("#interfacing-plan").evaluate("part => part.scrollIntoView()")
            take(page, folder, f"interfacing-plan-360-{scheme}")
            page.locator("#closures").evaluate("part => part.scrollIntoView()")
            take(page, folder, f"closures-360-{scheme}")
            page.locator("#steps").evaluate("part => part.scrollIntoView()")
            take(page, folder, f"guide-360-{scheme}")
            shown = page.locator(".steps > li:not([hidden])")
            for at in (0, 1):
                shown.nth(at).get_by_role("checkbox").check()
            shown.nth(4).locator("summary").click()
            shown.nth(3).evaluate("part => part.scrollIntoView()")
            take(page, folder, f"guide-step-360-{scheme}")
            page.get_by_role("button", name="At the machine").click()
            take(page, folder, f"guide-large-360-{scheme}")
    with screen(browser, "1280", "light") as page:
        page.goto(f"{site}patterns/{pattern}/")
        page.wait_for_selector(READY, timeout=READY_MS)
        page.get_by_role("link", name="Which size?").click()
        for name, text in (("height", "99.5"), ("chest", "53"), ("waist", "50")):
            page.locator(f"#own input[name='own.{name}']").fill(text)
        page.wait_for_timeout(600)
        page.locator("#own").evaluate("part => part.scrollIntoView({block: 'center'})")
        take(page, folder, "size-advice-1280")
        strip = page.locator("#closures a[href*='strips']").first.get_attribute("href")
        page.goto(urljoin(page.url, strip))
        take(page, folder, "closure-strip")


LARGE_TYPE = "html { font-size: 212.5% !important; }"
"""Twice the shop's own type, as in test_hand_and_eye.py."""


def small_and_large(browser: Browser, site: str, folder: Path, pattern: str) -> None:
    """A pattern's page on a screen of 320 pixels, with type of 200 %, and what is said about the copy on the phone."""
    for scheme in ("light", "dark"):
        for width in (320, 360):
            context = browser.new_context(viewport={"width": width, "height": 740}, device_scale_factor=1.5,
                                          reduced_motion="reduce", bypass_csp=True,
                                          color_scheme="dark" if scheme == "dark" else "light")  # fmt: skip
            page = context.new_page()
            page.goto(f"{site}patterns/{pattern}/")
            page.wait_for_selector(READY, timeout=READY_MS)
            if width == 320:
                take(page, folder, f"narrow-{width}-{scheme}")
            else:
                page.add_style_tag(content=LARGE_TYPE)
                take(page, folder, f"large-type-{width}-{scheme}")
                page.locator(".asks").evaluate("part => part.scrollIntoView()")
                take(page, folder, f"large-type-asks-{width}-{scheme}")
            page.goto(f"{site}list/")
            keep = page.locator("#keep")
            keep.scroll_into_view_if_needed()
            page.get_by_role("button", name="Keep this shop on my phone (").wait_for(timeout=READY_MS)
            keep.evaluate("part => part.scrollIntoView({block: 'center'})")
            take(page, folder, f"keep-offered-{width}-{scheme}")
            context.route(lambda url: urlsplit(url).path.endswith(".xlsx"), lambda route: route.abort())
            keep.get_by_role("button").first.click()
            page.get_by_text("broke off").wait_for(timeout=READY_MS)
            take(page, folder, f"keep-broken-off-{width}-{scheme}")
            context.unroute_all(behavior="ignoreErrors")
            keep.get_by_role("button").first.click()
            page.get_by_text("Kept on this phone, complete.").wait_for(timeout=READY_MS)
            take(page, folder, f"keep-whole-{width}-{scheme}")
            context.close()


def on_paper(browser: Browser, site: str, folder: Path, pattern: str) -> None:
    """The beginning of the printed page, as wide as the paper's text."""
    page = browser.new_page(viewport=PAPER, reduced_motion="reduce", color_scheme="light")
    page.goto(f"{site}patterns/{pattern}/")
    page.wait_for_selector(READY, timeout=READY_MS)
    page.emulate_media(media="print")
    take(page, folder, "way-16-on-paper")
    page.close()


def main() -> None:
    """Take all pictures."""
    folder = Path(sys.argv[1]) if len(sys.argv) > 1 else PICTURES
    folder.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as made:
        given = os.environ.get("BOLTSIDE_SITE")
        site_dir = Path(given) if given else build_shop(Path(made) / "site", sheets=())
        sheets = [json.loads(path.read_text("utf-8")) for path in sorted(site_dir.glob("patterns/*/spec.json"))]
        first = richest_sheet(sheets)["pattern"]
        with served(site_dir) as site, sync_playwright() as playwright:
            browser = playwright.chromium.launch(executable_path=BROWSER, args=BROWSER_ARGUMENTS)
            still_pages(browser, site, folder, sheets)
            a_buyers_way(browser, site, folder, first)
            striped(browser, site, folder, sheets)
            a_cloth_plan(browser, site, folder, sheets)
            a_calculator_that_cannot_start(browser, site, folder, first)
            finding(browser, site, folder)
            shopping_list(browser, site, folder, sheets)
            small_and_large(browser, site, folder, first)
            the_whole_garment(browser, site, folder, first)
            on_paper(browser, site, folder, first)
            for sheet in [one for one in sheets if one["together"]][:1]:
                two_at_once(browser, site, folder, sheet)
            browser.close()


if __name__ == "__main__":
    main()
