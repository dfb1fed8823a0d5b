"""With what a reading was taken is heard however it is said, kept with the words, and counts."""

from __future__ import annotations

import pytest

from interview import assembly, setups
from interview.audit.sampling.sample import spreads
from interview.care.facts import assumptions, doubts
from interview.graph.interview import Interview, Place
from interview.words.lexicon.files import words

TELLING = [
    ("33 °C", "", 1.7),
    ("33 °C with a probe", "probe", 0.8),
    ("33 °C, measured with a probe", "probe", 0.8),
    ("33 C probe", "probe", 0.8),
    ("33 °C (probe)", "probe", 0.8),
    ("33 C read with a digital thermometer", "probe", 0.8),
    ("91.4 F with the infrared gun", "infrared", 1.7),
    ("33 C, infrared thermometer", "infrared", 1.7),
    ("33 °C measured with a stick-on strip", "strip", 1.5),
    ("33 °C on a dial thermometer", "dial", 1.5),
]


def _told(said: str) -> Interview:
    interview = assembly.new_interview()
    answers = {"stage": "living", "platform_kind": "floating", "heat_lamp_kind": "halogen"}
    for name, answer in {**answers, "basking_temperature": said}.items():
        interview.record(Place(name), answer)
    return interview


@pytest.mark.parametrize(("said", "tool", "sigma"), TELLING)
def test_a_tool_that_is_named_decides_the_doubt(said: str, tool: str, sigma: float) -> None:
    interview = _told(said)
    reading = interview.answers[Place("basking_temperature")].value
    assert (reading.best, reading.instrument) == (pytest.approx(33), tool)
    spread = dict(spreads(interview.given(), assumptions(), doubts()))["basking_temperature"]
    assert spread.above == pytest.approx(sigma)


@pytest.mark.parametrize(("said", "tool", "sigma"), TELLING)
def test_what_is_stored_reads_back_with_its_tool(
    said: str, tool: str, sigma: float, tmp_path_factory: pytest.TempPathFactory
) -> None:
    path = tmp_path_factory.mktemp("told") / "told.yaml"
    setups.write(path, setups.of_interview(_told(said), "told"))
    again = assembly.new_interview()
    setups.fill(again, setups.read(path, assembly.questionnaire()))
    answer = again.answers[Place("basking_temperature")]
    assert (answer.said, answer.value.instrument) == (said, tool)


def test_every_tool_of_a_doubt_is_a_word_somebody_says() -> None:
    named = {tool for doubt in doubts().values() for tool in getattr(doubt, "instruments", {})}
    assert named <= set(words().instruments)
