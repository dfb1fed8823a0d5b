"""Levers, checks and levels made up at random, small enough to look at every setting of all."""

from __future__ import annotations

from collections.abc import Sequence
from types import SimpleNamespace
from typing import Any

import numpy as np

from interview.advice.levers.lever import Lever, Option
from interview.advice.search.budget import Budget
from interview.advice.search.search import Search
from interview.advice.search.tables.compact import Compact

__all__ = ["MadeScores", "MadeTables", "made_search"]

COSTS = {"free": 1.0, "cheap": 2.0, "buy": 5.0, "rebuild": 20.0}
_LEVELS = (0, 0, 1, 2, 3, 3, 4, 5, 5, 6)


class MadeTables:
    """What the search asks of the tables of a tank, of levels drawn by dice."""

    def __init__(self, seed: int, sizes: tuple[int, int] = (2, 4)) -> None:
        rng, levers, checks = np.random.default_rng(seed), 5, 5
        kinds = rng.choice(list(COSTS), levers).tolist()
        self.levers = [
            Lever(f"lever_{n}", kind, COSTS[kind] + n % 2, "", trade_sizes=bool(rng.random() < 0.5))
            for n, kind in enumerate(kinds)
        ]
        self.options = [
            tuple(Option(lever, {lever.name: k} if k else {}, float(k)) for k in range(size))
            for lever, size in zip(self.levers, rng.integers(*sizes, levers).tolist(), strict=True)
        ]
        self.checks = tuple(
            SimpleNamespace(id=f"check_{c}", weight=int(rng.integers(1, 4)), section="one")
            for c in range(checks)
        )
        self.reach = rng.random((levers, checks)) < 0.5
        self._whole = [
            rng.choice(_LEVELS, self._shape(self.axes(c))).astype(np.int8) for c in range(checks)
        ]
        self.base = self.at({})
        self.hubs: tuple[int, ...] = (0,) if rng.random() < 0.3 else ()
        self.conflicts: list[Any] = []
        self.looks, self.told = 0, 0
        self.wide = bool(rng.random() < 0.5)

    def axes(self, check: int) -> tuple[int, ...]:
        """The levers that reach a check."""
        return tuple(np.flatnonzero(self.reach[:, check]).tolist())

    def _shape(self, chosen: Sequence[int]) -> list[int]:
        return [self.count(n) for n in chosen]

    def at(self, place: dict[int, int]) -> Any:
        """Every check's level where these levers take these settings and the others none."""
        found = [w[tuple(place.get(n, 0) for n in self.axes(c))] for c, w in enumerate(self._whole)]
        return np.array(found, dtype=np.int8)

    def everywhere(self) -> tuple[Any, Any]:
        """Every way to set all levers, a row each, and every check's level there."""
        sizes = self._shape(range(len(self.levers)))
        places = np.indices(sizes).reshape(len(sizes), -1).T
        levels = [w[tuple(places[:, n] for n in self.axes(c))] for c, w in enumerate(self._whole)]
        return places, np.stack([np.broadcast_to(each, len(places)) for each in levels], axis=1)

    def place_of(self, options: Sequence[Option]) -> dict[int, int]:
        """The number of each option's lever, and of its setting."""
        numbers = [self.levers.index(option.lever) for option in options]
        return {n: self.options[n].index(o) for n, o in zip(numbers, options, strict=True)}

    def count(self, lever: int) -> int:
        """How many settings the lever has."""
        return len(self.options[lever])

    def compact(self, check: int, chosen: Sequence[int]) -> Compact:
        """The levels over some levers, the others as they are."""
        axes = self.axes(check)
        assert set(chosen) <= set(axes)
        cells = self._whole[check][tuple(slice(None) if n in chosen else 0 for n in axes)]
        return Compact.of(cells, [np.arange(self.count(n)) for n in chosen])

    def small_with(self, *_: object) -> bool:
        """Whether conflicts may be widened."""
        return self.wide

    def severities_with(self, options: Sequence[Option]) -> Any:
        """Every check's level after these options."""
        return self.at(self.place_of(options))


class MadeScores:
    """A score for every way to set the levers, by dice."""

    def __init__(self, tables: MadeTables, seed: int) -> None:
        self.tables = tables
        self._dice = np.random.default_rng(seed).random([tables.count(n) for n in range(5)])

    def of(self, place: dict[int, int]) -> float:
        """The score of one way."""
        return float(self._dice[tuple(place.get(n, 0) for n in range(5))])

    def level(self) -> None:
        """All ways are as sure."""
        self._dice[:] = 0.5

    def __call__(self, checks: Sequence[int], candidates: Sequence[Sequence[Option]]) -> Any:
        """The scores of several."""
        assert list(checks) == sorted(set(checks))
        chosen = [[o for o in options if o.changes] for options in candidates]
        return np.array([self.of(self.tables.place_of(options)) for options in chosen])


def made_search(seed: int, budget: Budget | None = None) -> tuple[Search, MadeTables]:
    """A search over made tables that wants most of the checks right, and no lever beyond them."""
    tables = MadeTables(seed)
    rng = np.random.default_rng([seed, 1])
    wanted = frozenset(check.id for check in tables.checks if rng.random() < 0.8)
    tank: Any = None
    search = Search(tank, tables.checks, wanted, budget)  # type: ignore[arg-type]
    vars(search).update(
        tables=tables, _scores=MadeScores(tables, seed), _with_more_levers=lambda first, _: first
    )
    return search, tables
