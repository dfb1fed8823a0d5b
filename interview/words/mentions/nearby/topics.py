"""The topics of a sentence, and which of them an amount or a word belongs to."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from functools import cache, partial

from interview.words.lexicon.files import before_thing, known_words, meant_by
from interview.words.lexicon.rows import Near
from interview.words.lexicon.rules import any_named
from interview.words.mentions.being import is_of_somebody
from interview.words.mentions.relations import Candidate, Thing, with_lamps
from interview.words.mentions.scope.sentence import Sentence

__all__ = ["owner", "topics_in"]

_MARKED = {"<trade>": "tank", "<size3>": "tank", "<kind>": "turtle"}
_ALONE = "-"
"""In a row's topics: it needs none, where no other topic keeps the words from it."""
_FAR = 14
"""Words between a topic and what is told of it."""
_CARRIED = 10
"""Words of a sentence that goes on about the topic of the one before: Mounted flat. 200 watts."""


def topics_in(sentence: Sentence) -> list[Thing]:
    """Every topic named, in order."""
    meant = _meant()
    found = [
        Thing(meant[match.group().strip()], first, end)
        for first, end, match in sentence.spots(any_named("things", "topics"))
    ]
    for at, word in enumerate(sentence.words):
        if word in _MARKED:
            found.append(Thing(_MARKED[word], at, at + 1))
    found.sort(key=lambda topic: topic.first)
    return list(_resolved(sentence, with_lamps(sentence, found)))


@cache
def _meant() -> Mapping[str, str]:
    """The topic that each of their names means."""
    return {**meant_by("things"), **meant_by("topics")}


def _resolved(sentence: Sentence, topics: Iterable[Thing]) -> Iterator[Thing]:
    """The topics with “she” as the person named before her, and no supper that tells the time."""
    person, meals = False, partial(known_words, "times_of_meals")
    for topic in topics:
        word, before = sentence.words[topic.first], sentence.word(topic.first - 1)
        if word in meals("named") and before in meals("when"):
            continue
        if topic.name == "turtle" and word in known_words("pronouns") and person:
            topic = Thing("people", topic.first, topic.end)
        elif topic.name in known_words("animate"):
            person = topic.name == "people" and word not in ("i", "im")
        yield topic


def owner(
    sentence: Sentence, one: Candidate, near: Near, topics: list[Thing]
) -> tuple[Thing | None, int | None]:
    """The row's topic that the words belong to and how far off it is; None where none is."""
    ahead = _right_behind(sentence, one, topics)
    if ahead is not None and (ahead.name in near.topics or ahead.name not in known_words("places")):
        is_own = ahead.name in near.topics and not shares(sentence, ahead, topics)
        return ahead, 0 if is_own else None
    for topic in reversed([topic for topic in topics if topic.end <= one.first]):
        if _is_an_end(sentence, topic, one):
            continue
        away = one.first - topic.end
        if away > _FAR:
            return None, _FAR if _ALONE in near.topics else None
        if topic.name in near.topics:
            denied = sentence.is_denied(topic.first, topic.end)
            return topic, None if denied or shares(sentence, topic, topics) else away
        if _keeps(sentence, topic, one, near):
            return None, None
    is_bare = sentence.parts[one.said_first].kind == "number"
    goes_on = not is_bare and carried(sentence, one, topics) in near.topics
    is_own = _ALONE in near.topics or goes_on
    return None, _FAR if is_own else None


def _is_an_end(sentence: Sentence, topic: Thing, one: Candidate) -> bool:
    """Whether a place is only where something ends: the gap to the wall, over the water."""
    before = topic.first - 1
    on_it = sentence.words[one.end : one.end + 2] == ("on", "it")
    taken_up = sentence.word(topic.end) in ("which", "that")
    if one.fact.says or on_it or taken_up:
        return False
    if sentence.word(before) in ("the", "a", "my", "our", "its"):
        before -= 1
    ends = topic.name in known_words("places") and sentence.word(before) in known_words(
        "up_to_a_place"
    )
    return ends or (sentence.word(before) == "and" and "between" in sentence.words[:before])


def _keeps(sentence: Sentence, topic: Thing, one: Candidate, near: Near) -> bool:
    """Whether a topic that stands nearer keeps the words from a row that isn't about it."""
    if one.fact.says and _ALONE in near.topics:
        return sentence.breaths[topic.first] == sentence.breaths[one.first] and (
            topic.name not in known_words("places") | known_words("animate")
        )
    kind = sentence.parts[one.said_first].kind
    if topic.name in known_words("animate"):
        own = kind in ("length", "mass", "duration")
        return own and (not near.cues or is_of_somebody(sentence, one.said_first))
    if topic.name in known_words("places"):
        return topic.name != "tank" and not (one.fact.says or near.cues)
    return True


def _right_behind(sentence: Sentence, one: Candidate, topics: list[Thing]) -> Thing | None:
    """The topic an amount stands right before: a 50 W halogen, 10 mm glass, 5 cm of sand."""
    at = one.end + (sentence.word(one.end) == "of")
    for topic in topics:
        if topic.first < at:
            continue
        between = sentence.words[at : topic.first]
        return topic if all(word in before_thing(topic.name) for word in between) else None
    return None


def shares(sentence: Sentence, topic: Thing, topics: list[Thing]) -> bool:
    """The lamp and heater are 100 watts: whose, nobody can say."""
    owned = sentence.word(topic.first - 1) in ("the", "my", "our", "a")
    joined = topic.first - 1 - owned
    return sentence.word(joined) in ("and", "or") and any(other.end == joined for other in topics)


def carried(sentence: Sentence, one: Candidate, topics: list[Thing]) -> str:
    """The only topic of the sentence before, where this one goes on without one of its own."""
    stood = known_words("places") | known_words("animate")
    if sentence.before is None or one.first > _CARRIED:
        return ""
    breath = sentence.breaths[one.first]
    for topic in topics:
        behind = topic.first >= one.end and sentence.breaths[topic.first] == breath
        is_near = topic.end <= one.first or behind
        if is_near and topic.name not in stood:
            return ""
    told = [topic for topic in topics_in(sentence.before) if topic.name not in stood]
    denied = any(sentence.before.is_denied(topic.first, topic.end) for topic in told)
    return told[0].name if len({topic.name for topic in told}) == 1 and not denied else ""
