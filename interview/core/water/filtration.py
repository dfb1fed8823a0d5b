"""Filter: real flow, turnover, media, the pull of the intake, and how long it takes to mature."""

from __future__ import annotations

import numpy as np

from interview.care.media import media as media_facts
from interview.core.constants import QUARTZ_DENSITY
from interview.core.errors import Missing, NotApplicable
from interview.core.numeric import Num, first_known
from interview.core.water import flow as laws

__all__ = [
    "actual_flow",
    "ammonia_supply",
    "cycling_time",
    "cycling_time_high",
    "cycling_time_left",
    "cycling_time_low",
    "filled_media_volume",
    "filter_temperature",
    "hose_flow",
    "intake_capture_height",
    "intake_cover",
    "media_area",
    "media_area_needed",
    "seed_film",
    "shut_off_head",
    "turnover",
]
QUANTITIES = __all__
DEAR = ("cycling_time", "cycling_time_low", "cycling_time_high")

_PER_HOUR = 1.0 / 3.6e6  # L/h → m³/s
# One standard deviation of the two start-up assumptions, as in care/assumptions/water.yaml.
_PACE_SPREAD = 0.15
_SEED_FACTOR = {"none": 5.0, "some": 5.0, "well": 2.5}


def _require_filter(filter_kind: str) -> None:
    if filter_kind == "none":
        raise NotApplicable("there is no filter")


# --- flow ----------------------------------------------------------------------------


def shut_off_head(filter_rated_flow: Num, shut_off_head_factor: Num) -> Num:
    """Head at which the filter's pump delivers nothing [m].

    A line through five usual canisters, 600 L/h and 1.2 m up to 2000 L/h and 2.5 m.

    Source: modelling_choice, line through usual canister ratings [assumption]
    """
    return shut_off_head_factor * (0.65 + 0.93e-3 * filter_rated_flow / _PER_HOUR)


def hose_flow(
    filter_kind: str,
    filter_rated_flow: Num,
    shut_off_head: Num,
    hose_diameter: Num,
    hose_length: Num,
    hose_bends: Num,
    fitting_loss: Num,
    media_head_loss: Num,
    water_temperature: Num = 25.0,
) -> Num:
    """Flow of one canister against its own hoses, fittings and media [m**3/s].

    A closed loop: the height of the cabinet is no static head.

    Args:
        water_temperature [degC, 0 to 40]

    Formula: operating_flow(filter_rated_flow, shut_off_head, hose_diameter, hose_length, …)

    Source: physics, energy balance of the loop [computed]
    Source: modelling_choice, parabolic pump curve [assumption]
    """
    _require_filter(filter_kind)
    if filter_kind != "canister":
        raise NotApplicable("only a canister filter pumps through a closed loop of hose")
    return laws.operating_flow(
        filter_rated_flow,
        shut_off_head,
        hose_diameter,
        hose_length,
        hose_bends,
        fitting_loss,
        media_head_loss,
        water_temperature,
    )


def actual_flow(
    filter_kind: str,
    filter_flow_share: Num,
    filter_measured_flow: Num | None = None,
    hose_flow: Num | None = None,
    filter_rated_flow: Num | None = None,
    filter_count: Num = 1.0,
) -> Num:
    """Real flow of all filters together [m**3/s].

    A bucket test counts most, then the sum for a canister's hoses, then a share of the box.

    Source: physics, continuity [computed]
    Source: common_practice, real flow half to two thirds of the box [practice]
    """
    if filter_kind == "none":
        return 0.0
    if filter_measured_flow is not None:
        return filter_measured_flow * filter_count
    if hose_flow is not None:
        return hose_flow * filter_count
    if filter_rated_flow is None:
        raise Missing("filter_measured_flow", "filter_rated_flow")
    return filter_rated_flow * filter_flow_share * filter_count


def turnover(actual_flow: Num, water_volume: Num) -> Num:
    """Real flow over the water it turns over [1/s].

    Source: geometry, flow over volume [computed]
    """
    return actual_flow / water_volume


# --- media ---------------------------------------------------------------------------


def filled_media_volume(
    filter_kind: str,
    media_hold_time: Num,
    media_volume: Num | None = None,
    filter_rated_flow: Num | None = None,
    filter_count: Num = 1.0,
) -> Num:
    """Media in all filters together, by their rated flow where nobody measured it [m**3].

    Source: modelling_choice, media in proportion to the rated flow [assumption]
    """
    if filter_kind == "none":
        return 0.0
    if media_volume is not None:
        return media_volume
    if filter_rated_flow is None:
        raise Missing("media_volume", "filter_rated_flow")
    return media_hold_time * filter_rated_flow * filter_count


def media_area(
    filter_kind: str,
    media_area_factor: Num,
    media: str | None = None,
    filled_media_volume: Num | None = None,
) -> Num:
    """Surface the media offer to bacteria, effective rather than advertised [m**2].

    Formula: area per volume of the media · media_area_factor · filled_media_volume

    Source: common_practice, home bench test of ammonia removal, not peer-reviewed [practice]
    """
    if filter_kind == "none":
        return 0.0
    if media is None or filled_media_volume is None:
        raise Missing.among(media=media, media_volume=filled_media_volume)
    return media_facts()[media].area_per_volume * media_area_factor * filled_media_volume


def media_area_needed(ammonia_load: Num, nitrification_rate: Num) -> Num:
    """Surface the bacteria need to turn over the ammonia from food [m**2].

    Source: physics, load over rate [computed]
    Source: malone_pfeiffer_2006, rate in proportion to ammonia in clean water [published]
    """
    return ammonia_load / nitrification_rate


# --- intake --------------------------------------------------------------------------


def intake_cover(water_depth: Num, filter_kind: str, intake_height: Num | None = None) -> Num:
    """Water over the lowest slot of the filter's intake; below 0 it draws air alone [m].

    Formula: water_depth − intake_height

    Source: geometry, plain arithmetic [computed]
    """
    _require_filter(filter_kind)
    if intake_height is None:
        raise Missing("intake_height")
    return water_depth - intake_height


def intake_capture_height(
    filter_kind: str,
    actual_flow: Num,
    substrate: str,
    grain_size: Num | None = None,
    filter_count: Num = 1.0,
    water_temperature: Num = 25.0,
) -> Num:
    """Height over the bed from which stirred-up grains out-settle the pull of the intake [m].

    Cautious: a point intake beside a wall. Sand at rest only moves within about 1 cm.

    Args:
        grain_size [m, 1e-6 to 0.1]
        filter_count: filters sharing the flow, each with its intake
        water_temperature [degC, 0 to 40]

    Formula: intake_capture_radius(actual_flow / filter_count, settling_velocity(grain_size, …))

    Source: ferguson_church_2004, settling of natural grains, recalled [memory]
    Source: physics, continuity over a half sphere [computed]
    """
    _require_filter(filter_kind)
    if substrate == "none":
        raise NotApplicable("there is no sand or gravel to draw in")
    if grain_size is None:
        raise Missing("grain_size")
    sinking = laws.settling_velocity(grain_size, QUARTZ_DENSITY, water_temperature)
    return laws.intake_capture_radius(actual_flow / filter_count, sinking)


# --- start-up ------------------------------------------------------------------------


def ammonia_supply(ammonia_load: Num, water_volume: Num) -> Num:
    """Ammonia nitrogen from food, per volume of tank water [mg/L/s].

    Source: physics, load over volume [computed]
    """
    return ammonia_load * 1e3 / water_volume


def filter_temperature(
    water_temperature: Num | None = None, target_water_temperature: Num | None = None
) -> Num:
    """Temperature the filter's bacteria live at: as measured, else as planned [degC].

    Args:
        water_temperature [degC, 0 to 60]

    Source: modelling_choice, a planned tank is kept at its target [assumption]
    """
    return first_known("water_temperature", water_temperature, target_water_temperature)


def seed_film(
    filter_kind: str,
    filter_seeded: str,
    ammonia_supply: Num,
    filter_temperature: Num,
    nitrifier_pace: Num,
    wild_seed: Num,
    seed_share_some: Num,
    seed_share_well: Num,
) -> Num:
    """Ammonia oxidisers a filter starts with, as oxygen demand per tank water [mg/L].

    Unseeded, what tap water and air bring; seeded, a share of the film it will need.

    Args:
        filter_temperature [degC, 10 to 35]

    Formula: share of the mature film by filter_seeded, at least wild_seed

    Source: modelling_choice, seed levels fitted to start-up times in use [assumption]
    """
    _require_filter(filter_kind)
    shares = {"none": 0.0, "some": seed_share_some, "well": seed_share_well}
    mature = laws.mature_film(ammonia_supply, filter_temperature, nitrifier_pace)
    return np.maximum(shares[filter_seeded] * mature, wild_seed)


def cycling_time(
    filter_kind: str,
    ammonia_supply: Num,
    filter_temperature: Num,
    seed_film: Num,
    nitrifier_pace: Num,
) -> Num:
    """Time from switching on a new filter until ammonia and nitrite stay clear, median [s].

    Args:
        filter_temperature [degC, 10 to 35]

    Formula: start_up_time(ammonia_supply, filter_temperature, seed_film, nitrifier_pace)

    Source: metcalf_eddy_2014, table 8-14, ammonia oxidisers [published]
    Source: recalled, nitrite oxidisers and temperature factors of the same table [memory]
    """
    _require_filter(filter_kind)
    return laws.start_up_time(ammonia_supply, filter_temperature, seed_film, nitrifier_pace)


def cycling_time_low(
    filter_kind: str,
    filter_seeded: str,
    ammonia_supply: Num,
    filter_temperature: Num,
    seed_film: Num,
    nitrifier_pace: Num,
    cycling_time: Num,
) -> Num:
    """Time to a working filter that one start-up in six beats [s].

    Lower edge (16 %) of the band: one standard deviation each of the bacteria's pace and
    of the starting media, their effects on the logarithm of the time added in quadrature.

    Args:
        filter_temperature [degC, 10 to 35]

    Formula: the same with a faster pace and a larger seed, as one start-up in six

    Source: modelling_choice, spread of pace and seed [assumption]
    """
    _require_filter(filter_kind)
    setting = (ammonia_supply, filter_temperature, seed_film, nitrifier_pace, cycling_time)
    return _band_edge(1.0, _SEED_FACTOR[filter_seeded], *setting)


def cycling_time_high(
    filter_kind: str,
    filter_seeded: str,
    ammonia_supply: Num,
    filter_temperature: Num,
    seed_film: Num,
    nitrifier_pace: Num,
    cycling_time: Num,
) -> Num:
    """Time to a working filter that one start-up in six exceeds [s].

    Upper edge (84 %) of the band, made as the lower one is.

    Args:
        filter_temperature [degC, 10 to 35]

    Formula: the same with a slower pace and a smaller seed, as one start-up in six

    Source: modelling_choice, spread of pace and seed [assumption]
    """
    _require_filter(filter_kind)
    setting = (ammonia_supply, filter_temperature, seed_film, nitrifier_pace, cycling_time)
    return _band_edge(-1.0, _SEED_FACTOR[filter_seeded], *setting)


def _band_edge(
    luck: float,
    seed_factor: float,
    supply: Num,
    temperature: Num,
    seed: Num,
    pace: Num,
    median: Num,
) -> Num:
    """Work out the time one standard deviation of luck away; good luck is positive, quicker."""
    lucky_pace = np.maximum(pace + luck * _PACE_SPREAD, 0.05)
    lucky_seed = seed * seed_factor**luck
    shaped = np.broadcast_arrays(supply, temperature, seed, lucky_seed, pace, lucky_pace)
    supply, temperature, seed, lucky_seed, pace, lucky_pace = shaped
    seeds, paces = np.stack((seed, lucky_seed)), np.stack((lucky_pace, pace))
    by_pace, by_seed = np.asarray(laws.start_up_time(supply, temperature, seeds, paces))
    with np.errstate(invalid="ignore"):
        apart = np.hypot(np.log(by_pace / median), np.log(by_seed / median))
    edge: Num = np.where(np.isfinite(median), median * np.exp(-luck * apart), np.inf)[()]
    return edge


def cycling_time_left(cycling_time: Num, filter_age: Num = 0.0) -> Num:
    """Time still to go until the filter can be trusted, never below zero [s].

    Source: geometry, difference [computed]
    """
    return np.maximum(cycling_time - filter_age, 0.0)
