"""What a story may still tell: its amounts and clauses, each as the features weights stand for.

A feature is a kind and a word: `B:bulb` for a bulb named before an amount in its breath. Amounts
are masked, so that a weight is of the words and not of one keeper's tank.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import zip_longest

from interview.base.units import CORE_UNITS, convert
from interview.words.lexicon.files import known_words
from interview.words.mentions.competing import is_mended
from interview.words.mentions.nearby.shell import is_of_a_shell
from interview.words.mentions.nearby.topics import topics_in
from interview.words.mentions.parts import Part
from interview.words.mentions.scope.sentence import Sentence

__all__ = ["Spot", "amounts_in", "clauses_in"]

_BEFORE, _BEHIND = 8, 6
"""Words of its breath that are looked at on either side of an amount."""
_CARRIED = 3
"""Sentences back to which a topic may have been named last."""
_AGES = (5, 13, 65, 120)


@dataclass(frozen=True)
class Spot:
    """A clause of a story or an amount in it, and what is said there and around it."""

    parts: tuple[Part, ...]
    features: tuple[str, ...]
    amount: int = -1
    """Which of the parts the amount is."""
    of_a_shell: bool = True
    """Whether what stands around it leaves a length to the turtle: no gap of 4 cm."""

    @property
    def start(self) -> int:
        """Where in the text the clause begins."""
        return self.parts[0].start

    @property
    def stop(self) -> int:
        """Where in the text it ends."""
        return self.parts[-1].end

    @property
    def denies(self) -> bool:
        """Whether a word of the clause denies something."""
        return not known_words("denials").isdisjoint(part.text for part in self.parts)


def amounts_in(told: Sequence[Sentence]) -> Iterator[Spot]:
    """Every amount that is neither wished for nor denied, doubted or taken back."""
    for sentence in _kept(told):
        off = sentence.wished()
        for at, part in enumerate(sentence.parts):
            doubtful = sentence.is_doubted(at, at + 1) or is_mended(sentence, at + 1)
            doubtful = doubtful or _is_past(sentence, *sentence.breath(at, at + 1))
            unsure = doubtful or part.said.casefold() in known_words("rhythm", "ordinals")
            if part.said and at not in off and not (unsure or sentence.is_denied(at, at + 1)):
                first, end = sentence.breath(at, at + 1)
                features = tuple(_of_amount(sentence, at, first, end))
                shell = is_of_a_shell(sentence, at)
                yield Spot(sentence.parts[first:end], features, at - first, shell)


def clauses_in(told: Sequence[Sentence]) -> Iterator[Spot]:
    """Every breath that is neither wished for nor asked, doubted or taken back."""
    for sentence in _kept(told):
        off, end = sentence.wished(), 0
        while end < len(sentence.words) and not sentence.asked:
            first, end = sentence.breath(end, end + 1)
            is_wished = 2 * len(off.intersection(range(first, end))) >= end - first
            unsure = sentence.is_doubted(first, end) or _is_past(sentence, first, end)
            if not (is_wished or unsure):
                yield Spot(sentence.parts[first:end], tuple(_of_clause(sentence, first, end)))


def _kept(told: Sequence[Sentence]) -> Iterator[Sentence]:
    """The sentences in which nothing is taken back, nor in the one that follows."""
    for sentence, following in zip_longest(told, told[1:]):
        if not (sentence.corrections or (following and following.corrections)):
            yield sentence


def _is_past(sentence: Sentence, first: int, end: int) -> bool:
    past = known_words("in_context", "past") | {"last"}
    return not past.isdisjoint(sentence.words[first:end])


def _of_amount(sentence: Sentence, at: int, first: int, end: int) -> Iterator[str]:
    words, part = sentence.words, sentence.parts[at]
    yield f"<:{sentence.word(at - 1)}"
    yield f">:{sentence.word(at + 1)}"
    yield from (f"B:{word}" for word in words[max(first, at - _BEFORE) : at])
    yield from (f"A:{word}" for word in words[at + 1 : min(end, at + 1 + _BEHIND)])
    yield from _topics(sentence, at, at + 1, end)
    yield f"u:{part.unit or ''}"
    yield f"k:{part.kind}{'-range' if part.sides else ''}"
    yield f"v:{part.kind} {_size(part)}"


def _of_clause(sentence: Sentence, first: int, end: int) -> Iterator[str]:
    said = {_masked(part) for part in sentence.parts[first:end]} - {",", "and"}
    yield from (f"W:{word}" for word in sorted(said))
    yield from _topics(sentence, first, end, end)
    yield f"l:{min(len(said) // 3, 4)}"
    if sentence.is_denied(first, end):
        yield "d:"


def _topics(sentence: Sentence, first: int, end: int, closed: int) -> Iterator[str]:
    """The topics there, before, behind in the breath, in the sentence; the one named last."""
    topics = topics_in(sentence)
    before = [topic.name for topic in topics if topic.end <= first]
    yield "b:"
    yield f"tb:{before[-1] if before else _carried(sentence)}"
    yield f"t0:{topics[0].name if topics else ''}"
    yield from (f"t:{topic.name}" for topic in topics if first <= topic.first < end)
    yield from (f"ta:{topic.name}" for topic in topics if end <= topic.first < closed)
    yield from (f"T:{name}" for name in sorted({topic.name for topic in topics}))


def _carried(sentence: Sentence) -> str:
    """The topic that was spoken of last before a sentence, with a sign that it is carried."""
    before = sentence.before
    for _ in range(_CARRIED):
        if before is None:
            break
        if topics := topics_in(before):
            return f"^{topics[-1].name}"
        before = before.before
    return ""


def _size(part: Part) -> int:
    """In steps of a third of an octave, of temperatures 2 K; in core units where it has a unit."""
    value = part.value
    if part.kind in CORE_UNITS and part.unit is not None and part.unit[0] != "?":
        value = convert(value, part.unit, CORE_UNITS[part.kind])
    return round(value / 2 if part.kind == "temperature" else 3 * math.log2(max(abs(value), 1e-9)))


def _masked(part: Part) -> str:
    """A word; of an amount its kind, and of a number or years below which age it is."""
    if not part.said or not (part.kind == "number" or part.unit == "year"):
        return part.text
    return f"{part.text}{next((age for age in _AGES if part.value < age), '')}"
