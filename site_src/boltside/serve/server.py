"""The little server: loopback only. It can show a built folder as it is, or one that changes while pages are open.

Of the second kind, each page gets a script and a style of the server's own and a line of notes at its top; they are
added while the page is sent and never stand in a built file.
"""

from __future__ import annotations

import html
import re
import sys
from collections.abc import Callable
from functools import partial
from http import HTTPStatus
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from io import BytesIO
from pathlib import Path
from typing import BinaryIO
from urllib.parse import unquote, urlsplit

from boltside.serve.shown import Showing, Shown

LOOPBACK = "127.0.0.1"
FIRST_PORT = 8017
PORTS_TRIED = 20

LIVE = "/boltside-live/"
"""Addresses of the server's own; no file of a shop lies there."""
EVENTS = f"{LIVE}shown"
OWN_FILES = {f"{LIVE}live.js": "text/javascript", f"{LIVE}live.css": "text/css"}
SIGN_OF_LIFE_S = 15.0
"""How often a waiting page is written to, so that a page that went away is noticed."""
OWN_HOSTS = re.compile(r"(127\.0\.0\.1|localhost|\[::1\])(:\d+)?")
"""Another name in a request is that of a foreign site which had its name point here."""
BODY_START = re.compile(rb"<body\b[^>]*>", re.IGNORECASE)
BODY_END = b"</body>"


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


class LiveHandler(ShopHandler):
    """Shows what `shown` says at this moment."""

    def __init__(self, *args: object, shown: Shown, **kwargs: object) -> None:
        self.shown = shown
        self.number, self.showing = shown.now()
        super().__init__(*args, **kwargs)  # type: ignore[arg-type]

    def do_GET(self) -> None:
        """Answer for the server's own addresses, else for the shop."""
        if urlsplit(self.path).path == EVENTS and self.is_for_us():
            self.send_numbers()
        else:
            super().do_GET()

    def is_for_us(self) -> bool:
        """Whether the request names this computer's own address."""
        return OWN_HOSTS.fullmatch(self.headers.get("Host", LOOPBACK)) is not None

    def send_head(self) -> BytesIO | BinaryIO | None:
        """Headers, and the file whose content follows: a page with the server's own additions, or a file as it is."""
        self.number, self.showing = self.shown.now()
        if not self.is_for_us():
            self.send_error(HTTPStatus.MISDIRECTED_REQUEST)
            return None
        place = urlsplit(self.path).path
        if place in OWN_FILES:
            return self.send_bytes((Path(__file__).parent / place.rpartition("/")[2]).read_bytes(), OWN_FILES[place])
        if self.showing.instead is not None or self.showing.folder is None:
            if is_page(place):
                return self.send_page((self.showing.instead or "").encode())
            if self.showing.folder is None:
                self.send_error(HTTPStatus.NOT_FOUND)
                return None
        assert self.showing.folder is not None
        self.directory = str(self.showing.folder)
        file = Path(self.translate_path(self.path))
        if place.endswith("/"):
            file /= "index.html"
        if file.suffix == ".html" and file.is_file():
            return self.send_page(file.read_bytes())
        missing = self.showing.folder / "404.html"
        if is_page(place) and not file.exists() and missing.is_file():
            return self.send_page(missing.read_bytes(), HTTPStatus.NOT_FOUND)
        return super().send_head()

    def send_page(self, page: bytes, status: HTTPStatus = HTTPStatus.OK) -> BytesIO:
        """A page with the notes, the style and the script added."""
        return self.send_bytes(with_additions(page, self.number, self.showing), "text/html; charset=utf-8", status)

    def send_bytes(self, content: bytes, kind: str, status: HTTPStatus = HTTPStatus.OK) -> BytesIO:
        """Send headers for `content` of media type `kind`; the content follows from what is returned."""
        self.send_response(status)
        self.send_header("Content-Type", kind)
        self.send_header("Content-Length", str(len(content)))
        self.end_headers()
        return BytesIO(content)

    def send_numbers(self) -> None:
        """Send the number of what is shown whenever it changes, for as long as the page is open."""
        self.send_response(HTTPStatus.OK)
        self.send_header("Content-Type", "text/event-stream")
        self.end_headers()
        number = ""
        try:
            while not self.shown.closed:
                newer = self.shown.wait_for_other(number, SIGN_OF_LIFE_S)
                self.wfile.write(b": still here\n\n" if newer == number else f"data: {newer}\n\n".encode())
                self.wfile.flush()
                number = newer
        except OSError:
            pass  # the page is gone


class QuietServer(ThreadingHTTPServer):
    """A server that does not mind pages which are closed while they load."""

    def handle_error(self, request: object, client_address: object) -> None:
        """Tell of errors, but not of a browser that went away."""
        if not isinstance(sys.exc_info()[1], OSError):
            super().handle_error(request, client_address)  # type: ignore[arg-type]


class LiveServer(QuietServer):
    """A server whose waiting pages do not keep it from ending."""

    daemon_threads = True
    block_on_close = False


def is_page(place: str) -> bool:
    """Whether the path of an address is that of a page rather than of a page's parts."""
    return Path(unquote(place)).suffix in ("", ".html") or place.endswith("/")


def with_additions(page: bytes, number: str, showing: Showing) -> bytes:
    """The page's bytes with the notes at the top of its body, our style, and our script at its end."""
    start = f'<link rel="stylesheet" href="{LIVE}live.css">'
    if showing.notes:
        lines = "".join(f"<p>{html.escape(note)}</p>" for note in showing.notes)
        start += f'<div class="boltside-live" role="status">{lines}</div>'
    end = f'<script src="{LIVE}live.js" data-shown="{number}"></script>'
    page = BODY_START.sub(lambda found: found[0] + start.encode(), page, count=1)
    before, closing, after = page.rpartition(BODY_END)
    return before + end.encode() + closing + after if closing else page + end.encode()


def open_server(site_dir: Path, port: int | None = None) -> ThreadingHTTPServer:
    """A server for `site_dir`, as it is, on loopback, at `port` or else the first free one from FIRST_PORT on.

    Raises: OSError when no port is free.
    """
    return open_at(partial(ShopHandler, directory=str(site_dir)), QuietServer, port)


def open_live_server(shown: Shown, port: int | None = None) -> ThreadingHTTPServer:
    """The same for whatever `shown` says, with pages that renew themselves. Raises: OSError."""
    return open_at(partial(LiveHandler, shown=shown), LiveServer, port)


def open_at(
    handler: Callable[..., ShopHandler], kind: type[ThreadingHTTPServer], port: int | None
) -> ThreadingHTTPServer:
    """A server of this `kind` at `port`, or else at the first free one. Raises: OSError."""
    ports = [port] if port is not None else [*range(FIRST_PORT, FIRST_PORT + PORTS_TRIED), 0]
    for number, candidate in enumerate(ports):
        try:
            return kind((LOOPBACK, candidate), handler)
        except OSError:
            if number == len(ports) - 1:
                raise
    raise AssertionError("unreachable: the last port either served or raised")
