"""A cloth with all four ways of laying, from pattern.yaml to drawing and words; lays are quick drafts."""

from __future__ import annotations

import json
import re
from itertools import combinations
from typing import Any
from xml.etree import ElementTree

import pytest
from broken.folders import broken_data
from look_at_lays import strips
from shapely import Polygon, box

from boltside.calculators.door import answer
from boltside.calculators.lay_file import lying
from boltside.calculators.lay_svg import TYPE_PX
from boltside.calculators.strips import on_table
from boltside.pages.remnant_index import index_text, remnant_index
from boltside.plan import run_pattern
from boltside.read.folder import read_pattern
from boltside.shop_lays import ShopPattern, shop_pattern

YAML = "patterns/plain/pattern.yaml"
ALL = "ways: [folded, flat, middle, part-folded]"
SVG = "{http://www.w3.org/2000/svg}"
PHONE_PX = 320
BAND = {"band": "two", "opening": "front"}


@pytest.fixture(scope="module")
def shop(tmp_path_factory: pytest.TempPathFactory) -> ShopPattern:
    """Two rectangles and a band on cloth of two widths, in two sizes."""
    old = "usual_width_mm: 1400, widths_mm: [1100, 1400], ways: [folded, flat]"
    drawn = "    - {piece: band, put: mark, on: front.hem-centre, when: {band: two}}\n"
    changes = {YAML: ((old, f"usual_width_mm: 700, widths_mm: [700, 1400], {ALL}"), (drawn, ""))}
    data = broken_data(changes, tmp_path_factory.mktemp("four") / "data")
    svg = data / "patterns" / "plain" / "pieces.svg"
    small, large = svg.read_text().split('<g id="front.92"')
    svg.write_text(small + '<g id="front.92"' + large.replace("160", "172").replace("300", "310").replace("200", "208"))
    folder = data / "patterns" / "plain"
    pattern = read_pattern(folder, data / "body_charts")
    run_pattern(pattern, folder, quality="draft", workers=1)
    again = run_pattern(pattern, folder, quality="draft", only_stored=True, verify_all=True)
    assert {lay.way for plan in again.plans.values() for lay in plan.laid.values()} >= {"middle", "part-folded"}
    return shop_pattern(pattern, folder, cache_dir=None)


@pytest.fixture
def asked(shop: ShopPattern) -> Any:
    answer("open", json.dumps(shop.sheet))
    for file in shop.lay_files.values():
        answer("open-lays", json.dumps(file))

    def ask(what: str, way: str, width: str = "140", **choices: str) -> dict[str, dict[str, Any]]:
        request = {
            "pattern": shop.sheet["pattern"], "cloth": "outer", "size": "92", "choices": choices,
            "cloths": {"outer": {"way": way, "width": width}},
        }  # fmt: skip
        said: list[dict[str, Any]] = json.loads(answer(what, json.dumps(request)))["fragments"]
        return {one["id"]: one for one in said}

    return ask


def test_each_way_has_its_lengths_and_keeps_the_order(shop: ShopPattern) -> None:
    lengths = shop.sheet["lays"]["outer"]
    assert set(lengths) == {"folded", "flat", "middle", "part-folded"}
    compared = 0
    for way, less in (("folded", "part-folded"), ("part-folded", "flat"), ("middle", "flat")):
        for nap, by_size in lengths[way].items():
            for size, sets in by_size.items():
                for one, other in zip(sets, lengths[less][nap][size], strict=True):
                    for width, length, *_ in one:
                        assert max(w for w, *_ in other if w <= width) and _at(other, width) <= length
                        compared += 1
    assert compared > 10


def _at(steps: list[list[int]], width_mm: int) -> int:
    return [length for width, length, *_ in steps if width <= width_mm][-1]


def test_pieces_in_lay_files_lie_apart_on_cloth_of_their_zone(shop: ShopPattern) -> None:
    seen = set()
    for key, file in shop.lay_files.items():
        cloth, way, _ = key.split(".")
        if cloth != "outer" or way not in ("middle", "part-folded"):
            continue
        for number, lay in file["lays"].items():
            width, over = lay["width_mm"], lay.get("fold_over_mm")
            assert (over is not None) == (way == "part-folded")
            zones = [box(0, one.low_mm, lay["length_mm"], one.high_mm) for one in strips(way, width, over)]
            shapes = [Polygon(one.points) for one in lying(file, int(number), file["items"])]
            for shape in shapes:
                # The file is in whole millimetres, its outlines are coarse.
                inside = [at for at, zone in enumerate(zones) if zone.buffer(2.1, join_style="mitre").covers(shape)]
                assert inside, (key, number, shape.bounds, over)
                seen.add((way, inside[0]))
            for one, other in combinations(shapes, 2):
                assert one.buffer(-2.1).intersection(other.buffer(-2.1)).area < 1.0
    assert {("middle", 0), ("middle", 1), ("part-folded", 0)} <= seen


def test_lay_files_of_the_old_ways_say_nothing_new(shop: ShopPattern) -> None:
    for key, file in shop.lay_files.items():
        if ".folded." in key or ".flat." in key:
            assert all(set(lay) == {"width_mm", "length_mm", "nap", "at"} for lay in file["lays"].values())


@pytest.mark.parametrize("way", ["middle", "part-folded"])
def test_a_drawing_shows_folds_and_can_be_read_on_a_phone(asked: Any, way: str) -> None:
    said = asked("lay", way)
    drawing = said["lay.outer"]
    assert drawing["kind"] == "drawing", drawing
    root = ElementTree.fromstring(drawing["html"])
    cloth = root.find(f"{SVG}rect[@class='bs-cloth']")
    assert cloth is not None
    folds = [one for one in root.iter(f"{SVG}path") if one.get("class") == "bs-fold"]
    assert len(folds) == (2 if way == "middle" else 1)
    if way == "middle":
        assert int(cloth.attrib["width"]) * 2 == drawing["data"]["width_mm"]
    assert float(root.attrib["font-size"]) * PHONE_PX / int(root.attrib["viewBox"].split()[2]) >= TYPE_PX
    words = said["lay.outer.words"]["text"]
    if way == "middle":
        assert "both selvedges folded to the middle, right sides together" in words
        assert "a fold on either side, the selvedges in the middle" in words
        assert re.search(r"(on|from) the (left|right) fold", words)
    else:
        assert re.search(r"folded over \d+(\.\d)? cm, the rest single, right sides together", words) or (
            "folded once, right sides together" in words
        )


def test_the_amount_says_the_way_and_offers_the_one_that_saves_most(shop: ShopPattern) -> None:
    """Lengths made up, on cloth of one width: what is offered is reckoned here once more, from the amounts alone."""
    needed = {"folded": 1400, "flat": 900, "middle": 900, "part-folded": 1200}
    sheet = json.loads(json.dumps(shop.sheet))
    for way, by_nap in sheet["lays"]["outer"].items():
        for by_size in by_nap.values():
            by_size["92"] = [[[700, needed[way], 0, 1]] for _ in by_size["92"]]
    answer("open", json.dumps(sheet))
    offered = {
        "folded": "With both selvedges folded to the middle it takes 0.50 m less.",
        "part-folded": "With both selvedges folded to the middle it takes 0.30 m less.",
        "middle": None,
        "flat": None,
    }
    for way, offer in offered.items():
        request = {"pattern": sheet["pattern"], "size": "92", "cloths": {"outer": {"way": way, "width": "100"}}}
        said = {one["id"]: one for one in json.loads(answer("cloth", json.dumps(request)))["fragments"]}
        data, how = said["cloth.outer"]["data"], said["cloth.outer.how"]["text"]
        assert data["needed_mm"] == needed[way]
        assert data["flat_saves_mm"] == {"folded": 500, "part-folded": 300}.get(way, 0)
        if offer is None:
            assert data["better_way"] is None and " less." not in how
        else:
            assert data["better_way"] == {"way": "middle", "saves_mm": data["flat_saves_mm"]}
            assert how.endswith(offer)


def test_cloth_too_narrow_in_one_way_is_said_to_be_wide_enough_in_another(asked: Any) -> None:
    said = asked("cloth", "middle", "70")["cloth.outer"]
    assert said["data"]["code"] == "too-narrow"
    assert "both selvedges folded to the middle, right sides together. The narrowest that works" in said["text"]
    assert "Laid flat it is wide enough." in said["text"]


def folded_over_320(shop: ShopPattern, asked: Any) -> dict[str, dict[str, Any]]:
    """What is said of a lay written by hand: 140 cm cloth folded over 32 cm, a back on the fold, fronts cut apart."""
    sheet = json.loads(json.dumps(shop.sheet))
    for by_size in sheet["lays"]["outer"]["part-folded"].values():
        by_size["92"] = [[[1400, 400, 0, 1]] for _ in by_size["92"]]
    file = json.loads(json.dumps(shop.lay_files["outer.part-folded.92"]))
    back, front = (file["items"].index(name) for name in ("back.outer.front", "front.outer.front.none"))
    places = [[back, 0, 0, 0, 0, 0], [front, 0, 0, 400, 0, 0], [front, 1, 0, 1000, 0, 1]]
    file["lays"] = {"0": {"width_mm": 1400, "length_mm": 400, "nap": False, "fold_over_mm": 320, "at": places}}
    answer("open", json.dumps(sheet))
    answer("open-lays", json.dumps(file))
    found: dict[str, dict[str, Any]] = asked("lay", "part-folded")
    return found


def test_cloth_folded_over_in_part_shows_where_it_turns_single_and_what_is_cut_apart(
    shop: ShopPattern, asked: Any
) -> None:
    said = folded_over_320(shop, asked)
    width_mm = said["lay.outer"]["data"]["width_mm"]
    root = ElementTree.fromstring(said["lay.outer"]["html"])
    cloth, single = (root.find(f"{SVG}rect[@class='{name}']") for name in ("bs-cloth", "bs-single"))
    assert cloth is not None and single is not None
    assert int(cloth.attrib["width"]) == width_mm - 320
    assert int(single.attrib["x"]) - int(cloth.attrib["x"]) == 320
    assert int(single.attrib["width"]) == width_mm - 640
    drawn = [one.text or "" for one in root.iter(f"{SVG}text")]
    assert {"fold", "selvedge", "double", "single"} <= set(drawn)
    assert drawn.count("fold") == 1
    words = said["lay.outer.words"]
    assert "folded over 32 cm, the rest single, right sides together" in words["text"]
    assert "folded over 12 5/8 in, the rest single" in words["text_inch"]
    assert "fold on the left, one selvedge where the cloth turns single, the other on the right" in words["text"]
    front, back = words["text"].split("Front: ")[1].split("Back: ")
    assert front.count("in single cloth") == 2 and "face down" in front and "40 cm from the fold" in front
    assert "single cloth" not in back and "on the fold" in back


@pytest.mark.parametrize(("way", "width_mm", "over_mm"), [("part-folded", 1400, 700), ("part-folded", 1401, 700.5)])
def test_folded_over_by_half_is_folded_once(way: str, width_mm: int, over_mm: float) -> None:
    assert on_table(way, width_mm, round(over_mm)) == on_table("folded", width_mm)


def test_a_remnant_that_takes_it_in_one_way_only_is_told_that_way(shop: ShopPattern) -> None:
    """Lengths made up: on 50 cm of cloth only the lay with both selvedges to the middle fits."""
    sheet = json.loads(json.dumps(shop.sheet))
    for way, by_nap in sheet["lays"]["outer"].items():
        for by_size in by_nap.values():
            for size in by_size:
                by_size[size] = [[[700, 400 if way == "middle" else 900, 0, 1]] for _ in by_size[size]]
    answer("open-remnants", index_text(remnant_index([(sheet, "plain/")])))
    asked = {"width": "140", "length": "50", "kind": "woven", "nap": "without"}
    said = json.loads(answer("remnants", json.dumps(asked)))
    text = " ".join(one["text"] for one in said["fragments"])
    assert "Both selvedges folded to the middle, right sides together" in text
    assert "Laid flat" not in text and "Folded once" not in text
