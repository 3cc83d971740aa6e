"""What stands in the browser's Python for parts of its library that no calculator needs?

Starting Python imports an event loop, with sockets and threads behind it, an installer of packages, and what takes
sources and bytecode apart. Calculators wait for nothing, install nothing and have no source there, so these few lines
stand in their place, with the names that the start itself asks for. A third of the library and a third of the start go
with them.
"""

from __future__ import annotations

from collections.abc import Mapping

STAND_INS: Mapping[str, str] = {
    # Asked for by name only, when JavaScript's objects are made known to Python.
    "asyncio/__init__.py": "",
    # Bytecode taken apart; asked for the names of a code object's flags, the bits that CPython's manual lists.
    "dis.py": """
COMPILER_FLAG_NAMES = {
    1: "OPTIMIZED",
    2: "NEWLOCALS",
    4: "VARARGS",
    8: "VARKEYWORDS",
    16: "NESTED",
    32: "GENERATOR",
    64: "NOFREE",
    128: "COROUTINE",
    256: "ITERABLE_COROUTINE",
    512: "ASYNC_GENERATOR",
    0x4000000: "HAS_DOCSTRING",
    0x8000000: "METHOD",
}
""",
    # Functions taken apart: asked of one with `*args, **kwargs` alone, of functions that wrap none, and by name.
    "inspect.py": """
class Parameter:
    empty = type("empty", (), {})
    POSITIONAL_ONLY, POSITIONAL_OR_KEYWORD, VAR_POSITIONAL, KEYWORD_ONLY, VAR_KEYWORD = range(5)

    def __init__(self, name, kind):
        self.name, self.kind, self.default = name, kind, self.empty


class Signature:
    def __init__(self, parameters):
        self.parameters = {one.name: one for one in parameters}


def signature(function):
    code = function.__code__
    names = code.co_varnames
    if code.co_argcount or code.co_kwonlyargcount or code.co_flags & 12 != 12:
        raise ValueError("only *args and **kwargs are known here")
    return Signature([Parameter(names[0], Parameter.VAR_POSITIONAL), Parameter(names[1], Parameter.VAR_KEYWORD)])


def unwrap(function):
    return function


def isclass(thing):
    return isinstance(thing, type)


def ismethod(_thing):
    return False


iscoroutinefunction = ismethod
getattr_static = getattr
""",
    # Which functions an error came through, for a developer; the bytecode has no lines that could be told.
    "traceback.py": """
import sys


def print_exception(_kind, error, tb):
    lines = ["Traceback (most recent call last):"]
    while tb is not None:
        lines.append(f"  in {tb.tb_frame.f_code.co_qualname}")
        tb = tb.tb_next
    print(*lines, f"{type(error).__name__}: {error}", sep="\\n", file=sys.stderr)
""",
    # The descriptions of what JavaScript's objects can do in Python; the bytecode has none.
    "_pyodide/docstring.py": """
def dedent_docstring(docstring):
    return docstring


def get_cmeth_docstring(_function):
    return ""
""",
    # Sources taken apart: asked only whether what JavaScript has run ends in a semicolon, and so gives no value.
    "tokenize.py": "def generate_tokens(_readline):\n    return ()\n",
    "pyodide/webloop.py": "def _initialize_event_loop():\n    pass\n",
    "pyodide/_package_loader.py": """
class Place:
    def __init__(self, path):
        self.path = path

    def __str__(self):
        return self.path


SITE_PACKAGES = Place("/lib/python3.14/site-packages")
DSO_DIR = Place("/usr/lib")


def init_loaded_packages():
    pass
""",
}
"""Place in the library to the text that stands there instead; of a package that is replaced nothing else stays."""


def stands(place: str) -> bool:
    """Whether the file at `place` of the library stays as it came, beside the stand-ins."""
    return place not in STAND_INS and f"{place.split('/')[0]}/__init__.py" not in STAND_INS
