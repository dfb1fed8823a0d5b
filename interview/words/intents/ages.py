"""Ages of people, and words about them, in a clause that tells who is at home."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from functools import cache

from interview.base.units import convert
from interview.words.lexicon.files import people
from interview.words.mentions.parts import Part

__all__ = ["UNITS", "ages_in", "is_decade", "said_of_people", "words_of"]

UNITS = ("day", "week", "month", "year")
_OLDEST = 115.0
_EARLY, _MIDDLE = 2, 5
"""Years into a ten."""
_DECADE = re.compile(r"(?:\d ?['’]?s|ties)$", re.IGNORECASE)
_COUNTING = ("family of", "household of", "party of")
"""Before how many they are."""


def words_of(parts: Iterable[Part]) -> str:
    """The words of some parts; amounts stand in angle brackets."""
    return " ".join(part.text for part in parts)


def is_decade(part: Part) -> bool:
    """Whether a ten may be of years as well as of degrees: mid-seventies, but not low 90s F."""
    return part.kind == "temperature" and _DECADE.search(part.said) is not None


def ages_in(clause: Sequence[Part], of_people: bool) -> Iterator[float]:
    """Ages that are told, in years."""
    for at, part in enumerate(clause):
        before, after = words_of(clause[max(0, at - 2) : at]), words_of(clause[at + 1 : at + 2])
        leads = not before or before.rpartition(" ")[2] in people().home["ages"]
        if part.unit in UNITS:
            years = convert(part.value, str(part.unit), "year")
            is_age = after == "old" or part.said.casefold().endswith(("yo", "y/o"))
            is_age = is_age or (of_people and leads)
        elif is_decade(part) or (part.kind == "number" and after == "s"):
            middle = _EARLY if before.endswith("early") else _MIDDLE  # in their 60s may be 65
            years = part.value + (middle if part.kind == "number" else 0)
            led = words_of(clause[max(0, at - 3) : at]).split()
            is_age = of_people and (leads or "in" in led)
        else:
            years = part.value
            is_age = part.kind == "number" and part.said != "one" and leads and of_people
            is_age = is_age and not said_of_people("counted").match(after)
            is_age = is_age and not before.endswith(_COUNTING)
        if not is_age or years >= _OLDEST or before.endswith(("for", "since")) or after == "ago":
            continue
        around = f"{before} {part.said.casefold()}"
        if said_of_people("under").search(around) or said_of_people("nearly").search(around):
            years -= 0.5
        yield years


@cache
def said_of_people(name: str) -> re.Pattern[str]:
    """The words of a list of who is at home; bound for what limits an age, as under."""
    listed = people().home
    ways = (*listed["under"], *listed["over"]) if name == "bound" else listed[name]
    return re.compile(rf"\b(?:{'|'.join(map(re.escape, ways))})\b")
