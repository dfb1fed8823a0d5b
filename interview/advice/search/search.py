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

from interview.advice.levers.levers import Option, all_levers, cost_of, options_of
from interview.advice.search.implicit_hitting_set import ImplicitHittingSet
from interview.advice.search.robust_settings import most_robust, robust_settings
from interview.advice.search.severity_tables import Levers, SeverityTables, merged
from interview.advice.search.worth_changing import worth_changing
from interview.advice.what_if.severity import DANGER, NEEDS_CHANGE, OPEN, WORSE, Severities
from interview.advice.what_if.suppose import changed
from interview.audit.checks.check import Check
from interview.audit.tank import Tank

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
        self.wanted = worth_changing(tank, checks) if wanted is None else wanted
        """Ids of the checks that are a reason to change something."""
        self._floor: Severities | None = None
        self._grave = False
        """Whether what is no danger may get worse, because a danger can't be ended otherwise."""

    @cached_property
    def tables(self) -> SeverityTables:
        """What each lever does to each check."""
        return SeverityTables(self.tank, self.checks)

    def mend(self, costs: frozenset[str], floor: Sequence[Option] = ()) -> Mend:
        """The smallest set of changes among levers of the given cost classes.

        `floor` are the changes of a cheaper plan: what they mend is mended here too.
        """
        self._floor = self.tables.severities_with(floor) if floor else None
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
        after = self.tables.severities_with(options) if options else self.tables.base
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
        left = self._left(self.tables.severities_with(options))
        return Mend(options, tuple(self.checks[check].id for check in left), mend.against)

    def reaching(self, options: Sequence[Option], checks: Collection[str]) -> list[Option]:
        """The options that one of the checks may feel."""
        columns = [c for c, check in enumerate(self.checks) if check.id in checks]
        rows = {
            lever.name: row
            for lever, row in zip(self.tables.levers, self.tables.reach, strict=True)
        }
        return [o for o in options if o.lever.name in rows and rows[o.lever.name][columns].any()]

    @property
    def dangers(self) -> frozenset[str]:
        """Ids of the checks that are dangerous at best values today."""
        severities = zip(self.checks, self.tables.base, strict=True)
        return frozenset(check.id for check, severity in severities if severity >= DANGER)

    def _with_more_levers(self, first: Mend, costs: frozenset[str]) -> Mend:
        """Some levers only apply once another is set: search again on the mended tank."""
        after = changed(self.tank, merged(first.options))
        if not self._others_apply(after, costs):
            return first
        again = Search(after, self.checks, self.wanted)
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
        whole = self.tables.severities_with(options)
        for option in sorted(options, key=lambda o: -cost_of(o.lever)):
            fewer = tuple(o for o in options if o is not option)
            without = self.tables.severities_with(fewer)
            if not self._worse(without, whole, wanted or self.wanted):
                options, whole = fewer, np.minimum(without, whole)
        return options

    def _worse(self, without: Severities, whole: Severities, wanted: frozenset[str]) -> bool:
        """Whether a wanted check is worse without, or another worse than today."""
        asked = np.array([check.id in wanted for check in self.checks])
        others = np.maximum(whole, self._today())
        return bool((without > np.where(asked, np.maximum(whole, OPEN), others)).any())

    def _today(self) -> Severities:
        return np.maximum(self.tables.base, OPEN)

    def _others_apply(self, after: Tank, costs: frozenset[str]) -> bool:
        """Whether a lever applies to the changed tank that does not to this one."""
        known = {lever.name for lever in self.tables.levers}
        others = (lever for lever in all_levers() if lever.name not in known)
        return any(any(options_of(lever, after)) for lever in others if lever.cost in costs)

    def _helped_by_others(self, before: Search, left: Sequence[str], costs: frozenset[str]) -> bool:
        """Whether a lever that did not apply before betters a check that is left."""
        known = {lever.name for lever in before.tables.levers}
        columns = [c for c, check in enumerate(self.checks) if check.id in left]
        return any(
            self.tables.reach[n, c]
            and lever.meant_for(self.checks[c].id)
            and self.tables.table(c, (n,)).min() < self.tables.base[c]
            for n, lever in enumerate(self.tables.levers)
            if lever.cost in costs and lever.name not in known
            for c in columns
        )

    def _mended(self, costs: frozenset[str]) -> Mend:
        allowed = [n for n, lever in enumerate(self.tables.levers) if lever.cost in costs]
        goals = self._within_reach(allowed)
        hitting = ImplicitHittingSet(self.tables, allowed, goals)
        sets = [] if self._grave else hitting.solve()
        if not sets:
            hitting, sets = self._gravest_first(allowed, goals)
            sets = [hitting.trimmed(chosen) for chosen in sets]
        settled = [robust_settings(self.tables, hitting, chosen) for chosen in sets]
        options = self.needed(most_robust(self.tables, settled))
        left = self._left(self.tables.severities_with(options))
        against = tuple(self._against(hitting, sets[0], check) for check in left)
        names = tuple(self.checks[check].id for check in left)
        return Mend(options, names, tuple(names for names in against if names))

    def _left(self, after: Severities) -> list[int]:
        wanted = [c for c, check in enumerate(self.checks) if check.id in self.wanted]
        return [c for c in wanted if after[c] >= NEEDS_CHANGE]

    # ---- goals

    def _kept(self) -> Severities:
        """Goals that spoil nothing: what is fine stays fine, what is not gets no worse."""
        kept = self._today()
        if self._grave:
            return np.where(kept >= DANGER, kept, WORSE).astype(kept.dtype)
        return kept if self._floor is None else np.minimum(kept, np.maximum(self._floor, OPEN))

    def _within_reach(self, allowed: Sequence[int]) -> Severities:
        """For each check the best level it can be brought to, whatever becomes of the others."""
        goals = self._today() if self._grave else self._kept()
        hitting = ImplicitHittingSet(self.tables, allowed, goals)
        for check in self._left(goals):
            goals[check] = self._best_alone(check, hitting.helpers(check))
        return goals

    def _best_alone(self, check: int, helpers: Iterable[int]) -> int:
        best = int(self.tables.base[check])
        for size in range(1, _MOST_ALONE + 1):
            for levers in itertools.combinations(sorted(helpers), size):
                best = min(best, max(int(self.tables.table(check, levers).min()), OPEN))
                if best < NEEDS_CHANGE:
                    return best
        return best

    def _gravest_first(
        self, allowed: Sequence[int], wanted: Severities
    ) -> tuple[ImplicitHittingSet, list[Levers]]:
        """Goal after goal, dangers and weighty checks first; what can't be met is dropped."""
        goals = self._kept()
        left = sorted(
            np.flatnonzero(wanted < goals).tolist(),
            key=lambda c: (goals[c] < DANGER, -self.checks[c].weight, -int(goals[c])),
        )
        hitting = ImplicitHittingSet(self.tables, allowed, goals)
        sets: list[Levers] = [()] if self._floor is None else hitting.solve()
        if not sets:  # what the cheaper plan did takes levers that only apply after others
            hitting, sets = ImplicitHittingSet(self.tables, allowed, self._today()), [()]
        while left:
            met, hitting, sets = self._first_met(hitting, sets, left, wanted)
            if met < len(left):
                hitting, sets = self._halfway(hitting, sets, left[met], int(wanted[left[met]]))
            left = left[met + 1 :]
        return hitting, sets

    def _first_met(
        self,
        hitting: ImplicitHittingSet,
        sets: list[Levers],
        left: Sequence[int],
        wanted: Severities,
    ) -> tuple[int, ImplicitHittingSet, list[Levers]]:
        """How many more goals, from the first on, can be met together: by halving."""
        met, failed = 0, len(left) + 1
        while failed - met > 1:
            tried = (met + failed) // 2
            goals = hitting.goals.copy()
            goals[list(left[:tried])] = wanted[list(left[:tried])]
            better = ImplicitHittingSet(self.tables, hitting.allowed, goals)
            if found := better.solve():
                met, hitting, sets = tried, better, found
            else:
                failed = tried
        return met, hitting, sets

    def _halfway(
        self, hitting: ImplicitHittingSet, sets: list[Levers], check: int, wanted: int
    ) -> tuple[ImplicitHittingSet, list[Levers]]:
        """A check that can't be brought all the way, brought as far as it can be."""
        for severity in range(wanted + 1, int(hitting.goals[check])):
            goals = hitting.goals.copy()
            goals[check] = severity
            better = ImplicitHittingSet(self.tables, hitting.allowed, goals)
            if found := better.solve():
                return better, found
        return hitting, sets

    # ---- why not

    def _against(self, hitting: ImplicitHittingSet, chosen: Levers, check: int) -> tuple[str, ...]:
        """A check that a lever could mend, and those that it would then cost; () if none could.

        Of several levers the one whose conflict is plainest: few checks, of the same section.
        """
        goals = hitting.goals.copy()
        goals[check] = OPEN
        wanted = ImplicitHittingSet(self.tables, hitting.allowed, goals)
        found: list[tuple[tuple[int, int], list[int]]] = []
        for lever in sorted(wanted.helpers(check)):
            if self.tables.table(check, (lever,)).min() < NEEDS_CHANGE:
                conflict = wanted.conflict_of(tuple(sorted({*chosen, lever})))
                if len(conflict) > 1 and check in conflict:
                    others = [c for c in conflict if c != check]
                    found.append(((len(others), self._strangers(check, others)), others))
        if not found:
            return ()
        _, others = min(found, key=lambda pair: pair[0])
        return tuple(self.checks[c].id for c in (check, *others))

    def _strangers(self, check: int, others: Iterable[int]) -> int:
        """How many of the others belong to another section of the page."""
        return sum(self.checks[c].section != self.checks[check].section for c in others)
