"""Glass, panes under water and joists under a tank: plate theory and textbook statics."""

from __future__ import annotations

import numpy as np

from interview.core.constants import GRAVITY
from interview.core.errors import OutOfRange
from interview.core.numeric import Num, shaped_like
from interview.core.structure.panes import pane_coefficients, pane_fill_factor
from interview.core.water.properties import water_density

__all__ = [
    "glass_mass",
    "joist_moment",
    "joist_moment_in_full_room",
    "joist_shear",
    "joist_shear_in_full_room",
    "pane_deflection",
    "pane_stress",
    "pane_stress_filled",
    "pane_thickness_needed",
    "pane_volume",
    "plate_deflection_coefficient",
    "plate_stress_coefficient",
]
LAWS = __all__

_GLASS_DENSITY = 2500.0  # kg/m**3, EN 572
_GLASS_STIFFNESS = 70e9  # Pa, Young's modulus, EN 572
_FILL_TEMPERATURE = 20.0  # degC, for the weight of the water behind a pane


def pane_volume(tank_length: Num, tank_width: Num, tank_height: Num, wall_thickness: Num) -> Num:
    """Volume of the five panes of an open tank, sides standing on a full bottom [m**3].

    Args:
        wall_thickness [m, 0.0005 to 0.05]: of sides and bottom alike

    Source: geometry, five panes [computed]
    """
    sides = 2 * (tank_length + tank_width - 2 * wall_thickness) * (tank_height - wall_thickness)
    return wall_thickness * (tank_length * tank_width + sides)


def glass_mass(tank_length: Num, tank_width: Num, tank_height: Num, wall_thickness: Num) -> Num:
    """Mass of the five bare glass panes, without trim and silicone [kg].

    Args:
        wall_thickness [m, 0.0005 to 0.05]: of sides and bottom alike

    Source: en_572, density of soda-lime glass 2500 kg/m**3 [published]
    """
    return _GLASS_DENSITY * pane_volume(tank_length, tank_width, tank_height, wall_thickness)


def plate_stress_coefficient(length_to_height: Num, top_edge: str) -> Num:
    """Largest bending stress of a brim-full pane over the pressure at its bottom, times (t/H)² [1].

    Thin plate, small deflection, edges that turn freely. The Lévy series is summed once
    into a fine table and read by cubic interpolation; error below 1e-5.

    Formula: Lévy's series for a plate on three or four edges under a pressure that grows with
    depth; a free top from 2.5 heights of length on is outside this screening, rely on the
    manufacturer

    Source: timoshenko_woinowsky_krieger_1959, Lévy's solution, Poisson's ratio 0.22 [computed]
    """
    return pane_coefficients(length_to_height, top_edge)[0]


def plate_deflection_coefficient(length_to_height: Num, top_edge: str) -> Num:
    """Largest deflection of a brim-full pane times E t³/(pressure at the bottom · H⁴) [1].

    Formula: Lévy's series for a plate on three or four edges under a pressure that grows with
    depth

    Source: timoshenko_woinowsky_krieger_1959, Lévy's solution, Poisson's ratio 0.22 [computed]
    """
    return pane_coefficients(length_to_height, top_edge)[1]


def pane_stress(tank_length: Num, tank_height: Num, wall_thickness: Num, top_edge: str) -> Num:
    """Largest tension in a brim-full glass pane [Pa].

    Args:
        tank_length: of the pane, outside
        tank_height: of the pane, outside
        wall_thickness [m, 0.0005 to 0.05]: of the pane

    Formula: β · p · (tank_height / wall_thickness)², where β = plate_stress_coefficient; p =
    pressure at the bottom; a free top from 2.5 heights of length on is outside this screening,
    rely on the manufacturer

    Source: timoshenko_woinowsky_krieger_1959, thin plate under hydrostatic load [computed]
    """
    coefficient = plate_stress_coefficient(tank_length / tank_height, top_edge)
    return coefficient * _bottom_pressure(tank_height) * (tank_height / wall_thickness) ** 2


def pane_stress_filled(
    tank_length: Num, tank_height: Num, wall_thickness: Num, water_level: Num, top_edge: str
) -> Num:
    """Largest tension in a glass pane with water to a level above its bottom [Pa].

    Args:
        tank_length: of the pane, outside
        tank_height: of the pane, outside
        wall_thickness [m, 0.0005 to 0.05]: of the pane
        water_level [m, 0 to 5]: above the bottom; less than a tenth of the height counts as a tenth

    Formula: pane_stress · share, where share = the largest moment of Lévy's series for water to
    this level over that for the brim-full pane

    Source: timoshenko_woinowsky_krieger_1959, thin plate under hydrostatic load [computed]
    """
    full = pane_stress(tank_length, tank_height, wall_thickness, top_edge)
    ratio = tank_length / tank_height
    return full * pane_fill_factor(ratio, water_level / tank_height, top_edge)


def pane_deflection(tank_length: Num, tank_height: Num, wall_thickness: Num, top_edge: str) -> Num:
    """Largest bulge of a brim-full glass pane; thin-plate theory holds to half the thickness [m].

    Args:
        tank_length: of the pane, outside
        tank_height: of the pane, outside
        wall_thickness [m, 0.0005 to 0.05]: of the pane

    Formula: α · p · tank_height · (tank_height / wall_thickness)³ / E, where α =
    plate_deflection_coefficient; p = pressure at the bottom; E = 70 GPa

    Source: timoshenko_woinowsky_krieger_1959, thin plate under hydrostatic load [computed]
    Source: en_572, Young's modulus 70 GPa [published]
    """
    coefficient = plate_deflection_coefficient(tank_length / tank_height, top_edge)
    slenderness = (tank_height / wall_thickness) ** 3
    return (
        coefficient * _bottom_pressure(tank_height) * tank_height * slenderness / _GLASS_STIFFNESS
    )


def pane_thickness_needed(
    tank_length: Num, tank_height: Num, top_edge: str, allowable_stress: Num
) -> Num:
    """Thickness at which a brim-full glass pane just reaches the allowable tension [m].

    Args:
        tank_length: of the pane, outside
        tank_height: of the pane, outside

    Formula: tank_height · √(β · p / allowable_stress), where β = plate_stress_coefficient; p =
    pressure at the bottom; a free top from 2.5 heights of length on is outside this screening,
    rely on the manufacturer

    Source: timoshenko_woinowsky_krieger_1959, thin plate under hydrostatic load [computed]
    """
    coefficient = plate_stress_coefficient(tank_length / tank_height, top_edge)
    return tank_height * np.sqrt(coefficient * _bottom_pressure(tank_height) / allowable_stress)


def joist_moment(load: Num, load_length: Num, load_centre: Num, joist_span: Num) -> Num:
    """Largest bending moment of a simple span under one patch of load [N*m].

    Formula: load · s · (a + 0.5 · s · load_length), where s = (joist_span − load_centre) /
    joist_span; a = load_centre − 0.5 · load_length

    Source: physics, statics of a simple beam [computed]
    """
    start = _patch_start(load_length, load_centre, joist_span)
    left_share = (joist_span - load_centre) / joist_span
    return load * left_share * (start + 0.5 * left_share * load_length)


def joist_shear(load: Num, load_length: Num, load_centre: Num, joist_span: Num) -> Num:
    """Largest shear of a simple span under one patch of load: the larger reaction [N].

    Formula: load · larger of (joist_span − load_centre, load_centre) / joist_span

    Source: physics, statics of a simple beam [computed]
    """
    _patch_start(load_length, load_centre, joist_span)
    shear = load * np.maximum(joist_span - load_centre, load_centre) / joist_span
    return shaped_like(shear, load_length)


def joist_moment_in_full_room(
    load: Num, load_length: Num, load_centre: Num, joist_span: Num, line_load: Num
) -> Num:
    """Largest moment with the patch on its footprint and the live load on the rest [N*m].

    Args:
        load: of the patch, on this joist
        load_length [m, 0.001 to 30]
        line_load [N/m, 0.001 to 1e5]

    Formula: largest moment of the reactions, the patch and line_load, where the shear is 0

    Source: physics, statics of a simple beam [computed]
    """
    start = _patch_start(load_length, load_centre, joist_span)
    left, right = _reactions(load, load_length, load_centre, joist_span, line_load)
    in_patch = load / load_length

    def moment(x: Num) -> Num:
        under = np.clip(x - start, 0.0, load_length)
        extra = (in_patch - line_load) * under * (x - start - 0.5 * under)
        return left * x - 0.5 * line_load * x**2 - extra

    # The moment is smooth and concave, so its peak is where the shear of one of the three
    # stretches vanishes; where another's would vanish, outside it, the moment is lower.
    before = left / line_load
    inside = start + (left - line_load * start) * load_length / np.maximum(load, 1e-9)
    after = joist_span - right / line_load
    return np.maximum(np.maximum(moment(before), moment(inside)), moment(after))


def joist_shear_in_full_room(
    load: Num, load_length: Num, load_centre: Num, joist_span: Num, line_load: Num
) -> Num:
    """Larger reaction with the patch on its footprint and the live load on the rest [N].

    Args:
        load: of the patch, on this joist

    Formula: larger of the two reactions

    Source: physics, statics of a simple beam [computed]
    """
    _patch_start(load_length, load_centre, joist_span)
    left, right = _reactions(load, load_length, load_centre, joist_span, line_load)
    return np.maximum(left, right)


def _reactions(
    load: Num, load_length: Num, load_centre: Num, joist_span: Num, line_load: Num
) -> tuple[Num, Num]:
    added = load - line_load * load_length
    uniform = 0.5 * line_load * joist_span
    left = uniform + added * (joist_span - load_centre) / joist_span
    return left, uniform + added * load_centre / joist_span


def _patch_start(load_length: Num, load_centre: Num, joist_span: Num) -> Num:
    """Left end of the patch; a patch that hangs over a support is refused."""
    half, span = np.asarray(0.5 * load_length), np.asarray(joist_span)
    slack = 1e-9 * span
    bad = (load_centre < half - slack) | (load_centre > span - half + slack)
    if np.any(bad):
        centre, half, span, bad = np.broadcast_arrays(load_centre, half, span, bad)
        at = int(np.flatnonzero(bad)[0])
        low, high = float(half.flat[at]), float(span.flat[at] - half.flat[at])
        raise OutOfRange("load_centre", float(centre.flat[at]), low, high, "m")
    return load_centre - 0.5 * load_length


def _bottom_pressure(tank_height: Num) -> Num:
    return water_density(_FILL_TEMPERATURE) * GRAVITY * tank_height
