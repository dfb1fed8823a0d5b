"""The laws of light and of the basking patch against quadrature and general-purpose libraries."""

from __future__ import annotations

import datetime
import math

import numpy as np
import pytest
from astral import LocationInfo, sun
from every import every
from ht.radiation import q_rad
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import dblquad, quad, trapezoid
from scipy.optimize import brentq

from interview.core.basking import warm_patch as basking
from interview.core.errors import BeyondFormula, NotApplicable, OutOfRange
from interview.core.light import radiation as light
from interview.core.sheets import read_formula

LAWS = [getattr(module, name) for module in (basking, light) for name in module.__all__]


@pytest.mark.parametrize("law", LAWS, ids=lambda law: law.__name__)
def test_data_sheets_agree_with_signatures(law) -> None:
    assert read_formula(law).sources


# Erythemal weight (CIE 106/4:1993) -----------------------------------------------------------


@pytest.mark.parametrize(
    ("low", "high", "expected"),
    [
        (250, 298, 48.0),
        (298, 328, (1 - 10**-2.82) / (0.094 * math.log(10))),
        (328, 400, 0.040177),
        (250, 400, 52.653338),
    ],
)
def test_weight_integrates_to_the_closed_form(low: int, high: int, expected: float) -> None:
    area = quad(lambda nm: float(light.erythemal_weight(nm * 1e-9)), low, high, points=[298, 328])
    assert area[0] == pytest.approx(expected, abs=2e-6)


def test_flat_lamp_index() -> None:
    # 1 mW/m²/nm over 290-400 nm: scipy quad of the standard's three branches, 0.506134.
    area = quad(lambda nm: float(light.erythemal_weight(nm * 1e-9)), 290, 400, points=[298, 328])
    assert float(light.uv_index_from(area[0] * 1e-3)) == pytest.approx(0.506134, abs=1e-6)


def test_weight_is_the_standard_and_not_the_1987_form() -> None:
    # With 139 the curve jumps down by 3.4 % at 328 nm (Webb et al. 2011).
    below, above = light.erythemal_weight(np.array([328e-9, 328.0001e-9]))
    assert above == pytest.approx(below, rel=1e-4)
    assert float(light.erythemal_weight(360e-9)) != pytest.approx(10 ** (0.015 * (139 - 360)), 0.02)


def test_sun_spectrum_end_to_end() -> None:
    import pvlib

    # ASTM G173-03 global spectrum as shipped by pvlib: UV index 3.69 (3.66 with 139).
    spectrum = pvlib.spectrum.get_reference_spectra()["global"].loc[280:400]
    wavelength = spectrum.index.to_numpy() * 1e-9
    erythemal = trapezoid(spectrum.to_numpy() * light.erythemal_weight(wavelength), wavelength)
    assert erythemal * 1e9 == pytest.approx(0.0923, abs=1e-4)
    assert float(light.uv_index_from(erythemal * 1e9)) == pytest.approx(3.69, abs=5e-3)


def test_weight_refuses_what_the_standard_does_not_define() -> None:
    with pytest.raises(OutOfRange, match="wavelength"):
        read_formula(light.erythemal_weight)({"wavelength": 249e-9})


# Source shapes -------------------------------------------------------------------------------


def _line_of_cosine_emitters(length: float, h: float, y: float, x: float) -> float:
    def part(s: float) -> float:
        square = h * h + y * y + (x - s) ** 2
        return math.sqrt(h * h + y * y) * h / square**2 / (math.pi**2 * length)

    return quad(part, -length / 2, length / 2, epsabs=1e-13, epsrel=1e-12)[0]


@every("length", [0.3, 0.55, 1.15])
@every("height", [0.08, 0.3, 0.8])
@every(("offset", "along"), [(0, 0), (0.15, 0), (0.2, 0.4), (0, -0.3)])
def test_tube_equals_quadrature(length, height, offset, along) -> None:
    expected = _line_of_cosine_emitters(length, height, offset, along)
    got = light.tube_irradiance(1.0, length, height, offset, along)
    assert float(got) == pytest.approx(expected, rel=1e-9)


def test_tube_gives_back_its_power() -> None:
    # All that a tube sends down lands on a level plane: half its power.
    def strip(y: float, x: float) -> float:
        return float(light.tube_irradiance(1.0, 0.5, 0.2, y, x))

    caught = 4 * dblquad(strip, 0, 60, 0, 60, epsabs=1e-4, epsrel=1e-3)[0]
    assert caught == pytest.approx(0.5, abs=0.01)


@pytest.mark.parametrize(
    ("length", "exponents"),
    # Keitz equation differentiated by hand, at 10, 30 and 60 cm.
    [(0.30, (1.20, 1.74, 1.92)), (0.55, (1.05, 1.44, 1.77)), (1.15, (1.01, 1.12, 1.41))],
)
def test_tubes_do_not_follow_inverse_square(length: float, exponents: tuple[float, ...]) -> None:
    h = np.array([0.10, 0.30, 0.60])
    upper, lower = (light.tube_irradiance(1.0, length, h * f) for f in (1 / 1.001, 1.001))
    slope = np.log(upper / lower) / np.log(1.001**2)
    assert slope == pytest.approx(exponents, abs=6e-3)


def test_tube_from_30_to_15_cm() -> None:
    # 55 cm arc: ×2.41 and not ×4; to 60 cm ×0.33 and not ×0.25 (line source, two decimals).
    near, middle, far = light.tube_irradiance(1.0, 0.55, np.array([0.15, 0.30, 0.60]))
    assert near / middle == pytest.approx(2.41, abs=5e-3)
    assert far / middle == pytest.approx(0.33, abs=5e-3)


def test_sideways_and_along_a_tube() -> None:
    # Share of the value under the middle, arc 52 cm at 30 cm (line source, two decimals).
    middle = light.tube_irradiance(1.0, 0.52, 0.30)
    sideways = light.tube_irradiance(1.0, 0.52, 0.30, np.array([0.10, 0.15, 0.20, 0.30, 0.40]))
    along = light.tube_irradiance(1.0, 0.52, 0.30, 0.0, np.array([0.20, 0.26, 0.50]))
    assert sideways / middle == pytest.approx([0.88, 0.76, 0.63, 0.41, 0.27], abs=6e-3)
    assert along / middle == pytest.approx([0.76, 0.61, 0.16], abs=6e-3)


@pytest.mark.parametrize("radius", [0.03, 0.1])
@pytest.mark.parametrize("height", [0.1, 0.4])
@pytest.mark.parametrize("offset", [0.0, 0.05, 0.3])
def test_disc_equals_quadrature(radius: float, height: float, offset: float) -> None:
    def part(r: float, t: float) -> float:
        square = (r * math.cos(t) - offset) ** 2 + (r * math.sin(t)) ** 2 + height**2
        return r * height**2 / square**2 / (math.pi**2 * radius**2)

    expected = dblquad(part, 0, 2 * math.pi, 0, radius, epsabs=1e-10, epsrel=1e-9)[0]
    got = float(light.disc_irradiance(1.0, radius, height, offset))
    assert got == pytest.approx(expected, rel=1e-7)


def test_small_disc_is_a_point() -> None:
    # On axis a diffuse disc has intensity Φ/π; the five-times rule leaves 4 %.
    point = light.point_irradiance(1 / math.pi, 0.5, 0.0)
    assert float(light.disc_irradiance(1.0, 0.1, 0.5) / point) == pytest.approx(1 / 1.04, rel=1e-9)


@given(
    length=st.floats(0.05, 2),
    height=st.floats(0.02, 2),
    further=st.floats(1.01, 3),
    offset=st.floats(0, 0.5),
)
def test_further_is_dimmer_and_sides_are_alike(length, height, further, offset) -> None:
    here = light.tube_irradiance(1.0, length, height)
    assert light.tube_irradiance(1.0, length, height * further) < here
    assert light.tube_irradiance(1.0, length, height, offset) <= here * (1 + 1e-12)
    left, right = light.tube_irradiance(1.0, length, height, offset, np.array([-0.2, 0.2]))
    assert left == pytest.approx(right, rel=1e-9)
    # Never falls faster than a point, never slower than an endless line.
    fall = here / light.tube_irradiance(1.0, length, height * further)
    assert further * (1 - 1e-9) <= fall <= further**2 * (1 + 1e-9)


# Mesh, ageing, day length, limits, calibration -----------------------------------------------


@given(st.floats(0, 0.02), st.floats(0.001, 0.02), st.floats(0, 85))
def test_mesh_passes_between_nothing_and_all(wire: float, pitch: float, tilt: float) -> None:
    if wire >= pitch:
        with pytest.raises(BeyondFormula, match=r"mesh_wire .* mesh_pitch"):
            light.mesh_transmission(wire, pitch, tilt)
        return
    passed = float(light.mesh_transmission(wire, pitch, tilt))
    assert 0 <= passed <= 1
    assert passed <= float(light.mesh_transmission(wire, pitch)) + 1e-12


def test_stray_draws_of_touching_wires_let_nothing_through() -> None:
    # (1 - 0.5)² by hand; two negative factors don't make a window
    passed = light.mesh_transmission(np.array([0.001, 0.002, 0.005]), 0.002)
    assert passed == pytest.approx([0.25, 0.0, 0.0])


def test_a_reading_of_nothing_calibrates_nothing() -> None:
    """The model's error is a share of the reading, of which there is none at 0."""
    with pytest.raises(BeyondFormula, match="uvb_reading of 0 calibrates no lamp"):
        light.uv_calibration(3.0, 0.0, 0.6, 0.15)
    some = light.uv_calibration(3.0, np.array([0.0, 3.0]), 0.6, 0.15)
    assert some == pytest.approx([0.0, 1.0])


def test_a_lamp_that_cools_is_refused() -> None:
    with pytest.raises(BeyondFormula, match="basking_temperature is below room_temperature_high"):
        basking.surface_temperature_at(23.9, 0.30, 0.20, 24.0, 0.0)
    assert basking.surface_temperature_at(24.0, 0.30, 0.20, 24.0, 0.0) == pytest.approx(24.0)


@pytest.mark.parametrize("latitude", [-50, -35, -12, 0, 20, 29, 41, 55])
def test_day_length_against_astral(latitude: float) -> None:
    place = LocationInfo("", "", "UTC", latitude, 0).observer
    for number in range(1, 366, 13):
        day = datetime.date(2026, 1, 1) + datetime.timedelta(days=number - 1)
        almanac = (sun.sunset(place, day) - sun.sunrise(place, day)).total_seconds()
        assert float(light.day_length_at(latitude, number)) == pytest.approx(almanac, abs=420)


def test_day_length_against_pvlib() -> None:
    import pandas as pd
    import pvlib

    days = pd.date_range("2026-01-01 12:00", periods=365, tz="UTC")[::20]
    table = pvlib.location.Location(40.0, 0.0, "UTC").get_sun_rise_set_transit(days, method="spa")
    almanac = (table["sunset"] - table["sunrise"]).dt.total_seconds().to_numpy()
    ours = light.day_length_at(40.0, days.day_of_year.to_numpy())
    assert np.abs(ours - almanac).max() < 420


def test_gulf_coast_swing() -> None:
    # 14 h at the June solstice is 29.0° N, 10 h at the December solstice 32.6° N.
    assert float(light.day_length_at(29.0, 172)) == pytest.approx(14 * 3600, abs=60)
    assert float(light.day_length_at(32.6, 355)) == pytest.approx(10 * 3600, abs=60)


def test_poles_have_no_gaps() -> None:
    assert np.isfinite(light.day_length_at(np.array([-90.0, 90.0]), 100)).all()


def test_twenty_minutes_over_the_index() -> None:
    # ICNIRP 2004 with the worst spectrum: 20 min divided by the index.
    index = np.array([0.5, 1.0, 2.0, 4.0])
    assert light.uv_exposure_limit(index, "any") == pytest.approx(1200 / index)
    assert np.isinf(light.uv_exposure_limit(0.0, "any"))


def test_unknown_spectrum_says_which_are_known() -> None:
    with pytest.raises(NotApplicable, match=r"moonlight; known: sun, .*any"):
        light.uv_exposure_limit(1.0, "moonlight")


def test_calibration_is_the_best_of_two_estimates() -> None:
    # The posterior of log-normals maximises the product of both densities: by brute force.
    prior, error, predicted, read = 0.61, 0.25, 4.0, 2.5
    logs = np.linspace(np.log(0.2), np.log(20), 400_001)
    misfit = ((logs - np.log(predicted)) / prior) ** 2 + ((logs - np.log(read)) / error) ** 2
    best = np.exp(logs[np.argmin(misfit)])
    k = float(light.uv_calibration(predicted, read, prior, error))
    assert predicted * k == pytest.approx(best, rel=1e-4)
    assert predicted * k == pytest.approx(2.67, abs=6e-3)


@given(st.floats(0.1, 20), st.floats(0.1, 20), st.floats(0.05, 1.5), st.floats(0.02, 1.0))
def test_calibrated_lies_between_prediction_and_reading(up, um, s, m) -> None:
    shrunk = up * float(light.uv_calibration(up, um, s, m))
    assert min(up, um) * (1 - 1e-9) <= shrunk <= max(up, um) * (1 + 1e-9)


# The basking patch ---------------------------------------------------------------------------


def _balance(surface: float, room: float, emissivity: float = 0.95, size: float = 0.04) -> float:
    """The same balance with CoolProp air and ht radiation."""
    from CoolProp.CoolProp import PropsSI

    film = 0.5 * (surface + room) + 273.15
    k, mu, rho, cp = (PropsSI(x, "T", film, "P", 101325, "Air") for x in "LVDC")
    rayleigh = 9.80665 / film * abs(surface - room) * size**3 * rho**2 * cp / (mu * k)
    convected = 0.54 * rayleigh**0.25 * k / size * (surface - room)
    return convected + q_rad(emissivity, surface + 273.15, room + 273.15)


def _second_opinion(reading, d1, d2, room, s=0.0, **patch) -> float:
    flux = _balance(reading, room, **patch) * ((d1 + s) / (d2 + s)) ** 2
    return brentq(lambda t: _balance(t, room, **patch) - flux, room + 1e-6, 900)


TABLE = [
    # measured at 30 cm in a room of 24 °C: new distance in cm → °C, offset 0 (one decimal)
    (32, {15: 50.5, 20: 40.2, 25: 35.0, 35: 30.1, 45: 27.9, 60: 26.3}),
    (35, {15: 59.8, 20: 46.1, 22.5: 42.1, 25: 39.1, 35: 32.4, 40: 30.6, 45: 29.4}),
    (40, {22.5: 50.1, 25: 45.9, 40: 33.7, 45: 31.9, 60: 28.8}),
]


@pytest.mark.parametrize(("reading", "expected"), TABLE)
def test_moved_lamp_table(reading: float, expected: dict[float, float]) -> None:
    new = np.array(list(expected)) / 100
    got = basking.surface_temperature_at(reading, 0.30, new, 24.0, 0.0)
    assert got == pytest.approx(list(expected.values()), abs=0.1)
    independent = [_second_opinion(reading, 0.30, d, 24.0) for d in new]
    assert got == pytest.approx(independent, abs=0.1)


@pytest.mark.parametrize(
    ("new", "by_offset"),
    [
        (0.20, {0.0: 46.1, 0.05: 43.7, 0.25: 39.6}),
        (0.25, {0.0: 39.1, 0.05: 38.4, 0.10: 37.9}),
        (0.40, {0.0: 30.6, 0.05: 31.1, 0.25: 32.2}),
    ],
)
def test_offset_matters_more(new: float, by_offset: dict[float, float]) -> None:
    got = basking.surface_temperature_at(35.0, 0.30, new, 24.0, np.array(list(by_offset)))
    assert got == pytest.approx(list(by_offset.values()), abs=0.1)
    independent = [_second_opinion(35.0, 0.30, new, 24.0, s) for s in by_offset]
    assert got == pytest.approx(independent, abs=0.1)


def test_sensitivity_at_25_cm() -> None:
    # Reading + 1 K → + 1.4; d1 + 1 cm → + 0.9; d2 + 1 cm → − 1.0; room + 2 K → − 0.7 (one decimal).
    def at(reading=35.0, d1=0.30, d2=0.25, room=24.0) -> float:
        return float(basking.surface_temperature_at(reading, d1, d2, room, 0.0))

    assert at(reading=36.0) - at() == pytest.approx(1.4, abs=0.06)
    assert at(d1=0.31) - at() == pytest.approx(0.9, abs=0.06)
    assert at(d2=0.26) - at() == pytest.approx(-1.0, abs=0.06)
    assert at(room=26.0) - at() == pytest.approx(-0.7, abs=0.06)


def test_emissivity_and_patch_size_cancel() -> None:
    ours = float(basking.surface_temperature_at(35.0, 0.30, 0.25, 24.0, 0.0))
    assert _second_opinion(35.0, 0.30, 0.25, 24.0, emissivity=0.90) == pytest.approx(ours, abs=0.1)
    assert _second_opinion(35.0, 0.30, 0.25, 24.0, size=0.08) == pytest.approx(ours, abs=0.1)


def test_linear_rule_overshoots_at_half_the_distance() -> None:
    # Rise ∝ 1/d² says 68.0 °C at 15 cm; the balance says 8.2 K less.
    full = float(basking.surface_temperature_at(35.0, 0.30, 0.15, 24.0, 0.0))
    assert 24 + 11 * 4 - full == pytest.approx(8.2, abs=0.1)


def test_total_coefficient_is_ten_to_fourteen() -> None:
    surface = np.array([30.0, 35.0, 45.0, 60.0])
    total = basking.patch_heat_loss(surface, 24.0) / (surface - 24.0)
    assert (total > 9.5).all() and (total < 14.5).all()


@given(st.floats(-250, 20_000), st.floats(0, 40))
def test_patch_temperature_inverts_the_loss(flux: float, room: float) -> None:
    back = basking.patch_heat_loss(basking.patch_temperature(flux, room), room)
    assert float(back) == pytest.approx(flux, rel=1e-8, abs=1e-6)


@given(
    st.floats(25, 60),
    st.floats(0.15, 0.6),
    st.floats(0.15, 0.6),
    st.floats(15, 25),
    st.floats(0, 0.3),
)
def test_nearer_is_hotter(reading, d1, d2, room, s) -> None:
    moved = float(basking.surface_temperature_at(reading, d1, d2, room, s))
    if d2 <= d1:
        assert moved >= reading - 1e-6
    else:
        assert room - 1e-6 <= moved <= reading + 1e-6
    back = float(basking.surface_temperature_at(moved, d2, d1, room, s))
    assert back == pytest.approx(reading, abs=1e-6)


def test_raft_tips_and_the_linear_rule_does_not_know() -> None:
    dip = basking.raft_edge_sinkage(1.0, 0.1, np.array([0.0, 1 / 6, 1 / 3, 0.45, 0.49]))
    uniform = float(basking.raft_sinkage(1.0, 0.1))
    assert dip / uniform == pytest.approx([1, 2, 4, 2 / 0.15, 2 / 0.03])
    assert dip[-1] > (1 + 6 * 0.49) * uniform


def test_clearance() -> None:
    assert float(light.lamp_clearance(0.3, 0.08)) == pytest.approx(0.22)
    assert light.lamp_clearance(np.array([0.3, 0.07]), 0.08) == pytest.approx([0.22, 0.01])
    with pytest.raises(OutOfRange, match=r"lamp_height is 0\.08 m.*from 0\.08"):
        light.lamp_clearance(0.08, 0.08)


# Broadcasting --------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("law", "arguments"),
    [
        (light.tube_irradiance, [(1, 2), (0.3, 0.5), (0.2, 0.4), (0, 0.1), (0, 0.2)]),
        (light.disc_irradiance, [(1, 2), (0.03, 0.1), (0.2, 0.4), (0, 0.1)]),
        (light.mesh_transmission, [(0.001, 0.002), (0.01, 0.02), (0, 40)]),
        (light.day_length_at, [(10, 50), (20, 200)]),
        (light.erythemal_weight, [(290e-9, 350e-9)]),
        (light.uv_calibration, [(2, 4), (3, 1), (0.6, 0.7), (0.1, 0.2)]),
        (light.lamp_ageing, [(1e6, 3e6), (7e6, 9e6)]),
        (light.point_irradiance, [(1, 2), (0.2, 0.4), (0, 0.1)]),
        (basking.patch_film_coefficient, [(40, 20), (24, 25)]),
        (basking.surface_temperature_at, [(35, 40), (0.3, 0.25), (0.2, 0.3), (20, 26), (0, 0.1)]),
        (basking.raft_edge_sinkage, [(0.5, 1), (0.06, 0.1), (0.1, 0.4)]),
    ],
    ids=lambda item: getattr(item, "__name__", ""),
)
def test_arrays_give_what_scalars_give(law, arguments) -> None:
    together = law(*(np.array(pair, dtype=float) for pair in arguments))
    one_by_one = [float(law(*(float(pair[i]) for pair in arguments))) for i in (0, 1)]
    assert together == pytest.approx(one_by_one, rel=1e-10)
