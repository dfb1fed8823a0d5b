"""Values in words, and sentences filled with them, as this keeper reads them."""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Mapping, Sequence
from typing import Any

from interview.base.templates import filled_in, names_in, unit_once
from interview.vocabulary.showing import exact_number, fine_number, round_number, usual_number

__all__ = ["exactly", "fill", "fill_known", "in_words", "ranged", "rounded", "told_apart"]


def fill(
    text: str,
    lookup: Callable[[str], Any],
    unit_of: Callable[[str], str],
    system: str,
    stands_for: Mapping[str, str] | None = None,
    *,
    exact: bool = False,
) -> str | None:
    """The sentence with every `{name}` shown in the keeper's units; None if one is unknown.

    `stands_for` tells whose unit a short name such as `{value}` takes. Numbers are rounded
    as people speak of them, unless that would make two different ones look the same;
    `exact` keeps the digits of what somebody has typed.
    """
    meant: dict[str, tuple[Any, str, str]] = {}
    for name in names_in(text):
        value = lookup(name)
        if value is None:
            return None
        owner = (stands_for or {}).get(name, name)
        meant[name] = value, unit_of(owner), owner
    shown: dict[str, str] = {}
    for unit in {unit for _, unit, _ in meant.values()}:
        names = [name for name, row in meant.items() if row[1] == unit]
        rows = [(meant[name][0], meant[name][2]) for name in names]
        shown |= zip(names, _side_by_side(rows, unit, system, exact), strict=True)
    return filled_in(text, shown)


_SENTENCE = re.compile(r"(?<=\.) (?=[A-Z])")


def fill_known(
    text: str,
    lookup: Callable[[str], Any],
    unit_of: Callable[[str], str],
    system: str,
    stands_for: Mapping[str, str] | None = None,
) -> str:
    """As `fill`, without the sentences that speak of a number nobody knows; "" if none is left."""
    told = (fill(s, lookup, unit_of, system, stands_for) for s in _SENTENCE.split(text))
    return " ".join(sentence for sentence in told if sentence)


def told_apart(values: Sequence[Any], unit: str, system: str, name: str = "") -> list[str]:
    """Several values of one thing, rounded no further than that they can be told apart."""
    return _side_by_side([(value, name) for value in values], unit, system, False)


def _side_by_side(
    rows: Sequence[tuple[Any, str]], unit: str, system: str, exact: bool
) -> list[str]:
    """Values of one unit in one sentence: as round as keeps different ones different."""
    ways: list[Callable[[float, str], str]] = [
        lambda value, name: usual_number(value, unit, system, name, spoken=True),
        lambda value, name: fine_number(value, unit, system, name, digits=4),
    ]
    if not exact:
        ways.insert(0, lambda value, name: round_number(value, unit, system, name))
    tried = [[_in_words(value, name, way) for value, name in rows] for way in ways]
    values = [value for value, _ in rows]
    return next((texts for texts in tried if not _clash(texts, values)), tried[0])


def _clash(texts: Sequence[str], values: Sequence[Any]) -> bool:
    """Whether two values that differ read the same."""
    return any(
        texts[one] == texts[two] and not _same(values[one], values[two])
        for one in range(len(texts))
        for two in range(one)
    )


def _same(one: Any, two: Any) -> bool:
    pair = [getattr(value, "tolist", lambda value=value: value)() for value in (one, two)]
    if all(isinstance(value, int | float) for value in pair):
        return math.isclose(*pair, rel_tol=1e-6, abs_tol=1e-12)
    return not any(isinstance(value, float) for value in pair)


def in_words(value: Any, unit: str, system: str, name: str = "") -> str:
    """One value in words: numbers with unit, yes/no, choices with spaces for underscores."""
    return _in_words(value, name, lambda number, _: usual_number(number, unit, system, name))


def exactly(value: Any, unit: str, system: str, name: str = "") -> str:
    """One value in words, with more digits where the usual ones would be another number."""
    return _in_words(value, name, lambda number, _: exact_number(number, unit, system, name))


def rounded(value: Any, unit: str, system: str, name: str = "") -> str:
    """One value as people speak of it: whole degrees, quarter inches, two digits."""
    return _in_words(value, name, lambda number, _: round_number(number, unit, system, name))


def ranged(
    low: Any, high: Any, unit: str, system: str, name: str = "", *, spoken: bool = False
) -> str:
    """A range, its unit once: “79 to 94 °F”; `spoken` rounds its ends."""
    if spoken:
        return unit_once(*told_apart((low, high), unit, system, name))
    return unit_once(*(in_words(value, unit, system, name) for value in (low, high)))


def _in_words(value: Any, name: str, show: Callable[[float, str], str]) -> str:
    if value is None:
        return "not known"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, str):
        return value.replace("_", " ")
    if isinstance(value, tuple | list):
        return ", ".join(_in_words(item, name, show) for item in value) or "none"
    if getattr(value, "ndim", 0):
        return ", ".join(_in_words(item, name, show) for item in value.ravel())
    return show(float(value), name)
