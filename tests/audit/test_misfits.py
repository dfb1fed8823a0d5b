"""Readings that can't be right are questioned, and good tanks are left in peace."""

from __future__ import annotations

from typing import Any

import pytest

from interview import assembly, setups
from interview.audit.misfits import all_misfits, misfits
from interview.graph.interview import Interview, Place
from interview.places import demo_folder


def _demo(name: str, **changes: str) -> Interview:
    interview = assembly.new_interview()
    setup = setups.read(demo_folder() / f"{name}.yaml", interview.questionnaire)
    setup.answers |= {
        Place(k, 0 if k == "carapace_length" else None): v for k, v in changes.items()
    }
    setups.fill(interview, setup)
    return interview


def _found(interview: Interview) -> set[str]:
    return {m.id for m in misfits(interview.lookup(), interview.unit_of, interview.system)}


@pytest.mark.parametrize("name", [p.stem for p in sorted(demo_folder().glob("*.yaml"))])
def test_the_demo_tanks_raise_none(name: str) -> None:
    assert _found(_demo(name)) == set()


@pytest.mark.parametrize(
    ("changes", "misfit"),
    [
        ({"basking_temperature": "20 °C"}, "basking_no_warming"),
        ({"basking_temperature": "95 °C", "heat_lamp_height": "1 m"}, "basking_too_hot_for_lamp"),
        ({"basking_temperature": "22.2 °C", "heat_lamp_height": "10 cm"},
         "basking_too_cool_for_lamp"),
        ({"water_temperature": "39 °C"}, "water_warmer_than_heater"),
        ({"heater_mount": "none", "water_temperature": "28 °C"}, "water_warm_without_heater"),
        ({"uvb_path": "glass", "uvb_reading": "3.1", "uvb_reading_height": "4 cm"},
         "uv_through_glass"),
        ({"feed_mass": "200 g"}, "feed_far_from_need"),
        ({"carapace_length": "31 cm"}, "longer_than_it_grows"),
        ({"ammonia": "3 mg/L"}, "ammonia_in_ripe_filter"),
        ({"heat_lamp_height": "1.5 m"}, "lamp_too_far"),
        ({"uvb_reading": "20", "uvb_reading_height": "4 cm"}, "full_sun"),
    ],
)  # fmt: skip
def test_each_slip_is_questioned(changes: dict[str, Any], misfit: str) -> None:
    assert misfit in _found(_demo("musk_turtle", **changes))


def test_a_tank_of_the_wrong_unit_is_questioned() -> None:
    small = _demo("musk_turtle")
    small.answers.clear()
    small.record(Place("tank_size"), "20 x 12 x 12 cm")
    assert "tiny_tank" in _found(small)
    small.record(Place("tank_size"), "4 x 2 x 2 m")
    assert "huge_tank" in _found(small)


def test_every_misfit_is_in_a_table_above() -> None:
    assert len(all_misfits()) == 13
