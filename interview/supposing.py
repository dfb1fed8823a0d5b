"""What if, in the keeper's words: names and values as typed → the audit of the changed tank."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace
from typing import TYPE_CHECKING, Any, TypeAlias

from interview.base.near_spelling import nearest
from interview.graph.answers import understand
from interview.graph.given import named
from interview.graph.interview import AnswerRefused, Given, Interview
from interview.setups import SetupError
from interview.words.text.refusal import NotUnderstood

if TYPE_CHECKING:
    from interview.advice.what_if.suppose import Changes
    from interview.audit.audit import Audit

__all__ = ["ReadWords", "hold_together", "read_supposition", "read_suppositions", "suppose"]

ReadWords: TypeAlias = Callable[[Interview, str], dict[str, Any]]
"""What reads a change in ordinary words as core values; ValueError says what fails."""

_FORM = (
    "is not name=value, nor a change I can read; type for example water_line_below_rim=14cm "
    "or “the lamp 5 cm higher”."
)


def read_supposition(interview: Interview, text: str, read_words: ReadWords) -> dict[str, Any]:
    """`name=value` as typed at that question → core values; SetupError says what is wrong.

    Args:
        interview: the tank as it is
        text: a question's id or its counter wording and a value, as “lamp to platform=25cm”;
            or ordinary words, as “raise the lamp 2 inches”
        read_words: what reads the ordinary words
    """
    name, equals, said = (part.strip() for part in text.partition("="))
    if not equals:
        return _in_words(interview, text, read_words)
    if not said:
        raise SetupError(f"“{text}” {_FORM}")
    questions = interview.questionnaire
    question = questions.called(name)
    if question not in questions.of_tank:
        hint = f" Did you mean “{near}”?" if (near := _nearest(interview, name)) else ""
        raise SetupError(f"“{name}” is no answer that can be supposed.{hint}")
    try:
        answer = understand(question, said, interview.lists, interview.region)
    except NotUnderstood as problem:
        raise SetupError(f"{name}: {problem}") from problem
    if answer.value is None:
        raise SetupError(f"{name}: “{said}” leaves it open; type a value, as {question.example}.")
    return named(question, answer.value)


def read_suppositions(
    interview: Interview, texts: Iterable[str], read_words: ReadWords
) -> dict[str, Any]:
    """Several, each as `read_supposition` takes it; SetupError too for a tank that cannot be."""
    changes: dict[str, Any] = {}
    for text in texts:
        changes |= read_supposition(interview, text, read_words)
    hold_together(interview, changes)
    return changes


def _in_words(interview: Interview, text: str, read_words: ReadWords) -> dict[str, Any]:
    """A supposition told as at “what if”."""
    try:
        return read_words(interview, text)
    except ValueError as problem:
        raise SetupError(f"“{text}” {_FORM} {problem}") from problem


def hold_together(interview: Interview, changes: Changes) -> None:
    """SetupError, in the words of the question, for a tank that cannot be."""
    try:
        interview.hold_together(changes)
    except AnswerRefused as refused:
        raise SetupError(f"{refused.place.id}: {refused.alert}") from refused


def _nearest(interview: Interview, name: str) -> str:
    """The name of an answer that can be supposed and is spelled most like this one."""
    questions = interview.questionnaire.of_tank
    near = nearest(name, (way for q in questions for way in (q.id, q.short)), most=1)
    return near[0] if near else ""


def suppose(audit: Audit, given: Mapping[str, Given], changes: Changes) -> Audit:
    """Audit the tank as it would be with the changes, everything moved along."""
    from interview.advice.what_if.suppose import changed, moved_answers, to_take_again
    from interview.audit.audit import audit_tank

    tank = changed(audit.tank, changes)
    readings = dict(given)
    for name in moved_answers(audit.tank, changes):
        how = "supposed" if name in changes else "moved along"
        old = readings.get(name)
        if old is not None:
            readings[name] = replace(old, how="assumed", said=f"{how}; was {old.said}")
        else:
            unit = tank.unit_of(name)
            readings[name] = Given(name, unit, tank.best.known[name], "assumed", how, name)
    stale = to_take_again(audit.tank, tank, changes)
    for name in set(stale) & set(readings):
        said = f"taken before the change, so take it again; was {readings[name].said}"
        readings[name] = replace(readings[name], how="assumed", said=said)
    kept = {name: item for name, item in readings.items() if name in tank.best.known}
    return replace(audit_tank(tank, kept, audit.title), stale=stale)
