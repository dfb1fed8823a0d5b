"""A question as the keeper sees it, with the answer given before."""

from __future__ import annotations

from dataclasses import replace
from typing import Any, Literal, TypeAlias

from interview.chat.faces.face import Asked
from interview.chat.hearing.references import turtle_of
from interview.graph.examples import example_in
from interview.graph.interview import Interview, Place
from interview.graph.questions import Question
from interview.vocabulary.phrases import fill
from interview.words.choices.absence import is_unsure

__all__ = ["Manner", "asked_at", "remark_on", "with_offer"]

Manner: TypeAlias = Literal["guided", "counter"]


def asked_at(interview: Interview, place: Place, manner: Manner) -> Asked:
    """The question at a place, in the words of the manner."""
    question = interview.question(place)
    topic, number, about = interview.progress(place)
    spoken, keeps = _before(interview, place)
    options = interview.lists.options_of(question)
    listed = [] if question.id in interview.lists.options else options
    label, hint = _worded(interview, question, manner)
    return Asked(
        label=label,
        hint=hint,
        topic=topic,
        number=number,
        about=about,
        animal=turtle_of(interview, place),
        choices=[(option.name, option.label) for option in listed],
        completions=_completions(question.type, options),
        prefill="" if is_unsure(keeps) else spoken,
        before=spoken,
        keeps=keeps,
        place=place,
        prose=not interview.answers,
    )


def remark_on(interview: Interview, question: Question) -> str:
    """The first remark on an answer that holds and whose numbers are known; "" without one."""
    if not question.remark:
        return ""
    lookup = interview.lookup()
    for remark in question.remark:
        if remark.when and not remark.when.holds(lookup, interview.unit_of):
            continue
        if said := fill(remark.say, lookup, interview.unit_of, interview.system):
            return said
    return ""


def with_offer(asked: Asked, answer: str, why: str) -> Asked:
    """The question with an answer that Enter takes."""
    hint = f"{why}Enter takes that. {asked.hint}"
    return replace(asked, hint=hint, prefill=answer, before="", keeps=answer)


def _worded(interview: Interview, question: Question, manner: Manner) -> tuple[str, str]:
    """The question and how to answer it; at the counter both are short."""
    if manner == "guided":
        return question.label, question.hint
    example = example_in(question, interview.system)
    hint = f"e.g. {example}" if example else ""
    return question.short, "yes / no" if question.type == "yes_no" else hint


def _before(interview: Interview, place: Place) -> tuple[str, str]:
    """An answer given before: in words, and as typed; both empty without one."""
    answer = interview.answers.get(place)
    if answer is None:
        return "", ""
    values = answer.value if isinstance(answer.value, tuple) else (answer.value,)
    if "_" not in answer.said or answer.said != ", ".join(map(str, values)):
        return answer.said, answer.said
    options = interview.lists.options_of(interview.question(place))
    labels = [option.label for option in options if option.name in values]
    return ", ".join(labels) or answer.said, answer.said


def _completions(kind: str, options: Any) -> tuple[str, ...]:
    """Words a keeper may type at a question, long enough to be worth completing."""
    if kind == "yes_no":
        return ("yes", "no")
    words = ((o.name.replace("_", " "), o.label.split(" (")[0], *o.also) for o in options)
    return tuple({w.casefold(): w for group in words for w in group if len(w) > 3}.values())
