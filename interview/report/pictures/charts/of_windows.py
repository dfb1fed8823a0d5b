"""Water line and lamp height in one map: where all that these two decide holds."""

from __future__ import annotations

from collections.abc import Iterator

from interview.advice.window import Pairing
from interview.audit.tank import Tank
from interview.report.pictures.charts.chart import Chart
from interview.report.pictures.plot import Area, Axis, Plot, Spot, in_keepers_units
from interview.vocabulary.phrases import rounded

__all__ = ["window_map"]

_LINE, _LAMP = "water_line_below_rim", "heat_lamp_height"
_ROOM = 0.05  # m round what is drawn


def window_map(tank: Tank, after: Tank | None, found: Pairing) -> Iterator[Chart]:
    """The map; nothing where no pair of them suits, or a single one does."""
    rows = [row for row in found.rows if row.low is not None]
    now = tank.lookup(_LINE), tank.lookup(_LAMP)
    if len(rows) < 2 or None in now:
        return
    lines, lamps = [float(now[0])], [float(now[1])]
    lines += [row.water_line_below_rim for row in found.rows]
    lamps += [float(end) for row in rows for end in (row.low, row.high) if end is not None]
    to_x, x_label = in_keepers_units("m", tank.system, _LINE, lines)
    to_y, y_label = in_keepers_units("m", tank.system, _LAMP, lamps)
    spots = [Spot(f"now: {_said(tank)}", to_x(lines[0]), to_y(lamps[0]))]
    words = f"Now: {_said(tank)}."
    if after and _said(after) != _said(tank):
        then = float(after.lookup(_LINE)), float(after.lookup(_LAMP))
        spots.append(Spot(f"after the plan: {_said(after)}", to_x(then[0]), to_y(then[1]), True))
        words += f" After the plan: {_said(after)}."
        lamps.append(then[1])
    suits = Area(
        "suits all that these two decide",
        tuple(to_x(row.water_line_below_rim) for row in rows),
        tuple(to_y(float(row.low or 0.0)) for row in rows),
        tuple(to_y(float(row.high or 0.0)) for row in rows),
    )
    plot = Plot(
        Axis(
            "water line below the rim", x_label, to_x(max(min(lines) - _ROOM, 0)), to_x(max(lines))
        ),
        Axis(
            "heat lamp over the platform",
            y_label,
            to_y(max(min(lamps) - _ROOM, 0.0)),
            to_y(max(lamps) + _ROOM),
        ),
        areas=(suits,),
        spots=tuple(spots),
    )
    title = "Which water lines and lamp heights go together"
    yield Chart("window", title, words, plot)


def _said(tank: Tank) -> str:
    line = rounded(tank.lookup(_LINE), "m", tank.system, _LINE)
    lamp = rounded(tank.lookup(_LAMP), "m", tank.system, _LAMP)
    return f"water {line} below the rim, lamp {lamp} up"
