"""`boltside check` as a function: everything at once, places, severities, and nothing written."""

from __future__ import annotations

from pathlib import Path

import pytest
from broken.cases import YAML
from broken.folders import BASE, broken_data, snapshot

from boltside.check import check_patterns, examine
from boltside.chosen import NoSuchPattern
from boltside.errors import ProblemsFound

TESTS = Path(__file__).parent


def test_the_good_base_is_one_line() -> None:
    (line,) = check_patterns(BASE)
    assert line == "plain: 2 sizes, 3 pieces, 2 seams in 6 forms: every seam fits"


def test_warnings_and_advice_are_printed_and_do_not_fail(tmp_path: Path) -> None:
    """A rule leaves one alternative without any combination; a choice that nothing asks about changes nothing."""
    changes = (
        ("needs: {opening: front}", "excludes: {opening: [front, back]}"),
        ("choices:\n", "choices:\n  lace: {title: Lace, default: a, alternatives: {a: {title: A}, b: {title: B}}}\n"),
    )
    data_dir = broken_data({YAML: changes}, tmp_path / "data")
    before = snapshot(tmp_path)
    lines = list(check_patterns(data_dir))
    assert [line.split(" ")[0] for line in lines] == ["Advice:", "Warning:", "plain:"]
    assert [line.split("[")[1].split("]")[0] for line in lines[:2]] == [
        "advice: changes-nothing",
        "warning: never-possible",
    ]
    assert snapshot(tmp_path) == before


def test_errors_come_with_the_warnings_and_in_the_order_of_the_file(tmp_path: Path) -> None:
    changes = (
        ("needs: {opening: front}", "excludes: {opening: [front, back]}"),
        ("to: [back.side], when: {band: none}}", "to: [back.hem], when: {band: none}}"),
    )
    data_dir = broken_data({YAML: changes}, tmp_path / "data")
    with pytest.raises(ProblemsFound) as found:
        list(check_patterns(data_dir))
    assert [(one.severity, one.code) for one in found.value.problems] == [
        ("warning", "never-possible"),
        ("error", "seam-lengths"),
    ]
    lines = [one.line for one in found.value.problems]
    assert lines == sorted(lines)


def test_a_seam_is_found_where_it_is_written_however_it_is_written(tmp_path: Path) -> None:
    seam = "  - {name: side, join: [front.side], to: [back.side], when: {band: none}}\n"
    as_block = (
        "  # which sews front to back\n"
        "  -\n"
        '    "name": "side"\n'
        "    join: [front.side]\n"
        "    to: [back.side]\n"
        "    ease_mm: [50, 60]\n"
        "    when: {band: none}\n"
    )
    data_dir = broken_data({YAML: ((seam, as_block),)}, tmp_path / "data")
    (problem,) = examine(data_dir).problems
    text = (data_dir / YAML).read_text(encoding="utf-8").split("\n")
    assert '"name": "side"' in text[problem.line - 1]
    assert problem.column == 5


def test_only_the_patterns_that_are_named(tmp_path: Path) -> None:
    data_dir = broken_data({YAML: (("name: Plain\n", "nam: Plain\n"),)}, tmp_path / "data")
    (data_dir / "patterns" / "other").mkdir()
    assert {one.path.split("/")[-2] for one in examine(data_dir, only=["plain"]).problems} == {"plain"}
    assert {one.path.split("/")[-2] for one in examine(data_dir).problems} == {"plain", "other"}
    with pytest.raises(NoSuchPattern, match="did you mean 'plain'"):
        examine(data_dir, only=["plein"])


def test_no_pattern_at_all(tmp_path: Path) -> None:
    assert [one.code for one in examine(tmp_path).problems] == ["no-patterns"]


def test_the_fixture_garment_sews_and_its_two_shrinking_lengths_are_warned_of() -> None:
    """By its table (tests/garment/README.md) the row of buttons grows faster than the centre, and the gather ratio of
    the frill falls from size 92 to size 104. Its first button has to make way for the named point near the line's end,
    and is not interfaced, nor is the place of its other half.
    """
    found = examine(TESTS / "garment" / "data")
    assert [(one.severity, one.code, one.seen.split("`")[1]) for one in found.problems] == [
        ("warning", "shrinking-grading", "below-buttons"),
        ("advice", "closure-not-backed", "closure"),
        ("advice", "closures-moved", "closure"),
        ("advice", "closure-not-backed", "closure"),  # the other halves
        ("advice", "closure-not-backed", "frill-snaps"),
        ("warning", "shrinking-grading", "frill"),
    ]
    assert len(found.lines) == 1
