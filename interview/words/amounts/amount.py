"""One amount: numbers and their units, as in 18 1/2 in, 4 ft 2, a foot and a half."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import TypeVar

from interview.base.show import to_show, with_label
from interview.base.units import convert, system_for
from interview.words.amounts.dimensions import Dimension, example_for
from interview.words.amounts.numbers import Number, read_number
from interview.words.amounts.spellings import Unit, label, regional, smaller, spellings
from interview.words.lexicon.files import units
from interview.words.text.refusal import NotUnderstood, either, quoted
from interview.words.text.tokens import Token, joined, tokenise

__all__ = [
    "Amount",
    "Term",
    "longest_in",
    "match_unit",
    "measure",
    "no_unit",
    "read_terms",
    "written",
]

T = TypeVar("T")

_LONGEST_UNIT = 6
_AND = frozenset({"and", "&", ",", "+"})
_FILLERS = frozenset({"of", "a", "an", "the"})
_COMPOUND = frozenset({"length", "mass", "duration", "volume"})
_ENGLISH_MARKS = frozenset({"north_america", "united_kingdom", "australia"})


@dataclass(frozen=True, slots=True)
class Term:
    """A number with the unit typed after it, if any."""

    number: Number
    unit: Unit | None
    text: str
    joined_by_and: bool = False


@dataclass(frozen=True, slots=True)
class Amount:
    """Terms measured: a value in the core's unit, and what had to be guessed."""

    value: float
    unit: Unit
    guesses: tuple[str, ...] = ()


def match_unit(tokens: Sequence[Token], at: int, dimension: str) -> tuple[Unit, int] | None:
    """The longest spelling of one of the dimension's units that starts at a token."""
    return longest_in(tokens, at, spellings(dimension))


def longest_in(tokens: Sequence[Token], at: int, table: Mapping[str, T]) -> tuple[T, int] | None:
    """What the longest spelling of a table that starts at a token stands for, and its end."""
    found: tuple[T, int] | None = None
    text = ""
    for end in range(at, min(at + _LONGEST_UNIT, len(tokens))):
        token = tokens[end]
        if token.kind == "number" and not (end > at and token.glued and token.text in "23"):
            break
        spaced = end > at and token.kind == "word" and tokens[end - 1].kind != "mark"
        text += f" {token.text}" if spaced else token.text
        if text in table:
            found = table[text], end + 1
    return found


def _unit_after(tokens: list[Token], at: int, dimension: str) -> tuple[Unit, int] | None:
    """A unit, after a hyphen (3-foot) or after "of a" (half of an inch)."""
    found = match_unit(tokens, at, dimension)
    while found is None and at < len(tokens):
        hyphen = tokens[at].text == "-" and tokens[at].glued
        if not (hyphen or tokens[at].text in _FILLERS):
            return None
        at += 1
        found = match_unit(tokens, at, dimension)
    return found


def _term(tokens: list[Token], at: int, dimension: str, after_and: bool) -> tuple[Term, int] | None:
    number = read_number(tokens, at)
    if number is None:
        return None
    unit = _unit_after(tokens, number.end, dimension)
    end = number.end if unit is None else unit[1]
    text = joined(tokens[at:end])
    return Term(number, None if unit is None else unit[0], text, after_and), end


def read_terms(tokens: list[Token], dimension: str) -> list[Term] | None:
    """Every token read as one amount of up to three terms, or None."""
    terms: list[Term] = []
    at = 0
    while at < len(tokens) and len(terms) < 3:
        after_and = bool(terms) and tokens[at].text in _AND
        hyphen = bool(terms) and tokens[at].text == "-" and terms[-1].unit == "foot"
        found = _term(tokens, at + (after_and or hyphen), dimension, after_and)
        if found is None or (hyphen and not _are_inches(terms[-1], found[0])):
            return None
        terms.append(found[0])
        at = found[1]
        if len(terms) > 1 and (dimension not in _COMPOUND or terms[-2].unit is None):
            return None
        if len(terms) > 1 and terms[-1].unit is None and _is_power(tokens, at - 1):
            return None
    return terms if terms and at == len(tokens) else None


def _are_inches(feet: Term, term: Term) -> bool:
    """Whether what stands behind feet and a hyphen are inches, as builders write: 13'-1".

    Raises:
        NotUnderstood: where it may as well be the other end of a range, as in 5'-6.
    """
    if term.unit is None and feet.number.value < term.number.value < 12:
        low, high = written(float(feet.number.value), "1"), written(float(term.number.value), "1")
        forms = (quoted(f"{low} ft {high} in"), quoted(f"{low} to {high} ft"))
        wrong = "that can be feet and inches, or two lengths"
        raise NotUnderstood(quoted(f"{feet.text}-{term.text}"), wrong, either(forms))
    return term.unit in ("inch", None) and term.number.value < 12


def _is_power(tokens: list[Token], at: int) -> bool:
    """The 2 of m2: never centimetres after metres."""
    before = tokens[at - 1]
    return tokens[at].glued and tokens[at].text in ("2", "3") and before.kind == "word"


def measure(
    terms: Sequence[Term], dimension: Dimension, region: str, *, bare_unit: Unit | None = None
) -> Amount:
    """Terms as a value in the core's unit.

    Raises:
        NotUnderstood: if a number needs a unit it hasn't got, or can mean two things.
    """
    first = _first_unit(terms[0], dimension, region, bare_unit)
    unit = regional(first, region)
    values, guesses = _settled(terms[0], unit, dimension, region)
    if unit != first:
        said = _weight if dimension.name == "force" else _gallons
        guesses += (said(terms[0], values, unit, dimension, region),)
    parts = [convert(values, unit, dimension.core_unit)]
    for term in terms[1:]:
        value, unit, more = _smaller_term(term, values, unit, dimension, region)
        parts.append(value)
        guesses += more
    return Amount(math.fsum(parts), unit, guesses)


def written(value: float, unit: Unit) -> str:
    """A number with its unit, short, in a form that reads back: 18.5 in.

    Three decimals get a fourth: 1.250 could be read as 1250.
    """
    number = f"{Decimal(f'{value:.6g}'):f}"
    head, _, tail = number.partition(".")
    if len(tail) == 3 and head.lstrip("-") != "0":
        number += "0"
    name = label(unit)
    if unit in {"day", "week", "fortnight", "month", "year"} and number != "1":
        name += "s"
    return with_label(number, name)


def _first_unit(term: Term, dimension: Dimension, region: str, bare_unit: Unit | None) -> Unit:
    value = term.number.value
    if term.unit == "?degree":
        forms = [quoted(f"{written(float(value), unit)}") for unit in ("degC", "degF")]
        raise NotUnderstood(quoted(term.text), "not whether °C or °F is meant", either(forms))
    if term.unit is not None:
        return term.unit
    if dimension.bare is not None and dimension.bare[0] <= value <= dimension.bare[1]:
        return dimension.core_unit
    if value == 0 and not dimension.hedge_fixed:
        return dimension.core_unit
    if bare_unit is not None:
        return bare_unit
    raise no_unit(term.text, float(value), dimension, region)


def no_unit(
    text: str, value: float, dimension: Dimension, region: str, *, before: str = ""
) -> NotUnderstood:
    """The refusal of a bare number, offering it with the units at hand."""
    if dimension.name in ("share", "percent"):
        scaled = 100 * value if value <= 1 else value
        forms = [written(scaled, "%")] + ([written(value, "%")] if value <= 1 else [])
        wrong = "it needs a percent sign"
    elif dimension.bare is not None:
        wrong, forms = f"that is not {dimension.noun} I can use", []
    else:
        wrong = "it has no unit"
        offers = units()["offered"].get(dimension.name) or _own_unit(dimension)
        forms = [written(value, unit) for unit in offers[region == "north_america"]]
    shown = either(quoted(before + form) for form in forms)
    return NotUnderstood(
        quoted(text), wrong, shown or f"for example {example_for(dimension, region)}"
    )


def _own_unit(dimension: Dimension) -> tuple[tuple[Unit, ...], tuple[Unit, ...]]:
    """The unit of the dimension's own example, for both kinds of region."""
    found = match_unit(tokenise(dimension.example), 1, dimension.name)
    unit = () if found is None else (found[0],)
    return unit, unit


def _settled(
    term: Term, unit: Unit, dimension: Dimension, region: str
) -> tuple[Fraction, tuple[str, ...]]:
    """A term's number, its comma or point decided: by region, else by what is usual."""
    number = term.number
    if number.mark == " ":
        return _spaced(term, unit, dimension), ()
    if number.thousands is None:
        return number.value, ()
    english = region in _ENGLISH_MARKS
    if english and number.mark == "." and dimension.name != "duration":
        return number.value, ()
    low, high = dimension.usual
    fits = [
        value
        for value in (number.value, number.thousands)
        if low <= convert(value, unit, dimension.core_unit) <= high
    ]
    if len(fits) != 1 and (not english or number.mark == "."):
        raise _which_mark(term, unit)
    if fits == [number.value]:
        return number.value, ()
    said = f'I took "{number.text}" as {written(float(number.thousands), unit)}.'
    return number.thousands, () if english and len(fits) == 1 else (said,)


def _spaced(term: Term, unit: Unit, dimension: Dimension) -> Fraction:
    """Thousands apart by a space, unless they make more than anybody means: 100 150 L."""
    value, text = term.number.value, term.text
    if convert(value, unit, dimension.core_unit) <= dimension.usual[1]:
        return value
    wrong = "that can be one number or two"
    raise NotUnderstood(quoted(text), wrong, f"one value, as {quoted(written(float(value), unit))}")


def _which_mark(term: Term, unit: Unit) -> NotUnderstood:
    assert term.number.thousands is not None
    forms = [written(float(term.number.thousands), unit), written(float(term.number.value), unit)]
    return NotUnderstood(
        quoted(term.text),
        f'"{term.number.text}" can be a thousands or a decimal number',
        either(quoted(form) for form in forms),
    )


def _gallons(term: Term, value: Fraction, unit: Unit, dimension: Dimension, region: str) -> str:
    """What a gallon was taken for, with the litres, so that it can be corrected."""
    core = convert(value, unit, dimension.core_unit)
    metric = to_show(core, dimension.core_unit, "metric")
    taken = written(float(value), unit)
    if system_for(region) == "us":
        return f"I took {quoted(term.text)} as {taken}, which is {metric}."
    other = "US" if unit.startswith("imperial") else "imperial"
    return f"I took {quoted(term.text)} as {taken}, not {other}; that is {metric}."


def _weight(term: Term, value: Fraction, unit: Unit, dimension: Dimension, _: str) -> str:
    """What a mass typed for a force weighs, at the standard 9.80665 m/s**2."""
    core = convert(value, unit, dimension.core_unit)
    return f"{quoted(term.text)} weigh {to_show(core, dimension.core_unit, 'metric')}"


def _smaller_term(
    term: Term, before: Fraction, above: Unit, dimension: Dimension, region: str
) -> tuple[float, Unit, tuple[str, ...]]:
    """A second or third term in the core's unit: inches after feet, "and a half"."""
    core = dimension.core_unit
    if term.unit is None and term.number.is_part:
        if term.joined_by_and:
            return convert(term.number.value, above, core), above, ()
        raise _half_of_what(term, before, above)
    unit = regional(term.unit or _unit_below(term, before, above, dimension, region), region)
    value, guesses = _settled(term, unit, dimension, region)
    if not convert(value, unit, core) < convert(Fraction(1), above, core):
        shown = quoted(f"{written(float(before), above)} {written(float(value), unit)}")
        wrong = "the second part is not smaller than one of the first"
        raise NotUnderstood(shown, wrong, f"for example {example_for(dimension, region)}")
    return convert(value, unit, core), unit, guesses


def _half_of_what(term: Term, before: Fraction, above: Unit) -> NotUnderstood:
    """4 ft 1/2: half a foot, or half an inch."""
    first, below = written(float(before), above), smaller(above) or above
    forms = [
        written(float(before + term.number.value), above),
        f"{first} {written(float(term.number.value), below)}",
    ]
    return NotUnderstood(
        quoted(term.text), f"not of what, after {first}", either(quoted(form) for form in forms)
    )


def _unit_below(
    term: Term, before: Fraction, above: Unit, dimension: Dimension, region: str
) -> Unit:
    """Inches after feet, minutes after hours."""
    if below := smaller(above):
        return below
    raise NotUnderstood(
        quoted(written(float(before), above)),
        f"not {quoted(term.text)} after it",
        f"one number with its unit, such as {example_for(dimension, region)}",
    )
