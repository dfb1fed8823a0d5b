"""Temperatures told without their scale: basking 91F, water 76; room 19 at night.

One scale named in a sentence is the scale of all its temperatures. Else only one makes sense:
no room, water or basking spot is at 60 °C, nor at 30 °F.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from interview.words.amounts.spellings import Unit
from interview.words.lexicon.files import known_words
from interview.words.mentions.parts import Part, Side

__all__ = ["with_scale", "with_shared_scale"]

_LIKELY = {"degF": (50.0, 130.0), "degC": (8.0, 42.0)}
_SHOWN = {"degF": "F", "degC": "°C"}
_VAGUE = ("or so", "or thereabouts")
"""A bare number so widened is no reading."""
_BEFORE = 12
"""Words in front of a bare number in which what is warm must be named."""
_NEAR = 5
_DEGREES = re.compile(r"\s*(?:°|\b(?:deg|grad)|(?<![a-z])(?:[cf]|celsius|fahrenheit)\b)", re.I)
_DATES = frozenset({"th", "st", "nd", "rd", "%"})
"""Behind a number these make it a date, or a share."""
_FILLED = frozenset({"water", "waters", "level"})
"""What comes up to a bare number may be as deep: water up to 30."""
_TO_A_PLACE = frozenset({"from", "above", "over", "off", "below"})
"""Before a warm thing: then how far off something is, is told."""
_NO_WARMTH = frozenset(
    {"length", "lengths", "size2", "size3", "power", "flow", "volume", "mass", "duration", "share"}
)
"""What a number before a slash is of when the one behind it is: a dock of 30/20 cm."""


def with_shared_scale(parts: Sequence[Part]) -> list[Part]:
    """The parts with bare temperatures given their scale."""
    found: list[Part] = []
    start = 0
    for at in range(len(parts) + 1):
        if at == len(parts) or (parts[at].kind == "mark" and parts[at].text in (".", "\n", "!")):
            found += _in_sentence(parts[start : at + 1], mended=_is_mended(parts[:start]))
            start = at + 1
    return found


def _in_sentence(parts: Sequence[Part], *, mended: bool) -> list[Part]:
    scales = {part.unit for part in parts if part.kind == "temperature"}
    if len(scales) > 1:
        return list(parts)
    shared = next(iter(scales), None)
    if shared is None and mended:
        return list(parts)  # no wait, that's the width: water is 16
    return [_scaled(parts, at, shared) for at in range(len(parts))]


def _is_mended(parts: Sequence[Part]) -> bool:
    """Whether an amount was just taken back, so that a bare number may be the right one."""
    return any(part.text in known_words("mended_by") - {"no"} for part in parts[-_BEFORE:])


def _scaled(parts: Sequence[Part], at: int, shared: Unit | None) -> Part:
    part = parts[at]
    if part.kind not in ("number", "degrees") or (part.kind == "number" and part.unit):
        return part
    if part.said.endswith(_VAGUE):
        return part
    ends = [side.value for side in part.sides] or [part.value]
    fits = [
        scale for scale, (low, high) in _LIKELY.items() if low <= min(ends) <= max(ends) <= high
    ]
    scale = shared if shared in fits else fits[0] if len(fits) == 1 and shared is None else None
    slopes = any(one.text in known_words("warmth", "slopes") for one in parts[max(0, at - 4) : at])
    if scale is None or slopes or not (part.kind == "degrees" or _is_warmth(parts, at)):
        return part
    said = with_scale(part.said, scale)
    sides = tuple(Side(with_scale(s.said, scale), s.value, scale) for s in part.sides)
    return replace(
        part, kind="temperature", text="<temperature>", said=said, unit=scale, sides=sides
    )


def with_scale(said: str, scale: Unit) -> str:
    """Degrees of one scale as they would be typed: 80, 80° and 80 f as 80 F."""
    return f"{_DEGREES.split(said)[0]} {_SHOWN[scale]}"


def _has_season(parts: Sequence[Part], at: int) -> bool:
    """Whether a season or a month stands near, and nothing else that is counted: 58 in January."""
    near = [part.text for part in parts[max(0, at - _NEAR) : at + 1 + _NEAR]]
    if near[-1:] == [parts[at].text] or parts[min(at + 1, len(parts) - 1)].text in _DATES:
        near = near[: -1 - _NEAR]
    seasons = known_words("warmth", "seasons")
    others = known_words("warmth", "others") | known_words("warmth", "dated")
    before = {part.text for part in parts[max(0, at - _BEFORE) : at]}
    if any(part.kind in _NO_WARMTH for part in parts[max(0, at - _NEAR) : at]):
        return False  # filled to 30 cm (summer 35)
    return not seasons.isdisjoint(near) and others.isdisjoint({*near, *before})


def _is_warmth(parts: Sequence[Part], at: int) -> bool:
    """Whether a bare number stands behind something warm, with only small words between."""
    after = parts[at + 1].text if at + 1 < len(parts) else ""
    if _has_season(parts, at):
        return True
    if after and after not in known_words("warmth", "after"):
        return False
    if after == "/" and at + 2 < len(parts) and parts[at + 2].kind in _NO_WARMTH:
        return False
    for here in range(at - 1, max(0, at - _BEFORE) - 1, -1):
        part = parts[here]
        if part.text in _FILLED and parts[at - 1].text == "to":
            return False
        if part.text in known_words("warmth", "things"):
            return {one.text for one in parts[max(0, here - 2) : here]}.isdisjoint(_TO_A_PLACE)
        if part.text in known_words("warmth", "others") or part.kind in _NO_WARMTH:
            return False
    return False
