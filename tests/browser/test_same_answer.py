"""One number, computed in one place: CPython and the Python in the page give the same answers, byte for byte."""

from __future__ import annotations

import json
import platform
import sys
from pathlib import Path
from typing import Any

import pytest
from cases.make_cases import FEWEST, SEED, cases
from cases.plan_sheet import make_plans
from playwright.sync_api import Browser

from boltside.calculators.door import answer
from boltside.calculators.problems import PROBLEMS

KEEP_WORKER = """
const Plain = window.Worker;
window.Worker = class extends Plain { constructor(...given) { super(...given); window.pageWorker = this; } };
"""
ASK_ALL = """
(asked) => new Promise((resolve, reject) => {
  const first = 1_000_000;  // far from the numbers that the page itself gives its questions
  const answers = [];
  window.pageWorker.addEventListener("message", ({ data }) => {
    if (!(data.number >= first)) return;
    if (data.kind !== "answer") return reject(new Error(`${data.kind}: ${data.reason}`));
    answers[data.number - first] = data.text;
    if (answers.filter((text) => text !== undefined).length === asked.length) resolve(answers);
  });
  asked.forEach(([name, text], at) => window.pageWorker.postMessage({ kind: "ask", number: first + at, name, text }));
})
"""


def sheets_of(site_dir: Path) -> list[dict[str, Any]]:
    """The published sheets of the shop."""
    return [json.loads(path.read_text("utf-8")) for path in sorted(site_dir.glob("patterns/*/spec.json"))]


@pytest.mark.slow
def test_same_answers_in_the_build_and_in_the_page(browser: Browser, site_dir: Path, site: str) -> None:
    sheets = sheets_of(site_dir)
    asked = cases([*sheets, make_plans()], SEED)
    print(f"seed {SEED}, {len(asked)} requests, {len(sheets)} patterns, CPython {platform.python_version()}")
    assert len(asked) >= FEWEST

    context = browser.new_context()
    page = context.new_page()
    page.add_init_script(KEEP_WORKER)
    page.goto(f"{site}patterns/{sheets[0]['pattern']}/")
    page.wait_for_selector("form[data-ready]", timeout=180_000)
    in_page = page.evaluate(ASK_ALL, [list(one) for one in asked])
    context.close()

    here = [answer(name, text) for name, text in asked]
    differing = [
        f"{name} {text[:200]}\n  page:    {there[:300]}\n  CPython: {ours[:300]}"
        for (name, text), ours, there in zip(asked, here, in_page, strict=True)
        if ours != there
    ]
    assert not differing, f"{len(differing)} of {len(asked)} differ:\n" + "\n".join(differing[:5])
    assert sys.implementation.name == "cpython" and len({*here}) > FEWEST // 2, "the answers do differ among each other"
    codes = {part["data"].get("code") for text in here for part in json.loads(text).get("fragments", ())}
    assert codes >= set(PROBLEMS), f"never answered: {sorted(set(PROBLEMS) - codes)}"
