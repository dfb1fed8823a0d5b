"""A talk says how long it takes, and offers to end when the first look is over."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from fakes import FakeFace, Held, demo, talk, up_to

from interview import assembly, setups
from interview.chat.faces.face import Left
from interview.chat.pace import enough
from interview.chat.pace.before_start import before_start
from interview.chat.pace.enough import (
    can_move,
    could_change,
    offer_said,
    open_names,
    rest_can_move,
)
from interview.chat.together.counter import CounterTalk
from interview.graph.interview import Interview, Place

SOUND = Path(__file__).parent.parent / "tanks" / "base.yaml"
OFFER = "Shall we go on?"


def _last_of_first_look() -> Interview:
    """The musk turtle, answered up to the last question of the first look."""
    return up_to("decor_hazards")


def _labels(held: Held) -> list[str]:
    return [asked.label for asked in held.face.asked]


def test_before_the_start_minutes_and_tools_are_told() -> None:
    told = " ".join(before_start(assembly.new_interview()))
    assert "tape measure" in told and "infrared thermometer" in told and "test kit" in told
    first, whole = map(int, re.findall(r"about (\d+)", told))
    assert 5 < first < whole < 35


def test_minutes_shrink_with_every_answer() -> None:
    interview = assembly.new_interview()
    at_start = interview.minutes_left()
    assert 15 < at_start < 30
    assert _last_of_first_look().minutes_left() < at_start - 5
    assert demo("musk_turtle").minutes_left() < 2


def test_after_the_first_look_going_on_is_offered_once() -> None:
    held = talk(["none", "", "yes", "stop"], _last_of_first_look(), live=True)
    assert _labels(held).count(OFFER) == 1
    assert held.face.ids[:3] == ["decor_hazards", "review", "platform_height_above_water"]
    (offer,) = [text for text in held.face.tones("note") if text.startswith("That was the first")]
    assert "So far: Grade" in offer or "So far: STOP" in offer
    assert "What is left could still change:" in offer and "minutes more" in offer


def _last_of_second_round() -> Interview:
    interview = up_to("decor_hazards")
    interview.record(Place("decor_hazards"), "none")
    answers = demo("musk_turtle").answers

    def grave() -> list[Place]:
        return [p for p in interview.open_places() if interview.order.round_of(p.id) == 1]

    while len(left := grave()) > 1:
        said = answers[left[0]].said if left[0] in answers else "not sure"
        interview.record(left[0], said)
    return interview


@pytest.mark.parametrize("moves", [True, False])
def test_the_offer_comes_again_only_where_the_rest_can_not_move_the_grade(
    moves: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    for name in ("can_move", "rest_can_move"):
        monkeypatch.setattr(enough, name, lambda *_: moves)
    held = talk(["not sure", "done"], _last_of_second_round(), live=True)
    assert (_labels(held)[1] == OFFER) is not moves
    offers = [text for text in held.face.tones("note") if text.startswith("All that is grave")]
    assert len(offers) == (not moves)


def test_a_stop_stays_one_whatever_the_rest_says() -> None:
    interview = up_to("decor_hazards", {"rcd": "no"})
    held = talk(["none", "", "not sure", "stop"], interview, live=True)
    (offer,) = [text for text in held.face.tones("note") if text.startswith("That was the first")]
    assert "So far: STOP." in offer
    assert "It stays a STOP until that is mended" in offer and "only worse" not in offer


def test_whether_the_rest_can_move_the_grade_is_judged_by_the_worst_it_may_say() -> None:
    interview = _last_of_first_look()
    assert can_move(assembly.audit_of(interview, ""), open_names(interview))
    whole = demo("musk_turtle")
    assert not can_move(assembly.audit_of(whole, ""), open_names(whole))


@pytest.mark.parametrize(
    ("tank", "left", "moves"),
    [
        ("map_turtle_hatchling", ("nitrate", "lamp_holder"), False),  # a STOP that stays
        ("map_turtle_hatchling", ("nitrate",), False),
        ("musk_turtle", ("lamp_holder", "ph"), True),  # what is left may be a danger
        ("mud_turtle_settled", ("ammonia",), True),  # no danger, but a better grade
        ("musk_turtle", ("ammonia",), False),
        ("musk_turtle", (), False),
    ],
)
def test_what_may_be_a_danger_tells_whether_the_rest_can_move_the_grade(
    tank: str, left: tuple[str, ...], moves: bool
) -> None:
    interview = demo(tank)
    interview.answers = {p: a for p, a in interview.answers.items() if p.id not in left}
    names = open_names(interview)
    assert rest_can_move(assembly.tank_to_judge(interview), names) is moves
    assert can_move(assembly.judged_of(interview), names) is moves


def test_what_is_left_names_what_costs_most_first() -> None:
    interview = _last_of_first_look()
    for name in ("decor_hazards", "tank_origin", "platform_height_above_water", "heater_power"):
        interview.record(Place(name), demo("musk_turtle").answers[Place(name)].said)
    audit = assembly.audit_of(interview, "")
    checks = could_change(interview, audit)
    assert checks.index("lamp_plastic") < checks.index("nitrate")
    assert "rcd" not in checks, "it is answered"
    assert "It can't get better by that, only worse." in offer_said(interview, audit)


def test_what_is_left_may_better_the_grade() -> None:
    interview = assembly.new_interview()
    setups.fill(interview, setups.read(SOUND, interview.questionnaire))
    interview.answers = {
        place: answer
        for place, answer in interview.answers.items()
        if interview.is_first_look(place)
    }
    said = offer_said(interview, assembly.audit_of(interview, ""))
    assert "If all of that is in order, it is grade" in said


def test_done_ends_with_the_review_and_more_goes_on() -> None:
    held = talk(["none", "done", "more", "yes", "stop"], _last_of_first_look(), live=True)
    assert _labels(held)[1:3] == [OFFER, "Ready for the audit?"]
    assert "more" in held.face.asked[2].hint
    assert held.face.ids[3] == "platform_height_above_water"


def test_done_at_any_question_ends_with_the_review() -> None:
    held = talk(["done", "yes"], up_to("tank_size"))
    assert held.left is None
    assert held.face.ids == ["tank_size", "review"]


def test_done_still_asks_again_what_a_change_made_doubtful() -> None:
    interview = up_to("decor_hazards")
    held = talk(["done", "change heat lamp", "incandescent", "stop"], interview)
    assert held.face.ids[:4] == ["decor_hazards", "review", "heat_lamp_kind", "heat_lamp_height"]


def test_a_pipe_is_not_asked_whether_to_go_on() -> None:
    assert OFFER not in _labels(talk(["none", "yes"], _last_of_first_look()))


def test_at_the_counter_enter_ends_after_the_first_look() -> None:
    interview = _last_of_first_look()
    interview.at_counter = True
    for name in ("decor_hazards", "lamp_holder", "tank_origin", "heater_power"):
        interview.record(Place(name), demo("musk_turtle").answers[Place(name)].said)
    interview.record(Place("platform_height_above_water"), "2.5 cm")
    face = FakeFace(["no", "", "stop"])
    face.live = True
    with pytest.raises(Left):
        CounterTalk(interview, face, lambda: None, "counter").run()
    labels = [asked.label for asked in face.asked]
    assert labels[-2:] == [OFFER, "Ready for the audit?"]


def test_nothing_left_says_so() -> None:
    interview = demo("musk_turtle")
    audit = assembly.audit_of(interview, "")
    assert could_change(interview, audit) == []
    assert "can hardly change that; a minute or two more" in offer_said(interview, audit)
