"""Which exact packages does Boltside install? Writes requirements.lock and requirements-paper.lock; `python3 start.py
lock` calls it.

Resolves pyproject.toml once for all systems and all of Python 3.11 to 3.13 (a "universal" resolution, one version
of each package everywhere, so that every machine builds the same shop), writes three sections (shop, test, node)
with the sha256 of every wheel and without any host, and then asks for each system and Python version whether all
of them have a wheel there. What the extra `paper` needs beside the shop stands in a lock of its own, because few want
it; where both locks name a package, they name the same version. Needs `uv` beside it, which `start.py lock` puts into
a throw-away environment.
"""

import argparse
import re
import subprocess
import sys
import tempfile
import tomllib
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
LOCK = ROOT / "requirements.lock"
PAPER_LOCK = ROOT / "requirements-paper.lock"
PAPER = "paper"

# Extras of pyproject.toml that follow the shop's own packages, in the order of the sections.
EXTRA_SECTIONS = ("test", "node")

PYTHON_VERSIONS = ("3.11", "3.12", "3.13")
LOWEST_PYTHON = "3.11.0"

# (how uv calls it, how people call it). The manylinux level is that of Debian 12 and Ubuntu 22.04 or newer.
SYSTEMS = (
    ("x86_64-manylinux_2_28", "Linux x86-64"),
    ("aarch64-manylinux_2_28", "Linux ARM"),
    ("aarch64-apple-darwin", "macOS ARM"),
    ("x86_64-apple-darwin", "macOS Intel"),
    ("x86_64-pc-windows-msvc", "Windows x86-64"),
)

HEADER = """\
# Every package that Boltside installs, with the sha256 of its wheels; one version for all systems.
# Made by `python3 start.py lock` from pyproject.toml; do not edit by hand.
# start.py installs a section at a time; `pip install --require-hashes -r requirements.lock` takes all three.
--only-binary :all:
"""
PAPER_HEADER = """\
# What the guide on paper needs beside requirements.lock, with the sha256 of its wheels; one version for all systems.
# Made by `python3 start.py lock` from pyproject.toml; do not edit by hand.
# start.py installs it: `python3 start.py paper`. It also needs the system's library Pango.
--only-binary :all:
"""
SECTION_TITLES = {
    "shop": "builds the shop",
    "test": "runs the tests",
    "node": "only where no npm is installed",
    PAPER: "prints the guide on paper",
}


def uv(*arguments: str) -> str:
    """Run uv of this environment and return what it printed; its errors go to the terminal.

    Raises: SystemExit with uv's own code when it fails.
    """
    finished = subprocess.run([sys.executable, "-m", "uv", *arguments], stdout=subprocess.PIPE, text=True, cwd=ROOT)
    if finished.returncode:
        sys.exit(finished.returncode)
    return finished.stdout


def resolve(
    extras: tuple[str, ...], folder: Path, upgrade: bool, lock: Path = LOCK, within: Path | None = None
) -> dict[str, str]:
    """Resolve the shop's packages plus `extras`; return name → its lines in the lock, hashes included.

    Arguments: the extras; a folder for files on the way; whether versions of `lock` may be left for newer ones;
    `within` is a lock whose versions hold for whatever it names.
    """
    build_needs = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["build-system"]["requires"]
    needs = folder / "build-needs.in"
    needs.write_text("\n".join(build_needs) + "\n", "utf-8")
    arguments = ["pip", "compile", "--universal", "--python-version", LOWEST_PYTHON, "--fork-strategy", "fewest"]
    arguments += ["--generate-hashes", "--only-binary", ":all:", "--no-annotate", "--no-header", "--no-emit-index-url"]
    arguments += ["--quiet", "pyproject.toml", str(needs)]
    for extra in extras:
        arguments += ["--extra", extra]
    if within is not None:
        arguments += ["--constraint", str(within)]
    earlier = folder / "earlier.txt"
    if not upgrade and lock.exists():
        # Versions already in the lock stay unless pyproject.toml forbids them.
        earlier.write_text(lock.read_text("utf-8"), "utf-8")
        arguments += ["--output-file", str(earlier)]
        uv(*arguments)
        text = earlier.read_text("utf-8")
    else:
        text = uv(*arguments)
    packages: dict[str, str] = {}
    for block in re.split(r"\n(?=[A-Za-z0-9])", "\n" + text.strip()):
        start = re.match(r"\s*([A-Za-z0-9._-]+)==", block)
        if start:
            packages[start.group(1)] = block.strip()
    return packages


def write_lock(upgrade: bool) -> None:
    """Write requirements.lock with its three sections."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        everything = resolve(EXTRA_SECTIONS, folder, upgrade)
        sections = {"shop": set(resolve((), folder, upgrade=True)) & set(everything)}
        for place, extra in enumerate(EXTRA_SECTIONS):
            upto = set(resolve(EXTRA_SECTIONS[: place + 1], folder, upgrade=True)) & set(everything)
            sections[extra] = upto - set().union(*sections.values())
    left = set(everything) - set().union(*sections.values())
    if left:
        sys.exit("These packages belong to no section: " + ", ".join(sorted(left)))
    write(LOCK, HEADER, sections, everything)


def write_paper_lock(upgrade: bool) -> None:
    """Write requirements-paper.lock: what the extra `paper` needs that the shop's own section does not have."""
    shop = re.split(r"^# == section (\w+)[^\n]*\n", LOCK.read_text("utf-8"), flags=re.MULTILINE)[2]
    have = set(re.findall(r"^([A-Za-z0-9._-]+)==", shop, re.MULTILINE))
    with tempfile.TemporaryDirectory() as name:
        everything = resolve((PAPER,), Path(name), upgrade, PAPER_LOCK, LOCK)
    write(PAPER_LOCK, PAPER_HEADER, {PAPER: set(everything) - have}, everything)


def write(lock: Path, header: str, sections: dict[str, set[str]], everything: dict[str, str]) -> None:
    """Write a lock with its sections, in one step. Arguments: section → names, name → its lines."""
    text = header
    for section, names in sections.items():
        text += f"\n# == section {section}: {SECTION_TITLES[section]}\n"
        text += "".join(everything[name] + "\n" for name in sorted(names))
    if "://" in text:
        sys.exit(f"The resolved packages name a host; the lock must not. {lock.name} was not written.")
    lock.write_text(text, "utf-8", newline="\n")
    counts = ", ".join(f"{section} {len(names)}" for section, names in sections.items())
    print(f"Wrote {lock.name}: {counts} packages.")


def check_wheels() -> int:
    """Ask for every system and Python version whether all packages have a wheel; return the number of failures."""
    failures = 0
    for platform, title in SYSTEMS:
        for version in PYTHON_VERSIONS:
            with tempfile.TemporaryDirectory() as target:
                command = [sys.executable, "-m", "uv", "pip", "install", "--dry-run", "--require-hashes", "--quiet"]
                command += ["--only-binary", ":all:", "--python-platform", platform, "--python-version", version]
                command += ["--target", target, "-r", str(LOCK), "-r", str(PAPER_LOCK)]
                finished = subprocess.run(command, capture_output=True, text=True, cwd=ROOT)
            failures += finished.returncode != 0
            print(f"  {title}, Python {version}: " + ("all wheels there" if not finished.returncode else "MISSING"))
            if finished.returncode:
                print(finished.stderr)
    return failures


def main() -> int:
    """Write the lock (unless --check) and check it for all systems; return the exit code."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--check", action="store_true", help="write nothing, only look for the wheels")
    parser.add_argument("--upgrade", action="store_true", help="take newer versions where pyproject.toml allows")
    chosen = parser.parse_args()
    if not chosen.check:
        write_lock(chosen.upgrade)
        write_paper_lock(chosen.upgrade)
    return 1 if check_wheels() else 0


if __name__ == "__main__":
    sys.exit(main())
