"""What fits a remnant: nothing that does not, everything that does, said truly, and the same on every Python.

The index and its answers are held against the sheets: every allowed combination of choices is gone through, and its
published steps are read by the few lines of this file.
"""

from __future__ import annotations

import hashlib
import json
import os
import random
import re
import subprocess
import sys
from collections.abc import Iterator
from fractions import Fraction
from functools import cache
from html import unescape
from math import floor
from typing import Any
from urllib.parse import parse_qsl, urlsplit

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from boltside.calculators.choices import all_allowed
from boltside.calculators.conditions import holds
from boltside.calculators.door import answer
from boltside.calculators.nap import kinds_of, nap_said, nap_used
from boltside.calculators.remnant_index import NONE, fitting, read, written
from boltside.calculators.remnant_terms import Table

SELVEDGES_MM = 30
"""Both selvedges. Common practice."""
LOSS = {"woven": Fraction(5, 100), "knit": Fraction(8, 100), "interfacing": Fraction(0)}
"""Usual loss in the first wash, upper end. From memory; common practice."""
QUESTIONS = 25
WIDEST = Fraction(5000)
"""All cloth that is sold is narrower, mm."""

Sheet = dict[str, Any]


@cache
def sheet_named(name: str) -> Sheet:
    from cases.make_sheet_example import make
    from cases.real_sheets import real_sheet
    from cases.remnant_shop import generated_shop

    if name == "example-jacket":
        return make()
    return generated_shop(patterns=int(name) + 1, sizes=5)[int(name)] if name.isdigit() else real_sheet(name)


def names() -> list[str]:
    from cases.real_sheets import pattern_names

    return ["example-jacket", *map(str, range(12)), *pattern_names()]


@cache
def combinations(name: str, size: str) -> list[dict[str, str]]:
    sheet = sheet_named(name)
    return list(all_allowed(sheet["choices"], sheet["rules"], size, steps_too=False))


def needed_mm(sheet: Sheet, cloth: dict[str, Any], way: str, nap: str, chosen: dict[str, str], width: Fraction) -> Any:
    """The published length of exactly these pieces; None: none are cut, or there is no lay."""
    size = chosen["size"]
    pieces = {item["id"] for item in sheet["items"] if item["cloth"] == cloth["name"] and holds(item["when"], chosen)}
    by_nap = sheet["lays"][cloth["name"]][way]
    rows = by_nap.get(nap, by_nap.get("with", {}))[size]
    for members, steps in zip(sheet["sets"][cloth["name"]], rows, strict=False):
        if set(members) == pieces:
            return min((length for wide, length, *_ in steps if wide <= width), default=None)
    return None


def told_cm(length_mm: int, cloth: dict[str, Any], width_mm: Fraction) -> int:
    """Whole centimetres, rounded up; on cloth narrower than any bolt in steps of 5."""
    step = 5 if width_mm < min(cloth["widths_mm"]) else 1
    return -(-length_mm // (10 * step)) * step


def matches(term: dict[str, list[str | None]], chosen: dict[str, str]) -> bool:
    return all(chosen.get(name) in words for name, words in term.items())


def held_by(run: dict[str, Any], chosen: dict[str, str]) -> bool:
    """Whether what is said of a run says that these choices fit."""
    if chosen["size"] not in run["sizes"]:
        return False
    if run["every"]:
        return True
    if run["only"]:
        return any(matches(term, chosen) for term in run["only"])
    return not any(matches(term, chosen) for term in run["without"])


def opened(sheets: list[Sheet]) -> None:
    from cases.remnant_cases import opening

    assert json.loads(answer(*opening(sheets))) == {"opened": "remnants"}


def fragments(asked: dict[str, str]) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = json.loads(answer("remnants", json.dumps(asked)))["fragments"]
    return found


def reckoned(asked: dict[str, str]) -> tuple[Fraction, Fraction]:
    """Width and length of the piece after the wash, in mm."""
    mm = Fraction("25.4") if asked["unit"] == "in" else Fraction(10)
    width, length = Fraction(asked["width"]) * mm, Fraction(asked["length"]) * mm
    left = 1 - (0 if asked["wash"] == "washed" else LOSS[asked["kind"]])
    return (width - SELVEDGES_MM) * left + SELVEDGES_MM, length * left


def questions(name: str) -> Iterator[dict[str, str]]:
    from cases.remnant_cases import SEED, asked

    from boltside.pages.remnant_index import kinds_in

    sheet = sheet_named(name)
    print(f"seed {SEED} {name}")
    draw = random.Random(f"{SEED} {name}")
    for _ in range(QUESTIONS):
        yield asked(draw, kinds_in([sheet]), sheet["sizes"])


@pytest.mark.parametrize("name", names())
def test_what_is_said_to_fit_is_all_that_fits_and_nothing_else(name: str) -> None:
    sheet = sheet_named(name)
    opened([sheet])
    fitted = 0
    for asked in questions(name):
        width_mm, length_mm = reckoned(asked)
        said = {cloth["cloth"]: cloth["runs"] for one in fragments(asked)[2:] for cloth in one["data"]["cloths"]}
        length_cm = floor(length_mm / 10)
        for cloth in sheet["cloths"]:
            runs = said.get(cloth["name"], [])
            most: dict[int, int] = {}
            for size in sheet["sizes"]:
                for chosen in combinations(name, size):
                    nap = nap_used(nap_said(cloth["nap"], chosen), asked["nap"])
                    length = {
                        way: needed_mm(sheet, cloth, way, nap, chosen, width_mm) for way in cloth["ways"]
                    }
                    cut = any(needed_mm(sheet, cloth, way, nap, chosen, WIDEST) is not None for way in cloth["ways"])
                    if not cut or asked["kind"] not in kinds_of(cloth, chosen):
                        continue  # not cut from this cloth: nothing is said about it
                    # Whole centimetres, rounded up, as the pattern's page says it.
                    fits = {
                        way: one is not None and told_cm(one, cloth, width_mm) <= length_cm
                        for way, one in length.items()
                    }
                    wanted = any(fits.values()) and asked["size"] in ("", size)
                    held = [at for at, run in enumerate(runs) if held_by(run, chosen)]
                    assert bool(held) == wanted, (name, asked, cloth["name"], chosen, length)
                    for at in held:
                        way = runs[at]["way"]
                        assert length[way] <= length_mm, (asked, chosen)
                        most[at] = max(most.get(at, 0), told_cm(length[way], cloth, width_mm))
                        fitted += 1
            assert most == {at: run["most_cm"] for at, run in enumerate(runs)}
    assert fitted


@pytest.mark.parametrize("name", ["example-jacket", "breakwater", "millrace"])
def test_every_link_opens_a_pattern_whose_page_agrees(name: str) -> None:
    """The page's own calculator, asked what the address says, needs no more than there is."""
    sheet = sheet_named(name)
    opened([sheet])
    answer("open", json.dumps(sheet))
    followed = 0
    for asked in questions(name):
        _, length_mm = reckoned(asked)
        for one in fragments(asked)[2:]:
            for address in re.findall(r'href="([^"]*\?[^"]*)"', one["html"]):
                parts = urlsplit(unescape(address))
                assert parts.path == f"patterns/{name}/"
                request, cloth = filled_in(sheet, parse_qsl(parts.query))
                said = {part["id"]: part for part in json.loads(answer("panel", json.dumps(request)))["fragments"]}
                assert said["choices"]["data"]["allowed"], address
                data = said[f"cloth.{cloth}"]["data"]
                assert said[f"cloth.{cloth}"]["kind"] == "figure", (address, said[f"cloth.{cloth}"]["text"])
                assert data["needed_mm"] <= length_mm
                followed += 1
    assert followed > QUESTIONS


def filled_in(sheet: Sheet, fields: list[tuple[str, str]]) -> tuple[dict[str, Any], str]:
    """A request as the page makes it of its form, and the cloth that the address is about."""
    request: dict[str, Any] = {"pattern": sheet["pattern"], "choices": {}, "cloths": {}, "unit": "cm"}
    cloth = ""
    for key, value in fields:
        kind, _, part = key.partition(".")
        if kind == "choice":
            assert any(part == choice["name"] and any(value == one["name"] for one in choice["alternatives"])
                       for choice in sheet["choices"])  # fmt: skip
            request["choices"][part] = value
        elif part:
            cloth = part
            request["cloths"].setdefault(part, {})[kind] = value
        else:
            request[key] = value
    return request, cloth


@given(
    sizes=st.integers(1, 13), planes=st.integers(1, 4), rows=st.integers(1, 4), widths=st.integers(1, 5),
    data=st.data(), length=st.integers(0, 900),
)  # fmt: skip
def test_lengths_that_were_written_are_read_again(
    sizes: int, planes: int, rows: int, widths: int, data: st.DataObject, length: int
) -> None:
    count = sizes * planes * rows * widths
    one = st.one_of(st.none(), st.integers(0, 800))
    values = data.draw(st.lists(one, min_size=count, max_size=count))
    low = read(written(values, sizes=sizes, planes=planes), sizes=sizes, planes=planes)
    high = read(written(values, sizes=sizes, planes=planes, high=True), sizes=sizes, planes=planes)
    assert [None if a == NONE else a + 255 * b for a, b in zip(low, high, strict=True)] == values
    assert fitting(low, high, length) == bytes(49 if value is not None and value <= length else 48 for value in values)
    if all(value is None or value < 255 for value in values):
        assert fitting(low, b"", length) == fitting(low, high, length)


@settings(max_examples=200)
@given(data=st.data())
def test_terms_hold_for_what_fits_and_for_no_offered_variant_else(data: st.DataObject) -> None:
    words: list[list[str | None]] = data.draw(
        st.lists(st.lists(st.sampled_from(["a", "b", "c", None]), min_size=1, max_size=4, unique=True), max_size=4)
    )
    every: list[tuple[str | None, ...]] = [()]
    for choice in words:
        every = [(*one, word) for one in every for word in choice]
    variants = data.draw(st.lists(st.sampled_from(every), min_size=1, max_size=40, unique=True))
    table = Table([f"n{at}" for at in range(len(words))], variants)
    offered = data.draw(st.integers(1, table.all))
    fit = data.draw(st.integers(0, table.all)) & offered
    if not fit:
        return
    said = table.said(offered, fit)
    assert not (said.only and said.without) and said.every == (fit == offered)
    for number, variant in enumerate(variants):
        bit = table.bit(number)
        if offered & bit:
            chosen = {f"n{at}": word for at, word in enumerate(variant) if word is not None}
            of = said.without or said.only
            met = any(matches(term, chosen) for term, _ in of)
            assert bool(fit & bit) == (said.every or met == bool(said.only))
            assert met == any(mask & bit for _, mask in of)


def test_words_for_people() -> None:
    opened([sheet_named("example-jacket")])
    said = {one["id"]: one for one in fragments({"width": "140", "length": "95", "kind": "woven", "wash": "washed"})}
    text = said["remnant.whole.example-jacket"]["text"]
    assert text.startswith("Example jacket: Sizes 68 to 92. All options fit. Folded once, right sides together; takes")
    assert "Cut it square at both ends" in said["remnant.how"]["text"]
    narrow = fragments({"width": "60", "length": "140", "kind": "woven"})[0]
    assert narrow["data"]["code"] == "narrower-than-laid" and narrow["data"]["reckoned_from_mm"] == 1100
    assert "Nothing in this shop is laid on woven cloth as narrow as this" in narrow["text"]
    assert "swap the two numbers" in narrow["text"]
    short = fragments({"width": "140", "length": "9", "kind": "woven", "wash": "washed"})[0]["text"]
    assert re.search(r"The least that anything takes of cloth this wide is 0\.\d\d m: Example jacket, size 68", short)
    assert fragments({"width": "140", "length": "95", "kind": "felt"})[0]["text"].endswith("takes felt cloth.")


def test_of_a_long_narrow_piece_it_is_said_that_more_may_fit() -> None:
    opened([sheet_named("0")])
    asked = {"kind": "woven", "wash": "washed"}
    long = "On cloth this narrow only what takes up to about 1.20 m was laid out"
    for width, length, told in (("80", "250", True), ("80", "120", False), ("140", "250", False)):
        said = {one["id"]: one for one in fragments({**asked, "width": width, "length": length})}
        assert (long in said["remnant.how"]["text"]) == told, (width, length)


def test_whatever_fits_before_the_wash_fits_a_washed_piece_too_and_of_some_pieces_more() -> None:
    sheet = sheet_named("example-jacket")
    opened([sheet])
    every = [chosen for size in sheet["sizes"] for chosen in combinations("example-jacket", size)]
    more = 0
    for length in range(40, 110, 10):
        usual, washed = (
            {
                (cloth["cloth"], at)
                for one in fragments({"width": "141", "length": str(length), "kind": "woven", "wash": wash})
                for cloth in one["data"].get("cloths", [])
                for at, chosen in enumerate(every)
                if any(held_by(run, chosen) for run in cloth["runs"])
            }
            for wash in ("usual", "washed")
        )
        assert usual <= washed
        more += usual < washed
    assert more


ANSWER_ALL = """
import hashlib, json, sys
from boltside.calculators.door import answer
said = [answer(name, text) for name, text in json.load(sys.stdin)]
print(hashlib.sha256("\\n".join(said).encode()).hexdigest())
"""


@pytest.mark.parametrize("hash_seed", ["0", "4711"])
def test_other_processes_say_the_same(hash_seed: str) -> None:
    from cases.make_sheet_example import make
    from cases.remnant_cases import cases
    from cases.remnant_shop import generated_shop

    found = cases([make(), *generated_shop(patterns=6, sizes=4)])
    here = [answer(name, text) for name, text in found[1:]]
    assert not any("Traceback" in one for one in here) and len(set(here)) > len(here) // 2
    run = subprocess.run(
        [sys.executable, "-c", ANSWER_ALL],
        input=json.dumps(found[1:]),
        env={**os.environ, "PYTHONHASHSEED": hash_seed},
        capture_output=True,
        text=True,
        check=True,
    )
    assert run.stdout.strip() == hashlib.sha256("\n".join(here).encode()).hexdigest()
