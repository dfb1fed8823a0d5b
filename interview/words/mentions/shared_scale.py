"""Temperatures that share one scale: basking 91F, water 76."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from interview.words.amounts.spellings import Unit
from interview.words.mentions.parts import Part, Side

__all__ = ["with_shared_scale"]

_WARM = frozenset({"water", "basking", "room", "temp", "temperature", "spot", "surface", "air"})
_ENDS = frozenset({",", ".", ";", "\n", "and", ""})
_LIKELY = {"degF": (50.0, 130.0), "degC": (8.0, 45.0)}
_SHOWN = {"degF": "F", "degC": "°C"}


def with_shared_scale(parts: Sequence[Part]) -> list[Part]:
    """The parts with bare temperatures given the one scale their sentence names."""
    found: list[Part] = []
    start = 0
    for at in range(len(parts) + 1):
        if at == len(parts) or (parts[at].kind == "mark" and parts[at].text in (".", "\n", "!")):
            found += _in_sentence(parts[start : at + 1])
            start = at + 1
    return found


def _in_sentence(parts: Sequence[Part]) -> list[Part]:
    scales = {part.unit for part in parts if part.kind == "temperature"}
    if len(scales) != 1:
        return list(parts)
    scale = scales.pop()
    return [_scaled(parts, at, scale) for at in range(len(parts))]


def _scaled(parts: Sequence[Part], at: int, scale: Unit | None) -> Part:
    part = parts[at]
    if part.kind != "number" or scale not in _LIKELY:
        return part
    low, high = _LIKELY[scale]
    ends = [side.value for side in part.sides] or [part.value]
    before = {parts[at - step].text for step in (1, 2) if at >= step}
    after = parts[at + 1].text if at + 1 < len(parts) else ""
    if after not in _ENDS or not before & _WARM or not all(low <= end <= high for end in ends):
        return part
    sides = tuple(Side(f"{s.said} {_SHOWN[scale]}", s.value, scale, "") for s in part.sides)
    said = f"{part.said} {_SHOWN[scale]}"
    return replace(
        part, kind="temperature", text="<temperature>", said=said, unit=scale, sides=sides
    )
