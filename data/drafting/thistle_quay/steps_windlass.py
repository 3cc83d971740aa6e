"""Windlass's steps, drawn. How the drawings speak: :mod:`.step_kit`."""

from __future__ import annotations

from .step_kit import Picture, both, mirrored
from .step_parts import lap, ring_on_tube, single_hem
from .steps_windlass_neck import STEPS as NECK_STEPS


def mark_the_pieces() -> Picture:
    it = Picture(
        "Front, back and sleeve, wrong side up: one snip on the front raglan edges, two on the back "
        "ones, one in the middle of the sleeve's neck edge, and at both ends of the folds"
    )
    for x, name, neck in ((62, "front", 78), (180, "back", 68)):
        it.cloth(both(f"M{x} {neck}Q{x - 20} {neck} {x - 20} 58L{x - 48} 128V214H{x}", x), "wrong")
        it.word(x, 176, name, plate=True)
        it.red(f"M{x} {neck}V{neck + 10}M{x} 214V204", 3)
    it.cloth("M276 58Q292 66 310 58L346 128L332 214H254L240 128Z", "wrong")
    it.word(293, 176, "sleeve", plate=True)
    it.red("M293 63V73", 3)
    for x, y, side in (
        (30, 92, 1),
        (94, 92, -1),
        (146, 96, 1),
        (150, 86, 1),
        (214, 96, -1),
        (210, 86, -1),
        (260, 90, 1),
        (327, 91, -1),
        (331, 99, -1),
    ):
        it.red(f"M{x} {y}L{x + side * 10} {y + 5}", 3)
    it.word(94, 24, "one mark: front", to=(96, 88))
    it.word(262, 24, "two: back", to=(214, 84))
    return it


def mark_the_slit() -> Picture:
    it = Picture(
        "The slit chalked along the centre from the neck edge down, a line for the strips on both sides"
        " of it, joined at its lower end; nothing is cut yet"
    )
    it.cloth("M60 26Q180 96 300 26L352 60V230H8V60Z")
    it.chalk("M180 62V184")
    it.chalk("M148 58V184H212V58")
    it.word(180, 40, "neck edge")
    it.word(270, 110, "slit", to=(183, 116))
    it.word(74, 126, "lines for\nthe strips", to=(146, 136))
    it.word(180, 214, "the same to each side")
    return it


def interface_the_slit() -> Picture:
    it = Picture(
        "Interfacing on the wrong side, its middle on the slit, its upper edge level with the neck "
        "edge, wider and longer than the lines for the strips"
    )
    it.cloth("M60 26Q180 96 300 26L352 60V230H8V60Z", "wrong")
    it.dots("M112 50Q180 72 248 50V204H112Z")
    it.red("M112 50V204H248V50", 1.8)
    it.line("M148 58V176H212V58", 1)
    it.line("M180 62V176")
    it.word(180, 38, "neck edge")
    it.word(304, 120, "slit", to=(182, 140), plate=True)
    it.word(56, 150, "a little\nmore", to=(130, 160), plate=True)
    return it


def strips_on_the_slit() -> Picture:
    it = Picture(
        "The folded strips on the right side, one on each side of the slit, raw edges along the slit, "
        "folds pointing away; each is sewn down to the end of the slit, not further"
    )
    it.cloth("M60 26Q180 96 300 26L352 60V230H8V60Z")
    for turn in (str, mirrored):
        it.cloth(turn("M112 50Q140 60 178 61V206H112Z"))
        it.line(turn("M118 52V206"))
        it.stitch(turn("M150 58V180"))
        it.red(turn("M146 180H154"), 2.4)
    it.chalk("M180 62V180")
    it.word(180, 38, "neck edge")
    it.word(56, 110, "fold", to=(112, 116))
    it.word(304, 110, "fold", to=(248, 116))
    it.word(304, 160, "end of\nthe slit", to=(212, 180))
    it.word(56, 196, "strip", to=(124, 196))
    return it


def cut_the_slit() -> Picture:
    it = Picture(
        "The slit cut from the wrong side, from the neck edge down and, above its end, into both "
        "corners, up to the last stitch of each line"
    )
    it.cloth("M60 26Q180 96 300 26L352 60V230H8V60Z", "wrong")
    it.sewn("M148 58V190M212 58V190")
    it.cut("M180 62V158")
    it.cut("M180 158L149 189", scissors=False)
    it.cut("M180 158L211 189", scissors=False)
    it.ring(148, 190, 12)
    it.ring(212, 190, 12)
    it.word(308, 130, "stitches", to=(214, 130), plate=True)
    it.word(180, 226, "into both corners", plate=True)
    return it


def close_the_strips() -> Picture:
    it = Picture(
        "Left: the lower part folded up, wrong side seen; the triangle is sewn to the ends of both "
        "strips. Right, from the right side: stitching beside both strips and twice across their lower "
        "end"
    )
    it.cloth("M66 110H112V190H66Z")
    it.line("M89 110V190")
    it.cloth("M10 30H168V112H112L89 152L66 112H10Z", "wrong")
    it.stitch("M66 114H112")
    it.arrow("M34 190V124")
    it.word(144, 176, "strips", to=(110, 172))
    it.word(89, 222, "sew the triangle")
    it.cloth("M192 20H350V196H192Z")
    it.cloth("M248 20H294V148H248Z")
    it.line("M254 20V148")
    it.stitch("M242 20V148M300 20V148M242 148H300M242 126H300")
    it.word(271, 222, "stitch round")
    it.word(328, 90, "close", to=(301, 104))
    return it


def spread_out(it: Picture, opening: bool) -> None:
    it.cloth("M144 92L96 40V4H264V40L216 92Q206 78 180 78T144 92Z", "wrong")
    it.cloth("M140 134L84 196V236H276V196L220 134Q210 160 180 160T140 134Z", "wrong")
    for turn in (str, mirrored):
        it.cloth(turn("M144 92L96 40L8 62V176L84 196L140 134Q148 112 144 92Z"), "wrong")
    it.stitch("M216 92L264 40M144 92L96 40M220 134L276 196")
    it.stitch("M119 157L84 196" if opening else "M140 134L84 196")
    for x, y in ((102, 176) if opening else (112, 164), (248, 164), (122, 68), (117, 62), (238, 68), (243, 62)):
        side = 1 if (x < 180) == (y < 100) else -1
        it.red(f"M{x - 6} {y + side * 6}L{x + 6} {y - side * 6}", 2.6)
    it.word(180, 28, "back", plate=True)
    it.word(180, 218, "front", plate=True)
    it.word(46, 122, "sleeve", plate=True)
    it.word(314, 122, "sleeve", plate=True)
    it.word(180, 124, "neck")


def raglan_seams() -> Picture:
    it = Picture(
        "The whole top spread out, wrong side up, the neck in the middle: front and back are sewn to "
        "both sleeves, one mark on one and two on two"
    )
    spread_out(it, opening=False)
    return it


def raglan_seams_with_opening() -> Picture:
    it = Picture(
        "The whole top spread out, wrong side up: three raglan seams are sewn whole; in the front seam "
        "at the wearer's left, here on the left, the upper part stays open"
    )
    spread_out(it, opening=True)
    it.ring(119, 157, 9)
    it.word(56, 160, "open", to=(130, 145), plate=True)
    return it


def strips_on_the_shoulder() -> Picture:
    it = Picture(
        "The shoulder cut through: the upper strip is turned under the edge of the front, the lower "
        "strip stands out beyond the sleeve; the edge of the front meets the seam of the lower strip"
    )
    lap(it)
    it.stitch("M254 70V112")
    it.stitch("M160 114V184")
    it.sewn("M182 58V200")
    it.word(300, 60, "front", to=(300, 79))
    it.word(60, 104, "sleeve", to=(60, 123))
    it.word(324, 124, "upper\nstrip", to=(269, 99))
    it.word(324, 180, "lower\nstrip", to=(283, 164))
    it.word(120, 40, "edge meets seam", to=(182, 56))
    it.word(90, 222, "stitch down", to=(158, 186))
    return it


def snaps() -> Picture:
    it = Picture(
        "A snap of the shoulder, cut through: cap on the right side of the front, through front and "
        "upper strip; the other half on the lower strip looks up towards it"
    )
    lap(it, snap=True)
    it.word(222, 40, "cap on the right side")
    it.word(316, 70, "front")
    it.word(60, 112, "sleeve")
    it.word(324, 124, "upper\nstrip", to=(269, 99))
    it.word(324, 180, "lower\nstrip", to=(283, 164))
    it.word(120, 214, "lower half looks up", to=(212, 150))
    return it


def sew_the_sides() -> Picture:
    it = Picture(
        "The top folded right sides together: each side is sewn in one go, from the lower edge up to "
        "the underarm and on along the sleeve"
    )
    half = "M180 38Q156 38 150 26L40 84L62 142L118 112V222H180"
    it.cloth(both(half), "wrong")
    it.line("M150 26L118 112M210 26L242 112")
    for turn in (str, mirrored):
        it.stitch(turn("M127 220V124Q126 104 108 108L59 132"))
        it.arrow(turn("M100 206V142L76 154"))
    it.word(180, 150, "wrong side", plate=True)
    it.word(56, 190, "in one go")
    it.word(302, 40, "raglan seam", to=(226, 66))
    return it


def hems() -> Picture:
    it = Picture(
        "The hem cut through: pressed to the wrong side once and stitched near its edge, with a stitch that gives"
    )
    single_hem(it)
    it.word(64, 50, "right side", to=(144, 46))
    it.word(246, 50, "wrong side", to=(156, 46))
    it.word(70, 214, "fold", to=(154, 207))
    it.word(278, 130, "stitch\nthat gives", to=(200, 102))
    return it


def cuffs_on() -> Picture:
    it = Picture(
        "The folded cuff drawn over the end of the sleeve, right side out, raw edges on raw edges, "
        "pinned at the quarters; the cuff alone is stretched"
    )
    ring_on_tube(it, "sleeve", "cuff", "underarm\nseam")
    return it


def hem_band_on() -> Picture:
    it = Picture(
        "The folded hem band drawn over the lower edge of the top, right side out, raw edges on raw "
        "edges, pinned at the quarters; the band alone is stretched"
    )
    ring_on_tube(it, "top", "hem\nband", "centre\nback")
    return it


def buttonholes() -> Picture:
    it = Picture(
        "The upper strip with its buttonholes, one below the other along its middle; each begins a "
        "little above the place of its button and runs down"
    )
    it.cloth("M20 20H340V230H20Z", edge="#fff")
    it.cloth("M140 20H220V220H140Z")
    it.line("M152 20V220M208 20V220")
    for y in (50, 108, 166):
        it.red(f"M174 {y}H186M180 {y}V{y + 34}M174 {y + 34}H186", 3)
        it.line(f"M174 {y + 10}L186 {y + 10}", 1.6)
    it.word(282, 76, "button sits\nhere", to=(186, 60))
    it.word(76, 116, "hole begins\na bit above", to=(173, 108))
    it.word(282, 200, "upper strip", to=(214, 204))
    return it


def strips_for_the_shoulder() -> Picture:
    it = Picture(
        "Left, a strip folded along its length, right sides together, its lower end sewn; right, the same strip "
        "turned: its neck end stays open"
    )
    it.cloth("M60 40H130V200H60Z", "wrong")
    it.fold("M60 30V210")
    it.stitch("M60 186H130")
    it.red("M60 190L70 200", 2.4)
    it.arrow("M150 120H200")
    it.cloth("M226 40H288V188H226Z")
    it.line("M282 40V188")
    it.word(95, 22, "neck end, open")
    it.word(258, 22, "open")
    it.word(30, 120, "fold", to=(59, 124))
    it.word(95, 228, "sew, trim", to=(68, 195))
    it.word(258, 228, "turned")
    it.word(326, 120, "raw\nedges", to=(288, 120))
    return it


STEPS = {
    one.__name__.replace("_", "-"): one
    for one in (
        strips_for_the_shoulder,
        mark_the_pieces,
        mark_the_slit,
        interface_the_slit,
        strips_on_the_slit,
        cut_the_slit,
        close_the_strips,
        raglan_seams,
        raglan_seams_with_opening,
        strips_on_the_shoulder,
        snaps,
        sew_the_sides,
        hems,
        cuffs_on,
        hem_band_on,
        buttonholes,
    )
} | NECK_STEPS
"""The drawings by the names of their files."""
