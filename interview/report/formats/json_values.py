"""Values as JSON can hold them: by themselves, as a single sum needs nothing else of a page."""

from __future__ import annotations

from typing import Any

import numpy as np

__all__ = ["number"]

_DIGITS = 8


def number(value: Any) -> Any:
    """A value JSON can hold: eight digits; rows as lists; endless times as "infinite"."""
    if value is None or isinstance(value, str | bool):
        return value
    if isinstance(value, tuple | list) or np.ndim(value):
        return [number(item) for item in value]
    plain = float(value)
    if np.isnan(plain):
        return None
    if np.isinf(plain):
        return "infinite" if plain > 0 else "-infinite"
    return float(f"{plain:.{_DIGITS}g}")
