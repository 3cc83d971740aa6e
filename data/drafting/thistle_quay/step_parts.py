"""What comes back in the drawings of several garments: hems, bands, laps and rings.

How the drawings speak: :mod:`.step_kit`.
"""

from __future__ import annotations

from .step_kit import Picture, moved


def double_hem(it: Picture, x: float = 150) -> None:
    """A hem turned twice: the fold below, the edge turned in above, stitched beside the inner fold."""
    it.layer(moved("M0 8V196Q0 214 16 214T32 196V92Q32 80 23 80T14 92V140", x, 0))
    it.stitch(moved("M-26 96H58", x, 0))


def single_hem(it: Picture, x: float = 150) -> None:
    """A hem turned once, stitched below its edge."""
    it.layer(moved("M0 8V194Q0 212 14 212T28 194V84", x, 0))
    it.stitch(moved("M-26 100H54", x, 0))


def band_below(it: Picture, x: float, y: float, lining: bool = False) -> None:
    """A closed band hanging from a garment, cut through: sewn on outside, its pressed edge covering the seam inside.

    It is stitched in the groove. The edge of a lining may be held in between.
    """
    more = 12 if lining else 0
    it.layer(moved("M18 8V150", x, y))
    if lining:
        it.layer(moved("M30 8V150", x, y), "lining")
    it.layer(
        moved(
            f"M6 156V128Q6 118 0 118T-6 128V194Q-6 212 {14 + more / 2} 212"
            f"T{34 + more} 194V112Q{34 + more} 100 "
            f"{31 + more / 2} 100T{28 + more / 4} 106",
            x,
            y,
        )
    )
    it.stitch(moved(f"M-28 112H{60 + more}", x, y))


def band_above(it: Picture, x: float, y: float, channel: bool = True) -> None:
    """A closed band on top of a garment, its pressed edge covering the seam on the inside (right)."""
    it.layer(moved("M18 96V200", x, y))
    it.layer(moved("M6 92V110Q6 122 0 122T-6 110V40Q-6 20 16 20T38 40V122Q38 134 34 134T30 128", x, y))
    it.stitch(moved("M-30 128H66", x, y))
    if channel:
        it.layer(moved("M16 46V84", x, y), "elastic")


def lap(it: Picture, *, snap: bool = False) -> None:
    """An edge that laps over a strip, cut through.

    From the right the upper edge with its strip turned under it, from the left the lower edge with a strip that stands
    out.
    """
    it.layer("M346 84H198Q184 84 184 91T198 98H268")
    it.layer("M14 128H168Q180 128 180 135T168 142H130")
    it.layer("M130 156H268Q282 156 282 163T268 170H130")
    it.line("M176 142V156", 3)
    if snap:
        it.cloth("M204 78Q228 52 252 78ZM214 104H242V114H214Z")
        it.line("M228 78V106M228 150V176", 3)
        it.cloth("M210 150Q228 128 246 150ZM212 176H244V184H212Z")


def sides(it: Picture, inside: str, *, gap: bool = False, end: str = "hem") -> None:
    """A side sewn in one go: the outer cloth below, the inside layer folded up above it, armhole seams between them."""
    it.cloth("M120 226L114 190L122 160L114 130L240 122V226Z", "wrong")
    it.cloth("M120 14L114 46L122 80L114 108V130L240 122V14Z", "wrong" if inside == "facing" else "lining-wrong")
    it.stitch("M229 226V96M229 50V14" if gap else "M229 226V14")
    it.arrow("M258 200V146")
    it.arrow("M258 92V30")
    it.word(176, 184, "outer cloth", plate=True)
    it.word(172, 66, inside, plate=True)
    it.word(58, 128, "armhole\nseams", to=(136, 128))
    if gap:
        it.word(310, 78, "gap", to=(231, 73))
    it.word(304, 226, end, to=(242, 222))


def band_in_tube(it: Picture, thing: str, *, seam: bool) -> None:
    """A band within a garment turned inside out, right sides together, sewn from the garment's wrong side."""
    ring(it, 180, 134, 126, 130, "wrong", "wrong")
    it.line("M180 104V234" if seam else "M180 104V114", 1.6 if seam else 2.6)
    it.stitch("M54 84Q54 119 180 119T306 84")
    for x, y in ((80, 78), (180, 96), (280, 78)):
        it.pin(x, y, 90, 26)
    it.word(180, 68, "band inside", plate=True)
    it.word(180, 24, "raw edges together")
    it.word(110, 176, thing, plate=True)
    it.word(248, 196, "centre back", to=(182, 176 if seam else 116), plate=True)


def stitched_across(it: Picture) -> None:
    """A finished waist with its elastic, seen from the back: stitched across at the sides and at centre back."""
    it.cloth("M50 70Q180 92 310 70L316 128Q180 150 44 128Z")
    it.cloth("M44 128Q180 150 316 128L336 226H24Z")
    for x, lean in ((84, -3), (112, -2), (146, -1), (214, 1), (248, 2), (276, 3)):
        it.line(f"M{x} {86 + abs(lean)}V{118 + abs(lean)}M{x + lean} 152L{x + 3 * lean} 196")
    it.stitch("M58 76V127M180 84V137M302 76V127")
    it.word(180, 56, "centre back", to=(180, 82))
    it.word(52, 46, "side", to=(58, 72))
    it.word(308, 46, "side", to=(302, 72))
    it.word(180, 190, "back")


def ring(it: Picture, x: float, y: float, wide: float, high: float, face: str, inside: str) -> None:
    """A ring of cloth that stands upright: its middle, half its width, its height."""
    deep = wide * 0.28
    left, right, top, low = x - wide, x + wide, y - high / 2, y + high / 2
    it.cloth(
        f"M{left} {top}Q{left} {top - deep} {x} {top - deep}T{right} {top}"
        f"Q{right} {top + deep} {x} {top + deep}"
        f"T{left} {top}Z",
        inside,
    )
    it.cloth(
        f"M{left} {top}Q{left} {top + deep} {x} {top + deep}T{right} {top}V{low}"
        f"Q{right} {low + deep} {x} "
        f"{low + deep}T{left} {low}Z",
        face,
    )


def ring_on_tube(it: Picture, tube: str, band: str, seam: str) -> None:
    """A folded ring drawn over the end of a tube, raw edges together, pinned at the quarters and stretched."""
    it.cloth("M96 16H264V206Q180 226 96 206Z")
    it.line("M180 16V70", 1.4)
    it.cloth("M84 78Q180 98 276 78L266 206Q180 226 94 206Z", "rib")
    it.line("M180 90V216", 1.4)
    it.stitch("M95 190Q180 210 265 190")
    for x, y in ((132, 214), (180, 220), (228, 214)):
        it.pin(x, y + 4, -90)
    it.arrow("M166 142H112")
    it.arrow("M194 142H248")
    it.word(158, 50, tube, "end")
    it.word(180, 126, "stretch", plate=True)
    it.word(52, 130, band, to=(92, 130))
    it.word(312, 42, seam, to=(182, 60))
    it.word(312, 206, "raw\nedges", to=(268, 204))


def ring_with_gap(it: Picture) -> None:
    """A band sewn to a ring, wrong side out, with a gap in the seam for the elastic."""
    ring(it, 150, 112, 118, 96, "wrong", "right")
    it.fold("M32 112Q32 145 150 145T268 112")
    it.stitch("M150 104V138M150 172V190")
    it.red("M144 144H156M144 170H156", 2)
    it.word(312, 60, "fold", to=(262, 128))
    it.word(312, 180, "gap", to=(153, 157), plate=True)
    it.word(120, 228, "this half lies inside", to=(90, 164))


def pressed_band(it: Picture) -> None:
    """A band being folded, cut through: one long edge pressed over, then the whole so that it covers the line."""
    it.layer("M120 206V52Q120 24 146 24T172 52V178Q172 194 163 194T154 178V160")
    it.fold("M84 24H196")
    it.sewn("M92 182H200")
    it.word(272, 29, "fold: the top")
    it.word(276, 204, "pressed edge just\ncovers the line", to=(176, 186))
    it.word(64, 224, "raw edge", to=(116, 204))
    it.arrow("M214 60Q240 110 190 150")
    it.word(62, 120, "right side", to=(114, 116))


def elastic_in(it: Picture) -> None:
    """An elastic pulled through a band with a safety pin, and lapped."""
    it.cloth("M20 40H340V104H20Z")
    it.cloth("M20 52H196V86H20Z", "elastic")
    it.line("M20 98H340", 1)
    it.line("M240 64H206M240 74H206M206 64C196 62 196 76 206 74", 2)
    it.cloth("M238 60H248Q256 69 248 78H238Z")
    it.arrow("M262 69H322")
    it.word(104, 74, "elastic")
    it.word(250, 26, "safety pin", to=(224, 60))
    it.cloth("M40 164H220V196H40Z", "elastic")
    it.cloth("M140 160H330V192H140Z", "elastic")
    it.stitch("M148 166H212V188H148ZL212 188M212 166L148 188")
    it.word(180, 146, "lap, sew a square with a cross")
    it.word(180, 228, "not twisted")


def strip_ends(it: Picture, *, seam: bool) -> None:
    """A strip folded along its length with its ends sewn, and the same strip turned; a seam in its middle, or marks."""
    it.cloth("M24 50H336V100H24Z", "wrong")
    it.fold("M16 50H344")
    if seam:
        it.line("M180 50V100", 1.6)
    it.stitch("M36 52V100M324 52V100")
    it.word(72, 32, "fold")
    if seam:
        it.red("M24 60L34 50M336 60L326 50", 2.4)
        it.word(270, 32, "trim corners", to=(329, 52))
    it.word(180, 126, "sew the short ends")
    it.cloth("M36 160H324V204H36Z", "right" if seam else "rib")
    it.line("M36 199H324")
    if seam:
        it.line("M180 160V204", 1.6)
    else:
        for x in (108, 180, 252):
            it.red(f"M{x} 196V208", 3)
    it.word(142, 186, "turned")
    if seam:
        it.word(180, 230, "raw double edge", to=(180, 205))
    else:
        it.word(180, 230, "mark middle and quarters")
