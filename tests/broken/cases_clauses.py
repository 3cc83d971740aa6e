"""Broken folders, continued: clauses that contradict each other, garments that can't be sewn. As `cases.py`.

Long because each message stands here whole.
"""

from __future__ import annotations

from typing import Final

from .cases import SVG, YAML, Broken

CLAUSES: Final = (
    Broken(
        name="pair with an unknown size",
        code="unknown-size",
        changes={YAML: (('sizes: ["80", "92"]\n', 'sizes: ["80", "92"]\ntogether: [["80", "93"]]\n'),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:10:19: [unknown-size] "
                "seen the size `93`; "
                "expected one of `80`, `92`; "
                "correct the name"
            ),
        ),
    ),
    Broken(
        name="pair that stands twice",
        code="wrong-value",
        changes={YAML: (('sizes: ["80", "92"]\n', 'sizes: ["80", "92"]\ntogether: [["80", "92"], ["92", "80"]]\n'),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:10:26: [wrong-value] "
                "seen `80` with `92` a second time; "
                "expected each pair of sizes once, in either order; "
                "delete one of the two"
            ),
        ),
    ),
    Broken(
        name="pair of one",
        code="wrong-value",
        changes={YAML: (('sizes: ["80", "92"]\n', 'sizes: ["80", "92"]\ntogether: [["80"]]\n'),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:10:12: [wrong-value] "
                "seen a list of 1; "
                "expected at least 2 of them; "
                "change it for `together`"
            ),
        ),
    ),
    Broken(
        name="more pairs than are laid",
        code="too-many-pairs",
        changes={
            YAML: (('sizes: ["80", "92"]\n', 'sizes: ["80", "92"]\ntogether: [' + '["80", "92"], ' * 13 + ']\n'),)
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:10:1: [too-many-pairs] "
                "seen 13 pairs of sizes; "
                "expected at most 12; "
                "keep those that are most often sewn at once; for any other pair the two lengths are added"
            ),
        ),
    ),
    Broken(
        name="photograph of another size",
        code="unknown-size",
        changes={YAML: (('size: "80", choices', 'size: "81", choices'),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:98:61: [unknown-size] "
                "seen the size `81`; "
                "expected one of `80`, `92`; "
                "correct the name"
            ),
        ),
    ),
    Broken(
        name="photograph of another choice",
        code="unknown-choice",
        changes={YAML: (("choices: {band: none}", "choices: {bands: none}"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:98:77: [unknown-choice] "
                "seen the choice `bands`; "
                "expected one of `opening`, `band`, `hem`; "
                "did you mean `band`?"
            ),
        ),
    ),
    Broken(
        name="photograph of another alternative",
        code="unknown-alternative",
        changes={YAML: (("choices: {band: none}", "choices: {band: nine}"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:98:83: [unknown-alternative] "
                "seen the alternative `nine` of `band`; "
                "expected one of `none`, `two`; "
                "did you mean `none`?"
            ),
        ),
    ),
    Broken(
        name="photograph of what is forbidden",
        code="wrong-value",
        changes={YAML: (("choices: {band: none}", "choices: {band: two, opening: back}"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:98:67: [wrong-value] "
                "seen choices that the rules forbid together; "
                "expected what the photograph shows, as it can be sewn; "
                "correct the choices or the size"
            ),
        ),
    ),
    Broken(
        name="free and with a price",
        code="wrong-value",
        changes={YAML: (("free: true,", 'free: true, price: "8.50",'),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:96:1: [wrong-value] "
                "seen `free` and a `price`; "
                "expected exactly one of them; "
                "delete one of the two"
            ),
        ),
    ),
    Broken(
        name="sold with a download",
        code="unknown-key",
        changes={YAML: (("free: true,", 'price: "8.50",'),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:96:23: [unknown-key] "
                "seen the key `download`; "
                "expected it only with `free: true`: whatever is in the shop's folder can be fetched by "
                "everybody; "
                "delete it; what is sold is handed out by the checkout"
            ),
        ),
    ),
    Broken(
        name="neither free nor sold",
        code="wrong-value",
        changes={YAML: (("free: true, download: files/plain.zip,", ""),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:96:1: [wrong-value] "
                "seen neither a `price` nor `free: true`; "
                "expected exactly one of them; "
                "add `price:` with two decimals, or `free: true`"
            ),
        ),
    ),
    Broken(
        name="free with nothing to fetch",
        code="missing-key",
        changes={YAML: (("free: true, download: files/plain.zip,", "free: true,"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:96:1: [missing-key] "
                "seen no `download`; "
                "expected a file that can be fetched, for the pattern is free, or the address of a `checkout`; "
                "add `download:` and a file of the folder"
            ),
        ),
    ),
    Broken(
        name="price with a comma",
        code="wrong-value",
        changes={YAML: (("free: true, download: files/plain.zip,", 'price: "8,50",'),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:96:15: [wrong-value] "
                "seen the text `8,50`; "
                "expected an amount with two decimals and without the currency, like `8.50`; "
                "write `8.50` with a point"
            ),
        ),
    ),
    Broken(
        name="price of nothing",
        code="wrong-value",
        changes={YAML: (("free: true, download: files/plain.zip,", 'price: "0.00",'),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:96:15: [wrong-value] "
                "seen a price of nothing; "
                "expected an amount; "
                "write `free: true` instead"
            ),
        ),
    ),
    Broken(
        name="checkout that is not secure",
        code="wrong-value",
        changes={
            YAML: (("free: true, download: files/plain.zip,", 'price: "8.50", checkout: "http://example.com/plain",'),)
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:96:33: [wrong-value] "
                "seen the address `http://example.com/plain`; "
                "expected an address that begins with `https://`; "
                "copy the address from the browser"
            ),
        ),
    ),
    Broken(
        name="checkout that runs",
        code="wrong-value",
        changes={
            YAML: (("free: true, download: files/plain.zip,", 'price: "8.50", checkout: "javascript:alert(1)",'),)
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:96:33: [wrong-value] "
                "seen the address `javascript:alert(1)`; "
                "expected an address that begins with `https://`; "
                "copy the address from the browser"
            ),
        ),
    ),
    Broken(
        name="language in words",
        code="wrong-value",
        changes={YAML: (("languages: [en]", "languages: [English]"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:96:90: [wrong-value] "
                "seen the text `English`; "
                "expected the short word of a language, like `en` or `pt-BR`; "
                "write the short word of a language, like `en` or `pt-BR`"
            ),
        ),
    ),
    Broken(
        name="nap in other words",
        code="wrong-value",
        changes={
            YAML: (
                (
                    "widths_mm: [1100, 1400], ways: [folded, flat]}",
                    "widths_mm: [1100, 1400], ways: [folded, flat], nap: yes}",
                ),
            )
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:34:121: [wrong-value] "
                "seen the text `yes`; "
                "expected one of `ask`, `always`, `never`; "
                "write one of these"
            ),
        ),
    ),
    Broken(
        name="nap case that is never reached",
        code="wrong-value",
        changes={
            YAML: (
                (
                    "widths_mm: [1100, 1400], ways: [folded, flat]}",
                    "widths_mm: [1100, 1400], ways: [folded, flat], nap: [{nap: always}, {nap: ask, when: {band: "
                    "two}}]}",
                ),
            )
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:34:122: [wrong-value] "
                "seen a case that always holds before others; "
                "expected it as the last case, for the first that holds is taken; "
                "add `when:` to it, or move it to the end"
            ),
        ),
    ),
    Broken(
        name="old word for nap",
        code="unknown-key",
        changes={
            YAML: (
                (
                    "widths_mm: [1100, 1400], ways: [folded, flat]}",
                    "widths_mm: [1100, 1400], ways: [folded, flat], one_way: true}",
                ),
            )
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:34:116: [unknown-key] "
                "seen the key `one_way`; "
                "expected one of `title`, `kinds`, `usual_width_mm`, `widths_mm`, `ways`, `remnant_widths_mm`, `nap`, "
                "`repeats`; "
                "delete it"
            ),
        ),
    ),
    Broken(
        name="no kind in some combinations",
        code="wrong-value",
        changes={YAML: (("kinds: [woven]", "kinds: [{kinds: [woven], when: {band: none}}]"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:34:31: [wrong-value] "
                "seen no case that holds with band two; "
                "expected a case for every allowed combination; "
                "leave `when` out of the last case"
            ),
        ),
    ),
    Broken(
        name="kind that is none",
        code="wrong-value",
        changes={YAML: (("kinds: [woven]", "kinds: [woven, weven]"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:34:46: [wrong-value] "
                "seen the text `weven`; "
                "expected one of `woven`, `knit`, `interfacing`; "
                "did you mean `woven`?"
            ),
        ),
    ),
    Broken(
        name="ease for a kind that no cloth is",
        code="wrong-value",
        changes={YAML: (("ease_mm: {woven: [20, 180]}", "ease_mm: {woven: [20, 180], knit: [0, 20]}"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:88:33: [wrong-value] "
                "seen ease for `knit`, which no cloth is; "
                "expected one of `interfacing`, `woven`, what stands under `kinds`; "
                "delete it, or add `knit` to the kinds of a cloth"
            ),
        ),
    ),
    Broken(
        name="both copies as drawn",
        code="wrong-value",
        changes={
            YAML: (
                (
                    "wearers-left: {carries: [buttonholes]}\n      wearers-right: {",
                    "wearers-left: {drawn: true, carries: [buttonholes]}\n      wearers-right: {drawn: true, ",
                ),
            )
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:63:30: [wrong-value] "
                "seen 2 of 2 copies of `front` as drawn; "
                "expected 1 of them, for half of a pair is mirrored; "
                "leave `drawn` at the copies that come out as the outline is drawn, face up"
            ),
        ),
    ),
    Broken(
        name="carried in an unknown alternative",
        code="unknown-alternative",
        changes={YAML: (("carries: [buttonholes]", "carries: [{what: buttonholes, when: {opening: side}}]"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:62:68: [unknown-alternative] "
                "seen the alternative `side` of `opening`; "
                "expected one of `front`, `back`; "
                "correct the word"
            ),
        ),
    ),
    Broken(
        name="notion without an amount",
        code="missing-key",
        changes={YAML: (("kind: [button, snap], count: 4,", "kind: [button, snap],"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:91:5: [missing-key] "
                "seen no amount of `buttons`; "
                "expected one of `rule`, `count`, `tabled_mm`, `tabled_count`; "
                "add `count:` for what is bought by the piece, or a `rule:` for what is bought by length"
            ),
        ),
    ),
    Broken(
        name="thick elastic",
        code="unknown-key",
        changes={YAML: (("kind: elastic,", "kind: elastic, thickness_mm: 2,"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:90:52: [unknown-key] "
                "seen the key `thickness_mm`; "
                "expected it only with a kind of `button`, `snap`; "
                "delete it"
            ),
        ),
    ),
    Broken(
        name="alternative that changes nothing",
        code="changes-nothing",
        changes={
            YAML: (
                (
                    "  hem:\n",
                    "  lace: {title: Lace, default: none, alternatives: {none: {title: None}, white: {title: "
                    "White, minutes: 10}}}\n  hem:\n",
                ),
            )
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:24:74: [advice: changes-nothing] "
                "seen `white` of `lace`, which does the same as `none`; "
                "expected an alternative that changes a piece, seam, length, notion, step or rule; "
                "add `when:` to what it changes, or delete it"
            ),
        ),
    ),
    Broken(
        name="no allowance anywhere",
        code="no-allowance",
        changes={YAML: (("drawn: stitching\nallowance_mm: 10\n", "drawn: stitching\n"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:1:1: [no-allowance] "
                "seen no `allowance_mm` of the pattern, and 7 edges that say nothing, like `front.top`; "
                "expected one at each edge, or the pattern's for every edge that says nothing; "
                "add a line `allowance_mm: 10`, or what most edges have"
            ),
        ),
    ),
    Broken(
        name="no allowance in one case",
        code="no-allowance",
        changes={
            YAML: (
                ("drawn: stitching\nallowance_mm: 10\n", "drawn: stitching\n"),
                ("{name: top, from: top-centre}", "{name: top, from: top-centre, allowance_mm: 10}"),
                (
                    "{name: side, from: top-side}",
                    "{name: side, from: top-side, allowance_mm: [{mm: 10, when: {band: two}}]}",
                ),
                ("edge: waist, when", "edge: waist, allowance_mm: 10, when"),
                ("{name: top, from: top-centre}", "{name: top, from: top-centre, allowance_mm: 10}"),
                ("{name: side, from: top-side}", "{name: side, from: top-side, allowance_mm: 10}"),
                ("{name: long, from: left}", "{name: long, from: left, allowance_mm: 10}"),
                ("via: low}", "via: low, allowance_mm: 10}"),
            )
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:43:9: [no-allowance] "
                "seen no allowance for `front.side` with band none, size 80; "
                "expected one at the edge, or the pattern's `allowance_mm` for every edge that says nothing; "
                "add `allowance_mm:` to `side` (0 where nothing is turned in), or at the top of the file"
            ),
        ),
    ),
    Broken(
        name="ease that the outlines do not have",
        code="ease-off",
        changes={YAML: (("ease_mm: {woven: [20, 180]}", "ease_mm: {woven: [120, 150]}"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:82:5: [warning: ease-off] "
                "seen `chest` 640.0 mm over a body of 480 mm, that is 160.0 mm of ease, "
                "in size 80 with opening front, band none; "
                "expected 120 to 150 mm of ease in woven cloth; "
                "look at the outlines and the body chart, or say in `ease_mm:` what is meant"
            ),
        ),
    ),
    Broken(
        name="sizes taken for each other",
        code="shrinking-grading",
        changes={SVG: (("M 0,0 H 160 V 300 H 0 Z", "M 0,0 L 80,-3 L 160,0 V 300 H 0 Z"),)},
        messages=(
            (
                "patterns/plain/pieces.svg:28:1: [warning: shrinking-grading] "
                "seen `front` 303.0 mm high in size 80 but 300.0 mm in size 92; "
                "expected a larger size that is nowhere smaller; "
                "look whether `front.80` and `front.92` have been taken for each other; if it is meant, leave it"
            ),
        ),
    ),
    Broken(
        name="measurement that shrinks",
        code="shrinking-grading",
        changes={
            SVG: (("M 0,0 H 160 V 300 H 0 Z", "M 0,0 L 80,-20 L 160,0 V 300 H 0 Z"),),
            YAML: (("{line: back.waist, times: 2}", "{edge: front.top, times: 2}"),),
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:82:5: [warning: shrinking-grading] "
                "seen `chest` 649.8 mm in size 80 but 640.0 mm in size 92 with opening front, band none; "
                "expected a larger size that is nowhere smaller; "
                "look at the outlines of both sizes; if it is meant, leave it"
            ),
            (
                "patterns/plain/pieces.svg:28:1: [warning: shrinking-grading] "
                "seen `front` 320.0 mm high in size 80 but 300.0 mm in size 92; "
                "expected a larger size that is nowhere smaller; "
                "look whether `front.80` and `front.92` have been taken for each other; if it is meant, leave it"
            ),
        ),
    ),
    Broken(
        name="seam that does not fit",
        code="seam-lengths",
        changes={
            YAML: (("to: [back.side], when: {band: none}}", "to: [back.side], ease_mm: [3, 5], when: {band: none}}"),)
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:79:5: [seam-lengths] "
                "seen seam `side`: 300.0 mm joined to 300.0 mm in size 80 with opening front, band none (also in "
                "92); "
                "expected 303.0 to 305.0 mm joined to it, an ease of 3 to 5 mm; "
                "true the outlines, or say in the seam which ease or gather ratio is meant"
            ),
        ),
    ),
    Broken(
        name="gathers that do not fit",
        code="seam-lengths",
        changes={YAML: (("gather_ratio: [0.5, 2]", "gather_ratio: [1.5, 2]"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:80:5: [seam-lengths] "
                "seen seam `band`: 140.0 mm joined to 160.0 mm in size 80 with opening front, band two (also in "
                "92); "
                "expected 240.0 to 320.0 mm joined to it, 1.5 to 2 times as long; "
                "true the outlines, or say in the seam which ease or gather ratio is meant"
            ),
        ),
    ),
    Broken(
        name="ease in percent that does not fit",
        code="seam-lengths",
        changes={
            YAML: (
                ("to: [back.side], when: {band: none}}", "to: [back.side], ease_percent: [3, 5], when: {band: none}}"),
            )
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:79:5: [seam-lengths] "
                "seen seam `side`: 300.0 mm joined to 300.0 mm in size 80 with opening front, band none (also in "
                "92); "
                "expected 309.0 to 315.0 mm joined to it, an ease of 3 to 5 %; "
                "true the outlines, or say in the seam which ease or gather ratio is meant"
            ),
        ),
    ),
    Broken(
        name="edges that do not meet",
        code="broken-chain",
        changes={
            YAML: (
                (
                    "  - {name: band, join",
                    "  - {name: top, join: [front.centre, back.centre], to: [back.centre, front.centre], when: "
                    "{band: none}}\n  - {name: band, join",
                ),
            )
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:80:17: [broken-chain] "
                "seen `front.centre` and then `back.centre`, which do not meet (also in 92); "
                "expected a seam of its own that joins `front` and `back` where the two edges meet; "
                "put the edges into the order in which they are sewn, or add the seam between them"
            ),
            (
                "patterns/plain/pattern.yaml:80:52: [broken-chain] "
                "seen `back.centre` and then `front.centre`, which do not meet (also in 92); "
                "expected a seam of its own that joins `back` and `front` where the two edges meet; "
                "put the edges into the order in which they are sewn, or add the seam between them"
            ),
        ),
    ),
    Broken(
        name="edges of one piece that do not meet",
        code="broken-chain",
        changes={
            YAML: (
                (
                    "  - {name: band, join",
                    "  - {name: top, join: [front.top, front.hem], to: [back.hem, back.centre, back.top], when: "
                    "{band: none}, ease_mm: [-500, 500]}\n  - {name: band, join",
                ),
            )
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:80:17: [broken-chain] "
                "seen `front.top` and then `front.hem`, which do not meet (also in 92); "
                "expected edges that are neighbours round the piece, or a seam that joins their ends; "
                "put the edges into the order in which they are sewn, or add the seam between them"
            ),
        ),
    ),
    Broken(
        name="length of an edge that is cut off",
        code="not-measurable",
        changes={YAML: (("- {line: back.waist, times: 2}", "- {edge: front.hem, times: 2}"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:82:5: [not-measurable] "
                "seen piece 'front' has no edge 'hem' here, it has top, side, waist, centre, in size 80 with "
                "opening front, band two (also in 92); "
                "expected something that can be measured in every size and allowed combination where it is asked "
                "for; "
                "say with `when:` where it applies, or correct the piece"
            ),
        ),
    ),
    Broken(
        name="seam of an edge that is cut off",
        code="not-measurable",
        changes={
            YAML: (
                ("  - {name: band, join", "  - {name: hem, join: [front.hem], to: [back.hem]}\n  - {name: band, join"),
            )
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:80:5: [not-measurable] "
                "seen piece 'front' has no edge 'hem' here, it has top, side, waist, centre, in size 80 with "
                "opening front, band two (also in 92); "
                "expected something that can be measured in every size and allowed combination where it is asked "
                "for; "
                "say with `when:` where it applies, or correct the piece"
            ),
        ),
    ),
    Broken(
        name="piece that the allowances swallow",
        code="not-measurable",
        changes={
            YAML: (
                (
                    "    drawn: cutting\n    edges:\n      - {name: long, from: left}",
                    "    drawn: cutting\n    edges:\n      - {name: long, from: left, allowance_mm: 190}",
                ),
            )
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:69:3: [not-measurable] "
                "seen piece 'band', size 80: the stitching line crosses itself: the allowances (long 190, rest "
                "10 mm) do not fit this outline, in size 80 with band two (also in 92); "
                "expected something that can be measured in every size and allowed combination where it is asked "
                "for; "
                "say with `when:` where it applies, or correct the piece"
            ),
        ),
    ),
    Broken(
        name="price as a number",
        code="wrong-type",
        changes={YAML: (("free: true, download: files/plain.zip,", "price: 8.5,"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:96:15: [wrong-type] "
                "seen the number `8.5`; "
                "expected text; "
                'put it in quotes, with two decimals: "8.50"'
            ),
        ),
    ),
    Broken(
        name="choices by the dozen",
        code="too-many-combinations",
        changes={
            YAML: (
                (
                    "  hem:\n    title: Hem\n",
                    "".join(
                        f"  c{n}: {{title: C, default: a, alternatives: {{a: {{title: A}}, b: {{title: B}}}}}}\n"
                        for n in range(16)
                    )
                    + "  hem:\n    title: Hem\n",
                ),
                (
                    "when: {band: two}\n    drawn: cutting",
                    "when: [{band: two}" + "".join(f", {{c{n}: a}}" for n in range(16)) + "]\n    drawn: cutting",
                ),
            )
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:85:3: [too-many-combinations] "
                "seen 17 choices on which it depends; "
                "expected at most 20000 forms of one part, and 200000 of all together; "
                "let it depend on fewer choices, or part the piece in two"
            ),
        ),
    ),
    Broken(
        name="rules that hang together",
        code="too-many-combinations",
        changes={
            YAML: (
                (
                    "  hem:\n    title: Hem\n",
                    "".join(
                        f"  c{n}: {{title: C, default: a, alternatives: {{a: {{title: A}}, b: {{title: B}}}}}}\n"
                        for n in range(24)
                    )
                    + "  hem:\n    title: Hem\n",
                ),
                (
                    "cloths:\n",
                    "".join(
                        f"  - {{when: {{c0: {word}, c23: [a, b]}}, excludes: {{c22: [a, b]}}, because: So.}}\n"
                        for word in "ab"
                    )
                    + "cloths:\n",
                ),
            )
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:53:1: [too-many-combinations] "
                "seen more than 200000 branches of choices; "
                "expected choices that hang together a few at a time; "
                "take rules apart that ask about many choices at once"
            ),
        ),
    ),
    Broken(
        name="a way of laying that there is not",
        code="wrong-value",
        changes={YAML: (("widths_mm: [1100, 1400], ways: [folded, flat]", "widths_mm: [1100, 1400], ways: [halved]"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:34:101: [wrong-value] "
                "seen the text `halved`; "
                "expected one of `folded`, `flat`, `middle`, `part-folded`; "
                "write one of these"
            ),
        ),
    ),
    Broken(
        name="too wide with both selvedges to the middle",
        code="too-wide",
        changes={YAML: (("widths_mm: [1100, 1400], ways: [folded, flat]", "widths_mm: [680], ways: [middle]"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:60:17: [too-wide] "
                "seen `front` in size 80, 160 mm across the grain; "
                "expected at most 155 mm, what a cloth of 680 mm has between a fold and a selvedge, "
                "both selvedges to the middle; "
                "add a wider cloth to `widths_mm` or the way `flat`, change the grain, or part the piece with a "
                "seam"
            ),
            (
                "patterns/plain/pattern.yaml:68:17: [too-wide] "
                "seen `back` in size 80, 320 mm across the grain; "
                "expected at most 155 mm, what a cloth of 680 mm has between a fold and a selvedge, "
                "both selvedges to the middle; "
                "add a wider cloth to `widths_mm` or the way `flat`, change the grain, or part the piece with a "
                "seam"
            ),
            (
                "patterns/plain/pattern.yaml:77:17: [too-wide] "
                "seen `band` in size 80, 200 mm across the grain; "
                "expected at most 155 mm, what a cloth of 680 mm has between a fold and a selvedge, "
                "both selvedges to the middle; "
                "add a wider cloth to `widths_mm` or the way `flat`, change the grain, or part the piece with a "
                "seam"
            ),
        ),
    ),
    Broken(
        name="half too wide to be folded over, pair fits beside",
        code="too-wide",
        changes={
            YAML: (
                ("widths_mm: [1100, 1400], ways: [folded, flat]", "widths_mm: [340], ways: [part-folded]"),
                ("    title: Band\n    when", "    title: Band\n    grain: crosswise\n    when"),
            )
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:68:17: [too-wide] "
                "seen `back` in size 80, 320 mm across the grain; "
                "expected at most 155 mm, what a cloth of 340 mm has between its selvedges; "
                "add a wider cloth to `widths_mm` or the way `flat`, change the grain, or part the piece with a "
                "seam"
            ),
        ),
    ),
    Broken(
        name="off grain on cloth with its selvedges to the middle",
        code="fold-off-grain",
        changes={
            YAML: (
                ("widths_mm: [1100, 1400], ways: [folded, flat]", "widths_mm: [1100, 1400], ways: [middle]"),
                ("  front:\n    title: Front\n", "  front:\n    title: Front\n    grain: crosswise\n"),
            )
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:69:57: [advice: fold-off-grain] "
                "seen `front.centre` on the fold, in size 80 90° off the lengthwise grain; "
                "expected an edge along the fold of `outer`, which runs with the lengthwise grain; "
                "turn the `grain` line or change `grain`; left so, the piece is cut whole, unfolded"
            ),
        ),
    ),
)
