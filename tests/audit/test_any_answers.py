"""Whatever a keeper can't say or leaves out, there is an audit, and it says what is missing."""

from __future__ import annotations

import dataclasses
import random
from collections.abc import Mapping
from pathlib import Path

import pytest
from typed_tanks import TESTS

from interview import assembly, setups
from interview.audit.audit import Audit
from interview.audit.checks.findings import Finding
from interview.base.places import demo_folder
from interview.graph.interview import Place
from interview.report.formats.json_form import audit_json
from interview.report.formats.markdown import markdown

DEMOS = sorted((TESTS.parent / "transcripts_demo").glob("*.yaml"))
ALWAYS = ("stage", "region", "species", "carapace_length")
# share of the answers left out, share answered “not sure”
SHARES = [(0.0, 0.1), (0.1, 0.1), (0.3, 0.2), (0.0, 0.5), (0.6, 0.2)]


def _audit(path: Path, left_out: float, unsure: float, dice: random.Random) -> Audit:
    interview = assembly.new_interview()
    setup = setups.read(path, interview.questionnaire)
    answers = _some(setup.answers, left_out, unsure, dice)
    setups.fill(interview, dataclasses.replace(setup, answers=answers))
    return assembly.audit_of(interview, setup.title)


def _some(
    answers: Mapping[Place, str], left_out: float, unsure: float, dice: random.Random
) -> dict[Place, str]:
    some = {}
    for place, said in answers.items():
        thrown = 1.0 if place.id in ALWAYS else dice.random()
        if thrown >= left_out:
            some[place] = "not sure" if thrown < left_out + unsure else said
    return some


@pytest.mark.parametrize(("left_out", "unsure"), SHARES)
@pytest.mark.parametrize("path", DEMOS, ids=lambda path: path.stem)
def test_there_is_always_an_audit(path: Path, left_out: float, unsure: float) -> None:
    dice = random.Random(f"{path.stem} {left_out} {unsure}")
    for _ in range(3):
        audit = _audit(path, left_out, unsure, dice)
        assert markdown(audit)
        assert audit_json(audit)
        for finding in audit.findings:
            assert finding.say
            if finding.assumed and finding.verdict != "good":
                assert finding.say.startswith(("Not known yet", "Not judged yet"))
            assert not (finding.verdict == "good" and finding.assumed)


def test_sand_of_unknown_grain_leaves_the_intake_open() -> None:
    interview = assembly.new_interview()
    setup = setups.read(DEMOS[0].parent / "musk_turtle.yaml", interview.questionnaire)
    answers = {**setup.answers, Place("grain_size"): "not sure"}
    setups.fill(interview, dataclasses.replace(setup, answers=answers))
    found = {f.check: f for f in assembly.audit_of(interview, "").findings}["intake_sand"]
    assert (found.verdict, found.missing) == ("unmeasured", ("grain_size",))


def _findings(name: str, *without: str) -> dict[str, Finding]:
    interview = assembly.new_interview()
    setups.fill(interview, setups.read(demo_folder() / f"{name}.yaml", interview.questionnaire))
    for place in [place for place in interview.answers if place.id in without]:
        del interview.answers[place]
    return {f.check: f for f in assembly.audit_of(interview, "").findings}


def test_nothing_is_called_guarded_that_nobody_looked_at() -> None:
    """The classroom told how high the intake stands, and no word of a guard."""
    intake = _findings("painted_turtles_classroom")["intake"]
    assert (intake.verdict, intake.missing) == ("unmeasured", ("intake_guard",))
    assert "is guarded" not in intake.say


def test_without_animals_nothing_is_said_of_a_listed_one() -> None:
    law = _findings("musk_turtle", "species")["invasive_law"]
    assert (law.verdict, law.missing) == ("unmeasured", ("species",))
