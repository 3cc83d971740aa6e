"""Arrows point one way: each part imports only what stands below it."""

from __future__ import annotations

import ast
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
ENGINE = ROOT / "site_src" / "boltside"

# What each part may import from the project, besides itself.
MAY_IMPORT: dict[str, set[str]] = {
    "calculators": set(),
    "errors": set(),
    "pattern": set(),
    "installed": {"errors"},
    "new": {"errors", "installed"},
    "lay": set(),
    "phone": {"errors"},
    "read": {"errors", "pattern", "calculators"},
    "measure": {"errors", "pattern", "lay.model", "calculators"},
    "chosen": {"errors", "pattern", "read"},
    "check": {"chosen", "errors", "pattern", "read", "measure"},
    "lay_files": {"lay", "spec"},
    "published_lays": {"lay"},
    "published_repeats": {"lay", "published_lays"},
    "pairs": {"lay"},
    "published_pairs": {"lay", "pairs", "published_lays"},
    "pair_lay_files": {"lay", "lay_files", "pairs", "published_pairs"},
    "demands": {"errors", "pairs", "pattern", "measure", "lay", "calculators"},
    "plan": {"demands", "errors", "pairs", "pattern", "lay"},
    "shop_lays": {"demands", "lay", "lay_files", "measure", "pair_lay_files", "pairs", "pattern", "plan",
                  "published_lays", "published_pairs", "published_repeats", "read", "spec"},
    "laying": {"chosen", "demands", "lay", "plan"},
    "spec": {"errors", "pattern", "measure", "lay.model", "calculators"},
    "pages": {"calculators"},
    "chapters": {"calculators", "chosen", "errors", "pages", "paper", "read", "spec"},
    "samples": {"calculators", "chosen", "errors", "pages", "pattern", "spec"},
    "shop_answers": {"pages", "calculators"},
    "paper": {"calculators", "chosen", "errors", "installed", "pages", "plan", "read", "shop_lays"},
    "shop_build": {"errors", "paper", "plan", "shop_answers", "shop_lays", "pages", "calculators", "phone", "scripts",
                   "spec"},
    "headers": set(),
    "edition": {"headers"},
    "scripts": set(),
    "style_sheet": set(),
    "stub_pages": {"shop_build", "pages"},
    "plugin": {"edition", "errors", "headers", "installed", "shop_build", "stub_pages", "style_sheet", "pages"},
    "publish": {"errors"},
    "serve": {"errors", "installed", "pattern", "plan", "plugin", "publish", "read", "shop_build", "shop_lays",
              "spec"},
    "cli": {"errors", "chapters", "check", "laying", "new", "paper", "publish", "samples", "serve", ""},
}


def part_of(path: Path) -> str:
    """`lay` for boltside/lay/flat.py, `plan` for boltside/plan.py, `calculators` for the folder of that name."""
    if path.is_relative_to(ROOT / "calculators"):
        return "calculators"
    return path.relative_to(ENGINE).parts[0].removesuffix(".py")


def imported(path: Path) -> list[tuple[int, str]]:
    """Line and full name of every import, relative ones resolved."""
    package = ["boltside", *path.relative_to(ENGINE).parent.parts] if path.is_relative_to(ENGINE) else [
        "boltside", "calculators"]
    names: list[tuple[int, str]] = []
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            names += [(node.lineno, alias.name) for alias in node.names]
        elif isinstance(node, ast.ImportFrom):
            base = package[: len(package) - node.level + 1] if node.level else []
            whole = ".".join([*base, *([node.module] if node.module else [])])
            names += [(node.lineno, f"{whole}.{alias.name}") for alias in node.names]
    return names


SOURCES = sorted([*ENGINE.rglob("*.py"), *(ROOT / "calculators").rglob("*.py")])


@pytest.mark.parametrize("path", SOURCES, ids=lambda path: str(path.relative_to(ROOT)))
def test_imports_point_down(path: Path) -> None:
    part = part_of(path)
    if part == "__init__":
        return
    for line, name in imported(path):
        parts = name.split(".")
        if parts[0] != "boltside" or len(parts) < 2 or parts[1] in (part, "__version__"):
            continue
        allowed = MAY_IMPORT[part]
        assert parts[1] in allowed or ".".join(parts[1:3]) in allowed, f"{path}:{line}: {part} must not import {name}"


@pytest.mark.parametrize("path", sorted((ROOT / "calculators").rglob("*.py")), ids=lambda path: path.name)
def test_calculators_use_the_standard_library_only(path: Path) -> None:
    for line, name in imported(path):
        top = name.split(".")[0]
        assert top == "boltside" or top in sys.stdlib_module_names, f"{path}:{line}: {name}"


def test_every_part_has_its_place_in_the_picture() -> None:
    parts = {part_of(path) for path in SOURCES} - {"__init__"}
    assert parts <= set(MAY_IMPORT)
