"""The windows: spans agree with single audits at their edges, and all together holds."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import numpy as np
import pytest
from advice_tanks import DEMOS, TANKS, audit_of

from interview.advice.suppose import changed
from interview.advice.window import Window, lamp_window, water_window, windows_together
from interview.audit.checks import all_checks
from interview.audit.judge import Tank, judge

CHECKS = all_checks()
BY_ID = {check.id: check for check in CHECKS}
PATHS = [DEMOS / "musk_turtle.yaml", DEMOS / "river_cooter_adult.yaml", TANKS / "base.yaml"]


@cache
def _tank(path: Path) -> Tank:
    return audit_of(path).tank


def _windows(tank: Tank) -> list[Window]:
    found = [water_window(tank, CHECKS), lamp_window(tank, CHECKS)]
    return [window for window in found if window is not None]


def _holds(tank: Tank, check: str, lever: str, setting: float) -> bool:
    finding = judge(BY_ID[check], changed(tank, {lever: setting}))
    if finding.verdict == "unmeasured":
        return not finding.say.startswith("Not judged: ")
    return finding.inside or not finding.applies


@pytest.mark.parametrize("path", PATHS, ids=lambda p: p.stem)
def test_the_spans_agree_with_single_audits_at_their_edges(path: Path) -> None:
    tank = _tank(path)
    windows = _windows(tank)
    assert {window.lever for window in windows} == {"water_line_below_rim", "heat_lamp_height"}
    for window in windows:
        step = (window.most - window.least) / 60
        assert window.spans
        for span in window.spans:
            assert span.low is not None and span.high is not None
            assert _holds(tank, span.check, window.lever, span.low), span
            assert _holds(tank, span.check, window.lever, span.high), span
            for outside in (span.low - step, span.high + step):
                if window.least - 1e-9 <= outside <= window.most + 1e-9:
                    assert not _holds(tank, span.check, window.lever, outside), (span, outside)


@pytest.mark.parametrize("path", PATHS, ids=lambda p: p.stem)
def test_all_hold_inside_the_window_and_one_fails_beyond_it(path: Path) -> None:
    tank = _tank(path)
    for window in _windows(tank):
        if window.low is None or window.high is None:
            assert len(window.against) >= 2
            continue
        assert not window.against
        step = (window.most - window.least) / 60
        for setting in (window.low, 0.5 * (window.low + window.high), window.high):
            for span in window.spans:
                assert _holds(tank, span.check, window.lever, setting), (span.check, setting)
        for beyond in (window.low - step, window.high + step):
            if window.least <= beyond <= window.most:
                held = [_holds(tank, s.check, window.lever, beyond) for s in window.spans]
                assert not all(held)


def test_depth_is_the_span_of_plain_geometry() -> None:
    """Swimming depth holds from the rim down to where inside height less depth needed lies."""
    tank = _tank(PATHS[0])
    window = water_window(tank, CHECKS)
    assert window is not None and window.unit == "m"
    assert window.now == pytest.approx(0.11)
    heater = next(span for span in window.spans if span.check == "heater_cover")
    least = tank.lookup("heater_cover_good")
    lowest = window.now + float(tank.best.value("heater_cover")) - float(least)
    step = (window.most - window.least) / 60
    assert heater.high is not None and lowest - step <= heater.high <= lowest + 1e-9
    assert heater.low == window.least and heater.holds_now


def test_the_two_together_agree_with_each_alone() -> None:
    tank = _tank(TANKS / "base.yaml")
    rows = windows_together(tank, CHECKS, steps=3)
    assert len(rows) == 3
    lines = [row.water_line_below_rim for row in rows]
    assert lines == sorted(lines)
    for line, low, high in ((r.water_line_below_rim, r.low, r.high) for r in rows):
        for height in (low, high):
            if height is not None:
                after = changed(tank, {"water_line_below_rim": line, "heat_lamp_height": height})
                warm = judge(BY_ID["basking_heat"], after)
                assert warm.inside
        if low is not None and high is not None:
            assert low <= high


def test_without_a_lamp_or_a_water_line_there_is_no_window() -> None:
    no_lamp = audit_of(TANKS / "base.yaml", {"heat_lamp_kind": "none", "basking_temperature": ""})
    assert lamp_window(no_lamp.tank, CHECKS) is None
    assert windows_together(no_lamp.tank, CHECKS) == ()
    dry = audit_of(TANKS / "base.yaml").tank
    known = {n: v for n, v in dry.best.known.items() if n != "water_line_below_rim"}
    from dataclasses import replace

    assert water_window(replace(dry, best=dry.best.with_known(known)), CHECKS) is None
    assert np.isfinite(dry.best.value("water_depth"))
