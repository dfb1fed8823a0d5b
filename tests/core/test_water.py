"""Water chemistry against independent libraries, worked examples and its own balances."""

from __future__ import annotations

import inspect
from typing import Any

import gsw
import numpy as np
import phreeqpython
import PyCO2SYS
import pytest
from every import every
from hypothesis import given
from hypothesis import strategies as st
from iapws import IAPWS95

from interview.core.errors import NotApplicable
from interview.core.sheets import read_formula
from interview.core.water import chemistry as water
from interview.core.water import properties as laws

DAY = 86400.0
WEEK = 7 * DAY
FORMULAS = {
    (module.__name__, name): read_formula(getattr(module, name))
    for module in (laws, water)
    for name in module.__all__
}

sensible_ph = st.floats(5.0, 10.0)
sensible_warmth = st.floats(0.0, 40.0)
shares = st.floats(0.02, 1.0)


# --- density -------------------------------------------------------------------------


@pytest.mark.parametrize("celsius", [0.1, 5, 10, 15, 20, 25, 30, 35, 40])
def test_density_agrees_with_two_equations_of_state(celsius: float) -> None:
    from CoolProp.CoolProp import PropsSI

    got = laws.water_density(celsius)
    kelvin = celsius + 273.15
    # IAPWS-95 at one atmosphere; the largest difference is 0.0012 kg/m³, at 40 °C.
    assert got == pytest.approx(PropsSI("D", "T", kelvin, "P", 101325, "Water"), abs=2e-3)
    assert got == pytest.approx(IAPWS95(T=kelvin, P=0.101325).rho, abs=2e-3)


def test_density_is_greatest_at_the_maximum_and_uses_the_unaltered_constant() -> None:
    celsius = np.linspace(0, 40, 40001)
    assert celsius[np.argmax(laws.water_density(celsius))] == pytest.approx(3.983, abs=1e-3)
    assert laws.water_density(3.983035) == 999.974950  # Tanaka et al. 2001: a1 and a5


# --- ammonia -------------------------------------------------------------------------


@every("celsius", [5, 10, 15, 20, 25, 30])
@every("ph", [6.5, 7.0, 7.5, 8.0, 8.5, 9.0])
def test_free_ammonia_agrees_with_a_speciation_code(ph: float, celsius: float) -> None:
    solution = phreeqpython.PhreeqPython(database="vitens.dat").add_solution(
        {"units": "mmol/kgw", "pH": ph, "temp": celsius, "Amm": 0.05}
    )
    moles = solution.species_moles
    share = moles["Amm"] / (moles["Amm"] + moles["AmmH+"])
    assert laws.ammonia_free_share(ph, celsius) == pytest.approx(share, rel=4e-3)


def test_hard_water_holds_up_to_a_tenth_less_free_ammonia() -> None:
    hard = {"Ca": 1.5, "Mg": 0.5, "Na": 1, "Cl": 1, "Alkalinity": 3, "S(6)": 0.5}
    solution = phreeqpython.PhreeqPython(database="vitens.dat").add_solution(
        {"units": "mmol/kgw", "pH": 8, "temp": 25, "Amm": 0.05, **hard}
    )
    moles = solution.species_moles
    share = moles["Amm"] / (moles["Amm"] + moles["AmmH+"])
    assert 0.90 < share / laws.ammonia_free_share(8, 25) < 0.93


@pytest.mark.parametrize("celsius", [10, 20, 25, 30])
def test_free_ammonia_agrees_with_clegg_and_whitfield(celsius: float) -> None:
    # A salinity of exactly 0 makes the library return zeros.
    result = PyCO2SYS.sys(
        par1=8, par1_type=3, par2=2000, par2_type=1, salinity=1e-6, temperature=celsius,
        opt_pH_scale=3, total_ammonia=1,
    )  # fmt: skip
    constant = -np.log10(result["k_ammonia"])
    share = 1 / (1 + 10 ** (constant - 8.0))
    assert laws.ammonia_free_share(8.0, celsius) == pytest.approx(share, rel=5e-3)


# The nine cells of the printed table that do not follow from the formula it cites.
MISPRINTED = [
    (7.0, 32, 0.0093), (7.2, 32, 0.0150), (7.4, 32, 0.0236), (7.6, 32, 0.0369), (7.8, 32, 0.0572),
    (8.0, 32, 0.0877), (8.2, 32, 0.1322), (8.4, 32, 0.1948), (7.4, 20, 0.0096),
]  # fmt: skip


@pytest.mark.parametrize(("ph", "celsius", "printed"), MISPRINTED)
def test_misprinted_cells_of_fa16_are_off(ph: float, celsius: float, printed: float) -> None:
    got = laws.ammonia_free_share(ph, celsius)
    assert abs(got - printed) > 0.005 * printed + 6e-5
    solution = phreeqpython.PhreeqPython(database="vitens.dat").add_solution(
        {"units": "mmol/kgw", "pH": ph, "temp": celsius, "Amm": 0.05}
    )
    moles = solution.species_moles
    independent = moles["Amm"] / (moles["Amm"] + moles["AmmH+"])
    assert abs(got - independent) < 0.25 * abs(got - printed)


def test_the_misprint_2727_92_in_circulation_is_not_used() -> None:
    wrong = 1 / (1 + 10 ** (0.09018 + 2727.92 / 298.15 - 7.5))
    assert wrong / laws.ammonia_free_share(7.5, 25) == pytest.approx(1.0154, abs=5e-4)


def test_half_is_free_where_acidity_equals_the_constant() -> None:
    # pKa 9.2464 at 25 °C and 9.4025 at 20 °C, Emerson et al. 1975.
    for constant, celsius in ((9.2464, 25), (9.4025, 20)):
        assert laws.ammonia_free_share(constant, celsius) == pytest.approx(0.5, abs=5e-5)


@pytest.mark.parametrize(
    ("total", "free"), [(11.0, 0.47), (46.3, 1.98), (68.7, 2.94), (97.0, 4.15)]
)
def test_turtles_bear_far_more_than_the_fish_limit(total: float, free: float) -> None:
    # Jing and Niu 2008: juvenile Pelodiscus, 29.5 °C, pH 7.76, no effect on growth.
    got = water.ammonia_free(total, laws.ammonia_free_share(7.76, 29.5))
    assert got == pytest.approx(free, abs=0.006)
    assert got > 9 * 0.05


@pytest.mark.parametrize(
    ("ph", "at_22", "at_25", "at_28"),
    [(7.0, 10.97, 8.87, 7.20), (7.5, 3.50, 2.84, 2.31), (8.0, 1.14, 0.93, 0.76)],
)
def test_total_ammonia_at_the_fish_limit(
    ph: float, at_22: float, at_25: float, at_28: float
) -> None:
    got = 0.05 / laws.ammonia_free_share(ph, np.array([22.0, 25.0, 28.0]))
    assert got == pytest.approx([at_22, at_25, at_28], abs=0.0051)


@given(sensible_ph, sensible_warmth, st.floats(0.01, 1.0))
def test_free_share_rises_with_acidity_and_warmth(ph: float, celsius: float, more: float) -> None:
    here = laws.ammonia_free_share(ph, celsius)
    assert 0 < here < 1
    assert laws.ammonia_free_share(ph + more, celsius) > here
    assert laws.ammonia_free_share(ph, celsius + more) > here


def test_criteria_fall_with_acidity_and_the_chronic_one_is_the_stricter() -> None:
    ph, celsius = np.linspace(6.5, 9, 26), 24.0
    acute, chronic = (
        laws.ammonia_acute_criterion(ph, celsius),
        laws.ammonia_chronic_criterion(ph, celsius),
    )
    assert (np.diff(acute) < 0).all()
    assert (np.diff(chronic) < 0).all()
    assert (chronic < acute).all()
    # Below 7 °C the chronic criterion stands still, as the EPA wrote it.
    assert laws.ammonia_chronic_criterion(7, 2) == laws.ammonia_chronic_criterion(7, 7)


@pytest.mark.parametrize(
    ("ph", "acute", "chronic"), [(7.5, 19.89, 2.220), (8.0, 8.41, 1.238), (8.5, 3.20, 0.554)]
)
def test_criteria_keep_the_shape_the_law_printed_in_1999(
    ph: float, acute: float, chronic: float
) -> None:
    # EPA-822-R-99-014 as printed in South Dakota rule 74:51:01: acute without salmonids and
    # chronic, 36.09 and 3.007 mg/L at pH 7. The levels moved in 2013, the pH curves did not.
    by_acidity = laws.ammonia_acute_criterion(ph, 25) / laws.ammonia_acute_criterion(7, 25)
    assert by_acidity == pytest.approx(acute / 36.09, rel=2.5e-3)
    by_acidity = laws.ammonia_chronic_criterion(ph, 25) / laws.ammonia_chronic_criterion(7, 25)
    assert by_acidity == pytest.approx(chronic / 3.007, rel=2.5e-3)


def test_acute_criterion_stands_still_in_the_cold() -> None:
    # The most sensitive mussel counts only above about 10 °C; below, fish set the cap.
    cold = laws.ammonia_acute_criterion(8.0, np.array([2.0, 10.0, 11.0]))
    assert cold[0] == cold[1] > cold[2]
    # by hand at pH 7.204, where both steps are halved: 0.7249 (0.0114 + 1.6181) / 2 · 51.93
    assert laws.ammonia_acute_criterion(7.204, 2.0) == pytest.approx(30.6705, abs=5e-4)


def test_chronic_criterion_follows_warmth_from_seven_degrees() -> None:
    # by hand at pH 7.688: 0.8876 (0.0278 + 1.1994) / 2 · 2.126 · 10^(0.028 (20 - 7.5))
    assert laws.ammonia_chronic_criterion(7.688, 7.5) == pytest.approx(2.5922, abs=5e-4)


# --- oxygen --------------------------------------------------------------------------


@pytest.mark.parametrize("celsius", range(0, 41, 4))
def test_oxygen_agrees_with_the_oceanographers_library(celsius: int) -> None:
    per_kilogram = gsw.O2sol_SP_pt(0, celsius) * 31.9988e-3  # µmol/kg → mg/kg
    expected = per_kilogram * gsw.rho(0, celsius, 0) / 1000
    assert laws.oxygen_saturation(celsius) == pytest.approx(expected, rel=6e-4)


@pytest.mark.parametrize("celsius", [0, 10, 25, 30])
def test_oxygen_follows_the_dry_air_pressure(celsius: float) -> None:
    from CoolProp.CoolProp import PropsSI

    vapour = PropsSI("P", "T", max(celsius, 0.01) + 273.15, "Q", 0, "Water")
    dry = (0.9 * 101325 - vapour) / (101325 - vapour)  # Henry's law, moist air
    got = laws.oxygen_saturation(celsius, 0.9 * 101325) / laws.oxygen_saturation(celsius)
    assert got == pytest.approx(dry, rel=3e-4)


def test_old_coarse_oxygen_table_is_not_used() -> None:
    assert laws.oxygen_saturation(20) < 0.992 * 9.2


# --- nitrogen and nitrate ------------------------------------------------------------


def test_the_worked_tank_step_by_step() -> None:
    """300 L, 10 g of pellets with 40 % protein on four days a week, tap 10 mg/L."""
    feed_a_day = 0.010 * 4 / 7
    ammonia_load = 0.092 * feed_a_day * 0.40 / DAY
    assert ammonia_load * DAY * 1e3 == pytest.approx(0.210, abs=5e-4)  # g N a day
    rise = water.nitrate_rise(ammonia_load, 0.300)
    assert rise * DAY == pytest.approx(3.10, abs=5e-3)  # mg/L a day, as the ion
    peak = water.nitrate_peak(rise, WEEK, 0.30, 10.0)
    assert peak == pytest.approx(82, abs=0.5)
    needed = water.water_change_share_needed(rise, WEEK, 10.0, 40.0)
    assert needed == pytest.approx(0.72, abs=5e-3)
    twice = water.water_change_share_needed(rise, WEEK / 2, 10.0, 40.0)
    assert twice == pytest.approx(0.36, abs=5e-3)
    assert water.nitrate_peak(rise, WEEK, needed, 10.0) == pytest.approx(40.0, rel=1e-12)
    everything = water.nitrate_rise(ammonia_load * 0.16 / 0.092, 0.300)
    assert everything * DAY == pytest.approx(5.40, abs=0.011)
    assert water.water_change_share_needed(everything, WEEK, 10.0, 40.0) > 1  # impossible


def test_the_interval_needed_turns_the_peak_round() -> None:
    # The worked nitrate case above: a third every 3.2 days holds 40 mg/L, by hand
    # 0.33 * (40 - 10) / 3.10 a day.
    rise = 3.10 / DAY
    needed = water.water_change_interval_needed(rise, 0.33, 10.0, 40.0)
    assert needed / DAY == pytest.approx(3.19, abs=5e-3)
    assert water.nitrate_peak(rise, needed, 0.33, 10.0) == pytest.approx(40.0, rel=1e-12)
    assert water.water_change_interval_needed(rise, 0.33, 40.0, 40.0) == 0.0
    assert water.water_change_interval_needed(rise, 0.33, 55.0, 40.0) == 0.0
    assert water.water_change_interval_needed(0.0, 0.33, 10.0, 40.0) == np.inf


def test_the_weekly_quarter_habit_does_not_hold_forty() -> None:
    rise = water.nitrate_rise(0.210e-3 / DAY, 0.300)
    for habit in (0.25, 0.30):
        assert water.nitrate_peak(rise, WEEK, habit, 10.0) > 2 * 40


def test_nitrogen_in_is_nitrogen_out() -> None:
    # In the long run each change carries off what one interval's feeding brought.
    load, volume, share, tap = 0.5e-3 / DAY, 0.2, 0.4, 25.0
    rise = water.nitrate_rise(load, volume)
    peak = water.nitrate_peak(rise, WEEK, share, tap)
    ion_removed = share * (peak - tap) * volume * 1e-3  # kg
    assert ion_removed * 14.0067 / 62.0049 == pytest.approx(load * WEEK, rel=1e-5)


def _stepped(p: float, n: float, f: float, tap: float, start: float, changes: int) -> float:
    level = start
    for _ in range(changes - 1):
        level = (level + p * n) * (1 - f) + f * tap
    return level + p * n


@given(
    st.floats(0, 20), st.floats(1, 30), st.floats(0, 1), st.floats(0, 50), st.floats(0, 400),
    st.integers(1, 60),
)  # fmt: skip
def test_closed_form_equals_stepping(
    p: float, n: float, f: float, tap: float, start: float, changes: int
) -> None:
    got = laws.nitrate_after_changes(p / DAY, n * DAY, f, tap, start, changes)
    # A share near zero costs the closed form digits: (1 - (1-f)^k)/f.
    assert got == pytest.approx(_stepped(p, n, f, tap, start, changes), rel=1e-6, abs=1e-6)


@given(st.floats(0.1, 20), shares, st.floats(0, 50), st.floats(0, 400))
def test_changes_tend_to_the_peak(p: float, f: float, tap: float, start: float) -> None:
    far = laws.nitrate_after_changes(p / DAY, WEEK, f, tap, start, 2000)
    assert far == pytest.approx(laws.nitrate_peak(p / DAY, WEEK, f, tap), rel=1e-6)


def test_peak_equals_a_continuous_drip_and_the_long_run_mean() -> None:
    # Case 2: 8 mg/L a day, every 3 days, 30 %, tap 25: peak 105, after 81, mean 93.
    peak = laws.nitrate_peak(8 / DAY, 3 * DAY, 0.30, 25.0)
    drip = 25.0 + (8 / DAY) / (0.30 / (3 * DAY))
    assert peak == pytest.approx(drip)
    after = 0.7 * peak + 0.3 * 25.0
    assert after == pytest.approx(81.0)
    assert (peak + after) / 2 == pytest.approx(93.0)


def test_edges_of_the_change_sums() -> None:
    assert laws.nitrate_peak(1e-5, WEEK, 0.0, 10.0) == np.inf
    assert laws.nitrate_peak(0.0, WEEK, 0.0, 10.0) == 10.0
    assert np.isnan(laws.nitrate_peak(np.nan, WEEK, 0.3, 10.0))
    assert laws.nitrate_after_changes(1 / DAY, DAY, 0.0, 10.0, 5.0, 7) == pytest.approx(12.0)
    assert laws.nitrate_after_changes(1 / DAY, DAY, 1.0, 10.0, 5.0, 3) == pytest.approx(11.0)
    assert water.water_change_share_needed(1e-5, WEEK, 40.0, 40.0) == np.inf
    assert water.water_change_share_needed(1e-5, WEEK, 55.0, 40.0) == np.inf
    assert np.isnan(water.water_change_share_needed(1e-5, WEEK, np.nan, 40.0))
    assert water.water_change_share_needed(0.0, WEEK, 10.0, 40.0) == 0.0


def test_nitrate_is_the_ion_not_the_nitrogen() -> None:
    # 1 mg N in a litre is 4.4268 mg of nitrate ion (atomic masses).
    assert water.nitrate_rise(1e-6, 1e-3) == pytest.approx(4.4268, abs=5e-5)


def test_topping_up_brings_the_taps_nitrate() -> None:
    plain = water.nitrate_rise(0.2e-3 / DAY, 0.15)
    topped = water.nitrate_rise(0.2e-3 / DAY, 0.15, 3.0 / DAY, 50.0)
    assert (topped - plain) * DAY == pytest.approx(3.0 * 50.0 / 150.0)  # 3 L a day into 150 L
    assert water.nitrate_rise(0.2e-3 / DAY, 0.15, 3.0 / DAY, 0.0) == plain


@pytest.mark.parametrize(
    ("grams", "hardness"), [(0.2, 1.9), (0.5, 4.7), (1.0, 9.3)]
)  # a week in 300 L, in German degrees, 17.848 mg/L each
def test_alkalinity_used_in_a_week(grams: float, hardness: float) -> None:
    used = water.alkalinity_use(grams * 1e-3 / DAY, 0.3) * WEEK / 17.848
    assert used == pytest.approx(hardness, abs=0.05)


# --- disinfectant --------------------------------------------------------------------


def test_dose_is_the_safe_upper_of_the_three_routes() -> None:
    per_milligram = laws.thiosulfate_dose(1e-3, 1.0) * 1e6
    # Full oxidation to sulfate needs 0.875 mg, the one-to-one route 3.500 mg.
    assert per_milligram == pytest.approx(7.000, abs=1e-3)
    assert per_milligram / 3.500 == pytest.approx(2.0, abs=1e-3)
    assert per_milligram / 0.875 == pytest.approx(8.0, abs=1e-2)


def test_dose_of_one_change() -> None:
    assert water.dechlorinator_dose(0.2, 0.5, 2.0) == pytest.approx(1.4e-3, rel=1e-3)
    assert water.dechlorinator_dose(0.2, 0.0, 2.0) == 0.0


def test_half_a_tank_of_chloramine_water_at_the_us_cap() -> None:
    left = laws.chloramine_ammonia(4.0, 0.5)
    free = water.ammonia_free(left, laws.ammonia_free_share(8.0, 25.0))
    assert free == pytest.approx(0.021, abs=5e-4)


@pytest.mark.parametrize(
    ("start", "end", "halvings"), [(1, 0.1, 3.32), (1, 0.02, 5.64), (4, 0.02, 7.64)]
)
def test_standing_time_in_half_lives(start: float, end: float, halvings: float) -> None:
    assert water.chlorine_standing_time(start, end, 1.0) == pytest.approx(halvings, abs=5e-3)
    assert water.chlorine_standing_time(end, start, 1.0) == 0.0


# --- every formula -------------------------------------------------------------------

TYPICAL = {
    "ph": (6.5, 8.5), "water_temperature": (15, 30), "air_pressure": (80000, 101325),
    "water_change_share": (0.05, 1.0), "water_change_interval": (DAY, 30 * DAY),
    "nitrate_rise": (1e-6, 1e-4), "tap_nitrate": (0, 35), "nitrate": (0, 100), "changes": (1, 50),
    "nitrate_limit": (40, 100), "ammonia_load": (1e-10, 1e-8), "water_volume": (0.05, 1.0),
    "evaporation_rate": (0, 1e-4), "ammonia": (0, 5), "ammonia_free_share": (0, 0.3),
    "chlorine": (0, 4), "tap_chlorine": (0.1, 4), "chlorine_limit": (0.01, 0.1),
    "chlorine_half_life": (10000, 50000), "nitrate_calibration": (0.3, 2),
    "filter_age": (60 * DAY, 120 * DAY), "nitrate_settling_time": (84 * DAY, 84.1 * DAY),
    "nitrate_read_late": (0, 1),
    "ammonia_peak": (0.1, 30), "usual_ph": (7, 8), "target_water_temperature": (20, 28),
    "water_change_interval_needed": (3 * DAY, 20 * DAY), "least_change_interval": (DAY, 2 * DAY),
}  # fmt: skip


@pytest.mark.parametrize("key", FORMULAS, ids=lambda key: ".".join(key))
def test_arrays_give_what_scalars_give(key: tuple[str, str]) -> None:
    formula = FORMULAS[key]
    rng = np.random.default_rng(1)
    names = [item.name for item in formula.inputs]
    kit = key[1] == "nitrate_calibration"
    choices = {"filter_kind": "canister" if kit else "none", "stage": "living"}  # where it's judged
    words = {name: word for name, word in choices.items() if name in names}
    draws = {n: rng.uniform(*TYPICAL[n], size=7) for n in names if n not in words}
    together = formula({**words, **draws})
    one_by_one = [
        formula({**words, **{n: float(v[i]) for n, v in draws.items()}}) for i in range(7)
    ]
    assert np.shape(together) == (7,)
    assert together == pytest.approx(np.asarray(one_by_one, dtype=float), rel=1e-12)


def test_every_formula_has_a_data_sheet_and_the_shared_ones_agree() -> None:
    for (module, name), formula in FORMULAS.items():
        assert formula.inputs, (module, name)
    for name in ("ammonia_free_share", "nitrate_peak"):
        assert inspect.signature(getattr(laws, name)) == inspect.signature(getattr(water, name))


# --- the kit of a settled tank --------------------------------------------------------


def _calibration(**changes: Any) -> float:
    """A tank whose food alone makes 14 mg/L of nitrate a week; a quarter is changed weekly."""
    known = {
        "ammonia_load": 14.0 * 0.1 / 7 / DAY * 1e-3 / (62.004 / 14.007),
        "water_volume": 0.1,
        "water_change_interval": 7 * DAY,
        "water_change_share": 0.25,
        "tap_nitrate": 10.0,
        "nitrate": 30.0,
        "filter_age": 400 * DAY,
        "nitrate_settling_time": 84 * DAY,
        "nitrate_read_late": 1.0,
        "stage": "living",
        "filter_kind": "canister",
    }
    return float(water.nitrate_calibration(**{**known, **changes}))


def test_the_kit_of_a_settled_tank_goes_before_the_sum() -> None:
    """By hand: 10 + 14/0.25 = 66 by food. After a change of a quarter 30 came from 36.67."""
    assert _calibration() == pytest.approx(20 / 56, rel=1e-3)
    assert _calibration(nitrate_read_late=0.0) == pytest.approx((36.667 - 10) / 56, rel=1e-3)
    assert _calibration(nitrate=66.0) == pytest.approx(1.0, rel=1e-3)
    assert _calibration(nitrate=100.0) == pytest.approx(90 / 56, rel=1e-3), "more than food tells"
    assert _calibration(filter_age=30 * DAY) == 1.0, "a young tank is still climbing"
    for other in ({"stage": "set_up"}, {"filter_kind": "none"}):
        with pytest.raises(NotApplicable):
            _calibration(**other)


def test_nobody_changes_water_every_day() -> None:
    assert water.practical_change_interval(4 * DAY, 2 * DAY) == 4 * DAY
    with pytest.raises(NotApplicable, match="so often"):
        water.practical_change_interval(0.7 * DAY, 2 * DAY)


def test_the_free_part_of_what_builds_up_follows_the_tank_s_own_ph() -> None:
    """Emerson 1975: 2.84 mg/L TAN at pH 7.5 and 25 degC, 0.93 at pH 8, hold 0.05 mg/L NH3-N."""
    assert water.ammonia_peak_free(2.84, 7.0, 7.5, 25.0) == pytest.approx(0.05, rel=0.02)
    assert water.ammonia_peak_free(0.93, 7.0, 8.0, 25.0) == pytest.approx(0.05, rel=0.02)
    assert water.ammonia_peak_free(2.84, 7.5, None, None, 25.0) == pytest.approx(0.05, rel=0.02)
