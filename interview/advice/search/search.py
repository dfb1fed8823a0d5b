"""The fewest and cheapest changes after which every check that can be mended is.

First: how far each check can be brought at all. Then the smallest, cheapest sets of levers
that bring all of them there and spoil nothing; where they can't all be met, the gravest
first. Last: the settings, as sure as can be.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import replace
from functools import cached_property

import numpy as np

from interview.advice.levers.levers import Option, all_levers, cost_of, options_of
from interview.advice.search.budget import Budget, Spent
from interview.advice.search.completing import completed
from interview.advice.search.goals import Reached, best_sets, contested, wanting, within_reach
from interview.advice.search.implicit_hitting_set import ImplicitHittingSet
from interview.advice.search.mend import Mend
from interview.advice.search.robust_settings import most_robust, robust_settings
from interview.advice.search.scores import Scores
from interview.advice.search.tables.severity_tables import Levers, SeverityTables, merged
from interview.advice.search.worth_changing import worth_changing
from interview.advice.what_if.severity import CLOSE, DANGER, OPEN, WORSE, WRONG, Severities
from interview.advice.what_if.suppose import changed
from interview.audit.checks.check import Check
from interview.audit.tank import Tank

__all__ = ["Mend", "Search", "merged"]

_REBUILD = "rebuild"
"""The class of cost of another tank, stand or place."""


class Search:
    """The levers of one tank; `mend` combines those whose cost one accepts."""

    def __init__(
        self,
        tank: Tank,
        checks: Sequence[Check],
        wanted: frozenset[str] | None = None,
        budget: Budget | None = None,
    ) -> None:
        self.tank, self.checks = tank, tuple(checks)
        self.budget = Budget() if budget is None else budget
        self.wanted = worth_changing(tank, checks) if wanted is None else wanted
        """Ids of the checks that are a reason to change something."""
        self._floor: Severities | None = None
        self._floor_options: tuple[Option, ...] = ()
        self._grave = False
        """Whether what is no danger may get worse, because a danger can't be ended otherwise."""

    @cached_property
    def tables(self) -> SeverityTables:
        """What each lever does to each check."""
        return SeverityTables(self.tank, self.checks)

    @cached_property
    def _scores(self) -> Scores:
        """How surely checks stay good after what each lever may do."""
        return Scores(self.tables)

    def mend(self, costs: frozenset[str], floor: Sequence[Option] = ()) -> Mend:
        """The smallest set of changes among levers of the given cost classes.

        `floor` are the changes of a cheaper plan: what they mend is mended here too. Where the
        budget ends before, the best so far.
        """
        self._floor_options = tuple(floor)
        self._floor = self.tables.severities_with(floor) if floor else None
        first = self._ending_dangers(costs)
        if not first.left or not first.options or self.budget.over:
            return first
        return self._with_more_levers(first, costs)

    def against_dangers(self, costs: frozenset[str]) -> Mend | None:
        """Changes that end what can be ended of the dangers, found before all the rest is.

        None where none ends, or only with a lever that does not apply to the tank as it is.
        """
        self._floor = None
        dangers = [c for c in wanting(self._today(), self._asked) if self.tables.base[c] >= DANGER]
        mend = self._ending_dangers(costs, dangers) if dangers else None
        return mend if mend and self._dangers_after(mend.options) < len(dangers) else None

    def _ending_dangers(self, costs: frozenset[str], only: Sequence[int] | None = None) -> Mend:
        """The mend, or one that ends more dangers at the cost of what is none."""
        first = self._mended(costs, only)
        if not self._dangers_after(first.options) or self.budget.over:
            return first
        self._grave = True
        other = self._mended(costs, only)
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
        left = wanting(self.tables.severities_with(options), self._asked)
        return replace(mend, options=options, left=self._names(left))

    def reaching(self, options: Sequence[Option], checks: Collection[str]) -> list[Option]:
        """The options that one of the checks may feel."""
        columns = [c for c, check in enumerate(self.checks) if check.id in checks]
        rows = {
            id(lever): row for lever, row in zip(self.tables.levers, self.tables.reach, strict=True)
        }
        return [o for o in options if id(o.lever) in rows and rows[id(o.lever)][columns].any()]

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
        again = Search(after, self.checks, self.wanted, self.budget)
        if not again._helped_by_others(self, first.left, costs):
            return first
        more = again._mended(costs)
        if len(more.left) >= len(first.left):
            return first
        named = {option.lever.name: option for option in (*first.options, *more.options)}
        options = self.needed(tuple(named.values()))
        return Mend(options, more.left, more.against, first.proven and more.proven)

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
            and self.tables.compact(c, (n,)).cells.min() < self.tables.base[c]
            for n, lever in enumerate(self.tables.levers)
            if lever.cost in costs and lever.name not in known
            for c in columns
        )

    @property
    def _asked(self) -> frozenset[int]:
        return frozenset(c for c, check in enumerate(self.checks) if check.id in self.wanted)

    def _names(self, checks: Iterable[int]) -> tuple[str, ...]:
        return tuple(self.checks[check].id for check in checks)

    def _mended(self, costs: frozenset[str], only: Sequence[int] | None = None) -> Mend:
        """The mend with levers of these costs; `only` are the checks it is for, else all wanted."""
        allowed = [
            n
            for n, lever in enumerate(self.tables.levers)
            if lever.cost in costs and (lever.cost != _REBUILD or self._wrong_without(n))
        ]
        reached = self._reached(allowed, only)
        hitting = reached.hitting
        settled = [robust_settings(self._scores, hitting, chosen) for chosen in reached.sets]
        options = self.needed(most_robust(self._scores, settled))
        if only is None and not reached.proven:
            options = self._completed(options, allowed)
        left = wanting(self.tables.severities_with(options), self._asked)
        against = [contested(hitting, reached.sets[0], check) for check in left if only is None]
        clashes = tuple(names for names in against if names)
        return Mend(options, self._names(left), clashes, reached.proven and only is None)

    def _completed(self, options: tuple[Option, ...], allowed: Sequence[int]) -> tuple[Option, ...]:
        """The options, or the cheaper plan's where they do less, and what mends the rest."""
        found = self.tables.severities_with(options)
        if self._floor is not None and (found > np.maximum(self._floor, OPEN)).any():
            options, found = self._floor_options, self._floor
        return completed(self.tables, options, wanting(found, self._asked), allowed)

    def _wrong_without(self, lever: int) -> bool:
        """Whether something wanted is wrong that the lever is for: nobody rebuilds for less.

        A tank where much is close is replaced too, if only something else in it is wrong.
        """
        worst = max((self.tables.base[c] for c in self._asked), default=OPEN)
        tank = self.tables.levers[lever].trade_sizes and worst >= WRONG
        return any(
            self.tables.base[c] >= (CLOSE if tank else WRONG)
            and self.tables.reach[lever, c]
            and self.tables.levers[lever].meant_for(self.checks[c].id)
            for c in self._asked
        )

    def _reached(self, allowed: Sequence[int], only: Sequence[int] | None) -> Reached:
        """All goals within reach where they can be met together, else the gravest first."""
        before = self._today() if self._grave else self._kept()
        start = self._hitting(allowed, before)
        checks = wanting(before, self._asked) if only is None else only
        goals, whole = within_reach(start, checks, self.budget.part())
        all_at_once = Reached(start, [], self.budget)
        if not self._grave and all_at_once.tries(goals):
            all_at_once.proven = whole
            return all_at_once
        reached = best_sets(self._start(allowed), goals)
        reached.proven &= whole and all_at_once.proven
        reached.sets = [self._trimmed(reached, chosen) for chosen in reached.sets]
        return reached

    def _start(self, allowed: Sequence[int]) -> Reached:
        """What the cheaper plan mends is mended here too."""
        kept = Reached(self._hitting(allowed, self._kept()), [()], self.budget)
        if self._floor is None or kept.tries(self._kept()):
            return kept
        # what the cheaper plan did takes levers that only apply after others
        today = Reached(self._hitting(allowed, self._today()), [()], self.budget)
        today.proven = kept.proven
        return today

    def _hitting(self, allowed: Sequence[int], goals: Severities) -> ImplicitHittingSet:
        return ImplicitHittingSet(self.tables, allowed, goals, self.budget)

    def _trimmed(self, reached: Reached, chosen: Levers) -> Levers:
        try:
            return reached.hitting.trimmed(chosen)
        except Spent:
            reached.proven = False
            return chosen

    def _kept(self) -> Severities:
        """Goals that spoil nothing: what is fine stays fine, what is not gets no worse."""
        kept = self._today()
        if self._grave:
            return np.where(kept >= DANGER, kept, WORSE).astype(kept.dtype)
        return kept if self._floor is None else np.minimum(kept, np.maximum(self._floor, OPEN))
