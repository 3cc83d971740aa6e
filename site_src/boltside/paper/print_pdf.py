"""How does the paper guide become a PDF? By WeasyPrint, which is asked of nowhere else.

The library and its face come with the extra `paper`; below it lies Pango, which comes with the system or is installed
there. Without either, shops are built without paper guides.
"""

from __future__ import annotations

import hashlib
import importlib.metadata
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any
from urllib.parse import unquote

from boltside.errors import BoltsideError
from boltside.installed import THEME, folder_of

STYLES = Path(__file__).with_name("guide.css")
OWN = "https://guide.invalid/"
"""Where a guide's files seem to lie: the faces that the style sheet names, and the pattern's own pictures. No network
knows a host of that name (RFC 2606), and none is asked."""
FACES = {"faces/regular": "SourceSansPro-Regular.ttf", "faces/bold": "SourceSansPro-Bold.ttf",
         "faces/italic": "SourceSansPro-It.ttf"}  # fmt: skip
"""Their names in the style sheet, and the files of Source Sans Pro (SIL Open Font License) that come with the extra."""
DISPLAY = "assets/fonts/jost-500.woff2"
WITH_THE_EXTRA = "Install it with: pip install 'boltside[paper]'   (in a checkout: python3 start.py paper)"
PANGO = (
    "WeasyPrint is here, but not the system's library Pango, which it needs. "
    "Debian, Ubuntu: sudo apt-get install libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0. "
    "Fedora: sudo dnf install pango. macOS: brew install pango. "
    "Windows: install MSYS2, then in its shell: pacman -S mingw-w64-x86_64-pango, "
    "and set WEASYPRINT_DLL_DIRECTORIES to C:\\msys64\\mingw64\\bin."
)


class PaperNotPossible(BoltsideError):
    """No PDF can be made on this computer; the text says what to install."""


@cache
def why_not() -> str:
    """Why no PDF can be made here, with what to install; empty where it can."""
    try:
        import weasyprint  # type: ignore[import-not-found,import-untyped,unused-ignore]  # noqa: F401
    except ImportError:
        return f"WeasyPrint is not installed. {WITH_THE_EXTRA}"
    except OSError:  # one of the system's libraries
        return PANGO
    try:
        faces()
    except (ImportError, OSError):
        return f"The face of the paper guide is not installed. {WITH_THE_EXTRA}"
    return ""


@cache
def faces() -> Mapping[str, bytes]:
    """The files of the faces by their name in the style sheet. Raises: ImportError, OSError."""
    import font_source_sans_pro  # type: ignore[import-not-found,import-untyped,unused-ignore]

    folder = Path(font_source_sans_pro.font_directory)
    found = {name: (folder / file).read_bytes() for name, file in FACES.items()}
    return {**found, "faces/display": (folder_of(THEME) / DISPLAY).read_bytes()}


@cache
def made_with() -> str:
    """Everything besides the document that decides about a PDF's bytes, as a hash."""
    import weasyprint  # type: ignore[import-not-found,import-untyped,unused-ignore]
    from weasyprint.text.ffi import pango  # type: ignore[import-not-found,import-untyped,unused-ignore]

    found = hashlib.sha256(f"{weasyprint.__version__} {pango.pango_version()}".encode())
    for package in ("pydyf", "fonttools", "tinycss2", "tinyhtml5", "cssselect2"):
        found.update(f" {package} {importlib.metadata.version(package)}".encode())
    for name, content in sorted(faces().items()):
        found.update(name.encode() + content)
    return found.hexdigest()


def styles() -> str:
    """The guide's style sheet."""
    return STYLES.read_text(encoding="utf-8")


def as_pdf(document: str, pictures: Mapping[str, bytes] | None = None) -> bytes:
    """The HTML document as a PDF; the same arguments give the same bytes on one computer.

    Arguments: the document with its styles; files that it may show, by the address under which it names them.
    Nothing else is read or fetched, whatever the document asks for. Raises: PaperNotPossible.
    """
    reason = why_not()
    if reason:
        raise PaperNotPossible(f"No PDF can be made here. {reason}")
    from weasyprint import HTML  # type: ignore[import-not-found,import-untyped,unused-ignore]

    identifier = hashlib.sha256(document.encode()).hexdigest()[:32]
    page = HTML(string=document, base_url=OWN, url_fetcher=_only_own(pictures or {}))
    made: bytes = page.write_pdf(pdf_identifier=identifier.encode(), pdf_tags=True)
    return made


def _only_own(pictures: Mapping[str, bytes]) -> Any:
    """What hands WeasyPrint the files it may have, and no others; it never looks beyond this process."""
    from weasyprint.urls import URLFetcher, URLFetcherResponse  # type: ignore[import-not-found,import-untyped,unused-ignore]

    class OnlyOwn(URLFetcher):  # type: ignore[misc,unused-ignore]
        def fetch(self, url: str, headers: Any = None) -> Any:
            name = unquote(url.removeprefix(OWN)) if url.startswith(OWN) else ""
            content = faces().get(name, pictures.get(name))
            if content is None:
                raise ValueError(f"a paper guide may not ask for {url}")
            return URLFetcherResponse(url, content)

    return OnlyOwn()
