"""`every` runs all rows, names each that breaks the rule, and lets none be passed over."""

from __future__ import annotations

import pytest
from every import every


def test_every_row_that_breaks_the_rule_is_named() -> None:
    seen: list[int] = []

    @every("number", [1, 2, 3, 4], ids=lambda number: f"row {number}")
    def rule(number: int) -> None:
        seen.append(number)
        if number == 3:
            pytest.skip("not today")
        assert number != 2, "two"

    with pytest.raises(pytest.fail.Exception) as told:
        rule()
    lines = str(told.value).splitlines()
    assert seen == [1, 2, 3, 4]
    assert lines[0] == "2 of 4 rows break this:"
    assert lines[1].startswith("row 2: AssertionError: two") and "row 3: Skipped" in lines[-1]


def test_rules_over_rows_and_columns_meet_every_pair() -> None:
    seen: list[tuple[int, str]] = []

    @every("number", [1, 2])
    @every("word", ["a", "b"])
    def rule(number: int, word: str) -> None:
        seen.append((number, word))

    rule()
    assert seen == [(1, "a"), (1, "b"), (2, "a"), (2, "b")]


def test_a_rule_without_rows_is_broken() -> None:
    @every("number", [])
    def rule(number: int) -> None:
        """Nothing is ever asked."""

    with pytest.raises(AssertionError, match="holds nothing"):
        rule()
