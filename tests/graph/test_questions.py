"""Loading the questions: every fault is named with its file and line."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from every import every

from interview import assembly
from interview.base.rows.lines import FileError
from interview.care.facts import doubts
from interview.graph.question_rows import load

HEAD = """\
topic: Tank
about: The tank.
questions:
"""
LENGTH = """\
  - id: water_line_below_rim
    type: length
    label: How far is the water below the rim?
    short: Water below rim
    hint: Hold a tape upright. For example 8 cm.
    help: It decides the depth.
    unsure: {assume: 8 cm}
"""
CHOICE = """\
  - id: substrate
    type: choice
    label: What lies on the bottom?
    short: Bottom
    hint: Look.
    help: It matters.
    choices: [{name: sand, label: sand}]
"""


def _folder(tmp_path: Path, text: str) -> Path:
    (tmp_path / "01_tank.yaml").write_text(text, encoding="utf-8")
    return tmp_path


def test_a_sound_file_loads(tmp_path: Path) -> None:
    found = load(_folder(tmp_path, HEAD + LENGTH + CHOICE))
    assert [q.id for q in found] == ["water_line_below_rim", "substrate"]
    assert found.unit_of("water_line_below_rim") == "m"
    assert found.topic_of["substrate"].name == "Tank"


# What is written at the end of the sound file, the line that is named and what is said.
# Lines 1 to 3 are the head, 4 to 10 the first question.
FAULTS = [
    # a key nobody knows
    ("    hnit: x\n", 11, "water_line_below_rim: unknown key “hnit”; did you mean “hint”?"),
    # a second time the same key
    ("    help: again\n", 11, "“help” stands here a second time"),
    # a whole question a second time
    (LENGTH, 11, "water_line_below_rim is asked twice"),
    # conditions
    ("    relevant: ph is\n", 11, "can't read the condition “ph is”; write it as"),
    ("    relevant: ph at least ?\n", 11, "“?” is neither a name nor a number"),
    ("    relevant: 3\n", 11, "water_line_below_rim, relevant: a condition is a sentence"),
    # constraints and what they hold
    ("    constraint: {must: from 0 cm to 1 m}\n", 11, "constraint: a mapping must be a list"),
    ("    constraint: [from 0 cm to 1 m]\n", 11, "must be a mapping, as {must: from 0 cm to 4 m"),
    (
        "    constraint:\n      - {must: from 0 cm to 1 m}\n",
        12,
        "number 1 has no alert; a whole one",
    ),
    ("    constraint:\n      - {alert: No.}\n", 12, "constraint, number 1 has no must"),
    ("    constraint:\n      - {must: a is b, alert: No., als: x}\n", 12, "unknown key “als”"),
    # remarks
    ("    remark: [{when: rcd is yes}]\n", 11, "remark, number 1 has no say"),
    ("    remark: 3\n", 11, "remark: “3” is no text; put it in quotation marks"),
    # what means none, and whether it is finer
    ("    absent: {means: yes}\n", 11, "absent, means: “yes” must stand in quotation marks"),
    ("    finer: 3\n", 11, "finer: a condition is a sentence, not “3”"),
    # lists of names
    ("    stale_when: tank_size\n", 11, "stale_when: “tank_size” must be a list, as [tank_size]"),
    ("    stale_when: [3]\n", 11, "stale_when: “3” is no name; write it as"),
    ("    choices: [sand]\n", 11, "choices: “sand” must be a mapping, as {name: sand, label:"),
    ("    choices: [{name: sand}]\n", 11, "water_line_below_rim, sand has no label"),
    # the unit of a dimension is fixed
    ("    unit: cm\n", 11, "a length is in m, not cm"),
    # not YAML
    ("    example: [8 cm\n", 12, "not readable as YAML"),
    ("\t- id: x\n", 11, "not readable as YAML"),
    ("  - just words\n", 3, "questions: “just words” must be a mapping, as {id: ph"),
    ("  - {type: length}\n", 11, "questions, number 2 has no id; a whole one is {id: ph"),
]


@pytest.mark.parametrize(("added", "line", "said"), FAULTS, ids=[f[2][:40] for f in FAULTS])
def test_a_fault_is_named_with_its_line(tmp_path: Path, added: str, line: int, said: str) -> None:
    with pytest.raises(FileError) as refused:
        load(_folder(tmp_path, HEAD + LENGTH + added))
    text = str(refused.value)
    assert said in text
    assert text.startswith(f"01_tank.yaml, line {line}: "), text


@pytest.mark.parametrize("key", ["type", "label", "short", "hint", "help"])
def test_a_missing_key_is_named(tmp_path: Path, key: str) -> None:
    lines = [line for line in LENGTH.splitlines(True) if not line.strip().startswith(f"{key}:")]
    with pytest.raises(FileError, match=f"line 4: water_line_below_rim has no {key}"):
        load(_folder(tmp_path, HEAD + "".join(lines)))


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("type: length", "type: lenght", "unknown type “lenght”"),
        ("{assume: 8 cm}", "{asume: 8 cm}", "unsure: unknown key “asume”; did you mean “assume”?"),
        ("{assume: 8 cm}", "8 cm", "unsure: “8 cm” must be a mapping, as {assume: …, give_or_take"),
    ],
)
def test_a_wrong_word_is_named(tmp_path: Path, old: str, new: str, said: str) -> None:
    with pytest.raises(FileError, match=r"^01_tank\.yaml, line \d+: ") as refused:
        load(_folder(tmp_path, HEAD + LENGTH.replace(old, new)))
    assert said in str(refused.value)


def test_a_part_asked_twice_is_a_fault(tmp_path: Path) -> None:
    sized = LENGTH.replace("type: length", "type: size\n    parts: [tank_length, tank_width]")
    twice = sized.replace("id: water_line_below_rim", "id: tank_size")
    again = twice.replace("tank_size", "other_size").replace("tank_width", "tank_depth")
    with pytest.raises(FileError, match="line 12: tank_length is asked twice"):
        load(_folder(tmp_path, HEAD + twice + again))


@pytest.mark.parametrize("text", ["", "topic: Tank\n", "- a\n- b\n", "topic: T\nquestions: x\n"])
def test_a_file_without_questions_is_a_fault(tmp_path: Path, text: str) -> None:
    with pytest.raises(
        FileError, match=r"^01_tank\.yaml, line \d: .*(must be a |has no questions)"
    ):
        load(_folder(tmp_path, text))


def test_a_file_that_is_no_text_is_a_fault(tmp_path: Path) -> None:
    (tmp_path / "01_tank.yaml").write_bytes(b"topic: \xff\xfe\n")
    with pytest.raises(FileError, match=r"01_tank\.yaml: the file is not UTF-8"):
        load(tmp_path)


def test_files_are_read_in_name_order(tmp_path: Path) -> None:
    (tmp_path / "02_b.yaml").write_text(HEAD + CHOICE, encoding="utf-8")
    (tmp_path / "01_a.yaml").write_text(HEAD + LENGTH, encoding="utf-8")
    assert [q.id for q in load(tmp_path)] == ["water_line_below_rim", "substrate"]


# ---- the questions that ship


def test_every_shipped_question_can_be_answered_as_its_example_says() -> None:
    """The example shown in a refusal is taken where it is shown, each half of an “or” too."""
    from interview.graph.answers import understand

    for question in assembly.questionnaire():
        whole = understand(question, question.example.split(" or ")[0], assembly.lists(), "europe")
        assert whole.value is not None, question.id
        for half in question.example.split(" or "):
            if question.type not in ("choice", "choices"):
                understand(question, half, assembly.lists(), "europe")


@every("question", list(assembly.questionnaire()), ids=lambda q: q.id)
def test_the_wording_of_a_shipped_question(question) -> None:  # type: ignore[no-untyped-def]
    assert question.label.endswith("?")
    assert len(question.short) <= 28
    assert "?" not in question.short
    assert question.hint.endswith((".", "?"))
    assert question.help.endswith(".")
    fixed = (question.label, question.hint, question.help, question.unsure.say)
    assert not [text for text in fixed if "{" in text]
    for rule in question.constraint:
        # what was understood, and something to type or to do
        assert rule.alert.startswith("I understood"), rule.alert
        assert re.search(r"\b(as|type|Type) ", rule.alert), rule.alert


def test_another_tank_may_be_of_another_kind() -> None:
    """A tank typed anew as larger is seldom the old one: its origin decides on the glass."""
    (origin,) = (q for q in assembly.questionnaire() if q.id == "tank_origin")
    assert "tank_size" in origin.stale_when


EXACT = {
    *("animal_count", "heater_count", "filter_count", "lamp_fixings"),
    *("heat_lamp_power", "lamp_holder_rating", "stand_rating", "circuit_rating"),
    *("tank_length", "tank_width", "tank_height", "platform_length", "platform_width"),
    *("platform_foam_thickness", "electricity_price"),
}
"""Counts, marks and prices, and sizes of which a tape's error moves nothing: our own choice."""


def test_what_is_measured_has_its_doubt() -> None:
    numbers = {
        name
        for question in assembly.questionnaire()
        if question.type not in ("choice", "choices", "names", "yes_no")
        for name in question.parts or (question.id,)
    }
    assert numbers - {*doubts()} == EXACT, "its usual error goes into interview/care/doubts.yaml"
