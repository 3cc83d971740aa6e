"""What may a page of the shop load, and how long may its files be kept? For the pages themselves and for their host.

Each page carries its policy, so that it holds wherever the shop is put. A host can say more: `_headers`, in the form
that many hosts of static sites read, is written into the site; `for_nginx` and `for_apache` say the same for a server
of one's own (handbook/hosting.md shows them).
"""

from __future__ import annotations

import base64
import hashlib
import re
from collections.abc import Iterable, Iterator
from pathlib import Path

HEADERS_FILE = "_headers"
POLICY = {
    "default-src": "'none'",
    "script-src": "'self' 'wasm-unsafe-eval'",
    "worker-src": "'self'",
    "connect-src": "'self'",
    "style-src": "'self'",
    "img-src": "'self'",
    "font-src": "'self'",
    "manifest-src": "'self'",
    "base-uri": "'self'",
    "form-action": "'self'",
}
"""What a page may load: its own site's files, scripts of known hash, WebAssembly."""
ONLY_IN_A_HEADER = {"frame-ancestors": "'none'"}
"""Browsers heed this in a header alone."""
REFERRER = "no-referrer"
FEATURES = ("accelerometer", "camera", "display-capture", "geolocation", "gyroscope", "magnetometer", "microphone",
            "midi", "payment", "usb")  # fmt: skip
"""What a browser could offer and no page of a shop asks for."""

INLINE_SCRIPT = re.compile(r"<script(?P<attributes>[^>]*)>(?P<body>.*?)</script>", re.S)
HEAD_START = "<head>"

ASKED_WITH_HASH = (
    "/assets/style.css",
    "/assets/fonts/*.woff2",
    "/shop/*.mjs",
    "/shop/python/*",
    "/shop/search.json",
    "/patterns/remnants.json",
    "/patterns/shop.json",
    "/patterns/:pattern/spec.json",
    "/patterns/:pattern/answers/*",
    "/patterns/:pattern/lays/*",
)
"""Files that pages ask for with their hash behind the address: one address always means the same bytes."""
ALWAYS_LOOKED_AFTER = (
    "/",
    "/:page/",
    "/patterns/:pattern/",
    "/patterns/:pattern/options/:choice/",
    "/shop/edition.json",
    "/shop/files.json",
    "/keeper.js",
)
"""Pages, and what says whether there is a new edition: kept, but looked after each time whether it has changed."""
FOR_A_YEAR = "public, max-age=31536000, immutable"
LOOKED_AFTER = "no-cache"
TYPES = {"mjs": "text/javascript", "webmanifest": "application/manifest+json", "woff2": "font/woff2"}
"""Kinds of files that not every server knows; a script of unknown kind does not run."""


def script_hashes(html: str) -> list[str]:
    """The inline scripts of a document, as a policy names them, each once."""
    found = []
    for script in INLINE_SCRIPT.finditer(html):
        attributes = script["attributes"]
        if "src=" in attributes or "application/json" in attributes:
            continue
        digest = base64.b64encode(hashlib.sha256(script["body"].encode()).digest()).decode()
        found.append(f"'sha256-{digest}'")
    return list(dict.fromkeys(found))


def policy(hashes: Iterable[str] = (), *, in_header: bool = False) -> str:
    """The content security policy that also lets inline scripts with these hashes run."""
    parts = {**POLICY, **(ONLY_IN_A_HEADER if in_header else {})}
    parts["script-src"] = " ".join([parts["script-src"], *hashes])
    return "; ".join(f"{name} {value}" for name, value in parts.items())


def with_policy(html: str) -> str:
    """The document with its policy in its head, before anything that the policy is about."""
    meta = f'<meta http-equiv="Content-Security-Policy" content="{policy(script_hashes(html))}">'
    return html.replace(HEAD_START, f"{HEAD_START}\n    {meta}", 1)


def everywhere(hashes: Iterable[str] = ()) -> dict[str, str]:
    """The headers that every answer of the host has."""
    return {
        "Content-Security-Policy": policy(hashes, in_header=True),
        "X-Content-Type-Options": "nosniff",
        "Referrer-Policy": REFERRER,
        "Permissions-Policy": ", ".join(f"{name}=()" for name in FEATURES),
        "Cross-Origin-Opener-Policy": "same-origin",
        "Cross-Origin-Resource-Policy": "same-origin",
    }


def write_headers(site_dir: Path) -> None:
    """Write `_headers` for a finished site. Raises: OSError."""
    hashes = [digest for page in sorted(site_dir.rglob("*.html")) for digest in script_hashes(page.read_text("utf-8"))]
    text = for_hosts(site_dir, list(dict.fromkeys(hashes)))
    (site_dir / HEADERS_FILE).write_text(text, encoding="utf-8", newline="\n")


def for_hosts(site_dir: Path, hashes: Iterable[str] = ()) -> str:
    """The text of `_headers`. No file is under two rules about keeping, because hosts then send both."""
    lines = ["/*", *(f"  {name}: {value}" for name, value in everywhere(hashes).items())]
    for path in ALWAYS_LOOKED_AFTER:
        lines += [path, f"  Cache-Control: {LOOKED_AFTER}"]
    for path in ASKED_WITH_HASH:
        for named in spelt_out(site_dir, path):
            lines += [named, f"  Cache-Control: {FOR_A_YEAR}"]
    return "\n".join(lines) + "\n"


def spelt_out(site_dir: Path, path: str) -> Iterator[str]:
    """A path as every host reads it: a star stands at its end only, so files named by their ending are listed."""
    if "*" not in path or path.endswith("*"):
        yield path
        return
    for file in sorted(site_dir.glob(path.removeprefix("/"))):
        yield f"/{file.relative_to(site_dir).as_posix()}"


def as_expression(path: str) -> str:
    """A path of the rules as a regular expression, from the site's root."""
    parts = re.split(r"(\*|:\w+)", path)
    made = "".join("[^/]+" if part.startswith(":") else ".+" if part == "*" else re.escape(part) for part in parts)
    return f"^{made}$"


def for_nginx(hashes: Iterable[str] = ()) -> str:
    """The same rules for a server that runs nginx; `map` stands beside `server`, the rest inside it."""
    year = [f'    "~{as_expression(path)}" "{FOR_A_YEAR}";' for path in ASKED_WITH_HASH]
    kinds = [f"    {kind} {ending};" for ending, kind in TYPES.items()]
    inside = [f'add_header {name} "{value}" always;' for name, value in everywhere(hashes).items()]
    lines = [
        "map $uri $boltside_keeping {", f'    default "{LOOKED_AFTER}";', *year, "}", "",
        *inside, "add_header Cache-Control $boltside_keeping;", "error_page 404 /404.html;",
        "include mime.types;", "types {", *kinds, "}",
    ]  # fmt: skip
    return "\n".join(lines) + "\n"


def for_apache(hashes: Iterable[str] = ()) -> str:
    """The same rules as a file `.htaccess` in the site's folder, for a server that runs Apache 2.4 (mod_headers)."""
    expressions = "|".join(as_expression(path).removeprefix("^").removesuffix("$") for path in ASKED_WITH_HASH)
    lines = [
        *(f'Header always set {name} "{value}"' for name, value in everywhere(hashes).items()),
        f'Header set Cache-Control "{LOOKED_AFTER}"',
        f'<If "%{{REQUEST_URI}} =~ m#^({expressions})$#">',
        f'    Header set Cache-Control "{FOR_A_YEAR}" "expr=%{{REQUEST_STATUS}} == 200"',
        "</If>",
        "ErrorDocument 404 /404.html",
        *(f"AddType {kind} .{ending}" for ending, kind in TYPES.items()),
    ]
    return "\n".join(lines) + "\n"
