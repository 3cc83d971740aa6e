"""Builds a shop for the tests, serves it from a process of its own, and finds the browser to look at it with."""

from __future__ import annotations

import contextlib
import os
import socket
import subprocess
import sys
import time
import urllib.request
from collections.abc import Iterator, Sequence
from pathlib import Path

from mkdocs.commands.build import build
from mkdocs.config import load_config

ROOT = Path(__file__).parents[2]
EXAMPLE_SHEET = ROOT / "tests" / "cases" / "sheet_example.json"
BROWSER = os.environ.get("BOLTSIDE_BROWSER", "/usr/bin/chromium")
BROWSER_ARGUMENTS = ["--no-sandbox", "--disable-gpu", "--disable-background-networking"]
SERVER_START_S = 15


def build_shop(site_dir: Path, sheets: Sequence[Path] = (EXAMPLE_SHEET,)) -> Path:
    """Build the shop with these ready sheets (none: those of the data) into `site_dir`."""
    settings = {"sheets": [str(sheet) for sheet in sheets]} if sheets else {}
    config = load_config(str(ROOT / "mkdocs.yml"), site_dir=str(site_dir), plugins=[{"boltside": settings}])
    config.plugins.on_startup(command="build", dirty=False)
    build(config)
    return site_dir


@contextlib.contextmanager
def served(site_dir: Path) -> Iterator[str]:
    """The address of the site, served on loopback by another process as long as this lasts."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port = probe.getsockname()[1]
    server = subprocess.Popen(
        [sys.executable, "-m", "http.server", str(port), "--bind", "127.0.0.1", "--directory", str(site_dir)],
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    )
    address = f"http://127.0.0.1:{port}/"
    try:
        until = time.monotonic() + SERVER_START_S
        while True:
            try:
                urllib.request.urlopen(address, timeout=1).close()
                break
            except OSError:
                if time.monotonic() > until or server.poll() is not None:
                    raise
                time.sleep(0.05)
        yield address
    finally:
        server.kill()
        server.wait()
