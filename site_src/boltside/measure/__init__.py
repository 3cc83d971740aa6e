"""Every number that comes from the outlines: both lines, seams, finished measurements, the cutting list, lay items.

The way through: `drawn` (which stretch is which edge) → `cut_off` → `lines` (`offset` and `corners` make the other
line) → `interfaced` → `garment` (one size, one set of choices) → `seams`, `finished`; over all choices:
`combinations` → `cutting_list` → `lay_items`. `model` has what comes out, `polyline` the plain geometry.
"""
