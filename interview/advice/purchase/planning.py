"""Planning before buying: everything the tank needs, by specification.

Starts from the animals, the room and whatever the keeper has decided; takes the smallest
that serves now and grown, and lets the search mend what does not fit together. What is
bought is bought once; what is set, as water line, lamps and food, is set anew as they grow.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from typing import Any

import numpy as np

from interview.advice.levers.settings import settable
from interview.advice.levers.tanks_sold import sold_here
from interview.advice.purchase.foreseen import as_built, grown
from interview.advice.purchase.housing import KINDS, SIDES, furnished, housing, own_size, up
from interview.advice.purchase.larger_tank import RIM, larger_tank, needed
from interview.advice.purchase.listing import GUARD, ListingRow, rows, sequence
from interview.advice.purchase.preferences import (
    Pair,
    Refused,
    Wish,
    weigh_wishes,
    wish_of,
    wishes_of,
)
from interview.advice.purchase.sizing import WEEK, hung, least_heater, on_every_list, warmed_and_fed
from interview.advice.search.search import Search
from interview.advice.what_if.suppose import changed, same
from interview.audit.checks.findings import Finding
from interview.audit.checks.judging import judge
from interview.audit.checks.loader import all_checks
from interview.audit.grades import Grades, grade_all
from interview.audit.tank import Tank
from interview.care.facts import limit
from interview.core.errors import CannotWorkOut
from interview.vocabulary.phrases import in_words

__all__ = ["ListingRow", "Refused", "Specification", "own_answers", "sized_for", "specify"]

_SPARE_FLOW = 1.25  # a filter clogs between cleanings
_PIPES = 0.6  # share of the rated flow that hoses and media leave
_COSTS = frozenset({"free", "cheap", "buy"})
_SOONER = 1.1  # the filter runs this much longer than a slow start takes
_STRENGTHS = ("low", "high")
_LAMP = ("uvb_lamp_kind", "uvb_strength", "uvb_lamp_length")
_MOVES_THE_LAMP = ("water_line_below_rim", "platform_height_above_water")


@dataclass(frozen=True)
class Specification:
    """The list, the order of setting up, and the tank it describes.

    `settings` are the answers of that tank in core units, `later` those that differ once the
    animals are grown, `then` that tank. `kept` and `refused` are the keeper's own decisions
    that the list follows, and those it can't. `impossible` says why no tank of the trade
    serves, if none does: then nothing is said of the grown animals. The list is empty for
    animals no indoor tank serves.
    """

    rows: tuple[ListingRow, ...]
    sequence: tuple[str, ...]
    settings: Mapping[str, Any]
    tank: Tank
    impossible: str = ""
    later: Mapping[str, Any] = field(default_factory=dict)
    then: Tank | None = None
    kept: tuple[str, ...] = ()
    refused: tuple[Refused, ...] = ()

    @cached_property
    def findings(self) -> tuple[Finding, ...]:
        """What is found of the tank built as listed; () with an empty list."""
        built = as_built(self.tank)
        return tuple(judge(check, built) for check in all_checks()) if self.rows else ()

    @cached_property
    def grades(self) -> Grades | None:
        """The grades of the tank built as listed; None with an empty list."""
        return grade_all(self.findings) if self.rows else None


def specify(tank: Tank) -> Specification | None:
    """The specification for the tank's animals; None while the animals aren't known.

    Args:
        tank: a tank in planning: at least species, carapace_length and the room's warmth
    """
    if tank.lookup("adult_carapace_length") is None or tank.lookup("room_temperature_low") is None:
        return None
    if tank.lookup("too_large_indoors"):
        return Specification((), (), {}, tank, _too_large(tank))
    old = grown(tank)
    home, refused = _housed(tank, old)
    impossible = "" if home else larger_tank(tank)
    plan = _Plan(tank, old if home else tank, on_every_list(tank) | (home or _largest(tank)))
    plan.size()
    plan.mend()
    kept, more = plan.follow_wishes()
    plan.start_filter()
    now, later = plan.pair
    has = (GUARD,) if own_answers(tank).get("rcd") else ()
    return Specification(
        tuple(rows(now, None if impossible else later, has)),
        tuple(sequence(now)),
        {**plan.bought, **plan.now},
        now,
        impossible,
        {} if impossible else plan.changing(),
        None if impossible else later,
        tuple(kept),
        (*refused, *more),
    )


def _too_large(tank: Tank) -> str:
    grown_length = settable(float(tank.best.value("adult_carapace_length")), "m", tank.system)
    return (
        f"Please don't plan a tank for this animal: a female of its kind grows to "
        f"{in_words(grown_length, 'm', tank.system)} and lives for decades, and no indoor tank "
        "serves her grown. If a male is certain, name him as male; else a musk, mud or map turtle "
        "male stays small, and a reptile rescue knows of places with a pond."
    )


# ---- the tank


def _housed(tank: Tank, old: Tank) -> tuple[dict[str, Any] | None, list[Refused]]:
    """Tank, platform and water line: the keeper's own where they serve the grown animals."""
    refused: list[Refused] = []
    answered = own_answers(tank)
    kind = answered.get("platform_kind")
    own = own_size(tank) if set(SIDES) <= set(answered) else None
    kinds = (kind,) if kind in KINDS else KINDS
    mine = own and furnished(own, needed(tank), old, kinds)
    if own and not mine:
        mine = furnished(own, needed(tank), old)
        if not mine:
            wish = {side: tank.best.known[side] for side in SIDES}
            refused.append(Refused(wish_of(tank, wish), larger_tank(tank)))
    home = mine or housing(tank, old, kinds) or housing(tank, old)
    if kind and home and home["platform_kind"] != kind:
        refused.append(Refused(f"{tank.label_of('platform_kind')} {kind}", _no_room(tank, kind)))
    return home or None, refused


def own_answers(tank: Tank) -> dict[str, Any]:
    """The keeper's own answers, without what is assumed or was decided by a list."""
    return {n: v for n, v in tank.best.known.items() if n not in tank.assumed | tank.decided}


def sized_for(tank: Tank) -> dict[str, Any]:
    """What is usual, and what is sized for the very tank that the keeper has in mind.

    Its platform is left to the keeper. {} where their answers don't go together, as a water line
    below the bottom once the tank was answered anew: the audit says so.
    """
    line = own_answers(tank).get("water_line_below_rim", RIM)
    plan = _Plan(tank, grown(tank), on_every_list(tank) | {"water_line_below_rim": line})
    try:
        plan.size()
    except CannotWorkOut:
        return {}
    return {**plan.bought, **plan.now}


def _no_room(tank: Tank, kind: str) -> str:
    """Why a kind of platform is not on the list."""
    if kind == "none":
        return "Every turtle needs a dry place of its own."
    if kind in KINDS:
        return (
            "Under the cover it leaves the grown turtle too little headroom, or too little water "
            "below it."
        )
    return "Stones take swimming room and can slip or trap an animal; the list has another."


def _largest(tank: Tank) -> dict[str, Any]:
    """The largest tank sold, where none serves the grown animals: for the years until then."""
    size = sold_here(tank.system, tank.lookup("region"))[-1]
    length = float(np.max(tank.best.known["carapace_length"]))
    return {
        **dict(zip(SIDES, (size.length, size.width, size.height), strict=True)),
        "wall_thickness": size.wall_thickness,
        "water_line_below_rim": RIM,
        "platform_kind": "above_tank",
        "platform_height_above_water": RIM + 0.05,
        "platform_length": up(max(0.3, 3.0 * length), 0.01),
        "platform_width": up(max(0.2, 1.5 * length), 0.01),
    }


# ---- everything else


class _Plan:
    """What is bought, and what is set for the animals as they are and once they are grown."""

    def __init__(self, tank: Tank, old: Tank, bought: Mapping[str, Any]) -> None:
        self._young, self._old = tank, old
        self.bought = dict(bought)
        self.now: dict[str, Any] = {}
        self.later: dict[str, Any] = {}
        self._checks = [check for check in all_checks() if check.id != "cycling"]

    @property
    def pair(self) -> Pair:
        """The planned tank now and grown."""
        now = changed(self._young, {**self.bought, **self.now})
        return now, changed(self._old, {**self.bought, **self.later})

    def size(self) -> None:
        """Heater, filter, media, food and lamps, from what the tank loses and the animals eat."""
        self.now, self.later = map(warmed_and_fed, self.pair)
        count, power = self._heaters()
        volume = float(self.pair[0].best.value("water_volume"))
        turnover = limit("turnover_good")
        self.bought |= {
            "heater_count": float(count),
            "heater_power": float(power),
            "filter_rated_flow": up(turnover * _SPARE_FLOW * volume / _PIPES, 100e-3 / 3600),
            "media_volume": up(max(3e-3, 0.03 * volume), 0.5e-3),
            "feed_protein": 0.38,
        }
        self._hang_lamps(_STRENGTHS)

    def _heaters(self) -> tuple[int, int]:
        """Count and size of the least heaters for what the tank loses by now, young or grown."""
        losses = [float(tank.best.get("heat_loss") or 0.0) for tank in self.pair]
        return least_heater(max(1.0, *losses))

    def _hang_lamps(self, strengths: Iterable[str]) -> None:
        for name, now, later in hung(self.pair, strengths):
            self.bought["uvb_strength"] = name
            self.now["uvb_lamp_height"], self.later["uvb_lamp_height"] = now, later

    def mend(self) -> None:
        """What the search changes so that every check that can be judged is good.

        What the grown animals need is bought at once; what the young need besides too.
        """
        everything = frozenset(check.id for check in self._checks)
        for settings, turn, costs in (
            (self.later, 1, _COSTS),
            (self.now, 0, _COSTS),
            (self.later, 1, {"free"}),
        ):
            search = Search(self.pair[turn], self._checks, everything)
            for option in search.mend(frozenset(costs)).options:
                for name, value in option.changes.items():
                    where = settings if name in _FREE else self.bought
                    where[name] = value
        count, power = self._heaters()
        if count * power < self.bought["heater_count"] * self.bought["heater_power"]:
            self.bought |= {"heater_count": float(count), "heater_power": float(power)}

    def follow_wishes(self) -> tuple[list[str], list[Refused]]:
        """Take up the keeper's own decisions where they spoil nothing; which, and why not."""
        settings = {**self.bought, **self.now}
        asked = [w for w in wishes_of(self._young, settings) if not _of_the_tank(w)]
        kept, refused = weigh_wishes(self.pair, asked, self._checks, self._with_it, _FREE)
        for _, now, later in kept:
            self.bought |= {n: v for n, v in now.items() if n not in _FREE}
            self.now |= {n: v for n, v in now.items() if n in _FREE}
            self.later |= {n: v for n, v in later.items() if n in _FREE}

        def told(wish: Wish) -> str:
            return wish_of(self._young, wish)

        return [told(w) for w, *_ in kept], [Refused(told(w), why) for w, why in refused]

    def _with_it(self, pair: Pair, wish: Wish) -> tuple[Wish, Wish]:
        """The wish now and grown, with the UVB lamp hung anew where that is another matter now."""
        if not set(wish) & {*_LAMP, *_MOVES_THE_LAMP}:
            return wish, wish
        lit: Pair = changed(pair[0], wish), changed(pair[1], wish)
        strengths = (wish.get("uvb_strength") or pair[0].best.known["uvb_strength"],)
        for _, now, later in hung(lit, strengths):
            return {**wish, "uvb_lamp_height": now}, {**wish, "uvb_lamp_height": later}
        return wish, wish

    def changing(self) -> dict[str, Any]:
        """What is set otherwise once the animals are grown."""
        today = {**self.bought, **self.now}
        return {n: v for n, v in self.later.items() if not same(today.get(n), v)}

    def start_filter(self) -> None:
        """How long the filter runs before the animal comes."""
        slowest = self.pair[0].lookup("cycling_time_high")
        if slowest is not None:
            self.bought["filter_age"] = up(_SOONER * float(slowest), WEEK)


_FREE = frozenset(
    {
        *("water_line_below_rim", "heat_lamp_height"),
        *("uvb_lamp_height", "day_length", "water_temperature", "tap_temperature"),
        *("water_change_share", "water_change_interval", "feed_mass", "feeds_per_week"),
    }
)
"""What is set and not bought, and may be set otherwise once the animals are grown."""


def _of_the_tank(wish: Wish) -> bool:
    return bool(set(wish) & {*SIDES, "platform_kind"})
