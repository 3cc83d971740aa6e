"""Breakwater's steps, drawn. How the drawings speak: :mod:`.step_kit`."""

from __future__ import annotations

from functools import partial

from .step_kit import Picture, beside, joined, turned
from .step_parts import (
    band_in_tube,
    lap,
    ring_on_tube,
    single_hem,
    strip_ends,
)
from .steps_waist import band_ring, close_the_band, press_the_band, put_in_the_elastic, stitch_across_the_elastic

ARCH = "M154 226L166 120Q180 88 194 120L206 226"
"""Both inseams, from one hem across the crotch to the other."""
TROUSERS = joined("M42 226L100 16H260L318 226", turned(ARCH))


def knee_patches() -> Picture:
    it = Picture("A knee patch on the right side of the front, its edge pressed under, stitched round twice")
    it.cloth("M84 8H276L268 232H92Z")
    patch = "M130 60Q130 44 146 44H214Q230 44 230 60V172Q230 188 214 188H146Q130 188 130 172Z"
    it.cloth(patch, "rib")
    it.stitch("M136 62Q136 50 148 50H212Q224 50 224 62V170Q224 182 212 182H148Q136 182 136 170Z")
    it.stitch("M145 66Q145 59 152 59H208Q215 59 215 66V166Q215 173 208 173H152Q145 173 145 166Z")
    it.word(180, 120, "patch")
    it.word(40, 64, "close to\nthe fold", to=(136, 86))
    it.word(318, 90, "once\nmore", to=(215, 104))
    it.word(180, 222, "front, right side up")
    return it


def centre_seams() -> Picture:
    it = Picture(
        "Both fronts, right sides together: sewn along the centre seam from the waist down to the "
        "crotch point, the curve a second time within the allowance"
    )
    seam = "M146 20C150 96 132 122 84 132"
    it.cloth(joined(seam, "M84 132L122 226H270L258 20"), "wrong")
    it.stitch(beside(seam, -10))
    it.stitch("M148 76C140 108 120 128 86 137")
    it.arrow("M118 30V84")
    it.word(208, 150, "wrong side", plate=True)
    it.word(208, 16, "waist")
    it.word(54, 50, "centre\nseam", to=(146, 50))
    it.word(60, 180, "crotch\npoint", to=(86, 136))
    it.word(312, 110, "side", to=(264, 110))
    it.word(70, 106, "twice", to=(136, 104))
    return it


def inside_legs() -> Picture:
    it = Picture(
        "The trousers wrong side out: the inseam is sewn in one go, up one leg, across the crotch and down the other"
    )
    it.cloth(TROUSERS, "wrong")
    it.line("M180 16V104", 1.6)
    it.stitch("M144 226L156 116Q180 72 204 116L216 226")
    it.arrow("M118 210L128 140")
    it.arrow("M232 140L242 210")
    it.pin(180, 116, -90, 30)
    it.word(180, 50, "centre seam", plate=True)
    it.word(38, 60, "seams\nmeet", to=(174, 94))
    it.word(314, 40, "in one go")
    return it


def hems() -> Picture:
    it = Picture("The hem cut through: pressed to the wrong side once and stitched below its edge")
    single_hem(it)
    it.word(64, 50, "right side", to=(144, 46))
    it.word(246, 50, "wrong side", to=(156, 46))
    it.word(70, 214, "fold", to=(154, 207))
    it.word(272, 130, "stitch here", to=(200, 102))
    return it


def snap_strips() -> Picture:
    it = Picture(
        "A strip folded along its length, right sides together, both short ends sewn; below it the same"
        " strip turned right side out, with one raw double edge"
    )
    strip_ends(it, seam=True)
    return it


def strips_on() -> Picture:
    it = Picture(
        "The folded strip on the right side of the fronts, raw edges along both inseams, its seam at "
        "the centre front seam, its ends level with the hems; sewn from hem to hem"
    )
    it.cloth(TROUSERS)
    it.line("M180 16V104", 1.6)
    it.cloth(joined(ARCH, turned(beside(ARCH, -26))))
    it.stitch(beside(ARCH, -10))
    it.line("M180 70V104", 1.6)
    it.line("M48 208H156M312 208H204")
    for x, y, way in ((167, 130, 190), (193, 130, -10)):
        it.notch(x, y, way, 6)
    it.word(180, 34, "centre front seam", plate=True)
    it.word(98, 136, "strip", to=(137, 156))
    it.word(90, 190, "front")
    it.word(276, 190, "front")
    it.word(312, 46, "snip where\nhollow", to=(197, 130))
    return it


def snaps() -> Picture:
    it = Picture(
        "Front and back at the inseam, cut through: the front laps over the back strip; a snap through "
        "front and front strip, its other half on the back strip"
    )
    lap(it, snap=True)
    it.word(222, 40, "cap on the right side")
    it.word(316, 70, "front")
    it.word(60, 112, "back")
    it.word(324, 124, "front\nstrip", to=(269, 99))
    it.word(324, 180, "back\nstrip", to=(283, 164))
    it.word(140, 220, "same place on both", to=(226, 186))
    return it


def turn_ups() -> Picture:
    it = Picture(
        "The turn-up cut through: the hem is stitched on the wrong side; then the leg is folded up to "
        "the right side, and the turn-up covers the stitching"
    )
    it.layer("M186 8V176Q186 188 176 188T166 176V106Q166 92 157 92T148 106V194Q148 214 175 214T202 194V130")
    it.stitch("M174 146H220")
    it.word(66, 60, "right side", to=(180, 44))
    it.word(270, 60, "wrong side", to=(192, 44))
    it.word(74, 140, "turn-up", to=(143, 140))
    it.word(284, 150, "stitched first", to=(218, 146))
    it.word(76, 222, "end of the leg", to=(168, 216))
    it.word(90, 96, "lower line", to=(152, 94))
    it.word(278, 200, "upper line", to=(200, 206))
    return it


def cuffs_on() -> Picture:
    it = Picture(
        "The folded cuff drawn over the end of the leg, right side out, raw edges on raw edges, pinned "
        "at the quarters; the cuff alone is stretched"
    )
    ring_on_tube(it, "leg", "cuff", "inseam")
    return it


def band_on() -> Picture:
    it = Picture(
        "The band inside the trousers, right sides together, raw edges up; the trousers, wrong side "
        "out, lie on top and are sewn round"
    )
    band_in_tube(it, "trousers", seam=True)
    return it


def fuse_the_snap_strips() -> Picture:
    it = Picture("A snap strip, wrong side up: the interfacing ends at the stitching line on all sides")
    it.cloth("M20 60H340V180H20Z", "wrong")
    it.dots("M40 80H320V160H40Z")
    it.line("M40 80H320V160H40Z", 1.4)
    it.word(180, 36, "snap strip, wrong side up")
    it.word(180, 126, "interfacing", plate=True)
    it.word(180, 216, "up to the stitching line", to=(180, 161))
    return it


STEPS = {
    one.__name__.replace("_", "-"): one
    for one in (
        fuse_the_snap_strips,
        knee_patches,
        centre_seams,
        inside_legs,
        hems,
        snap_strips,
        strips_on,
        snaps,
        turn_ups,
        cuffs_on,
        band_ring,
        press_the_band,
        band_on,
        put_in_the_elastic,
    )
} | {"close-the-band": partial(close_the_band, "trousers"), "keep-the-elastic-flat": stitch_across_the_elastic}
"""The drawings by the names of their files."""
