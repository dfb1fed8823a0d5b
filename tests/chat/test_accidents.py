"""Whoever tells of a person hurt, water on the floor or a lost turtle hears at once what to do.

What to do is common practice, no source.
"""

from __future__ import annotations

import pytest
from fakes import talk, up_to

from interview.words.intents.accidents import EMERGENCIES, tells_of

TOLD = {
    "there is water all over the floor": "flood",
    "water is pouring out of the bottom of the tank": "flood",
    "my tank is leaking onto the power strip": "flood",
    "the tank cracked and half of it is on the carpet": "flood",
    "the carpet is soaked": "flood",
    "water is coming through the ceiling below": "flood",
    "the tank is emptying itself": "flood",
    "the bottom fell out of the tank": "flood",
    "there is a crack running across the front glass": "flood",
    "the stand collapsed": "flood",
    "I swallowed water while siphoning": "person",
    "I feel sick since I cleaned the tank": "person",
    "the turtle is nowhere to be found": "lost",
    "lost my turtle in the garden": "lost",
    "the whole aquarium just split down the seam": "flood",
    "my husband is unconscious on the floor": "person",
    "my son had a seizure": "person",
    "my kid has fever and diarrhoea since we got the turtle": "person",
    "my two year old drank some of the tank water": "person",
    "he climbed out and I can't find him": "lost",
    "she escaped from the tank and has disappeared": "lost",
    "our turtle is missing": "lost",
    "woke up and he's not in the tank": "lost",
    "he got out last night, still searching": "lost",
    "she has gone missing": "lost",
    "he's been missing since noon": "lost",
    "my turtle is lost": "lost",
    "the slider ran off in the garden": "lost",
    "he escaped, we haven't found him": "lost",
    "he escaped again, last time we found him under the sofa": "lost",
    "I can not find my turtle": "lost",
    "the tank cracked from top to bottom": "flood",
    "there's a crack in the tank and it drips": "flood",
    "water coming out everywhere": "flood",
    "canister is leaking, drops on the floor": "flood",
    "the tank, which we bought used, is leaking": "flood",
    "the seam is dripping onto the cabinet": "flood",
    "external filter off, puddle on the laminate": "flood",
    "she isn't in the tub and the door was open": "lost",
    "he's been gone from his tank since breakfast": "lost",
    "the back glass has a crack": "flood",
    "the sump is overflowing onto the carpet": "flood",
    "there is a pool of water under the stand": "flood",
    "the hose popped off and water sprays everywhere": "flood",
    "my dad got shocked touching the lamp": "electric",
    "my nephew swallowed tank water": "person",
    "our toddler drank from the turtle tank": "person",
    "the tank bottom has split": "flood",
    "water is leaking through to the flat below": "flood",
    "the extension lead is sitting in water": "electric",
    "grandma, who feeds him, is unconscious": "person",
    "grandad fell over and is unconscious": "person",
    "my son has salmonella": "person",
    "my daughter tested positive for salmonella": "person",
    "my wife had a fit when she touched the tank": "person",
    "our tortoise swims in the tank": "in_water",
}
NOT_TOLD = [
    "the filter drips a little now and then",
    "I spilled some water on the floor at the water change",
    "the tank leaked two years ago and I resealed it",
    "the old tank burst on the 9th",
    "what would happen if the tank burst?",
    "water runs over the rocks like a waterfall",
    "water is pouring out of the filter outlet",
    "no leaks, everything is dry",
    "the floor was flooded at the old house, we moved since",
    "he is not in the tank yet",
    "I emptied the tank on the lawn",
    "most of the water is gone by evaporation",
    "the shelf came down in price",
    "a hairline crack in the lid",
    "can't see the thermometer anywhere",
    "I lost my turtle's papers",
    "we lost our turtle in spring, she was old",
    "I feel sick of it",
    "the tank is going to be 120 cm",
    "the tank split in two by a divider is for both",
    "my son fainted when he saw the price, lol",
    "my grandma passed away last year",
    "mum passed out years ago",
    "my son swallowed a pebble when he was small",
    "water all over the floor when I fill it",
    "my daughter never drinks the tank water",
    "I can't find the thermometer",
    "could he climb out over the filter?",
    "she escaped once two years ago, now there is a lid",
    "the tank cracked in 2019 and we bought a new one",
    "he is missing a claw",
    "my baby is missing her bottle",
    "my turtle is missing company",
    "my map turtle is missing from your list",
    "can't find the slider on the dimmer",
    "she got away with eating two pellets",
    "can't find him a good vet",
    "he disappeared under the dock",
    "he ran away from the camera",
    "she got out on the dock last night",
    "he got out last night, we found him under the sofa",
    "she ran away but came back",
    "the filter is running on the floor beside the tank",
    "the water on the floor of the tank is warm",
    "the water is everywhere clear",
    "the lid of the tank has a crack",
    "the filter is leaking air",
    "the glass is about to break my budget",
    "my son had a fit when I said no to a second one",
    "my daughter ate all the food",
    "my son drank a glass of water",
    "my kids don't have salmonella",
    "my wife says the turtle is unconscious",
    "my son dropped the turtle and it is unconscious",
    "a tortoise tank with no water",
    "the tortoise lives in a dry tank",
    "the heater burst into life at 24",
    "the socket is wet room rated",
    "my hands go numb from the cold water",
    "the breaker trips when I use the kettle in the kitchen",
]
SAID = {
    "flood": "breaker",
    "person": "emergency number",
    "lost": "look low and dark",
    "in_water": "lift it",
}


@pytest.mark.parametrize(("line", "accident"), TOLD.items())
def test_an_accident_is_heard(line: str, accident: str) -> None:
    assert [one for one in EMERGENCIES if tells_of(one, line)][:1] == [accident]


@pytest.mark.parametrize("line", NOT_TOLD)
def test_what_is_asked_over_or_harmless_is_none(line: str) -> None:
    assert not any(tells_of(one, line) for one in EMERGENCIES)


@pytest.mark.parametrize("accident", SAID)
def test_what_to_do_is_said_at_once_and_the_question_stands(accident: str) -> None:
    line = next(line for line, told in TOLD.items() if told == accident)
    held = talk([line, "100 x 40 x 40 cm"], up_to("tank_size"))
    assert SAID[accident] in held.face.tones("note")[0]
    assert held.said("tank_size") == "100 x 40 x 40 cm"
