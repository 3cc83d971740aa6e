"""The documentation keeps up with the code: nothing public without words, no command, folder, key or link unsaid."""

from __future__ import annotations

import argparse
import ast
import importlib.util
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from boltside.cli import parser
from boltside.read import document

ROOT = Path(__file__).parents[1]
ENGINE = ROOT / "site_src" / "boltside"
CALCULATORS = ROOT / "calculators"
HANDBOOK = ROOT / "site_src" / "handbook"
README, DEVELOPERS = ROOT / "README.md", ROOT / "DEVELOPERS.md"
PICTURES = HANDBOOK / "pictures"
PAGES = [README, DEVELOPERS, *sorted(HANDBOOK.glob("*.md"))]
MODULES = sorted([*ENGINE.rglob("*.py"), *CALCULATORS.rglob("*.py")])

UNIT_IN_NAME = re.compile(r"(^|_)(mm2?|cm|in|deg|percent|ratio|bytes|s|seconds|digits|factor)(_|$)|lignes|yards|inch")
UNIT_IN_WORDS = re.compile(r"\b(mm²?|millimet\w+|cm|inch\w*|degrees?|radians?|percent|per cent|ratio|seconds|share)\b")
IN_ANY_UNIT = {"never_less_with_size"}
"""Compares lengths and gives some of them back, whatever their unit."""
ANSWERS_A_NUMBER = re.compile(r"\bfloat\b")

Documented = ast.FunctionDef | ast.AsyncFunctionDef | ast.ClassDef


def title(path: Path) -> str:
    return path.relative_to(ROOT).as_posix()


def public(body: list[ast.stmt]) -> Iterator[Documented]:
    """Public classes and functions, also those inside public classes."""
    for node in body:
        if isinstance(node, Documented) and not node.name.startswith("_"):
            yield node
            if isinstance(node, ast.ClassDef):
                yield from public(node.body)


def words_without_code(path: Path) -> str:
    return re.sub(r"```.*?```", "", path.read_text(encoding="utf-8"), flags=re.DOTALL)


# ---- docstrings ----


@pytest.mark.parametrize("path", MODULES, ids=title)
def test_everything_public_has_a_docstring(path: Path) -> None:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    bare = [f"{node.name}, line {node.lineno}" for node in public(tree.body) if not ast.get_docstring(node)]
    if tree.body and not ast.get_docstring(tree):  # an empty file says nothing that needs words
        bare.append("the module itself")
    assert bare == []


@pytest.mark.parametrize("path", MODULES, ids=title)
def test_what_returns_a_figure_says_its_unit(path: Path) -> None:
    """In its own name, in that of an argument that it gives back changed, or in its docstring."""
    unsaid = []
    for node in public(ast.parse(path.read_text(encoding="utf-8")).body):
        if isinstance(node, ast.ClassDef) or node.returns is None:
            continue
        if not ANSWERS_A_NUMBER.search(ast.unparse(node.returns)):
            continue
        names = [node.name, *(each.arg for each in (*node.args.args, *node.args.kwonlyargs))]
        in_words = UNIT_IN_WORDS.search(ast.get_docstring(node) or "") or node.name in IN_ANY_UNIT
        if not in_words and not any(UNIT_IN_NAME.search(name) for name in names):
            unsaid.append(f"{node.name}, line {node.lineno}")
    assert unsaid == []


# ---- commands ----


def commands() -> dict[str, list[str]]:
    """Each command of `boltside` with its own options."""
    (group,) = (action for action in parser()._actions if isinstance(action, argparse._SubParsersAction))
    return {
        name: [option for action in command._actions for option in action.option_strings if option.startswith("--")]
        for name, command in group.choices.items()
    }


@pytest.mark.parametrize("name", commands())
def test_each_command_is_in_the_readme(name: str) -> None:
    row = re.search(rf"^\| `boltside {name}` \| (.+) \|$", README.read_text(encoding="utf-8"), flags=re.MULTILINE)
    assert row and len(row[1]) > 10


@pytest.mark.parametrize("name", commands())
def test_each_option_of_a_command_is_in_the_readme(name: str) -> None:
    text = README.read_text(encoding="utf-8")
    assert [option for option in commands()[name] if option != "--help" and f"`{option}" not in text] == []


def test_each_command_of_start_is_documented() -> None:
    spec = importlib.util.spec_from_file_location("start_for_documentation", ROOT / "start.py")
    assert spec is not None and spec.loader is not None
    start = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(start)
    text = README.read_text(encoding="utf-8") + DEVELOPERS.read_text(encoding="utf-8")
    assert len(start.COMMANDS) >= 4
    assert [name for name in start.COMMANDS if f"start.py {name}" not in text] == []


# ---- the picture of the whole ----


def test_each_place_named_in_developers_exists() -> None:
    text = DEVELOPERS.read_text(encoding="utf-8")
    named = {word for word in re.findall(r"`([\w./<>-]+)`", text) if "/" in word or word.endswith(".py")}
    named |= set(re.findall(r"(?:^|\s)((?:data|calculators|tests)/[\w./<>-]*)", text))
    assert len(named) > 15
    missing = [place for place in named if not exists_somewhere(re.sub(r"<\w+>", "*", place))]
    assert missing == []


def exists_somewhere(place: str) -> bool:
    """From the project's folder, or from one of the folders that a reader takes for granted there."""
    return any(True for base in (ROOT, ENGINE, ENGINE / "pages", CALCULATORS) for _ in base.glob(place.rstrip("/")))


def test_each_part_of_the_engine_is_in_developers() -> None:
    text = DEVELOPERS.read_text(encoding="utf-8")
    parts = [path for path in ENGINE.iterdir() if path.suffix == ".py" or (path / "__init__.py").is_file()]
    parts = [path for path in parts if path.name != "__init__.py"]
    unsaid = [
        p.name for p in parts if not re.search(rf"boltside\.{p.stem}\b|`{p.stem}(\.py|/)`|boltside/{p.name}", text)
    ]
    assert len(parts) > 10 and unsaid == []


def test_each_folder_of_the_project_is_in_developers() -> None:
    """Top level, and one level down in those that hold parts of different kinds."""
    text = DEVELOPERS.read_text(encoding="utf-8")
    folders = [CALCULATORS, *(path for top in ("site_src", "data") for path in (ROOT / top).iterdir() if path.is_dir())]
    folders = [path for path in folders if not path.name.startswith((".", "__"))]
    assert len(folders) > 7
    assert [title(path) for path in folders if f"`{title(path)}/`" not in text] == []


# ---- the format ----


def keys_of_the_format() -> list[tuple[str, str]]:
    """Every key of every part of pattern.yaml, as a designer writes it."""
    kinds = [kind for kind in vars(document).values() if isinstance(kind, type) and issubclass(kind, document.Part)]
    return sorted((kind.__name__, field.alias or name) for kind in kinds for name, field in kind.model_fields.items())


@pytest.mark.parametrize("part", sorted({part for part, _ in keys_of_the_format()}))
def test_each_key_of_the_format_is_in_the_handbook(part: str) -> None:
    text = (HANDBOOK / "pattern-format.md").read_text(encoding="utf-8")
    keys = [key for kind, key in keys_of_the_format() if kind == part]
    assert keys
    assert [key for key in keys if not re.search(rf"(^|[\s{{`*]){re.escape(key)}(:|`)", text, re.MULTILINE)] == []


# ---- links ----


def headings(path: Path) -> set[str]:
    """The anchors that a page's headings get."""
    found = re.findall(r"^#+ (.+)$", words_without_code(path), flags=re.MULTILINE)
    return {re.sub(r"[^\w\s-]", "", heading).strip().lower().replace(" ", "-") for heading in found}


def links() -> list[tuple[Path, str]]:
    """Page and target of each link that stays in the project."""
    return [
        (path, target)
        for path in PAGES
        for target in re.findall(r"\]\(([^)\s]+)\)", words_without_code(path))
        if not re.match(r"[a-z]+:", target)
    ]


@pytest.mark.parametrize(("page", "target"), links(), ids=lambda part: part.name if isinstance(part, Path) else part)
def test_each_link_leads_somewhere(page: Path, target: str) -> None:
    place, _, anchor = target.partition("#")
    path = (page.parent / place).resolve() if place else page
    if path.parent == PICTURES and not PICTURES.is_dir():  # not taken yet: then it is one of those that will be
        assert path.name in pictures_to_be_taken()
        return
    assert path.exists(), f"{target} in {page.name}"
    if anchor:
        assert anchor in headings(path)


def pictures_to_be_taken() -> set[str]:
    """The pictures of the patterns' pages that `python -m tests.browser.pictures` takes."""
    patterns = [path.parent.name for path in ROOT.glob("data/patterns/*/pattern.yaml")]
    return {
        f"{name}-{width}-{scheme}.png" for name in patterns for width in (360, 1280) for scheme in ("light", "dark")
    }


def test_the_readme_begins_with_the_job_a_picture_and_the_two_commands() -> None:
    text = README.read_text(encoding="utf-8")
    order = [
        text.find(part) for part in ("\n\n", "![", "python3 start.py shop", "python3 start.py test", "## To change")
    ]
    assert -1 not in order and order == sorted(order)
    assert (PICTURES / "ferrylight-360-light.png").relative_to(ROOT).as_posix() in text
