"""What a sheet of glass or plastic over the basking place takes of the lamp's heat."""

from __future__ import annotations

import numpy as np

from interview.core.heat.losses import SHEETS
from interview.core.numeric import Num, floats

__all__ = ["cover_heat_share", "cover_heat_share_when_measured"]
QUANTITIES = __all__

_DARK = frozenset({"ceramic", "infrared"})
"""Emitters of long heat rays, most of which a sheet stops; a red bulb counts with them."""


def cover_heat_share(
    cover_basking: str,
    heat_lamp_height: Num,
    sheet_light_heat_share: Num,
    sheet_dark_heat_share: Num,
    heat_lamp_kind: str | None = None,
    escape_height: Num | None = None,
) -> Num:
    """Share of the heat lamp's heat that passes the cover over the basking place [1].

    Mesh takes so little that it is left out. A cover lies on the rim: a lamp that hangs lower
    shines under it.

    Formula: sheet_light_heat_share under glass or plastic, sheet_dark_heat_share for lamps without
    light, 1 where heat_lamp_height is below escape_height and under anything else

    Source: physics, what a pane absorbs and reflects [computed]
    Source: modelling_choice, one share for all sheets and lamps of a sort [assumption]
    """
    if cover_basking not in SHEETS:
        return 1.0
    dark = heat_lamp_kind in _DARK
    share = floats(sheet_dark_heat_share if dark else sheet_light_heat_share)
    if escape_height is None:
        return share
    return np.where(np.asarray(heat_lamp_height) >= escape_height, share, 1.0)


def cover_heat_share_when_measured(cover_heat_share: Num) -> Num:
    """Share of the lamp's heat that passed the cover when the basking temperature was read [1].

    The share now, unless the cover has been taken away or laid on since.

    Source: modelling_choice, the cover is still the one it was read under [assumption]
    """
    return cover_heat_share
