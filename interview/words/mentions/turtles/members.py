"""Turtles told of one by one, or several together, within what is told of all of them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from functools import partial

from interview.words.lexicon.files import known_words
from interview.words.mentions.scope.sentence import Sentence
from interview.words.mentions.turtles.details import Detail, other_things, sex_ahead, sex_of

__all__ = ["Member", "Members", "begins"]

_list = partial(known_words, "animals")

_SAME = {"she": 0, "female": 0, "he": 1, "male": 1, "unknown": 2}


@dataclass(eq=False)
class Member:
    """Turtles told of together: two girls of 18 and 20 cm; Bruce, 19 cm; the others."""

    count: int
    """How many; 0 for as many as something is told of: females at 9 and 8 inches."""
    is_rest: bool = False
    """Whoever was not told of before."""
    is_implied: bool = False
    """Whether only an amount of its own sets it apart: 18 cm, female, 9 cm, male."""
    called: str = ""
    """A name by which it may be taken up."""
    told: dict[str, list[Detail]] = field(default_factory=dict)

    def takes(self, name: str, more: int) -> bool:
        """Whether so much more may be told of a question: of one of them, or of each."""
        known = self._number(name)
        if not self.count or not known:
            return more == 1 or self.count in (0, more)
        return known + more <= self.count

    def _number(self, name: str) -> int:
        return len(self.told.get(name, ()))

    @property
    def many(self) -> int:
        """How many they are, as far as told."""
        return self.count or max(map(len, self.told.values()), default=0)

    def each(self, name: str) -> Iterator[tuple[int, Detail]]:
        """Which of them, and what was told of it; what was told once is of each."""
        details = self.told.get(name, [])
        return enumerate(details * self.many if len(details) == 1 else details)

    def fits(self, name: str) -> bool:
        """Whether as much is told of a question as there are turtles, or once for each."""
        return self._number(name) in (0, 1, self.many)


class Members:
    """Those who were told of so far, and the ones that are spoken of now."""

    def __init__(self) -> None:
        self.all: list[Member] = []
        self.now: Member | None = None

    @property
    def names(self) -> frozenset[str]:
        """What they are called."""
        return frozenset(one.called for one in self.all if one.called)

    @property
    def told(self) -> list[Member]:
        """Those of whom something is told, and who are set apart by more than an amount."""
        return [one for one in self.all if one.told and not one.is_implied]

    def begin(self, member: Member) -> Member:
        """Speak of these from now on."""
        if all(one is not member for one in self.all):
            self.all.append(member)
        self.now = member
        return member

    def open(self, sentence: Sentence, at: int) -> None:
        """Begin with the next turtles where a count, a rank, a sex or a name says so."""
        word, part, now = sentence.words[at], sentence.parts[at], self.now
        before, after = sentence.word(at - 1), sentence.word(at + 1)
        fresh = now is not None and not now.told
        if word in ("others", "rest"):
            self.begin(Member(0, is_rest=True))
        elif word in _list("ranks") and after != "than":
            self.begin(Member(1))
        elif word == "<number>" and not part.sides and part.value == int(part.value):
            if now and fresh and before == "other" and after not in _list("parts"):
                now.count = int(part.value)
            elif before not in _list("every") and (
                sex_ahead(sentence, at) or _is_some(sentence, at)
            ):
                self.begin(Member(int(part.value)))
        elif word in _list("one_of_them") and (sex := sex_ahead(sentence, at)) and not fresh:
            many = sex.endswith("s")
            known = None if many or word != "the" else self.only(sex_of(sex))
            self.begin(known or Member(0 if many else 1))
        elif self.is_name(sentence, at):
            known = next((one for one in self.all if one.called == word), None)
            apart = now is None or now.called or before == "and" or now.told.keys() != {"sex"}
            if known is None and now is not None and not apart:
                now.called = word  # the male, Otto
            else:
                self.begin(known or Member(1, called=word))

    def only(self, sex: str) -> Member | None:
        """The only one of its sex told of before: the male."""
        own = [
            m for m in self.all if "sex" in m.told and _SAME[m.told["sex"][0].said] == _SAME[sex]
        ]
        return own[0] if len(own) == 1 else None

    def is_name(self, sentence: Sentence, at: int) -> bool:
        """Whether a word is what a turtle is called."""
        word, after = sentence.words[at], sentence.word(at + 1)
        if word in self.names:
            return True
        if sex_of(word) or not (
            sentence.parts[at].look in ("name", "owner") or begins(sentence, at)
        ):
            return False
        stands = sentence.word(at - 1) in _list("before_name") and after in _list("after_name")
        return stands and word not in other_things() | known_words("fillers")

    def numbered(self, total: int) -> list[tuple[int, Member]]:
        """The number of the first turtle of each; none where they don't come to the total.

        Those that only an amount sets apart count where there are no others.
        """
        told = self.told or [one for one in self.all if one.told]
        rest = [one for one in told if one.is_rest or (not one.count and one.many == 1)]
        if len(rest) == 1:
            rest[0].count = max(1, total - sum(one.many for one in told if one is not rest[0]))
        starts = [sum(one.many for one in told[:at]) for at in range(len(told) + 1)]
        return list(zip(starts, told, strict=False)) if starts[-1] == total else []

    def through(self, counted: Sequence[Member]) -> set[str]:
        """What is told of others than these."""
        return {name for one in self.all if one not in counted for name in one.told}


def begins(sentence: Sentence, at: int = 0) -> bool:
    """Whether a sentence begins with somebody who is something: Otis is 5 cm; Otis, the fella."""
    after = sentence.word(1)
    told = after == "," and any(map(sex_of, sentence.words[2:5]))
    return at == 0 and (after in ("is", "s") or told)


def _is_some(sentence: Sentence, at: int) -> bool:
    """Whether a number counts some of them: one is, two of them."""
    after, behind = sentence.word(at + 1), sentence.word(at + 2)
    return after in _list("counted_on") or (after == "of" and behind in _list("of_them"))
