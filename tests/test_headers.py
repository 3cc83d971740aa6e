"""One policy, whoever says it: the page, the host, a server of one's own; and what may be kept for long."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from boltside.headers import (
    ALWAYS_LOOKED_AFTER,
    ASKED_WITH_HASH,
    as_expression,
    for_apache,
    for_hosts,
    for_nginx,
    policy,
    script_hashes,
    with_policy,
    write_headers,
)

HOSTING = Path(__file__).parents[1] / "site_src" / "handbook" / "hosting.md"
PAGE = "<!doctype html><html><head><title>A</title></head><body><script>var a = 1</script></body></html>"


def rules_of(text: str) -> list[tuple[str, dict[str, str]]]:
    """Path and headers of each rule, read as hosts read the file."""
    found: list[tuple[str, dict[str, str]]] = []
    for line in text.splitlines():
        if line.startswith(" "):
            name, _, value = line.strip().partition(": ")
            found[-1][1][name] = value
        else:
            found.append((line, {}))
    return found


def a_site(folder: Path) -> Path:
    for name in ("index.html", "404.html", "list/index.html"):
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(with_policy(PAGE), encoding="utf-8")
    for name in ("shop/panel.mjs", "shop/keep.mjs", "shop/edition.json", "assets/fonts/a.woff2", "assets/style.css",
                 "patterns/a/index.html", "patterns/a/options/b/index.html", "patterns/a/answers/sizes/92.json",
                 "patterns/a/lays/outer.json", "patterns/a/spec.json", "shop/python/python.bin"):  # fmt: skip
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text("", encoding="utf-8")
    return folder


def test_the_page_and_the_host_say_the_same_policy(tmp_path: Path) -> None:
    write_headers(a_site(tmp_path))
    rules = rules_of((tmp_path / "_headers").read_text(encoding="utf-8"))
    [said] = [headers["Content-Security-Policy"] for _, headers in rules if "Content-Security-Policy" in headers]
    page = (tmp_path / "index.html").read_text(encoding="utf-8")
    meta = re.search(r'Content-Security-Policy" content="([^"]+)"', page)
    assert meta and said == f"{meta[1]}; frame-ancestors 'none'"
    assert "'sha256-" in said and "'unsafe-inline'" not in said and "'unsafe-eval'" not in said
    assert page.index("Content-Security-Policy") < page.index("<title>")


@pytest.mark.outside
def test_a_script_is_named_by_the_hash_that_browsers_compute() -> None:
    # Source: the example of W3C Content Security Policy Level 3, 8.3 (`alert('Hello, world.');`).
    assert script_hashes("<script>alert('Hello, world.');</script>") == [
        "'sha256-qznLcsROx4GACP2dm0UCKCzCG+HiZ1guq6ZZDob/Tng='"
    ]
    assert script_hashes('<script src="a.mjs"></script><script type="application/json">{}</script>') == []


def test_no_file_is_under_two_rules_about_keeping(tmp_path: Path) -> None:
    """Hosts send the values of all rules that fit, and two times of keeping are none."""
    a_site(tmp_path)
    rules = [path for path, headers in rules_of(for_hosts(tmp_path)) if "Cache-Control" in headers]
    assert len(rules) == len(set(rules)) <= 100  # hosts read that many
    for file in tmp_path.rglob("*"):
        address = f"/{file.relative_to(tmp_path).as_posix()}".replace("/index.html", "/")
        fitting = [path for path in rules if re.search(as_expression(path), address)]
        assert len(fitting) <= 1, (address, fitting)
    assert "/shop/keep.mjs" in rules and "/shop/edition.json" in rules


def test_what_names_an_edition_is_never_kept_for_long() -> None:
    for path in ("/shop/edition.json", "/shop/files.json", "/keeper.js", "/", "/list/", "/patterns/a/",
                 "/patterns/a/options/b/"):  # fmt: skip
        assert any(re.search(as_expression(rule), path) for rule in ALWAYS_LOOKED_AFTER), path
        assert not any(re.search(as_expression(rule), path) for rule in ASKED_WITH_HASH), path


@pytest.mark.parametrize(("kind", "text"), [("nginx", for_nginx()), ("apache", for_apache())])
def test_the_handbook_shows_the_very_rules(kind: str, text: str) -> None:
    shown = re.findall(rf"```{kind}\n(.*?)```", HOSTING.read_text(encoding="utf-8"), re.S)
    assert shown == [text]
    assert policy(in_header=True) in text
