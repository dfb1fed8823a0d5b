"""The rule of care/grades.yaml on some two thousand tanks: what it misses, and what it cries.

What is so and what is read of it: drawn_tanks.py. The rule that stood before is kept here, to
compare. A longer run: TANKS_ROUND_EACH=100 pytest tests/audit/test_calibration.py -s
Other dice: TANKS_SEEDS=8,90211
"""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from functools import cache
from pathlib import Path
from zlib import crc32

import numpy as np
import pytest
from drawn_tanks import DrawnTank, Given, drawn_round, grounds, grounds_apart
from typed_tanks import DEMOS, TESTS, audit_in

from interview.audit.checks.findings import Finding
from interview.audit.checks.loader import all_checks
from interview.audit.checks.verdicts import LEVELS, Level
from interview.audit.grade_rules import rules
from interview.audit.grades import grade_all

ROUND_EACH = int(os.environ.get("TANKS_ROUND_EACH", "20"))
APART_EACH = int(os.environ.get("TANKS_ROUND_EACH", "12"))
DRAWS = 128
SEED, SEED_APART = (int(seed) for seed in os.environ.get("TANKS_SEEDS", "7,90210").split(","))
BY_WORDS = {
    "rcd",
    "decor",
    "hygiene",
    "heater_glass",
    "lamp_fixing",
    "lamp_holder",
    "uvb_lamp_holder",
}
"""Checks whose danger words or counts decide: no rule can miss it, so it counts for none."""
CHECKS = {check.id: check for check in all_checks()}
Tanks = Sequence[DrawnTank]


@pytest.fixture(scope="module")
def around() -> dict[str, Given]:
    """What tanks are drawn round."""
    return dict(grounds())


@pytest.fixture(scope="module")
def tanks(around: dict[str, Given]) -> Tanks:
    found = [
        tank
        for name, given in around.items()
        for tank in drawn_round(name, given, ROUND_EACH, DRAWS, _errors(name))
    ]
    assert len(found) >= 1000
    return [tank for tank in found if not _dangerous_by(BY_WORDS, tank)]


def _dangerous_by(checks: Iterable[str], tank: DrawnTank) -> bool:
    """Whether one of these checks is truly a danger."""
    return any(tank.truth.get(check) == LEVELS.index("danger") for check in checks)


def _errors(ground: str, seed: int = SEED) -> Callable[[str], np.random.Generator]:
    """Of each ground and name its own, so that another one changes none of them."""
    return lambda name: np.random.default_rng([seed, *map(crc32, (ground.encode(), name.encode()))])


def _share(found: Iterable[bool]) -> float:
    return float(np.mean(list(found)))


# ---- the rule that stood before: nine draws in ten, and a STOP from one half


@cache
def _before(finding: Finding) -> Finding:
    """The finding as it would have been: a chance of danger from a tenth on was a warning."""
    chances = finding.chances
    assert chances is not None
    verdict: Level = "close"
    if chances.danger >= 0.5:
        verdict = "danger"
    elif chances.good >= 0.9 and chances.danger < 0.1:
        verdict = "good"
    elif chances.broken >= 0.9:
        verdict = "wrong"
    warned = 0.1 <= chances.danger < 0.5
    return replace(finding, verdict=verdict, warning=chances.danger if warned else 0.0, risk="")


def _stop_before(tank: DrawnTank) -> bool:
    return any(f.verdict == "danger" for f in map(_before, tank.findings))


def _before_in_b(tank: DrawnTank) -> bool:
    """Whether it was graded A or B, by the mean and caps of the rule that stood before."""
    return grade_all([_before(finding) for finding in tank.findings]).overall in ("A", "B")


def _stop(tank: DrawnTank) -> bool:
    return tank.grades.stop


# ---- what is missed, and what is cried


def _missed_and_false(tanks: Tanks, stop: Callable[[DrawnTank], bool]) -> tuple[float, float]:
    missed = _share(not stop(tank) for tank in tanks if tank.dangerous)
    return missed, _share(stop(tank) for tank in tanks if not tank.dangerous)


def test_fewer_dangers_are_missed_and_hardly_more_cried(tanks: Tanks) -> None:
    """The rule before missed 10 % and had 5.6 % false STOPs on other tanks, on these 8 to 11 and 4.

    Over eight dice 4.5 to 5.6 % are false and 6.0 to 9.3 % missed. The thresholds were chosen on
    the dice 21 to 24, and counted on 7, 8, 31 and 32.
    """
    missed, false = _missed_and_false(tanks, _stop)
    missed_before, false_before = _missed_and_false(tanks, _stop_before)
    print(f"missed {missed:.3f} ({missed_before:.3f}), false {false:.3f} ({false_before:.3f})")
    assert missed < 0.10 and false < 0.058
    assert missed < missed_before


def test_hardly_a_dangerous_tank_is_graded_a_or_b(tanks: Tanks) -> None:
    grades = [t.grades.overall for t in tanks if t.dangerous]
    assert len(grades) > 300
    print({letter: grades.count(letter) for letter in sorted(set(grades))})
    before = [_before_in_b(tank) for tank in tanks if tank.dangerous]
    print(f"before: {_share(before):.3f} were B or better")
    assert _share(grade in ("A", "B") for grade in grades) < 0.01


def test_what_is_called_sure_is_so(tanks: Tanks) -> None:
    """Of those whose draws all agree too, and of those alone that leave some doubt."""
    so = [
        (_so(tank, finding), finding)
        for tank in tanks
        for finding in tank.findings
        if finding.certainty == "sure"
    ]
    doubted = [right for right, f in so if f.chances and max(vars(f.chances).values()) < 1]
    print(f"sure: {_share(right for right, _ in so):.4f}, with doubt {_share(doubted):.4f}")
    assert _share(right for right, _ in so) >= 0.97
    assert len(doubted) > 5000 and _share(doubted) >= 0.95


def _so(tank: DrawnTank, finding: Finding) -> bool:
    """Whether the truth gives the verdict; what is not called good may be worse."""
    true, told = tank.truth[finding.check], LEVELS.index(finding.verdict)
    return true == told or (finding.verdict != "good" and true > told)


def test_a_good_basking_spot_can_be_good(tanks: Tanks) -> None:
    """By the rule before hardly any: no thermometer settles five kelvins to nine in ten."""
    told = [
        (finding.verdict, _before(finding).verdict)
        for tank in tanks
        for finding in tank.findings
        if finding.check == "basking_heat" and tank.truth["basking_heat"] == 0
    ]
    shares = [_share(pair[n] == "good" for pair in told) for n in (0, 1)]
    print(f"of {len(told)} good spots {shares[0]:.3f} are called so, {shares[1]:.3f} before")
    assert len(told) > 300
    assert _share(new == "good" for new, _ in told) >= 0.80
    assert _share(old == "good" for _, old in told) < 0.60


# ---- what it costs: told too little, or too much

TOLD_NOTHING, TOLD_TO_WATCH, TOLD_TO_MEND, TOLD_TO_STOP = range(4)
LEFT = {
    "danger": (1.0, 0.6, 0.2, 0.0),
    "wrong": (1.0, 0.5, 0.0, 0.0),
    "close": (0.1, 0.0, 0.0, 0.0),
    "good": (0.0, 0.0, 0.0, 0.0),
}
"""The share of a harm that is left where this much was told. Our own judgement."""
ALARM = {
    "good": (0.0, 0.05, 0.3, 1.5),
    "close": (0.0, 0.0, 0.2, 1.5),
    "wrong": (0.0, 0.0, 0.0, 1.0),
    "danger": (0.0, 0.0, 0.0, 0.0),
}
"""What is done for nothing, or undone, where too much was told; a missed discomfort costs 1."""


def _told(finding: Finding) -> int:
    if finding.verdict == "danger":
        return TOLD_TO_STOP
    if finding.verdict == "wrong" or finding.risk == "likely":
        return TOLD_TO_MEND
    return TOLD_TO_WATCH if finding.verdict == "close" or finding.warning else TOLD_NOTHING


def _harm(tank: DrawnTank, rule: Callable[[Finding], Finding]) -> float:
    total = 0.0
    for finding in tank.findings:
        true, told = LEVELS[tank.truth[finding.check]], _told(rule(finding))
        stakes = CHECKS[finding.check].stakes(finding.leaves)
        stake = stakes["danger" if true == "danger" else "wrong"]
        total += LEFT[true][told] * rules().harms[stake].cost + ALARM[true][told]
    return total


def test_the_rule_does_less_harm_than_the_one_before(tanks: Tanks) -> None:
    now = float(np.mean([_harm(tank, lambda finding: finding) for tank in tanks]))
    before = float(np.mean([_harm(tank, _before) for tank in tanks]))
    print(f"mean harm {now:.2f}, before {before:.2f}")
    assert now < before


# ---- tanks on which nothing was tuned

DECIDED_BY_WORDS = BY_WORDS | {
    *("additives", "company", "cords", "quarantine", "stand", "tank_damage", "warning_signs"),
}


@pytest.fixture(scope="module")
def apart() -> Tanks:
    """Other tanks with other errors; no threshold was ever chosen on them."""
    found = [
        tank
        for name, given in grounds_apart()
        for tank in drawn_round(name, given, APART_EACH, DRAWS, _errors(name, SEED_APART))
    ]
    return [t for t in found if not _dangerous_by(BY_WORDS, t)]


def test_the_rule_holds_on_tanks_it_was_not_tuned_on(apart: Tanks) -> None:
    """Each figure beside the reach that was set before; one line for all of them."""
    missed, false = _missed_and_false(apart, _stop)
    letters = [t.grades.overall for t in apart if t.dangerous]
    lulled = _share(letter in ("A", "B") for letter in letters)
    findings = [(tank, f) for tank in apart for f in tank.findings]
    sure = _share(_so(tank, f) for tank, f in findings if f.certainty == "sure")
    basking = [
        f.verdict == "good"
        for tank, f in findings
        if f.check == "basking_heat" and tank.truth[f.check] == 0
    ]
    strict = [tank for tank in apart if not _dangerous_by(DECIDED_BY_WORDS, tank)]
    by_numbers = _missed_and_false(strict, _stop)[0]
    print(
        f"{len(apart)} tanks apart, {len(letters)} dangerous: missed {missed:.3f} (of those that "
        f"numbers decide {by_numbers:.3f}), false {false:.3f}, A or B {lulled:.3f}, "
        f"sure {sure:.4f}, of {len(basking)} good basking spots {_share(basking):.3f}"
    )
    assert len(letters) >= 60 and len(basking) >= 100
    # by dice 7.7 to 11.4 %, 4.1 to 5.6 % and 0.3 to 1.8 % of some 380 dangerous tanks
    assert missed < 0.125 and false < 0.06
    assert lulled < 0.02, "a reading three sigmas off lulls now and then"
    assert sure >= 0.97
    assert _share(basking) >= 0.80


# ---- the tanks of this test are judged as the audit judges


class _NoError:
    """Readings without an error, of tanks that are as they were typed."""

    def standard_normal(self, count: int) -> np.ndarray:
        return np.zeros(count)


@pytest.mark.parametrize("path", [DEMOS / "musk_turtle.yaml", TESTS / "tanks" / "base.yaml"])
def test_the_drawn_tanks_are_judged_as_an_audit_judges(
    path: Path, around: dict[str, Given]
) -> None:
    """The UV index alone is another: there the drawn tank reads what its lamp gives."""
    tank, _ = drawn_round(path.stem, around[path.stem], 2, 2048, lambda _: _NoError())
    audited = {f.check: f for f in audit_in(path).findings if f.applies and f.chances}
    drawn = {finding.check: finding for finding in tank.findings}
    compared = [
        check for check in drawn if check in audited and CHECKS[check].section != "ultraviolet"
    ]
    assert len(compared) > 30
    for check in compared:
        for level in LEVELS:
            shares = [getattr(f.chances, level) for f in (drawn[check], audited[check])]
            assert shares[0] == pytest.approx(shares[1], abs=0.03), (check, level)
