"""The charts: their numbers against the audit, the laws and the normal distribution."""

from __future__ import annotations

import math
from itertools import pairwise
from pathlib import Path
from statistics import NormalDist
from typing import Any
from xml.etree import ElementTree

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from interview.advice.what_if.suppose import changed
from interview.audit.audit import Audit
from interview.audit.tank import Tank
from interview.commands.auditing.judged import judged_file
from interview.core.water.properties import nitrate_after_changes
from interview.report.pictures.characters.chart import chart_lines
from interview.report.pictures.charts.across import across_chart
from interview.report.pictures.charts.chart import Chart
from interview.report.pictures.charts.of_lamps import basking_chart, ultraviolet_chart
from interview.report.pictures.charts.of_time import growth_chart, nitrate_chart, start_up_chart
from interview.report.pictures.charts.of_windows import window_map
from interview.report.pictures.chosen_charts import charts, charts_that_matter
from interview.report.pictures.plot import Area, Axis, Limit, Plot, Series, Spot, in_keepers_units
from interview.report.pictures.svg.chart import chart_svg

DEMOS = Path(__file__).parents[2] / "transcripts_demo"
_SVG = "{http://www.w3.org/2000/svg}"


@pytest.fixture(scope="module")
def demos() -> dict[str, Audit]:
    return {path.stem: judged_file(path, ())[0] for path in sorted(DEMOS.glob("*.yaml"))}


def _at(series: Series, x: float) -> float:
    """The line's height, between its points."""
    for (x0, y0), (x1, y1) in pairwise(zip(series.x, series.y, strict=True)):
        if x0 <= x <= x1 and x1 > x0:
            return y0 + (y1 - y0) * (x - x0) / (x1 - x0)
    raise AssertionError(f"{x} is off the line")


def _musk(demos: dict[str, Audit]) -> Tank:
    return demos["musk_turtle"].tank


# ---- lamps


def test_the_shell_now_and_after_a_move_lie_on_the_line(demos: dict[str, Audit]) -> None:
    """Each spot is what the whole audit says; the line, drawn in one sweep, must pass it."""
    tank = _musk(demos)
    after = changed(tank, {"heat_lamp_height": 0.30})
    (chart,) = basking_chart(tank, after)
    line, platform = chart.plot.series
    for spot, of in zip(chart.plot.spots, (tank, after), strict=True):
        assert spot.x == pytest.approx(100 * of.lookup("heat_lamp_height"))
        assert spot.y == pytest.approx(of.lookup("shell_temperature"))
        assert _at(line, spot.x) == pytest.approx(spot.y, abs=0.1)
        assert _at(platform, spot.x) == pytest.approx(of.lookup("platform_temperature"), abs=0.1)
    band, doubt = chart.plot.areas
    assert (band.low[0], band.high[0]) == (27.0, 32.0)
    figure = demos["musk_turtle"].figures["shell_temperature"]
    low, high = (Series("", doubt.x, side) for side in (doubt.low, doubt.high))
    assert _at(low, 22.0) == pytest.approx(figure.low, abs=0.3)
    assert _at(high, 22.0) == pytest.approx(figure.high, abs=0.3)
    assert "34 °C at 22 cm; wanted: 27 to 32 °C" in chart.words


def test_a_mesh_shows_what_it_takes(demos: dict[str, Audit]) -> None:
    tank = changed(_musk(demos), {"uvb_path": "mesh", "mesh_light_share": 0.6})
    (chart,) = ultraviolet_chart(tank, None)
    covered, open_ = chart.plot.series
    assert open_.name == "without what lies between"
    share = tank.lookup("uvb_transmission")
    assert 0.4 < share < 0.8
    for x in (20.0, 30.0, 50.0):
        assert _at(covered, x) == pytest.approx(share * _at(open_, x), rel=0.01)
    assert _at(covered, 30.0) == pytest.approx(tank.lookup("uv_index_shell"), rel=0.02)


def _summed(height: float, arc: float, offset: float, along: float) -> float:
    """A line of cosine emitters seen from a level surface, added up bit by bit: physics."""
    steps = 20_000
    total = 0.0
    for n in range(steps):
        u = arc * ((n + 0.5) / steps - 0.5) - along
        square = height**2 + offset**2 + u**2
        total += math.sqrt(height**2 + offset**2) * height / square**2
    return total * arc / steps


def test_uv_falls_off_beside_a_tube_as_its_bits_add_up(demos: dict[str, Audit]) -> None:
    tank = _musk(demos)
    (chart,) = across_chart(tank, None)
    beside, along = chart.plot.series
    above = tank.lookup("uvb_lamp_height") - tank.lookup("shell_height")
    arc, index = tank.lookup("uvb_lamp_arc"), tank.lookup("uv_index_shell")
    under = _summed(above, arc, 0.0, 0.0)
    for n in (0, 15, 30):
        x = beside.x[n] / 100
        assert beside.y[n] == pytest.approx(index * _summed(above, arc, x, 0.0) / under, rel=1e-5)
        assert along.y[n] == pytest.approx(index * _summed(above, arc, 0.0, x) / under, rel=1e-5)
    assert not list(across_chart(changed(tank, {"uvb_lamp_kind": "coil"}), None))


def test_without_a_lamp_or_a_reading_there_is_no_line(demos: dict[str, Audit]) -> None:
    tank = _musk(demos)
    assert not list(basking_chart(changed(tank, {"heat_lamp_kind": "none"}), None))
    assert not list(ultraviolet_chart(changed(tank, {"uvb_lamp_kind": "none"}), None))
    assert not list(basking_chart(demos["reeves_turtle_planned"].tank, None))


# ---- time


def test_nitrate_goes_up_and_down_as_the_law_says(demos: dict[str, Audit]) -> None:
    """Each point before a change is `nitrate_after_changes`, a closed form; this one adds up."""
    tank = _musk(demos)
    after = changed(tank, {"water_change_share": 0.5, "water_change_interval": 4 * 86400.0})
    (chart,) = nitrate_chart(tank, after)
    names = ("nitrate_rise", "water_change_interval", "water_change_share", "tap_nitrate")
    for series, of in zip(chart.plot.series, (tank, after), strict=True):
        known = {name: float(of.lookup(name)) for name in names}
        for number in range(1, 6):
            law = nitrate_after_changes(**known, nitrate=30.0, changes=float(number))
            before = series.y[2 * number - 1]
            assert before == pytest.approx(float(law), rel=1e-9)
            share = known["water_change_share"]
            assert series.y[2 * number] == pytest.approx(before * (1 - share) + 10.0 * share)
            assert series.x[2 * number] == pytest.approx(
                number * known["water_change_interval"] / 86400
            )
    assert chart.plot.limits == (Limit("not over 40 mg/L", 40.0),)
    assert "climbs to 30 mg/L" in chart.words  # the kit is read just before a change


def test_a_filter_is_ripe_by_the_normal_distribution(demos: dict[str, Audit]) -> None:
    """The band holds a standard deviation to each side, of the logarithm of the time."""
    tank = demos["reeves_turtle_planned"].tank
    (chart,) = start_up_chart(tank, None)
    (line,), (band,) = chart.plot.series, chart.plot.areas
    days = [tank.lookup(f"cycling_time{edge}") / 86400 for edge in ("_low", "", "_high")]
    assert (band.x[0], band.x[1]) == pytest.approx((days[0], days[2]))
    for day, sigma in zip(days, (-1, 0, 1), strict=True):
        assert _at(line, day) == pytest.approx(100 * NormalDist().cdf(sigma), abs=1)
    assert all(a <= b for a, b in pairwise(line.y))
    assert not list(start_up_chart(_musk(demos), None))  # fourteen months old


def test_the_tank_is_outgrown_where_the_line_passes_the_limit(demos: dict[str, Audit]) -> None:
    tank = demos["map_turtle_hatchling"].tank
    (chart,) = growth_chart(tank, None)
    (line,), (limit,), (spot,) = chart.plot.series, chart.plot.limits, chart.plot.spots
    years = tank.lookup("outgrow_time") / (365.25 * 86400)
    assert (spot.x, spot.y) == (pytest.approx(years), limit.y)
    assert _at(line, years) == pytest.approx(limit.y, rel=0.02)
    assert line.y[0] == pytest.approx(1.5)  # inches, as typed
    (area,) = chart.plot.areas
    for low, middle, high in zip(area.low, line.y, area.high, strict=True):
        assert low <= middle + 1e-9 <= high + 2e-9
    assert not list(growth_chart(_musk(demos), None))  # grown: it fits for good


def test_the_line_passes_the_limit_also_beyond_the_mean_of_the_wild(
    demos: dict[str, Audit],
) -> None:
    """A limit that the mean wild painted turtle never reaches, the adult range does."""
    larger = {"tank_length": 1.8, "tank_width": 0.6, "tank_height": 0.6}
    tank = changed(demos["painted_turtles_classroom"].tank, larger)
    (chart,) = growth_chart(tank, None)
    (line,), (limit,), (spot,) = chart.plot.series, chart.plot.limits, chart.plot.spots
    assert 0 < spot.x < 3 and _at(line, spot.x) == pytest.approx(limit.y, rel=0.02)
    (area,) = chart.plot.areas
    assert all(m <= h + 1e-6 for m, h in zip(line.y, area.high, strict=True))


# ---- the map


def test_the_map_holds_what_the_windows_found(demos: dict[str, Audit]) -> None:
    from interview.advice.window import Pairing, Together

    rows = (
        Together(0.05, None, None),
        Together(0.10, 0.20, 0.30),
        Together(0.15, 0.22, 0.28),
    )
    after = changed(_musk(demos), {"water_line_below_rim": 0.15, "heat_lamp_height": 0.25})
    (chart,) = window_map(_musk(demos), after, Pairing(rows))
    (area,) = chart.plot.areas
    assert area.x == pytest.approx((10, 15))
    assert area.low == pytest.approx((20, 22))
    assert area.high == pytest.approx((30, 28))
    assert [(s.x, s.y, s.wished) for s in chart.plot.spots] == [
        (pytest.approx(11), pytest.approx(22), False),
        (pytest.approx(15), pytest.approx(25), True),
    ]
    assert not list(window_map(_musk(demos), None, Pairing(rows[:2])))


# ---- which


def test_those_of_the_gravest_findings_come_first(demos: dict[str, Audit]) -> None:
    rank = {"danger": 3, "wrong": 2, "close": 1}
    for audit in demos.values():
        bad = {f.check: rank.get(f.verdict, 0) for f in audit.findings if f.applies}
        found = charts(audit)
        worst = [max((bad.get(check, 0) for check in c.about), default=0) for c in found]
        assert worst == sorted(worst, reverse=True)
        wanting = [chart for chart, how in zip(found, worst, strict=True) if how]
        assert charts_that_matter(audit) == tuple(wanting[:3])
        assert len({chart.name for chart in found}) == len(found)


# ---- renderers


def _svg_is_clear(chart: Chart) -> None:
    """Within the picture, and no words over others."""
    root = ElementTree.fromstring(chart.svg())
    _, _, wide, high = map(float, root.get("viewBox", "").split())
    boxes = []
    for e in root.iter(f"{_SVG}text"):
        x, y = float(e.get("x", "")), float(e.get("y", ""))
        width = 6.2 * len(e.text or "")
        left = x - {"end": width, "middle": width / 2}.get(e.get("text-anchor", ""), 0.0)
        assert left >= -2 and left + width <= wide + 2 and y <= high, e.text
        boxes.append((left, y - 9, left + width, y + 2))
    for n, one in enumerate(boxes):
        for other in boxes[n + 1 :]:
            apart = one[2] <= other[0] or other[2] <= one[0] or one[3] <= other[1]
            assert apart or other[3] <= one[1]


def test_words_of_the_demos_charts_do_not_overlap(demos: dict[str, Audit]) -> None:
    for audit in demos.values():
        for chart in charts(audit):
            _svg_is_clear(chart)
            for width in (40, 60, 80, 120):
                lines = chart.lines(width)
                assert max(map(len, lines)) <= width
                assert "".join(chart.lines(width, plain_letters=True)).isascii()
            assert chart.lines(39) == ()


def test_svg_coordinates_read_back_are_the_numbers() -> None:
    plot = Plot(
        Axis("x", "cm", 0, 10),
        Axis("y", "", 0, 4),
        (Series("line", (0, 10), (0, 4)),),
        spots=(Spot("now", 5, 2), Spot("then", 10, 4, wished=True)),
    )
    root = ElementTree.fromstring(chart_svg(plot, "n", "t", "w"))
    named = {e.get("data-thing"): e for e in root.iter() if e.get("data-thing")}
    numbers = named["first"].get("d", "").replace("M", "").replace("L", " ").split()
    x0, y0, x1, y1 = map(float, numbers)
    now, then = named["spot"], named["wish"]
    assert float(now.get("cx", "")) == pytest.approx((x0 + x1) / 2, abs=0.01)
    assert float(now.get("cy", "")) == pytest.approx((y0 + y1) / 2, abs=0.01)
    assert (float(then.get("cx", "")), float(then.get("cy", ""))) == (x1, y1)


def test_the_line_in_characters_goes_where_it_should() -> None:
    plot = Plot(Axis("x", "cm", 0, 10), Axis("y", "", 0, 10), (Series("up", (0, 10), (0, 10)),))
    lines = chart_lines(plot, 60)
    rows = [line.partition("┤")[2] for line in lines if "┤" in line]
    assert [row.count("•") > 0 for row in rows] == [True] * 11
    starts = [row.index("•") for row in rows]
    assert starts == sorted(starts, reverse=True)
    assert rows[-1].startswith("•")
    assert lines[-1] == "• up"


@pytest.mark.parametrize(
    ("low", "high", "wanted"),
    [(0, 10, (0, 2, 4, 6, 8, 10)), (0.3, 1.1, (0.4, 0.6, 0.8, 1.0)), (22, 39, (25, 30, 35))],
)
def test_ticks_are_round(low: float, high: float, wanted: tuple[float, ...]) -> None:
    assert Axis("", "", low, high).ticks() == pytest.approx(wanted)


def test_one_axis_has_one_unit() -> None:
    to_cm, label = in_keepers_units("m", "metric", "heat_lamp_height", [0.6])
    assert (to_cm(0.05), label) == (pytest.approx(5), "cm")
    to_f, label = in_keepers_units("degC", "us", "shell_temperature", [30.0])
    assert (to_f(30.0), label) == (pytest.approx(86), "°F")


_NUMBER = st.floats(-1e3, 1e3)


@settings(max_examples=25)
@given(
    st.lists(st.tuples(_NUMBER, _NUMBER), min_size=2, max_size=8),
    st.tuples(_NUMBER, st.floats(1e-3, 1e3)),
    st.tuples(_NUMBER, st.floats(1e-3, 1e3)),
)
@example([(0.0, 5.0), (0.0, 5.0)], (0.0, 1e-3), (0.0, 1e3))
def test_any_plot_can_be_drawn(points: Any, x: Any, y: Any) -> None:
    points = sorted(points)
    xs, ys = (tuple(p[n] for p in points) for n in (0, 1))
    plot = Plot(
        Axis("x", "cm", x[0], x[0] + x[1]),
        Axis("y", "", y[0], y[0] + y[1]),
        (Series("a", xs, ys),),
        (Area("b", xs, tuple(v - 1 for v in ys), ys, "doubt"),),
        (Limit("l", ys[0]),),
        (Spot("s", *points[0]),),
    )
    for width in (40, 80):
        assert max(map(len, chart_lines(plot, width))) <= width
    root = ElementTree.fromstring(chart_svg(plot, "n", "t", "w"))
    assert all(math.isfinite(float(e.get("x", "0"))) for e in root.iter(f"{_SVG}text"))
