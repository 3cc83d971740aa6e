"""Windlass's hood and neckband, drawn. How the drawings speak: :mod:`.step_kit`."""

from __future__ import annotations

from .step_kit import Picture, both, mirrored
from .step_parts import ring, strip_ends

NECK_LEFT = "C132 66 112 86 112 114C112 138 124 154 152 161"
"""The wearer's neck as a hole in the top, the front below: from centre back round to the slit."""
BAND_LEFT = "M180 30C110 30 80 70 80 112C80 154 110 198 180 198"
STRIPS = "M152 161L177 164V236H152ZM183 164L208 161V236H183Z"
"""Both strips of a slit, opened, seam outside and fold inside."""


def sew_the_hood() -> Picture:
    it = Picture(
        "Both halves of the hood, right sides together: sewn along the curved edge from the neck over "
        "the head to the face; the edge round the face is pressed over and stitched"
    )
    hood = "M92 36C190 4 300 30 306 120C306 160 286 184 280 206Q180 172 92 196Z"
    it.cloth(hood, "wrong")
    it.cloth("M92 36L122 28V190L92 196Z")
    it.stitch("M94 47C188 16 290 38 296 120C296 158 276 182 270 202")
    it.stitch("M116 30V191")
    for x, y in ((134, 188), (182, 185), (240, 194)):
        it.notch(x, y, -90, 9)
    it.arrow("M318 170Q332 110 300 54")
    it.word(210, 112, "hood", plate=True)
    it.word(44, 116, "face", to=(90, 116))
    it.word(184, 226, "neck edge, three marks", to=(184, 188))
    return it


def neckband_ring() -> Picture:
    it = Picture(
        "The neckband sewn to a ring, wrong side out; beside it folded along its middle, wrong sides "
        "together, with its quarters marked"
    )
    ring(it, 88, 110, 66, 84, "wrong", "rib")
    it.fold("M22 110Q22 128 88 128T154 110")
    it.stitch("M88 84V168")
    it.arrow("M168 112H200")
    ring(it, 276, 112, 66, 42, "rib", "rib")
    for x, y in ((276, 109), (210, 96), (342, 96), (276, 72)):
        it.red(f"M{x} {y - 3}V{y + 9}", 3)
    it.word(88, 36, "sew the ends")
    it.word(272, 36, "fold, mark\nquarters")
    it.word(52, 214, "fold", to=(50, 126))
    it.word(270, 196, "raw edges", to=(270, 152))
    return it


def ring_at_the_neck(it: Picture) -> None:
    it.cloth("M14 14H346V226H14Z", edge="#fff")
    it.line("M120 68L56 14M240 68L304 14M112 150L40 226M248 150L320 226")


def neckband_on() -> Picture:
    it = Picture(
        "The folded neckband on the right side of the neck, raw edges on raw edges, pinned at its "
        "quarters, its seam at centre back; it is stretched from pin to pin and sewn"
    )
    ring_at_the_neck(it)
    it.cloth(both(BAND_LEFT), "rib")
    it.cloth(both("M180 66C132 66 112 86 112 114C112 142 132 164 180 164"))
    it.stitch("M180 56C236 56 258 82 258 113C258 146 236 174 180 174C124 174 102 146 102 113C102 82 124 56 180 56Z")
    it.line("M180 30V66", 1.6)
    for x, y, way in ((180, 74, -90), (180, 156, 90), (120, 113, 180), (240, 113, 0)):
        it.pin(x, y, way, 32)
    it.arrow("M206 188Q248 182 264 146")
    it.arrow("M154 188Q112 182 96 146")
    it.word(180, 22, "centre back, seam")
    it.word(180, 218, "centre front")
    it.word(180, 120, "neck edge")
    it.word(314, 118, "quarter", to=(274, 113))
    it.word(46, 118, "quarter", to=(86, 113))
    it.word(300, 190, "stretch", to=(246, 178))
    return it


def neckband_with_slit() -> Picture:
    it = Picture(
        "The folded neckband on the right side of the neck, raw edges on raw edges; its ends lie at the"
        " folds of both strips, its middle opposite the slit"
    )
    it.cloth(STRIPS)
    for turn in (str, mirrored):
        it.cloth(turn(f"M180 66{NECK_LEFT}L177 164V198C110 198 80 154 80 112C80 70 110 30 180 30Z"), "rib")
        it.stitch(turn("M180 56C124 56 102 82 102 113C102 142 118 164 152 172L177 174"))
        it.sewn(turn("M152 200V236"))
    it.pin(180, 74, -90, 32)
    it.arrow("M120 186Q98 168 94 140")
    it.arrow("M240 186Q262 168 266 140")
    it.word(180, 22, "middle of the band")
    it.word(180, 110, "neck edge")
    it.word(66, 214, "end at\nthe fold", to=(175, 194))
    it.word(294, 214, "end at\nthe fold", to=(185, 194))
    return it


def neckband_at_the_shoulder() -> Picture:
    it = Picture(
        "The folded neckband on the right side of the neck, the front below: one end at the edge of the"
        " front where it opens, the other at the fold of the lower strip beyond the sleeve"
    )
    it.cloth("M14 14H346V226H14Z", edge="#fff")
    it.line("M120 68L56 14M240 68L304 14M112 150L40 226M262 164L320 226")
    it.cloth("M238 138L256 156L304 206L292 220L226 150Z")
    it.cloth(
        "M222 188C210 195 196 198 180 198C110 198 80 154 80 112C80 70 110 30 180 30"
        "C250 30 280 70 280 112C280 134 272 154 258 168L234 146"
        "C244 138 248 126 248 114C248 86 228 66 180 66C132 66 112 86 112 114"
        "C112 142 132 164 180 164C192 164 202 162 212 158Z",
        "rib",
    )
    it.stitch(
        "M214 168C204 172 192 174 180 174C124 174 102 146 102 113"
        "C102 82 124 56 180 56C236 56 258 82 258 113C258 128 252 144 242 154"
    )
    it.word(180, 22, "back")
    it.word(190, 226, "edge of the front", to=(217, 194))
    it.word(180, 116, "neck edge")
    it.word(316, 90, "sleeve")
    it.word(44, 116, "sleeve")
    it.word(322, 150, "lower\nstrip", to=(286, 194))
    return it


def hood_on(slit: bool = False) -> Picture:
    how = "its hemmed edges lie at the folds of the strips" if slit else "at centre front both halves cross"
    it = Picture(
        "The hood on the right side of the neck, wrong side up, raw edges on raw edges: seam at centre "
        f"back, marks on the raglan seams; {how}"
    )
    end = "L177 164V226H140" if slit else "Q166 164 180 164L202 163V226H140"
    half = f"M180 66{NECK_LEFT}{end}C60 226 36 170 36 112C36 50 100 14 180 14Z"
    if slit:
        it.cloth(STRIPS.replace("236", "238"))
    for turn in (mirrored, str):
        low = 226 if slit or turn is str else 236
        it.cloth(turn(half.replace("226", str(low))), "wrong")
        it.cloth(turn(f"M157 162L177 164V{low}H157Z" if slit else f"M182 164L202 163V{low}H182Z"))
        it.stitch(turn("M180 56C124 56 102 82 102 113C102 142 118 164 152 172L177 174"))
        for x, y, way in ((136, 80, 225), (124, 146, 135)):
            it.notch(x if turn is str else 360 - x, y, way if turn is str else 180 - way)
    it.line("M180 14V66", 1.6)
    it.word(180, 98, "neck\nedge")
    it.word(180, 140, "centre front")
    it.word(76, 116, "hood", plate=True)
    it.word(284, 116, "hood", plate=True)
    it.word(284, 44, "centre back", to=(182, 34), plate=True)
    if slit:
        it.word(60, 206, "fold of\nthe strip", to=(176, 206), plate=True)
    else:
        it.word(60, 206, "halves\ncross", to=(180, 230), plate=True)
    return it


def hood_on_with_slit() -> Picture:
    return hood_on(slit=True)


def neckband_ends() -> Picture:
    it = Picture(
        "The neckband folded along its middle, right sides together, both short ends sewn; below, turned, with its "
        "middle and quarters marked"
    )
    strip_ends(it, seam=False)
    return it


STEPS = {
    one.__name__.replace("_", "-"): one
    for one in (
        neckband_ends,
        sew_the_hood,
        neckband_ring,
        neckband_on,
        neckband_with_slit,
        neckband_at_the_shoulder,
        hood_on,
        hood_on_with_slit,
    )
}
"""The drawings by the names of their files."""
