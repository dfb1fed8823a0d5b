"""A tank's answers and quantities as a scene: what is known stands in it, at its size.

Nobody is asked where along the tank a thing stands. The platform is put at the left end, what
hangs in the water at the right; heights and sizes are those of the tank.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from typing import Any, TypeAlias

from interview.report.pictures.scene.things import Kind, Scene, Span, Thing

__all__ = ["Look", "number_of", "scene_of"]

Look: TypeAlias = Callable[[str], Any]
"""The value of an answer or quantity in core units; None where it isn't known."""

_STAND_INS = {"tank_length": 0.9, "tank_width": 0.45, "tank_height": 0.45}
_LEVEL = 0.75  # of the height, where no water line is known
_LARGEST = 10.0  # m; what is longer is a slip, and would shrink the tank to a dot
_SMALLEST = 1e-3
_HIGHEST = 3.0  # heights of the tank: what hangs higher is drawn there
_MOST_ANIMALS = 6
# Shapes where nothing is measured, by eye: common practice, no source.
_SHELL_HEIGHT, _SHELL_WIDTH = 0.42, 0.75  # of the shell's length
_DOME, _TUBE, _COMPACT = 0.14, 0.04, 0.06  # m across a lamp
_ROD, _HEATER, _PIPE, _BOX = 0.03, 0.25, 0.02, 0.09  # m
_PLATFORM, _THICK = 0.3, 0.02
_NO = (None, "none")


def scene_of(look: Look) -> Scene:
    """Everything of a tank that can be drawn.

    Args:
        look: the answers and quantities; any may be missing, and none is trusted to fit
    """
    guessed = tuple(name for name in _STAND_INS if _length(look, name) is None)
    outside = {name: _length(look, name) or stand_in for name, stand_in in _STAND_INS.items()}
    wall = min(_length(look, "pane_thickness") or 0.006, min(outside.values()) / 4)
    length, width = (outside[n] - 2 * wall for n in ("tank_length", "tank_width"))
    height = outside["tank_height"] - wall
    frame = Scene(length, width, height, wall, (), guessed)
    bed = min(_length(look, "substrate_depth") or 0.0, height)
    below = number_of(look, "water_line_below_rim")
    level = height * _LEVEL if below is None else min(max(height - below, 0.0), height)
    if below is None:
        guessed = (*guessed, "water_line_below_rim")
    things = (
        *_ground(frame, bed, level),
        *_fittings(frame, look, bed, level),
        *_platform(frame, look, bed, level),
        *_covers(frame, look, level),
    )
    animals = _animals(frame, look, bed, level, things)
    return Scene(length, width, height, wall, (*things, *animals), guessed)


def number_of(look: Look, name: str) -> float | None:
    """A finite number; None for what is unknown or no number."""
    value = look(name)
    if isinstance(value, bool) or value is None or isinstance(value, str):
        return None
    try:
        number = float(value)
    except (TypeError, ValueError):
        return None
    return number if math.isfinite(number) else None


def _length(look: Look, name: str) -> float | None:
    """A length that something can have."""
    value = number_of(look, name)
    return value if value is not None and _SMALLEST <= value <= _LARGEST else None


def _within(start: float, size: float, end: float) -> Span:
    """A stretch of a size, moved or cut to lie between 0 and an end."""
    size = min(size, end)
    start = min(max(start, 0.0), end - size)
    return start, start + size


def _ground(frame: Scene, bed: float, level: float) -> Iterator[Thing]:
    across, along = (0.0, frame.width), (0.0, frame.length)
    if bed > 0:
        yield Thing("bed", along, (0.0, bed), across)
    yield Thing("water", along, (min(bed, level), level), across)


def _fittings(frame: Scene, look: Look, bed: float, level: float) -> Iterator[Thing]:
    """Heater and intake, at the end without the platform."""
    back = frame.width
    mount = look("heater_mount")
    if mount not in _NO:
        size = _length(look, "heater_length") or min(_HEATER, frame.length / 3)
        lowest = bed + max(number_of(look, "heater_height") or 0.0, 0.0)
        slant = size / math.sqrt(2)
        long, high = {"vertical": (_ROD, size), "angled": (slant, slant)}.get(mount, (size, _ROD))
        x = _within(frame.length * 0.88 - long, long, frame.length)
        y = (min(lowest, frame.height), min(lowest + high, frame.height * 1.2))
        yield Thing("heater", x, y, _within(back - 2 * _ROD, _ROD, back), str(mount))
    kind = look("filter_kind")
    if kind not in _NO:
        inside = kind in ("internal", "sponge")
        wide = _BOX if inside else _PIPE
        lowest = min(bed + max(number_of(look, "intake_height") or 0.0, 0.0), frame.height)
        top = min(lowest + 2 * _BOX, max(level, lowest)) if inside else frame.height + _PIPE
        x = _within(frame.length * 0.97 - wide, wide, frame.length)
        yield Thing("intake", x, (lowest, top), _within(back - wide, wide, back), str(kind))


def _platform(frame: Scene, look: Look, bed: float, level: float) -> Iterator[Thing]:
    """The platform, what carries it, and the lamps over it."""
    kind = look("platform_kind")
    if kind in _NO and number_of(look, "platform_height_above_water") is None:
        return
    top = level + min(max(number_of(look, "platform_height_above_water") or 0.0, 0.0), frame.height)
    gap = max(number_of(look, "platform_wall_gap") or 0.0, 0.0)
    x = _within(gap, _length(look, "platform_length") or _PLATFORM, frame.length)
    wide = _length(look, "platform_width") or frame.width / 2
    z = _within((frame.width - min(wide, frame.width)) / 2, wide, frame.width)
    under = max(top - _THICK, 0.0)
    if kind == "pile":
        yield Thing("pile", x, (bed if bed < under else 0.0, under), z)
    yield Thing("platform", x, (under, top), z, str(kind or ""))
    slope = number_of(look, "ramp_slope")
    if slope is not None and 1.0 <= slope <= 85.0:
        # It leads as deep as a swimmer needs to find it, at most to the bottom.
        foot = max(bed, level - 0.5 * (level - bed))
        run = (top - foot) / math.tan(math.radians(slope))
        end = min(x[1] + run, frame.length)
        if end > x[1]:
            yield Thing("ramp", (x[1], end), (foot, top), z)
    yield from _lamps(frame, look, top, x, z)


def _lamps(frame: Scene, look: Look, top: float, x: Span, z: Span) -> Iterator[Thing]:
    middle, deep = (x[0] + x[1]) / 2, (z[0] + z[1]) / 2
    highest = frame.height * _HIGHEST
    lamps: tuple[tuple[Kind, str, float, float, float], ...] = (
        ("uvb_lamp", "uvb_lamp_kind", *_uvb_size(look), 0.25),
        ("heat_lamp", "heat_lamp_kind", _DOME, 0.7 * _DOME, -0.25),
    )
    for kind, named, long, thick, aside in lamps:
        height = number_of(look, f"{kind}_height")
        if look(named) == "none" or height is None:
            continue
        face = min(top + max(height, 0.0), highest)
        across = min(thick, frame.width)
        place = _within(middle - long / 2, long, max(frame.length, long))
        at = _within(deep + aside * (z[1] - z[0]) - across / 2, across, frame.width)
        yield Thing(kind, place, (face, face + thick), at, str(look(named) or ""))


def _uvb_size(look: Look) -> tuple[float, float]:
    """How long and thick the UVB lamp is: tubes as measured, the others as usual."""
    if str(look("uvb_lamp_kind")).startswith("tube"):
        return _length(look, "uvb_lamp_length") or 0.55, _TUBE
    return _COMPACT * 2, _COMPACT


def _covers(frame: Scene, look: Look, level: float) -> Iterator[Thing]:
    """What lies on the rim: over the platform, and over the rest."""
    size = _length(look, "platform_length") or _PLATFORM
    gap = max(number_of(look, "platform_wall_gap") or 0.0, 0.0)
    parted = _within(gap, size, frame.length)[1] if look("platform_kind") not in _NO else 0.0
    y, z = (frame.height, frame.height + 0.01), (0.0, frame.width)
    above = number_of(look, "platform_height_above_water") or 0.0
    kind = look("cover_basking")
    if kind not in _NO and parted > 0 and level + above < frame.height:
        yield Thing("cover_basking", (0.0, parted), y, z, str(kind))
    kind = look("cover_water")
    if kind not in _NO and parted < frame.length:
        yield Thing("cover_water", (parted, frame.length), y, z, str(kind))


def _animals(
    frame: Scene, look: Look, bed: float, level: float, things: tuple[Thing, ...]
) -> Iterator[Thing]:
    """The largest on the platform, the others in the water; one alone is in both places."""
    lengths = sorted(_lengths_of(look), reverse=True)[:_MOST_ANIMALS]
    if not lengths:
        return
    flat = (_length(look, "shell_height") or _SHELL_HEIGHT * lengths[0]) / lengths[0]
    wide = (_length(look, "shell_width") or _SHELL_WIDTH * lengths[0]) / lengths[0]
    flat, wide = (min(max(share, 0.1), 1.2) for share in (flat, wide))
    platform = next((thing for thing in things if thing.kind == "platform"), None)
    swimmers = lengths
    if platform:
        swimmers = lengths[1:] or lengths
        x, z = (_middle(span, size) for span, size in _sizes(platform, lengths[0], wide))
        top = platform.y[1]
        yield Thing("basking_animal", x, (top, top + flat * lengths[0]), z)
    start = min(platform.x[1] if platform else 0.0, frame.length * 0.6)
    room = frame.length * 0.85 - start
    for number, length in enumerate(swimmers):
        place = start + room * (number + 0.5) / len(swimmers) - length / 2
        low = bed + max(level - bed - flat * length, 0.0) * (0.55 if number % 2 == 0 else 0.2)
        across = frame.width * (0.5 if len(swimmers) == 1 else (0.3, 0.65)[number % 2])
        yield Thing(
            "swimming_animal",
            _within(place, length, frame.length),
            (low, low + flat * length),
            _within(across - wide * length / 2, wide * length, frame.width),
        )


def _lengths_of(look: Look) -> Iterator[float]:
    """Shell lengths that an animal can have."""
    value = look("carapace_length")
    row = getattr(value, "tolist", lambda: value)()
    for length in row if isinstance(row, list | tuple) else [row]:
        if isinstance(length, int | float) and 0.005 <= length <= 1.5:
            yield float(length)


def _sizes(platform: Thing, length: float, wide: float) -> tuple[tuple[Span, float], ...]:
    return (platform.x, length), (platform.z, wide * length)


def _middle(span: Span, size: float) -> Span:
    middle = (span[0] + span[1]) / 2
    return middle - size / 2, middle + size / 2
