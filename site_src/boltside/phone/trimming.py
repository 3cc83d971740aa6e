"""Which files of the library does the start need, and how small do they get? Runs inside the browser's own Python.

Bytecode belongs to one Python; so this file is run by the very Python that will read it, under Node (`prepare.mjs`).
Kept is what is loaded once all calculators are imported. Left out of the bytecode is what no answer shows: docstrings,
line numbers, the calculators' notes of types. Nothing here needs that Python, so tests run it in any.
"""

from __future__ import annotations

import ast
import importlib.util
import io
import marshal
import sys
import types
import zipfile
from collections.abc import Mapping

MADE_AT = (1980, 1, 1, 0, 0, 0)
"""The oldest time that a zip file can tell: the same bytes whenever it is made."""
UNCHECKED_HASH = (1).to_bytes(4, "little")
"""Flags of bytecode that is never compared with a source (PEP 552)."""
NO_WORDS = "."
"""In place of a docstring that has to be there: a dataclass without one writes its own, which takes long."""
KEPT = ("encodings/cp437.py",)
"""What a start may ask for without importing it before: the code page of names in zip files."""


def archive(files: Mapping[str, bytes]) -> bytes:
    """The files as a zip file that is not packed (what carries it is), the same bytes for the same files."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_STORED) as made:
        for name, content in sorted(files.items()):
            entry = zipfile.ZipInfo(name, MADE_AT)
            entry.create_system = 3  # otherwise the system's own number
            made.writestr(entry, content)
    return out.getvalue()


def without_words(tree: ast.Module, *, types_too: bool) -> ast.Module:
    """The tree without docstrings, and where `types_too` without the types of arguments and results.

    Types in class bodies stay: dataclasses are made from them.
    """
    for node in ast.walk(tree):
        if isinstance(node, ast.Module | ast.ClassDef | ast.FunctionDef | ast.AsyncFunctionDef):
            first = node.body[0] if node.body else None
            words = first.value if isinstance(first, ast.Expr) else None
            if isinstance(words, ast.Constant) and isinstance(words.value, str):
                words.value = NO_WORDS
        if types_too and isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            node.returns = None
            for argument in (*node.args.posonlyargs, *node.args.args, *node.args.kwonlyargs, node.args.vararg,
                             node.args.kwarg):  # fmt: skip
                if argument is not None:
                    argument.annotation = None
    return tree


def without_places(code: types.CodeType) -> types.CodeType:
    """The code without line numbers and without the name of its file, in all that it holds."""
    inner = tuple(without_places(part) if isinstance(part, types.CodeType) else part for part in code.co_consts)
    return code.replace(co_linetable=b"", co_filename="", co_consts=inner)


def bytecode(source: bytes, name: str, *, ours: bool) -> bytes:
    """The content of a `.pyc` file for the source; `ours` for a calculator, whose assertions stay."""
    tree = without_words(ast.parse(source, name), types_too=ours)
    code = compile(tree, name, "exec", dont_inherit=True, optimize=0 if ours else 1)
    head = importlib.util.MAGIC_NUMBER + UNCHECKED_HASH + importlib.util.source_hash(source)
    return head + marshal.dumps(without_places(code))


def loaded_from(library: str) -> list[str]:
    """Places in the zip file `library` of all modules that are loaded and not built into Python itself."""
    found = set(KEPT)
    for module in list(sys.modules.values()):
        file = getattr(module, "__file__", None) or ""
        if file.startswith(library + "/") and getattr(module.__spec__, "origin", "") != "frozen":
            found.add(file.removeprefix(library + "/"))
    return sorted(found)


def trimmed_library(library: str) -> bytes:
    """The zip file `library` with what is loaded now, compiled."""
    with zipfile.ZipFile(library) as whole:
        return archive(
            {place + "c": bytecode(whole.read(place), place, ours=False) for place in loaded_from(library)}
        )


def compiled_calculators(sources: Mapping[str, bytes]) -> bytes:
    """A zip file with the calculators compiled; `sources` by their place in Python, `boltside/calculators/door.py`."""
    return archive({place + "c": bytecode(source, place, ours=True) for place, source in sources.items()})
