"""What people say at a question or of a change: how many get a fair reply."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Any

import pytest
import yaml

from interview import assembly
from interview.chat.hearing.agreed.told_at import told_at
from interview.chat.hearing.in_context import in_context, with_only_unit
from interview.chat.hearing.told.story import read_story
from interview.chat.hearing.what_if import NotAnIf, read_changes
from interview.chat.talks.asides import named_in
from interview.graph.answers import Value, understand
from interview.graph.given import named
from interview.graph.interview import Interview, Place
from interview.words.amounts.quantity import read_quantity
from interview.words.amounts.reading import Reading
from interview.words.intents.people import heard_in, home_in
from interview.words.text.refusal import NotUnderstood

WORDS = Path(__file__).parent.parent / "words"
_STEPS = {"temperature": "temperature_difference"}


def _rows(name: str) -> list[dict[str, Any]]:
    return yaml.load((WORDS / f"{name}.yaml").read_text("utf-8"), yaml.BaseLoader)


def _value(interview: Interview, name: str, said: str) -> Value:
    question = interview.questionnaire.by_id[name]
    return understand(question, said, interview.lists, interview.region).value


def _same(one: Value, other: Value) -> bool:
    if isinstance(one, Reading) and isinstance(other, Reading):
        open_by = max(other.high - other.best, 0.02 * abs(other.best))  # "about" is as wide as said
        return abs(one.best - other.best) <= open_by + 1e-9
    return one == other


# ------------------------------------------------------------------ at a question


def _reply(interview: Interview, row: dict[str, Any]) -> tuple[str, Value]:
    """What is made of a line: a command, an answer with its value, several, heard …"""
    name, line = row["at"], row["say"]
    place = Place(name)
    if named_in(line) or line.strip() in ("why", "back", "stop"):
        return "command", None
    told = with_only_unit(interview, place, line) or in_context(interview, place, line)
    told = told or told_at(interview, place, line)[0] or line
    question = interview.questionnaire.by_id[name]
    try:
        answer = understand(question, told, interview.lists, interview.region)
    except NotUnderstood:
        if len(read_story(interview, line).answers) > 1:
            return "several", None
        return ("heard" if heard_in(line) or home_in(line) else "ask"), None
    return ("not_sure" if answer.how == "assumed" else "answer"), answer.value


def _interview(given: dict[str, str]) -> Interview:
    interview = assembly.new_interview()
    for name, said in given.items():
        interview.record(Place(name), said)
    return interview


def _is_fair(interview: Interview, row: dict[str, Any], kind: str, value: Value) -> bool:
    kinds = [row["kind"]] if isinstance(row["kind"], str) else row["kind"]
    if kind not in kinds:
        return False
    if kind != "answer" or not isinstance(value, Reading):
        return kind != "answer" or value == _value(interview, row["at"], row["value"])
    if "within" in row:
        low, _, high = row["within"].partition(" to ")
        unit = high.partition(" ")[2]
        said = low if " " in low else f"{low} {unit}"
        ends = [_value(interview, row["at"], end) for end in (said, high)]
        return ends[0].best <= value.best <= ends[1].best  # type: ignore[union-attr]
    if "value" not in row:
        return True  # a depth: it comes to another name, and has tests of its own
    return _same(value, _value(interview, row["at"], row["value"]))


def test_lines_at_a_question_get_a_fair_reply(capsys: pytest.CaptureFixture[str]) -> None:
    fair, misread = 0, []
    rows = _rows("human_sentences")
    for row in rows:
        interview = _interview(row.get("given", {}))
        kind, value = _reply(interview, row)
        if _is_fair(interview, row, kind, value):
            fair += 1
        elif kind == "answer":
            misread.append(row["say"])
    with capsys.disabled():
        print(f"\nat a question: {fair} of {len(rows)} fair, misread {misread}")
    assert misread == []
    assert fair >= 35


# ------------------------------------------------------------------ of a change

_TANK = {
    "region": "north_america",
    "stage": "living",
    "room_temperature_low": "66 F",
    "room_temperature_high": "80 F",
    "animal_count": "1",
    "tank_size": "48 x 18 x 21 in",
    "water_line_below_rim": "5 in",
    "substrate": "none",
    "water_temperature": "77 F",
    "heater_mount": "horizontal",
    "heater_power": "150 W",
    "heater_count": "1",
    "heater_guard": "no",
    "filter_kind": "canister",
    "filter_rated_flow": "350 gph",
    "filter_count": "1",
    "platform_kind": "floating",
    "platform_size": "18 x 12 in",
    "platform_height_above_water": "1 in",
    "heat_lamp_kind": "halogen",
    "heat_lamp_power": "75 W",
    "heat_lamp_height": "10 in",
    "basking_temperature": "92 F",
    "lamp_holder_rating": "100 W",
    "lamp_fixings": "2",
    "uvb_lamp_kind": "tube_t5",
    "uvb_strength": "high",
    "uvb_lamp_height": "13 in",
    "uvb_lamp_age": "8 months",
    "uvb_path": "open",
    "feed_mass": "5 g",
    "feeds_per_week": "every other day",
    "water_change_share": "30 %",
    "water_change_interval": "7 days",
    "day_length": "12 hours",
}


_TURTLE = {"species": "red-eared slider", "carapace_length": "6 in", "sex": "female"}


def _finished(given: dict[str, str]) -> Interview:
    interview = _interview(_TANK | given)
    for name, said in _TURTLE.items():
        interview.record(Place(name, 0), said)
    return interview


def _wanted(interview: Interview, row: dict[str, Any]) -> Iterator[tuple[str, Any]]:
    """The answers a line means to change, as they would be in core units."""
    for meant in row.get("means", ()):
        name = meant["id"]
        if name == "water_depth":
            depth = read_quantity(meant["to"], "length", region="north_america").best
            yield "water_line_below_rim", interview.known()["tank_height"] - depth
            continue
        question = interview.questionnaire.by_id.get(name) or interview.questionnaire.giver[name]
        if "by" in meant:
            kind = "length" if question.parts else _STEPS.get(question.type, question.type)
            far = read_quantity(meant["by"].lstrip("-"), kind, region="north_america").best
            now = _alone(interview.known()[name])
            yield name, now + (-far if meant["by"][0] == "-" else far)
        else:
            yield from named(question, _value(interview, name, meant["to"])).items()


def _alone(value: Any) -> Any:
    """A value of the one turtle there is as that of a tank."""
    return value[0] if isinstance(value, tuple) and len(value) == 1 else value


def _new(interview: Interview, changes: Iterable[tuple[str, Any]]) -> dict[str, Any]:
    """Without what is as it was."""
    known = interview.known()
    every = ((name, _alone(value)) for name, value in changes)
    return {name: value for name, value in every if value != _alone(known.get(name))}


def _kind_of_reply(row: dict[str, Any]) -> str:
    """taken as it was meant, rightly asked, missed (asked all the same) or wrong."""
    interview = _finished(row.get("given", {}))
    wanted = _new(interview, _wanted(interview, row))
    try:
        taken = _new(interview, read_changes(interview, row["say"]).items())
    except NotAnIf:
        taken = {}
    if not taken:
        return "missed" if wanted and "or_ask" not in row else "rightly asked"
    same = wanted.keys() == taken.keys() and all(map(_near, taken.values(), map(wanted.get, taken)))
    return "taken" if same else "wrong"


def _near(one: Any, other: Any) -> bool:
    return one == (pytest.approx(other, rel=0.01) if isinstance(other, float) else other)


@pytest.mark.parametrize(
    ("name", "least", "most_wrong"), [("what_ifs", 51, 0), ("what_ifs_held_out", 36, 1)]
)
def test_changes_told_are_taken_or_asked_about(
    name: str, least: int, most_wrong: int, capsys: pytest.CaptureFixture[str]
) -> None:
    """Of what is told clearly enough to be taken; held out lines are only counted."""
    rows = _rows(name)
    replies = Counter(map(_kind_of_reply, rows))
    with capsys.disabled():
        told = ", ".join(f"{number} {kind}" for kind, number in sorted(replies.items()))
        takeable = sum("means" in row for row in rows)
        print(f"\n{name}: {told}, of {len(rows)}; {takeable} could be taken")
    assert replies["taken"] >= least
    assert replies["wrong"] <= most_wrong


@pytest.mark.parametrize(
    ("name", "line", "told"),
    [
        ("room_temperature_low", "never measured it, normal heated flat", "not sure"),
        ("feeds_per_week", "not sure, every day", ""),
        ("water_change_interval", "not sure, fortnightly", ""),
        ("heat_lamp_height", "not sure, about a foot", ""),
    ],
)
def test_who_is_not_sure_and_tells_it_knows(name: str, line: str, told: str) -> None:
    assert in_context(assembly.new_interview(), Place(name), line) == told
