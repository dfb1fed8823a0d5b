"""What a keeper can change: levers as data, and the options they have on one tank."""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np

from interview import units
from interview.audit.judge import Tank
from interview.care.tank_sizes import known_sizes
from interview.conditions import Condition
from interview.yaml_files import FileError, Lined, read

__all__ = ["Lever", "Option", "all_levers", "cost_of", "options_of"]

_KEYS = {
    *("lever", "cost", "of", "around", "times", "sets", "sets_if_absent", "trade_sizes"),
    *("least", "relevant", "say", "for"),
}
_NUMBER = re.compile(r"^(-?\d+(?:\.\d+)?)\s*(\S.*)?$")


@dataclass(frozen=True)
class Lever:
    """One thing to change; `row` holds how far, as written."""

    name: str
    cost: str
    say: str
    row: Lined
    relevant: Condition = field(default_factory=lambda: Condition.read([]))

    def meant_for(self, check: str) -> bool:
        """Whether a keeper would use it for that check."""
        return check in self.row.get("for", [check])


@dataclass(frozen=True)
class Option:
    """One setting of a lever: the answers it gives, in core units."""

    lever: Lever
    changes: Mapping[str, Any]
    steps: float = 1.0
    """How far it moves, in steps of the lever: the smaller of two equal mends wins."""


@cache
def _file() -> Any:
    return read(Path(__file__).parent / "levers.yaml")


@cache
def all_levers() -> tuple[Lever, ...]:
    """Every lever in the order of the file; FileError for one that is written wrong."""
    return tuple(_lever(row) for row in _file()["levers"])


def _lever(row: Lined) -> Lever:
    name = row.get("lever", "")
    if unknown := set(row) - _KEYS:
        raise FileError(row, f"{name}: unknown key {', '.join(sorted(unknown))}")
    if row.get("cost") not in _file()["costs"] or not row.get("say"):
        raise FileError(row, f"{name} needs a cost from the list above and a sentence to say")
    return Lever(name, row["cost"], row["say"], row, Condition.read(row.get("relevant", [])))


def cost_of(lever: Lever) -> float:
    """What the lever costs, on the common scale."""
    return float(_file()["costs"][lever.cost]["value"])


def options_of(lever: Lever, tank: Tank) -> Iterator[Option]:
    """The settings a lever has on this tank, today's left out; none if it does not apply."""
    if not lever.relevant.holds(tank.lookup, tank.unit_of):
        return
    for changes, steps in _settings(lever, tank):
        new = {n: v for n, v in changes.items() if not _same(tank.best.known.get(n), v)}
        same_as_now = lever.name in changes and lever.name not in new
        if new and not same_as_now:
            yield Option(lever, new, steps)


def _same(old: Any, new: Any) -> bool:
    if old is None or isinstance(new, str | bool | tuple) or isinstance(old, str | bool | tuple):
        return bool(old == new) if not isinstance(old, np.ndarray) else False
    return bool(np.isclose(old, new, rtol=1e-9, atol=1e-12))


def _settings(lever: Lever, tank: Tank) -> Iterator[tuple[dict[str, Any], float]]:
    row = lever.row
    if "trade_sizes" in row:
        yield from _tanks(tank)
        return
    own = [({lever.name: value}, steps) for value, steps in _own_values(lever, tank)] or [({}, 1.0)]
    for setting, steps in own:
        for rest in _together(row, tank):
            yield {**setting, **rest}, steps


def _own_values(lever: Lever, tank: Tank) -> Iterator[tuple[Any, float]]:
    row, unit = lever.row, tank.unit_of(lever.name)
    now = tank.best.known.get(lever.name)
    for said in row.get("of", ()):
        yield _value(said, unit), 1.0
    if now is None or isinstance(now, str | bool | tuple):
        return
    for factor in row.get("times", ()):
        yield now * factor, abs(np.log(factor))
    if around := row.get("around"):
        step, reach = _value(around["step"], unit), _value(around["reach"], unit)
        least = _value(row["least"], unit) if "least" in row else -np.inf
        for number in range(1, round(reach / step) + 1):
            for value in (now + number * step, now - number * step):
                if value >= least - 1e-12:
                    yield value, float(number)


def _together(row: Lined, tank: Tank) -> Iterator[dict[str, Any]]:
    """Every combination of what else the lever sets."""
    sets = dict(row.get("sets", {}))
    for name, said in row.get("sets_if_absent", {}).items():
        if tank.best.known.get(name) is None:
            sets[name] = said
    lists = [
        [_value(v, tank.unit_of(n)) for v in (said if isinstance(said, list) else [said])]
        for n, said in sets.items()
    ]
    for values in itertools.product(*lists):
        yield dict(zip(sets, values, strict=True))


def _tanks(tank: Tank) -> Iterator[tuple[dict[str, Any], float]]:
    """Tanks that are sold, at least as large as today's; the glass as is usual for them."""
    now = tank.best.get("brim_volume") or 0.0
    for size in known_sizes():
        length, width, height = size.length, size.width, size.height
        box = length * width * height
        if box > now:
            sides = {"tank_length": length, "tank_width": width, "tank_height": height}
            glass = {"wall_thickness": size.wall_thickness, "tank_origin": "aquarium"}
            yield {**sides, **glass}, box


def _value(said: Any, unit: str) -> Any:
    """A value as written in the file: yes/no, a word, a list, or a number with its unit."""
    if isinstance(said, list):
        return tuple(said)
    if isinstance(said, bool):
        return said
    found = _NUMBER.match(str(said))
    if found is None or unit in ("choice", "yes/no"):
        return said
    number, written = float(found[1]), (found[2] or unit).strip()
    return number if written == unit else units.convert(number, written, unit)
