"""What the filled tank weighs."""

from __future__ import annotations

from interview.core.constants import QUARTZ_DENSITY
from interview.core.errors import Missing
from interview.core.numeric import Num
from interview.core.structure import statics as laws
from interview.core.water.properties import water_density

__all__ = [
    "filled_mass",
    "substrate_mass",
    "supported_mass",
    "tank_mass",
    "water_mass",
]
QUANTITIES = __all__

_GLASS_DENSITY = 2500.0  # kg/m**3, EN 572
_ACRYLIC_DENSITY = 1190.0  # kg/m**3, PMMA, recalled from data sheets


def tank_mass(
    tank_length: Num,
    tank_width: Num,
    tank_height: Num,
    pane_thickness: Num,
    tank_material: str = "glass",
    tank_mass_factor: Num = 1.0,
) -> Num:
    """Mass of the empty tank [kg].

    Args:
        tank_material: glass or acrylic; glass, the heavier, when not said

    Source: en_572, density of soda-lime glass [published]
    Source: recalled, density of acrylic 1190 kg/m**3 [memory]
    """
    density = _ACRYLIC_DENSITY if tank_material == "acrylic" else _GLASS_DENSITY
    panes = laws.pane_volume(tank_length, tank_width, tank_height, pane_thickness)
    return tank_mass_factor * density * panes


def water_mass(water_volume: Num, water_temperature: Num = 25.0) -> Num:
    """Mass of the water [kg].

    Args:
        water_volume [m**3, 0 to 100]
        water_temperature [degC, 0 to 40]: 25 when not measured

    Source: tanaka_2001, CIPM density of water [published]
    """
    return water_volume * water_density(water_temperature)


def substrate_mass(grain_volume: Num) -> Num:
    """Mass of the dry grains of sand, gravel or stones [kg].

    Args:
        grain_volume [m**3, 0 to 10]

    Source: recalled, quartz 2650 kg/m**3 [memory]
    """
    return grain_volume * QUARTZ_DENSITY


def supported_mass(
    tank_mass: Num,
    water_mass: Num,
    substrate_mass: Num,
    gear_mass: Num,
    decor_density: Num,
    decor_volume: Num = 0.0,
) -> Num:
    """Mass the stand carries: tank, water, substrate, decor and gear [kg].

    Args:
        decor_volume: solid, none when not said

    Source: physics, sum of masses [computed]
    """
    return tank_mass + water_mass + substrate_mass + gear_mass + decor_volume * decor_density


def filled_mass(
    supported_mass: Num,
    tank_length: Num,
    tank_width: Num,
    stand_mass_per_area: Num,
    stand: str | None = None,
    stand_mass: Num | None = None,
) -> Num:
    """Mass on the floor: everything the stand carries, and the stand [kg].

    Args:
        stand: what the tank stands on; floor adds nothing

    Source: physics, sum of masses [computed]
    """
    if stand_mass is not None:
        return supported_mass + stand_mass
    if stand is None:
        raise Missing("stand", "stand_mass")
    if stand == "floor":
        return supported_mass
    return supported_mass + stand_mass_per_area * tank_length * tank_width
