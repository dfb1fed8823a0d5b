"""The search's parts against plain enumeration, and what it learns against random settings."""

from __future__ import annotations

import itertools
from functools import cache
from typing import Any

import numpy as np
import pytest
from advice_tanks import DEMOS, TANKS, audit_of
from hypothesis import given, settings
from hypothesis import strategies as st
from kept import plans_anew
from often import often

from interview.advice.levers.levers import all_levers, options_of
from interview.advice.plans.plan import Plan
from interview.advice.plans.plans import plans
from interview.advice.search import implicit_hitting_set as hitting
from interview.advice.search import scores
from interview.advice.search.bucket_elimination import Table, infeasible, least
from interview.advice.search.hitting_set import least_hitting_set
from interview.advice.search.search import Search, merged
from interview.advice.search.tables.severity_tables import SeverityTables
from interview.advice.what_if.candidates import severities
from interview.advice.what_if.suppose import changed
from interview.audit.checks.judging import judge
from interview.audit.checks.loader import all_checks
from interview.audit.checks.outcomes import SURE
from interview.audit.tank import Tank

CHECKS = tuple(check for check in all_checks() if check.id != "cycling")
TABLE_SETS = st.integers(0, 10_000)


def _tables(seed: int) -> tuple[list[Table], list[int]]:
    """Tables over three of five levers each, which have one to four settings."""
    rng = np.random.default_rng(seed)
    sizes = rng.integers(1, 5, 5).tolist()
    found: list[Table] = []
    for _ in range(rng.integers(1, 7)):
        levers = tuple(sorted(rng.choice(5, rng.integers(1, 4), replace=False).tolist()))
        found.append((levers, rng.random([sizes[n] for n in levers])))
    return found, sizes


def _all_places(tables: list[Table], sizes: list[int]) -> list[tuple[dict[int, int], list[float]]]:
    """Every place, with the value of each table there."""
    levers = sorted({n for axes, _ in tables for n in axes})
    places = itertools.product(*(range(sizes[n]) for n in levers))
    at = [dict(zip(levers, place, strict=True)) for place in places]
    return [(p, [float(t[tuple(p[n] for n in axes)]) for axes, t in tables]) for p in at]


@given(TABLE_SETS)
def test_room_is_found_where_enumeration_finds_it(seed: int) -> None:
    values, sizes = _tables(seed)
    tables: list[Table] = [(axes, value < 0.45) for axes, value in values]
    odds = infeasible(tables)
    assert bool(odds) != any(all(held) for _, held in _all_places(tables, sizes))
    few = [tables[n] for n in odds]
    assert not any(all(held) for _, held in _all_places(few, sizes)) or not few


@given(TABLE_SETS)
def test_the_least_sum_is_the_least_of_all(seed: int) -> None:
    tables, sizes = _tables(seed)
    everywhere = _all_places(tables, sizes)
    place = least(tables)
    (found,) = (sum(values) for at, values in everywhere if at == place)
    assert found == pytest.approx(min(sum(values) for _, values in everywhere))


def test_no_table_leaves_room_and_no_lever() -> None:
    assert infeasible([]) == () and least([]) == {}
    assert infeasible([((), np.array(True)), ((), np.array(False))]) == (1,)


@settings(max_examples=often(60))
@given(TABLE_SETS)
def test_the_fewest_levers_are_those_of_enumeration(seed: int) -> None:
    rng = np.random.default_rng(seed)
    costs = rng.choice([0.0, 0.1, 0.25, 1.0, 4.0, np.inf], 7).tolist()
    groups = [set(rng.choice(7, rng.integers(1, 4)).tolist()) for _ in range(rng.integers(1, 7))]
    but = [set(rng.choice(7, 2, replace=False).tolist()) for _ in range(rng.integers(0, 3))]

    def price(chosen: tuple[int, ...]) -> tuple[int, float]:
        return len(chosen), sum(costs[n] for n in chosen)

    serving = [
        chosen
        for size in range(8)
        for chosen in itertools.combinations(range(7), size)
        if all(group & set(chosen) for group in groups)
        and not any(levers <= set(chosen) for levers in but)
        and np.isfinite(price(chosen)[1])
    ]
    found = least_hitting_set(costs, groups, but)
    if not serving:
        assert found is None
    else:
        assert found in serving
        assert price(found) == pytest.approx(min(map(price, serving)))


@cache
def _crowded() -> tuple[Search, tuple[Plan, ...], list[int]]:
    """A tank with many faults, its plans, and how many sets each search looked at."""
    audit = audit_of(TANKS / "crowded.yaml")
    looks: list[int] = []
    solve, once = hitting.ImplicitHittingSet.solve, least_hitting_set

    def counting(*given: Any) -> Any:
        looks[-1] += 1
        return once(*given)

    def solved(self: hitting.ImplicitHittingSet) -> Any:
        looks.append(0)
        return solve(self)

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(hitting, "least_hitting_set", counting)
        patch.setattr(hitting.ImplicitHittingSet, "solve", solved)
        found = plans_anew(audit.tank, audit.findings)
    search = Search(audit.tank, CHECKS)
    search.mend(frozenset({"free", "cheap", "buy", "rebuild"}))
    return search, found, looks


def test_a_tank_with_many_faults_is_searched_to_the_end() -> None:
    """The search is not given up, however many faults lean on each other."""
    _, found, looks = _crowded()
    assert max(looks) < hitting._MOST_LOOKS
    assert sum(looks) < 100  # 169 where a conflict that comes again is noted as it is
    last = found[-1]
    assert len([change for change in last.changes if change.say]) >= 8
    assert last.grades.overall == "A"
    assert {finding.check for finding in last.left} <= {"nitrate_today"}
    assert "heater_cutout" in {change.quantity for change in last.changes}


def test_what_the_search_learns_is_so() -> None:
    """Levers that answer no conflict, in settings drawn at random, never mend its checks."""
    search, _, _ = _crowded()
    tables = search.tables
    rng = np.random.default_rng(7)
    assert len(tables.conflicts) > 20
    for conflict in tables.conflicts:
        goals = np.array(conflict.goals)
        checks = [tables.checks[c] for c in conflict.checks]
        reaching = np.flatnonzero(tables.reach[:, list(conflict.checks)].any(axis=1))
        others = [n for n in reaching.tolist() if n not in conflict.answers]
        for _ in range(12):
            options = [tables.options[n][int(rng.integers(len(tables.options[n])))] for n in others]
            after = severities(search.tank, checks, [merged(options)])[0]
            assert (after > goals).any(), conflict


def test_copies_of_draws_are_draws_still() -> None:
    """A few of them may leave what a formula holds for, side by side as by themselves."""
    few = scores.thinned(_crowded()[0].tank.sample)
    three = scores._repeated(few, 3)
    assert few.draws and three.draws
    drawn = [name for name, value in few.known.items() if np.shape(value) == (scores._DRAWS,)]
    assert len(drawn) > 10
    for name in drawn:
        assert np.array_equal(three.known[name], np.tile(few.known[name], 3))
    assert scores._repeated(few, 1) is few


def test_of_equal_plans_the_surer_one_is_taken() -> None:
    """A controller and two smaller heaters cost the same; these may be too weak."""
    faults = {"cover_water": "none", "heater_power": "300 W", "heater_cutout": "no"}
    audit = audit_of(DEMOS / "musk_turtle.yaml", faults)
    proper = plans(audit.tank, audit.findings)[-1]
    settings = {change.quantity: change.after for change in proper.changes}
    assert settings.pop("heater_cutout") is True and "heater_power" not in settings
    (lever,) = (lever for lever in all_levers() if lever.name == "two_heaters")
    sizes = [option.changes for option in options_of(lever, audit.tank)]
    assert len(sizes) > 3
    taken = _chance(changed(audit.tank, settings | {"heater_cutout": True}))
    others = [_chance(changed(audit.tank, {**settings, **size})) for size in sizes]
    assert min(others) < taken and max(others) <= taken


def _chance(tank: Tank) -> float:
    """The chance that a check is good, no more than a verdict asks for, summed by weight."""
    found = [(check, judge(check, tank)) for check in CHECKS]
    return sum(check.weight * min(f.chance or 0.0, SURE) for check, f in found if f.applies)


def test_tables_are_made_once_where_no_step_brings_another_lever(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    made: list[Tank] = []
    first = SeverityTables.__init__

    def counted(self: SeverityTables, tank: Tank, *rest: Any) -> None:
        made.append(tank)
        first(self, tank, *rest)

    monkeypatch.setattr(SeverityTables, "__init__", counted)
    audit = audit_of(DEMOS / "river_cooter_adult.yaml")
    assert plans_anew(audit.tank, audit.findings)
    assert len(made) == 1
