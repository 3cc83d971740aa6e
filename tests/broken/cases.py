"""Broken pattern folders: for each, how the good folder `base/` is broken, and every message that must come of it.

A change is (old, new): the first `old` in the file becomes `new`. `LINK`, `RENAME`, `REMOVE` and `WHOLE` say what else
can happen to a file or folder. Messages name files from the data folder on. Long because it is one table.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

YAML: Final = "patterns/plain/pattern.yaml"
SVG: Final = "patterns/plain/pieces.svg"
STEPS: Final = "patterns/plain/steps.md"
CHART: Final = "body_charts/boxes.csv"
FOLDER: Final = "patterns/plain"

REMOVE: Final = "remove"
LINK: Final = "link to"
RENAME: Final = "rename to"
WHOLE: Final = "replace all by"

Change = tuple[str | bytes, str | bytes]


@dataclass(frozen=True, kw_only=True)
class Broken:
    """One broken folder. `code` is the error it is an example of; `messages` are all that must be said, in order."""

    name: str
    code: str
    changes: Mapping[str, tuple[Change, ...]]
    messages: tuple[str, ...]


BOMB: Final = (
    '<!DOCTYPE svg [\n<!ENTITY a "aaaaaaaaaa">\n'
    + "".join(f'<!ENTITY {chr(98 + at)} "{("&" + chr(97 + at) + ";") * 10}">\n' for at in range(12))
    + "]>\n"
)
"""Thirteen entities, each ten times the one before: 10,000,000,000,000 letters when expanded."""

CASES: Final = (
    Broken(
        name="drawing missing",
        code="missing-file",
        changes={SVG: ((REMOVE, ""),)},
        messages=(
            (
                "patterns/plain/pieces.svg:1:1: [missing-file] "
                "seen no readable file `pieces.svg`; "
                "expected the outlines of all pieces; "
                "add `pieces.svg`"
            ),
        ),
    ),
    Broken(
        name="description missing",
        code="missing-file",
        changes={YAML: ((REMOVE, ""),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:1:1: [missing-file] "
                "seen no readable file `pattern.yaml`; "
                "expected the description of the pattern; "
                "add `pattern.yaml`"
            ),
        ),
    ),
    Broken(
        name="chart missing",
        code="missing-file",
        changes={YAML: (("body_chart: boxes", "body_chart: boxs"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:8:13: [missing-file] "
                "seen the body chart `boxs`, which is not in `body_charts`; "
                "expected one of `boxes`; "
                "did you mean `boxes`?"
            ),
        ),
    ),
    Broken(
        name="chart above the data folder",
        code="unsafe-path",
        changes={YAML: (("body_chart: boxes", "body_chart: ../../secrets"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:8:13: [unsafe-path] "
                "seen `../../secrets`; "
                "expected the bare name of a file in `body_charts`; "
                "write the name without folders and without `.csv`"
            ),
        ),
    ),
    Broken(
        name="chart by an absolute name",
        code="unsafe-path",
        changes={YAML: (("body_chart: boxes", "body_chart: /etc/passwd"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:8:13: [unsafe-path] "
                "seen `/etc/passwd`; "
                "expected the bare name of a file in `body_charts`; "
                "write the name without folders and without `.csv`"
            ),
        ),
    ),
    Broken(
        name="drawing is a link",
        code="unsafe-path",
        changes={SVG: ((LINK, "/etc/hostname"),)},
        messages=(
            (
                "patterns/plain/pieces.svg:1:1: [unsafe-path] "
                "seen `pieces.svg`, a link that leads out of the data folder; "
                "expected a file of its own; "
                "put the file itself there"
            ),
        ),
    ),
    Broken(
        name="folder is a link",
        code="unsafe-path",
        changes={FOLDER: ((LINK, "/"),)},
        messages=(
            (
                "patterns/plain:1:1: [unsafe-path] "
                "seen `plain`, which leads somewhere else; "
                "expected a folder of its own for the pattern; "
                "put the pattern's folder itself there"
            ),
        ),
    ),
    Broken(
        name="too large",
        code="too-large",
        changes={STEPS: (("Press every seam.", "Press every seam. " * 40_000),)},
        messages=(
            (
                "patterns/plain/steps.md:1:1: [too-large] "
                "seen 720110 bytes; "
                "expected at most 128000 bytes; "
                "take out of `steps.md` what does not belong there"
            ),
        ),
    ),
    Broken(
        name="latin letters in another encoding",
        code="not-utf-8",
        changes={STEPS: ((b"Sew it by hand.", b"Sew the fa\xe7ade by hand."),)},
        messages=(
            (
                "patterns/plain/steps.md:12:11: [not-utf-8] "
                "seen the byte 0xE7; "
                "expected UTF-8 text; "
                "save the file as text with the encoding UTF-8"
            ),
        ),
    ),
    Broken(
        name="drawing compressed",
        code="binary",
        changes={SVG: ((WHOLE, b"\x1f\x8b\x08\x00binary\x00"),)},
        messages=(
            (
                "patterns/plain/pieces.svg:1:1: [binary] "
                "seen a compressed file; "
                "expected UTF-8 text; "
                "export it as text; this file is kept in the form of some other program"
            ),
        ),
    ),
    Broken(
        name="control character",
        code="not-utf-8",
        changes={YAML: (("summary: Two", "summary: T\x07wo"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:3:11: [not-utf-8] "
                "seen the control character U+0007; "
                "expected text; "
                "save the file as text with the encoding UTF-8, or delete the character"
            ),
        ),
    ),
    Broken(
        name="folder's name",
        code="bad-name",
        changes={FOLDER: ((RENAME, "Plain_Coat"),)},
        messages=(
            (
                "patterns/Plain_Coat:1:1: [bad-name] "
                "seen the folder `Plain_Coat`; "
                "expected lower-case words joined by hyphens, like `harbour-coat`; "
                "rename the folder"
            ),
        ),
    ),
    Broken(
        name="piece's name",
        code="bad-name",
        changes={YAML: (("  front:\n    title: Front\n", "  Front Panel:\n    title: Front\n"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:40:3: [bad-name] "
                "seen `Front Panel`; "
                "expected a piece's name like `front`, or `as:` and a role; "
                "rename it"
            ),
        ),
    ),
    Broken(
        name="bracket left open",
        code="syntax",
        changes={YAML: (('sizes: ["80", "92"]', 'sizes: ["80", "92"'),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:9:8: [syntax] "
                "seen a `[` that is not closed; "
                "expected YAML text; "
                "add the `]`, or the comma that is missing"
            ),
        ),
    ),
    Broken(
        name="tag",
        code="syntax",
        changes={YAML: (("minutes: 60", "minutes: !!python/object/apply:os.system 60"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:7:10: [syntax] "
                "seen the tag `!!python/object/apply:os.system`; "
                "expected plain text or a number; "
                "delete the word that begins with `!`"
            ),
        ),
    ),
    Broken(
        name="alias",
        code="syntax",
        changes={
            YAML: (("summary: Two rectangles and a band, to be broken by the tests.", "summary: &a Two\nedition: *a"),)
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:3:10: [syntax] "
                "seen an anchor (&) or alias (*); "
                "expected YAML text; "
                "write the text out twice"
            ),
        ),
    ),
    Broken(
        name="indent",
        code="syntax",
        changes={YAML: (("    title: Band\n    when", "   title: Band\n    when"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:71:9: [syntax] "
                "seen a colon where none can be; "
                "expected YAML text; look at the indent; "
                "quote texts with `: `"
            ),
        ),
    ),
    Broken(
        name="tab",
        code="syntax",
        changes={YAML: (("    title: Band\n    when", "\ttitle: Band\n    when"),)},
        messages=(("patterns/plain/pattern.yaml:70:1: [syntax] seen a tab; expected YAML text; indent with spaces"),),
    ),
    Broken(
        name="key twice",
        code="duplicate-key",
        changes={YAML: (("garment: top\n", "garment: top\nname: Plain again\n"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:5:1: [duplicate-key] "
                "seen `name` a second time; "
                "expected it once (it stands in line 2 already); "
                "delete or rename one of the two"
            ),
        ),
    ),
    Broken(
        name="edge key twice",
        code="duplicate-key",
        changes={YAML: (("{name: top, from: top-centre}", "{name: top, from: top-centre, name: neck}"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:43:39: [duplicate-key] "
                "seen `name` a second time; "
                "expected it once (it stands in line 43 already); "
                "delete or rename one of the two"
            ),
        ),
    ),
    Broken(
        name="unknown key",
        code="unknown-key",
        changes={YAML: (("edges:", "egdes:"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:42:5: [unknown-key] "
                "seen the key `egdes`; "
                "expected one of `title`, `when`, `drawn`, `grain`, `stretch`, `in_step`, `edges`, `cut_offs`, `cut`, "
                "`copies`, "
                "`interfacing`; "
                "did you mean `edges`?"
            ),
        ),
    ),
    Broken(
        name="key of a role part",
        code="unknown-key",
        changes={YAML: (("  as:whole:\n", "  as:whole:\n    grain: bias\n"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:67:5: [unknown-key] "
                "seen the key `grain`; "
                "expected it only under the piece itself; under `as:…` only `edges`, `cut_offs`, `cut`, "
                "`copies`, `interfacing`; "
                "delete it"
            ),
        ),
    ),
    Broken(
        name="missing key",
        code="missing-key",
        changes={YAML: (("garment: top\n", ""),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:1:1: [missing-key] "
                "seen no `garment`; "
                "expected the key `garment`; "
                "add a line `garment: …`"
            ),
        ),
    ),
    Broken(
        name="missing nested key",
        code="missing-key",
        changes={YAML: (("{cloth: outer, mode: pair, count: 2}", "{cloth: outer, mode: pair}"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:60:9: [missing-key] "
                "seen no `count` in `pieces / as:opened / cut / no. 1`; "
                "expected the key `count`; "
                "add a line `count: …`"
            ),
        ),
    ),
    Broken(
        name="two edges without via",
        code="missing-key",
        changes={YAML: ((", via: low", ""),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:74:9: [missing-key] "
                "seen no `via`; "
                "expected the key `via`, because two edges alone do not say which way round they run; "
                "add `via:` and a point that lies on this edge"
            ),
        ),
    ),
    Broken(
        name="fold without edge",
        code="missing-key",
        changes={YAML: ((", fold_edge: centre", ""),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:68:9: [missing-key] "
                "seen no `fold_edge`; "
                "expected the key `fold_edge`, because the piece is cut on the fold; "
                "add `fold_edge:` and the edge"
            ),
        ),
    ),
    Broken(
        name="number for text",
        code="wrong-type",
        changes={YAML: (('sizes: ["80", "92"]', 'sizes: [80, "92"]'),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:9:9: [wrong-type] "
                "seen the number `80`; "
                "expected text; "
                'put it in quotes: "80"'
            ),
        ),
    ),
    Broken(
        name="text for number",
        code="wrong-type",
        changes={YAML: (("minutes: 60", "minutes: an hour"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:7:10: [wrong-type] "
                "seen the text `an hour`; "
                "expected a whole number; "
                "write a whole number for `minutes`"
            ),
        ),
    ),
    Broken(
        name="mapping for list",
        code="wrong-type",
        changes={YAML: (("rules:\n  - when", "rules:\n    when"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:30:5: [wrong-type] "
                "seen a mapping; "
                "expected a list; "
                "write a list for `rules`"
            ),
        ),
    ),
    Broken(
        name="word that is none",
        code="wrong-value",
        changes={YAML: (("mode: pair", "mode: pear"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:60:30: [wrong-value] "
                "seen the text `pear`; "
                "expected one of `single`, `pair`, `fold`; "
                "did you mean `pair`?"
            ),
        ),
    ),
    Broken(
        name="number out of bounds",
        code="wrong-value",
        changes={YAML: (("difficulty: 1", "difficulty: 6"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:6:13: [wrong-value] "
                "seen the number `6`; "
                "expected a whole number from 1 to 5; "
                "write a whole number from 1 to 5 for `difficulty`"
            ),
        ),
    ),
    Broken(
        name="range turned round",
        code="wrong-value",
        changes={YAML: (("[20, 180]", "[180, 20]"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:88:22: [wrong-value] "
                "seen `[180, 20]`; "
                "expected the smaller number first; "
                "write `[20, 180]`"
            ),
        ),
    ),
    Broken(
        name="rule that says two things",
        code="wrong-value",
        changes={YAML: (("    because: The band", "    advice: Take care.\n    because: The band"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:30:5: [wrong-value] "
                "seen `needs`, `advice`; "
                "expected exactly one of `needs`, `excludes`, `only_sizes`, `advice`; "
                "delete all but one"
            ),
        ),
    ),
    Broken(
        name="unknown size",
        code="unknown-size",
        changes={YAML: (('sizes: ["80", "92"]', 'sizes: ["80", "93"]'),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:9:15: [unknown-size] "
                "seen the size `93` of the body chart `boxes`; "
                "expected one of `80`, `92`, `104`; "
                "correct the name"
            ),
        ),
    ),
    Broken(
        name="unknown size in condition",
        code="unknown-size",
        changes={YAML: (("when: {band: two}\n    needs", 'when: {band: two, size: "104"}\n    needs'),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:30:29: [unknown-size] "
                "seen the size `104`; "
                "expected one of `80`, `92`; "
                "correct the word"
            ),
        ),
    ),
    Broken(
        name="unknown choice",
        code="unknown-choice",
        changes={YAML: (("needs: {opening: front}", "needs: {openning: front}"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:31:13: [unknown-choice] "
                "seen the choice `openning`; "
                "expected one of `opening`, `band`, `hem`, `size`; "
                "did you mean `opening`?"
            ),
        ),
    ),
    Broken(
        name="unknown choice in step",
        code="unknown-choice",
        changes={STEPS: (("when: {hem: hand}", "when: {hems: hand}"),)},
        messages=(
            (
                "patterns/plain/steps.md:10:8: [unknown-choice] "
                "seen the choice `hems`; "
                "expected one of `opening`, `band`, `hem`, `size`; "
                "did you mean `hem`?"
            ),
        ),
    ),
    Broken(
        name="unknown alternative",
        code="unknown-alternative",
        changes={
            YAML: (("gather_ratio: [0.5, 2], when: {band: two}", "gather_ratio: [0.5, 2], when: {band: [two, twoo]}"),)
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:80:117: [unknown-alternative] "
                "seen the alternative `twoo` of `band`; "
                "expected one of `none`, `two`; "
                "did you mean `two`?"
            ),
        ),
    ),
    Broken(
        name="unknown default",
        code="unknown-alternative",
        changes={YAML: (("default: machine", "default: maschine"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:27:14: [unknown-alternative] "
                "seen the alternative `maschine` of `hem`; "
                "expected one of `machine`, `hand`; "
                "did you mean `machine`?"
            ),
        ),
    ),
    Broken(
        name="unknown cloth",
        code="unknown-cloth",
        changes={YAML: (("{cloth: interfacing, area", "{cloth: interfaccing, area"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:65:17: [unknown-cloth] "
                "seen the cloth `interfaccing`; "
                "expected one of `outer`, `interfacing`; "
                "did you mean `interfacing`?"
            ),
        ),
    ),
    Broken(
        name="unknown role",
        code="unknown-role",
        changes={YAML: (("as:whole:", "as:hole:"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:66:3: [unknown-role] "
                "seen the role `hole`; "
                "expected one of `opened`, `whole`; "
                "did you mean `whole`?"
            ),
        ),
    ),
    Broken(
        name="unknown piece",
        code="unknown-piece",
        changes={YAML: (("join: [front.side]", "join: [frnot.side]"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:79:25: [unknown-piece] "
                "seen the piece `frnot`; "
                "expected one of `front`, `back`, `band`; "
                "did you mean `front`?"
            ),
        ),
    ),
    Broken(
        name="unknown edge",
        code="unknown-edge",
        changes={YAML: (("to: [back.side]", "to: [back.sides]"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:79:43: [unknown-edge] "
                "seen the edge `sides` of `back`; "
                "expected one of `top`, `side`, `hem`, `centre`; "
                "did you mean `side`?"
            ),
        ),
    ),
    Broken(
        name="unknown point",
        code="unknown-point",
        changes={YAML: (("from: top-side}\n      - {name: hem", "from: top-sied}\n      - {name: hem"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:44:28: [unknown-point] "
                "seen the point `top-sied` of `front`; "
                "expected one of `hem-centre`, `hem-side`, `top-centre`, `top-side`; "
                "did you mean `top-side`?"
            ),
        ),
    ),
    Broken(
        name="unknown line",
        code="unknown-line",
        changes={YAML: (("{line: waist, keep", "{line: wiast, keep"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:48:16: [unknown-line] "
                "seen the line `wiast` of `front`; "
                "expected one of `waist`; "
                "did you mean `waist`?"
            ),
        ),
    ),
    Broken(
        name="unknown area",
        code="unknown-area",
        changes={YAML: (("area: strip", "area: stripe"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:65:36: [unknown-area] "
                "seen the area `stripe` of `front`; "
                "expected one of `strip`; "
                "did you mean `strip`?"
            ),
        ),
    ),
    Broken(
        name="unknown copy",
        code="unknown-copy",
        changes={YAML: (("copies: [wearers-left]", "copies: [left]"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:65:65: [unknown-copy] "
                "seen the copy `left`; "
                "expected one of `wearers-left`, `wearers-right`; "
                "correct the name"
            ),
        ),
    ),
    Broken(
        name="unknown carried",
        code="unknown-copy",
        changes={YAML: (("carried_by: buttonholes", "carried_by: button-holes"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:91:81: [unknown-copy] "
                "seen the thing that a copy carries `button-holes`; "
                "expected one of `buttonholes`, `buttons`; "
                "did you mean `buttonholes`?"
            ),
        ),
    ),
    Broken(
        name="unknown body",
        code="unknown-body-column",
        changes={YAML: (("body: chest", "body: chest-width"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:84:11: [unknown-body-column] "
                "seen the body measurement `chest-width`; "
                "expected one of `height`, `chest`, `waist`; "
                "did you mean `chest`?"
            ),
        ),
    ),
    Broken(
        name="unknown size_by",
        code="unknown-body-column",
        changes={YAML: (("size_by: [chest, height]", "size_by: [chest, hight]"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:10:18: [unknown-body-column] "
                "seen the body measurement `hight`; "
                "expected one of `height`, `chest`, `waist`; "
                "did you mean `height`?"
            ),
        ),
    ),
    Broken(
        name="circle",
        code="circular-question",
        changes={
            YAML: (
                ("    title: Opening\n", "    title: Opening\n    asked_when: {band: two}\n"),
                ("    title: Band\n    default", "    title: Band\n    asked_when: {opening: front}\n    default"),
            )
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:16:5: [circular-question] "
                "seen `opening` asked only after its own answer is known; "
                "expected questions one after the other; "
                "take one of the conditions in this circle away"
            ),
            (
                "patterns/plain/pattern.yaml:23:5: [circular-question] "
                "seen `band` asked only after its own answer is known; "
                "expected questions one after the other; "
                "take one of the conditions in this circle away"
            ),
        ),
    ),
    Broken(
        name="everything forbidden",
        code="nothing-allowed",
        changes={
            YAML: (
                (
                    "cloths:\n",
                    ('  - when: {opening: [front, back]}\n    only_sizes: ["80"]\n    because: So.\ncloths:\n'),
                ),
            )
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:29:1: [nothing-allowed] "
                "seen no combination left in `92`; "
                "expected at least one combination in each size; "
                "take one of the rules back"
            ),
        ),
    ),
    Broken(
        name="default forbidden",
        code="default-forbidden",
        changes={
            YAML: (
                ("cloths:\n", ("  - when: {opening: front}\n    excludes: {band: none}\n    because: So.\ncloths:\n")),
            )
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:33:5: [default-forbidden] "
                "seen the defaults forbidden by this rule in `80`, `92`; "
                "expected defaults that are allowed in each size; "
                "change a default, or the rule"
            ),
        ),
    ),
    Broken(
        name="never possible",
        code="never-possible",
        changes={YAML: (("needs: {opening: front}", "excludes: {opening: [front, back]}"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:23:41: [warning: never-possible] "
                "seen `two` of `band` forbidden in every combination and size; "
                "expected an alternative that can be had; "
                "delete it, or change a rule"
            ),
        ),
    ),
    Broken(
        name="role by none",
        code="role-not-single",
        changes={
            YAML: (("{piece: back, when: {opening: back}}]", "{piece: back, when: {opening: back, band: two}}]"),)
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:37:3: [role-not-single] "
                "seen `opened` played by no piece with opening back, band none, size 80; "
                "expected exactly one piece in every allowed combination; "
                "change the conditions under this role"
            ),
        ),
    ),
    Broken(
        name="role by two",
        code="role-not-single",
        changes={YAML: (("  whole: [{piece: back, when: {opening: front}}", "  whole: [{piece: back}"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:38:3: [role-not-single] "
                "seen `whole` played by `back`, `front` with opening back, size 80; "
                "expected exactly one piece in every allowed combination; "
                "change the conditions under this role"
            ),
        ),
    ),
    Broken(
        name="steps only",
        code="steps-only-used",
        changes={
            YAML: (("count: 4, carried_by: buttonholes", "count: 4, carried_by: buttonholes, when: {hem: hand}"),)
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:91:101: [steps-only-used] "
                "seen a condition on `hem`, which only changes steps; "
                "expected a choice that may change more; "
                "delete `steps_only` of `hem`, or this condition"
            ),
        ),
    ),
    Broken(
        name="svg cut short",
        code="bad-svg",
        changes={SVG: (("</g>\n</svg>", "</g>"),)},
        messages=(
            (
                "patterns/plain/pieces.svg:52:1: [bad-svg] "
                "seen text that is no SVG (no element found); "
                "expected SVG text; "
                "export the drawing anew, or correct this place"
            ),
        ),
    ),
    Broken(
        name="html",
        code="bad-svg",
        changes={SVG: ((WHOLE, b"<html><body/></html>"),)},
        messages=(
            (
                "patterns/plain/pieces.svg:1:1: [bad-svg] "
                "seen the element `html`; "
                "expected `svg` as outermost; "
                "export the drawing as SVG"
            ),
        ),
    ),
    Broken(
        name="entity bomb",
        code="entity-or-dtd",
        changes={SVG: (("<svg ", BOMB + "<svg "),)},
        messages=(
            (
                "patterns/plain/pieces.svg:1:15: [entity-or-dtd] "
                "seen a DOCTYPE or an entity; "
                "expected plain SVG without them; "
                "delete everything from `<!DOCTYPE` to its `>`"
            ),
        ),
    ),
    Broken(
        name="plain doctype",
        code="entity-or-dtd",
        changes={
            SVG: (
                (
                    "<svg ",
                    (
                        '<!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" '
                        '"http://www.w3.org/Graphics/SVG/1.1/DTD/svg11.dtd">\n'
                        "<svg "
                    ),
                ),
            )
        },
        messages=(
            (
                "patterns/plain/pieces.svg:1:98: [entity-or-dtd] "
                "seen a DOCTYPE or an entity; "
                "expected plain SVG without them; "
                "delete everything from `<!DOCTYPE` to its `>`"
            ),
        ),
    ),
    Broken(
        name="no unit",
        code="no-units",
        changes={SVG: (('width="800mm" height="800mm"', 'width="800" height="800"'),)},
        messages=(
            (
                "patterns/plain/pieces.svg:1:1: [no-units] "
                "seen height=`800`; "
                'expected height in mm, cm or in, like `height="600mm"`; '
                "set the document's unit in the drawing program and check one length with a ruler"
            ),
            (
                "patterns/plain/pieces.svg:1:1: [no-units] "
                "seen width=`800`; "
                'expected width in mm, cm or in, like `width="600mm"`; '
                "set the document's unit in the drawing program and check one length with a ruler"
            ),
        ),
    ),
    Broken(
        name="no viewBox",
        code="no-units",
        changes={SVG: ((' viewBox="0 0 800 800"', ""),)},
        messages=(
            (
                "patterns/plain/pieces.svg:1:1: [no-units] "
                "seen no viewBox; "
                "expected a viewBox of four numbers that goes with width and height; "
                "save the drawing with a viewBox, so that its own units have a length"
            ),
        ),
    ),
    Broken(
        name="not to scale",
        code="not-to-scale",
        changes={SVG: (('height="800mm"', 'height="400mm"'),)},
        messages=(
            (
                "patterns/plain/pieces.svg:1:1: [not-to-scale] "
                "seen one unit of the viewBox is 1 mm across but 0.5 mm down; "
                "expected the same length both ways; "
                "make the viewBox as wide and high as the drawing, like `0 0 800 400`"
            ),
        ),
    ),
    Broken(
        name="drawing in drawing",
        code="not-followed",
        changes={
            SVG: (
                ('<g id="front.80" transform="translate(10,10)">', '<svg id="front.80">'),
                ("</g>", "</svg>"),
            )
        },
        messages=(
            (
                "patterns/plain/pieces.svg:2:1: [not-followed] "
                "seen pieces in a drawing in the drawing (an inner `svg`); "
                "expected groups with the attribute `transform`; "
                "ungroup it in the drawing program"
            ),
        ),
    ),
    Broken(
        name="style transform",
        code="not-followed",
        changes={
            SVG: (('<path id="front.80.line.waist"', '<path style="transform: scale(2)" id="front.80.line.waist"'),)
        },
        messages=(
            (
                "patterns/plain/pieces.svg:8:1: [not-followed] "
                "seen a transform in `style`; "
                "expected groups with the attribute `transform`; "
                "ungroup it in the drawing program"
            ),
        ),
    ),
    Broken(
        name="outline as text",
        code="bad-shape",
        changes={
            SVG: (
                (
                    '<path id="front.80.outline" d="M 0,0 H 160 V 300 H 0 Z"/>',
                    '<text id="front.80.outline">front</text>',
                ),
            )
        },
        messages=(
            (
                "patterns/plain/pieces.svg:3:1: [bad-shape] "
                "seen the element `text` as `front.80.outline`; "
                "expected `path`, `polygon`, `polyline`, `rect`, `circle`, `ellipse`; "
                "turn the object into a path"
            ),
        ),
    ),
    Broken(
        name="bad path data",
        code="bad-shape",
        changes={SVG: (("M 0,200 H 160", "M 0,200 H hundred"),)},
        messages=(
            (
                "patterns/plain/pieces.svg:8:1: [bad-shape] "
                "seen path data that can't be read in `front.80.line.waist`; "
                "expected plain numbers, as a drawing program writes them; "
                "draw this shape anew"
            ),
        ),
    ),
    Broken(
        name="bad number",
        code="bad-shape",
        changes={SVG: (('cx="160" cy="0"', 'cx="1,60" cy="0"'),)},
        messages=(
            (
                "patterns/plain/pieces.svg:5:1: [bad-shape] "
                "seen a number that is none, or has a unit in `front.80.point.top-side`; "
                "expected plain numbers, as a drawing program writes them; "
                "draw this shape anew"
            ),
        ),
    ),
    Broken(
        name="id twice",
        code="duplicate-id",
        changes={SVG: (("front.80.point.hem-side", "front.80.point.top-side"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:45:27: [size-missing] "
                "seen the point `hem-side` of `front` missing in `80`; "
                "expected it in each size; "
                "draw it and give it the id `front.80.point.hem-side`"
            ),
            (
                "patterns/plain/pieces.svg:6:1: [duplicate-id] "
                "seen `front.80.point.top-side` a second time; "
                "expected it once (it stands in line 5 already); "
                "rename or delete one of the two"
            ),
        ),
    ),
    Broken(
        name="size missing",
        code="size-missing",
        changes={SVG: (('id="front.92.outline"', 'id="front.92.outlin"'),)},
        messages=(
            (
                "patterns/plain/pieces.svg:28:1: [size-missing] "
                "seen outlines of `front` in sizes `80`; "
                "expected one in each size, also in `92`; "
                "there is `front.92.outlin`; did you mean that? then rename it to `front.92.outline`"
            ),
        ),
    ),
    Broken(
        name="point missing in size",
        code="size-missing",
        changes={SVG: (('id="back.92.point.top-side"', 'id="back.92.point.top-sid"'),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:53:28: [size-missing] "
                "seen the point `top-side` of `back` missing in `92`; "
                "expected it in each size; "
                "there is `back.92.point.top-sid`; did you mean that? then rename it to `back.92.point.top-side`"
            ),
        ),
    ),
    Broken(
        name="two outlines",
        code="several-outlines",
        changes={
            SVG: (
                (
                    '<path id="front.80.outline" d="M 0,0 H 160 V 300 H 0 Z"/>',
                    '<path id="front.80.outline" d="M 0,0 H 160 V 300 H 0 Z M 5,5 h 9 v 9 Z"/>',
                ),
            )
        },
        messages=(
            (
                "patterns/plain/pieces.svg:3:1: [several-outlines] "
                "seen 2 outlines of `front.80`; "
                "expected one; "
                "join the paths, or delete what is not the outline"
            ),
        ),
    ),
    Broken(
        name="outline twice",
        code="several-outlines",
        changes={
            SVG: (
                (
                    '<path id="front.80.outline" d="M 0,0 H 160 V 300 H 0 Z"/>',
                    (
                        '<path id="front.80.outline" d="M 0,0 H 160 V 300 H 0 Z"/><path '
                        'id="front.80.outline" d="M 0,0 H 160 V 300 H 0 Z"/>'
                    ),
                ),
            )
        },
        messages=(
            (
                "patterns/plain/pieces.svg:3:58: [several-outlines] "
                "seen 2 outlines of `front.80`; "
                "expected one; "
                "join the paths, or delete what is not the outline"
            ),
        ),
    ),
    Broken(
        name="open",
        code="not-closed",
        changes={SVG: (("M 0,0 H 160 V 300 H 0 Z", "M 0,0 H 160 V 300 H 0 V 2"),)},
        messages=(
            (
                "patterns/plain/pieces.svg:3:1: [not-closed] "
                "seen `front.80.outline` open, a gap of 2.0 mm from (10.0 mm across, 10.0 mm down) to (10.0 mm "
                "across, 12.0 mm down); "
                "expected a closed path; "
                "join the two ends"
            ),
        ),
    ),
    Broken(
        name="open area",
        code="not-closed",
        changes={SVG: (("M -50,-50 H 30 V 350 H -50 Z", "M -50,-50 H 30 V 350 H -50"),)},
        messages=(
            (
                "patterns/plain/pieces.svg:9:1: [not-closed] "
                "seen `front.80.area.strip` open, a gap of 400.0 mm from (-40.0 mm across, -40.0 mm down) to "
                "(-40.0 mm across, 360.0 mm down); "
                "expected a closed path; "
                "join the two ends"
            ),
        ),
    ),
    Broken(
        name="crossing",
        code="self-crossing",
        changes={SVG: (("M 0,0 H 160 V 300 H 0 Z", "M 0,0 H 160 V 300 L 0,300 L 200,150 Z"),)},
        messages=(
            (
                "patterns/plain/pieces.svg:3:1: [self-crossing] "
                "seen `front.80.outline` that crosses or touches itself at (170.0 mm across, 130.0 mm down); "
                "expected an outline that goes round once and encloses an area; "
                "look there for a loop or a doubled node"
            ),
        ),
    ),
    Broken(
        name="point off",
        code="point-off-outline",
        changes={
            SVG: (('id="front.80.point.top-side" cx="160" cy="0"', 'id="front.80.point.top-side" cx="158" cy="1.5"'),)
        },
        messages=(
            (
                "patterns/plain/pieces.svg:5:1: [point-off-outline] "
                "seen `top-side` of `front.80` 1.5 mm off the outline; "
                "expected it on the outline (within 0.5 mm), as the edge `side` needs it; "
                "move the circle onto the outline"
            ),
        ),
    ),
    Broken(
        name="point off edge",
        code="point-off-edge",
        changes={YAML: (("to: mark}", "to: low}"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:80:47: [point-off-edge] "
                "seen `low` of `band` beside the edge `long` in `80`, `92`; "
                "expected a point between `left` and `right`; "
                "move the circle onto this edge, or name another point"
            ),
        ),
    ),
    Broken(
        name="edge order",
        code="edge-order",
        changes={
            YAML: (
                (
                    ("      - {name: side, from: top-side}\n      - {name: hem, from: hem-side, allowance_mm: 30}\n"),
                    ("      - {name: hem, from: hem-side, allowance_mm: 30}\n      - {name: side, from: top-side}\n"),
                ),
            )
        },
        messages=(
            (
                "patterns/plain/pieces.svg:3:1: [edge-order] "
                "seen the points of `front.80` round the outline in the order `top-centre`, `top-side`, "
                "`hem-side`, `hem-centre`; "
                "expected the order of the edges: `top-centre`, `hem-side`, `top-side`, `hem-centre`; "
                "put the edges in order round the piece, or move the circles"
            ),
            (
                "patterns/plain/pieces.svg:28:1: [edge-order] "
                "seen the points of `front.92` round the outline in the order `top-centre`, `top-side`, "
                "`hem-side`, `hem-centre`; "
                "expected the order of the edges: `top-centre`, `hem-side`, `top-side`, `hem-centre`; "
                "put the edges in order round the piece, or move the circles"
            ),
        ),
    ),
    Broken(
        name="edge without length",
        code="edge-without-length",
        changes={SVG: (('id="back.80.point.top-side" cx="160"', 'id="back.80.point.top-side" cx="0"'),)},
        messages=(
            (
                "patterns/plain/pieces.svg:12:1: [edge-without-length] "
                "seen `top-centre` and `top-side` of `back.80` in the same place; "
                "expected a length between them, because the edges `top` and `side` need it; "
                "move one of the circles along the outline"
            ),
        ),
    ),
    Broken(
        name="cut-off misses",
        code="cut-off-misses",
        changes={SVG: (("M 0,200 H 160", "M 0,200 H 100"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:48:16: [cut-off-misses] "
                "seen the line `waist` of `front`, in size 80 not reaching from outline to outline; "
                "expected a line that parts the piece in two, the kept point beside it; "
                "draw the line on to the outline"
            ),
        ),
    ),
    Broken(
        name="keep on line",
        code="cut-off-misses",
        changes={SVG: (("M 0,200 H 160", "M 0,0 L 160,300"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:48:29: [cut-off-misses] "
                "seen the line `waist` of `front`, in size 80 running through `top-centre`; "
                "expected a line that parts the piece in two, the kept point beside it; "
                "name a point on the side that is kept"
            ),
        ),
    ),
    Broken(
        name="cut-off crosses twice",
        code="cut-off-misses",
        changes={SVG: (("M 0,200 H 160", "M 0,200 L 160,100 L 0,50"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:48:16: [cut-off-misses] "
                "seen the line `waist` of `front`, in size 80 crossing the piece more than once; "
                "expected a line that parts the piece in two, the kept point beside it; "
                "draw a line that crosses it once"
            ),
        ),
    ),
    Broken(
        name="quote open",
        code="syntax",
        changes={YAML: (('edition: "1"', 'edition: "1'),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:9:10: [syntax] "
                "seen text that does not go on from the line above; "
                "expected YAML text; "
                "look at indents and quotes here and above"
            ),
        ),
    ),
    Broken(
        name="bent fold",
        code="fold-not-straight",
        changes={SVG: (("M 0,0 H 160 V 300 H 0 Z", "M 0,0 H 160 V 300 H 0 L 5,150 Z"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:68:57: [fold-not-straight] "
                "seen `front.centre` on the fold, in size 80 5.0 mm off the straight line; "
                "expected a straight edge with the whole piece on one side; "
                "straighten the edge in the drawing"
            ),
        ),
    ),
    Broken(
        name="fold inside",
        code="fold-not-straight",
        changes={SVG: (("M 0,0 H 160 V 300 H 0 Z", "M 0,0 L -40,-20 L 160,0 V 300 H 0 Z"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:68:57: [fold-not-straight] "
                "seen `front.centre` on the fold, in size 80 with the piece on both sides of it; "
                "expected a straight edge with the whole piece on one side; "
                "straighten the edge in the drawing"
            ),
            (
                "patterns/plain/pieces.svg:28:1: [warning: shrinking-grading] "
                "seen `front` 200.0 mm wide in size 80 but 160.0 mm in size 92; "
                "expected a larger size that is nowhere smaller; "
                "look whether `front.80` and `front.92` have been taken for each other; if it is meant, leave it"
            ),
        ),
    ),
    Broken(
        name="off grain",
        code="fold-off-grain",
        changes={YAML: (("  front:\n    title: Front\n", "  front:\n    title: Front\n    grain: crosswise\n"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:69:57: [advice: fold-off-grain] "
                "seen `front.centre` on the fold, in size 80 90° off the lengthwise grain; "
                "expected an edge along the fold of `outer`, which runs with the lengthwise grain; "
                "turn the `grain` line or change `grain`; left so, the piece is cut whole, unfolded"
            ),
        ),
    ),
    Broken(
        name="fold with allowance",
        code="fold-with-allowance",
        changes={
            YAML: (
                (
                    "      - {name: centre, from: hem-centre, allowance_mm: 0}\n    cut_offs",
                    "      - {name: centre, from: hem-centre, allowance_mm: 15}\n    cut_offs",
                ),
            )
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:68:57: [fold-with-allowance] "
                "seen `front.centre` on the fold with an allowance of 15 mm (opening back, size 80); "
                "expected no allowance on the fold; "
                "write `allowance_mm: 0` for `centre`"
            ),
        ),
    ),
    Broken(
        name="odd pair",
        code="odd-pair",
        changes={
            YAML: (("{cloth: outer, mode: pair, count: 2}\nseams", "{cloth: outer, mode: pair, count: 3}\nseams"),)
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:77:43: [odd-pair] "
                "seen a mirrored pair with a count of 3; "
                "expected an even count, half of it mirrored; "
                "write 4, or `mode: single`"
            ),
        ),
    ),
    Broken(
        name="varying",
        code="varying-allowance",
        changes={
            YAML: (
                (
                    "{name: long, from: left}",
                    ("{name: long, from: left, allowance_mm: [{when: {opening: front}, mm: 5}, {mm: 10}]}"),
                ),
            )
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:74:34: [varying-allowance] "
                "seen allowances of 5 and 10 mm on `band.long`, whose cutting line is drawn; "
                "expected one allowance, for the cutting line can't move; "
                "draw the piece with its stitching line, or leave one allowance"
            ),
        ),
    ),
    Broken(
        name="varying by role",
        code="varying-allowance",
        changes={YAML: (("    title: Back\n", "    title: Back\n    drawn: cutting\n"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:59:24: [varying-allowance] "
                "seen allowances of 0 and 20 mm on `back.centre`, whose cutting line is drawn; "
                "expected one allowance, for the cutting line can't move; "
                "draw the piece with its stitching line, or leave one allowance"
            ),
        ),
    ),
    Broken(
        name="too wide",
        code="too-wide",
        changes={YAML: (("widths_mm: [1100, 1400], ways: [folded, flat]", "widths_mm: [300], ways: [folded]"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:60:17: [too-wide] "
                "seen `front` in size 80, 160 mm across the grain; "
                "expected at most 135 mm, what a cloth of 300 mm has between its selvedges; "
                "add a wider cloth to `widths_mm` or the way `flat`, change the grain, or part the piece with a "
                "seam"
            ),
            (
                "patterns/plain/pattern.yaml:68:17: [too-wide] "
                "seen `back` in size 80, 320 mm across the grain; "
                "expected at most 135 mm, what a cloth of 300 mm has between its selvedges; "
                "add a wider cloth to `widths_mm` or the way `flat`, change the grain, or part the piece with a "
                "seam"
            ),
            (
                "patterns/plain/pattern.yaml:77:17: [too-wide] "
                "seen `band` in size 80, 200 mm across the grain; "
                "expected at most 135 mm, what a cloth of 300 mm has between its selvedges; "
                "add a wider cloth to `widths_mm` or the way `flat`, change the grain, or part the piece with a "
                "seam"
            ),
        ),
    ),
    Broken(
        name="no steps",
        code="bad-step",
        changes={
            STEPS: (
                ("## Sew the sides", "Sew the sides"),
                ("## Turn the hem up", "Turn the hem up"),
            )
        },
        messages=(
            (
                "patterns/plain/steps.md:1:1: [bad-step] "
                "seen no line that begins with `##`; "
                "expected at least one step; "
                "begin each step with `## ` and its title"
            ),
        ),
    ),
    Broken(
        name="step untitled",
        code="bad-step",
        changes={STEPS: (("## Sew the sides", "##"),)},
        messages=(
            (
                "patterns/plain/steps.md:5:1: [bad-step] "
                "seen a step without a title; "
                "expected `## ` and a title; "
                "write what the step does behind `##`"
            ),
        ),
    ),
    Broken(
        name="chart without size",
        code="bad-chart",
        changes={CHART: (("size,age", "sizes,age"),)},
        messages=(
            (
                "body_charts/boxes.csv:2:1: [bad-chart] "
                "seen no column `size`; "
                "expected a row of column names, `size` among them; "
                "begin the table with `size,height_mm,…`"
            ),
        ),
    ),
    Broken(
        name="chart wrong number",
        code="bad-chart",
        changes={CHART: (("80,1 year,800,480,460", "80,1 year,80.0,480,460"),)},
        messages=(
            (
                "body_charts/boxes.csv:3:11: [bad-chart] "
                "seen `80.0` under `height_mm`; "
                "expected whole millimetres from 1 to 3000; "
                "was it meant in centimetres (then write 800) or in inches (then write 2032)?"
            ),
        ),
    ),
    Broken(
        name="chart short row",
        code="bad-chart",
        changes={CHART: (("92,2 years,920,520,480", "92,2 years,920,520"),)},
        messages=(
            (
                "body_charts/boxes.csv:4:1: [bad-chart] "
                "seen 4 cells; "
                "expected 5, as in the header; "
                "look for a comma too many or too few"
            ),
        ),
    ),
    Broken(
        name="no patterns",
        code="no-patterns",
        changes={FOLDER: ((RENAME, ".plain"),)},
        messages=(
            (
                "patterns:1:1: [no-patterns] "
                "seen no pattern folder; "
                "expected a folder with `pattern.yaml` in it; "
                "add a folder for each pattern"
            ),
        ),
    ),
    Broken(
        name="usual width too small",
        code="wrong-value",
        changes={YAML: (("usual_width_mm: 900", "usual_width_mm: 800"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:35:75: [wrong-value] "
                "seen a usual width of 800; "
                "expected one of `widths_mm`, or more than the least of them (900); "
                "add it to `widths_mm`"
            ),
        ),
    ),
    Broken(
        name="width and way twice",
        code="wrong-value",
        changes={YAML: (("widths_mm: [900], ways: [flat]", "widths_mm: [900, 900], ways: [flat, flat]"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:35:91: [wrong-value] "
                "seen a width twice; "
                "expected each width once; "
                "delete one of them"
            ),
            (
                "patterns/plain/pattern.yaml:35:109: [wrong-value] "
                "seen a way twice; "
                "expected each way once; "
                "delete one of them"
            ),
        ),
    ),
    Broken(
        name="role says where an edge begins",
        code="unknown-key",
        changes={YAML: (("{name: centre, allowance_mm: 20}", "{name: centre, from: top-centre, allowance_mm: 20}"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:58:24: [unknown-key] "
                "seen the key `from`; "
                "expected it only under the piece itself; under `as:…` an edge has its allowance only; "
                "delete it"
            ),
        ),
    ),
    Broken(
        name="role says nothing of an edge",
        code="missing-key",
        changes={YAML: (("{name: centre, allowance_mm: 20}", "{name: centre}"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:58:9: [missing-key] "
                "seen no `allowance_mm`; "
                "expected the key `allowance_mm`, which is all a role can say of an edge; "
                "add `allowance_mm: …`"
            ),
        ),
    ),
    Broken(
        name="piece without title",
        code="missing-key",
        changes={YAML: (("  back:\n    title: Back\n", "  back:\n"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:49:3: [missing-key] "
                "seen no `title`; "
                "expected the key `title`, as printed in the cutting list; "
                "add `title: …`"
            ),
        ),
    ),
    Broken(
        name="edge without from",
        code="missing-key",
        changes={YAML: (("{name: side, from: top-side}", "{name: side}"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:44:9: [missing-key] "
                "seen no `from`; "
                "expected the key `from`, the point where the edge begins; "
                "add `from: …`"
            ),
        ),
    ),
    Broken(
        name="piece without edges",
        code="missing-key",
        changes={
            YAML: (
                (("    edges:\n      - {name: long, from: left}\n      - {name: rest, from: right, via: low}\n"), ""),
            )
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:69:3: [missing-key] "
                "seen no `edges`; "
                "expected the key `edges`, in order round the piece; "
                "add `edges:`"
            ),
        ),
    ),
    Broken(
        name="piece never cut",
        code="missing-key",
        changes={YAML: (("    cut:\n      - {cloth: outer, mode: pair, count: 2}\nseams", "seams"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:69:3: [missing-key] "
                "seen no `cut`; "
                "expected the key `cut`, because nobody says from which cloth it is cut; "
                "add `cut:`"
            ),
        ),
    ),
    Broken(
        name="copies of no pair",
        code="wrong-value",
        changes={
            YAML: (
                (
                    "  band:\n    title: Band\n    when",
                    "  band:\n    title: Band\n    copies: {one: {carries: [snaps]}}\n    when",
                ),
                ("{cloth: outer, mode: pair, count: 2}\nseams", "{cloth: outer, mode: single, count: 2}\nseams"),
            )
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:71:5: [wrong-value] "
                "seen copies of `band`, which is never a pair; "
                "expected copies of a mirrored pair; "
                "cut it as a `pair`, or delete `copies`"
            ),
        ),
    ),
    Broken(
        name="fold edge of a pair",
        code="unknown-key",
        changes={
            YAML: (
                (
                    "{cloth: outer, mode: pair, count: 2}\nseams",
                    "{cloth: outer, mode: pair, count: 2, fold_edge: long, face: down}\nseams",
                ),
            )
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:77:46: [unknown-key] "
                "seen the key `fold_edge`; "
                "expected it only with `mode: fold`; "
                "delete it"
            ),
            (
                "patterns/plain/pattern.yaml:77:63: [unknown-key] "
                "seen the key `face`; "
                "expected it only with `mode: single`; "
                "delete it"
            ),
        ),
    ),
    Broken(
        name="edge twice",
        code="wrong-value",
        changes={YAML: (("{name: side, from: top-side}", "{name: top, from: top-side}"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:44:9: [wrong-value] "
                "seen the edge `top` a second time; "
                "expected each name once; "
                "rename one of the two"
            ),
            (
                "patterns/plain/pattern.yaml:79:25: [unknown-edge] "
                "seen the edge `side` of `front`; "
                "expected one of `top`, `hem`, `centre`, `waist`; "
                "correct the name"
            ),
        ),
    ),
    Broken(
        name="seam twice",
        code="wrong-value",
        changes={YAML: (("{name: band, join", "{name: side, join"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:80:12: [wrong-value] "
                "seen the seam `side` a second time; "
                "expected each name once; "
                "rename one of the two"
            ),
        ),
    ),
    Broken(
        name="seam with ease and gathers",
        code="wrong-value",
        changes={YAML: (("gather_ratio: [0.5, 2]", "gather_ratio: [0.5, 2], ease_mm: [0, 5]"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:80:5: [wrong-value] "
                "seen `ease_mm`, `gather_ratio`; "
                "expected at most one of `ease_mm`, `ease_percent`, `gather_ratio`; "
                "delete all but one"
            ),
        ),
    ),
    Broken(
        name="sum of nothing",
        code="wrong-value",
        changes={YAML: (("{line: back.waist, times: 2}", "{times: 2}"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:87:9: [wrong-value] "
                "seen none of `edge`, `between`, `line`; "
                "expected exactly one of `edge`, `between`, `line`; "
                "add one of them"
            ),
        ),
    ),
    Broken(
        name="stretch of a line",
        code="unknown-key",
        changes={YAML: (("{line: back.waist, times: 2}", "{line: back.waist, from: top-side, along: x}"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:87:28: [unknown-key] "
                "seen the key `from`; "
                "expected it only with `edge`; "
                "delete it"
            ),
            (
                "patterns/plain/pattern.yaml:87:44: [unknown-key] "
                "seen the key `along`; "
                "expected it only with `between`; "
                "delete it"
            ),
        ),
    ),
    Broken(
        name="distance of two pieces",
        code="wrong-value",
        changes={
            YAML: (("between: [front.top-centre, front.top-side]", "between: [front.top-centre, back.top-side]"),)
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:86:38: [wrong-value] "
                "seen points of `front`, `back`; "
                "expected two points of one piece; "
                "measure on one piece and add up"
            ),
        ),
    ),
    Broken(
        name="count twice",
        code="unknown-key",
        changes={YAML: (("count: 4, carried", 'count: 4, tabled_count: {"80": 4, "92": 5}, carried'),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:91:59: [unknown-key] "
                "seen the key `count`; "
                "expected it only without `tabled_count`; "
                "delete it"
            ),
        ),
    ),
    Broken(
        name="count for some sizes",
        code="size-missing",
        changes={YAML: (("count: 4, carried", 'tabled_count: {"80": 4}, carried'),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:91:59: [size-missing] "
                "seen nothing for `92`; "
                "expected a figure for each size; "
                "add the missing sizes"
            ),
        ),
    ),
    Broken(
        name="count for an unknown size",
        code="unknown-size",
        changes={YAML: (("count: 4, carried", 'count: 4, tabled_mm: {"86": 4}, carried'),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:91:69: [size-missing] "
                "seen nothing for `80`, `92`; "
                "expected a figure for each size, or a `rule`; "
                "add the missing sizes"
            ),
            (
                "patterns/plain/pattern.yaml:91:81: [unknown-size] "
                "seen the size `86`; "
                "expected one of `80`, `92`; "
                "correct the name"
            ),
        ),
    ),
    Broken(
        name="ring round nothing",
        code="missing-key",
        changes={YAML: (("{take: ring, body: waist}", "{take: ring, plus_mm: 5}"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:90:69: [missing-key] "
                "seen no `body`; "
                "expected the key `body`, the measurement the ring goes round; "
                "add `body: …`"
            ),
            (
                "patterns/plain/pattern.yaml:90:88: [unknown-key] "
                "seen the key `plus_mm`; "
                "expected it only with `take: edge`; "
                "delete it"
            ),
        ),
    ),
    Broken(
        name="edge rule without edge",
        code="missing-key",
        changes={YAML: (("edge: band.long, rule: {take: ring, body: waist}", "rule: {take: edge, body: waist}"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:90:5: [missing-key] "
                "seen no `edge`; "
                "expected the key `edge`, because the rule takes its length; "
                "add `edge: …`"
            ),
            (
                "patterns/plain/pattern.yaml:90:71: [unknown-key] "
                "seen the key `body`; "
                "expected it only with `take: ring`; "
                "delete it"
            ),
        ),
    ),
    Broken(
        name="size twice",
        code="wrong-value",
        changes={YAML: (('sizes: ["80", "92"]', 'sizes: ["80", "92", "80"]'),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:9:21: [wrong-value] "
                "seen the size `80` a second time; "
                "expected each size once; "
                "delete one of the two"
            ),
        ),
    ),
    Broken(
        name="sizes out of order",
        code="wrong-value",
        changes={YAML: (('sizes: ["80", "92"]', 'sizes: ["92", "80"]'),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:9:1: [wrong-value] "
                "seen sizes out of order; "
                "expected the order of the body chart, smallest first; "
                "put them in order"
            ),
        ),
    ),
    Broken(
        name="choice called size",
        code="wrong-value",
        changes={
            YAML: (
                (
                    "  hem:\n    title: Hem\n",
                    (
                        "  size:\n"
                        "    title: Size\n"
                        "    default: a\n"
                        "    alternatives: {a: {title: A}, b: {title: B}}\n"
                        "  hem:\n"
                        "    title: Hem\n"
                    ),
                ),
            )
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:24:3: [wrong-value] "
                "seen a choice called `size`; "
                "expected another name; rename it; "
                "this word stands for the size in conditions"
            ),
        ),
    ),
    Broken(
        name="drawing in a circle",
        code="wrong-value",
        changes={YAML: (("{piece: front, put: top-centre}", "{piece: front, put: top-centre, on: band.mark}"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:94:43: [wrong-value] "
                "seen `front` put on itself in a circle; "
                "expected one part that stands by itself; "
                "take `on` away from one of them"
            ),
            (
                "patterns/plain/pattern.yaml:95:36: [wrong-value] "
                "seen `band` put on itself in a circle; "
                "expected one part that stands by itself; "
                "take `on` away from one of them"
            ),
        ),
    ),
    Broken(
        name="drawing on a piece that is not there",
        code="wrong-value",
        changes={YAML: (("on: front.hem-centre", "on: back.hem-centre"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:95:36: [wrong-value] "
                "seen `back`, which is not in this view; "
                "expected one of `front`, `band`; "
                "add a part for `back`"
            ),
        ),
    ),
    Broken(
        name="word for text",
        code="wrong-type",
        changes={YAML: (("    title: Opening\n", "    title: true\n"),)},
        messages=(
            ('patterns/plain/pattern.yaml:15:12: [wrong-type] seen `true`; expected text; put it in quotes: "true"'),
        ),
    ),
    Broken(
        name="number in quotes",
        code="wrong-type",
        changes={YAML: (("allowance_mm: 30}", 'allowance_mm: "30"}'),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:45:51: [wrong-type] "
                "seen the text `30`; "
                "expected a number; "
                "take the quotes away"
            ),
        ),
    ),
    Broken(
        name="list that is empty",
        code="wrong-value",
        changes={YAML: (("kinds: [woven]", "kinds: []"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:34:38: [wrong-value] "
                "seen an empty list; "
                "expected at least 1 of them; "
                "change it for `kinds`"
            ),
        ),
    ),
    Broken(
        name="range of three",
        code="wrong-value",
        changes={YAML: (("[20, 180]", "[20, 30, 180]"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:88:22: [wrong-value] "
                "seen a list of 3; "
                "expected at most 2 of them; "
                "change it for `woven`"
            ),
        ),
    ),
    Broken(
        name="text that is empty",
        code="wrong-value",
        changes={YAML: (("title: Outer cloth", 'title: ""'),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:34:18: [wrong-value] "
                "seen an empty text; "
                "expected a text that is not empty; "
                "change it for `title`"
            ),
        ),
    ),
    Broken(
        name="key that is no kind",
        code="wrong-value",
        changes={YAML: (("{woven: [20, 180]}", "{wovn: [20, 180]}"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:88:15: [wrong-value] "
                "seen `wovn`; "
                "expected one of `woven`, `knit`; "
                "did you mean `woven`?"
            ),
        ),
    ),
    Broken(
        name="other version",
        code="wrong-value",
        changes={YAML: (("boltside: 1", "boltside: 2"),)},
        messages=(("patterns/plain/pattern.yaml:1:11: [wrong-value] seen the number `2`; expected `1`; write that"),),
    ),
    Broken(
        name="description is a list",
        code="wrong-type",
        changes={YAML: ((WHOLE, "- front\n"),)},
        messages=(
            ("patterns/plain/pattern.yaml:1:1: [wrong-type] seen a list of 1; expected a mapping; write a mapping"),
        ),
    ),
    Broken(
        name="number beyond all lengths",
        code="wrong-value",
        changes={YAML: (("usual_width_mm: 1400", "usual_width_mm: 140000"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:34:63: [wrong-value] "
                "seen the number `140000`; "
                "expected a length above 0 and up to 10000 mm; "
                "write a number above 0 and up to 10000 for `usual_width_mm`"
            ),
        ),
    ),
    Broken(
        name="dotted name with a space",
        code="bad-name",
        changes={YAML: (("join: [front.side]", "join: [front side]"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:79:25: [bad-name] "
                "seen the text `front side`; "
                "expected a piece and a name with a dot between, like `front.neck`; "
                "rename it"
            ),
        ),
    ),
    Broken(
        name="transform of another kind",
        code="not-followed",
        changes={SVG: (('transform="translate(10,10)"', 'transform="translate(10mm,10mm)"'),)},
        messages=(
            (
                "patterns/plain/pieces.svg:2:1: [not-followed] "
                "seen transform=`translate(10mm,10mm)`; "
                "expected matrix, translate, scale, rotate, skewX or skewY with plain numbers; "
                "ungroup it in the drawing program"
            ),
        ),
    ),
    Broken(
        name="line without length",
        code="bad-shape",
        changes={SVG: (("M 0,200 H 160", "M 0,200 H 0"),)},
        messages=(
            (
                "patterns/plain/pieces.svg:8:1: [bad-shape] "
                "seen `front.80.line.waist` without length; "
                "expected one stroke with a length; "
                "draw the line in one go"
            ),
        ),
    ),
    Broken(
        name="line in two strokes",
        code="bad-shape",
        changes={SVG: (("M 0,200 H 160", "M 0,200 H 60 M 70,200 H 160"),)},
        messages=(
            (
                "patterns/plain/pieces.svg:8:1: [bad-shape] "
                "seen 2 strokes in `front.80.line.waist`; "
                "expected one stroke with a length; "
                "draw the line in one go"
            ),
        ),
    ),
    Broken(
        name="area in two strokes",
        code="several-outlines",
        changes={SVG: (("M -50,-50 H 30 V 350 H -50 Z", "M -50,-50 H 30 V 350 H -50 Z M 0,0 h 5 v 5 Z"),)},
        messages=(
            (
                "patterns/plain/pieces.svg:9:1: [several-outlines] "
                "seen 2 strokes in `front.80.area.strip`; "
                "expected one; "
                "join the strokes, or delete what does not belong to it"
            ),
        ),
    ),
    Broken(
        name="number beyond the drawing",
        code="bad-shape",
        changes={SVG: (("M 0,200 H 160", "M 0,200 H 1e9"),)},
        messages=(
            (
                "patterns/plain/pieces.svg:8:1: [bad-shape] "
                "seen a number that is not within 100 m in `front.80.line.waist`; "
                "expected plain numbers, as a drawing program writes them; "
                "draw this shape anew"
            ),
        ),
    ),
    Broken(
        name="path without data",
        code="bad-shape",
        changes={SVG: (('d="M 0,200 H 160"', 'd=""'),)},
        messages=(
            (
                "patterns/plain/pieces.svg:8:1: [bad-shape] "
                "seen path data that can't be read in `front.80.line.waist`; "
                "expected plain numbers, as a drawing program writes them; "
                "draw this shape anew"
            ),
        ),
    ),
    Broken(
        name="chart column twice",
        code="bad-chart",
        changes={CHART: (("chest_mm", "height_mm"),)},
        messages=(
            (
                "body_charts/boxes.csv:2:1: [bad-chart] "
                "seen the column `height_mm` twice; "
                "expected each column once; "
                "rename or delete one of them"
            ),
        ),
    ),
    Broken(
        name="chart size twice",
        code="bad-chart",
        changes={CHART: (("104,4 years", "92,4 years"),)},
        messages=(
            (
                "body_charts/boxes.csv:5:1: [bad-chart] "
                "seen the size `92` again; "
                "expected a size of its own in each row, like `92`; "
                "correct or delete the row"
            ),
        ),
    ),
    Broken(
        name="turned without a place to turn about",
        code="unknown-key",
        changes={YAML: (("{piece: front, put: top-centre}", "{piece: front, put: top-centre, turn_deg: 20}"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:94:39: [unknown-key] "
                "seen the key `turn_deg`; "
                "expected it only with `on`; "
                "delete it"
            ),
        ),
    ),
    Broken(
        name="length with a comma",
        code="wrong-type",
        changes={
            YAML: (("allowance_mm: 10\n", "allowance_mm: 10,5\n"),),
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:12:15: [wrong-type] "
                "seen the text `10,5`; "
                "expected a number; "
                "write 10.5 with a point"
            ),
        ),
    ),
    Broken(
        name="length with a comma between braces",
        code="unknown-key",
        changes={
            YAML: (("hem-side, allowance_mm: 30}", "hem-side, allowance_mm: 30,5}"),),
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:45:54: [unknown-key] "
                "seen the key `5`; "
                "expected one of `name`, `from`, `via`, `allowance_mm`; "
                "is it the rest of `allowance_mm`? write 30.5 with a point"
            ),
        ),
    ),
    Broken(
        name="length with a comma for thousands",
        code="wrong-type",
        changes={
            YAML: (("usual_width_mm: 1400", "usual_width_mm: '1,400'"),),
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:34:63: [wrong-type] "
                "seen the text `1,400`; "
                "expected a number; "
                "write 1400 without the comma, or 1.4 with a point"
            ),
        ),
    ),
    Broken(
        name="length with its unit",
        code="wrong-type",
        changes={
            YAML: (("allowance_mm: 10\n", "allowance_mm: 10 mm\n"),),
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:12:15: [wrong-type] "
                "seen the text `10 mm`; "
                "expected a number; "
                "leave the unit out: 10"
            ),
        ),
    ),
    Broken(
        name="length in cm",
        code="wrong-type",
        changes={
            YAML: (("allowance_mm: 10\n", "allowance_mm: 1 cm\n"),),
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:12:15: [wrong-type] "
                "seen the text `1 cm`; "
                "expected a number; "
                "lengths are in mm: write 10"
            ),
        ),
    ),
    Broken(
        name="length in inches",
        code="wrong-type",
        changes={
            YAML: (("woven: [20, 180]", "woven: [1 in, 180]"),),
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:88:23: [wrong-type] "
                "seen the text `1 in`; "
                "expected a number; "
                "lengths are in mm: write 25.4"
            ),
        ),
    ),
    Broken(
        name="length that would be too long in its unit",
        code="wrong-type",
        changes={
            YAML: (("allowance_mm: 10\n", "allowance_mm: 50 cm\n"),),
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:12:15: [wrong-type] "
                "seen the text `50 cm`; "
                "expected a number; "
                "lengths are in mm: write a number from 0 to 200"
            ),
        ),
    ),
    Broken(
        name="length below zero",
        code="wrong-value",
        changes={
            YAML: (("allowance_mm: 10\n", "allowance_mm: -10\n"),),
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:12:15: [wrong-value] "
                "seen the number `-10`; "
                "expected a length from 0 to 200 mm; "
                "did you mean 10, without the minus?"
            ),
        ),
    ),
    Broken(
        name="width of nothing",
        code="wrong-value",
        changes={
            YAML: (("usual_width_mm: 1400", "usual_width_mm: 0"),),
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:34:63: [wrong-value] "
                "seen the number `0`; "
                "expected a length above 0 and up to 10000 mm; "
                "write a number above 0 and up to 10000 for `usual_width_mm`"
            ),
        ),
    ),
    Broken(
        name="length too long",
        code="wrong-value",
        changes={
            YAML: (("allowance_mm: 10\n", "allowance_mm: 1000\n"),),
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:12:15: [wrong-value] "
                "seen the number `1000`; "
                "expected a length from 0 to 200 mm; "
                "write a number from 0 to 200 for `allowance_mm`"
            ),
        ),
    ),
    Broken(
        name="widths of the outer cloth in cm",
        code="too-wide",
        changes={
            YAML: (("usual_width_mm: 1400, widths_mm: [1100, 1400]", "usual_width_mm: 140, widths_mm: [110, 140]"),),
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:60:17: [too-wide] "
                "seen `front` in size 80, 160 mm across the grain; "
                "expected at most 110 mm, what a cloth of 140 mm has between its selvedges; "
                "look at 140 in `widths_mm`: was it meant in centimetres (then write 1400)?"
            ),
            (
                "patterns/plain/pattern.yaml:68:17: [too-wide] "
                "seen `back` in size 80, 320 mm across the grain; "
                "expected at most 110 mm, what a cloth of 140 mm has between its selvedges; "
                "look at 140 in `widths_mm`: was it meant in centimetres (then write 1400)?"
            ),
            (
                "patterns/plain/pattern.yaml:77:17: [too-wide] "
                "seen `band` in size 80, 200 mm across the grain; "
                "expected at most 110 mm, what a cloth of 140 mm has between its selvedges; "
                "look at 140 in `widths_mm`: was it meant in centimetres (then write 1400)?"
            ),
        ),
    ),
    Broken(
        name="chart with commas for points",
        code="bad-chart",
        changes={
            CHART: (("80,1 year,800,480,460", '80,1 year,800,"48,5",460'),),
        },
        messages=(
            (
                "body_charts/boxes.csv:3:15: [bad-chart] "
                "seen `48,5` under `chest_mm`; "
                "expected whole millimetres from 1 to 3000; "
                "was it meant in centimetres (then write 485) or in inches (then write 1232)?"
            ),
        ),
    ),
    Broken(
        name="chart with units",
        code="bad-chart",
        changes={
            CHART: (("80,1 year,800,480,460", "80,1 year,800,48 cm,460"),),
        },
        messages=(
            (
                "body_charts/boxes.csv:3:15: [bad-chart] "
                "seen `48 cm` under `chest_mm`; "
                "expected whole millimetres from 1 to 3000; "
                "lengths are in mm: write 480"
            ),
        ),
    ),
    Broken(
        name="piece misspelt in the drawing",
        code="size-missing",
        changes={
            SVG: (("band.", "bend."),) * 12,
        },
        messages=(
            (
                "patterns/plain/pieces.svg:21:1: [size-missing] "
                "seen outlines of `band` in no size; "
                "expected one in each size, also in `80`, `92`; "
                "there is `bend.80.outline`; did you mean that? then rename it to `band.80.outline`"
            ),
        ),
    ),
    Broken(
        name="piece renamed and an area like its outline",
        code="size-missing",
        changes={
            SVG: (
                ("band.80.outline", "waist-band.80.area.outer-half"),
                ("band.92.outline", "waist-band.92.area.outer-half"),
            ),
        },
        messages=(
            (
                "patterns/plain/pieces.svg:1:1: [size-missing] "
                "seen outlines of `band` in no size; "
                "expected one in each size, also in `80`, `92`; "
                "draw it and give it the id `band.80.outline`"
            ),
        ),
    ),
    Broken(
        name="point misspelt in the drawing",
        code="unknown-point",
        changes={
            SVG: (("point.top-side", "point.top-sied"),) * 4,
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:44:28: [unknown-point] "
                "seen the point `top-side` of `front`; "
                "expected one of `hem-centre`, `hem-side`, `top-centre`, `top-sied`; "
                "did you mean `top-sied`?"
            ),
            (
                "patterns/plain/pattern.yaml:53:28: [unknown-point] "
                "seen the point `top-side` of `back`; "
                "expected one of `hem-centre`, `hem-side`, `top-centre`, `top-sied`; "
                "did you mean `top-sied`?"
            ),
            (
                "patterns/plain/pattern.yaml:86:38: [unknown-point] "
                "seen the point `top-side` of `front`; "
                "expected one of `hem-centre`, `hem-side`, `top-centre`, `top-sied`; "
                "did you mean `top-sied`?"
            ),
        ),
    ),
    Broken(
        name="line misspelt in one size",
        code="size-missing",
        changes={
            SVG: (("front.80.line.waist", "front.80.line.wiast"),),
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:48:16: [size-missing] "
                "seen the line `waist` of `front` missing in `80`; "
                "expected it in each size; "
                "there is `front.80.line.wiast`; did you mean that? then rename it to `front.80.line.waist`"
            ),
        ),
    ),
    Broken(
        name="area with its kind misspelt",
        code="unknown-area",
        changes={
            SVG: (
                ("front.80.area.strip", "front.80.aera.strip"),
                ("front.92.area.strip", "front.92.aera.strip"),
            ),
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:65:36: [unknown-area] "
                "seen the area `strip` of `front`; "
                "expected no area, for there are none; "
                "there is `front.80.aera.strip`; did you mean that? then rename it to `front.80.area.strip`"
            ),
        ),
    ),
    Broken(
        name="step's condition without braces",
        code="syntax",
        changes={
            STEPS: (("when: {hem: hand}", "when: hem: hand"),),
        },
        messages=(
            (
                "patterns/plain/steps.md:10:10: [syntax] "
                "seen a colon where none can be; "
                "expected choices and alternatives between braces; "
                "write `when: {hem: hand}`"
            ),
        ),
    ),
    Broken(
        name="step's condition of two words without braces",
        code="syntax",
        changes={
            STEPS: (("when: {hem: hand}", "when: hem: hand, machine"),),
        },
        messages=(
            (
                "patterns/plain/steps.md:10:10: [syntax] "
                "seen a colon where none can be; "
                "expected choices and alternatives between braces; "
                "write `when: {hem: [hand, machine]}`"
            ),
        ),
    ),
    Broken(
        name="step's condition on a size without braces",
        code="syntax",
        changes={
            STEPS: (("when: {hem: hand}", "when: size: 80"),),
        },
        messages=(
            (
                "patterns/plain/steps.md:10:11: [syntax] "
                "seen a colon where none can be; "
                'expected choices and alternatives between braces; write `when: {size: "80"}`'
            ),
        ),
    ),
    Broken(
        name="condition without braces",
        code="syntax",
        changes={
            YAML: (("  - when: {band: two}\n", "  - when: band: two\n"),),
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:30:15: [syntax] "
                "seen a colon where none can be; "
                "expected choices and alternatives between braces; "
                "write `when: {band: two}`"
            ),
        ),
    ),
    Broken(
        name="chart with a capital",
        code="bad-name",
        changes={
            YAML: (("body_chart: boxes", "body_chart: Boxes"),),
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:8:13: [bad-name] "
                "seen `Boxes`; "
                "expected lower-case words joined by hyphens, like `thistle-quay`; "
                "did you mean `boxes`?"
            ),
        ),
    ),
    Broken(
        name="chart like no other",
        code="missing-file",
        changes={
            YAML: (("body_chart: boxes", "body_chart: people"),),
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:8:13: [missing-file] "
                "seen the body chart `people`, which is not in `body_charts`; "
                "expected one of `boxes`; "
                "add `body_charts/people.csv`"
            ),
        ),
    ),
    Broken(
        name="all at once",
        code="unknown-key",
        changes={
            YAML: (
                ("garment: top", "germent: top"),
                ("minutes: 60", "minutes: '60'"),
                ("to: [back.side]", "to: [back.sides]"),
            ),
            SVG: (
                ("M 0,0 H 160 V 300 H 0 Z", "M 0,0 H 160 V 300 H 0 V 2"),
                ('id="front.92.outline"', 'id="front.92.outlin"'),
            ),
            STEPS: (("when: {hem: hand}", "when: {hems: hand}"),),
            CHART: (("80,1 year,800", "80,1 year,800.5"),),
        },
        messages=(
            (
                "body_charts/boxes.csv:3:11: [bad-chart] "
                "seen `800.5` under `height_mm`; "
                "expected whole millimetres from 1 to 3000; "
                "round it to whole millimetres: 801"
            ),
            (
                "patterns/plain/pattern.yaml:4:1: [unknown-key] "
                "seen the key `germent`; "
                "expected one of `boltside`, `name`, `summary`, `garment`, `edition`, `difficulty`, `minutes`, "
                "`body_chart`, `sizes`, `size_by`, `drawn`, `allowance_mm` and 16 more; "
                "did you mean `garment`?"
            ),
            (
                "patterns/plain/pattern.yaml:7:10: [wrong-type] "
                "seen the text `60`; "
                "expected a whole number; "
                "take the quotes away"
            ),
            (
                "patterns/plain/pattern.yaml:79:43: [unknown-edge] "
                "seen the edge `sides` of `back`; "
                "expected one of `top`, `side`, `hem`, `centre`; "
                "did you mean `side`?"
            ),
            (
                "patterns/plain/pieces.svg:3:1: [not-closed] "
                "seen `front.80.outline` open, a gap of 2.0 mm from (10.0 mm across, 10.0 mm down) to (10.0 mm "
                "across, 12.0 mm down); "
                "expected a closed path; "
                "join the two ends"
            ),
            (
                "patterns/plain/pieces.svg:28:1: [size-missing] "
                "seen outlines of `front` in sizes `80`; "
                "expected one in each size, also in `92`; "
                "there is `front.92.outlin`; did you mean that? then rename it to `front.92.outline`"
            ),
            (
                "patterns/plain/steps.md:10:8: [unknown-choice] "
                "seen the choice `hems`; "
                "expected one of `opening`, `band`, `hem`, `size`; "
                "did you mean `hem`?"
            ),
        ),
    ),
)
