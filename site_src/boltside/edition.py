"""Which files is this edition of the shop, all told? For the copy that a buyer keeps on her phone.

`shop/files.json` lists every file with hash and length; its own hash is the edition. `shop/edition.json`, a few bytes,
names the edition and its size, so that a page can say both without the list.
"""

from __future__ import annotations

import hashlib
import json
from pathlib import Path

from boltside.headers import HEADERS_FILE

FILES_PATH, EDITION_PATH = "shop/files.json", "shop/edition.json"
KEEPER = "keeper.js"
NOT_KEPT = (FILES_PATH, EDITION_PATH, KEEPER, HEADERS_FILE, "sitemap.xml", "sitemap.xml.gz")
"""About the copy itself, for the host (which does not hand it out), or for search engines."""


def edition_files(site_dir: Path) -> dict[str, tuple[str, int]]:
    """SHA-256 in hex and length in bytes of every file of the site, by its path."""
    found = {}
    for path in sorted(site_dir.rglob("*")):
        name = path.relative_to(site_dir).as_posix()
        if path.is_file() and name not in NOT_KEPT:
            content = path.read_bytes()
            found[name] = (hashlib.sha256(content).hexdigest(), len(content))
    return found


def write_edition(site_dir: Path) -> str:
    """Write the list of all files and what names it into a finished site; returns the edition. Raises: OSError."""
    files = edition_files(site_dir)
    listed = json.dumps({"files": files}, sort_keys=True, separators=(",", ":")).encode("utf-8")
    edition = hashlib.sha256(listed).hexdigest()
    # The same content at two places is kept once.
    size_bytes = sum(dict(files.values()).values())
    (site_dir / FILES_PATH).write_bytes(listed)
    said = json.dumps({"edition": edition, "bytes": size_bytes, "files": len(files)}, sort_keys=True)
    (site_dir / EDITION_PATH).write_text(said, encoding="utf-8")
    return edition
