"""Reads `shop.yaml`: what the shop says for all its patterns. Without the file it has no label and sells in euros."""

from __future__ import annotations

from contextlib import suppress
from pathlib import Path
from typing import Final

from boltside.errors import Problem, ProblemsFound, in_order
from boltside.pattern import Shop, Technique
from boltside.read.collect import EnoughProblems, Problems
from boltside.read.schema import check_shop_document
from boltside.read.techniques import read_techniques
from boltside.read.text_file import SHOP_BYTES_MAX, read_text, shown
from boltside.read.yaml_tree import read_tree

SHOP_FILE: Final = "shop.yaml"


def read_shop(data_dir: Path) -> Shop:
    """What `data_dir`/shop.yaml says.

    Raises: `ProblemsFound` with everything that is wrong with the file.
    """
    shop, problems = examine_shop(data_dir)
    if shop is None:
        raise ProblemsFound(problems)
    return shop


def examine_shop(data_dir: Path) -> tuple[Shop | None, tuple[Problem, ...]]:
    """The shop, or None when there is an error, and every problem."""
    path = data_dir / SHOP_FILE
    problems = Problems()
    techniques: tuple[Technique, ...] = ()
    with suppress(EnoughProblems):
        techniques = read_techniques(data_dir, problems)
    if not path.exists() and not path.is_symlink():
        return (None if problems.errors else Shop(techniques=techniques)), in_order(problems.found)
    name = shown(path)
    text = read_text(path, data_dir, SHOP_BYTES_MAX, problems, "what the shop says for all patterns")
    document = None
    with suppress(EnoughProblems):
        tree = read_tree(text, name, problems) if text is not None else None
        document = check_shop_document(tree, name, problems) if tree is not None else None
    if document is None or problems.errors:
        return None, in_order(problems.found)
    shop = Shop(
        label=document.label, currency=document.currency, accent=document.accent, techniques=techniques
    )
    return shop, in_order(problems.found)
