"""How answers stand on the screen: before, assumed, and as choices to complete."""

from __future__ import annotations

from typing import Any

from interview.graph.interview import Interview, Place
from interview.graph.questions import Question

__all__ = ["assumed", "before", "completions"]


def before(interview: Interview, place: Place) -> tuple[str, str]:
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


def assumed(question: Question) -> str:
    """What stands in for an answer nobody could give."""
    assume = question.unsure.assume
    if not assume:
        return " (left open)"
    if question.unit in ("choice", "yes/no"):
        return " (assumed)"
    return " (the usual is assumed)" if "_" in assume else f" (assumed {assume})"


def completions(kind: str, options: Any) -> tuple[str, ...]:
    """Words a keeper may type at a question, long enough to be worth completing."""
    if kind == "yes_no":
        return ("yes", "no")
    words = ((o.name.replace("_", " "), o.label.split(" (")[0], *o.also) for o in options)
    return tuple({w.casefold(): w for group in words for w in group if len(w) > 3}.values())
