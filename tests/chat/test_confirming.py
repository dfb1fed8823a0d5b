"""An answer that can't be right, or hardly: the talk says the likely slip and asks to confirm."""

from __future__ import annotations

import pytest
from fakes import Held, talk, up_to

from interview.chat.hearing.replies import AFTER_THAT, says_yes
from interview.graph.given import Place

SPOT = "basking_temperature"
SLIP = "Perhaps the lamp had burned for less than an hour"
ASKS = "Is “22 °C” right?"


def _typed(*lines: str, live: bool = True) -> Held:
    return talk(list(lines), up_to(SPOT), live=live)


def _labels(held: Held) -> list[str]:
    return [asked.label for asked in held.face.asked]


@pytest.mark.parametrize("word", ["", "yes", "Yes."])
def test_a_yes_keeps_an_unlikely_answer(word: str) -> None:
    held = _typed("22 °C", word)
    assert SLIP in held.face.everything
    assert _labels(held)[1] == ASKS
    assert held.said(SPOT) == "22 °C"
    assert held.face.ids[2:3] != [SPOT]


def test_what_it_should_be_is_taken_in_its_place() -> None:
    held = _typed("22 °C", "31 °C")
    assert held.said(SPOT) == "31 °C"
    assert SPOT not in held.face.ids[2:]


def test_a_no_asks_again_with_the_old_answer_in_the_line() -> None:
    held = _typed("22 °C", "no", "31 °C")
    assert held.face.asked[2].place == Place(SPOT)
    assert held.face.asked[2].prefill == "22 °C"
    assert held.said(SPOT) == "31 °C"


def test_what_makes_no_sense_is_refused_and_asked_again() -> None:
    held = _typed("22 °C", "bananas", "31 °C")
    assert held.face.tones("refusal")
    assert held.face.asked[2].place == Place(SPOT)
    assert held.said(SPOT) == "31 °C"


def test_the_reason_can_be_asked_for_before_it_is_confirmed() -> None:
    held = _typed("22 °C", "why", "")
    assert held.face.tones("help")
    assert held.said(SPOT) == "22 °C"


def test_stop_leaves_with_the_answer_kept() -> None:
    held = _typed("22 °C", "stop")
    assert held.left and held.said(SPOT) == "22 °C"


def test_the_same_slip_is_asked_about_once() -> None:
    held = _typed("22 °C", "22.5 °C", "")
    assert held.face.everything.count(SLIP) == 1


def test_lines_from_a_pipe_are_told_and_go_on() -> None:
    held = _typed("22 °C", live=False)
    assert "If it is right, go on; “back” mends it." in held.face.everything
    assert ASKS not in _labels(held)


TOLD = "We have a slider of 20 cm in a 100 x 40 x 40 cm tank"
CORRECTED = {
    "no, it's 22 cm": ("carapace_length", "22 cm"),
    "it's 22 cm": ("carapace_length", "22 cm"),
    "no it's a cooter": ("species", "cooter"),
}


def test_what_there_is_none_of_is_no_other_choice() -> None:
    held = talk([f"{TOLD}, the heat lamp is a halogen of 50 W", "no UVB", "yes", "stop"])
    known = {place.id: answer.said for place, answer in held.interview.answers.items()}
    assert known["heat_lamp_kind"] == "halogen"


@pytest.mark.parametrize("line", CORRECTED)
def test_a_bare_correction_goes_to_the_one_line_that_it_fits(line: str) -> None:
    held = talk([TOLD, line, "yes", "stop"])
    name, said = CORRECTED[line]
    assert held.interview.answers[Place(name, 0)].said == said
    assert held.interview.answers[Place("tank_size")].said == "100 x 40 x 40 cm"
    assert not held.face.tones("refusal")


def test_a_line_called_wrong_is_asked_anew() -> None:
    held = talk([TOLD, "the shell length is wrong", "18 cm", "yes", "stop"])
    assert held.interview.answers[Place("carapace_length", 0)].said == "18 cm"


@pytest.mark.parametrize("line", ["looks good", "all correct", "i think so", "that's right"])
def test_a_list_is_agreed_to_in_many_words(line: str) -> None:
    held = talk([TOLD, line, "stop"])
    assert held.interview.answers[Place("tank_size")].said == "100 x 40 x 40 cm"
    assert not held.face.tones("refusal")


def test_a_yes_with_a_but_is_no_yes_yet() -> None:
    held = talk([TOLD, "yes but the tank is 120 cm long", "stop"])
    assert not held.interview.answers
    assert "Tank size outside: 120 x 40 x 40 cm" in held.face.everything


YES = [
    "that sounds about right yes",
    "yes that looks right to me",
    "yes that's all correct",
    "looks right",
    "spot on",
    "exactly right",
    "yup all good",
    "I think so",
    "yes please",
    "keep it all",
    "go ahead",
    "that's right, thanks",
    "perfect thank you",
    "sounds good to me",
    "yeah it all looks fine",
    "correct on all counts",
    "absolutely",
    "yes you got it all right",
    "everything is right as far as I know",
    "that should be right",
    "yes they are all right",
    "all true",
    "very good, thanks",
    "sure, keep them",
    "I guess that is right",
    "fine by me",
    "yes indeed",
    "ok that's good",
    "should be fine",
    "right you are",
    "you have it right",
]
NO_YES = [
    "not right",
    "that's not all correct",
    "almost right",
    "yes but he is bigger",
    "no that is wrong",
    "the second is right",
    "is that right?",
    "right one is wrong",
    "good question",
    "mostly right",
    "all but the first",
    "it's all wrong",
    "yes and he has a dock",
    "I don't think so",
    "keep the heater out",
    "not quite",
    "right, except the size",
    "is it all good?",
    "the tank is all glass",
    "yes, 22 cm",
    "are you sure",
    "you sure about that",
    "is that right",
    "is it all correct",
    "did you get that right",
    "right?",
    "sure?",
]


@pytest.mark.parametrize("line", YES)
def test_a_yes_may_be_said_in_many_words(line: str) -> None:
    assert says_yes(line)


@pytest.mark.parametrize("line", NO_YES)
def test_what_objects_asks_or_tells_more_is_no_yes(line: str) -> None:
    assert not says_yes(line)


@pytest.mark.parametrize(
    "line", ["are you sure", "is that right", "did you get it right", "right?"]
)
def test_who_asks_back_at_a_list_has_not_agreed_to_it(line: str) -> None:
    held = talk([TOLD, line, "stop"])
    assert not held.interview.answers
    assert [asked.label for asked in held.face.asked][1:3] == ["Is that right?"] * 2
    assert "I may have misread" in held.face.tones("help")[0] and not held.face.tones("refusal")


def test_who_asks_back_at_an_offer_has_not_agreed_to_it() -> None:
    held = talk(["My wife is pregnant", "are you sure", "no"])
    assert Place("vulnerable_person") not in held.interview.answers
    assert held.face.asked[1].label == held.face.asked[2].label != held.face.asked[3].label


def test_a_further_sentence_at_a_list_goes_into_it() -> None:
    more = ["we live up near Inverness", "I filled it up about half"]
    held = talk([TOLD, *more, "that sounds about right, yes"])
    assert not held.face.repeated
    assert held.interview.answers[Place("tank_size")].said == "100 x 40 x 40 cm"
    assert held.interview.answers[Place("region")].value == "united_kingdom"
    assert not [said for said in held.face.tones("refusal") if "line" in said]


def test_a_few_words_with_a_number_are_no_menu_error_either() -> None:
    held = talk([TOLD, "the ramp rises 30 degrees or so", "yes"])
    assert AFTER_THAT not in held.face.tones("note")
    assert "No line goes by" not in held.face.everything


def test_what_is_told_at_a_list_is_agreed_to_with_it() -> None:
    more = ["my lamp is 50 W and it hangs 30 cm above the dock", "the water is 25 C and 30 cm deep"]
    held = talk([TOLD, *more, "yes"])
    assert AFTER_THAT not in held.face.tones("note")
    assert held.said("heat_lamp_height") == "30 cm" and held.said("water_temperature") == "25 C"


def test_an_ill_animal_is_heard_at_a_list_at_once_and_once() -> None:
    held = talk([TOLD, "he is gasping with his mouth open", "yes"])
    said = [text for text in held.face.tones("note") if "veterinarian now" in text]
    assert len(said) == 1
    labels = [asked.label for asked in held.face.asked]
    assert "signs" in labels[labels.index("Is that right?") + 2]


def test_done_at_a_list_keeps_it_and_is_heard_after_it() -> None:
    held = talk([TOLD, "done"])
    assert held.interview.answers[Place("tank_size")].said == "100 x 40 x 40 cm"
    assert held.face.repeated == ["done"]
