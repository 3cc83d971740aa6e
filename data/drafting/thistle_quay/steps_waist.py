"""Steps of an elastic waist that more than one garment has, drawn. How the drawings speak: :mod:`.step_kit`."""

from __future__ import annotations

from .step_kit import Picture
from .step_parts import band_above, elastic_in, pressed_band, ring_with_gap, stitched_across


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


def close_the_band(garment: str) -> Picture:
    """Argument: what the band is sewn to, in one word."""
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
    it.word(268, 206, garment, to=(184, 200))
    return it


def put_in_the_elastic() -> Picture:
    it = Picture(
        "An elastic drawn through the band with a safety pin; below, its ends lapped and sewn with a square and a cross"
    )
    elastic_in(it)
    return it


def stitch_across_the_elastic() -> Picture:
    it = Picture("The back of the finished waist: stitched across band and elastic at both sides and at centre back")
    stitched_across(it)
    return it
