"""Numbers of a tank for a chart."""

from __future__ import annotations

import numpy as np

from interview.audit.tank import Tank

__all__ = ["number_of"]


def number_of(tank: Tank, name: str) -> float | None:
    """A finite number of the tank; None for what is unknown or has no end."""
    value = tank.lookup(name)
    return None if value is None or not np.isfinite(value) else float(value)
