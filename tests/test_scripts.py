"""Scripts get smaller, and stay the same scripts."""

from __future__ import annotations

import re
import subprocess
from pathlib import Path

import pytest

from boltside.phone.prepare import node_command
from boltside.scripts import small_script

SCRIPTS = sorted((Path(__file__).parents[1] / "site_src" / "browser").glob("*js"))
BACKTICKED = re.compile(r"`(?:\\.|[^`\\])*`", re.S)
QUOTED = re.compile(r'"(?:\\.|[^"\\\n])*"')


def test_only_lines_of_comment_and_space_at_the_ends_go() -> None:
    script = '// about\nexport function f(a) {\n  // why\n  return a + "// no comment"; // behind\n}\n\n'
    assert small_script(script) == 'export function f(a) {\nreturn a + "// no comment"; // behind\n}\n'


def test_what_stands_between_backticks_stays() -> None:
    script = "const page = `<p>\n  // text\n\n  more \\` ${1 + 1}\n  </p>`;\n  // why\n"
    assert small_script(script) == "const page = `<p>\n  // text\n\n  more \\` ${1 + 1}\n  </p>`;\n"


@pytest.mark.parametrize("path", SCRIPTS, ids=lambda path: path.name)
def test_our_scripts_stay_themselves(path: Path, tmp_path: Path) -> None:
    script = path.read_text("utf-8")
    small = small_script(script)
    assert len(small) < len(script)
    assert BACKTICKED.findall(small) == BACKTICKED.findall(re.sub(r"^\s*//.*\n", "", script, flags=re.M))
    assert not any("`" in text for text in QUOTED.findall(BACKTICKED.sub("", script)))
    made = tmp_path / f"{path.stem}.mjs"
    made.write_text(small, "utf-8")
    subprocess.run([*node_command(), "--check", str(made)], check=True)


@pytest.mark.parametrize("path", SCRIPTS, ids=lambda path: path.name)
def test_line_for_line_it_is_the_code_that_was_written(path: Path) -> None:
    """What runs are the written lines in their order, without those that hold nothing but a comment."""
    written = [line.strip() for line in path.read_text("utf-8").split("\n")]
    kept = [line.strip() for line in small_script(path.read_text("utf-8")).split("\n")]
    left_out = list(written)
    for line in kept:
        left_out.remove(line)
    assert all(line == "" or line.startswith("//") for line in left_out)
