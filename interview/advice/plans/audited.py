"""The findings after changes to a tank: what the changes don't reach stays as it was found."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from interview.advice.levers.lever import Option
from interview.advice.search.tables.severity_tables import merged
from interview.advice.what_if.candidates import rests_on
from interview.advice.what_if.suppose import measured_again
from interview.audit.checks.findings import Finding
from interview.audit.checks.judging import judge
from interview.audit.checks.loader import all_checks, checks_by_id
from interview.audit.tank import Tank
from interview.core.working import Working

__all__ = ["Audited"]


class Audited:
    """Audits with all doubt, each set of changes judged once.

    A reading under the lamp is taken to be taken again, as predicted and by the same
    thermometer: what a plan promises has to hold with its doubt.
    """

    def __init__(self, tank: Tank, findings: Sequence[Finding]) -> None:
        """Keep what was found of the tank as it is; whence doubt comes is told of it only."""
        self._tank = replace(tank, best=tank.best.remembering(), sample=tank.sample.remembering())
        self._before = {f.check: replace(f, doubt=(), settle="") for f in findings}
        self._found: dict[frozenset[str], tuple[Finding, ...]] = {}

    def __call__(self, options: Sequence[Option]) -> tuple[Finding, ...]:
        """The findings after the changes, in the order of the checks."""
        changes = merged(options)
        key = frozenset(f"{name} {value}" for name, value in changes.items())
        if key not in self._found:
            self._found[key] = self._after(changes)
        return self._found[key]

    def of(self, check: str, options: Sequence[Option]) -> Finding:
        """What one check finds after the changes."""
        return judge(checks_by_id()[check], measured_again(self._tank, merged(options)))

    def _after(self, changes: dict[str, Any]) -> tuple[Finding, ...]:
        after = measured_again(self._tank, changes)
        moved, wiring = self._moved(after), self._tank.best.wiring
        return tuple(
            judge(check, after)
            if check.id not in self._before or moved & rests_on(check.names, wiring)
            else self._before[check.id]
            for check in all_checks()
        )

    def _moved(self, after: Tank) -> frozenset[str]:
        """Names whose value, or what is thought of it, is another after the changes."""
        before = self._tank
        moved = _unlike(before.best, after.best) | _unlike(before.sample, after.sample)
        doubted = {*before.inconsistencies} ^ {*after.inconsistencies}
        moved |= {name for inconsistency in doubted for name in inconsistency.rests}
        return frozenset(moved | (before.assumed ^ after.assumed))


def _unlike(before: Working, after: Working) -> set[str]:
    """Names known to only one of two workings, or with another value; pinned ones compared too."""
    found = before.known.keys() - after.known.keys()
    return found | {name for name, new in after.known.items() if before.get(name) is not new}
