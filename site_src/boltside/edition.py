"""Which files is this edition of the shop, all told? For the copy that a buyer keeps on her phone.

`shop/files.json` lists every file with hash and length; its own hash is the edition. `shop/edition.json`, a few bytes,
names the edition and its size, so that a page can say both without the list. A shop of many patterns is kept pattern by
pattern; there it names the size of each too.
"""

from __future__ import annotations

import hashlib
import json
import re
from collections.abc import Mapping
from pathlib import Path

from boltside.headers import HEADERS_FILE

FILES_PATH, EDITION_PATH = "shop/files.json", "shop/edition.json"
KEEPER = "keeper.js"
NOT_KEPT = (FILES_PATH, EDITION_PATH, KEEPER, HEADERS_FILE, "sitemap.xml", "sitemap.xml.gz")
"""About the copy itself, for the host (which does not hand it out), or for search engines."""
BY_PATTERN_ABOVE = 100
"""A shop of more patterns than this is kept pattern by pattern: a buyer wants the few that she sews."""
OF_A_PATTERN = re.compile(r"patterns/([^/]+)/.+")
"""Paths of what belongs to one pattern alone; `site_src/browser/kept.mjs` and `keeper.js` read them in the same way."""


def edition_files(site_dir: Path) -> dict[str, tuple[str, int]]:
    """SHA-256 in hex and length in bytes of every file of the site, by its path."""
    found = {}
    for path in sorted(site_dir.rglob("*")):
        name = path.relative_to(site_dir).as_posix()
        if path.is_file() and name not in NOT_KEPT:
            content = path.read_bytes()
            found[name] = (hashlib.sha256(content).hexdigest(), len(content))
    return found


def bytes_by_pattern(files: Mapping[str, tuple[str, int]]) -> tuple[dict[str, int], int]:
    """Bytes of each pattern's own files, by its name, and of all that belongs to the whole shop; equal files once."""
    patterns: dict[str, dict[str, int]] = {}
    shop: dict[str, int] = {}
    for path, (sha256, size_bytes) in files.items():
        own = OF_A_PATTERN.fullmatch(path)
        (patterns.setdefault(own[1], {}) if own else shop)[sha256] = size_bytes
    sums = {
        name: sum(size for sha256, size in own.items() if sha256 not in shop) for name, own in sorted(patterns.items())
    }
    return sums, sum(shop.values())


def write_edition(site_dir: Path, by_pattern_above: int = BY_PATTERN_ABOVE) -> str:
    """Write the list of all files and what names it into a finished site.

    Arguments: the folder; of more patterns than ``by_pattern_above`` each is kept by itself. Returns: the edition.
    Raises: OSError.
    """
    files = edition_files(site_dir)
    listed = json.dumps({"files": files}, sort_keys=True, separators=(",", ":")).encode("utf-8")
    edition = hashlib.sha256(listed).hexdigest()
    # The same content at two places is kept once.
    size_bytes = sum(dict(files.values()).values())
    (site_dir / FILES_PATH).write_bytes(listed)
    said: dict[str, object] = {"edition": edition, "bytes": size_bytes, "files": len(files)}
    patterns, rest_bytes = bytes_by_pattern(files)
    if len(patterns) > by_pattern_above:
        said |= {"patterns": patterns, "rest_bytes": rest_bytes}
    (site_dir / EDITION_PATH).write_text(json.dumps(said, sort_keys=True), encoding="utf-8")
    return edition
