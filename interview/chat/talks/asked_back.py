"""A talk that answers what is asked back, at any prompt, and goes on with what was told beside."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from interview.chat.asked.parting import parted
from interview.chat.asked.topics_in import answer_to, is_known, topic_in
from interview.chat.faces.face import LEAST_WORDS, Asked
from interview.chat.hearing.asked_instead import asks_of_life, supposes
from interview.chat.hearing.changes import changes_in
from interview.chat.hearing.told.emergencies import said_before_all
from interview.chat.hearing.told.story import LEAST_WORDS_OF_FACT, read_story
from interview.chat.talks.stories import Stories
from interview.graph.answers import understand
from interview.graph.interview import Place
from interview.graph.staleness import same
from interview.words.intents.people import heard_in
from interview.words.lexicon.files import known_words, meant_by
from interview.words.lexicon.rules import any_named, things_of
from interview.words.text.refusal import NotUnderstood
from interview.words.text.tokens import plain_words

if TYPE_CHECKING:
    from interview.advice.advise import Advice

__all__ = ["AskedBack"]


@dataclass
class AskedBack(Stories):
    """A talk, as far as it answers questions."""

    advised: Callable[[], Advice | None] | None = None
    """Finds plans and lists, once there is an audit."""
    _answers_next: str = ""
    """What was asked beside an answer: answered once that is noted."""

    def hear(self, asked: Asked) -> str:
        """The line typed at a prompt, without what it asked, which is answered."""
        if asked.place:
            self.answer_what_waits()
        while True:
            line = super().hear(asked)
            told = self.answered_back(line, asked.place)
            if told is None:
                return line
            if told:
                return told

    def answer_what_waits(self) -> None:
        """Answer what was asked beside an answer, now that this one is noted."""
        asking, self._answers_next = self._answers_next, ""
        if asking:
            self._answer(asking)

    def answered_back(self, line: str, place: Place | None = None) -> str | None:
        """Answer what a line asks; what it tells besides, None where it asks nothing we know of.

        Args:
            line: as it was typed
            place: the question that stands, whose own words are left to it
        """
        asking, telling = parted(line)
        telling = "" if place and _does_something(telling) else telling
        if not asking or self._is_graver(line):
            return None
        if self._is_what_if(line):
            if (topic := topic_in(line)) and topic.before_trying:
                self.face.say(" ".join(topic.says))
            return None
        news = self.news_in(telling) if place else set()
        if self.advised is None and not (news - {place} or _is_of_another(place, asking, line)):
            return None
        answers = bool(place and telling and self.interview.takes(place, telling))
        if place and not answers and self.interview.takes(place, line):
            return None  # an answer with a question mark
        is_story = place is not None and self._is_story(telling, within=telling in asking)
        if answers or (is_story and is_known(line)):
            self._answers_next = asking if is_story and is_known(asking) else line
            return telling
        if news:
            return None  # no filter, is that ok: what was told before is no answer to that
        if not self._answer(asking) and not self._answer(line):
            return None
        if self.tells_of_people(line):
            return line
        return telling if is_story or self.news_in(telling) else ""

    def _is_story(self, telling: str, *, within: bool) -> bool:
        """Whether something is told beside a question, be it a kind of turtle alone.

        What stands `within` the question is told only where something in it is a fact.
        """
        if (words := len(telling.split())) >= LEAST_WORDS and not within:
            return True
        told = read_story(self.interview, telling) if telling else None
        sure = len(told.answers) - len(told.heard) if told else 0
        return sure > 1 or (sure > 0 and words >= LEAST_WORDS_OF_FACT)

    def _answer(self, line: str) -> bool:
        """Say what is known of a question; False where it is nothing."""
        with self.face.working("Looking that up."):
            audit = self.ahead.audit(self.interview, "")
            said = answer_to(audit, line, self.advised)
        if said:
            self.face.say(said)
        return bool(said)

    def _is_graver(self, line: str) -> bool:
        """Whether a line is first of all about an ill animal, or something that can't wait."""
        return heard_in(line).ill or asks_of_life(line) or bool(said_before_all(line))

    def _is_what_if(self, line: str) -> bool:
        """Whether a line asks, of a tank that is judged, what a change would do."""
        if self.advised is None or self.tells_of_people(line) or not self.news_in(line):
            return False
        is_amount = any(character.isdigit() for character in line)
        return is_amount or supposes(line) or topic_in(line) is None

    def news_in(self, line: str) -> set[Place]:
        """What a line says for sure would be otherwise than it is."""
        heard = changes_in(self.interview, line, supposed=True) if line else []
        return {
            change.place
            for change in heard
            if change.place
            and (told := change.told)
            and (told.way or self._is_new(change.place, told.said))
        }

    def _is_new(self, place: Place, said: str) -> bool:
        held, question = self.interview.answers.get(place), self.interview.question(place)
        try:
            value = understand(question, said, self.interview.lists, self.interview.region).value
        except NotUnderstood:
            return True
        return held is None or not same(held.value, value)


def _is_of_another(place: Place | None, asking: str, line: str) -> bool:
    """Whether it is asked of something else than how the question that stands is answered."""
    spoken = plain_words(asking).split()
    if not known_words("asked_instead", "of_answering").isdisjoint(spoken):
        return False
    if topic_in(line):
        return True
    own = things_of(place.id) if place else frozenset[str]()
    return known_words("asked_instead", "opens_wide").isdisjoint(spoken) and bool(
        _things_in(line) - own
    )


def _does_something(telling: str) -> bool:
    """Whether a turtle is told to do something, which answers nothing of its tank: he eats sand."""
    first, *rest = plain_words(telling).split() or ("",)
    having = known_words("asked_instead", "of_having")
    return first in ("he", "she", "they", "it") and bool(rest) and rest[0] not in having


def _things_in(line: str) -> set[str]:
    """The things and topics of words.yaml that a line names."""
    spoken, tables = f" {plain_words(line)} ", ("things", "topics")
    found = ((meant_by(one), any_named(one).findall(spoken)) for one in tables)
    return {meant[word.strip()] for meant, words in found for word in words}
