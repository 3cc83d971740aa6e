"""What does a first visit over a slow mobile link fetch, when is it painted, and does anything jump?

1.6 Mbps and 150 ms by Chromium's emulation, an empty cache, a server that compresses as common hosts do.
"""

from __future__ import annotations

import contextlib
import dataclasses
import http.server
import threading
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

from playwright.sync_api import Browser, CDPSession, Page, Request

from .before_python import BITS_A_SECOND, LATENCY_MS, Compressing

READY_MS = 180_000
APART = ("/answers/", "/shop/python/", "/spec.json", "/shop/worker.mjs")
"""Counted apart: the ready answers, and Python with what it works on."""
SHIFTS = """
  window.shifts = [];
  new PerformanceObserver((list) => {
    for (const one of list.getEntries()) {
      if (one.hadRecentInput) continue;
      const who = one.sources.map((source) => source.node?.outerHTML?.slice(0, 100) ?? "").join(" | ");
      window.shifts.push([one.value, one.startTime, who]);
    }
  }).observe({ type: "layout-shift", buffered: true });
  window.largest = 0;
  new PerformanceObserver((list) => {
    for (const one of list.getEntries()) window.largest = one.startTime;
  }).observe({ type: "largest-contentful-paint", buffered: true });
"""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Visit:
    """What one visit was like."""

    bytes_by_file: dict[str, int]
    """As they came over the wire, by path; files counted apart are not among them."""
    bytes_apart: int
    layout_shift: float
    """The sum of all shifts, which is at least the figure that browsers report (their worst five seconds)."""
    shifts: list[str]
    largest_paint_ms: float


class Saying(Compressing):
    """The compressing server, that answers an unknown address with the shop's page for it."""

    def do_GET(self) -> None:
        self.unknown = not Path(self.translate_path(self.path)).exists()
        if self.unknown:
            self.path = "/404.html"
        super().do_GET()

    def send_response(self, code: int, message: str | None = None) -> None:
        super().send_response(404 if self.unknown else code, message)


@contextlib.contextmanager
def compressing(site: Path) -> Iterator[str]:
    """The address of a site whose text is sent compressed."""
    server = http.server.ThreadingHTTPServer(
        ("127.0.0.1", 0), lambda *given: Saying(*given, directory=str(site))  # type: ignore[arg-type]
    )
    threading.Thread(target=server.serve_forever, daemon=True).start()
    try:
        yield f"http://127.0.0.1:{server.server_port}/"
    finally:
        server.shutdown()
        server.server_close()


def throttle(link: CDPSession, *, slow: bool) -> None:
    """Put the page on the slow link, or off it."""
    rate = BITS_A_SECOND / 8 if slow else -1
    link.send("Network.enable")
    link.send("Network.emulateNetworkConditions", {"offline": False, "latency": LATENCY_MS if slow else 0,
                                                   "downloadThroughput": rate, "uploadThroughput": rate})  # fmt: skip


def first_visit(browser: Browser, address: str, *, after: Callable[[Page], None] = lambda page: None,
                storage: Any = None, calm_ms: int = 1500) -> Visit:  # fmt: skip
    """Open `address` with an empty cache over the slow link; `after` goes on once everything has come that comes over
    it without Python, with the link as fast as it can be. `storage` is what the browser keeps from before."""
    context = browser.new_context(viewport={"width": 360, "height": 740}, storage_state=storage)
    page = context.new_page()
    came: list[Request] = []
    page.on("requestfinished", lambda request: came.append(request))
    page.add_init_script(SHIFTS)
    link = context.new_cdp_session(page)
    throttle(link, slow=True)
    try:
        page.goto(address, wait_until="domcontentloaded")
        page.wait_for_timeout(calm_ms)
        own, apart = {}, 0
        largest = float(page.evaluate("largest"))
        throttle(link, slow=False)
        after(page)
        page.wait_for_timeout(500)
        for request in came:
            url = urlsplit(request.url)
            if url.scheme not in ("http", "https") or url.netloc != urlsplit(address).netloc:
                continue
            size = max(0, request.sizes()["responseBodySize"])
            if any(part in url.path for part in APART):
                apart += size
            else:
                own[url.path] = own.get(url.path, 0) + size
        shifts = page.evaluate("shifts")
    finally:
        context.close()
    return Visit(
        bytes_by_file=own,
        bytes_apart=apart,
        layout_shift=sum(value for value, *_ in shifts),
        shifts=[f"{value:.4f} after {at_ms:.0f} ms: {who}" for value, at_ms, who in shifts],
        largest_paint_ms=largest,
    )


def python_came(page: Page) -> None:
    """All answers have come, and Python has answered."""
    page.locator("form[data-ready]").wait_for(timeout=READY_MS)
    page.wait_for_timeout(700)
