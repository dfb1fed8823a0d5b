"""Relations in a sentence: phrases joined to the thing they are about."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import partial

from interview.words.lexicon.files import before_thing, known_words, meant_by
from interview.words.lexicon.rows import Fact
from interview.words.lexicon.rules import Phrase, any_named
from interview.words.mentions.scope.sentence import Sentence

__all__ = ["Candidate", "Relations", "Thing", "things_in", "with_lamps"]

_any_lamp = partial(known_words, "lamp_of_any")

_STRANGE = 1
"""Words that may stand between a thing and what is said of it though no list has them."""


@dataclass(frozen=True)
class Thing:
    """A thing named in a sentence."""

    name: str
    first: int
    end: int


@dataclass(frozen=True, eq=False)
class Candidate:
    """A phrase that stands in a sentence, and the words of its amount."""

    fact: Fact
    phrase: Phrase
    first: int
    end: int
    said_first: int
    said_end: int


def things_in(sentence: Sentence) -> list[Thing]:
    """Every thing named, longest names first."""
    found = [
        Thing(meant_by("things")[match.group().strip()], first, end)
        for first, end, match in sentence.spots(any_named("things"))
    ]
    trades = [at for at, word in enumerate(sentence.words) if word == "<trade>"]
    found += (Thing("tank", at, at + 1) for at in trades)
    return list(with_lamps(sentence, sorted(found, key=lambda thing: thing.first)))


def with_lamps(sentence: Sentence, things: Sequence[Thing]) -> Iterator[Thing]:
    """The things, where “the bulb” behind a UVB lamp is that one: UVB coil, 15 cm from the bulb."""
    last: Thing | None = None
    for thing in things:
        if thing.name == "heat_lamp" and last is not None and last.name == "uvb":
            thing = _that_one(sentence, thing, last)
        if thing.name in ("heat_lamp", "uvb"):
            last = thing
        yield thing


def _that_one(sentence: Sentence, lamp: Thing, uvb: Thing) -> Thing:
    if " ".join(sentence.words[lamp.first : lamp.end]) not in _any_lamp("named"):
        return lamp
    between = sentence.words[uvb.end : lamp.first]
    told = before_thing("uvb") | known_words("linking") - {",", "and", "with"}
    before = next((word for word in reversed(between) if word != "the"), "")
    is_that = before in _any_lamp("that_one")
    is_it = all(word in told for word in between)
    return replace(lamp, name="uvb") if is_that or is_it else lamp


class Relations:
    """Which phrases of a sentence belong to which thing named in it."""

    def __init__(self, sentence: Sentence, things: list[Thing], sure: Sequence[Candidate]) -> None:
        self.sentence = sentence
        self.thing_at: dict[int, Thing] = {
            at: thing for thing in things for at in range(thing.first, thing.end)
        }
        self.names = {at: thing.name for at, thing in self.thing_at.items()}
        self.ends: dict[tuple[str, int], int] = {}
        """The furthest end of the phrases about a thing that start at a word."""
        self.starts: dict[tuple[str, int], int] = {}
        """The earliest start of those that end at a word."""
        for one in sure:
            opened, closed = (one.fact.of, one.first), (one.fact.of, one.end)
            self.ends[opened] = max(one.end, self.ends.get(opened, 0))
            self.starts[closed] = min(one.first, self.starts.get(closed, one.first))

    def joined(self, one: Candidate) -> bool:
        """Whether only linking words and facts about the thing stand between it and the phrase."""
        if one.phrase.bare and not self._ends_well(one):
            return False
        return self._before_thing(one) or self._after_thing(one)

    def _ends_well(self, one: Candidate) -> bool:
        """An amount alone must not belong to a thing that comes after it."""
        after = self.sentence.word(one.end)
        if not after or after in known_words("breaths"):
            return True
        owned = one.end + (after in ("the", "my", "our"))
        thing = self.thing_at.get(owned)
        if thing is not None:
            return thing.name == one.fact.of
        if (one.fact.of, one.end) in self.ends:
            return True
        return after in known_words("linking") or self._before_thing(one)

    def _before_thing(self, one: Candidate) -> bool:
        """A 200 watt submersible heater."""
        adjectives = before_thing(one.fact.of)
        at = one.end
        while at < len(self.sentence.words):
            thing = self.thing_at.get(at)
            if thing is not None:
                return thing.name == one.fact.of
            following = self.ends.get((one.fact.of, at))
            if self.sentence.words[at] in adjectives:
                at += 1
            elif following is not None and self.sentence.words[at] not in ("at", "from", "with"):
                at = following
            else:
                return False
        return False

    def _after_thing(self, one: Candidate) -> bool:
        """The heater is a 200 watt, lying flat; also when "it" takes up the sentence before."""
        linking = known_words("linking") | before_thing(one.fact.of)
        at, strange = one.first - 1, 0
        while at >= 0:
            thing = self.thing_at.get(at)
            jumped = self.starts.get((one.fact.of, at + 1))
            if jumped is not None and (thing is None or thing.name != one.fact.of):
                at = jumped - 1
                continue
            if thing is not None:
                return thing.name == one.fact.of and self._is_meant(thing, one)
            if self.sentence.words[at] not in linking:
                strange += 1
                if strange > _STRANGE or self._tells(self.sentence.words[at]):
                    return False
            at -= 1
        return not strange and self._taken_up(one)

    def _tells(self, word: str) -> bool:
        """Whether a word may say that something else is meant."""
        lists = (("competing", "topics"), ("denials",), ("breaths",), ("mended_by",), ("doubts",))
        return word.startswith("<") or any(word in known_words(*path) for path in lists)

    def _is_meant(self, thing: Thing, one: Candidate) -> bool:
        """Whether the thing before a phrase is what the phrase is about."""
        words = self.sentence.words
        if self.sentence.is_denied(thing.first, thing.end):
            return False
        if {"it", "its"} & set(words[thing.end : one.first]) and not self._is_main(thing):
            return False
        shared = self._follows_another(thing)
        return not shared or bool({"both", "each"} & set(words[thing.end : one.first]))

    def _is_main(self, thing: Thing) -> bool:
        """Whether "it" may be the thing: the first one named, or one just brought up."""
        before = self.sentence.word(thing.first - 1)
        return min(self.thing_at) == thing.first or before in ("a", "an") or before[:1] == "<"

    def _follows_another(self, thing: Thing) -> bool:
        """The lamp and heater are 100 watts: whose, nobody can say."""
        owned = self.sentence.word(thing.first - 1) in ("the", "my", "our")
        before = thing.first - 1 - owned
        joined = self.sentence.word(before) in ("and", "or")
        return joined and before - 1 in self.thing_at

    def _taken_up(self, one: Candidate) -> bool:
        """It, at the start of a sentence, is the first thing of the sentence before."""
        sentence = self.sentence
        if not sentence.word(0).startswith("it"):
            return one.fact.alone
        first = next(iter(things_in(sentence.before)), None) if sentence.before else None
        if first is None:
            return one.fact.alone
        return first.name == one.fact.of and sentence.word(0) in ("it", "its")
