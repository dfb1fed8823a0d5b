"""What happens to a tank in its own words: an animal grew, a UVB lamp is new, the tank is built."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from interview.chat.hearing.changes import spoken
from interview.chat.hearing.references import matches
from interview.chat.hearing.what_if import asked_at
from interview.graph.interview import Interview, Place
from interview.words.intents.reference import turtle_in
from interview.words.intents.value import step_in, value_in
from interview.words.lexicon.files import known_words, listed
from interview.words.mentions.clauses import Clause
from interview.words.text.refusal import NotUnderstood

__all__ = ["Event", "event_told"]

_SHELL, _LAMP_AGE, _STAGE = "carapace_length", "uvb_lamp_age", "stage"

_STAGES = {"planning": 0, "set up": 1, "living": 2}


@dataclass(frozen=True)
class Event:
    """The answer an event leaves, to be taken with Enter, and why that one."""

    place: Place
    answer: str
    why: str


def event_told(
    interview: Interview, clause: Clause, find: Callable[[str], Place | None]
) -> Event | None:
    """What happened, where a clause tells of something that happens to tanks.

    Args:
        interview: the answers before
        clause: what was told
        find: which place a few words mean, asked back where several are meant
    """
    return (
        _grown(interview, clause, find) or _new_lamp(interview, clause) or _built(interview, clause)
    )


def _tells(clause: Clause, name: str) -> bool:
    """Whether a clause has a word of a list."""
    return not known_words("events", name).isdisjoint(clause.words)


def _grown(
    interview: Interview, clause: Clause, find: Callable[[str], Place | None]
) -> Event | None:
    """A shell by so much longer than it was, or as long as is told."""
    if not _tells(clause, "grew") or not clause.amounts:
        return None
    turtle, meant = turtle_in(clause), matches(interview, clause)
    of_animal = turtle is not None or _tells(clause, "animal")
    if not of_animal and any(place.id != _SHELL for place in meant):
        return None  # a gap may grow too
    if turtle is not None and turtle <= interview.animal_count:
        place: Place | None = Place(_SHELL, turtle - 1)
    elif interview.animal_count == 1:
        place = Place(_SHELL, 0)
    else:
        place = find("shell length")
    if place is None or place not in interview.answers:
        return None
    now = interview.known()[_SHELL][place.animal or 0]
    asked = asked_at(interview, interview.question(place))
    try:
        if "to" in clause.words:
            told, _ = value_in(clause, asked)
            return Event(place, told, f"I take it that this is {told} now.")
        longer = now + step_in(clause, asked, interview.region)
    except NotUnderstood:
        return None
    answer = spoken(interview, place, longer)
    before = interview.answers[place].said
    if not interview.takes(place, answer):
        return None
    return Event(place, answer, f"It was {before}, so {answer} now.")


def _new_lamp(interview: Interview, clause: Clause) -> Event | None:
    """A UVB lamp of the same kind, not yet lit."""
    place = Place(_LAMP_AGE)
    if not all(_tells(clause, name) for name in ("renewed", "uvb", "lamp")):
        return None
    if _tells(clause, "other_kind") or clause.amounts:
        return None
    if not interview.relevance().get(place):
        return None
    return Event(place, "0 h", "A new lamp has burned for 0 h.")


def _built(interview: Interview, clause: Clause) -> Event | None:
    """A planned tank that stands now, or one with an animal in it now."""
    text = " ".join(clause.words).replace(" now", "").replace(" has been ", " is ")
    lives = _tells(clause, "animal") and any(way in text for way in listed("events", "moved_in"))
    stands = _tells(clause, "tank") and any(way in text for way in listed("events", "built"))
    if _tells(clause, "device") or not (lives or stands):
        return None
    stage = "living" if lives else "set up"
    known = str(interview.known().get(_STAGE, "")).replace("_", " ")
    if _STAGES.get(known, 2) >= _STAGES[stage]:
        return None
    means = "an animal lives in it" if stage == "living" else "it is filled, with no animal yet"
    return Event(Place(_STAGE), stage, f"I take it that {means}.")
