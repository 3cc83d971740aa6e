"""How slim and how sturdy are the children of one height? Girths at the 5th and the 95th percentile, in mm.

Source: Snyder et al. 1977, Anthropometry of Infants, Children and Youths to Age 18 for Product Safety Design (US CPSC /
Univ. of Michigan), both sexes, by bands of 6 cm of height, computed from its records. It has no girths below 83 cm of
height; of arms and ankles only medians are known to us.

>>> from boltside.pattern import BodyChart
>>> chart = BodyChart(name="own", rows={"92": {"height": 920}, "74": {"height": 740}}, ages={}, sources=())
>>> girths_mm(chart, "92", "waist"), girths_mm(chart, "74", "waist"), girths_mm(chart, "92", "wrist")
((427.0, 515.0), None, None)
"""

from __future__ import annotations

from collections.abc import Mapping

from boltside.pattern import BodyChart

BAND_MM = 60.0
P5_P95_MM: Mapping[str, Mapping[int, tuple[float, float]]] = {
    "chest": {860: (450, 521), 920: (463, 531), 980: (489, 555), 1040: (499, 569), 1100: (515, 601), 1160: (537, 612),
              1220: (550, 665), 1280: (578, 684)},
    "waist": {860: (423, 508), 920: (427, 515), 980: (447, 532), 1040: (456, 542), 1100: (459, 569), 1160: (480, 580),
              1220: (493, 634), 1280: (511, 657)},
    "hip": {860: (443, 563), 920: (472, 551), 980: (482, 570), 1040: (504, 592), 1100: (528, 625), 1160: (544, 642),
            1220: (574, 694), 1280: (596, 720)},
    "thigh": {860: (247, 319), 920: (256, 316), 980: (263, 340), 1040: (281, 349), 1100: (291, 372), 1160: (306, 391),
              1220: (324, 430), 1280: (337, 450)},
}  # fmt: skip
"""By the middle of each band of height, in mm."""


def girths_mm(chart: BodyChart, size: str, body: str) -> tuple[float, float] | None:
    """The girth at P5 and at P95 of children as tall as the size is cut for; None where the survey has none.

    Between the middles of two bands the line is straight.
    """
    height, bands = chart.rows[size].get("height"), P5_P95_MM.get(body)
    if height is None or bands is None or not min(bands) - BAND_MM / 2 <= height <= max(bands) + BAND_MM / 2:
        return None
    at = min(max(height, min(bands)), max(bands))
    low = max(band for band in bands if band <= at)
    high = min((band for band in bands if band > low), default=low)
    share = (at - low) / (high - low) if high > low else 0.0
    small, large = (a + (b - a) * share for a, b in zip(bands[low], bands[high], strict=True))
    return float(small), float(large)
