"""Turtles mentioned in a sentence: how many, of which kind, and what stands beside them."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import partial

from interview.words.amounts.spellings import label
from interview.words.lexicon.files import known_words
from interview.words.mentions.attributes import of_a_turtle
from interview.words.mentions.competing import is_mended
from interview.words.mentions.parts import Part, Side
from interview.words.mentions.scope import Sentence
from interview.words.mentions.turtles.kinds import KIND

__all__ = ["MOST_TURTLES", "Mention", "Unclear", "mentions_in", "read_details"]

_list = partial(known_words, "animals")

MOST_TURTLES = 30
_BREEDERS = re.compile(r"([0-9])\.([0-9])")
"""Males before the point, females behind it, as breeders write (common practice, no source)."""


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
    is_strange: bool = False
    """Whether it is of a kind that isn't known here; then only what is told of it counts."""
    definite: bool = False
    """The slider, not a slider: perhaps one spoken of before."""
    lengths: list[tuple[str, int]] = field(default_factory=list)
    sexes: list[tuple[str, int]] = field(default_factory=list)
    """What was said of each, in order, and where."""
    every: bool = False
    """Whether one length or sex is that of all of them."""

    def details(self) -> tuple[tuple[str, list[tuple[str, int]]], ...]:
        """What was told of them, by the question it answers."""
        return ("carapace_length", self.lengths), ("sex", self.sexes)

    @property
    def number(self) -> int:
        """How many; 0 where nothing counts them."""
        return self.count or 0

    @property
    def adds(self) -> bool:
        """Whether it brings up turtles that were not spoken of before."""
        return self.count is not None and not self.definite


def _is_shell(one: Part | Side) -> bool:
    return of_a_turtle("carapace_length", one.value, one.unit)


def mentions_in(sentence: Sentence, off: frozenset[int]) -> Iterator[Mention]:
    """The turtles a sentence speaks of; `off` are words near wishes, which don't count.

    Raises:
        Unclear: where it is open how many or which are meant.
    """
    for at, word in enumerate(sentence.words):
        if at in off or not (word == KIND or word in _list("any")):
            continue
        if sentence.word(at + 1) in _list("not_one") | {"<trade>"}:
            continue
        if sentence.is_denied(at, at + 1):
            continue
        part = sentence.parts[at]
        many = part.look == "many" if word == KIND else word.endswith("s") and part.look != "owner"
        mention = Mention(sentence, at, part.said if word == KIND else "", many, at, at + 1)
        if not _is_of_keeper(mention, _read_before(mention)):
            continue
        alternative = "or" in (sentence.word(mention.first - 1), sentence.word(at + 1))
        if alternative or sentence.is_doubted(mention.first, at + 1):
            raise Unclear
        yield mention


def _read_before(mention: Mention) -> int:
    """Take what describes the turtles in front of them; where that begins."""
    sentence, at = mention.sentence, mention.at - 1
    while at >= 0:
        word, part = sentence.words[at], sentence.parts[at]
        if word == "<length>" and not mention.lengths and _is_shell(part):
            mention.lengths, mention.every = [(part.said, at)], True
        elif _sex(word) and not mention.sexes:
            mention.sexes = [(_sex(word), at)]
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
        while sentence.word(here) in ("both", "all", "are") or _sex(sentence.word(here)):
            here -= 1
        if sentence.word(here) == "<number>":
            at, word = here, "<number>"
    is_owner = at >= 0 and sentence.parts[at].look == "owner"
    if word == "of" and before in ("pair", "couple"):
        mention.count, mention.first = 2, at - 1
    elif word == "<number>" and (pair := _as_breeders_count(mention, at)):
        sexes = ("male",) * int(pair[1]) + ("female",) * int(pair[2])
        mention.count, mention.first = len(sexes), at
        mention.sexes = [(sex, at) for sex in sexes]
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
    elif _is_unknown(mention, at):
        mention.is_strange, mention.name = True, ""  # a common snapping turtle
        if not mention.many:
            mention.count, mention.first = 1, max(0, at - (before in _list("one")))
    mention.is_counted = mention.count is not None and not mention.is_strange
    return bool(mention.name or mention.count or not mention.many)


def _as_breeders_count(mention: Mention, at: int) -> re.Match[str] | None:
    """1.1 pair, 1.2 trio: males and females, where what stands between says that it is that."""
    said = {*mention.sentence.words[at + 1 : mention.at]}
    pair = _BREEDERS.fullmatch(mention.sentence.parts[at].said)
    return pair if not said.isdisjoint(_list("groups")) else None


def _is_unknown(mention: Mention, at: int) -> bool:
    """Whether a word right before the name may make it the name of another kind."""
    sentence = mention.sentence
    if any(word[:1] == "<" for word in sentence.words[max(0, at) : mention.at]):
        return False
    if mention.name:
        is_name = at > 0 and sentence.parts[at].look == "name"
        return is_name or sentence.word(at) in _list("other_kinds")
    before = {"a", "an", "one", "<number>", *(() if mention.many else ("my", "our"))}
    return sentence.word(at) not in _list("before_one") and sentence.word(at - 1) in before


def _whole(part: Part) -> int:
    doubted = part.said.partition(" ")[0].casefold() in known_words("doubts")
    whole = part.value == int(part.value) and 1 <= part.value <= MOST_TURTLES
    if doubted or not whole or part.sides:
        raise Unclear
    return int(part.value)


def _sex(word: str) -> str:
    return next((sex for sex in ("female", "male") if word in _list(sex)), "")


def read_details(mention: Mention, sentence: Sentence, first: int, limit: int) -> None:
    """Take lengths and sexes in order, as long as every word is about the turtles."""
    times, unit = 1, ""
    for at in range(first, limit):
        word, part = sentence.words[at], sentence.parts[at]
        sex = _sex(word)
        if word in ("<length>", "<lengths>"):
            every = part.sides if word == "<lengths>" else () if part.sides else (part,)
            shells = [one for one in every if _is_shell(one)]
            if not shells or not _ends_length(sentence, at):
                break
            mention.lengths += [(one.said, at) for one in shells]
            unit = label(part.unit or "")
        elif word == "<number>" and _is_length(mention, sentence, at):
            mention.lengths.append((f"{part.said} {unit}".strip(), at))
        elif word == "<number>" and 1 <= part.value < (mention.count or 1) and not part.sides:
            times = int(part.value)
        elif sex and sentence.word(at + 1) not in _list("any"):
            doubted = sentence.is_doubted(at, at + 1)
            mention.sexes += [] if doubted else [(sex, at)] * times
            times = 1
        elif word in _list("every"):
            mention.every = True
        elif word in _list("after") or part.look == "name":
            continue
        else:
            break
        if sentence is mention.sentence:
            mention.end = at + 1


def _is_length(mention: Mention, sentence: Sentence, at: int) -> bool:
    """Whether a bare number goes on with the lengths: the biggest is 14 cm, the smallest 8."""
    is_more = 0 < len(mention.lengths) < (mention.count or 1)
    return is_more and _ends_length(sentence, at)


def _ends_length(sentence: Sentence, at: int) -> bool:
    return sentence.word(at + 1) in _list("after_length") and not is_mended(sentence, at + 1)
