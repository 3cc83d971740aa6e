"""The lines on Windlass's pieces that bound what the little front and back drawings show of neckband, hood and snaps.

A drawing is put together from parts of the pieces. Neckband and hood are flat when they are cut and round when they are
worn, so their worn shape is drawn on a piece that has room for it, and that is not itself drawn in that view: what the
front shows of neckband and snaps stands on the back, what the back shows of the neckband on the front. Nobody sews
along these lines.
"""

from __future__ import annotations

from .curves import Chain, Cubic, backwards, bow, curve, joined, line, moved, split_at_length
from .windlass_lines import Half, half_of, whole_neck
from .windlass_measures import NECKBAND_MM, STRIP_MM, Measures

ROOM_MM = 12.0
"""The shapes are drawn this far below the underarm, where front and back are widest."""
ELLIPSE, ROUND, NECK_HANDLE = 0.55, 0.67, 0.45
INSIDE_MM = 3.0
"""The point that says which side of a line is shown lies this far inside the shape."""
BAND_INWARD_PART, BAND_UP_PART = 0.62, 0.40
"""At the shoulder the worn neckband's upper edge lies inward and up by these parts of its height."""
HOOD_OUT_PART, HOOD_WIDEST_PART, HOOD_TOP_PART = 0.20, 0.20, 0.42
"""Half the width of the worn hood, and how high above the nape it is widest and ends, as parts of the head's girth."""
FACE_OUT_PART, FACE_UP_PART, FACE_TOP_PART = 0.125, 0.16, 0.34
"""The same for the opening round the face."""


def mirrored(chain: Chain) -> Chain:
    """Return the chain mirrored in the centre line."""
    return tuple(
        Cubic(
            start=-s.start.conjugate(),
            first_handle=-s.first_handle.conjugate(),
            second_handle=-s.second_handle.conjugate(),
            end=-s.end.conjugate(),
        )
        for s in chain
    )


def band_upper_edge(m: Measures, half: Half) -> Chain:
    """Return the neckband's upper edge as it is worn, from the centre to the shoulder."""
    inward = complex(-half.outward * NECKBAND_MM * BAND_INWARD_PART, -NECKBAND_MM * BAND_UP_PART)
    end = half.neck_shoulder + inward
    start = half.neck_centre - 1j * NECKBAND_MM
    if half.outward > 0:
        # The back's upper edge is nearly straight, and stands up at the nape.
        return curve(start, complex(end.real * NECK_HANDLE), complex(-end.real * NECK_HANDLE / 2), end)
    return bow(start, complex(half.outward), ROUND, end, -half.axis * 1j * half.outward, ROUND)


def neckband_shown(m: Measures, half: Half) -> tuple[Chain, dict[str, complex]]:
    """Return the line round the worn neckband of front or back, mirrored onto the other, and the points to place it."""
    by = 1j * (m.underarm + ROOM_MM + NECKBAND_MM - min(half.neck_shoulder.imag, 0))
    whole = joined(half.neck, half.sleeve_neck)
    upper = band_upper_edge(m, half)
    shape = joined(whole, line(whole[-1].end, upper[-1].end), backwards(upper))
    inside = half.neck_centre + complex(-half.outward * INSIDE_MM, -NECKBAND_MM / 2)
    return moved(mirrored(shape), by), {"neckband-foot": half.neck_centre + by, "neckband-shown": inside + by}


def snaps_shown(m: Measures) -> tuple[Chain, dict[str, complex]]:
    """Return the line on the back round what the front drawing shows of the opening with snaps, and its points.

    It is the strip along the wearer's left raglan seam of the front, mirrored so that it lies to the right, and moved
    down to where the back has room. `snaps-foot` belongs on centre front at the underarm's height.
    """
    front = half_of(m, front=True)
    opened, _ = split_at_length(front.raglan, m.opening)
    edge = mirrored(opened)
    by = 1j * (m.underarm + ROOM_MM - edge[0].start.imag)
    along = (edge[-1].end - edge[0].start) / abs(edge[-1].end - edge[0].start)
    beside = along * 1j * STRIP_MM
    top, end = edge[0].start, edge[-1].end
    lead = complex(0, (top + beside).imag)
    shape = joined(
        line(lead, top + beside, end + beside, end), backwards(edge), line(top, top + beside)
    )
    inside = (top + end) / 2 + beside / 2
    return moved(shape, by), {"snaps-foot": complex(0, m.underarm) + by, "snaps-shown": inside + by}


def hood_shape(m: Measures, *, front: bool) -> Chain:
    """Return the worn hood from centre neck round to its top, beside the centre line, to the left of it."""
    half = half_of(m, front=front)
    whole = whole_neck(m, abs(half.neck_shoulder.real), front=front)
    if half.outward > 0:
        whole = mirrored(whole)
    shoulder = whole[-1].end
    widest = complex(-m.head * HOOD_OUT_PART, -m.head * HOOD_WIDEST_PART)
    top = complex(0, -m.head * HOOD_TOP_PART)
    rise = (widest - shoulder).imag
    return joined(
        whole,
        curve(shoulder, complex(0.7 * rise / 2, rise * 0.2), complex(0, -rise * 0.45), widest),
        bow(widest, -1j, ELLIPSE, top, 1 + 0j, ELLIPSE),
    )


def face_shape(m: Measures) -> Chain:
    """Return the opening round the face, from its lower to its upper end on the centre line, to the left of it."""
    low = complex(0, m.front_neck - NECKBAND_MM)
    widest = complex(-m.head * FACE_OUT_PART, -m.head * FACE_UP_PART)
    top = complex(0, -m.head * FACE_TOP_PART)
    drop = low.imag - widest.imag
    return joined(
        curve(low, complex(widest.real * 0.35, -drop * 0.15), complex(0, drop * 0.5), widest),
        bow(widest, -1j, ELLIPSE, top, 1 + 0j, ELLIPSE),
    )
