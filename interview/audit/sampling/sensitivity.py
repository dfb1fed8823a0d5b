"""Which answers the doubt about a quantity comes from, and how much of it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from interview.audit.tank import Tank
from interview.care.facts import assumptions
from interview.core.numeric import is_number

__all__ = ["Sensitivity", "doubt_of", "sensitivities"]


@dataclass(frozen=True)
class Sensitivity:
    """An answer, and its share of the variance of what a check measures."""

    quantity: str
    share: float


_MATTERS = 0.1  # share of the variance from which a source of doubt is worth naming


def doubt_of(name: str, tank: Tank) -> tuple[Sensitivity, ...]:
    """The answers that a quantity's doubt comes from, by their share of its variance.

    A doubt of the model counts for the reading that would replace the model, where the
    care data names one (`settled_by`); other doubts of the model can't be measured away.
    """
    shares: dict[str, float] = {}
    for source, share in sensitivities(name, tank).items():
        answer = _answer_to(source)
        if answer:
            shares[answer] = shares.get(answer, 0.0) + share
    ranked = sorted(shares, key=lambda answer: (-shares[answer], answer))
    return tuple(
        Sensitivity(n, round(min(shares[n], 1.0), 4)) for n in ranked if shares[n] >= _MATTERS
    )


def sensitivities(name: str, tank: Tank) -> dict[str, float]:
    """Each reading and assumption behind a quantity, with its share of the variance."""
    drawn = tank.sample.get(name)
    if drawn is None or not is_number(drawn) or np.ndim(drawn) != 1:
        return {}
    if not _varies(drawn):
        return {}
    wiring = tank.sample.wiring
    names = wiring.upstream(name) if name in wiring.formulas else ()
    found = _uncertain(tank.sample.known, {name, *names})
    ranks = _ranks(np.asarray(drawn, dtype=float))
    return {source: _share(sample, ranks) for source, sample in found}


def _uncertain(
    known: Mapping[str, Any], names: Iterable[str]
) -> Iterable[tuple[str, NDArray[np.float64]]]:
    for name in sorted(names):
        sample = known.get(name)
        if isinstance(sample, np.ndarray) and sample.ndim >= 1 and len(sample) > 1:
            yield name, sample


def _answer_to(name: str) -> str:
    fact = assumptions().get(name)
    return name if fact is None else fact.settled_by


def _varies(values: Any) -> bool:
    """Whether the finite draws differ; where none is finite there is nothing to differ."""
    numbers = np.asarray(values, dtype=float)
    finite = numbers[np.isfinite(numbers)]
    return bool(finite.size and finite.max() > finite.min())


def _share(sample: NDArray[np.float64], ranks: NDArray[np.float64]) -> float:
    """Share of the variance that goes with one input: squared correlation of the ranks."""
    columns = sample[:, None] if sample.ndim == 1 else sample
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
