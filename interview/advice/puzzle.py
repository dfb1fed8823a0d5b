"""Which levers: as few, then as cheap, as let every check reach its goal.

A set of levers that fails has a core: a few checks that no settings satisfy together. Any
larger set that works must hold a lever that reaches the core, so only those are added, the
most promising sets first. No set with fewer changes, or as many and cheaper ones, is missed.
"""

from __future__ import annotations

import heapq
import itertools
from collections.abc import Iterable, Iterator, Sequence
from functools import reduce
from typing import Any

import numpy as np
from numpy.typing import NDArray

from interview.advice.levels import Levels
from interview.advice.levers import cost_of
from interview.advice.trials import Levers, Trials

__all__ = ["Puzzle"]

_MOST_LOOKS = 600
_MOST_EQUAL = 4
_MOST_CELLS = 3_000_000
_Bools = NDArray[np.bool_]
_Bound = tuple[int, float]
"""Changes, and their cost."""


def _all_of(rooms: Sequence[_Bools]) -> _Bools:
    return reduce(np.logical_and, rooms)


class Puzzle:
    """The levers allowed, and for each check the worst level that will do (`goals`)."""

    def __init__(self, trials: Trials, allowed: Iterable[int], goals: Levels) -> None:
        self.trials, self.goals = trials, goals
        self.allowed = frozenset(allowed)
        self.costs = [cost_of(lever) for lever in trials.levers]
        self._targets = np.flatnonzero(trials.base > goals).tolist()
        self._reach_by = [set(np.flatnonzero(column).tolist()) for column in trials.reach.T]
        self._lost: dict[Levers, list[int]] = {}
        self._reaching: dict[Levers, list[Levers]] = {}
        self._held: dict[tuple[int, Levers], tuple[_Bools, bool]] = {}
        self._rooms: dict[Any, _Bools] = {}
        self._helpers = [
            frozenset(n for n in self.allowed if trials.reach[n, c] and self._meant(n, c))
            for c in range(len(trials.checks))
        ]

    def helpers(self, check: int) -> frozenset[int]:
        """The levers that may be used for the check."""
        return self._helpers[check]

    def _meant(self, lever: int, check: int) -> bool:
        return self.trials.levers[lever].meant_for(self.trials.checks[check].id)

    def solve(self) -> list[Levers]:
        """The sets of fewest changes and least cost that work, a few of them; [] if none does."""
        found: list[tuple[_Bound, Levers]] = []
        order = itertools.count()
        heap: list[tuple[_Bound, int, Levers, frozenset[int]]] = []
        self._push(heap, order, (), frozenset())
        for _ in range(_MOST_LOOKS):
            if not heap or len(found) >= _MOST_EQUAL or (found and heap[0][0] > found[0][0]):
                break
            bound, _, chosen, barred = heapq.heappop(heap)
            core = self.core(chosen)
            if not core:
                found.append((bound, chosen))
            for lever, rest in self._branches(core, chosen, barred):
                self._push(heap, order, tuple(sorted((*chosen, lever))), rest)
        return [chosen for _, chosen in found]

    def trimmed(self, chosen: Levers) -> Levers:
        """The levers without those that can be spared, the others set anew; the dearest first."""
        for lever in sorted(chosen, key=lambda n: -self.costs[n]):
            fewer = tuple(n for n in chosen if n != lever)
            if not self.core(fewer):
                chosen = fewer
        return chosen

    def _push(
        self, heap: Any, order: Iterator[int], chosen: Levers, barred: frozenset[int]
    ) -> None:
        more = self._at_least(chosen, barred)
        if more is not None:
            cost = sum(self.costs[n] for n in chosen)
            bound = len(chosen) + more[0], round(cost + more[1], 6)
            heapq.heappush(heap, (bound, next(order), chosen, barred))

    def _branches(
        self, core: Sequence[int], chosen: Levers, barred: frozenset[int]
    ) -> Iterator[tuple[int, frozenset[int]]]:
        """The levers to add, each barring the ones before it, so that no set comes twice."""
        levers = frozenset().union(*(self._helpers[c] for c in core)) - barred - set(chosen)
        for lever in sorted(levers, key=lambda n: (self.costs[n], n)):
            yield lever, barred
            barred |= {lever}

    def _at_least(self, chosen: Levers, barred: frozenset[int]) -> _Bound | None:
        """Changes and cost still to come: checks that fail alone and share no helper.

        None where a failing check has no helper left.
        """
        failing = self._targets_failing(chosen)
        left = [self._helpers[c] - barred - set(chosen) for c in failing]
        used: set[int] = set()
        count, cost = 0, 0.0
        for helpers in sorted(left, key=len):
            if not helpers:
                return None
            if not helpers & used:
                used |= helpers
                count, cost = count + 1, cost + min(self.costs[n] for n in helpers)
        return count, cost

    # ---- what fails

    def core(self, chosen: Levers) -> tuple[int, ...]:
        """A few checks that no settings of the levers satisfy together; () if all can be."""
        failing = self._targets_failing(chosen) or self._failing(chosen, range(len(self.goals)))
        if failing:
            return (min(failing, key=lambda c: len(self._helpers[c] - set(chosen))),)
        binding = self._at_odds(chosen)
        for check in list(binding):
            fewer = [c for c in binding if c != check]
            if not self.room(chosen, fewer).any():
                binding = fewer
        return tuple(binding)

    def _at_odds(self, chosen: Levers) -> list[int]:
        """Checks that no settings satisfy together, groups of them left out where that does."""
        hubs = tuple(n for n in chosen if n in self.trials.hubs)
        groups = list(self._groups(chosen, hubs, self._binding(chosen)))
        rooms = [self._group_room(hubs, group, among) for group, among in groups]
        if not rooms or _all_of(rooms).any():
            return []
        kept = list(range(len(rooms)))
        for number in list(kept):
            fewer = [n for n in kept if n != number]
            if fewer and not _all_of([rooms[n] for n in fewer]).any():
                kept = fewer
        return [check for n in kept for check in groups[n][1]]

    def _binding(self, chosen: Levers) -> list[int]:
        """The checks that some setting of the levers breaks."""
        checks = range(len(self.goals))
        return [c for c in checks if not self.holds(c, self.reaching(c, chosen)).all()]

    def _targets_failing(self, chosen: Levers) -> list[int]:
        if chosen not in self._lost:
            self._lost[chosen] = self._failing(chosen, self._targets)
        return self._lost[chosen]

    def _failing(self, chosen: Levers, checks: Iterable[int]) -> list[int]:
        """Those of the checks that fail at every setting, whatever the others need."""
        return [c for c in checks if not self._held_at(c, self.reaching(c, chosen))[1]]

    def reaching(self, check: int, chosen: Levers) -> Levers:
        """Those of the levers that reach the check."""
        if chosen not in self._reaching:
            self._reaching[chosen] = [
                tuple(n for n in chosen if n in reaching) for reaching in self._reach_by
            ]
        return self._reaching[chosen][check]

    def _held_at(self, check: int, levers: Levers) -> tuple[_Bools, bool]:
        """Where the check reaches its goal over the levers' settings, and whether anywhere."""
        key = check, levers
        if key not in self._held:
            held = np.asarray(self.trials.table(check, levers) <= self.goals[check])
            self._held[key] = held, bool(held.any())
        return self._held[key]

    def holds(self, check: int, levers: Levers) -> _Bools:
        """Where the check reaches its goal over the settings of levers that all reach it."""
        return self._held_at(check, levers)[0]

    # ---- settings that satisfy several checks

    def room(self, chosen: Levers, checks: Sequence[int] | None = None) -> _Bools:
        """For each setting of the hubs among the levers: whether all the checks can be met."""
        hubs = tuple(n for n in chosen if n in self.trials.hubs)
        checks = self._binding(chosen) if checks is None else checks
        room = np.ones([self.trials.count(n) for n in hubs], dtype=bool)
        for group, among in self._groups(chosen, hubs, checks):
            room = room & self._group_room(hubs, group, among)
        return room

    def _groups(
        self, chosen: Levers, hubs: Levers, checks: Sequence[int]
    ) -> Iterator[tuple[Levers, tuple[int, ...]]]:
        """The other levers, together where a check needs both, with those checks."""
        left = {c: frozenset(self.reaching(c, chosen)) - set(hubs) for c in checks}
        while left:
            start = next(iter(left))
            group, among = set(left[start]), {start}
            grown = True
            while grown:
                near = {c for c, levers in left.items() if levers & group} | among
                grown = near != among
                among = near
                group = group.union(*(left[c] for c in near))
            for check in among:
                del left[check]
            yield tuple(sorted(group)), tuple(sorted(among))

    def groups(self, chosen: Levers) -> Iterator[tuple[Levers, tuple[int, ...]]]:
        """The levers besides the hubs, together where a check binds both, with those checks."""
        hubs = tuple(n for n in chosen if n in self.trials.hubs)
        yield from self._groups(chosen, hubs, self._binding(chosen))

    def _group_room(self, hubs: Levers, group: Levers, checks: tuple[int, ...]) -> _Bools:
        key = hubs, group, checks
        if key not in self._rooms:
            whole = self.held_together((*hubs, *group), checks)
            self._rooms[key] = np.asarray(whole.any(axis=tuple(range(len(hubs), whole.ndim))))
        return self._rooms[key]

    def held_together(self, axes: Levers, checks: Sequence[int]) -> _Bools:
        """Where all the checks reach their goals, over the settings of the levers as axes."""
        shape = [self.trials.count(n) for n in axes]
        if np.prod(shape, dtype=float) > _MOST_CELLS:
            return np.zeros([1] * len(axes), dtype=bool)
        whole = np.ones(shape, dtype=bool)
        for check in checks:
            levers = self.reaching(check, tuple(sorted(axes)))
            held = self._held_at(check, levers)[0]
            order = [n for n in axes if n in levers]
            held = held.transpose([levers.index(n) for n in order])
            sizes = [self.trials.count(n) if n in levers else 1 for n in axes]
            whole &= held.reshape(sizes)
        return whole
