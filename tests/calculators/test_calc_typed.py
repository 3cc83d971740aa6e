"""What buyers type, read or refused with a sentence."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boltside.calculators.problems import PROBLEMS
from boltside.calculators.size import BODY
from boltside.calculators.typed import WIDTH, read_length


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("137", 1370.0),
        ("137 cm", 1370.0),
        ("137cm.", 1370.0),
        ("137 CM", 1370.0),
        ("1,37 m", 1370.0),
        ("1.37m", 1370.0),
        ("1370 mm", 1370.0),
        ("1 m 37 cm", 1370.0),
        ("54 in", 1371.6),
        ('54"', 1371.6),
        ("54''", 1371.6),
        ("54″", 1371.6),
        ("54 1/2 in", 1384.3),
        ("54½ inches", 1384.3),
        ('54-1/2"', 1384.3),
        ("54 – 1/2 in", 1384.3),
        ("4 ft 6 in", 1371.6),
        ("1½ yd", 1371.6),
        ("1 yd 18 in", 1371.6),
        ("１３７", 1370.0),
        ("１．３７ ｍ", 1370.0),
        ("۱۳۷", 1370.0),
        ("  140  ", 1400.0),
        ("+140", 1400.0),
    ],
)
def test_lengths_that_people_type(text: str, mm: float) -> None:
    assert read_length(text, "cm", WIDTH).mm == pytest.approx(mm, abs=1e-9)


def test_a_bare_number_is_in_the_unit_of_the_page() -> None:
    assert read_length("54", "in", WIDTH).mm == 1371.6
    assert read_length("54 cm", "in", WIDTH).mm == 540.0


@pytest.mark.parametrize("text", ["", "   ", "\u3000"])
def test_nothing_typed_is_nothing_said(text: str) -> None:
    typed = read_length(text, "cm", WIDTH)
    assert typed.empty and typed.said.text == ""


@pytest.mark.parametrize(("text", "likelier"), [("137", "137 cm"), ("110", "110 cm"), ("90", "90 cm")])
def test_centimetres_on_a_page_in_inches_are_asked_about(text: str, likelier: str) -> None:
    typed = read_length(text, "in", WIDTH)
    assert (typed.mm, typed.code) == (None, "not-a-width")
    assert (
        typed.said.text
        == f"{text} in is wider than cloth usually is. Type {likelier} or {text} in, whichever you mean."
    )


@pytest.mark.parametrize(
    ("text", "unit", "mm"), [("108 in", "in", 2743.2), ("60", "in", 1524.0), ("280", "cm", 2800.0)]
)
def test_wide_cloth_that_is_meant_is_taken(text: str, unit: str, mm: float) -> None:
    assert read_length(text, unit, WIDTH).mm == mm  # type: ignore[arg-type]


def test_the_example_is_in_the_unit_in_which_it_would_be_read() -> None:
    assert "Type a number such as 55, or with its unit" in read_length("wide", "in", WIDTH).said.text
    for unit in ("cm", "in"):
        example = read_length("wide", unit, WIDTH).said.text.split("such as ")[1].split(",")[0]  # type: ignore[arg-type]
        assert 1350 <= (read_length(example, unit, WIDTH).mm or 0) <= 1450  # type: ignore[arg-type]


@pytest.mark.parametrize("text", ["140 cm 55 in", "150cm150cm", "1 in 1 in", "4 in 1 yd", "1 m 4 in"])
def test_lengths_that_do_not_belong_together_are_not_added(text: str) -> None:
    assert read_length(text, "cm", WIDTH).code == "not-a-length"


@pytest.mark.parametrize(
    ("text", "smaller"), [('44/45"', "44"), ("58-60 in", "58"), ("140–150", "140"), ("140 to 150 cm", "140")]
)
def test_a_label_with_two_widths_asks_for_the_smaller(text: str, smaller: str) -> None:
    typed = read_length(text, "cm", WIDTH)
    assert typed.code == "not-a-length"
    assert typed.said.text == f"“{text}” is more than one width. Type the smaller: {smaller}, with its unit."


SUCH_AS = "Type a number such as 140, or with its unit: 140 cm, 55 in."
NOT_A_WIDTH = f"is not a width. {SUCH_AS}"


@pytest.mark.parametrize(
    ("text", "code", "sentence"),
    [
        ("abc", "not-a-length", f"“abc” {NOT_A_WIDTH}"),
        ("12 34", "not-a-length", f"“12 34” {NOT_A_WIDTH}"),
        ("1/0", "not-a-length", f"“1/0” {NOT_A_WIDTH}"),
        ("1e9", "not-a-length", f"“1e9” {NOT_A_WIDTH}"),
        ("x" * 60, "not-a-length", f"“{'x' * 24}…” {NOT_A_WIDTH}"),
        ("-5", "negative", f"A width can't be less than nothing: “-5”. {SUCH_AS}"),
        ("−140 cm", "negative", f"A width can't be less than nothing: “−140 cm”. {SUCH_AS}"),
        ("1.5", "not-a-width", "1.5 cm is not a width that cloth is sold in. If you mean metres, type 1.5 m."),
        ("1400", "not-a-width", "1400 cm is not a width that cloth is sold in. If you mean millimetres, type 1400 mm."),
        ("20", "not-a-width", "20 cm is not a width that cloth is sold in. If you mean inches, type 20 in."),
        ("9" * 30, "not-a-width", f"{'9' * 30} cm is not a width that cloth is sold in. {SUCH_AS}"),
        ("6 m", "not-a-width", f"“6 m” is not a width that cloth is sold in. {SUCH_AS}"),
        ("0", "not-a-width", f"0 cm is not a width that cloth is sold in. {SUCH_AS}"),
    ],
)
def test_what_can_not_be_gets_a_sentence(text: str, code: str, sentence: str) -> None:
    typed = read_length(text, "cm", WIDTH)
    assert (typed.mm, typed.code, typed.said.text) == (None, code, sentence)


def test_a_height_in_inches_in_the_field_for_centimetres() -> None:
    typed = read_length("36", "cm", BODY["height"])
    assert typed.said.text == "36 cm can't be a child's height. If you mean inches, type 36 in."


def test_what_is_typed_is_escaped_in_html_and_stripped_of_tricks() -> None:
    said = read_length("<b>\u202e\x07</b>", "cm", WIDTH).said
    assert "&lt;b&gt;  &lt;/b&gt;" in said.html
    assert "<b>" not in said.html and "\u202e" not in said.text and "\x07" not in said.text


@given(st.text(max_size=60), st.sampled_from(["cm", "in"]))
def test_law_every_text_is_read_or_answered(text: str, unit: str) -> None:
    typed = read_length(text, unit, WIDTH)  # type: ignore[arg-type]
    if typed.mm is not None:
        assert WIDTH.lowest_mm <= typed.mm <= WIDTH.highest_mm and typed.code is None
    elif typed.code is not None:
        assert typed.code in PROBLEMS and typed.said.text
        assert "<" not in typed.said.html.replace("<span", "").replace("</span", "")
        typed.said.html.encode("utf-8")


@given(st.integers(300, 5000))
def test_law_a_length_reads_the_same_in_every_unit(mm: int) -> None:
    texts = [f"{mm} mm", f"{mm / 10} cm", f"{mm / 1000} m", f"{mm / 1000} m".replace(".", ",")]
    assert {read_length(text, "cm", WIDTH).mm for text in texts} == {float(mm)}
