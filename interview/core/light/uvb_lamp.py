"""Ultraviolet lamps by themselves: what they give when new, their ageing, what lies under them."""

from __future__ import annotations

from typing import Any

import numpy as np

from interview.care.lamps import Figure, LampClass, LampKind, lamps
from interview.core.errors import Missing, NotApplicable
from interview.core.light import radiation as laws
from interview.core.numeric import Num, floats

__all__ = [
    "heat_lamp_uv_index",
    "uv_index_new",
    "uvb_lamp_arc",
    "uvb_lamp_output",
    "uvb_lamp_time_left",
    "uvb_transmission",
]
QUANTITIES = __all__

_DAY = 86400.0


def _kind(uvb_lamp_kind: str) -> LampKind:
    if uvb_lamp_kind == "none":
        raise NotApplicable("there is no UVB lamp")
    known = lamps().kinds
    if uvb_lamp_kind not in known:
        raise NotApplicable(f"no UVB lamp is called {uvb_lamp_kind}; known: {', '.join(known)}")
    return known[uvb_lamp_kind]


def _classes(kind: str, strength: str | None) -> tuple[LampClass, ...]:
    """Classes of a kind; where it is sold in one strength only, that doesn't matter."""
    if not lamps().is_graded(kind):
        return lamps().of(kind, None)
    if strength is None:
        raise Missing("uvb_strength")
    rows = lamps().of(kind, strength)
    if not rows:
        raise NotApplicable(f"no UVB strength is called {strength}; known: low, high")
    return rows


def _values(figures: list[Figure | None]) -> list[float]:
    return [figure.value for figure in figures if figure is not None]


def uvb_lamp_arc(uvb_lamp_kind: str, uvb_lamp_length: Num) -> Num:
    """Length of a UVB tube that radiates [m].

    Args:
        uvb_lamp_kind: tubes only

    Formula: uvb_lamp_length less the ends of the class table

    Source: modelling_choice, tube less 2 to 4 cm of ends, as in the class table [assumption]
    """
    if _kind(uvb_lamp_kind).reflector_gain is None:
        raise NotApplicable("the UVB lamp is not a tube")
    rows = [row for row in lamps().classes if row.kind == uvb_lamp_kind]
    tubes = _values([row.tube_length for row in rows])
    ends = np.subtract(tubes, _values([row.arc_length for row in rows]))
    return np.asarray(uvb_lamp_length - np.interp(uvb_lamp_length, tubes, ends))


def _tube_index(rows: tuple[LampClass, ...], arc: Num) -> Any:
    """Index at the anchor distance: each metre of arc gives what it gives in the nearest rows."""
    anchor = lamps().anchor_distance.value
    arcs = np.array(_values([row.arc_length for row in rows]))
    indices = np.array([row.uv_index.value for row in rows])
    per_metre = indices / laws.tube_irradiance(arcs, arcs, anchor)
    return np.interp(arc, arcs, per_metre) * laws.tube_irradiance(arc, arc, anchor)


def _reflector(kind: LampKind, fitted: bool | None, gain: Num) -> Num:
    """Gain of the reflector there is over the one the class figure is given with."""
    if kind.reflector_gain is None:
        return 1.0
    usual = kind.reflector_gain.value
    has_one = usual > 1.0 if fitted is None else fitted
    return np.asarray(gain if has_one else 1.0) / usual


def uv_index_new(
    uvb_lamp_kind: str,
    reflector_gain: Num,
    uvb_strength: str | None = None,
    uvb_lamp_arc: Num | None = None,
    uvb_reflector: bool | None = None,
    uvb_class_factor_tube: Num = 1.0,
    uvb_class_factor_coil: Num = 1.0,
    uvb_class_factor_flood: Num = 1.0,
    uvb_unit_factor: Num = 1.0,
) -> Num:
    """UV index 30 cm straight under the UVB lamp, new and with nothing in between [1].

    Args:
        uvb_lamp_kind: 0 where there is none

    Formula: class value 30 cm under the lamp, of its arc for a tube · class factor ·
    reflector_gain with a reflector · uvb_unit_factor

    Source: recalled, class table [memory]
    Source: ioa_2007, tubes of other lengths by the output of each metre of arc [published]
    """
    if uvb_lamp_kind == "none":
        return 0.0
    kind = _kind(uvb_lamp_kind)
    rows = _classes(uvb_lamp_kind, uvb_strength)
    if kind.reflector_gain is None:
        coil = uvb_lamp_kind == "coil"
        index: Any = rows[0].uv_index.value
        index = index * np.asarray(uvb_class_factor_coil if coil else uvb_class_factor_flood)
    else:
        if uvb_lamp_arc is None:
            raise Missing("uvb_lamp_length")
        index = _tube_index(rows, uvb_lamp_arc) * uvb_class_factor_tube
    return np.asarray(index * _reflector(kind, uvb_reflector, reflector_gain) * uvb_unit_factor)


def heat_lamp_uv_index(
    uvb_lamp_kind: str,
    heat_lamp_kind: str | None = None,
    uvb_class_factor_flood: Num = 1.0,
    uvb_unit_factor: Num = 1.0,
) -> Num:
    """UV index that the heat lamp adds 30 cm under it [1].

    Only a mercury-vapour bulb adds any. If the UVB lamp is one too they are the same bulb,
    and it counts once.

    Formula: class value · uvb_class_factor_flood · uvb_unit_factor for a mercury vapour lamp,
    else 0

    Source: recalled, class table [memory]
    """
    if heat_lamp_kind != "mercury_vapour" or uvb_lamp_kind == heat_lamp_kind:
        return 0.0
    bulb = lamps().of(heat_lamp_kind, None)[0].uv_index.value
    return np.asarray(bulb * np.asarray(uvb_class_factor_flood) * uvb_unit_factor)


def uvb_lamp_output(
    uvb_lamp_kind: str,
    uvb_lamp_age: Num | None = None,
    uvb_life_factor: Num = 1.0,
    stage: str = "living",
) -> Num:
    """UVB the lamp still gives, as a share of new [1].

    Args:
        uvb_lamp_kind: each kind ages at its own rate
        stage: a tank in planning has a new lamp

    Formula: lamp_ageing(uvb_lamp_age, usual life of the kind · uvb_life_factor)

    Source: modelling_choice, 70 % left at the end of a kind's usual life [assumption]
    """
    life = _kind(uvb_lamp_kind).lamp_life.value
    if uvb_lamp_age is None:
        if stage != "planning":
            raise Missing("uvb_lamp_age")
        uvb_lamp_age = 0.0
    return laws.lamp_ageing(uvb_lamp_age, life * np.asarray(uvb_life_factor))


def uvb_lamp_time_left(
    uvb_lamp_kind: str, uvb_lamp_age: Num, day_length: Num, uvb_life_factor: Num = 1.0
) -> Num:
    """Calendar time until the lamp gives only 70 % of its new UVB [s].

    Args:
        uvb_lamp_kind: each kind ages at its own rate

    Formula: (usual life of the kind · uvb_life_factor − uvb_lamp_age) / (day_length / 86400),
    never below 0

    Source: modelling_choice, a kind's usual life, lit so many hours a day [assumption]
    """
    life = _kind(uvb_lamp_kind).lamp_life.value * np.asarray(uvb_life_factor)
    with np.errstate(divide="ignore"):
        share_lit = floats(day_length) / _DAY
        return np.where(life > uvb_lamp_age, (life - uvb_lamp_age) / share_lit, 0.0)


def uvb_transmission(
    uvb_path: str,
    usual_mesh_light_share: Num,
    mesh_light_share: Num | None = None,
    mesh_wire: Num | None = None,
    mesh_pitch: Num | None = None,
    uvb_mesh_factor: Num = 1.0,
) -> Num:
    """Share of the UVB that passes what lies between lamp and shell [1].

    Glass, and plastic not declared UV-transmitting, count as a wall. A light meter's ratio
    under and without the mesh counts before its measures.

    Formula: 1 for an open path, 0 for a sheet, for a mesh the share of light it passes ·
    uvb_mesh_factor, at most 1

    Source: duarte_2009, every glass tested stopped UVB [published]
    Source: kotilainen_2018, opaque mesh takes UVB and light alike [computed]
    Source: modelling_choice, undeclared plastic passes none [assumption]
    """
    if uvb_path == "open":
        return 1.0
    if uvb_path != "mesh":
        return 0.0
    share: Any = usual_mesh_light_share
    if mesh_light_share is not None:
        share = mesh_light_share
    elif mesh_wire is not None and mesh_pitch is not None:
        share = laws.mesh_transmission(mesh_wire, mesh_pitch)
    return np.asarray(np.minimum(share * np.asarray(uvb_mesh_factor), 1.0))
