"""Which answers the doubt about a quantity comes from, and how much of it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any, TypeAlias
from weakref import WeakKeyDictionary, ref

import numpy as np
from numpy.typing import NDArray

from interview.audit.tank import Tank
from interview.care.facts import assumptions
from interview.core.numeric import is_number
from interview.core.working import Working

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


def sensitivities(name: str, tank: Tank) -> Mapping[str, float]:
    """Each reading and assumption behind a quantity, with its share of the variance."""
    found = _found.setdefault(tank.sample, {})
    if name not in found:
        found[name] = _shares(name, tank.sample)
    return found[name]


_Ranks: TypeAlias = NDArray[np.float64]
_found: WeakKeyDictionary[Working, dict[str, dict[str, float]]] = WeakKeyDictionary()
"""The shares of each sample: findings and pages ask for the same again and again."""
_ranked: dict[int, tuple[ref[_Ranks], tuple[_Ranks, ...]]] = {}
"""By the id of an array of draws it and the ranks of its columns: a changed tank shares most."""


def _shares(name: str, sample: Working) -> dict[str, float]:
    drawn = sample.get(name)
    if drawn is None or not is_number(drawn) or np.ndim(drawn) != 1:
        return {}
    if not _varies(drawn):
        return {}
    upstream = sample.wiring.upstream(name) if name in sample.wiring.formulas else ()
    ranks = _ranks(np.asarray(drawn, dtype=float))
    shares: dict[str, float] = {}
    for source, draws in _uncertain(sample.known, {name, *upstream}):
        found = [_share(each, ranks) for each in _columns_of(draws) if len(each) == len(ranks)]
        shares[source] = max(found, default=0.0)
    return shares


def _columns_of(draws: _Ranks) -> tuple[_Ranks, ...]:
    """The ranks of draws, of each animal's; none of those that don't vary."""
    key = id(draws)
    if key not in _ranked:
        each = draws[:, None] if draws.ndim == 1 else draws
        columns = tuple(_ranks(column) for column in each.T if _varies(column))
        _ranked[key] = ref(draws, lambda _: _ranked.pop(key, None)), columns
    return _ranked[key][1]


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


def _share(one: _Ranks, other: _Ranks) -> float:
    """Share of the variance that goes with one input: squared correlation of the ranks."""
    count = len(one)
    mean, variance = (count - 1) / 2, (count**2 - 1) / 12  # of the ranks 0 to count - 1
    return float((one @ other / count - mean * mean) / variance) ** 2


def _ranks(values: NDArray[np.float64]) -> _Ranks:
    ranks = np.empty(len(values))
    ranks[np.argsort(values, kind="stable")] = np.arange(len(values))
    return ranks
