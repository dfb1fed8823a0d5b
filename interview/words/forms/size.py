"""Sizes of two or three sides: 36x18x16 in, 5 ft by 18 in by 2 ft, a 40 breeder."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import TypeAlias

from interview.base.near_spelling import nearest
from interview.base.units import convert, system_for
from interview.words.amounts.amount import match_unit, written
from interview.words.amounts.dimensions import Frame, dimensions
from interview.words.amounts.hedges import Hedge, split_hedge
from interview.words.amounts.numbers import read_number
from interview.words.amounts.quantity import read_tokens
from interview.words.amounts.reading import Reading
from interview.words.amounts.spellings import Unit, label, smaller
from interview.words.forms.named_volume import check_volume, volume_and_sides
from interview.words.lexicon.files import known_words, meant_by
from interview.words.text.refusal import NotUnderstood, either, quoted
from interview.words.text.tokens import Token, joined, plain_words, tokenise

__all__ = ["Sizes", "large_unit", "read_size"]

Sizes: TypeAlias = Mapping[str, tuple[float, ...]]
"""Trade names of tanks, and their sides in m."""
_SIDES = {2: "length and width", 3: "length, width and height"}
_EXAMPLES = {
    2: ('"30 x 20 cm"', '"12 x 8 in"'),
    3: ('"120 x 45 x 50 cm"', '"48 x 18 x 21 in"'),
}
_ASSUMED_LONGEST = (0.3, 2.6)
"""m; a unit nobody typed is assumed only if it makes a tank this long."""
_LEAST_SMALLER = 8
"""A bare side of so much is told in the smaller unit, where the others are told in the larger."""
_INHERITED_LONGEST = 4.0
"""m; a side that takes another's unit is refused beyond this."""
_LEAST_FEET, _MOST_FEET, _OF_A_FOOT = 1.0, 8.0, 4
"""No side of a tank is told as less of a foot: 1.40 x 0.50 x 0.50 is in metres. Up to so many a
tank would be a toy in inches, and feet are told by quarters."""


@dataclass(frozen=True, slots=True)
class _Side:
    tokens: list[Token]
    label: str | None
    unit: Unit | None
    """The first unit typed in it."""


def read_size(
    text: str, parts: int, *, region: str = "europe", names: Sizes | None = None, guess: bool = True
) -> tuple[Reading, ...]:
    """Length and width (2 parts), or length, width and height (3), each a reading in m.

    Without any unit it is in inches in north_america, in cm elsewhere, where it may be a `guess`;
    what was assumed is said once, in the first reading's `understood`. Raises NotUnderstood.
    """
    if parts == 3 and (both := volume_and_sides(text)):
        told = read_size(both[1], parts, region=region, names=names, guess=guess)
        check_volume(*both, told, region)
        return told
    if named := _by_name(text, names or {}, region):
        return named
    sides = _ordered(_sides(tokenise(text)), parts, text, region)
    bare = next((side for side in sides if side.unit is None), None)
    unit = None if bare is None else _shared_unit(sides, bare, text, region)
    length = dimensions()["length"]
    frames = [Frame(length, region, _bare_unit(side, sides, unit)) for side in sides]
    readings = [
        read_tokens(side.tokens, frame, text) for side, frame in zip(sides, frames, strict=True)
    ]
    if unit is not None and not any(side.unit for side in sides):
        readings[0] = _assumed(readings, sides, unit, text, (names or {}) if guess else None)
    elif unit is not None:
        _check_inherited(readings, sides, unit, text, region)
        if other := next((f.bare_unit for f in frames if f.bare_unit != unit), None):
            taken = _taken(text, [reading.best for reading in readings], other)
            readings[0] = replace(readings[0], understood=taken)
    return tuple(readings)


def _key(text: str) -> str:
    """A trade name without the words that make no difference: a 40 gallon breeder tank."""
    spaced = re.sub(r"(?<=\d)(?=[a-z])", " ", plain_words(text))
    return " ".join(word for word in spaced.split() if word not in known_words("tank_words"))


@lru_cache(maxsize=8)
def _keys(names: tuple[str, ...]) -> Mapping[str, str]:
    """The trade names by what is left of them; the first of two that look the same."""
    keys: dict[str, str] = {}
    for name in names:
        keys.setdefault(_key(name), name)
    return keys


def _by_name(text: str, names: Sizes, region: str) -> tuple[Reading, ...] | None:
    if len(text) > 60 or plain_words(text).isdigit():
        return None
    keys, key = _keys(tuple(names)), _key(text)
    if key in keys:
        return _from_name(text, names[keys[key]], region)
    if re.search(r"[×x*]|\bby\b", text.casefold()) and re.search(r"\d.*\d", text):
        return None
    close = [name for other, name in keys.items() if key and other.startswith(f"{key} ")]
    if not close and re.search("[a-z]{3}", key):
        close = [keys[found] for found in nearest(key, keys)]
    if not close:
        return None
    unit = _own_unit(region)
    tanks = {names[name]: name for name in reversed(close)}
    meant = [f"{name} ({_written(sides, unit)})" for sides, name in reversed(tanks.items())]
    wrong = f"I don't know which tank {quoted(text)} is; did you mean {either(meant[:4])}?"
    raise NotUnderstood("", wrong, either(quoted(name) for name in [*reversed(tanks.values())][:4]))


def _from_name(text: str, sides: Sequence[float], region: str) -> tuple[Reading, ...]:
    unit = _own_unit(region)
    first, *rest = (Reading(side, side, side, text.strip(), unit) for side in sides)
    return replace(first, understood=_taken(text, sides, unit)), *rest


def _own_unit(region: str) -> Unit:
    return "inch" if system_for(region) == "us" else "cm"


def _sides(tokens: list[Token]) -> list[_Side]:
    before, after = (known_words("sides", side) for side in ("before", "after"))
    while len(tokens) > 1 and tokens[0].text in before and _goes_on(tokens):
        tokens = tokens[1:]
    while len(tokens) > 1 and tokens[-1].text in after:
        tokens = tokens[:-1]
    groups: list[list[Token]] = [[]]
    for token in tokens:
        after_label = bool(groups[-1]) and groups[-1][-1].text in meant_by("side_labels")
        if token.text in known_words("sides", "between") or (token.text == "and" and after_label):
            groups.append([])
        elif not (token.text == "and" and not groups[-1]):
            groups[-1].append(token)
    return _all_about([_side(group) for group in groups if group])


def _all_about(sides: list[_Side]) -> list[_Side]:
    """Give every side the one "about" in front, or the one "or so" behind."""
    hedges = [split_hedge(side.tokens)[0] for side in sides]
    if not hedges or Hedge.ABOUT not in (hedges[0], hedges[-1]):
        return sides
    about = Token("word", "about", "about", glued=False)
    return [
        replace(side, tokens=[about, *side.tokens]) if hedge is Hedge.NONE else side
        for side, hedge in zip(sides, hedges, strict=True)
    ]


def _goes_on(tokens: list[Token]) -> bool:
    """Whether a leading article can go: in "a 36x18x16", but not in "a foot"."""
    return match_unit(tokens, 1, "length") is None and tokens[1].text not in ("half", "quarter")


def _side(tokens: list[Token]) -> _Side:
    label, labels = None, meant_by("side_labels")
    if len(tokens) > 1 and tokens[-1].text in labels:
        label, tokens = labels[tokens[-1].text], tokens[:-1]
    elif len(tokens) > 1 and tokens[0].text in labels:
        label, tokens = labels[tokens[0].text], tokens[1:]
    units = (match_unit(tokens, at, "length") for at in range(1, len(tokens)))
    return _Side(tokens, label, next((unit[0] for unit in units if unit), None))


def _refusal(text: str, wrong: str, parts: int, region: str) -> NotUnderstood:
    example = _EXAMPLES[parts][region == "north_america"]
    return NotUnderstood(quoted(text), wrong, f"for example {example}")


def _ordered(sides: list[_Side], parts: int, text: str, region: str) -> list[_Side]:
    """The sides as length, width, height: by their labels, the rest in the order typed."""
    if len(sides) != parts:
        many = "only one side" if len(sides) == 1 else f"{len(sides)} sides"
        wrong = f"that is {many}, and {_SIDES[parts]} are needed"
        refused = _refusal(text, wrong, parts, region)
        if len(sides) == 1 and not any(token.kind == "number" for token in sides[0].tokens):
            wrong = f"I can't read {quoted(text)} as a size"
            raise NotUnderstood("", wrong, refused.example)
        raise refused
    order = _order_of_labels({side.label for side in sides if side.label})
    placed: dict[int, _Side] = {}
    for side in sides:
        if side.label is not None:
            slot = order[side.label]
            if slot in placed or slot >= parts:
                raise _refusal(text, f"not which side is the {_SIDES[parts]}", parts, region)
            placed[slot] = side
    free = iter(slot for slot in range(parts) if slot not in placed)
    for side in sides:
        if side.label is None:
            placed[next(free)] = side
    return [placed[slot] for slot in range(parts)]


def _order_of_labels(labels: set[str]) -> dict[str, int]:
    """Deep is the height of long and wide, the width of anything tall, or next to wide."""
    order = {"long": 0, "wide": 1, "tall": 2, "deep": 1}
    if "deep" in labels and "wide" in labels:
        order |= {"deep": 2} if "long" in labels else {"wide": 0, "deep": 1}
    return order


def _shared_unit(sides: list[_Side], bare: _Side, text: str, region: str) -> Unit:
    """The unit of the sides that have none: the one typed, or the region's."""
    given = {side.unit for side in sides if side.unit is not None}
    if len(given) > 1:
        wrong = f"{quoted(joined(bare.tokens))} has no unit, and the other sides differ in theirs"
        raise _refusal(text, wrong, len(sides), region)
    if given:
        return given.pop()
    numbers = [read_number(split_hedge(side.tokens)[1]) for side in sides]
    return large_unit([float(one.value) for one in numbers if one]) or _own_unit(region)


def large_unit(sides: Sequence[float]) -> Unit | None:
    """Metres or feet, where bare numbers are the sides of a tank in no smaller unit."""
    if len(sides) != 3 or max(sides) > _MOST_FEET:
        return None
    if min(sides) < _LEAST_FEET <= max(sides) <= _INHERITED_LONGEST:
        return "m"
    return "foot" if all((_OF_A_FOOT * side).is_integer() for side in sides) else None


def _bare_unit(bare: _Side, sides: Sequence[_Side], unit: Unit | None) -> Unit | None:
    """The unit of a side without one: behind 5 ft, 18 is in inches, as no tank is 18 ft wide."""
    number = read_number(bare.tokens)
    told = [read_number(side.tokens) for side in sides if side.unit]
    if unit is None or number is None or not smaller(unit):
        return unit
    longest = max((float(one.value) for one in told if one), default=math.inf)
    first = sides and bare is sides[0]
    is_smaller = not first and number.value >= _LEAST_SMALLER and number.value > longest
    return smaller(unit) if is_smaller else unit


def _check_inherited(
    readings: list[Reading], sides: Sequence[_Side], unit: Unit, text: str, region: str
) -> None:
    """No tank is 18 ft wide: 4 x 18 x 18 ft names the longest side without a unit of its own."""
    if max(reading.best for reading in readings) > _INHERITED_LONGEST:
        bare = [one for one in zip(readings, sides, strict=True) if one[1].unit is None]
        _, longest = max(bare, key=lambda one: one[0].best)
        wrong = f"{quoted(joined(longest.tokens))} has no unit, and in {label(unit)} it is too long"
        raise _refusal(text, wrong, len(readings), region)


def _assumed(
    readings: list[Reading], sides: list[_Side], unit: Unit, text: str, names: Sizes | None
) -> Reading:
    """The first reading, saying which unit was assumed; refused if another is as likely.

    Without `names` nothing is assumed.
    """
    low, high = _ASSUMED_LONGEST if len(sides) == 3 else (0.0, _INHERITED_LONGEST)
    bests = [reading.best for reading in readings]
    likely = names is not None and low <= max(bests) <= high
    if not likely or (unit == "cm" and _is_trade_size(bests, names or {})):
        bare = " x ".join(joined(side.tokens) for side in sides)
        raise NotUnderstood(
            quoted(text),
            "it has no unit",
            either(f'"{bare} {offered}"' for offered in ("in", "cm", "ft")),
        )
    return replace(readings[0], understood=_taken(text, bests, unit))


def _is_trade_size(bests: list[float], names: Sizes) -> bool:
    """Whether these centimetres would be a trade size, were they inches."""
    inches = [convert(convert(best, "m", "cm"), "inch", "m") for best in bests]
    return any(
        len(sides) == len(inches)
        and all(abs(one - other) < 0.002 for one, other in zip(sides, inches, strict=True))
        for sides in names.values()
    )


def _taken(text: str, sides: Sequence[float], unit: Unit) -> str:
    return f"I took {quoted(text)} as {_written(sides, unit)}."


def _written(sides: Sequence[float], unit: Unit) -> str:
    places = 2 if unit == "m" else 1
    numbers = (written(round(convert(side, "m", unit), places), "1") for side in sides)
    return f"{' × '.join(numbers)} {label(unit)}"
