"""A danger is said after the answer that made it certain, once; so is the law, to who is there."""

from __future__ import annotations

import pytest
from fakes import FakeFace, Held, demo, talk, up_to

from interview import assembly
from interview.audit.checks import judging
from interview.audit.checks.check import Check
from interview.audit.checks.findings import Finding
from interview.audit.checks.loader import all_checks
from interview.audit.tank import Tank
from interview.chat.faces.face import Asked, Left, Tone
from interview.chat.rechecks.prediction import Prediction
from interview.chat.rechecks.recheck_talk import RecheckTalk
from interview.chat.talks.guided import Talk
from interview.chat.talks.said_at_once import SaidAtOnce
from interview.chat.together.counter import CounterTalk
from interview.graph.interview import Interview, Place

URGENT = "This can't wait."
UNGUARDED = "No GFCI or RCD guards the tank."
LAW = "About the law."


def _urgent(held: Held) -> list[str]:
    return [text for text in held.face.tones("note") if text.startswith((URGENT, LAW))]


def test_a_danger_is_said_after_its_answer_with_what_to_do() -> None:
    (said,) = _urgent(talk(["no"], up_to("rcd"), live=True))
    assert said.startswith(f"{URGENT} {UNGUARDED}")
    assert "pull all plugs whenever a hand goes in." in said


class InOrder(FakeFace):
    """Keeps what was asked and said in one list."""

    live = True

    def __init__(self, lines: list[str]) -> None:
        super().__init__(lines)
        self.shown: list[str] = []

    def show(self, asked: Asked) -> None:
        super().show(asked)
        self.shown.append(asked.place.id if asked.place else "")

    def say(self, text: str, tone: Tone = "note") -> None:
        super().say(text, tone)
        self.shown.append(text)


def test_it_is_said_before_the_next_question() -> None:
    face = InOrder(["no"])
    with pytest.raises(Left):
        Talk(up_to("rcd"), face, lambda: None).run()
    (at,) = (number for number, text in enumerate(face.shown) if UNGUARDED in text)
    asked = [number for number, text in enumerate(face.shown) if " " not in text]
    assert asked[0] < at < asked[1]


def test_it_is_said_once() -> None:
    held = talk(["no", "change rcd", "no", "change rcd", "yes"], up_to("rcd"), live=True)
    assert len(_urgent(held)) == 1


def test_what_nobody_knows_is_no_certain_danger() -> None:
    assert _urgent(talk(["not sure"], up_to("rcd"), live=True)) == []


def test_a_guarded_tank_is_no_danger() -> None:
    assert _urgent(talk(["yes"], up_to("rcd"), live=True)) == []


def test_a_pipe_reads_it_in_the_audit() -> None:
    assert _urgent(talk(["no"], up_to("rcd"))) == []


def test_what_was_a_danger_when_the_talk_began_is_not_said_again() -> None:
    interview = up_to("rcd")
    interview.record(Place("rcd"), "no")
    place = interview.next()
    assert place is not None
    assert _urgent(talk(["not sure"], interview, live=True)) == []


def test_in_a_plan_nothing_swims_yet() -> None:
    interview = assembly.new_interview()
    given = {"stage": "planning", "vulnerable_person": "yes", "kitchen_used": "yes"}
    for name, said in given.items():
        interview.record(Place(name), said)
    (told,) = SaidAtOnce().new(interview)
    assert told.startswith("Before an animal moves in. Tank water or gear comes into the kitchen")


@pytest.mark.parametrize(
    ("region", "species", "told"),
    [
        ("europe", "red-eared slider", True),
        ("europe", "musk turtle", False),
        ("united kingdom", "red-eared slider", True),
        ("north america", "red-eared slider", False),
    ],
)
def test_the_law_on_keeping_is_said_at_the_species(region: str, species: str, told: bool) -> None:
    """Sliders are on the Union's list by Regulation (EU) 2016/1141."""
    interview = up_to("species", {"region": region})
    law = _urgent(talk([species], interview, live=True))
    assert [text.startswith(LAW) for text in law] == [True] * told
    if told:
        assert "ask the authority" in law[0].casefold()


@pytest.mark.parametrize(("length", "told"), [("9 cm", True), ("15 cm", False)])
def test_the_law_on_selling_is_said_at_the_shell(length: str, told: bool) -> None:
    """Under four inches: 21 CFR 1240.62."""
    interview = up_to("carapace_length", {"region": "north america"})
    law = _urgent(talk([length], interview, live=True))
    assert ["none may be sold" in text for text in law] == [True] * told


def test_at_the_counter_it_is_said_after_the_row() -> None:
    interview = up_to("rcd")
    for name in ("tank_origin", "heater_power", "platform_height_above_water"):
        interview.record(Place(name), demo("musk_turtle").answers[Place(name)].said)
    face = FakeFace(["no; no"])
    face.live = True
    with pytest.raises(Left):
        CounterTalk(interview, face, lambda: None, "counter").run()
    assert sum(UNGUARDED in text for text in face.tones("note")) == 1


def test_a_recheck_says_only_what_is_new() -> None:
    interview = demo("map_turtle_hatchling")
    before = assembly.audit_of(interview, "")
    face = FakeFace(["heater power", "150 W", "", ""])
    face.live = True
    prediction = Prediction(interview, before, interview.known())
    RecheckTalk(interview, face, lambda: None, prediction=prediction).run()
    assert interview.answers[Place("heater_power")].said == "150 W"
    assert UNGUARDED in " ".join(finding.say for finding in before.findings)
    assert UNGUARDED not in " ".join(face.tones("note"))


@pytest.mark.parametrize(("line", "draws"), [("yes", 0), ("no", 1)])
def test_doubt_is_drawn_only_where_best_values_tell_of_danger(
    line: str, draws: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """An answer is followed at once by the next question: best values alone cost little."""
    interview, drawn = up_to("rcd"), []
    drawing = assembly.tank_of
    said = SaidAtOnce()
    list(said.new(interview))

    def counted(interview: Interview, **told: bool) -> Tank:
        drawn.append(told["drawn"])
        return drawing(interview, **told)

    monkeypatch.setattr(assembly, "tank_of", counted)
    monkeypatch.setattr(assembly, "audit_of", lambda *_: pytest.fail("a whole audit"))
    interview.record(Place("rcd"), line)
    assert len(list(said.new(interview))) == draws
    assert drawn == [False] + [True] * draws


@pytest.mark.parametrize("known", [False, True])
def test_a_danger_behind_a_word_nobody_gave_is_not_weighed(
    known: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    """It can't be certain; weighed again after each answer it took 40 ms."""
    interview = assembly.new_interview()
    for place, answer in demo("painted_turtles_classroom").answers.items():
        if known or place.id != "tank_material":
            interview.record(place, answer.said)
    (check,) = (check for check in all_checks() if check.id == "basking_hot_day")
    judge, asked = judging.judge, list[str]()
    weighed = judge(check, assembly.tank_of(interview, drawn=True))
    assert weighed.verdict == "danger" and weighed.certainty != "sure"
    assert ("tank_material" in weighed.guessed) is not known

    def heard(one: Check, tank: Tank) -> Finding:
        asked.append(one.id)
        return judge(one, tank)

    monkeypatch.setattr(judging, "judge", heard)
    list(SaidAtOnce().new(interview))
    assert "rcd" in asked and ("basking_hot_day" in asked) is known
