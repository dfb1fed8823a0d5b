"""Ultraviolet and day length: weights, lamp shapes, mesh, limits, calibration."""

from __future__ import annotations

from typing import Any

import numpy as np

from interview.care.lamps import lamps
from interview.core.errors import BeyondFormula, NotApplicable, OutOfRange
from interview.core.numeric import Num, floats

__all__ = [
    "day_length_at",
    "disc_irradiance",
    "erythemal_weight",
    "lamp_ageing",
    "lamp_clearance",
    "mesh_transmission",
    "point_irradiance",
    "tube_irradiance",
    "uv_calibration",
    "uv_exposure_limit",
    "uv_index_from",
]
LAWS = __all__

_PER_UV_INDEX = 0.025  # W/m² erythemal, from k_er = 40 m²/W
_EXPOSURE_LIMIT = 30.0  # J/m² in 8 h weighted for eye and skin, icnirp_2004
_CLOSEST = 0.01  # m, nearer than this a shell as good as touches the lamp
_OLD = 0.7  # share of new output that ends a lamp's useful life


def erythemal_weight(wavelength: Num) -> Num:
    """How strongly light of one wavelength reddens skin, against 298 nm [1].

    The last branch has 140, as in the standard; the 139 of the 1987 paper jumps at 328 nm.

    Formula: 1 up to 298 nm, 10^(0.094 · (298 − nm)) up to 328 nm, 10^(0.015 · (140 − nm)) up to
    400 nm, else 0

    Source: cie_106_1993, erythema reference action spectrum [standard]
    Source: webb_2011, which of the forms is the standard [published]
    """
    # Rounded so that 400e-9 is 400 nm and not a hair more.
    nm = np.round(floats(wavelength) * 1e9, 6)
    middle = 10.0 ** (0.094 * (298.0 - nm))
    tail = np.where(nm <= 400.0, 10.0 ** (0.015 * (140.0 - nm)), 0.0)
    return np.asarray(np.where(nm <= 298.0, 1.0, np.where(nm <= 328.0, middle, tail)))


def uv_index_from(erythemal_irradiance: Num) -> Num:
    """UV index of an erythemally weighted irradiance [1].

    Source: cie_17_26_073, k_er = 40 m²/W, lamps included [standard]
    Source: smhi_uv_units, 0.2 W/m² is index 8 [published]
    """
    return floats(erythemal_irradiance) / _PER_UV_INDEX


def tube_irradiance(
    lamp_power: Num, lamp_length: Num, height: Num, offset: Num = 0.0, along: Num = 0.0
) -> Num:
    """Irradiance of a level surface under a bare diffuse tube [W/m**2].

    Args:
        lamp_power: power radiated all round
        height [m, 0.001 to 100]: tube axis down to the surface
        offset: sideways from under the tube

    Formula: lamp_power / (π² · lamp_length) · height / (2 · d) · (f(lamp_length / 2 − along) −
    f(−lamp_length / 2 − along)), where d = √(height² + offset²); f(u) = u / (u² + d²) +
    arctan(u / d) / d

    Source: ioa_2007, Keitz equation under the middle of the tube [published]
    Source: physics, the same line of cosine emitters integrated for any other place [computed]
    """
    height = floats(height)
    square = height**2 + np.asarray(offset) ** 2
    distance = np.sqrt(square)

    def upto(u: Any) -> Any:
        return u / (u**2 + square) + np.arctan(u / distance) / distance

    half = 0.5 * floats(lamp_length)
    seen = upto(half - along) - upto(-half - along)
    return np.asarray(lamp_power / (np.pi**2 * 2.0 * half) * height / (2.0 * distance) * seen)


def disc_irradiance(lamp_power: Num, disc_radius: Num, height: Num, offset: Num = 0.0) -> Num:
    """Irradiance of a level surface under a diffuse disc, as the mouth of a dome [W/m**2].

    Args:
        lamp_power: power radiated downwards
        height [m, 0.001 to 100]: disc down to the surface
        offset: sideways from under the disc's centre

    Formula: lamp_power / (π · R²) · 0.5 · (1 − (h² + x² − R²) / √((h² + x² + R²)² − 4 · R² ·
    x²)), where R = disc_radius; h = height; x = offset

    Source: physics, view factor of a disc from a parallel element [computed]
    """
    radius2 = floats(disc_radius) ** 2
    height2, offset2 = np.asarray(height) ** 2, np.asarray(offset) ** 2
    root = np.sqrt((height2 + offset2 + radius2) ** 2 - 4.0 * radius2 * offset2)
    seen = 0.5 * (1.0 - (height2 + offset2 - radius2) / root)
    return np.asarray(lamp_power / (np.pi * radius2) * seen)


def lamp_clearance(lamp_height: Num, height_above: Num) -> Num:
    """Distance left between a lamp and a point above the platform [m].

    A draw or candidate inside the lamp counts as a centimetre off it: hopelessly hot
    or bright, as it is in truth. If every one is inside, there is no answer.

    Formula: lamp_height − height_above

    Source: geometry, plain arithmetic [computed]
    """
    gap = floats(lamp_height) - height_above
    if not np.any(gap > 0):
        lowest = float(np.min(height_above))
        raise OutOfRange("lamp_height", float(np.max(lamp_height)), lowest, np.inf, "m")
    return np.maximum(gap, _CLOSEST)


def point_irradiance(radiant_intensity: Num, height: Num, source_offset: Num) -> Num:
    """Irradiance straight under a lamp that shines as from a point behind its face [W/m**2].

    Source: physics, inverse square law [computed]
    """
    return np.asarray(radiant_intensity / (np.asarray(height) + source_offset) ** 2)


def mesh_transmission(mesh_wire: Num, mesh_pitch: Num, tilt: Num = 0.0) -> Num:
    """Share of light that passes a square mesh of opaque wire [1].

    A draw whose wires touch lets nothing through; if they touch in every one, that is no mesh.

    Source: geometry, open area; the same form as in wire-cloth standards [computed]
    """
    blocked = floats(mesh_wire) / mesh_pitch
    if np.all(blocked >= 1.0):
        raise BeyondFormula("mesh_wire is not thinner than mesh_pitch, which leaves no opening")
    # Each factor on its own: two negative ones would make a wall of wire transparent.
    straight = np.maximum(1.0 - blocked, 0.0)
    tilted = np.maximum(1.0 - blocked / np.cos(np.deg2rad(tilt)), 0.0)
    return np.asarray(straight * tilted)


def lamp_ageing(lit_time: Num, lamp_life: Num) -> Num:
    """Share of its new ultraviolet output a lamp still gives [1].

    Source: modelling_choice, steady decay to 70 % at the end of life [assumption]
    """
    return np.asarray(_OLD ** (floats(lit_time) / lamp_life))


def day_length_at(latitude: Num, day_of_year: Num) -> Num:
    """Time from sunrise to sunset, refraction and the sun's disc included [s].

    Within 7 minutes of almanac sums up to 55 degrees.

    Source: forsythe_1995, CBM model with the 0.8333 degree horizon [published]
    """
    swing = 2.0 * np.arctan(0.9671396 * np.tan(0.00860 * (np.asarray(day_of_year) - 186.0)))
    declination = np.arcsin(0.39795 * np.cos(0.2163108 + swing))
    north = np.deg2rad(latitude)
    horizon = np.sin(np.deg2rad(0.8333))
    cosine = (horizon + np.sin(north) * np.sin(declination)) / (np.cos(north) * np.cos(declination))
    night_share = np.arccos(np.clip(cosine, -1.0, 1.0)) / np.pi
    return np.asarray(86400.0 * (1.0 - night_share))


def uv_exposure_limit(uv_index: Num, spectrum: str) -> Num:
    """How long a person's eyes and skin may be exposed in a day [s].

    Formula: 30 J/m² / (0.025 W/m² · spectrum's ratio · uv_index)

    Source: icnirp_2004, 30 J/m² in 8 h, eye and skin [law]
    """
    known = lamps().spectra
    if spectrum not in known:
        raise NotApplicable(f"no spectrum is called {spectrum}; known: {', '.join(known)}")
    weighted = _PER_UV_INDEX * known[spectrum].value * floats(uv_index)
    with np.errstate(divide="ignore"):
        return np.asarray(_EXPOSURE_LIMIT / weighted)


def uv_calibration(
    uv_index_predicted: Num, uvb_reading: Num, prior_log_sigma: Num, reading_error: Num
) -> Num:
    """Factor k that shrinks a predicted UV index towards one reading of it [1].

    The error of a reading is a share of it, so a reading of 0 says nothing.

    Formula: (uvb_reading / uv_index_predicted)^(prior_log_sigma² / (prior_log_sigma² +
    reading_error²))

    Source: physics, Bayes' rule for two log-normal estimates [computed]
    """
    if not np.any(np.asarray(uvb_reading) > 0.0):
        raise BeyondFormula(
            "a uvb_reading of 0 calibrates no lamp; see that lamp and meter work and read again"
        )
    prior, error = np.square(prior_log_sigma), np.square(reading_error)
    weight = prior / (prior + error)
    return np.asarray((np.asarray(uvb_reading) / np.asarray(uv_index_predicted)) ** weight)
