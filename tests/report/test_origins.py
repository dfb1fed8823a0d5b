"""Every number of the page says its status and its source, and the source is listed."""

from __future__ import annotations

import json
import re

import pytest
from kept import for_each_audit

from interview.audit.audit import Audit
from interview.care.facts import STATUSES, bibliography
from interview.report.cited import source_name
from interview.report.formats.json_form import audit_json
from interview.report.formats.markdown import markdown
from interview.report.naming import capital

DEMOS = [
    "map_turtle_hatchling", "musk_turtle", "painted_turtles_classroom", "reeves_turtle_planned",
    "river_cooter_adult",
]  # fmt: skip
each_demo = pytest.mark.parametrize("name", DEMOS)

_STATUS = "|".join(re.escape(status) for status in STATUSES.values())
_CITED = re.compile(rf"(?:{_STATUS})(?:: [\w ]+(?:, [\w ]+)*)?", re.IGNORECASE)
_NAMES = {source_name(key) for key in bibliography()}
_WORDS = ("choice", "yes/no")


@for_each_audit
def _text(audit: Audit) -> str:
    return markdown(audit).replace("\\", "")


def _part(text: str, heading: str) -> list[str]:
    body = text.partition(f"\n## {heading}\n")[2].partition("\n## ")[0]
    assert body, heading
    return [line for line in body.splitlines() if line]


def _rows(lines: list[str]) -> list[list[str]]:
    table = [line for line in lines if line.startswith("| ")][2:]
    return [[cell.strip() for cell in line.strip("|").split(" | ")] for line in table]


def _keys(said: str) -> list[str]:
    """The sources a text cites, each after a known status; some status alone says it all."""
    found = _CITED.findall(said)
    assert found, said
    return [n for cited in found for n in cited.partition(": ")[2].split(", ") if n]


def _listed(text: str) -> set[str]:
    return {line[4:].partition("**")[0] for line in _part(text, "Sources") if line[:4] == "- **"}


@each_demo
def test_every_number_of_the_tank_says_where_it_comes_from(
    demos: dict[str, Audit], name: str
) -> None:
    text = _text(demos[name])
    rows = _rows(_part(text, "The tank in numbers"))
    assert len(rows) >= 10
    for row in rows:
        assert set(_keys(row[3])) <= _listed(text), row
        assert not _CITED.sub("", row[3]).strip("; "), row


@each_demo
def test_every_answer_that_is_a_number_says_how_far_off_it_may_be(
    demos: dict[str, Audit], name: str
) -> None:
    """Marks, counts and prices are exact; all else has an error, our own or with its source."""
    audit = demos[name]
    exact = {
        "heat_lamp_power", "heater_count", "filter_count", "lamp_holder_rating", "lamp_fixings",
        "circuit_rating", "electricity_price", "animal_count",
    }  # fmt: skip
    text = _text(audit)
    rows = {row[0]: row[2] for row in _rows(_part(text, "The answers as given"))}
    assert "by our own estimate where nothing is named" in text
    told = 0
    for item in audit.readings:
        label = audit.label_of(item.question)
        if item.unit in _WORDS or item.question in exact:
            continue
        cell = rows[capital(label)]
        told += 1
        assert "±" in cell or "a factor of" in cell, item.name
        assert set(_keys(cell) if "(" in cell else ()) <= _listed(text), cell
    assert told >= 15


@each_demo
def test_every_assumption_told_has_its_error_and_source(demos: dict[str, Audit], name: str) -> None:
    text = _text(demos[name])
    rows = _rows(_part(text, "What the sums take for granted"))
    for row in rows:
        assert re.search(r"\d", row[1]) and re.search(r"±|a factor of", row[2]), row
        assert set(_keys(row[3])) <= _listed(text), row


@each_demo
def test_every_safety_note_ends_in_its_source(demos: dict[str, Audit], name: str) -> None:
    text = _text(demos[name])
    notes = [line for line in _part(text, "Safety notes") if line.startswith("- ")]
    assert len(notes) == len(demos[name].notes) >= 8
    for line in notes:
        assert line.endswith(".)")
        assert set(_keys(line.rpartition("(")[2].rstrip(".)"))) <= _listed(text), line


@each_demo
def test_every_limit_says_its_status_and_source(demos: dict[str, Audit], name: str) -> None:
    text = _text(demos[name])
    held = [line for line in text.splitlines() if line.startswith("    - Held against: ")]
    assert len(held) >= 20
    for line in held:
        limits, _, sources = line.removeprefix("    - Held against: ").partition(" Sources: ")
        for limit in limits.rstrip(".").split("); "):
            if re.match(r"-?\d", limit) and "as you answered" not in limit:
                assert set(_keys(limit)) <= _listed(text), limit
        assert set(sources.rstrip(".").split(", ")) - {""} <= _listed(text), line


@each_demo
def test_the_page_lists_the_sources_it_names_and_no_others(
    demos: dict[str, Audit], name: str
) -> None:
    text = _text(demos[name])
    above = text.partition("\n## Sources\n")[0]
    for key in _listed(text):
        assert re.search(rf"\b{key}\b", above) and key in _NAMES


def test_no_two_sources_go_by_one_name() -> None:
    assert len(_NAMES) == len(bibliography())
    assert not [name for name in _NAMES if "_" in name]


@each_demo
def test_json_gives_every_number_its_origin(demos: dict[str, Audit], name: str) -> None:
    tree = json.loads(audit_json(demos[name]))
    for label, row in tree["quantities"].items():
        if row["how"] == "computed":
            assert row["status"] in STATUSES and set(row["sources"]) <= set(tree["sources"]), label
        elif "error" in row:
            assert row["error"]["status"] in STATUSES and row["error"]["source"] in tree["sources"]
    for fact in tree["assumptions"].values():
        assert fact["status"] in STATUSES and fact["source"] in tree["sources"] and fact["meaning"]
    assert len(tree["notes_from"]) == len(tree["notes"])
    for note in tree["notes_from"]:
        assert note["status"] in STATUSES and set(note["sources"]) <= set(tree["sources"])
