"""What a keeper says of a change, cut into clauses, and what each of them says."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
import yaml

from interview.words.mentions.clauses import Clause, clauses_in, whole_clause

ROWS: dict[str, list[dict[str, Any]]] = yaml.safe_load(
    Path(__file__).with_name("clauses.yaml").read_text("utf-8")
)
NOTHING = {
    "amounts": [], "way": 0, "denied": False, "moved": False, "of_a_move": False,
    "goals": [],
}  # fmt: skip


def _read(clause: Clause) -> dict[str, Any]:
    return {
        "clause": clause.text,
        "amounts": [clause.said.parts[at].said for at in clause.amounts],
        "way": clause.direction,
        "denied": clause.is_denied,
        "moved": clause.is_moved,
        "of_a_move": clause.is_of_a_move,
        "goals": list(clause.goals),
    }


@pytest.mark.parametrize("line", ROWS)
def test_a_line_is_cut_and_read_so(line: str) -> None:
    assert [_read(one) for one in clauses_in(line)] == [NOTHING | row for row in ROWS[line]]


@pytest.mark.parametrize(
    "line", [line for line in ROWS if " and " not in line and len(ROWS[line]) == 1]
)
def test_a_line_of_one_clause_is_the_same_as_a_whole(line: str) -> None:
    whole = whole_clause(line)
    assert whole is not None
    cut = clauses_in(line)[0]
    assert (whole.text, whole.words) == (cut.text, cut.words)


def test_a_whole_line_keeps_its_commas_and_nothing_has_no_clause() -> None:
    whole = whole_clause("the lamp 5 cm up, the water 3 cm down. no lid")
    assert whole is not None
    assert whole.words == (
        *("the", "lamp", "<length>", "up", ",", "the", "water", "<length>", "down", "no", "lid"),
    )
    assert whole_clause("") is None and clauses_in("") == ()


@pytest.mark.parametrize(
    "line", ["instead of that, the water is 24 °C", "the water is 24 °C, rather than the room"]
)
def test_what_something_is_instead_of_is_no_clause(line: str) -> None:
    (clause,) = clauses_in(line)
    assert clause.text == "the water is 24 °c"


def test_a_clause_is_parted_at_a_word() -> None:
    clause = clauses_in("raise the lamp to 25 cm")[0]
    goal = clause.goals[0]
    assert (clause.before(goal).text, clause.after(goal + 1).text) == ("raise the lamp", "25 cm")


def test_an_underscore_parts_words_as_in_a_name() -> None:
    assert clauses_in("water_temperature 26 °C")[0].words == (
        "water",
        "temperature",
        "<temperature>",
    )
    whole = whole_clause("water_temperature 26 °C")
    assert whole is not None and whole.words == ("water", "temperature", "<temperature>")
