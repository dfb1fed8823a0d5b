"""Natural convection on flat plates: the Nusselt laws of walls, lids and water surfaces."""

from __future__ import annotations

import numpy as np

from interview.core.numeric import Num, floats, power, shaped_like

__all__ = [
    "plate_nusselt_down",
    "plate_nusselt_up",
    "plate_nusselt_up_laminar",
    "plate_nusselt_up_turbulent",
    "plate_nusselt_vertical",
]
LAWS = __all__

# The two laws of the upward plate don't meet at 1e7: the published value jumps by 6.4 %.
# Between these decades a smooth step passes from one to the other, so that no sum over a
# tank jumps; outside them the published law stands.
_BLEND_FROM, _BLEND_TO = 6.95, 7.05
_ALL_LAMINAR = 8.9e6  # 10**6.9494


def plate_nusselt_vertical(rayleigh: Num, prandtl: Num) -> Num:
    """Mean Nusselt number of a vertical plate, laminar and turbulent [1].

    Args:
        rayleigh: on the height of the plate

    Source: churchill_chu_1975, eq. 8 [published]
    """
    prandtl_term = power(1.0 + power(0.492 / floats(prandtl), 9 / 16), 8 / 27)
    return (0.825 + 0.387 * power(rayleigh, 1 / 6) / prandtl_term) ** 2


def plate_nusselt_up_laminar(rayleigh: Num) -> Num:
    """Mean Nusselt number of a hot plate facing up, laminar law on its own [1].

    Args:
        rayleigh [1, 1e4 to 1e8]: on area over perimeter; the book uses it a little past 1e7

    Source: cengel_ghajar_2015, eq. 9-22 [published]
    """
    return 0.54 * np.sqrt(np.sqrt(rayleigh))


def plate_nusselt_up_turbulent(rayleigh: Num) -> Num:
    """Mean Nusselt number of a hot plate facing up, turbulent law on its own [1].

    Args:
        rayleigh [1, 1e6 to 1e11]

    Source: cengel_ghajar_2015, eq. 9-23 [published]
    """
    return 0.15 * np.cbrt(rayleigh)


def plate_nusselt_up(rayleigh: Num, prandtl: Num) -> Num:
    """Mean Nusselt number of a hot plate facing up [1].

    The published pair: 0.54 Ra**(1/4) below 1e7 and 0.15 Ra**(1/3) above. They are
    6.4 % apart there, so between 8.9e6 and 1.12e7 a smooth step joins them. Neither law
    has a Prandtl term of its own; the number only limits the fluid.

    Args:
        rayleigh [1, 1e4 to 1e11]
        prandtl [1, 0.5 to 1e4]: of the fluid, or the Schmidt number for vapour

    Source: cengel_ghajar_2015, eq. 9-22 and 9-23 [published]
    Source: modelling_choice, the step between 10**6.95 and 10**7.05 [assumption]
    """
    ra = np.maximum(rayleigh, 1e-12)
    laminar = plate_nusselt_up_laminar(ra)
    if np.max(ra) < _ALL_LAMINAR:  # a tank's water nearly always
        return shaped_like(laminar, prandtl)
    along = np.clip((np.log10(ra) - _BLEND_FROM) / (_BLEND_TO - _BLEND_FROM), 0.0, 1.0)
    turbulent_share = along * along * (3.0 - 2.0 * along)
    number = laminar + turbulent_share * (plate_nusselt_up_turbulent(ra) - laminar)
    return shaped_like(number, prandtl)


def plate_nusselt_down(rayleigh: Num) -> Num:
    """Mean Nusselt number of a hot plate facing down, or a cold one facing up [1].

    Args:
        rayleigh [1, 1e4 to 1e11]

    Source: cengel_ghajar_2015, eq. 9-24, used in example 9-2 [published]
    """
    return 0.27 * np.sqrt(np.sqrt(rayleigh))
