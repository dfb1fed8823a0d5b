"""The fewest and cheapest changes after which every check that can be mended is.

First: how far each check can be brought at all. Then the smallest, cheapest sets of levers
that bring all of them there and spoil nothing; where they can't all be met, the gravest
first. Last: the settings, as sure as can be.
"""

from __future__ import annotations

import itertools
from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from interview.advice.levels import DANGER, NEEDS_CHANGE, OPEN, WORSE, Levels
from interview.advice.levers import Option, cost_of
from interview.advice.puzzle import Puzzle
from interview.advice.reasons import reasons
from interview.advice.settling import settle, surest
from interview.advice.suppose import changed
from interview.advice.trials import Levers, Trials, merged
from interview.audit.checks import Check
from interview.audit.judge import Tank

__all__ = ["Mend", "Search", "merged"]

_MOST_ALONE = 3
"""Levers that are tried together on one check, to see how far it can be brought."""


@dataclass(frozen=True)
class Mend:
    """Settings to change, and the checks that still need a change afterwards.

    `against` names, for a check that is left, the checks it can't be brought in line with.
    """

    options: tuple[Option, ...]
    left: tuple[str, ...]
    against: tuple[tuple[str, ...], ...] = ()

    @property
    def cost(self) -> float:
        """Cost of all changes on the common scale."""
        return sum(cost_of(option.lever) for option in self.options)


class Search:
    """The levers of one tank; `mend` combines those whose cost one accepts."""

    def __init__(
        self, tank: Tank, checks: Sequence[Check], wanted: frozenset[str] | None = None
    ) -> None:
        self.tank, self.checks = tank, tuple(checks)
        self.wanted = reasons(tank, checks) if wanted is None else wanted
        """Ids of the checks that are a reason to change something."""
        self._floor: Levels | None = None
        self._grave = False
        """Whether what is no danger may get worse, because a danger can't be ended otherwise."""

    @cached_property
    def trials(self) -> Trials:
        """What each lever does to each check."""
        return Trials(self.tank, self.checks)

    def mend(self, costs: frozenset[str], floor: Sequence[Option] = ()) -> Mend:
        """The smallest set of changes among levers of the given cost classes.

        `floor` are the changes of a cheaper plan: what they mend is mended here too.
        """
        self._floor = self.trials.levels_with(floor) if floor else None
        first = self._ending_dangers(self._mended(costs), costs)
        if not first.left or not first.options:
            return first
        return self._with_more_levers(first, costs)

    def _ending_dangers(self, first: Mend, costs: frozenset[str]) -> Mend:
        """The mend, or one that ends more dangers at the cost of what is none."""
        if not self._dangers_after(first.options):
            return first
        self._grave = True
        other = self._mended(costs)
        self._grave = False
        fewer = self._dangers_after(other.options) < self._dangers_after(first.options)
        return other if fewer else first

    def _dangers_after(self, options: Sequence[Option]) -> int:
        after = self.trials.levels_with(options) if options else self.trials.base
        return int((after >= DANGER).sum())

    def ending(self, options: tuple[Option, ...]) -> tuple[Option, ...]:
        """The options without which a danger stays; of two ways the cheaper one."""
        least = self._dangers_after(options)
        for option in sorted(options, key=lambda o: -cost_of(o.lever)):
            fewer = tuple(o for o in options if o is not option)
            if self._dangers_after(fewer) <= least:
                options = fewer
        return options

    def with_only(self, mend: Mend, options: tuple[Option, ...]) -> Mend:
        """The mend with some of its options only, and what is left then."""
        left = self._left(self.trials.levels_with(options))
        return Mend(options, tuple(self.checks[check].id for check in left), mend.against)

    def reaching(self, options: Sequence[Option], checks: Collection[str]) -> list[Option]:
        """The options that one of the checks may feel."""
        columns = [c for c, check in enumerate(self.checks) if check.id in checks]
        rows = {
            lever.name: row
            for lever, row in zip(self.trials.levers, self.trials.reach, strict=True)
        }
        return [o for o in options if o.lever.name in rows and rows[o.lever.name][columns].any()]

    @property
    def dangers(self) -> frozenset[str]:
        """Ids of the checks that are dangerous at best values today."""
        levels = zip(self.checks, self.trials.base, strict=True)
        return frozenset(check.id for check, level in levels if level >= DANGER)

    def _with_more_levers(self, first: Mend, costs: frozenset[str]) -> Mend:
        """Some levers only apply once another is set: search again on the mended tank."""
        again = Search(changed(self.tank, merged(first.options)), self.checks, self.wanted)
        if not again._helped_by_others(self, first.left, costs):
            return first
        more = again._mended(costs)
        if len(more.left) >= len(first.left):
            return first
        named = {option.lever.name: option for option in (*first.options, *more.options)}
        return Mend(self.needed(tuple(named.values())), more.left, more.against)

    def needed(
        self, options: tuple[Option, ...], wanted: frozenset[str] | None = None
    ) -> tuple[Option, ...]:
        """The options without which something wanted gets worse, the dearest tried first."""
        whole = self.trials.levels_with(options)
        for option in sorted(options, key=lambda o: -cost_of(o.lever)):
            fewer = tuple(o for o in options if o is not option)
            without = self.trials.levels_with(fewer)
            if not self._worse(without, whole, wanted or self.wanted):
                options, whole = fewer, np.minimum(without, whole)
        return options

    def _worse(self, without: Levels, whole: Levels, wanted: frozenset[str]) -> bool:
        """Whether a wanted check is worse without, or another worse than today."""
        asked = np.array([check.id in wanted for check in self.checks])
        others = np.maximum(whole, self._today())
        return bool((without > np.where(asked, np.maximum(whole, OPEN), others)).any())

    def _today(self) -> Levels:
        return np.maximum(self.trials.base, OPEN)

    def _helped_by_others(self, before: Search, left: Sequence[str], costs: frozenset[str]) -> bool:
        """Whether a lever that did not apply before betters a check that is left."""
        known = {lever.name for lever in before.trials.levers}
        columns = [c for c, check in enumerate(self.checks) if check.id in left]
        return any(
            self.trials.reach[n, c]
            and lever.meant_for(self.checks[c].id)
            and self.trials.table(c, (n,)).min() < self.trials.base[c]
            for n, lever in enumerate(self.trials.levers)
            if lever.cost in costs and lever.name not in known
            for c in columns
        )

    def _mended(self, costs: frozenset[str]) -> Mend:
        allowed = [n for n, lever in enumerate(self.trials.levers) if lever.cost in costs]
        goals = self._within_reach(allowed)
        puzzle = Puzzle(self.trials, allowed, goals)
        sets = [] if self._grave else puzzle.solve()
        if not sets:
            puzzle, sets = self._gravest_first(allowed, goals)
            sets = [puzzle.trimmed(chosen) for chosen in sets]
        settled = [settle(self.trials, puzzle, chosen) for chosen in sets]
        options = self.needed(surest(self.trials, settled))
        left = self._left(self.trials.levels_with(options))
        against = tuple(self._against(puzzle, sets[0], check) for check in left)
        names = tuple(self.checks[check].id for check in left)
        return Mend(options, names, tuple(names for names in against if names))

    def _left(self, after: Levels) -> list[int]:
        wanted = [c for c, check in enumerate(self.checks) if check.id in self.wanted]
        return [c for c in wanted if after[c] >= NEEDS_CHANGE]

    # ---- goals

    def _kept(self) -> Levels:
        """Goals that spoil nothing: what is fine stays fine, what is not gets no worse."""
        kept = self._today()
        if self._grave:
            return np.where(kept >= DANGER, kept, WORSE).astype(kept.dtype)
        return kept if self._floor is None else np.minimum(kept, np.maximum(self._floor, OPEN))

    def _within_reach(self, allowed: Sequence[int]) -> Levels:
        """For each check the best level it can be brought to, whatever becomes of the others."""
        goals = self._today() if self._grave else self._kept()
        puzzle = Puzzle(self.trials, allowed, goals)
        for check in self._left(goals):
            goals[check] = self._best_alone(check, puzzle.helpers(check))
        return goals

    def _best_alone(self, check: int, helpers: Iterable[int]) -> int:
        best = int(self.trials.base[check])
        for size in range(1, _MOST_ALONE + 1):
            for levers in itertools.combinations(sorted(helpers), size):
                best = min(best, max(int(self.trials.table(check, levers).min()), OPEN))
                if best < NEEDS_CHANGE:
                    return best
        return best

    def _gravest_first(self, allowed: Sequence[int], wanted: Levels) -> tuple[Puzzle, list[Levers]]:
        """Goal after goal, dangers and weighty checks first; what can't be met is dropped."""
        goals = self._kept()
        left = sorted(
            np.flatnonzero(wanted < goals).tolist(),
            key=lambda c: (goals[c] < DANGER, -self.checks[c].weight, -int(goals[c])),
        )
        puzzle = Puzzle(self.trials, allowed, goals)
        sets: list[Levers] = [()] if self._floor is None else puzzle.solve()
        if not sets:  # what the cheaper plan did takes levers that only apply after others
            puzzle, sets = Puzzle(self.trials, allowed, self._today()), [()]
        while left:
            met, puzzle, sets = self._first_met(puzzle, sets, left, wanted)
            if met < len(left):
                puzzle, sets = self._halfway(puzzle, sets, left[met], int(wanted[left[met]]))
            left = left[met + 1 :]
        return puzzle, sets

    def _first_met(
        self, puzzle: Puzzle, sets: list[Levers], left: Sequence[int], wanted: Levels
    ) -> tuple[int, Puzzle, list[Levers]]:
        """How many more goals, from the first on, can be met together: by halving."""
        met, failed = 0, len(left) + 1
        while failed - met > 1:
            tried = (met + failed) // 2
            goals = puzzle.goals.copy()
            goals[list(left[:tried])] = wanted[list(left[:tried])]
            better = Puzzle(self.trials, puzzle.allowed, goals)
            if found := better.solve():
                met, puzzle, sets = tried, better, found
            else:
                failed = tried
        return met, puzzle, sets

    def _halfway(
        self, puzzle: Puzzle, sets: list[Levers], check: int, wanted: int
    ) -> tuple[Puzzle, list[Levers]]:
        """A check that can't be brought all the way, brought as far as it can be."""
        for level in range(wanted + 1, int(puzzle.goals[check])):
            goals = puzzle.goals.copy()
            goals[check] = level
            better = Puzzle(self.trials, puzzle.allowed, goals)
            if found := better.solve():
                return better, found
        return puzzle, sets

    # ---- why not

    def _against(self, puzzle: Puzzle, chosen: Levers, check: int) -> tuple[str, ...]:
        """A check that a lever could mend, and those that it would then cost; () if none could.

        Of several levers the one whose clash is plainest: few checks, of the same section.
        """
        goals = puzzle.goals.copy()
        goals[check] = OPEN
        wanted = Puzzle(self.trials, puzzle.allowed, goals)
        found: list[tuple[tuple[int, int], list[int]]] = []
        for lever in sorted(wanted.helpers(check)):
            if self.trials.table(check, (lever,)).min() < NEEDS_CHANGE:
                core = wanted.core(tuple(sorted({*chosen, lever})))
                if len(core) > 1 and check in core:
                    others = [c for c in core if c != check]
                    found.append(((len(others), self._strangers(check, others)), others))
        if not found:
            return ()
        _, others = min(found, key=lambda pair: pair[0])
        return tuple(self.checks[c].id for c in (check, *others))

    def _strangers(self, check: int, others: Iterable[int]) -> int:
        """How many of the others belong to another section of the page."""
        return sum(self.checks[c].section != self.checks[check].section for c in others)
