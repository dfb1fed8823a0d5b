"""Turtles mentioned in a sentence: how many, of which kind, and what stands beside them."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import partial

from interview.words.lexicon.files import known_words
from interview.words.mentions.parts import Part
from interview.words.mentions.scope.sentence import Sentence
from interview.words.mentions.turtles.details import Detail, is_shell, sex_ahead, sex_of
from interview.words.mentions.turtles.kinds import KIND

__all__ = ["MOST_TURTLES", "Mention", "Unclear", "mentions_in"]

_list = partial(known_words, "animals")

MOST_TURTLES = 30
_BREEDERS = re.compile(r"([0-9])[.,]([0-9])")
"""Males before the point, females behind it, as breeders write (common practice, no source)."""

_ALL_OF_THEM = (" <number> of them ", " <number> of em ", " theres <number> of them ")
"""Sentences that only count them."""

_LABEL = 2
"""Words of what tells one turtle from another: turtle 2."""


class Unclear(Exception):
    """The turtles can't be told apart for sure; none of them is taken."""


@dataclass
class Mention:
    """Turtles spoken of together."""

    sentence: Sentence
    at: int
    name: str
    """The kind as it would be typed; "" for any turtle."""
    many: bool
    first: int = 0
    """Where it starts, with what counts it."""
    end: int = 0
    count: int | None = None
    """None where nothing counts them."""
    is_counted: bool = False
    """Whether the words themselves say how many, be it by an article."""
    definite: bool = False
    """The slider, not a slider: perhaps one spoken of before."""
    lengths: list[Detail] = field(default_factory=list)
    sexes: list[Detail] = field(default_factory=list)
    """What stands in front of them, so of all of them; of breeders' counts the sex of each."""
    label: str = ""
    """By which it is told from others of its kind: turtle 2."""
    again: list[Mention] = field(default_factory=list)
    """Where the same ones are taken up later: the slider is 18 cm and the musk 9."""

    @property
    def number(self) -> int:
        """How many; 0 where nothing counts them."""
        return self.count or 0

    @property
    def adds(self) -> bool:
        """Whether it brings up turtles that were not spoken of before."""
        return self.count is not None and not self.definite


def mentions_in(sentence: Sentence, off: frozenset[int]) -> Iterator[Mention]:
    """The turtles a sentence speaks of; `off` are words near wishes, which don't count.

    Raises:
        Unclear: where it is open how many or which are meant.
    """
    if sentence.line in _ALL_OF_THEM:
        yield Mention(sentence, len(sentence.words) - 1, "", True, count=_whole(sentence.parts[-3]))
        return
    label = _label(sentence)
    for at, word in enumerate(sentence.words):
        if label and at < _LABEL:
            continue
        if at in off or not (word == KIND or word in _list("any")):
            continue
        if sentence.word(at + 1) in _list("not_one") | {"<trade>"}:
            continue
        if sentence.is_denied(at, at + 1):
            continue
        part = sentence.parts[at]
        many = part.look == "many" if word == KIND else word.endswith("s") and part.look != "owner"
        mention = Mention(sentence, at, part.said if word == KIND else "", many, at, at + 1)
        mention.label = label if word == KIND else ""
        if not _is_of_keeper(mention, _read_before(mention)):
            continue
        while sentence.word(mention.end) in _list("young"):
            mention.end += 1
        alternative = "or" in (sentence.word(mention.first - 1), sentence.word(at + 1))
        if alternative or sentence.is_doubted(mention.first, at + 1) or _counts_again(mention):
            raise Unclear
        yield mention


def _counts_again(mention: Mention) -> bool:
    """Whether another number is offered right behind: one turtle, maybe two."""
    sentence, at = mention.sentence, mention.end + (mention.sentence.word(mention.end) == ",")
    doubts = known_words("doubts")
    doubted = sentence.word(at) in doubts
    at += doubted
    if sentence.word(at) != "<number>" or sex_ahead(sentence, at):
        return False  # two sliders, probably one male and one female
    return doubted or not doubts.isdisjoint(sentence.parts[at].said.casefold().split())


def _label(sentence: Sentence) -> str:
    """The letter or number of a turtle that a sentence begins with: turtle B: a stinkpot."""
    word, after = sentence.word(0), sentence.word(1)
    number = sentence.parts[1].said if after == "<number>" else after
    labels = word in _list("any") and not word.endswith("s") and KIND in sentence.known
    labels = labels and sentence.word(2) != "x"
    return (
        number if labels and (number.isdecimal() or (len(number) == 1 and number.isalpha())) else ""
    )


def _read_before(mention: Mention) -> int:
    """Take what describes the turtles in front of them; where that begins."""
    sentence, at = mention.sentence, mention.at - 1
    while at >= 0:
        word, part = sentence.words[at], sentence.parts[at]
        if word == "<length>" and not mention.lengths and is_shell(part):
            mention.lengths = [Detail(part.said, sentence, at)]
        elif sex_of(word) and not mention.sexes:
            mention.sexes = [Detail(sex_of(word), sentence, at)]
        elif word == "," and sex_of(sentence.word(at - 1)) and not mention.sexes and mention.many:
            mention.sexes = [Detail(sex_of(sentence.word(at - 1)), sentence, at - 1)]
            return at  # two females, map turtles
        elif word == "old" and sentence.word(at - 1) == "<duration>":
            at -= 1
        elif word not in _list("before"):
            break
        at -= 1
    return at


def _is_of_keeper(mention: Mention, at: int) -> bool:
    """Whether the words in front speak of turtles the keeper has; sets how many."""
    sentence = mention.sentence
    word, before = sentence.word(at), sentence.word(at - 1)
    if word == "x" and before == "<number>":
        at, word = at - 1, before
    if (
        word == ","
        and mention.name
        and sentence.word(at - 1) != "th"
        and (sentence.word(at - 2) == "<number>")
    ):
        at, word = at - 2, "<number>"  # two in the keeper's own language, then what they are
    if word in ("both", "all", "are") and mention.many:  # two girls are both musks
        here = at
        while sentence.word(here) in ("both", "all", "are") or sex_of(sentence.word(here)):
            here -= 1
        if sentence.word(here) == "<number>":
            at, word = here, "<number>"
    is_owner = at >= 0 and sentence.parts[at].look == "owner"
    after = sentence.word(mention.at + 1)
    if mention.label:
        mention.count, mention.first = 1, 0
    elif _is_counted_behind(mention):
        pass
    elif mention.name and after in ("pair", "couple", "trio"):
        mention.count, mention.first, mention.many = 3 if after == "trio" else 2, at + 1, True
    elif (
        word in _list("one")
        and before == "and"
        and len(mention.sexes) == 1
        and sex_of(sentence.word(at - 2))
    ):  # a male and a female musk
        mention.sexes = [Detail(sex_of(sentence.word(at - 2)), sentence, at - 2), *mention.sexes]
        mention.count, mention.first, mention.many = 2, at - 3, True
    elif word == "of" and before in ("pair", "couple", "trio"):
        mention.count, mention.first = 3 if before == "trio" else 2, at - 1
    elif word == "<number>" and (pair := _as_breeders_count(mention, at)):
        mention.sexes = _sexes(pair, sentence, at)
        mention.count, mention.first = len(mention.sexes), at
    elif word == "<number>":
        mention.count, mention.first = _whole(sentence.parts[at]), at
    elif word in _list("another"):
        raise Unclear
    elif word in _list("one") or is_owner:
        mention.first = at
        mention.definite = word in _list("definite") | _list("owned")
        if not mention.many and (mention.name or word not in _list("definite")):
            mention.count = 1
    elif word in _list("bare") and mention.name and not mention.many:
        if "both" in sentence.known:
            raise Unclear
        mention.count, mention.definite = 1, True
    mention.is_counted = mention.count is not None
    return bool(mention.name or mention.count or not mention.many)


def _is_counted_behind(mention: Mention) -> bool:
    """Whether the count stands behind them: sliders x2, turtles: 2, Graptemys nigrinoda 1.2."""
    sentence, at = mention.sentence, mention.at + 1
    is_times = sentence.word(at) == "x"
    at += is_times or (sentence.word(at) == "," and not mention.many)
    closed = sentence.word(at) == "<number>" and sentence.word(at + 1) in ("", ",")
    if not closed:
        return False
    if pair := _BREEDERS.fullmatch(sentence.parts[at].said):
        mention.sexes = _sexes(pair, sentence, at)
        mention.count = len(mention.sexes)
    elif is_times or (mention.many and not sentence.parts[at].sides):
        mention.count = _whole(sentence.parts[at])
    mention.end = at + 1 if mention.count else mention.end
    mention.many = mention.many or mention.number > 1
    return mention.count is not None


def _sexes(pair: re.Match[str], sentence: Sentence, at: int) -> list[Detail]:
    sexes = ("male",) * int(pair[1]) + ("female",) * int(pair[2])
    return [Detail(sex, sentence, at) for sex in sexes]


def _as_breeders_count(mention: Mention, at: int) -> re.Match[str] | None:
    """1.1 pair, 1.2 trio: males and females, where what stands between says that it is that."""
    said = {*mention.sentence.words[at + 1 : mention.at]}
    pair = _BREEDERS.fullmatch(mention.sentence.parts[at].said)
    many = mention.many and mention.name and pair is not None and pair[2] != "5"  # 2.5 is none
    is_lone = pair is not None and ("0" in pair.groups() or many)
    return pair if is_lone or not said.isdisjoint(_list("groups")) else None


def _whole(part: Part) -> int:
    doubted = part.said.partition(" ")[0].casefold() in known_words("doubts")
    whole = part.value == int(part.value) and 1 <= part.value <= MOST_TURTLES
    if doubted or not whole or part.sides:
        raise Unclear
    return int(part.value)
