"""Millrace's steps, drawn. How the drawings speak: :mod:`.step_kit`."""

from __future__ import annotations

from functools import partial

from .step_kit import Picture
from .step_parts import band_in_tube, double_hem
from .steps_waist import band_ring, close_the_band, press_the_band, put_in_the_elastic, stitch_across_the_elastic


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


def band_on() -> Picture:
    it = Picture(
        "The band inside the skirt, right sides together, raw edges up; the skirt, wrong side out, is "
        "sewn to it all round"
    )
    band_in_tube(it, "skirt", seam=False)
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
        put_in_the_elastic,
        hem,
    )
} | {"close-the-band": partial(close_the_band, "skirt"), "spread-the-gathers": stitch_across_the_elastic}
"""The drawings by the names of their files."""
