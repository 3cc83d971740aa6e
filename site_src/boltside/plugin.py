"""The site engine's plugin: hands it the shop's files and puts finished HTML into stub pages. Thin on purpose.

Everything that mkdocs is used for stands in this file, in `mkdocs.yml` and in the theme folder.
"""

from __future__ import annotations

import json
import re
from pathlib import Path

from jinja2 import Environment
from mkdocs.config import config_options
from mkdocs.config.base import Config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.plugins import BasePlugin, get_plugin_logger
from mkdocs.structure.files import File, Files, InclusionLevel
from mkdocs.structure.pages import Page
from mkdocs.theme import Theme
from mkdocs.utils import get_relative_url

from boltside.edition import BY_PATTERN_ABOVE, write_edition
from boltside.errors import BoltsideError
from boltside.headers import with_policy, write_headers
from boltside.installed import BROWSER, THEME, folder_of
from boltside.pages.hand_tables import hand_tables
from boltside.pages.list_page import list_page
from boltside.pages.markup import Html, element, join
from boltside.pages.nap_kinds import nap_list
from boltside.pages.options_page import options_page
from boltside.pages.pattern_page import pattern_page
from boltside.pages.remnant_page import remnant_page
from boltside.pages.search_index import (
    TERM,
    Entry,
    first_words,
    index_text,
    page_entries,
    pattern_entries,
    plain,
    with_term_ids,
)
from boltside.pages.shop_front import shop_front
from boltside.pages.technique_pages import TITLE as TECHNIQUES_TITLE
from boltside.pages.technique_pages import technique_address
from boltside.pages.unbroken import unbroken
from boltside.shop_build import (
    EDITION_DIGITS,
    SHIPPED,
    PatternFiles,
    ShippedFile,
    ShopFiles,
    collect,
    list_files,
    option_effects,
    page_files,
    remnant_files,
)
from boltside.stub_pages import (
    CHOICE_KEY,
    LIST_KEY,
    LIST_MARK,
    STUB_KEY,
    TECHNIQUE_KEY,
    address_of,
    list_stub,
    stubs,
    technique_stubs,
)
from boltside.style_sheet import joined

log = get_plugin_logger("boltside")

SHOP_FRONT_MARK = "<!-- shop front -->"
"""Where a hand-written page wants the cards of all patterns."""
REMNANTS_MARK = "<!-- remnants -->"
"""Where a hand-written page wants the questions about a remnant."""
NAP_MARK = "<!-- nap -->"
"""Where a hand-written page wants the list of the cloths that have a nap."""
LIST_PAGE = "list.md"
"""The page of the shopping list, which every shop has; a shop's own page of that name takes its place."""
SEARCH_INDEX = f"{SHIPPED}/search.json"
SHOP_CARD = "shop.webmanifest"
UNUSED = ("assets/javascripts/", "assets/stylesheets/", "assets/images/favicon.")
"""Files of the engine's theme that our templates do not ask for."""
ENGINE_THEME = "material"
"""The theme whose document frame our templates fill."""
STYLES = tuple(
    f"assets/{name}.css" for name in ("base", "paper", "panel", "parts", "shop", "sketches", "remnant", "list", "print")
)
"""Our style sheets in their order; a shop's own `custom_dir` may hold others in their place."""
STYLE_SHEET = "assets/style.css"
"""All of them in one, which is what pages load."""
FONT = re.compile(r'url\("([^"]+\.woff2\?\w+)"\)')
MARKDOWN: dict[str, dict[str, object]] = {
    "attr_list": {},
    "def_list": {},
    "md_in_html": {},
    "tables": {"use_align_attribute": True},  # style attributes would not pass the pages' policy
}
"""Markdown extensions of the pages, with their settings."""


class BoltsideConfig(Config):
    """Settings under `plugins: - boltside:` in mkdocs.yml; folders are seen from that file."""

    data_dir = config_options.Type(str, default="data")
    browser_dir = config_options.Type(str, default="")
    """Another folder with the page's scripts, instead of Boltside's own."""
    sheets = config_options.ListOfItems(config_options.Type(str), default=[])
    """Files with ready spec sheets instead of those made from the data: for work on pages and for their tests."""


class BoltsidePlugin(BasePlugin[BoltsideConfig]):
    """Makes the shop's pages during a build."""

    shop: ShopFiles
    ready: ShopFiles | None = None
    """A shop collected before, for a build after which only hand-written pages are new."""
    font: str = ""
    """The address of the face of the headings, which pages ask for beside the style sheet that names it."""
    kept: dict[str, tuple[PatternFiles, str]]
    """Articles by their page's address, and what they were made of: those of an earlier build where these are set."""

    def __init__(self) -> None:
        self.kept = {}

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        """Collect everything before a page is touched, so that a problem stops the build at once."""
        dress(config)
        if self.ready is not None:
            self.shop = self.ready
            return config
        root = Path(config.config_file_path).parent if config.config_file_path else Path()
        try:
            self.shop = collect(
                root / self.config.data_dir,
                browser_dir=root / self.config.browser_dir if self.config.browser_dir else folder_of(BROWSER),
                project_dir=root,
                say=log.info,
                sheets=[root / path for path in self.config.sheets],
            )
        except BoltsideError as error:
            raise PluginError(f"The shop was not built.\n{error}") from error
        for warning in self.shop.warnings():
            log.warning(warning)
        return config

    def on_files(self, files: Files, config: MkDocsConfig) -> Files:
        """Add a stub page per pattern and every file that is shipped as it is; drop scripts that no page loads."""
        for file in [file for file in files if file.src_uri.startswith(UNUSED) or file.src_uri.endswith(".map")]:
            files.remove(file)
        self.add_style_sheet(files, config)
        for pattern in self.shop.patterns:
            for path, content in stubs(pattern):
                files.append(File.generated(config, path, content=content, inclusion=InclusionLevel.NOT_IN_NAV))
        for path, content in technique_stubs(self.shop):
            if files.get_file_from_path(path) is None:
                files.append(File.generated(config, path, content=content, inclusion=InclusionLevel.NOT_IN_NAV))
        if files.get_file_from_path(LIST_PAGE) is None:
            files.append(File.generated(config, LIST_PAGE, content=list_stub(), inclusion=InclusionLevel.NOT_IN_NAV))
        for shipped in self.shop.all_files():
            files.append(File.generated(config, shipped.path, content=shipped.content,
                                        inclusion=InclusionLevel.NOT_IN_NAV))  # fmt: skip
        return files

    def add_style_sheet(self, files: Files, config: MkDocsConfig) -> None:
        """Put one style sheet in the place of ours, before those of the shop itself."""

        def content_of(path: str) -> bytes:
            file = files.get_file_from_path(path)
            if file is None:
                raise PluginError(f"The shop was not built: {path} is named by the theme and is not there.")
            return file.content_bytes

        sheets = [content_of(path).decode("utf-8") for path in STYLES]
        folder = Path(STYLE_SHEET).parent.as_posix()
        text = joined(sheets, lambda address: content_of(f"{folder}/{address}"), EDITION_DIGITS)
        named = FONT.search(text)
        self.font = f"{folder}/{named[1]}" if named else ""
        shipped = ShippedFile(path=STYLE_SHEET, content=text.encode("utf-8"))
        for path in STYLES:
            file = files.get_file_from_path(path)
            assert file is not None
            files.remove(file)
        files.append(File.generated(config, shipped.path, content=shipped.content, inclusion=InclusionLevel.NOT_IN_NAV))
        own = [str(sheet) for sheet in config.extra_css if not str(sheet).startswith(STYLE_SHEET)]
        config.extra_css = [with_edition(shipped), *own]

    def on_page_content(self, html: str, page: Page, config: MkDocsConfig, files: Files) -> str:
        """Replace a stub by its pattern's page, and the mark in a hand-written page by the shop front."""
        name = page.meta.get(STUB_KEY)
        if name is not None:
            pattern = next(pattern for pattern in self.shop.patterns if pattern.sheet["pattern"] == name)
            made_of, html = self.kept.get(page.url, (None, ""))
            if made_of is not pattern:
                choice = page.meta.get(CHOICE_KEY)
                made = self.pattern_html(pattern, page) if choice is None else self.choice_html(pattern, choice, page)
                made_of, html = self.kept[page.url] = (pattern, str(made))
            return html
        if SHOP_FRONT_MARK in html:
            html = html.replace(SHOP_FRONT_MARK, self.front_html(page))
        if REMNANTS_MARK in html:
            html = html.replace(REMNANTS_MARK, self.remnants_html(page))
        if LIST_MARK in html:
            html = html.replace(LIST_MARK, self.list_html(page, config))
        html = html.replace(NAP_MARK, nap_list())
        page.meta.setdefault("description", first_words(html))
        return with_term_ids(unbroken(hand_tables(html, units=bool(page.meta.get("units")))))

    def front_html(self, page: Page) -> Html:
        """The cards of all patterns, as seen from a page."""
        cards = shop_front(
            [
                (pattern.sheet, pattern.default_answer, get_relative_url(address_of(pattern), page.url))
                for pattern in self.shop.patterns
            ]
        )
        script = get_relative_url(self.script("front.mjs"), page.url)
        # Only where there is something to filter is there a form that the script looks for.
        return join([cards, element("script", type="module", src=script) if "<form" in cards else ""])

    def remnants_html(self, page: Page) -> Html:
        """The questions about a remnant, as asked on a page."""
        return remnant_page(
            [pattern.sheet for pattern in self.shop.patterns],
            remnant_files(self.shop),
            script=get_relative_url(self.script("remnant.mjs"), page.url),
            base=get_relative_url(".", page.url),
        )

    def list_html(self, page: Page, config: MkDocsConfig) -> Html:
        """The places of the shopping list."""
        return list_page(
            list_files(self.shop),
            script=get_relative_url(self.script("list.mjs"), page.url),
            base=get_relative_url(".", page.url),
            shop=config.site_name,
        )

    def pattern_html(self, pattern: PatternFiles, page: Page) -> str:
        """The article of one pattern's page."""
        return pattern_page(
            pattern.sheet,
            pattern.default_answer,
            pattern.default_request,
            page_files(self.shop, pattern),
            script=get_relative_url(self.script("panel.mjs"), page.url),
            base=get_relative_url(".", page.url),
            heading_id=heading_id(page),
            guides=[
                (size, file.path.removeprefix(address_of(pattern)), len(file.content)) for size, file in pattern.guides
            ],
        )

    def choice_html(self, pattern: PatternFiles, name: str, page: Page) -> str:
        """The article of the page about one choice of a pattern."""
        choice = next(choice for choice in pattern.sheet["choices"] if choice["name"] == name)
        effects = option_effects(pattern.sheet, name)
        return options_page(pattern.sheet, choice, effects, heading_id=heading_id(page))

    def script(self, name: str) -> str:
        """The address of one of our scripts, with the beginning of its hash behind it."""
        return with_edition(next(file for file in self.shop.browser if file.path == f"{SHIPPED}/{name}"))

    def on_env(self, env: Environment, config: MkDocsConfig, files: Files) -> Environment:
        """Once all pages are made: the list of what can be searched for, and what the templates have to know."""
        entries: list[Entry] = []
        for pattern in self.shop.patterns:
            entries += pattern_entries(pattern.sheet, address_of(pattern))
        for one in self.shop.techniques:
            address = technique_address(one["name"])
            entries.append(Entry(kind=TERM, title=one["title"], address=address, words=plain(one["short"])))
        for file in files.documentation_pages():
            page = file.page
            if page is not None and not {STUB_KEY, TECHNIQUE_KEY} & set(page.meta) and page.content is not None:
                headings = [(item.id, item.title) for top in page.toc for item in [top, *top.children]]
                # Techniques, the terms of their list, have been found already.
                content = "" if LIST_KEY in page.meta else page.content
                entries += page_entries(str(page.title), page.url, headings, content)
        index = ShippedFile(path=SEARCH_INDEX, content=index_text(entries).encode("utf-8"))
        files.append(File.generated(config, index.path, content=index.content, inclusion=InclusionLevel.NOT_IN_NAV))
        config.extra["boltside"] = {
            "script": self.script("shop.mjs"),
            "search_script": self.script("search.mjs"),
            "search_index": with_edition(index),
            "keep_script": self.script("keep.mjs"),
            "kept_script": self.script("kept.mjs"),
            "by_pattern": len(self.shop.patterns) > BY_PATTERN_ABOVE,
            "techniques": TECHNIQUES_TITLE if self.shop.techniques else "",
            "font": self.font,
        }
        card = json.dumps(shop_card(config.site_name), ensure_ascii=False, indent=1).encode("utf-8")
        files.append(File.generated(config, SHOP_CARD, content=card, inclusion=InclusionLevel.NOT_IN_NAV))
        return env

    def on_post_build(self, config: MkDocsConfig) -> None:
        """Once all files are there: rules for the host, and the list for those who keep the shop on their phone."""
        write_headers(Path(config.site_dir))
        write_edition(Path(config.site_dir))

    def on_post_page(self, output: str, page: Page, config: MkDocsConfig) -> str:
        """Write the page's policy over the finished HTML."""
        return with_policy(output)

    def on_post_template(self, output_content: str, template_name: str, config: MkDocsConfig) -> str:
        """The same for pages that are no articles (404)."""
        return with_policy(output_content) if template_name.endswith(".html") else output_content


def dress(config: MkDocsConfig) -> None:
    """Add what every shop has and `mkdocs.yml` need not say: our templates, and the Markdown of the pages.

    A shop's own `custom_dir` goes before our templates, its own settings before ours.
    """
    own = str(folder_of(THEME))
    if config.theme.name != ENGINE_THEME:
        custom_dir = config.theme.custom_dir
        config.theme = Theme(name=ENGINE_THEME, custom_dir=custom_dir, font=False)
    known = [Path(place).resolve() for place in config.theme.dirs]
    if Path(own).resolve() not in known:
        config.theme.dirs.insert(1 if config.theme.custom_dir else 0, own)
    config.extra.setdefault("generator", False)
    for extension, settings in MARKDOWN.items():
        if extension not in config.markdown_extensions:
            config.markdown_extensions.append(extension)
        if settings:
            config.mdx_configs.setdefault(extension, dict(settings))


def shop_card(name: str) -> dict[str, object]:
    """What a phone needs to put the shop on its home screen (W3C Web Application Manifest); colours as in paper.css."""
    icons = [{"src": f"assets/icon-{size}.png", "sizes": f"{size}x{size}", "type": "image/png",
              "purpose": purpose} for size, purpose in ((192, "any"), (512, "any maskable"))]  # fmt: skip
    return {
        "name": name,
        "short_name": name,
        "start_url": "./",
        "scope": "./",
        "display": "standalone",
        "background_color": "#f5f0e6",
        "theme_color": "#f5f0e6",
        "icons": icons,
    }


def with_edition(file: ShippedFile) -> str:
    """A file's address from the site's root, with the beginning of its hash, so that no older copy is taken."""
    return f"{file.path}?{file.sha256[:EDITION_DIGITS]}"


def heading_id(page: Page) -> str:
    """The id that the page's first heading has in the stub."""
    return page.toc.items[0].id if page.toc.items else "top"
