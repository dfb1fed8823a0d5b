"""What is answered to a person rather than to an answer: worry, an ill animal, a beginning."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from interview.graph.answers import understand
from interview.graph.interview import Interview, Place
from interview.words.intents.people import Heard, home_in
from interview.words.lexicon.files import sayings

__all__ = [
    *("AT_RISK", "Offer", "home_told", "is_sentence", "offers", "said_of_illness"),
    *("said_of_life", "said_to"),
]

AT_RISK = Place("vulnerable_person")
_LEAST_WORDS = 4
_LEAST_WITH_A_NUMBER = 8


@dataclass(frozen=True)
class Offer:
    """An answer to another question that a sentence seems to hold, to be confirmed."""

    place: Place
    said: str
    label: str


def said_of_illness(heard: Heard) -> str:
    """Where an animal goes that shows a sign of illness; "" where none was heard."""
    if heard.at_once:
        return sayings().illness.at_once
    return sayings().illness.soon if heard.soon else ""


def said_of_life(labels: str) -> str:
    """What is honest where somebody asks if a turtle will live; `labels` of the signs told."""
    return sayings().illness.ill.format(signs=labels) if labels else sayings().illness.unseen


def said_to(heard: Heard, at: str) -> Iterator[str]:
    """What is said back, illness aside; `at` is the question that stands."""
    say = sayings().beginning
    if heard.distress and not heard.ill:
        yield say.distress
    if heard.newcomer and not heard.ill:
        yield f"{say.newcomer} {say.stage}" if at == "stage" else say.newcomer
    elif heard.buy:
        yield say.buy


def home_told(interview: Interview, line: str) -> str:
    """The name of the region a sentence tells: united_kingdom; "" where it tells none."""
    home = home_in(line)
    question = interview.question(Place("region"))
    return str(understand(question, home, interview.lists, "").value) if home else ""


def offers(heard: Heard, home: str, interview: Interview) -> Iterator[Offer]:
    """Answers to note, where the question applies and is open, or was denied; `home`: its name."""
    wanted = []
    if heard.at_risk:
        label = (
            "Shall I note that somebody at higher risk lives with the turtle (a child under 5, "
            "somebody of 65 or older, pregnant or with weak immunity)?"
        )
        wanted.append(Offer(AT_RISK, "yes", label))
    if home:
        options = interview.lists.options_of(interview.question(Place("region")))
        (region,) = (option.label for option in options if option.name == home)
        label = f"Shall I note your region as {region}?"
        wanted.append(Offer(Place("region"), home.replace("_", " "), label))
    relevant = interview.relevance()
    for offer in wanted:
        held = interview.answers.get(offer.place)
        is_open = held is None or held.value is False  # nobody at risk was told of, till now
        if relevant.get(offer.place) is not False and is_open:
            yield offer


def is_sentence(line: str) -> bool:
    """Whether a person talks, rather than types an answer that went wrong."""
    words = line.split()
    counts = any(word[0].isdigit() for word in words)  # a T5 is no number
    return len(words) >= (_LEAST_WITH_A_NUMBER if counts else _LEAST_WORDS)
