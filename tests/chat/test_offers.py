"""What Enter takes: an offer that stands on the screen, none that something else was said to."""

from __future__ import annotations

import pytest
from fakes import FakeFace, Held, demo, talk, up_to

from interview import assembly
from interview.chat.rechecks.prediction import Prediction
from interview.chat.rechecks.recheck_talk import RecheckTalk
from interview.graph.interview import Place

LAMP = Place("heat_lamp_height")


def _rechecked(*lines: str) -> Held:
    """A recheck of the musk turtle's tank, whose lamp hangs at 22 cm."""
    interview = demo("musk_turtle")
    before, face = assembly.audit_of(interview, ""), FakeFace(lines)
    prediction = Prediction(interview, before, interview.known())
    with pytest.raises(Exception, match="left"):
        RecheckTalk(interview, face, lambda: None, prediction=prediction).run()
    return Held(face, interview, [])


def test_enter_takes_what_was_told_of_a_change() -> None:
    assert _rechecked("I raised the lamp 3 cm", "", "stop").said(LAMP.id) == "25 cm"
    asked = _rechecked("I raised the lamp 3 cm", "why", "", "stop")
    assert asked.said(LAMP.id) == "25 cm", "a question about it leaves the offer where it is"
    assert {one.prefill for one in asked.face.asked if one.place == LAMP} == {"25 cm"}


@pytest.mark.parametrize("tried", ["hm, maybe thirty cm or so I think", "30 kg", "9 m", "30 lumen"])
def test_enter_takes_no_offer_once_something_else_was_tried(tried: str) -> None:
    held = _rechecked("I raised the lamp 3 cm", tried, "", "stop")
    assert held.said(LAMP.id) == "22 cm"
    again = [one for one in held.face.asked if one.place == LAMP][1:]
    assert again and not any(one.prefill or one.keeps for one in again)


def test_yes_takes_what_was_offered_last_and_enter_says_so() -> None:
    tried = "hm, maybe thirty cm or so I think"
    held = _rechecked("I raised the lamp 3 cm", tried, "", "yes", "stop")
    assert "thirty cm" in held.said(LAMP.id)
    assert any(said.startswith("Enter alone takes nothing") for said in held.face.tones("note"))


def test_an_answer_that_is_shown_is_what_enter_keeps() -> None:
    interview = demo("musk_turtle")
    held = talk(["change lamp to platform", "30 kg", "", "stop"], interview)
    assert held.said(LAMP.id) == "22 cm"
    assert [one.before for one in held.face.asked if one.place == LAMP] == ["22 cm", "22 cm"]
    offered = talk(["change lamp to platform", "hm, maybe thirty cm or so", "", "stop"], interview)
    assert [one.before for one in offered.face.asked if one.place == LAMP] == ["22 cm", "", ""]


def test_what_is_told_in_place_of_a_correction_is_what_counts() -> None:
    told = "actually my tank is 90 x 40 x 40 cm"
    held = talk([told, "80 x 40 x 40 cm", "stop"], up_to("filter_kind"))
    assert held.said("tank_size") == "80 x 40 x 40 cm"
    assert talk([told, "", "stop"], up_to("filter_kind")).said("tank_size") == "90 x 40 x 40 cm"
    other = talk([told, "he likes it there", "", "no", "stop"], up_to("filter_kind"))
    assert other.said("tank_size") == "100 x 40 x 40 cm"
    assert other.face.tones("note").count("Yes or no first; what you typed comes after that.") == 2
