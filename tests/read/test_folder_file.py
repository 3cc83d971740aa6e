"""Files that pattern.yaml names: each form by how it begins, and names that are safe everywhere."""

from __future__ import annotations

import re

import pytest

from boltside.read.check_sale import ADDRESS
from boltside.read.folder_file import DOWNLOADS, PICTURES, SAFE_PART

OUTSIDE_BEGINNINGS = {
    # ISO/IEC 10918-1, annex B: SOI marker FF D8, then a marker that begins with FF.
    "jpg": b"\xff\xd8\xff\xe0\x00\x10JFIF\x00\x01",
    "jpeg": b"\xff\xd8\xff\xdb\x00\x43\x00\x02\x01\x01\x02\x01",
    # ISO/IEC 15948, 5.2: the signature, then the IHDR chunk.
    "png": b"\x89PNG\r\n\x1a\n\x00\x00\x00\x0d",
    # RFC 9649, 2.4: "RIFF", size, "WEBP".
    "webp": b"RIFF\x24\x0a\x00\x00WEBP",
    # APPNOTE of the ZIP format, 4.3.7: local file header signature.
    "zip": b"PK\x03\x04\x14\x00\x00\x00\x08\x00ab",
    # ISO 32000-1, 7.5.2: the header line.
    "pdf": b"%PDF-1.7\n%\xe2\xe3",
}


@pytest.mark.outside
@pytest.mark.parametrize("ending", OUTSIDE_BEGINNINGS)
def test_each_form_begins_as_its_standard_says(ending: str) -> None:
    kinds = {**PICTURES, **DOWNLOADS}
    hits = [
        other
        for other, ways in kinds.items()
        if any(re.match(way, OUTSIDE_BEGINNINGS[ending], flags=re.DOTALL) for way in ways)
    ]
    assert hits == (["jpg", "jpeg"] if ending in ("jpg", "jpeg") else [ending])
    assert set(OUTSIDE_BEGINNINGS) == set(kinds)


@pytest.mark.parametrize("name", ["a.jpg", "Front_2.webp", "x-1.0.zip", "photos"])
def test_plain_names_are_safe(name: str) -> None:
    assert SAFE_PART.fullmatch(name)


@pytest.mark.parametrize("name", ["", ".", "..", ".hidden", "-x", "a b", "a/b", "ä.jpg", "a\n", "con:", "a" * 101])
def test_other_names_are_not(name: str) -> None:
    assert not SAFE_PART.fullmatch(name)


@pytest.mark.parametrize(
    "address", ["https://example.com", "https://shop.example.com:8443/a/b?c=d&e=f#g", "https://a-b.example/x_y~z"]
)
def test_addresses(address: str) -> None:
    assert ADDRESS.fullmatch(address)


@pytest.mark.parametrize(
    "address",
    [
        "http://example.com",
        "//example.com",
        "https://localhost",
        "https://example.com/a b",
        'https://example.com/"onload',
        "https://example.com/<b>",
        "https://user@example.com/",
        "https://example.com\n",
        "data:text/html,x",
    ],
)
def test_what_is_no_secure_address(address: str) -> None:
    assert not ADDRESS.fullmatch(address)
