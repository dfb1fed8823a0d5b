"""How a number came about: the tree of formulas from the answers up to it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from interview.core.wiring import Citation, Formula, Working

__all__ = ["Step", "derive", "derive_law"]


@dataclass(frozen=True)
class Step:
    """One number: where it comes from and what it needs.

    `formula` is None for a leaf (an answer or an assumption). `shown_before` marks a
    number that was worked out further up; its inputs aren't repeated.
    """

    name: str
    value: Any
    unit: str
    formula: Formula | None = None
    inputs: tuple[Step, ...] = ()
    shown_before: bool = False

    @property
    def sources(self) -> tuple[Citation, ...]:
        """Where the formula is from; empty for a leaf."""
        return self.formula.sources if self.formula else ()


def derive(working: Working, name: str) -> Step:
    """The derivation of a quantity; raises as `working.value` does when it has no value."""
    return _derive(working, name, set())


def _derive(working: Working, name: str, seen: set[str]) -> Step:
    value = working.value(name)
    unit = working.wiring.units.get(name, "1")
    formula = working.wiring.formulas.get(name)
    if formula is None or name in working.known:
        return Step(name, value, unit)
    if name in seen:
        return Step(name, value, unit, formula, shown_before=True)
    seen.add(name)
    used = [item.name for item in formula.inputs if working.get(item.name) is not None]
    return Step(name, value, unit, formula, tuple(_derive(working, n, seen) for n in used))


def derive_law(formula: Formula, given: Mapping[str, Any]) -> Step:
    """The derivation of a single sum: one step from what was given."""
    units = {item.name: item.unit for item in formula.inputs}
    leaves = tuple(Step(name, value, units[name]) for name, value in given.items())
    return Step(formula.name, formula(given), formula.unit, formula, leaves)
