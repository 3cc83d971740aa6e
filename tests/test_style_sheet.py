"""The one style sheet says what the others say, in fewer bytes."""

from __future__ import annotations

import hashlib

from boltside.style_sheet import joined, small


def test_comments_and_white_space_go_and_what_is_in_quotes_stays() -> None:
    sheet = '/* A "word" of explanation; */\na:is(b, c) > d::before {\n  content: "+  ;";\n  margin: 0 -1px;\n}\n'
    assert small(sheet) == 'a:is(b,c) > d::before{content:"+  ;";margin:0 -1px}'


def test_white_space_that_means_something_stays() -> None:
    assert small(".a :hover { width: calc(100% - 2px); }") == ".a :hover{width:calc(100% - 2px)}"
    assert small("@media (min-width: 2rem) and (hover) { p { --a: 1px; } }") == (
        "@media (min-width:2rem) and (hover){p{--a:1px}}"
    )


def test_sheets_keep_their_order_and_files_are_named_with_their_hash() -> None:
    files = {"fonts/a.woff2": b"a font"}
    text = joined(['@font-face { src: url("fonts/a.woff2"); }', "b { margin: 0; }"], files.__getitem__, 12)
    digits = hashlib.sha256(b"a font").hexdigest()[:12]
    assert text == f'@font-face{{src:url("fonts/a.woff2?{digits}")}}b{{margin:0}}'
