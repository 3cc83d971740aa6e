"""Ferrylight's steps, drawn. How the drawings speak: :mod:`.step_kit`."""

from __future__ import annotations

from .step_kit import Picture, beside, both, joined, mirrored, moved, part, runs, turned
from .step_parts import double_hem, sides
from .steps_ferrylight_bands import STEPS as BAND_STEPS
from .steps_ferrylight_neck import STEPS as NECK_STEPS


def mark_and_interface() -> Picture:
    it = Picture(
        "Both fronts and the back neck facing, wrong side up: interfacing on a strip along each front "
        "edge and on the whole facing"
    )
    front = "M92 34L44 50Q66 92 36 112V214H120V86Q98 74 92 34Z"
    for turn in (str, lambda path: mirrored(path, 128)):
        it.cloth(turn(front), "wrong")
        it.dots(turn("M100 74L114 84V212H98V74Z"))
        it.line(turn("M97 60V214"))
    neck = both("M292 116Q262 116 258 84L228 92Q236 160 292 162", 292)
    it.cloth(neck, "wrong")
    it.dots(neck)
    it.word(128, 20, "fronts")
    it.word(292, 62, "back neck\nfacing")
    it.word(128, 233, "front edges")
    return it


def sleeve_into_armhole() -> Picture:
    it = Picture(
        "A look into the armhole: the sleeve lies in it, right sides together; crown at the shoulder "
        "seam, notches on notches, underarm seam at the side seam; the lower half is sewn twice"
    )
    it.cloth("M70 236V70C70 10 290 10 290 70V236Z", "wrong")
    it.line("M180 26V50M180 214V236", 1.6)
    it.cloth(
        "M180 48C236 48 252 104 248 142C244 186 218 216 180 216C142 216 116 186 112 142C108 104 124 48 180 48Z", "wrong"
    )
    it.line("M180 76C218 76 226 112 224 142C220 172 206 190 180 190C154 190 140 172 136 142C134 112 142 76 180 76Z")
    it.line("M180 182V216", 1.6)
    it.stitch("M180 59C228 59 242 108 238 142C234 180 212 206 180 206C148 206 126 180 122 142C118 108 132 59 180 59Z")
    it.stitch("M243 156C234 192 212 212 180 212C148 212 126 192 117 156")
    for x, y, way in ((180, 48, 90), (249, 128, 180), (111, 128, 0)):
        it.notch(x, y, way, 10)
    it.pin(156, 42, 80)
    it.pin(204, 42, 100)
    it.pin(122, 66, 40)
    it.pin(238, 66, 140)
    it.word(180, 18, "shoulder seam, crown")
    it.word(180, 130, "into the\nsleeve", plate=True)
    it.word(256, 133, "notch", "start", plate=True)
    it.word(104, 133, "notch", "end", plate=True)
    it.word(270, 228, "side seam", to=(182, 224), plate=True)
    return it


def face_the_armholes() -> Picture:
    it = Picture(
        "The ring of the armhole facing on the armhole, right sides together, seam on seam and notch on"
        " notch, sewn all round, clipped on the curve"
    )
    it.cloth("M106 6H254Q292 60 326 236H34Q68 60 106 6Z")
    it.cloth(
        "M180 34C250 34 268 96 262 140C256 196 226 222 180 222C134 222 104 196 98 140C92 96 110 34 180 34Z", "wrong"
    )
    it.cloth("M180 66C224 66 236 104 232 138C228 174 208 192 180 192C152 192 132 174 128 138C124 104 136 66 180 66Z")
    it.line("M180 6V66M180 192V236", 1.6)
    it.stitch("M180 54C236 54 248 102 243 139C238 182 214 203 180 203C146 203 122 182 117 139C112 102 124 54 180 54Z")
    for x, y, way in (
        (132, 162, 160),
        (146, 182, 130),
        (166, 191, 105),
        (194, 191, 75),
        (214, 182, 50),
        (228, 162, 20),
    ):
        it.notch(x, y, way, 7)
    it.word(180, 132, "armhole")
    it.word(312, 40, "shoulder", to=(182, 24))
    it.word(256, 226, "side", to=(182, 230))
    it.word(38, 90, "facing", to=(106, 112))
    it.word(76, 228, "clip", to=(148, 184))
    return it


def armholes_of_the_lining() -> Picture:
    it = Picture(
        "The lining on the jacket, right sides together, fronts and back spread out with the shoulders "
        "between them: both armholes are sewn; then each front is pulled through its shoulder to the "
        "back"
    )
    hole = "M84 66Q118 84 114 120Q110 156 70 172"
    half = joined("M180 222H70V172", turned(hole), "M84 66V14H166V76C140 84 140 130 180 134", closed=False)
    it.cloth(moved(both(half), -5, -4))
    it.cloth(both(half), "lining-wrong")
    it.line("M114 120L152 108M246 120L208 108")
    it.sewn("M159 14V70C130 82 130 138 180 141C230 138 230 82 201 70V14")
    for turn in (str, mirrored):
        it.stitch(turn(beside(hole, -9)))
        it.arrow(turn("M128 40C140 90 136 120 132 178"))
    for x, y, way in ((106, 82, 150), (113, 104, 170), (110, 138, 190), (96, 158, 230)):
        it.notch(x, y, way, -7)
        it.notch(360 - x, y, 180 - way, -7)
    it.word(180, 196, "back", plate=True)
    it.word(40, 44, "front", to=(88, 40))
    it.word(320, 44, "front", to=(272, 40))
    it.word(52, 122, "shoulder", to=(118, 119))
    it.word(312, 126, "clip", to=(247, 104))
    return it


def sides_in_one_go(gap: bool = True) -> Picture:
    where = ", with a gap in the lining" if gap else ""
    it = Picture(
        "Outer cloth on outer cloth below, lining on lining folded up above, armhole seams on each "
        "other: one seam from the lower edge of the outer cloth to the armhole and on to the lower edge"
        f" of the lining{where}"
    )
    sides(it, "lining", gap=gap, end="hem" if gap else "lower edge")
    return it


def sides_above_the_band() -> Picture:
    return sides_in_one_go(gap=False)


def sew_the_hem() -> Picture:
    it = Picture(
        "The lower end of jacket and lining, right sides together: each facing is sewn to the front "
        "along the hem line, and between the facings the lining to the edge of the hem allowance"
    )
    it.cloth("M20 20H340V216H276V190L272 186H332L340 178V20H20V178L28 186H88L84 190V216H276V216H20Z", edge="#fff")
    it.cloth("M20 20H340V176L332 186H276V214H84V186H28L20 176Z")
    it.cloth("M84 20H276V210H84Z", "lining-wrong")
    it.cloth("M20 20H84V172H20ZM276 20H340V172H276Z", "wrong")
    it.fold("M84 164H276")
    it.stitch("M22 164H84M276 164H338M84 200H276")
    it.word(180, 110, "lining", plate=True)
    it.word(52, 80, "facing", plate=True)
    it.word(308, 80, "facing", plate=True)
    it.word(180, 154, "hem line", plate=True)
    it.word(42, 220, "trim", to=(30, 184))
    it.word(318, 220, "trim", to=(330, 184))
    it.word(180, 234, "hem allowance")
    return it


def press_the_hem() -> Picture:
    it = Picture(
        "The hem cut through: the jacket is folded up on its hem line, the lining hangs from the edge "
        "of the hem allowance and lies in a soft fold over it"
    )
    it.layer("M130 8V196Q130 214 147 214T164 196V100")
    it.layer("M177 100V172Q177 190 193 190T209 172V8", "lining")
    it.stitch("M158 108H183")
    it.word(70, 60, "jacket", to=(124, 56))
    it.word(270, 60, "lining", to=(215, 56))
    it.word(270, 124, "seam", to=(181, 108))
    it.word(284, 196, "soft fold", to=(204, 186))
    it.word(68, 220, "hem line", to=(136, 210))
    it.word(76, 160, "hem", to=(160, 156))
    return it


def hem() -> Picture:
    it = Picture("The hem cut through: folded up on the hem line, its edge turned in, stitched beside the inner fold")
    double_hem(it)
    it.word(64, 50, "right side", to=(144, 46))
    it.word(246, 50, "wrong side", to=(156, 46))
    it.word(68, 214, "hem line", to=(156, 209))
    it.word(268, 78, "edge turned in", to=(182, 86))
    it.word(264, 130, "stitch here", to=(204, 98))
    return it


def facing_at_the_hem() -> Picture:
    it = Picture(
        "The lower corner of a front: the facing folded back on it, right sides together, sewn along "
        "the hem line; the front's allowance is trimmed there and the corner cut"
    )
    it.cloth("M60 14H330V212H170V180H74L60 166Z")
    it.cloth("M60 14H170V180H74L60 166Z", "wrong")
    it.fold("M170 158H330")
    it.stitch("M62 158H170")
    it.red("M60 166L74 180H170V212", 2.6)
    it.word(118, 110, "facing", plate=True)
    it.word(250, 90, "front")
    it.word(258, 148, "hem line")
    it.word(92, 222, "trim, cut the corner", to=(100, 182))
    return it


def pleat_in_the_lining() -> Picture:
    it = Picture(
        "The back lining folded along its pleat line, right sides together: the pleat is stitched for a"
        " little at the top and at the lower edge, and loose between"
    )
    it.cloth("M126 34Q146 40 158 26L236 46Q220 90 254 116V216H126Z", "lining-wrong")
    it.stitch("M158 28V76M158 216V192")
    it.fold("M126 26V224")
    it.word(62, 120, "pleat line,\nfolded", to=(124, 124))
    it.word(292, 60, "stitch", to=(160, 62))
    it.word(206, 150, "loose", to=(146, 136), plate=True)
    it.word(304, 206, "stitch", to=(160, 204))
    return it


def sleeve_hem_to_lining() -> Picture:
    it = Picture(
        "The ends of sleeve and lining sleeve, both wrong side out, put together like two hands: right "
        "sides facing, underarm seam on underarm seam, sewn all round"
    )
    it.cloth("M14 34L158 64Q164 64 168 44H180V184H168Q164 168 158 166L14 196Z", "wrong")
    it.cloth("M346 34L202 64Q196 64 192 44H180V184H192Q196 168 202 166L346 196Z", "lining-wrong")
    it.line("M14 150L160 138L180 142L200 138L346 150", 1.6)
    it.stitch("M180 62V170")
    it.word(76, 100, "sleeve", plate=True)
    it.word(284, 100, "lining", plate=True)
    it.word(180, 28, "edges together")
    it.word(180, 222, "underarm seams meet", to=(180, 143))
    return it


def sleeve_seams() -> Picture:
    it = Picture(
        "A sleeve laid open, right side up: two threads run inside the allowance over the sleeve head, from "
        "notch to notch; below, both edges meet in the underarm seam"
    )
    head = "M28 150C58 116 84 40 180 40"
    it.cloth(both("M180 236H62L28 150" + head.removeprefix("M28 150")))
    above = part(head, 0.45, 1)
    (place,), *_ = runs(above)[0]
    for turn in (str, mirrored):
        it.red(turn(beside(above, 7) + beside(above, 15)), 1.8)
        it.notch(place.real if turn is str else 360 - place.real, place.imag, 45 if turn is str else 135, 8)
        it.arrow(turn("M70 196H112"))
    it.notch(180, 40, 90, 9)
    it.word(180, 28, "crown")
    it.word(40, 76, "notch", to=(place.real, place.imag))
    it.word(320, 76, "notch", to=(360 - place.real, place.imag))
    it.word(180, 100, "two threads", to=(180, 57))
    it.word(180, 192, "underarm edges\nmeet")
    return it


def stop_the_facing_seam() -> Picture:
    it = Picture(
        "The lower end of a front, facing and lining sewn together, wrong side up: the seam stops at the mark a "
        "little above the hem line of the facing"
    )
    it.cloth("M60 14H160V220H60Z", "wrong")
    it.cloth("M160 14H310V206H160Z", "lining-wrong")
    it.fold("M60 184H160")
    it.stitch("M160 14V164")
    it.red("M152 164H168", 3)
    it.ring(160, 164, 14)
    it.word(108, 80, "facing", plate=True)
    it.word(240, 80, "lining", plate=True)
    it.word(256, 152, "stop, secure", to=(174, 162), plate=True)
    it.word(244, 230, "hem line of the facing", to=(150, 185))
    return it


STEPS = (
    {
        one.__name__.replace("_", "-"): one
        for one in (
            sleeve_seams,
            stop_the_facing_seam,
            mark_and_interface,
            sleeve_into_armhole,
            face_the_armholes,
            armholes_of_the_lining,
            sides_in_one_go,
            sides_above_the_band,
            sew_the_hem,
            press_the_hem,
            hem,
            facing_at_the_hem,
            pleat_in_the_lining,
            sleeve_hem_to_lining,
        )
    }
    | NECK_STEPS
    | BAND_STEPS
)
"""The drawings by the names of their files."""
