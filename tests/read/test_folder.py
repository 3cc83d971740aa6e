"""The fixture garment as a pattern, and the edges of the door."""

from __future__ import annotations

from pathlib import Path

import pytest

from boltside.errors import Problem, ProblemsFound, in_order
from boltside.pattern import (
    ALWAYS,
    Between,
    Carried,
    Case,
    Copy,
    CutEntry,
    EdgePart,
    EdgeRule,
    KindCase,
    LinePart,
    NapCase,
    Pattern,
    Photograph,
    RingRule,
    Sale,
)
from boltside.read.folder import read_pattern, read_patterns

DATA = Path(__file__).parents[1] / "garment" / "data"


@pytest.fixture(scope="module")
def oblong() -> Pattern:
    return read_pattern(DATA / "patterns" / "oblong", DATA / "body_charts")


def test_heading(oblong: Pattern) -> None:
    assert (oblong.folder, oblong.name, oblong.edition, oblong.difficulty, oblong.minutes) == (
        "oblong",
        "Oblong",
        "1",
        1,
        100,
    )
    assert oblong.sizes == ("80", "92", "104")
    assert oblong.body_chart.rows["92"] == {"height": 920, "chest": 520, "waist": 480, "hip": 540}
    assert oblong.body_chart.ages["104"] == "4 years"
    assert oblong.body_chart.sources[1] == "Heights equal the size's name in centimetres."


def test_choices_and_rules(oblong: Pattern) -> None:
    choices = {choice.name: choice for choice in oblong.choices}
    assert choices["sleeve-end"].asked_when == ({"sleeves": ("long",)},)
    assert choices["hem-finish"].steps_only
    assert choices["sleeves"].alternatives[1].minutes == 60
    assert oblong.rules[2].only_sizes == ("92", "104")
    assert oblong.rules[3].when == ({"collar": ("stand",), "size": ("80",)},)


def test_pieces(oblong: Pattern) -> None:
    pieces = {piece.name: piece for piece in oblong.pieces}
    assert list(pieces) == ["front", "back", "frill", "sleeve", "cuff", "collar", "pocket", "tab"]
    assert pieces["front"].edges[0].allowance_mm == (Case(mm=10),)
    assert pieces["frill"].edges[1].allowance_mm == (Case(mm=10, when=({"centre-seam": ("sewn",)},)), Case(mm=0))
    assert pieces["frill"].cut == (
        CutEntry(cloth="outer", mode="pair", count=2, when=({"centre-seam": ("sewn",)},)),
        CutEntry(cloth="outer", mode="fold", count=1, fold_edge="middle"),
    )
    assert (pieces["cuff"].drawn, pieces["cuff"].grain) == ("cutting", "crosswise")
    assert pieces["cuff"].interfacing[0].area is None
    assert pieces["pocket"].cut[0].face == "down"


def test_outline_in_mm_with_y_up(oblong: Pattern) -> None:
    front = next(piece for piece in oblong.pieces if piece.name == "front").outlines["92"]
    hem_x, hem_y = front.points_mm["centre-hem"]
    from_hem = [(x - hem_x, y - hem_y) for x, y in front.outline_mm]
    expected = [(0, 277), (9.6, 284.2), (48, 313), (120, 292), (159, 240), (159, 0), (0, 0), (0, 240)]
    assert from_hem == [pytest.approx(one) for one in expected]


def test_roles(oblong: Pattern) -> None:
    opened = oblong.roles[0]
    assert opened.allowances_mm == {"centre": (Case(mm=20),)}
    at_front, at_back = ({"opening": ("front",)},), ({"opening": ("back",)},)
    assert [(copy.name, copy.drawn, copy.carries) for copy in opened.copies] == [
        (
            "wearers-left",
            True,
            (Carried(what="buttonholes", when=at_front), Carried(what="buttons", when=at_back)),
        ),
        (
            "wearers-right",
            False,
            (Carried(what="buttons", when=at_front), Carried(what="buttonholes", when=at_back)),
        ),
    ]
    back = next(piece for piece in oblong.pieces if piece.name == "back")
    assert back.copies == (Copy(name="wearers-right", drawn=True),)
    assert opened.interfacing[0].copies == ("wearers-left",)
    assert [play.piece for play in opened.plays] == ["front", "back"]


def test_seams_measurements_notions(oblong: Pattern) -> None:
    seams = {seam.name: seam for seam in oblong.seams}
    assert seams["collar"].to[1] == EdgePart(piece="as:opened", edge="neck", start="collar-stop")
    assert seams["sleeve-gathers"].gather_ratio == (1.5, 2.5)
    parts = [part for measurement in oblong.measurements for part in measurement.parts]
    assert Between(piece="back", start="underarm", stop="chest-centre", along="x", times=2) in parts
    assert LinePart(piece="as:opened", line="button-line", times=-1) in parts
    notions = {notion.name: notion for notion in oblong.notions}
    assert notions["waist-elastic"].rule == RingRule(body="waist", factor=0.5, minus_mm=10, overlap_mm=20)
    assert notions["frill-ribbon"].rule == EdgeRule(times=2, factor=1.1, plus_mm=30)
    assert notions["closure"].kinds == ("button", "snap")


def test_cloths_by_case(oblong: Pattern) -> None:
    """Without `nap` the buyer is asked, but never for interfacing; the last case always holds."""
    outer, lining, interfacing = oblong.cloths
    lined = ({"lined": ("full",)},)
    assert outer.kinds == ("woven", "knit")
    assert outer.kind_cases == (KindCase(kinds=("woven",), when=lined), KindCase(kinds=("woven", "knit")))
    assert outer.nap == (NapCase(nap="ask", when=lined), NapCase(nap="always"))
    assert lining.nap == (NapCase(nap="never"),)
    assert interfacing.nap == (NapCase(nap="never"),)
    assert lining.kind_cases == (KindCase(kinds=("woven",)),)


def test_what_the_page_tells(oblong: Pattern) -> None:
    opening = oblong.choices[0]
    assert (opening.about, opening.alternatives[0].about) == ("Front and back are the same below the neck.", "")
    assert opening.alternatives[1].about == "Somebody has to do it up."
    closure = next(notion for notion in oblong.notions if notion.name == "closure")
    assert (closure.thickness_mm, closure.needs) == (2.5, "Snaps need a tool to set them.")
    assert oblong.sale == Sale(
        price="6.00",
        checkout="https://example.com/tests/oblong?size=all",
        formats=("A4 sheets to print", "One A0 sheet"),
        languages=("en", "pt-BR"),
    )
    assert oblong.photographs == (
        Photograph(
            file="photos/hip-length.png",
            title="Oblong lying flat, buttoned",
            size="92",
            choices={"length": "hip", "sleeves": "none"},
            cloth="Poplin",
        ),
    )
    (plain,) = read_patterns(Path(__file__).parents[1] / "broken" / "base")
    assert plain.sale == Sale(
        free=True, download="files/plain.zip", formats=("A4 sheets to print",), languages=("en",)
    )


def test_steps_and_drawing(oblong: Pattern) -> None:
    assert oblong.introduction == "The seams are \ue000 wide unless a step says otherwise."
    assert str(oblong.words[0]) == "{mm 10}"
    assert [step.title for step in oblong.steps][:2] == ["Sew the shoulders", "Sew in the sleeves"]
    assert oblong.steps[0].when == ALWAYS
    assert len(oblong.steps[3].when) == 2
    assert oblong.drawing_front[0].on == ("front", "shoulder-tip")
    assert oblong.drawing_front[0].keep_line == "middle"


def test_edge_on_the_fold_has_no_allowance_unless_it_says_so() -> None:
    base = Path(__file__).parents[1] / "broken" / "base"
    front = read_patterns(base)[0].pieces[0]
    assert front.edges[3].allowance_mm == (Case(mm=0),)


def test_folder_that_is_not_there(tmp_path: Path) -> None:
    with pytest.raises(ProblemsFound) as found:
        read_pattern(tmp_path / "nothing", tmp_path)
    assert str(found.value) == (
        f"{(tmp_path / 'nothing').as_posix()}:1:1: [missing-file] seen no folder `nothing`; "
        "expected the pattern's folder; look at the name"
    )


def test_problems_are_sorted_by_place_and_told_once() -> None:
    def problem(line: int, column: int) -> Problem:
        return Problem(code="syntax", path="a", line=line, column=column, seen="x", expected="y", mend="z")

    assert in_order([problem(10, 1), problem(2, 9), problem(2, 1), problem(2, 9)]) == (
        problem(2, 1),
        problem(2, 9),
        problem(10, 1),
    )


def test_problems_have_known_codes() -> None:
    with pytest.raises(ValueError, match="'nonsense' is not listed in CODES"):
        Problem(code="nonsense", path="a", line=1, column=1, seen="x", expected="y", mend="z")
