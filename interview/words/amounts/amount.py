"""One amount: numbers and their units, as in 18 1/2 in, 4 ft 2, a foot and a half."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from interview.base.show import to_show, with_label
from interview.base.units import convert, system_for
from interview.words.amounts.dimensions import Frame
from interview.words.amounts.numbers import Number, read_number
from interview.words.amounts.reading import Measured
from interview.words.amounts.spellings import TOLD, Unit, label, regional, smaller, spellings
from interview.words.lexicon.files import units
from interview.words.text.refusal import NotUnderstood, either, quoted
from interview.words.text.tokens import Token, joined, tokenise

__all__ = ["Term", "match_unit", "measure", "no_unit", "read_terms", "unit_after", "written"]

_LONGEST_UNIT = 6
_LARGER = 10
"""So many times what is usual a comma still groups thousands where it never marks decimals."""
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


def match_unit(tokens: Sequence[Token], at: int, dimension: str) -> tuple[Unit, int] | None:
    """The longest spelling of one of the dimension's units that starts at a token, and its end."""
    table, found = spellings(dimension), None
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


def unit_after(tokens: list[Token], number: Number, dimension: str) -> tuple[Unit, int] | None:
    """A unit, after a hyphen (3-foot) or after "of a" (half of an inch), and its end."""
    at = number.end
    of_whole = number.is_part or dimension != TOLD  # 3 a day is told of a rhythm
    while (found := match_unit(tokens, at, dimension)) is None and at < len(tokens):
        hyphen = tokens[at].text == "-" and tokens[at].glued
        if not (hyphen or (of_whole and tokens[at].text in _FILLERS)):
            break
        at += 1
    return found


def _term(tokens: list[Token], at: int, dimension: str, after_and: bool) -> tuple[Term, int] | None:
    number = read_number(tokens, at)
    if number is None:
        return None
    unit = unit_after(tokens, number, dimension)
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

    Raises NotUnderstood where it may as well be the other end of a range, as in 5'-6.
    """
    if term.unit is None and feet.number.value < term.number.value < 12:
        low, high = (written(one.number.value, "1") for one in (feet, term))
        forms = (quoted(f"{low} ft {high} in"), quoted(f"{low} to {high} ft"))
        wrong = "that can be feet and inches, or two lengths"
        raise NotUnderstood(quoted(f"{feet.text}-{term.text}"), wrong, either(forms))
    return term.unit in ("inch", None) and term.number.value < 12


def _is_power(tokens: list[Token], at: int) -> bool:
    """The 2 of m2: never centimetres after metres."""
    before = tokens[at - 1]
    return tokens[at].glued and tokens[at].text in ("2", "3") and before.kind == "word"


def measure(terms: Sequence[Term], frame: Frame) -> Measured:
    """Terms as a value in the core's unit.

    Raises NotUnderstood if a number needs a unit it hasn't got, or can mean two things.
    """
    first = _first_unit(terms[0], frame)
    unit = regional(first, frame.region)
    value, guesses = _settled(terms[0], unit, frame)
    if unit != first:
        guesses += (_said_of_region(terms[0], value, unit, frame),)
    parts = [convert(value, unit, frame.dimension.core_unit)]
    for term in terms[1:]:
        part, unit, more = _smaller_term(term, value, unit, frame)
        parts.append(part)
        guesses += more
    return Measured.exactly(math.fsum(parts), unit, guesses)


def written(value: float | Fraction, unit: Unit) -> str:
    """A number with its unit, short, in a form that reads back: 18.5 in.

    Three decimals get a fourth: 1.250 could be read as 1250.
    """
    number = f"{Decimal(f'{float(value):.6g}'):f}"
    head, _, tail = number.partition(".")
    if len(tail) == 3 and head.lstrip("-") != "0":
        number += "0"
    name = label(unit)
    if unit in {"day", "week", "fortnight", "month", "year"} and number != "1":
        name += "s"
    return with_label(number, name)


def _either_of(forms: Iterable[tuple[float | Fraction, Unit]]) -> str:
    """Amounts to choose from, as they would be typed."""
    return either(quoted(written(*form)) for form in forms)


def _first_unit(term: Term, frame: Frame) -> Unit:
    value, dimension = term.number.value, frame.dimension
    if term.unit == "?degree":
        forms = _either_of((value, unit) for unit in ("degC", "degF"))
        raise NotUnderstood(quoted(term.text), "not whether °C or °F is meant", forms)
    if term.unit is not None:
        return term.unit
    if dimension.bare is not None and dimension.bare[0] <= value <= dimension.bare[1]:
        return dimension.core_unit
    if value == 0 and not dimension.hedge_fixed:
        return dimension.core_unit
    if frame.bare_unit is not None:
        return frame.bare_unit
    raise no_unit(term.text, float(value), frame)


def no_unit(text: str, value: float, frame: Frame, *, before: str = "") -> NotUnderstood:
    """The refusal of a bare number, offering it with the units at hand."""
    dimension, forms = frame.dimension, []
    if dimension.name in ("share", "percent"):
        scaled = 100 * value if value <= 1 else value
        forms = [written(scaled, "%")] + ([written(value, "%")] if value <= 1 else [])
        wrong = "it needs a percent sign"
    elif dimension.bare is not None:
        wrong = f"that is not {dimension.noun} I can use"
    else:
        wrong = "it has no unit"
        offers = units().offered.get(dimension.name) or _own_unit(frame)
        forms = [written(value, unit) for unit in offers[frame.region == "north_america"]]
    shown = either(quoted(before + form) for form in forms)
    return NotUnderstood(quoted(text), wrong, shown or frame.example)


def _own_unit(frame: Frame) -> tuple[tuple[Unit, ...], tuple[Unit, ...]]:
    """The unit of the dimension's own example, for both kinds of region."""
    found = match_unit(tokenise(frame.dimension.example), 1, frame.dimension.name)
    unit = () if found is None else (found[0],)
    return unit, unit


def _settled(term: Term, unit: Unit, frame: Frame) -> tuple[Fraction, tuple[str, ...]]:
    """A term's number, its comma or point decided: by region, else by what is usual."""
    number, dimension = term.number, frame.dimension
    if number.mark == " ":
        return _spaced(term, unit, frame), ()
    if number.thousands is None:
        return number.value, ()
    english = frame.region in _ENGLISH_MARKS
    if english and number.mark == "." and dimension.name != "duration":
        return number.value, ()
    low, high = dimension.usual
    fits = [
        value
        for value in (number.value, number.thousands)
        if low <= convert(value, unit, dimension.core_unit) <= high
    ]
    if len(fits) != 1 and (not english or number.mark == "."):
        wrong = f'"{number.text}" can be a thousands or a decimal number'
        forms = _either_of([(number.thousands, unit), (number.value, unit)])
        raise NotUnderstood(quoted(term.text), wrong, forms)
    large = convert(number.thousands, unit, dimension.core_unit) > _LARGER * high
    if fits == [number.value] and (large or not english or number.mark != ","):
        return number.value, ()
    said = f'I took "{number.text}" as {written(number.thousands, unit)}.'
    return number.thousands, () if english and fits == [number.thousands] else (said,)


def _spaced(term: Term, unit: Unit, frame: Frame) -> Fraction:
    """Thousands apart by a space, unless they make more than anybody means: 100 150 L."""
    value = term.number.value
    if convert(value, unit, frame.dimension.core_unit) <= frame.dimension.usual[1]:
        return value
    form = f"one value, as {quoted(written(value, unit))}"
    raise NotUnderstood(quoted(term.text), "that can be one number or two", form)


def _said_of_region(term: Term, value: Fraction, unit: Unit, frame: Frame) -> str:
    """What a gallon was taken for, or what a mass typed for a force weighs, in metric units.

    A weight is at the standard 9.80665 m/s**2.
    """
    core = frame.dimension.core_unit
    said, metric = quoted(term.text), to_show(convert(value, unit, core), core, "metric")
    if frame.dimension.name == "force":
        return f"{said} weigh {metric}"
    taken = f"I took {said} as {written(value, unit)}"
    if system_for(frame.region) == "us":
        return f"{taken}, which is {metric}."
    other = "US" if unit.startswith("imperial") else "imperial"
    return f"{taken}, not {other}; that is {metric}."


def _smaller_term(
    term: Term, before: Fraction, above: Unit, frame: Frame
) -> tuple[float, Unit, tuple[str, ...]]:
    """A second or third term in the core's unit: inches after feet, "and a half"."""
    core, first, value = frame.dimension.core_unit, written(before, above), term.number.value
    if term.unit is None and term.number.is_part:
        if term.joined_by_and:
            return convert(value, above, core), above, ()
        # 4 ft 1/2: half a foot, or half an inch
        inches = f"{first} {written(value, smaller(above) or above)}"
        forms = either(map(quoted, (written(before + value, above), inches)))
        raise NotUnderstood(quoted(term.text), f"not of what, after {first}", forms)
    unit = term.unit or smaller(above)
    if not unit:
        form = f"one number with its unit, such as {frame.example.removeprefix('for example ')}"
        raise NotUnderstood(quoted(first), f"not {quoted(term.text)} after it", form)
    unit = regional(unit, frame.region)
    value, guesses = _settled(term, unit, frame)
    if not convert(value, unit, core) < convert(Fraction(1), above, core):
        wrong = "the second part is not smaller than one of the first"
        raise NotUnderstood(quoted(f"{first} {written(value, unit)}"), wrong, frame.example)
    return convert(value, unit, core), unit, guesses
