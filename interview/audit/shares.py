"""Which answers the doubt about a quantity comes from, and how much of it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

import numpy as np
from numpy.typing import NDArray

from interview.audit.findings import Share
from interview.audit.tank import Tank
from interview.care.facts import assumptions
from interview.core.numeric import is_number

__all__ = ["doubt_of", "shares_of"]

_MATTERS = 0.1  # share of the variance from which a source of doubt is worth naming


def doubt_of(name: str, tank: Tank) -> tuple[Share, ...]:
    """The answers that a quantity's doubt comes from, by their share of its variance.

    A doubt of the model counts for the reading that would replace the model, where the
    care data names one (`settled_by`); other doubts of the model can't be measured away.
    """
    shares: dict[str, float] = {}
    for source, share in shares_of(name, tank).items():
        answer = _answer_to(source)
        if answer:
            shares[answer] = shares.get(answer, 0.0) + share
    ranked = sorted(shares, key=lambda answer: (-shares[answer], answer))
    return tuple(Share(n, round(min(shares[n], 1.0), 4)) for n in ranked if shares[n] >= _MATTERS)


def shares_of(name: str, tank: Tank) -> dict[str, float]:
    """Each reading and assumption behind a quantity, with its share of the variance."""
    drawn = tank.cloud.get(name)
    if drawn is None or not is_number(drawn) or np.ndim(drawn) != 1:
        return {}
    if not _varies(drawn):
        return {}
    wiring = tank.cloud.wiring
    names = wiring.upstream(name) if name in wiring.formulas else ()
    found = _uncertain(tank.cloud.known, {name, *names})
    return {source: _share(cloud, drawn) for source, cloud in found}


def _uncertain(
    known: Mapping[str, Any], names: Iterable[str]
) -> Iterable[tuple[str, NDArray[np.float64]]]:
    for name in sorted(names):
        cloud = known.get(name)
        if isinstance(cloud, np.ndarray) and cloud.ndim >= 1 and len(cloud) > 1:
            yield name, cloud


def _answer_to(name: str) -> str:
    fact = assumptions().get(name)
    return name if fact is None else fact.settled_by


def _varies(values: Any) -> bool:
    """Whether the finite draws differ; where none is finite there is nothing to differ."""
    numbers = np.asarray(values, dtype=float)
    finite = numbers[np.isfinite(numbers)]
    return bool(finite.size and finite.max() > finite.min())


def _share(cloud: NDArray[np.float64], drawn: Any) -> float:
    """Share of the variance that goes with one input: squared rank correlation."""
    columns = cloud[:, None] if cloud.ndim == 1 else cloud
    ranks = _ranks(np.asarray(drawn, dtype=float))
    shares = [
        np.corrcoef(_ranks(column), ranks)[0, 1] ** 2
        for column in columns.T
        if len(column) == len(ranks) and _varies(column)
    ]
    return float(max(shares, default=0.0))


def _ranks(values: NDArray[np.float64]) -> NDArray[np.float64]:
    ranks = np.empty(len(values))
    ranks[np.argsort(values, kind="stable")] = np.arange(len(values))
    return ranks
