"""Values written in data files as a keeper types them: `30 cm`, `yes`, `ceramic`, `[sharp]`."""

from __future__ import annotations

import re
from typing import Any, Self

from interview.base import units
from interview.base.unit_factors import factors

__all__ = ["Amount", "Said"]

_AMOUNT = re.compile(r"(-?\d+(?:\.\d+)?(?:e[-+]?\d+)?)\s*([A-Za-z%][\w*/%]*)?", re.IGNORECASE)


class Amount:
    """A number with its unit: `30 cm`. A bare number has the unit "", the core's own."""

    __slots__ = ("number", "said", "unit")

    def __init__(self, said: object) -> None:
        """Read it; ValueError for what is neither a number nor a number with a unit."""
        found = None if isinstance(said, bool) else _AMOUNT.fullmatch(str(said).strip())
        if found is None:
            raise ValueError(f"“{said}” is no amount; write a number and its unit, as “30 cm”")
        self.said = str(said)
        self.number, self.unit = float(found[1]), (found[2] or "").strip()

    @classmethod
    def read(cls, said: object) -> Self:
        """What a data file says, as the reader of rows asks for it."""
        return cls(said)

    def to(self, unit: str) -> float:
        """The number in a core unit; ValueError for a unit that is unknown or of another kind."""
        if self.unit in ("", unit):
            return self.number
        if self.unit not in factors():
            units.registry()  # out here, so that a pint that can't be loaded says so itself
        try:
            return units.convert(self.number, self.unit, unit)
        except (AttributeError, ValueError, TypeError) as problem:  # pint's are of these kinds
            example = f"as “{self.number:g} {unit}”" if unit != "1" else f"as {self.number:g}"
            wrong = f"the unit “{self.unit}” of “{self.said}” can't be turned into {unit}"
            raise ValueError(f"{wrong}; write it {example}") from problem

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Amount) and (self.number, self.unit) == (other.number, other.unit)

    def __hash__(self) -> int:
        return hash((self.number, self.unit))

    def __repr__(self) -> str:
        return f"Amount({self.said!r})"


class Said:
    """An answer as typed at a question: an amount, yes or no, a word, or a list of words.

    What it is depends on the question, so it is turned into a value by `to`.
    """

    __slots__ = ("raw",)

    def __init__(self, raw: object) -> None:
        """Keep what was written; ValueError for a mapping or nothing."""
        if not isinstance(raw, str | int | float | bool | list) or raw == "":
            raise ValueError(f"“{raw}” is no answer; write it as typed at the question, as “30 cm”")
        self.raw = raw

    @classmethod
    def read(cls, said: object) -> Self:
        """What a data file says, as the reader of rows asks for it."""
        return cls(said)

    def to(self, unit: str) -> Any:
        """The value in a core unit: a number, True or False, a word, or a tuple of words.

        Args:
            unit: unit of the answer; `choice` and `yes/no` take words as they are

        Raises:
            ValueError: for a unit that is unknown or of another kind, or a word for a number
        """
        if isinstance(self.raw, list):
            return tuple(self.raw)
        if isinstance(self.raw, bool) or unit in ("choice", "yes/no"):
            return self.raw
        return Amount(self.raw).to(unit)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Said) and self.raw == other.raw

    def __hash__(self) -> int:
        return hash(str(self.raw))

    def __repr__(self) -> str:
        return f"Said({self.raw!r})"
