"""How surely checks stay good after sets of changes: what the settings of levers are chosen by."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from interview.advice.levers.levers import Option
from interview.advice.search.tables.severity_tables import SeverityTables, merged
from interview.advice.what_if.candidates import stacked
from interview.advice.what_if.severity import DANGER, GOOD, severity_in
from interview.advice.what_if.suppose import changed_working
from interview.audit.checks.outcomes import SURE
from interview.core.numeric import is_number
from interview.core.working import Working

__all__ = ["Scores", "thinned"]

_DRAWS = 256
"""The first draws of the sample, which fill its cube evenly too."""
_DANGER_COUNTS = 10.0

_Scores = NDArray[np.float64]
_NONE = np.zeros(())


class Scores:
    """The scores of one tank's changes by a few draws of its doubt, none worked out twice.

    Sets of levers that are tried one after the other share most settings, and a check feels few
    of these: of 180 lines of settings of a tank with many faults 160 were scored before.
    """

    def __init__(self, tables: SeverityTables) -> None:
        self.tables = tables
        self._sample = thinned(tables.tank.sample)
        self._found: dict[tuple[Any, ...], _Scores] = {}

    def __call__(self, checks: Sequence[int], candidates: Sequence[Sequence[Option]]) -> _Scores:
        """For each candidate the sum over checks of weight times the chance of staying good.

        A chance beyond what a verdict asks for counts no more; a chance of danger counts tenfold.
        """
        scores = np.zeros(len(candidates))
        changes = [merged(options) for options in candidates]
        for rows in stacked(changes):
            some = [candidates[row] for row in rows]
            felt = {c: (c, *(self.tables.felt(c, options) for options in some)) for c in checks}
            new = [check for check in checks if felt[check] not in self._found]
            if new:
                after = self._after([changes[row] for row in rows])
                self._found |= {felt[c]: self._score(c, after, len(rows)) for c in new}
            for check in checks:
                scores[rows] += self._found[felt[check]]
        return scores

    def _after(self, changes: Sequence[Mapping[str, Any]]) -> Working:
        """The draws after each of the changes, one copy of them after the other."""
        few = _repeated(self._sample, len(changes))
        numbers = {
            name: np.repeat(np.array([each[name] for each in changes], dtype=float), _DRAWS)
            if is_number(value)
            else value
            for name, value in changes[0].items()
        }
        return changed_working(few, self.tables.tank.best, numbers, reread=False)

    def _score(self, number: int, after: Working, count: int) -> _Scores:
        """What one check adds; nothing where it has no levels."""
        tank, check = self.tables.tank, self.tables.checks[number]
        severity = severity_in(check, after, replace(tank, best=after), count * _DRAWS, tank)
        if severity is None or not np.ndim(severity):
            return _NONE
        drawn = np.asarray(severity).reshape(count, _DRAWS)
        sure = np.minimum((drawn == GOOD).mean(axis=1), SURE)
        danger = (drawn == DANGER).mean(axis=1)
        return np.asarray(check.weight * (sure - _DANGER_COUNTS * danger))


def thinned(sample: Working) -> Working:
    """The sample with fewer draws."""
    few = {name: value[:_DRAWS] if _drawn(value) else value for name, value in sample.known.items()}
    return sample.wiring.working(few, draws=True)


def _drawn(value: Any) -> bool:
    return isinstance(value, np.ndarray) and value.ndim > 0 and len(value) > _DRAWS


def _repeated(sample: Working, times: int) -> Working:
    """The sample, one copy after the other."""
    if times == 1:
        return sample
    known = {
        name: np.concatenate([value] * times)
        if isinstance(value, np.ndarray) and value.ndim and len(value) == _DRAWS
        else value
        for name, value in sample.known.items()
    }
    return sample.wiring.working(known, draws=True)
