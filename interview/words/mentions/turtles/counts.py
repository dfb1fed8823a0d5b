"""How many turtles a mention is of, and whether it is sure that the keeper has them."""

from __future__ import annotations

import re
from functools import partial

from interview.words.lexicon.files import known_words
from interview.words.mentions.scope.sentence import Sentence
from interview.words.mentions.turtles.details import SEX, Detail, sex_of
from interview.words.mentions.turtles.kinds import KIND
from interview.words.mentions.turtles.mention import Mention, Unclear, whole

__all__ = ["count_in_front"]

_list = partial(known_words, "animals")

_BREEDERS = re.compile(r"([0-9])[.,]([0-9])")
"""Males before the point, females behind it, as breeders write (common practice, no source)."""
_GROUPS = {"pair": 2, "couple": 2, "twosome": 2, "trio": 3, "quartet": 4}


def count_in_front(mention: Mention, at: int) -> bool:
    """Whether the words in front speak of turtles the keeper has; sets how many."""
    mention.count, mention.first = _counted(mention, at)
    mention.is_counted = mention.count is not None
    mention.many = mention.many or (mention.count or 0) > 1
    owned = mention.sentence.word(at) in _list("definite") | _list("owned")
    mention.definite = mention.first == at if owned else mention.first > at and mention.count == 1
    return bool(mention.kind or mention.count or not mention.many)


def _counted(mention: Mention, at: int) -> tuple[int | None, int]:
    """How many, None where nothing says so; and where the mention begins."""
    sentence, told, many = mention.sentence, mention.told, mention.many
    at = _number_before(mention, at)
    word, before, after = sentence.word(at), sentence.word(at - 1), sentence.word(mention.at + 1)
    if mention.called:
        return 1, 0
    if count := _counted_behind(mention):
        return count, mention.first
    if mention.kind and after in _GROUPS:
        mention.end += 1
        return _GROUPS[after], at + 1
    if word == "and" and sex_of(before) and len(told.get(SEX, ())) == 1:
        told[SEX].insert(0, Detail(sex_of(before), sentence, at - 1))
        return 2, at - 1  # a male and female musk
    if word == "of" and before in _GROUPS:
        return _GROUPS[before], at - 1 - (sentence.word(at - 2) in _list("one"))
    if word == "<number>" and (pair := _as_breeders_count(mention, at)):
        told[SEX] = _sexes(pair, sentence, at)
        return len(told[SEX]), at
    if word == "<number>":
        return whole(sentence.parts[at]), at
    if word in _list("another"):
        raise Unclear
    if word == "both" and before != "are" and mention.look_many and not mention.is_predicate:
        return 2, at
    if many and (sentence.word(at - 2), before) == ("both", "of"):
        return 2, at - 2
    if word in _list("one") or (at >= 0 and sentence.parts[at].look == "owner"):
        is_one = not many and (mention.kind or word not in _list("definite"))
        return (1 if is_one else None), at
    return (1 if word in _list("bare") and mention.kind and not many else None), mention.first


def _number_before(mention: Mention, at: int) -> int:
    """Where the number stands that words part from the turtles: 2 x; two girls are both musks."""
    sentence = mention.sentence
    word, before = sentence.word(at), sentence.word(at - 1)
    if word == "x" and before == "<number>":
        return at - 1
    if word == "," and mention.kind and before not in ("th", KIND):
        return at - 2 if sentence.word(at - 2) == "<number>" else at  # two Höckers, map turtles
    here = at if mention.many else -1
    while sentence.word(here) in ("both", "all", "are") or sex_of(sentence.word(here)):
        here -= 1
    return here if sentence.word(here) == "<number>" else at


def _counted_behind(mention: Mention) -> int | None:
    """The count behind them: sliders x2, turtles: 2, Graptemys nigrinoda 1.2."""
    sentence, at = mention.sentence, mention.at + 1
    is_times = sentence.word(at) in ("x", "n")
    at += is_times or (sentence.word(at) == "," and not mention.many)
    if sentence.word(at) != "<number>" or sentence.word(at + 1) not in ("", ",", "pcs", "pieces"):
        return None
    count, part = None, sentence.parts[at]
    if pair := _BREEDERS.fullmatch(part.said):
        mention.told[SEX] = _sexes(pair, sentence, at)
        count = len(mention.told[SEX])
    elif is_times or (mention.many and not part.sides):
        count = whole(part)
    mention.end = at + 1 if count else mention.end
    return count


def _sexes(pair: re.Match[str], sentence: Sentence, at: int) -> list[Detail]:
    told = [Detail(sex, sentence, at) for sex in ("male", "female")]
    return told[:1] * int(pair[1]) + told[1:] * int(pair[2])


def _as_breeders_count(mention: Mention, at: int) -> re.Match[str] | None:
    """1.1 pair, 1.2 trio: males and females, where what stands between says that it is that."""
    said = {*mention.sentence.words[at + 1 : mention.at]}
    pair = _BREEDERS.fullmatch(mention.sentence.parts[at].said)
    many = mention.many and mention.kind and pair is not None and pair[2] != "5"  # 2.5 is none
    is_lone = pair is not None and ("0" in pair.groups() or many)
    return pair if is_lone or not said.isdisjoint(_list("groups")) else None
