"""The size of a tank as keepers tell it: a trade name, three sides, or sides with their labels."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace

from interview.base.units import convert
from interview.words.mentions.parts import Part, Side

__all__ = ["agrees", "labelled_sides", "said_size", "with_trade_names"]

_FORMS = {"breeder": "breeder", "b": "breeder", "long": "long", "high": "high", "tall": "high"}
_LOOSE_FORMS = frozenset({"long", "high", "tall", "b"})
_DETERMINERS = frozenset({"a", "an", "the", "my", "our", "standard", "his", "her", "their"})
_OTHER_SIDES = frozenset({"wide", "deep", "width", "depth", "x"})
_NEAR = 10
_NUMBER = re.compile(r"[0-9]+")
_LABELS = {"long": "long", "wide": "wide", "tall": "tall", "high": "tall", "deep": "deep"}
_BETWEEN = frozenset({",", "and", "by", "x", "its", "is", "it", "tank", "a", "in", "the"})
_SHOWN = {"inch": "in", "foot": "ft", "cm": "cm", "mm": "mm", "m": "m", "yard": "yd"}
_SAME_SIDE = 0.03
_MOST_FEET = 10
"""A tank of 6 x 2 x 2 foot is in feet all over; 4 x 18 x 18 foot is not."""


def with_trade_names(parts: Sequence[Part], sizes: Mapping[str, tuple[float, ...]]) -> list[Part]:
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


def _named(
    parts: Sequence[Part], at: int, sizes: Mapping[str, tuple[float, ...]]
) -> tuple[int, Part] | None:
    part = parts[at]
    number = _NUMBER.match(part.said if part.said[:1].isdigit() else f"{part.value:g} {part.unit}")
    if number is None or part.kind not in ("volume", "number", "mass"):
        return None
    units = {"?gallon": "gallon", "gallon": "gallon", "g": "gallon", "L": "litre"}
    unit = units.get(part.unit or "", "")
    if not unit and part.kind != "number":
        return None
    digits = re.fullmatch(r"[0-9]+[ -]?(?:us )?[a-z]*\.?", part.said.casefold())
    if not digits and not re.fullmatch(r"[a-z]+ gallons?", part.said.casefold()):
        return None
    after = at + 1
    if after < len(parts) and parts[after].text == "-":
        after += 1
    word = parts[after].text if after < len(parts) else ""
    ways = [(after + 1, _FORMS[word])] if word in _FORMS else []
    for end, form in (*ways, (at + 1, "")):
        name = " ".join(filter(None, (number.group(), unit, form)))
        if name not in sizes or (not unit and not _is_meant(parts, at, word)):
            continue
        if not unit and not form:
            continue
        if (
            unit == "gallon"
            and part.unit == "g"
            and part.end - part.start > len(number.group()) + 1
        ):
            continue
        last = parts[end - 1]
        return end, replace(part, kind="trade", text="<trade>", end=last.end, said=name, sides=())
    return None


def _is_meant(parts: Sequence[Part], at: int, form: str) -> bool:
    """A 20 long, but not the 20 long of 20 long, 12 wide."""
    if form not in _LOOSE_FORMS:
        return True
    near = {part.text for part in parts[max(0, at - _NEAR) : at + _NEAR]}
    if near & _OTHER_SIDES or any(text.startswith("<size") for text in near):
        return False
    return at > 0 and parts[at - 1].text in _DETERMINERS


def said_size(part: Part, sizes: Iterable[tuple[float, ...]], region: str) -> str:
    """A size with its units made plain, "" where they are not sure."""
    return _spoken(part.sides, sizes, region)


def agrees(part: Part, sides: Sequence[float]) -> bool:
    """Whether a size only spells out a trade name: 75 gallon (48x18x21)."""
    told = _in_order(part.sides)
    unit = next((side.unit for side in told if side.unit), "inch")
    metres = [convert(side.value, side.unit or unit, "m") for side in told]
    return len(metres) == len(sides) and all(
        abs(one - other) <= _SAME_SIDE * other for one, other in zip(metres, sides, strict=True)
    )


def _spoken(sides: Sequence[Side], sizes: Iterable[tuple[float, ...]], region: str) -> str:
    ordered = _in_order(sides)
    units = {side.unit for side in ordered if side.unit}
    if not units:
        unit = _regional(ordered, sizes, region)
        return " x ".join(f"{side.said} {unit}" for side in ordered) if unit else ""
    if len(units) > 1 and any(side.unit is None for side in ordered):
        return ""
    unit = next(iter(units))
    if unit == "foot" and ordered[-1].unit and max(side.value for side in ordered) <= _MOST_FEET:
        return " x ".join(side.said if side.unit else f"{side.said} ft" for side in ordered)
    spoken = [_with_unit(side, unit) for side in ordered]
    return " x ".join(spoken) if all(spoken) else ""


def _in_order(sides: Sequence[Side]) -> list[Side]:
    """By labels where every side has one, else as typed."""
    labels = [side.label for side in sides]
    for order in (["long", "wide", "tall"], ["long", "wide", "deep"], ["long", "deep", "tall"]):
        if sorted(labels) == sorted(order):
            return [next(side for side in sides if side.label == label) for label in order]
    return list(sides)


def _with_unit(side: Side, unit: str | None) -> str:
    """A side without a unit takes its neighbours'; after feet it may only be inches."""
    if side.unit is not None or unit is None:
        return side.said
    if unit == "foot" and side.value >= 8:
        return f"{side.said} in"
    if unit == "foot" and side.value > 4:
        return ""
    return f"{side.said} {_SHOWN[unit]}" if unit in _SHOWN else ""


def _regional(sides: Sequence[Side], sizes: Iterable[tuple[float, ...]], region: str) -> str:
    """The only unit that bare numbers can have: inches up to 100, centimetres beyond."""
    longest = max(side.value for side in sides)
    if len(sides) != 3:
        return ""
    if region == "north_america":
        return "in" if 16 <= longest <= 96 else ""
    inches = [convert(side.value, "inch", "m") for side in sides]
    for size in sizes:
        if all(abs(one - other) < 0.002 for one, other in zip(size, inches, strict=False)):
            return ""
    return "cm" if 45 <= longest <= 260 else ""


def labelled_sides(words: Sequence[str], parts: Sequence[Part]) -> Iterator[tuple[int, int, str]]:
    """Three sides told by their labels, one after the other: where, and as a size."""
    run: list[tuple[int, int, Side]] = []
    for at in range(len(words)):
        side = _labelled(words, parts, at)
        if side is None:
            continue
        gap = words[run[-1][1] : at] if run else ()
        if run and not set(gap) <= _BETWEEN:
            run = []
        run.append((at, side[0], side[1]))
        if len(run) == 3:
            said = _spoken_labelled([one for _, _, one in run])
            if said:
                yield run[0][0], run[-1][1], said
            run = []


def _labelled(words: Sequence[str], parts: Sequence[Part], at: int) -> tuple[int, Side] | None:
    if words[at] not in ("<length>", "<number>"):
        return None
    part, after = parts[at], words[at + 1] if at + 1 < len(words) else ""
    if after in _LABELS:
        return at + 2, Side(part.said, part.value, part.unit, _LABELS[after])
    if words[at] == "<length>" and after in ("tank", "aquarium"):
        return at + 2, Side(part.said, part.value, part.unit, "long")
    if words[at] == "<length>" and words[at + 1 : at + 3] == ("glass", "tank"):
        return at + 3, Side(part.said, part.value, part.unit, "long")
    return None


def _spoken_labelled(sides: Sequence[Side]) -> str:
    labels = sorted(side.label for side in sides)
    if labels not in (["long", "tall", "wide"], ["deep", "long", "wide"], ["deep", "long", "tall"]):
        return ""
    ordered = _in_order(sides)
    units = {side.unit for side in ordered if side.unit}
    return _spoken(ordered, (), "") if units else ""
