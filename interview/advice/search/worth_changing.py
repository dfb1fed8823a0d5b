"""Which findings are a reason to change the tank, and which only to measure."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

import numpy as np

from interview.audit.checks.check import Check
from interview.audit.checks.findings import Finding
from interview.audit.checks.judging import judge
from interview.audit.tank import Tank
from interview.care.facts import limits
from interview.core.numeric import is_number

__all__ = ["worth_changing"]

_MOSTLY = 0.5
"""From this share of the doubt on, a number rests on a guess."""


def worth_changing(
    tank: Tank, checks: Sequence[Check], findings: Iterable[Finding] = ()
) -> frozenset[str]:
    """Ids of the checks that may be changed for: a danger always, a guess never.

    Nor what rests on an answer that can't be right: that is put right first.

    Args:
        tank: the tank
        checks: those asked about
        findings: what is found already; the other checks are judged
    """
    found = {finding.check: finding for finding in findings}
    found |= {check.id: judge(check, tank) for check in checks if check.id not in found}
    return frozenset(
        check.id
        for check in checks
        if found[check.id].verdict == "danger"
        or not (
            found[check.id].verdict == "unmeasured"
            or found[check.id].assumed
            or found[check.id].fit == "impossible"
            or (found[check.id].verdict == "close" and _guessed(check, tank))
        )
    )


def _guessed(check: Check, tank: Tank) -> bool:
    """Whether most of the doubt comes from answers nobody gave."""
    names = [name for name in (check.measures, *check.bounds) if name not in limits()]
    return any(_mostly_guess(name, tank) for name in names)


def _mostly_guess(name: str, tank: Tank) -> bool:
    wiring = tank.best.wiring
    behind = {name} | (set(wiring.upstream(name)) if name in wiring.formulas else set())
    guesses = behind & tank.assumed
    drawn = tank.sample.get(name)
    if not guesses or drawn is None or not is_number(drawn):
        return False
    best = tank.best.known
    held = {n: best[n] for n in guesses if n in best and n in tank.sample.known}
    without = tank.sample.with_known({**tank.sample.known, **held}).get(name)
    return without is not None and _variance(without) < (1 - _MOSTLY) * _variance(drawn)


def _variance(drawn: Any) -> float:
    values = np.asarray(drawn, dtype=float)
    values = values[np.isfinite(values)]
    return float(values.var()) if values.size else 0.0
