"""Ultraviolet at the basking spot: geometry, what lies between, and one meter reading.

UV index = lamp at 30 cm × ageing × geometry × what passes × calibration, and lamps add.
A reading calibrates (`uv_calibration`); that factor stays true while lamp, reflector and
mesh stay the same, wherever the lamp hangs.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from interview.care.lamps import lamps
from interview.core.errors import Missing
from interview.core.light import radiation as laws
from interview.core.numeric import Num, floats

__all__ = [
    "face_time",
    "photokeratitis_margin",
    "uv_calibration",
    "uv_index_at_reading",
    "uv_index_ceiling",
    "uv_index_platform",
    "uv_index_platform_uncovered",
    "uv_index_shell",
    "uv_index_shell_uncovered",
    "uvb_lamp_height_when_measured",
]
QUANTITIES = __all__

_HEATING_BULB = "mercury_vapour"  # the one heat lamp that gives UVB


def uvb_lamp_height_when_measured(uvb_lamp_height: Num) -> Num:
    """Height of the UVB lamp when the UV index was read [m].

    The lamp's height now, unless the lamp has been moved since.

    Source: modelling_choice, the lamp still hangs where it was read [assumption]
    """
    return uvb_lamp_height


def _spread(kind: str, arc: Num | None, clearance: Num) -> Any:
    """Irradiance at a distance straight under a lamp over that at the anchor distance."""
    anchor = lamps().anchor_distance.value
    offset = lamps().kinds[kind].source_offset
    if offset is not None:
        there = laws.point_irradiance(1.0, clearance, offset.value)
        return there / laws.point_irradiance(1.0, anchor, offset.value)
    if arc is None:
        raise Missing("uvb_lamp_length")
    return laws.tube_irradiance(1.0, arc, clearance) / laws.tube_irradiance(1.0, arc, anchor)


def _uncovered(
    above: Num,
    lamp: tuple[str, Num, Num | None, Num | None, Num | None],
    heat_lamp: tuple[Num, Num | None],
) -> Any:
    """UV index at a height above the platform under all lamps, nothing in between."""
    kind, new, output, height, arc = lamp
    heat_new, heat_height = heat_lamp
    total: Any = np.zeros(np.shape(above))
    if kind != "none":
        if output is None or height is None:
            raise Missing.among(uvb_lamp_age=output, uvb_lamp_height=height)
        total = total + new * np.asarray(output) * _spread(
            kind, arc, laws.lamp_clearance(height, above)
        )
    if np.any(heat_new):
        if heat_height is None:
            raise Missing("heat_lamp_height")
        clearance = laws.lamp_clearance(heat_height, above)
        total = total + heat_new * _spread(_HEATING_BULB, None, clearance)
    return total


def _covered(uncovered: Num, transmission: Num | None) -> Any:
    """UV index under the cover; where nothing shines the cover doesn't matter."""
    if not np.any(uncovered):
        return np.asarray(uncovered)
    if transmission is None:
        raise Missing("uvb_path")
    return np.asarray(uncovered) * transmission


def uv_index_platform_uncovered(
    uvb_lamp_kind: str,
    uv_index_new: Num,
    heat_lamp_uv_index: Num,
    uvb_lamp_output: Num | None = None,
    uvb_lamp_height: Num | None = None,
    uvb_lamp_arc: Num | None = None,
    heat_lamp_height: Num | None = None,
) -> Num:
    """UV index expected on the platform if nothing lay between [1].

    Args:
        uvb_lamp_kind: 0 where there is none

    Formula: uv_index_new · uvb_lamp_output · spread(uvb_lamp_height) + heat_lamp_uv_index ·
    spread(heat_lamp_height); spread is 1 at 30 cm, a line source's for a tube, else inverse
    square

    Source: ioa_2007, line source for a tube [published]
    Source: physics, inverse square from a virtual source for the others [computed]
    """
    lamp = (uvb_lamp_kind, uv_index_new, uvb_lamp_output, uvb_lamp_height, uvb_lamp_arc)
    return np.asarray(_uncovered(0.0, lamp, (heat_lamp_uv_index, heat_lamp_height)))


def uv_index_shell_uncovered(
    uvb_lamp_kind: str,
    uv_index_new: Num,
    heat_lamp_uv_index: Num,
    shell_height: Num,
    uvb_lamp_output: Num | None = None,
    uvb_lamp_height: Num | None = None,
    uvb_lamp_arc: Num | None = None,
    heat_lamp_height: Num | None = None,
) -> Num:
    """UV index expected at the top of the tallest shell if nothing lay between [1].

    Args:
        uvb_lamp_kind: 0 where there is none

    Formula: as uv_index_platform_uncovered, at shell_height above the platform

    Source: ioa_2007, line source for a tube [published]
    Source: physics, inverse square from a virtual source for the others [computed]
    """
    lamp = (uvb_lamp_kind, uv_index_new, uvb_lamp_output, uvb_lamp_height, uvb_lamp_arc)
    return np.asarray(_uncovered(shell_height, lamp, (heat_lamp_uv_index, heat_lamp_height)))


def uv_index_at_reading(
    uvb_lamp_kind: str,
    uv_index_new: Num,
    heat_lamp_uv_index: Num,
    uvb_reading_height: Num,
    uvb_transmission: Num | None = None,
    uvb_lamp_output: Num | None = None,
    uvb_lamp_height_when_measured: Num | None = None,
    uvb_lamp_arc: Num | None = None,
    heat_lamp_height_when_measured: Num | None = None,
) -> Num:
    """UV index expected where the meter was held [1].

    Args:
        uvb_lamp_kind: 0 where there is none

    Formula: as uv_index_platform_uncovered, at uvb_reading_height, · uvb_transmission

    Source: ioa_2007, line source for a tube [published]
    Source: physics, inverse square from a virtual source for the others [computed]
    """
    height = uvb_lamp_height_when_measured
    lamp = (uvb_lamp_kind, uv_index_new, uvb_lamp_output, height, uvb_lamp_arc)
    heat_lamp = (heat_lamp_uv_index, heat_lamp_height_when_measured)
    return np.asarray(_covered(_uncovered(uvb_reading_height, lamp, heat_lamp), uvb_transmission))


def uv_calibration(
    uvb_lamp_kind: str,
    uv_meter_error: Num,
    uvb_reading: Num | None = None,
    uv_index_at_reading: Num | None = None,
    heat_lamp_kind: str | None = None,
) -> Num:
    """Factor from the UV index expected of this lamp to what a reading makes of it [1].

    1 without a reading. Behind glass or plastic too: a UV index there is the UVA that
    passes, and says nothing of UVB. A reading of 0 where UVB is expected is refused. A new
    lamp, reflector or mesh needs a new reading.

    Args:
        uvb_lamp_kind: kinds differ in how far to trust the expectation
        uvb_reading [1, 0 to 1000]
        heat_lamp_kind: may be the lamp that was read, where there is no other

    Formula: (uvb_reading / uv_index_at_reading)^(prior² / (prior² + uv_meter_error²)), prior
    the doubt of an unmetered lamp of this kind as a log-normal one sigma

    Source: physics, Bayes' rule for two log-normal estimates [computed]
    Source: modelling_choice, doubts of an unmetered lamp in quadrature [assumption]
    """
    kind = heat_lamp_kind if uvb_lamp_kind == "none" else uvb_lamp_kind
    if uvb_reading is None or kind is None or kind not in lamps().kinds:
        return 1.0
    if uv_index_at_reading is None:
        raise Missing("uvb_reading_height")
    expected = floats(uv_index_at_reading)
    if not np.any(expected > 0):
        return np.ones_like(expected)
    sigma = lamps().log_sigma(kind)
    factor = laws.uv_calibration(
        np.where(expected > 0, expected, 1.0), uvb_reading, sigma, uv_meter_error
    )
    return np.asarray(np.where(expected > 0, factor, 1.0))


def uv_index_platform(
    uv_index_platform_uncovered: Num,
    uv_calibration: Num,
    uvb_transmission: Num | None = None,
    uvb_geometry_factor: Num = 1.0,
) -> Num:
    """UV index on the platform [1].

    Formula: uv_index_platform_uncovered · uvb_transmission · uv_calibration ·
    uvb_geometry_factor

    Source: physics, product of the parts [computed]
    """
    covered = _covered(uv_index_platform_uncovered, uvb_transmission)
    return np.asarray(covered * uv_calibration * uvb_geometry_factor)


def uv_index_shell(
    uv_index_shell_uncovered: Num,
    uv_calibration: Num,
    uvb_transmission: Num | None = None,
    uvb_geometry_factor: Num = 1.0,
) -> Num:
    """UV index at the top of the tallest shell [1].

    Formula: uv_index_shell_uncovered · uvb_transmission · uv_calibration · uvb_geometry_factor

    Source: physics, product of the parts [computed]
    """
    covered = _covered(uv_index_shell_uncovered, uvb_transmission)
    return np.asarray(covered * uv_calibration * uvb_geometry_factor)


def uv_index_ceiling(
    uv_index_shell_uncovered: Num,
    uv_calibration: Num,
    uvb_path: str | None = None,
    uvb_transmission: Num | None = None,
    uvb_geometry_factor: Num = 1.0,
) -> Num:
    """UV index at the top of the tallest shell, crediting no sheet with stopping any [1].

    For judging over-exposure: thin glass and some plastics pass up to a third.

    Formula: as uv_index_shell, with 1 for the transmission of a sheet

    Source: modelling_choice, a sheet is credited only for the worse [assumption]
    """
    passed = 1.0 if uvb_path in ("glass", "plastic") else uvb_transmission
    covered = _covered(uv_index_shell_uncovered, passed)
    return np.asarray(covered * uv_calibration * uvb_geometry_factor)


def photokeratitis_margin(uv_zone_high: Num, uv_index_shell: Num) -> Num:
    """Highest UV index of the animals' zone over the one at the shell [1].

    Below 1 the eyes are at risk; infinite where there is no UVB.

    Source: baines_2016, zone maximum as the upper limit [published]
    """
    with np.errstate(divide="ignore"):
        return np.asarray(floats(uv_zone_high) / np.asarray(uv_index_shell))


def face_time(uv_index_ceiling: Num) -> Num:
    """How long a person's face may be where the shell is, in a day [s].

    Formula: uv_exposure_limit(uv_index_ceiling, worst spectrum)

    Source: icnirp_2004, 30 J/m² in 8 h, eye and skin, worst spectrum [law]
    """
    return laws.uv_exposure_limit(uv_index_ceiling, "any")
