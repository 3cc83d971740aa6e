"""The shop's techniques, drawn. How the drawings speak: :mod:`.step_kit`."""

from __future__ import annotations

from .step_kit import Picture, beside, both, mirrored, part, runs
from .step_parts import double_hem as hem_cut_through

ROW = "M20 20H340V104H20Z"


def zigzag(x: float, y: float, wide: float, high: float, steps: int) -> str:
    """A line of zigzag from a point on."""
    ends = (f"{x + wide * at / steps:g} {y + (high if at % 2 else 0):g}" for at in range(steps + 1))
    return "M" + "L".join(ends)


def bound_edge() -> Picture:
    it = Picture(
        "A bound edge cut through: the strip is folded round the raw edge, its pressed edge covers the stitching"
    )
    it.layer("M168 50V228")
    it.layer("M156 56V98Q156 108 149 108T142 98V46Q142 20 168 20T194 46V112Q194 124 188 124T182 112V74", "rib")
    it.stitch("M112 114H222")
    it.word(66, 50, "strip", to=(138, 52))
    it.word(268, 46, "raw edge", to=(171, 52))
    it.word(52, 118, "groove", to=(114, 114))
    it.word(286, 110, "pressed edge", to=(198, 112))
    it.word(66, 180, "right side", to=(162, 180))
    it.word(274, 180, "wrong side", to=(174, 180))
    return it


def button() -> Picture:
    it = Picture(
        "A button seen from the side: it stands on a shank of wound thread, as high as the layer with the hole", 180
    )
    it.layer("M20 120H340")
    it.cloth("M120 40H240Q252 40 252 51T240 62H120Q108 62 108 51T120 40Z")
    it.line("M164 40V126M196 40V126", 1.6)
    it.red("M160 76H200M160 86H200M160 96H200M160 106H200", 2)
    it.word(288, 90, "wound shank", to=(202, 90))
    it.word(70, 90, "room for\nthe hole", to=(150, 90))
    it.word(180, 160, "through all layers")
    return it


def buttonhole() -> Picture:
    it = Picture(
        "A buttonhole with a bar at each end, a pin just inside each bar; it begins a little beyond the button line",
        200,
    )
    it.cloth("M20 20H340V150H20Z")
    it.chalk("M120 20V150")
    it.line(zigzag(96, 76, 160, -9, 32) + zigzag(96, 90, 160, 9, 32), 1.4)
    it.line("M90 64V102M262 64V102", 4)
    it.red("M104 83H248")
    it.pin(108, 56, 90, 50)
    it.pin(244, 56, 90, 50)
    it.word(206, 132, "cut to the middle", to=(190, 84))
    it.word(304, 50, "bar", to=(264, 74))
    it.word(60, 176, "front edge", to=(21, 140))
    it.word(206, 186, "button line", to=(121, 140))
    return it


def double_hem() -> Picture:
    it = Picture("A hem turned twice, cut through: the raw edge lies inside, stitched beside the inner fold")
    hem_cut_through(it)
    it.word(64, 50, "right side", to=(144, 46))
    it.word(246, 50, "wrong side", to=(156, 46))
    it.word(74, 214, "hem line", to=(156, 209))
    it.word(264, 76, "inner fold", to=(182, 86))
    it.word(264, 130, "stitch here", to=(204, 98))
    it.word(262, 172, "raw edge\ninside", to=(165, 148))
    return it


def elastic() -> Picture:
    it = Picture(
        "An elastic drawn through a casing: a safety pin leads one end, a pin holds the other beside the gap", 190
    )
    it.cloth("M20 30H340V112H20Z")
    it.cloth("M70 52H206V90H70Z", "elastic")
    it.sewn("M20 38H340M20 104H340")
    it.line("M250 66H216M250 76H216M216 66C206 64 206 78 216 76", 2)
    it.cloth("M248 62H258Q266 71 258 80H248Z")
    it.arrow("M276 71H326")
    it.red("M40 104H90", 3)
    it.pin(84, 44, 90, 44)
    it.word(140, 76, "elastic")
    it.word(64, 140, "gap", to=(64, 106))
    it.word(240, 140, "safety pin", to=(236, 77))
    it.word(180, 174, "no twist in it")
    return it


def gathering() -> Picture:
    it = Picture(
        "An edge with two rows of long stitches inside the allowance, drawn up by their ends; "
        "the seam is sewn beside them",
        200,
    )
    it.cloth("M20 30Q36 22 52 30T84 30T116 30T148 30T180 30T212 30T244 30T276 30T308 30L316 150H12Z", "wrong")
    it.line(
        "".join(
            f"M{x} 78Q{x + lean} 100 {x + 2 * lean} 124"
            for x, lean in ((44, -2), (76, -2), (108, -1), (140, 0), (172, 0), (204, 0), (236, 1), (268, 2), (296, 2))
        )
    )
    it.line("M18 44H330M18 56H330", 1.6)
    it.arrow("M330 50H352")
    it.stitch("M18 70H312")
    it.notch(164, 31, 90, 10)
    it.word(164, 16, "mark")
    it.word(80, 178, "seam", to=(70, 72))
    it.word(240, 178, "two rows, drawn up", to=(226, 56))
    return it


def interfacing() -> Picture:
    it = Picture(
        "Interfacing on the wrong side of a piece, ending at the stitching line; the iron is set down, not slid", 200
    )
    it.cloth("M20 30H340V150H20Z", "wrong")
    it.dots("M36 46H324V134H36Z")
    it.line("M36 46H324V134H36Z", 1.4)
    it.arrow("M120 66V96")
    it.arrow("M180 66V96")
    it.arrow("M240 66V96")
    it.word(180, 118, "press, lift, press", plate=True)
    it.word(90, 180, "stitching line", to=(60, 135))
    it.word(270, 180, "wrong side", to=(300, 143))
    return it


def knit() -> Picture:
    it = Picture("A narrow zigzag along the seam of a knit: it gives with the cloth when that is pulled", 170)
    it.cloth(ROW, "wrong")
    it.red(zigzag(24, 40, 312, 8, 48), 2)
    it.arrow("M150 76H90")
    it.arrow("M210 76H270")
    it.word(180, 82, "gives", plate=True)
    it.word(180, 140, "a narrow zigzag")
    return it


def overcast() -> Picture:
    it = Picture("A zigzag along the cut edge: on one side its needle falls just outside the cloth", 180)
    it.cloth(ROW)
    it.sewn("M20 66H340")
    it.red(zigzag(24, 92, 312, 16, 32), 2)
    it.word(180, 52, "seam line", to=(180, 65))
    it.word(180, 146, "needle falls just outside", to=(131, 109))
    return it


def set_in_sleeve() -> Picture:
    it = Picture(
        "A sleeve head with its crown and notches: two threads run from notch to notch, the ease lies above the notches"
    )
    head = "M30 190C60 110 90 44 180 44"
    it.cloth(both("M180 190" + head.replace("M", "L")))
    for turn in (str, mirrored):
        above = part(head, 0.45, 1)
        it.line(turn(beside(above, 9) + beside(above, 18)), 1.6)
        it.stitch(turn(beside(part(head, 0.07, 1), 27)))
        (place,), *_ = runs(above)[0]
        it.notch(place.real if turn is str else 360 - place.real, place.imag, 40 if turn is str else 140, 10)
    it.notch(180, 44, 90, 10)
    it.word(180, 32, "crown")
    it.word(40, 84, "notch", to=(84, 100))
    it.word(320, 84, "notch", to=(276, 100))
    it.word(180, 130, "ease between notches")
    it.word(180, 220, "none below")
    return it


def snaps() -> Picture:
    it = Picture(
        "Both halves of a snap cut through: the cap on the right side of the upper layer, the lower half looks up", 200
    )
    it.layer("M20 74H340")
    it.layer("M20 134H340")
    it.cloth("M150 66Q180 38 210 66Z")
    it.line("M180 66V94M180 120V152", 3)
    it.cloth("M164 88H196V98H164Z")
    it.cloth("M162 126Q180 106 198 126ZM160 146H200V156H160Z")
    it.word(180, 26, "cap, outside")
    it.word(290, 108, "lower half up", to=(198, 118))
    it.word(72, 108, "both firm")
    it.word(180, 186, "try it on a scrap")
    return it


def understitch() -> Picture:
    it = Picture(
        "Garment and facing laid open: the allowances are folded under the facing and stitched to it close to the seam",
        180,
    )
    it.cloth("M20 24H180V116H20Z")
    it.cloth("M180 24H340V116H180Z")
    it.sewn("M214 24V116")
    it.line("M180 24V116", 3)
    it.stitch("M190 24V116")
    it.word(100, 76, "garment")
    it.word(280, 76, "facing")
    it.word(100, 154, "seam", to=(178, 110))
    it.word(262, 154, "allowances below", to=(206, 108))
    return it


STEPS = {
    one.__name__.replace("_", "-"): one
    for one in (
        bound_edge,
        button,
        buttonhole,
        double_hem,
        elastic,
        gathering,
        interfacing,
        knit,
        overcast,
        set_in_sleeve,
        snaps,
        understitch,
    )
}
"""The drawings by the names of their files."""
