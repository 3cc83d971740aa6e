"""How is a table written so that a screen reader can follow it? Headings with scope, spanning groups, a caption."""

from __future__ import annotations

from collections.abc import Sequence

from boltside.pages.markup import Html, element


def table(
    columns: Sequence[tuple[object, ...]],
    rows: Sequence[tuple[str, Sequence[object]]],
    *,
    caption: object,
    label: str,
    corner: str,
    row_name: str | None = None,
    words: bool = False,
) -> Html:
    """A table in a frame that scrolls sideways by itself.

    Arguments: for each column its headings from the top level down; the rows as (heading, cells), text is escaped;
    `label` names the scrolling frame; `corner` heads the row headings; `row_name="size"` marks each row with
    `data-size`, so that the page can show the chosen one; `words`: the cells are words, so aligned as text.
    """
    levels = len(columns[0])
    starts = {at for at in range(1, len(columns)) if columns[at][0] != columns[at - 1][0] and levels > 1}
    head = []
    for level in range(levels):
        cells = [element("th", corner, scope="col", rowspan=levels if levels > 1 else None)] if level == 0 else []
        for at, title, span in spans(columns, level):
            single = level == levels - 1
            cells.append(
                element(
                    "th",
                    title,
                    scope="col" if single else "colgroup",
                    colspan=span if span > 1 else None,
                    class_="group" if at in starts else None,
                )
            )
        head.append(element("tr", *cells))
    body = []
    for heading, values in rows:
        cells = [element("th", heading, scope="row")]
        cells += [element("td", value, class_="group" if at in starts else None) for at, value in enumerate(values)]
        body.append(element("tr", *cells, **({f"data_{row_name}": heading} if row_name else {})))
    whole = element(
        "table",
        element("caption", element("span", caption)),
        element("thead", *head),
        element("tbody", *body),
        class_="figures words" if words else "figures",
    )
    return element("div", whole, class_="wide", tabindex="0", role="region", aria_label=label)


def spans(columns: Sequence[tuple[object, ...]], level: int) -> list[tuple[int, object, int]]:
    """The headings of one level: first column, title, and how many columns it spans; the last level never spans.

    >>> spans([("Body", "Chest"), ("Body", "Hip"), ("Ease", "Chest")], 0)
    [(0, 'Body', 2), (2, 'Ease', 1)]
    """
    if level == len(columns[0]) - 1:
        return [(at, column[level], 1) for at, column in enumerate(columns)]
    found: list[tuple[int, object, int]] = []
    for at, column in enumerate(columns):
        if found and columns[at - 1][: level + 1] == column[: level + 1]:
            first, title, span = found[-1]
            found[-1] = (first, title, span + 1)
        else:
            found.append((at, column[level], 1))
    return found
