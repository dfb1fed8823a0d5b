"""Water chemistry of the tank: ammonia, nitrate between changes, alkalinity, disinfectant."""

from __future__ import annotations

import numpy as np

from interview.core.constants import NITRATE_MASS, NITROGEN_MASS
from interview.core.errors import NotApplicable
from interview.core.numeric import Num, first_known, floats
from interview.core.water import properties as laws

__all__ = [
    "alkalinity_use",
    "ammonia_free",
    "ammonia_free_share",
    "ammonia_peak",
    "ammonia_peak_free",
    "chlorine_standing_time",
    "dechlorinator_dose",
    "nitrate_calibration",
    "nitrate_peak",
    "nitrate_rise",
    "practical_change_interval",
    "water_change_interval_needed",
    "water_change_share_needed",
]
QUANTITIES = __all__

# g/mol CaCO3, IUPAC standard atomic weights; two protons for each ammonia oxidised take up one
_LIME = 100.087

_HARDLY = 1e-6  # mg/L
_BELIEVED = (0.02, 20.0)  # of the calibration, our own choice: past it something was misread
_NEARLY_ALL = 0.95  # of the water: what is left of it tells nothing
_PER_VOLUME = 1e3  # kg/m³ → mg/L


def ammonia_free_share(ph: Num, water_temperature: Num) -> Num:
    """Share of total ammonia nitrogen that is free, un-ionised ammonia [1].

    Args:
        water_temperature [degC, 0 to 50]

    Source: emerson_1975, equilibrium constant of ammonia in fresh water [published]
    """
    return laws.ammonia_free_share(ph, water_temperature)


def ammonia_free(ammonia: Num, ammonia_free_share: Num) -> Num:
    """Free, un-ionised ammonia in the water, as nitrogen [mg/L].

    Source: emerson_1975, share times total [published]
    """
    return ammonia * ammonia_free_share


def nitrate_rise(
    ammonia_load: Num,
    water_volume: Num,
    evaporation_rate: Num = 0.0,
    tap_nitrate: Num = 0.0,
    nitrate_calibration: Num = 1.0,
) -> Num:
    """Nitrate the water gains between changes, as the ion [mg/L/s].

    All ammonia from food ends as nitrate; tap water that makes good the evaporation
    brings its own, while the vapour takes none away. Plants are not credited: what they
    take up is small, and turtles eat it.

    Formula: (ammonia_load · molar masses + tap_nitrate · evaporation_rate) / water_volume ·
    nitrate_calibration

    Source: physics, nitrogen balance from atomic masses [computed]
    """
    return nitrate_calibration * _by_food(ammonia_load, water_volume, evaporation_rate, tap_nitrate)


def _by_food(ammonia_load: Num, water_volume: Num, evaporation_rate: Num, tap_nitrate: Num) -> Num:
    from_food = ammonia_load * _PER_VOLUME * NITRATE_MASS / NITROGEN_MASS
    litres_a_second = evaporation_rate * 1e-3  # a kilogram of tap water taken as a litre
    return (from_food + tap_nitrate * litres_a_second) / water_volume


def nitrate_calibration(
    ammonia_load: Num,
    water_volume: Num,
    water_change_interval: Num,
    water_change_share: Num,
    tap_nitrate: Num,
    nitrate: Num,
    filter_age: Num,
    nitrate_settling_time: Num,
    nitrate_read_late: Num,
    stage: str,
    filter_kind: str,
    evaporation_rate: Num = 0.0,
) -> Num:
    """How much faster nitrate truly rises than food tells, from the kit of a settled tank [1].

    The kit is asked for just before a change, so it shows the peak; read earlier, there is still
    more to come. So the same routine, read again, is told to do what it was told to do.

    Args:
        filter_age: a filter, and a routine, younger than nitrate_settling_time tell nothing

    Formula: (nitrate − tap_nitrate) / (1 − water_change_share · (1 − nitrate_read_late)) / (peak by
    food − tap_nitrate), from 0.02 to 20; 1 in a young tank

    Source: geometry, fixed point of a mixed tank, turned round [computed]
    """
    if stage != "living" or filter_kind == "none":
        raise NotApplicable("no filter of a tank in use makes nitrate")
    rise = _by_food(ammonia_load, water_volume, evaporation_rate, tap_nitrate)
    peak = laws.nitrate_peak(rise, water_change_interval, water_change_share, tap_nitrate)
    share = np.minimum(floats(water_change_share), _NEARLY_ALL)
    gained = np.maximum(peak - tap_nitrate, _HARDLY)
    come = 1.0 - share * (1.0 - nitrate_read_late)  # of what the peak has over the tap
    found = (floats(nitrate) - tap_nitrate) / come / gained
    settled = floats(filter_age) >= nitrate_settling_time
    known = settled & np.isfinite(gained)
    return np.where(known, np.clip(np.where(known, found, 1.0), *_BELIEVED), 1.0)


def ammonia_peak(
    ammonia_load: Num,
    water_volume: Num,
    water_change_interval: Num,
    water_change_share: Num,
    filter_kind: str,
) -> Num:
    """Ammonia, as nitrogen, just before a change of a tank in which no filter takes it up [mg/L].

    Args:
        filter_kind: refused where there is a filter

    Formula: ammonia_load · water_change_interval / (water_volume · water_change_share)

    Source: geometry, fixed point of a mixed tank [computed]
    """
    if filter_kind != "none":
        raise NotApplicable("a filter turns ammonia into nitrate")
    rise = floats(ammonia_load) * _PER_VOLUME / water_volume
    return laws.nitrate_peak(rise, water_change_interval, water_change_share, 0.0)


def ammonia_peak_free(
    ammonia_peak: Num,
    usual_ph: Num,
    ph: Num | None = None,
    water_temperature: Num | None = None,
    target_water_temperature: Num | None = None,
) -> Num:
    """Free, un-ionised ammonia just before a change where no filter takes it up, as N [mg/L].

    Args:
        water_temperature [degC, 0 to 50]
        target_water_temperature: what the water is meant to have, where nobody measured

    Formula: ammonia_peak · ammonia_free_share(ph, water_temperature), with usual_ph where nobody
    has read the pH

    Source: emerson_1975, share times total [published]
    """
    warmth = first_known("water_temperature", water_temperature, target_water_temperature)
    return ammonia_peak * laws.ammonia_free_share(usual_ph if ph is None else ph, warmth)


def nitrate_peak(
    nitrate_rise: Num, water_change_interval: Num, water_change_share: Num, tap_nitrate: Num
) -> Num:
    """Nitrate just before a change, once regular changes have settled [mg/L].

    Source: geometry, fixed point of a mixed tank [computed]
    """
    return laws.nitrate_peak(nitrate_rise, water_change_interval, water_change_share, tap_nitrate)


def water_change_share_needed(
    nitrate_rise: Num, water_change_interval: Num, tap_nitrate: Num, nitrate_limit: Num
) -> Num:
    """Share to replace each time so that nitrate stays at its limit [1].

    Above 1 no change at this interval can do it: change more often or feed less. Infinite
    where the tap water itself is at the limit.

    Source: geometry, fixed point of a mixed tank, solved for the share [computed]
    """
    room = floats(nitrate_limit - tap_nitrate)
    gained = nitrate_rise * water_change_interval
    share: Num = np.where(room <= 0.0, np.inf, gained / np.where(room <= 0.0, 1.0, room))[()]
    return share


def water_change_interval_needed(
    nitrate_rise: Num, water_change_share: Num, tap_nitrate: Num, nitrate_limit: Num
) -> Num:
    """Time between changes of the usual share so that nitrate stays at its limit [s].

    Nothing where the tap water itself is at the limit, infinite where no nitrate is gained.

    Source: geometry, fixed point of a mixed tank, solved for the interval [computed]
    """
    room = np.maximum(floats(nitrate_limit - tap_nitrate), 0.0)
    rise = floats(nitrate_rise)
    gains = rise > 0.0
    interval: Num = np.where(gains, water_change_share * room / np.where(gains, rise, 1.0), np.inf)[
        ()
    ]
    return interval


def practical_change_interval(water_change_interval_needed: Num, least_change_interval: Num) -> Num:
    """Time between changes of the usual share that hold nitrate, where anybody keeps to it [s].

    Formula: water_change_interval_needed; refused below least_change_interval

    Source: modelling_choice, no more than a change every two days [assumption]
    """
    if np.all(np.asarray(water_change_interval_needed) < least_change_interval):
        raise NotApplicable("nobody changes water so often")
    return water_change_interval_needed


def alkalinity_use(ammonia_load: Num, water_volume: Num) -> Num:
    """Carbonate hardness the filter's bacteria use up, as calcium carbonate [mg/L/s].

    In soft water the acidity can crash between two changes.

    Source: physics, two protons for each ammonia oxidised [computed]
    """
    return ammonia_load * _PER_VOLUME * _LIME / NITROGEN_MASS / water_volume


def dechlorinator_dose(water_volume: Num, water_change_share: Num, tap_chlorine: Num) -> Num:
    """Sodium thiosulfate pentahydrate for the new water of one change [kg].

    Source: physics, stoichiometry from molar masses [computed]
    """
    return laws.thiosulfate_dose(water_volume * water_change_share, tap_chlorine)


def chlorine_standing_time(tap_chlorine: Num, chlorine_limit: Num, chlorine_half_life: Num) -> Num:
    """Time tap water must stand, aerated, until its free chlorine has gone [s].

    Chloramine does not leave this way: it needs a conditioner.

    Args:
        tap_chlorine: free chlorine in the tap water

    Source: modelling_choice, first-order loss [assumption]
    """
    halvings = np.log2(floats(tap_chlorine) / chlorine_limit)
    return np.maximum(halvings, 0.0) * chlorine_half_life
