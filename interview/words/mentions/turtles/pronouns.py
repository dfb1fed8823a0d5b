"""The sex of the only turtle, by what a keeper calls it: Biscuit is a slider. She's 18 cm."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import partial

from interview.words.lexicon.files import known_words
from interview.words.mentions.attributes import Found
from interview.words.mentions.nearby.topics import topics_in
from interview.words.mentions.scope.sentence import Sentence
from interview.words.mentions.turtles.details import pronoun_of
from interview.words.mentions.turtles.kinds import KIND

__all__ = ["sex_by_pronoun"]

_list = partial(known_words, "animals")

_KEEPER = ("i", "im")
_WHOSE = ("her", "his")


def sex_by_pronoun(pairs: Sequence[tuple[Sentence, frozenset[int]]]) -> list[Found]:
    """Said as she or he, which is a guess; nothing where both are said, or others may be meant.

    Many call every turtle "he", so that counts only of one that has a name.
    """
    said = [one for sentence, off in pairs for one in _spoken(sentence, off)]
    pronouns = {one.said for one in said}
    is_named = any(map(_is_named, (sentence for sentence, _ in pairs)))
    return said[:1] if pronouns == {"she"} or (pronouns == {"he"} and is_named) else []


def _spoken(sentence: Sentence, off: frozenset[int]) -> Iterator[Found]:
    for at, word in enumerate(sentence.words):
        pronoun = pronoun_of(word)
        if pronoun and at not in off and _is_turtle(sentence, at):
            yield Found(sentence, "sex", pronoun, at, at + 1, 0)


def _is_turtle(sentence: Sentence, at: int) -> bool:
    """Whether the turtle is the only being there and in the sentence before, and no keeper."""
    behind = sentence.words[at + 1 : at + 4]
    if sentence.words[at] in _WHOSE and KIND in behind[:2]:  # my sister gave us her old slider
        return False
    if behind[:1] in (("is",), ("s",)):
        behind = behind[1:]
    if behind[:1] == ("<length>",) or KIND in behind[:2]:  # she is 20 cm; she's a musk
        return True
    if sentence.word(at + 1) in _list("deeds_of_people"):
        return False
    spoken = [one for one in (sentence, sentence.before) if one is not None]
    return not any(map(_has_another, spoken))


def _has_another(sentence: Sentence) -> bool:
    """Whether anybody but the keeper and the turtle is spoken of."""
    others = (t for t in topics_in(sentence) if t.name in ("people", "fish"))
    if any(sentence.words[t.first] not in (*_KEEPER, *_list("she"), *_list("he")) for t in others):
        return True
    if not _list("persons").isdisjoint(sentence.known):
        return True
    return any(_is_a_name(sentence, at) for at in range(len(sentence.words)))


def _is_a_name(sentence: Sentence, at: int) -> bool:
    """Whether somebody is called so behind “of” or “from”: in the office of Anna."""
    before = sentence.word(at - 1)
    return sentence.parts[at].look in ("name", "owner") and before in ("of", "from", "by", "with")


def _is_named(sentence: Sentence) -> bool:
    """Whether the turtle is called something: my slider Dot; Dot is a slider."""
    for at, word in enumerate(sentence.words):
        if word in ("named", "called") and sentence.parts[at + 1 :]:
            return True
        begins = at == 0 and sentence.word(1) in ("is", "s", "the") and KIND in sentence.known
        if begins and word not in known_words("fillers") | _list("any") and word != KIND:
            return True
        if sentence.parts[at].look == "name" and KIND in sentence.words[max(0, at - 3) : at + 5]:
            return True
    return False
