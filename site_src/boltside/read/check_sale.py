"""Does the pattern say truly how it can be had, and are its photographs there and of something that can be sewn?"""

from __future__ import annotations

import re
from typing import Final

from boltside.read import document as doc
from boltside.read.book import Book
from boltside.read.collect import listed, meant, quoted
from boltside.read.folder_file import DOWNLOAD_BYTES_MAX, DOWNLOADS, PICTURE_BYTES_MAX, PICTURES, check_file
from boltside.read.yaml_tree import Path

ADDRESS: Final = re.compile(
    r"https://[a-z0-9](?:[a-z0-9-]*[a-z0-9])?(?:\.[a-z0-9-]+)+(?::[0-9]{1,5})?(?:/[A-Za-z0-9._~:/?#@!$&()*+,;=%-]*)?"
)
"""A secure address with a host that has a dot, and no space, quote or angle bracket (RFC 3986, the part we need)."""


def check_sale(book: Book) -> None:
    """Note contradictions in `sale`, and files and addresses that lead nowhere."""
    sale = book.document.sale
    if sale is None or not book.checked.whole("sale"):
        return
    if sale.free == (sale.price is not None):
        book.note(
            "wrong-value",
            ("sale",),
            seen="`free` and a `price`" if sale.free else "neither a `price` nor `free: true`",
            expected="exactly one of them",
            mend="delete one of the two" if sale.free else "add `price:` with two decimals, or `free: true`",
            key=True,
        )
    if sale.price is not None and not float(sale.price):
        book.note(
            "wrong-value",
            ("sale", "price"),
            seen="a price of nothing",
            expected="an amount",
            mend="write `free: true` instead",
        )
    if sale.free and sale.download is None and sale.checkout is None:
        book.note(
            "missing-key",
            ("sale",),
            seen="no `download`",
            expected="a file that can be fetched, for the pattern is free, or the address of a `checkout`",
            mend="add `download:` and a file of the folder",
            key=True,
        )
    if sale.checkout is not None and not ADDRESS.fullmatch(sale.checkout):
        book.note(
            "wrong-value",
            ("sale", "checkout"),
            seen=f"the address {quoted(sale.checkout)}",
            expected="an address that begins with `https://`",
            mend="copy the address from the browser",
        )
    if sale.download is not None:
        if not sale.free:
            book.note(
                "unknown-key",
                ("sale", "download"),
                seen="the key `download`",
                expected="it only with `free: true`: whatever is in the shop's folder can be fetched by everybody",
                mend="delete it; what is sold is handed out by the checkout",
                key=True,
            )
        check_file(book, ("sale", "download"), sale.download, DOWNLOADS, DOWNLOAD_BYTES_MAX)


def check_photographs(book: Book, *, conditions_hold_water: bool) -> None:
    """Note photographs that are not there, or show what the pattern does not have.

    Arguments: whether the rules can be asked what is allowed.
    """
    for at, photograph in enumerate(book.document.photographs):
        path: Path = ("photographs", at)
        if not book.checked.whole(*path):
            continue
        check_file(book, (*path, "file"), photograph.file, PICTURES, PICTURE_BYTES_MAX)
        fine = _names(book, path, photograph)
        if fine and conditions_hold_water and not _allowed(book, photograph):
            book.note(
                "wrong-value",
                (*path, "choices"),
                seen="choices that the rules forbid together",
                expected="what the photograph shows, as it can be sewn",
                mend="correct the choices or the size",
                key=True,
            )


def _names(book: Book, path: Path, photograph: doc.PhotographDoc) -> bool:
    """Note sizes, choices and alternatives that the pattern does not have; True when all are known."""
    it = book.document
    fine = True
    if photograph.size is not None and photograph.size not in it.sizes:
        fine = False
        if book.checked.whole("sizes"):
            book.note_unknown("unknown-size", (*path, "size"), photograph.size, it.sizes, "size")
    for name, word in photograph.choices.items():
        here = (*path, "choices", name)
        if name not in it.choices:
            fine = False
            if book.checked.names_whole("choices"):
                book.note(
                    "unknown-choice",
                    here,
                    seen=f"the choice {quoted(name)}",
                    expected=f"one of {listed(it.choices)}",
                    mend=meant(name, it.choices, "correct the name"),
                    key=True,
                )
        elif word not in it.choices[name].alternatives:
            fine = False
            if book.checked.whole("choices", name):
                book.note_unknown("unknown-alternative", here, word, it.choices[name].alternatives, "alternative", name)
    return fine


def _allowed(book: Book, photograph: doc.PhotographDoc) -> bool:
    sizes = book.document.sizes if photograph.size is None else [photograph.size]
    shown = photograph.choices.items()
    return any(
        all(chosen.get(name) == word for name, word in shown)
        for size in sizes
        for chosen in book.combinations.over(photograph.choices, size)
    )
