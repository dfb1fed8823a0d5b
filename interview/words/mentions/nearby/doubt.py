"""Whether an amount near a topic is doubted, mended or contradicted by another."""

from __future__ import annotations

from interview.words.lexicon.files import known_words
from interview.words.lexicon.rows import Near
from interview.words.mentions.competing import has_second, is_mended
from interview.words.mentions.relations import Candidate, Thing
from interview.words.mentions.scope.sentence import Sentence

__all__ = ["disagree", "is_doubtful"]


def disagree(sentence: Sentence, one: Candidate, other: Candidate) -> bool:
    """Whether two amounts of a sentence tell one fact: then neither is sure."""
    mine, its = sentence.parts[one.said_first], sentence.parts[other.said_first]
    same = one.fact.id == other.fact.id and one.fact.end == other.fact.end
    return same and not one.fact.says and (mine.said, mine.text) != (its.said, its.text)


def is_doubtful(
    sentence: Sentence, one: Candidate, topics: list[Thing], off: frozenset[int]
) -> bool:
    """Whether this breath or the one before says maybe, or another amount is offered for it."""
    first = next(
        at for at, n in enumerate(sentence.breaths) if n >= sentence.breaths[one.first] - 1
    )
    names = {
        at: topic.name
        for topic in topics
        if topic.name not in known_words("places")
        for at in range(topic.first, topic.end)
    }
    if sentence.is_doubted(first, one.end) or _is_offered(sentence, one):
        return True
    if one.end > one.said_end and is_mended(sentence, one.said_end):
        return True
    near: Near = one.fact  # type: ignore[assignment]
    if near.cues and sentence.words[one.said_first] == "<temperature>":
        return is_mended(sentence, one.end)  # the room is told twice, cold and warm
    return has_second(sentence, one, names, off)


def _is_offered(sentence: Sentence, one: Candidate) -> bool:
    """Whether one amount stands in for another: 77 to 26 °C; 25 cm above the dock, perhaps 26."""
    opened = known_words("competing", "cues") | {"to"}
    at = one.said_first
    while sentence.word(at - 1) in opened:
        at -= 1
    if at < one.said_first:
        return sentence.word(at - 1 - (sentence.word(at - 1) == ","))[:1] == "<"
    breath = sentence.breaths[at]
    told = [
        (n, part.said.partition(" ")[0].casefold() in known_words("doubts"))
        for n, part in zip(sentence.breaths, sentence.parts, strict=True)
        if part.said and part.kind in (sentence.parts[at].kind, "number")
    ]
    hedged = sentence.parts[at].said.partition(" ")[0].casefold() in known_words("doubts")
    return any(n == breath + 1 and so for n, so in told) or (
        hedged and any(n == breath - 1 for n, _ in told)
    )
