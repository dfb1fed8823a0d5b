"""A side view of the tank in characters, to scale in height."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from interview.phrases import in_words

__all__ = ["side_view"]

_ROWS = 10
_WIDTH = 34


def side_view(figures: Mapping[str, Any], system: str) -> tuple[tuple[str, ...], str] | None:
    """Lines of the picture and the same facts in a sentence; None if the tank isn't known.

    Drawn from inside_height, water_level, substrate_depth, the platform's height and the
    lamp's; whatever is unknown is left out.
    """
    height, level = figures.get("inside_height"), figures.get("water_level")
    if height is None or level is None or not 0 < level <= height:
        return None
    step = height / _ROWS
    rows = [_row(height - n * step, step, level, figures) for n in range(_ROWS)]
    facts = _facts(figures, system)
    for at, text in facts:
        row = min(_ROWS - 1, max(0, int((height - at) / height * _ROWS)))
        while row < _ROWS - 1 and "  " in rows[row][_WIDTH + 2 :]:
            row += 1
        rows[row] += f"  {text}"
    lamp = _lamp(figures, system)
    lines = (*lamp, *rows, "└" + "─" * _WIDTH + "┘")
    return lines, "; ".join(text for _, text in facts)


def _row(top: float, step: float, level: float, figures: Mapping[str, Any]) -> str:
    bottom = top - step
    bed = figures.get("substrate_depth") or 0.0
    if bottom < level <= top:
        inside = "≈" * _WIDTH
    elif bed > bottom:
        inside = "." * _WIDTH
    else:
        inside = " " * _WIDTH
    platform = figures.get("platform_height_above_water")
    if platform is not None and bottom < level + max(platform, 0.0) <= top:
        inside = inside[:4] + "▂" * 10 + inside[14:]
    return f"│{inside}│"


def _lamp(figures: Mapping[str, Any], system: str) -> tuple[str, ...]:
    height = figures.get("heat_lamp_height")
    if height is None:
        return ()
    return (f"        ▼  lamp, {in_words(height, 'm', system)} over the platform",)


def _facts(figures: Mapping[str, Any], system: str) -> list[tuple[float, str]]:
    level = figures["water_level"]
    facts: list[tuple[float, str]] = []
    below = figures.get("water_line_below_rim")
    if below is not None:
        facts.append((level, f"water line, {in_words(below, 'm', system)} below the rim"))
    depth, volume = figures.get("water_depth"), figures.get("water_volume")
    if depth is not None and volume is not None:
        deep, much = in_words(depth, "m", system), in_words(volume, "m**3", system)
        facts.append((level / 2, f"{deep} of water, {much}"))
    top = figures.get("platform_temperature")
    if top is not None:
        facts.append((figures["inside_height"], f"basking surface {in_words(top, 'degC', system)}"))
    return facts
