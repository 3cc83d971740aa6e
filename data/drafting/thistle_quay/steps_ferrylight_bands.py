"""Ferrylight's pockets, bands and closures, drawn. How the drawings speak: :mod:`.step_kit`."""

from __future__ import annotations

from .step_kit import Picture
from .step_parts import band_below


def waist_band_on() -> Picture:
    it = Picture(
        "The waist band on the lower edge of the jacket, right sides together, wrong side of the band "
        "up: it reaches beyond each front edge; its other long edge is pressed over"
    )
    it.cloth("M36 14H324V196H36Z")
    it.cloth("M18 96H342V196H18Z", "wrong")
    it.dots("M20 148H340V194H20Z")
    it.cloth("M18 96H342V110H18Z")
    it.fold("M18 146H342")
    it.stitch("M36 182H324")
    for x in (104, 180, 256):
        it.notch(x, 196, -90)
    it.word(180, 60, "jacket, right side")
    it.word(180, 134, "waist band", plate=True)
    it.word(180, 220, "centre back")
    it.word(104, 220, "side")
    it.word(256, 220, "side")
    it.word(284, 82, "pressed", to=(284, 104))
    it.word(66, 82, "fold", to=(56, 145))
    return it


def close_the_waist_band() -> Picture:
    it = Picture(
        "An end of the waist band, folded right sides together and sewn level with the front edge; "
        "beside it the closed band cut through: the pressed edge covers the seam on the inside"
    )
    it.cloth("M52 14H164V112H52Z")
    it.cloth("M34 112H164V190H34Z", "wrong")
    it.cloth("M34 112H164V124H34Z")
    it.stitch("M52 190V112")
    it.red("M34 182L44 192", 2.4)
    it.word(108, 64, "jacket")
    it.word(106, 162, "band", plate=True)
    it.word(94, 226, "sew the end", to=(54, 184))
    band_below(it, 250, 0)
    it.word(320, 60, "inside")
    it.word(214, 60, "outside")
    it.word(318, 228, "fold", to=(274, 206))
    return it


def sleeve_bands_on() -> Picture:
    it = Picture(
        "The gathered end of the sleeve on the band, right sides together, wrong side of the sleeve up:"
        " both threads are drawn up until the sleeve is as long as the band, then it is sewn beside "
        "them"
    )
    it.cloth("M70 40H290V190H70Z")
    sleeve = (
        "M40 20H320Q296 90 290 184Q276 178 262 184T234 184T206 184T180 184T152 184T124 184T98 184T70 184Q64 90 40 20Z"
    )
    it.cloth(sleeve, "wrong")
    it.line(
        "".join(
            f"M{x} 164Q{x + lean} 130 {x + 2 * lean} 104"
            for x, lean in ((90, -5), (112, -3), (138, -2), (164, -1), (196, 1), (222, 2), (248, 3), (270, 5))
        )
    )
    it.line("M72 176H314M72 168H314")
    it.stitch("M70 158H290")
    it.line("M180 20V184", 1.6)
    it.arrow("M316 172H344")
    it.word(180, 80, "sleeve", plate=True)
    it.word(248, 226, "band below", to=(268, 188))
    it.word(90, 226, "underarm seam", to=(178, 178))
    return it


def close_the_sleeve_bands(lining: bool = False) -> Picture:
    also = ", the lining's edge held in between" if lining else ""
    it = Picture(
        "The closed sleeve band, cut through: folded along its middle, the pressed edge on the inside "
        f"covers the seam{also}; stitched in the groove"
    )
    band_below(it, 164, 6, lining)
    it.word(90, 60, "sleeve", to=(176, 56))
    if lining:
        it.word(270, 60, "lining", to=(200, 56))
    it.word(74, 178, "outside")
    it.word(286, 178, "inside")
    it.word(294, 106, "stitch here", to=(230, 116))
    it.word(96, 228, "fold", to=(168, 214))
    return it


def close_the_lined_sleeve_bands() -> Picture:
    return close_the_sleeve_bands(lining=True)


def hem_the_pockets() -> Picture:
    it = Picture(
        "First the top of the pocket is folded over, right sides together, and both short sides are "
        "sewn; then, turned, it is a hem, stitched down, and the lower corners are drawn up over "
        "cardboard"
    )
    it.cloth("M30 70H150V170Q150 206 116 206H64Q30 206 30 170Z")
    it.cloth("M30 70H150V104H30Z", "wrong")
    it.stitch("M40 74V104M140 74V104")
    it.fold("M26 70H154")
    it.arrow("M166 36Q178 62 158 92")
    it.word(90, 50, "fold, sew sides")
    it.word(90, 150, "right side")
    it.cloth("M212 70H328V172Q328 206 296 206H244Q212 206 212 172Z", "wrong")
    it.cloth("M214 72H326V104H214Z")
    it.stitch("M213 98H327")
    it.sewn("M218 160V172Q218 200 246 200H294Q322 200 322 172V160")
    it.red("M230 112H310V168Q310 188 294 188H246Q230 188 230 168Z", 1.4)
    it.word(270, 50, "turn, stitch down")
    it.word(270, 146, "cardboard", plate=True)
    it.word(180, 232, "draw the thread up round the corners", to=(226, 190))
    return it


def line_the_pockets() -> Picture:
    it = Picture(
        "Pocket and lining right sides together: the seam near the top has a gap; lower edges meet, the"
        " top folds over, and sides and bottom are sewn in one go"
    )
    it.cloth("M112 40H248V176Q248 214 210 214H150Q112 214 112 176Z")
    it.cloth("M112 76H248V176Q248 214 210 214H150Q112 214 112 176Z", "lining-wrong")
    it.cloth("M112 40H248V76H112Z", "wrong")
    it.fold("M106 40H254")
    it.stitch("M112 76H158M202 76H248")
    it.stitch("M121 44V176Q121 205 150 205H210Q239 205 239 176V44")
    it.word(72, 44, "fold", to=(110, 40))
    it.word(306, 64, "pocket", to=(244, 58))
    it.word(306, 150, "lining", to=(244, 144))
    it.word(56, 118, "gap", to=(176, 78))
    it.word(180, 24, "right sides together")
    return it


def pockets_on() -> Picture:
    it = Picture(
        "The pocket on the front, both right side up: stitched down one side, round the bottom and up "
        "the other, with a small triangle at each upper corner"
    )
    it.cloth("M16 16H344V224H16Z", edge="#fff")
    it.cloth("M112 56H248V160Q248 200 208 200H152Q112 200 112 160Z")
    it.sewn("M112 84H248")
    it.stitch("M118 57V160Q118 194 152 194H208Q242 194 242 160V57")
    it.stitch("M118 84L141 61H118M242 84L219 61H242")
    it.arrow("M96 84V140")
    it.arrow("M264 140V84")
    it.word(180, 132, "pocket")
    it.word(180, 30, "triangles take the pull", to=(132, 62))
    it.line("M228 34L230 62", 1)
    it.word(60, 190, "front")
    it.word(300, 190, "front")
    return it


def buttonholes() -> Picture:
    it = Picture(
        "A front edge with the button line: the buttonholes run across the edge; each begins a little "
        "beyond the button line, towards the edge"
    )
    it.cloth("M14 20H346V196H14Z")
    it.sewn("M14 186H346")
    it.chalk("M14 142H346")
    for x in (80, 180, 280):
        it.red(f"M{x - 4} 92H{x + 4}M{x} 92V152M{x - 4} 152H{x + 4}", 3)
    it.word(180, 220, "front edge")
    it.word(130, 66, "hole", to=(176, 100))
    it.word(130, 176, "a bit beyond", to=(178, 150))
    it.word(284, 60, "button line", to=(320, 142))
    return it


def snaps() -> Picture:
    it = Picture(
        "Both fronts cut through at a snap: cap on the right side of the upper front, the lower half "
        "looks up from the front below; each sits in cloth, two layers of interfacing and facing"
    )
    it.layer("M226 92H60Q46 92 46 79T60 66H340")
    it.layer("M134 174H300Q314 174 314 161T300 148H20")
    it.line("M62 76H220M62 82H220M140 158H298M140 164H298", 1)
    it.cloth("M156 60Q180 34 204 60Z")
    it.line("M180 60V98M180 142V178", 3)
    it.cloth("M166 98H194V108H166Z")
    it.cloth("M164 142Q180 122 196 142ZM164 180H196V188H164Z")
    it.word(180, 26, "cap on the right side")
    it.word(290, 50, "upper front")
    it.word(70, 134, "lower front", to=(60, 146))
    it.word(92, 220, "facing", to=(150, 176))
    it.word(266, 220, "interfacing", to=(240, 161))
    return it


STEPS = {
    one.__name__.replace("_", "-"): one
    for one in (
        waist_band_on,
        close_the_waist_band,
        sleeve_bands_on,
        close_the_sleeve_bands,
        close_the_lined_sleeve_bands,
        hem_the_pockets,
        line_the_pockets,
        pockets_on,
        buttonholes,
        snaps,
    )
}
"""The drawings by the names of their files."""
