"""A designer who has never seen Boltside: the wheel, an empty environment, and what the documents say, in order.

`site_src/handbook/first-half-hour.md` says how to install and begin; the README of the new shop goes on. Without Node,
without a checkout, and, after the installation, without a connection.
"""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.new.first_steps import make, steps

ROOT = Path(__file__).parents[1]
HALF_HOUR = ROOT / "site_src" / "handbook" / "first-half-hour.md"
pytestmark = [pytest.mark.slow, pytest.mark.browser]

WAIT_MS = 180_000
"""How long the browser's Python may take to start on a busy machine."""
NOBODY = "http://127.0.0.1:9"
"""A proxy that does not answer: whoever asks the network for something fails."""
NUMBER_IN_A_CELL = "number => [...document.querySelectorAll('td')].some((cell) => cell.textContent.includes(number))"
PATTERN = "patterns/spoondrift/"
BOTH = "Both, towelling inside"


def said(command: list[str], where: Path, environment: dict[str, str]) -> str:
    """Run a command that has to succeed and return what it printed."""
    began_s = time.monotonic()
    finished = subprocess.run(command, cwd=where, env=environment, capture_output=True, text=True, timeout=1800)
    assert finished.returncode == 0, f"{command}\n{finished.stdout}\n{finished.stderr}"
    print(f"{time.monotonic() - began_s:6.1f} s  {' '.join(Path(word).name for word in command)}")
    return finished.stdout


@pytest.fixture(scope="module")
def wheel() -> Path:
    """The wheel as the README has it made."""
    said([sys.executable, "start.py", "wheel"], ROOT, dict(os.environ))
    return max((ROOT / "dist").glob("boltside-*.whl"), key=lambda path: path.stat().st_mtime)


class Desk:
    """The designer's machine: an environment with the wheel, an empty home, no Node, and no network after that."""

    def __init__(self, place: Path, wheel: Path) -> None:
        self.place = place
        self.home = place / "home"
        self.home.mkdir()
        scripts = place / "env" / ("Scripts" if os.name == "nt" else "bin")
        subprocess.run([sys.executable, "-m", "venv", str(place / "env")], check=True)
        # The versions that everything else is tested with; a person gets the newest that the wheel allows.
        constraints = place / "constraints.txt"
        lock = (ROOT / "requirements.lock").read_text("utf-8")
        versions = re.findall(r"^[\w.-]+==[^\s\\]+(?: ;[^\\\n]+)?", lock, re.MULTILINE)
        constraints.write_text("\n".join(versions), "utf-8")
        install = [str(scripts / "pip"), "install", "--quiet", "--disable-pip-version-check"]
        said([*install, "--constraint", str(constraints), str(wheel)], place, {**os.environ, "PIP_USER": "0"})
        self.environment = {
            "PATH": str(scripts), "HOME": str(self.home), "LANG": "C.UTF-8", "PYTHONUNBUFFERED": "1",
            "http_proxy": NOBODY, "https_proxy": NOBODY, "HTTPS_PROXY": NOBODY, "PIP_NO_INDEX": "1",
        }  # fmt: skip
        if os.name == "nt":
            self.environment["SYSTEMROOT"] = os.environ["SYSTEMROOT"]
        assert shutil.which("node", path=self.environment["PATH"]) is None
        self.program = str(scripts / "boltside")

    def boltside(self, words: str, where: Path) -> str:
        """Type `boltside WORDS` in a folder."""
        return said([self.program, *words.split()], where, self.environment)

    @contextmanager
    def serving(self, where: Path, *options: str) -> Iterator[str]:
        """`boltside serve` in a second terminal; the address that it prints."""
        process = subprocess.Popen(
            [self.program, "serve", *options], cwd=where, env=self.environment, text=True,
            stdout=subprocess.PIPE, stderr=subprocess.STDOUT,
        )  # fmt: skip
        assert process.stdout is not None
        try:
            line = process.stdout.readline()
            address = re.search(r"http://\S+/", line)
            assert address, line + process.stdout.read()
            yield address[0]
        finally:
            process.terminate()
            process.wait(30)
            process.stdout.close()


@pytest.fixture(scope="module")
def desk(tmp_path_factory: pytest.TempPathFactory, wheel: Path) -> Desk:
    return Desk(tmp_path_factory.mktemp("desk"), wheel)


def choose(page: Page, title: str) -> None:
    """Pick an option as a buyer does."""
    page.get_by_role("radio", name=title, exact=True).check()


def amount(page: Page, cloth: str) -> str:
    """What the page says to buy of a cloth, once it says so."""
    fragment = page.locator(f"[data-fragment='cloth.{cloth}']").first
    expect(fragment).to_contain_text(re.compile(r"\d(\.\d+)? ?m"), use_inner_text=True, timeout=WAIT_MS)
    return fragment.inner_text()


def chart_cells(page: Page, number: str) -> list[str]:
    """The cells of the page's tables in which this number stands, open or folded."""
    return [text for text in page.locator("td").all_text_contents() if number in text]


def test_the_first_half_hour(desk: Desk, browser: Browser) -> None:
    document = HALF_HOUR.read_text(encoding="utf-8")
    begin = re.findall(r"^    (boltside new .+|cd .+|boltside serve)$", document, re.MULTILINE)
    assert begin == ["boltside new my-shop", "cd my-shop", "boltside serve"]
    desk.boltside("new my-shop", desk.place)
    shop = desk.place / "my-shop"
    readme = (shop / "README.md").read_text(encoding="utf-8")
    chart, *options, narrower = steps(shop)
    context = browser.new_context()
    page = context.new_page()

    with desk.serving(shop) as address:
        page.goto(address)
        expect(page.get_by_role("link", name="Spoondrift").first).to_be_visible(timeout=WAIT_MS)
        page.goto(address + PATTERN)
        page.wait_for_selector("form[data-ready]", timeout=WAIT_MS)
        assert not page.get_by_role("status").filter(has_text="drafts").count(), "the lays came with the shop"

        assert len(chart_cells(page, "23.2")) == 1 and chart_cells(page, "23.5") == []
        make(shop, chart)
        page.wait_for_function(NUMBER_IN_A_CELL, arg="23.5", timeout=WAIT_MS)
        assert chart_cells(page, "23.2") == []
        assert "every seam fits" in desk.boltside("check", shop)

        for step in options:
            make(shop, step)
        expect(page.get_by_role("radio", name=BOTH, exact=True)).to_have_count(1, timeout=WAIT_MS)
        page.wait_for_selector("form[data-ready]", timeout=WAIT_MS)
        choose(page, BOTH)
        assert amount(page, "outer") and amount(page, "backing")

        lays = (shop / "data" / "patterns" / "spoondrift" / "lays.json").read_bytes()
        make(shop, narrower)
        drafts = page.get_by_role("status").filter(has_text="run: boltside lay spoondrift")
        expect(drafts).to_be_visible(timeout=WAIT_MS)
        assert (shop / "data" / "patterns" / "spoondrift" / "lays.json").read_bytes() == lays

    commands = re.findall(r"^    boltside (lay|check|build)$", readme, re.MULTILINE)
    assert commands == ["check", "lay", "check", "build"]
    for command in commands[1:]:
        desk.boltside(command, shop)
    site = shop / "site"
    texts = [path for path in site.rglob("*") if path.suffix in (".html", ".js", ".mjs", ".css", ".json")]
    assert len(texts) > 10
    assert [path for path in texts if "boltside-live" in path.read_text(encoding="utf-8")] == []

    with desk.serving(shop, "--no-build") as address:
        page.goto(address + PATTERN)
        page.wait_for_selector("form[data-ready]", timeout=WAIT_MS)
        choose(page, BOTH)
        assert amount(page, "outer") and amount(page, "backing")
        assert page.get_by_role("status").filter(has_text="drafts").count() == 0
    context.close()


def test_the_wheel_leaves_out_what_is_not_needed(desk: Desk) -> None:
    """Neither the demo shop nor tests: only what a designer's shop is made with."""
    (site_packages,) = (desk.place / "env").glob("[Ll]ib/**/site-packages") or [None]
    package = site_packages / "boltside"
    names = {path.relative_to(package).as_posix() for path in package.rglob("*") if path.is_file()}
    assert {"theme/main.html", "browser/panel.mjs", "calculators/door.py", "new/template/gitignore"} <= names
    runtime = {"phone/runtime/python.bin", "phone/runtime/calculators.bin", "phone/runtime/prepared.json"}
    assert {name for name in names if name.startswith("phone/runtime/")} == runtime
    assert [name for name in names if re.search("ferrylight|millrace|breakwater|windlass|wrackline|test_", name)] == []
