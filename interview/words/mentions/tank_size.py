"""The size of a tank as keepers tell it: a trade name, three sides, or sides with their labels."""

from __future__ import annotations

import math
import re
from collections.abc import Collection, Iterator, Sequence
from dataclasses import replace

from interview.words.amounts.reading import Reading
from interview.words.amounts.spellings import Unit, label
from interview.words.forms.size import Sizes, read_size
from interview.words.lexicon.files import known_words, meant_by
from interview.words.mentions.parts import Part, Side
from interview.words.text.refusal import NotUnderstood

__all__ = ["is_same_tank", "said_size", "with_shared_unit", "with_trade_names"]

_IMPERIAL, _METRIC = frozenset({"inch", "foot"}), frozenset({"cm", "mm", "m"})
_NEAR = 10
_NUMBER = re.compile(r"[0-9]+")
_TYPED = re.compile(r"[0-9]+[ -]?(?:us )?[a-z]*\.?|[a-z]+(?:[ -][a-z]+)* gallons?")
_SAME_SIDE = 0.03
_SAME_VOLUME = 0.2
"""Names tell what a tank holds in round figures, sides what it measures outside."""
_SIDES = 3
_IN_MM = 450
"""No tank is as long in cm."""
_SHORTEST = 0.2
"""m; what is shorter is no tank."""


def with_shared_unit(parts: Sequence[Part]) -> list[Part]:
    """Bare sizes in what all other lengths of a text are in: cm or inches."""
    told = [one for part in parts for one in (part.unit, *(side.unit for side in part.sides))]
    imperial, metric = (sum(unit in units for unit in told) for units in (_IMPERIAL, _METRIC))
    if bool(imperial) == bool(metric) or imperial == 1:  # a turtle alone may be told in inches
        return list(parts)
    return [_in_unit(part, "inch" if imperial else "cm") for part in parts]


def _in_unit(part: Part, unit: Unit) -> Part:
    if part.kind not in ("size2", "size3") or any(side.unit or side.label for side in part.sides):
        return part
    if max(side.value for side in part.sides) >= _IN_MM:
        return part
    last = part.sides[-1]
    told = Side(f"{last.said} {label(unit)}", last.value, unit)
    return replace(part, sides=(*part.sides[:-1], told))


def with_trade_names(parts: Sequence[Part], sizes: Sizes) -> list[Part]:
    """The parts with every trade name of a tank made one part: 40 breeder, 55 gallon."""
    found: list[Part] = []
    at = 0
    while at < len(parts):
        named = _named(parts, at, sizes)
        if named is None:
            found.append(parts[at])
            at += 1
        else:
            found.append(named[1])
            at = named[0]
    return found


def _named(parts: Sequence[Part], at: int, sizes: Sizes) -> tuple[int, Part] | None:
    part = parts[at]
    if part.kind not in ("volume", "number", "mass"):
        return None
    number = _NUMBER.match(part.said if part.said[:1].isdigit() else f"{part.value:g} {part.unit}")
    if number is None:
        return None
    units = {"?gallon": "gallon", "gallon": "gallon", "g": "gallon", "L": "litre"}
    unit = units.get(part.unit or "", "")
    if (not unit and part.kind != "number") or not _TYPED.fullmatch(part.said.casefold()):
        return None
    if part.unit == "g" and part.end - part.start > len(number.group()) + 1:
        return None  # 40g, but 40 g is a mass
    after = at + 1
    if after < len(parts) and parts[after].text == "-":
        after += 1
    word = parts[after].text if after < len(parts) else ""
    forms = meant_by("trade_forms")
    ways = [(after + 1, forms[word])] if word in forms else []
    for end, form in (*ways, (at + 1, "")):
        name = " ".join(filter(None, (number.group(), unit, form)))
        if name in sizes and (unit or (form and _is_meant(parts, at, word))):
            stop = _spelled_out(parts, end, name, sizes)
            trade = replace(part, kind="trade", text="<trade>", said=name, sides=())
            return stop, replace(trade, end=parts[stop - 1].end)
    return None


def _spelled_out(parts: Sequence[Part], end: int, name: str, sizes: Sizes) -> int:
    """Where a trade name ends with the sides that say the same behind it."""
    at = next((n for n in range(end, end + 3) if n < len(parts) and parts[n].kind == "size3"), 0)
    return at + 1 if at and _agrees(parts[at], [name], sizes) else end


def _is_meant(parts: Sequence[Part], at: int, form: str) -> bool:
    """A 20 long, but not the 20 long of 20 long, 12 wide."""
    if form not in known_words("trade_names", "loose_forms"):
        return True
    near = {part.text for part in parts[max(0, at - _NEAR) : at + _NEAR]}
    others = known_words("trade_names", "other_sides")
    if near & others or any(text.startswith("<size") for text in near):
        return False
    return at > 0 and parts[at - 1].text in known_words("trade_names", "before")


def said_size(part: Part, sizes: Sizes, region: str) -> str:
    """A size as it would be typed; "" where its units are not sure."""
    for unit in _units(part, sizes, region):
        said = _said(part.sides, unit)
        told = _read(said, len(part.sides), sizes, region)
        if told and (len(told) < _SIDES or max(side.best for side in told) >= _SHORTEST):
            return said
    return ""


def _said(sides: Sequence[Side], unit: str) -> str:
    """The sides with a unit behind each that has none, or behind all of them."""
    if not any(side.unit or side.label for side in sides):
        return f"{' x '.join(side.said for side in sides)} {unit}"
    named = ((side.said, "" if side.unit else unit, side.label) for side in sides)
    return " x ".join(" ".join(filter(None, one)) for one in named)


def _units(part: Part, sizes: Sizes, region: str) -> Iterator[str]:
    """What sides without a unit may be told in: that of the others, or what makes a tank."""
    named = [side.unit for side in part.sides if side.unit]
    if named:
        yield from ("", label(named[-1]), *(["cm"] if named[-1] == "m" else []))
        return
    numbers = " x ".join(side.said for side in part.sides)
    told = _read(numbers, len(part.sides), sizes, region)
    if told:
        yield label(told[0].unit)
    elif region in ("", "north_america") and _agrees(part, sizes, sizes):
        yield "in"
    elif len(part.sides) == _SIDES and max(side.value for side in part.sides) >= _IN_MM:
        yield "mm"


def is_same_tank(trade: str, said: str, sizes: Sizes, region: str) -> bool:
    """Whether sides as they would be typed come to about the volume of a trade name."""
    told = _read(said, 3, sizes, region)
    return bool(told) and math.isclose(
        math.prod(side.best for side in told),
        math.prod(sizes.get(trade, (0.0,))),
        rel_tol=_SAME_VOLUME,
    )


def _read(said: str, sides: int, sizes: Sizes, region: str) -> tuple[Reading, ...]:
    try:
        return read_size(said, sides, region=region, names=sizes)
    except NotUnderstood:
        return ()


def _agrees(part: Part, names: Collection[str], sizes: Sizes) -> bool:
    """Whether a size only spells out a trade name: 75 gallon (48x18x21)."""
    said = " x ".join(side.said for side in part.sides)
    for unit in ("in", "cm"):
        told = _read(f"{said} {unit}", 3, sizes, "") or _read(said, 3, sizes, "")
        if told and any(_is_near(told, sizes[name]) for name in names):
            return True
    return False


def _is_near(told: Sequence[Reading], sides: Sequence[float]) -> bool:
    pairs = zip(told, sides, strict=True)
    return all(abs(one.best - other) <= _SAME_SIDE * other for one, other in pairs)
