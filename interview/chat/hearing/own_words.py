"""An answer of several words at a question with choices, read behind what was asked.

What phrases take of such a line may be another thing's: “the guard over it is plastic” tells no
heater's body. And what they don't take may be a plain answer in a keeper's own words.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from typing import TYPE_CHECKING, NamedTuple

from interview.chat.hearing.replies import agreed_in
from interview.chat.hearing.told.elsewhere import DENIALS, is_of_others
from interview.chat.hearing.told.guessed import makes_safer
from interview.graph.examples import example_in
from interview.graph.interview import Interview, Place
from interview.graph.questions import Question
from interview.words.lexicon.files import known_words
from interview.words.text.refusal import NotUnderstood
from interview.words.text.tokens import plain_words

if TYPE_CHECKING:
    from interview.words.learned.readings import Choosing

__all__ = ["NOT_FOUND", "Meant", "at_question", "hold_to_what_is_told", "meant_by"]

NOT_FOUND = "I didn't find an answer to this question in that"
_LIKELY, _SURE, _HARDLY = 0.95, 0.998, 0.03
"""Chance from which a choice is offered, from which it is taken and said back, and under which
what phrases took is not believed (assumption; tests/RESULTS.md tells what comes of them)."""
_UNKNOWN, _NAMED = "unknown", "species"
"""Only who is asked can say the one; the other is told by its own name."""
_LONGEST = 500
"""Characters that are read; a longer line is a story."""
_LEAST_WORDS = 3
"""What is shorter names a choice, or is a slip of the finger."""


class Meant(NamedTuple):
    """A choice, as it would be typed, and whether it may be taken unasked."""

    said: str
    is_sure: bool


def at_question(question: Question, said: str) -> str:
    """An answer behind what was asked, as it was learned to be read."""
    return f"{question.label} {said}"


def meant_by(interview: Interview, place: Place, line: str) -> Meant | None:
    """The choice that a line probably means; None where none is likely enough.

    To “do you mean no?” nobody knows what yes says, so that a “no” is sure or nothing. Nor is a
    choice that makes the tank look safer offered to who limits it: yes, but I bypassed it. Who
    begins with yes means no “no”, whatever follows: yes unless he breaks it. Nor does who tells of
    other things alone deny what is asked: he never gets out on the dock.
    """
    question = interview.question(place)
    chances = _heard(question, line)
    best = max(chances, key=chances.__getitem__, default="")
    if best in ("", _UNKNOWN) or chances[best] < _LIKELY:
        return None
    opens = agreed_in(line)[0]
    if opens is not None and best in ("yes", "no") and opens is not (best == "yes"):
        return None
    if best in DENIALS and is_of_others(question, line):
        return None
    safer = makes_safer(place.id, best)
    if safer and not known_words("asked_instead", "limits").isdisjoint(plain_words(line).split()):
        return None
    sure = chances[best] >= _SURE and not safer
    return Meant(best.replace("_", " "), sure) if sure or best != "no" else None


def hold_to_what_is_told(interview: Interview, place: Place, line: str, said: str) -> None:
    """Refuse a choice that phrases took of a line which, as a whole, hardly tells it.

    What is only thought is an answer, too; two heaters are no two turtles. Raises NotUnderstood.
    """
    question = interview.question(place)
    if question.type == "count" and said == line and is_of_others(question, line):
        raise NotUnderstood("", NOT_FOUND, example_in(question, ""))
    thought = not known_words("doubts").isdisjoint(plain_words(line).split())
    chances = {} if thought else _heard(question, line)
    answer = interview.try_answer(place, said) if chances else None
    if answer is None or answer.how == "assumed":
        return
    if chances.get(answer.chosen, 1.0) < _HARDLY:
        raise NotUnderstood("", NOT_FOUND, example_in(question, ""))


def _heard(question: Question, line: str) -> Mapping[str, float]:
    """How likely a line answers with each choice; nothing of a few words, or of no choices."""
    words = [word for word in plain_words(line).split() if word.isalpha() and len(word) > 1]
    few = min(len(words), len(line.split())) < _LEAST_WORDS
    if few or question.id == _NAMED or question.type not in ("choice", "yes_no"):
        return {}
    chances = _read(at_question(question, line[:_LONGEST]))
    return chances[question.id].chances if question.id in chances else {}


@lru_cache(maxsize=2)
def _read(text: str) -> Mapping[str, Choosing]:
    from interview.words.learned.model import model
    from interview.words.learned.readings import heard

    return heard(model(), text, ()).choices
