"""A setup put into an interview, and an interview's answers as a setup."""

from __future__ import annotations

from collections.abc import Iterator

from interview.base.bug_log import at_answer
from interview.graph.interview import AnswerRefused, Interview, Place
from interview.setups.setup import Setup, SetupError, short
from interview.words.text.refusal import NotUnderstood

__all__ = ["fill", "of_interview"]


def fill(interview: Interview, setup: Setup) -> None:
    """Put a setup's answers into an interview; SetupError names every one that can't be."""
    counter = next(q for q in interview.questionnaire if q.count_of)
    if setup.animals:
        guessed = setup.animals == 1 and setup.answers.get(Place(counter.id))
        interview.record(Place(counter.id), guessed or str(setup.animals))
    if counter.id in setup.doubtful:
        interview.doubtful.add(Place(counter.id))
    faults: list[str] = []
    for place in _in_order(interview, setup):
        said, doubtful = setup.answers[place], place.id in setup.doubtful
        try:
            with at_answer(place.id):
                interview.take_up(place, said, doubtful=doubtful)
        except NotUnderstood as problem:
            faults.append(f"{place.id}: {problem}")
        except AnswerRefused as problem:
            faults.append(f"{place.id} “{short(said)}”: {problem.alert}")
    interview.finer = setup.finer  # last, as it lets go of all that was worked out on the way
    if faults:
        raise SetupError("\n  ".join(faults))


def _in_order(interview: Interview, setup: Setup) -> Iterator[Place]:
    """The places a setup answers; how many animals there are was told before."""
    counter = {q.id for q in interview.questionnaire if q.count_of}
    places = list(interview.places())
    return (place for place in places if place in setup.answers and place.id not in counter)


def of_interview(interview: Interview, title: str) -> Setup:
    """The setup to save for an interview; its animals are counted, unless nobody is sure of it.

    Where one is told of before how many there are, that is in doubt.
    """
    counter = next(q.id for q in interview.questionnaire if q.count_of)
    told = max(
        (place.animal + 1 for place in interview.answers if place.animal is not None), default=0
    )
    doubtful = {p.id for p in interview.doubtful} | (
        {counter} if told > interview.animal_count else set()
    )
    return Setup(
        title=title,
        answers={
            place: answer.said
            for place, answer in interview.answers.items()
            if place.id != counter or answer.how == "assumed"
        },
        animals=interview.animal_count or told,
        doubtful=tuple(sorted(doubtful)),
        finer=interview.finer,
    )
