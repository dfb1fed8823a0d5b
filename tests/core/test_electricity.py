"""Loads, circuit, energy: worked example, absent parts, both sides of the limit."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from interview.core.electricity import energy as laws
from interview.core.electricity import load as electricity
from interview.core.errors import Missing
from interview.core.sheets import read_formula
from interview.core.wiring import Wiring

KWH = 3.6e6
MONTH = 30.4375
QUANTITIES = Wiring(
    {name: read_formula(getattr(electricity, name)) for name in electricity.__all__}
)

# Heater 200 W of which the room takes 80 W, T5 UVB 24 W for 10 h, filter 20 W.
WORKED = {
    "installed_heater_power": 200.0,
    "mean_heat_loss": 80.0,
    "heat_lamp_kind": "none",
    "uvb_lamp_kind": "tube_t5",
    "light_power": 24.0,
    "filter_kind": "canister",
    "pump_power": 20.0,
    "day_length": 36000.0,
    "mains_voltage": 120.0,
    "circuit_rating": 15.0,
    "circuit_other_load": 0.0,
    "electricity_price": 0.30,
}


def worked(**changes: Any) -> Any:
    return QUANTITIES.working({**WORKED, **changes})


def test_worked_example_ladder() -> None:
    """Each appliance's kWh a month as printed to three decimals, then the sum."""
    heater = laws.energy_used(200.0, 0.4, 24.0, MONTH) / KWH
    lamp = laws.energy_used(24.0, 1.0, 10.0, MONTH) / KWH
    pump = laws.energy_used(20.0, 1.0, 24.0, MONTH) / KWH
    assert [heater, lamp, pump] == pytest.approx([58.440, 7.305, 14.610], abs=5e-4)
    tank = worked()
    assert tank.value("connected_load") == 244.0
    assert tank.value("circuit_current") == pytest.approx(2.03, abs=5e-3)
    assert tank.value("circuit_share") == pytest.approx(244 / 1440)
    assert tank.value("energy_per_month") / KWH == pytest.approx(80.355, abs=5e-4)
    assert tank.value("cost_per_month") == pytest.approx(80.355 * 0.30)


def test_heater_can_give_no_more_than_it_has() -> None:
    """A loss above the installed power runs the heater all day, a warm room not at all."""
    idle = worked(mean_heat_loss=0.0).value("energy_per_month")
    full = worked(mean_heat_loss=1000.0).value("energy_per_month")
    assert full - idle == pytest.approx(laws.energy_used(200.0, 1.0, 24.0, MONTH))
    none = worked(installed_heater_power=0.0).value("energy_per_month")
    assert none == idle == pytest.approx((7.305 + 14.610) * KWH)


@pytest.mark.parametrize(
    ("kind", "absent", "quantity"),
    [
        ("heat_lamp_kind", "heat_lamp_power", "heat_lamp_load"),
        ("uvb_lamp_kind", "light_power", "lighting_load"),
        ("filter_kind", "pump_power", "filter_load"),
    ],
)
def test_a_part_the_keeper_has_not_counts_nothing_an_unmeasured_one_is_missing(
    kind: str, absent: str, quantity: str
) -> None:
    assert worked(**{kind: "none", absent: None}).value(quantity) == 0.0
    has_one = {"heat_lamp_kind": "halogen", "uvb_lamp_kind": "coil", "filter_kind": "sponge"}
    for name in (quantity, "connected_load", "circuit_share", "cost_per_month"):
        with pytest.raises(Missing) as problem:
            worked(**{kind: has_one[kind], absent: None}).value(name)
        assert problem.value.names == (absent,)


def test_a_mercury_vapour_lamp_for_heat_and_uvb_is_one_lamp() -> None:
    both = {"heat_lamp_kind": "mercury_vapour", "heat_lamp_power": 160.0}
    one = worked(**both, uvb_lamp_kind="mercury_vapour", light_power=None)
    assert one.value("connected_load") == 200 + 160 + 20
    beside = worked(**both, uvb_lamp_kind="tube_t5", light_power=None)
    with pytest.raises(Missing, match="light_power"):
        beside.value("connected_load")
    no_heat_lamp = worked(uvb_lamp_kind="mercury_vapour", light_power=None)
    with pytest.raises(Missing, match="light_power"):
        no_heat_lamp.value("connected_load")


def test_plant_lights_without_uvb_and_pumps_without_a_filter_still_draw() -> None:
    tank = worked(uvb_lamp_kind="none", light_power=30.0, filter_kind="none", pump_power=5.0)
    assert tank.value("connected_load") == 235.0


def test_trap_the_rule_binds_the_circuit_not_the_tank() -> None:
    """NEC 210.20(A): 1440 W is the most a 120 V, 15 A circuit carries for hours."""
    assert worked(circuit_other_load=1196.0).value("circuit_share") == pytest.approx(1.0)
    assert worked(circuit_other_load=1190.0).value("circuit_share") < 1.0
    assert worked(circuit_other_load=1200.0).value("circuit_share") > 1.0
    with pytest.raises(Missing) as problem:
        worked(circuit_other_load=None).value("circuit_share")
    assert problem.value.names == ("circuit_other_load",)


def test_the_price_is_the_keepers_own() -> None:
    with pytest.raises(Missing) as problem:
        worked(electricity_price=None).value("cost_per_month")
    assert problem.value.names == ("electricity_price",)


@pytest.mark.parametrize(
    ("voltage", "rating", "full"),
    [
        (120, 15, 1800),
        (120, 20, 2400),
        (230, 13, 2990),
        (230, 16, 3680),
        (230, 10, 2300),
        (230, 3, 690),
    ],
)
def test_four_fifths_is_the_inverse_of_125_per_cent(
    voltage: float, rating: float, full: float
) -> None:
    assert laws.continuous_load_limit(voltage, rating) * 1.25 == pytest.approx(full)


@given(st.floats(0, 2000), st.floats(0, 1), st.floats(0, 24), st.floats(0, 366), st.floats(0.1, 3))
def test_energy_is_proportional_to_each_part(
    power: float, duty: float, hours: float, days: float, times: float
) -> None:
    once = laws.energy_used(power, duty, hours, days)
    for factors in ((times, 1, 1, 1), (1, times, 1, 1), (1, 1, times, 1), (1, 1, 1, times)):
        a, b, c, d = factors
        scaled = laws.energy_used(power * a, duty * b, hours * c, days * d)
        assert scaled == pytest.approx(once * times, rel=1e-12, abs=1e-12)


def test_arrays_give_the_scalars() -> None:
    rng = np.random.default_rng(3)
    clouds = {
        "installed_heater_power": rng.uniform(50, 300, 9),
        "mean_heat_loss": rng.uniform(0, 300, 9),
        "light_power": rng.uniform(5, 50, 9),
        "pump_power": rng.uniform(5, 30, 9),
        "day_length": rng.uniform(30000, 50000, 9),
        "circuit_other_load": rng.uniform(0, 2000, 9),
        "electricity_price": rng.uniform(0.1, 0.5, 9),
        "mains_voltage": rng.uniform(110, 125, 9),
    }
    cloud = worked(**clouds)
    single = [worked(**{name: float(v[i]) for name, v in clouds.items()}) for i in range(9)]
    for name in QUANTITIES.formulas:
        got = np.broadcast_to(cloud.value(name), (9,))
        np.testing.assert_allclose(got, [tank.value(name) for tank in single], rtol=1e-12)
