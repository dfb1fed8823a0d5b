"""What an amount is of where no phrase takes it: the topic named last before, or right behind."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING

from interview.base.units import CORE_UNITS, convert
from interview.words.lexicon.files import before_thing, known_words, meant_by
from interview.words.lexicon.rules import any_topic, near_rules_for
from interview.words.mentions.attributes import Found, fits, found_of, is_sure, matches
from interview.words.mentions.competing import has_second
from interview.words.mentions.relations import Candidate, Thing
from interview.words.mentions.scope import Sentence

if TYPE_CHECKING:
    from interview.words.lexicon.rows import Near

__all__ = ["nearest_in", "topics_in"]

_TANKS = ("<trade>", "<size3>")
_FAR = 14
"""Words between a topic and what is told of it."""
_BEHIND = 4
"""Words behind an amount that may still say what it measures: 9 inches from the stone."""
_FRAGMENT = 7
"""Words of a sentence that goes on about the topic of the one before: Mounted flat. 200 watts."""


def nearest_in(
    sentence: Sentence,
    off: frozenset[int],
    taken: frozenset[int],
    sizes: Mapping[str, tuple[float, ...]],
    region: str,
) -> Iterator[Found]:
    """Facts by the nearest topic.

    Args:
        sentence: where they stand
        off: words near wishes, which don't count
        taken: words that other facts were taken from
        sizes: trade names of tanks and their sides in m
        region: decides what sizes without a unit are
    """
    topics = topics_in(sentence)
    for rule, phrase in near_rules_for(sentence.known):
        if rule.unless is not None and rule.unless.search(sentence.line):
            continue
        for one in matches(sentence, rule.fact, phrase):
            near: Near = rule.fact  # type: ignore[assignment]
            if not taken.isdisjoint(range(one.said_first, one.said_end)):
                continue
            if not (fits(sentence, one) and is_sure(sentence, one, off)):
                continue
            if _is_doubtful(sentence, one, topics):
                continue
            if _is_of_its_size(sentence, one, near) and _is_near(sentence, one, near, topics):
                found = found_of(sentence, one, sizes, region)
                if found is not None:
                    yield found


def topics_in(sentence: Sentence) -> list[Thing]:
    """Every topic named, in order."""
    meant = {**meant_by("things"), **meant_by("topics")}
    found = [
        Thing(meant[match.group().strip()], first, end)
        for first, end, match in sentence.spots(any_topic())
    ]
    sizes = (at for at, word in enumerate(sentence.words) if word in _TANKS)
    return sorted([*found, *(Thing("tank", at, at + 1) for at in sizes)], key=lambda t: t.first)


def _is_of_its_size(sentence: Sentence, one: Candidate, near: Near) -> bool:
    part = sentence.parts[one.said_first]
    if near.units and part.unit not in near.units:
        return False
    if part.kind not in CORE_UNITS or part.unit is None or part.unit[0] == "?":
        return True
    return near.least <= convert(part.value, part.unit, CORE_UNITS[part.kind]) <= near.most


def _is_near(sentence: Sentence, one: Candidate, near: Near, topics: list[Thing]) -> bool:
    """Whether the topic it belongs to is one of the row's, and a cue says what it measures."""
    ahead = _right_behind(sentence, one, topics)
    if ahead is not None and ahead.name not in known_words("places"):
        alone = ahead.name in near.topics and _is_alone(sentence, ahead, one, topics)
        return alone and _is_cued(sentence, ahead.first, one, near)
    measures = bool(one.fact.says or near.cues)
    for topic in reversed([topic for topic in topics if topic.end <= one.first]):
        if one.first - topic.end > _FAR:
            return False
        if topic.name in near.topics:
            if sentence.is_denied(topic.first, topic.end):
                return False
            alone = _is_alone(sentence, topic, one, topics)
            return alone and _is_cued(sentence, topic.first, one, near)
        if not (topic.name == "tank" or (measures and topic.name in known_words("places"))):
            return False
    return _goes_on(sentence, near) and _is_cued(sentence, 0, one, near)


def _right_behind(sentence: Sentence, one: Candidate, topics: list[Thing]) -> Thing | None:
    """The topic an amount stands right before: a 50 W halogen, 10 mm glass."""
    at = one.end
    for topic in topics:
        if topic.first < at:
            continue
        between = sentence.words[at : topic.first]
        return topic if all(word in before_thing(topic.name) for word in between) else None
    return None


def _is_doubtful(sentence: Sentence, one: Candidate, topics: list[Thing]) -> bool:
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
    if any(
        part.said.split(" ")[0] in known_words("doubts") for part in sentence.parts if part.said
    ):
        return True
    return sentence.is_doubted(first, one.end) or has_second(sentence, one, names, frozenset())


def _is_alone(sentence: Sentence, topic: Thing, one: Candidate, topics: list[Thing]) -> bool:
    """Whether no other amount of its kind is told of the topic: then neither is sure."""
    words, said = sentence.words, sentence.words[one.said_first]
    if _shares(sentence, topic, topics):
        return False
    if one.fact.says:
        return True
    if sentence.word(one.first - 1) == "to" and sentence.word(one.first - 2)[:1] == "<":
        return False  # 77 to 26 °C
    if said[:1] != "<":  # how often: what stands between is about something else
        return not any(word[:1] == "<" for word in words[topic.end : one.first])
    same = (at for at, word in enumerate(words) if word == said and at != one.said_first)
    return all(_owner(at, topics) != topic.name for at in same)


def _owner(at: int, topics: list[Thing]) -> str:
    """The topic an amount is of: the one right behind it, or the last before that is no place."""
    behind = next((topic.name for topic in topics if topic.first == at + 1), "")
    before = [topic.name for topic in topics if topic.end <= at]
    things = [name for name in before if name not in known_words("places")] or before
    return behind or (things[-1] if things else "")


def _shares(sentence: Sentence, topic: Thing, topics: list[Thing]) -> bool:
    """The lamp and heater are 100 watts: whose, nobody can say."""
    owned = sentence.word(topic.first - 1) in ("the", "my", "our", "a")
    joined = topic.first - 1 - owned
    return sentence.word(joined) in ("and", "or") and any(other.end == joined for other in topics)


def _is_cued(sentence: Sentence, first: int, one: Candidate, near: Near) -> bool:
    if not near.cues:
        return True
    words = sentence.words
    amounts = [at for at in range(min(first, one.first), one.first) if words[at][:1] == "<"]
    opened = amounts[-1] + 1 if amounts else min(first, one.first)
    closed = one.end
    while closed < min(len(words), one.end + _BEHIND) and words[closed][:1] not in ("<", ","):
        closed += 1
    return not {*words[opened : one.first], *words[one.end : closed]}.isdisjoint(near.cues)


def _goes_on(sentence: Sentence, near: Near) -> bool:
    """Whether a short sentence goes on about the only topic of the one before."""
    if sentence.before is None or len(sentence.words) > _FRAGMENT or topics_in(sentence):
        return False
    before = {topic.name for topic in topics_in(sentence.before)} - known_words("places")
    return len(before) == 1 and before <= {*near.topics}
