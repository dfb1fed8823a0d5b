"""A value as typed for one input of a sum."""

from __future__ import annotations

import math
import re
from dataclasses import replace
from typing import Any, NamedTuple

import numpy as np

from interview import assembly
from interview.base.show import to_show
from interview.base.units import CORE_UNITS
from interview.core.wiring import quantities
from interview.graph.answers import understand
from interview.graph.questions import Question
from interview.setups import SetupError
from interview.vocabulary.entries import Entry
from interview.vocabulary.vocabulary import vocabulary
from interview.words.amounts.dimensions import dimensions, example_for
from interview.words.amounts.quantity import read_quantity
from interview.words.amounts.reading import Reading
from interview.words.text.refusal import NotUnderstood, quoted

__all__ = ["Wanted", "understood", "value_of"]

_NUMBER = re.compile(r"[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?")
_HEMISPHERE = re.compile(r"([^-].*?)(?:\s+|(?<=[\d°]))(n|s|north|south)", re.IGNORECASE)
_BELOW_NOTHING = ("degC", "deg", "K", "choice", "yes/no")
"""Units in which anything may be negative."""
# Units of single sums that no keeper speaks of, in a unit a keeper does speak of.
_SPOKEN = {"h": ("duration", 3600.0), "day": ("duration", 86400.0)}


class Wanted(NamedTuple):
    """What a value is typed for: `low` and `high` are infinite where it has no valid range."""

    name: str
    unit: str
    low: float
    high: float

    @property
    def entry(self) -> Entry:
        """What the vocabulary says of it."""
        return vocabulary()[self.name]

    @property
    def signed(self) -> bool:
        """Whether it may be less than nothing."""
        below = self.unit in _BELOW_NOTHING or self.entry.signed
        return below or -math.inf < self.low < 0


def value_of(wanted: Wanted, text: Any) -> tuple[Any, str]:
    """A value as typed, and what its words were taken for where they left that open.

    A bare number is in the core's unit, commas part the animals.
    """
    if not isinstance(text, str):
        return text, ""
    if wanted.name not in quantities().each_animal:
        value = _one(wanted, text)
        return (value.best, value.understood) if isinstance(value, Reading) else (value, "")
    read = (_one(wanted, part.strip()) for part in text.split(","))
    values = [value.best if isinstance(value, Reading) else value for value in read]
    return (tuple(values) if wanted.unit == "choice" else np.array(values)), ""


def _one(wanted: Wanted, text: str) -> Any:
    value = _read(wanted, text)
    number = value.best if isinstance(value, Reading) else value
    if wanted.entry.whole and number != int(number):
        raise SetupError(f"{wanted.name} is {number:g}, and a whole number is needed here.")
    return value


def _read(wanted: Wanted, text: str) -> Any:
    name, unit = wanted.name, wanted.unit
    if unit not in ("choice", "yes/no"):
        text = _by_hemisphere(text) if name == "latitude" else text.replace("−", "-")
        if text.casefold() in wanted.entry.named:
            return float(wanted.entry.named.index(text.casefold()))
        if _NUMBER.fullmatch(text):
            return _above_nothing(wanted, float(text))
    question = assembly.questionnaire().by_id.get(name)
    if question and not (wanted.signed and text.startswith("-")):
        return understood(question, text)
    if unit == "choice":
        return text.casefold().replace(" ", "_")
    return _measured(wanted, text)


def _by_hemisphere(text: str) -> str:
    """A latitude with its sign: north is positive, so 35° S is -35°."""
    text = text.replace("−", "-")
    found = _HEMISPHERE.fullmatch(text)
    return f"{'-' if found[2].casefold().startswith('s') else ''}{found[1]}" if found else text


def _above_nothing(wanted: Wanted, value: float) -> float:
    """A number typed alone, finite, and below nothing only where that can be."""
    if not math.isfinite(value):
        raise SetupError(f"{wanted.name}: that number is too large to reckon with.")
    if value < 0 and not wanted.signed:
        said = "" if wanted.unit == "1" else f" {wanted.unit}"
        ranged = math.isfinite(wanted.low) and math.isfinite(wanted.high)
        takes = f"{wanted.low:g} to {wanted.high:g}{said}" if ranged else "nothing below 0"
        raise SetupError(f"{wanted.name} is {value:g}{said}; it takes {takes}.")
    return value


def understood(question: Question, text: str) -> Any:
    """The answer as at its question, for a keeper who knows it."""
    try:
        answer = understand(question, text, assembly.lists(), "europe")
    except NotUnderstood as problem:
        raise SetupError(f"{question.id}: {problem}") from problem
    if answer.value is None or answer.how == "assumed":
        raise SetupError(f"{question.id}: a single sum needs a value, not {quoted(text)}.")
    return answer.value


def _measured(wanted: Wanted, text: str) -> Reading | float:
    """A number with a unit; in units without a dimension of ours only the core's own."""
    name, unit = wanted.name, wanted.unit
    dimension, size = _SPOKEN.get(unit, ("", 1.0))
    if unit == "1":
        dimension = "share" if text.endswith("%") else "number"
    dimension = dimension or next((d for d, core in CORE_UNITS.items() if core == unit), "")
    if not dimension:
        number = text.removesuffix(unit).strip()
        if not _NUMBER.fullmatch(number):
            raise SetupError(f"{name}: {quoted(text)} is not in {unit}. Type the number alone.")
        return _above_nothing(wanted, float(number))
    try:
        read = read_quantity(text, dimension, signed=wanted.signed)
    except NotUnderstood as problem:
        usual = example_for(dimensions()[dimension], "europe")
        example = problem.example.replace(usual, f'"{_example(wanted, dimension, size)}"')
        raise SetupError(
            f"{name}: {NotUnderstood(problem.understood, problem.wrong, example)}"
        ) from problem
    return replace(read, low=read.low / size, best=read.best / size, high=read.high / size)


def _example(wanted: Wanted, dimension: str, size: float) -> str:
    """What to type for it, inside its valid range."""
    usual = wanted.entry.typed or dimensions()[dimension].example
    if wanted.low <= read_quantity(usual, dimension).best / size <= wanted.high:
        return usual
    middle = math.sqrt(wanted.low * wanted.high) if wanted.low > 0 else wanted.high / 2
    kind = dimension if dimension == "share" else None
    return to_show(middle * size, CORE_UNITS[dimension], "metric", kind=kind, digits=1)
