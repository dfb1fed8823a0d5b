"""The graph audits itself: each kind of fault, on a small questionnaire with one mistake."""

from __future__ import annotations

from pathlib import Path

import pytest

from interview import assembly
from interview.graph.answers import Lists
from interview.graph.faults import faults
from interview.graph.question_rows import load

SOUND = """\
topic: Water
questions:
  - id: stage
    type: choice
    label: How far?
    short: Stage
    hint: Look.
    help: It matters.
    choices: [{name: planning, label: planned}, {name: living, label: in use}]
    unsure: {leave: Look.}
  - id: lid
    type: yes_no
    label: Is there a lid?
    short: Lid
    hint: Look.
    help: It matters.
    unsure: {assume: "yes"}
  - id: depth
    type: length
    label: How deep?
    short: Depth
    hint: Measure.
    help: It matters.
    relevant: stage is living
    constraint: [{must: from 0 cm to 1 m, alert: "{depth} of {volume} is odd."}]
    unsure: {assume: 8 cm, give_or_take: 2 cm}
    stale_when: [stage]
    remark: "That holds {volume}."
"""
UNITS = {"depth": "m", "volume": "m**3", "usual_depth": "m", "lid": "yes/no"}


def _faults(tmp_path: Path, text: str, **changed: object) -> list[str]:
    (tmp_path / "05_water.yaml").write_text(text, encoding="utf-8")
    told = {
        "units": UNITS,
        "leaves": {"depth"},
        "assumed": {"usual_depth"},
        "judged": {"stage"},
        **changed,
    }
    return faults(load(tmp_path), Lists(), **told)  # type: ignore[arg-type]


def test_a_sound_graph_has_no_faults(tmp_path: Path) -> None:
    assert _faults(tmp_path, SOUND) == []


# One mistake each: what is replaced by what, the line of its question, what is said.
MISTAKES = [
    (
        "relevant: stage is living",
        "relevant: stagge is living",
        24,
        "no quantity is called “stagge”; did",
    ),
    ("must: from 0 cm to 1 m", "must: below hight", 25, "no quantity is called “hight”"),
    ("{volume} is odd", "{volum} is odd", 25, "is called “volum”; did you mean “volume”?"),
    ("That holds {volume}", "That holds {water}", 28, "no quantity is called “water”"),
    ("stale_when: [stage]", "stale_when: [volume]", 18, "volume changes, which is no question"),
    ("stage is living", "stage is livng", 18, "“livng”, which is no choice of it"),
    ("stage is living", "lid is open", 18, "“open”, which is no choice of it"),
    ("relevant: stage is living", "finer: stag is living", 24, "no quantity is called “stag”; did"),
    ("relevant: stage is living", "finer: stage is livng", 18, "“livng”, which is no choice"),
    ("    type: yes_no", "    type: yes_no\n    relevant: depth is given", 11, "not asked before"),
    ("    type: yes_no", "    type: yes_no\n    finer: depth is given", 11, "not asked before"),
    ("from 0 cm to 1 m", "from 0 kg to 1 m", 18, "depth [m] against a number in [kg]"),
    ("from 0 cm to 1 m", "from 0 to 1 m", 18, "depth [m] against a number in [1]"),
    ("from 0 cm to 1 m", "from 0 smoot to 1 m", 18, "against a number in [smoot]"),
    ("assume: 8 cm", "assume: 8 bananas", 18, "its own assumption can't be read"),
    ("assume: 8 cm", 'assume: "8"', 18, "its own assumption can't be read"),
    ("give_or_take: 2 cm", "give_or_take: 2 kg", 18, "its own assumption can't be read"),
    ("assume: 8 cm, give_or_take: 2 cm", "assume: volume", 18, "volume, which is in another unit"),
    ("assume: 8 cm, give_or_take: 2 cm", "assume: usual_deep", 18, "usual_deep, which nobody kno"),
    ("unsure: {leave: Look.}", "example: living", 3, "doesn't say what “not sure” means"),
    (
        "choices: [{name: planning, label: planned}, {name: living, label: in use}]",
        "required: true",
        3,
        "stage offers no choices",
    ),
]


@pytest.mark.parametrize(
    ("old", "new", "line", "said"), MISTAKES, ids=[m[1][:40] for m in MISTAKES]
)
def test_a_mistake_is_found(tmp_path: Path, old: str, new: str, line: int, said: str) -> None:
    assert old in SOUND
    found = _faults(tmp_path, SOUND.replace(old, new, 1))
    named = [fault for fault in found if said in fault]
    assert named, found
    assert named[0].startswith(f"05_water.yaml, line {line}: "), named


def test_an_assumption_may_be_a_quantity(tmp_path: Path) -> None:
    text = SOUND.replace("assume: 8 cm, give_or_take: 2 cm", "assume: usual_depth")
    assert _faults(tmp_path, text) == []


def test_a_unit_that_the_core_takes_differently(tmp_path: Path) -> None:
    found = _faults(tmp_path, SOUND, units={**UNITS, "depth": "mm"})
    assert any("depth is asked in [m], but the core takes it in [mm]" in f for f in found)


def test_a_question_that_feeds_nothing(tmp_path: Path) -> None:
    found = _faults(tmp_path, SOUND, judged=set())
    assert found == ["05_water.yaml, line 3: stage feeds no quantity and no check"]


def test_an_input_nobody_asks(tmp_path: Path) -> None:
    found = _faults(tmp_path, SOUND, leaves={"depth", "usual_depth", "room_humidity"})
    assert found == ["room_humidity is needed by the core, but nobody asks or assumes it"]


def test_several_mistakes_are_all_told(tmp_path: Path) -> None:
    text = SOUND.replace("stage is living", "stage is livng").replace("{volume} is", "{vol} is")
    assert len(_faults(tmp_path, text)) == 2


def test_the_shipped_questions_and_checks_have_no_faults() -> None:
    assert assembly.faults() == []
