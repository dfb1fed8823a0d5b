"""What is told in passing and can't wait for any answer: a shock, a fire, a person, a flood."""

from __future__ import annotations

from interview.words.intents.accidents import ACCIDENTS, tells_of, tells_of_electricity

__all__ = ["ON_LAND", "said_before_all"]

_ELECTRIC = (
    "That can't wait. Where something burns or smokes, or somebody was hurt: leave it, get "
    "everybody away and call your local emergency number. Don't touch the water, the tank or "
    "anything plugged in at it, nor whoever still holds on to it. Switch off at the breaker first, "
    "if you can reach it safely, then pull the plugs; nothing goes on again before a licensed "
    "electrician has found the fault. Whoever felt a shock sees a doctor."
)
ON_LAND = (
    "A tortoise lives on land, and so do most box turtles: where they can't stand they drown "
    "(common practice, no source). If it sits in water, lift it out now; a dish as shallow as its "
    "chin is high is all the water it needs. I know turtles that live in water, and no others: a "
    "reptile veterinarian tells how to house this one."
)
_ACCIDENTS = {
    "in_water": ON_LAND,
    "person": (
        "People come first. Whoever is unconscious, doesn't breathe or has a fit: call your local "
        "emergency number now. Whoever swallowed tank water or what is in it, or has fever or "
        "diarrhoea, asks a doctor, who should hear that there is a turtle: it can carry Salmonella."
    ),
    "flood": (
        "That can't wait. Don't step into water that reaches a plug or a strip: switch off at the "
        "breaker first, if you can reach it safely. Then the animal into a tub with some of its "
        "water, and empty the tank below the leak. Nothing goes on again before it is dry and an "
        "electrician has looked at what got wet."
    ),
    "lost": (
        "Shut doors, keep dogs and cats away, and look low and dark first: along walls, behind and "
        "under furniture (common practice, no source). Whoever fell or was dry for long is for a "
        "reptile veterinarian to look at, once found."
    ),
}


def said_before_all(line: str) -> str:
    """What can't wait, the gravest a line tells of; "" where it tells of nothing such."""
    if tells_of_electricity(line):
        return _ELECTRIC
    told = next((accident for accident in ACCIDENTS if tells_of(accident, line)), "")
    return _ACCIDENTS[told] if told else ""
