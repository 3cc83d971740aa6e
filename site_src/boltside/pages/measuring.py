"""Where is a child measured? A line drawing of our own: height, chest, waist, hip, and the trunk where it decides."""

from __future__ import annotations

from collections.abc import Sequence

from boltside.pages.markup import Html, element, join

HALF = (
    "M120 12C135 12 145 24 145 40C145 55 135 68 128 70V78C132 83 141 85 149 88C157 91 159 97 161 104L178 164C180 171 "
    "179 177 175 178C171 179 169 175 168 171L151 117C148 111 147 116 147 122C146 134 144 140 144 146C145 156 149 164 "
    "149 176C149 200 143 222 142 242C141 262 138 282 137 294C142 297 146 300 144 303H124C123 300 124 296 125 292C124 "
    "262 122 232 120 194"
)
"""The right half of a child seen from the front; the left one is its mirror image."""
MIRROR = "matrix(-1 0 0 1 240 0)"
LABEL_X = 186
GIRTHS = {
    "chest": ("Chest", 122, "M147 118Q120 127 93 118", "M147 118Q120 110 93 118"),
    "waist": ("Waist", 148, "M144 144Q120 152 96 144", "M144 144Q120 137 96 144"),
    "hip": ("Hip", 178, "M149 172Q120 182 91 172", "M149 172Q120 163 91 172"),
}
"""Word, how far down it stands, the tape before the body and behind it."""
TRUNK = "M136 86C133 120 130 160 121 192"
HEIGHT = "M36 12V303M28 12H66M28 303H86"


def where_to_measure(names: Sequence[str]) -> Html:
    """The drawing with what is measured, behind a tap. Arguments: the measurements that are asked for."""
    girths = [GIRTHS[name] for name in GIRTHS if name in names]
    tapes = [before for _, _, before, _ in girths]
    words = [element("text", title, x=LABEL_X, y=low) for title, low, _, _ in girths]
    if "height" in names:
        tapes.append(HEIGHT)
        words.append(element("text", "Height", x=22, y=157, text_anchor="middle", transform="rotate(-90 22 157)"))
    if "trunk" in names:
        tapes.append(TRUNK)
        words.append(element("text", "Trunk", x=62, y=84, text_anchor="end"))
    drawing = element(
        "svg",
        element("path", d=HALF),
        element("path", d=HALF, transform=MIRROR),
        element("path", d="".join(tapes), class_="measuring__tape"),
        element("path", d="".join(behind for *_, behind in girths), class_="measuring__tape measuring__behind"),
        element("g", join(words), class_="measuring__words"),
        viewBox="0 0 240 312",
        class_="measuring",
        role="img",
        aria_label="A child from the front, with the tape where it is laid.",
    )
    return element("details", element("summary", "Where to lay the tape"), drawing, class_="small tape-where")
