"""The search over tanks made up by dice, against a look at every setting of every lever."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from typing import Any

import numpy as np
import pytest
from made_tables import COSTS, MadeScores, MadeTables, made_search

from interview.advice.search import robust_settings as robust
from interview.advice.search.budget import Budget
from interview.advice.search.implicit_hitting_set import ImplicitHittingSet
from interview.advice.search.mend import Mend
from interview.advice.search.robust_settings import most_robust, robust_settings
from interview.advice.what_if.severity import CLOSE, DANGER, OPEN, WORSE, WRONG

SEEDS = range(60)
_TOGETHER = 3
"""Levers that are tried together on one check, to see how far it can be brought."""


class _ByHand:
    """What the search should find, by plain enumeration; the rules as its docstrings say them."""

    def __init__(
        self, tables: MadeTables, wanted: Iterable[str], costs: Iterable[str], floor: Any = None
    ) -> None:
        self.tables, self.base, self.floor = tables, tables.base, floor
        self.asked = [c for c, check in enumerate(tables.checks) if check.id in set(wanted)]
        self.allowed = [n for n in range(len(tables.levers)) if self._may(n, set(costs))]
        places, levels = tables.everywhere()
        others = [n for n in range(len(tables.levers)) if n not in self.allowed]
        may = ~places[:, others].any(axis=1)
        self.places, self.levels = places[may], levels[may]
        prices = np.array([lever.price for lever in tables.levers])
        self.prices = (self.places > 0).sum(axis=1) * 1e3 + (self.places > 0) @ prices
        self.today = np.maximum(self.base, OPEN)

    def _may(self, lever: int, costs: set[str]) -> bool:
        """Nobody rebuilds but for what is wrong; a tank also for what is close beside it."""
        one = self.tables.levers[lever]
        if one.cost != "rebuild" or one.cost not in costs:
            return one.cost in costs
        worst = max((self.base[c] for c in self.asked), default=0)
        least = CLOSE if one.trade_sizes and worst >= WRONG else WRONG
        return any(self.base[c] >= least and self.tables.reach[lever, c] for c in self.asked)

    def meeting(self, goals: Any) -> Any:
        """Which places meet the goals."""
        return (self.levels <= goals).all(axis=1)

    def alone(self, check: int) -> int:
        """How far up to three levers bring one check; no further than that it needs no change."""
        others = [n for n in range(len(self.tables.levers)) if not self.tables.reach[n, check]]
        near = ~self.places[:, others].any(axis=1) & ((self.places > 0).sum(axis=1) <= _TOGETHER)
        return min(int(self.base[check]), max(int(self.levels[near, check].min()), OPEN))

    def alone_by(self, lever: int, check: int) -> int:
        """How far one lever brings one check."""
        return int(self.levels[self.only(np.zeros(len(self.tables.levers)), lever), check].min())

    def only(self, levers: Any, more: int) -> Any:
        """The places at which no lever is used but these, and one more."""
        others = [n for n, used in enumerate(levers) if not used and n != more]
        return ~self.places[:, others].any(axis=1)

    def goals(self, only: Sequence[int] | None, grave: bool) -> Any:
        """How far everything is brought: together where it can be, else the gravest first."""
        kept = self.today
        if self.floor is not None:
            kept = np.minimum(kept, np.maximum(self.floor, OPEN))
        before = self.today if grave else kept
        wanted = before.copy()
        for c in self.asked if only is None else only:
            if only is not None or before[c] >= CLOSE:
                wanted[c] = self.alone(c)
        if not grave and self.meeting(wanted).any():
            return wanted
        if grave:
            kept = np.where(self.today >= DANGER, self.today, WORSE)
        goals = kept if self.floor is None or self.meeting(kept).any() else self.today
        weights = [check.weight for check in self.tables.checks]
        left = [c for c in range(len(goals)) if wanted[c] < goals[c]]
        for c in sorted(left, key=lambda c: (goals[c] < DANGER, -weights[c], -goals[c], c)):
            for level in range(wanted[c], goals[c]):
                tried = goals.copy()
                tried[c] = level
                if self.meeting(tried).any():
                    goals = tried
                    break
        return goals

    def cheapest(self, goals: Any) -> Any:
        """Which places meet the goals with the fewest and cheapest changes."""
        meeting = self.meeting(goals)
        return meeting & (self.prices <= self.prices[meeting].min() + 1e-9)

    def row(self, options: Any) -> int:
        """Which place the options are."""
        place = self.tables.place_of(options)
        assert all(place.values())
        at = [place.get(n, 0) for n in range(len(self.tables.levers))]
        (found,) = np.flatnonzero((self.places == at).all(axis=1))
        return int(found)


def _way_taken(by_hand: _ByHand, options: Any, only: Sequence[int] | None = None) -> str:
    """Whether what is no danger got worse to end one, which only ending more of them allows."""
    best = [by_hand.cheapest(by_hand.goals(only, grave=grave)) for grave in (False, True)]
    taken = by_hand.row(options)
    ways = [way for way, places in zip(("kind", "grave"), best, strict=True) if places[taken]]
    assert ways, "neither way is met with as few and as cheap changes as can be"
    dangers = (by_hand.levels >= DANGER).sum(axis=1)
    kind, grave = (dangers[places] for places in best)
    if grave.max() < kind.min():
        assert "grave" in ways
    elif kind.max() <= grave.min():
        assert "kind" in ways
    return ways[0]


SOME, ALL = frozenset({"free", "cheap"}), frozenset(COSTS)


@pytest.mark.parametrize("costs", [SOME, ALL], ids=["some", "all"])
def test_the_mend_is_that_of_enumeration(costs: frozenset[str]) -> None:
    seen: Counter[str] = Counter()
    for seed in SEEDS:
        search, tables = made_search(seed)
        mend = search.mend(costs)
        by_hand = _ByHand(tables, search.wanted, costs)
        way = _way_taken(by_hand, mend.options)
        seen[way] += 1
        after = tables.severities_with(mend.options)
        left = [tables.checks[c].id for c in by_hand.asked if after[c] >= CLOSE]
        assert list(mend.left) == left and mend.proven
        seen["clashes"] += _clashes(by_hand, mend, by_hand.goals(None, grave=way == "grave"))
    assert min(seen[each] for each in ("kind", "grave", "clashes")) >= 5, "all of it is tried"


def _clashes(by_hand: _ByHand, mend: Mend, goals: Any) -> int:
    """How many of the clashes named are so: with one lever more that mends what is left, the
    checks named can't all reach their goals. Where other levers serve as well, none is counted."""
    sets = np.unique(by_hand.places[by_hand.cheapest(goals)] > 0, axis=0)
    if len(sets) > 1:
        return 0
    names = [check.id for check in by_hand.tables.checks]
    for clash in mend.against:
        check, *others = map(names.index, clash)
        assert clash[0] in mend.left and others and check not in others
        wanted = goals.copy()
        wanted[check] = OPEN
        mending = [n for n in by_hand.allowed if by_hand.alone_by(n, check) < CLOSE]
        assert any(
            not (by_hand.levels[by_hand.only(sets[0], n)] <= wanted)[:, [check, *others]]
            .all(axis=1)
            .any()
            for n in mending
        )
    return len(mend.against)


def test_what_a_cheaper_plan_mends_is_mended_by_the_next_one_too() -> None:
    further = 0
    for seed in SEEDS:
        search, tables = made_search(seed)
        cheap = search.mend(SOME).options
        floor = tables.severities_with(cheap)
        mend = search.mend(ALL, cheap)
        _way_taken(_ByHand(tables, search.wanted, ALL, floor), mend.options)
        further += bool(mend.options != cheap and cheap)
    assert further > 5


def test_dangers_are_ended_for_their_own_sake_by_the_least_that_does() -> None:
    ended: Counter[bool] = Counter()
    for seed in SEEDS:
        search, tables = made_search(seed)
        by_hand = _ByHand(tables, search.wanted, SOME)
        today = [c for c in by_hand.asked if tables.base[c] >= DANGER]
        mend = search.against_dangers(SOME)
        ended[mend is not None] += 1
        if mend is None:
            goals = (by_hand.goals(today, grave=grave) for grave in (False, True))
            least = [by_hand.levels[by_hand.cheapest(g)] for g in goals] if today else []
            assert all((_dangers(levels) >= len(today)).any() for levels in least)
        else:
            assert _dangers(tables.severities_with(mend.options)) < len(today) and not mend.against
            _way_taken(by_hand, mend.options, today)
            fewest = search.ending(mend.options)
            after = [_dangers(tables.severities_with(o)) for o in (mend.options, fewest)]
            assert after[1] <= after[0]
            without = [tuple(o for o in fewest if o is not one) for one in fewest]
            assert all(_dangers(tables.severities_with(o)) > after[0] for o in without)
    assert min(ended.values()) > 5


def _dangers(levels: Any) -> Any:
    return (levels >= DANGER).sum(axis=-1)


def test_a_search_that_is_cut_off_says_so_and_spends_no_more() -> None:
    """What is proven all the same is as small and as cheap as without an end."""
    cut = 0
    for seed in SEEDS:
        whole, _ = made_search(seed)
        budget = Budget(steps=2000)
        mend = made_search(seed, budget)[0].mend(ALL)
        assert budget._left > -250, "one try more, at most"
        if mend.proven:
            best = whole.mend(ALL)
            assert (len(mend.options), mend.cost) == (len(best.options), best.cost)
        cut += not mend.proven
        at_once = made_search(seed, Budget(steps=1))[0].mend(ALL)
        assert not at_once.against, "why nothing helps is not looked for either"
    assert 5 < cut < len(SEEDS) - 5


def test_what_is_needed_of_many_changes_is_what_something_wanted_asks_for() -> None:
    """The dearest is tried first; what is not wanted may not get worse than today either."""
    spared = 0
    for seed in SEEDS:
        search, tables = made_search(seed)
        every = tuple(options[-1] for options in tables.options)
        needed = search.needed(every)
        whole = tables.severities_with(every)
        spared += len(every) - len(needed)
        asked = np.array([check.id in search.wanted for check in tables.checks])
        today = np.maximum(tables.base, OPEN)
        good = np.where(asked, np.maximum(whole, OPEN), np.maximum(whole, today))
        assert (tables.severities_with(needed) <= good).all()
        only = search.with_only(Mend(every, ()), needed)
        left = tables.severities_with(needed)
        assert only.options == needed and list(only.left) == [
            check.id
            for check, level in zip(tables.checks, left, strict=True)
            if check.id in search.wanted and level >= CLOSE
        ]
        dearest = max(every, key=lambda option: option.lever.price)
        rest = tuple(option for option in every if option is not dearest)
        if (tables.severities_with(rest) <= good).all():
            assert dearest not in needed
    assert spared > 5


def _one_lever(seed: int) -> tuple[ImplicitHittingSet, MadeScores, MadeTables, Any]:
    """A search for goals that a lever alone meets, which lever, and where it does."""
    tables = MadeTables(seed, sizes=(4, 6))
    goals = np.maximum(tables.base, CLOSE).astype(np.int8)
    hitting: Any = ImplicitHittingSet(tables, range(5), goals)  # type: ignore[arg-type]
    return hitting, MadeScores(tables, seed), tables, goals


def test_the_setting_is_the_nearest_of_those_that_leave_most_room() -> None:
    moved = 0
    for seed in SEEDS:
        hitting, scores, tables, goals = _one_lever(seed)
        lever = seed % 5
        settings = range(tables.count(lever))
        held = [k for k in settings if (tables.at({lever: k}) <= goals).all()]
        toll = robust._TOLL if lever in tables.hubs else 0.0
        score = {k: scores.of({lever: k}) - toll * k for k in held}
        best = min(k for k in held if score[k] >= max(score.values()) - robust._ALIKE)
        found = robust_settings(scores, hitting, (lever,))  # type: ignore[arg-type]
        assert tables.place_of(found) == ({lever: best} if best else {})
        moved += best > min(held)
    assert moved > 5


def test_where_all_settings_are_as_sure_the_least_movement_is_taken() -> None:
    """A hub, as the water line, stays as near as it can, whatever the others then have to do."""
    moved = 0
    for seed in SEEDS:
        hitting, scores, tables, _ = _one_lever(seed)
        goals = np.where(np.arange(5) == seed % 5, OPEN, hitting.goals).astype(np.int8)
        hitting = ImplicitHittingSet(tables, range(5), goals)  # type: ignore[arg-type]
        places, levels = tables.everywhere()
        held = places[(levels <= goals).all(axis=1)]
        if not len(held):
            continue
        scores.level()
        weights = np.where(np.isin(np.arange(5), tables.hubs), 1e3, 1.0)
        found = tables.place_of(robust_settings(scores, hitting, tuple(range(5))))  # type: ignore[arg-type]
        steps = sum(weights[n] * k for n, k in found.items())
        assert steps == (held @ weights).min()
        moved += bool(found)
    assert moved > 5


def test_of_several_sets_of_settings_the_surest_is_taken() -> None:
    tables = MadeTables(1)
    scores: Any = MadeScores(tables, 1)
    sets = [tuple(o[-1] for o in tables.options[n:]) for n in range(4)]
    found = most_robust(scores, sets)
    assert scores.of(tables.place_of(found)) == max(scores.of(tables.place_of(s)) for s in sets)
    assert most_robust(scores, sets[:1]) is sets[0]


@pytest.mark.parametrize(("looks", "told", "steps"), [(0, 0, 0), (3, 0, 240), (1, 2_100, 90)])
def test_large_tables_are_paid_for_by_the_next_try(looks: int, told: int, steps: int) -> None:
    """A tank with two dozen faults spent half a minute in tables of millions of levels, unpaid."""
    tables, budget = MadeTables(2), Budget(steps=10_000)
    hitting = ImplicitHittingSet(tables, range(5), np.full(5, 6, dtype=np.int8), budget)
    hitting.conflict_of(())
    left = budget.part(1.0)._left
    tables.looks, tables.told = looks, told
    hitting.conflict_of(())
    hitting.conflict_of(())
    assert left - budget.part(1.0)._left == steps + 2 * 120
