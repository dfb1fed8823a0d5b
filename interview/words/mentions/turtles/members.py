"""Turtles told of one by one, or several together, within what is told of all of them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from interview.words.mentions.turtles.details import Detail

__all__ = ["Member", "numbered"]


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
    """A name, or another word by which it may be taken up."""
    told: dict[str, list[Detail]] = field(default_factory=dict)

    def add(self, name: str, details: Sequence[Detail]) -> None:
        """Add what was told of a question."""
        self.told.setdefault(name, []).extend(details)

    def takes(self, name: str, more: int) -> bool:
        """Whether so much more may be told of a question: of one of them, or of each."""
        known = self.number(name)
        if not self.count or not known:
            return more == 1 or self.count in (0, more)
        return known + more <= self.count

    def number(self, name: str) -> int:
        """How often something was told of a question."""
        return len(self.told.get(name, ()))

    @property
    def many(self) -> int:
        """How many they are, as far as told."""
        return self.count or max(map(len, self.told.values()), default=0)

    def each(self, name: str) -> Iterator[tuple[int, Detail]]:
        """Which of them, and what was told of it; what was told once is of each."""
        details = self.told.get(name, [])
        once = details * self.many if len(details) == 1 else details
        return enumerate(once[: self.many])

    def fits(self, name: str) -> bool:
        """Whether as much is told of a question as there are turtles, or once for each."""
        return self.number(name) in (0, 1, self.many)


def numbered(members: Sequence[Member], total: int) -> list[tuple[int, Member]]:
    """The number of the first turtle of each member; none where they don't come to the total.

    Those that only an amount sets apart count where there are no others.
    """
    told = [one for one in members if one.told]
    told = [one for one in told if not one.is_implied] or told
    rest = [one for one in told if one.is_rest]
    if len(rest) == 1:
        rest[0].count = max(1, total - sum(one.many for one in told if one is not rest[0]))
    starts, number = [], 0
    for one in told:
        starts.append((number, one))
        number += one.many
    return starts if number == total else []
