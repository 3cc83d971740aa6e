"""Show the built shop on this computer only."""

from __future__ import annotations

from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

LOOPBACK = "127.0.0.1"
FIRST_PORT = 8017
PORTS_TRIED = 20


class ShopHandler(SimpleHTTPRequestHandler):
    """Static files with the types that browsers insist on, never kept by the browser while working on a shop."""

    extensions_map = {  # noqa: RUF012 - the base class's own attribute
        **SimpleHTTPRequestHandler.extensions_map,
        ".mjs": "text/javascript",
        ".js": "text/javascript",
        ".wasm": "application/wasm",
        ".json": "application/json",
        ".py": "text/x-python",
    }

    def end_headers(self) -> None:
        """Tell the browser to ask again each time, so that a new build is seen at once."""
        self.send_header("Cache-Control", "no-cache")
        super().end_headers()

    def log_message(self, format: str, *args: object) -> None:
        """Say nothing per request: the designer reads problems, not a log."""


def open_server(site_dir: Path, port: int | None = None) -> ThreadingHTTPServer:
    """A server for `site_dir` on loopback, at `port` or else the first free one from FIRST_PORT on.

    Raises: OSError when no port is free.
    """
    handler = partial(ShopHandler, directory=str(site_dir))
    ports = [port] if port is not None else [*range(FIRST_PORT, FIRST_PORT + PORTS_TRIED), 0]
    for number, candidate in enumerate(ports):
        try:
            return ThreadingHTTPServer((LOOPBACK, candidate), handler)
        except OSError:
            if number == len(ports) - 1:
                raise
    raise AssertionError("unreachable: the last port either served or raised")
