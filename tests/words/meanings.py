"""A dictionary of meanings: strings made by rule from known values, and awkward ones by hand.

Written from how people write and apart from whatever reads them: nothing here imports the
program. Each case is a string, the question it is typed at and every reading that is no
misreading (see ``made.spans.Case``). Asking back is always fine; a silent other value never is.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from random import Random

import yaml
from made import amounts, heat, lengths, measures, sides, sizes, spans, times
from made.spans import Case, Reading, Span

BY_HAND = Path(__file__).parent / "meanings_by_hand.yaml"
RULES = (lengths, sides, sizes, heat, times, measures, amounts)

_UNITS = {
    "1": 1.0,
    "%": 0.01,
    "percent": 1.0,
    "m": 1.0,
    "cm": spans.CM,
    "mm": spans.MM,
    "in": spans.INCH,
    "ft": spans.FOOT,
    "L": spans.LITRE,
    "gal": spans.US_GALLON,
    "L/h": spans.LITRE / spans.HOUR,
    "gph": spans.US_GALLON / spans.HOUR,
    "g": spans.GRAM,
    "kg": 1.0,
    "lb": spans.POUND,
    "oz": spans.OUNCE,
    "W": 1.0,
    "V": 1.0,
    "A": 1.0,
    "mg/L": 1.0,
    "deg": 1.0,
    "degC": 1.0,
    "h": spans.HOUR,
    "day": spans.DAY,
    "week": spans.WEEK,
}
_TERM = re.compile(r"(-?[0-9.]+) (\S+)")


def _amount(text: str) -> float:
    """The sum of terms such as ``13 ft + 1 in``; ``80 F`` is a temperature."""
    total = 0.0
    for term in text.split(" + "):
        match = _TERM.fullmatch(term.strip())
        if match is None:
            raise ValueError(f"not a number with a unit: {term!r}")
        number, unit = float(match[1]), match[2]
        total += spans.celsius(number) if unit == "F" else number * _UNITS[unit]
    return total


def _span(text: str) -> Span:
    """``a``, ``a to b`` (both ends said) or ``a .. b`` (anything in there)."""
    for sign, loose in ((" to ", False), (" .. ", True)):
        if sign in text:
            low, high = (_amount(end) for end in text.split(sign))
            return Span(low, high, loose)
    value = _amount(text)
    return Span(value, value)


def _by_hand() -> Iterator[Case]:
    entries: dict[str, list[dict[str, str]]] = yaml.safe_load(BY_HAND.read_text(encoding="utf-8"))
    for question, listed in entries.items():
        for entry in listed:
            readings: tuple[Reading, ...] = tuple(
                tuple(_span(side) for side in reading.split(" x "))
                for reading in entry.get("is", "").split(" | ")
                if reading
            )
            told_for, _, amount = entry.get("tells", "").partition(" = ")
            told = _span(amount) if amount else None
            yield Case(entry["text"], question, "by_hand", readings, told_for, told)


def cases() -> Iterator[Case]:
    """All of them, always the same and in the same order; a string stands once at a question."""
    seen: set[tuple[str, str]] = set()
    for number, rules in enumerate(RULES):
        for case in rules.cases(Random(1000 + number)):
            if (case.text, case.question) not in seen:
                seen.add((case.text, case.question))
                yield case
    yield from (case for case in _by_hand() if (case.text, case.question) not in seen)


def by_question() -> dict[str, list[Case]]:
    """The cases grouped by the question they are typed at, in order of first appearance."""
    grouped: dict[str, list[Case]] = {}
    for case in cases():
        grouped.setdefault(case.question, []).append(case)
    return grouped
