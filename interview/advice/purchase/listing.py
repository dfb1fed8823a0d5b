"""The specification in words: what to get, why so much, and in which order."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass
from typing import Any

from interview.advice.purchase.in_shops import in_shops
from interview.advice.what_if.suppose import changed
from interview.audit.checks.judging import judge
from interview.audit.checks.loader import all_checks
from interview.audit.tank import Tank
from interview.base.templates import by_number
from interview.care.species import profile
from interview.vocabulary.phrases import fill

__all__ = ["GUARD", "ListingRow", "rows", "sequence"]

GUARD = "GFCI or RCD"


@dataclass(frozen=True)
class ListingRow:
    """One thing to buy or set: what, by specification, and why so much."""

    what: str
    specification: str


_TEASPOON, _PINCH = 2.2e-3, 0.3e-3
"""Pellets [kg] in a level teaspoon, 5 mL of a bulk of 0.45 kg/L, and in a pinch: common
practice, no source."""
_QUARTERS = ("", "1/4", "1/2", "3/4")
_GROWN = "the grown [turtle|turtles]"
_YOUNG = "the [turtle as it is; a larger one as it grows|turtles as they are; a larger one later]"
_LISTING = ("europe", "united_kingdom", "australia")
_LAW = (
    "An animal of this kind is on the European list of invasive species: where that list holds "
    "it may not be bought, sold, bred or given away. Ask your authority before anything else."
)
_HEAVY = (
    "a tank of {outside} weighs {filled_mass} full: settle the floor before anything is bought."
)
_ASK = "Find out what the floor is, and how its joists run."
_LIST = (
    (
        "Tank",
        "glass, with its rim, sold as “{sold_as}”, that is {outside} outside: grown to "
        "{adult_carapace_length}, [the turtle still has|the turtles still have] surface and depth",
        "",
    ),
    (
        "Tank",
        "glass, with its rim, {outside} outside: grown to "
        "{adult_carapace_length}, [the turtle still has|the turtles still have] surface and depth",
        "",
    ),
    (
        "Stand",
        "made for a tank of {footprint}, level; to carry {filled_mass}: glass, water and all that "
        "is in it",
        "",
    ),
    (
        GUARD,
        "to plug in, or fitted for good by a licensed electrician, {rcd_sold}: with one fault in a "
        "heater or lamp it is all that keeps the current from hands in the water",
        "",
    ),
    (
        "Water line",
        "{water_line_below_rim} below the rim: {water_volume}, {water_depth} deep, and room for "
        "shell, legs and head under the cover",
        "{water_line_below_rim} below the rim, {water_depth} deep",
    ),
    (
        "Sand",
        "{substrate_mass} dry of fine rounded sand, {substrate_depth} deep: rinse it until the "
        "water runs clear",
        "",
    ),
    (
        "Heater",
        "{heater_count} × {heater_power}, metal or guarded, on an over-temperature controller; "
        "their own dials set to {water_temperature}: the tank loses {heat_loss} when the room is "
        "coldest, the rest is reserve",
        "set to {water_temperature}",
    ),
    (
        "Over-temperature controller",
        "for heaters of {installed_heater_power} or more, its probe in the water: a thermostat "
        "that sticks would cook the tank",
        "",
    ),
    (
        "Filter",
        "{filter_count} × {filter} rated {filter_rated_flow} or more, {media_volume} of coarse "
        "foam, guarded intake: hoses and media leave about {actual_flow}, {turnover}",
        "",
    ),
    (
        "Platform",
        "{platform}, dry area {platform_length} × {platform_width}, its surface "
        "{platform_height_above_water} above the water, with a rough ramp that slopes about "
        "{ramp_slope}: room for {whom}",
        "{platform_height_above_water} above the water",
    ),
    (
        "Resting places",
        "soaked wood, cork or safe plants that reach the surface in several places, with no gap a "
        "shell can jam in: a young turtle tires in deep water",
        "",
    ),
    (
        "Foam",
        "closed-cell foam, {foam_thick} thick under the whole raft, sheathed against bites: the "
        "edge stays dry while [the grown turtle, about {animal_mass}, hauls out|all the grown "
        "turtles haul out]",
        "",
    ),
    (
        "Heat lamp",
        "{heat_lamp_kind}; about {heat_lamp_power}, {lamp_plastic_gap} from plastic, "
        "{heat_lamp_height} over the platform to begin with; move it until the shell's top reads "
        "{basking_band_low} to {basking_band_high}, and "
        "again with each 2 cm (1 in) of growth: a higher shell is nearer",
        "",
    ),
    (
        "Lamp thermostat",
        "for lamps of {heat_lamp_power} or more, its probe at shell height: hot days need less",
        "",
    ),
    (
        "Lamp holder",
        "porcelain; marked {lamp_holder_rating} or more: plastic chars and lets go",
        "",
    ),
    (
        "Steel chain or wire",
        "for the heat lamp; two, each to hold it by itself: a lamp that falls burns or kills",
        "",
    ),
    (
        "UVB lamp",
        "{uvb_lamp}; {uvb_strength} strength; {uvb_lamp_length} long, {uvb_lamp_height} "
        "over the platform, nothing between: a UV index of about {uv_index_shell} at the shell, "
        "where {uv_zones}",
        "{uvb_lamp_height} over the platform, for {uv_index_shell}",
    ),
    (
        "Cover over the water",
        "{lid}; {lid_size}: it keeps warmth in or lets it out, and turtles climb",
        "",
    ),
    (
        "Cover over the platform",
        "{screen}; at least {platform_length} × {platform_width}; a hood on the rim, with sides "
        "and a top, so that the UVB lamp hangs in it: turtles climb",
        "",
    ),
    ("Timer", "lamps on for {day_length}, dark nights: day and night as outdoors", ""),
    (
        "Electricity",
        "{connected_load} in all, behind a GFCI or RCD: water and mains meet here",
        "",
    ),
    (
        "Circuit",
        "with what else is plugged in, {circuit_share} of what it should carry for hours; over "
        "100 % take another circuit, and ask a licensed electrician",
        "",
    ),
    (
        "Running cost",
        "about {energy_per_month} of electricity a month, {cost_per_month} at your price; besides "
        "it food, conditioner and a new UVB lamp when its output has gone",
        "",
    ),
    (
        "Running cost",
        "about {energy_per_month} of electricity a month, times what one kWh costs you; besides "
        "it food, conditioner and a new UVB lamp when its output has gone",
        "",
    ),
    (
        "Food",
        "{feed_mass} of pellets at a time, {spoons}, {feeds_per_week}: what an animal of this size "
        "burns and grows on; more is nitrate",
        "{feed_mass} at a time, {feeds_per_week}",
    ),
    (
        "Water changes",
        "{water_change_share} of the water every {water_change_interval}, conditioner, mixed to "
        "{water_temperature}: {nitrate_said}",
        "{water_change_share} every {water_change_interval}, mixed to {water_temperature}: "
        "{nitrate_said}",
    ),
    (
        "Water conditioner",
        "against chlorine and chloramine, dosed for {conditioned}: what disinfects tap water "
        "kills the filter's bacteria too",
        "",
    ),
    (
        "Water thermometer",
        "digital, with its probe far from the heater: every number here rests on it",
        "",
    ),
    (
        "Room thermometer",
        "digital, one that keeps the lowest and the highest reading: the heaters rest on it",
        "",
    ),
    (
        "Infrared thermometer",
        "for the spot under the lamp, read from a hand's breadth away: watts don't tell how warm "
        "it gets",
        "",
    ),
    (
        "Kit for ammonia, nitrite, nitrate and pH",
        "with drops: it decides when the filter is ripe",
        "",
    ),
    (
        "Bucket and siphon",
        "kept for the tank alone and emptied where no food is made: what lives in this water can "
        "make people ill",
        "",
    ),
)
"""What, its specification, and what of it is said of the grown animals where that differs."""
_LARGEST = (
    "Tank",
    "glass, with its rim, {outside} outside, sold as "
    "“{sold_as}”: the largest under a trade name, for the young [turtle|turtles] only; grown to "
    "{adult_carapace_length} [it has|they have] outgrown it",
    "",
)
_PLATFORMS = {
    "floating": "a raft close to the glass",
    "fixed": "a shelf fixed to the glass",
    "above_tank": "a box with walls and a mesh lid of its own on the rim",
    "pile": "a pile of flat stones on the bare glass",
}
_COVERS = {
    "mesh": "metal mesh",
    "glass": "glass lid, with a gap for air",
    "plastic": "plastic lid, with a gap for air",
}
_HELD = "nitrate peaks at {nitrate_peak}, {nitrate_limit} at most being wanted"
_OVER = (
    "nitrate still peaks at {nitrate_peak}, over the {nitrate_limit} wanted; larger and more "
    "frequent changes, more water, or tap water with less nitrate bring that down"
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
    "media from a running one. With these it takes about {cycling_time} ({cycling_time_low} to "
    "{cycling_time_high}), with new media about {bare_cycling_time}; the test kit decides, not the "
    "calendar.",
    "Run the audit on what you measured. Then the [turtle|turtles].",
)


def rows(planned: Tank, later: Tank | None, has: Collection[str] = ()) -> Iterator[ListingRow]:
    """The list; a law against the species comes first.

    Args:
        planned: the tank of the list, with the animals as they are
        later: the same with the animals grown; None where no tank sold serves them then
        has: what of the list the keeper has already
    """
    if planned.lookup("invasive_listed") and planned.lookup("region") in _LISTING:
        yield ListingRow("The law", _LAW)
    if floor := _floor(planned):
        yield ListingRow("Floor", floor)
    done = {*has}
    whom = _YOUNG if later is None else _GROWN
    for what, text, grown in (*((_LARGEST,) if later is None else ()), *_LIST):
        tank = later if what == "Foam" and later else planned
        said = None if what in done else _filled(text, tank, whom)
        if said:
            done.add(what)
            yield ListingRow(
                what, said + (_once_grown(grown, planned, later) if grown and later else "")
            )


def _floor(planned: Tank) -> str:
    """What is to be found out of the floor before such a weight is bought; "" where it carries."""
    check = next(check for check in all_checks() if check.id == "floor_load")
    finding = judge(check, planned)
    if not finding.applies or finding.verdict == "good":
        return ""
    weight = _filled(_HEAVY, planned) or ""
    said = finding.say if finding.verdict != "unmeasured" else _ASK
    return " ".join(part for part in (weight, said, finding.do) if part)


def _spoons(tank: Tank) -> str | None:
    """A portion of pellets in pinches or teaspoons, for who has no scale."""
    mass = tank.lookup("feed_mass")
    if mass is None:
        return None
    spoons = round(float(mass) / _TEASPOON * 4) / 4
    if spoons < 0.25:
        pinches = max(1, round(float(mass) / _PINCH))
        return "a pinch" if pinches == 1 else f"{pinches} pinches"
    whole, quarter = divmod(round(spoons * 4), 4)
    said = " ".join(part for part in (f"{whole}" if whole else "", _QUARTERS[quarter]) if part)
    return f"about {said} level teaspoon{'' if spoons <= 1 else 's'}"


def _once_grown(text: str, planned: Tank, later: Tank) -> str:
    """What is set otherwise for the grown animals; "" where nothing is."""
    now, then = _filled(text, planned), _filled(text, later)
    return "" if then is None or now == then else f"; once grown {then}"


def _nitrate(tank: Tank) -> str | None:
    """Where nitrate ends with these changes; None where nobody can tell."""
    peak, limit = tank.lookup("nitrate_peak"), tank.lookup("nitrate_limit")
    if peak is None or limit is None:
        return None
    return fill(_HELD if peak <= limit else _OVER, tank.lookup, tank.unit_of, tank.system)


def _conditioned(tank: Tank) -> str | None:
    """How much water a conditioner is dosed for; None where none is used."""
    if tank.lookup("water_treatment") != "conditioner":
        return None
    return fill("a {water_volume} tank", tank.lookup, tank.unit_of, tank.system)


def _zones(tank: Tank) -> str | None:
    """The zone of UV index that is wanted; that of each kind where they differ."""
    each: dict[str, str] = {}
    for animal in tank.animals:
        only = tank.only(animal)
        said = fill("{uv_zone_low} to {uv_zone_high}", only.lookup, only.unit_of, only.system)
        if said is None:
            return None
        each.setdefault(profile(animal.species).name, said)
    if len(set(each.values())) < 2:
        text = by_number("{uv_zone_low} to {uv_zone_high} is [its|their] zone", tank.several)
        return fill(text, tank.lookup, tank.unit_of, tank.system)
    wants = " and ".join(f"the {name} wants {zone}" for name, zone in each.items())
    return f"{wants}: leave shade beside the lit spot, so that each finds its own"


def _filled(text: str, tank: Tank, whom: str = _GROWN) -> str | None:
    known = tank.best.known
    own = {
        **in_shops(tank),
        "nitrate_said": _nitrate(tank),
        "spoons": _spoons(tank),
        "platform": _PLATFORMS.get(known.get("platform_kind", "")),
        "lid": _COVERS.get(known.get("cover_water", "")),
        "lid_size": in_shops(tank)["lid"],
        "screen": _COVERS.get(known.get("cover_basking", "")),
        "whom": by_number(whom, tank.several),
        "uv_zones": _zones(tank),
        "conditioned": _conditioned(tank),
    }

    def look(name: str) -> Any:
        return own[name] if name in own else tank.lookup(name)

    if "{substrate_mass}" in text and not known.get("substrate_depth"):
        return None
    return fill(by_number(text, tank.several), look, tank.unit_of, tank.system)


def sequence(planned: Tank) -> Iterator[str]:
    """The steps of setting up, in order."""
    bare = changed(planned, {"filter_seeded": "none"}).lookup("cycling_time")
    well = changed(planned, {"filter_seeded": "well"})

    def look(name: str) -> Any:
        return bare if name == "bare_cycling_time" else well.lookup(name)

    for step in _STEPS:
        text, meant = by_number(step, planned.several), {"bare_cycling_time": "cycling_time"}
        if said := fill(text, look, planned.unit_of, planned.system, meant):
            yield said
