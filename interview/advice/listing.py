"""The specification in words: what to get, why so much, and in which order."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from interview.advice.settings import sold_as
from interview.audit.judge import Tank
from interview.phrases import fill

__all__ = ["Row", "rows", "sequence"]


@dataclass(frozen=True)
class Row:
    """One thing to buy or set: what, by specification, and why so much."""

    what: str
    specification: str


_LISTING = ("europe", "united_kingdom", "australia")
_LAW = (
    "An animal of this kind is on the European list of invasive species: where that list holds "
    "it may not be bought, sold, bred or given away. Ask your authority before anything else."
)
_LIST = (
    (
        "Tank",
        "glass, with its rim, at least {tank_length} × {tank_width} × {tank_height} outside, sold "
        "as “{sold_as}”: grown to {adult_carapace_length}, the turtle still has surface and depth",
    ),
    (
        "Stand",
        "made for a tank of that footprint, level: it carries {filled_mass} in all",
    ),
    (
        "Water line",
        "{water_line_below_rim} below the rim: {water_volume}, {water_depth} deep, and the rim "
        "dry under the cover",
    ),
    (
        "Heater",
        "{heater_count} × {heater_power}, metal or guarded, on an over-temperature controller, set "
        "to {water_temperature}: the tank loses {heat_loss} when the room is coldest, the rest is "
        "reserve",
    ),
    (
        "Filter",
        "canister rated {filter_rated_flow} or more, {media_volume} of coarse foam, guarded "
        "intake: hoses and media leave about {actual_flow}, {turnover}",
    ),
    (
        "Platform",
        "floating, dry area {platform_length} × {platform_width}, with {platform_foam_volume} of "
        "closed-cell foam below, close to the glass, with a ramp: it carries the grown turtle "
        "with a double reserve",
    ),
    (
        "Heat lamp",
        "halogen of about {heat_lamp_power} on a thermostat, porcelain holder marked "
        "{lamp_holder_rating} or more, two fixings, {heat_lamp_height} over the platform to begin "
        "with; move it until the shell's top reads {basking_band_low} to {basking_band_high}",
    ),
    (
        "UVB lamp",
        "T5 tube of {uvb_strength} strength, {uvb_lamp_length} long, {uvb_lamp_height} over the "
        "platform, nothing between: a UV index of about {uv_index_shell} at the shell, where "
        "{uv_zone_low} to {uv_zone_high} is its zone",
    ),
    ("Covers", "metal mesh over water and platform, the UVB lamp under it: turtles climb"),
    ("Timer", "lamps on for {day_length}, dark nights: day and night as outdoors"),
    (
        "Electricity",
        "{connected_load} in all behind a GFCI or RCD, since water and mains meet here; about "
        "{energy_per_month} a month",
    ),
    (
        "Circuit",
        "with what else is plugged in, {circuit_share} of what it should carry for hours; over "
        "100 % take another circuit, and ask a licensed electrician",
    ),
    ("Running cost", "about {cost_per_month} a month: electricity at your price"),
    (
        "Food",
        "{feed_mass} of pellets at a time, {feeds_per_week}: what an animal of this size burns "
        "and grows on; more is nitrate",
    ),
    (
        "Water changes",
        "{water_change_share} of the water every {water_change_interval}, conditioner, mixed to "
        "{water_temperature}: it keeps nitrate under {nitrate_peak}",
    ),
)
_STEPS = (
    "Rinse everything in plain water; no soap.",
    "Put the empty tank on its level stand where it will stay; check the floor first.",
    "Fill it, and watch for leaks for two days before anything is plugged in.",
    "Plug in behind the GFCI or RCD, every cord with a drip loop; heater under water first.",
    "Run heater and lamps for two days. Measure water, basking surface and UV index, and "
    "move the lamps until they fit.",
    "Treat the water with a conditioner, let it run a day, and from then on drop in a pinch of "
    "turtle food daily: the bacteria live on what it gives off. Start the filter, best with "
    "media from a running one. It takes about {cycling_time} ({cycling_time_low} to "
    "{cycling_time_high}); the test kit decides, not the calendar.",
    "Run the audit on what you measured. Then the turtle.",
)


def rows(planned: Tank) -> Iterator[Row]:
    """The list; a law against the species comes first."""
    if planned.lookup("invasive_listed") and planned.lookup("region") in _LISTING:
        yield Row("The law", _LAW)

    def look(name: str) -> Any:
        return sold_as(planned.best.known) if name == "sold_as" else planned.lookup(name)

    for what, text in _LIST:
        if said := fill(text, look, planned.unit_of, planned.system):
            yield Row(what, said)


def sequence(planned: Tank) -> Iterator[str]:
    """The steps of setting up, in order."""
    for step in _STEPS:
        if said := fill(step, planned.lookup, planned.unit_of, planned.system):
            yield said
