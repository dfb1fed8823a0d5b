"""What rests on answers nobody gave: numbers more than on what was read, and dangers."""

from __future__ import annotations

from typing import Any

import numpy as np

from interview.audit.checks.check import Check
from interview.audit.sampling.sensitivity import doubt_of
from interview.audit.tank import Tank
from interview.care.facts import limits
from interview.core.numeric import is_number

__all__ = ["behind_danger", "deciding_danger", "mostly_by", "mostly_guessed", "words_guessed"]

_MOSTLY = 0.5
"""From this share of the doubt on, a number rests on a guess."""


def mostly_guessed(check: Check, tank: Tank) -> bool:
    """Whether most of the doubt about a check comes from answers nobody gave."""
    names = [name for name in (check.measures, *check.bounds) if name not in limits()]
    return any(_mostly_guess(name, tank) for name in names)


def mostly_by(check: Check, tank: Tank) -> tuple[str, ...]:
    """Numbers nobody gave that most of the doubt about what a check measures comes from."""
    wiring = tank.best.wiring
    behind = wiring.upstream(check.measures) if check.measures in wiring.formulas else ()
    if tank.assumed.isdisjoint(behind):
        return ()
    doubt = [one for one in doubt_of(check.measures, tank) if one.quantity in tank.assumed]
    mostly = sum(one.share for one in doubt) > _MOSTLY
    return tuple(sorted(one.quantity for one in doubt)) if mostly else ()


def behind_danger(check: Check, tank: Tank) -> frozenset[str]:
    """Answers nobody gave that what decides a danger is worked out from."""
    formulas = tank.best.wiring
    names = deciding_danger(check) if tank.assumed else frozenset[str]()
    behind = (formulas.upstream(name) for name in names if name in formulas.formulas)
    return tank.assumed & frozenset[str]().union(*behind)


def words_guessed(check: Check, tank: Tank) -> frozenset[str]:
    """Those of them that are words: with one of these a danger is never certain."""
    known = tank.best.known
    return frozenset(n for n in behind_danger(check, tank) if not is_number(known.get(n, "")))


def deciding_danger(check: Check) -> frozenset[str]:
    """The names by which a danger is decided."""
    names = {check.measures, *(check.danger.names if check.danger else ())}
    when = check.whens.get("danger_when")
    return frozenset(names.union(when.names if when else ()))


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
