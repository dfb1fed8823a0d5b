"""Ignorance is never graded better than knowledge, and hides no danger.

An answer of "not sure" is graded no better than the best of what it may stand for; and where one
of these would be a danger, its check is not called good.
"""

from __future__ import annotations

from dataclasses import replace

import pytest
from typed_tanks import TESTS, changed, interview_in, judged

from interview import assembly
from interview.audit.checks.findings import Finding
from interview.audit.checks.judging import judge
from interview.audit.checks.loader import checks_by_id
from interview.audit.grades import NO_GRADE, STOP, grade_all
from interview.graph.interview import Interview

RANK = ("A", "B", "C", NO_GRADE, "D", "E", STOP)
"""No grade stands where the strictest cap for what is not known does."""
LIKELY: dict[str, tuple[str, ...]] = {
    "rcd": ("yes", "no"),
    "stand": ("aquarium_stand", "furniture", "shelf", "floor"),
    "floor": ("slab", "joists_across", "joists_along"),
    "lamp_fixings": ("0", "1", "2"),
    "heater_guard": ("yes", "no"),
    "decor_hazards": ("none", "sharp", "trap_gap"),
    "platform_wall_gap": ("0 cm", "7 cm"),
}
SPOILT = {"heater_body": "glass"}
"""The base tank with what makes some of these answers matter."""


@pytest.fixture(scope="module")
def spoilt() -> Interview:
    return changed(interview_in(TESTS / "tanks" / "base.yaml"), SPOILT)


def _judged(base: Interview, name: str, said: str) -> tuple[int, dict[str, Finding]]:
    findings = judged(changed(base, {name: said}))
    return RANK.index(grade_all(findings).overall), {f.check: f for f in findings}


@pytest.mark.parametrize("name", LIKELY)
def test_what_nobody_knows_is_graded_no_better_than_what_it_may_be(
    name: str, spoilt: Interview
) -> None:
    known = [_judged(spoilt, name, said) for said in LIKELY[name]]
    best = min(rank for rank, _ in known)
    dangerous = {c for _, found in known for c, f in found.items() if f.verdict == "danger"}
    rank, found = _judged(spoilt, name, "not sure")
    assert rank >= best
    assert not {c for c in dangerous if found[c].verdict == "good"}


def test_what_was_never_answered_hides_no_danger_either(spoilt: Interview) -> None:
    """All of them at once: whatever one of them may hide is told as not known."""
    findings = judged(changed(spoilt, dict.fromkeys(LIKELY, "")))
    assert grade_all(findings).overall not in ("A", "B")
    found = {f.check: f for f in findings}
    for check in ("rcd", "stand", "floor_load", "lamp_fixing", "decor", "platform_gap"):
        assert found[check].verdict != "good", check


@pytest.mark.parametrize("given", ["", "5 cm"])
def test_what_is_wrong_mostly_by_a_number_that_was_guessed_says_so(given: str) -> None:
    """A check without other bands, so that few centimetres over a heater are wrong."""
    shallow = {"water_line_below_rim": "37 cm", "heater_mount": "horizontal"}
    tank = changed(interview_in(TESTS / "tanks" / "base.yaml"), {**shallow, "heater_height": given})
    check = replace(checks_by_id()["heater_cover"], danger=None, close=None)
    found = judge(check, assembly.tank_of(tank, drawn=True))
    assert found.verdict == "wrong"
    assert found.guessed == (() if given else ("heater_height",))
    named = "Not measured yet: “Heater above the bottom” is taken to be “5 cm” until someone looks."
    assert found.say.startswith(named) is not bool(given)
