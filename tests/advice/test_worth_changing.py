"""Which findings are a reason to change a tank: a danger always, a guess never."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from typing import Any

import pytest
from advice_tanks import TANKS, audit_of

from interview.advice.search.worth_changing import worth_changing
from interview.audit.audit import Audit
from interview.audit.checks.loader import all_checks
from interview.audit.tank import Tank

CHECKS = tuple(check for check in all_checks() if check.id != "cycling")
GUESS, OPEN = {"assumed": ("room_humidity",)}, {"certainty": "open"}
CAN_WAIT = "outgrow"


@cache
def _audit() -> Audit:
    return audit_of(TANKS / "base.yaml")


def _worth(check: str, tank: Tank, **found: Any) -> bool:
    """Whether a check with this finding is worth a change, all others being as they are."""
    plain: dict[str, Any] = {"certainty": "sure", "assumed": (), "fit": "", "risk": ""}
    findings = [
        replace(one, **{**plain, **found}) if one.check == check else one
        for one in _audit().findings
    ]
    return check in worth_changing(tank, CHECKS, findings)


@pytest.mark.parametrize(
    ("found", "worth"),
    [
        ({"verdict": "danger"}, True),
        ({"verdict": "danger", **GUESS, **OPEN, "fit": "impossible"}, True),
        ({"verdict": "wrong"}, True),
        ({"verdict": "wrong", **OPEN}, True),
        ({"verdict": "wrong", **GUESS}, False),
        ({"verdict": "wrong", "fit": "impossible"}, False),
        ({"verdict": "wrong", "fit": "unlikely"}, True),
        ({"verdict": "close"}, True),
        ({"verdict": "close", **GUESS}, False),
        ({"verdict": "close", **OPEN}, False),
        ({"verdict": "close", **OPEN, "risk": "possible"}, True),
        ({"verdict": "good", **OPEN}, False),
        ({"verdict": "good", **OPEN, "risk": "likely"}, True),
        ({"verdict": "unmeasured"}, False),
    ],
)
@pytest.mark.parametrize("check", ["water_temperature", "basking_heat"])
def test_a_danger_is_always_worth_a_change_and_a_guess_never(
    check: str, found: dict[str, Any], worth: bool
) -> None:
    assert _worth(check, _audit().tank, **found) is worth


def test_what_can_wait_waits_in_a_tank_in_use_alone() -> None:
    tank = _audit().tank
    best = tank.best
    planned = replace(tank, best=best.with_known({**best.known, "stage": "planning"}))
    assert not _worth(CAN_WAIT, tank, verdict="close")
    assert _worth(CAN_WAIT, planned, verdict="close")
    assert _worth(CAN_WAIT, tank, verdict="wrong") and _worth(CAN_WAIT, planned, verdict="wrong")


def test_what_is_close_by_a_guess_alone_is_measured_first() -> None:
    tank = _audit().tank
    guessed = replace(tank, assumed=tank.assumed | {"water_temperature"})
    assert _worth("water_temperature", tank, verdict="close")
    assert not _worth("water_temperature", guessed, verdict="close")
    assert _worth("water_temperature", guessed, verdict="wrong")
    assert _worth("swim_area", guessed, verdict="close")
