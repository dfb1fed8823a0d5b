"""A number in a core unit as this keeper reads it: 0.47 m is 47 cm, or 18.5 in."""

from __future__ import annotations

import math
from decimal import Decimal

from interview.base.ladders import INCHES, KINDS, LADDERS, TIMES, Ladder, Rung
from interview.base.units import convert

__all__ = ["in_figures", "magnitude", "to_show", "with_label"]

_WATER_DENSITY = 1000.0
"""kg/m**3; fresh water in a tank is within half a percent, finer than what is shown."""


def _plain(value: float, places: int, digits: int | None) -> str:
    """Decimal text: three figures (two under 1), no more than `places` decimals from 1 up."""
    if value == 0:
        return "0"
    power = math.floor(math.log10(abs(value)))
    figures = digits if digits is not None else (3 if power >= 0 else 2)
    decimals = max(0, figures - 1 - power)
    if digits is None and power >= 0:
        decimals = min(decimals, places)
    text = f"{value:.{min(decimals, 15)}f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def in_figures(value: float, digits: int) -> str:
    """So many significant digits and never an exponent: 0.00003."""
    text = f"{value:.{digits}g}"
    return f"{Decimal(text):f}" if "e" in text else text


def with_label(number: str, label: str) -> str:
    """A number with its unit's label, a space between them unless it is a sign: 30%, 18.5 in."""
    return number + label if label in ("", "%", "°") else f"{number} {label}"


def _show_time(value: float, digits: int | None) -> str:
    if math.isinf(value):
        return "never"
    size, one, many = next(rung[1:] for rung in TIMES if abs(value) < rung[0])
    figures = 2 if digits is None else digits
    amount = value / size
    whole = abs(amount) >= 10 and digits is None
    number = str(round(amount)) if whole else _plain(amount, 1, figures)
    return f"{number} {one if number == '1' else many}"


def _rung_for(value: float, rungs: tuple[Rung, ...], home: int) -> Rung:
    if value == 0:
        return rungs[min(home, len(rungs) - 1)]
    return next(rung for rung in rungs if abs(value) < rung.below)


def _ladder_for(unit: str, kind: str | None) -> Ladder | None:
    if kind is not None and kind in KINDS and KINDS[kind][0] == unit:
        return KINDS[kind][1]
    return LADDERS.get(unit)


def to_show(
    value: float, unit: str, system: str, kind: str | None = None, digits: int | None = None
) -> str:
    """A number in a core unit as this keeper reads it: 0.47 m is 47 cm, or 18.5 in.

    Args:
        value: the number, in `unit`
        unit: one of the core's units; one without a shown form keeps its own name
        system: metric, us, uk (shows metric) or uk_inches (metric but for lengths)
        kind: what the number is when the unit alone doesn't say: share, per_week,
            price or count for unit 1, water for kg/s of it
        digits: significant digits, in place of the usual choice
    """
    if math.isnan(value):
        return "not known"
    if unit == "s":
        return _show_time(value, digits)
    if math.isinf(value):
        return "no limit"
    found = _on_ladder(value, unit, system, kind)
    if found is None:
        return f"{in_figures(value, 3 if digits is None else digits)} {unit}"
    shown, rung = found
    return with_label(_plain(shown, rung.places, digits), rung.label)


def _on_ladder(value: float, unit: str, system: str, kind: str | None) -> tuple[float, Rung] | None:
    """The number on the rung that shows it; None for a unit without a ladder."""
    if kind == "water" and unit == "kg/s":
        value, unit = value / _WATER_DENSITY, "m**3/s"
    ladder = _ladder_for(unit, kind)
    if ladder is None:
        return None
    american = system == "us" or (system == "uk_inches" and unit in INCHES)
    rung = _rung_for(value, ladder.us if american else ladder.metric, ladder.home)
    return convert(value, unit, rung.unit), rung


def magnitude(value: float, unit: str, system: str, kind: str | None = None) -> tuple[float, str]:
    """The unrounded number and the label with which `to_show` shows it; times in the plural."""
    if unit == "s":
        size, _, many = next(rung[1:] for rung in TIMES if abs(value) < rung[0])
        return value / size, many
    found = _on_ladder(value, unit, system, kind)
    return (found[0], found[1].label) if found else (value, unit)
