"""An open page renews itself under the pages' own policy, and a hidden one when it is looked at again."""

from __future__ import annotations

import threading
from pathlib import Path

import pytest
from playwright.sync_api import Browser, expect

from boltside.headers import with_policy
from boltside.serve.problem_page import waiting_page
from boltside.serve.server import open_live_server
from boltside.serve.shown import Showing, Shown

pytestmark = pytest.mark.browser
PAGE = "<!doctype html>\n<html lang='en'>\n<head>\n<title>t</title>\n</head>\n<body>\n<h1>{}</h1>\n</body>\n</html>"
WAIT_MS = 30_000


def built(folder: Path, heading: str) -> Showing:
    """A built shop of one page with the policy that every page gets."""
    folder.mkdir()
    page = with_policy(PAGE.format(heading).replace("<head>\n", "<head>\n    "))
    assert "Content-Security-Policy" in page
    (folder / "index.html").write_text(page, encoding="utf-8")
    return Showing(folder=folder, notes=("drafts",))


def test_an_open_page_renews_itself_and_nothing_is_refused(browser: Browser, tmp_path: Path) -> None:
    shown = Shown(Showing(instead=waiting_page(["The shop is being built."])))
    context = browser.new_context()
    complaints: list[str] = []
    context.on("console", lambda message: complaints.append(message.text))
    with open_live_server(shown) as server:
        threading.Thread(target=server.serve_forever, daemon=True).start()
        page = context.new_page()
        page.goto(f"http://127.0.0.1:{server.server_address[1]}/")
        heading = page.get_by_role("heading")
        for number in range(4):
            shown.show(built(tmp_path / str(number), f"state {number}"))
            expect(heading).to_have_text(f"state {number}", timeout=WAIT_MS)
            expect(page.get_by_role("status")).to_have_text("drafts")
        # The style of the server's own was let in as well.
        assert page.get_by_role("status").evaluate("e => getComputedStyle(e).borderBottomWidth") == "2px"
        shown.close()
        server.shutdown()
    context.close()
    # The icon that browsers ask for by themselves is not part of this little shop.
    assert [text for text in complaints if "404" not in text] == []
