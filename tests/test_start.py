"""Does start.py make a sound environment, repair an unsound one, and say what a person has to do?

Long because start.py is one file, and its tests stand in one file of its name.
"""

import ast
import importlib.util
import json
import os
import re
import shutil
import signal
import subprocess
import sys
import textwrap
import time
import tomllib
from importlib import metadata
from pathlib import Path
from types import ModuleType, SimpleNamespace

import pytest
from packaging.markers import Marker
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

ROOT = Path(__file__).resolve().parent.parent
LOCK = (ROOT / "requirements.lock").read_text("utf-8")
PAPER_LOCK = (ROOT / "requirements-paper.lock").read_text("utf-8")
NOT_ON_WINDOWS = pytest.mark.skipif(os.name == "nt", reason="the stand-ins are shell scripts and signals")
SMALL_LOCK = """\
# a comment
--only-binary :all:

# == section shop: builds the shop
alpha==1.0 \\
    --hash=sha256:00

# == section test: runs the tests
beta==2.0 ; sys_platform == 'win32' \\
    --hash=sha256:01
gamma==3.0 \\
    --hash=sha256:02

# == section node: only where no npm is installed
delta==4.0 \\
    --hash=sha256:03
"""
SMALL_PAPER_LOCK = """\
--only-binary :all:

# == section paper: prints the guide on paper
epsilon==5.0 \\
    --hash=sha256:04
"""


def load(path: Path, name: str) -> ModuleType:
    spec = importlib.util.spec_from_file_location(name, path)
    assert spec is not None and spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.fixture
def checkout(tmp_path: Path) -> Path:
    """A small checkout with the real start.py and a lock of its own."""
    folder = tmp_path / "a checkout"
    folder.mkdir()
    shutil.copy(ROOT / "start.py", folder)
    (folder / "requirements.lock").write_text(SMALL_LOCK, "utf-8")
    (folder / "pyproject.toml").write_text("[project]\nname = 'sample'\n", "utf-8")
    return folder


class Bench:
    """start.py of a small checkout, with pip and the making of the empty environment replaced by notes of the calls."""

    def __init__(self, checkout: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        self.start = load(checkout / "start.py", "start_of_a_small_checkout")
        monkeypatch.setattr(self.start, "IN_CI", False)
        self.calls: list[str] = []
        self.fail_in: str | None = None
        monkeypatch.setattr(self.start, "make_empty_environment", self.make)
        monkeypatch.setattr(self.start, "pip_install", self.pip)
        monkeypatch.setattr(self.start.shutil, "which", lambda name: f"/usr/bin/{name}")

    def make(self) -> None:
        assert not self.start.VENV.exists(), "the old environment was to be removed first"
        self.start.SCRIPTS.mkdir(parents=True)
        self.start.VENV_PYTHON.write_text("", "utf-8")
        self.calls.append("make")

    def pip(self, arguments: list[str], _progress: object) -> None:
        assert not self.start.MARK.exists(), "no mark while anything is being installed"
        if "--require-hashes" in arguments:
            text = Path(arguments[-1]).read_text("utf-8")
            assert text.startswith("--only-binary :all:\n")
            self.calls.append("install " + " ".join(re.findall(r"^(\w+)==", text, re.MULTILINE)))
        else:
            assert {"--no-deps", "--no-build-isolation", "--editable"} < set(arguments)
            self.calls.append("project")
        if self.fail_in and self.calls[-1].startswith(self.fail_in):
            self.fail_in = None
            raise KeyboardInterrupt

    def ensure(self, *sections: str) -> list[str]:
        """Run ensure_environment and return the calls it made."""
        self.calls.clear()
        self.start.ensure_environment(*sections)
        return list(self.calls)


@pytest.fixture
def bench(checkout: Path, monkeypatch: pytest.MonkeyPatch) -> Bench:
    return Bench(checkout, monkeypatch)


# --- the environment ---------------------------------------------------------------------------------------------


def test_first_run_makes_the_environment_and_the_second_does_nothing(bench: Bench) -> None:
    assert bench.ensure("shop") == ["make", "install alpha", "project"]
    assert bench.ensure("shop") == []


def test_tests_add_their_section_to_a_complete_environment(bench: Bench) -> None:
    bench.ensure("shop")
    assert bench.ensure("shop", "test") == ["install alpha beta gamma", "project"]
    assert bench.ensure("shop") == []
    assert bench.ensure("shop", "test") == []


def test_the_guide_on_paper_has_a_lock_of_its_own_and_stays(bench: Bench) -> None:
    bench.start.PAPER_LOCK_FILE.write_text(SMALL_PAPER_LOCK, "utf-8")
    bench.ensure("shop")
    assert bench.ensure("shop", "paper") == ["install alpha epsilon", "project"]
    assert bench.ensure("shop") == bench.ensure("shop", "paper") == []
    assert bench.ensure("shop", "test") == ["install alpha beta gamma epsilon", "project"]
    lock = bench.start.PAPER_LOCK_FILE
    lock.write_text(lock.read_text("utf-8").replace("epsilon==5.0", "epsilon==5.1"), "utf-8")
    assert bench.ensure("shop") == [], "what is not asked for is not looked after"
    assert bench.ensure("shop", "paper")[0] == "make"
    lock.unlink()
    assert bench.ensure("shop") == []
    with pytest.raises(bench.start.Halt, match=r"git checkout requirements-paper\.lock"):
        bench.ensure("shop", "paper")


def test_without_npm_the_section_with_node_comes_along(bench: Bench, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(bench.start.shutil, "which", lambda _name: None)
    assert bench.ensure("shop") == ["make", "install alpha delta", "project"]


@pytest.mark.parametrize("place", ["install", "project"])
def test_interrupted_run_is_made_good_by_the_next(bench: Bench, place: str) -> None:
    bench.fail_in = place
    with pytest.raises(KeyboardInterrupt):
        bench.ensure("shop")
    assert not bench.start.MARK.exists()
    assert bench.ensure("shop") == ["make", "install alpha", "project"]


def test_interrupted_addition_is_made_good_by_the_next(bench: Bench) -> None:
    bench.ensure("shop")
    bench.fail_in = "install"
    with pytest.raises(KeyboardInterrupt):
        bench.ensure("shop", "test")
    assert bench.ensure("shop") == ["make", "install alpha", "project"]


def test_changed_lock_makes_the_environment_anew_with_all_that_it_had(bench: Bench) -> None:
    bench.ensure("shop", "test")
    lock = bench.start.LOCK_FILE
    lock.write_text(lock.read_text("utf-8").replace("alpha==1.0", "alpha==1.1"), "utf-8")
    assert bench.ensure("shop") == ["make", "install alpha beta gamma", "project"]
    assert bench.ensure("shop", "test") == []


def test_change_in_a_section_that_is_not_installed_does_not_matter(bench: Bench) -> None:
    bench.ensure("shop")
    lock = bench.start.LOCK_FILE
    lock.write_text(lock.read_text("utf-8").replace("beta==2.0", "beta==2.1"), "utf-8")
    assert bench.ensure("shop") == []


def test_changed_project_file_installs_only_the_project_again(bench: Bench) -> None:
    bench.ensure("shop")
    (bench.start.ROOT / "pyproject.toml").write_text("[project]\nname = 'other'\n", "utf-8")
    assert bench.ensure("shop") == ["project"]
    assert bench.ensure("shop") == []


@pytest.mark.parametrize("damage", ["no mark", "empty mark", "mark of another place", "old format", "no python"])
def test_unsound_environment_is_made_anew(bench: Bench, damage: str) -> None:
    bench.ensure("shop")
    mark = json.loads(bench.start.MARK.read_text("utf-8"))
    if damage == "no mark":
        bench.start.MARK.unlink()
    elif damage == "empty mark":
        bench.start.MARK.write_text("", "utf-8")
    elif damage == "no python":
        bench.start.VENV_PYTHON.unlink()
    else:
        mark.update({"place": "/elsewhere"} if damage == "mark of another place" else {"format": 0})
        bench.start.MARK.write_text(json.dumps(mark), "utf-8")
    assert bench.ensure("shop") == ["make", "install alpha", "project"]


def test_missing_lock_is_said_with_a_way_out(bench: Bench, capsys: pytest.CaptureFixture[str]) -> None:
    bench.start.LOCK_FILE.unlink()
    assert bench.start.main(["build"]) == 1
    assert "git checkout requirements.lock" in capsys.readouterr().out


def no_ensurepip(name: str) -> object:
    return None if name in ("ensurepip", "pip") else SimpleNamespace()


def test_python_without_its_environment_part_names_the_line_to_run(
    checkout: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    start = load(checkout / "start.py", "start_without_ensurepip")
    monkeypatch.setattr(start.importlib.util, "find_spec", no_ensurepip)
    monkeypatch.setattr(start, "may_install_system_packages", lambda: False)
    monkeypatch.setattr(start.shutil, "which", lambda name: f"/usr/bin/{name}")
    with pytest.raises(start.Halt) as caught:
        start.make_empty_environment()
    version = f"{sys.version_info.major}.{sys.version_info.minor}"
    assert str(caught.value).endswith(f"\n  sudo apt-get install python{version}-venv")


def test_root_gets_the_missing_environment_part_installed(checkout: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    start = load(checkout / "start.py", "start_as_root")
    ran: list[list[str]] = []
    monkeypatch.setattr(start.importlib.util, "find_spec", no_ensurepip)
    monkeypatch.setattr(start, "may_install_system_packages", lambda: True)
    monkeypatch.setattr(start.shutil, "which", lambda name: f"/usr/bin/{name}")
    monkeypatch.setattr(start, "run", lambda command, **_environment: ran.append(command) or 1)
    with pytest.raises(start.Halt, match="could not be installed"):
        start.make_empty_environment()
    assert ran == [["apt-get", "update"]]


# --- the program as a whole --------------------------------------------------------------------------------------


@pytest.fixture
def complete(bench: Bench) -> Path:
    """A small checkout whose environment counts as complete and whose `boltside` is a small script."""
    bench.ensure("shop")
    python = bench.start.VENV_PYTHON
    python.unlink()
    python.symlink_to(sys.executable)
    stand_in = bench.start.SCRIPTS / "boltside"
    stand_in.write_text(
        f"#!{sys.executable}\nimport os, sys\nprint('GOT', os.getcwd(), sys.argv[1:])\n"
        "sys.exit(int(sys.argv[-1]) if sys.argv[-1].isdigit() else 0)\n",
        "utf-8",
    )
    stand_in.chmod(0o755)
    return Path(bench.start.ROOT)


def start_py(checkout: Path, *arguments: str, cwd: Path | None = None) -> "subprocess.CompletedProcess[str]":
    # A stand-in for npm, so that the section with Node is not asked for.
    tools = checkout / "tools"
    tools.mkdir(exist_ok=True)
    (tools / "npm").write_text("#!/bin/sh\n", "utf-8")
    (tools / "npm").chmod(0o755)
    return subprocess.run(
        [sys.executable, str(checkout / "start.py"), *arguments],
        cwd=cwd or checkout,
        capture_output=True,
        text=True,
        timeout=60,
        env={**os.environ, "PATH": f"{tools}{os.pathsep}{os.environ['PATH']}"},
    )


@NOT_ON_WINDOWS
def test_run_passes_words_folder_and_exit_code_on(complete: Path, tmp_path: Path) -> None:
    finished = start_py(complete, "run", "check", "--flag", "7", cwd=tmp_path)
    assert finished.stdout == f"GOT {tmp_path} ['check', '--flag', '7']\n"
    assert finished.returncode == 7


@NOT_ON_WINDOWS
def test_build_and_shop_run_in_the_checkout_wherever_one_stands(complete: Path, tmp_path: Path) -> None:
    assert f"GOT {complete} ['build']" in start_py(complete, "build", cwd=tmp_path).stdout
    assert f"GOT {complete} ['serve', '--port', '8050']" in start_py(complete, "shop", "--port", "8050").stdout
    assert start_py(complete, "build", "3").returncode == 3


@pytest.mark.parametrize(("arguments", "code"), [([], 2), (["help"], 0), (["--help"], 0)])
def test_help_names_every_command(checkout: Path, arguments: list[str], code: int) -> None:
    finished = start_py(checkout, *arguments)
    assert finished.returncode == code
    for command in ("shop", "build", "test", "run", "wheel", "paper", "lock"):
        assert f"start.py {command}" in finished.stdout


def test_unknown_command_is_said(checkout: Path) -> None:
    finished = start_py(checkout, "sell")
    assert finished.returncode == 2
    assert finished.stdout == "start.py has no command 'sell'. It has: shop, build, test, run, wheel, paper, lock.\n"


@NOT_ON_WINDOWS
@pytest.mark.parametrize(("number", "code"), [(signal.SIGINT, 130), (signal.SIGTERM, 130)])
def test_ended_from_outside_it_ends_its_children_and_leaves_no_mark(
    checkout: Path, number: signal.Signals, code: int
) -> None:
    """The real program, with a stand-in for pip that never ends by itself."""
    child = checkout / "pip_that_hangs.py"
    child.write_text(
        "import os, pathlib, sys, time\n"
        f"pathlib.Path({str(checkout / 'child.pid')!r}).write_text(str(os.getpid()))\n"
        "print('Collecting alpha==1.0', flush=True)\ntime.sleep(120)\n",
        "utf-8",
    )
    driver = checkout / "driver.py"
    driver.write_text(
        textwrap.dedent(f"""
            import signal, sys
            # A shell's background job, and some CI machines, start with Ctrl-C switched off.
            signal.signal(signal.SIGINT, signal.default_int_handler)
            sys.path.insert(0, {str(checkout)!r})
            import start
            start.PATIENCE_WITH_CHILD_S = 0.2
            start.shutil.which = lambda name: "/usr/bin/" + name
            start.make_empty_environment = lambda: start.SCRIPTS.mkdir(parents=True)
            start.pip_command = lambda: [sys.executable, {str(child)!r}]
            sys.exit(start.main(["build"]))
        """),
        "utf-8",
    )
    process = subprocess.Popen([sys.executable, str(driver)], stdout=subprocess.PIPE, text=True)
    pid_file = checkout / "child.pid"
    waited_until = time.monotonic() + 30
    while not (pid_file.exists() and pid_file.read_text()) and time.monotonic() < waited_until:
        time.sleep(0.05)
    child_pid = int(pid_file.read_text())
    process.send_signal(number)
    printed, _ = process.communicate(timeout=30)
    assert process.returncode == code
    assert "Stopped. Run the same command again" in printed
    assert not (checkout / ".venv" / "complete.json").exists()
    with pytest.raises(ProcessLookupError):
        os.kill(child_pid, 0)


@NOT_ON_WINDOWS
def test_second_run_waits_for_the_first_and_then_finds_the_work_done(complete: Path) -> None:
    """Without the mark both would make the environment; the one that waits must not remove the other's work."""
    mark = complete / ".venv" / "complete.json"
    kept = mark.read_text("utf-8")
    mark.unlink()
    holder_code = textwrap.dedent(f"""
        import sys
        sys.path.insert(0, {str(complete)!r})
        import start
        with start.alone():
            print("holding", flush=True)
            sys.stdin.readline()
            start.MARK.write_text({kept!r})
    """)
    holder = subprocess.Popen(
        [sys.executable, "-c", holder_code], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
    )
    assert holder.stdin is not None and holder.stdout is not None
    assert holder.stdout.readline() == "holding\n"
    tools = complete / "tools"
    tools.mkdir()
    (tools / "npm").write_text("#!/bin/sh\n", "utf-8")
    (tools / "npm").chmod(0o755)
    waiting = subprocess.Popen(
        [sys.executable, str(complete / "start.py"), "run", "check"],
        stdout=subprocess.PIPE,
        text=True,
        cwd=complete,
        env={**os.environ, "PATH": f"{tools}{os.pathsep}{os.environ['PATH']}"},
    )
    assert waiting.stdout is not None
    assert waiting.stdout.readline().startswith("Another start.py is just making the environment here")
    holder.communicate("go on\n", timeout=30)
    printed, _ = waiting.communicate(timeout=30)
    assert printed == f"GOT {complete} ['check']\n"
    assert waiting.returncode == 0


@pytest.mark.parametrize("version", [(3, 6), (3, 10), (3, 14), (4, 0)])
def test_other_pythons_get_a_plain_sentence(checkout: Path, version: tuple[int, int]) -> None:
    pretend = f"import runpy, sys; sys.version_info = {(*version, 0, 'final', 0)}; runpy.run_path('start.py')"
    finished = subprocess.run([sys.executable, "-c", pretend], cwd=checkout, capture_output=True, text=True)
    assert finished.returncode == 2
    assert finished.stdout == (
        f"Boltside needs Python 3.11, 3.12 or 3.13; this is Python {version[0]}.{version[1]}. "
        "Run start.py with one of those, for example: python3.12 start.py shop\n"
    )
    assert finished.stderr == ""


def test_old_pythons_can_parse_the_file() -> None:
    """The oldest grammar that this Python can imitate; 3.6 differs from it only in what start.py does not use."""
    tree = ast.parse((ROOT / "start.py").read_text("utf-8"), feature_version=(3, 7))
    assert not [node for node in ast.walk(tree) if isinstance(node, ast.ImportFrom) and node.module == "__future__"]


def test_only_the_standard_library_is_imported() -> None:
    tree = ast.parse((ROOT / "start.py").read_text("utf-8"))
    names = {alias.name for node in ast.walk(tree) if isinstance(node, ast.Import) for alias in node.names}
    names |= {str(node.module) for node in ast.walk(tree) if isinstance(node, ast.ImportFrom)}
    # pip only where the Python has it, to fill an environment without one.
    assert {name.split(".")[0] for name in names} - {"pip"} <= sys.stdlib_module_names


# --- the command `test` ------------------------------------------------------------------------------------------


@pytest.mark.parametrize("failing", [None, "build", "ruff", "-p", "start.py", "pytest"])
def test_all_checks_run_and_one_failure_fails_the_whole(
    bench: Bench, monkeypatch: pytest.MonkeyPatch, failing: str | None
) -> None:
    ran: list[str] = []

    def run(command: list[str], *_where: Path, **environment: str) -> int:
        ran.append(" ".join(command))
        assert environment.get("BOLTSIDE_BROWSER") == ("/a/browser" if "pytest" in command else None)
        return 5 if failing in command else 0

    monkeypatch.setattr(bench.start, "run", run)
    monkeypatch.setattr(bench.start, "find_browser", lambda: "/a/browser")
    monkeypatch.setattr(bench.start, "arrange_for_type_check", lambda: bench.start.ROOT)
    assert bench.start.main(["test", "-k", "cloth"]) == (1 if failing else 0)
    assert len(ran) == 5
    assert ran[0].endswith("boltside build")
    assert ran[1].endswith("-m ruff check .")
    assert ran[4].endswith("-m pytest -k cloth")


def test_in_ci_the_guide_on_paper_is_tested_too(
    bench: Bench, checkout: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    ran: list[str] = []

    def run(command: list[str], *_where: Path, **_environment: str) -> int:
        ran.append(" ".join(command))
        return 0

    (checkout / "requirements-paper.lock").write_text(SMALL_PAPER_LOCK, "utf-8")
    monkeypatch.setattr(bench.start, "IN_CI", True)
    monkeypatch.setattr(bench.start, "run", run)
    monkeypatch.setattr(bench.start, "find_browser", lambda: "/a/browser")
    monkeypatch.setattr(bench.start, "arrange_for_type_check", lambda: bench.start.ROOT)
    assert bench.start.main(["test"]) == 0
    assert "install alpha beta gamma epsilon" in bench.calls
    assert ran[0].endswith(str(Path(".ci") / "paper.py")) and len(ran) == 6


def test_type_check_sees_both_source_folders_as_one_package(bench: Bench) -> None:
    for folder in ("site_src/boltside/lay", "calculators"):
        (bench.start.ROOT / folder).mkdir(parents=True)
        (bench.start.ROOT / folder / "__init__.py").write_text("", "utf-8")
    for _ in range(2):
        folder = bench.start.arrange_for_type_check()
        assert (folder / "boltside" / "calculators" / "__init__.py").is_file()
        assert (folder / "boltside" / "lay" / "__init__.py").is_file()


# --- the browser -------------------------------------------------------------------------------------------------


@pytest.fixture
def browser(monkeypatch: pytest.MonkeyPatch) -> ModuleType:
    module = load(ROOT / ".ci" / "browser.py", "browser_for_tests")
    monkeypatch.delenv("BOLTSIDE_BROWSER", raising=False)
    return module


def program(folder: Path, name: str, says: str) -> Path:
    folder.mkdir(exist_ok=True)
    path = folder / name
    path.write_text(f"#!/bin/sh\n{says}\n", "utf-8")
    path.chmod(0o755)
    return path


@NOT_ON_WINDOWS
def test_installed_browser_is_taken_and_a_stub_is_passed_over(
    browser: ModuleType, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    program(tmp_path / "bin", "chromium", "echo 'please install something else'; exit 1")
    program(tmp_path / "bin", "chromium-browser", "echo 'no number here'")
    good = program(tmp_path / "bin", "google-chrome", "echo 'Browser 150.0.1'")
    monkeypatch.setenv("PATH", str(tmp_path / "bin"))
    assert browser.ensure_browser() == str(good)


@NOT_ON_WINDOWS
def test_named_browser_goes_first_and_must_start(
    browser: ModuleType, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    program(tmp_path / "bin", "chromium", "echo 'Browser 150.0.1'")
    monkeypatch.setenv("PATH", str(tmp_path / "bin"))
    named = program(tmp_path, "mine", "echo 'Mine 1.0'")
    monkeypatch.setenv("BOLTSIDE_BROWSER", str(named))
    assert browser.ensure_browser() == str(named)
    named.unlink()
    with pytest.raises(browser.NoBrowser, match="does not start"):
        browser.ensure_browser()


@NOT_ON_WINDOWS
def test_without_rights_the_exact_line_is_printed(
    browser: ModuleType, monkeypatch: pytest.MonkeyPatch, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    program(tmp_path / "bin", "apt-get", "echo called >&2; exit 1")
    monkeypatch.setenv("PATH", str(tmp_path / "bin"))
    monkeypatch.setattr(browser, "may_install", lambda: False)
    monkeypatch.setattr(browser, "playwright_browser", lambda: None)
    monkeypatch.setattr(browser, "is_ubuntu", lambda: False)
    line = "sudo apt-get update && sudo apt-get install -y --no-install-recommends chromium"
    with pytest.raises(browser.NoBrowser) as caught:
        browser.ensure_browser()
    assert line in str(caught.value)
    assert line in capsys.readouterr().out


@NOT_ON_WINDOWS
def test_root_gets_the_systems_package(browser: ModuleType, monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    target = tmp_path / "bin" / "chromium"
    made = f"printf '#!/bin/sh\\necho Browser 150.0\\n' > {target}; /bin/chmod 755 {target}"
    program(tmp_path / "bin", "apt-get", f'if [ "$1" = install ]; then {made}; fi')
    monkeypatch.setenv("PATH", str(tmp_path / "bin"))
    monkeypatch.setattr(browser, "may_install", lambda: True)
    monkeypatch.setattr(browser, "is_ubuntu", lambda: False)
    assert browser.ensure_browser() == str(target)


@NOT_ON_WINDOWS
@pytest.mark.parametrize("in_ci", [True, False])
def test_the_other_browsers_are_installed_in_ci_only(
    browser: ModuleType,
    monkeypatch: pytest.MonkeyPatch,
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
    in_ci: bool,
) -> None:
    folder = tmp_path / "bin"
    program(folder, "firefox", "echo 'Browser 150.0'")
    made = "for one in WebKitWebDriver Xvfb; do printf '#!/bin/sh\\n' > $0.made; /bin/chmod 755 $0.made; done"
    made = made.replace("$0.made", f"{folder}/$one")
    program(folder, "apt-get", f'echo "$@" >> {tmp_path}/asked; if [ "$1" = install ]; then {made}; fi')
    monkeypatch.setenv("PATH", str(folder))
    monkeypatch.setenv("CI", "true" if in_ci else "")
    monkeypatch.setattr(browser, "may_install", lambda: True)
    monkeypatch.setattr(browser, "is_ubuntu", lambda: False)
    browser.ensure_others()
    said = capsys.readouterr().out
    line = "install -y --no-install-recommends webkit2gtk-driver xvfb"
    if in_ci:
        assert (tmp_path / "asked").read_text("utf-8").splitlines() == ["update", line]
        assert "Not here" not in said
        browser.ensure_others()
        assert len((tmp_path / "asked").read_text("utf-8").splitlines()) == 2, "what is there is not installed again"
    else:
        assert not (tmp_path / "asked").exists()
        assert "Not here: webkit2gtk-driver, xvfb. This line would install them:" in said and line in said


# --- .ci/run -----------------------------------------------------------------------------------------------------


@NOT_ON_WINDOWS
@pytest.mark.parametrize("code", [0, 7])
def test_ci_passes_the_exit_code_on_and_passes_an_old_python_over(checkout: Path, code: int) -> None:
    (checkout / ".ci").mkdir()
    shutil.copy(ROOT / ".ci" / "run", checkout / ".ci")
    (checkout / "start.py").write_text(
        f"import os, sys\nprint(sys.argv[1:], os.environ['CI'], repr(sys.stdin.read()))\nsys.exit({code})\n", "utf-8"
    )
    bin_dir = checkout / "bin"
    program(bin_dir, "python3", "exit 1")
    (bin_dir / "python3.13").symlink_to(sys.executable)
    finished = subprocess.run(
        ["bash", ".ci/run"],
        cwd=checkout,
        capture_output=True,
        text=True,
        input="an answer that nobody reads",
        env={**os.environ, "PATH": f"{bin_dir}{os.pathsep}{os.environ['PATH']}"},
    )
    assert finished.returncode == code, finished.stderr
    assert finished.stdout.endswith("['test'] true ''\n")
    assert str(bin_dir / "python3.13") in finished.stdout


# --- the lock ----------------------------------------------------------------------------------------------------


def locked(lock: str = LOCK) -> dict[str, tuple[str, Marker | None, list[str]]]:
    """Name → version, marker, hashes of every package in a lock."""
    packages = {}
    for block in re.split(r"\n(?=\w)", lock):
        head = re.match(r"([\w.-]+)==(\S+)(?: ; (.*?))? *\\?\n", block)
        if head:
            marker = Marker(head[3].rstrip("\\ ")) if head[3] else None
            packages[canonicalize_name(head[1])] = (head[2], marker, re.findall(r"--hash=sha256:(\S+)", block))
    return packages


SYSTEMS = [
    {"sys_platform": system, "platform_system": title, "os_name": name, "python_version": python}
    | {"python_full_version": python + ".0", "platform_machine": machine, "platform_python_implementation": "CPython"}
    for system, title, name, machine in (
        ("linux", "Linux", "posix", "x86_64"),
        ("darwin", "Darwin", "posix", "arm64"),
        ("win32", "Windows", "nt", "AMD64"),
    )
    for python in ("3.11", "3.12", "3.13")
]


@pytest.mark.parametrize(("lock", "least"), [(LOCK, 50), (PAPER_LOCK, 10)], ids=["requirements", "paper"])
def test_every_locked_package_has_whole_hashes_and_no_host(lock: str, least: int) -> None:
    packages = locked(lock)
    assert len(packages) == len(re.findall(r"^[\w.-]+==", lock, re.MULTILINE)) > least
    for name, (_version, _marker, hashes) in packages.items():
        assert hashes, f"{name} has no hash"
        assert all(re.fullmatch("[0-9a-f]{64}", value) for value in hashes), name
    assert "://" not in lock
    assert "index" not in lock
    assert "--only-binary :all:" in lock.splitlines()


def test_lock_answers_everything_that_the_project_asks_for() -> None:
    """Direct requirements: all of them, in the section that needs them, in an allowed version."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))
    sections = load(ROOT / "start.py", "start_of_this_checkout").lock_sections()
    extras = project["project"]["optional-dependencies"]
    shop = [*project["project"]["dependencies"], *project["build-system"]["requires"]]
    for section, needs in {"shop": shop, "test": extras["test"], "node": extras["node"]}.items():
        for need in map(Requirement, needs):
            version = locked()[canonicalize_name(need.name)][0]
            assert need.specifier.contains(version), f"{need} is locked at {version}; run `python3 start.py lock`"
            upto = sections["shop"] + sections[section]
            assert re.search(rf"^{re.escape(canonicalize_name(need.name))}==", upto, re.MULTILINE), need


def test_the_paper_lock_answers_its_extra_and_agrees_with_the_other() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))
    packages, others = locked(PAPER_LOCK), locked()
    for need in map(Requirement, project["project"]["optional-dependencies"]["paper"]):
        assert need.specifier.contains(packages[canonicalize_name(need.name)][0]), need
    for name in set(packages) & set(others):
        assert packages[name][0] == others[name][0], f"{name} is locked at two versions"


@pytest.mark.parametrize("system", SYSTEMS, ids=lambda system: f"{system['sys_platform']}-{system['python_version']}")
@pytest.mark.parametrize("lock", ["requirements", "paper"])
def test_lock_is_closed_on_every_system(system: dict[str, str], lock: str) -> None:
    """Indirect requirements, read from the installed packages' own metadata, under the markers of another system."""
    packages = locked()
    if lock == "paper":
        # The extra lies beside the shop's own section.
        sections = load(ROOT / "start.py", "start_of_this_checkout").lock_sections()
        packages = {**locked(sections["shop"]), **locked(PAPER_LOCK)}
    looked_at = 0
    for name, (version, marker, _hashes) in packages.items():
        if marker is not None and not marker.evaluate(system):
            continue
        try:
            installed = metadata.distribution(name)
        except metadata.PackageNotFoundError:
            continue
        if installed.version != version:
            continue
        looked_at += 1
        for need in map(Requirement, installed.requires or ()):
            if need.marker is not None and not need.marker.evaluate({**system, "extra": ""}):
                continue
            found = packages.get(canonicalize_name(need.name))
            assert found is not None, f"{name} needs {need} on {system}"
            assert need.specifier.contains(found[0], prereleases=True), f"{name} needs {need}, locked is {found[0]}"
            assert found[1] is None or found[1].evaluate(system), f"{name} needs {need}, left out on {system}"
    assert looked_at > 40, "too few of the locked packages are installed here to say anything"
