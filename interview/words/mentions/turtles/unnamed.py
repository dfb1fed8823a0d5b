"""Turtles a story speaks of beside those it names: another one, two more, and one male.

Who they are and how many there are then, nobody can say for sure.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from functools import cache

from interview.words.lexicon.files import words
from interview.words.mentions.scope import Sentence
from interview.words.mentions.turtles.named import Group

__all__ = ["speaks_of_others"]

_MOST = 30
_SPELLED = frozenset({"one", "two", "three", "four", "five", "six"})


@cache
def _other() -> Mapping[str, frozenset[str]]:
    """The lists of words under `other_animals`."""
    return {name: frozenset(listed) for name, listed in words()["other_animals"].items()}


@cache
def _sexes() -> frozenset[str]:
    animals = words()["animals"]
    return frozenset([*animals["female"], *animals["male"]])


@cache
def _animal_words() -> frozenset[str]:
    """Words that describe a turtle without naming its kind."""
    return _sexes() | frozenset(words()["animals"]["before"]) - {"common"}


def speaks_of_others(sentence: Sentence, off: frozenset[int], groups: Sequence[Group]) -> bool:
    """Whether a sentence speaks of turtles outside the groups that were read.

    Args:
        sentence: the sentence
        off: its words near wishes, which don't count
        groups: the turtles of the whole story
    """
    own = [group for group in groups if group.sentence is sentence]
    taken = {at for group in own for at in range(group.first, group.end)} | off
    free = [at for at in range(len(sentence.words)) if at not in taken]
    if any(_is_more(sentence, at) for at in free):
        return True
    if any((group.count or 0) > 1 and not group.species for group in groups):
        return False  # the total was told; it is held against the kinds by itself
    if any(_is_another(sentence, at) for at in free):
        return True
    if not own:
        return False
    if any(_is_young(sentence, at) or _is_loose(sentence, at) for at in free):
        return True
    counted = [at for at in free if _counts(sentence, at)]
    return bool(counted) and not _are_the_same(sentence, counted, own, taken)


def _is_more(sentence: Sentence, at: int) -> bool:
    """Another of 5 inches, two more; but not another filter."""
    word, after = sentence.words[at], sentence.word(at + 1)
    if word == "another":
        return _ends(after) or after in _animal_words() or after == "one"
    if word == "more" and sentence.word(at - 1) in ("<number>", "one", "few", "some"):
        return _ends(after) or after in _animal_words()
    return False


def _is_another(sentence: Sentence, at: int) -> bool:
    """A smaller one, the other."""
    word, after = sentence.words[at], sentence.word(at + 1)
    if word in _other()["compared"] and _is_one(sentence, at + 1):
        return _ends(sentence.word(at + 2))
    return word in ("other", "others") and _ends(after) and sentence.word(at - 1) in ("the", "an")


def _is_young(sentence: Sentence, at: int) -> bool:
    """Her baby, the hatchlings."""
    return sentence.words[at] in _other()["young"]


def _is_loose(sentence: Sentence, at: int) -> bool:
    """One 6-inch map: a name too short to be sure of, behind a number or a length."""
    if sentence.words[at] not in _other()["loose"] or not _ends(sentence.word(at + 1)):
        return False
    before = at - 1
    while sentence.word(before) in _animal_words() or sentence.word(before) == "<length>":
        before -= 1
    return sentence.word(before) in ("a", "an", "my", "our", "<number>", "the")


def _counts(sentence: Sentence, at: int) -> bool:
    """A number, or "a", that stands for a turtle: one male, two of 5 inches."""
    word, after = sentence.words[at], sentence.word(at + 1)
    if word in ("a", "an"):
        return after in _sexes() and sentence.word(at - 1) not in _other()["said_of"]
    part = sentence.parts[at]
    if word != "<number>" or part.unit or part.sides or not 1 <= part.value <= _MOST:
        return False
    if after in _animal_words() or after == "<length>":
        return sentence.word(at - 1) in _other()["listed_after"]
    return _is_one(sentence, at) and _ends(after)


def _is_one(sentence: Sentence, at: int) -> bool:
    """One or two, spelled."""
    if not 0 <= at < len(sentence.parts):
        return False
    return sentence.parts[at].said.casefold() in _SPELLED or sentence.words[at] in ("one", "ones")


def _ends(word: str) -> bool:
    """Nothing that the word before could belong to follows."""
    return word in _other()["followed_by"] or word == "<length>"


def _are_the_same(
    sentence: Sentence, counted: Sequence[int], own: Sequence[Group], taken: Collection[int]
) -> bool:
    """Two sliders, one male and one female: the same two again; or one of them is bigger."""
    last = max(taken)
    if min(counted) < last or any(group.lengths or group.every_length for group in own):
        return False
    total = sum(group.count or 0 for group in own)
    if total < 2:
        return False
    numbers = [sentence.parts[at].value or 1 for at in counted]
    of_them = all(
        sentence.word(at + 1) == "of" and sentence.word(at + 2) in _other()["them"]
        for at in counted
    )
    return of_them or (len(numbers) > 1 and sum(numbers) == total)
