"""Chapters of films: files that players can read, with the steps of the set and no others, one behind the other."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest

from boltside.chapters import NoChapters, write_chapters
from boltside.cli import main
from boltside.pages.chapters import chapter_files, chapter_links, chapters_of, file_name
from boltside.pages.guide import Guide, ShownStep

GARMENT = Path(__file__).parents[1] / "garment" / "data"
SHOP = Path(__file__).parents[2]
CUE = re.compile(r"(\d\d):(\d\d):(\d\d)\.000 --> (\d\d):(\d\d):(\d\d)\.000\n(.+)")


def step(number: int, title: str, film: str | None, from_s: int = 0, to_s: int | None = None) -> ShownStep:
    told = None if film is None else {"file": None, "address": film, "from_s": from_s, "to_s": to_s}
    return ShownStep(number=number, place=number, title=title, html="", up="", sews=(), uses=(), techniques=(),
                     drawing=None, film=told, minutes=None)  # fmt: skip


def guide(*steps: ShownStep) -> Guide:
    return Guide(title="How to sew Cap", size="92", chosen={}, introduction_html="", steps=steps)


def cues(text: str) -> list[tuple[int, int, str]]:
    """Read as the W3C's WebVTT has it: the signature, then blocks parted by empty lines, a cue's times and its text."""
    head, *blocks = text.rstrip("\n").split("\n\n")
    assert head == "WEBVTT"
    found = []
    for block in blocks:
        if block.startswith("NOTE "):
            continue
        match = CUE.fullmatch(block)
        assert match, block
        numbers = [int(one) for one in match.groups()[:6]]
        begin, end = (hours * 3600 + minutes * 60 + seconds for hours, minutes, seconds in (numbers[:3], numbers[3:]))
        found.append((begin, end, match[7]))
    return found


def test_steps_stand_in_the_order_of_the_film_and_end_where_the_next_begins() -> None:
    steps = [step(1, "Hem", "a", 200, 500), step(2, "Join", None), step(3, "Turn", "a", 95, 260), step(4, "Press", "b")]
    films = chapters_of(guide(*steps))
    assert cues(films["a"]) == [(95, 200, "3. Turn"), (200, 500, "1. Hem")]
    assert cues(films["b"]) == [(0, 600, "4. Press")]
    assert list(films) == ["a", "b"]


def test_two_steps_of_one_second_leave_no_empty_cue() -> None:
    assert cues(chapters_of(guide(step(1, "A", "f", 5, 9), step(2, "B", "f", 5, 9)))["f"]) == [(5, 9, "2. B")]


@pytest.mark.parametrize("title", ["a --> b", "<b>bold</b> & so", "two\n\nblocks", "WEBVTT"])
def test_no_title_is_anything_but_words(title: str) -> None:
    (_, _, said), = cues(chapters_of(guide(step(1, title, "f", 3, 4)))["f"])
    assert "-->" not in said and "<" not in said
    words = said.replace("&lt;", "<").replace("&gt;", ">").replace("&amp;", "&")
    assert words == f"1. {' '.join(title.split())}"


def test_films_of_one_name_get_files_of_their_own() -> None:
    names: dict[str, str] = {}
    for film in ("a/collar.mp4", "b/collar.mp4", "a/collar.mp4", "https://a.example/?"):
        names[file_name(film, names)] = film
    assert names == {"collar.vtt": "a/collar.mp4", "collar-2.vtt": "b/collar.mp4", "film.vtt": "https://a.example/?"}


def test_the_command_writes_those_of_any_set(tmp_path: Path) -> None:
    chosen = "opening=back,length=waist"
    (place,) = write_chapters(GARMENT, "oblong", size="92", choices=chosen, folder=tmp_path / "films")
    assert place == tmp_path / "films" / "oblong.vtt"
    ((begin, end, title),) = cues(place.read_text("utf-8"))
    assert (begin, end) == (95, 140) and title.endswith(". Draw in the waist elastic")


def test_a_set_without_films_is_told_so(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    with pytest.raises(NoChapters):
        write_chapters(SHOP / "data", "millrace", size=None, choices="", folder=tmp_path)
    assert main(["chapters", "millrace", "--shop", str(SHOP), "--out", str(tmp_path)]) == 1
    assert "no step of Millrace names a film" in capsys.readouterr().err
    assert list(tmp_path.iterdir()) == []


def test_a_page_links_the_files_that_a_build_makes() -> None:
    film = {"file": "films/cap.mp4", "address": None, "from_s": 1, "to_s": 2}
    sheet: dict[str, Any] = {
        "name": "Cap", "sizes": ["92"], "drawing": {"size": "92"}, "choices": [], "rules": [], "words": [],
        "cloths": [],
        "introduction_html": "", "steps": [{"title": "Sew", "html": "", "when": [], "film": film}],
    }  # fmt: skip
    assert list(chapter_files(sheet)) == ["chapters/cap.vtt"]
    assert 'href="chapters/cap.vtt"' in str(chapter_links(sheet))
    sheet["steps"][0]["film"] = None
    assert chapter_files(sheet) == {} and chapter_links(sheet) == ""
