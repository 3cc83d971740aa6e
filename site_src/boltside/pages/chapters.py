"""Where in a film is which step? Chapters for film players (WebVTT), for any size and set of choices.

One file for each film that the shown steps name, its cues in the film's order. Source of the format: W3C WebVTT, The
Web Video Text Tracks Format.

>>> stamp(3725)
'01:02:05.000'
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from boltside.calculators.request import usual_size
from boltside.pages.guide import Guide, guide_of
from boltside.pages.markup import Html, element

FOLDER = "chapters"
LAST_S = 600
"""A last step whose end is not said lasts ten minutes at most; our choice, players stop at the film's end."""


def chapters_of(guide: Guide) -> dict[str, str]:
    """For each film, its file or address, the text of a WebVTT file with a cue for each shown step that it shows.

    A step ends where it is said to, or where the film's next one begins; never later than that, since chapters lie
    behind one another. A step that begins with another one in the same second has no room and is left out.
    """
    films: dict[str, list[tuple[int, int | None, str]]] = {}
    for step in guide.steps:
        if step.film is not None:
            film = step.film["file"] or step.film["address"]
            films.setdefault(film, []).append((step.film["from_s"], step.film["to_s"], f"{step.number}. {step.title}"))
    return {film: _text(guide, sorted(cues, key=lambda cue: cue[0])) for film, cues in films.items()}


def _text(guide: Guide, cues: list[tuple[int, int | None, str]]) -> str:
    blocks = [f"WEBVTT\n\nNOTE {_plain(guide.title)}, size {guide.size}"]
    for at, (begin_s, end_s, title) in enumerate(cues):
        next_s = cues[at + 1][0] if at + 1 < len(cues) else None
        ends = [one for one in (end_s, next_s) if one is not None] or [begin_s + LAST_S]
        if min(ends) > begin_s:
            blocks.append(f"{stamp(begin_s)} --> {stamp(min(ends))}\n{_plain(title)}")
    return "\n\n".join(blocks) + "\n"


def stamp(seconds: int) -> str:
    """A time in a WebVTT file."""
    minutes, rest = divmod(seconds, 60)
    hours, minutes = divmod(minutes, 60)
    return f"{hours:02d}:{minutes:02d}:{rest:02d}.000"


def _plain(words: str) -> str:
    """Words in a cue: what begins a tag or an entity is written as an entity, and an arrow would end the cue."""
    return " ".join(words.split()).replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")


def file_name(film: str, taken: Mapping[str, str]) -> str:
    """How a film's chapters are called: like the film; `taken` has those of other films.

    >>> file_name("films/Collar on.mp4", {}), file_name("https://a.example/watch?v=collar-on", {"collar-on.vtt": "x"})
    ('collar-on.vtt', 'watch-v-collar-on.vtt')
    """
    last = re.sub(r"\.(mp4|webm)$", "", film.rstrip("/").split("/")[-1].lower())
    base = "-".join(re.findall(r"[a-z0-9]+", last))[:60] or "film"
    number, name = 1, f"{base}.vtt"
    while taken.get(name, film) != film:
        number += 1
        name = f"{base}-{number}.vtt"
    return name


def chapter_files(sheet: Mapping[str, Any]) -> dict[str, str]:
    """The chapters that a build publishes, by their place beside the pattern's page: those of the usual options."""
    if not any(step.get("film") for step in sheet["steps"]):
        return {}
    names: dict[str, str] = {}
    texts: dict[str, str] = {}
    for film, text in chapters_of(guide_of(sheet, usual_size(sheet), {})).items():
        name = file_name(film, names)
        names[name] = film
        texts[f"{FOLDER}/{name}"] = text
    return texts


def chapter_links(sheet: Mapping[str, Any]) -> Html:
    """What the page says of them; nothing where no step has a film."""
    places = list(chapter_files(sheet))
    if not places:
        return Html("")
    links = [element("a", place.removeprefix(f"{FOLDER}/"), href=place, download=True) for place in places]
    return element("p", "Chapters of the films, for players that take WebVTT, with the usual options: ",
                   *(part for link in links for part in (link, " ")), class_="aside")  # fmt: skip
