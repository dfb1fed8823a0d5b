"""How people round: whole degrees, quarter inches, two digits."""

from __future__ import annotations

import math
from collections.abc import Mapping
from fractions import Fraction

__all__ = ["as_on_a_tape", "step_of", "to_step", "two_digits"]

_STEPS: Mapping[str, tuple[tuple[float, float], ...]] = {
    "in": ((0.25, 1 / 16), (1, 1 / 8), (24, 1 / 4), (math.inf, 1)),
    "cm": ((10, 0.1), (30, 0.5), (math.inf, 1)),
    "m": ((2, 0.05), (10, 0.1), (math.inf, 1)),
    "h": ((3, 0.5), (math.inf, 1)),
    "days": ((3, 0.5), (math.inf, 1)),
    "weeks": ((math.inf, 1),),
    "months": ((6, 0.5), (math.inf, 1)),
    "min": ((math.inf, 1),),
    "V": ((math.inf, 1),),
    "°": ((math.inf, 1),),
    "W": ((1, 0.1), (100, 1), (math.inf, 5)),
    "%": ((1, 0.1), (2, 0.5), (math.inf, 1)),
}
"""For a label: up to which number, in what steps."""


def step_of(amount: float, label: str, unit: str) -> float:
    """The step in which people tell an amount.

    Args:
        amount: the number as it is shown, not negative
        label: the label of its unit, as in, °F
        unit: the core's unit
    """
    if unit == "degC":
        return 1.0 if label == "°F" else 0.5
    if unit == "K":
        return 0.5 if amount < 10 else 1.0
    if unit == "1" and not label:
        return 1.0 if amount >= 20 else 0.5 if amount >= 10 else two_digits(amount)
    for below, step in _STEPS.get(label, ()):
        if amount < below:
            return step
    return two_digits(amount)


def to_step(amount: float, step: float) -> float:
    """The multiple of the step that is nearest, the upper one of two."""
    return round(math.floor(amount / step + 0.5 + 1e-9) * step, 12)


def two_digits(amount: float) -> float:
    """Steps of a twentieth or finer: 0.1 under 10, halves from 10 to 20, fives from 100 to 1000."""
    if amount == 0:
        return 1.0
    power = math.floor(math.log10(abs(amount)))
    step: float = 10.0 ** (power - 1)
    if abs(amount) < 1:
        return step
    return step / 2 if power >= 2 or (power == 1 and abs(amount) < 20) else step


def as_on_a_tape(amount: float) -> str:
    """Inches as on a tape measure: 7 3/4, 1/8."""
    exact = Fraction(amount)
    whole, rest = divmod(abs(exact), 1)
    sign = "-" if exact < 0 else ""
    return sign + " ".join(str(part) for part in (whole, rest) if part) if exact else "0"
