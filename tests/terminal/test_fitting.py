"""Wrapping and falling back to ASCII, and the side view drawn to fit."""

from __future__ import annotations

from hypothesis import example, given
from hypothesis import strategies as st

from interview.report.formats.fitting import ENCODING_ERRORS, to_ascii, wrapped
from interview.report.pictures.side_view import side_view

TANK = {
    "inside_height": 0.39,
    "inside_length": 0.98,
    "water_level": 0.28,
    "water_line_below_rim": 0.11,
    "water_depth": 0.25,
    "water_volume": 0.1,
    "substrate_depth": 0.03,
    "platform_height_above_water": 0.025,
    "platform_length": 0.3,
    "platform_temperature": 31.0,
    "heat_lamp_height": 0.22,
    "uvb_lamp_height": 0.30,
}


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


def test_the_side_view_is_to_scale() -> None:
    """Rows of 3.9 cm: the water's surface at 28 cm is the 7th, the lamp at 52.5 cm the 13th."""
    picture = side_view(TANK, "metric")
    assert picture is not None
    lines, words = picture
    from_below = list(reversed(lines))
    assert from_below[0] == "└" + "─" * 20 + "┘"
    assert from_below[1] == "│" + "." * 20 + "│"
    assert from_below[7].startswith("│" + "≈" * 20 + "│  water line, 11 cm below the rim")
    assert from_below[8].startswith("│  " + "▂" * 6 + " ")
    assert "▼" in from_below[13]
    assert "heat lamp, 22 cm over the platform" in from_below[13]
    assert max(map(len, lines)) <= 58
    assert words == (
        "UVB lamp, 30 cm over the platform; heat lamp, 22 cm over the platform; "
        "basking surface 31 °C; water line, 11 cm below the rim; 25 cm of water, 100 L"
    )


def test_what_is_unknown_is_left_out_of_the_side_view() -> None:
    bare = side_view({"inside_height": 0.4, "water_level": 0.3}, "metric")
    assert bare is not None
    assert "▼" not in "".join(bare[0])
    assert bare[1] == ""
    assert side_view({"inside_height": 0.4}, "metric") is None
    assert side_view({"inside_height": 0.4, "water_level": 0.5}, "metric") is None


FLAT = {"inside_height": 1.0, "water_level": 1.0, "platform_height_above_water": 0.0}


@given(
    st.fixed_dictionaries({name: st.none() | st.floats(-0.2, 3) for name in TANK}),
    st.sampled_from(["metric", "us"]),
)
@example({**FLAT, "uvb_lamp_height": 1.2e-7}, "metric")  # the lamp stood outside the glass
@example({**FLAT, "uvb_lamp_height": 1.2e-12}, "us")
@example({**FLAT, "water_line_below_rim": 2.220446049250313e-16}, "metric")
@example({"inside_height": 5e-324, "water_level": 5e-324}, "metric")
@example({**FLAT, "uvb_lamp_height": 0.0, "heat_lamp_height": 0.0}, "metric")
def test_any_tank_can_be_drawn(figures: dict[str, float | None], system: str) -> None:
    picture = side_view(figures, system)
    if picture is not None:
        assert 11 <= len(picture[0]) <= 17
        assert max(len(line) for line in picture[0]) <= 64
        walls = {(line[0], line[21]) for line in picture[0] if len(line) > 21}
        assert walls <= {("│", "│"), (" ", " "), ("└", "┘")}


def test_a_lamp_on_the_platform_is_drawn_over_it() -> None:
    picture = side_view({**FLAT, "uvb_lamp_height": 0.0, "heat_lamp_height": 0.0}, "metric")
    assert picture is not None
    assert picture[0][0].startswith("│≈≈▂▂━━━▼▂▂≈≈")
