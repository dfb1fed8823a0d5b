"""Which of several turtles words speak of: turtle 2, the second slider, #2, the other one."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import partial
from itertools import pairwise

from interview.words.choices.choice import Choice
from interview.words.lexicon.files import known_words, listed
from interview.words.mentions.clauses import Clause
from interview.words.mentions.parts import Part, read_parts
from interview.words.mentions.scope.cutting import sentences
from interview.words.mentions.turtles.details import sex_of
from interview.words.mentions.turtles.kinds import KIND, with_kinds
from interview.words.mentions.turtles.mention import is_compared

__all__ = ["ALL", "OTHER", "RANKS", "Mentioned", "leading_turtle", "turtles_in"]

_list = partial(known_words, "animals")

ALL, OTHER = "all", "other"
_COMPARED = ("greatest", "least", "eldest", "youngest")
RANKS = (*_COMPARED, "latest")
"""Lists of words that tell a turtle by how it compares with the others."""
_MOST = 9
_ARE = ("are", "is", "were", "theyre")


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
    """One of RANKS, or OTHER, or ALL of them; of these `number` is how many, where that is told."""
    is_named: bool = True
    """Whether “turtle” stands there; else another thing may be meant: the second one."""
    is_counted: bool = False
    """Whether it is told by its turn, the second, which may be one more than there were."""
    kind: str = ""
    """Of which kind it is said to be, as it would be typed: the second of the sliders."""


def turtles_in(
    text: str, species: Sequence[Choice] = (), *, by_kind: bool = False
) -> list[Mentioned]:
    """The turtles of several that a text speaks of one by one, in its order.

    Kinds may stand for “turtle”: slider 2, the bigger slider; `by_kind` alone, too: the slider.
    """
    return [*_among(_with_kinds(text, species), by_kind=by_kind)]


def _with_kinds(text: str, species: Sequence[Choice]) -> Sequence[Part]:
    """The words of a text, each kind of turtle as one of them."""
    parts = read_parts(text)
    marked = with_kinds(sentences(text, parts), species) if species else []
    for kind in (part for one in marked for part in one.parts if part.text == KIND):
        first = next(at for at, part in enumerate(parts) if part.start >= kind.start)
        rest = [part for part in parts[first:] if part.start >= kind.end]
        parts = [*parts[:first], kind, *rest]
    return parts


def leading_turtle(clause: Clause) -> Mentioned | None:
    """The turtle by whose number a clause begins: turtle 2 species."""
    found = next(_among(clause.said.parts), None)
    return found if found and not found.first and found.number and found.is_named else None


def _among(parts: Sequence[Part], *, by_kind: bool = False) -> Iterator[Mentioned]:
    at, word = 0, partial(_word, parts)
    while at < len(parts):
        found = _numbered(parts, at) or _by_turn(parts, at) or _together(parts, at)
        found = found or (by_kind and _by_kind(parts, at)) or []
        if found and not is_compared(word, found[0].first, found[-1].end):
            yield from found
        at = max(at + 1, *(one.end for one in found)) if found else at + 1


def _word(parts: Sequence[Part], at: int) -> str:
    if not 0 <= at < len(parts):
        return ""
    part = parts[at]
    return part.said.casefold() if part.kind == "part" else part.text  # a third, or the third


def _numbered(parts: Sequence[Part], at: int) -> list[Mentioned]:
    """Turtle 2, turtle no. two, #2; turtles 1 and 2. A painted turtle 4 is of another number."""
    first, word, is_named = at, parts[at].text, _is_turtle(parts, at)
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
    if word == KIND:  # the painted one is another
        is_one = parts[at].said.casefold() == "one"
        return [] if is_one else [replace(found[0], kind=parts[first].said)]
    many = is_named and _is_many(parts[first])
    while is_named and _word(parts, at + 1) in ("and", ",", "&") and (n := _whole(parts, at + 2)):
        at += 2
        found.append(_made(parts, at, at + 1, number=n))
    if not many and not _tells_together(parts, at + 1):
        return found[:1]  # turtle 2, 9 cm
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
    is_named = _is_turtle(parts, at + 1) and not _is_many(parts[at + 1])
    is_one = behind == "<number>" and _whole(parts, at + 1) == 1
    led = is_the or (is_named and _word(parts, first - 1) not in _list("one"))
    of_them = behind == "of" and _word(parts, at + 2) in _list("of_them")
    told = rank in _COMPARED or (rank == OTHER and any(part.unit for part in parts[:first]))
    is_size = told and behind == "<number>" and _word(parts, at + 2) in _list("parts")
    if not led or not (is_named or is_one or of_them or is_size or _stands(behind)):
        return []
    end = at + 3 if of_them else at + 1 + (is_named or is_one)
    found = _made(parts, first, end, number=number, rank=rank, is_named=is_named)
    kind = parts[at + 1].said if behind == KIND else ""
    return [replace(found, is_counted=bool(number), kind=kind)]


def _together(parts: Sequence[Part], at: int) -> list[Mentioned]:
    """Both, all three, they, my two turtles, the sliders, two of them: whom the same is told of."""
    first, opens = at, _word(parts, at)
    if _word(parts, at - 1) in _ARE or _word(parts, at - 1) == "of":
        return []  # they are both girls, some of the turtles
    number = 2 if opens == "both" else 0
    is_led = opens in _list("definite") | _list("owned") | {"they", "theyre", "these", "those"}
    at += is_led or opens in ("both", "all", "each")
    at += _word(parts, at) == "of"
    at += at > first and _word(parts, at) in _list("definite") | _list("owned")
    if _word(parts, at) == "<number>":
        number, at = _whole(parts, at), at + 1
        if not number:
            return []
    some = at > first and _word(parts, at) == "of"  # two of them, one of the turtles
    of_them = (some or at > first) and _word(parts, at + some) in _list("of_them")
    of_them = of_them or (some and _word(parts, at + 1) in _list("definite") | _list("owned"))
    at += some + of_them if of_them else 0
    is_named = _is_turtle(parts, at) and _is_many(parts[at])
    kind = parts[at].said if is_named and parts[at].text == KIND else ""
    at += is_named
    opened = opens in ("both", "all", "each", "they", "theyre") or (number and of_them)
    if not (opened or (is_led and is_named)) or not _tells_together(parts, at):
        return []
    found = _made(parts, first, at, number=number, rank=ALL, is_named=is_named)
    return [replace(found, kind=kind)]


def _tells_together(parts: Sequence[Part], at: int) -> bool:
    """Whether what is told of several follows: are girls, 9 cm, grew."""
    told = _list("counted_on") | {"are", "weigh", "have", "both", "all", "each"}
    word, amounts = _word(parts, at), [n for n in range(at, len(parts)) if parts[n].said]
    joined = (set(map(partial(_word, parts), range(a + 1, b))) for a, b in pairwise(amounts))
    if any(between <= {",", "and", "/"} for between in joined) or _is_list(parts, amounts):
        return False  # a list tells of one after the other
    return word in told | known_words("changes", "only_by") or bool(sex_of(word))


def _is_list(parts: Sequence[Part], amounts: Sequence[int]) -> bool:
    return bool(amounts) and parts[amounts[0]].kind == "lengths"


def _by_kind(parts: Sequence[Part], at: int) -> list[Mentioned]:
    """The slider, my slider, slider; sliders and a slider are none of those that are known."""
    led = parts[at].text in _list("definite") | _list("owned")
    here = at + led
    while led and _word(parts, here) in _list("before"):
        here += 1  # the little slider
    if _word(parts, here) != KIND or _is_many(parts[here]):
        return []
    before = _word(parts, at - 1)
    if before in _list("said_to_be") or not (led or before in ("", ".", "\n")):
        return []  # turtle 2: slider
    return [replace(_made(parts, at, here + 1), kind=parts[here].said)]


def _is_turtle(parts: Sequence[Part], at: int) -> bool:
    return _word(parts, at) in _list("any") | {KIND}


def _is_many(part: Part) -> bool:
    many = part.look == "many" if part.text == KIND else part.text.endswith("s")
    return many and part.look != "owner"


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
