"""Brute force on tanks with many faults: no single lever and no pair does what the search says.

The witness knows nothing of conflicts or elimination: it tries settings through the core.
"""

from __future__ import annotations

import itertools
import random
from collections.abc import Iterator
from functools import cache
from typing import Any

import numpy as np
import pytest
import yaml
from advice_tanks import TANKS, TESTS, tank_of
from test_plans import CHECKS, BruteForce

from interview.advice.levers.lever import Lever, Option
from interview.advice.levers.levers import all_levers, cost_of, options_of
from interview.advice.search.mend import Mend
from interview.advice.search.search import Search, merged
from interview.advice.what_if.candidates import severities
from interview.advice.what_if.severity import DANGER, OPEN
from interview.audit.tank import Tank

COSTS = frozenset({"free", "cheap", "buy"})
SLIPS: list[dict[str, Any]] = [
    row["change"]
    for row in yaml.load((TESTS / "setups_bad.yaml").read_text("utf-8"), yaml.BaseLoader)
    if "animals" not in row["change"] and "tank_size" not in row["change"]
]
SEEDS = (2, 3, 5, 7, 11, 13, 17, 19, 23, 29)


@cache
def _searched(seed: int) -> Search:
    """The base tank with some twelve slips at once; of two that contradict, the later."""
    dice, change = random.Random(seed), dict[str, Any]()
    for slip in dice.sample(SLIPS, 12):
        change |= slip
    while True:
        try:
            tank = tank_of(TANKS / "base.yaml", change)
        except ValueError as problem:  # an answer that another forbids goes
            change.pop(str(problem).split()[0])
        else:
            return Search(tank, CHECKS)


@cache
def _whole(seed: int) -> Mend:
    return _searched(seed).mend(COSTS)


def test_the_tanks_have_many_faults() -> None:
    faults = [int((_searched(seed).tables.base > OPEN).sum()) for seed in SEEDS]
    assert min(faults) >= 6 and np.mean(faults) > 9, faults


@pytest.mark.parametrize("seed", SEEDS)
def test_no_single_and_no_pair_ends_the_dangers_for_less(seed: int) -> None:
    search = _searched(seed)
    mend = search.against_dangers(COSTS)
    dangers = search.tables.base >= DANGER
    if mend is None:
        whole = _whole(seed).options
        after_others = {o.lever.name for o in whole} - {
            lever.name for lever in search.tables.levers
        }
        assert (
            not dangers.any()
            or (search.tables.severities_with(whole) >= DANGER).any()
            or after_others  # as a heater's dial, once the plan has bought the heater
        )
        return
    after = severities(search.tank, CHECKS, [merged(mend.options)])[0]
    brute = BruteForce(search.tank, set(COSTS), np.where(dangers, after, search.tables.base))
    size = len(mend.options)
    for smaller in range(1, min(size, 3)):
        for chosen in brute.sets(smaller, np.inf):
            assert not brute.works(chosen), f"fewer: {brute.names(chosen)}"
    if size < 3:
        for chosen in brute.sets(size, mend.cost):
            assert not brute.works(chosen), f"cheaper: {brute.names(chosen)}"


@pytest.mark.parametrize("seed", SEEDS)
def test_no_step_is_spared_and_no_pair_is_done_by_one(seed: int) -> None:
    """Each step, and each two, of the whole plan against every other lever in every setting."""
    tank, options = _searched(seed).tank, _whole(seed).options
    base = severities(tank, CHECKS, [{}])[0]
    goals = np.maximum(severities(tank, CHECKS, [merged(options)])[0], OPEN)
    goals = np.where(goals < base, goals, np.maximum(goals, base))
    others = list(_others(tank, options))
    for gone in itertools.chain(
        itertools.combinations(options, 1), itertools.combinations(options, 2)
    ):
        kept = merged(o for o in options if o not in gone)
        failing = np.flatnonzero(severities(tank, CHECKS, [kept])[0] > goals).tolist()
        assert failing, f"spared: {[o.lever.name for o in gone]}"
        price = sum(cost_of(option.lever) for option in gone)
        for lever, settings in others:
            fewer = len(gone) == 2 or cost_of(lever) < price - 1e-9
            if fewer and any(lever.meant_for(CHECKS[c].id) for c in failing):
                rows = [{**kept, **option.changes} for option in settings]
                works = _working(tank, rows, goals, failing)
                left = [o for o in options if o not in gone]
                used = [row for row in works if _each_meant(tank, row, left, goals)]
                assert not used, ([o.lever.name for o in gone], lever.name)


def _others(tank: Tank, options: tuple[Option, ...]) -> Iterator[tuple[Lever, list[Option]]]:
    """The levers a plan leaves alone, with all their settings."""
    used = {option.lever.name for option in options}
    for lever in all_levers():
        if lever.cost in COSTS and lever.name not in used:
            settings = list(options_of(lever, tank))
            if settings:
                yield lever, settings


def _working(
    tank: Tank, rows: list[dict[str, Any]], goals: Any, first: list[int]
) -> list[dict[str, Any]]:
    """The rows that bring every check to its goal; those that failed are looked at first."""
    for check in (*first, *(c for c in range(len(CHECKS)) if c not in first)):
        found = severities(tank, [CHECKS[check]], rows)[:, 0] if rows else []
        rows = [row for row, one in zip(rows, found, strict=True) if one <= goals[check]]
    return rows


def _each_meant(tank: Tank, row: dict[str, Any], left: list[Option], goals: Any) -> bool:
    """Whether each lever that a keeper would use for some checks only serves one of these."""
    for option in left:
        if option.lever.only_for:
            without = {n: v for n, v in row.items() if n not in option.changes}
            failing = np.flatnonzero(severities(tank, CHECKS, [without])[0] > goals)
            if not any(option.lever.meant_for(CHECKS[c].id) for c in failing):
                return False
    return True
