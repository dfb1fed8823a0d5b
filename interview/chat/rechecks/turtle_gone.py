"""A turtle that is there no more: which one, and the answers that go with it."""

from __future__ import annotations

from interview.chat.faces.face import Asked
from interview.chat.hearing.choosing import Choosing
from interview.chat.hearing.replies import agreed_in, word_of
from interview.chat.hearing.turtles.called import meant_by
from interview.chat.hearing.turtles.of_a_kind import by_looks
from interview.graph.interview import Interview, Place

__all__ = ["take_out", "which_is_gone"]

_SHOWN = ("species", "carapace_length", "sex")


def which_is_gone(talk: Choosing, line: str) -> int | None:
    """Which of several turtles a line means, counted from 0; asked where it doesn't say.

    None where Enter says that all are there.
    """
    interview = talk.interview
    many = interview.animal_count
    if (meant := meant_by(interview, line)) is not None:
        return meant
    fit, is_sexed = by_looks(interview, line)
    if fit is not None and (is_sexed or _is_that_one(talk, fit)):
        return fit
    choices = [(f"turtle {one + 1}", _looks(interview, one)) for one in range(many)]
    asked = Asked("Which one is it?", "Type its number; Enter if all are there.", choices=choices)
    while word := word_of(talk.hear(asked)).removeprefix("turtle ").strip():
        if word.isdecimal() and 1 <= int(word) <= many:
            return int(word) - 1
        meant = meant_by(interview, word)
        if (meant := by_looks(interview, word)[0] if meant is None else meant) is not None:
            return meant
        talk.face.say(
            f"Type a number from 1 to {many}, or what sets it apart, as its kind.", "refusal"
        )
    return None


def take_out(interview: Interview, gone: int) -> list[Place]:
    """Count one turtle less; each behind it takes the place of the one before.

    Returns what is doubtful for that; what was told of the others is not.
    """
    many, own = interview.animal_count, [q.id for q in interview.questionnaire if q.repeat]
    held = {place: answer.said for place, answer in interview.answers.items()}
    doubted = set(interview.doubtful)
    recorded = interview.record(Place("animal_count"), str(many - 1))
    for turtle in range(many - 1):
        for name in own:
            said = held.get(Place(name, turtle if turtle < gone else turtle + 1))
            place = Place(name, turtle)
            if said is None:
                interview.answers.pop(place, None)
            elif said != held.get(place):
                interview.record(place, said)
            if place not in doubted:
                interview.doubtful.discard(place)
    return [place for place in recorded.doubtful if place.id not in own]


def _is_that_one(talk: Choosing, turtle: int) -> bool:
    """Whether the keeper means this one; Enter says yes."""
    label = f"Is it turtle {turtle + 1}: {_looks(talk.interview, turtle)}?"
    asked = Asked(label, "Enter or “yes” if it is; “no” asks which one.", completions=("yes", "no"))
    while (agrees := agreed_in(talk.hear(asked))[0]) is None:
        talk.face.say("Yes or no, please.", "refusal")
    return agrees


def _looks(interview: Interview, turtle: int) -> str:
    return ", ".join(said for name in _SHOWN if (said := _said(interview, name, turtle)))


def _said(interview: Interview, name: str, turtle: int) -> str:
    answer = interview.answers.get(Place(name, turtle))
    return answer.said if answer else ""
