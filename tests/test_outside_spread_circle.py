"""A circle skirt on spread cloth against geometry: radius = girth / angle (the trade's formula), in inches.

A full circle skirt for a waist of 26 in has a waist radius of 26 / 2 pi = 4.14 in; with 12 in
of skirt its hem radius is 16.14 in. The full circle is cut as a half ring on the fold: 2 x 16.14 in of the fold,
16.14 in deep. A half circle (radius 26 / pi = 8.28 in, hem 20.28 in) is a quarter ring on the fold: its radius deep and
its radius long.
"""

import math
from dataclasses import replace

import pytest

from boltside.lay.model import LayItem, LayRequest, Outline, TooWide
from boltside.lay.spread_middle import solve_middle
from boltside.lay.spread_part import solve_part_folded
from boltside.lay.spread_unfold import unfolded_spread
from boltside.lay.spread_verify import spread_faults
from boltside.lay.verify import faults

pytestmark = pytest.mark.outside

INCH_MM = 25.4
GIRTH_IN, LENGTH_IN = 26.0, 12.0
POINTS = 48


def half_ring(angle: float) -> Outline:
    """Half of a ring skirt whose whole opens over the angle (radians), its straight edge, or one of them, on y = 0."""
    waist_mm = GIRTH_IN / (2 * angle) * INCH_MM
    hem_mm = waist_mm + LENGTH_IN * INCH_MM
    turns = [angle * step / POINTS for step in range(POINTS + 1)]
    hem = [(hem_mm * math.cos(turn), hem_mm * math.sin(turn)) for turn in turns]
    waist = [(waist_mm * math.cos(turn), waist_mm * math.sin(turn)) for turn in reversed(turns)]
    return tuple((x, 0.0 if abs(y) < 1e-9 else y) for x, y in hem + waist)


def is_right(request: LayRequest, lay) -> None:
    assert spread_faults(request, lay) == []
    flat = unfolded_spread(lay, {item.item_id: item for item in request.items})
    assert faults(replace(request, way="flat"), flat) == []


def test_a_full_circle_on_the_fold_with_its_waistband_beside_it() -> None:
    """Hem radius 4.14 + 12 = 16.14 in = 410 mm: fold over 42.5 cm (410 and the selvedge of 15, up to half centimetres).
    On 150 cm cloth 1500 - 850 - 15 = 635 mm stay single; the waistband, 28 in along and 3 in across, lies there. The
    length is the circle's diameter, 32.28 in."""
    skirt = LayItem(item_id="skirt", outline_mm=half_ring(math.pi), mode="fold", count=1)
    band = LayItem(
        item_id="band", outline_mm=((0, 0), (28 * INCH_MM, 0), (28 * INCH_MM, 76.2), (0, 76.2)), mode="single", count=1
    )
    request = LayRequest(items=(skirt, band), bolt_width_mm=1500.0, way="folded", one_way=True)
    lay = solve_part_folded(request, trials=60, short_trials=30)
    is_right(request, lay)
    assert lay.length_mm / INCH_MM == pytest.approx(2 * (4.14 + 12), abs=0.02)


def test_two_half_circles_one_on_each_fold() -> None:
    """Two half circles for 26 in each (radius 26 / pi = 8.28 in, hem 20.28 in = 515.0 mm), one on each fold: they need
    one hem radius of length. Cloth 4 x (515.0 + 15) = 2120 mm wide takes them just so, less does not."""
    panel = LayItem(item_id="panel", outline_mm=half_ring(math.pi / 2), mode="fold", count=2)
    request = LayRequest(items=(panel,), bolt_width_mm=2121.0, way="folded", one_way=True)
    lay = solve_middle(request, trials=20)
    is_right(request, lay)
    assert lay.length_mm / INCH_MM == pytest.approx(8.28 + 12, abs=0.02)
    with pytest.raises(TooWide) as refused:
        solve_middle(replace(request, bolt_width_mm=2119.0))
    assert refused.value.narrowest_bolt_mm == pytest.approx(4 * (20.28 * INCH_MM + 15), abs=1.0)
