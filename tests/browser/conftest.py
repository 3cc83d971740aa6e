"""A built shop, served by a process of its own, and a real browser to look at it with."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from pathlib import Path
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, Request, ViewportSize, expect

from boltside.edition import FILES_PATH

from .harmed_shop import Shop
from .looks import example_shop
from .shop import EXAMPLE_SHEET, ROOT, build_shop, served

PHONE: ViewportSize = {"width": 360, "height": 740}
"""The small phone that the first screen is made for."""

WAIT_MS = 30_000
"""How long a test waits for a page to become as expected."""


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Everything in this folder needs a browser."""
    here = Path(__file__).parent
    for item in items:
        if here in item.path.parents:
            item.add_marker(pytest.mark.browser)


@pytest.fixture(scope="session")
def site_dir(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The shop to look at: BOLTSIDE_SITE, else one built from the example sheet."""
    given = os.environ.get("BOLTSIDE_SITE")
    return Path(given) if given else build_shop(tmp_path_factory.mktemp("shop") / "site")


@pytest.fixture(scope="session")
def example_site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A shop with the example sheet only, whatever BOLTSIDE_SITE says."""
    return build_shop(tmp_path_factory.mktemp("example") / "site")


@pytest.fixture(scope="session")
def second_edition(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The next edition of that shop: page, ready answers and calculators call one cloth by another name."""
    folder = tmp_path_factory.mktemp("second")
    sheet = EXAMPLE_SHEET.read_text("utf-8").replace('"Outer cloth"', '"Outer cloth of the new edition"')
    (folder / EXAMPLE_SHEET.name).write_text(sheet, "utf-8")
    return build_shop(folder / "site", [folder / EXAMPLE_SHEET.name])


@pytest.fixture(scope="session")
def site(site_dir: Path) -> Iterator[str]:
    """The address of the shop."""
    with served(site_dir) as address:
        yield address


@pytest.fixture(scope="session")
def example(example_site: Path) -> Iterator[str]:
    """The address of the page of the example pattern."""
    with served(example_site) as address:
        yield f"{address}patterns/example-jacket/"


@pytest.fixture(scope="session")
def demo_site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The shop of the data: BOLTSIDE_SITE, else the one in site/ if nothing is newer than it, else built."""
    given = os.environ.get("BOLTSIDE_SITE")
    if given:
        return Path(given)
    made = ROOT / "site" / FILES_PATH
    sources = [path for top in ("calculators", "data", "site_src") for path in (ROOT / top).rglob("*")]
    newest = max(path.stat().st_mtime for path in sources if path.is_file() and "__pycache__" not in path.parts)
    if made.exists() and made.stat().st_mtime > newest:
        return ROOT / "site"
    return build_shop(tmp_path_factory.mktemp("demo") / "site", sheets=())


@pytest.fixture(scope="session")
def looks_shop(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The address of a shop that has every kind of page (see looks.py)."""
    folder = tmp_path_factory.mktemp("looks")
    (folder / "sheets").mkdir()
    with served(example_shop(folder / "site", folder / "sheets")) as address:
        yield address


@pytest.fixture(autouse=True, scope="session")
def _patience() -> None:
    """A busy machine is slow, not wrong: waits end when the page is as expected, so long ones cost nothing."""
    expect.set_options(timeout=WAIT_MS)


@pytest.fixture
def shop(example_site: Path, tmp_path: Path) -> Iterator[Shop]:
    """A copy of that shop which may be harmed, and its server, which may be killed."""
    shop = Shop(shutil.copytree(example_site, tmp_path / "site"), tmp_path)
    shop.open()
    yield shop
    shop.close()


@pytest.fixture
def context(browser: Browser) -> Iterator[BrowserContext]:
    """A small phone that knows nothing of any shop."""
    context = browser.new_context(viewport=PHONE, reduced_motion="reduce")
    yield context
    context.close()


class Watched:
    """What a browser context asked the network for and what its pages complained about."""

    def __init__(self, context: BrowserContext) -> None:
        self.requests: list[str] = []
        self.complaints: list[str] = []
        context.on("request", self._requested)
        context.on("console", lambda message: self._said(message.type, message.text))
        context.on("weberror", lambda error: self.complaints.append(str(error.error)))

    def _requested(self, request: Request) -> None:
        self.requests.append(request.url)

    def _said(self, kind: str, text: str) -> None:
        if kind in ("error", "warning"):
            self.complaints.append(text)

    def foreign_to(self, address: str) -> list[str]:
        """Requests to any other host; blobs and data in the page itself are no requests to a host."""
        home = urlsplit(address).netloc
        asked = [urlsplit(url) for url in self.requests]
        return [url.geturl() for url in asked if url.scheme not in ("blob", "data") and url.netloc != home]


@pytest.fixture
def phone(browser: Browser) -> Iterator[Page]:
    """A page as wide as a small phone."""
    context = browser.new_context(viewport=PHONE, reduced_motion="reduce")
    yield context.new_page()
    context.close()
