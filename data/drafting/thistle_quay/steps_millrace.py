"""Millrace's steps, drawn. How the drawings speak: :mod:`.step_kit`."""

from __future__ import annotations

from .step_kit import Picture
from .step_parts import band_above, band_in_tube, double_hem, elastic_in, pressed_band, ring_with_gap, stitched_across


def steady_the_waist() -> Picture:
    it = Picture(
        "A panel of the skirt, right side up: one line of stitches round its waist edge, from one side to the other"
    )
    it.cloth("M132 36Q180 96 228 36L344 60Q322 206 180 222Q38 206 16 60Z")
    it.stitch("M128 46Q180 112 232 46")
    it.word(180, 40, "waist edge", to=(180, 64))
    it.word(180, 150, "do not pull")
    it.word(300, 112, "side", to=(330, 84))
    it.word(60, 112, "side", to=(30, 84))
    return it


def band_ring() -> Picture:
    it = Picture(
        "The band sewn to a ring, wrong side out: on one half a gap is left in the seam, beginning just"
        " below the fold line"
    )
    ring_with_gap(it)
    return it


def press_the_band() -> Picture:
    it = Picture(
        "The band cut through: one long edge pressed over, then the band folded so that this edge just "
        "covers the line of the seam"
    )
    pressed_band(it)
    return it


def band_on() -> Picture:
    it = Picture(
        "The band inside the skirt, right sides together, raw edges up; the skirt, wrong side out, is "
        "sewn to it all round"
    )
    band_in_tube(it, "skirt", seam=False)
    return it


def close_the_band() -> Picture:
    it = Picture(
        "The closed band cut through, the fold on top: the pressed edge on the inside covers the seam; "
        "stitched in the groove"
    )
    band_above(it, 160, 6, channel=False)
    it.word(180, 18, "fold: the top")
    it.word(66, 70, "outside")
    it.word(292, 70, "inside")
    it.word(60, 128, "groove", to=(126, 134))
    it.word(288, 150, "pressed edge", to=(200, 138))
    it.word(268, 206, "skirt", to=(184, 200))
    return it


def put_in_the_elastic() -> Picture:
    it = Picture(
        "An elastic drawn through the band with a safety pin; below, its ends lapped and sewn with a square and a cross"
    )
    elastic_in(it)
    return it


def spread_the_gathers() -> Picture:
    it = Picture("The back of the finished waist: stitched across band and elastic at both sides and at centre back")
    stitched_across(it)
    return it


def hem() -> Picture:
    it = Picture("The narrow hem cut through: turned to the wrong side twice, stitched close to the inner fold")
    double_hem(it)
    it.word(64, 50, "right side", to=(144, 46))
    it.word(246, 50, "wrong side", to=(156, 46))
    it.word(74, 214, "second turn", to=(156, 209))
    it.word(262, 76, "first turn", to=(182, 86))
    it.word(264, 130, "stitch here", to=(204, 98))
    return it


def let_it_hang() -> Picture:
    it = Picture(
        "The skirt hung up by its band: its lower edge has grown uneven; from the waist seam the same length is "
        "measured all round, and the edge is trimmed to it"
    )
    it.line("M120 20H240M180 20V8", 3)
    it.cloth("M124 24H236V50H124Z")
    it.cloth("M124 50H236L322 182Q290 226 250 204Q214 184 180 204Q140 230 104 206Q64 196 38 182Z")
    it.cut("M40 180Q110 194 180 194T320 180")
    it.arrow("M138 56L92 182")
    it.arrow("M180 56V190")
    it.arrow("M222 56L268 182")
    it.word(304, 40, "waist seam", to=(238, 50))
    it.word(180, 130, "the same all round", plate=True)
    it.word(180, 234, "trim here", to=(196, 196))
    return it


STEPS = {
    one.__name__.replace("_", "-"): one
    for one in (
        let_it_hang,
        steady_the_waist,
        band_ring,
        press_the_band,
        band_on,
        close_the_band,
        put_in_the_elastic,
        spread_the_gathers,
        hem,
    )
}
"""The drawings by the names of their files."""
