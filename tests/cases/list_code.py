"""The code of a shopping list, written a second time from the handbook's page (site_src/handbook/list-code.md).

Shares nothing with the page's script, so that each can be held to the other.
"""

from __future__ import annotations

import random
import re
import zlib
from typing import Any

LETTERS = {"width": "w", "way": "y", "nap": "n", "wash": "s", "along": "a", "across": "x", "pattern": "p",
           "every": "e", "uneven": "u"}  # fmt: skip


def word(text: str) -> str:
    """A word as it stands in the code."""
    return re.sub(rb"[^A-Za-z0-9-]", lambda sign: f"_{sign[0][0]:02x}".encode(), text.encode()).decode()


def sealed(text: str) -> str:
    """The text with its CRC-32 behind it."""
    return f"{text}~{zlib.crc32(text.encode('ascii')):08x}"


def code(garments: list[dict[str, Any]], cut: str = "") -> str:
    """The code of a list; each garment as the page keeps it, with `bolt` naming cloths that are cut from one piece."""
    bolts = [said["bolt"] for one in garments for _, said in sorted(one["cloths"].items()) if said.get("bolt")]
    shared = [bolt for bolt in dict.fromkeys(bolts) if bolts.count(bolt) > 1]
    written = []
    for one in garments:
        pairs = {f"c-{name}": taken for name, taken in one["choices"].items()}
        for cloth, said in one["cloths"].items():
            pairs |= {f"{LETTERS[key]}-{cloth}": text for key, text in said.items() if key in LETTERS}
            if said.get("bolt") in shared:
                pairs[f"b-{cloth}"] = str(shared.index(said["bolt"]) + 1)
        for part, letter in (("cloths", "t"), ("notions", "m")):
            pairs |= {f"{letter}-{name}": "-".join(map(str, then)) for name, then in one["was"].get(part, {}).items()}
        head = [one["pattern"], one["edition"], one["size"], one["second"], one["unit"], one["cut"]]
        words = [*head, *(each for pair in sorted(pairs.items()) for each in pair)]
        written.append(".".join(word(each) for each in words))
    return sealed("~".join(["L1", cut, *written]))


def drawn(draw: random.Random) -> tuple[list[dict[str, Any]], str]:
    """A list, drawn: every key, odd signs in what is typed, names that mean something to a script."""
    names = ["outer", "lining", "collar-2", "constructor", "to-string", "x"]
    typed = ["137", "1,37 m", "54½″", "٣ m", "~._#%", "日本 140", "repeat:checks-60", "own", "5 %", " ", "<b>&amp;</b>"]
    garments = []
    for _ in range(draw.randint(1, 6)):
        cloths: dict[str, dict[str, str]] = {}
        for cloth in draw.sample(names, draw.randint(0, 3)):
            said = {key: draw.choice(typed) for key in draw.sample(list(LETTERS), draw.randint(0, 4))}
            if draw.random() < 0.5:
                said["bolt"] = draw.choice("pqr")
            if said:
                cloths[cloth] = said
        amount = [draw.randint(0, 9999), draw.randint(0, 80)]
        garments.append(
            {
                "pattern": draw.choice(["ferrylight", "a-b-c", "valueof"]), "edition": draw.choice(["", "1", "b, “x”"]),
                "size": draw.choice(["92", "2T", "6-12M"]), "second": draw.choice(["", "98"]),
                "unit": draw.choice(["cm", "in"]), "cut": draw.choice(["", "fine", "coarse"]),
                "choices": {name: draw.choice(names) for name in draw.sample(names, draw.randint(0, 4))},
                "cloths": cloths,
                "was": {"cloths": {"outer": amount} if draw.random() < 0.5 else {}, "notions": {"snaps": amount[:1]}},
            }
        )  # fmt: skip
    return garments, draw.choice(["", "fine", "coarse"])


SCRIPTS = [
    "<script>hacked=1</script>", "javascript:hacked=1", '"><img src=x onerror=hacked=1>', "';hacked=1;//",
    "{{hacked=1}}", "${hacked=1}", "<svg onload=hacked=1>", "__proto__", "constructor", "prototype", "\u202egnp.x",
    "\x00", "..%2f..%2f", "data:text/html,<script>hacked=1</script>", "&lt;script&gt;", "%00", "\ud7ff", "a" * 300,
]  # fmt: skip
"""What is tried on pages that show what came in a link."""

GOOD = "example-jacket.1.92..cm."


def hostile() -> list[str]:
    """Texts that are no list, or are one that was made to do harm; the last ones have a sound checksum."""
    draw = random.Random(20261126)
    sound = sealed(f"L1~~{GOOD}.c-length.hip.w-outer.137")
    found = [*SCRIPTS, "L", "L1", "L1~", "L1~~", "L99~~x", "~~~~", "#", "##", "%", "%E0%A4%A", "L1" * 999, "~" * 20_000]
    found += [sealed(text) for text in ("L1", "L1~", "L1~~", "L0~~x", "L2~~x.1.92..cm.", "L1~coarsest~" + GOOD, "x")]
    # Cut off, with a sign changed, turned over, twice.
    found += [sound[:at] for at in range(1, len(sound), 2)]
    for _ in range(60):
        at = draw.randrange(len(sound))
        found.append(sound[:at] + draw.choice("abz09-_~.%<é") + sound[at + 1 :] + "0")
    found += [sound[::-1], sound + sound, sound.upper(), sound.replace("~", "-"), f"{sound}~{sound}"]
    # Sound checksums, and a word that can't stand there: every part of the head in turn, then keys and their words.
    head = ["example-jacket", "1", "92", "", "cm", ""]
    unfit = [one for one in SCRIPTS[:16] if not one.isalnum()]
    for at in (0, 2, 3, 4, 5):
        found += [sealed(f"L1~~{'.'.join([*head[:at], word(one), *head[at + 1 :]])}") for one in unfit]
    heads = [f"{GOOD}x", f"{GOOD[:-1]}", "example-jacket.1.92", "example-jacket", "", f"a.{word('x' * 300)}.92..cm."]
    tails = [
        "c-length", "c-length.hip.c-length.waist", "w-outer.137.c-length.hip", "z-outer.1", "w-.1", "wouter.1",
        "c-_5f_5fproto_5f_5f.x", "w-_5f_5fproto_5f_5f.1", "c-__proto__.x", "w-outer._31", "w-outer._4", "w-outer._ZZ",
        "w-outer._ff_fe", "w-outer._00", "w-outer._e2_80_ae", "t-outer.-5", "t-outer.1e9-1", "t-outer.99999999-1",
        "t-outer.1-2-3", "t-outer.x", "m-closure.", "b-outer.1", "b-outer.99-b", f"w-outer.{'9' * 200}",
        "t-__proto__.5", "C-length.hip", "c-Length.hip", "w-outer.1 37", "w-outer.", "c-length.Hip",
    ]  # fmt: skip
    found += [sealed(f"L1~~{body}") for body in [*heads, *(f"{GOOD}.{tail}" for tail in tails)]]
    found += [sealed("L1~~" + "~".join([GOOD] * 61)), sealed("L1~~" + "~".join([GOOD] * 4000))]
    return list(dict.fromkeys(found))


def unknown() -> list[str]:
    """Sound codes of what the shop does not have; words from them are shown, as words."""
    heads = ["nowhere.1.92..cm.", "constructor.1.92..cm.", "example-jacket.1.62..cm.", "example-jacket.9.92.62.cm."]
    tails = [
        "c-length.hipster", "c-constructor.x", "c-valueof.tostring", f"w-outer.{word(SCRIPTS[0])}",
        f"y-outer.{word(SCRIPTS[2])}", f"n-outer.{word(SCRIPTS[1])}", f"s-outer.{word(SCRIPTS[4])}",
        "w-constructor.137", "t-tostring.5", "m-valueof.5-5",
    ]  # fmt: skip
    return [sealed(f"L1~~{body}") for body in [*heads, *(f"{GOOD}.{tail}" for tail in tails)]]
