"""Turtles told of together, and those among them that are told of apart."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from interview.words.mentions.turtles.details import LENGTH, SEX, Detail
from interview.words.mentions.turtles.mention import Mention

__all__ = ["Group"]

_SAME = {"she": "female", "he": "male"}


@dataclass(eq=False)
class Group:
    """One turtle or several: two sliders, a male of 12 and a female of 20 cm; the others."""

    first: Mention
    """Where they were first spoken of."""
    count: int | None
    """How many; None where only what is told of them says so."""
    many: bool
    kind: str = ""
    is_guess: bool = False
    """Whether the kind was only thought to be it."""
    is_rest: bool = False
    """Whoever was not told of before."""
    called: str = ""
    above: Group | None = None
    told: dict[str, list[Detail]] = field(default_factory=dict)
    every: dict[str, Detail] = field(default_factory=dict)
    """What was told once of each of them."""
    members: list[Group] = field(default_factory=list)
    counted: Mention | None = None
    """Where words say how many they are, be it by an article."""
    named: Mention | None = None
    """Where their kind was told."""
    end: int = 0
    """Where the last word about them stands in their first sentence."""

    @property
    def is_fresh(self) -> bool:
        """Whether nothing was told of them yet."""
        return not (self.told or self.every or self.members)

    @property
    def is_of_a_kind(self) -> bool:
        """Whether they may be all of a kind, and not the keeper's: sliders grow."""
        return self.many and self.count is None and not self.members

    def be_one(self) -> None:
        """Be one turtle after all, of which nothing was told yet."""
        self.many, self.count, self.told, self.every = False, 1, {}, {}

    @property
    def number(self) -> int:
        """How many they are, as far as it is told."""
        if self.count is not None:
            return self.count
        counted = sum(one.number for one in self.told_apart)
        if not self.many:
            return 1
        listed = max(map(len, self.told.values()), default=0)
        whole = self.first.head != "kind" or self.first.is_listed
        return counted or (listed if whole or listed == 1 else 0)

    @property
    def told_apart(self) -> list[Group]:
        """The members that something is told of; each by name where all of them are named."""
        if self.count == sum(bool(one.called) for one in self.members) == len(self.members):
            return [*self.members]
        heads = ("kind", "turtle")
        told = (one.kind or one.is_rest or not one.is_fresh for one in self.members)
        return [
            one
            for one, known in zip(self.members, told, strict=True)
            if known or one.first.head in heads
        ]

    def settle(self) -> None:
        """Count those who are all that is left."""
        for one in self.members:
            one.settle()
        told = self.told_apart
        rest = [one for one in told if one.many and one.count is None]
        rest = [one for one in rest if one.is_rest or not one.number]
        if len(rest) == 1 and self.count:
            left = self.count - sum(one.number for one in told if one is not rest[0])
            rest[0].count, rest[0].many = max(1, left), left > 1

    def has_room(self, more: int) -> bool:
        """Whether they are so many that more may be told of apart."""
        told = sum(one.number for one in self.told_apart)
        return self.count is None or told + more <= self.count

    def is_open(self, by_sex: bool = False) -> bool:
        """Whether others of them may still be told of; lists don't hinder telling of a sex."""
        listed = (one for name, one in self.told.items() if name != SEX and not by_sex)
        if not self.many or any(len(one) > 1 and len(one) == self.count for one in listed):
            return False
        return self.has_room(1)

    @property
    def is_several(self) -> bool:
        """Whether they are more than one."""
        return self.many or len(self.members) > 1

    def is_told_each(self, name: str) -> bool:
        """Whether something was told of each of them, or of all they are of."""
        return name in self.every or (self.above is not None and self.above.is_told_each(name))

    @property
    def is_whole(self) -> bool:
        """Whether as many are told of one by one as they are."""
        told = any(len(one) == self.number for one in self.told.values())
        apart = sum(one.number for one in self.told_apart) == self.number
        return self.many and self.number > 1 and (told or apart)

    def is_whole_of(self, mention: Mention) -> bool:
        """Whether a kind told behind them is that of some of them, and not of others beside."""
        joined = self.first.sentence is mention.sentence and not self.members
        return not (joined and mention.sentence.word(mention.first - 1) == "and")

    def takes(self, name: str, more: int = 1) -> bool:
        """Whether so much more may be told of a question: of one of them, or of each."""
        known = len(self.told.get(name, ()))
        if name in self.every:
            return False
        if self.many and self.count is None:
            return True
        return known + more <= (self.count or 1)

    def tell(self, name: str, details: list[Detail]) -> None:
        """Add what is told of them."""
        self.told.setdefault(name, []).extend(details)
        for one in details:
            if one.sentence is self.first.sentence:
                self.end = max(self.end, one.at + 1)

    def tell_each(self, name: str, detail: Detail) -> None:
        """Keep what is told of every one of them."""
        self.every.setdefault(name, detail)
        if detail.sentence is self.first.sentence:
            self.end = max(self.end, detail.at + 1)

    @property
    def sex(self) -> str:
        """The sex of all of them, told or only said as she or he; "" where it isn't one."""
        said = {_SAME.get(one.said, one.said) for one in self.told.get(SEX, ())}
        if SEX in self.every:
            said.add(self.every[SEX].said)
        return said.pop() if len(said) == 1 else ""

    def sets(self) -> Iterator[Group]:
        """All that may have members, the outermost first."""
        if self.many:
            yield self
        for one in self.members:
            yield from one.sets()

    def details(self, start: int, number: int) -> Iterator[tuple[int, str, Detail]]:
        """Which turtle, which question and what was told of it, where it is told of each."""
        apart = self.told_apart
        complete = sum(one.number for one in apart) == number and bool(apart)
        mine = set()
        if complete:
            at = start
            for one in apart:
                for animal, name, detail in one.details(at, one.number):
                    mine.add((animal, name))
                    yield animal, name, detail
                at += one.number
        for name in {**self.told, **self.every}:
            told = self.told.get(name, [])
            if name in self.every:
                told = [self.every[name]] * number
            elif len(told) == 1 and self.above is not None and self.above.many and number > 1:
                told = told * number if self.first.head != "kind" or name != LENGTH else told
            if len(told) == number:
                yield from (
                    (start + at, name, one)
                    for at, one in enumerate(told)
                    if (start + at, name) not in mine
                )

    def kinds(self, start: int, number: int) -> Iterator[tuple[int, Group]]:
        """Which turtle, and the group by whose name its kind was told."""
        apart = self.told_apart
        named: set[int] = set()
        if apart and sum(one.number for one in apart) == number:
            at = start
            for one in apart:
                for animal, group in one.kinds(at, one.number):
                    named.add(animal)
                    yield animal, group
                at += one.number
        if self.kind:
            yield from ((at, self) for at in range(start, start + number) if at not in named)
