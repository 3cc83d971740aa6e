#!/usr/bin/env python3
"""How do I get Boltside running on this machine? Needs nothing but Python itself.

    python3 start.py shop          everything that is missing, the demo shop built and served on this machine
    python3 start.py build         the same without serving; the shop lands in site/
    python3 start.py test          everything that the tests need, a browser too; then all checks and tests
    python3 start.py run ARGS...   `boltside ARGS...` in the environment made here
    python3 start.py wheel         a wheel in dist/ that holds everything, to be installed on other machines
    python3 start.py paper         what printing the guide on paper (PDF) needs; later builds make these guides
    python3 start.py lock          make requirements.lock and its like anew from pyproject.toml (for maintainers)

Words after `shop` and `build` go on to `boltside serve` and `boltside build`, words after `test` to pytest.
Every command can be interrupted and repeated. The environment is `.venv` beside this file; it counts as complete
only when the mark written last is there, and is made anew when the mark is missing or the lock has changed.
Only the version check below has to run on an old Python, but the whole file has to parse there: no newer syntax.
One file, though long: it runs before anything of Boltside can be imported.
"""

import contextlib
import hashlib
import importlib.util
import json
import os
import platform
import re
import shutil
import signal
import subprocess
import sys
import time
import venv
from collections.abc import Iterator
from pathlib import Path

OLDEST_PYTHON, NEWEST_PYTHON = (3, 11), (3, 13)
_running = tuple(sys.version_info[:2])
if not OLDEST_PYTHON <= _running <= NEWEST_PYTHON:
    print(
        "Boltside needs Python 3.11, 3.12 or 3.13; this is Python {}.{}. "
        "Run start.py with one of those, for example: python3.12 start.py shop".format(*_running)
    )
    sys.exit(2)

ROOT = Path(__file__).resolve().parent
VENV = ROOT / ".venv"
MARK = VENV / "complete.json"
LOCK_FILE = ROOT / "requirements.lock"
# What few want has a lock of its own; it is looked for only where that is asked for.
PAPER_LOCK_FILE = ROOT / "requirements-paper.lock"
WORK = ROOT / ".cache" / "boltside"
PIP_LOG = WORK / "pip.log"

ON_WINDOWS = os.name == "nt"
SCRIPTS = VENV / ("Scripts" if ON_WINDOWS else "bin")
VENV_PYTHON = SCRIPTS / ("python.exe" if ON_WINDOWS else "python")
IN_CI = bool(os.environ.get("CI"))

# Raised by one whenever the way the environment is made changes, so that older ones are made anew.
MARK_FORMAT = 1
# A line this often where no moving line can be shown, so that a silent minute does not look like a hang.
HEARTBEAT_S = 30.0
# How long a child may take to end by itself after Ctrl-C.
PATIENCE_WITH_CHILD_S = 10
# What a wheel is made from. The drafting, tests and data of the demo shop are not part of it.
WHEEL_FILES = ("pyproject.toml", "README.md", "LICENSE")
WHEEL_FOLDERS = ("calculators", "site_src/boltside", "site_src/browser", "site_src/pages", "site_src/theme")
WHEEL_RUNTIME = Path("site_src") / "boltside" / "phone" / "runtime"
# Runs inside the environment: only there can Boltside be imported.
PACK_RUNTIME = """
import sys
from pathlib import Path
from boltside.errors import BoltsideError
from boltside.phone.fetch import cache_dir_of
from boltside.phone.prepare import ensure_prepared, key_of, write
from boltside.shop_build import calculator_sources
try:
    prepared = ensure_prepared(cache_dir_of(Path(sys.argv[1])), calculator_sources(), print)
except BoltsideError as error:
    sys.exit(str(error))
write(Path(sys.argv[2]), key_of(calculator_sources()), prepared.archives)
"""
# `pip --python`, the way to fill an environment without a pip of its own, came with pip 22.3.
PIP_WITH_PYTHON_OPTION = (22, 3)


class Halt(Exception):
    """Something a person has to mend; the text says what was seen and what to do."""


class Terminated(KeyboardInterrupt):
    """Somebody asked this program to end, other than with Ctrl-C, which a terminal sends to its children as well."""


def say(text: str) -> None:
    """Print one plain sentence at once."""
    print(text, flush=True)


class Progress:
    """One moving line on a terminal, a line now and then elsewhere, nothing in between in CI."""

    def __init__(self, what: str, total: int) -> None:
        self.what, self.total, self.done = what, total, 0
        self.moving = sys.stdout.isatty() and not IN_CI
        self.last_s = time.monotonic()

    def step(self, name: str, counts: bool = True) -> None:
        """Show that `name` is being worked on; `counts` when it is one of the total."""
        self.done = min(self.total, self.done + counts)
        line = f"  {self.done} of {self.total} {self.what}: {name}"
        if self.moving:
            width = shutil.get_terminal_size().columns - 1
            print("\r" + line[:width].ljust(width), end="", flush=True)
        elif time.monotonic() - self.last_s > HEARTBEAT_S:
            self.last_s = time.monotonic()
            say(line)

    def close(self) -> None:
        """Leave the moving line empty for what comes next."""
        if self.moving:
            print("\r" + " " * (shutil.get_terminal_size().columns - 1) + "\r", end="", flush=True)


def run(command: "list[str]", where: Path = ROOT, **environment: str) -> int:
    """Run `command` in the open, wait for it even through Ctrl-C, and return its exit code.

    `environment` is added to this program's own variables.
    """
    process = subprocess.Popen(command, cwd=where, env={**os.environ, **environment})
    try:
        return process.wait()
    except Terminated:
        process.terminate()
        raise
    finally:
        end(process)


def end(process: "subprocess.Popen[str] | subprocess.Popen[bytes]") -> None:
    """Let a child that is still there end by itself for a moment, then end it."""
    for last_resort in (process.terminate, process.kill):
        try:
            process.wait(PATIENCE_WITH_CHILD_S)
            return
        except (subprocess.TimeoutExpired, KeyboardInterrupt):
            last_resort()
    process.wait()


# --- the environment ---------------------------------------------------------------------------------------------


def lock_sections(lock_file: Path = LOCK_FILE) -> "dict[str, str]":
    """Return the sections of a lock, name → the lines pip needs, the options at its top included."""
    try:
        text = lock_file.read_text("utf-8")
    except OSError as error:
        mend = f"Get it back with: git checkout {lock_file.name}"
        raise Halt(f"Cannot read {lock_file}: {error.strerror}. {mend}") from error
    pieces = re.split(r"^# == section (\w+)[^\n]*\n", text, flags=re.MULTILINE)
    options = "".join(line + "\n" for line in pieces[0].splitlines() if line.startswith("--"))
    return {name: options + body.strip() + "\n" for name, body in zip(pieces[1::2], pieces[2::2], strict=True)}


def hash_of(text: str) -> str:
    """Return the sha256 of `text` in hexadecimal."""
    return hashlib.sha256(text.encode()).hexdigest()


def read_mark() -> "dict[str, str]":
    """Return what the complete environment was made from (section → hash); empty when it has to be made anew."""
    try:
        mark = json.loads(MARK.read_text("utf-8"))
        usable = mark["format"] == MARK_FORMAT and mark["place"] == str(VENV) and VENV_PYTHON.exists()
        made_from = {str(name): str(value) for name, value in mark["made_from"].items()}
    except (OSError, ValueError, KeyError, TypeError, AttributeError):
        return {}
    return made_from if usable else {}


def write_mark(made_from: "dict[str, str]") -> None:
    """Write the mark in one step; it is the last thing that happens to the environment."""
    fresh = MARK.with_suffix(".new")
    fresh.write_text(json.dumps({"format": MARK_FORMAT, "place": str(VENV), "made_from": made_from}), "utf-8")
    os.replace(fresh, MARK)


def remove_environment() -> None:
    """Remove .venv, the mark first, so that an interrupted removal can't look complete."""
    try:
        MARK.unlink(missing_ok=True)
        if VENV.is_symlink():
            VENV.unlink()
        elif VENV.exists():
            shutil.rmtree(VENV)
    except OSError as error:
        raise Halt(
            f"Cannot remove the old environment {VENV}: {error}. "
            "End the programs that use it (also `deactivate` it in this terminal) and run this command again."
        ) from error


def may_install_system_packages() -> bool:
    """Say whether this user is root; only then does start.py install system packages."""
    return hasattr(os, "geteuid") and os.geteuid() == 0


def install_system_package(commands: "tuple[tuple[str, ...], ...]") -> bool:
    """Run the package tool's commands in turn; return whether all succeeded."""
    return all(run(list(command), DEBIAN_FRONTEND="noninteractive") == 0 for command in commands)


def make_empty_environment() -> None:
    """Create .venv in place, with pip where this Python brings it.

    Raises: Halt with the exact line to run where Python's venv part is missing and may not be installed.
    """
    package = "python{}.{}-venv".format(*sys.version_info[:2])
    commands = (("apt-get", "update"), ("apt-get", "install", "-y", "--no-install-recommends", package))
    with_pip = importlib.util.find_spec("ensurepip") is not None
    if not with_pip and not outside_pip_is_usable():
        if not shutil.which("apt-get"):
            raise Halt("This Python lacks its part `ensurepip`, and pip. Install pip for it and run this again.")
        if not may_install_system_packages():
            raise Halt(
                "This Python lacks its part for environments. Install it with this line and run this again:\n"
                f"  sudo apt-get install {package}"
            )
        say(f"This Python lacks its part for environments; installing the system package {package}.")
        if not install_system_package(commands):
            raise Halt(f"The system package {package} could not be installed; the reason stands above.")
        with_pip = True
    say(f"Creating the environment .venv with Python {platform.python_version()}.")
    # An environment made from inside another one hangs on that one; the interpreter below both is the safe base.
    base = getattr(sys, "_base_executable", None) or sys.executable
    command = [base, "-m", "venv", str(VENV)] + ([] if with_pip else ["--without-pip"])
    made = subprocess.run(command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True)
    if made.returncode or not VENV_PYTHON.exists():
        raise Halt(f"Python could not create {VENV}:\n{made.stdout.strip()}")


def outside_pip_is_usable() -> bool:
    """Say whether the Python that runs this file has a pip that can fill another environment."""
    if importlib.util.find_spec("pip") is None:
        return False
    import pip

    found = re.match(r"(\d+)\.(\d+)", pip.__version__)
    return found is not None and tuple(int(part) for part in found.groups()) >= PIP_WITH_PYTHON_OPTION


def pip_command() -> "list[str]":
    """Return the start of a pip command for .venv: its own pip, or that of the Python that runs this file."""
    has_own = next(iter(SCRIPTS.glob("pip*")), None) is not None
    start = [str(VENV_PYTHON), "-m", "pip"] if has_own else [sys.executable, "-m", "pip", "--python", str(VENV_PYTHON)]
    return [*start, "--disable-pip-version-check", "--no-input"]


def pip_install(arguments: "list[str]", progress: Progress) -> None:
    """Run `pip install` with a moving line; the person's own pip settings (proxy, mirror, certificates) hold.

    Raises: Halt with the end of pip's own words when it fails.
    """
    command = [*pip_command(), "install", "--progress-bar", "off", *arguments]
    WORK.mkdir(parents=True, exist_ok=True)
    process = subprocess.Popen(
        command,
        cwd=ROOT,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        encoding="utf-8",
        errors="replace",
        # A person's pip may be set to install for the user; that is an error inside an environment.
        env={**os.environ, "PIP_USER": "0"},
    )
    assert process.stdout is not None
    said = []
    try:
        with PIP_LOG.open("a", encoding="utf-8") as log:
            for line in process.stdout:
                said.append(line)
                log.write(line)
                word, _, rest = line.strip().partition(" ")
                if word == "Collecting":
                    progress.step(re.split(r"[=<>!~; ]", rest)[0])
                elif line.startswith("Installing collected packages"):
                    progress.step("unpacking", counts=False)
        code = process.wait()
    except Terminated:
        process.terminate()
        raise
    finally:
        end(process)
        progress.close()
    if code:
        raise Halt(
            "pip could not install the packages. Its last words:\n  "
            + "  ".join(said[-15:])
            + f"All of them: {PIP_LOG}. Check the connection (and proxy settings), then run the same command again."
        )


@contextlib.contextmanager
def alone() -> Iterator[None]:
    """Hold other runs of start.py in this checkout back, so that none removes what another is just making.

    The system releases the lock whenever this program ends, however it ends.
    """
    WORK.mkdir(parents=True, exist_ok=True)
    with (WORK / "start.lock").open("a+b") as file:
        said = False
        while not take_lock(file.fileno()):
            if not said:
                say("Another start.py is just making the environment here; waiting for it.")
                said = True
            time.sleep(0.2)
        yield


def take_lock(number: int) -> bool:
    """Try to lock the open file `number` for this program alone; return whether that worked."""
    try:
        if sys.platform == "win32":
            import msvcrt

            msvcrt.locking(number, msvcrt.LK_NBLCK, 1)
        else:
            import fcntl

            fcntl.flock(number, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        return False
    return True


def sections_needed(*wanted: str) -> "tuple[str, ...]":
    """Return `wanted` plus the section with Node where the system has no npm, which fetches the phone runtime."""
    return wanted if shutil.which("npm") else (*wanted, "node")


def ensure_environment(*wanted: str) -> None:
    """Bring .venv to what the lock and pyproject.toml say for the sections `wanted`; fast when it already is.

    Raises: Halt with what a person has to mend.
    """
    sections = lock_sections()
    if "paper" in wanted or (PAPER_LOCK_FILE.exists() and "paper" in read_mark()):
        sections.update(lock_sections(PAPER_LOCK_FILE))
    now = {name: hash_of(text) for name, text in sections.items()}
    now["project"] = hash_of((ROOT / "pyproject.toml").read_text("utf-8"))
    needed = [*sections_needed(*wanted), "project"]
    if not is_complete(needed, now):
        with alone():
            # Another run may have made it meanwhile.
            if not is_complete(needed, now):
                make_environment(needed, sections, now)


def is_complete(needed: "list[str]", now: "dict[str, str]") -> bool:
    """Say whether the mark tells of everything in `needed`, made from what the files say now (name → hash)."""
    had = read_mark()
    return all(had.get(name) == now[name] for name in needed)


def make_environment(needed: "list[str]", sections: "dict[str, str]", now: "dict[str, str]") -> None:
    """Make .venv anew or add what it lacks, and write the mark last; arguments as in `ensure_environment`."""
    had = read_mark()
    stale = [name for name in had if name != "project" and had[name] != now.get(name)]
    if not had or stale:
        if VENV.exists():
            say("Making the environment .venv anew: " + ("the lock has changed." if stale else "it is not complete."))
        remove_environment()
        make_empty_environment()
        needed += [name for name in had if name in now and name not in needed]
        had = {}
    else:
        MARK.unlink()
    PIP_LOG.unlink(missing_ok=True)
    missing = [name for name in needed if name != "project" and name not in had]
    if missing:
        # The sections that are there already go along: they are a test section's own requirements.
        text = "".join(sections[name] for name in sections if name in missing or name in had)
        count = sum(len(re.findall(r"^[A-Za-z0-9][\w.-]*==", sections[name], re.MULTILINE)) for name in missing)
        WORK.mkdir(parents=True, exist_ok=True)
        part = WORK / "requirements.txt"
        part.write_text(text, "utf-8")
        say(f"Installing {count} packages into .venv (downloads at the first time; a minute or two).")
        pip_install(["--require-hashes", "-r", str(part)], Progress("packages", count))
    say("Installing Boltside itself into .venv.")
    project = ["--no-deps", "--no-build-isolation", "--editable", str(ROOT)]
    pip_install(project, Progress("packages", 1))
    write_mark({name: now[name] for name in {*had, *needed}})
    say("The environment is complete.")


# --- the commands ------------------------------------------------------------------------------------------------


def boltside(arguments: "list[str]", where: Path = ROOT, **environment: str) -> int:
    """Run `boltside ARGUMENTS` in the environment and return its exit code."""
    return run([str(SCRIPTS / ("boltside.exe" if ON_WINDOWS else "boltside")), *arguments], where, **environment)


def build(arguments: "list[str]") -> int:
    """Make what is missing and build the demo shop into site/."""
    ensure_environment("shop")
    say("Building the demo shop into site/.")
    return boltside(["build", *arguments])


def shop(arguments: "list[str]") -> int:
    """Make what is missing, build the demo shop and show it on this machine, anew after every change, until Ctrl-C."""
    ensure_environment("shop")
    say("Building the demo shop and showing it on this machine; Ctrl-C ends it.")
    try:
        return boltside(["serve", *arguments])
    except KeyboardInterrupt:
        say("The shop is closed.")
        return 0


def wheel(arguments: "list[str]") -> int:
    """Make a wheel in dist/ with the browser's Python in it, so that who installs it needs neither checkout nor Node.

    Built from a copy of what the wheel consists of: no left-over of an earlier build can get into it. Further
    arguments go to `pip wheel`.
    """
    ensure_environment("shop")
    copy = WORK / "wheel"
    shutil.rmtree(copy, ignore_errors=True)
    copy.mkdir(parents=True)
    for name in WHEEL_FILES:
        shutil.copy2(ROOT / name, copy)
    for name in WHEEL_FOLDERS:
        shutil.copytree(ROOT / name, copy / name, ignore=shutil.ignore_patterns("__pycache__", ".*", "runtime"))
    say("Looking for the browser's Python, which goes into the wheel.")
    if run([str(VENV_PYTHON), "-c", PACK_RUNTIME, str(ROOT), str(copy / WHEEL_RUNTIME)]):
        return 1
    say("Building the wheel.")
    command = [*pip_command(), "wheel", "--quiet", "--no-deps", "--no-build-isolation"]
    code = run([*command, "--wheel-dir", str(ROOT / "dist"), *arguments, str(copy)])
    if not code:
        made = max((ROOT / "dist").glob("boltside-*.whl"), key=lambda path: path.stat().st_mtime)
        say(f"The wheel is {made} ({made.stat().st_size / 1e6:.1f} MB). Install it with: pipx install {made.name}")
    shutil.rmtree(copy, ignore_errors=True)
    return code


def run_boltside(arguments: "list[str]") -> int:
    """Run any boltside command where the person stands."""
    ensure_environment("shop")
    return boltside(arguments, Path.cwd())


def arrange_for_type_check() -> Path:
    """Lay the two source folders out as one package, the way they are installed, and return the folder.

    `boltside.calculators` lives in calculators/; an installed Boltside joins the two, a type checker cannot know.
    """
    folder = WORK / "typecheck"
    shutil.rmtree(folder, ignore_errors=True)
    package = folder / "boltside"
    package.mkdir(parents=True)
    for source in [*(ROOT / "site_src" / "boltside").iterdir(), ROOT / "calculators"]:
        try:
            (package / source.name).symlink_to(source, target_is_directory=source.is_dir())
        except OSError:  # Windows allows links only to some
            copy = shutil.copytree if source.is_dir() else shutil.copy2
            copy(source, package / source.name)
    return folder


def find_browser() -> str:
    """Return the path of a browser for the tests; .ci/browser.py finds or installs it and says what it does.

    Raises: Halt when none could be had.
    """
    answer = WORK / "browser.txt"
    answer.unlink(missing_ok=True)
    if run([str(VENV_PYTHON), str(ROOT / ".ci" / "browser.py"), "--write-to", str(answer)]):
        raise Halt("Without a browser the tests do not start.")
    return answer.read_text("utf-8")


def paper(_arguments: "list[str]") -> int:
    """Add what printing the guide on paper needs, and say what the system lacks for it; 0 when it can be printed."""
    ensure_environment("shop", "paper")
    return run([str(VENV_PYTHON), str(ROOT / ".ci" / "paper.py")])


def test(arguments: "list[str]") -> int:
    """Make all that the tests need, build the shop once, run linter, type checker and tests; 0 when all are fine.

    Elsewhere than in CI the tests of the guide on paper are skipped where `start.py paper` has not been run.
    """
    if IN_CI:
        ensure_environment("shop", "test", "paper")
        run([str(VENV_PYTHON), str(ROOT / ".ci" / "paper.py")])
    else:
        ensure_environment("shop", "test")
    browser = find_browser()
    results = {}
    say("Building the demo shop into site/.")
    results["shop"] = boltside(["build"])
    say("Checking the style with ruff.")
    results["style"] = run([str(VENV_PYTHON), "-m", "ruff", "check", "."])
    say("Checking the types with mypy.")
    typed = str(arrange_for_type_check())
    results["types"] = run([str(VENV_PYTHON), "-m", "mypy", "-p", "boltside"], MYPYPATH=typed)
    results["types of start.py"] = run([str(VENV_PYTHON), "-m", "mypy", "start.py", ".ci/lock.py", ".ci/paper.py"])
    say("Running the tests with pytest.")
    results["tests"] = run([str(VENV_PYTHON), "-m", "pytest", *arguments], BOLTSIDE_BROWSER=browser)
    say("Result: " + ", ".join(f"{name} {'failed' if code else 'fine'}" for name, code in results.items()) + ".")
    return 1 if any(results.values()) else 0


def lock(arguments: "list[str]") -> int:
    """Make both locks anew in a throw-away environment that holds only the resolver."""
    folder = WORK / "lock-environment"
    say("Making a throw-away environment with the resolver.")
    venv.EnvBuilder(clear=True, with_pip=True).create(folder)
    python = str(folder / SCRIPTS.name / VENV_PYTHON.name)
    code = run([python, "-m", "pip", "install", "--quiet", "--disable-pip-version-check", "uv"])
    try:
        return code or run([python, str(ROOT / ".ci" / "lock.py"), *arguments])
    finally:
        shutil.rmtree(folder, ignore_errors=True)


COMMANDS = {
    "shop": shop, "build": build, "test": test, "run": run_boltside, "wheel": wheel, "paper": paper, "lock": lock,
}  # fmt: skip


def stop(_number: int, _frame: object) -> None:
    """Turn the request to end into the same tidy way out as Ctrl-C."""
    raise Terminated


def main(arguments: "list[str]") -> int:
    """Run the command named first in `arguments`; return the exit code (2: not understood, 130: interrupted)."""
    if not arguments or arguments[0] in ("-h", "--help", "help"):
        say((__doc__ or "").strip())
        return 0 if arguments else 2
    command = COMMANDS.get(arguments[0])
    if command is None:
        say(f"start.py has no command {arguments[0]!r}. It has: {', '.join(COMMANDS)}.")
        return 2
    signal.signal(signal.SIGTERM, stop)
    try:
        return command(arguments[1:])
    except Halt as reason:
        say(str(reason))
        return 1
    except KeyboardInterrupt:
        say("\nStopped. Run the same command again; it goes on from a sound state.")
        return 130


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
