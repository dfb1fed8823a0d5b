"""The search keeps few changed tanks worked out; how many changes nothing of what it finds."""

from __future__ import annotations

import itertools
from functools import cache

import numpy as np
import pytest

from interview import assembly, setups
from interview.advice.levers.levers import Option, all_levers
from interview.advice.search.bucket_elimination import infeasible, least
from interview.advice.search.tables import groups, severity_tables
from interview.advice.search.tables.compact import Compact, in_kinds
from interview.advice.search.tables.groups import Group, in_groups
from interview.advice.search.tables.severity_tables import SeverityTables, _moved_by, merged
from interview.advice.what_if.candidates import severities
from interview.audit.checks.loader import all_checks
from interview.audit.tank import Tank
from interview.base.places import demo_folder
from interview.core import remembered

TABLE_SEEDS = range(40)
_LEVER = all_levers()[0]
_SETTINGS = [("glass", 0.1), ("mesh", 0.2), ("glass", 0.3), ("glass", 0.4), ("mesh", 0.5)]


@cache
def _classroom() -> Tank:
    interview = assembly.new_interview()
    path = demo_folder() / "painted_turtles_classroom.yaml"
    setups.fill(interview, setups.read(path, interview.questionnaire))
    return assembly.audit_of(interview, "").tank


@cache
def _whole() -> tuple[SeverityTables, list[np.ndarray]]:
    tables = SeverityTables(_classroom(), all_checks())
    return tables, _every_pair(tables)


def _every_pair(tables: SeverityTables) -> list[np.ndarray]:
    found = []
    for check in range(len(tables.checks)):
        levers = np.flatnonzero(tables.reach[:, check]).tolist()[:4]
        found += [tables.table(check, pair) for pair in itertools.combinations(levers, 2)]
    return found


def test_tables_are_the_same_however_few_are_kept(monkeypatch: pytest.MonkeyPatch) -> None:
    whole, many = _whole()
    monkeypatch.setattr(severity_tables, "_MOST_KEPT", 3)
    monkeypatch.setattr(remembered, "_MOST_RESULTS", 50)
    bounded = SeverityTables(_classroom(), all_checks())
    few = _every_pair(bounded)
    assert len(many) > 50
    assert all(np.array_equal(one, other) for one, other in zip(many, few, strict=True))
    assert len(bounded._after) == 3 < len(whole._after) / 4


def test_settings_side_by_side_are_judged_as_each_alone() -> None:
    """Numbers lie along an axis for each lever; a lever whose axis arrays can't have goes alone."""
    (tables, _), rows = _whole(), np.random.default_rng(7)
    for check, shown in enumerate(tables.checks):
        levers = tuple(np.flatnonzero(tables.reach[:, check]).tolist()[:3])
        table = tables.table(check, levers)
        for _ in range(3):
            place = tuple(int(rows.integers(length)) for length in table.shape)
            options = [tables.options[n][k] for n, k in zip(levers, place, strict=True) if k]
            alone = severities(_classroom(), [shown], [merged(options)])[0, 0]
            assert table[place] == alone, (shown.id, options)


def test_settings_judged_one_by_one_are_as_those_judged_at_once(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """So it is where some of them end a formula; here it is done for all."""
    whole, _ = _whole()
    monkeypatch.setattr(SeverityTables, "_look", lambda *_: None)
    alone = SeverityTables(_classroom(), all_checks())
    looked_at = 0
    for check in range(0, len(alone.checks), 6):
        levers = tuple(np.flatnonzero(alone.reach[:, check]).tolist()[1:3])
        sizes = [alone.count(n) for n in levers]
        if np.prod(sizes) < 400:
            assert np.array_equal(alone.table(check, levers), whole.table(check, levers))
            looked_at += len(levers) == 2
    assert looked_at > 2


def test_a_lever_more_than_arrays_have_axes_stands_alone(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(groups, "_MOST_AXES", 2)
    narrow = _every_pair(SeverityTables(_classroom(), all_checks()))
    assert all(np.array_equal(one, other) for one, other in zip(_whole()[1], narrow, strict=True))


def test_groups_follow_words_and_numbers_lie_along_their_axes() -> None:
    words = [Option(_LEVER, {"lid": lid, "line": line}, 0.0) for lid, line in _SETTINGS]
    lines = [Option(_LEVER, {"line": line}, 0.0) for line in (1.0, 2.0, 3.0)]
    axes, found = in_groups([words, [Option(_LEVER, {}, 0.0)], lines])
    assert axes == {0: -2, 2: -1}
    first, second = found[0]
    assert first.rows == (0, 2, 3) and second.rows == (1, 4)
    assert first.changes["lid"] == "glass" and np.shape(first.changes["line"]) == (3, 1)
    assert second.changes["line"].ravel().tolist() == [0.2, 0.5]
    assert np.shape(found[2][0].changes["line"]) == (3,)
    assert not found[1][0].changes


def test_of_levers_that_set_the_same_the_last_one_counts() -> None:
    """Another setting of those before it is no other tank, so nothing is looked at for it."""
    line = Group(1, (1,), {"line": 1.0})
    both = Group(2, (1,), {"line": 2.0, "lid": "glass"})
    still, lid = Group(0, (0,), {}), Group(1, (1,), {"lid": "mesh"})
    assert _moved_by((4, 7), (line, both)) == ((7, 2),)
    assert _moved_by((4, 7), (both, line)) == ((4, 2), (7, 1))
    assert _moved_by((4, 7, 9), (both, line, lid)) == ((7, 1), (9, 1))
    assert _moved_by((4, 7), (line, still)) == ((4, 1),)


def _drawn(seed: int) -> tuple[np.ndarray, Compact]:
    """A table over three levers in which many settings are alike, whole and compact."""
    dice = np.random.default_rng(seed)
    small = dice.integers(0, 4, dice.integers(1, 4, 3)).astype(np.int8)
    kinds = [dice.integers(0, length, 6) for length in small.shape]
    return small[np.ix_(*kinds)], Compact.of(small, kinds)


@pytest.mark.parametrize("seed", TABLE_SEEDS)
def test_a_compact_table_is_the_whole_one(seed: int) -> None:
    whole, compact = _drawn(seed)
    assert np.array_equal(compact.whole(), whole)
    again = Compact.of(whole, [np.arange(length) for length in whole.shape])
    assert np.array_equal(again.whole(), whole) and again.cells.shape <= (4, 4, 4)
    assert np.array_equal(compact.at_most(1).whole(), whole <= 1)
    for axis, _ in enumerate(whole.shape):
        place: list[int | None] = [2, 4, 1]
        place[axis] = None
        at = tuple(slice(None) if n is None else n for n in place)
        assert compact.along(place).tolist() == whole[at].tolist()


@pytest.mark.parametrize("seed", TABLE_SEEDS)
def test_kinds_of_settings_lead_to_what_all_settings_do(seed: int) -> None:
    """The same conflicts and the same least settings, ties included."""
    dice = np.random.default_rng(seed)
    drawn = [_drawn(seed + 100 * n) for n in range(3)]
    levers = [(0, 1, 2), (0, 2, 3), (1, 3, 4)]
    sizes = dict.fromkeys(range(5), 6)
    steps = {n: dice.integers(0, 3, 6).astype(float).tolist() for n in range(5)}
    whole = [(axes, value <= 0) for axes, (value, _) in zip(levers, drawn, strict=True)]
    given = [(axes, table.at_most(0)) for axes, (_, table) in zip(levers, drawn, strict=True)]
    smaller, stand = in_kinds(given)
    assert infeasible(smaller, sizes) == infeasible(whole)
    assert all(rows == sorted(rows) and rows[0] == 0 for rows in stand.values())
    smaller, stand = in_kinds(given, steps)
    costs = [(axes, np.where(held, 0.0, 9.0)) for axes, held in whole]
    fewer = [(axes, np.where(held, 0.0, 9.0)) for axes, held in smaller]
    all_steps = [((n,), np.array(steps[n])) for n in range(5)]
    few_steps = [((n,), np.array(steps[n])[stand[n]]) for n in range(5)]
    found = least([*fewer, *few_steps], sizes)
    assert {n: stand[n][kind] for n, kind in found.items()} == least([*costs, *all_steps])
