"""Filter flow through hoses, grains and the pull of an intake.

The start-up of a filter, `nitrification`, is offered from here too.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from interview.core.constants import GRAVITY, ZERO_CELSIUS
from interview.core.numeric import Num, floats, solve_rising
from interview.core.water.nitrification import mature_film, start_up_time
from interview.core.water.properties import water_density

__all__ = [
    "bend_loss",
    "friction_factor",
    "hose_head_loss",
    "intake_capture_radius",
    "intake_speed",
    "mature_film",
    "operating_flow",
    "settling_velocity",
    "start_up_time",
]
LAWS = __all__

_LAMINAR_LIMIT = 2300.0  # Reynolds number below which pipe flow stays laminar
_ROUGHNESS = 1.5e-6  # m, smooth plastic hose (handbook value for drawn and plastic tube)
_BEND_RATIO = 3.0  # bend radius over hose diameter, a hose laid without kinks
_ENDS = 0.5 + 1.0 + 4 * 0.15  # sharp inlet, outlet into still water, four hose tails


# --- hoses ---------------------------------------------------------------------------


def friction_factor(reynolds: Num, relative_roughness: Num) -> Num:
    """Darcy friction factor of a pipe [1].

    Laminar 64/Re below 2300; above, Colebrook-White, started from Haaland's explicit fit
    and iterated until it stands still. Between 2300 and 4000 real flow wanders between
    the two; the turbulent value is the cautious one.

    Formula: 64 / reynolds below 2300, else 1 / √f = −2 · log10(relative_roughness / 3.7 + 2.51
    / (reynolds · √f))

    Source: colebrook_1939, turbulent flow in pipes [published]
    Source: haaland_1983, explicit fit used as the first guess [published]
    Source: physics, Hagen-Poiseuille below 2300 [computed]
    """
    reynolds = floats(reynolds)
    rapid = np.maximum(reynolds, _LAMINAR_LIMIT)
    inverse_root = -1.8 * np.log10((relative_roughness / 3.7) ** 1.11 + 6.9 / rapid)
    for _ in range(5):
        inverse_root = -2.0 * np.log10(relative_roughness / 3.7 + 2.51 * inverse_root / rapid)
    with np.errstate(divide="ignore"):
        friction: Num = np.where(reynolds < _LAMINAR_LIMIT, 64.0 / reynolds, inverse_root**-2)[()]
    return friction


def bend_loss(friction: Num, bend_angle: Num, bend_ratio: Num) -> Num:
    """Head lost in a smooth bend, in velocity heads [1].

    Source: rennels_hudson_2012, rounded bends [published]
    """
    angle = np.deg2rad(bend_angle)
    sine = np.sin(0.5 * angle)
    along = friction * angle * bend_ratio
    turning = (0.10 + 2.4 * friction) * sine
    swirl = 6.6 * friction * (np.sqrt(sine) + sine) / bend_ratio ** (4.0 * angle / np.pi)
    return along + turning + swirl


def hose_head_loss(
    flow: Num, hose_diameter: Num, hose_length: Num, minor_loss: Num, water_temperature: Num
) -> Num:
    """Head lost in a smooth hose with its fittings, in metres of water [m].

    Args:
        water_temperature [degC, 0 to 40]

    Formula: (friction_factor · hose_length / hose_diameter + minor_loss) · v² / (2 · g), where
    v = flow / (π / 4 · hose_diameter²)

    Source: physics, Darcy-Weisbach [computed]
    Source: colebrook_1939, friction factor [published]
    """
    friction = _hose_friction(flow, hose_diameter, water_temperature)
    coefficient = friction * hose_length / hose_diameter + minor_loss
    lost: Num = coefficient * _velocity(flow, hose_diameter) ** 2 / (2.0 * GRAVITY)
    return lost


def _velocity(flow: Num, diameter: Num) -> Any:
    return 4.0 * floats(flow) / (np.pi * np.square(diameter))


def _hose_friction(flow: Num, diameter: Num, water_temperature: Num) -> Num:
    viscosity = _viscosity(water_temperature) / water_density(water_temperature)
    reynolds = _velocity(flow, diameter) * diameter / viscosity
    return friction_factor(np.maximum(reynolds, 1e-9), _ROUGHNESS / np.asarray(diameter))


def _viscosity(water_temperature: Num) -> Any:
    """Dynamic viscosity of water at 0.1 MPa, Pa·s: IAPWS SR6-08, equation for 253 to 383 K."""
    ratio = (floats(water_temperature) + ZERO_CELSIUS) / 300.0
    terms = 280.68 * ratio**-1.9 + 511.45 * ratio**-7.7
    return 1e-6 * (terms + 61.131 * ratio**-19.6 + 0.45903 * ratio**-40.0)


def operating_flow(
    filter_rated_flow: Num,
    shut_off_head: Num,
    hose_diameter: Num,
    hose_length: Num,
    hose_bends: Num,
    fitting_loss: Num,
    media_head_loss: Num,
    water_temperature: Num,
    outlet_lift: Num = 0.0,
) -> Num:
    """Flow at which a canister's pump just overcomes hoses, fittings and media [m**3/s].

    Both hose ends under water make a closed loop: the height of the cabinet cancels. Only
    an outlet above the surface is lifted against. The pump gives H = Hmax (1 - (Q/Q0)²).

    Args:
        filter_rated_flow [m**3/s, 1e-7 to 1]: flow on the box, without any resistance
        shut_off_head [m, 0.001 to 1000]
        water_temperature [degC, 0 to 40]

    Formula: the flow at which shut_off_head · (1 − (flow / filter_rated_flow)²) =
    hose_head_loss + media_head_loss · flow + outlet_lift; no static head in a closed loop

    Source: physics, energy balance of the loop [computed]
    Source: modelling_choice, parabolic pump curve [assumption]
    """
    per_flow = media_head_loss / (1.0 / 3600.0)

    def shortfall(flow: Any) -> Any:
        friction = _hose_friction(flow, hose_diameter, water_temperature)
        minor = _ENDS + fitting_loss + hose_bends * bend_loss(friction, 90.0, _BEND_RATIO)
        lost = hose_head_loss(flow, hose_diameter, hose_length, minor, water_temperature)
        pump = shut_off_head * (1.0 - (flow / filter_rated_flow) ** 2)
        return lost + per_flow * flow + outlet_lift - pump

    rated = floats(filter_rated_flow)
    return solve_rising(shortfall, 1e-9 * rated, rated, steps=30)


# --- grains and intake ---------------------------------------------------------------


def settling_velocity(grain_size: Num, grain_density: Num, water_temperature: Num) -> Num:
    """Speed at which a natural grain sinks in still water [m/s].

    From Stokes for dust to a constant drag for pebbles; spheres sink up to 30 % faster.

    Args:
        grain_size [m, 1e-6 to 0.1]: sieve diameter
        water_temperature [degC, 0 to 40]

    Formula: R · g · D² / (18 · ν + √(0.75 · R · g · D³)), where R = grain_density / water
    density − 1; D = grain_size

    Source: ferguson_church_2004, C1 = 18 and C2 = 1.0 for natural sand, recalled [memory]
    Source: iapws_sr6_2008, viscosity [standard]
    """
    density = water_density(water_temperature)
    pull = (grain_density / density - 1.0) * GRAVITY
    kinematic = _viscosity(water_temperature) / density
    drag = np.sqrt(0.75 * pull * floats(grain_size) ** 3)
    speed: Num = pull * np.square(grain_size) / (18.0 * kinematic + drag)
    return speed


def intake_speed(flow: Num, distance: Num) -> Num:
    """Speed of the water towards an intake beside a wall or floor [m/s].

    A point sink in a half-space; free in the water it is half as fast, and a long slotted
    strainer pulls more gently still.

    Args:
        flow: flow into the intake

    Source: physics, continuity over a half sphere [computed]
    """
    return flow / (2.0 * np.pi * np.square(distance))


def intake_capture_radius(flow: Num, sinking_speed: Num) -> Num:
    """Distance within which an intake pulls harder than a stirred-up grain sinks [m].

    Args:
        flow: flow into the intake

    Source: physics, continuity over a half sphere [computed]
    """
    return np.sqrt(flow / (2.0 * np.pi * floats(sinking_speed)))
