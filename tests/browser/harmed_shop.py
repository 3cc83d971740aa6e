"""A copy of a shop that a test may change, and its server, a process of its own that is killed and comes back."""

from __future__ import annotations

import contextlib
import json
import shutil
import socket
import subprocess
import sys
import threading
import time
import urllib.request
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from boltside.edition import write_edition

SERVER = Path(__file__).with_name("bad_server.py")
PAGE = "patterns/example-jacket/"
NEW_WORDS = "Sewn by the new edition"
ITSELF = {"GET /keeper.js HTTP/1.1"}
"""The pages ask for nothing. The browser looks by itself whether the keeper has changed; no page can stop that."""
NEWS = {"GET /shop/edition.json HTTP/1.1"}
"""Whether there is a new edition: a page asks that where the browser believes that there is a connection."""


class Shop:
    """The shop and its server."""

    def __init__(self, site: Path, orders_dir: Path, below: str = "") -> None:
        """`below` is the folder on the server that the shop stands in, `shops/quay/`; none: the server's root."""
        self.site, self.folder = site, site.parents[below.count("/") - 1] if below else site
        self.orders = orders_dir / "orders.json"
        with socket.socket() as probe:
            probe.bind(("127.0.0.1", 0))
            self.port = probe.getsockname()[1]
        self.address = f"http://127.0.0.1:{self.port}/{below}"
        self.server: subprocess.Popen[bytes] | None = None
        self.listener: socket.socket | None = None
        self.order()

    def order(self, **orders: Any) -> None:
        """What goes wrong from now on, see bad_server.py; nothing: all is well."""
        self.orders.write_text(json.dumps(orders), "utf-8")

    def open(self, **orders: Any) -> None:
        """Start the server's process; it counts its requests from one."""
        self.order(**orders)
        command = [sys.executable, str(SERVER), str(self.port), str(self.folder), str(self.orders)]
        self.server = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        until = time.monotonic() + 15
        while True:
            with contextlib.suppress(OSError), socket.create_connection(("127.0.0.1", self.port), timeout=1):
                return
            assert time.monotonic() < until
            time.sleep(0.02)

    def requests(self) -> list[str]:
        """All that was asked of the server so far."""
        log = self.orders.with_name("requests.txt")
        return log.read_text("utf-8").splitlines() if log.exists() else []

    def kill(self) -> None:
        """End the server's process; nobody listens at the address any more."""
        if self.server is not None:
            self.server.kill()
            self.server.wait()
        with pytest.raises(OSError):
            urllib.request.urlopen(self.address, timeout=1)

    def wait_for_its_end(self) -> None:
        """Until the server has been killed where it was ordered."""
        assert self.server is not None
        self.server.wait(30)

    def listen(self) -> list[str]:
        """Stand where the killed server stood, answer nothing, and write down who comes."""
        asked: list[str] = []
        listener = socket.create_server(("127.0.0.1", self.port))

        def write_down() -> None:
            while True:
                try:
                    line, _ = listener.accept()
                except OSError:
                    return
                with line:
                    line.settimeout(2)
                    with contextlib.suppress(OSError):
                        asked.append(line.recv(200).decode("latin-1").split("\r\n")[0])

        threading.Thread(target=write_down, daemon=True).start()
        self.listener = listener
        return asked

    def close(self) -> None:
        """Leave nothing behind."""
        if self.listener is not None:
            self.listener.close()
        if self.server is not None:
            self.server.kill()
            self.server.wait()

    def new_edition(self) -> None:
        """Other words on the pattern's page, and the list of files that goes with them."""
        page = self.site / PAGE / "index.html"
        page.write_text(page.read_text("utf-8").replace("</h1>", f"</h1><p>{NEW_WORDS}</p>", 1), "utf-8")
        write_edition(self.site)

    def publish(self, other: Path) -> None:
        """Put another edition, built elsewhere, in the place of this one."""
        for place in list(self.site.iterdir()):
            shutil.rmtree(place) if place.is_dir() else place.unlink()
        shutil.copytree(other, self.site, dirs_exist_ok=True)

    def replace(self, path: str, change: Callable[[bytes], bytes]) -> None:
        """Change one file, and not the list of files."""
        place = self.site / path
        place.write_bytes(change(place.read_bytes()))
