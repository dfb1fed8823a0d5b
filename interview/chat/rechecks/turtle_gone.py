"""A turtle that is there no more: which one, and the answers that go with it."""

from __future__ import annotations

from interview.chat.faces.face import Asked
from interview.chat.hearing.choosing import Choosing
from interview.chat.hearing.replies import agreed_in, word_of
from interview.chat.hearing.turtles.known_turtles import meant_by
from interview.graph.interview import Interview, Place
from interview.words.lexicon.files import known_words
from interview.words.lexicon.rules import is_said
from interview.words.text.tokens import plain_words

__all__ = ["has_died", "take_out", "tells_of_one_gone", "which_is_gone"]

_SHOWN = ("species", "carapace_length", "sex")
_SEXES = {"male": "male", "boy": "male", "female": "female", "girl": "female"}


def tells_of_one_gone(line: str) -> bool:
    """Whether a line says that a turtle died or lives elsewhere."""
    return is_said(plain_words(line), "asked_instead", "turtle_left")


def has_died(line: str) -> bool:
    """Whether it died."""
    return not known_words("asked_instead", "turtle_died").isdisjoint(plain_words(line).split())


def which_is_gone(talk: Choosing, line: str) -> int | None:
    """Which of several turtles a line means, counted from 0; asked where it doesn't say.

    None where Enter says that all are there.
    """
    interview = talk.interview
    many = interview.animal_count
    if (meant := meant_by(interview, line)) is not None:
        return meant
    if (fit := _by_looks(interview, line)) is not None and (
        _SEXES.keys() & plain_words(line).split() or _is_that_one(talk, fit)
    ):
        return fit
    choices = [(f"turtle {one + 1}", _looks(interview, one)) for one in range(many)]
    asked = Asked("Which one is it?", "Type its number; Enter if all are there.", choices=choices)
    while word := word_of(talk.hear(asked)).removeprefix("turtle ").strip():
        if word.isdecimal() and 1 <= int(word) <= many:
            return int(word) - 1
        meant = meant_by(interview, word)
        if (fit := _by_looks(interview, word) if meant is None else meant) is not None:
            return fit
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


def _by_looks(interview: Interview, line: str) -> int | None:
    """The only turtle of the kind and the sex that a line names; None where it names none."""
    spoken = {*plain_words(line).split()} - known_words("animals", "any")
    turtles = range(interview.animal_count)
    sexes = {_SEXES[word] for word in spoken if word in _SEXES}
    kinds = [_kind_words(interview, turtle) for turtle in turtles]
    kind = {word for word in spoken if 0 < sum(word in one for one in kinds) < len(kinds)}
    fit = [
        turtle
        for turtle in turtles
        if kind <= kinds[turtle] and sexes <= {_said(interview, "sex", turtle)}
    ]
    return fit[0] if (kind or sexes) and len(fit) == 1 else None


def _kind_words(interview: Interview, turtle: int) -> set[str]:
    """The words of a turtle's kind: as it was told, and as it is called."""
    place = Place("species", turtle)
    answer, options = interview.answers.get(place), interview.lists.options_of
    if answer is None:
        return set()
    labels = [one.label for one in options(interview.question(place)) if one.name == answer.chosen]
    return {*plain_words(" ".join([answer.said, *labels])).split()}


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
