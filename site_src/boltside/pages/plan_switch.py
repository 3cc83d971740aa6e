"""How does a buyer choose which part comes from which cloth? One button for each cloth plan of the designer.

A button only chooses options, those that its data name; what each plan is and takes is said by the calculators. So
the page's script follows: it shows the plans that are offered, marks the one that is chosen, and fills in the words.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any

from boltside.pages.markup import Html, element
from boltside.pages.slots import Slots

Sheet = Mapping[str, Any]

TITLE = "Which part from which cloth"
TABLE = "Parts, cloth and amounts now"


def plan_switch(sheet: Sheet, slots: Slots) -> Html:
    """The plans and, folded away, the parts of each cloth; nothing for a pattern without plans.

    Hidden while the options that the plans are about are not asked.
    """
    if not sheet["cloth_plans"]:
        return Html("")
    now = slots.fragment("plan")
    return element(
        "div",
        element("span", TITLE, class_="legend", id="plans-title"),
        slots.one("plan", "p", class_="aside", aria_live="polite"),
        element("div", *(one_plan(plan, slots) for plan in sheet["cloth_plans"]), class_="plans__list", role="group",
                aria_labelledby="plans-title"),
        element("details", element("summary", TABLE), parts_table(slots), class_="folded small"),
        class_="plans",
        data_plans=True,
        hidden=not (now and now["html"]),
    )  # fmt: skip


def parts_table(slots: Slots) -> Html:
    """A row for each cloth that is taken now: how much of it, and what is cut from it."""
    named = element("tr", *(element("th", title, scope="col") for title in ("Cloth", "Buy", "Parts")))
    return element("table", element("thead", named), slots.group("plan-parts.", "tbody", "tr"), class_="bs-parts")


def one_plan(plan: Mapping[str, Any], slots: Slots) -> Html:
    """A plan's button, and under it what it takes, or why it can't be had."""
    name = plan["name"]
    said = slots.fragment(f"plan.{name}")
    data = said["data"] if said else {"offered": False, "present": False, "checks": []}
    described = f"plan-{name}"
    return element(
        "div",
        element("button", plan["title"], type="button", class_="plan__take", aria_describedby=described,
                aria_pressed="true" if data["present"] else "false",
                aria_disabled="true" if said and said["kind"] == "problem" else None,
                data_checks=json.dumps(data["checks"], separators=(",", ":"))),
        element("div", slots.one(f"plan.{name}", "p"), slots.group(f"plan-takes.{name}.", "p", "span"),
                class_="plan__said", id=described),
        class_="plan",
        data_plan=name,
        hidden=not data["offered"],
    )  # fmt: skip
