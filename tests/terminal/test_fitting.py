"""Wrapping and falling back to ASCII."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from interview.report.fitting import ENCODING_ERRORS, to_ascii, wrapped


def test_a_number_stays_with_its_unit() -> None:
    assert wrapped("the water is 35 °C warm", 15) == ["the water is", "35 °C warm"]
    assert wrapped("about 120 cm long", 9) == ["about", "120 cm", "long"]
    assert wrapped("", 20) == [""]


@given(st.text(st.characters(codec="ascii", categories=["L", "N", "Zs"])), st.integers(8, 90))
def test_wrapping_loses_no_letter_and_keeps_its_width(text: str, width: int) -> None:
    lines = wrapped(text, width)
    assert max(map(len, lines)) <= width
    assert "".join("".join(lines).split()) == "".join(text.split())


def test_the_nearest_ascii() -> None:
    assert to_ascii("“18 °C”, 3833 cm² – ½ × 2 µW … ≥ é") == (
        '"18 degC", 3833 cm2 - 1/2 x 2 uW ... >= e'
    )
    assert to_ascii("龜") == "?"
    assert "≈ 18 °C".encode("ascii", ENCODING_ERRORS) == b"~ 18 degC"
    assert "≈ 18 °C".encode("latin-1", ENCODING_ERRORS) == "~ 18 °C".encode("latin-1")


@given(st.text())
def test_any_text_becomes_ascii(text: str) -> None:
    assert to_ascii(text).isascii()
