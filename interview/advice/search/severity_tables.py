"""What every lever of one tank does to every check: tables of levels, made when looked at.

A check's level follows from the levers that reach it and from no other, so a table over a
few levers stands for every plan that holds them.
"""

from __future__ import annotations

import itertools
from collections import Counter, OrderedDict
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from math import prod
from typing import Any, TypeAlias

import numpy as np

from interview.advice.levers.levers import Lever, Option, all_levers, options_of
from interview.advice.what_if.candidates import reached_by, severities, severity_after, stacked
from interview.advice.what_if.severity import Severities
from interview.advice.what_if.suppose import changed_working
from interview.audit.checks.check import Check
from interview.audit.tank import Tank
from interview.core.coupling import pinned
from interview.core.numeric import is_number
from interview.core.working import Working
from interview.vocabulary.vocabulary import riding

__all__ = ["Conflict", "SeverityTables", "merged"]

Levers: TypeAlias = tuple[int, ...]
"""Numbers of levers, rising."""
_Moved: TypeAlias = tuple[tuple[int, int], ...]
"""Levers that are moved, each with the number of a group of its settings."""

_MOST_ROWS = 20_000
"""Rows of settings that are kept worked out, of some 200 bytes each."""
_HUBS = ("water_line_below_rim", "tank_size")
"""Levers that touch nearly everything; for a given setting of them the rest falls apart."""


def merged(options: Iterable[Option]) -> dict[str, Any]:
    """The answers that several settings give together."""
    return {name: value for option in options for name, value in option.changes.items()}


@dataclass(frozen=True)
class Conflict:
    """Checks that can't all reach these goals unless one of the `answers` is used."""

    checks: tuple[int, ...]
    goals: tuple[int, ...]
    answers: frozenset[int]


class SeverityTables:
    """The levers of one tank with their settings, and the level of each check after any.

    The first setting of each lever leaves it as it is, so that a table over some levers also
    tells what any fewer of them can do.
    """

    def __init__(self, tank: Tank, checks: Sequence[Check]) -> None:
        tank = replace(tank, best=tank.best.solving())
        self.tank, self.checks = tank, tuple(checks)
        self.base: Severities = severities(tank, checks, [{}])[0]
        found = [(lever, tuple(options_of(lever, tank))) for lever in all_levers()]
        self.levers = [lever for lever, options in found if options]
        changes = Counter(name for _, options in found for name in _names_of(options))
        alone = {name for name, levers in changes.items() if levers == 1}
        self.options = [
            (_as_it_is(lever, options, tank, alone), *options)
            for lever, options in found
            if options
        ]
        self.hubs = tuple(n for n, lever in enumerate(self.levers) if lever.name in _HUBS)
        self.conflicts: list[Conflict] = []
        """What searches among the levers have found so far."""
        self._tables: dict[tuple[int, Levers], Severities] = {}
        self._groups = [self._alike(n) for n in range(len(self.levers))]
        self._after: OrderedDict[_Moved, tuple[Mapping[str, Any], Working]] = OrderedDict()
        self.looks = 0
        """How often a changed tank was judged for a table."""
        self._rows = 0
        """Settings that stand in these workings: those used longest ago are let go."""
        self._found: dict[tuple[int, _Moved], Severities] = {}
        self._with: dict[tuple[int, frozenset[tuple[str, Any]]], int] = {}
        self._numbers = {id(lever): n for n, lever in enumerate(self.levers)}

    @cached_property
    def reach(self) -> Any:
        """For each lever and check, whether some setting may move the verdict."""
        wiring = self.tank.best.wiring
        rows = [reached_by(self.checks, wiring, self._names(o[1:])) for o in self.options]
        return np.array(rows, dtype=bool).reshape(len(rows), len(self.checks))

    @cached_property
    def _felt(self) -> list[list[bool]]:
        """`reach` as plain lists, which are quicker to look into one by one."""
        felt: list[list[bool]] = self.reach.tolist()
        return felt

    def _names(self, options: Sequence[Option]) -> set[str]:
        """The answers and calibrations that some setting of a lever changes."""
        before, found = self.tank.best, set[str]()
        alike = stacked([option.changes for option in options])
        for row in {n for rows in alike for n in (rows[0], rows[-1])}:
            after = changed_working(before, before, options[row].changes, reread=False)
            found |= {n for n in before.known if n not in after.known}
            for name, value in after.known.items():
                old = before.get(name) if name in pinned() else before.known.get(name)
                if old is not value:
                    found.add(name)
        return found

    def count(self, lever: int) -> int:
        """How many settings the lever has, today's among them."""
        return len(self.options[lever])

    def table(self, check: int, chosen: Levers) -> Severities:
        """Levels of a check over all settings (axes) of levers that all reach it."""
        if (check, chosen) not in self._tables:
            self._tables[check, chosen] = self._worked_out(check, chosen)
        return self._tables[check, chosen]

    def _worked_out(self, check: int, chosen: Levers) -> Severities:
        found = np.empty([self.count(n) for n in chosen], dtype=np.int8)
        for groups in itertools.product(*(range(len(self._groups[n])) for n in chosen)):
            rows = [self._groups[n][g] for n, g in zip(chosen, groups, strict=True)]
            moved = tuple(
                (n, g)
                for n, g in zip(chosen, groups, strict=True)
                if self.options[n][self._groups[n][g][0]].changes
            )
            found[np.ix_(*rows)] = self._severity(check, moved).reshape([len(r) for r in rows])
        return found

    def _severity(self, check: int, moved: _Moved) -> Severities:
        """Levels of a check where the moved levers take the settings of these groups."""
        if not moved:
            return self.base[check : check + 1]
        if (check, moved) not in self._found:
            changes, working = self._working(moved)
            count = self._count(moved)
            self.looks += 1
            self._found[check, moved] = severity_after(
                self.tank, self.checks[check], changes, working, count
            )
        return self._found[check, moved]

    def _working(self, moved: _Moved) -> tuple[Mapping[str, Any], Working]:
        """The changes and the changed tank, all settings of the groups side by side."""
        if moved not in self._after:
            best, changes = self.tank.best, self._side_by_side(moved)
            self._after[moved] = changes, changed_working(best, best, changes, reread=False)
            self._rows += self._count(moved)
            while self._rows > _MOST_ROWS and len(self._after) > 1:
                oldest, _ = self._after.popitem(last=False)
                self._rows -= self._count(oldest)
        self._after.move_to_end(moved)
        return self._after[moved]

    def _count(self, moved: _Moved) -> int:
        """How many settings of the moved levers stand side by side."""
        return prod(len(self._groups[n][g]) for n, g in moved)

    def _side_by_side(self, moved: _Moved) -> dict[str, Any]:
        groups = [self._groups[n][g] for n, g in moved]
        picked = [rows.ravel() for rows in np.meshgrid(*groups, indexing="ij")]
        changes: dict[str, Any] = {}
        for (lever, _), group, rows in zip(moved, groups, picked, strict=True):
            options = self.options[lever]
            for name, value in options[group[0]].changes.items():
                changes[name] = value
                if is_number(value):
                    column = np.array([o.changes.get(name) for o in options])
                    changes[name] = column[rows].astype(float)
        return changes

    def _alike(self, lever: int) -> list[list[int]]:
        """The lever's settings in groups that differ in numbers only."""
        return stacked([option.changes for option in self.options[lever]])

    def severities_with(self, options: Sequence[Option]) -> Severities:
        """The level of every check after all these settings together."""
        keys = [self._what_reaches(check, options) for check in range(len(self.checks))]
        new = [check for check, key in enumerate(keys) if (check, key) not in self._with]
        if new:
            checks = [self.checks[check] for check in new]
            found = severities(self.tank, checks, [merged(options)])[0]
            self._with |= {(c, keys[c]): severity for c, severity in zip(new, found, strict=True)}
        return np.array([self._with[row] for row in enumerate(keys)], dtype=np.int8)

    def _what_reaches(self, check: int, options: Sequence[Option]) -> frozenset[tuple[str, Any]]:
        """The changes that the check may feel; all of a lever that this tank does not have."""
        felt = [o for o in options if id(o.lever) not in self._numbers]
        felt += [o for o in options if self._reaches(o, check)]
        return frozenset(merged(felt).items())

    def _reaches(self, option: Option, check: int) -> bool:
        """Whether the option is of a lever of this tank that the check may feel."""
        number = self._numbers.get(id(option.lever))
        return number is not None and self._felt[number][check]


def _names_of(options: Sequence[Option]) -> set[str]:
    return {name for option in options for name in option.changes}


def _as_it_is(
    lever: Lever, options: Sequence[Option], tank: Tank, alone: Collection[str]
) -> Option:
    """The setting that changes nothing.

    One number among several of a lever is named, so that it goes through the core with them;
    not that of a length which another change moves along, nor what another lever sets too.
    """
    name, now = lever.name, tank.best.known.get(lever.name)
    named = len(options) > 1 and _names_of(options) == {name} and name in alone
    named = named and name not in riding("platform") and is_number(now)
    return Option(lever, {name: now} if named else {}, 0.0)
