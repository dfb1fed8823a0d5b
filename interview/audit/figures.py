"""Every number of one tank with its doubt, worked out when somebody looks at it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any, Protocol

import numpy as np

from interview.audit.tank import Tank
from interview.core.errors import CannotWorkOut, Missing

__all__ = ["Figure", "Figures"]

_NO_NUMBERS = ("choice", "yes/no")


class _GivenLike(Protocol):
    """What is told about one answer."""

    @property
    def name(self) -> str: ...
    @property
    def unit(self) -> str: ...
    @property
    def how(self) -> str: ...


@dataclass(frozen=True)
class Figure:
    """One number of the tank: value, 5 % and 95 % points, unit and how it was got.

    A figure nobody can work out yet is unmeasured: `missing` says what it needs, or
    `reason` why it has no meaning for this tank.
    """

    name: str
    unit: str
    how: str
    value: Any = None
    low: Any = None
    high: Any = None
    missing: tuple[str, ...] = ()
    reason: str = ""


class Figures(Mapping[str, Figure]):
    """The figures of a tank by name: its answers first, then its quantities.

    A grade needs a part of them only, and the others take as long as its verdicts.
    """

    def __init__(self, given: Mapping[str, _GivenLike], tank: Tank) -> None:
        """Know which there are; `given` tells how its answers were got."""
        self._given, self._tank = given, tank
        numbers = [name for name, item in given.items() if item.unit not in _NO_NUMBERS]
        formulas = tank.best.wiring.formulas
        numbers += [name for name, formula in formulas.items() if formula.unit not in _NO_NUMBERS]
        self._found: dict[str, Figure | None] = dict.fromkeys(numbers)

    def __getitem__(self, name: str) -> Figure:
        """One of them, worked out once."""
        found = self._found[name]
        if found is None:
            item = self._given.get(name)
            found = _answered(item, self._tank) if item else _computed(name, self._tank)
            self._found[name] = found
        return found

    def __contains__(self, name: object) -> bool:
        """Whether there is such a figure; none is worked out for that."""
        return name in self._found

    def __iter__(self) -> Iterator[str]:
        """Their names."""
        return iter(self._found)

    def __len__(self) -> int:
        """How many there are."""
        return len(self._found)


def _answered(item: _GivenLike, tank: Tank) -> Figure:
    best, sample = tank.best.known[item.name], tank.sample.known[item.name]
    return Figure(item.name, item.unit, item.how, best, *_points(sample, best))


def _computed(name: str, tank: Tank) -> Figure:
    unit = tank.best.wiring.formulas[name].unit
    try:
        best = tank.best.value(name)
    except Missing as problem:
        return Figure(name, unit, "unmeasured", missing=problem.names)
    except CannotWorkOut as problem:
        return Figure(name, unit, "unmeasured", reason=str(problem))
    return Figure(name, unit, "computed", best, *_points(tank.sample_of(name), best))


def _points(sample: Any, best: Any) -> tuple[Any, Any]:
    """5 % and 95 % points over the draws, animal by animal where there are several."""
    drawn = np.asarray(sample, dtype=float)
    if drawn.ndim == 0 or drawn.shape == np.shape(best):
        return best, best
    low, high = np.percentile(drawn, [5, 95], axis=0, method="inverted_cdf")
    return low, high
