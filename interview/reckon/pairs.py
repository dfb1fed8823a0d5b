"""`name=value` pairs as typed, and the system of units they were typed in."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Set
from typing import Any

from interview import assembly
from interview.base.units import system_for
from interview.reckon.values import understood
from interview.setups import SetupError
from interview.words.amounts.dimensions import dimensions
from interview.words.amounts.spellings import spellings, system_of
from interview.words.text.refusal import quoted
from interview.words.text.tokens import tokenise

__all__ = ["pairs_in", "parts_opened", "typed_system"]


def typed_system(typed: Iterable[str]) -> str:
    """The system of units the values were typed in, us with any inch, pound or °F; else metric.

    Where a region is among them, its own.
    """
    for name, _, text in (pair.partition("=") for pair in typed):
        if name.strip() == "region":
            return system_for(understood(assembly.questionnaire().by_id["region"], text))
    words = {token.text for text in typed for token in tokenise(text.partition("=")[2])}
    units = {units.get(word) for units in map(spellings, dimensions()) for word in words}
    return "us" if any(unit and system_of(unit) == "us" for unit in units) else "metric"


def pairs_in(typed: Iterable[str]) -> dict[str, str]:
    """Names and values as typed; SetupError for what is no pair, or a name given twice."""
    pairs: dict[str, str] = {}
    for text in typed:
        name, equals, value = (part.strip() for part in text.partition("="))
        if not equals or not name or not value:
            raise SetupError(f"{quoted(text)} is not name=value; type for example ph=8.")
        if name in pairs:
            raise SetupError(f"{name} is given twice; give it once.")
        pairs[name] = value
    return pairs


def parts_opened(pairs: Mapping[str, str], needed: Set[str] | None = None) -> dict[str, Any]:
    """A size of several sides becomes its sides, already read; the rest stays as typed.

    Of a size only the sides that are `needed` count, if any are.
    """
    opened: dict[str, Any] = {}
    for name, text in pairs.items():
        question = assembly.questionnaire().by_id.get(name)
        if question is None or not question.parts:
            opened[name] = text
            continue
        sides = understood(question, text)
        read = dict(zip(question.parts, (side.best for side in sides), strict=True))
        used = {side: value for side, value in read.items() if needed is None or side in needed}
        opened |= used or read
    return opened
