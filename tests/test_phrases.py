"""Numbers as people speak of them: round, told apart where they differ, each unit once."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from every import every

from interview.base.templates import by_number
from interview.core.wiring import laws, quantities
from interview.vocabulary.phrases import exactly, fill, in_words, ranged, rounded, told_apart
from interview.vocabulary.showing import why_a_word

INCH = 0.0254
HOUR = 3600.0
MONTH = 31557600 / 12
GALLON = 3.785411784e-3


@every(
    ("value", "unit", "system", "name", "said"),
    [
        (24.0, "degC", "us", "", "75 °F"),
        (36.3, "degC", "us", "", "97 °F"),
        (24.3, "degC", "metric", "", "24.5 °C"),
        (-0.2, "degC", "metric", "", "0 °C"),
        (2.7, "K", "us", "", "5 °F"),
        (7.88 * INCH, "m", "us", "", "8 in"),
        (7.7 * INCH, "m", "us", "", "7 3/4 in"),
        (0.079 * INCH, "m", "us", "", "1/16 in"),
        (1.18 * INCH, "m", "us", "", "1 1/4 in"),
        (47.8 * INCH, "m", "us", "", "48 in"),
        (0.0937, "m", "metric", "", "9.4 cm"),
        (0.1213, "m", "metric", "", "12 cm"),
        (0.3962, "m", "metric", "", "40 cm"),
        (1.227, "m", "metric", "", "1.25 m"),
        (0.707, "1", "us", "uvb_transmission", "71%"),
        (0.627, "1", "us", "water_change_share", "63%"),
        (0.0042, "1", "us", "water_change_share", "0.4%"),
        (1.15, "1", "us", "uv_index_shell", "1.2"),
        (0.27, "1", "us", "uv_index_shell", "0.3"),
        (0.04, "1", "us", "uv_index_shell", "0.04"),
        (0.16, "1", "us", "electricity_price", "0.16"),
        (6.8 * MONTH, "s", "us", "", "7 months"),
        (4.3 * 7 * 86400, "s", "us", "", "4 weeks"),
        (50.3, "W", "us", "", "50 W"),
        (231.4, "W", "us", "", "230 W"),
        (611.9, "kg", "us", "", "1350 lb"),
        (32.3 * GALLON, "m**3", "us", "", "32 gal"),
        (0.0, "m", "us", "", "0 in"),
        (float("inf"), "s", "us", "", "never"),
    ],
)
def test_a_spoken_number_is_round(
    value: float, unit: str, system: str, name: str, said: str
) -> None:
    assert rounded(value, unit, system, name) == said


def _say(text: str, system: str = "us", **values: Any) -> str | None:
    units = {"hot": "degC", "low": "degC", "high": "degC", "far": "m", "near": "m"}
    units |= {"uvb_lamp_age": "s", "kind": "choice", "all": "degC"}
    return fill(text, values.get, lambda name: units[name], system)


def test_rounding_never_makes_a_value_equal_its_limit() -> None:
    text = "The shell gets {hot} hot; {low} to {high} are wanted."
    assert _say(text, hot=36.3, low=30.0, high=35.0) == (
        "The shell gets 97 °F hot; 86 to 95 °F are wanted."
    )
    assert _say(text, hot=29.8, low=30.0, high=35.0) == (
        "The shell gets 85.6 °F hot; 86 to 95 °F are wanted."
    )
    assert _say("{hot}, not {low}", hot=29.99, low=30.0) == "85.98 °F, not 86 °F"
    assert _say("{hot}, not {low}", hot=30.0, low=30.0) == "86 °F, not 86 °F"
    assert _say("{far} of {near}", "metric", far=0.152, near=0.1501) == "15.2 cm of 15 cm"


def test_only_what_reads_the_same_gets_more_digits() -> None:
    assert _say("{far}; {hot}, {low}", far=7.7 * INCH, hot=29.8, low=30.0) == (
        "7 3/4 in; 85.6 °F, 86 °F"
    )
    assert told_apart((0.25, 0.305), "m", "us") == ["9 3/4 in", "12 in"]
    assert told_apart((1.1, 1.2), "degC", "metric") == ["1.1 °C", "1.2 °C"]


def test_what_somebody_typed_is_echoed_with_its_digits() -> None:
    units = {"far": "m"}
    typed = {"far": 0.1234}
    for exact, said in ((True, "I understood 12.3 cm."), (False, "I understood 12.5 cm.")):
        text = fill("I understood {far}.", typed.get, units.__getitem__, "metric", exact=exact)
        assert text == said


def test_lit_hours_are_hours_and_a_new_lamp_is_new() -> None:
    half_year = 4383 * HOUR
    assert _say("After {uvb_lamp_age} of burning", uvb_lamp_age=half_year) == (
        "After 4,400 hours of burning"
    )
    assert _say("After {uvb_lamp_age} of burning", uvb_lamp_age=0.0) == "After 0 hours of burning"
    assert in_words(half_year, "s", "us", "uvb_lamp_age") == "4,380 lit hours"
    assert in_words(0.0, "s", "us", "uvb_lamp_age") == "new"
    assert in_words(half_year, "s", "us", "filter_age") == "6 months"


def test_a_life_of_lit_hours_that_no_lamp_has_is_said_in_years() -> None:
    assert in_words(1e9, "s", "us", "uvb_lamp_age") == "32 years lit"
    assert in_words(20000 * HOUR, "s", "us", "lamp_life") == "20,000 lit hours"


def test_stages_of_life_have_names() -> None:
    for value, said in enumerate(("hatchling", "juvenile", "adult")):
        assert in_words(float(value), "1", "us", "life_stage") == said
        assert rounded(float(value), "1", "us", "growth_stage") == said
    assert in_words(np.array([0.0, 2.0]), "1", "us", "life_stage") == "hatchling, adult"
    assert in_words(0.5, "1", "us", "life_stage") == "0.5"


def test_fluxes_and_moments_are_readable() -> None:
    assert in_words(5.2214e-5, "kg/m**2/s", "us") == "4.51 kg/m² a day"
    assert in_words(0.1e-3 / 86400, "kg/m**2/s", "us") == "0.1 g/m² a day"
    assert in_words(2484.1, "N*m", "us") == "2484 N·m"
    assert in_words(3785.4, "N", "metric") == "3785 N"
    assert in_words(3785.4, "N", "us") == "851 lbf"


def test_a_range_names_its_unit_once() -> None:
    assert ranged(26.1, 34.4, "degC", "us") == "79 to 93.9 °F"
    assert ranged(0.09, 1.2, "m", "metric") == "9 cm to 1.2 m"
    assert ranged(0.33, 0.84, "1", "us", "water_change_share") == "33 to 84%"
    assert _say("{far} to {near}", far=INCH / 8, near=1.25 * INCH) == "1/8 to 1 1/4 in"


def test_one_animal_or_several() -> None:
    text = "weigh [the turtle and measure its shell|the turtles and measure their shells]."
    assert by_number(text, False) == "weigh the turtle and measure its shell."
    assert by_number(text, True) == "weigh the turtles and measure their shells."
    assert by_number("plain [text] {name}", True) == "plain [text] {name}"


def test_words_and_rows_are_said_as_they_are() -> None:
    assert _say("on {kind}", kind="aquarium_stand") == "on aquarium stand"
    assert rounded(np.array([20.0, 25.2]), "degC", "metric") == "20 °C, 25 °C"
    assert _say("{all}", all=(20.0, 30.0)) == "68 °F, 86 °F"
    assert _say("{nothing} known") is None


def test_what_one_of_several_animals_lacks_is_said_to_be_not_known() -> None:
    assert in_words((0.1, None), "m", "metric") == "10 cm, not known"


def test_what_is_infinite_is_said_by_its_meaning() -> None:
    """Every formula that says it can be infinite, and those that divide by what may be nothing."""
    never = {"cycling_time", "cycling_time_high", "cycling_time_low", "cycling_time_left"}
    never |= {"outgrow_time", "outgrow_time_low", "outgrow_time_high", "growth_time_to"}
    never |= {"outgrowing_time", "outgrowing_time_low", "outgrowing_time_high", "start_up_time"}
    never |= {"cooling_time", "stuck_heater_time", "warm_up_time", "uvb_lamp_time_left"}
    never |= {"cooling_time_to", "heat_up_time", "chlorine_standing_time"}
    no_limit = {"face_time", "uv_exposure_limit", "heater_margin", "photokeratitis_margin"}
    no_limit |= {"largest_fitting_length", "growth_factor_from_age"}
    words = dict.fromkeys(never, "never") | dict.fromkeys(no_limit, "no limit")
    words |= {"nitrate_peak": "ever more", "water_change_interval_needed": "no change needed"}
    words |= {"practical_change_interval": "no change needed"}
    words |= {"water_change_share_needed": "impossible", "heater_cycle_time": "none"}
    formulas = {**laws(), **quantities().formulas}
    for name, formula in formulas.items():
        text = formula.function.__doc__ or ""
        finite = name in (
            *("day_length_at", "projected_length", "projected_length_low"),
            *("platform_warm_up_time", "shell_warming_time", "shell_cooling_time"),
        )
        if "nfinite" in text or "∞" in text or formula.unit == "s":
            assert name in words or finite, f"{name}: say here what endless means, or that it ends"
    for name, said in words.items():
        assert in_words(np.inf, formulas[name].unit, "us", name) == said
        unit = formulas[name].unit
        assert fill(f"{{{name}}}", {name: np.inf}.get, {name: unit}.__getitem__, "us") == said


def test_a_change_that_cannot_be_done_is_impossible() -> None:
    assert in_words(0.4, "1", "us", "water_change_share_needed") == "40%"
    assert in_words(1.0, "1", "us", "water_change_share_needed") == "100%"
    assert in_words(1.4, "1", "us", "water_change_share_needed") == "impossible"
    assert "1.4 times all the water" in why_a_word(1.4, "water_change_share_needed")
    assert rounded(1.4, "1", "us", "water_change_share_needed") == "impossible"
    assert rounded(0.4, "1", "us", "water_change_share_needed") == "40%"
    assert in_words(0.0, "s", "us", "water_change_interval_needed") == "impossible"
    assert rounded(0.0, "s", "us", "water_change_interval_needed") == "0 s"
    assert why_a_word(1.0, "water_change_share_needed") == ""
    assert why_a_word(np.nan, "water_change_share_needed") == ""


@pytest.mark.parametrize(
    ("value", "unit", "system", "name", "said"),
    [
        (1.41e-3, "m", "metric", "mesh_pitch", "1.41 mm"),
        (0.2032, "m", "us", "tank_height", "8 in"),
        (18.5 * INCH, "m", "us", "tank_height", "18.5 in"),
        (0.38, "1", "metric", "feed_protein", "38%"),
        (1.165, "kg", "metric", "mass", "1.165 kg"),
        (25.0, "degC", "metric", "water_temperature", "25 °C"),
    ],
)
def test_a_number_that_was_given_keeps_the_digits_that_matter(
    value: float, unit: str, system: str, name: str, said: str
) -> None:
    assert exactly(value, unit, system, name) == said
