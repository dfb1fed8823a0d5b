"""What every lever of one tank does to every check: tables of levels, made when looked at.

A check's level follows from the levers that reach it and from no other, so a table over a
few levers stands for every plan that holds them.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Mapping, Sequence
from functools import cached_property
from typing import Any, TypeAlias

import numpy as np

from interview.advice.levels import Levels, level_in, levels, levels_after, reached_by, stacked
from interview.advice.levers import Option, all_levers, options_of
from interview.advice.suppose import changed_working
from interview.audit.checks import Check
from interview.audit.judge import Tank
from interview.core.coupling import PINNED
from interview.core.numeric import is_number
from interview.core.wiring import Working

__all__ = ["Trials", "merged"]

Levers: TypeAlias = tuple[int, ...]
"""Numbers of levers, rising."""

_HUBS = ("water_line_below_rim", "tank_size")
"""Levers that touch nearly everything; for a given setting of them the rest falls apart."""


def merged(options: Iterable[Option]) -> dict[str, Any]:
    """The answers that several settings give together."""
    return {name: value for option in options for name, value in option.changes.items()}


class Trials:
    """The levers of one tank with their settings, and the level of each check after any."""

    def __init__(self, tank: Tank, checks: Sequence[Check]) -> None:
        self.tank, self.checks = tank, tuple(checks)
        self.base: Levels = levels(tank, checks, [{}])[0]
        found = [(lever, tuple(options_of(lever, tank))) for lever in all_levers()]
        self.levers = [lever for lever, options in found if options]
        self.options = [options for _, options in found if options]
        self.hubs = tuple(n for n, lever in enumerate(self.levers) if lever.name in _HUBS)
        self._tables: dict[tuple[int, Levers], Levels] = {}
        self._after: dict[Levers, list[tuple[Any, Mapping[str, Any], Working]]] = {}

    @cached_property
    def reach(self) -> Any:
        """For each lever and check, whether some setting may move the verdict."""
        wiring = self.tank.best.wiring
        rows = [reached_by(self.checks, wiring, self._names(o)) for o in self.options]
        return np.array(rows, dtype=bool).reshape(len(rows), len(self.checks))

    def _names(self, options: Sequence[Option]) -> set[str]:
        """The answers and calibrations that some setting of a lever changes."""
        before, found = self.tank.best, set[str]()
        alike = stacked([option.changes for option in options])
        for row in {n for rows in alike for n in (rows[0], rows[-1])}:
            after = changed_working(before, before, options[row].changes, reread=False)
            found |= {n for n in before.known if n not in after.known}
            for name, value in after.known.items():
                old = before.get(name) if name in PINNED else before.known.get(name)
                if old is not value:
                    found.add(name)
        return found

    def count(self, lever: int) -> int:
        """How many settings the lever has."""
        return len(self.options[lever])

    def table(self, check: int, chosen: Levers) -> Levels:
        """Levels of a check over all settings (axes) of levers that all reach it."""
        if (check, chosen) not in self._tables:
            self._tables[check, chosen] = self._worked_out(check, chosen)
        return self._tables[check, chosen]

    def _worked_out(self, check: int, chosen: Levers) -> Levels:
        if not chosen:
            return np.asarray(self.base[check])
        found = np.zeros(int(np.prod([self.count(n) for n in chosen])), dtype=np.int8)
        for cells, changes, working in self._workings(chosen):
            level = level_in(self.checks[check], working, self.tank, len(cells), self.tank)
            if level is None:
                level = levels_after(self.tank, [self.checks[check]], changes, len(cells))[0]
            found[cells] = level
        return found.reshape([self.count(n) for n in chosen])

    def _workings(self, chosen: Levers) -> list[tuple[Any, Mapping[str, Any], Working]]:
        """The changed tank for all settings of the levers, words apart: (cells, changes, tank)."""
        if chosen not in self._after:
            best = self.tank.best
            self._after[chosen] = [
                (cells, changes, changed_working(best, best, changes, reread=False))
                for cells, changes in self._blocks(chosen)
            ]
        return self._after[chosen]

    def _blocks(self, chosen: Levers) -> Iterable[tuple[Any, dict[str, Any]]]:
        """Cells of the table that differ in numbers only, with their numbers side by side."""
        shape = [self.count(n) for n in chosen]
        alike = [stacked([o.changes for o in self.options[n]]) for n in chosen]
        for block in itertools.product(*alike):
            picked = [rows.ravel() for rows in np.meshgrid(*block, indexing="ij")]
            changes: dict[str, Any] = {}
            for lever, group, rows in zip(chosen, block, picked, strict=True):
                options = self.options[lever]
                for name, value in options[group[0]].changes.items():
                    changes[name] = value
                    if is_number(value):
                        column = np.array([o.changes.get(name) for o in options])
                        changes[name] = column[rows].astype(float)
            yield np.ravel_multi_index(picked, shape), changes

    def levels_with(self, options: Sequence[Option]) -> Levels:
        """The level of every check after all these settings together."""
        found: Levels = levels(self.tank, self.checks, [merged(options)])[0]
        return found
