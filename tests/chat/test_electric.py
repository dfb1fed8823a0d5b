"""Who felt or saw electricity out of place is told what to do before anything else.

Off at the breaker before a hand goes near, then an electrician: common practice, no source.
"""

from __future__ import annotations

import pytest
from fakes import talk, up_to

from interview.words.intents.accidents import tells_of_electricity

FELT = [
    "I got an electric shock from the water",
    "when I touch the water I feel a tingle",
    "my son got a shock when he put his hand in",
    "the water zapped me",
    "got zapped cleaning the filter",
    "the tank gives me little shocks",
    "I felt electricity in the water",
    "there are sparks coming from the plug",
    "the heater plug smells of burning",
    "the water is live, it tingles",
    "no idea why I get a tingle off the lamp",
    "I don't know why but I felt a shock",
    "it shocked me when I reached in for the filter",
    "my hands tingle whenever I do the water change",
    "I keep getting a small shock off the lamp",
    "my daughter was electrocuted by the tank, she's ok now",
    "a buzz goes through my fingers when I touch the water and the lamp",
    "smoke came out of the timer",
    "we noticed the socket sparking",
    "the plug has melted",
    "there is a burning smell from the power strip",
    "there's stray voltage in the tank, I measured 40 V",
    "No I get shocked when I touch the water",
    "every time I put my hand in I get this tingly feeling",
    "the lamp fell into the water",
    "there's a bare wire in the hood",
    "the heater cracked",
    "heater got cracked last week but still works",
    "the heater glass has a crack but it still heats",
    "there is a crack in my heater",
    "the plug caught fire",
    "the socket melted",
    "the socket is scorched",
    "the socket smells of burning",
    "the water is shocking me",
    "I get zapped",
    "sparks",
    "I get zapped whenever I clean the glass",
    "sparks when I plugged the heater in",
    "there was a flame at the timer",
    "the extension lead is scorched where the lamp plugs in",
    "when I dip a finger in it feels electric, like pins and needles",
    "the heater blew up in the water",
    "the outlet is black and hot to the touch",
    "the plug gets too hot to touch",
    "my heater went up in smoke",
    "he got a shock when I picked up the lamp",
    "I got a shock from the water when I lifted him out",
    "the plug burnt out",
    "I got a shock when I noticed the cable and touched it",
    "got shocked when I found it, touching the water",
    "the tank is on fire",
    "the stand is on fire",
    "the lamp set the towel on fire",
    "since last year I get a tingle off the lamp",
    "the tank was on fire last year and the plug sparks again",
    "last year I got a shock from the tank and never fixed it",
    "I got a shock from the tank a year ago, it is the same heater",
    "I had a shock from the water last year, we did nothing about it",
    "last year I got a shock from the tank and it hasn't been fixed",
    "I got a shock from the water last year, it never got fixed",
    "I got a shock from the water last year. My shelf was replaced",
    "I got a shock from the water last year, was it fixed?",
    "I got a shock from the water last year and should have had it fixed",
    "I got a shock from the tank last year, my old heater hangs in it",
    "I got a shock last year from the hood, if it was fixed I don't know",
    "a year ago I got a shock from the tank, I fixed the door",
    "I got a shock from the lamp last year, the lamp is fixed above the tank",
    "I got a shock from the filter months ago, replaced the filter media",
    "the lamp fell onto the towel and the towel is burning",
    "my daughter was shocked by the water",
    "there is a zap from the tank",
    "I got shocked",
    "the lamp fell onto the towel and it's burning",
    "my tank gives zaps",
    "when I put my hand in I feel a buzz",
    "the water bites me every time I touch the lamp",
    "the lamp fell in and the lights went out",
    "my hand goes numb when I touch the water",
    "fuse keeps blowing every time the lamp comes on",
    "the power went out when I plugged in the heater",
    "crackling noise from the power strip",
    "the cord is frayed and I can see copper",
    "water dripped into the power strip",
    "the socket got wet",
    "the towel over the lamp started to smoulder",
    "there is a fire",
]
NOT_FELT = [
    "I was shocked by the price of the lamp",
    "she is in shock",
    "I'm shocked how big he got",
    "to avoid an electric shock I use a GFCI",
    "no sparks or anything",
    "he likes to bask in the burning sun",
    "the shock absorbing mat under the tank",
    "my wife is afraid of getting a shock",
    "got a shock when I saw the bill",
    "no smoke, no smells",
    "it was a shock to see him so big",
    "what happens if I get an electric shock?",
    "the RCD is there so that nobody gets a shock",
    "bright spark at the shop told me",
    "I never got a shock from it",
    "there is a strong current in the water",
    "he was shocked when I lifted him",
    "smoked glass cover",
    "live plants and live food",
    "we live by the water",
    "can you get a shock from this?",
    "we don't smoke in the house",
    "the smoke detector is next to the tank",
    "I don't want to get an electric shock",
    "the water is live bearing fish water",
    "got shocked when I saw the price of lamps",
    "the lamp might fall into the water",
    "he got a shock as I lifted him",
    "it was a shock to see her",
    "got a bit of a shock at the price",
    "the lamp is burning all day",
    "I got a fright when he bit me",
    "I get a shock each month when the electricity bill comes",
    "the new plants spark my interest",
    "the ice melted in the tank within an hour",
    "the plug is black",
    "the bulb has burned out and I replaced it",
    "the room has an electric fire",
    "the basking light is electric",
    "if the plug caught fire would you know",
    "no burn marks on the plug",
    "I got a shock when I saw the price of a second hand lamp",
    "I got a shock when I saw him sitting by the filter outlet",
    "I got a shock when I saw the bill, the tank heater cable is fine",
    "the tank was on fire last year, the stand is replaced since",
    "I got a shock from the heater last year and threw it out",
    "the heater has no cracks",
    "a crack in the glass behind the heater",
    "years ago I got a shock from the old lamp",
    "I got a shock from the filter years ago and replaced the filter",
    "I got a shock from the tank last year, we had it rewired",
    "last year I got a shock from the water, an electrician fixed it",
    "I got a shock from the socket last year, the socket has been rewired since",
    "the sunset set the sky on fire",
    "we were shocked by the water bill",
    "I was shocked by the water temperature",
    "we zap his food in the microwave",
    "Zap basks all day",
    "the RCD trips when I press the test button",
    "the fuse blew last year, an electrician fixed it",
    "does the breaker trip when the heater is too big",
    "a drip loop stops water running into the socket",
    "there's a fire extinguisher",
    "water drips off the cord now and then",
    "lights go off when I go to bed",
    "the power went off when the storm came",
    "I see copper pipes in the room",
    "I feel a buzz of joy when he eats",
    "he bites me when I feed him",
    "the water stings my cuts",
    "the plug fell in behind the stand",
    "I can smell burning leaves outside",
]


@pytest.mark.parametrize("line", FELT)
def test_electricity_out_of_place_is_heard(line: str) -> None:
    assert tells_of_electricity(line)


@pytest.mark.parametrize("line", NOT_FELT)
def test_what_is_feared_asked_or_only_sounds_like_it_is_none(line: str) -> None:
    assert not tells_of_electricity(line)


def test_what_to_do_is_said_at_once_and_the_question_stands() -> None:
    held = talk(["I got an electric shock from the water", "100 x 40 x 40 cm"], up_to("tank_size"))
    said = held.face.tones("note")
    assert "Don't touch the water" in said[0] and "breaker" in said[0]
    assert "licensed electrician" in said[0] and "local emergency number" in said[0]
    assert not held.face.tones("refusal")
    assert held.said("tank_size") == "100 x 40 x 40 cm"


def test_it_is_said_where_a_list_is_to_be_agreed_to() -> None:
    told = "The tank is 100 x 40 x 40 cm and the water is 25 C"
    held = talk([told, "my hand tingles in the water", "yes"], up_to("tank_size"))
    assert " ".join(held.face.tones("note")).count("breaker") == 1


@pytest.mark.parametrize(
    "line",
    ["I can feel a tingle when I touch the water", "I can see sparks at the plug"],
)
def test_what_somebody_can_feel_or_see_is_there(line: str) -> None:
    assert tells_of_electricity(line)
