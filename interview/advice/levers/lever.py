"""A lever in core units, and one setting of it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from math import inf
from typing import Any

from interview.advice.levers.rows import AroundRow, BesidesRow, LeverFile, LeverRow
from interview.base.conditions import Condition
from interview.base.places import file_said
from interview.base.rows import Amount, FileError, Said, Where

__all__ = ["Around", "Lever", "Option", "in_core_units"]

UnitOf = Callable[[str], str]


@dataclass(frozen=True)
class Around:
    """Every `step` to both sides as far as `near`, from there every `stride` to `reach`.

    `least` and `most` bound the value itself. All in the quantity's core unit. `sides` are 1 for
    more than today's value, -1 for less.
    """

    step: float
    near: float
    stride: float
    reach: float
    least: float = -inf
    most: float = inf
    sides: tuple[int, ...] = (1, -1)


@dataclass(frozen=True, eq=False)
class Lever:
    """One thing to change, with every value in core units; the row's docstring says what.

    `price` is its cost on the common scale. Two levers of one name are two levers.
    """

    name: str
    cost: str
    price: float
    say: str
    kept: str = ""
    besides: tuple[BesidesRow, ...] = ()
    to: str = ""
    relevant: Condition = field(default_factory=lambda: Condition.read([]))
    only_for: tuple[str, ...] = ()
    of: tuple[Any, ...] = ()
    times: tuple[float, ...] = ()
    around: Around | None = None
    sets: Mapping[str, tuple[Any, ...]] = field(default_factory=dict)
    sets_if_absent: Mapping[str, tuple[Any, ...]] = field(default_factory=dict)
    trade_sizes: bool = False
    not_under: Mapping[str, str] = field(default_factory=dict)
    renewed: Mapping[str, Any] = field(default_factory=dict)
    due: Mapping[str, float] = field(default_factory=dict)
    buys: Mapping[str, str] = field(default_factory=dict)
    together: Mapping[str, str] = field(default_factory=dict)

    def meant_for(self, check: str) -> bool:
        """Whether a keeper would use it for that check."""
        return not self.only_for or check in self.only_for


@dataclass(frozen=True)
class Option:
    """One setting of a lever: the answers it gives, in core units."""

    lever: Lever
    changes: Mapping[str, Any]
    steps: float = 1.0
    """How far it moves, in steps of the lever: the smaller of two equal mends wins."""


def in_core_units(file: LeverFile, unit_of: UnitOf) -> tuple[Lever, ...]:
    """The levers of a file with every value in core units.

    Raises:
        FileError: for amounts in a unit that is unknown or of another kind, all of them in `faults`
    """
    faults: list[str] = []
    levers = []
    for row in file.levers:
        cost = file.costs.get(row.cost)
        if cost is None:
            classes = ", ".join(file.costs)
            wrong = f"{row.lever}: cost “{row.cost}” is none of {classes}"
            faults.append(_at(row.where, "cost", wrong))
            continue
        converted = _Converted(row, unit_of, faults)
        levers.append(converted.lever(cost.value + row.bother))
    if faults:
        raise FileError.of(tuple(faults))
    return tuple(levers)


def _at(where: Where, key: str, wrong: str) -> str:
    return str(FileError(f"{file_said(where.path)}, line {where.line_of(key)}", wrong))


class _Converted:
    """One row in core units; what can't be converted is noted among the faults."""

    def __init__(self, row: LeverRow, unit_of: UnitOf, faults: list[str]) -> None:
        self._row, self._unit_of, self._faults = row, unit_of, faults

    def lever(self, price: float) -> Lever:
        """The lever at this price."""
        row = self._row
        return Lever(
            name=row.lever,
            cost=row.cost,
            price=price,
            say=row.say,
            kept=row.kept,
            besides=row.besides,
            to=row.to or "",
            relevant=row.relevant or Condition.read([]),
            only_for=row.only_for,
            of=tuple(self._value(row.lever, said, "of") for said in row.of),
            times=row.times,
            around=self._around(row.around) if row.around else None,
            sets=self._each(row.sets, "sets"),
            sets_if_absent=self._each(row.sets_if_absent, "sets_if_absent"),
            trade_sizes=row.trade_sizes,
            not_under=row.not_under,
            renewed={n: self._value(n, said, "renewed") for n, said in row.renewed.items()},
            due={n: self._value(n, said, "due") for n, said in row.due.items()},
            buys=row.buys,
            together=row.together,
        )

    def _value(self, name: str, said: Said | Amount, key: str) -> Any:
        try:
            value = said.to(self._unit_of(name))
        except ValueError as problem:
            self._faults.append(_at(self._row.where, key, f"{self._row.lever}, {key}: {problem}"))
            return 0.0
        return float(value) if isinstance(value, int) and not isinstance(value, bool) else value

    def _around(self, around: AroundRow) -> Around:
        name, row = self._row.lever, self._row
        step, near, stride, reach = (
            self._value(name, said, "around")
            for said in (around.step, around.near, around.stride, around.reach)
        )
        least = -inf if row.least is None else self._value(name, row.least, "least")
        most = inf if row.most is None else self._value(name, row.most, "most")
        sides = (1, -1) if around.only is None else (1 if around.only == "more" else -1,)
        return Around(step, near, stride, reach, least, most, sides)

    def _each(self, sets: Mapping[str, Said], key: str) -> dict[str, tuple[Any, ...]]:
        """For each name its settings: those of a list, or the one."""
        return {
            name: tuple(self._value(name, one, key) for one in _settings_in(said))
            for name, said in sets.items()
        }


def _settings_in(said: Said) -> Iterable[Said]:
    return [Said(one) for one in said.raw] if isinstance(said.raw, list) else [said]
