"""Which browser do the tests use? Finds a Chromium or Chrome, or installs one; `start.py test` calls it.

In this order: the one that BOLTSIDE_BROWSER names, an installed one, the system's package (as root; else the exact
line to run is printed), playwright's own. Runs in the environment that start.py makes, for playwright's sake, but
needs nothing of it until then. In CI it also installs Firefox and WebKitGTK for the tests that ask three browsers;
elsewhere these tests are skipped where one is missing.
"""

import argparse
import contextlib
import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

# A browser that is only a stub or is broken may hang instead of answering `--version`.
BROWSER_ANSWER_TIMEOUT_S = 30

BROWSER_COMMANDS = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome")
# Usual places of Chromium and Chrome; the last is Edge, the Chromium that Windows brings.
MACOS_BROWSERS = (
    "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
    "/Applications/Chromium.app/Contents/MacOS/Chromium",
    "~/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
    "~/Applications/Chromium.app/Contents/MacOS/Chromium",
)
WINDOWS_BROWSERS = (
    r"%ProgramFiles%\Google\Chrome\Application\chrome.exe",
    r"%ProgramFiles(x86)%\Google\Chrome\Application\chrome.exe",
    r"%LocalAppData%\Google\Chrome\Application\chrome.exe",
    r"%LocalAppData%\Chromium\Application\chrome.exe",
    r"%ProgramFiles(x86)%\Microsoft\Edge\Application\msedge.exe",
)
# (package tool, commands that install). Ubuntu is left out on purpose: its
# `chromium` package only fetches a snap, which does not work in containers.
BROWSER_PACKAGES = (
    ("apt-get", (("apt-get", "update"), ("apt-get", "install", "-y", "--no-install-recommends", "chromium"))),
    ("dnf", (("dnf", "install", "-y", "chromium"),)),
    ("zypper", (("zypper", "--non-interactive", "install", "chromium"),)),
    ("pacman", (("pacman", "-S", "--noconfirm", "chromium"),)),
    ("apk", (("apk", "add", "chromium"),)),
)
# Debian's package → the programs of which one is enough.
OTHER_BROWSERS = {
    "firefox-esr": ("firefox-esr", "firefox"),
    "webkit2gtk-driver": ("WebKitWebDriver",),
    "xvfb": ("Xvfb",),
}


class NoBrowser(Exception):
    """No browser could be had; the text says what to do."""


def say(text: str) -> None:
    """Print one plain sentence at once."""
    print(text, flush=True)


def may_install() -> bool:
    """Say whether this user is root; only then are system packages installed."""
    return hasattr(os, "geteuid") and os.geteuid() == 0


def install_package(commands: tuple[tuple[str, ...], ...]) -> bool:
    """Run the package tool's commands in turn; return whether all succeeded."""
    environment = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
    return all(subprocess.run(command, env=environment).returncode == 0 for command in commands)


def browser_works(path: str) -> bool:
    """Say whether the program at `path` is a browser that starts (Windows: that it is there)."""
    if os.name == "nt":
        return Path(path).is_file()
    try:
        answer = subprocess.run([path, "--version"], capture_output=True, text=True, timeout=BROWSER_ANSWER_TIMEOUT_S)
    except (OSError, subprocess.TimeoutExpired):
        return False
    return answer.returncode == 0 and re.search(r"\d+\.\d+", answer.stdout) is not None


def installed_browser() -> str | None:
    """Return the path of an installed Chromium or Chrome, or None. BOLTSIDE_BROWSER goes before all others."""
    chosen = os.environ.get("BOLTSIDE_BROWSER")
    if chosen:
        if not browser_works(chosen):
            raise NoBrowser(f"BOLTSIDE_BROWSER names {chosen}, which does not start. Mend it or unset it.")
        return chosen
    places = [shutil.which(command) for command in BROWSER_COMMANDS]
    if sys.platform == "darwin":
        places += [os.path.expanduser(place) for place in MACOS_BROWSERS]
    if os.name == "nt":
        places += [os.path.expandvars(place) for place in WINDOWS_BROWSERS]
    return next((place for place in places if place and Path(place).exists() and browser_works(place)), None)


def is_ubuntu() -> bool:
    """Say whether this is Ubuntu, going by the file that systems describe themselves in."""
    with contextlib.suppress(OSError):
        return re.search(r"^ID=.?ubuntu", Path("/etc/os-release").read_text("utf-8"), re.MULTILINE) is not None
    return False


def browser_package() -> tuple[tuple[str, ...], ...] | None:
    """Return the commands with which this system installs Chromium, or None where it has no real package."""
    if is_ubuntu():
        return None
    return next((commands for tool, commands in BROWSER_PACKAGES if shutil.which(tool)), None)


def playwright_browser() -> str | None:
    """Return the path of the Chromium that playwright keeps for itself, whether or not it is there yet."""
    code = "from playwright.sync_api import sync_playwright as s\nwith s() as p: print(p.chromium.executable_path)"
    asked = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True)
    return asked.stdout.strip() or None


def ensure_browser() -> str:
    """Return the path of a Chromium or Chrome, installing one where none is found.

    Raises: NoBrowser with the exact line to run when all ways failed.
    """
    found = installed_browser()
    if found:
        return found
    commands = browser_package()
    line = " && ".join("sudo " + " ".join(command) for command in commands or ())
    if commands and may_install():
        say("No Chromium or Chrome found; installing the system's package.")
        if install_package(commands):
            found = installed_browser()
            if found:
                return found
        say("That did not give a browser that starts.")
    elif commands:
        say(f"No Chromium or Chrome found. This line would install the system's own:\n  {line}")
    own = playwright_browser()
    if own and not browser_works(own):
        say("Fetching playwright's own Chromium.")
        subprocess.run([sys.executable, "-m", "playwright", "install", "chromium"])
    if own and browser_works(own):
        return own
    raise NoBrowser(
        "No browser could be had for the tests. Install Chromium or Chrome and run this again"
        + (f", for example with:\n  {line}" if commands else ".")
        + "\nOr set BOLTSIDE_BROWSER to the path of one."
    )


def missing_others() -> list[str]:
    """Return the packages of OTHER_BROWSERS that are not there."""
    return [package for package, programs in OTHER_BROWSERS.items() if not any(map(shutil.which, programs))]


def ensure_others() -> None:
    """Install the other browsers in CI where that can be done; elsewhere say what would install them.

    Nothing stops here: in CI the tests that miss a browser fail and say so, elsewhere they are skipped.
    """
    packages = missing_others()
    if not packages:
        return
    commands = (("apt-get", "update"), ("apt-get", "install", "-y", "--no-install-recommends", *packages))
    can = shutil.which("apt-get") and not is_ubuntu()
    if os.environ.get("CI") and can and may_install():
        say(f"For the tests in three browsers, installing the system's packages {', '.join(packages)}.")
        if install_package(commands) and not missing_others():
            return
        say("That did not give all of them.")
    line = " && ".join("sudo " + " ".join(command) for command in commands)
    say("Not here: " + ", ".join(missing_others()) + (f". This line would install them:\n  {line}" if can else "."))


def main() -> int:
    """Find the browser and write its path where it was asked for; 1 when there is none."""
    parser = argparse.ArgumentParser(description="Find or install a browser for the tests.")
    parser.add_argument("--write-to", type=Path, help="file that gets the path")
    chosen = parser.parse_args()
    try:
        found = ensure_browser()
    except NoBrowser as reason:
        say(str(reason))
        return 1
    say(f"The browser for the tests is {found}.")
    ensure_others()
    if chosen.write_to:
        chosen.write_to.write_text(found, "utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main())
