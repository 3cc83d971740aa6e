"""Every kind of page of a shop, and the states that a buyer brings it into: for tests that go over all of them.

A *look* is a page in a state: where it is, and what is done there. `open_look` opens it and waits until it is ready.
"""

from __future__ import annotations

import dataclasses
import json
import shutil
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from playwright.sync_api import Browser, BrowserContext, Page, expect

from boltside.shop_build import LAY_FILES_BESIDE
from tests.pages.many_patterns import sheet_number
from tests.pages.test_gallery import png

from .shop import EXAMPLE_SHEET, build_shop

READY_MS = 180_000
PATTERN = "example-jacket"
PHOTOGRAPHS = 12
OTHERS = 3
OPEN_ALL = "for (const one of document.querySelectorAll('details')) one.open = true;"


@dataclasses.dataclass(frozen=True, kw_only=True)
class Look:
    """A kind of page in one of its states."""

    name: str
    address: str
    act: Callable[[Page], None] = lambda page: None
    blocked: tuple[str, ...] = ()
    """Ends of the addresses of files that do not arrive."""
    part: str = "html"
    """What is looked at, where another look has seen the rest of the page; a selector."""


def example_shop(site_dir: Path, work_dir: Path) -> Path:
    """A shop with the example pattern, with photographs, and others beside it, so that the front has its filters."""
    example = json.loads(EXAMPLE_SHEET.read_text("utf-8"))
    tags = [{"size": size} for size in example["sizes"]]
    example["photographs"] = [
        {"file": f"photos/{at}.png", "title": f"Worn outdoors, number {at}", "size": None, "choices": {}, "cloth": None}
        | tags[at % len(tags)] for at in range(PHOTOGRAPHS)
    ]  # fmt: skip
    photographs = work_dir / example["pattern"] / "photos"
    photographs.mkdir(parents=True)
    for at in range(PHOTOGRAPHS):
        (photographs / f"{at}.png").write_bytes(png(40, 50))
    shutil.copy(EXAMPLE_SHEET.with_name(LAY_FILES_BESIDE), work_dir)
    paths = []
    for sheet in [example, *(sheet_number(at, example | {"photographs": []}) for at in range(OTHERS))]:
        paths.append(work_dir / f"{sheet['pattern']}.json")
        paths[-1].write_text(json.dumps(sheet), encoding="utf-8")
    return build_shop(site_dir, sheets=paths)


def ready(page: Page) -> None:
    """Python has answered."""
    page.locator("form[data-ready]").wait_for(timeout=READY_MS)


def all_open(page: Page) -> None:
    """Python has answered, and every reason, lay, step and list of the page is open."""
    ready(page)
    page.evaluate(OPEN_ALL)
    page.wait_for_load_state("networkidle")
    page.locator(".bs-lay").first.wait_for(timeout=READY_MS)


def own_width(page: Page) -> None:
    """A width of her own has been typed."""
    ready(page)
    field = page.locator("input[name^='width.']:not([type=radio])").first
    field.evaluate("field => { for (let up = field; up; up = up.parentElement) if ('open' in up) up.open = true; }")
    field.fill("137")
    field.press("Tab")
    page.wait_for_timeout(600)


def counter_note(page: Page) -> None:
    """The answer fills the screen."""
    page.locator("[data-counter-note]").click()
    page.locator("dialog.counter[open]").wait_for()


def at_the_machine(page: Page) -> None:
    """One step fills the screen."""
    page.locator("#steps").scroll_into_view_if_needed()
    page.get_by_role("button", name="At the machine: one step at a time, large").click()
    page.locator("dialog.machine[open]").wait_for()


def put_on_list(page: Page) -> None:
    """The garment is on the list."""
    ready(page)
    page.get_by_role("button", name="Put on my list").click()
    page.get_by_text("On your list.").wait_for(timeout=READY_MS)


def filled_list(page: Page) -> None:
    """Two garments on the list, all lines worked out, all that folds open."""
    here = page.url
    for size in ("92", "104"):
        page.goto(f"{here.removesuffix('list/')}patterns/{PATTERN}/?size={size}")
        put_on_list(page)
    page.goto(here)
    page.wait_for_selector("[data-list][data-shown=now]", timeout=READY_MS)
    page.evaluate(OPEN_ALL)
    page.get_by_role("checkbox").nth(1).check()


def large_list(page: Page) -> None:
    """A line of the list fills the screen."""
    filled_list(page)
    page.get_by_role("button", name="Show it large, line by line").click()
    page.locator("dialog[open]").wait_for()


def search_found(page: Page) -> None:
    """The search is open and has found something."""
    page.get_by_role("button", name="Search").click()
    page.get_by_role("searchbox").fill("elastic")
    page.get_by_role("dialog").get_by_role("link").first.wait_for()


def search_empty(page: Page) -> None:
    """The search is open and has found nothing."""
    page.get_by_role("button", name="Search").click()
    page.get_by_role("searchbox").fill("xyzzy")
    page.wait_for_timeout(400)


def keep_offered(page: Page) -> None:
    """The part about keeping the shop is in sight and says how large it is."""
    page.locator("#keep").scroll_into_view_if_needed()
    expect(page.locator("#keep button").first).to_contain_text("MB")


def keep_paused(page: Page) -> None:
    """Keeping has begun and was paused."""
    page.context.route(lambda url: url.split("?")[0].endswith(".xlsx"), lambda route: route.abort())
    keep_offered(page)
    page.locator("#keep button").first.click()
    page.get_by_text("Partly kept").or_(page.get_by_text("broke off")).first.wait_for(timeout=READY_MS)


def keep_whole(page: Page) -> None:
    """The shop is kept, complete."""
    keep_offered(page)
    page.locator("#keep button").first.click()
    page.get_by_text("Kept on this phone, complete.").wait_for(timeout=READY_MS)


def filters_open(page: Page) -> None:
    """The shop front's filters are open, and one is set."""
    page.evaluate(OPEN_ALL)
    page.locator(".front select").first.select_option(index=1)


def remnant_found(page: Page) -> None:
    """Python has said what fits a remnant."""
    page.locator("#fits a").first.wait_for(timeout=READY_MS)
    page.evaluate(OPEN_ALL)


HERE = f"patterns/{PATTERN}/"
LOOKS = (
    Look(name="shop front", address=""),
    Look(name="shop front, filtered", address="", act=filters_open),
    Look(name="search with results", address="", act=search_found, part="dialog.search"),
    Look(name="search without results", address="measuring/", act=search_empty, part="dialog.search"),
    Look(name="pattern, before Python", address=HERE, blocked=("python.bin",)),
    Look(name="pattern, all open", address=HERE, act=all_open),
    Look(name="pattern, own width", address=HERE, act=own_width, part="#panel"),
    Look(name="pattern, two sizes", address=f"{HERE}?size=92&second=104", act=ready, part="#panel"),
    Look(name="pattern, put on the list", address=HERE, act=put_on_list, part=".note"),
    Look(name="counter note", address=HERE, act=counter_note, part="dialog.counter"),
    Look(name="at the machine", address=HERE, act=at_the_machine, part="dialog.machine"),
    Look(name="techniques", address="techniques/"),
    Look(name="a technique", address="techniques/gathering/"),
    Look(name="options page", address=f"{HERE}options/length/"),
    Look(name="list, empty", address="list/"),
    Look(name="list, filled", address="list/", act=filled_list),
    Look(name="list, large", address="list/", act=large_list, part="dialog[open]"),
    Look(name="remnants", address="remnants/"),
    Look(name="remnants, found", address="remnants/?length=150&width=140", act=remnant_found),
    Look(name="measuring", address="measuring/"),
    Look(name="sizes", address="sizes/"),
    Look(name="buying cloth", address="buying-cloth/"),
    Look(name="cloths", address="cloths/"),
    Look(name="terms", address="glossary/"),
    Look(name="keep, offered", address="cloths/", act=keep_offered, part="#keep"),
    Look(name="keep, broken off", address="glossary/", act=keep_paused, part="#keep"),
    Look(name="keep, whole", address="sizes/", act=keep_whole, part="#keep"),
    Look(name="unknown address", address="404.html"),
)
"""Every kind of page in every state; addresses in a shop that `example_shop` has made."""


def open_look(page: Page, shop: str, look: Look) -> None:
    """Bring the page into the state; `shop` is the shop's address."""
    for end in look.blocked:
        page.route(lambda url, end=end: url.split("?")[0].endswith(end), lambda route: route.abort())
    page.goto(shop + look.address)
    look.act(page)


@contextmanager
def context_for(browser: Browser, **settings: Any) -> Iterator[BrowserContext]:
    """A context of its own, with nothing stored, in which a test may run scripts that the page itself could not."""
    context = browser.new_context(reduced_motion="reduce", bypass_csp=True, **settings)
    try:
        yield context
    finally:
        context.close()
