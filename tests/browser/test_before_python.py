"""On a small phone, Python held back: listed choices are answered at once, what is typed waits and is answered then."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from cases.make_sheet_example import make
from playwright.sync_api import Page, Route, expect

from boltside.calculators.door import answer

PYTHON = "**/shop/python/**"
READY_MS = 180_000
NOTE = ".note__lines [data-fragment='{name}']"
WAITS = "waits for the calculator"
STATE = "[data-state]"
ANSWER = "[data-calculator=panel]"


class Held:
    """Requests that are answered only once they are let go."""

    def __init__(self, page: Page, what: str) -> None:
        self._routes: list[Route] = []
        self._open = False
        page.route(what, self._asked)

    def _asked(self, route: Route) -> None:
        if self._open:
            route.continue_()
        else:
            self._routes.append(route)

    def let_go(self) -> None:
        """Answer them, and all that come."""
        self._open = True
        for route in self._routes:
            route.continue_()


@pytest.fixture
def door() -> Callable[..., dict[str, Any]]:
    """The answer of the calculators to a request about the example, by fragment."""
    sheet = make()
    answer("open", json.dumps(sheet))

    def ask(**request: Any) -> dict[str, Any]:
        said = json.loads(answer("panel", json.dumps({"pattern": sheet["pattern"], **request})))
        return {one["id"]: one for one in said["fragments"]}

    return ask


def test_listed_choices_are_answered_without_python_and_typed_ones_come_with_it(
    phone: Page, example: str, door: Callable[..., dict[str, Any]], tmp_path: Path
) -> None:
    held = Held(phone, PYTHON)
    phone.goto(example)
    outer, lining = (phone.locator(NOTE.format(name=name)) for name in ("cloth.outer", "cloth.lining"))
    usual = outer.inner_html()

    def shown(**request: Any) -> None:
        said = door(**request)
        for place in phone.locator("[data-fragment]:not([data-calculator=lay] *)").all():
            name = place.get_attribute("data-fragment") or ""
            assert place.evaluate(SAME_HTML, said.get(name, {}).get("html", "")), name

    phone.locator("input[name=size][value='98']").check()
    expect(outer).not_to_have_js_property("innerHTML", usual)
    expect(phone.locator(".note h2 [data-shown-size]")).to_have_text("size 98")
    shown(size="98")
    phone.locator("input[name='choice.sleeves'][value=none]").check()
    phone.locator("input[name='way.outer'][value=flat]").check()
    choices = {"sleeves": "none"}
    expect(phone.locator("[data-fragment='cloth.outer.how']")).to_contain_text("one layer")
    shown(size="98", choices=choices, cloths={"outer": {"way": "flat"}})
    phone.locator("input[name='nap.outer'][value=with]").check()
    shown(size="98", choices=choices, cloths={"outer": {"way": "flat", "nap": "with"}})
    expect(phone.locator(STATE)).to_be_hidden()
    assert phone.locator("form[data-ready]").count() == 0

    phone.locator("input[name='width.outer']").fill("150")
    expect(outer).to_have_text(f"Outer cloth: {WAITS}")
    expect(phone.locator(STATE)).to_contain_text("What you typed waits")
    expect(lining).to_have_attribute("data-kind", "figure")
    phone.locator(".note").screenshot(path=tmp_path / "waits.png")
    phone.locator("input[name=size][value='92']").check()
    expect(phone.locator(".note h2 [data-shown-size]")).to_have_text("size 92")
    expect(outer).to_have_text(f"Outer cloth: {WAITS}")
    held.let_go()
    phone.wait_for_selector("form[data-ready]", timeout=READY_MS)
    expect(outer).to_contain_text("150")
    expect(phone.locator(STATE)).to_be_hidden()
    assert phone.locator("input[name='width.outer']").input_value() == "150"
    shown(size="92", choices=choices, cloths={"outer": {"way": "flat", "nap": "with", "width": "150"}})


SAME_HTML = """
(place, html) => {
  const made = document.createElement("div");
  made.innerHTML = html;
  return place.innerHTML === made.innerHTML && (html === "") === place.hidden;
}
"""


def test_a_size_whose_answers_are_still_on_their_way_is_answered_when_they_come(phone: Page, example: str) -> None:
    phone.route(PYTHON, lambda route: route.abort())
    others = Held(phone, "**/answers/sizes/98.*")
    with phone.expect_response("**/answers/sizes/92.later.json*"):
        phone.goto(example)
    expect(phone.locator(ANSWER)).not_to_have_class("stale")
    phone.locator("input[name=size][value='98']").check()
    expect(phone.locator(STATE)).to_contain_text("Yours is being fetched")
    others.let_go()
    expect(phone.locator(".note h2 [data-shown-size]")).to_have_text("size 98")
    expect(phone.locator(ANSWER)).not_to_have_class("stale")


def test_where_python_never_comes_listed_choices_are_answered_all_the_same(phone: Page, example: str) -> None:
    phone.route(PYTHON, lambda route: route.abort())
    phone.goto(example)
    outer = phone.locator(NOTE.format(name="cloth.outer"))
    expect(phone.locator(STATE)).to_contain_text("could not start on this device")
    phone.locator("input[name=size][value='98']").check()
    expect(phone.locator(".note h2 [data-shown-size]")).to_have_text("size 98")
    expect(phone.locator(ANSWER)).not_to_have_class("stale")
    phone.locator("input[name='width.outer']").fill("150")
    expect(outer).to_have_text(f"Outer cloth: {WAITS}")


def test_a_changed_file_is_not_used(phone: Page, example: str) -> None:
    def changed(route: Route) -> None:
        got = route.fetch()
        route.fulfill(response=got, body=got.text().replace("wide", "w1de"))

    phone.route(PYTHON, lambda route: route.abort())
    phone.route("**/answers/sizes/*", changed)
    phone.goto(example)
    expect(phone.locator(STATE)).to_contain_text("could not start on this device")
    usual = phone.locator(".note__lines").inner_html()
    phone.locator("input[name=size][value='98']").check()
    expect(phone.locator(ANSWER)).to_have_class("stale")
    expect(phone.locator(STATE)).to_contain_text("the answer for the usual choices")
    assert phone.locator(".note__lines").inner_html() == usual
    assert "w1de" not in phone.content()
