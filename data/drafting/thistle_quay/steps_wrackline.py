"""Wrackline's steps, drawn. How the drawings speak: :mod:`.step_kit`."""

from __future__ import annotations

from .step_kit import Picture, beside, joined, mirrored, turned
from .step_parts import double_hem, sides

ROUND = "M44 150Q92 132 96 92V50Q96 22 116 22T136 50V84Q136 124 180 124"
"""Half the front's upper edge: up the armhole, round the strap, along the neck to its middle."""
POINTED = "M44 160Q92 142 96 96V50L116 22L136 50V84Q136 112 180 112"
"""Half the back's upper edge, with a pointed tab."""


def whole(half: str) -> str:
    return joined(half, turned(mirrored(half)), closed=False)


def interface_tabs_and_straps() -> Picture:
    it = Picture(
        "A pointed tab of the back with interfacing out to the cut edge; a round strap end of the front"
        " with interfacing that stops at the stitching line; both wrong side up"
    )
    it.cloth("M50 230V80L90 36L130 80V230Z", "wrong")
    it.dots("M50 150V80L90 36L130 80V150Z")
    it.line("M50 150H130")
    it.sewn("M60 230V84L90 50L120 84V230")
    it.cloth("M230 230V90Q230 46 270 46T310 90V230Z", "wrong")
    it.dots("M242 160V92Q242 60 270 60T298 92V160Z")
    it.line("M241 160V92Q241 58 270 58T299 92V160Z")
    it.word(90, 24, "tab of the back")
    it.word(270, 30, "strap of the front")
    it.word(180, 110, "to the\ncut edge", to=(129, 92))
    it.word(180, 182, "to the\nstitches", to=(241, 150))
    return it


def bind_the_pouch() -> Picture:
    it = Picture(
        "The upper edge of the pouch cut through: the binding, sewn on outside, is folded over the raw "
        "edge; its pressed edge inside covers the seam; stitched in the groove"
    )
    it.layer("M168 50V228")
    it.layer("M156 56V98Q156 108 149 108T142 98V46Q142 20 168 20T194 46V112Q194 124 188 124T182 112V74", "rib")
    it.stitch("M112 114H222")
    it.word(66, 60, "binding", to=(138, 56))
    it.word(56, 150, "right side", to=(162, 162))
    it.word(286, 150, "wrong side", to=(174, 162))
    it.word(52, 112, "groove", to=(114, 114))
    it.word(286, 92, "pressed edge", to=(198, 104))
    it.word(268, 214, "pouch", to=(173, 206))
    return it


def pouch_on() -> Picture:
    it = Picture(
        "The pouch on the front, both right sides up, its high end at the wearer's right, here on the "
        "left: base stitched twice, sides basted, and stitched down along centre front"
    )
    it.cloth("M92 8H268L312 230H48Z")
    it.cloth("M76 90L290 122L304 196H56Z")
    it.cloth("M76 90L290 122L293 136L73 105Z", "rib")
    it.stitch("M58 190H302M60 181H300")
    it.stitch("M79 110L66 176M284 138L294 176")
    it.stitch("M180 107V180")
    it.red("M175 107H185", 3)
    it.word(180, 56, "front")
    it.word(120, 150, "pouch")
    it.word(36, 60, "high\nend", to=(76, 96))
    it.word(222, 84, "centre front", to=(182, 106))
    it.word(180, 220, "base: two lines")
    return it


def make_the_half_belt() -> Picture:
    it = Picture(
        "Both layers of the half-belt, right sides together, sewn all round with a gap in the lower "
        "edge; below it the belt turned and stitched round, with a buttonhole at each end"
    )
    belt = "M16 74L40 50H320L344 74L320 98H40Z"
    it.cloth(belt, "wrong")
    it.stitch("M206 90H317L333 74L317 58H43L27 74L43 90H154")
    it.word(180, 112, "gap", to=(180, 92))
    it.word(180, 38, "right sides together")
    it.cloth("M28 174L48 152H312L332 174L312 196H48Z")
    it.stitch("M36 174L51 158H309L324 174L309 190H51Z")
    it.red("M44 174H74M44 169V179M74 169V179M286 174H316M286 169V179M316 169V179", 2.6)
    it.line("M60 168V180M300 168V180", 1.6)
    it.word(180, 180, "turned")
    it.word(180, 228, "hole begins a bit beyond the mark", to=(62, 178))
    return it


def layer_on_front(inside: str) -> Picture:
    it = Picture(
        f"The {inside} on the front, wrong side up, right sides together: one seam from side edge to "
        "side edge, up one armhole, round the strap, along the neck, and the same way down"
    )
    upper = whole(ROUND)
    it.cloth(joined(upper, "M316 150L330 238H30L44 150"))
    low = 196 if inside == "facing" else 226
    it.cloth(
        joined(upper, f"M316 150L{316 + (low - 150) * 0.16:g} {low}H{44 - (low - 150) * 0.16:g}L44 150"),
        "wrong" if inside == "facing" else "lining-wrong",
    )
    it.stitch(beside(upper, 8))
    for x, y, way in ((80, 128, 30), (92, 110, 10), (148, 112, 130), (168, 122, 100)):
        it.notch(x, y, way, 6)
        it.notch(360 - x, y, 180 - way, 6)
    it.arrow("M30 138Q72 122 78 92V50")
    it.arrow("M282 50V92Q288 122 330 138")
    it.word(180, 176, inside, plate=True)
    it.word(180, 84, "neck")
    it.word(180, 30, "straps", to=(138, 46))
    if inside == "facing":
        it.word(180, 226, "front, below")
    return it


def line_the_front() -> Picture:
    return layer_on_front("lining")


def face_the_front() -> Picture:
    return layer_on_front("facing")


def tab(inside: str) -> Picture:
    it = Picture(
        f"A pointed tab of the back with the {inside} on it: at the point and both corners the needle "
        "stays down and the work is turned; the allowance of the point is cut off straight"
    )
    shape = "M110 236V96L180 26L250 96V236Z"
    it.cloth(shape, "wrong" if inside == "facing" else "lining-wrong")
    it.stitch("M124 236V102L180 46L236 102V236")
    it.cut("M148 36H214")
    for x, y in ((180, 46), (124, 102), (236, 102)):
        it.ring(x, y, 11)
    it.word(290, 40, "cut off", to=(212, 36))
    it.word(58, 80, "turn here", to=(114, 100))
    it.word(180, 150, inside, plate=True)
    it.word(180, 200, "wrong side", plate=True)
    return it


def line_the_back() -> Picture:
    return tab("lining")


def face_the_back() -> Picture:
    return tab("facing")


def sides_lined() -> Picture:
    it = Picture(
        "Front on back, right sides together, the lining folded up: one seam from the hem of the cloth "
        "up to the armhole and on to the lower edge of the lining"
    )
    sides(it, "lining")
    return it


def sides_faced() -> Picture:
    it = Picture(
        "Front on back, right sides together, the facings folded up: one seam from the hem up to the "
        "armhole and on to the lower edge of the facing"
    )
    sides(it, "facing")
    return it


def hem() -> Picture:
    it = Picture("The hem cut through: its edge turned in, then folded up, stitched beside the inner fold")
    double_hem(it)
    it.word(64, 50, "right side", to=(144, 46))
    it.word(246, 50, "wrong side", to=(156, 46))
    it.word(74, 214, "fold", to=(156, 209))
    it.word(268, 78, "edge turned in", to=(182, 86))
    it.word(264, 130, "stitch here", to=(204, 98))
    return it


def shoulder() -> Picture:
    it = Picture(
        "The pointed tab of the back lies on the round strap of the front and is buttoned to it; the "
        "hole runs along the strap"
    )
    it.cloth("M110 236V110Q110 66 150 66T190 110V236Z")
    it.sewn("M117 236V110Q117 73 150 73T183 110V236")
    it.cloth("M114 8V120L150 164L186 120V8Z")
    it.sewn("M121 8V117L150 153L179 117V8")
    it.red("M150 84V128M144 84H156M144 128H156", 3)
    it.ring(150, 116, 16)
    it.word(270, 40, "tab of the back", to=(184, 50))
    it.word(274, 124, "button below", to=(166, 118))
    it.word(270, 84, "hole", to=(156, 92))
    it.word(270, 206, "strap of the front", to=(190, 196))
    it.word(54, 196, "point", to=(146, 162))
    return it


def place_of_the_pouch() -> Picture:
    it = Picture(
        "The front, right side up, with three snips in each side edge and the line of the pouch's base: at the "
        "wearer's right, here on the left, the highest snip counts, at the wearer's left the one below it"
    )
    it.cloth("M92 8H268L312 230H48Z")
    it.chalk("M56 190H304")
    for turn in (str, mirrored):
        it.line(turn("M76 90L86 92M70 121L80 123M56 190L66 192"), 2.8)
    it.ring(80, 91, 12)
    it.ring(286, 122, 12)
    it.ring(60, 191, 10)
    it.ring(300, 191, 10)
    it.word(180, 52, "front")
    it.word(170, 96, "high end", to=(92, 92))
    it.word(190, 140, "low end", to=(274, 124))
    it.word(180, 178, "base, chalked")
    return it


def buttons_for_the_half_belt() -> Picture:
    it = Picture(
        "The back, right side up, with two buttons; the half-belt between them is shorter than the back, so it draws "
        "the back in"
    )
    it.cloth("M84 8H276L316 236H44Z")
    it.button(94, 92)
    it.button(266, 92)
    it.sewn("M94 102V138M266 102V138")
    it.cloth("M96 150L112 134H248L264 150L248 166H112Z")
    it.red("M108 150H132M108 145V155M132 145V155M228 150H252M228 145V155M252 145V155", 2.4)
    it.arrow("M128 92H156")
    it.arrow("M232 92H204")
    it.word(180, 52, "back")
    it.word(180, 120, "draws in")
    it.word(180, 155, "half-belt")
    it.word(180, 196, "firm cloth behind\neach button")
    return it


STEPS = {
    one.__name__.replace("_", "-"): one
    for one in (
        place_of_the_pouch,
        buttons_for_the_half_belt,
        interface_tabs_and_straps,
        bind_the_pouch,
        pouch_on,
        make_the_half_belt,
        line_the_front,
        face_the_front,
        line_the_back,
        face_the_back,
        sides_lined,
        sides_faced,
        hem,
        shoulder,
    )
}
"""The drawings by the names of their files."""
