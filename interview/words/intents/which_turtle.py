"""Which of several turtles words speak of: turtle 2, the second one, #2, the other, the biggest."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import partial

from interview.words.lexicon.files import known_words, listed
from interview.words.mentions.clauses import Clause
from interview.words.mentions.parts import Part, read_parts
from interview.words.mentions.turtles.details import sex_of

__all__ = ["OTHER", "RANKS", "Mentioned", "leading_turtle", "turtle_in", "turtles_in"]

_list = partial(known_words, "animals")

OTHER = "other"
RANKS = ("greatest", "least", "eldest", "youngest", "latest")
"""Lists of words that tell a turtle by how it compares with the others."""
_MOST = 9
_SHARE = 4
"""Words within which a share is told: half the size of."""


@dataclass(frozen=True)
class Mentioned:
    """A turtle that words tell from the others, and where they stand."""

    first: int
    end: int
    """Of the words."""
    start: int
    stop: int
    """Of the characters."""
    number: int = 0
    """Its number, counted from 1; 0 where it is told by its rank."""
    rank: str = ""
    """One of RANKS, or OTHER."""
    is_named: bool = True
    """Whether “turtle” stands there; else another thing may be meant: the second one."""
    is_counted: bool = False
    """Whether it is told by its turn, the second, which may be one more than there were."""


def turtles_in(text: str) -> list[Mentioned]:
    """The turtles of several that a text speaks of one by one, in its order."""
    return [*_among(read_parts(text))]


def turtle_in(clause: Clause) -> int | None:
    """The number of the one turtle that a clause calls by its number; None of others."""
    numbers = {one.number for one in _among(clause.said.parts) if one.is_named and one.number}
    return numbers.pop() if len(numbers) == 1 else None


def leading_turtle(clause: Clause) -> Mentioned | None:
    """The turtle by whose number a clause begins: turtle 2 species."""
    found = next(_among(clause.said.parts), None)
    return found if found and not found.first and found.number and found.is_named else None


def _among(parts: Sequence[Part]) -> Iterator[Mentioned]:
    at = 0
    while at < len(parts):
        found = _numbered(parts, at) or _by_turn(parts, at)
        if found and not _is_compared(parts, found[0].first, found[-1].end):
            yield from found
        at = max(at + 1, *(one.end for one in found)) if found else at + 1


def _is_compared(parts: Sequence[Part], first: int, end: int) -> bool:
    """Whether another turtle is compared with it: smaller than turtle 1, half of the other."""
    before = _word(parts, first - 1)
    if before in ("of", "as"):
        near = range(max(0, first - _SHARE), first - 1)
        return not _list("share").isdisjoint(_word(parts, n) for n in near)
    is_told = _word(parts, end) in _list("counted_on")  # it looks like the other one is 9 cm
    compares = before in _list("compared_with") | _list("share")
    return before == "than" or (compares and not is_told)


def _word(parts: Sequence[Part], at: int) -> str:
    if not 0 <= at < len(parts):
        return ""
    part = parts[at]
    return part.said.casefold() if part.kind == "part" else part.text  # a third, or the third


def _numbered(parts: Sequence[Part], at: int) -> list[Mentioned]:
    """Turtle 2, turtle no. two, #2; turtles 1 and 2. A painted turtle 4 is of another number."""
    first, word, is_named = at, parts[at].text, parts[at].text in _list("any")
    if is_named and _word(parts, at - 1) in known_words("asked_instead", "another_turtle"):
        return []
    if is_named:
        at += 1
        while _word(parts, at) in _list("numbering") | {"."}:
            at += 1
    elif word in _list("numbering") and word not in known_words("denials"):
        at += 1
    if at == first or not (number := _whole(parts, at)):
        return []
    owns = parts[at].kind != "number"  # turtle 2's
    found = [_made(parts, first, at + 1 + owns, number=number, is_named=is_named)]
    many = is_named and _is_many(parts[first])
    while many and _word(parts, at + 1) in ("and", ",") and (number := _whole(parts, at + 2)):
        at += 2
        found.append(_made(parts, at, at + 1, number=number))
    return found if len(found) > 1 or not many else []


def _by_turn(parts: Sequence[Part], at: int) -> list[Mentioned]:
    """The second turtle, the 2nd one, the other, the biggest; a second one is none of them."""
    first, ordinals = at, listed("animals", "ordinals")
    is_the = parts[at].text in _list("definite") | _list("owned")
    at += is_the
    number, rank, word = 0, "", _word(parts, at)
    if word in ordinals:
        number = ordinals.index(word) + 1
    elif word == "<number>" and _word(parts, at + 1) in _list("ordinal_ends"):
        number, at = _whole(parts, at), at + 1
    elif word == OTHER:
        rank = OTHER
    else:
        rank = next((name for name in RANKS if word in _list(name)), "")
    if not (number or rank):
        return []
    behind = _word(parts, at + 1)
    is_named = behind in _list("any") and not _is_many(parts[at + 1])
    is_one = behind == "<number>" and _whole(parts, at + 1) == 1
    led = is_the or (is_named and _word(parts, first - 1) not in _list("one"))
    of_them = behind == "of" and _word(parts, at + 2) in _list("of_them")
    if not led or not (is_named or is_one or of_them or _stands(behind)):
        return []
    end = at + 3 if of_them else at + 1 + (is_named or is_one)
    found = _made(parts, first, end, number=number, rank=rank, is_named=is_named)
    return [replace(found, is_counted=bool(number))]


def _is_many(part: Part) -> bool:
    return part.text.endswith("s") and part.look != "owner"


def _stands(behind: str) -> bool:
    """Whether what is told of it follows, or nothing."""
    told = {"", ",", ":", ".", "-", "?", "thats", "a", "an"} | _list("counted_on")
    return behind in told | known_words("changes", "gone") or bool(sex_of(behind))


def _whole(parts: Sequence[Part], at: int) -> int:
    """A small whole number that is no amount of anything; else 0."""
    part = parts[at] if at < len(parts) else None
    is_owner = part and part.said.endswith("'") and _word(parts, at + 1) == "s"  # turtle 2's
    if part is None or not (part.kind == "number" or is_owner) or part.sides:
        return 0
    return int(part.value) if part.value == int(part.value) and 1 <= part.value <= _MOST else 0


def _made(
    parts: Sequence[Part],
    first: int,
    end: int,
    *,
    number: int = 0,
    rank: str = "",
    is_named: bool = True,
) -> Mentioned:
    start, stop = parts[first].start, parts[end - 1].end
    return Mentioned(first, end, start, stop, number, rank, is_named)
