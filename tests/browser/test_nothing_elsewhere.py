"""No page asks another host for anything or keeps what nobody asked for; what hosts may keep carries its hash."""

from __future__ import annotations

import hashlib
import re
from urllib.parse import urlsplit
from urllib.request import urlopen

import pytest
from playwright.sync_api import Browser

from boltside.headers import ASKED_WITH_HASH, as_expression

from .conftest import PHONE, Watched
from .looks import HERE, LOOKS, Look, open_look

STORED = """async () => ({
  local: Object.keys(localStorage),
  session: Object.keys(sessionStorage),
  caches: await caches.keys(),
  databases: (await indexedDB.databases()).map((one) => one.name),
  workers: (await navigator.serviceWorker.getRegistrations()).length,
})"""
NOTHING = {"local": [], "session": [], "caches": [], "databases": [], "workers": 0}
KEPT_ON_PURPOSE = {
    "pattern, put on the list": {"local"}, "list, filled": {"local"}, "list, large": {"local"},
    "keep, broken off": {"caches"}, "keep, whole": {"caches", "workers"},
}  # fmt: skip
"""What a buyer has asked for in these looks: her list, the copy of the shop."""
ALIKE = ("pattern, own width", "pattern, two sizes", "counter note", "search without results")
SHOWN = [look for look in LOOKS if look.name not in ALIKE]


@pytest.mark.parametrize("look", SHOWN, ids=lambda look: look.name)
def test_only_its_own_host_and_nothing_kept(browser: Browser, looks_shop: str, look: Look) -> None:
    context = browser.new_context(viewport=PHONE, reduced_motion="reduce")
    watched = Watched(context)
    page = context.new_page()
    open_look(page, looks_shop, look)
    assert watched.foreign_to(looks_shop) == []
    assert not [words for words in watched.complaints if "Content Security Policy" in words]
    assert context.cookies() == []
    stored = page.evaluate(STORED)
    asked_for = KEPT_ON_PURPOSE.get(look.name, set())
    assert {name: kept for name, kept in stored.items() if name not in asked_for} == {
        name: kept for name, kept in NOTHING.items() if name not in asked_for
    }
    assert all(stored[name] for name in asked_for), "the look does not keep what it says"
    context.close()


def test_what_hosts_may_keep_for_a_year_carries_its_hash(browser: Browser, looks_shop: str) -> None:
    """One address, one content: else a buyer would get an old file with a new page."""
    context = browser.new_context(viewport=PHONE)
    watched = Watched(context)
    page = context.new_page()
    for name in ("shop front", "pattern, all open", "search with results", "list, filled", "remnants, found"):
        open_look(page, looks_shop, next(look for look in LOOKS if look.name == name))
    context.close()
    long_kept = [url for url in dict.fromkeys(watched.requests)
                 if any(re.search(as_expression(rule), urlsplit(url).path) for rule in ASKED_WITH_HASH)]  # fmt: skip
    kinds = {urlsplit(url).path.rsplit(".", 1)[-1] for url in long_kept}
    assert {"css", "woff2", "mjs", "json", "bin"} <= kinds and any(f"/{HERE}" in url for url in long_kept)
    for url in long_kept:
        with urlopen(url) as answer:
            digest = hashlib.sha256(answer.read()).hexdigest()
        assert len(urlsplit(url).query) == 12 and digest.startswith(urlsplit(url).query), url
