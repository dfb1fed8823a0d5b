"""Chances and 5/95 % points against brute-force Monte Carlo: 10^6 pseudo-random draws.

The draws here are written down anew from the rules of DEVELOPERS.md and the care data, with
numpy's generator; only the formulas are the program's own. Only what a quantity needs is drawn,
and in batches of which nothing but counts is kept: a million draws at once take two gigabytes.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any

import numpy as np
import pytest

from interview.audit.audit import Audit
from interview.audit.checks.check import Band, Check
from interview.audit.checks.loader import all_checks
from interview.audit.checks.verdicts import LEVELS
from interview.care.facts import assumptions, doubts, limits
from interview.core.wiring import quantities
from interview.core.working import Working
from interview.graph.interview import Interview

BATCH, BATCHES = 10_000, 100
TANKS = ("map_turtle_hatchling", "musk_turtle", "river_cooter_adult")
JUDGED = {
    "swim_depth": "water_depth",
    "escape": "escape_height",
    "platform_gap": "platform_gap_share",
    "basking_heat": "shell_temperature",
    "uv_zone": "uv_index_shell",
    "water_temperature": "water_temperature",
    "ammonia": "ammonia_free",
    "nitrate": "nitrate_peak",
}


def _normal(rng: np.random.Generator, best: float, below: float, above: float) -> Any:
    score = rng.standard_normal(BATCH)
    return best + np.where(score < 0, below, above) * score


def _reading(rng: np.random.Generator, item: Any, reading: Any) -> Any:
    """One answer: the width of its words and of the instrument, as independent errors."""
    doubt = doubts().get(item.name) or doubts().get(item.question)
    doubt = doubt and doubt.by(reading.instrument)
    below, above = (reading.best - reading.low) / 1.645, (reading.high - reading.best) / 1.645
    hedged = reading.low != reading.high
    if doubt and not (hedged and item.how == "assumed"):
        sigma = doubt.spread + doubt.relative * abs(reading.best)
        if doubt.factor > 1:
            relative = max(below, above) / reading.best
            score = rng.standard_normal(BATCH)
            return reading.best * np.exp(score * np.hypot(np.log(doubt.factor), relative))
        below, above = np.hypot(below, sigma), np.hypot(above, sigma)
    drawn = _normal(rng, reading.best, below, above)
    lowest = -np.inf if item.unit in ("degC", "deg") else 0.0
    highest = 100.0 if item.unit == "%" else np.inf
    if doubt:
        lowest = lowest if doubt.low is None else doubt.low
        highest = highest if doubt.high is None else doubt.high
    return np.clip(drawn, lowest, highest)


def _assumption(rng: np.random.Generator, name: str) -> Any:
    fact = assumptions()[name]
    if fact.factor > 1:
        drawn = fact.value * fact.factor ** rng.standard_normal(BATCH)
    else:
        sigma = fact.spread + fact.relative * abs(fact.value or 0.0)
        drawn = fact.value + sigma * rng.standard_normal(BATCH) if sigma else fact.value
    return np.clip(drawn, fact.low, fact.high) if fact.low is not None or fact.high else drawn


def _batches(interview: Interview, wanted: set[str]) -> Iterator[Working]:
    """The tank with every leaf that the wanted names need drawn a million times, in batches."""
    rng = np.random.default_rng(4)
    for _ in range(BATCHES):
        yield _drawn(rng, interview, wanted)


def _drawn(rng: np.random.Generator, interview: Interview, wanted: set[str]) -> Working:
    wiring, given = quantities(), interview.given()
    need = set(wanted).union(*(wiring.upstream(n) for n in wanted if n in wiring.formulas))
    known: dict[str, Any] = {}
    for name in sorted(need):
        item, span = given.get(name), wiring.range_of(name)
        if item is None:
            if name in assumptions():
                known[name] = np.clip(_assumption(rng, name), *span)
        elif isinstance(item.value, tuple) and any(hasattr(v, "best") for v in item.value):
            rows = [_reading(rng, item, v) if v else np.full(BATCH, np.nan) for v in item.value]
            known[name] = np.clip(np.stack(rows, axis=-1), *span)
        elif hasattr(item.value, "best"):
            known[name] = np.clip(_reading(rng, item, item.value), *span)
        else:
            known[name] = item.value
    return wiring.working(known, draws=True)


@dataclass
class Counts:
    """What the million draws of one tank say."""

    audit: Audit
    shares: dict[str, Counter[str]] = field(default_factory=dict)
    """For each check the share of the draws with each verdict."""
    points: dict[str, dict[float, Any]] = field(default_factory=dict)
    """For each drawn quantity and point of the audit: shares of draws below it, and up to it."""

    def add(self, brute: Working) -> None:
        for check in _judged():
            shares = self.shares.setdefault(check.id, Counter())
            for verdict, share in _shares(check, brute, self.audit).items():
                shares[verdict] += share / BATCHES
        for name in set(JUDGED.values()):
            drawn, figure = brute.get(name), self.audit.figures[name]
            if drawn is None or np.ndim(drawn) == 0:
                assert figure.value is None or figure.low == figure.high
                assert drawn is None or drawn == pytest.approx(figure.value)
                continue
            found = self.points.setdefault(name, {})
            for share, point in ((0.05, figure.low), (0.95, figure.high)):
                reached = np.array([np.mean(drawn < point), np.mean(drawn <= point)])
                found[share] = found.get(share, 0.0) + reached / BATCHES


def _judged() -> list[Check]:
    return [check for check in all_checks() if check.id in JUDGED]


@pytest.fixture(scope="module")
def counted(demos: dict[str, Audit], demo_interviews: dict[str, Interview]) -> list[Counts]:
    bounds = {n for c in _judged() for pair in c.compared for n in pair}
    bounds |= {n for c in _judged() for when in c.whens.values() for n in when.names}
    wanted = (bounds | set(JUDGED.values())) - set(limits())
    found = [Counts(demos[name]) for name in TANKS]
    for counts, name in zip(found, TANKS, strict=True):
        for brute in _batches(demo_interviews[name], wanted):
            counts.add(brute)
    return found


def _look(brute: Working, name: str) -> Any:
    fact = limits().get(name)
    return fact.value if fact else brute.get(name)


def _inside(brute: Working, band: Band, value: Any) -> Any:
    held = np.ones(BATCH, dtype=bool)
    for name in band.low:
        held &= np.asarray(value >= _look(brute, name))
    for name in band.high:
        held &= np.asarray(value <= _look(brute, name))
    return held


def _shares(check: Check, brute: Working, audit: Audit) -> dict[str, float]:
    """Share of the draws with each verdict, taken one rule after the other."""
    value = brute.get(check.measures)
    rules: list[tuple[str, Any]] = []
    for verdict in ("danger", "wrong", "good", "close"):
        if when := check.whens.get(f"{verdict}_when"):
            rules.append((verdict, when.each(lambda n: _look(brute, n), audit.tank.unit_of)))
    if check.danger and value is not None:
        assert not check.danger.low and not check.overrules_danger
        past = [value > _look(brute, name) for name in check.danger.high]
        rules.insert(0, ("danger", np.any(past, axis=0)))
    for verdict, band in (("good", check.good), ("close", check.close)):
        if band and value is not None:
            rules.append((verdict, _inside(brute, band, value)))
    shares, left = dict.fromkeys(("danger", "wrong", "good", "close"), 0.0), np.ones(BATCH, bool)
    for verdict, held in rules:
        if held is not None:
            shares[verdict] += float(np.mean(left & held))
            left &= ~np.broadcast_to(np.asarray(held), left.shape)
    shares["wrong"] += float(np.mean(left))
    return shares


@pytest.mark.parametrize("check_id", JUDGED)
def test_chances_agree_with_brute_force(counted: list[Counts], check_id: str) -> None:
    for counts in counted:
        tank, shares = counts.audit.title, counts.shares[check_id]
        finding = next(f for f in counts.audit.findings if f.check == check_id)
        if (tank, check_id) == ("river_cooter_adult", "platform_gap"):
            assert not finding.applies  # its platform stands above the tank
            continue
        expected = {
            "good": shares["good"],
            "close": shares["good"],
            "wrong": shares["wrong"] + shares["danger"],
            "danger": shares["danger"],
        }[finding.verdict]
        assert finding.chance == pytest.approx(expected, abs=0.012), tank
        for level in LEVELS:
            found = getattr(finding.chances, level)
            assert found == pytest.approx(shares[level], abs=0.012), (tank, level)


def test_low_and_high_are_the_five_percent_points(counted: list[Counts]) -> None:
    held = 0
    for counts in counted:
        for name, points in counts.points.items():
            for share, (below, upto) in points.items():
                told = (counts.audit.title, name, share, below, upto)
                assert below - 0.012 <= share <= upto + 0.012, told
                held += 1
    assert held >= 36
