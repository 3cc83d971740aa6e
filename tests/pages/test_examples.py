"""The examples in the docstrings of the page makers."""

from __future__ import annotations

import doctest
import importlib
import pkgutil

import pytest

import boltside.pages

MODULES = sorted(module.name for module in pkgutil.iter_modules(boltside.pages.__path__))


@pytest.mark.parametrize("name", MODULES)
def test_examples(name: str) -> None:
    failed, _ = doctest.testmod(importlib.import_module(f"boltside.pages.{name}"))
    assert failed == 0


def test_there_are_examples() -> None:
    finder = doctest.DocTestFinder()
    modules = [importlib.import_module(f"boltside.pages.{name}") for name in MODULES]
    assert sum(bool(found.examples) for module in modules for found in finder.find(module)) >= 8
