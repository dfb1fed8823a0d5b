"""What the trade says, beside what physics says: common practice, no source.

Each test tells where the two agree and where they don't; neither is bent to fit. Facts that
stand beside their subject in another file are named in `ELSEWHERE`.
"""

from __future__ import annotations

import ast
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from interview.audit.checks.loader import all_checks
from interview.care.facts import assumptions, limits
from interview.care.species import profile, species_ids
from interview.core.basking import warm_patch as basking_laws
from interview.core.light import radiation as light
from interview.core.water import properties as water
from interview.core.wiring import quantities

HERE = Path(__file__).parent
DAY, WEEK, INCH, GALLON = 86400.0, 604800.0, 0.0254, 0.003785411784

ELSEWHERE = {
    "a 300 W heater is the usual choice for a 75 gal tank": (
        "test_heat.py",
        "test_three_hundred_watts_in_a_seventy_five_gallon_tank",
    ),
    "3 to 5 W for each gallon": ("test_heat.py", "test_watts_per_gallon_agrees_in_the_middle_only"),
    "filter intake a couple of inches off the sand": (
        "test_filtration.py",
        "test_a_couple_of_inches_off_the_sand_is_justified",
    ),
    "a filter takes about two weeks to mature": (
        "test_filtration.py",
        "test_two_weeks_is_true_of_a_seeded_filter_only",
    ),
    "low 90s °F on the platform are 95 °F or more at the shell": (
        "test_basking.py",
        "test_keepers_low_nineties_are_hotter_at_the_shell",
    ),
    "lowering the water brings the spot down": (
        "test_basking.py",
        "test_lower_water_cools_a_floating_spot",
    ),
}


@pytest.mark.parametrize("fact", ELSEWHERE)
def test_a_fact_told_elsewhere_is_marked_as_practice(fact: str) -> None:
    file, name = ELSEWHERE[fact]
    text = (HERE / file).read_text(encoding="utf-8")
    found = [n for n in ast.parse(text).body if isinstance(n, ast.FunctionDef) and n.name == name]
    assert len(found) == 1
    lines = text.splitlines()[found[0].lineno - 1 : found[0].end_lineno]
    assert "common practice, no source" in " ".join(lines).lower()


def _worked_out(name: str, **known: Any) -> Any:
    values = {n: fact.value for n, fact in assumptions().items()} | known
    return quantities().working(values).value(name)


def test_ten_gallons_an_inch_of_shell() -> None:
    """Common practice, no source: 10 US gal of tank for each inch of shell.

    The European surface at its depth agrees for animals of 4 to 7 in, and again from 9 to 11;
    just over 20 cm (8 in) and 30 cm (12 in) its steps ask for more. Chemistry doesn't agree at
    any length: with what the animal needs to eat and a quarter changed each week, nitrate
    passes 40 mg/L in that volume, and by more the longer the animal is.
    """
    enough = []
    for inches in range(4, 13):
        size = {"largest_carapace_length": inches * INCH, "animal_count": 1.0}
        area, depth = (_worked_out(n, **size) for n in ("required_swim_area", "required_depth"))
        enough.append(bool(inches * 10 * GALLON > area * depth))
    assert enough == [True, True, True, True, False, False, True, True, False]
    peaks = []
    for inches in (4, 8, 11):
        slider = {
            "species": ("trachemys_scripta_elegans",),
            "sex": ("female",),
            "carapace_length": np.array([inches * INCH]),
        }
        care = {
            "feed_mass": _worked_out("feed_need", **slider) * DAY,
            "feeds_per_week": 7.0,
            "feed_protein": 0.40,
            "water_volume": inches * 10 * GALLON,
            "water_change_share": 0.25,
            "water_change_interval": WEEK,
            "tap_nitrate": 10.0,
        }
        peaks.append(float(_worked_out("nitrate_peak", **slider, **care)))
    assert 40 < peaks[0] < peaks[1] < peaks[2]


def test_water_from_seventy_to_the_low_eighties() -> None:
    """Common practice, no source: 70 to the low 80s °F.

    It holds the bands of all but six of the species we know, hatchlings included: two cool
    pond dwellers go down to 68 °F, and the brackish and tropical ones up to 86. It is too wide
    for any one animal: no band is wider than 11 °F.
    """
    low, high, outside = 70.0, 83.0, set()
    for species in species_ids():
        for length in (0.03, 0.20):
            animal = {
                "species": (species,),
                "sex": ("unknown",),
                "carapace_length": np.array([length]),
            }
            band = [_worked_out(f"water_band_{e}", **animal) * 1.8 + 32 for e in ("low", "high")]
            assert band[1] - band[0] < 11
            if band[0] < low or band[1] > high:
                outside.add(species)
    assert outside == {
        *("emys_orbicularis", "chelodina_longicollis"),
        *("malaclemys_terrapin", "pelomedusa_subrufa", "pelusios_castaneus", "emydura_subglobosa"),
    }


def test_heat_to_the_back_and_uvb_to_the_front() -> None:
    """Common practice, no source: heat lamp over the back, UVB tube over the front.

    Physics agrees that the animal can choose: over a platform 30 cm deep, with the heat lamp
    30 cm over the back edge, the front edge gets a quarter of the heat, and the back under a
    tube along the front gets under half of its UVB. It doesn't agree that either end is
    without: a long tube still gives the back a third.
    """
    across = 0.30
    heat = [light.disc_irradiance(1.0, 0.04, 0.30, x) for x in (0.0, across)]
    assert heat[1] / heat[0] == pytest.approx(0.25, abs=0.01)  # cos⁴ of 45°
    for length in (0.30, 0.52, 1.15):
        uvb = [light.tube_irradiance(1.0, length, 0.30, x, 0.0) for x in (0.0, across)]
        assert 0.25 < uvb[1] / uvb[0] < 0.5
    long_tube = [light.tube_irradiance(1.0, 1.15, 0.30, x, 0.0) for x in (0.0, across)]
    assert long_tube[1] / long_tube[0] > 1 / 3


@pytest.mark.parametrize("sheet", ["glass", "plastic"])
def test_ordinary_glass_takes_the_uvb_out(sheet: str) -> None:
    """Common practice, no source: glass and plastic over the lamp leave no UVB.

    Published transmission agrees (Duarte et al. 2009). It doesn't hold for people's eyes: the
    UVA tail still gives an index, so the over-exposure figure credits no sheet.
    """
    lamp = {
        "uvb_lamp_kind": "tube_t5",
        "uvb_strength": "high",
        "uvb_lamp_length": 0.55,
        "uvb_lamp_height": 0.35,
        "uvb_lamp_age": 0.0,
        "uvb_path": sheet,
        "heat_lamp_kind": "none",
        "shell_height": 0.05,
        "stage": "living",
    }
    assert _worked_out("uvb_transmission", **lamp) == 0
    assert _worked_out("uv_index_shell", **lamp) == 0
    assert _worked_out("uv_index_ceiling", **lamp) > 3


def test_nothing_plastic_under_a_heat_bulb() -> None:
    """Common practice, no source: no plastic under a heat bulb.

    Physics agrees within a hand's breadth: a lamp that makes a platform 35 °C at 30 cm makes a
    like surface 70 °C at 12 cm and more than 100 °C at 7 cm, where household plastics soften
    (70 to 100 °C, recalled). It doesn't agree at any distance: half a metre off, the same
    surface stays under 30 °C.
    """
    gaps = np.array([0.07, 0.12, limits()["lamp_plastic_good"].value or 0.0, 0.50])
    surface = basking_laws.surface_temperature_at(35.0, 0.30, gaps, 24.0, 0.0)
    assert surface[0] > 100
    assert surface[1] > 70
    assert surface[2] < 60
    assert surface[3] < 30


def test_lights_by_day_only() -> None:
    """Common practice, no source: lit about 12 h, dark by night.

    The sun agrees: at the Gulf coast, home of the sliders, a day lasts 10 h in December and
    14 h in June, never less than 10 h dark. A fixed 12 h all year is nobody's sky but the
    equator's.
    """
    days = np.arange(1, 366)
    coast = light.day_length_at(30.0, days) / 3600
    assert coast.min() == pytest.approx(10.2, abs=0.1)
    assert coast.max() == pytest.approx(14.1, abs=0.1)
    assert np.ptp(light.day_length_at(0.0, days)) / 3600 < 0.1


def test_a_quarter_of_the_water_a_week() -> None:
    """Common practice, no source: change 25 to 30 % each week.

    It holds 40 mg/L only for a small load: below about 1.2 mg/L a day over clean tap water.
    """
    for share, most in ((0.25, 1.07), (0.30, 1.29)):
        held = water.nitrate_peak(most / DAY, WEEK, share, 10.0)
        assert held == pytest.approx(40.0, rel=0.01)


def test_a_medium_basking_turtle_is_four_to_six_inches() -> None:
    """Common practice, no source: a medium basking turtle is 4 to 6 in long.

    The male painted turtle is the type; a female slider has left that size before she is grown.
    """
    male = profile("chrysemys_picta").adult_carapace_length("male")
    assert male.low < 4 * INCH < 6 * INCH < male.high * 1.02
    female = profile("trachemys_scripta_elegans").adult_carapace_length("female")
    assert female.low > 6 * INCH


def test_driftwood_is_boiled_and_soaked_for_two_weeks() -> None:
    # Common practice, no source. Physics has no sum beside it: what the check says is the habit.
    wood = next(check for check in all_checks() if check.id == "wood")
    assert wood.status == "practice"
    assert "Boil clean wood, then soak it about two weeks" in wood.do["close"]


def test_three_to_five_watts_a_gallon_is_reckoned_as_the_trade_does() -> None:
    """Common practice, no source: 225 to 375 W for 75 US gallons, and 4 W a gallon is 300 W."""
    tank = quantities().working({"water_volume": 75 * GALLON, "heater_power": 300.0})
    assert tank.value("trade_heater_power_low") == pytest.approx(225.0)
    assert tank.value("trade_heater_power_high") == pytest.approx(375.0)
    assert tank.value("heater_power_per_volume") * GALLON == pytest.approx(4.0)
