"""What a question is about: a topic of ours, else checks, by their words; and its answer."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from typing import TYPE_CHECKING

from interview.chat.hearing.asked_instead import supposes
from interview.report.asked.topics import Topic, all_topics
from interview.words.intents.of_whom import names_an_animal
from interview.words.lexicon.rules import any_phrase
from interview.words.text.tokens import plain_words

if TYPE_CHECKING:
    from interview.advice.advise import Advice
    from interview.audit.audit import Audit

__all__ = ["answer_to", "is_known", "topic_in"]

_NEARLY = 0.6
"""Share of the rarest words' weight from which a check counts beside the best (assumption)."""


def topic_in(line: str) -> Topic | None:
    """The first topic that a line asks of."""
    spoken = f" {plain_words(line)} "
    asked = (topic for topic in all_topics() if any_phrase(topic.asked).search(spoken))
    return next((t for t in asked if not (t.but and any_phrase(t.but).search(spoken))), None)


def is_known(line: str) -> bool:
    """Whether a line asks of something that we know of."""
    return topic_in(line) is not None or bool(_checks_in(line))


def answer_to(audit: Audit, line: str, advice: Callable[[], Advice | None] | None = None) -> str:
    """What is known of what a line asks; "" where it is about nothing that we know.

    Args:
        audit: the tank as it was told so far
        line: the question
        advice: finds plans and lists; None while the talk goes on
    """
    from interview.report.asked.answer import of_checks, of_topic  # heavy: not before an audit

    if topic := topic_in(line):
        return of_topic(topic, audit, advice, supposed=supposes(line))
    of_animal = names_an_animal(line)
    return of_checks(
        _checks_in(line), audit, supposed=supposes(line), of_animal=of_animal, ends=bool(advice)
    )


def _checks_in(line: str) -> frozenset[str]:
    """The checks of which most words stand in a line; of these those whose words are rarest.

    A word of few checks tells more than one of many: in “tap water” it is the tap.
    """
    from interview.audit.checks.loader import checks_by_id  # heavy: not before an audit

    spoken, checks = f" {plain_words(line)} ", checks_by_id().values()
    shared = Counter(word for check in checks for word in check.asked_of)
    said = {c.id: [word for word in c.asked_of if f" {word} " in spoken] for c in checks}
    many = {check: sum(len(word.split()) for word in words) for check, words in said.items()}
    most = max(1, *many.values())
    rare = {c: sum(1 / shared[w] for w in said[c]) for c, count in many.items() if count == most}
    return frozenset(c for c, told in rare.items() if told > _NEARLY * max(rare.values()))
