"""Ferrylight's facings and collars, drawn. How the drawings speak: :mod:`.step_kit`."""

from __future__ import annotations

from .step_kit import Picture, beside, joined, mirrored, moved, part, turned

NECK = "M152 140C108 128 108 52 180 48"
"""The neck of the open jacket, from the corner at one front to centre back."""
OPENING = joined("M152 236V140", NECK, turned(mirrored(NECK)), "M208 140V236", closed=False)
JACKET = joined("M24 236V120C24 50 90 12 180 12C270 12 336 50 336 120V236", turned(OPENING))
FACING_EDGE = "M108 236V168C74 130 80 26 180 24C280 26 286 130 252 168V236"
SHOULDERS = "M127 74L66 40M233 74L294 40"


def overlay(it: Picture, facing: str = "wrong") -> None:
    it.cloth(JACKET)
    it.line(SHOULDERS)
    it.cloth(joined(FACING_EDGE, turned(OPENING)), facing)


def facings_on() -> Picture:
    it = Picture(
        "The open jacket, right side up, with the facings on it, wrong side up: one seam up a front "
        "edge, round the neck and down the other front edge"
    )
    overlay(it)
    it.line("M120 68L92 54M240 68L268 54")
    it.stitch(beside(OPENING, -8))
    it.arrow("M164 226V178")
    it.arrow("M196 178V226")
    it.word(180, 100, "neck")
    it.word(66, 206, "jacket")
    it.word(294, 206, "jacket")
    it.ring(144, 134, 15)
    it.ring(216, 134, 15)
    it.word(60, 160, "one stitch\nacross", to=(129, 136), plate=True)
    return it


def lining_on() -> Picture:
    it = Picture(
        "Lining with facings on the open jacket, wrong side up, right sides together: one seam up a "
        "front edge, round the neck and down the other front edge"
    )
    it.cloth(JACKET)
    it.cloth(joined("M36 236V124C36 60 96 20 180 20C264 20 324 60 324 124V236", turned(OPENING)), "lining-wrong")
    it.cloth(joined(FACING_EDGE, turned(OPENING)), "wrong")
    it.sewn(beside(FACING_EDGE, 5))
    it.stitch(beside(OPENING, -8))
    it.arrow("M164 226V178")
    it.arrow("M196 178V226")
    it.word(180, 100, "neck")
    it.word(44, 26, "jacket", to=(70, 54))
    it.word(72, 206, "lining", plate=True)
    it.word(288, 206, "lining", plate=True)
    return it


def facing_to_lining() -> Picture:
    it = Picture(
        "The facings sewn to the lining, seen from the wrong side: one seam up a front, round the neck "
        "and down the other front"
    )
    it.cloth(joined("M24 236V120C24 50 90 8 180 8C270 8 336 50 336 120V236", turned(FACING_EDGE)), "lining-wrong")
    it.cloth(joined(FACING_EDGE, turned(OPENING)), "wrong")
    it.line("M120 68L92 54M240 68L268 54")
    it.stitch(beside(FACING_EDGE, 0))
    it.arrow("M92 226V190")
    it.arrow("M268 190V226")
    it.word(180, 100, "neck")
    it.word(56, 150, "lining", plate=True)
    it.word(304, 150, "lining", plate=True)
    it.word(180, 180, "facings", to=(140, 196), plate=True)
    return it


COLLAR_OUTER = "M139 134C112 160 86 138 88 112C92 44 130 14 178 12"


def make_flat_collar() -> Picture:
    it = Picture(
        "One half of the flat collar: under collar on upper collar, right sides together, sewn round "
        "the outer edge; the neck edge stays open"
    )
    neck = "M70 62C90 128 270 128 296 56"
    outer = "M70 62C34 72 40 124 70 150C130 208 290 204 336 78L296 56"
    upper = "M68 57C24 66 32 126 64 153C126 218 298 212 344 78L297 50"
    it.cloth(joined(upper, "M297 50L296 56", turned(neck)))
    it.cloth(joined(outer, turned(neck)), "wrong")
    it.stitch("M70 72C44 78 48 118 76 144C132 196 284 194 326 82L292 64")
    for x, y, way in ((46, 88, 0), (48, 116, -20), (66, 146, -45), (330, 96, 180)):
        it.notch(x, y, way, 7)
    it.notch(180, 112, 90, 8)
    it.word(184, 60, "neck edge\nstays open", to=(190, 110))
    it.word(184, 146, "under collar", plate=True)
    it.word(96, 222, "upper collar below", to=(92, 178))
    return it


def flat_collar_on() -> Picture:
    it = Picture(
        "The open jacket, right side up, with both halves of the flat collar round its neck, basted "
        "along the neck edge; a little of the neck stays free at each front edge"
    )
    it.cloth(JACKET)
    it.line(SHOULDERS)
    for turn in (str, mirrored):
        it.cloth(turn(joined(COLLAR_OUTER, "M178 12V48", turned(part(NECK, 0.1, 0.99)))))
        it.sewn(turn(beside(COLLAR_OUTER, 6)))
        it.stitch(turn(beside(part(NECK, 0.1, 0.97), -7)))
        it.notch(*((126, 77, 205) if turn is str else (234, 77, -25)), length=8)
    it.word(180, 82, "centre\nback")
    it.word(60, 172, "jacket")
    it.word(300, 172, "jacket")
    it.word(180, 190, "free", to=(146, 138))
    it.line("M186 176L212 140", 1)
    it.word(86, 222, "front edge", to=(150, 217))
    it.word(274, 222, "front edge", to=(210, 217))
    it.word(300, 96, "collar", to=(262, 100))
    return it


def make_stand_collar() -> Picture:
    it = Picture(
        "The inside of the stand collar on its outside, right sides together: both ends and the upper "
        "edge are sewn in one go, the neck edge stays open"
    )
    edge = "M34 150C30 100 44 84 70 82C140 68 220 68 290 82C316 84 330 100 326 150"
    it.cloth(joined(moved(edge, 0, -5), "M326 150C226 128 134 128 34 150"))
    it.cloth(joined(edge, "M326 150C226 128 134 128 34 150"), "wrong")
    it.stitch(beside(edge, 9))
    for x, y, way in ((38, 108, 20), (48, 92, 50), (312, 92, 130), (322, 108, 160)):
        it.notch(x, y, way, 6)
    it.notch(180, 134, -90)
    it.notch(100, 139, -90)
    it.notch(260, 139, -90)
    it.word(180, 42, "outside, interfaced, below", to=(180, 70))
    it.word(180, 112, "inside", plate=True)
    it.word(180, 172, "centre back")
    it.word(90, 172, "shoulder")
    it.word(270, 172, "shoulder")
    it.word(180, 212, "neck edge stays open")
    return it


def stand_collar_on() -> Picture:
    it = Picture(
        "The open jacket, right side up, with the stand collar round its neck, basted along the neck "
        "edge; a little of the neck stays free at each front edge"
    )
    it.cloth(JACKET)
    it.line(SHOULDERS)
    half = part(NECK, 0.1, 1)
    whole = joined(half, turned(mirrored(half)), closed=False)
    it.cloth(joined(turned(beside(whole, -26)), whole))
    it.sewn(beside(whole, -22))
    it.stitch(beside(whole, -7))
    it.notch(180, 46, -90, 8)
    it.notch(126, 77, 205, 8)
    it.notch(234, 77, -25, 8)
    it.word(180, 82, "centre\nback")
    it.word(60, 172, "jacket")
    it.word(300, 172, "jacket")
    it.word(180, 190, "free", to=(146, 138))
    it.line("M186 176L212 140", 1)
    it.word(86, 222, "front edge", to=(150, 217))
    it.word(274, 222, "front edge", to=(210, 217))
    it.word(58, 100, "inside of\nthe collar", to=(110, 96), plate=True)
    return it


STEPS = {
    one.__name__.replace("_", "-"): one
    for one in (
        facings_on,
        lining_on,
        facing_to_lining,
        make_flat_collar,
        flat_collar_on,
        make_stand_collar,
        stand_collar_on,
    )
}
"""The drawings by the names of their files."""
