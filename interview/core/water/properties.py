"""Water itself: density, dissolved oxygen, ammonia, nitrate under changes, dechlorination."""

from __future__ import annotations

import numpy as np

from interview.core.constants import NITROGEN_MASS, STANDARD_PRESSURE, ZERO_CELSIUS
from interview.core.numeric import Num, floats

__all__ = [
    "ammonia_acute_criterion",
    "ammonia_chronic_criterion",
    "ammonia_free_share",
    "chloramine_ammonia",
    "nitrate_after_changes",
    "nitrate_peak",
    "oxygen_saturation",
    "thiosulfate_dose",
    "water_density",
]
LAWS = __all__

# Molar masses, g/mol (IUPAC standard atomic weights).
_CHLORINE = 70.906
_THIOSULFATE = 248.18  # Na2S2O3·5H2O


def water_density(water_temperature: Num) -> Num:
    """Density of air-free water at one atmosphere [kg/m**3].

    Args:
        water_temperature [degC, 0 to 40]

    Source: tanaka_2001, CIPM formula [published]
    """
    t = water_temperature
    share = (t - 3.983035) ** 2 * (t + 301.797) / (522528.9 * (t + 69.34881))
    return 999.974950 * (1.0 - share)


def oxygen_saturation(water_temperature: Num, air_pressure: Num = STANDARD_PRESSURE) -> Num:
    """Oxygen dissolved in fresh water in balance with moist air [mg/L].

    Args:
        water_temperature [degC, 0 to 40]

    Formula: exp(−139.34411 + 1.575701e5 / K − 6.642308e7 / K² + 1.243800e10 / K³ − 8.621949e11
    / K⁴) · pressure factor, where K = water_temperature + 273.15

    Source: apha_1985, equation after Benson and Krause [published]
    Source: benson_krause_1984, oxygen at one atmosphere [published]
    Source: recalled, pressure factor [memory]
    """
    kelvin = floats(water_temperature) + ZERO_CELSIUS
    log_oxygen = (
        -139.34411
        + 1.575701e5 / kelvin
        - 6.642308e7 / kelvin**2
        + 1.243800e10 / kelvin**3
        - 8.621949e11 / kelvin**4
    )
    return np.exp(log_oxygen) * _pressure_factor(water_temperature, air_pressure)


def _pressure_factor(water_temperature: Num, air_pressure: Num) -> Num:
    """Oxygen saturation relative to one atmosphere: vapour takes its share of the pressure."""
    kelvin = floats(water_temperature) + ZERO_CELSIUS
    pressure = air_pressure / STANDARD_PRESSURE
    vapour = np.exp(11.8571 - 3840.70 / kelvin - 216961.0 / kelvin**2)
    theta = 0.000975 - 1.426e-5 * water_temperature + 6.436e-8 * np.square(water_temperature)
    now = (pressure - vapour) * (1.0 - theta * pressure)
    return now / ((1.0 - vapour) * (1.0 - theta))


def ammonia_free_share(ph: Num, water_temperature: Num) -> Num:
    """Share of total ammonia nitrogen that is free, un-ionised ammonia [1].

    Slightly on the safe side: in hard water ion activity lowers it by about 8 %. One
    manual in circulation misprints 2727.92 for 2729.92, which reads 1.5 % high.

    Args:
        water_temperature [degC, 0 to 50]

    Source: emerson_1975, equilibrium constant of ammonia in fresh water [published]
    """
    dissociation = 0.09018 + 2729.92 / (floats(water_temperature) + ZERO_CELSIUS)
    return 1.0 / (1.0 + 10.0 ** (dissociation - ph))


def ammonia_acute_criterion(ph: Num, water_temperature: Num) -> Num:
    """Total ammonia nitrogen that fresh-water life without salmonids bears for an hour [mg/L].

    A criterion for fish and mussels; no such figure exists for turtles.

    Args:
        ph [1, 6.5 to 9]
        water_temperature [degC, 0 to 30]

    Formula: 0.7249 · (0.0114 / (1 + 10^(7.204 − ph)) + 1.6181 / (1 + 10^(ph − 7.204))) ·
    smaller of (51.93, 23.12 · 10^(0.036 · (20 − water_temperature)))

    Source: epa_2013_ammonia, acute criterion, equation recalled, anchor published [memory]
    """
    acidity = _step(0.0114, 1.6181, 7.204, ph)
    warm = 23.12 * 10.0 ** (0.036 * (20.0 - floats(water_temperature)))
    return 0.7249 * acidity * np.minimum(51.93, warm)


def ammonia_chronic_criterion(ph: Num, water_temperature: Num) -> Num:
    """Total ammonia nitrogen that fresh-water life bears for thirty days [mg/L].

    A criterion for fish and mussels; no such figure exists for turtles.

    Args:
        ph [1, 6.5 to 9]
        water_temperature [degC, 0 to 30]

    Formula: 0.8876 · (0.0278 / (1 + 10^(7.688 − ph)) + 1.1994 / (1 + 10^(ph − 7.688))) · 2.126
    · 10^(0.028 · (20 − larger of (water_temperature, 7)))

    Source: epa_2013_ammonia, chronic criterion, equation recalled, anchor published [memory]
    """
    acidity = _step(0.0278, 1.1994, 7.688, ph)
    warm = 2.126 * 10.0 ** (0.028 * (20.0 - np.maximum(water_temperature, 7.0)))
    return 0.8876 * acidity * warm


def _step(low: float, high: float, middle: float, ph: Num) -> Num:
    """Follow acidity from one level to the other, as all ammonia criteria do."""
    distance = floats(ph) - middle
    return low / (1.0 + 10.0**-distance) + high / (1.0 + 10.0**distance)


def nitrate_after_changes(
    nitrate_rise: Num,
    water_change_interval: Num,
    water_change_share: Num,
    tap_nitrate: Num,
    nitrate: Num,
    changes: Num,
) -> Num:
    """Nitrate just before a given regular partial change [mg/L].

    The geometric sum in closed form, written so that a share of zero has its plain limit.

    Source: geometry, geometric series of a mixed tank [computed]
    """
    kept = 1.0 - floats(water_change_share)
    gained = floats(nitrate_rise * water_change_interval)
    share = np.where(kept < 1.0, 1.0 - kept, 1.0)
    gains = np.where(kept < 1.0, (1.0 - kept**changes) / share, changes)
    brought: Num = (nitrate - tap_nitrate) * kept ** (changes - 1.0)
    return tap_nitrate + brought + gained * gains


def nitrate_peak(
    nitrate_rise: Num, water_change_interval: Num, water_change_share: Num, tap_nitrate: Num
) -> Num:
    """Nitrate just before a change, once regular changes have settled [mg/L].

    Infinite where nothing is ever changed and food keeps adding to it.

    Source: geometry, fixed point of a mixed tank [computed]
    """
    gained = floats(nitrate_rise * water_change_interval)
    share = floats(water_change_share)
    with np.errstate(divide="ignore", invalid="ignore"):
        return tap_nitrate + np.where(gained == 0.0, 0.0, gained / share)


def thiosulfate_dose(water_volume: Num, chlorine: Num) -> Num:
    """Sodium thiosulfate pentahydrate that takes up the chlorine [kg].

    By the tetrathionate route, two to one, the largest dose of the three known routes.

    Args:
        water_volume [m**3, 0 to 100]: tap water to be treated

    Source: physics, stoichiometry from molar masses [computed]
    """
    return 2.0 * _THIOSULFATE / _CHLORINE * chlorine * water_volume * 1e-3


def chloramine_ammonia(chlorine: Num, water_change_share: Num) -> Num:
    """Total ammonia nitrogen that dechlorinated chloramine leaves in the tank [mg/L].

    Args:
        chlorine: combined chlorine in the tap water, as Cl2

    Source: physics, one nitrogen for each Cl2 of monochloramine [computed]
    """
    return NITROGEN_MASS / _CHLORINE * chlorine * water_change_share
