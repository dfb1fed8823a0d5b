"""Ultraviolet over the platform: how it falls off beside a tube and towards its ends."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from interview.audit.tank import Tank
from interview.core.light.radiation import tube_irradiance
from interview.report.pictures.charts.chart import Chart
from interview.report.pictures.charts.numbers import number_of
from interview.report.pictures.plot import Area, Axis, Plot, Series, in_keepers_units
from interview.vocabulary.phrases import ranged, rounded

__all__ = ["across_chart"]

_POINTS = 31
_LEAST = 0.3  # m, where the platform is smaller or not known
_NAMES = ("uvb_lamp_arc", "uvb_lamp_height", "uv_index_shell", "uv_zone_low", "uv_zone_high")


def across_chart(tank: Tank, after: Tank | None) -> Iterator[Chart]:
    """UV index at the top of the shell by how far the animal lies from under the tube's middle.

    Only for a tube that is the one source: its field is known, that of other lamps is not.
    """
    if not str(tank.lookup("uvb_lamp_kind")).startswith("tube") or tank.lookup(
        "heat_lamp_uv_index"
    ):
        return
    arc, height, index, low, high = (number_of(tank, name) for name in _NAMES)
    if arc is None or height is None or not index or low is None or high is None:
        return
    above = height - (number_of(tank, "shell_height") or 0.0)
    size = [number_of(tank, name) or 0.0 for name in ("platform_length", "platform_width")]
    places = np.linspace(0.0, max(_LEAST, *size), _POINTS)
    under = tube_irradiance(1.0, arc, above)
    beside, along = (
        np.asarray(index * tube_irradiance(1.0, arc, above, offset, end) / under)
        for offset, end in ((places, 0.0), (0.0, places))
    )
    to_x, label = in_keepers_units("m", tank.system, "platform_length", [float(places[-1])])
    x = tuple(to_x(float(place)) for place in places)
    zone = ranged(low, high, "1", tank.system, "uv_index_shell", spoken=True)
    middle = rounded(index, "1", tank.system, "uv_index_shell")
    half = float(np.interp(0.5, (beside / index)[::-1], places[::-1]))
    words = f"Under the middle of the tube {middle} at the shell; wanted: {zone}."
    if beside[-1] < 0.5 * index:
        words += f" Half of that {rounded(half, 'm', tank.system, 'platform_length')} beside it."
    plot = Plot(
        Axis("from under the tube's middle", label, 0.0, x[-1]),
        Axis("UV index at the top of the shell", "", 0.0, 1.1 * max(index, high)),
        (
            Series("beside the tube", x, tuple(map(float, beside))),
            Series("along it", x, tuple(map(float, along)), second=True),
        ),
        (Area(f"wanted: {zone}", (0.0, x[-1]), (low,) * 2, (high,) * 2),),
    )
    title = "UV index over the platform"
    yield Chart("across", title, words, plot, ("uv_zone",))
