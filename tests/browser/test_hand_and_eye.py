"""For a hand and an eye: targets, narrow screens and large type, keyboard alone, what is told, and nothing that moves.

Beyond what axe looks for. Sources of the limits: WCAG 2.2, success criteria named beside each check; 44 px for the
controls of panel, list, remnants and keeping is the criterion 2.5.5 (level AAA).
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect

from .conftest import PHONE
from .looks import HERE, LOOKS, READY_MS, Look, context_for, open_look, ready

pytestmark = pytest.mark.outside
NARROW = {"width": 320, "height": 640}
TWICE = "html { font-size: 212.5% !important; }"
"""Type of 200 %: twice the shop's own 106.25 %, as a browser does that is set to larger type."""
BY_NAME = {look.name: look for look in LOOKS}

TARGETS = """() => {
  const found = [];
  const large = ".panel, .list-page, .remnants, #keep, dialog";
  const shown = (one) => one.checkVisibility({ checkVisibilityCSS: true }) && one.getClientRects().length > 0;
  for (const one of document.querySelectorAll("a[href], button, input, select, summary, textarea")) {
    if (!shown(one) || one.disabled || one.classList.contains("md-skip")) continue;
    const open = document.querySelector("dialog[open]");
    if (open && !open.contains(one)) continue;
    const label = one.matches("[type=radio], [type=checkbox]") ? one.closest("label") : null;
    const box = (label ?? one).getBoundingClientRect();
    // In a sentence a link is as high as its line: exempt in both criteria.
    const inSentence = (node) => node.nodeType === 3 && /\\w/.test(node.data);
    const beside = [...(one.parentElement?.childNodes ?? [])].some(inSentence);
    if (one.matches("a") && getComputedStyle(one).display === "inline" && beside) continue;
    const least = one.closest(large) ? 44 : 24;
    if (box.width < least - 0.5 || box.height < least - 0.5) {
      found.push(`${least}: ${one.outerHTML.slice(0, 120)} ${box.width.toFixed(1)} x ${box.height.toFixed(1)}`);
    }
  }
  return found;
}"""
CUT_OFF = """() => {
  const found = [];
  const wide = innerWidth;
  const all = document.documentElement.scrollWidth;
  if (all > wide) found.push(`the page is ${all} wide`);
  const root = document.querySelector("dialog[open]") ?? document.body;
  const scrolls = (one) => {
    for (let up = one; up && up !== document.body; up = up.parentElement) {
      if (up !== root && /auto|scroll/.test(getComputedStyle(up).overflowX)) return true;
    }
    return false;
  };
  const targets = [];
  for (const one of root.querySelectorAll("*")) {
    if (one.closest("svg") || one.closest(".unseen, .md-skip")) continue;
    if (!one.checkVisibility({ checkVisibilityCSS: true })) continue;
    const style = getComputedStyle(one);
    if (style.clipPath !== "none" || style.opacity === "0") continue;
    const box = one.getBoundingClientRect();
    if (!box.width || !box.height) continue;
    const text = [...one.childNodes].some((node) => node.nodeType === 3 && node.data.trim());
    const field = one.matches("input[type=text], input[type=search], select");
    if (!text && !field && !one.matches("img, button")) continue;
    const written = document.createRange();
    for (const node of text ? one.childNodes : []) {
      if (node.nodeType !== 3 || !node.data.trim() || scrolls(one)) continue;
      written.selectNodeContents(node);
      const words = written.getBoundingClientRect();
      if (words.right > wide + 1 || words.left < -1) found.push(`text beyond the edge: ${node.data.slice(0, 60)}`);
      if (words.height > 0 && words.width < 2) found.push(`a letter to a line: ${node.data.slice(0, 60)}`);
    }
    if (one.matches("input[type=text]") && one.value && one.scrollWidth > one.clientWidth + 1) {
      found.push(`not all that is typed is seen: ${one.outerHTML.slice(0, 120)}`);
    }
    if (box.right > wide + 1 || box.left < -1) {
      if (!scrolls(one)) found.push(`beyond the edge: ${one.outerHTML.slice(0, 120)} ${box.left} to ${box.right}`);
    }
    const cut = /hidden|clip/.test(style.overflowX) && one.scrollWidth > one.clientWidth + 1;
    if (!field && cut && !/\\d/.test(style.webkitLineClamp)) {
      found.push(`cut off: ${one.outerHTML.slice(0, 120)}`);
    }
    if (style.position !== "fixed" && !one.closest(".strip, .bar, .front") && one.matches("a, button, label, select")) {
      for (const rect of one.getClientRects()) targets.push([one, rect]);
    }
  }
  for (const [at, [one, box]] of targets.entries()) {
    for (const [other, rect] of targets.slice(at + 1)) {
      if (one.contains(other) || other.contains(one)) continue;
      const across = Math.min(box.right, rect.right) - Math.max(box.left, rect.left);
      const down = Math.min(box.bottom, rect.bottom) - Math.max(box.top, rect.top);
      if (across > 3 && down > 3) {
        found.push(`over one another: ${one.outerHTML.slice(0, 90)} and ${other.outerHTML.slice(0, 90)}`);
      }
    }
  }
  return found.slice(0, 12);
}"""
FOCUS = """() => {
  const one = document.activeElement;
  if (!one || one === document.body) return null;
  const box = one.getBoundingClientRect();
  // A control that lies unseen over its label shows the focus at what is seen.
  const seen = [one, one.nextElementSibling, one.closest("label")].filter(Boolean);
  const ring = seen.some((part) => {
    const style = getComputedStyle(part);
    return style.outlineStyle !== "none" && parseFloat(style.outlineWidth) >= 2;
  });
  const [x, y] = [box.left + box.width / 2, box.top + Math.min(box.height / 2, 20)];
  const top = document.elementFromPoint(Math.min(Math.max(x, 1), innerWidth - 1), y);
  const clear = top !== null && (one.contains(top) || top.contains(one) || seen.some((part) => part.contains(top)));
  return { html: one.outerHTML.slice(0, 140), ring, clear, y: box.top, width: box.width };
}"""
MOVES = """() => {
  const found = document.getAnimations().map((one) => one.animationName ?? one.transitionProperty);
  for (const one of document.querySelectorAll("*")) {
    const style = getComputedStyle(one);
    const slow = style.transitionDuration.split(",").some((time) => parseFloat(time) > 0);
    if (slow) found.push(one.outerHTML.slice(0, 80));
    if (style.animationName !== "none") found.push(one.outerHTML.slice(0, 80));
    if (style.scrollBehavior === "smooth") found.push("scrolls smoothly");
  }
  return found;
}"""
EDGES = """() => {
  const parts = (colour) => colour.match(/[\\d.]+/g).map(Number);
  const ground = (one) => {
    for (let up = one; up; up = up.parentElement) {
      const colour = parts(getComputedStyle(up).backgroundColor);
      if (colour.length === 3 || colour[3] === 1) return colour.slice(0, 3);
    }
    return parts(getComputedStyle(document.documentElement).backgroundColor).slice(0, 3);
  };
  const light = ([r, g, b]) => [r, g, b].map((part) => part / 255)
    .map((part) => (part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4))
    .reduce((sum, part, at) => sum + part * [0.2126, 0.7152, 0.0722][at], 0);
  const contrast = (one, other) => {
    const [more, less] = [light(one), light(other)].sort((a, b) => b - a);
    return (more + 0.05) / (less + 0.05);
  };
  const found = [];
  let seen = 0;
  const boxes = "input[type=text], input[type=search], select, button.plain, .pick > span, .chips span";
  for (const one of document.querySelectorAll(boxes)) {
    const style = getComputedStyle(one);
    if (!one.checkVisibility({ checkVisibilityCSS: true }) || one.closest("[aria-disabled=true], :disabled")) continue;
    if (parseFloat(style.borderTopWidth) === 0 || style.borderTopStyle === "none") continue;
    const edge = parts(style.borderTopColor);
    if (edge.length === 4 && edge[3] === 0) continue; // looks like a link: its words are what is seen
    seen += 1;
    const ratio = contrast(edge.slice(0, 3), ground(one.parentElement));
    if (ratio < 3) found.push(`${ratio.toFixed(2)}: ${one.outerHTML.slice(0, 120)}`);
  }
  return { seen, found };
}"""
WATCH = """() => {
  window.told = [];
  const place = document.querySelector("[data-told]");
  const changes = { childList: true, characterData: true, subtree: true };
  new MutationObserver(() => told.push(place.textContent)).observe(place, changes);
}"""


@pytest.mark.parametrize("look", LOOKS, ids=lambda look: look.name)
def test_targets_are_large_and_nothing_is_cut_off(browser: Browser, looks_shop: str, look: Look) -> None:
    """2.5.8 and 2.5.5 target size; 1.4.10 reflow at 320 px; 1.4.4 type of 200 %."""
    with context_for(browser, viewport=PHONE) as context:
        page = context.new_page()
        open_look(page, looks_shop, look)
        assert page.evaluate(TARGETS) == []
        assert page.evaluate(CUT_OFF) == []
        page.set_viewport_size({"width": NARROW["width"], "height": NARROW["height"]})
        assert page.evaluate(CUT_OFF) == [], "at 320 px"
        page.set_viewport_size({"width": PHONE["width"], "height": PHONE["height"]})
        page.add_style_tag(content=TWICE)
        assert page.evaluate(CUT_OFF) == [], "with type of 200 %"


def test_on_a_low_screen_little_of_it_stands_fast(browser: Browser, looks_shop: str) -> None:
    """1.4.4: at 200 % a phone has room for 185 × 370; what stays while scrolling is the answer, a quarter at most."""
    with context_for(browser, viewport={"width": 360, "height": 370}) as context:
        page = context.new_page()
        open_look(page, looks_shop, next(one for one in LOOKS if one.address == HERE))
        page.mouse.wheel(0, 3000)
        fast = """() => [...document.querySelectorAll("body *")].filter((one) => {
          const { position } = getComputedStyle(one), { top, bottom, height } = one.getBoundingClientRect();
          return ["fixed", "sticky"].includes(position) && height && bottom > 0 && top < innerHeight
            && one.checkVisibility({ opacityProperty: true }) && !one.closest("table");
        }).map((one) => one.getBoundingClientRect().height)"""
        assert sum(page.evaluate(fast)) <= 370 / 4


@pytest.mark.parametrize("name", ["pattern, all open", "list, filled", "shop front", "remnants"])
def test_each_control_has_a_name_and_a_role(browser: Browser, looks_shop: str, name: str) -> None:
    """4.1.2, as Chromium tells it to a screen reader."""
    with context_for(browser, viewport=PHONE) as context:
        page = context.new_page()
        open_look(page, looks_shop, BY_NAME[name])
        nodes: list[dict[str, Any]] = context.new_cdp_session(page).send("Accessibility.getFullAXTree")["nodes"]
        controls = [node for node in nodes if not node["ignored"] and any(
            one["name"] == "focusable" for one in node.get("properties", ()))]  # fmt: skip
        assert len(controls) > 5
        without = [node for node in controls if node["role"]["value"] in ("generic", "none", "presentation")]
        assert len(without) <= 1, without  # the place that “Skip to content” leads to, which Tab does not reach
        controls = [node for node in controls if node not in without]
        unnamed = [node["role"]["value"] for node in controls if not node.get("name", {}).get("value")]
        assert [role for role in unnamed if role != "RootWebArea"] == []
        picks = [node for node in controls if node["role"]["value"] in ("radio", "checkbox")]
        states = [{one["name"] for one in node["properties"]} for node in picks]
        assert all("checked" in state for state in states)


def test_an_answer_is_told_once_in_its_own_words(browser: Browser, looks_shop: str) -> None:
    """4.1.3: politely, in one piece, and not again when Python comes and says the same."""
    with context_for(browser, viewport=PHONE) as context:
        page = context.new_page()
        page.route(lambda url: url.split("?")[0].endswith("python.bin"), lambda route: None)  # held back
        page.goto(looks_shop + HERE)
        page.locator(".put--ready").wait_for(timeout=READY_MS)
        place = page.locator("[data-told]")
        assert (place.get_attribute("role"), place.text_content()) == ("status", "")
        page.evaluate(WATCH)
        page.get_by_role("radio", name="104", exact=True).check()
        expect(place).not_to_be_empty()
        page.wait_for_timeout(1500)
        told = page.evaluate("told")
        assert len(told) == 1
        lines = page.locator("ul.note__lines > li:visible").all()
        for line in lines:
            words = line.evaluate("""(line) => { const copy = line.cloneNode(true);
              for (const one of copy.querySelectorAll(".why, [hidden], .in-inch")) one.remove();
              return copy.textContent.replace(/\\s+/g, " ").trim(); }""")
            assert words in told[0]
        assert "size 104" in told[0] and "why?" not in told[0]
        page.unroute_all(behavior="ignoreErrors")
    with context_for(browser, viewport=PHONE) as context:
        page = context.new_page()
        page.goto(looks_shop + HERE)
        ready(page)
        page.evaluate(WATCH)
        page.get_by_role("radio", name="104", exact=True).check()
        expect(page.locator("[data-told]")).not_to_be_empty()
        page.wait_for_timeout(1500)
        assert page.evaluate("told") == told


def tab_to(page: Page, selector: str, *, limit: int = 250) -> None:
    """Press Tab until what `selector` names has the focus, which is seen all the way."""
    for _ in range(limit):
        page.keyboard.press("Tab")
        at = page.evaluate(FOCUS)
        if at is not None:
            if not at["clear"]:  # something that was fetched has just come in above; the page settles by itself
                page.wait_for_timeout(300)
                at = page.evaluate(FOCUS) or at
            assert at["ring"], f"no ring: {at}"
            assert at["clear"], f"covered: {at}"
        if page.evaluate("(selector) => document.activeElement?.matches(selector) ?? false", selector):
            return
    raise AssertionError(f"{selector} is not reached with Tab")


def test_the_whole_job_without_a_mouse(browser: Browser, looks_shop: str) -> None:
    """2.1.1 keyboard, 2.4.7 focus visible, 2.4.11 focus not obscured, 2.4.3 order."""
    with context_for(browser, viewport=PHONE) as context:
        page = context.new_page()
        page.goto(looks_shop + HERE)
        ready(page)
        page.keyboard.press("Tab")
        assert page.evaluate("document.activeElement.textContent.trim()") == "Skip to content"
        assert page.locator(".md-skip:focus").evaluate("skip => getComputedStyle(skip).opacity") == "1"
        tab_to(page, "input[name=size]")
        page.keyboard.press("ArrowRight")
        size = page.evaluate("document.activeElement.value")
        expect(page.locator("[data-shown-size]").first).to_contain_text(size)
        tab_to(page, "input[name^='choice.']")
        page.keyboard.press("ArrowDown")
        assert page.evaluate("document.activeElement.checked")
        tab_to(page, "input[type=text][name^='width.']")
        page.keyboard.type("137")
        expect(page.locator("ul.note__lines")).to_contain_text("137")
        tab_to(page, "[data-put] button, button[data-put]")
        page.keyboard.press("Enter")
        page.get_by_text("On your list.").wait_for(timeout=READY_MS)
        assert page.evaluate(FOCUS) is not None, "the focus is lost"
        tab_to(page, ".put__said a")
        page.keyboard.press("Enter")
        page.wait_for_selector("[data-list][data-shown=now]", timeout=READY_MS)
        tab_to(page, ".buy__tick input")
        page.keyboard.press("Space")
        expect(page.get_by_role("checkbox").first).to_be_checked()
        tab_to(page, "[data-large]")
        page.keyboard.press("Enter")
        page.locator("dialog[open]").wait_for()
        tab_to(page, "[data-large-got]", limit=8)
        page.keyboard.press("Enter")
        page.keyboard.press("Escape")
        expect(page.locator("dialog[open]")).to_have_count(0)
        assert page.evaluate("document.activeElement.matches('[data-large]')"), "the focus does not come back"
        page.go_back()
        ready(page)
        assert page.evaluate("new FormData(document.getElementById('panel')).get('size')") == size


@pytest.mark.parametrize("name", ["shop front", "pattern, before Python", "list, filled", "remnants", "sizes"])
def test_the_focus_goes_through_the_page_and_is_always_seen(browser: Browser, looks_shop: str, name: str) -> None:
    """2.4.7, 2.4.11 and 2.1.2, all the way to the page's end."""
    with context_for(browser, viewport=PHONE) as context:
        page = context.new_page()
        open_look(page, looks_shop, BY_NAME[name])
        page.evaluate("scrollTo(0, 0)")
        tab_to(page, ".foot a[href$='notices.txt']", limit=400)


@pytest.mark.parametrize("name", ["shop front", "pattern, all open", "list, filled"])
def test_nothing_moves_when_less_motion_is_asked_for(browser: Browser, looks_shop: str, name: str) -> None:
    """2.3.3, and the reader's own setting."""
    with context_for(browser, viewport=PHONE) as context:
        page = context.new_page()
        open_look(page, looks_shop, BY_NAME[name])
        assert page.evaluate(MOVES) == []


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("name", ["pattern, own width", "list, filled", "remnants", "shop front, filtered"])
def test_the_edges_of_controls_are_seen(browser: Browser, looks_shop: str, name: str, scheme: str) -> None:
    """1.4.11: 3:1 between the edge of a control and what lies beside it."""
    with context_for(browser, viewport=PHONE, color_scheme=scheme) as context:
        page = context.new_page()
        open_look(page, looks_shop, BY_NAME[name])
        page.evaluate("for (const one of document.querySelectorAll('details')) one.open = true;")
        edges = page.evaluate(EDGES)
        assert edges["seen"] > 2 and edges["found"] == []


def test_the_looks_are_every_kind_of_page() -> None:
    """Each page of the demo shop that is written by hand, and each kind that is made, is looked at."""
    pages = {path.stem for path in (Path(__file__).parents[2] / "site_src" / "pages").glob("*.md")} - {"index"}
    addresses = {look.address.split("?")[0].strip("/") for look in LOOKS}
    assert pages <= addresses
    assert {"", "list", "404.html", HERE.strip("/"), f"{HERE}options/length"} <= addresses
