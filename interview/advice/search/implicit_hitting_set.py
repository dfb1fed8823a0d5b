"""Which levers: as few, then as cheap, as let every check reach its goal.

A set of levers that fails shows a conflict: a few checks no settings of it satisfy together.
Any set that works must hold another lever that reaches one of them. So the fewest and cheapest
levers that answer every conflict found so far are tried next, until they work: no set with fewer
changes, or as many and cheaper ones, is missed. A conflict that comes again is widened first, by
levers with which the checks fail too: it rules out all sets of these at once. What one search
finds serves the next ones of the same tank.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from interview.advice.levers.levers import cost_of
from interview.advice.search.bucket_elimination import Table, infeasible
from interview.advice.search.budget import Budget, Spent
from interview.advice.search.hitting_set import least_hitting_set
from interview.advice.search.tables.compact import Compact, in_kinds
from interview.advice.search.tables.severity_tables import Conflict, Levers, SeverityTables
from interview.advice.what_if.severity import Severities

__all__ = ["ImplicitHittingSet"]

_MOST_LOOKS = 400
_MOST_EQUAL = 4
_TRIED, _LOOKED = 120, 80
"""Steps that trying a set on the tank counts, and each look at the changed tank that it takes,
beside one for each set that is weighed."""
_TOLD, _LAID = 200, 14_000
"""Levels in tables that are made, and cells of tables that are laid together, for a step."""


@dataclass(frozen=True)
class _Held:
    """Where a check reaches its goal over the levers' settings; whether anywhere, everywhere."""

    where: Compact
    any: bool
    all: bool


class ImplicitHittingSet:
    """The levers allowed, and for each check the worst level that will do (`goals`)."""

    def __init__(
        self,
        tables: SeverityTables,
        allowed: Iterable[int],
        goals: Severities,
        budget: Budget | None = None,
    ) -> None:
        self.tables, self.goals = tables, goals
        self.budget = Budget() if budget is None else budget
        self.allowed = frozenset(allowed)
        self.costs = [cost_of(lever) for lever in tables.levers]
        self._targets = np.flatnonzero(tables.base > goals).tolist()
        self._reach_by = [set(np.flatnonzero(column).tolist()) for column in tables.reach.T]
        self._reaching: dict[Levers, list[Levers]] = {}
        self._held: dict[tuple[int, Levers], _Held] = {}
        self._sizes = {n: tables.count(n) for n in range(len(tables.levers))}
        self._laid, self._paid = 0, 0
        self._unpaid()
        self._smaller: tuple[Levers | None, dict[int, Table]] = None, {}
        """Tables of the levers that were tried last, over kinds of settings."""
        self._conflicts = [conflict for conflict in tables.conflicts if self._stands(conflict)]
        self._helpers = [
            frozenset(n for n in self.allowed if tables.reach[n, c] and self._meant(n, c))
            for c in range(len(tables.checks))
        ]

    def helpers(self, check: int) -> frozenset[int]:
        """The levers that may be used for the check."""
        return self._helpers[check]

    def _meant(self, lever: int, check: int) -> bool:
        return self.tables.levers[lever].meant_for(self.tables.checks[check].id)

    def solve(self) -> list[Levers]:
        """The sets of fewest changes and least cost that work, a few of them; [] if none does.

        Raises:
            Spent: where the budget ends before one is found or none is proven to work
        """
        found: list[Levers] = []
        but: list[Levers] = []
        try:
            for chosen in self._candidates(but):
                if found and self._price(chosen) > self._price(found[0]):
                    break
                if self._learn(chosen):
                    continue
                but.append(chosen)
                if self._each_meant(chosen):
                    found.append(chosen)
                if len(found) == _MOST_EQUAL or not chosen:
                    break
        except Spent:
            if not found:
                raise
        return found

    def _candidates(self, but: Sequence[Levers]) -> Iterator[Levers]:
        """The least sets that answer every conflict known by then, save those in `but`."""
        for _ in range(_MOST_LOOKS):
            answers = map(self._answers, self._conflicts)
            chosen = least_hitting_set(self._prices(), answers, but, self.budget.spend)
            if chosen is None:
                return
            yield chosen
        raise Spent

    def _price(self, chosen: Levers) -> tuple[int, float]:
        """Changes, and their cost."""
        return len(chosen), round(sum(self.costs[n] for n in chosen), 6)

    def _prices(self) -> list[float]:
        """Cost of each lever; infinite where nothing found so far asks for it."""
        asked = frozenset().union(
            *(self._helpers[c] for conflict in self._conflicts for c in conflict.checks)
        )
        return [cost if n in asked else np.inf for n, cost in enumerate(self.costs)]

    def _each_meant(self, chosen: Levers) -> bool:
        """Whether each lever that is for some checks only serves one of these."""
        return all(
            any(
                n in self._helpers[c] for c in self._in_conflict(tuple(m for m in chosen if m != n))
            )
            for n in chosen
            if self.tables.levers[n].only_for
        )

    def _in_conflict(self, chosen: Levers) -> Iterator[int]:
        """Checks that the levers fail, conflict after conflict, each check once."""
        named: list[int] = []
        while found := self.conflict_of(chosen, named):
            yield from found
            named.extend(found)

    def _learn(self, chosen: Levers) -> bool:
        """Note why the levers fail, each check named once; False if they work."""
        named: list[int] = []
        while found := self.conflict_of(chosen, named):
            conflict = self._conflict(found, self._widened(found, chosen))
            self._conflicts.append(conflict)
            self.tables.conflicts.append(conflict)
            named.extend(found)
        return bool(named)

    def _widened(self, checks: tuple[int, ...], chosen: Levers) -> Levers:
        """Of the levers those that reach the checks, and others with which they fail all the same.

        So fewer are left that may answer. It takes larger tables, and pays where the same checks
        fail again and again; so not the first time, and no table that is much larger.
        """
        reaching = set().union(*(self._reach_by[c] for c in checks))
        among = tuple(n for n in chosen if n in reaching)
        if all(conflict.checks != checks for conflict in self.tables.conflicts):
            return among
        others = (reaching & self.allowed) - {*among}
        for lever in sorted(others, key=lambda n: self.costs[n]):
            more = tuple(sorted((*among, lever)))
            if self._small_with(lever, checks, among) and self._fail(checks, more):
                among = more
        return among

    def _small_with(self, lever: int, checks: Iterable[int], levers: Levers) -> bool:
        """Whether one lever more leaves the tables of the checks small."""
        return all(
            self.tables.small_with(c, self.reaching(c, levers), lever)
            for c in checks
            if lever in self._reach_by[c]
        )

    def _fail(self, checks: Sequence[int], levers: Levers) -> bool:
        """Whether no settings of the levers satisfy the checks together."""
        if self._failing(levers, checks):
            return True
        tables, _ = in_kinds(self.feasible_tables(levers, checks))
        return len(checks) > 1 and bool(self._infeasible(tables))

    def _conflict(self, checks: tuple[int, ...], chosen: Levers) -> Conflict:
        reaching = frozenset(
            np.flatnonzero(self.tables.reach[:, list(checks)].any(axis=1)).tolist()
        )
        goals = tuple(int(self.goals[c]) for c in checks)
        return Conflict(checks, goals, reaching - set(chosen))

    def _stands(self, conflict: Conflict) -> bool:
        """Whether goals as strict as these must fail too."""
        return all(
            self.goals[c] <= goal for c, goal in zip(conflict.checks, conflict.goals, strict=True)
        )

    def _answers(self, conflict: Conflict) -> frozenset[int]:
        return conflict.answers & self.allowed

    def trimmed(self, chosen: Levers) -> Levers:
        """The levers without those that can be spared, the others set anew; the dearest first."""
        for lever in sorted(chosen, key=lambda n: -self.costs[n]):
            fewer = tuple(n for n in chosen if n != lever)
            if not self.conflict_of(fewer):
                chosen = fewer
        return chosen

    # ---- what fails

    def conflict_of(self, chosen: Levers, but: Sequence[int] = ()) -> tuple[int, ...]:
        """A few checks that no settings of the levers satisfy together; () if all can be.

        `but` are checks that are left out of account. Spent where the budget is used up.
        """
        self.budget.spend(_TRIED + self._unpaid())
        for among in (self._targets, range(len(self.goals))):
            failing = [c for c in self._failing(chosen, among) if c not in but]
            if failing:
                return (min(failing, key=lambda c: len(self._helpers[c] - set(chosen))),)
        binding = self._at_odds(chosen, [c for c in self._binding(chosen) if c not in but])
        for check in list(binding):
            if fewer := self._at_odds(chosen, [c for c in binding if c != check]):
                binding = fewer
        return tuple(binding)

    def _unpaid(self) -> int:
        """Steps for looks and tables since this was asked last: the next try pays for them."""
        looks, told = self.tables.looks, self.tables.told
        work = _LOOKED * looks + told // _TOLD + self._laid // _LAID
        new, self._paid = work - self._paid, work
        return new

    def _at_odds(self, chosen: Levers, checks: Sequence[int]) -> list[int]:
        """Some of the checks that no settings of the levers satisfy together; [] if all can be."""
        if self._smaller[0] != chosen:
            binding = self._binding(chosen)
            tables, _ = in_kinds(self.feasible_tables(chosen, binding))
            self._smaller = chosen, dict(zip(binding, tables, strict=True))
        return [checks[n] for n in self._infeasible([self._smaller[1][c] for c in checks])]

    def _infeasible(self, tables: Sequence[Table]) -> tuple[int, ...]:
        self._laid += sum(where.size for _, where in tables)
        return infeasible(tables, self._sizes)

    def _binding(self, chosen: Levers) -> list[int]:
        """The checks that some setting of the levers breaks."""
        checks = range(len(self.goals))
        return [c for c in checks if not self._held_at(c, self.reaching(c, chosen)).all]

    def feasible_tables(
        self, chosen: Levers, checks: Sequence[int] | None = None
    ) -> list[tuple[Levers, Compact]]:
        """For each check: the levers that reach it, and at which of their settings it holds."""
        checks = self._binding(chosen) if checks is None else checks
        reaching = [self.reaching(c, chosen) for c in checks]
        return [(levers, self.holds(c, levers)) for c, levers in zip(checks, reaching, strict=True)]

    def _failing(self, chosen: Levers, checks: Iterable[int]) -> list[int]:
        """Those of the checks that fail at every setting, whatever the others need."""
        return [c for c in checks if not self._held_at(c, self.reaching(c, chosen)).any]

    def reaching(self, check: int, chosen: Levers) -> Levers:
        """Those of the levers that reach the check."""
        if chosen not in self._reaching:
            self._reaching[chosen] = [
                tuple(n for n in chosen if n in reaching) for reaching in self._reach_by
            ]
        return self._reaching[chosen][check]

    def _held_at(self, check: int, levers: Levers) -> _Held:
        key = check, levers
        if key not in self._held:
            where = self.tables.compact(check, levers).at_most(self.goals[check])
            self._held[key] = _Held(where, bool(where.cells.any()), bool(where.cells.all()))
        return self._held[key]

    def holds(self, check: int, levers: Levers) -> Compact:
        """Where the check reaches its goal over the settings of levers that all reach it."""
        return self._held_at(check, levers).where
