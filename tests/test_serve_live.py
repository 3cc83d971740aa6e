"""What is built anew after which change, and what is shown while something is wrong or missing.

The lays themselves are not the matter here: a ready sheet stands in for what is made of a pattern.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from boltside.new.make import make_shop
from boltside.plan import LaysMissing
from boltside.read.folder import read_patterns
from boltside.serve import live, sheets
from boltside.serve.drafts import Drafts, drafts_folder
from boltside.serve.live import CONFIG, LiveShop
from boltside.serve.sheets import Sheets
from boltside.serve.shown import Showing, Shown
from boltside.shop_lays import ShopPattern
from boltside.spec.sheet import make_sheet

ROOT = Path(__file__).parents[1]
SHEET = ROOT / "tests" / "cases" / "sheet_example.json"


class Stand:
    """A new shop that is being shown, with notes of what was made."""

    def __init__(self, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        self.dir = make_shop(tmp_path / "shop", label="Try").resolve()
        self.calls: list[Path] = []
        self.lacking = False
        monkeypatch.setenv("BOLTSIDE_CACHE", str(ROOT / ".cache" / "boltside"))
        monkeypatch.setattr(sheets, "shop_pattern", self.make)
        self.said: list[str] = []
        self.drafts = NoDrafts(self.dir)
        self.shop = LiveShop(
            shop_dir=self.dir, say=self.said.append, shown=Shown(Showing()), drafts=self.drafts,
            sheets=Sheets(self.dir / "data"),
        )  # fmt: skip

    def make(self, pattern: object, folder: Path, **_: object) -> ShopPattern:
        self.calls.append(folder)
        if self.lacking and folder.is_relative_to(self.dir / "data"):
            raise LaysMissing("a lay is missing")
        sheet: dict[str, Any] = json.loads(SHEET.read_text(encoding="utf-8"))
        return ShopPattern(sheet=sheet | {"photographs": [], "sale": None, "draft_lays": 0}, lay_files={})

    def edit(self, name: str, find: str, write: str) -> Path:
        path = self.dir / name
        text = path.read_text(encoding="utf-8")
        assert find in text
        path.write_text(text.replace(find, write), encoding="utf-8")
        return path

    def renew(self, *changed: Path) -> Showing:
        self.shop.renew(frozenset(changed) if changed else None)
        return self.shop.shown.now()[1]

    def page(self, place: str = "index.html") -> str:
        folder = self.shop.shown.now()[1].folder
        assert folder is not None
        return (folder / place).read_text(encoding="utf-8")


class NoDrafts(Drafts):
    """Notes what drafts were asked for instead of making them."""

    def __init__(self, shop_dir: Path) -> None:
        super().__init__(shop_dir)
        self.asked: list[tuple[str, ...]] = []
        self.outcome: str | None = None

    def start(self, patterns: Any) -> None:
        self.asked.append(tuple(patterns))

    def ended(self) -> str | None:
        outcome, self.outcome = self.outcome, None
        return outcome


@pytest.fixture
def stand(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Stand:
    return Stand(tmp_path, monkeypatch)


def test_a_page_change_makes_no_pattern_anew(stand: Stand) -> None:
    showing = stand.renew()
    assert showing.instead is None, stand.said
    assert len(stand.calls) == 1
    article = dict(stand.shop.articles)
    for words in ("Hello there", "And again"):
        stand.edit("pages/index.md", "Each pattern says", f"{words}. Each pattern says")
        showing = stand.renew(stand.dir / "pages" / "index.md")
        assert showing.instead is None and words in stand.page()
    assert len(stand.calls) == 1
    assert {name: made[1] for name, made in article.items()} == {n: m[1] for n, m in stand.shop.articles.items()}
    assert len(list((stand.dir / ".cache" / "boltside" / "shown").iterdir())) == 2


def test_nothing_of_the_shop_is_written_to(stand: Stand) -> None:
    before = {path for path in stand.dir.rglob("*") if ".cache" not in path.parts}
    stand.renew()
    assert {path for path in stand.dir.rglob("*") if ".cache" not in path.parts} == before


def test_a_change_of_the_pattern_makes_it_anew_and_an_unchanged_one_is_kept(stand: Stand) -> None:
    stand.renew()
    chart = stand.edit("data/body_charts/my-chart.csv", "860,232", "860,236")
    stand.renew(chart)
    assert len(stand.calls) == 2
    notes = stand.dir / "data" / "notes.txt"
    notes.write_text("for myself", encoding="utf-8")
    stand.renew(notes)
    assert len(stand.calls) == 2


def test_all_problems_are_shown_instead_and_the_shop_comes_back(stand: Stand) -> None:
    stand.renew()
    pattern = stand.edit("data/patterns/spoondrift/pattern.yaml", "garment: bib", "garmet: bib")
    stand.edit("data/patterns/spoondrift/pattern.yaml", "minutes: 60 ", "minutes: <b>long</b> ")
    showing = stand.renew(pattern)
    assert showing.instead is not None
    assert "pattern.yaml:6:1" in showing.instead and "pattern.yaml:9:10" in showing.instead
    assert "&lt;b&gt;long" in showing.instead and "<b>long" not in showing.instead
    assert showing.folder is not None  # an open page may still be loading from it
    stand.edit("data/patterns/spoondrift/pattern.yaml", "garmet: bib", "garment: bib")
    stand.edit("data/patterns/spoondrift/pattern.yaml", "<b>long</b>", "60")
    assert stand.renew(pattern).instead is None


@pytest.mark.parametrize(
    ("find", "write", "seen"),
    [("  - boltside\n", "  - search\n", "under `plugins:`"), ("docs_dir: pages", "docs_dir: none", "none")],
)
def test_wrong_settings_are_shown_too(stand: Stand, find: str, write: str, seen: str) -> None:
    showing = stand.renew()
    settings = stand.edit(CONFIG, find, write)
    showing = stand.renew(settings)
    assert showing.instead is not None and seen in showing.instead
    stand.edit(CONFIG, write, find)
    assert stand.renew(settings).instead is None


def test_an_error_of_our_own_ends_nothing(stand: Stand, monkeypatch: pytest.MonkeyPatch) -> None:
    stand.renew()

    def stumble(*_: object, **__: object) -> None:
        raise ZeroDivisionError("<oops>")

    monkeypatch.setattr(live, "collect", stumble)
    showing = stand.renew(stand.dir / "data" / "shop.yaml")
    assert showing.instead is not None and "not in your files" in showing.instead and "&lt;oops&gt;" in showing.instead


# --- lays that are not there -------------------------------------------------------------------------------------


def test_a_new_pattern_waits_for_its_first_drafts(stand: Stand) -> None:
    stand.lacking = True
    showing = stand.renew()
    assert showing.instead is not None and "the first figures are being worked out" in showing.instead
    assert stand.drafts.asked == [("spoondrift",)]


def test_changed_outlines_show_a_page_that_says_so_and_drafts_follow(stand: Stand) -> None:
    stand.renew()
    stand.lacking = True
    drawing = stand.edit("data/patterns/spoondrift/pieces.svg", 'd="M30,90 L30,210"', 'd="M31,90 L31,210"')
    showing = stand.renew(drawing)
    assert showing.instead is None
    (note,) = showing.notes
    assert note.startswith("spoondrift: figures are being worked out anew: drafts.")
    assert stand.drafts.asked == [("spoondrift",)]
    drafts_folder(stand.dir / "data", "spoondrift").mkdir(parents=True)
    stand.drafts.outcome = ""
    stand.shop.take_drafts()
    assert stand.shop.shown.now()[1].notes == ()
    assert len(stand.drafts.asked) == 1


def test_lengths_from_before_are_all_that_a_sheet_was_given(tmp_path: Path) -> None:
    data_dir = make_shop(tmp_path / "shop", label="Try") / "data"
    (pattern,) = read_patterns(data_dir)
    lengths = {"flat": {"without": {size: [[[1400, 450, 1, 2]]] for size in pattern.sizes}}}
    published: Any = {cloth.name: {"sets": [["body.print"]], "lengths": lengths} for cloth in pattern.cloths}
    assert sheets.lays_in(make_sheet(pattern, published)) == published


def test_drafts_that_fail_are_said_once_and_tried_again_after_the_next_change(stand: Stand) -> None:
    stand.lacking = True
    stand.renew()
    stand.drafts.outcome = "too wide for <every> cloth"
    stand.shop.take_drafts()
    showing = stand.shop.shown.now()[1]
    assert showing.instead is not None and "No drafts: too wide for &lt;every&gt; cloth" in showing.instead
    assert len(stand.drafts.asked) == 1


def test_without_drafts_nothing_is_started(stand: Stand) -> None:
    stand.shop.drafts = None
    stand.lacking = True
    stand.renew()
    stand.shop.take_drafts()
    assert stand.drafts.asked == []
