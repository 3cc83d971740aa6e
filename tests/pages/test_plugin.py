"""The site engine's plugin: a whole shop, the same bytes twice, and a clear refusal."""

from __future__ import annotations

import base64
import hashlib
import json
import os
import re
import shutil
import subprocess
import sys
from pathlib import Path
from urllib.parse import urljoin
from xml.etree import ElementTree

import pytest
from mkdocs.config import load_config

from boltside.edition import FILES_PATH, KEEPER, NOT_KEPT
from boltside.headers import policy, with_policy
from boltside.phone.fetch import cache_dir_of
from boltside.plugin import SHOP_CARD, BoltsidePlugin
from boltside.shop_build import ShopFiles, pattern_files

ROOT = Path(__file__).parents[2]
CONFIG = """
INHERIT: {root}/mkdocs.yml
docs_dir: {root}/site_src/pages
theme:
  name: material
  custom_dir: {root}/site_src/theme
  font: false
plugins:
  - boltside:
      browser_dir: {root}/site_src/browser
      data_dir: {data}
      sheets: {sheets}
"""
SOME_DAY = "1700000000"
LAY_FILES = ROOT / "tests" / "cases" / "lay_files.json"


def mkdocs_build(folder: Path, *, sheets: list[str], data: str = "data") -> subprocess.CompletedProcess[str]:
    """Run plain `mkdocs build` with a configuration in `folder`; the shop lands in `folder/site`."""
    shutil.copytree(ROOT / "data" / "techniques", folder / data / "techniques", dirs_exist_ok=True)
    config = folder / "mkdocs.yml"
    config.write_text(CONFIG.format(root=ROOT, data=data, sheets=json.dumps(sheets)), encoding="utf-8")
    variables = {"BOLTSIDE_CACHE": str(cache_dir_of(ROOT)), "SOURCE_DATE_EPOCH": SOME_DAY}
    return subprocess.run(
        [sys.executable, "-m", "mkdocs", "build", "-q", "-f", str(config)],
        capture_output=True, text=True, cwd=folder, env={**os.environ, **variables},
    )  # fmt: skip


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("shop")
    run = mkdocs_build(folder, sheets=[str(ROOT / "tests" / "cases" / "sheet_example.json")])
    assert run.returncode == 0, run.stderr
    return folder / "site"


def test_plain_mkdocs_builds_the_shop(site: Path) -> None:
    page = (site / "patterns" / "example-jacket" / "index.html").read_text(encoding="utf-8")
    assert page.count("<h1") == 1 and "Outer cloth, " in page
    assert 'href="patterns/example-jacket/"' in (site / "index.html").read_text(encoding="utf-8")
    assert json.loads((site / "patterns/example-jacket/spec.json").read_text(encoding="utf-8"))["format"] == 3


def test_the_page_lists_every_file_that_the_worker_loads_with_its_hash(site: Path) -> None:
    page = (site / "patterns" / "example-jacket" / "index.html").read_text(encoding="utf-8")
    found = re.search(r'<script type="application/json" id="panel-data">(.*?)</script>', page)
    assert found
    files = json.loads(found[1])["files"]
    listed = [*files["runtime"], *files["calculators"], files["sheet"], *files["lays"].values(), files["worker"]]
    listed += files["scripts"].values()
    assert sorted(files["lays"]) == sorted(json.loads(LAY_FILES.read_text(encoding="utf-8")))
    for file in listed:
        content = (site / file["path"]).read_bytes()
        assert (hashlib.sha256(content).hexdigest(), len(content)) == (file["sha256"], file["bytes"]), file["path"]
    shipped = {path.relative_to(site).as_posix() for path in (site / "shop").rglob("*") if path.is_file()}
    assert shipped - {file["path"] for file in listed} == {"shop/search.json", "shop/files.json", "shop/edition.json"}


def test_the_shop_can_be_put_on_a_home_screen(site: Path) -> None:
    card = json.loads((site / SHOP_CARD).read_text(encoding="utf-8"))
    assert card["name"] == "Thistle Quay" and card["display"] == "standalone"
    for icon in card["icons"]:
        content = (site / icon["src"]).read_bytes()
        # PNG (ISO/IEC 15948): the signature, then the header's length and name, then width and height.
        assert content[:8] == b"\x89PNG\r\n\x1a\n" and content[12:16] == b"IHDR"
        assert icon["sizes"] == "x".join(str(int.from_bytes(content[at : at + 4], "big")) for at in (16, 20))
    for path in site.rglob("index.html"):
        link = re.search(r'<link rel="manifest" href="([^"]+)">', path.read_text(encoding="utf-8"))
        assert link and (path.parent / link[1]).resolve() == (site / SHOP_CARD).resolve()


def test_every_file_of_the_site_can_be_kept(site: Path) -> None:
    """The keeper knows the kind of each, and the list has it."""
    listed = json.loads((site / FILES_PATH).read_text(encoding="utf-8"))["files"]
    here = {path.relative_to(site).as_posix() for path in site.rglob("*") if path.is_file()}
    assert set(listed) == here - set(NOT_KEPT)
    known = set(re.findall(r"^(\w+): \"", (site / KEEPER).read_text(encoding="utf-8"), re.MULTILINE))
    # Without a kind of its own a file is handed on as bytes, as hosts do.
    assert {Path(path).suffix[1:] for path in listed} - known == {"bin"}


def test_two_builds_give_the_same_bytes(site: Path, tmp_path: Path) -> None:
    run = mkdocs_build(tmp_path / "again", sheets=[str(ROOT / "tests" / "cases" / "sheet_example.json")])
    assert run.returncode == 0, run.stderr
    again = tmp_path / "again" / "site"
    names = sorted(path.relative_to(site) for path in site.rglob("*") if path.is_file())
    assert names == sorted(path.relative_to(again) for path in again.rglob("*") if path.is_file())
    assert [name for name in names if (site / name).read_bytes() != (again / name).read_bytes()] == []


def test_without_patterns_the_build_says_so_and_fails(tmp_path: Path) -> None:
    (tmp_path / "data").mkdir()
    run = mkdocs_build(tmp_path, sheets=[], data=str(tmp_path / "data"))
    assert run.returncode != 0
    assert "The shop was not built." in run.stderr
    assert "Traceback" not in run.stderr
    assert not (tmp_path / "site").exists()


def test_no_page_asks_for_anything_elsewhere(site: Path) -> None:
    for path in site.rglob("*.html"):
        text = path.read_text(encoding="utf-8")
        links = re.findall(r'(?:src|srcset|action)="([^"]*)"|<link[^>]*href="([^"]*)"', text)
        assert not [link for pair in links for link in pair if re.match(r"(https?:)?//", link)], path
        assert " style=" not in text, f"{path}: a style attribute would not pass the policy"


def test_every_page_has_the_policy_first(site: Path) -> None:
    pages = list(site.rglob("*.html"))
    assert len(pages) >= 5
    for path in pages:
        head = path.read_text(encoding="utf-8").split("<head>")[1]
        assert head.lstrip().startswith('<meta http-equiv="Content-Security-Policy"'), path


def test_policy_names_the_hash_of_inline_scripts_only() -> None:
    html = '<head></head><script>a()</script><script src="b.js"></script><script type="application/json">{}</script>'
    digest = base64.b64encode(hashlib.sha256(b"a()").digest()).decode()
    assert f'content="{policy([f"{chr(39)}sha256-{digest}{chr(39)}"])}"' in with_policy(html)
    assert with_policy(html).count("sha256-") == 1


def test_the_sitemap_lists_every_page_as_seen_from_it(site: Path) -> None:
    tree = ElementTree.parse(site / "sitemap.xml")
    listed = [str(place.text) for place in tree.iter("{http://www.sitemaps.org/schemas/sitemap/0.9}loc")]
    assert all((site / place / "index.html").is_file() for place in listed)
    pages = {path.parent.relative_to(site).as_posix() for path in site.rglob("index.html")}
    assert {place.rstrip("/") for place in listed} == pages
    assert "site_url is not set" in (site / "sitemap.xml").read_text(encoding="utf-8")


def test_every_page_has_a_title_and_a_description_of_its_own(site: Path) -> None:
    found: dict[str, list[str]] = {"title": [], "description": []}
    for path in site.rglob("index.html"):
        head = path.read_text(encoding="utf-8").split("</head>")[0]
        found["title"] += re.findall("<title>(.*?)</title>", head)
        found["description"] += re.findall('<meta name="description" content="(.*?)">', head)
    pages = len(list(site.rglob("index.html")))
    for kind, words in found.items():
        assert len(words) == len(set(words)) == pages, kind
        assert all(words), kind


def test_what_is_found_by_searching_exists(site: Path) -> None:
    index = json.loads((site / "shop" / "search.json").read_text(encoding="utf-8"))
    of_the_list = [entry for entry in index["entries"] if entry[2].startswith("techniques/#")]
    assert of_the_list == [], "each has a page of its own"
    assert [entry for entry in index["entries"] if entry[2] == "techniques/gathering/"]
    assert {entry[0] for entry in index["entries"]} == set(range(len(index["kinds"])))
    for _, title, address, _ in index["entries"]:
        folder, _, name = address.partition("#")
        page = (site / folder / "index.html").read_text(encoding="utf-8")
        assert not name or f' id="{name}"' in page, (title, address)


def test_the_list_of_techniques_is_found_from_every_page(site: Path) -> None:
    for address in ("/", "/techniques/", "/techniques/gathering/", "/list/"):
        page = (site / address[1:] / "index.html").read_text(encoding="utf-8")
        links = dict(re.findall('<a href="([^"]*)"[^>]*>(.*?)</a>', page.split('<footer class="foot">')[1]))
        found = {urljoin(address, link): title for link, title in links.items()}
        assert found["/techniques/"] == "Techniques", address


def test_warnings_of_the_patterns_are_shown(tmp_path: Path) -> None:
    sheet = json.loads((ROOT / "tests" / "cases" / "sheet_example.json").read_text(encoding="utf-8"))
    files = pattern_files(sheet, warnings=["example-jacket: 3 lays are drafts"])
    shop = ShopFiles(patterns=(files,), runtime=(), calculators=(), browser=())
    plugin = BoltsidePlugin()
    plugin.load_config({"sheets": []})
    told: list[str] = []
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("boltside.plugin.collect", lambda *_, **__: shop)
        patch.setattr("boltside.plugin.log.warning", told.append)
        plugin.on_config(load_config(str(ROOT / "mkdocs.yml"), plugins=[]))
    assert told == ["example-jacket: 3 lays are drafts"]
