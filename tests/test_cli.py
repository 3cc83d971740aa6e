"""The command: exit codes, everything said, nothing written when something is wrong."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from boltside.cli import count_of, counted, main, shown_folder
from boltside.errors import Problem, ProblemsFound, Severity
from boltside.new.make import make_shop

ROOT = Path(__file__).parents[1]


@pytest.fixture
def shop(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A new shop, whose one pattern comes with its lays, with a second pattern like it."""
    monkeypatch.setenv("BOLTSIDE_CACHE", str(ROOT / ".cache" / "boltside"))
    shop = make_shop(tmp_path / "shop", label="Try")
    patterns = shop / "data" / "patterns"
    shutil.copytree(patterns / "spoondrift", patterns / "seadrift")
    return shop


def edit(file: Path, find: str, write: str) -> Path:
    text = file.read_text(encoding="utf-8")
    assert text.count(find) == 1
    file.write_text(text.replace(find, write), encoding="utf-8")
    return file


def files_under(place: Path) -> dict[str, bytes]:
    return {
        str(path.relative_to(place)): path.read_bytes()
        for path in sorted(place.rglob("*"))
        if path.is_file() and ".cache" not in path.parts
    }


def test_check_of_the_demo_shop_is_clean(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", "--shop", str(ROOT)]) == 0
    said = capsys.readouterr()
    assert said.err == ""
    names = [line.split(":")[0] for line in said.out.splitlines()]
    assert names == ["breakwater", "ferrylight", "millrace", "windlass", "wrackline"]


def test_a_build_without_paper_guides_says_so_in_one_line(
    shop: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    from boltside import publish
    from boltside.paper import shop_guides

    monkeypatch.setattr(publish, "publish", lambda config, place: place)
    for reason, lines in (("", 1), ("The paper guides are left out. Install this.", 2)):
        monkeypatch.setattr(shop_guides, "why_none", lambda reason=reason: reason)
        assert main(["build", "--shop", str(shop), "--site", "there"]) == 0
        said = capsys.readouterr().out.splitlines()
        assert len(said) == lines and said[:-1] == [reason] * (lines - 1)


def test_check_lists_every_problem_and_writes_nothing(shop: Path, capsys: pytest.CaptureFixture[str]) -> None:
    edit(shop / "data" / "patterns" / "spoondrift" / "pattern.yaml", "garment:", "garmet:")
    edit(shop / "data" / "patterns" / "seadrift" / "pattern.yaml", "edition:", "editon:")
    before = files_under(shop)
    for command in ("check", "build", "lay"):
        assert main([command, "--shop", str(shop)]) == 1
        said = capsys.readouterr()
        assert "spoondrift/pattern.yaml" in said.err and "did you mean `garment`" in said.err
        assert "seadrift/pattern.yaml" in said.err and "did you mean `edition`" in said.err
        assert said.err.rstrip().endswith("problems; nothing was written.")
        assert files_under(shop) == before


def test_a_build_with_missing_lays_publishes_nothing_and_says_which(
    shop: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (shop / "data" / "patterns" / "seadrift" / "lays.json").unlink()
    (shop / "site").mkdir()
    (shop / "site" / "index.html").write_text("the old shop", encoding="utf-8")
    assert main(["build", "--shop", str(shop)]) == 1
    said = capsys.readouterr()
    assert "run `boltside lay seadrift`" in said.err and "run `boltside lay spoondrift`" not in said.err
    assert [path.name for path in (shop / "site").iterdir()] == ["index.html"]
    assert (shop / "site" / "index.html").read_text(encoding="utf-8") == "the old shop"


def test_a_new_shop_is_built_and_its_own_styles_and_scripts_come_along(
    shop: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    shutil.rmtree(shop / "data" / "patterns" / "seadrift")
    assert main(["build", "--shop", str(shop)]) == 0
    said = capsys.readouterr()
    assert said.out.startswith("The shop is in ") and said.err == ""
    made = files_under(shop / "site")
    wanted = {"index.html", "404.html", "patterns/spoondrift/index.html", "assets/style.css", "shop/panel.mjs"}
    assert wanted <= set(made)
    page = made["patterns/spoondrift/index.html"].decode()
    assert "Content-Security-Policy" in page and "assets/style.css" in page and "Printed cotton" in page
    assert "<h1" in made["measuring/index.html"].decode()


def test_stored_lays_verify_and_a_tampered_one_is_named(shop: Path, capsys: pytest.CaptureFixture[str]) -> None:
    lays = shop / "data" / "patterns" / "spoondrift" / "lays.json"
    assert main(["lay", "--verify", "spoondrift", "--shop", str(shop)]) == 0
    assert "every stored lay is right" in capsys.readouterr().out
    lines = lays.read_text(encoding="utf-8").splitlines(keepends=True)
    place = next(number for number, line in enumerate(lines) if '"length":' in line)
    lines[place] = lines[place].replace('"length":', '"length":-')
    lays.write_text("".join(lines), encoding="utf-8")
    assert main(["lay", "--verify", "spoondrift", "--shop", str(shop)]) == 1
    assert "the stored lay is wrong" in capsys.readouterr().out


def test_an_unknown_pattern_is_a_plain_sentence(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["lay", "--shop", str(ROOT), "no-such"]) == 1
    assert capsys.readouterr().err.startswith("there is no pattern 'no-such'; there are ")


def test_a_misspelt_pattern_is_refused_by_check_and_the_near_one_named(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", "--shop", str(ROOT), "ferrylite"]) == 1
    assert capsys.readouterr().err.endswith("; did you mean 'ferrylight'?\n")


def test_a_seam_that_does_not_fit_is_named_once_with_its_place_and_sizes(
    shop: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = shop / "data" / "patterns" / "spoondrift" / "pattern.yaml"
    edit(file, "to: [body.shoulder]}", "to: [body.shoulder], ease_mm: [900, 901]}")
    line = file.read_text(encoding="utf-8").split("ease_mm: [900")[0].count("\n") + 1
    assert main(["check", "--shop", str(shop), "spoondrift"]) == 1
    said = [line for line in capsys.readouterr().err.splitlines() if "strap" in line]
    assert len(said) == 1
    assert said[0].startswith(f"Error: {file}:{line}:") and "true the outlines" in said[0] and "86" in said[0]


# --- where there is no shop --------------------------------------------------------------------------------------


@pytest.mark.parametrize("command", ["check", "lay", "build", "serve"])
def test_where_there_is_no_shop_the_way_to_one_is_said(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], command: str
) -> None:
    assert main([command, "--shop", str(tmp_path)]) == 1
    said = capsys.readouterr().err
    assert said.startswith(f"there is no shop in {tmp_path}: ") and "boltside new my-shop" in said
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("command", ["build", "serve"])
def test_missing_settings_are_said(shop: Path, capsys: pytest.CaptureFixture[str], command: str) -> None:
    (shop / "mkdocs.yml").unlink()
    assert main([command, "--shop", str(shop)]) == 1
    assert "mkdocs.yml is not there" in capsys.readouterr().err


def test_showing_what_was_never_built_is_refused(shop: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["serve", "--no-build", "--shop", str(shop)]) == 1
    assert "make it with: boltside build" in capsys.readouterr().err


def test_a_folder_with_spaces_is_quoted() -> None:
    assert shown_folder(Path("my shop")) == '"my shop"' and shown_folder(Path("my-shop")) == "my-shop"


def test_counting_in_words() -> None:
    assert (count_of(1, "problem"), count_of(2, "problem")) == ("1 problem", "2 problems")
    assert count_of(2, "wolf", "wolves") == "2 wolves"


def test_warnings_are_counted_beside_the_errors() -> None:
    def one(severity: Severity, line: int) -> Problem:
        return Problem(code="wrong-type", path="a", line=line, column=1, seen="x", expected="y", mend="z",
                       severity=severity)  # fmt: skip

    assert counted(ProblemsFound([one("error", 1), one("error", 2)])) == "2 problems"
    assert counted(ProblemsFound([one("error", 1), one("warning", 2)])) == "1 problem (and 1 warning or hint)"
