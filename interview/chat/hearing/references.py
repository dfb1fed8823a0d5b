"""Which questions of an interview a keeper means by a few words."""

from __future__ import annotations

from functools import lru_cache

from interview.graph.interview import Interview, Place
from interview.graph.questions import Questionnaire
from interview.words.intents.reference import Named, referred
from interview.words.intents.which_turtle import leading_turtle
from interview.words.mentions.clauses import Clause, whole_clause
from interview.words.text.tokens import plain_words

__all__ = ["answers_behind", "matches", "name_of", "names_of", "thing_of", "turtle_of"]

_MOST = 9


@lru_cache(maxsize=4)
def names_of(questionnaire: Questionnaire) -> tuple[Named, ...]:
    """What every answer goes by, in asking order."""
    return tuple(Named(q.id, q.short, q.label, q.trade_names, q.type) for q in questionnaire)


def matches(interview: Interview, text: str | Clause, *, ahead: bool = False) -> list[Place]:
    """The places that fit the words about as well as each other, in asking order.

    `ahead` takes in questions that may come up later, too.
    """
    clause = whole_clause(text) if isinstance(text, str) else text
    if clause is None:
        return []
    relevant, turtle = interview.relevance(), leading_turtle(clause)
    places: dict[str, list[Place]] = {}
    for place, matters in relevant.items():
        meant = turtle is None or place.animal == turtle.number - 1
        if meant and (matters or (ahead and matters is None)):
            places.setdefault(place.id, []).append(place)
    if turtle is not None and not (clause := clause.after(turtle.end)).words:
        return [place for several in places.values() for place in several][:_MOST]

    def usual(name: str) -> bool:
        return any(p in interview.answers or interview.asked(p) for p in places[name])

    names = [one for one in names_of(interview.questionnaire) if one.id in places]
    found = referred(names, clause, usual)
    return [place for name in found for place in places[name]][:_MOST]


def answers_behind(interview: Interview, text: str) -> list[Place]:
    """For the name of a quantity that is worked out: the answers it is worked out from.

    Those its formula takes directly, where there are any; else those further up.
    """
    from interview.core.wiring import quantities

    wiring, name = quantities(), plain_words(text.replace("_", " ")).replace(" ", "_")
    spoken = {plain_words(one) for q in interview.questionnaire for one in q.trade_names}
    if name not in wiring.formulas or name in interview.questionnaire.giver:
        return []
    if name.replace("_", " ") in spoken:
        return []
    direct = {item.name for item in wiring.formulas[name].inputs}
    relevant = interview.relevance()
    found: list[Place] = []
    for names in (direct, wiring.upstream(name)):
        found = found or [
            place
            for place in interview.places()
            if relevant[place]
            and place in interview.answers
            and names & set(interview.question(place).names)
        ]
    return found[:_MOST]


def name_of(interview: Interview, place: Place) -> str:
    """The counter wording of a place, with the animal's number where there are several."""
    return turtle_of(interview, place) + interview.question(place).short


def turtle_of(interview: Interview, place: Place) -> str:
    """Which turtle a place is about, as “Turtle 2: ”; empty where there is only one."""
    if place.animal is None or interview.animal_count < 2:
        return ""
    return f"Turtle {place.animal + 1}: "


def thing_of(interview: Interview, place: Place) -> str:
    """What a distance is measured from, in a keeper's words: the heat lamp, the UVB lamp."""
    things = {
        "heat_lamp_height": "the heat lamp",
        "uvb_lamp_height": "the UVB lamp",
        "water_line_below_rim": "the water line",
    }
    return things.get(place.id, f"“{name_of(interview, place)}”")
