"""Where do the files lie that Boltside brings along: templates and styles, the page's scripts, ready pages?

In a wheel they lie inside the package; in a checkout beside it, in `site_src/`. `pyproject.toml` maps the one onto
the other.
"""

from __future__ import annotations

from pathlib import Path

from boltside.errors import BoltsideError

PACKAGE_DIR = Path(__file__).resolve().parent
THEME, BROWSER, PAGES = "theme", "browser", "pages"
"""Names of the folders as they are in `site_src/`."""
IN_THE_PACKAGE = {THEME: "theme", BROWSER: "browser", PAGES: "new/pages"}
"""Where a wheel has them, below the package; `boltside.pages` is the name of something else."""


class NotInstalled(BoltsideError):
    """A folder that every Boltside brings along is not there: the installation is damaged."""


def folder_of(name: str) -> Path:
    """The folder `name` (THEME, BROWSER or PAGES) of this Boltside. Raises: NotInstalled."""
    for folder in (PACKAGE_DIR / IN_THE_PACKAGE[name], PACKAGE_DIR.parent / name):
        if folder.is_dir():
            return folder
    raise NotInstalled(f"this Boltside lacks its folder {name!r} below {PACKAGE_DIR}; install Boltside anew")
