"""Whether the food grew with the number of turtles."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from interview.graph.interview import Interview

__all__ = ["fed_as_before"]

_FOOD = ("feed_mass", "feeds_per_week")


def fed_as_before(interview: Interview, earlier: Mapping[str, Any]) -> str:
    """A sentence where more turtles share the food of before; "" elsewhere.

    Args:
        interview: the answers now
        earlier: what was known before, by name
    """
    now = interview.known()
    before, turtles = earlier.get("animal_count"), interview.animal_count
    if before is None or turtles <= before or any(name not in earlier for name in _FOOD):
        return ""
    if any(now.get(name) != earlier[name] for name in _FOOD):
        return ""
    return (
        f"{turtles} turtles now share the food of {round(before)}: each gets less. If you do feed "
        "more, “change food each feeding” after the audit tells me."
    )
