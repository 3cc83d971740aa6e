"""Whatever the server does, whenever it goes: an old copy whole or a new one whole, and the page says which."""

from __future__ import annotations

import re
from pathlib import Path
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import BrowserContext, Page, Route, expect

from .harmed_shop import ITSELF, PAGE, Shop
from .keeping import NEW, READY, WHOLE, answered, begin_to_keep, keep, kept, opened, said

KEEPERS = "navigator.serviceWorker.getRegistrations().then((all) => all.length)"
GET_NEW = "Get the new edition"
GO_ON = re.compile(r"^(Go on|Get the new edition|Keep this shop on my phone)")
HOWS = ("before", "middle", "after")
WHEN_NAMED = [(path, how) for path in ("shop/edition.json", "shop/files.json") for how in HOWS]
"""Before there is anything to go on with."""
WHEN_COUNTED = [(number, HOWS[number % 3]) for number in (2, 3, 4, 5, 6, 7, 10, 12, 17, 24, 31)]
AT_THE_END = [("keeper.js", how) for how in ("before", "middle")]


def tapped_and_killed(page: Page, shop: Shop, end: tuple[int | str, str]) -> None:
    """Go on, with a fresh server that is killed at that moment."""
    shop.kill()
    shop.open(end=end)
    page.get_by_role("button", name=GO_ON).first.click()
    shop.wait_for_its_end()
    expect(page.locator("#keep progress")).to_be_hidden()


@pytest.mark.fault("gone while keeping")
def test_server_killed_at_every_moment_of_keeping(context: BrowserContext, shop: Shop) -> None:
    page = context.new_page()
    page.goto(shop.address)
    page.locator("#keep").scroll_into_view_if_needed()
    expect(page.get_by_role("button", name=re.compile(r"^Keep this shop on my phone \(\d"))).to_be_visible()
    for end in WHEN_NAMED:
        tapped_and_killed(page, shop, end)
        expect(said(page)).not_to_contain_text("complete")
        assert page.evaluate(KEEPERS) == 0
    before = 0.0
    for end in WHEN_COUNTED:
        tapped_and_killed(page, shop, end)
        expect(said(page)).to_contain_text("Partly kept:")
        expect(said(page)).to_contain_text("Without a connection the shop does not work yet.")
        assert page.evaluate(KEEPERS) == 0
        here = float(re.findall(r"Partly kept: ([\d.]+)", said(page).inner_text())[0])
        assert here >= before, "what is here stays"
        before = here
    for end in AT_THE_END:
        tapped_and_killed(page, shop, end)
        expect(said(page)).to_contain_text("Without a connection the shop does not work yet.")
    shop.open()
    page.reload()
    expect(said(page)).to_contain_text("Partly kept:")
    page.get_by_role("button", name="Go on").click()
    expect(said(page)).to_contain_text(WHOLE)
    shop.kill()
    opened(page, shop)


@pytest.mark.fault("gone while updating")
def test_server_killed_at_every_moment_of_an_update(
    context: BrowserContext, shop: Shop, second_edition: Path
) -> None:
    page = kept(context, shop)
    shop.publish(second_edition)
    page.goto(shop.address + PAGE)
    expect(page.get_by_role("button", name=GET_NEW)).to_be_visible()
    ready = page.get_by_role("button", name="Change over now")
    for at, end in enumerate([*WHEN_NAMED[2:], *WHEN_COUNTED[:7]]):
        if ready.is_visible():
            break  # what was fetched before each end comes to the whole edition, sooner on one machine than on another
        tapped_and_killed(page, shop, end)
        expect(said(page)).to_contain_text(re.compile("Kept on this phone, complete|[Yy]ou go on with the old one"))
        if at % 4 == 0:
            page.reload()
            answered(page)
            shop.open()
            with page.expect_response(re.compile(r"/shop/edition\.json")):
                page.reload()
            expect(said(page)).to_contain_text("new edition")  # once its script has the server's word
    assert at >= len(WHEN_NAMED[2:]) + 2
    shop.kill()
    shop.open()
    if not ready.is_visible():
        page.get_by_role("button", name=GO_ON).first.click()
    expect(said(page)).to_contain_text(READY)
    shop.kill()
    ready.click()
    expect(said(page)).to_contain_text("Changed over.")
    asked = shop.listen()
    context.set_offline(True)
    page.reload()
    answered(page, NEW)
    expect(said(page)).to_contain_text(WHOLE)
    assert set(asked) <= ITSELF


@pytest.mark.fault("wrong file in an update")
def test_wrong_files_in_an_update_leave_the_old_edition_whole(
    context: BrowserContext, shop: Shop, second_edition: Path
) -> None:
    page = kept(context, shop)
    shop.publish(second_edition)
    page.reload()
    for harm in ("corrupted", "truncated", "cut", "404", "500", "redirected"):
        shop.order(harm={PAGE: harm})
        with page.expect_request(lambda request: urlsplit(request.url).path == f"/{PAGE}"):
            page.get_by_role("button", name=GO_ON).first.click()
        expect(page.locator("#keep progress")).to_be_hidden()
        expect(said(page)).to_contain_text("Nothing of it was used.")
    shop.kill()
    opened(page, shop)


@pytest.mark.fault("published halfway")
def test_a_shop_that_is_just_being_published_is_not_kept(
    context: BrowserContext, shop: Shop, second_edition: Path
) -> None:
    """The new lists are there before the files, or the name of the edition before its list."""
    page = context.new_page()
    for path, then in (("shop/edition.json", "Keep this shop on my phone"), ("shop/files.json", "Go on")):
        (shop.site / path).write_bytes((second_edition / path).read_bytes())
        keep(page, shop.address) if path.endswith("edition.json") else page.get_by_role("button", name=GO_ON).click()
        # The button first: the words of the try before stand until this one has come to its end.
        expect(page.get_by_role("button", name=then)).to_be_visible()
        expect(said(page)).to_contain_text("Nothing of it was used.")
        expect(page.locator("#keep progress")).to_be_hidden()
        assert page.evaluate(KEEPERS) == 0
    shop.publish(second_edition)
    page.get_by_role("button", name="Go on").click()
    expect(said(page)).to_contain_text(WHOLE)
    shop.kill()
    opened(page, shop, NEW)


@pytest.mark.fault("published under an open page")
def test_an_edition_published_under_an_open_page_is_not_mixed_in(
    context: BrowserContext, shop: Shop, second_edition: Path
) -> None:
    """Nothing is kept: the page is of the old edition, and what its calculators would need of it is gone."""
    page = context.new_page()
    held: list[Route] = []
    page.route(lambda url: url.split("?")[0].endswith(f"{PAGE}spec.json"), lambda route: held.append(route))
    with page.expect_request(lambda request: f"{PAGE}spec.json" in request.url):
        page.goto(shop.address + PAGE)
    shop.publish(second_edition)
    page.unroute_all()
    for route in held:
        route.continue_()
    expect(page.locator("[data-state]")).to_contain_text("The calculator could not start on this device.")
    page.get_by_label("Width on the bolt").first.fill("137")
    page.wait_for_timeout(500)
    expect(page.locator("[data-state]")).to_contain_text("Load this page again")
    assert NEW not in page.inner_text("body")
    page.reload()
    answered(page, NEW)


FAR_OFF = {
    "ahead": {"Date": "Thu, 01 Jan 2060 00:00:00 GMT", "Last-Modified": "Wed, 01 Jan 2059 00:00:00 GMT"},
    "behind": {"Date": "Thu, 01 Jan 1998 00:00:00 GMT", "Last-Modified": "Mon, 01 Jan 1990 00:00:00 GMT"},
    "never stale": {"Expires": "Thu, 01 Jan 2060 00:00:00 GMT", "Last-Modified": "Mon, 01 Jan 1990 00:00:00 GMT"},
}


@pytest.mark.fault("server's dates wrong")
@pytest.mark.parametrize("dates", FAR_OFF)
def test_a_server_whose_dates_are_wrong(
    context: BrowserContext, shop: Shop, second_edition: Path, dates: str
) -> None:
    """Browsers take files from their own cache by such dates; the copy is told by contents alone."""
    shop.order(headers=FAR_OFF[dates])
    page = context.new_page()
    opened(page, shop)
    begin_to_keep(page)
    expect(said(page)).to_contain_text(WHOLE)
    shop.publish(second_edition)
    page.goto(shop.address + PAGE)
    answered(page)
    page.get_by_role("button", name=GET_NEW).click()
    page.get_by_role("button", name="Change over now").click()
    expect(said(page)).to_contain_text("Changed over.")
    shop.kill()
    opened(page, shop, NEW)
