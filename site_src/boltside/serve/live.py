"""Build the shop, show it, watch its files, build again: what `boltside serve` does until it is stopped."""

from __future__ import annotations

import shutil
import sys
import threading
import time
import traceback
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

from jinja2 import Environment, FileSystemBytecodeCache
from mkdocs.commands.build import build as run_site_engine
from mkdocs.config import load_config
from mkdocs.config.base import Config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import Abort, MkDocsException
from mkdocs.plugins import BasePlugin
from mkdocs.structure.files import Files

from boltside.errors import BoltsideError
from boltside.installed import BROWSER, folder_of
from boltside.plugin import BoltsidePlugin
from boltside.publish import BuildFailed, site_engine
from boltside.serve.drafts import DATA, Drafts
from boltside.serve.problem_page import problems_page, slip_page, waiting_page
from boltside.serve.server import open_live_server
from boltside.serve.sheets import Sheets
from boltside.serve.shown import Showing, Shown
from boltside.serve.watch import LOOK_EVERY_S, Watch
from boltside.shop_build import PatternFiles, ShopFiles, collect

CONFIG = "mkdocs.yml"
PLUGIN = "boltside"
SHOWN_FOLDER = Path(".cache") / "boltside" / "shown"
"""Below the shop's folder; `site/` holds only what `boltside build` made."""
TEMPLATES_FOLDER = Path(".cache") / "boltside" / "templates"
QUICK = "boltside-quick"
BUILDS_KEPT = 2
"""The build shown, and the one before it, from which a page may still be loading its parts."""


class NoSettings(Config):
    """For a plugin that is not named in `mkdocs.yml`."""


class Quick(BasePlugin[NoSettings]):
    """Keeps the templates as they were compiled, which takes longer than a page."""

    def __init__(self, folder: Path) -> None:
        folder.mkdir(parents=True, exist_ok=True)
        self.folder = folder

    def on_env(self, env: Environment, config: MkDocsConfig, files: Files) -> Environment:
        """Let the template engine look for compiled templates first."""
        env.bytecode_cache = FileSystemBytecodeCache(str(self.folder))
        return env


@dataclass
class LiveShop:
    """A shop that is being worked on: how it is built, and where it is shown."""

    shop_dir: Path
    say: Callable[[str], None]
    shown: Shown
    drafts: Drafts | None
    sheets: Sheets
    files: ShopFiles | None = None
    articles: dict[str, tuple[PatternFiles, str]] = field(default_factory=dict)
    builds: list[Path] = field(default_factory=list)
    number: int = 0
    failed_drafts: str = ""
    drafted: tuple[str, ...] = ()
    """What drafts were made of since the last change; not tried again before the next."""

    def renew(self, changed: frozenset[Path] | None) -> None:
        """Build what changed (None: everything) and show it, or what has to be mended. Raises nothing of the shop's."""
        started_s = time.monotonic()
        try:
            if self.files is None or changed is None or any(self.is_data(path) for path in changed):
                self.collect_anew()
            folder = self.build()
        except BoltsideError as error:
            self.shown.show(Showing(folder=self.folder_now(), instead=problems_page(error)))
            self.say(f"{error}\nThe shop is shown again when this is mended.")
        except Exception:  # an error of our own must not end the server that a designer looks at
            text = traceback.format_exc()
            self.shown.show(Showing(folder=self.folder_now(), instead=slip_page(text)))
            self.say(text)
        else:
            self.keep(folder)
            self.show_build()
            self.say(f"{time.strftime('%H:%M:%S')} shown, {time.monotonic() - started_s:.1f} s")

    def is_data(self, path: Path) -> bool:
        """Whether more than hand-written pages depends on this file."""
        return not any(path.is_relative_to(place) for place in self.page_places())

    def page_places(self) -> tuple[Path, ...]:
        """Folders with hand-written pages and templates."""
        return tuple(place for place in (self.docs_dir(), self.shop_dir / "site_src" / "theme") if place is not None)

    def docs_dir(self) -> Path | None:
        """The folder of the hand-written pages as `mkdocs.yml` names it; None while that can't be read."""
        try:
            return Path(load_config(str(self.shop_dir / CONFIG)).docs_dir).resolve()
        except (Abort, MkDocsException):
            return None

    def collect_anew(self) -> None:
        """Make the sheets anew, have drafts made where lays are missing. Raises: BoltsideError."""
        patterns = self.sheets.renew()
        if self.drafts is not None:
            self.drafts.stop()
            if self.sheets.lacking and self.sheets.lacking != self.drafted:
                self.drafted = self.sheets.lacking
                self.drafts.start(self.sheets.lacking)
        self.files = None
        if patterns:
            self.files = collect(
                self.sheets.data_dir,
                browser_dir=folder_of(BROWSER),
                project_dir=self.shop_dir,
                say=self.say,
                patterns=patterns,
            )

    def build(self) -> Path:
        """Run the site engine into a new folder and return it. Raises: BoltsideError."""
        self.number += 1
        folder = self.shop_dir / SHOWN_FOLDER / str(self.number)
        with site_engine() as told:
            config = load_config(str(self.shop_dir / CONFIG), site_dir=str(folder))
            plugin = config.plugins.get(PLUGIN)
            if not isinstance(plugin, BoltsidePlugin):
                raise BuildFailed(f"{CONFIG} does not have `- {PLUGIN}` under `plugins:`; add it")
            if self.files is None:
                return folder
            plugin.ready, plugin.kept = self.files, self.articles
            config.plugins[QUICK] = Quick(self.shop_dir / TEMPLATES_FOLDER)
            config.plugins.on_startup(command="serve", dirty=False)
            run_site_engine(config)
        for sentence in told.sentences:
            self.say(sentence)
        return folder

    def show_build(self) -> None:
        """Show the build made last with what has to be said about it; a waiting page while nothing can be shown."""
        notes = [*self.sheets.notes()]
        if self.failed_drafts:
            notes.append(f"No drafts: {self.failed_drafts}")
        if self.files is None:
            self.shown.show(Showing(instead=waiting_page(notes)))
        else:
            self.shown.show(Showing(folder=self.folder_now(), notes=tuple(notes)))

    def folder_now(self) -> Path | None:
        """The build made last."""
        return self.builds[-1] if self.builds else None

    def keep(self, folder: Path) -> None:
        """Keep a build, and remove those that no page can still be loading from."""
        if folder.is_dir():
            self.builds.append(folder)
        for old in self.builds[:-BUILDS_KEPT]:
            shutil.rmtree(old, ignore_errors=True)
        self.builds = self.builds[-BUILDS_KEPT:]

    def take_drafts(self) -> None:
        """When a run of drafts has ended, show what it made."""
        wrong = self.drafts.ended() if self.drafts is not None else None
        if wrong is None:
            return
        self.failed_drafts = wrong
        self.renew(None)

    def watch(self, stop: threading.Event) -> None:
        """Build the shop, then look for changes until `stop` is set."""
        watch = Watch(self.places())
        self.renew(None)
        while not stop.wait(LOOK_EVERY_S):
            changed = watch.changed()
            if changed:
                self.failed_drafts, self.drafted = "", ()
                self.renew(changed)
                watch.places = self.places()
            self.take_drafts()

    def places(self) -> tuple[Path, ...]:
        """All that the shop is made of."""
        return (self.shop_dir / CONFIG, self.sheets.data_dir, *self.page_places())


def serve_shop(
    shop_dir: Path, *, port: int | None, with_drafts: bool, say: Callable[[str], None], stop: threading.Event
) -> None:
    """Build and show the shop in `shop_dir` at `port` (None: the first free one) until `stop` is set or Ctrl-C.

    Raises: OSError when the port is taken.
    """
    data_dir = shop_dir / DATA  # as it was typed, so that problems name their files as short as can be
    shop_dir = shop_dir.resolve()
    shutil.rmtree(shop_dir / SHOWN_FOLDER, ignore_errors=True)
    shown = Shown(Showing(instead=waiting_page(["The shop is being built."])))
    drafts = Drafts(shop_dir) if with_drafts else None
    shop = LiveShop(shop_dir=shop_dir, say=say, shown=shown, drafts=drafts, sheets=Sheets(data_dir))
    with open_live_server(shown, port) as server:
        threading.Thread(target=server.serve_forever, daemon=True).start()
        host, number = server.server_address[:2]
        say(f"The shop is at http://{host!s}:{number}/   (stop with Ctrl-C)")
        try:
            shop.watch(stop)
        except KeyboardInterrupt:
            say("\nClosed.")
        finally:
            if drafts is not None:
                drafts.stop()
            shown.close()
            server.shutdown()
            shutil.rmtree(shop_dir / SHOWN_FOLDER, ignore_errors=True)


def say_at_once(text: str) -> None:
    """Print a sentence for the designer who watches the terminal."""
    print(text, flush=True, file=sys.stdout)
