"""Heat through the walls, floor and top of a tank, and the sums of warming and cooling."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from interview.core.constants import AIR_PRANDTL, GRAVITY, STEFAN_BOLTZMANN, ZERO_CELSIUS
from interview.core.heat import air
from interview.core.heat.evaporation import (
    WATER_EMISSIVITY,
    area_over_perimeter,
    open_surface_flux,
)
from interview.core.heat.lumped import linear_passage
from interview.core.heat.plates import (
    plate_nusselt_down,
    plate_nusselt_up,
    plate_nusselt_vertical,
)
from interview.core.numeric import Num, floats, power

__all__ = [
    "SHEETS",
    "TankLoss",
    "board_conductance",
    "cooling_time_to",
    "heat_up_time",
    "lid_flux",
    "mixed_temperature",
    "wall_flux",
]
LAWS = __all__

SHEETS = ("glass", "plastic")  # covers that close the top but for their gaps
_PANE_EMISSIVITY = 0.84  # uncoated soda-lime glass, EN 673; plastics lie close to it
_BOARD_THICKNESS, _BOARD_CONDUCTIVITY = 0.018, 0.13  # m, W/m/K; wood-based board
_UNDER_BOARD_FILM = 6.0  # W/m**2/K, still air below, radiation included
_LID_RESISTANCE = 0.004 / 1.0  # m**2 K/W, 4 mm glass; the sheet is 2 % of the whole resistance
_USUAL_FILM, _USUAL_LID = 8.0, 0.6  # W/m**2/K; share of the rise: where the steps begin
_ROUNDS, _LID_ROUNDS = 3, 4  # of Newton; enough for a hundred-thousandth
_CLAUSIUS = 5290.0  # K, latent heat over the gas constant of vapour, for a slope
_VAPOUR = 0.01628  # K/Pa, heat that vapour carries against warm air, Dunkle
_GAP_EMITTANCE = 1.0 / (1.0 / WATER_EMISSIVITY + 1.0 / _PANE_EMISSIVITY - 1.0)


def wall_flux(
    water_temperature: Num, room_temperature: Num, water_level: Num, wall_resistance: Num
) -> Num:
    """Heat through each area of a wetted wall to still air [W/m**2].

    The outer face settles where the wall passes on what the air film carries off; the
    film is natural convection on the wetted height and grey radiation to the room. Solved
    by Newton steps, the flux to a hundred-thousandth.

    Args:
        water_temperature: inside
        room_temperature [degC, -10 to 60]
        water_level [m, 0.01 to 3]: wetted height
        wall_resistance [m**2*K/W, 0 to 10]

    Formula: h · (outer − room_temperature), where h is film and radiation of the outer face,
    whose temperature balances (water_temperature − outer) / wall_resistance

    Source: churchill_chu_1975, vertical plate [published]
    Source: cengel_ghajar_2015, grey radiation to large surroundings [published]
    """
    difference = floats(water_temperature) - room_temperature
    rise = difference / (1.0 + _USUAL_FILM * wall_resistance)  # of the outer face over the room
    for _ in range(_ROUNDS):
        film = _vertical_film(room_temperature + rise, room_temperature, water_level)
        steeper = film.by_degree * wall_resistance
        step = (difference - rise * (1.0 + film.whole * wall_resistance)) / (1.0 + steeper)
        rise = rise + step
    return film.whole * (rise - step) + film.by_degree * step


def board_conductance(wall_resistance: Num) -> Num:
    """Heat through each area of a tank's floor standing on a board, by degree [W/m**2/K].

    Args:
        wall_resistance [m**2*K/W, 0 to 10]: from the water to the outer face of the floor pane

    Source: recalled, 18 mm board and still air under it, 3.1-3.2 W/m**2/K [memory]
    """
    board = _BOARD_THICKNESS / _BOARD_CONDUCTIVITY
    return 1.0 / (wall_resistance + board + 1.0 / _UNDER_BOARD_FILM)


def lid_flux(
    water_temperature: Num, room_temperature: Num, surface_length: Num, surface_width: Num
) -> Num:
    """Heat through each area of a tight lid over the water [W/m**2].

    Water that evaporates under the lid condenses on it, so its latent heat still crosses
    the gap. Over water colder than the room the gap is still, and only radiation crosses.
    Solved by Newton steps, the flux to a hundred-thousandth.

    Args:
        water_temperature: of the surface
        room_temperature [degC, -10 to 60]

    Formula: the flux at which the wet gap under the lid, the lid and the air above carry the
    same heat

    Source: watertap_reflo, wet gap of a solar still, after Dunkle [published]
    Source: cengel_ghajar_2015, hot plate facing up [published]
    Source: modelling_choice, gap radiation between parallel plates [assumption]
    """
    water = floats(water_temperature)
    length = area_over_perimeter(surface_length, surface_width)
    wet = air.saturation_pressure(water)
    inner = room_temperature + _USUAL_LID * (water - room_temperature)
    for _ in range(_LID_ROUNDS):
        across, across_by_degree = _across_the_gap(water, inner, wet)
        above = _lid_film(inner, room_temperature, length)
        sheet = 1.0 + above.whole * _LID_RESISTANCE
        outward = above.whole * (inner - room_temperature) / sheet
        by_degree = above.by_degree / sheet
        step = (across - outward) / (by_degree + across_by_degree)
        inner = inner + step
    return outward + by_degree * step


@dataclass(frozen=True)
class TankLoss:
    """Heat a tank loses at any water and room temperature: walls, floor and top.

    Four free walls, the wetted part of them; no draught, no lamp, no pump. A mesh passes a
    share of the open surface's flux; a sheet passes its own but for the share of its gaps.
    """

    room_humidity: Num
    inside_length: Num
    inside_width: Num
    water_level: Num
    wall_resistance: Num
    floor_conductance: Num
    cover_water: str
    open_top_share: Num
    evaporation_factor: Num = 1.0

    def __call__(self, water: Num, room: Num) -> Num:
        """All parts together [W]; below 0 the room warms the tank."""
        return self.walls(water, room) + self.floor(water, room) + self.top(water, room)

    def walls(self, water: Num, room: Num) -> Num:
        """Through the wetted walls [W]."""
        area = 2.0 * (self.inside_length + self.inside_width) * self.water_level
        return area * wall_flux(water, room, self.water_level, self.wall_resistance)

    def floor(self, water: Num, room: Num) -> Num:
        """Through the floor [W]."""
        return self.floor_conductance * (water - room)

    def top(self, water: Num, room: Num) -> Num:
        """Through the top, open, meshed or lidded [W]."""
        length, width = self.inside_length, self.inside_width
        flux = self.open_top_share * open_surface_flux(
            water, room, self.room_humidity, length, width, self.evaporation_factor
        )
        if self.cover_water in SHEETS:
            flux = flux + (1.0 - self.open_top_share) * lid_flux(water, room, length, width)
        return length * width * flux


def heat_up_time(
    heat_capacity: Num,
    heat_power: Num,
    loss_coefficient: Num,
    room_temperature: Num,
    start_temperature: Num,
    end_temperature: Num,
) -> Num:
    """Time to heat a stirred tank, its loss proportional to its excess over the room [s].

    Infinite if the heater can't get there; 0 if the start is already as warm. Constant
    losses such as evaporation are to be taken off the power first.

    Args:
        heat_capacity [J/K, 0 to 1e12]
        room_temperature [degC, -10 to 60]

    Formula: −heat_capacity / loss_coefficient · ln((heat_power − loss_coefficient ·
    (end_temperature − room_temperature)) / (heat_power − loss_coefficient · (start_temperature
    − room_temperature)))

    Source: incropera_2007, eq. 5.25 [memory]
    """
    step = np.maximum(floats(end_temperature) - start_temperature, 0.0)
    net = floats(heat_power - loss_coefficient * (start_temperature - room_temperature))
    return heat_capacity * linear_passage(step, net, net - loss_coefficient * step)


def cooling_time_to(
    heat_capacity: Num,
    loss_coefficient: Num,
    start_temperature: Num,
    room_temperature: Num,
    end_temperature: Num,
) -> Num:
    """Time for an unheated tank to cool to a temperature [s].

    Infinite if the room is no colder than that; 0 if the start is already as cold.

    Args:
        heat_capacity [J/K, 0 to 1e12]
        room_temperature [degC, -10 to 60]
        end_temperature: asked about

    Formula: heat_capacity / loss_coefficient · ln((start_temperature − room_temperature) /
    (end_temperature − room_temperature))

    Source: physics, lumped cooling, exponential towards the room [published]
    """
    step = np.minimum(floats(end_temperature) - start_temperature, 0.0)
    first = -loss_coefficient * floats(start_temperature - room_temperature)
    return heat_capacity * linear_passage(step, first, first - loss_coefficient * step)


def mixed_temperature(
    water_temperature: Num,
    tap_temperature: Num,
    water_change_share: Num,
    solid_heat_share: Num = 0.0,
) -> Num:
    """Temperature of the tank after part of the water is swapped for tap water [degC].

    Args:
        water_temperature: of the tank before

    Source: physics, heat balance of mixing [published]
    """
    swapped = water_change_share * (1.0 - solid_heat_share)
    return water_temperature - swapped * (water_temperature - tap_temperature)


@dataclass(frozen=True)
class _Film:
    """What air and radiation carry off a face, for each degree over the room [W/m**2/K]."""

    convection: Num
    radiation: Num
    power: Num
    """By which convection rises with the difference; radiation rises slower than a tenth of it."""

    @property
    def whole(self) -> Num:
        """Both together."""
        return self.convection + self.radiation

    @property
    def by_degree(self) -> Num:
        """How much more is carried off where the face is a degree warmer: a slope for Newton.

        To a twentieth; to a ninth where the law of a level plate changes.
        """
        return self.convection * (1.0 + self.power) + self.radiation


def _radiation_film(warm: Num, room: Num) -> Num:
    warm_kelvin, room_kelvin = warm + ZERO_CELSIUS, room + ZERO_CELSIUS
    both = warm_kelvin * warm_kelvin + room_kelvin * room_kelvin
    return _PANE_EMISSIVITY * STEFAN_BOLTZMANN * both * (warm_kelvin + room_kelvin)


def _rayleigh(face: Num, room: Num, film: Num, length: Num) -> Num:
    viscosity = air.air_kinematic_viscosity(film)
    weight = AIR_PRANDTL * GRAVITY * power(length, 3)
    return weight * np.abs(face - room) / ((film + ZERO_CELSIUS) * viscosity * viscosity)


def _vertical_film(face: Num, room: Num, height: Num) -> _Film:
    film = 0.5 * (face + room)
    number = plate_nusselt_vertical(_rayleigh(face, room, film, height), AIR_PRANDTL)
    convection = number * air.air_conductivity(film) / height
    return _Film(convection, _radiation_film(face, room), 0.3)


def _lid_film(face: Num, room: Num, length: Num) -> _Film:
    film, warmer = 0.5 * (face + room), np.asarray(face) > room
    rayleigh = _rayleigh(face, room, film, length)
    number = plate_nusselt_up(rayleigh, AIR_PRANDTL)
    if not warmer.all():
        number = np.where(warmer, number, plate_nusselt_down(rayleigh))
    convection = np.maximum(number, 1.0) * air.air_conductivity(film) / length
    return _Film(convection, _radiation_film(face, room), np.where(rayleigh > 1e7, 1 / 3, 1 / 4))


def _across_the_gap(water: Num, lid: Num, wet: Num) -> tuple[Num, Num]:
    """Heat across the wet gap under a lid, and how much less it is for each degree of the lid.

    Convection and vapour after Dunkle, and radiation between two plates; `wet` is the vapour
    pressure over the water [Pa].
    """
    difference = np.asarray(water - lid)
    dry = air.saturation_pressure(lid)
    kelvin, lid_kelvin = water + ZERO_CELSIUS, lid + ZERO_CELSIUS
    steeper = dry * _CLAUSIUS / (lid_kelvin * lid_kelvin)
    lift = kelvin / (268.9e3 - wet)
    drive = np.maximum(difference + (wet - dry) * lift, 0.0)
    film = 0.884 * np.cbrt(drive)
    carried = difference + _VAPOUR * (wet - dry)
    rising = np.where(drive > 0, (1.0 + steeper * lift) / (3.0 * np.maximum(drive, 1e-9)), 0.0)
    radiated = _GAP_EMITTANCE * STEFAN_BOLTZMANN
    cubed = lid_kelvin * lid_kelvin * lid_kelvin
    across = film * carried + radiated * (power(kelvin, 4) - lid_kelvin * cubed)
    by_degree = film * (1.0 + _VAPOUR * steeper + carried * rising) + 4.0 * radiated * cubed
    return across, by_degree
