"""The command: exit codes, everything said, nothing written when something is wrong."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from boltside.cli import count_of, main

ROOT = Path(__file__).parents[1]


def copy_of_shop(place: Path) -> Path:
    """The demo shop's data and configuration, without its stored lays' journal."""
    shutil.copytree(ROOT / "data", place / "data", ignore=shutil.ignore_patterns("drafting", "benchmark", "*.journal"))
    shutil.copy(ROOT / "mkdocs.yml", place / "mkdocs.yml")
    shutil.copytree(ROOT / "site_src", place / "site_src", ignore=shutil.ignore_patterns("boltside", "handbook"))
    return place


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
    assert [line.split(":")[0] for line in said.out.splitlines()] == ["breakwater", "ferrylight", "millrace"]


def test_check_lists_every_problem_and_writes_nothing(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    shop = copy_of_shop(tmp_path)
    ferrylight = shop / "data" / "patterns" / "ferrylight" / "pattern.yaml"
    ferrylight.write_text(ferrylight.read_text(encoding="utf-8").replace("garment:", "garmet:"), encoding="utf-8")
    millrace = shop / "data" / "patterns" / "millrace" / "pattern.yaml"
    millrace.write_text(millrace.read_text(encoding="utf-8").replace("edition:", "editon:"), encoding="utf-8")
    before = files_under(shop)
    for command in ("check", "build", "lay"):
        assert main([command, "--shop", str(shop)]) == 1
        said = capsys.readouterr()
        assert ("ferrylight/pattern.yaml" in said.err and "did you mean `garment`" in said.err.lower()) or (
            "garment" in said.err
        )
        assert "millrace/pattern.yaml" in said.err
        assert said.err.rstrip().endswith("problems; nothing was written.")
        assert files_under(shop) == before


def test_a_build_with_missing_lays_publishes_nothing_and_says_which(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    shop = copy_of_shop(tmp_path)
    (shop / "data" / "patterns" / "millrace" / "lays.json").unlink()
    (shop / "site").mkdir()
    (shop / "site" / "index.html").write_text("the old shop", encoding="utf-8")
    assert main(["build", "--shop", str(shop)]) == 1
    said = capsys.readouterr()
    assert "run `boltside lay millrace`" in said.err
    assert [path.name for path in (shop / "site").iterdir()] == ["index.html"]
    assert (shop / "site" / "index.html").read_text(encoding="utf-8") == "the old shop"


def test_stored_lays_verify_and_a_tampered_one_is_named(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    shop = copy_of_shop(tmp_path)
    lays = shop / "data" / "patterns" / "millrace" / "lays.json"
    assert main(["lay", "--verify", "millrace", "--shop", str(shop)]) == 0
    assert "every lay is there and right" in capsys.readouterr().out
    lines = lays.read_text(encoding="utf-8").splitlines(keepends=True)
    tampered = lines[2].replace('"length":', '"length":-')
    assert tampered != lines[2]
    lays.write_text("".join([*lines[:2], tampered, *lines[3:]]), encoding="utf-8")
    assert main(["lay", "--verify", "millrace", "--shop", str(shop)]) == 1
    assert "the stored lay is wrong" in capsys.readouterr().out


def test_an_unknown_pattern_is_a_plain_sentence(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["lay", "--shop", str(ROOT), "no-such"]) == 1
    assert capsys.readouterr().err == "there is no pattern 'no-such'; there are ferrylight, millrace\n"


def test_a_misspelt_pattern_is_refused_by_check_and_the_near_one_named(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", "--shop", str(ROOT), "ferrylite"]) == 1
    assert capsys.readouterr().err.endswith("; did you mean 'ferrylight'?\n")


def test_a_seam_that_does_not_fit_is_named_once_with_its_place_and_sizes(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    shop = copy_of_shop(tmp_path)
    file = shop / "data" / "patterns" / "millrace" / "pattern.yaml"
    text = file.read_text(encoding="utf-8")
    before, seams = text.split("\nseams:\n", 1)
    first = seams.splitlines()[0]
    name = first.split("name: ")[1].split(",")[0]
    rest = seams.split("\n\n", 1)[1]
    file.write_text(f"{before}\nseams:\n{first[:-1]}, ease_mm: [900, 901]}}\n\n{rest}", encoding="utf-8")
    assert main(["check", "--shop", str(shop), "millrace"]) == 1
    said = capsys.readouterr().err.splitlines()
    line = before.count("\n") + 3
    assert said[1:] == ["", "1 problem; nothing was written."]
    assert said[0].startswith(f"Error: {file.as_posix()}:{line}:5: [seam-lengths] seen seam `{name}`: ")
    assert "in size 86 with fullness half (also in 92, 98, 104, 110, 116, 122, 128); expected " in said[0]
    assert said[0].endswith("true the outlines, or say in the seam which ease or gather ratio is meant")


def test_counting_in_words() -> None:
    assert (count_of(1, "problem"), count_of(2, "problem")) == ("1 problem", "2 problems")
