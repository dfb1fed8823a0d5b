"""Moist air, plates and evaporation against other libraries and book examples."""

from __future__ import annotations

import ht
import numpy as np
import psychrolib
import pytest
from every import every
from iapws import IAPWS97

from interview.core.heat import air, evaporation, plates

psychrolib.SetUnitSystem(psychrolib.SI)

PRESSURE = 101325.0
HOUR = 3600.0


# --- moist air against PsychroLib, CoolProp and IAPWS-IF97


@pytest.mark.parametrize("celsius", [5.0, 15.0, 22.0, 30.0, 45.0, 60.0])
def test_saturation_and_latent_heat_agree_with_the_steam_tables(celsius: float) -> None:
    from CoolProp.CoolProp import PropsSI

    kelvin = celsius + 273.15
    ours = air.saturation_pressure(celsius)
    assert ours == pytest.approx(PropsSI("P", "T", kelvin, "Q", 0, "Water"), rel=1e-4)
    assert ours == pytest.approx(IAPWS97(T=kelvin, x=0).P * 1e6, rel=1e-4)
    assert ours == pytest.approx(psychrolib.GetSatVapPres(celsius), rel=4e-4)
    vapour, liquid = (PropsSI("H", "T", kelvin, "Q", q, "Water") for q in (1, 0))
    near = 3e-4 if 10 <= celsius <= 50 else 6e-4  # the first as the sheet says
    assert air.latent_heat(celsius) == pytest.approx(vapour - liquid, rel=near)


@pytest.mark.parametrize("celsius", [10.0, 19.0, 25.0, 35.0])
@pytest.mark.parametrize("humidity", [0.0, 30.0, 50.0, 80.0, 100.0])
def test_moist_air_agrees_with_psychrolib_and_coolprop(celsius: float, humidity: float) -> None:
    from CoolProp.HumidAirProp import HAPropsSI

    ratio = psychrolib.GetHumRatioFromRelHum(celsius, humidity / 100, PRESSURE)
    assert air.humidity_ratio(celsius, humidity) == pytest.approx(ratio, rel=5e-4, abs=2e-7)
    real = HAPropsSI("W", "T", celsius + 273.15, "P", PRESSURE, "R", humidity / 100)
    assert air.humidity_ratio(celsius, humidity) == pytest.approx(real, rel=6e-3, abs=1e-9)
    moist = psychrolib.GetMoistAirDensity(celsius, ratio, PRESSURE)
    assert air.moist_air_density(celsius, humidity) == pytest.approx(moist, rel=2e-4)
    dry = 1 / psychrolib.GetMoistAirVolume(celsius, ratio, PRESSURE)
    assert air.dry_air_density(celsius, humidity) == pytest.approx(dry, rel=2e-4)
    vapour = psychrolib.GetVapPresFromRelHum(celsius, humidity / 100)
    assert air.vapour_pressure(celsius, humidity) == pytest.approx(vapour, rel=4e-4, abs=1e-9)


@pytest.mark.parametrize("celsius", [15.0, 20.0, 25.0, 30.0, 35.0])
def test_transport_properties_agree_with_coolprop(celsius: float) -> None:
    from CoolProp.CoolProp import PropsSI

    viscosity, density, conductivity = (
        PropsSI(what, "T", celsius + 273.15, "P", PRESSURE, "Air") for what in "VDL"
    )
    ours = air.air_kinematic_viscosity(celsius)
    assert ours == pytest.approx(viscosity / density, rel=6e-3)
    assert air.air_conductivity(celsius) == pytest.approx(conductivity, rel=7e-3)


def test_vapour_diffuses_faster_in_thin_air() -> None:
    ratio = air.vapour_diffusivity(20.0, 92000.0) / air.vapour_diffusivity(20.0)
    assert ratio == pytest.approx(101325 / 92000)


# --- plates against ht


@every("rayleigh", np.geomspace(1e3, 1e12, 10))
@every("prandtl", [0.6, 0.707, 7.0])
def test_vertical_plate_agrees_with_ht(rayleigh: float, prandtl: float) -> None:
    second = ht.Nu_vertical_plate_Churchill(prandtl, rayleigh / prandtl)  # takes Gr
    assert plates.plate_nusselt_vertical(rayleigh, prandtl) == pytest.approx(second, rel=1e-12)


@pytest.mark.parametrize("rayleigh", [1e4, 1e5, 1e6, 8.9e6, 1.13e7, 3e7, 1e9, 1e10])
def test_horizontal_plate_agrees_with_ht_away_from_the_step(rayleigh: float) -> None:
    up = ht.Nu_horizontal_plate_McAdams(0.707, rayleigh / 0.707, buoyancy=True)
    down = ht.Nu_horizontal_plate_McAdams(0.707, rayleigh / 0.707, buoyancy=False)
    assert plates.plate_nusselt_up(rayleigh, 0.707) == pytest.approx(up, rel=1e-12)
    assert plates.plate_nusselt_down(rayleigh) == pytest.approx(down, rel=1e-12)


def test_the_six_percent_step_is_passed_without_a_jump() -> None:
    step = plates.plate_nusselt_up_turbulent(1e7) / plates.plate_nusselt_up_laminar(1e7)
    assert step == pytest.approx(1.064, abs=5e-4)
    crossing = (0.54 / 0.15) ** 12
    assert crossing == pytest.approx(4.74e6, rel=1e-3)
    laminar = plates.plate_nusselt_up_laminar(crossing)
    assert laminar == pytest.approx(plates.plate_nusselt_up_turbulent(crossing))
    rayleigh = np.geomspace(5e6, 2e7, 4001)
    number = np.asarray(plates.plate_nusselt_up(rayleigh, 0.707))
    growth = np.diff(number) / number[:-1]
    assert np.all(growth > 0) and growth.max() < 5e-4


# --- book examples, every intermediate


def test_vertical_plate_ladder_incropera_9_2() -> None:
    rayleigh = 9.8 * 0.0025 * (232 - 23) * 0.71**3 / (26.4e-6 * 38.3e-6)
    assert rayleigh == pytest.approx(1.813e9, rel=1e-3)
    number = plates.plate_nusselt_vertical(rayleigh, 0.69)
    assert number == pytest.approx(147, abs=0.5)
    film = number * 0.0338 / 0.71
    assert film == pytest.approx(7.0, abs=0.05)
    assert film * 1.02 * 0.71 * (232 - 23) == pytest.approx(1060, rel=2e-3)


def test_square_plate_ladder_cengel_9_2() -> None:
    def rayleigh(length: float) -> float:
        return 9.81 / 333 * 60 * length**3 / 1.896e-5**2 * 0.7202

    assert rayleigh(0.6) == pytest.approx(7.649e8, rel=2e-3)
    assert rayleigh(0.15) == pytest.approx(1.195e7, rel=2e-3)
    powers = [
        number * 0.02808 / length * 0.36 * 60
        for number, length in (
            (plates.plate_nusselt_vertical(7.649e8, 0.7202), 0.6),
            (plates.plate_nusselt_up_laminar(1.195e7), 0.15),
            (plates.plate_nusselt_down(1.195e7), 0.15),
        )
    ]
    assert powers == pytest.approx([115, 128, 64.2], rel=5e-3)
    switched = plates.plate_nusselt_up(1.195e7, 0.7202) * 0.02808 / 0.15 * 0.36 * 60
    assert switched == pytest.approx(138.7, abs=0.1)  # past 1e7 the book stays laminar, we don't


def test_plate_ladder_cengel_problem_9_41() -> None:
    rayleigh = 9.81 * 0.003247 * 30 * 0.05455**3 / 1.655e-5**2 * 0.7268
    assert rayleigh == pytest.approx(411500, rel=2e-3)
    up, down = plates.plate_nusselt_up(411500.0, 0.7268), plates.plate_nusselt_down(411500.0)
    assert up * 0.02625 / 0.05455 == pytest.approx(6.581, abs=2e-3)
    assert down * 0.02625 / 0.05455 == pytest.approx(3.291, abs=2e-3)


def test_open_bath_ladder_cengel_14_14_with_the_books_properties() -> None:
    length, nu, conductivity, prandtl = 3.5 / 9, 1.849e-5, 0.02644, 0.7262
    area = 3.5
    radiation = area * evaporation.surface_radiation_flux(50.0, 20.0)
    assert radiation == pytest.approx(663, abs=1)
    surface = air.moist_air_density(50.0, 100.0, 92000.0)
    room = air.moist_air_density(25.0, 52.0, 92000.0)
    assert surface == pytest.approx((92 - 12.35) / (0.287 * 323) + 12.35 / (0.4615 * 323), rel=1e-3)
    assert room == pytest.approx((92 - 1.648) / (0.287 * 298) + 1.648 / (0.4615 * 298), rel=1e-3)
    grashof = 9.81 * (room - surface) * length**3 / (0.5 * (room + surface) * nu**2)
    assert grashof == pytest.approx(2.121e8, rel=2e-3)
    number = plates.plate_nusselt_up(grashof * prandtl, prandtl)
    assert number == pytest.approx(80.41, rel=1e-3)
    film = number * conductivity / length
    assert film == pytest.approx(5.47, abs=0.01)
    assert film * area * 25 == pytest.approx(479, abs=1.5)
    diffusivity = air.vapour_diffusivity(37.5, 92000.0)
    assert diffusivity == pytest.approx(3.00e-5, abs=0.005e-5)
    schmidt = nu / diffusivity
    assert schmidt == pytest.approx(0.616, abs=1e-3)
    sherwood = plates.plate_nusselt_up(grashof * schmidt, schmidt)
    assert sherwood == pytest.approx(76.12, abs=0.1)
    speed = sherwood * diffusivity / length
    assert speed == pytest.approx(5.874e-3, rel=2e-3)
    vapour = speed * area * (air.vapour_density(50.0, 100.0) - air.vapour_density(25.0, 52.0))
    assert vapour == pytest.approx(1.457e-3, rel=4e-3)
    latent = vapour * 2.383e6
    assert latent == pytest.approx(3472, rel=4e-3)
    assert radiation + film * area * 25 + latent == pytest.approx(4613, rel=4e-3)


# --- evaporation


SHAH_TABLE = [  # water, air [degC], printed density difference [kg/m**3], flux [kg/m**2/h]
    (28, 28, 0.0219, 0.1360),
    (28, 30, 0.0116, 0.0968),
    (29, 28, 0.0282, 0.1651),
    (29, 30, 0.0180, 0.1268),
    (30, 28, 0.0347, 0.1959),
    (30, 29, 0.0295, 0.1771),
]


@pytest.mark.parametrize(("water", "room", "difference", "flux"), SHAH_TABLE)
def test_shah_takes_the_density_of_the_dry_air(
    water: float, room: float, difference: float, flux: float
) -> None:
    dry = air.dry_air_density(room, 50.0) - air.dry_air_density(water, 100.0)
    assert dry == pytest.approx(difference, abs=1e-4)
    ours = evaporation.evaporation_flux_shah(water, room, 50.0) * HOUR
    assert ours == pytest.approx(flux, rel=3e-3)
    moist_surface = air.moist_air_density(water, 100.0)
    lift = np.cbrt(max(air.moist_air_density(room, 50.0) - moist_surface, 0.0))
    drier = air.humidity_ratio(water, 100.0) - air.humidity_ratio(room, 50.0)
    assert 35 * moist_surface * lift * drier < 0.85 * flux  # the trap: 18 % low to nothing


@pytest.mark.parametrize("room", [15.0, 17.0, 19.0, 22.0])
def test_heat_and_vapour_keep_bowens_ratio(room: float) -> None:
    """Bowen 1926: q_conv / q_evap = 0.46 (T_w - T_a) / (p_w - p_a) in mmHg at 760 mmHg."""
    convection = evaporation.surface_convection_flux(25.0, room, 50.0, 0.9, 0.45)
    latent = evaporation.evaporation_flux(25.0, room, 50.0, 0.9, 0.45) * air.latent_heat(25.0)
    mercury = (air.saturation_pressure(25.0) - air.vapour_pressure(room, 50.0)) / 133.322
    assert convection / latent == pytest.approx(0.46 * (25 - room) / mercury, rel=0.025)


@pytest.mark.parametrize("room", [15.0, 17.0, 19.0])
def test_evaporation_lies_at_three_quarters_of_carrier(room: float) -> None:
    """Smith, Jones & Loef 1998 measured quiet pools at 74 % of Carrier's equation."""
    kilopascals = (air.saturation_pressure(25.0) - air.vapour_pressure(room, 50.0)) / 1000
    carrier = 0.089 * kilopascals / (air.latent_heat(25.0) / 1000)
    ours = evaporation.evaporation_flux(25.0, room, 50.0, 0.9, 0.45)
    assert ours == pytest.approx(0.74 * carrier, rel=0.07)
    assert carrier / ours > 1.3  # plain Carrier is too much over still air
    assert 0.5 * carrier / ours < 0.8  # and the unoccupied-pool factor too little


@pytest.mark.parametrize(("water", "room", "humidity"), [(15.0, 25.0, 90.0), (22.0, 22.0, 100.0)])
def test_shah_takes_no_vapour_from_a_wetter_room(
    water: float, room: float, humidity: float
) -> None:
    """The larger of a relation at 0, its air being heavy, and of one below 0; not a minus 0."""
    flux = evaporation.evaporation_flux_shah(water, room, humidity)
    assert flux == 0.0 and not np.signbit(flux)
    assert evaporation.quiet_air_evaporation_flux(15.0, 25.0, 90.0) < 0


@every("room", np.arange(15.0, 25.0, 1.0))
@every("humidity", [35.0, 50.0, 65.0])
def test_analogy_and_shah_agree(room: float, humidity: float) -> None:
    analogy = evaporation.evaporation_flux(25.0, room, humidity, 0.9, 0.45)
    shah = evaporation.evaporation_flux_shah(25.0, room, humidity)
    assert analogy == pytest.approx(shah, rel=0.11)


def test_still_air_relation_is_the_floor() -> None:
    water = np.linspace(10.0, 40.0, 61)
    flux = evaporation.evaporation_flux(water, 22.0, 60.0, 0.6, 0.3)
    quiet = evaporation.quiet_air_evaporation_flux(water, 22.0, 60.0)
    assert np.all(flux >= quiet)
    assert flux[0] == quiet[0] < 0  # cold water: the room's moisture condenses on it
    assert evaporation.evaporation_flux(22.0, 22.0, 100.0, 0.6, 0.3) == pytest.approx(0, abs=1e-12)


def test_what_evaporates_is_made_of_the_laws_that_explain_shows() -> None:
    """Inside, the air's vapour is worked out once for all of them; the sums are the same."""
    water, sides = np.linspace(8.0, 40.0, 65), (0.9, 0.45)
    grashof = evaporation.surface_grashof(water, 22.0, 60.0, *sides)
    rising = grashof > 0
    film, length = 0.5 * (water + 22.0), evaporation.area_over_perimeter(*sides)
    diffusivity = air.vapour_diffusivity(film)
    rayleigh = np.abs(grashof) * air.air_kinematic_viscosity(film) / diffusivity
    carried = plates.plate_nusselt_up(rayleigh, 0.6) * diffusivity / length
    carried *= air.vapour_density(water, 100.0) - air.vapour_density(22.0, 60.0)
    quiet = evaporation.quiet_air_evaporation_flux(water, 22.0, 60.0)
    expected = np.where(rising, np.maximum(carried, quiet), quiet)
    assert rising.any() and not rising.all()
    found = evaporation.evaporation_flux(water, 22.0, 60.0, *sides)
    np.testing.assert_allclose(found, expected, rtol=1e-13)


def test_buoyancy_comes_from_vapour_even_without_warmth() -> None:
    assert evaporation.surface_grashof(25.0, 25.0, 50.0, 0.9, 0.45) > 5e5
    assert evaporation.surface_grashof(15.0, 25.0, 50.0, 0.9, 0.45) < -5e5


# --- shapes


@pytest.mark.parametrize("fluids", [(3,), (2, 3)])
def test_a_number_without_a_prandtl_term_has_its_shape_all_the_same(
    fluids: tuple[int, ...],
) -> None:
    prandtl = np.full(fluids, 0.7)
    together = plates.plate_nusselt_up(1e6, prandtl)
    assert np.shape(together) == fluids
    assert together == pytest.approx(np.full(fluids, 0.54 * 1e6**0.25))
    assert np.shape(plates.plate_nusselt_up(np.array([1e5, 1e6, 1e7]), prandtl)) == fluids
    assert np.shape(plates.plate_nusselt_up(1e6, 0.7)) == ()
