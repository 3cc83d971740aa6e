"""The calculators stand alone: standard library only, and of that only what answers the same everywhere."""

from __future__ import annotations

import ast
import doctest
import importlib
from pathlib import Path

import pytest

FOLDER = Path(__file__).parents[2] / "calculators"
MODULES = sorted(path.stem for path in FOLDER.glob("*.py") if path.stem != "__init__")
WITHOUT_EXAMPLE = ["mending", "problems", "request"]
"""They have nothing to show in a line or two; every calculator does."""
ALLOWED = {"__future__", "collections.abc", "dataclasses", "json", "re", "typing"}
"""No clock, no chance, no files, no system mathematics."""


@pytest.mark.parametrize("name", MODULES)
def test_imports(name: str) -> None:
    for node in ast.walk(ast.parse((FOLDER / f"{name}.py").read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            assert {alias.name for alias in node.names} <= ALLOWED
        elif isinstance(node, ast.ImportFrom) and not node.level:
            assert node.module in ALLOWED
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 1


@pytest.mark.parametrize("name", MODULES)
def test_examples_in_docstrings(name: str) -> None:
    module = importlib.import_module(f"boltside.calculators.{name}")
    result = doctest.testmod(module)
    assert result.failed == 0
    assert (result.attempted > 0) == (name not in WITHOUT_EXAMPLE)


def test_every_public_name_is_explained() -> None:
    for name in MODULES:
        tree = ast.parse((FOLDER / f"{name}.py").read_text(encoding="utf-8"))
        assert ast.get_docstring(tree), name
        for node in tree.body:
            if isinstance(node, ast.FunctionDef | ast.ClassDef) and not node.name.startswith("_"):
                assert ast.get_docstring(node), f"{name}.{node.name}"
