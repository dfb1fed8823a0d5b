"""What is told in passing of an ill animal is kept for its question, once the keeper agrees."""

from __future__ import annotations

import pytest
from fakes import FakeFace, Held, demo, talk, up_to

from interview import assembly
from interview.audit.checks.loader import all_checks
from interview.chat.hearing.told.signs_told import SIGNS
from interview.chat.talks.guided import Left
from interview.chat.together.counter import CounterTalk
from interview.graph.interview import Interview
from interview.words.intents.people import heard_in
from interview.words.lexicon.files import people

EYES = "one has swollen shut eyes and doesn't eat"
KEPT = "swollen eyes, not eating"
SHOWN = "swollen eyes or a lump at the ear; won't eat"
TANK = "Our musk turtle lives in a 100 x 40 x 40 cm tank with a canister filter. {} "
ILL = [
    "He has a cloudy eye",
    "the turtle has a burnt shell",
    "our slider's shell is burned",
    "she has one milky eye and sleeps a lot",
    "my turtle's eye is cloudy since Friday",
    "his shell is scorched at the back",
    "her eyes look hazy and he sits on the dock all day",
    "since last year he has a cloudy eye",
    "my daughter says he has swollen eyes",
    "my dog has bitten the turtle and there is blood on it",
    "the fish is fine he gasps",
    "He was fine years ago, now he won't eat",
    "she is gasping again like last year",
    "he is breathing with open mouth like he did last year",
    "last year he was bleeding and now again",
    "her shell is soft where she was dropped last year",
    "his eyes are swollen worse than last year",
    "stopped eating a year ago and still doesn't",
    "the shell is soft since about a year ago",
    "Last year he had swollen eyes and they are swollen again",
    "he had a prolapse last year and had another this morning",
    "last year he had swollen eyes. Now they are swollen again",
    "like last year she won't eat",
    "her shell is soft, the vet saw it last year",
    "my son's Rocky is bleeding",
    "the dog has bitten Shelly",
    "our dog has bitten little Tina",
    "the dog has bitten our new one",
    "the dog has bitten his leg",
    "his little friend has swollen eyes",
    "my husband has seen blood on the shell",
    "my son has seen red patches",
    "my daughter's pet won't eat",
    "my daughter has noticed he has swollen eyes",
    EYES,
]
NOT_ILL = [
    "my dog has a cloudy eye",
    "my cat has swollen eyes",
    "my daughter has an eye infection",
    "the water is cloudy",
    "milky water and a hazy glass",
    "the bulb is burnt",
    "the burnt bulb hangs over his shell",
    "he had a cloudy eye last year",
    "two years ago she had a burnt shell",
    "he had swollen eyes last year but that is long gone",
    "last year he had swollen eyes. He is better now",
    "last year he was bleeding, never again since",
    "a year ago he stopped eating for a week",
    "years ago our first turtle had a soft shell",
    "my dog was bitten by a tick",
    "the dog has bitten our cat",
    "the cat has bitten me",
    "my husband has a runny nose",
    "I'm worried he could get swollen eyes",
    "I don't want him to get shell rot",
    "no swollen eyes",
    "no cloudy eye and no burnt shell",
    "the glass is cloudy at his eye level",
]


def _at_counter(lines: list[str], interview: Interview) -> Held:
    face = FakeFace(lines)
    held = Held(face, interview, [])
    try:
        CounterTalk(interview, face, lambda: None, "counter").run()
    except Left as left:
        held.left = left
    return held


def _vet(held: Held) -> int:
    return " ".join(held.face.tones("note")).count("a reptile veterinarian")


@pytest.mark.parametrize("line", ILL)
def test_an_ill_animal_is_heard(line: str) -> None:
    assert heard_in(line).ill


@pytest.mark.parametrize("line", NOT_ILL)
def test_what_is_of_another_or_past_or_denied_is_no_illness(line: str) -> None:
    assert not heard_in(line).ill


def test_signs_told_at_another_question_stand_at_their_own() -> None:
    for held in (
        talk([EYES, "no", "", "stop"], up_to("vulnerable_person")),
        _at_counter([EYES, "no", "", "stop"], up_to("vulnerable_person")),
    ):
        shown = next(one for one in held.face.asked if one.place == SIGNS)
        assert shown.prefill == KEPT and SHOWN in shown.hint
        assert held.interview.answers[SIGNS].value == ("swollen_eyes", "not_eating")
        assert _vet(held) == 1


@pytest.mark.parametrize(
    ("line", "signs"),
    [
        ("not eating, puffy eyes", {"swollen_eyes", "not_eating"}),
        ("his eyes look puffy and he hasn't eaten in 5 days", {"swollen_eyes", "not_eating"}),
        ("eyes puffy since Thursday & won't eat", {"swollen_eyes", "not_eating"}),
        ("the dog bit her leg and she is not moving", {"bleeding"}),
        ("he ate a pebble", {"swallowed"}),
        ("he swallowed a sponge", {"swallowed"}),
        ("she swallowed a bit of it", {"another_emergency"}),
    ],
)
def test_each_sign_of_a_line_is_heard(line: str, signs: set[str]) -> None:
    assert {*heard_in(line).signs} == signs


def test_what_is_typed_where_told_signs_stand_is_the_answer() -> None:
    held = talk([EYES, "no", "nose bubbles", "stop"], up_to("vulnerable_person"))
    assert held.said("warning_signs") == "nose bubbles"
    held = talk([EYES, "no", "none", "stop"], up_to("vulnerable_person"))
    assert held.interview.answers[SIGNS].value == ()


@pytest.mark.parametrize(("reply", "kept"), [("yes", True), ("no", False)])
def test_who_is_done_where_told_signs_stand_is_asked_to_note_them(reply: str, kept: bool) -> None:
    held = _at_counter([EYES, "done", "done", reply, "yes"], up_to("vulnerable_person"))
    labels = [one.label for one in held.face.asked]
    assert f"Shall I note first: {SHOWN}?" in labels
    assert (SIGNS in held.interview.answers) is kept
    assert held.face.asked[-1].label == "Ready for the audit?"


def test_signs_told_after_others_were_answered_are_asked_beside_them() -> None:
    interview = demo("musk_turtle")
    interview.record(SIGNS, "soft shell")
    held = talk(
        ["change ph", "he is bleeding from the tail and gasps", "7.4", "", "stop"], interview
    )
    shown = next(one for one in held.face.asked if one.place == SIGNS)
    assert shown.prefill == "soft shell, gasping, bleeding"
    assert {*held.interview.answers[SIGNS].value} == {"soft_shell", "gasping", "bleeding"}
    assert assembly.audit_of(held.interview, "").grades.stop
    held = talk([TANK.format("He has a burnt shell."), "yes", "stop"], _with_soft_shell())
    assert {*held.interview.answers[SIGNS].value} == {"soft_shell", "bleeding"}


def test_signs_that_were_answered_are_not_asked_again() -> None:
    held = talk(["his shell is soft", "stop"], _with_soft_shell())
    assert held.said("warning_signs") == "soft shell" and "warning_signs" not in held.face.ids
    assert SIGNS not in held.interview.doubtful


def _with_soft_shell() -> Interview:
    interview = up_to("vulnerable_person")
    interview.record(SIGNS, "soft shell")
    return interview


TWO = (
    "Two turtles, a map of 9 cm and a slider of 14 cm, live in a 120x50x50 cm tank in Ohio. "
    "The slider has swollen eyes."
)


def test_a_sign_told_at_a_list_is_asked_beside_those_that_it_holds() -> None:
    held = talk([TWO, "he is bleeding too", "yes", "", "stop"])
    shown = next(one for one in held.face.asked if one.place == SIGNS)
    assert shown.prefill == "swollen eyes, bleeding"
    assert {*held.interview.answers[SIGNS].value} == {"swollen_eyes", "bleeding"}


@pytest.mark.parametrize("line", ["no signs of illness", "no {}"])
def test_a_sign_left_out_of_a_list_does_not_stand_at_its_question(line: str) -> None:
    rows = talk([TWO]).face.listings[0][1]
    (number,) = (n for n, (name, _) in enumerate(rows, 1) if "Signs of illness" in name)
    held = talk([TWO, line.format(number), "yes", "stop"])
    shown = next(one for one in held.face.asked if one.place == SIGNS)
    assert not shown.prefill and "You told" not in shown.hint
    assert SIGNS not in held.interview.answers


@pytest.mark.parametrize(
    ("line", "sign"),
    [
        ("and nose bubbles", "nose_bubbles"),
        ("also soft shell", "soft_shell"),
        ("soft shell as well", "soft_shell"),
        ("he is gasping too", "gasping"),
        ("Plus nose bubbles.", "nose_bubbles"),
    ],
)
def test_what_is_added_to_told_signs_leaves_them(line: str, sign: str) -> None:
    held = talk(["he bleeds from the tail", line, "stop"], up_to("lamp_fixings"))
    assert held.face.ids[:1] == ["lamp_fixings"]
    held = talk(["he bleeds from the tail", "2", line, "stop"], up_to("lamp_fixings"))
    assert {*held.interview.answers[SIGNS].value} == {"bleeding", sign}
    assert not any("leaves out" in said for said in held.face.tones("note"))


def test_what_takes_the_place_of_told_signs_says_what_it_leaves_out() -> None:
    held = talk(["he bleeds from the tail", "2", "nose bubbles", "stop"], up_to("lamp_fixings"))
    assert held.interview.answers[SIGNS].value == ("nose_bubbles",)
    said = next(said for said in held.face.tones("note") if "leaves out" in said)
    assert "bleeds, bite, burn or cracked shell" in said and "“also …” adds" in said


def test_a_question_stays_where_an_illness_is_told_at_it() -> None:
    held = talk(["change ph", "he is bleeding", "7.3", "", "stop"], demo("musk_turtle"))
    assert held.said("ph") == "7.3"
    assert held.face.ids[1:4] == ["ph", "ph", "warning_signs"]


def test_a_none_from_before_is_not_what_stands_there() -> None:
    interview = up_to("lamp_fixings")
    interview.record(SIGNS, "none")
    held = talk([EYES, "2", "done", "", "stop"], interview)
    shown = next(one for one in held.face.asked if one.place == SIGNS)
    assert shown.prefill == KEPT and not shown.before
    assert held.interview.answers[SIGNS].value == ("swollen_eyes", "not_eating")


def test_signs_in_a_paragraph_stand_in_its_list() -> None:
    held = talk([TANK.format("He has a burnt shell and swollen eyes."), "yes", "stop"])
    assert set(held.interview.answers[SIGNS].value) == {"bleeding", "swollen_eyes"}
    (told,) = (said for row, said in held.face.listings[0][1] if "Signs of illness" in row)
    assert "burn or cracked shell" in told
    assert not any("Not used" in said for said in held.face.tones("note"))
    assert _vet(held) == 1 and "warning_signs" not in held.face.ids


def test_an_illness_that_is_no_sign_to_choose_is_another_and_its_page_says_so() -> None:
    held = talk([TANK.format("He has a cloudy eye. The filter is leaking a bit."), "yes", "stop"])
    assert _vet(held) == 1
    assert held.interview.answers[SIGNS].value == ("another_illness",)
    (found,) = (
        one for one in assembly.audit_of(held.interview, "").findings if one.check == SIGNS.id
    )
    assert found.verdict == "wrong" and "veterinarian today" in found.do


def test_an_emergency_that_is_no_sign_to_choose_cannot_wait() -> None:
    held = talk(["he isn't breathing and won't wake", "no", "", "stop"], up_to("vulnerable_person"))
    assert held.interview.answers[SIGNS].value == ("another_emergency",)
    (found,) = (
        one for one in assembly.audit_of(held.interview, "").findings if one.check == SIGNS.id
    )
    assert found.verdict == "danger"


def test_no_page_says_that_no_sign_was_named_where_nothing_was_answered() -> None:
    held = _at_counter([EYES, "done", "done", "no", "yes"], up_to("vulnerable_person"))
    findings = assembly.audit_of(held.interview, "").findings
    (said,) = (one.say for one in findings if one.check == SIGNS.id)
    assert "No sign" not in said and "wasn't answered" in said


def test_the_signs_that_are_heard_are_those_to_choose_from() -> None:
    question = assembly.questionnaire().by_id[SIGNS.id]
    told = [*people().signs_at_once, *people().signs_soon]
    told += ["another_emergency", "another_illness"]  # whatever else is told of
    assert sorted(told) == sorted(choice.name for choice in question.choices)
    check = next(one for one in all_checks() if one.id == SIGNS.id)
    dangers = str(check.whens["danger_when"])
    assert all(name in dangers for name in people().signs_at_once)
    assert not any(name in dangers for name in people().signs_soon)
