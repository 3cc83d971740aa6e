"""A new shop: whole or not at all, never over anything, and everything in it reads clean."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
import yaml

from boltside.check import check_patterns
from boltside.cli import main
from boltside.new.make import TEMPLATE, NotMade, label_of, make_shop, without_links_elsewhere
from boltside.read.folder import read_patterns
from boltside.read.shop import read_shop

from .draw_template import TARGET, sheet
from .first_steps import follow, steps

ROOT = Path(__file__).parents[2]


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    return make_shop(tmp_path / "my-shop", label="Little Harbour & Co")


def files_under(folder: Path) -> list[str]:
    return sorted(path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file())


def test_the_shop_has_all_that_a_shop_needs(shop: Path) -> None:
    written = files_under(shop)
    assert set(written) >= {
        ".gitignore", "README.md", "mkdocs.yml", "data/shop.yaml", "data/body_charts/my-chart.csv",
        "data/patterns/spoondrift/pattern.yaml", "data/patterns/spoondrift/pieces.svg",
        "data/patterns/spoondrift/steps.md", "pages/index.md",
        "pages/remnants.md", "pages/measuring.md", "pages/buying-cloth.md",
    }  # fmt: skip
    assert sorted(path.name for path in shop.parent.iterdir()) == ["my-shop"]


def test_the_name_is_put_in_everywhere(shop: Path) -> None:
    texts = {path: (shop / path).read_text(encoding="utf-8") for path in files_under(shop)}
    assert [path for path, text in texts.items() if "@@" in text] == []
    assert yaml.safe_load(texts["mkdocs.yml"])["site_name"] == "Little Harbour & Co"
    assert read_shop(shop / "data").label == "Little Harbour & Co"
    assert texts["README.md"].startswith("# Little Harbour & Co\n")


@pytest.mark.parametrize(
    ("folder", "label"), [("little-harbour", "Little Harbour"), ("sew_small", "Sew Small"), ("Écume", "Écume")]
)
def test_without_a_name_the_folder_gives_it(tmp_path: Path, folder: str, label: str) -> None:
    assert label_of(tmp_path / folder) == label
    assert read_shop(make_shop(tmp_path / folder) / "data").label == label


@pytest.mark.parametrize("label", ["", " ", "<b>", 'a"b', "a\nb", "-", "@@LABEL@@", "x" * 61, "a: b", "{{ x }}"])
def test_a_name_that_can_break_a_file_is_refused(tmp_path: Path, label: str) -> None:
    with pytest.raises(NotMade, match="can't be used"):
        make_shop(tmp_path / "shop", label=label)
    assert list(tmp_path.iterdir()) == []


def test_an_empty_folder_is_filled(tmp_path: Path) -> None:
    (tmp_path / "shop").mkdir()
    assert files_under(make_shop(tmp_path / "shop")) == files_under(make_shop(tmp_path / "other"))
    assert sorted(path.name for path in tmp_path.iterdir()) == ["other", "shop"]


def test_nothing_that_is_there_is_touched(shop: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (shop / "README.md").write_text("mine", encoding="utf-8")
    (shop / "pages" / "index.md").unlink()
    before = files_under(shop)
    assert main(["new", str(shop)]) == 1
    assert "is not empty; nothing in it was touched" in capsys.readouterr().err
    assert files_under(shop) == before
    assert (shop / "README.md").read_text(encoding="utf-8") == "mine"


def test_a_file_of_that_name_is_not_touched(tmp_path: Path) -> None:
    (tmp_path / "shop").write_text("mine", encoding="utf-8")
    with pytest.raises(NotMade, match="it is no folder"):
        make_shop(tmp_path / "shop")
    assert (tmp_path / "shop").read_text(encoding="utf-8") == "mine"


def test_a_place_that_can_not_be_written_is_said(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("x", encoding="utf-8")
    with pytest.raises(NotMade, match="choose another folder"):
        make_shop(tmp_path / "file" / "shop")


def test_an_interrupted_run_leaves_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def interrupted(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("boltside.new.make.put_in_place", interrupted)
    with pytest.raises(KeyboardInterrupt):
        make_shop(tmp_path / "shop")
    assert list(tmp_path.iterdir()) == []


def test_the_command_says_what_to_do_next(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["new", str(tmp_path / "my shop")]) == 0
    said = capsys.readouterr().out
    assert f'cd "{tmp_path / "my shop"}"\n  boltside serve' in said
    assert str(tmp_path / "my shop" / "README.md") in said


# --- what is in it -----------------------------------------------------------------------------------------------


def test_the_pattern_reads_and_sews_without_a_word(shop: Path) -> None:
    (said,) = check_patterns(shop / "data")
    assert said.startswith("spoondrift: 3 sizes, 3 pieces, ") and said.endswith("every seam fits")


def test_the_drawing_is_the_one_that_is_drafted() -> None:
    assert TARGET.read_text(encoding="utf-8") == sheet()


def test_the_pattern_is_as_small_as_a_first_one_should_be(shop: Path) -> None:
    (pattern,) = read_patterns(shop / "data")
    assert (len(pattern.sizes), len(pattern.choices), len(pattern.cloths)) == (3, 2, 2)
    assert all(len(cloth.widths_mm) <= 2 for cloth in pattern.cloths)


def test_every_key_in_the_pattern_file_is_explained_or_plain() -> None:
    """Each section and each setting at the top has words for a designer with little code."""
    text = (TEMPLATE / "data" / "patterns" / "spoondrift" / "pattern.yaml").read_text(encoding="utf-8")
    lines = text.splitlines()
    plain = {"name", "summary", "garment"}
    for number, line in enumerate(lines):
        key = re.match(r"([a-z_]+):", line)
        if key and key[1] not in plain:
            assert "#" in line or lines[number - 1].startswith("#"), line


def test_no_link_on_its_pages_leads_nowhere(shop: Path) -> None:
    pages = list((shop / "pages").glob("*.md"))
    known = {path.name for path in pages}
    links = [
        (path.name, page)
        for path in pages
        for page in re.findall(r"\]\(([\w-]+\.md)[^)]*\)", path.read_text(encoding="utf-8"))
    ]
    assert [link for link in links if link[1] not in known] == []


def test_only_sentences_with_links_elsewhere_are_left_out() -> None:
    text = "Keep. [Ours](kept.md) stays. [Theirs](gone.md#x) has the rest. And this.\n"
    assert without_links_elsewhere(text, {"kept.md"}) == "Keep. [Ours](kept.md) stays. And this.\n"


def test_the_menu_names_pages_that_are_there(shop: Path) -> None:
    config = yaml.safe_load((shop / "mkdocs.yml").read_text(encoding="utf-8"))
    named = [page for entry in config["nav"] for page in entry.values()]
    assert named and [page for page in named if not (shop / config["docs_dir"] / page).is_file()] == []


def test_nothing_of_the_demo_shop_is_in_it(shop: Path) -> None:
    texts = {path: (shop / path).read_text(encoding="utf-8") for path in files_under(shop)}
    demo = re.compile("thistle quay|ferrylight|millrace|breakwater|windlass|wrackline", re.IGNORECASE)
    assert [path for path, text in texts.items() if demo.search(text)] == []


# --- its README --------------------------------------------------------------------------------------------------


def test_the_readmes_changes_can_be_made_as_they_are_written(shop: Path) -> None:
    assert len(steps(shop)) == 5
    follow(shop)
    (pattern,) = read_patterns(shop / "data")
    cloths = next(choice for choice in pattern.choices if choice.name == "pocket-cloth")
    assert [alternative.name for alternative in cloths.alternatives] == ["printed", "towelling", "both"]
    assert pattern.body_chart.rows["86"]["neck"] == 235
    assert pattern.cloths[0].widths_mm == (900, 1100, 1400)
    (said,) = check_patterns(shop / "data")
    assert "every seam fits" in said


def test_the_readmes_commands_exist(shop: Path) -> None:
    from boltside.cli import parser

    text = (shop / "README.md").read_text(encoding="utf-8")
    commands = re.findall(r"^    boltside (.+)$", text, re.MULTILINE)
    assert {command.split()[0] for command in commands} == {"serve", "check", "lay", "build"}
    for command in commands:
        parser().parse_args(command.split())
