"""Photographs: shipped from the pattern's folder, tagged, to be filtered where there are many."""

from __future__ import annotations

import struct
import zlib
from pathlib import Path
from typing import Any

import pytest

from boltside.pages.gallery import MANY, gallery_part
from boltside.shop_build import ShopNotMade, pattern_files

from .reading import read

Json = dict[str, Any]


def png(width: int, height: int) -> bytes:
    """A grey picture. Source of the layout: Portable Network Graphics specification, W3C."""

    def chunk(kind: bytes, data: bytes) -> bytes:
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))

    rows = b"".join(b"\0" + b"\x80" * width for _ in range(height))
    head = struct.pack(">IIBBBBB", width, height, 8, 0, 0, 0, 0)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", zlib.compress(rows)) + chunk(b"IEND", b"")


def photograph(number: int, **said: Any) -> Json:
    """A photograph as a sheet names it."""
    return {
        "file": f"photos/{number}.png",
        "title": f"Number {number}",
        "size": None,
        "choices": {},
        "cloth": None,
    } | said


def test_a_photograph_is_shipped_and_shown_with_its_tags(sheet: Json, tmp_path: Path) -> None:
    sheet["photographs"] = [photograph(1, size="92", choices={"length": "waist"}, cloth="Brushed cotton")]
    (tmp_path / "photos").mkdir()
    (tmp_path / "photos" / "1.png").write_bytes(png(4, 5))
    (tmp_path / "photos" / "not-named.png").write_bytes(png(1, 1))
    shipped = {file.path: file.content for file in pattern_files(sheet, folder=tmp_path).beside}
    assert shipped["patterns/example-jacket/photos/1.png"] == png(4, 5)
    assert "patterns/example-jacket/photos/not-named.png" not in shipped
    part = read(gallery_part(sheet))
    (image,) = part.all("img")
    assert (image.attributes["src"], image.attributes["alt"]) == ("photos/1.png", "Number 1")
    assert part.all("figcaption")[0].text == "Size 92. Length: To the waist, with a band. Brushed cotton"
    assert not part.all("select"), "few are seen at a glance"


def test_many_can_be_filtered_by_tag(sheet: Json) -> None:
    sheet["photographs"] = [photograph(at, size=sheet["sizes"][at % 2]) for at in range(MANY)]
    part = read(gallery_part(sheet))
    assert [option.attributes["value"] for option in part.all("option")] == ["", "Size 68", "Size 74"]
    assert {item.attributes["data-tags"] for item in part.all("li")} == {"Size 68", "Size 74"}


def test_a_photograph_that_is_not_there_stops_the_build(sheet: Json, tmp_path: Path) -> None:
    sheet["photographs"] = [photograph(1)]
    with pytest.raises(ShopNotMade, match=r"example-jacket: the file photos/1.png is not in the pattern's folder"):
        pattern_files(sheet, folder=tmp_path)


def test_nothing_outside_the_folder_is_shipped(sheet: Json, tmp_path: Path) -> None:
    (tmp_path / "own").mkdir()
    (tmp_path / "secret.png").write_bytes(png(1, 1))
    (tmp_path / "own" / "link.png").symlink_to(tmp_path / "secret.png")
    for name in ("../secret.png", "link.png"):
        sheet["photographs"] = [photograph(1, file=name)]
        with pytest.raises(ShopNotMade):
            pattern_files(sheet, folder=tmp_path / "own")


def test_a_download_is_shipped_for_free_patterns_alone(sheet: Json, tmp_path: Path) -> None:
    (tmp_path / "all.zip").write_bytes(b"PK")
    sheet["sale"] |= {"free": True, "price": None, "checkout": None, "download": "all.zip"}
    assert "patterns/example-jacket/all.zip" in [file.path for file in pattern_files(sheet, folder=tmp_path).beside]
    sheet["sale"] |= {"free": False, "price": "8.50"}
    assert "patterns/example-jacket/all.zip" not in [file.path for file in pattern_files(sheet, folder=tmp_path).beside]


def test_without_photographs_there_is_no_part(sheet: Json) -> None:
    assert gallery_part(sheet) == ""
