"""What is told of each turtle, in order: two girls 18 and 20 cm, and a male of 12 cm."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cache, partial

from interview.words.amounts.spellings import label
from interview.words.lexicon.files import known_words, meant_by
from interview.words.mentions.attributes import of_a_turtle
from interview.words.mentions.competing import is_mended
from interview.words.mentions.parts import Part
from interview.words.mentions.scope import Sentence
from interview.words.mentions.turtles.details import Detail, initial_at, is_shell, sex_of

__all__ = ["Individuals"]

_list = partial(known_words, "animals")

_AHEAD = 3
"""Words from a count to the sex it counts: two little girls."""
_BEFORE_ONE = (",", "and", "is")
_OF_PEOPLE = frozenset({"from", "off", "by", "my", "our", "to", "for"})
"""Before a girl who is no turtle."""
_SEX, _LENGTH, _AGE = "sex", "carapace_length", "age"


class Individuals:
    """Sexes, lengths and ages in the order they are told, and what holds for every turtle."""

    def __init__(self, lengths: Sequence[Detail], sexes: Sequence[Detail]) -> None:
        """With what stands in front of the turtles, which one by itself is of all of them."""
        before: dict[str, list[Detail]] = {_SEX: [*sexes], _LENGTH: [*lengths], _AGE: []}
        self._told = {name: told if len(told) > 1 else [] for name, told in before.items()}
        self._every = {name: told[0] for name, told in before.items() if len(told) == 1}
        self._times, self._scope, self._unit, self._last = 1, "", "", ""

    @property
    def told(self) -> int:
        """How many turtles they are told of, as far as it is told alike."""
        counts = {len(told) for told in self._told.values() if len(told) > 1}
        return counts.pop() if len(counts) == 1 else 0

    def details(self, count: int) -> Iterator[tuple[int, str, Detail]]:
        """Which turtle, which question and what was told of it; nothing told of some alone."""
        for name, told in self._told.items():
            if len(told) == count:
                yield from ((animal, name, one) for animal, one in enumerate(told))
            elif len(told) == 1 and self._is_of_all(name):
                yield from ((animal, name, told[0]) for animal in range(count))
            elif not told and name in self._every:
                yield from ((animal, name, self._every[name]) for animal in range(count))

    def _is_of_all(self, name: str) -> bool:
        """Whether what was told once closes what is told of them: two sliders, 8 years."""
        return self._last == name and (name == _AGE or self._told[name][0].said == "unknown")

    def read(self, sentence: Sentence, first: int, limit: int) -> int:
        """Read on as long as every word is about the turtles; where the last was that told."""
        end = at = first
        while at < limit and sentence.words[at] not in _list("added"):
            tells = self._tells(sentence, at)
            if tells is None:
                at = self._begun(sentence, at + 1, limit)
                continue
            at += 1
            end = at if tells else end
        return end

    def _begun(self, sentence: Sentence, first: int, limit: int) -> int:
        """Where turtles are taken up again behind other words: …, two girls 18 and 20 cm."""
        for at in range(first, limit):
            word, before = sentence.words[at], sentence.words[at - 1]
            counts = word == "<number>" or (word in _list("one_of_them") and before in _BEFORE_ONE)
            if counts and self._sex_ahead(sentence, at):
                return at
        return limit

    def _sex_ahead(self, sentence: Sentence, at: int) -> bool:
        for here in range(at + 1, at + 1 + _AHEAD):
            if sex_of(sentence.word(here)):
                return sentence.word(here + 1) not in _list("any")
            if sentence.word(here) not in _list("before"):
                return False
        return False

    def _tells(self, sentence: Sentence, at: int) -> bool | None:
        """Whether a word tells something; None where it is about something else."""
        word, part = sentence.words[at], sentence.parts[at]
        if (sex := sex_of(word)) or (sex := initial_at(sentence, at)):
            return self._take_sex(sex, sentence, at)
        if word in ("<length>", "<lengths>"):
            sides = part.sides if word == "<lengths>" else () if part.sides else (part,)
            shells = [one for one in sides if is_shell(one)]
            self._unit = label(part.unit or "")
            told = [Detail(one.said, sentence, at) for one in shells]
            if not _begins_length(sentence, at):
                return False
            return self._take(_LENGTH, told) if _ends_length(sentence, at) else None
        if word == "<number>":
            return self._take_number(part, sentence, at)
        if word == "<duration>":
            is_age = not part.sides and of_a_turtle(_AGE, part.value, part.unit)
            before, after = sentence.word(at - 1), sentence.word(at + 1)
            stands = before in _list("before_age") or sex_of(before) or before[:1] == "<"
            stands = stands and after in _list("after_age")
            doubted = sentence.is_doubted(at, at + 1)
            told = [Detail(part.said, sentence, at)] if is_age and stands and not doubted else []
            return self._take(_AGE, told)
        if word in _list("every"):
            self._scope = word
            if sentence.word(at - 1) in ("<length>", "length", "long"):
                self._spread(_LENGTH)
            return False
        return None if word in _others() or word[:1] == "<" else False

    def _take_sex(self, sex: str, sentence: Sentence, at: int) -> bool | None:
        if sentence.word(at + 1) in _list("any"):
            return None
        if not _OF_PEOPLE.isdisjoint(sentence.words[max(0, at - 2) : at]):
            return False
        if sentence.words[at] in _list("people_too") and not _stands_alone(sentence, at):
            return False
        times, self._times = self._times, 1
        told = [] if sentence.is_doubted(at, at + 1) else [Detail(sex, sentence, at)] * times
        return self._take(_SEX, told) is not None

    def _take_number(self, part: Part, sentence: Sentence, at: int) -> bool | None:
        """A count of what follows, or a length without its unit: 14 cm, the smallest 8."""
        if self._sex_ahead(sentence, at) and not part.sides and part.value == int(part.value):
            self._times = int(part.value)
            return False
        if self._told[_LENGTH] and self._unit and _ends_length(sentence, at):
            return self._take(_LENGTH, [Detail(f"{part.said} {self._unit}", sentence, at)])
        return False if part.value == 1 or _is_of_breeders(part) else None

    def _take(self, name: str, told: list[Detail]) -> bool | None:
        """Add what was told, of both or of every turtle where a word says so."""
        scope, self._scope = self._scope, ""
        if scope == "both" and len(told) == 1:
            told = told * 2
        elif scope and len(told) == 1:
            self._every[name] = told.pop()
            return True
        self._told[name] += told
        self._last = name if told else self._last
        return True if told else None

    def _spread(self, name: str) -> None:
        """What was told last is that of each: about 5 inches each."""
        if len(self._told[name]) == 1:
            self._every[name] = self._told[name].pop()
        self._scope = ""


def _begins_length(sentence: Sentence, at: int) -> bool:
    """Whether a length follows the turtles or a word for a shell, and no deed: stands up 15 cm."""
    before = sentence.word(at - 1)
    listed = before in _list("before_age") | _list("before_length")
    return bool(listed or before[:1] == "<" or sex_of(before) or sentence.parts[at - 1].look)


def _ends_length(sentence: Sentence, at: int) -> bool:
    return sentence.word(at + 1) in _list("after_length") and not is_mended(sentence, at + 1)


def _stands_alone(sentence: Sentence, at: int) -> bool:
    """Whether a lady is told as one of the turtles, and not as whom they are from."""
    before, after = sentence.word(at - 1), sentence.word(at + 1)
    if before == "<number>" or (before, after) == ("the", "is"):
        return before == "<number>" or sentence.word(at + 2)[:1] == "<"
    return before in _list("before_sex") and (after in _list("after_sex") or after[:1] == "<")


def _is_of_breeders(part: Part) -> bool:
    """Whether a number may be males and females, told before or besides: a pair, 1.1."""
    return part.said[1:2] == "." and len(part.said) == len("1.1")


@cache
def _others() -> frozenset[str]:
    """Words that name what else an amount may be of: a tank, a lamp, a child."""
    names = {**meant_by("things"), **meant_by("topics")}
    return frozenset(name for name, topic in names.items() if topic != "turtle") - _list("after")
