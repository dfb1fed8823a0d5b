"""Why a quantity can't be worked out: the honest reasons."""

from __future__ import annotations

from collections.abc import Iterable
from math import inf, isinf
from typing import Self

__all__ = ["BeyondFormula", "CannotWorkOut", "Impossible", "Missing", "NotApplicable", "OutOfRange"]


class CannotWorkOut(Exception):
    """A quantity has no value for this tank."""

    def again(self) -> Self:
        """The same reason to be raised anew, so that a kept one gathers no frames."""
        other = type(self).__new__(type(self), *self.args)
        vars(other).update(vars(self))
        return other


class Missing(CannotWorkOut):
    """Inputs nobody has given: any one of `names` (or all of them) would help.

    Raised by the wiring for a required input, and by a function whose
    alternative inputs are all absent.
    """

    def __init__(self, *names: str) -> None:
        self.names: tuple[str, ...] = tuple(dict.fromkeys(names))
        super().__init__("not known: " + ", ".join(self.names))

    @classmethod
    def among(cls, **inputs: object) -> Missing:
        """The problem naming those of the inputs that are absent."""
        return cls(*(name for name, value in inputs.items() if value is None))

    @classmethod
    def union(cls, problems: Iterable[Missing]) -> Missing:
        """One problem naming everything the given ones name."""
        return cls(*(name for problem in problems for name in problem.names))


class NotApplicable(CannotWorkOut):
    """The quantity has no meaning for this tank, e.g. heater cover without a heater."""

    def __init__(self, reason: str) -> None:
        self.reason = reason
        super().__init__(reason)


class BeyondFormula(CannotWorkOut):
    """The inputs lie where the formula doesn't hold, though the tank may well be so."""


class OutOfRange(BeyondFormula):
    """One input lies outside the range in which the formula holds."""

    def __init__(self, name: str, value: float, low: float, high: float, unit: str) -> None:
        self.name, self.value, self.low, self.high, self.unit = name, value, low, high, unit
        said = "" if unit == "1" else f" {unit}"
        ends = f"{low:g} upwards" if isinf(high) else f"{low:g} to {high:g}{said}"
        super().__init__(f"{name} is {value:g}{said}, but the formula holds only from {ends}")


class Impossible(OutOfRange):
    """A result that can't be, such as a tank with less than no water."""

    def __init__(self, name: str, value: float, low: float, unit: str) -> None:
        super().__init__(name, value, low, inf, unit)
        self.args = (f"{name} comes out at {value:g} {unit}, and it can't be below {low:g}",)
