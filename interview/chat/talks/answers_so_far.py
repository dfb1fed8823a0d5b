"""What is known so far, as the keeper gave it."""

from __future__ import annotations

from interview.chat.faces.face import Face
from interview.chat.hearing.references import name_of
from interview.graph.interview import Interview, Place
from interview.graph.questions import Question

__all__ = ["left_open", "show_known", "shown_answer"]


def show_known(interview: Interview, face: Face) -> None:
    """List the answers topic by topic, those too that only count once another is given."""
    if not interview.answers:
        face.say("Nothing is known yet.")
    relevant = interview.relevance()
    for topic in interview.questionnaire.topics:
        rows = []
        for place in (p for p in relevant if relevant[p] is not False and p in interview.answers):
            if interview.questionnaire.topic_of[place.id] is topic:
                rows.append((name_of(interview, place), shown_answer(interview, place)))
        if rows:
            face.listing(topic.name, rows)


def shown_answer(interview: Interview, place: Place) -> str:
    """An answer as a keeper hears it: a choice by its label, else as it was typed."""
    answer = interview.answers[place]
    value = answer.value
    question = interview.question(place)
    options = interview.lists.options_of(question)
    said = next((o.label for o in options if o.name == value), answer.said)
    if isinstance(value, bool):
        said = "yes" if value else "no"
    doubtful = " (may have changed)" if place in interview.doubtful else ""
    open_ = _assumed(question) if answer.how == "assumed" else ""
    return f"{said}{open_}{doubtful}"


def _assumed(question: Question) -> str:
    """What stands in for an answer nobody could give."""
    assume = question.unsure.assume
    if not assume:
        return " (left open)"
    if question.unit in ("choice", "yes/no"):
        return " (assumed)"
    return " (the usual is assumed)" if "_" in assume else f" (assumed {assume})"


def left_open(interview: Interview) -> int:
    """How many questions that matter here have no value."""
    relevant = interview.relevance()
    empty = {
        place
        for place, answer in interview.answers.items()
        if answer.value is None and not interview.question(place).unsure.assume
    }
    open_ones = empty | (interview.skipped - set(interview.answers))
    return sum(1 for place in open_ones if relevant.get(place))
