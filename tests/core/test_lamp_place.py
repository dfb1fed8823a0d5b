"""Where the heat lamp hangs: reach of the animals and glass below it, by hand."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from interview.core.basking import lamp_place as place
from interview.core.errors import NotApplicable
from interview.core.wiring import quantities

SIGMA, FILM, TAKEN = 40.0, 10.0, 0.2
"""K, W/m²K on each side, share of the beam: our own choice, no source."""


@pytest.mark.parametrize(
    ("lengths", "species", "reach"),
    [
        ([0.11], ("sternotherus_odoratus",), 0.165),
        ([0.20], ("chelodina_longicollis",), 0.40),
        ([0.20], ("apalone_spinifera",), 0.30),
        ([0.20, 0.10], ("trachemys_scripta_elegans",) * 2, 0.38),
        ([0.10, 0.20], ("chelodina_longicollis", "pseudemys_concinna"), 0.38),
    ],
)
def test_reach_by_hand(lengths: list[float], species: Any, reach: float) -> None:
    """1.5 shell lengths, 2 of a snake-neck, 0.4 of the longest more where two can stack."""
    assert place.rearing_reach(np.array(lengths), species, 1.0) == pytest.approx(reach)


def test_a_cover_or_a_cage_keeps_the_animals_off() -> None:
    assert place.lamp_height_least(0.3) == place.lamp_height_least(0.3, 0.2, "none") == 0.3
    assert place.lamp_height_least(0.3, 0.2, "mesh") == pytest.approx(0.17)
    assert place.lamp_height_least(0.1, 0.2, "mesh") == pytest.approx(0.1)
    with pytest.raises(NotApplicable, match="guard"):
        place.lamp_height_least(0.3, 0.2, "none", True)
    assert place.lamp_reach_share(0.2, 0.4) == 0.5


def test_a_uvb_lamp_is_out_of_reach_as_a_heat_lamp_is_but_for_its_cage() -> None:
    assert place.uvb_height_least(0.3) == 0.3
    assert place.uvb_height_least(0.3, 0.2, "mesh") == pytest.approx(0.17)
    assert place.uvb_reach_share(0.15, 0.3) == 0.5


def test_gap_to_a_glass_cover() -> None:
    assert place.lamp_glass_gap(0.4, 0.25, "glass") == pytest.approx(0.15)
    with pytest.raises(NotApplicable, match="no glass"):
        place.lamp_glass_gap(0.4, 0.25, "mesh")
    with pytest.raises(NotApplicable, match="below"):
        place.lamp_glass_gap(0.1, 0.25, "glass")
    assert place.lamp_glass_share(0.1, 0.2) == 0.5


@pytest.mark.parametrize(("beam", "half_angle"), [("flood", 30.0), ("spot", 15.0)])
def test_glass_stays_within_forty_kelvin(beam: str, half_angle: float) -> None:
    """75 W, seven tenths of it in the beam: the pane sheds what it takes on both sides."""
    gap = place.lamp_glass_gap_needed(75.0, beam)
    radius = gap * np.tan(np.radians(half_angle))
    rise = TAKEN * 0.7 * 75.0 / (np.pi * radius**2) / (2 * FILM)
    assert rise < SIGMA
    assert place.lamp_glass_gap_needed(150.0, beam) == pytest.approx(gap * np.sqrt(2))


def test_foam_carries_what_it_displaces() -> None:
    known = {"platform_kind": "floating", "platform_foam_volume": 0.003, "platform_area": 0.15}
    tank = quantities().working(known)
    assert tank.value("foam_carried_mass") == pytest.approx(0.003 * (997 - 30), rel=0.002)
    assert tank.value("platform_float_area") == 0.15
    thick = quantities().working({**known, "platform_foam_thickness": 0.05})
    assert thick.value("platform_float_area") == pytest.approx(0.06)
    flat = quantities().working({**known, "platform_foam_thickness": 0.01})
    assert flat.value("platform_float_area") == 0.15
