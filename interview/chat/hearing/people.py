"""What is answered to a person rather than to an answer: worry, an ill animal, a beginning."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from interview.graph.answers import understand
from interview.graph.interview import Interview, Place
from interview.words.intents.people import Heard, home_in

__all__ = [
    "AT_RISK",
    "WHAT_TO_BUY",
    "Offer",
    "home_told",
    "is_sentence",
    "offers",
    "said_of_illness",
    "said_of_life",
    "said_to",
]

AT_RISK = Place("vulnerable_person")
_LEAST_WORDS = 4
_LEAST_WITH_A_NUMBER = 8

_AT_ONCE = (
    "That can't wait: call a reptile veterinarian now, before we go on. Until then keep the animal "
    "warm, quiet and by itself, in shallow water or on a damp towel if it can't hold its head up."
)
_SOON = (
    "That sounds like an animal that needs a reptile veterinarian within a day or two, sooner if "
    "it gets worse. I can't tell what it is. Cold or foul water and weak light often stand behind "
    "it, and those I can check: let's go on."
)
_UNSEEN = (
    "I can't tell, and won't guess: I see your answers, not the animal. Where it shows anything "
    "that worries you, a reptile veterinarian can tell; say what you see, and I note it."
)
_ILL = (
    "Nobody can tell that from here, and I won't guess. You told of this: {}. A reptile "
    "veterinarian who sees the animal can tell: call one today, and don't wait for the tank."
)
_DISTRESS = "You are looking after it, and that counts most. Let's take one thing at a time."
_NEWCOMER = (
    "Welcome. We'll go through it step by step; “not sure” is always an answer, and at the end you "
    "get a list of what to do and what to buy, in order."
)
WHAT_TO_BUY = (
    "What to buy stands at the end of the audit, in order and by size, because it hangs on the "
    "animal and the tank. Answer what you know, skip the rest."
)
_STAGE = "If nothing is filled yet, type planning; if the turtle already swims in a tank, living."


@dataclass(frozen=True)
class Offer:
    """An answer to another question that a sentence seems to hold, to be confirmed."""

    place: Place
    said: str
    label: str


def said_of_illness(heard: Heard) -> str:
    """Where an animal goes that shows a sign of illness; "" where none was heard."""
    if heard.at_once:
        return _AT_ONCE
    return _SOON if heard.soon else ""


def said_of_life(labels: str) -> str:
    """What is honest where somebody asks if a turtle will live; `labels` of the signs told."""
    return _ILL.format(labels) if labels else _UNSEEN


def said_to(heard: Heard, at: str) -> Iterator[str]:
    """What is said back, illness aside; `at` is the question that stands."""
    if heard.distress and not heard.ill:
        yield _DISTRESS
    if heard.newcomer and not heard.ill:
        yield f"{_NEWCOMER} {_STAGE}" if at == "stage" else _NEWCOMER
    elif heard.buy:
        yield WHAT_TO_BUY


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
