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
