"""The search keeps few changed tanks worked out; how many changes nothing of what it finds."""

from __future__ import annotations

import itertools
from functools import cache

import numpy as np
import pytest

from interview import assembly, setups
from interview.advice.levers.levers import Option, all_levers
from interview.advice.search import groups, severity_tables
from interview.advice.search.groups import in_groups
from interview.advice.search.severity_tables import SeverityTables, merged
from interview.advice.what_if.candidates import severities
from interview.audit.checks.loader import all_checks
from interview.audit.tank import Tank
from interview.base.places import demo_folder
from interview.core import remembered

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
    assert first.rows == (0, 2, 3) and first.place is None
    assert second.rows == (1, 4) and second.place == slice(1, 5, 3)
    assert first.changes["lid"] == "glass" and np.shape(first.changes["line"]) == (3, 1)
    assert second.changes["line"].ravel().tolist() == [0.2, 0.5]
    assert np.shape(found[2][0].changes["line"]) == (3,) and found[2][0].place == slice(0, 3, 1)
    assert not found[1][0].changes
