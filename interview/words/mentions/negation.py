"""What a tank does without: no heater, filter or UVB."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import cache

from interview.words.lexicon.files import known_words, phrases
from interview.words.lexicon.rows import Absent
from interview.words.lexicon.rules import alternatives, said_as
from interview.words.mentions.scope.sentence import Sentence

__all__ = ["Found", "absent_in"]


@dataclass(frozen=True)
class Found:
    """A fact and the words of its sentence it was taken from."""

    sentence: Sentence = field(repr=False)
    id: str
    said: str
    first: int
    end: int
    animal: int | None = None
    is_guess: bool = False
    """Whether the keeper only thinks so."""

    @property
    def start(self) -> int:
        """Where in the text it begins."""
        return self.sentence.parts[self.first].start

    @property
    def stop(self) -> int:
        """Where in the text it ends."""
        return self.sentence.parts[self.end - 1].end


@cache
def _rows() -> Mapping[str, Absent]:
    """What is denied, by each of its names."""
    return {
        name.replace("_", " "): row for row in phrases().absent for name in row.words.split("|")
    }


@cache
def _item() -> re.Pattern[str]:
    return re.compile(alternatives(_rows()))


@cache
def _denial() -> re.Pattern[str]:
    item = _item().pattern
    more = rf"(?:(?:, or |, nor |, |or |nor )(?:a |an |any )?{item})*"
    return re.compile(rf"{said_as('absence', 'opens').pattern}(?P<one>{item})(?P<more>{more})")


@cache
def _denial_behind() -> re.Pattern[str]:
    return re.compile(rf"(?<= )(?P<one>{_item().pattern}){said_as('absence', 'closes').pattern}")


def absent_in(sentence: Sentence, off: frozenset[int]) -> Iterator[Found]:
    """Facts that something is not there; `off` are words near wishes, which don't count."""
    if not sentence.denials:
        return
    for first, end, match in sentence.spots(_denial_behind()):
        opens = sentence.word(first - 1) in ("", *known_words("breaths"))
        wished = first in off and not opens  # "need" itself is a wish
        closed = _closes(sentence, end) and not _is_of_a_season(sentence, first, end)
        if closed and not (sentence.asked or wished):
            yield from _denied(sentence, match["one"], first, end)
    for first, end, match in sentence.spots(_denial()):
        listed = "or " in match["more"]
        close = end if listed else sentence.place(match.end("one"))
        if not _denies_outright(sentence, first, close) or not off.isdisjoint(range(first, close)):
            continue
        for name in [match["one"], *(_item().findall(match["more"]) if listed else [])]:
            yield from _denied(sentence, name, first, close)


def _denied(sentence: Sentence, name: str, first: int, end: int) -> Iterator[Found]:
    row = _rows()[name.strip()]
    if sentence.known.isdisjoint(row.unless):
        for fact, said in row.facts.items():
            yield Found(sentence, fact, said, first, end)


def _denies_outright(sentence: Sentence, first: int, end: int) -> bool:
    """No heater yet, but neither "no heater guard" nor, in summer, "no heater"."""
    after, following = sentence.word(end), sentence.word(end + 1)
    if _is_of_a_season(sentence, first, end):
        return False
    if after == "over" and following[:1] == "<":
        return False  # no heater over 100 W
    if after == "in":
        return following in ("it", "the", "there", "my", "this", "here")
    return not after or after in phrases().denied_after


def _closes(sentence: Sentence, end: int) -> bool:
    """Whether a denial behind a name is all that is said: not "used for carbon", "kept on"."""
    after = sentence.word(end)
    if after == "at":
        return sentence.word(end + 1) == "all"
    if after == "in":
        return sentence.word(end + 1) in ("this", "our", "my", "here")
    return after in ("", *known_words("breaths")) or after in known_words("absence", "closed")


def _is_of_a_season(sentence: Sentence, first: int, end: int) -> bool:
    words, breaths = sentence.words, known_words("breaths")
    opened = max((at for at in range(first) if words[at] in breaths), default=0)
    closed = next((at for at in range(end, len(words)) if words[at] in breaths), len(words))
    near = (*words[opened:first], *words[end : min(closed, end + 4)])
    return not known_words("absence", "seasons").isdisjoint(near)
