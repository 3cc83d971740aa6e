"""The little server: loopback only, the types browsers insist on, a free port."""

from __future__ import annotations

import threading
import urllib.request
from pathlib import Path

import pytest

from boltside.serve.server import open_server


@pytest.mark.parametrize(
    ("name", "kind"),
    [
        ("page.html", "text/html"),
        ("panel.mjs", "text/javascript"),
        ("python.wasm", "application/wasm"),
        ("spec.json", "application/json"),
    ],
)
def test_files_have_the_type_that_browsers_insist_on(tmp_path: Path, name: str, kind: str) -> None:
    (tmp_path / name).write_bytes(b"x")
    with open_server(tmp_path) as server:
        threading.Thread(target=server.serve_forever, daemon=True).start()
        host, port = server.server_address[:2]
        with urllib.request.urlopen(f"http://{host!s}:{port}/{name}") as reply:
            assert reply.headers["Content-Type"] == kind
            assert reply.read() == b"x"
        server.shutdown()
    assert host == "127.0.0.1"


def test_a_busy_port_is_stepped_over(tmp_path: Path) -> None:
    with open_server(tmp_path) as first, open_server(tmp_path) as second:
        assert first.server_address[1] != second.server_address[1]


def test_a_port_asked_for_by_number_is_not_stepped_over(tmp_path: Path) -> None:
    with open_server(tmp_path) as first, pytest.raises(OSError, match=r"."):
        open_server(tmp_path, first.server_address[1])
