"""Sentences of the data files with `{names}` in braces and `[one|several]` wordings."""

from __future__ import annotations

import re
from collections.abc import Mapping

__all__ = ["by_number", "filled_in", "names_in", "number_and_label", "unit_once"]

_NAME = re.compile(r"\{(\w+)\}")
_RANGE = re.compile(r"\{(\w+)\} to \{(\w+)\}")
_BY_NUMBER = re.compile(r"\[([^\[\]|]*)\|([^\[\]|]*)\]")
_NUMBER_AND_LABEL = re.compile(r"(-?(?:\d[\d.,]*(?: \d+/\d+)?|\d+/\d+))(\D*)")


def names_in(text: str) -> tuple[str, ...]:
    """The names a sentence holds in braces."""
    return tuple(_NAME.findall(text))


def by_number(text: str, several: bool) -> str:
    """The text with each [one|several] as it reads for one animal or for several."""
    return _BY_NUMBER.sub(r"\2" if several else r"\1", text)


def filled_in(text: str, shown: Mapping[str, str]) -> str:
    """The sentence with every `{name}` as it is shown, the unit of a range once."""
    text = _RANGE.sub(lambda found: unit_once(shown[found[1]], shown[found[2]]), text)
    return _NAME.sub(lambda found: shown[found[1]], text)


def unit_once(low: str, high: str) -> str:
    """Both ends of a range, a unit they share once: “79 to 94 °F”."""
    first, last = number_and_label(low), number_and_label(high)
    if first and last and first[1] == last[1]:
        return f"{first[0]} to {high}"
    return f"{low} to {high}"


def number_and_label(shown: str) -> tuple[str, str] | None:
    """A shown amount in two: “18 1/2” and “ in”; None for a word."""
    found = _NUMBER_AND_LABEL.fullmatch(shown)
    return (found[1], found[2]) if found else None
