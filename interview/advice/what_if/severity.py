"""How bad a check stands at best values, for candidates whose numbers stand side by side."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

import numpy as np
from numpy.typing import NDArray

from interview.audit.animal import Animal
from interview.audit.checks.check import Check
from interview.audit.checks.outcomes import RULE_VERDICTS, rules_of
from interview.audit.tank import Tank
from interview.care.facts import limits
from interview.core.errors import NotApplicable, OutOfRange
from interview.core.numeric import is_number
from interview.core.working import Working

__all__ = [
    "CLOSE",
    "DANGER",
    "DEEPER",
    "GOOD",
    "NEEDS_CHANGE",
    "OPEN",
    "SEVERITIES",
    "WORSE",
    "WRONG",
    "Severities",
    "judged_apart",
    "severity_in",
]

Severities = NDArray[np.int8]
_Bools = NDArray[np.bool_]
GOOD, OPEN, CLOSE, WRONG, WORSE, DANGER, DEEPER = range(7)
"""Good; unmeasured; close; wrong; dangerous: all at best values.

WORSE is wrong and further out than today; DEEPER is the same for a danger.
"""
SEVERITIES = {"good": GOOD, "unmeasured": OPEN, "close": CLOSE, "wrong": WRONG, "danger": DANGER}
_BEYOND = -1
"""Not decided, because a formula does not hold there."""
_NO_WORSE = 1.05
"""A failing check may drift this much; more is worse."""
NEEDS_CHANGE = CLOSE
"""From here on a change is wanted; below it only measuring helps."""


def severity_in(
    check: Check,
    working: Working,
    tank: Tank,
    count: int | None,
    today: Tank,
    *,
    all_outside: bool = False,
) -> Any:
    """Severity of each candidate; None where some of them lie outside what a formula takes.

    Args:
        check: what is judged, for each animal apart where it says so
        working: the tank after the candidates' changes
        tank: the tank that a failing check may not get further out than
        count: how many candidates stand side by side; None where they lie along several axes, and
            a severity has only those that move it
        today: the tank at single best values, whose animals are told apart
        all_outside: whether what lies outside a formula does so for every candidate

    A candidate without a meaning, as water below the bottom, is no number and so is wrong.
    """
    with np.errstate(all="ignore"):
        animals = judged_apart(check, today)
        if not animals:
            each = [_severity_in(check, working, tank)]
        else:
            each = [_severity_in(check, working.of_animal(a.row), tank.only(a)) for a in animals]
    if count is not None:
        each = [np.broadcast_to(one, count) if hasattr(one, "dtype") else one for one in each]
    undecided = [_is_beyond(severity) for severity in each]
    if not any(np.any(one) for one in undecided):
        return each[0] if len(each) == 1 else np.maximum.reduce(np.broadcast_arrays(*each))
    if not all_outside:
        return None
    worst = np.maximum.reduce(np.broadcast_arrays(*each))
    return np.where(np.logical_or.reduce(np.broadcast_arrays(*undecided)), WRONG, worst)


def judged_apart(check: Check, today: Tank) -> tuple[Animal, ...]:
    """The animals that the check judges one by one; () where it judges the tank as a whole."""
    animals = today.outermost if check.good else today.animals
    return animals if check.each_animal and len(animals) > 1 else ()


def _is_beyond(severity: Any) -> Any:
    return np.asarray(severity) == _BEYOND


def _look_in(working: Working, check: Check) -> Callable[[str], Any]:
    """Gives a limit, answer or quantity of the tank; None if unknown, or left to another check.

    Whether there is a way out is left out: looked at with everything else, it would make a table
    over the levers of both. Where it is good no verdict hangs on it, and every plan is audited.
    """
    facts, beside = limits(), check.decides - check.decides_alone

    def look(name: str) -> Any:
        if name in facts:
            return facts[name].value
        return None if name in beside else working.get(name)

    return look


def _severity_in(check: Check, working: Working, tank: Tank) -> Any:
    """Severity for one animal or the whole tank; `_BEYOND` where a formula does not hold."""
    look = _look_in(working, check)
    if check.relevant:
        relevant = check.relevant.each(look, tank.unit_of)
        if relevant is None or relevant is False:
            return OPEN if relevant is None else GOOD
    rules = rules_of(check, look, tank.unit_of)
    held = {n: np.asarray(h, dtype=bool) for n, h in rules.items()}
    deciding = [h for name, h in held.items() if name != "close"]
    known = check.whens.keys() <= rules.keys() if check.good is None else "good" in rules
    decided = known or _or(deciding)
    if not np.any(decided):
        return _undecided(check, working)
    if not held:
        return OPEN
    codes = [np.int8(SEVERITIES[RULE_VERDICTS[name]]) for name in rules]
    found = np.select(list(held.values()), codes, default=np.int8(SEVERITIES[RULE_VERDICTS[""]]))
    found = found + _further_out(check, working, tank, found)
    return found if np.all(decided) else np.where(decided, found, _undecided(check, working))


def _or(several: Sequence[_Bools]) -> Any:
    return np.logical_or.reduce(np.broadcast_arrays(*several)) if several else False


def _further_out(check: Check, working: Working, tank: Tank, found: Any) -> Any:
    """One where a check that fails is further outside its band than today, else nothing."""
    before, after = _outside(check, tank.best), _outside(check, working)
    if working is tank.best or before is None or after is None:
        return 0
    return (found >= WRONG) & (before > 0) & (after > before * _NO_WORSE)


def _outside(check: Check, working: Working) -> Any:
    """How far the measure lies outside the good band; None where that has no meaning."""
    value, bound = working.get(check.measures), _look_in(working, check)
    if check.good is None or value is None or not is_number(value):
        return None
    short = [(bound(name), 1) for name in check.good.low]
    short += [(bound(name), -1) for name in check.good.high]
    if not short or any(edge is None for edge, _ in short):
        return None
    return np.maximum.reduce(np.broadcast_arrays(*((edge - value) * way for edge, way in short)))


def _undecided(check: Check, working: Working) -> int:
    names = (check.measures, *(check.good.names if check.good else ()))
    reasons = [working.why_not(name) for name in names if name not in limits()]
    if any(isinstance(reason, NotApplicable) for reason in reasons):
        return GOOD
    return _BEYOND if any(isinstance(reason, OutOfRange) for reason in reasons) else OPEN
