"""Edges that a run of mutants found unguarded: limits, exact messages, the lesser branches."""

from __future__ import annotations

import re

import numpy as np
import pytest
from CoolProp.CoolProp import PropsSI

from interview.core.errors import NotApplicable, OutOfRange
from interview.core.laws import (
    air,
    animal,
    basking,
    evaporation,
    filtration,
    growth,
    per_animal,
    structure,
    water,
)

SLIDER, MUSK = "trachemys_scripta_elegans", "sternotherus_odoratus"


# ---- heat and evaporation


def test_still_air_over_a_small_cool_patch_conducts() -> None:
    """Below a Nusselt number of 1 there is conduction over the length scale, k dT / L."""
    flux = evaporation.surface_convection_flux(20.001, 20.0, 100.0, 0.01, 0.01)
    assert flux == pytest.approx(air.air_conductivity(20.0) * 0.001 / 0.0025, rel=1e-3)


def test_a_barely_warm_patch_stirs_the_air_like_a_hot_plate() -> None:
    """Half a kelvin over the room the face is warm side up: 0.54 against 0.27 (Cengel 9-22)."""
    warm, cool = (basking.patch_film_coefficient(20.0 + rise, 20.0) for rise in (0.5, -0.5))
    assert warm / cool == pytest.approx(2.0, rel=0.01)


# ---- water


@pytest.mark.parametrize(
    ("ph", "celsius", "acute", "chronic"),
    [
        *((7.0, 20, 16.76, 1.887), (7.0, 24, 12.03, 1.458), (7.0, 28, 8.64, 1.127)),
        *((7.5, 20, 9.24, 1.393), (7.5, 24, 6.63, 1.077), (7.5, 28, 4.76, 0.832)),
        *((8.0, 20, 3.90, 0.777), (8.0, 24, 2.80, 0.600), (8.0, 28, 2.01, 0.464)),
        *((8.5, 20, 1.49, 0.348), (8.5, 24, 1.07, 0.269), (8.5, 28, 0.77, 0.208)),
    ],
)
def test_criteria_over_acidity_and_warmth(
    ph: float, celsius: float, acute: float, chronic: float
) -> None:
    """The equations of EPA 2013 worked independently, printed to three or four digits."""
    assert water.ammonia_acute_criterion(ph, celsius) == pytest.approx(acute, abs=0.0051)
    assert water.ammonia_chronic_criterion(ph, celsius) == pytest.approx(chronic, abs=0.00051)


@pytest.mark.parametrize("celsius", [5.0, 25.0, 40.0])
def test_oxygen_high_in_the_mountains_follows_the_dry_air(celsius: float) -> None:
    vapour = PropsSI("P", "T", celsius + 273.15, "Q", 0, "Water")
    dry = (55000.0 - vapour) / (101325.0 - vapour)
    got = water.oxygen_saturation(celsius, 55000.0) / water.oxygen_saturation(celsius)
    assert got == pytest.approx(dry, rel=1.2e-3)


# ---- animals


def test_foam_by_the_densities() -> None:
    # Archimedes by hand: 2 m / (997 - 30), 2.07 L for each kg
    assert animal.foam_volume_needed(1.0) == pytest.approx(2.0 / 967.0, rel=1e-12)


def test_a_lone_species_or_sex_holds_for_all() -> None:
    both = per_animal.facts_by_sex
    one = [
        both(SLIDER, sex, lambda p, s: p.adult_carapace_length(s).low) for sex in ("female", "male")
    ]
    assert (
        list(both(SLIDER, ("female", "male"), lambda p, s: p.adult_carapace_length(s).low)) == one
    )
    other = [both(s, "male", lambda p, x: p.adult_carapace_length(x).low) for s in (MUSK, SLIDER)]
    assert list(both((MUSK, SLIDER), "male", lambda p, x: p.adult_carapace_length(x).low)) == other
    with pytest.raises(ValueError, match="zip"):
        both((MUSK, SLIDER), ("male",), lambda p, x: 1.0)


def test_the_stages_of_a_life_by_default() -> None:
    """A hatchling up to twice 3.5 cm, an adult female slider from 20 cm."""
    lengths = np.array([0.0699, 0.0701, 0.1999, 0.2000])
    assert list(growth.growth_stage(SLIDER, "female", lengths)) == [0.0, 1.0, 1.0, 2.0]


def test_time_to_a_length_that_is_reached_or_passed() -> None:
    assert growth.growth_time_to(0.15, 0.15, 0.20, 1e-8) == 0.0
    assert growth.growth_time_to(0.15 + 5e-10, 0.15, 0.20, 1e-8) == np.inf
    assert growth.growth_time_to(0.16, 0.15, 0.20, 1e-8) == 0.0
    assert growth.growth_time_to(0.15, 0.20, 0.20, 1e-8) == np.inf
    assert growth.growth_time_to(0.10, 0.15, 0.20, 1e-8) == pytest.approx(np.log(2.0) / 1e-8)


def test_an_animal_of_no_age_has_no_pace() -> None:
    assert np.isnan(growth.growth_factor_from_age(SLIDER, "female", 0.10, 0.0))
    assert growth.growth_factor_from_age(SLIDER, "female", 0.10, 1e8) > 0


# ---- refusals, word for word


def test_a_patch_over_the_support_is_refused_with_its_place() -> None:
    with pytest.raises(OutOfRange) as caught:
        structure.joist_moment(1000.0, np.array([0.1, 1.0]), np.array([1.0, 0.4]), 4.0)
    assert str(caught.value) == (
        "load_centre is 0.4 m, but the formula holds only from 0.5 to 3.5 m"
    )
    structure.joist_moment(1000.0, 1.0, np.array([0.5, 3.5]), 4.0)


def test_a_pane_beyond_the_table_is_refused_with_its_ratio() -> None:
    with pytest.raises(OutOfRange) as caught:
        structure.pane_stress(np.array([1.0, 6.0]), 0.5, 0.01, "free")
    assert str(caught.value) == (
        "length_to_height is 12, but the formula holds only from 0.1 to 10"
    )


def test_an_unknown_species_is_named() -> None:
    with pytest.raises(NotApplicable, match=re.escape("unicorn")):
        per_animal.facts("unicorn", lambda p: 1.0)


def test_water_stands_still_in_a_hose_without_flow() -> None:
    assert filtration.hose_head_loss(0.0, 0.016, 3.0, 2.0, 25.0) == 0.0
