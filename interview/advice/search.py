"""The fewest and cheapest changes after which every check that can be mended is.

Targets are the checks that need a change. Every lever is tried alone first. Targets that
no lever connects are mended apart; connected ones together, over every set of levers that
reaches all of them, the smallest and cheapest sets first. The water line touches nearly
everything, so each of its settings is tried with everything else searched afresh.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Any, TypeAlias

import numpy as np
from numpy.typing import NDArray

from interview.advice.levels import NEEDS_CHANGE, levels, reached_by
from interview.advice.levers import Lever, Option, all_levers, cost_of, options_of
from interview.advice.suppose import changed, moved_answers
from interview.audit.checks import Check
from interview.audit.judge import Tank

__all__ = ["Mend", "Search", "merged"]

HUB = "water_line_below_rim"
_MOST_TOGETHER = 4
_MOST_SETTINGS = 12
_MOST_SETS = 300
_SPOILED = 1000.0
_Levels: TypeAlias = NDArray[np.int64]
_Worth: TypeAlias = tuple[float, float, float, float]


@dataclass(frozen=True)
class Mend:
    """Settings to change, and the checks that still need a change afterwards."""

    options: tuple[Option, ...]
    left: tuple[str, ...]
    worth: _Worth

    @property
    def cost(self) -> float:
        """Cost of all changes on the common scale."""
        return sum(cost_of(option.lever) for option in self.options)


@dataclass(frozen=True)
class _Tried:
    """One lever tried alone: its settings and the levels after each."""

    lever: Lever
    options: tuple[Option, ...]
    after: _Levels


def merged(options: Iterable[Option]) -> dict[str, Any]:
    """The answers that several settings give together."""
    return {name: value for option in options for name, value in option.changes.items()}


class Search:
    """The levers of one tank, each tried alone once; `mend` combines those one accepts."""

    def __init__(
        self,
        tank: Tank,
        checks: Sequence[Check],
        before: Search | None = None,
        fixed: Option | None = None,
    ) -> None:
        """Search on the tank; or, `before` it, with one setting changed already (`fixed`)."""
        self.checks = checks
        self.fixed = (fixed,) if fixed else ()
        self.tank = changed(tank, fixed.changes) if fixed else tank
        self.base: _Levels = levels(self.tank, checks, [{}])[0]
        self.origin: _Levels = before.base if before else self.base
        self._before = before
        levers = (lever for lever in all_levers() if not fixed or lever is not fixed.lever)
        self.tried = [t for t in map(self._try, levers) if t]
        self._with_hub: dict[int, Search] = {}

    def _try(self, lever: Lever) -> _Tried | None:
        known = self._known_from_before(lever)
        if known:
            return known
        options = tuple(options_of(lever, self.tank))
        if not options:
            return None
        after = levels(self.tank, self.checks, [o.changes for o in options], self.base)
        return _Tried(lever, options, after)

    def _known_from_before(self, lever: Lever) -> _Tried | None:
        """What the lever did before the fixed setting, where the two reach no check together."""
        if self._before is None:
            return None
        old = next((t for t in self._before.tried if t.lever is lever), None)
        if old is None:
            return None
        reach = reached_by(self.checks, self.tank, {n for o in old.options for n in o.changes})
        moved = {n for o in self.fixed for n in moved_answers(self._before.tank, o.changes)}
        if (reach & reached_by(self.checks, self.tank, moved)).any():
            return None
        return _Tried(lever, old.options, np.where(reach, old.after, self.base))

    # ---- the whole mend

    def mend(self, costs: frozenset[str]) -> Mend:
        """The smallest set of changes among levers of the given cost classes."""
        best = self._without_hub(costs)
        for search in self._hub_settings(costs):
            found = search._without_hub(costs)
            if found.worth < best.worth:
                best = found
        return self._looked_at_again(best, costs)

    def _looked_at_again(self, mend: Mend, costs: frozenset[str]) -> Mend:
        """Some levers only help once another is set: search again on the mended tank."""
        while mend.left and mend.options:
            again = Search(changed(self.tank, merged(mend.options)), self.checks)
            more = {o.lever.name: o for o in again._without_hub(costs).options}
            both = tuple(({o.lever.name: o for o in mend.options} | more).values())
            found = self._weighed(both)
            if found.worth >= mend.worth:
                break
            mend = found
        return mend

    def _without_hub(self, costs: frozenset[str]) -> Mend:
        """Mend group by group, again while one group's mend leaves something for another."""
        chosen: dict[str, Option] = {option.lever.name: option for option in self.fixed}
        usable = [t for t in self.tried if t.lever.cost in costs and t.lever.name != HUB]
        for group in self._groups(usable):
            chosen |= {o.lever.name: o for o in self._best_for(group, usable)}
        return self._weighed(tuple(chosen.values()))

    def _weighed(self, options: tuple[Option, ...]) -> Mend:
        own = [option for option in options if option not in self.fixed]
        after = levels(self.tank, self.checks, [merged(own)], self.base)[0]
        left = tuple(c.id for c, n in zip(self.checks, after, strict=True) if n >= NEEDS_CHANGE)
        return Mend(options, left, _worth(self._badness(after[None, :])[0], options))

    def _hub_settings(self, costs: frozenset[str]) -> Iterator[Search]:
        """The tank at each water line worth trying: one that mends what else can't, or two."""
        hub = next((t for t in self.tried if t.lever.name == HUB), None)
        if hub is None or hub.lever.cost not in costs:
            return
        mends = (hub.after < NEEDS_CHANGE) & (self.base >= NEEDS_CHANGE)
        others = [t for t in self.tried if t is not hub and t.lever.cost in costs]
        elsewhere = np.zeros(len(self.checks), dtype=bool)
        for tried in others:
            elsewhere |= (tried.after < NEEDS_CHANGE).any(axis=0)
        mended = mends.sum(axis=1)
        spoiled = ((hub.after >= NEEDS_CHANGE) & (hub.after > self.base)).sum(axis=1)
        worth_it = (mended > 1) | (mends & ~elsewhere).any(axis=1)
        worthy = [n for n in np.argsort(spoiled - mended, kind="stable") if worth_it[n]]
        for number in worthy[:_MOST_SETTINGS]:
            if number not in self._with_hub:
                option = hub.options[number]
                self._with_hub[number] = Search(self.tank, self.checks, self, option)
            yield self._with_hub[number]

    # ---- groups of targets that share levers

    @cached_property
    def _targets(self) -> frozenset[int]:
        return frozenset(np.flatnonzero(self.base >= NEEDS_CHANGE).tolist())

    def _helps(self, tried: _Tried, column: int) -> bool:
        meant = tried.lever.meant_for(self.checks[column].id)
        return meant and bool((tried.after[:, column] < self.base[column]).any())

    def _touches(self, tried: _Tried) -> set[int]:
        """Checks that some setting of the lever makes better or worse."""
        return set(np.flatnonzero((tried.after != self.base).any(axis=0)).tolist())

    def _groups(self, usable: list[_Tried]) -> Iterator[list[int]]:
        """Targets that no lever connects are mended apart."""
        left = {c for c in self._targets if any(self._helps(t, c) for t in usable)}
        while left:
            group: set[int] = set()
            border = {left.pop()}
            while border:
                group |= border
                helpful = [t for t in usable if any(self._helps(t, c) for c in border)]
                border = set().union(*(self._touches(t) for t in helpful)) & left
                left -= border
            yield sorted(group)

    def _best_for(self, group: list[int], usable: list[_Tried]) -> tuple[Option, ...]:
        """The smallest, then cheapest, then least moving settings for a group of targets."""
        helpful = [t for t in usable if any(self._helps(t, column) for column in group)]
        repairs = self._repairs(helpful, usable)
        nothing: tuple[Option, ...] = ()
        best = _worth(self._badness(self.base[None, :])[0], nothing), nothing
        for size in range(1, min(_MOST_TOGETHER, len(group) + 1) + 1):
            for sets in self._sets(helpful, repairs, group, size):
                best = min(best, self._best_setting(sets), key=lambda pair: pair[0])
                if self._mends_all(best[0], group):
                    return best[1]
        return self._greedy(best, helpful, usable)

    def _mends_all(self, worth: _Worth, group: list[int]) -> bool:
        """Whether what is left of badness lies outside the group."""
        outside = np.array([c for c in range(len(self.checks)) if c not in group])
        rest = self.base.copy()
        rest[group] = 0
        return len(outside) == 0 or worth[0] <= self._badness(rest[None, :])[0] + 1e-9

    def _repairs(self, helpful: list[_Tried], usable: list[_Tried]) -> list[_Tried]:
        """Levers that touch what the helpful ones may spoil."""
        spoiled: set[int] = set()
        for tried in helpful:
            worse = (tried.after >= NEEDS_CHANGE) & (tried.after > self.base)
            spoiled |= set(np.flatnonzero(worse.any(axis=0)).tolist())
        return [t for t in usable if t not in helpful and self._touches(t) & spoiled]

    def _sets(
        self, helpful: list[_Tried], repairs: list[_Tried], group: list[int], size: int
    ) -> Iterator[list[tuple[_Tried, ...]]]:
        """Sets of levers that reach every target of the group, in batches of rising cost."""
        reaching = [
            levers
            for levers in itertools.combinations([*helpful, *repairs], size)
            if all(any(self._helps(t, column) for t in levers) for column in group)
        ]
        reaching.sort(key=_cost_of_set)
        for _, batch in itertools.groupby(reaching[:_MOST_SETS], key=_cost_of_set):
            yield list(batch)

    def _greedy(
        self,
        best: tuple[_Worth, tuple[Option, ...]],
        helpful: list[_Tried],
        usable: list[_Tried],
    ) -> tuple[Option, ...]:
        """Where no small set mends all: the best single setting, then the next, while it helps."""
        worth, chosen = best
        while True:
            taken = {option.lever.name for option in chosen}
            free = [t for t in helpful if t.lever.name not in taken]
            found = [self._best_setting([(t,)], chosen) for t in free]
            step = min(found, key=lambda pair: pair[0], default=(worth, chosen))
            if step[0][0] >= worth[0] - 1e-9:
                return chosen
            worth, chosen = step

    # ---- settings of a set of levers

    def _best_setting(
        self, sets: list[tuple[_Tried, ...]], given: tuple[Option, ...] = ()
    ) -> tuple[_Worth, tuple[Option, ...]]:
        best: tuple[_Worth, tuple[Option, ...]] = ((np.inf,) * 4, ())
        for levers in sets:
            combos = [(*given, *combo) for combo in self._combos(levers)]
            if not combos:
                continue
            after = levels(self.tank, self.checks, [merged(c) for c in combos], self.base)
            badness = self._badness(after)
            for row in np.flatnonzero(badness <= badness.min() + 1e-9):
                worth = _worth(badness[row], combos[row])
                if worth < best[0]:
                    best = worth, combos[row]
        return best

    def _combos(self, levers: tuple[_Tried, ...]) -> Iterator[tuple[Option, ...]]:
        """Every combination of settings; settings that spoil what no other touches left out."""
        lists = []
        for tried in levers:
            others = set().union(*(self._touches(t) for t in levers if t is not tried))
            keep = [
                option
                for option, row in zip(tried.options, tried.after, strict=True)
                if len(levers) == 1 or self._spoils(row) <= others
            ]
            lists.append(_thinned(keep))
        return itertools.product(*lists)

    def _spoils(self, row: _Levels) -> set[int]:
        worse = (row >= NEEDS_CHANGE) & (row > self.base)
        return set(np.flatnonzero(worse).tolist())

    def _badness(self, rows: _Levels) -> NDArray[np.float64]:
        """How bad each row of levels is: weights of what needs a change, tenfold each level.

        What was fine before the mend and no longer is counts far more than what is left.
        """
        weights = np.array([check.weight for check in self.checks], dtype=float)
        bad = np.where(rows >= NEEDS_CHANGE, 10.0 ** (rows - NEEDS_CHANGE), 0.0)
        spoiled = (rows >= NEEDS_CHANGE) & (rows > self.origin)
        bad = np.where(spoiled, bad * _SPOILED, bad)
        total: NDArray[np.float64] = bad @ weights
        return total


def _worth(badness: float, options: Sequence[Option]) -> _Worth:
    """Badness first, then how many changes, what they cost, how far they move."""
    cost = sum(cost_of(option.lever) for option in options)
    return float(badness), float(len(options)), cost, sum(option.steps for option in options)


def _cost_of_set(levers: tuple[_Tried, ...]) -> float:
    return sum(cost_of(tried.lever) for tried in levers)


def _thinned(options: list[Option]) -> list[Option]:
    """At most so many settings, evenly over their range."""
    if len(options) <= _MOST_SETTINGS:
        return options
    ordered = sorted(options, key=lambda option: _first_number(option.changes))
    picked = np.linspace(0, len(ordered) - 1, _MOST_SETTINGS).round().astype(int)
    return [ordered[index] for index in dict.fromkeys(picked.tolist())]


def _first_number(changes: Mapping[str, Any]) -> float:
    value = next(iter(changes.values()))
    return float(value) if isinstance(value, int | float) else 0.0
