"""What moves what: the answers that change by themselves when a keeper changes one.

A floating platform rides the water line, so lower water takes it away from the lamps; a
platform that stands or hangs keeps its lamps, and its surface rises out of the water.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

__all__ = ["PINNED", "coupled", "outdated"]

PINNED = (
    "lamp_heat",
    "heat_lamp_power_when_measured",
    "heat_lamp_height_when_measured",
    "uv_calibration",
    "uvb_lamp_height_when_measured",
)
"""Quantities that came from a measurement and stay true when the tank is changed."""

_NEW_LAMP = {
    "basking_temperature": (("heat_lamp_kind", "heat_lamp_beam"), "lamp_heat"),
    "uvb_reading": (
        ("uvb_lamp_kind", "uvb_strength", "uvb_lamp_length", "uvb_reflector", "uvb_lamp_age"),
        "uv_calibration",
    ),
}
"""Readings that say nothing of another lamp: what makes it another, what they calibrated."""


def outdated(changes: Mapping[str, Any]) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Readings, and calibrations, that the changes make worthless."""
    gone = [
        (reading, calibration)
        for reading, (causes, calibration) in _NEW_LAMP.items()
        if any(cause in changes for cause in causes)
    ]
    return tuple(reading for reading, _ in gone), tuple(pin for _, pin in gone)


def coupled(known: Mapping[str, Any], changes: Mapping[str, Any]) -> dict[str, Any]:
    """The changes, and what they move along.

    Args:
        known: best values or draws of the tank as it was, by name, in core units
        changes: new values by name; a named one is taken as it will be, not moved again

    Returns:
        every answer with another value than before: the changes first
    """
    moved = dict(changes)
    if "water_line_below_rim" not in changes or "water_line_below_rim" not in known:
        return moved
    drop = changes["water_line_below_rim"] - known["water_line_below_rim"]
    for name in _riders(known.get("platform_kind")):
        if name in known and name not in moved:
            moved[name] = known[name] + drop
    return moved


def _riders(platform_kind: Any) -> tuple[str, ...]:
    """The lengths that grow when the water falls."""
    if platform_kind == "floating":
        return ("heat_lamp_height", "uvb_lamp_height")
    if platform_kind in ("fixed", "pile", "above_tank"):
        return ("platform_height_above_water",)
    return ()
