"""The little server: loopback only, the types browsers insist on, a free port; pages that renew themselves."""

from __future__ import annotations

import http.client
import socket
import threading
import urllib.error
import urllib.request
from collections.abc import Iterator
from pathlib import Path

import pytest

from boltside.serve.server import EVENTS, LIVE, open_live_server, open_server, with_additions
from boltside.serve.shown import Showing, Shown

PAGE = b"<!doctype html><html><head><title>t</title></head><body class='a'><p>words</p></body></html>"


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


# --- live --------------------------------------------------------------------------------------------------------


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "patterns").mkdir()
    for name in ("index.html", "patterns/index.html", "404.html"):
        (tmp_path / name).write_bytes(PAGE.replace(b"words", name.encode()))
    (tmp_path / "panel.mjs").write_bytes(b"export {};")
    return tmp_path


@pytest.fixture
def shown(folder: Path) -> Shown:
    return Shown(Showing(folder=folder))


@pytest.fixture
def address(shown: Shown) -> Iterator[str]:
    with open_live_server(shown) as server:
        threading.Thread(target=server.serve_forever, daemon=True).start()
        host, port = server.server_address[:2]
        assert host == "127.0.0.1"
        yield f"http://{host!s}:{port}"
        shown.close()
        server.shutdown()


def get(address: str) -> tuple[int, str]:
    try:
        with urllib.request.urlopen(address, timeout=20) as reply:
            return reply.status, reply.read().decode()
    except urllib.error.HTTPError as error:
        return error.code, error.read().decode()


def test_pages_get_the_script_and_built_files_stay_as_they_are(address: str, shown: Shown, folder: Path) -> None:
    for place in ("/", "/index.html", "/patterns/", "/patterns/index.html?x=1"):
        status, page = get(address + place)
        assert status == 200
        assert f'<script src="{LIVE}live.js" data-shown="{shown.now()[0]}"></script></body>' in page
    assert (folder / "index.html").read_bytes() == PAGE.replace(b"words", b"index.html")
    assert get(address + "/panel.mjs") == (200, "export {};")


def test_its_own_script_and_style_are_served(address: str) -> None:
    status, script = get(f"{address}{LIVE}live.js")
    assert status == 200 and "EventSource" in script and EVENTS in script
    assert get(f"{address}{LIVE}live.css")[0] == 200
    assert get(f"{address}{LIVE}server.py")[0] == 404


def test_an_unknown_page_is_the_shops_own_page_for_that_and_renews_itself(address: str) -> None:
    status, page = get(address + "/no/such/")
    assert status == 404 and "404.html" in page and "live.js" in page


def test_notes_stand_at_the_top_of_the_page_as_plain_text(address: str, shown: Shown, folder: Path) -> None:
    shown.show(Showing(folder=folder, notes=("a <b>bold</b> & plain",)))
    page = get(address + "/")[1]
    assert "<p>a &lt;b&gt;bold&lt;/b&gt; &amp; plain</p>" in page
    assert page.index("bold") < page.index("index.html")


def test_a_page_shown_instead_stands_at_every_address_of_a_page(address: str, shown: Shown, folder: Path) -> None:
    shown.show(Showing(folder=folder, instead="<html><body>mend it</body></html>"))
    for place in ("/", "/patterns/", "/no/such/", "/index.html"):
        assert "mend it" in get(address + place)[1]
    assert get(address + "/panel.mjs") == (200, "export {};")  # what an open page still loads
    shown.show(Showing(instead="<html><body>one moment</body></html>"))
    assert "one moment" in get(address + "/patterns/")[1]
    assert get(address + "/panel.mjs")[0] == 404


def test_waiting_pages_hear_of_each_change_and_of_no_other(address: str, shown: Shown, folder: Path) -> None:
    with urllib.request.urlopen(address + EVENTS, timeout=20) as reply:
        assert reply.headers["Content-Type"] == "text/event-stream"
        assert reply.readline().decode().strip() == f"data: {shown.now()[0]}"
        assert reply.readline() == b"\n"
        shown.show(Showing(folder=folder))
        assert reply.readline().decode().strip() == f"data: {shown.now()[0]}"


def test_numbers_of_another_run_are_other_numbers(folder: Path) -> None:
    assert Shown(Showing(folder=folder)).now()[0] != Shown(Showing(folder=folder)).now()[0]


@pytest.mark.parametrize("place", ["/", EVENTS])
def test_a_foreign_name_for_this_computer_is_refused(address: str, place: str) -> None:
    """A site may have its name point to 127.0.0.1; its pages must not read a shop that is still being made."""
    connection = http.client.HTTPConnection(address.removeprefix("http://"), timeout=20)
    connection.request("GET", place, headers={"Host": "shop.example:8017"})
    reply = connection.getresponse()
    assert reply.status in (404, 421)
    assert b"index.html" not in reply.read()


def test_a_page_that_is_closed_while_it_loads_is_no_error(
    address: str, folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (folder / "python.wasm").write_bytes(b"0" * 20_000_000)
    host, port = address.removeprefix("http://").split(":")
    with socket.create_connection((host, int(port)), timeout=20) as line:
        line.sendall(b"GET /python.wasm HTTP/1.0\r\nHost: 127.0.0.1\r\n\r\n")
        line.recv(10)
    assert get(address + "/panel.mjs")[0] == 200
    assert "Traceback" not in capsys.readouterr().err


def test_a_page_without_a_body_gets_the_script_all_the_same() -> None:
    assert with_additions(b"bare", "r.0", Showing()).startswith(b"bare<script")
