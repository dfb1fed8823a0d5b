"""What the glass of a tank carries, brim-full and at its water line."""

from __future__ import annotations

import numpy as np

from interview.care.facts import limit
from interview.core.errors import BeyondFormula, NotApplicable
from interview.core.numeric import Num
from interview.core.structure import statics as laws

__all__ = [
    "glass_deflection_share",
    "glass_stress",
    "glass_stress_at_line",
    "glass_stress_unscreened",
    "glass_thickness_needed",
    "pane_length_to_height",
]
QUANTITIES = __all__

_SLACK = 1e-9  # 30 in to 12 in is 2.5 in metres too


def glass_stress_unscreened(
    tank_length: Num,
    tank_width: Num,
    tank_height: Num,
    wall_thickness: Num,
    tank_origin: str,
    tank_rim: str,
    tank_material: str = "glass",
    glass_stress_factor: Num = 1.0,
) -> Num:
    """Largest tension in the worse pane by the plain sum, even where that is too simple [Pa].

    Too high where a pane bulges more than half its thickness, too low for a long rimless one:
    enough to warn by, never to call a tank good.

    Args:
        wall_thickness [m, 0.0005 to 0.05]
        tank_material: the sum is for glass

    Formula: glass_stress_factor · larger of pane_stress for the long and the short pane

    Source: timoshenko_woinowsky_krieger_1959, thin plate under hydrostatic load [computed]
    """
    top_edge = _judged_top_edge(tank_origin, tank_rim, tank_material)
    long = laws.pane_stress(tank_length, tank_height, wall_thickness, top_edge)
    short = laws.pane_stress(tank_width, tank_height, wall_thickness, top_edge)
    return glass_stress_factor * np.maximum(long, short)


def glass_stress_at_line(
    tank_length: Num,
    tank_width: Num,
    tank_height: Num,
    wall_thickness: Num,
    water_level: Num,
    tank_origin: str,
    tank_rim: str,
    tank_material: str = "glass",
    glass_stress_factor: Num = 1.0,
) -> Num:
    """Largest tension in the worse pane with the water at its line, by the plain sum [Pa].

    Too high where a pane bulges more than half its thickness, too low for a long rimless one.

    Args:
        wall_thickness [m, 0.0005 to 0.05]
        tank_material: the sum is for glass

    Formula: glass_stress_factor · larger of pane_stress_filled for the long and the short pane

    Source: timoshenko_woinowsky_krieger_1959, thin plate under hydrostatic load [computed]
    """
    top_edge = _judged_top_edge(tank_origin, tank_rim, tank_material)
    pane = (tank_height, wall_thickness, water_level, top_edge)
    long = laws.pane_stress_filled(tank_length, *pane)
    short = laws.pane_stress_filled(tank_width, *pane)
    return glass_stress_factor * np.maximum(long, short)


def pane_length_to_height(tank_length: Num, tank_width: Num, tank_height: Num) -> Num:
    """Length of the longer pane over its height [1].

    Source: geometry, plain arithmetic [computed]
    """
    return np.maximum(tank_length, tank_width) / tank_height


def glass_stress(
    glass_stress_unscreened: Num,
    glass_deflection_share: Num,
    tank_length: Num,
    tank_width: Num,
    tank_height: Num,
    tank_rim: str,
) -> Num:
    """Largest tension in the worse pane, tank brim-full [Pa].

    Refused outside the screening: where a rimless pane is 2.5 times as long as high, or a
    pane bulges more than half its thickness.

    Formula: glass_stress_unscreened, where the panes lie within the screening

    Source: timoshenko_woinowsky_krieger_1959, thin plate under hydrostatic load [computed]
    """
    longest = np.maximum(tank_length, tank_width) / tank_height
    twisted = limit("pane_twist_ratio")
    if tank_rim == "rimless" and np.all(longest >= twisted - _SLACK):
        raise BeyondFormula(
            f"a rimless pane {twisted:g} or more times as long as it is high is outside this "
            "screening, rely on the manufacturer"
        )
    if np.all(np.greater(glass_deflection_share, 1.0)):
        raise BeyondFormula(
            "a pane that bulges more than half its thickness is outside this screening, "
            "rely on the manufacturer"
        )
    return glass_stress_unscreened


def glass_deflection_share(
    tank_length: Num,
    tank_width: Num,
    tank_height: Num,
    wall_thickness: Num,
    tank_origin: str,
    tank_rim: str,
    tank_material: str = "glass",
) -> Num:
    """Bulge of the worse pane over half its thickness; above 1 the glass sum is out of range [1].

    Args:
        wall_thickness [m, 0.0005 to 0.05]
        tank_material: the sum is for glass

    Formula: larger of pane_deflection for the long and the short pane / (0.5 · wall_thickness)

    Source: timoshenko_woinowsky_krieger_1959, small deflection of thin plates [computed]
    """
    top_edge = _judged_top_edge(tank_origin, tank_rim, tank_material)
    long = laws.pane_deflection(tank_length, tank_height, wall_thickness, top_edge)
    short = laws.pane_deflection(tank_width, tank_height, wall_thickness, top_edge)
    return np.maximum(long, short) / (0.5 * wall_thickness)


def glass_thickness_needed(
    tank_length: Num,
    tank_width: Num,
    tank_height: Num,
    tank_origin: str,
    tank_rim: str,
    allowable_stress: Num,
    tank_material: str = "glass",
) -> Num:
    """Thickness at which the worse pane, brim-full, just reaches the allowable tension [m].

    Args:
        tank_material: the sum is for glass

    Formula: larger of pane_thickness_needed for the long and the short pane

    Source: timoshenko_woinowsky_krieger_1959, thin plate under hydrostatic load [computed]
    """
    top_edge = _judged_top_edge(tank_origin, tank_rim, tank_material)
    long = laws.pane_thickness_needed(tank_length, tank_height, top_edge, allowable_stress)
    short = laws.pane_thickness_needed(tank_width, tank_height, top_edge, allowable_stress)
    return np.maximum(long, short)


def _judged_top_edge(tank_origin: str, tank_rim: str, tank_material: str) -> str:
    """How the top edge is held, if this tank's glass may be judged at all."""
    if tank_material != "glass":
        raise NotApplicable("the pane sum holds for glass, and this tank is acrylic")
    if tank_origin == "aquarium":
        raise NotApplicable(
            "an ordinary mass-made aquarium is its maker's business: trim and corners stiffen it"
        )
    return "free" if tank_rim == "rimless" else "supported"
