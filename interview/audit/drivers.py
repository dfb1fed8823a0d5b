"""Which reading most of a finding's doubt comes from, and so what to measure again."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

import numpy as np
from numpy.typing import NDArray

from interview.audit.checks import Check, all_checks
from interview.audit.findings import Finding
from interview.audit.tank import Tank
from interview.care.facts import assumptions

__all__ = ["driver_of", "drivers_of"]

_SETTLED = 0.05  # chance below which the draws agree: measuring again changes nothing
_MATTERS = 0.1  # share of the variance from which a source of doubt is worth naming


def drivers_of(tank: Tank, findings: Iterable[Finding]) -> dict[str, str]:
    """For each close finding in doubt, the answer that would settle it best."""
    checks = {check.id: check for check in all_checks()}
    found = {}
    for finding in findings:
        chance = finding.chance or 0.0
        if finding.verdict != "close" or not _SETTLED < chance < 1 - _SETTLED:
            continue
        if driver := driver_of(checks[finding.check], tank.only(finding.animal)):
            found[finding.check] = driver
    return found


def driver_of(check: Check, tank: Tank) -> str | None:
    """The answer to measure, by its share of the variance of what the check measures.

    A doubt of the model counts for the reading that would replace the model, where the
    care data names one (`settled_by`); other doubts of the model can't be measured away.
    """
    drawn = tank.cloud.get(check.measures)
    if drawn is None or np.ndim(drawn) != 1 or np.std(_finite(drawn)) == 0:
        return None
    shares: dict[str, float] = {}
    names = tank.cloud.wiring.upstream(check.measures) | {check.measures}
    for name, cloud in _uncertain(tank.cloud.known, names):
        answer = _settled_by(name)
        if answer:
            shares[answer] = shares.get(answer, 0.0) + _share(cloud, drawn)
    best = max(shares, key=lambda name: (shares[name], name), default=None)
    return best if best is not None and shares[best] >= _MATTERS else None


def _uncertain(
    known: Mapping[str, Any], names: Iterable[str]
) -> Iterable[tuple[str, NDArray[np.float64]]]:
    for name in sorted(names):
        cloud = known.get(name)
        if isinstance(cloud, np.ndarray) and cloud.ndim >= 1 and len(cloud) > 1:
            yield name, cloud


def _settled_by(name: str) -> str:
    fact = assumptions().get(name)
    return name if fact is None else fact.settled_by


def _finite(values: Any) -> NDArray[np.float64]:
    numbers: NDArray[np.float64] = np.asarray(values, dtype=float)
    finite: NDArray[np.float64] = numbers[np.isfinite(numbers)]
    return finite


def _share(cloud: NDArray[np.float64], drawn: Any) -> float:
    """Share of the variance that goes with one input: squared rank correlation."""
    columns = cloud[:, None] if cloud.ndim == 1 else cloud
    ranks = _ranks(np.asarray(drawn, dtype=float))
    shares = [
        np.corrcoef(_ranks(column), ranks)[0, 1] ** 2
        for column in columns.T
        if len(column) == len(ranks) and np.std(_finite(column)) > 0
    ]
    return float(max(shares, default=0.0))


def _ranks(values: NDArray[np.float64]) -> NDArray[np.float64]:
    ranks = np.empty(len(values))
    ranks[np.argsort(values, kind="stable")] = np.arange(len(values))
    return ranks
