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
