"""Law: however a pattern folder is damaged, reading it ends with a pattern or with `ProblemsFound`, quickly."""

from __future__ import annotations

import tempfile
import time
import tracemalloc
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from boltside.check import examine
from boltside.errors import ProblemsFound
from boltside.read.folder import read_patterns

from .cases import BOMB, CHART, STEPS, SVG, WHOLE, YAML
from .folders import BASE, broken_data

FILES = (YAML, SVG, STEPS, CHART)
SECONDS_MAX = 10.0
"""CPU; a damaged folder takes some hundredths. Only a reader that runs away needs as long. Our choice."""

BYTES_MAX = 120_000_000
"""The small base takes some 3 MB, files as large as they may be up to 80; an expanded bomb would need far more. Our
choice."""

WORDS = (
    "",
    " ",
    "\t",
    "{",
    "}",
    "[",
    "]",
    ":",
    "-",
    "#",
    "'",
    '"',
    "&a",
    "*a",
    "!!x",
    "0",
    "-1",
    "1e99",
    "nan",
    "null",
    "true",
    "é",
    "\x00",
    "\ufeff",
    "<",
    ">",
    "/>",
    "&#0;",
    "Z",
    "M 0,0",
    "A 1 1 0 0 0 9 9",
    "front.80.outline",
    "as:opened",
    "when:",
    "..",
    "size",
    "\r",
    "\n\n",
    "## ",
    ",",
)


@st.composite
def damages(draw: st.DrawFn) -> tuple[str, bytes]:
    """A file of the base, and its content damaged a few times."""
    name = draw(st.sampled_from(FILES))
    text = (BASE / name).read_text(encoding="utf-8")
    for _ in range(draw(st.integers(1, 3))):
        kind = draw(st.sampled_from(("delete line", "double line", "swap", "truncate", "insert", "replace")))
        lines = text.split("\n")
        at = draw(st.integers(0, len(lines) - 1))
        if kind == "delete line":
            text = "\n".join(lines[:at] + lines[at + 1 :])
        elif kind == "double line":
            text = "\n".join(lines[: at + 1] + lines[at:])
        elif kind == "swap":
            words = lines[at].split(" ")
            one, other = draw(st.integers(0, len(words) - 1)), draw(st.integers(0, len(words) - 1))
            words[one], words[other] = words[other], words[one]
            text = "\n".join([*lines[:at], " ".join(words), *lines[at + 1 :]])
        elif kind == "truncate":
            text = text[: draw(st.integers(0, len(text)))]
        else:
            place = draw(st.integers(0, len(text)))
            gone = 0 if kind == "insert" else draw(st.integers(1, 12))
            text = text[:place] + draw(st.sampled_from(WORDS)) + text[place + gone :]
    content = text.encode("utf-8")
    if draw(st.integers(0, 9)) == 0:
        place = draw(st.integers(0, len(content)))
        content = content[:place] + draw(st.binary(min_size=1, max_size=3)) + content[place:]
    return name, content


@settings(max_examples=300, deadline=None, suppress_health_check=[HealthCheck.too_slow], derandomize=True)
@given(damages())
def test_damaged_folders_are_read_or_refused(damage: tuple[str, bytes]) -> None:
    name, content = damage
    with tempfile.TemporaryDirectory() as folder:
        data_dir = broken_data({name: ((WHOLE, content),)}, Path(folder) / "data")
        begun = time.process_time()
        try:
            assert len(read_patterns(data_dir)) == 1
        except ProblemsFound as found:
            assert found.problems
            assert all(problem.line >= 1 and problem.column >= 1 for problem in found.problems)
        assert time.process_time() - begun < SECONDS_MAX


GOOD_YAML = (BASE / YAML).read_text(encoding="utf-8")
GOOD_SVG = (BASE / SVG).read_text(encoding="utf-8")


def in_the_drawing(attributes: str) -> str:
    """The good drawing with a polygon more, written without care."""
    closed = '"' if attributes.count('"') % 2 else ""
    return GOOD_SVG.replace("</svg>", f'<polygon id="front.80.area.x" {attributes}{closed}/></svg>')


BOMBS = {
    "entities": (SVG, BOMB + "<svg>&m;</svg>", "entity-or-dtd"),
    "entity from a file": (
        SVG,
        '<!DOCTYPE svg [<!ENTITY a SYSTEM "file:///etc/passwd">]><svg>&a;</svg>',
        "entity-or-dtd",
    ),
    "aliases": (YAML, "a: &a [x,x]\n" + "".join(f"b{n}: &b{n} [*a,*a]\n" for n in range(30)), "syntax"),
    "brackets": (YAML, "[" * 200_000, "too-deep"),
    "dashes": (YAML, "- " * 100_000, "too-deep"),
    "groups": (SVG, "<svg>" + "<g>" * 100_000, "too-deep"),
    "long numbers": (YAML, "minutes: " + "9" * 200_000, "wrong-type"),
    "unknown keys": (YAML, GOOD_YAML + "".join(f"k{at}: 1\n" for at in range(20_000)), "unknown-key"),
    "keys twice": (YAML, GOOD_YAML + "x: 1\n" * 40_000, "too-many-problems"),
    "list of junk": (YAML, GOOD_YAML.replace("notions:", "notions: [" + "x," * 60_000 + "]\nx:"), "wrong-value"),
    "spaces in a condition": (YAML, "when: a: b" + " " * 200_000 + "x", "syntax"),
    "misspelt edges": (
        YAML,
        GOOD_YAML.replace(
            "seams:\n",
            "seams:\n" + "".join(f"  - {{name: s{at}, join: [front.sde], to: [back.sdie]}}\n" for at in range(390)),
        ),
        "too-many-problems",
    ),
    "digits without end": (SVG, in_the_drawing('points="' + "1" * 400_000 + ' x"'), "bad-shape"),
    "digits in a transform": (
        SVG,
        in_the_drawing('points="0,0 1,1 2,0" transform="scale(' + "1" * 3_000),
        "not-followed",
    ),
    "long path": (SVG, in_the_drawing('points="' + "1,1 " * 200_000 + '"'), "bad-shape"),
    "points on a fine outline": (
        SVG,
        GOOD_SVG.replace(
            "M 0,0 H 160 V 300", "M 0,0 H 160 " + " ".join(f"V {at / 10}" for at in range(1, 1_900)) + " V 300", 1
        ).replace(
            "</svg>",
            "".join(f'<circle id="front.80.point.x{at}" cx="5" cy="5" r="1"/>' for at in range(9_000)) + "</svg>",
        ),
        "too-large",
    ),
    "elements": (SVG, "<svg>" + "<g/>" * 300_000 + "</svg>", "too-large"),
    "transforms": (
        SVG,
        GOOD_SVG.replace("<g ", '<g transform="scale(1)">' * 90 + "<g ", 1).replace(
            "</svg>", '<circle id="front.80.point.x" r="1"/>' * 20_000 + "</g>" * 90 + "</svg>"
        ),
        "duplicate-id",
    ),
    "long heading": (STEPS, "##" + " " * 60_000 + "x" * 60_000, "too-large"),
    "hashes in a heading": (STEPS, "## a" + "# " * 60_000 + "x", "too-large"),
    "steps": (STEPS, "## a\ntext\n" * 12_000, "too-large"),
    "rows": (CHART, "size,chest_mm\n" + "".join(f"s{at},x\n" for at in range(40_000)), "too-many-problems"),
    "many columns": (CHART, "size" + "," * 400_000, "bad-chart"),
    "many curves": (
        SVG,
        '<svg width="1mm" height="1mm" viewBox="0 0 1 1"><path id="front.80.outline" d="M0,0 '
        + "a 90000 90000 0 1 1 1 1 " * 200
        + '"/></svg>',
        "bad-shape",
    ),
}


@pytest.mark.parametrize("name", BOMBS)
def test_bombs_take_neither_time_nor_memory(name: str, tmp_path: Path) -> None:
    file, content, code = BOMBS[name]
    data_dir = broken_data({file: ((WHOLE, content),)}, tmp_path / "data")
    begun = time.process_time()
    tracemalloc.start()
    try:
        problems = examine(data_dir).problems
        _, peak_bytes = tracemalloc.get_traced_memory()
    finally:
        tracemalloc.stop()
    assert code in {problem.code for problem in problems}
    assert peak_bytes < BYTES_MAX
    assert time.process_time() - begun < SECONDS_MAX
