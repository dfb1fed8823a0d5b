"""An answer that can't be right, or hardly: the talk says the likely slip and asks to confirm."""

from __future__ import annotations

import pytest
from fakes import Held, talk, up_to

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
    assert held.face.tones("refusal")


def test_done_at_a_list_keeps_it_and_is_heard_after_it() -> None:
    held = talk([TOLD, "done"])
    assert held.interview.answers[Place("tank_size")].said == "100 x 40 x 40 cm"
    assert held.face.repeated == ["done"]
