"""Broken pattern folders, continued: files that are not what they should be, or lead elsewhere. As `cases.py`."""

from __future__ import annotations

from typing import Final

from .cases import LINK, REMOVE, RENAME, STEPS, SVG, WHOLE, YAML, Broken

PHOTO: Final = "patterns/plain/photos/plain.png"
DOWNLOAD: Final = "patterns/plain/files/plain.zip"
SHOP: Final = "shop.yaml"
LAYS: Final = "patterns/plain/lays.json"

FILES: Final = (
    Broken(
        name="brackets without end",
        code="too-deep",
        changes={YAML: (("garment: top", "garment: " + "[" * 40),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:4:39: [too-deep] "
                "seen more than 30 lists and mappings in each other; "
                "expected at most 30; "
                "look for brackets or indents that are not closed"
            ),
        ),
    ),
    Broken(
        name="groups without end",
        code="too-deep",
        changes={SVG: (("</svg>", "<g>" * 120 + "</svg>"),)},
        messages=(
            (
                "patterns/plain/pieces.svg:52:298: [too-deep] "
                "seen more than 100 elements in each other; "
                "expected at most 100; "
                "export the drawing anew, with fewer groups"
            ),
        ),
    ),
    Broken(
        name="steps without titles",
        code="too-many-problems",
        changes={STEPS: ((WHOLE, "##\n" * 301),)},
        messages=(
            *(
                f"patterns/plain/steps.md:{line}:1: [bad-step] "
                "seen a step without a title; "
                "expected `## ` and a title; "
                "write what the step does behind `##`"
                for line in range(1, 301)
            ),
            (
                "patterns/plain/steps.md:301:1: [too-many-problems] "
                "seen more than 300 problems; "
                "expected a file as the handbook shows it; "
                "begin above"
            ),
        ),
    ),
    Broken(
        name="description is a picture",
        code="binary",
        changes={YAML: ((WHOLE, b"\x89PNG\r\n\x1a\n\0\0\0"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:1:1: [binary] "
                "seen a PNG picture; "
                "expected UTF-8 text; "
                "export it as text; this file is kept in the form of some other program"
            ),
        ),
    ),
    Broken(
        name="description in utf-16",
        code="not-utf-8",
        changes={YAML: ((WHOLE, "boltside: 1\n".encode("utf-16")),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:1:1: [not-utf-8] "
                "seen UTF-16 text; "
                "expected UTF-8 text; "
                "save the file as text with the encoding UTF-8"
            ),
        ),
    ),
    Broken(
        name="byte nought in the steps",
        code="binary",
        changes={STEPS: ((b"Press every seam.", b"Press every\0seam."),)},
        messages=(
            (
                "patterns/plain/steps.md:3:12: [binary] "
                "seen a byte 0, which no text has; "
                "expected UTF-8 text; "
                "export it as text; this file is kept in the form of some other program"
            ),
        ),
    ),
    Broken(
        name="photograph missing",
        code="missing-file",
        changes={PHOTO: ((REMOVE, ""),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:98:12: [missing-file] "
                "seen no readable file `photos/plain.png` in the pattern's folder; "
                "expected the file that is named; "
                "add it, or correct its name"
            ),
        ),
    ),
    Broken(
        name="photograph is text",
        code="wrong-file",
        changes={PHOTO: ((WHOLE, "no picture"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:98:12: [wrong-file] "
                "seen `photos/plain.png`, which does not begin like a file of its ending; "
                "expected a true `.png` file; "
                "export it anew; renaming does not change what it is"
            ),
        ),
    ),
    Broken(
        name="photograph of another form",
        code="wrong-file",
        changes={YAML: (("photos/plain.png", "photos/plain.gif"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:98:12: [wrong-file] "
                "seen the file `photos/plain.gif`; "
                "expected a file that ends in `.jpg`, `.jpeg`, `.png`, `.webp`; "
                "save it in one of these forms"
            ),
        ),
    ),
    Broken(
        name="photograph with another ending",
        code="wrong-file",
        changes={PHOTO: ((RENAME, "plain.jpg"),), YAML: (("photos/plain.png", "photos/plain.jpg"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:98:12: [wrong-file] "
                "seen `photos/plain.jpg`, which does not begin like a file of its ending; "
                "expected a true `.jpg` file; "
                "export it anew; renaming does not change what it is"
            ),
        ),
    ),
    Broken(
        name="photograph too large",
        code="too-large",
        changes={PHOTO: ((WHOLE, b"\x89PNG\r\n\x1a\n" + b"\0" * 8_000_000),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:98:12: [too-large] "
                "seen `photos/plain.png` of 8000008 bytes; "
                "expected at most 8000000 bytes; "
                "save it smaller"
            ),
        ),
    ),
    Broken(
        name="photograph outside",
        code="unsafe-path",
        changes={YAML: (("photos/plain.png", "../plain/photos/plain.png"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:98:12: [unsafe-path] "
                "seen the file `../plain/photos/plain.png`; "
                "expected a file in the pattern's folder, named by letters, digits, `-`, `_` and `.`, like "
                "`photos/a.jpg`; "
                "put the file into the pattern's folder and write its path from there"
            ),
        ),
    ),
    Broken(
        name="photograph is a link",
        code="unsafe-path",
        changes={PHOTO: ((LINK, "/etc/hostname"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:98:12: [unsafe-path] "
                "seen `photos/plain.png`, a link that leads out of the pattern's folder; "
                "expected a file of its own; "
                "put the file itself there"
            ),
        ),
    ),
    Broken(
        name="photograph with a space",
        code="bad-name",
        changes={YAML: (("photos/plain.png", "photos/plain front.png"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:98:12: [bad-name] "
                "seen the file `photos/plain front.png`; "
                "expected a file in the pattern's folder, named by letters, digits, `-`, `_` and `.`, like "
                "`photos/a.jpg`; "
                "rename the file"
            ),
        ),
    ),
    Broken(
        name="download missing",
        code="missing-file",
        changes={DOWNLOAD: ((REMOVE, ""),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:96:30: [missing-file] "
                "seen no readable file `files/plain.zip` in the pattern's folder; "
                "expected the file that is named; "
                "add it, or correct its name"
            ),
        ),
    ),
    Broken(
        name="download is no archive",
        code="wrong-file",
        changes={DOWNLOAD: ((WHOLE, "<html>"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:96:30: [wrong-file] "
                "seen `files/plain.zip`, which does not begin like a file of its ending; "
                "expected a true `.zip` file; "
                "export it anew; renaming does not change what it is"
            ),
        ),
    ),
    Broken(
        name="download is a link",
        code="unsafe-path",
        changes={DOWNLOAD: ((LINK, "../../../../../secret.zip"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:96:30: [unsafe-path] "
                "seen `files/plain.zip`, a link that leads out of the pattern's folder; "
                "expected a file of its own; "
                "put the file itself there"
            ),
        ),
    ),
    Broken(
        name="download from the top of the disk",
        code="unsafe-path",
        changes={YAML: (("files/plain.zip", "/etc/plain.zip"),)},
        messages=(
            (
                "patterns/plain/pattern.yaml:96:30: [unsafe-path] "
                "seen the file `/etc/plain.zip`; "
                "expected a file in the pattern's folder, named by letters, digits, `-`, `_` and `.`, like "
                "`photos/a.jpg`; "
                "put the file into the pattern's folder and write its path from there"
            ),
        ),
    ),
    Broken(
        name="currency in words",
        code="wrong-value",
        changes={SHOP: (("EUR", "Euro"),)},
        messages=(
            (
                "shop.yaml:3:11: [wrong-value] "
                "seen the text `Euro`; "
                "expected the three letters of a currency, like `EUR`; "
                "write the three letters of a currency, like `EUR`"
            ),
        ),
    ),
    Broken(
        name="colour by name",
        code="wrong-value",
        changes={SHOP: (('"#336677"', "teal"),)},
        messages=(
            (
                "shop.yaml:4:9: [wrong-value] "
                "seen the text `teal`; "
                "expected a colour as `#` and six digits from 0 to f, like `#2f5d62`; "
                "write a colour as `#` and six digits from 0 to f, like `#2f5d62`"
            ),
        ),
    ),
    Broken(
        name="shop with an unknown key",
        code="unknown-key",
        changes={SHOP: (("label:", "lable:"),)},
        messages=(
            (
                "shop.yaml:2:1: [unknown-key] "
                "seen the key `lable`; "
                "expected one of `boltside`, `label`, `currency`, `accent`; "
                "did you mean `label`?"
            ),
        ),
    ),
    Broken(
        name="shop is a link",
        code="unsafe-path",
        changes={SHOP: ((LINK, "/etc/hostname"),)},
        messages=(
            (
                "shop.yaml:1:1: [unsafe-path] "
                "seen `shop.yaml`, a link that leads out of the data folder; "
                "expected a file of its own; "
                "put the file itself there"
            ),
        ),
    ),
    Broken(
        name="shop too large",
        code="too-large",
        changes={SHOP: (("EUR", "EUR" + "#" * 70_000),)},
        messages=(
            (
                "shop.yaml:1:1: [too-large] "
                "seen 70062 bytes; "
                "expected at most 64000 bytes; "
                "take out of `shop.yaml` what does not belong there"
            ),
        ),
    ),
    Broken(
        name="lays torn",
        code="syntax",
        changes={LAYS: ((WHOLE, '[\n{"format": "boltside lays"},\n{"key": 1\n'),)},
        messages=(
            (
                "patterns/plain/lays.json:4:1: [syntax] "
                "seen text that is no JSON (`Expecting ',' delimiter`); "
                "expected the lays as `boltside lay` writes them; "
                "restore it from version control, or delete it and run `boltside lay`"
            ),
        ),
    ),
    Broken(
        name="lays of something else",
        code="wrong-type",
        changes={LAYS: ((WHOLE, "{}"),)},
        messages=(
            (
                "patterns/plain/lays.json:1:1: [wrong-type] "
                "seen something else than a list of lays; "
                "expected the lays as `boltside lay` writes them; "
                "restore it from version control, or delete it and run `boltside lay`"
            ),
        ),
    ),
    Broken(
        name="lays without end",
        code="too-deep",
        changes={LAYS: ((WHOLE, "[" * 100_000),)},
        messages=(
            (
                "patterns/plain/lays.json:1:1: [too-deep] "
                "seen brackets in each other without end; "
                "expected the lays as `boltside lay` writes them; "
                "restore it from version control, or delete it and run `boltside lay`"
            ),
        ),
    ),
    Broken(
        name="lays are a link",
        code="unsafe-path",
        changes={LAYS: ((WHOLE, "[]"), (LINK, "/etc/hostname"))},
        messages=(
            (
                "patterns/plain/lays.json:1:1: [unsafe-path] "
                "seen `lays.json`, a link that leads out of the data folder; "
                "expected a file of its own; "
                "put the file itself there"
            ),
        ),
    ),
    Broken(
        name="brackets in a step",
        code="too-large",
        changes={STEPS: (("Press every seam.", "[" * 3_000),)},
        messages=(
            (
                "patterns/plain/steps.md:1:1: [too-large] "
                "seen a text of 3003 letters with 3000 `[`; "
                "expected at most 10000 letters and 300 `[` in a step or the introduction; "
                "part it in two, or delete what does not belong there"
            ),
        ),
    ),
)
