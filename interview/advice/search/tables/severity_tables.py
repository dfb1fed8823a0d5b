"""What every lever of one tank does to every check: tables of levels, made when looked at.

A check's level follows from the levers that reach it and from no other, so a table over a
few levers stands for every plan that holds them.
"""

from __future__ import annotations

import itertools
from collections import Counter, OrderedDict
from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from math import prod
from typing import Any, TypeAlias

import numpy as np

from interview.advice.levers.levers import Lever, Option, all_levers, options_of
from interview.advice.search.tables.compact import Compact
from interview.advice.search.tables.groups import Group, in_groups
from interview.advice.what_if.candidates import reached_by, severities, severity_after, stacked
from interview.advice.what_if.coupling import pinned
from interview.advice.what_if.severity import Severities, judged_apart, severity_in
from interview.advice.what_if.suppose import changed_working
from interview.audit.checks.check import Check
from interview.audit.tank import Tank
from interview.care.facts import limits
from interview.core.numeric import is_number
from interview.core.working import Working
from interview.vocabulary.vocabulary import riding

__all__ = ["Conflict", "SeverityTables", "merged"]

Levers: TypeAlias = tuple[int, ...]
"""Numbers of levers, rising."""
_Moved: TypeAlias = tuple[tuple[int, int], ...]
"""Levers that are moved, each with the number of a group of its settings."""

_MOST_KEPT = 48
"""Changed tanks that are kept worked out, of some 20 kB each; those used longest ago are let go."""
_MOST_PARTS, _MOST_NUMBERS = 128, 200_000
"""Of a table that is made only to know more: looks it is put together from, and levels in these."""
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
        tank = replace(tank, best=tank.best.remembering())
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
        self._tables: dict[tuple[int, Levers], Compact] = {}
        self._size: dict[tuple[int, Levers], tuple[int, int]] = {}
        """For each table the parts it is put together from, and the levels in all of them."""
        self._axis, self._groups = in_groups(self.options)
        self._after: OrderedDict[_Moved, Working] = OrderedDict()
        self.looks = 0
        """How often a changed tank was judged for a table."""
        self.told = 0
        """Levels in all the tables that were made."""
        self._found: dict[tuple[int, _Moved], Severities] = {}
        self._by_values: dict[tuple[Any, ...], tuple[tuple[Any, ...], Severities]] = {}
        facts = limits()
        self._decides = [tuple(check.decides_alone - facts.keys()) for check in self.checks]
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
        known = {**before.known, **{name: before.get(name) for name in pinned()}}
        alike = stacked([option.changes for option in options])
        for row in {n for rows in alike for n in (rows[0], rows[-1])}:
            after = changed_working(before, before, options[row].changes, reread=False)
            found |= {n for n in before.known if n not in after.known}
            found |= {n for n, value in after.known.items() if known.get(n) is not value}
        return found

    def count(self, lever: int) -> int:
        """How many settings the lever has, today's among them."""
        return len(self.options[lever])

    def table(self, check: int, chosen: Levers) -> Severities:
        """Levels of a check over all settings (axes) of levers that all reach it."""
        return self.compact(check, chosen).whole()

    def compact(self, check: int, chosen: Levers) -> Compact:
        """The table of a check over levers, settings that are alike in it laid together."""
        if (check, chosen) not in self._tables:
            self._tables[check, chosen] = self._worked_out(check, chosen)
        return self._tables[check, chosen]

    def small_with(self, check: int, chosen: Levers, lever: int) -> bool:
        """Whether the table of a check with one lever more than one that is made stays small."""
        if (check, chosen) not in self._size:
            return False
        parts, numbers = self._size[check, chosen]
        few = parts * len(self._groups[lever]) <= _MOST_PARTS
        return few and numbers * self.count(lever) <= _MOST_NUMBERS

    def _worked_out(self, check: int, chosen: Levers) -> Compact:
        parts: list[tuple[tuple[Group, ...], Severities]] = []
        wide: set[tuple[int, int]] = set()
        for some in itertools.product(*(self._groups[n] for n in chosen)):
            part = self._over(chosen, self._severity(check, _moved_by(chosen, some)))
            wide |= {(k, some[k].number) for k, length in enumerate(part.shape) if length > 1}
            parts.append((some, part))
        kinds = [np.empty(self.count(n), dtype=np.intp) for n in chosen]
        places: list[list[slice]] = []
        for k, n in enumerate(chosen):
            places.append([])
            for group in self._groups[n]:
                start = places[k][-1].stop if places[k] else 0
                length = len(group.rows) if (k, group.number) in wide else 1
                places[k].append(slice(start, start + length))
                kinds[k][list(group.rows)] = start + np.arange(length)
        self._size[check, chosen] = len(parts), sum(part.size for _, part in parts)
        self.told += self._size[check, chosen][1]
        cells = np.empty([each[-1].stop for each in places], dtype=np.int8)
        for some, part in parts:
            cells[tuple(places[k][group.number] for k, group in enumerate(some))] = part
        return Compact.of(cells, kinds)

    def _over(self, chosen: Levers, severities: Severities) -> Severities:
        """Levels along the axes of the chosen levers alone: one where it makes no difference."""
        shape = (1,) * (len(self._axis) - severities.ndim) + severities.shape
        return severities.reshape([shape[self._axis[n]] if n in self._axis else 1 for n in chosen])

    def _severity(self, check: int, moved: _Moved) -> Severities:
        """Levels of a check where the moved levers take the settings of these groups."""
        if not moved:
            return self.base[check : check + 1]
        if (check, moved) not in self._found:
            self._found[check, moved] = self._seen_again(check, moved)
        return self._found[check, moved]

    def _seen_again(self, check: int, moved: _Moved) -> Severities:
        """The levels, looked at anew only where something that decides them is another."""
        working, decides = self._working(moved), self._decides[check]
        animals = judged_apart(self.checks[check], self.tank)
        each = [working.of_animal(animal.row) for animal in animals] or [working]
        values = tuple(value for one in each for value in one.found(decides))
        key = (check, *map(id, values))
        if key in self._by_values:
            return self._by_values[key][1]
        self.looks += 1
        severity = self._look(self.checks[check], working)
        if severity is None:  # which settings end a formula, the values don't tell
            return self._row_by_row(self.checks[check], moved)
        self._by_values[key] = values, severity
        return severity

    def _look(self, check: Check, working: Working) -> Severities | None:
        """The levels at the changed tank, all at once; None where a formula ends for some."""
        severity = severity_in(check, working, self.tank, None, self.tank)
        return None if severity is None else np.asarray(severity, dtype=np.int8)

    def _row_by_row(self, check: Check, moved: _Moved) -> Severities:
        """The same, each setting by itself."""
        shape = self._shape(moved)
        changes = {n: _in_rows(value, shape) for n, value in self._side_by_side(moved).items()}
        best = self.tank.best
        working = changed_working(best, best, changes, reread=False)
        return severity_after(self.tank, check, changes, working, prod(shape)).reshape(shape)

    def _working(self, moved: _Moved) -> Working:
        """The changed tank, the settings of each lever along an axis of its own."""
        if moved not in self._after:
            best, changes = self.tank.best, self._side_by_side(moved)
            self._after[moved] = changed_working(best, best, changes, reread=False)
            if len(self._after) > _MOST_KEPT:
                self._after.popitem(last=False)
        self._after.move_to_end(moved)
        return self._after[moved]

    def _shape(self, moved: _Moved) -> tuple[int, ...]:
        """How many settings stand along each axis; one where a lever stays or takes one only."""
        lengths = {self._axis[n]: len(self._groups[n][g].rows) for n, g in moved if n in self._axis}
        return tuple(lengths.get(axis, 1) for axis in range(-len(self._axis), 0))

    def _side_by_side(self, moved: _Moved) -> dict[str, Any]:
        return {name: v for n, g in moved for name, v in self._groups[n][g].changes.items()}

    def severities_with(self, options: Sequence[Option]) -> Severities:
        """The level of every check after all these settings together."""
        keys = [self.felt(check, options) for check in range(len(self.checks))]
        new = [check for check, key in enumerate(keys) if (check, key) not in self._with]
        if new:
            checks = [self.checks[check] for check in new]
            found = severities(self.tank, checks, [merged(options)])[0]
            self._with |= {(c, keys[c]): severity for c, severity in zip(new, found, strict=True)}
        return np.array([self._with[row] for row in enumerate(keys)], dtype=np.int8)

    def felt(self, check: int, options: Sequence[Option]) -> frozenset[tuple[str, Any]]:
        """The changes that the check may feel; all of a lever that this tank does not have."""
        reached = [(o, self._numbers.get(id(o.lever))) for o in options]
        felt = [o for o, number in reached if number is None]
        felt += [o for o, number in reached if number is not None and self._felt[number][check]]
        return frozenset(merged(felt).items())


def _moved_by(chosen: Levers, groups: Sequence[Group]) -> _Moved:
    """The levers that move something, without those of which later ones set all anew."""
    moved: list[tuple[int, int]] = []
    names: set[str] = set()
    for lever, group in zip(reversed(chosen), reversed(groups), strict=True):
        if not group.changes.keys() <= names:
            moved.append((lever, group.number))
            names |= group.changes.keys()
    return tuple(reversed(moved))


def _in_rows(value: Any, shape: tuple[int, ...]) -> Any:
    """A number for each setting of all axes, one after the other; words as they are."""
    return np.broadcast_to(value, shape).ravel() if is_number(value) else value


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
