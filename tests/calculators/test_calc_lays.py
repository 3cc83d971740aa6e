"""Layouts: opening files, which lay is drawn, and that the drawing tells the truth and can be read on a phone."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from typing import Any
from xml.etree import ElementTree

import pytest
from cases.make_sheet_example import lays_beside
from hypothesis import given
from hypothesis import strategies as st
from shapely import Polygon, box

from boltside.calculators.door import answer
from boltside.calculators.labels import text_width
from boltside.calculators.lay_file import lying, placed
from boltside.calculators.lay_svg import LEADING, TYPE_PX

Ask = Callable[..., dict[str, dict[str, Any]]]
SVG = "{http://www.w3.org/2000/svg}"
DRAWING_PX = 320
"""A phone 360 px wide less 20 px of margin on each side."""
FILES = lays_beside()


@pytest.fixture
def opened(ask: Ask) -> Ask:
    """Asking with all lay files open."""
    for file in FILES.values():
        answer("open-lays", json.dumps(file))
    return ask


def drawings(opened: Ask) -> list[tuple[dict[str, Any], ElementTree.Element]]:
    """Drawings of all cloths in both ways, some sizes, with nap and without."""
    found = []
    for cloth in ("outer", "lining", "interfacing"):
        for way in ("folded", "flat"):
            for size, nap in (("68", "with"), ("92", "without"), ("116", "with")):
                asked = {cloth: {"way": way, "nap": nap, "width": "150"}}
                choices = {"sleeve-end": "gathered"} if size != "68" else {"pockets": "two"}
                said = opened("lay", cloth=cloth, size=size, cloths=asked, choices=choices)[f"lay.{cloth}"]
                assert said["kind"] == "drawing", said
                found.append((said, ElementTree.fromstring(said["html"])))
    return found


def test_a_file_is_asked_for_until_it_is_open(sheet: dict[str, Any]) -> None:
    answer("open", json.dumps({**sheet, "pattern": "another-jacket"}))
    request = json.dumps({"pattern": "another-jacket", "cloth": "outer", "size": "92"})
    (needs, words) = json.loads(answer("lay", request))["fragments"]
    assert (needs["kind"], needs["data"]) == ("needs", {"needs": "outer.folded.92"})
    assert (words["id"], words["text"]) == ("lay.outer.words", "")
    file = {**FILES["outer.folded.92"], "pattern": "another-jacket"}
    assert json.loads(answer("open-lays", json.dumps(file))) == {"opened": "another-jacket/outer.folded.92"}
    (drawing, words) = json.loads(answer("lay", request))["fragments"]
    assert drawing["kind"] == "drawing" and words["kind"] == "list"


def test_opening_the_pattern_again_forgets_its_files(opened: Ask, sheet: dict[str, Any]) -> None:
    assert opened("lay", cloth="outer")["lay.outer"]["kind"] == "drawing"
    answer("open", json.dumps(sheet))
    assert opened("lay", cloth="outer")["lay.outer"]["kind"] == "needs"


def test_a_file_of_another_edition_is_said_to_be_so(ask: Ask) -> None:
    answer("open-lays", json.dumps({**FILES["outer.folded.92"], "lays": {}}))
    assert ask("lay", cloth="outer")["lay.outer"]["data"]["code"] == "no-such-lay"


def test_a_cloth_that_is_not_there_and_one_that_has_no_amount(opened: Ask) -> None:
    assert opened("lay", cloth="velvet")["lay"]["data"]["code"] == "unknown-cloth"
    narrow = opened("lay", cloth="outer", cloths={"outer": {"width": "40"}})
    assert [(f["kind"], f["text"]) for f in narrow.values()] == [("sentence", ""), ("sentence", "")]


def test_the_lay_that_the_amount_was_reckoned_from_is_drawn(opened: Ask) -> None:
    asked = {"outer": {"width": "137", "way": "flat"}}
    cloth = opened("cloth", cloths=asked)["cloth.outer"]["data"]
    drawn = opened("lay", cloth="outer", cloths=asked)["lay.outer"]["data"]
    assert (drawn["key"], drawn["width_mm"]) == (cloth["lay"]["key"], cloth["lay"]["width_mm"])
    assert drawn["length_mm"] <= cloth["needed_mm"] == drawn["needed_mm"]


def test_a_place_is_mirrored_then_turned_then_moved() -> None:
    # By hand, in the engine's order: (30, 10) mirrored is (30, -10), turned (-30, 10), moved (70, 60).
    assert placed([[30, 10]], x=100, y=50, turned=True, mirrored=True) == [[70, 60]]
    assert placed([[30, 10]], x=100, y=50, turned=False, mirrored=True) == [[130, 40]]
    assert placed([[30, 10]], x=100, y=50, turned=True, mirrored=False) == [[70, 40]]


def test_places_mean_what_the_lay_engine_means() -> None:
    from boltside.lay.outlines import posed

    ring = ((0.0, 0.0), (30.0, 0.0), (30.0, 10.0), (5.0, 20.0))
    for turned in (False, True):
        for mirrored in (False, True):
            mine = placed([[int(x), int(y)] for x, y in ring], x=7, y=9, turned=turned, mirrored=mirrored)
            theirs = [[x + 7, y + 9] for x, y in posed(ring, turned=turned, mirrored=mirrored)]
            assert sorted(mine) == sorted(theirs)


def test_all_pieces_that_are_needed_lie_there_and_no_other(opened: Ask, sheet: dict[str, Any]) -> None:
    for way, each in (("folded", {"pair": 2}), ("flat", {"pair": 1})):
        cloth = opened("cloth", cloths={"outer": {"way": way}})["cloth.outer"]["data"]
        wanted = {"front.outer.hip", "back.outer.hip", "sleeve.outer", "facing.outer"}
        found = lying(FILES[cloth["lay"]["key"]], cloth["lay"]["number"], wanted)
        items = {item["id"]: item for item in sheet["items"]}
        for line in wanted:
            pieces = sum(each.get(items[line]["mode"], 1) for one in found if one.line_id == line)
            assert pieces == items[line]["count"], (way, line)
        assert {one.line_id for one in found} == wanted


def test_drawings_are_well_formed_and_need_no_style_attributes(opened: Ask) -> None:
    for said, root in drawings(opened):
        assert (
            root.get("role") == "img" and root.find(f"{SVG}title") is not None and root.find(f"{SVG}desc") is not None
        )
        assert "style=" not in said["html"] and "<script" not in said["html"]
        ids = [one.get("id") for one in root.iter() if one.get("id")]
        assert root.get("aria-labelledby", "").split() == ids


def test_the_drawing_is_true_to_scale(opened: Ask) -> None:
    for said, root in drawings(opened):
        _, _, width, height = map(int, root.attrib["viewBox"].split())
        scale = int(root.attrib["data-scale"])
        assert scale == said["data"]["scale"]
        for name, units in (("width", width), ("height", height)):
            assert float(root.attrib[name].removesuffix("mm")) == pytest.approx(units / scale, abs=0.1)
        cloth = root.find(f"{SVG}rect")
        assert cloth is not None
        layers = 2 if ".folded." in said["data"]["key"] else 1
        assert int(cloth.attrib["width"]) * layers == said["data"]["width_mm"]
        assert int(cloth.attrib["height"]) == said["data"]["length_mm"]


def test_type_is_large_enough_on_a_phone(opened: Ask) -> None:
    for _, root in drawings(opened):
        width = int(root.attrib["viewBox"].split()[2])
        sizes = {float(one.get("font-size", root.attrib["font-size"])) for one in root.iter(f"{SVG}text")}
        assert min(sizes) * DRAWING_PX / width >= TYPE_PX


def test_labels_lie_inside_their_pieces_and_upright(opened: Ask) -> None:
    inside = 0
    for _, root in drawings(opened):
        size = int(root.attrib["font-size"])
        for piece in root.iter(f"{SVG}g"):
            if not piece.get("class", "").startswith("bs-laid"):
                continue
            outline = piece.find(f"{SVG}path")
            assert outline is not None
            numbers = [int(number) for number in re.findall(r"-?\d+", outline.attrib["d"])]
            shape = Polygon(zip(numbers[::2], numbers[1::2], strict=True)).buffer(2)
            texts = piece.findall(f"{SVG}text")
            assert texts and all(one.get("transform") is None for one in texts)
            if len(texts) == 1 and (texts[0].text or "").isdigit():
                continue  # a number may be wider than a narrow strip
            for one in texts:
                x, y, half = int(one.attrib["x"]), int(one.attrib["y"]), text_width(one.text or "", size) // 2
                assert shape.contains(box(x - half, y - size * 7 // 10, x + half, y)), one.text
                inside += 1
    assert inside > 50


def test_fold_selvedges_and_cut_ends_are_named(opened: Ask) -> None:
    for said, root in drawings(opened):
        words = [one.text for one in root.iter(f"{SVG}text") if one.get("class") == "bs-edge-word"]
        folded = ".folded." in said["data"]["key"]
        assert words.count("cut end") == 2
        assert words.count("fold") == (2 if folded else 0)
        assert words.count("selvedge") == (2 if folded else 4)
        assert words.count("nap") == (said["data"]["nap_used"] == "with")


def test_the_fold_is_on_the_left_and_length_runs_down(opened: Ask) -> None:
    said = opened("lay", cloth="outer", size="92", cloths={"outer": {"way": "folded"}})["lay.outer"]
    root = ElementTree.fromstring(said["html"])
    cloth = root.find(f"{SVG}rect")
    assert cloth is not None
    left, top = int(cloth.attrib["x"]), int(cloth.attrib["y"])
    back = next(g for g in root.iter(f"{SVG}g") if any("Back" in (t.text or "") for t in g.findall(f"{SVG}text")))
    outline = back.find(f"{SVG}path")
    assert outline is not None
    numbers = [int(number) for number in re.findall(r"-?\d+", outline.attrib["d"])]
    file = FILES["outer.folded.92"]
    ring = file["outlines"][file["items"].index("back.outer.hip")]
    longest, broadest = max(x for x, _ in ring), max(y for _, y in ring)
    assert min(numbers[::2]) == left and max(numbers[::2]) == left + broadest
    assert min(numbers[1::2]) >= top and max(numbers[1::2]) - top == longest


def test_rulers_in_both_systems(opened: Ask) -> None:
    for said, root in drawings(opened):
        for system, step_mm in (("in-cm", 10.0), ("in-inch", 25.4)):
            group = next(g for g in root.iter(f"{SVG}g") if g.get("class") == system)
            figures = [one for one in group.iter(f"{SVG}text") if (one.text or "").isdigit()]
            size = int(root.attrib["font-size"])
            for one in figures:
                at = float(one.attrib["y"]) - 0.35 * size - 2 * size
                assert at == pytest.approx(int(one.text or "") * step_mm, abs=0.2)
            assert int(figures[-1].text or "") * step_mm <= said["data"]["length_mm"]


def test_the_words_say_where_each_piece_lies(opened: Ask) -> None:
    said = opened("lay", cloth="outer", size="92", choices={"pockets": "two"}, cloths={"outer": {"way": "folded"}})
    words = said["lay.outer.words"]
    assert words["text"].startswith(
        "Cloth 140 cm wide, folded once, right sides together, without nap; fold on the left, selvedges on the right. "
    )
    # By hand from the example's lay file: the fronts lie beside the half back, which is 160 mm broad.
    assert "Front: 1 mirrored pair; face up, at the cut end, 16 cm from the fold, 36.8 cm long." in words["text"]
    assert words["html"].count("<li>") == len(words["data"]["numbers"]) == 5


@given(st.text(alphabet="abc de", max_size=24), st.integers(1, 30))
def test_law_wrapping_keeps_all_words(text: str, signs: int) -> None:
    from boltside.calculators.labels import wrapped

    assert " ".join(wrapped(text, signs)).split() == text.split()


@given(st.lists(st.tuples(st.integers(0, 300), st.integers(0, 300)), min_size=3, max_size=8), st.integers(5, 60))
def test_law_a_place_for_text_is_inside_on_every_line_looked_at(points: list[tuple[int, int]], size: int) -> None:
    from boltside.calculators.labels import IN_A_LINE, rooms

    shape = Polygon(points)
    if not shape.is_valid or shape.area == 0:
        return
    for place in rooms(points, size, 1):
        left, right = place.middle - place.width // 2 + 2, place.middle + place.width // 2 - 2
        step = max(1, size // IN_A_LINE)
        for y in (place.top + step // 2 + step * at for at in range(IN_A_LINE)):
            if right > left:
                assert shape.buffer(2.5).contains(box(left, y, right, y + 1))


def test_leading_leaves_a_line_free_of_the_next() -> None:
    assert LEADING[0] > LEADING[1]


@pytest.mark.outside  # geometry, on paper
def test_places_in_words_are_those_on_paper(on_paper: Ask) -> None:
    # Rectangles of 45 x 70 cm, two beside each other; the first begins where 1.5 cm of selvedge end, the second
    # 1.5 + 45 = 46.5 cm from the edge; the second row begins at 70 cm, the third at 140. In inches, to the nearest
    # eighth: 0.59 is 5/8, 18.31 is 18 1/4, 27.56 is 27 1/2.
    said = on_paper("lay", cloth="outer", choices={"sleeves": "long"})["lay.outer.words"]
    rows = [("at the cut end", "at the cut end"), ("70 cm from the cut end", "27 1/2 in from the cut end")]
    for part, places in (("text", [row[0] for row in rows]), ("text_inch", [row[1] for row in rows])):
        left, right = ("1.5 cm", "46.5 cm") if part == "text" else ("5/8 in", "18 1/4 in")
        long = "70 cm" if part == "text" else "27 1/2 in"
        lying = "; ".join(
            f"face up, {place}, {off} from the left selvedge, {long} long" for place in places for off in (left, right)
        )
        assert f"Panel: 4; {lying}." in said[part]
    assert said["text"].count("140 cm from the cut end") == 2 and "The pieces take 2.10 m" in said["text"]


@pytest.mark.outside  # geometry, on paper
def test_a_triangle_turned_round_is_said_to_be_turned(on_paper: Ask) -> None:
    # Two right triangles make a rectangle only if one is turned by half a circle; laid all one way they need twice the
    # length, and the second begins where the first ends.
    turned = on_paper("lay", cloth="lining")["lay.lining.words"]["text"]
    assert turned.count(", turned head to foot,") == 1 and "The pieces take 0.70 m" in turned
    one_way = on_paper("lay", cloth="lining", cloths={"lining": {"nap": "with"}})["lay.lining.words"]["text"]
    assert ", turned head to foot," not in one_way and "; face up, 70 cm from the cut end, " in one_way
