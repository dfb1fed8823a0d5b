"""The windows: spans agree with single audits at their edges, and all together holds."""

from __future__ import annotations

import datetime
from functools import cache
from pathlib import Path

import numpy as np
import pytest
from advice_tanks import DEMOS, TANKS, answers_in, audit_of, interview_with, tank_of

from interview import assembly
from interview.advice.advise import advise
from interview.advice.what_if.candidates import severities
from interview.advice.what_if.severity import NEEDS_CHANGE
from interview.advice.what_if.suppose import changed
from interview.advice.window import (
    Window,
    _held_on_grid,
    lamp_window,
    water_window,
    windows_together,
)
from interview.audit.checks.judging import judge
from interview.audit.checks.loader import all_checks
from interview.audit.tank import Tank
from interview.report.formats.markdown import markdown
from interview.report.naming import spoken

CHECKS = all_checks()
DAY = datetime.date(2026, 3, 1)
BY_ID = {check.id: check for check in CHECKS}
PATHS = [DEMOS / "musk_turtle.yaml", DEMOS / "river_cooter_adult.yaml", TANKS / "base.yaml"]


@cache
def _tank(path: Path) -> Tank:
    return tank_of(path)


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
    found = windows_together(tank, CHECKS, steps=3)
    assert found is not None
    rows = found.rows
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


@pytest.mark.parametrize("platform", ["floating", "fixed", "pile"])
def test_the_two_together_are_every_pair_looked_at(platform: str) -> None:
    """A check that only one of the two moves is worked out for that one, to the same end."""
    tank = tank_of(TANKS / "base.yaml", {"platform_kind": platform})
    lines, heights = np.linspace(0.02, 0.3, 5), np.linspace(0.1, 0.8, 9)
    pairs = [
        {"water_line_below_rim": float(line), "heat_lamp_height": float(height)}
        for line in lines
        for height in heights
    ]
    brute = severities(tank, CHECKS, pairs) < NEEDS_CHANGE
    held = _held_on_grid(tank, CHECKS, lines, heights)
    assert np.array_equal(held.reshape(brute.shape), brute)


def test_without_a_lamp_or_a_water_line_there_is_no_window() -> None:
    no_lamp = audit_of(TANKS / "base.yaml", {"heat_lamp_kind": "none", "basking_temperature": ""})
    assert lamp_window(no_lamp.tank, CHECKS) is None
    assert windows_together(no_lamp.tank, CHECKS) is None
    dry = tank_of(TANKS / "base.yaml")
    known = {n: v for n, v in dry.best.known.items() if n != "water_line_below_rim"}
    from dataclasses import replace

    assert water_window(replace(dry, best=dry.best.with_known(known)), CHECKS) is None
    assert np.isfinite(dry.best.value("water_depth"))


def test_without_a_reading_of_the_basking_surface_the_page_says_to_measure_it() -> None:
    audit = audit_of(TANKS / "base.yaml", {"basking_temperature": ""})
    assert lamp_window(audit.tank, CHECKS) is None
    assert windows_together(audit.tank, CHECKS) is None
    page = " ".join(markdown(audit, "", advise(audit, DAY)).split())
    assert "Nothing can be told of it before the basking surface is measured" in page


def test_what_holds_at_no_water_line_is_named_as_wanting_another_change() -> None:
    foul = {"water_change_share": "10 %", "feed_mass": "6 g", "tap_nitrate": "20 mg/L"}
    foul |= {"nitrate": ""}  # a kit's reading would say more than food and changes do
    audit = audit_of(TANKS / "base.yaml", foul)
    window = water_window(audit.tank, CHECKS)
    assert window is not None and "nitrate" in window.never
    assert "nitrate" not in {span.check for span in window.spans}
    for line in np.linspace(window.least, window.most, 7):
        assert not _holds(audit.tank, "nitrate", "water_line_below_rim", float(line))
    page = " ".join(markdown(audit, "", advise(audit, DAY)).split())
    assert "At no setting of this alone: " in page and "another change" in page


def test_two_that_exclude_each_other_are_named_on_the_page() -> None:
    low = {
        "cover_water": "none",
        "cover_basking": "none",
        "tank_size": "120 x 50 x 34 cm",
        "water_line_below_rim": "12 cm",
        "animals": [{"species": "painted turtle", "carapace_length": "12 cm", "sex": "male"}],
    }
    audit = audit_of(TANKS / "base.yaml", low)
    window = water_window(audit.tank, CHECKS)
    assert window is not None and len(window.against) == 2
    page = " ".join(markdown(audit, "", advise(audit, DAY)).split())
    names = [spoken(name) for name in window.against]
    assert f"{names[0]} and {names[1]} exclude each other" in page
    both = windows_together(audit.tank, CHECKS)
    assert both is not None and both.against


def test_what_nobody_answered_is_no_clash_of_a_window() -> None:
    """Whether the stand is level is only not judged: no water line is asked to mend it."""
    answers = {
        **answers_in(DEMOS / "river_cooter_adult.yaml"),
        "stand_level": "",
        "stand_signs": "",
    }
    tank = assembly.audit_of(interview_with(answers), "").tank
    assert judge(BY_ID["stand"], tank).verdict == "unmeasured"
    window = water_window(tank, CHECKS)
    assert window and "stand" not in window.never
    assert all(severities(tank, [BY_ID["stand"]], [{}])[0] < NEEDS_CHANGE)
