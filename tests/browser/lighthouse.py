"""What does Lighthouse say of every kind of page, on a phone? A command of its own: it needs Node and fetches packages.

    python -m tests.browser.lighthouse [SITE]

SITE is a built shop; without one the shop of the data is built. Fetches one version of Lighthouse into the cache (its
hash is checked), without running any package's own scripts, and asks it for accessibility, best practices and search
engines; target 100 each. Not among the tests: nothing that the shop is made from or tested with depends on Node.
"""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path
from typing import Any

from boltside.phone.fetch import cache_dir_of

from .budgets import pages_of
from .shop import BROWSER, ROOT, build_shop
from .slow_link import compressing

VERSION = "12.2.3"
INTEGRITY = "sha512-fedXQk8VxiVCmekMkqKwXfbTvOTJTZ9SHxluOXweE9YQRclkiAdwLoVxIrMl2XJz/yHvcIZ+Cg2YzkjEHkN7eA=="
CATEGORIES = ("accessibility", "best-practices", "seo")
BROWSER_FLAGS = "--headless=new --no-sandbox --disable-gpu"
PATIENCE_S = 300


def installed() -> Path:
    """Lighthouse's own program, fetched if it is not there. Raises: SystemExit with what is missing."""
    if not shutil.which("npm"):
        sys.exit("Lighthouse needs Node with npm; neither is needed for anything else here.")
    folder = cache_dir_of(ROOT) / f"lighthouse-{VERSION}"
    known = folder / "node_modules" / ".package-lock.json"
    if not known.exists():
        folder.mkdir(parents=True, exist_ok=True)
        command = ["npm", "install", "--ignore-scripts", "--no-audit", "--no-fund", "--prefix", str(folder)]
        subprocess.run([*command, "--save-exact", f"lighthouse@{VERSION}"], check=True, cwd=folder)
    got = json.loads(known.read_text("utf-8"))["packages"]["node_modules/lighthouse"]
    if got["integrity"] != INTEGRITY:
        shutil.rmtree(folder)
        sys.exit(f"This is not the Lighthouse {VERSION} that is meant: {got['integrity']}")
    return folder / "node_modules" / "lighthouse" / "cli" / "index.js"


def report(program: Path, address: str, work_dir: Path) -> dict[str, Any]:
    """What Lighthouse says of one page."""
    out = work_dir / "report.json"
    command = ["node", str(program), address, "--quiet", "--output=json", f"--output-path={out}",
               f"--only-categories={','.join(CATEGORIES)}", "--form-factor=mobile",
               f"--chrome-flags={BROWSER_FLAGS}"]  # fmt: skip
    subprocess.run(command, check=True, env={**os.environ, "CHROME_PATH": BROWSER}, timeout=PATIENCE_S)
    said: dict[str, Any] = json.loads(out.read_text("utf-8"))
    return said


def main() -> int:
    """Ask for each kind of page; 1 where anything is below 100."""
    program = installed()
    missed = 0
    with tempfile.TemporaryDirectory() as name:
        site = Path(sys.argv[1]).resolve() if len(sys.argv) > 1 else build_shop(Path(name) / "site", sheets=())
        with compressing(site) as shop:
            for title, address, _ in pages_of(site):
                if address == "not-there/":
                    address = "404.html"  # answered with the state 404 it is not looked at
                said = report(program, shop + address, Path(name))
                scores = {one: round(100 * (said["categories"][one]["score"] or 0)) for one in CATEGORIES}
                print(f"{title}: " + ", ".join(f"{one} {score}" for one, score in scores.items()), flush=True)
                for one in CATEGORIES:
                    for part in said["categories"][one]["auditRefs"]:
                        audit = said["audits"][part["id"]]
                        if part["weight"] and audit["score"] is not None and audit["score"] < 1:
                            missed += 1
                            print(f"  {part['id']}: {audit['title']}")
    return 1 if missed else 0


if __name__ == "__main__":
    sys.exit(main())
