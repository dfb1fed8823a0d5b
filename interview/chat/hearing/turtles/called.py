"""Which known turtles a line calls: by a number, a turn, their size, their kind, or all of them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import chain
from typing import TypeAlias

from interview.chat.hearing.turtles.of_a_kind import of_kind
from interview.graph.interview import Interview, Place
from interview.words.amounts.reading import Reading
from interview.words.intents.changes import Told
from interview.words.intents.which_turtle import ALL, OTHER, Mentioned, turtles_in
from interview.words.mentions.clauses import Clause
from interview.words.mentions.parts import Part, read_parts

__all__ = [
    *("MINE", "Turtles", "amounts_in", "called_in", "each_as_mine", "last_called"),
    *("meant_by", "places_of", "resolved", "untold_apart"),
]

MINE = "my turtle"
"""What a turtle is called where no other is spoken of."""
Turtles: TypeAlias = tuple[int | None, ...]
"""Those that are meant, counted from 0; None for what can't be told, and for what none is."""
_BY = {
    "greatest": ("carapace_length", 1),
    "least": ("carapace_length", -1),
    "eldest": ("age", 1),
    "youngest": ("age", -1),
}
"""What a rank compares, and whether the most of it is meant."""


def called_in(interview: Interview, line: str, *, by_kind: bool = False) -> list[Mentioned]:
    """The turtles that a line calls one by one, or together; `by_kind` takes in “the slider”.

    A number behind a kind is one of these, where there are as many; it measures something else.
    Of more than there are some joined.
    """

    def fits(one: Mentioned) -> bool:
        turtles = len(of_kind(interview, one.kind)) if one.kind else interview.animal_count
        is_bound = one.rank == ALL or (one.kind and not one.is_counted)
        return not (is_bound and one.number > turtles)

    called = turtles_in(line, interview.lists.options["species"], by_kind=by_kind)
    return [*filter(fits, called)]


def meant_by(interview: Interview, words: str, here: int | None = None) -> int | None:
    """The one turtle that words call by its number, its turn or its looks, counted from 0.

    Where one is asked of, `here`, others are told from that.
    """
    meant = {*chain(*resolved(interview, called_in(interview, words), here))}
    return meant.pop() if len(meant) == 1 else None


def each_as_mine(interview: Interview, line: str) -> tuple[str, dict[int, Turtles]]:
    """A line with every turtle it calls as “my turtle”, and by where that stands which it is."""
    if interview.animal_count < 2:
        return line, {}
    called = called_in(interview, line, by_kind=True)
    said, at, whose = "", 0, dict[int, Turtles]()
    for one, turtles in zip(called, resolved(interview, called, None), strict=True):
        said += line[at : one.start]
        whose[len(said)] = turtles
        said, at = f"{said}{MINE}", one.stop
    return said + line[at:], whose


def places_of(
    interview: Interview, clause: Clause, told: Told, turtles: Mapping[int, Turtles]
) -> Iterator[tuple[Place, ...]]:
    """Of what a fact is: of each turtle that is called last before it, or of any there may be."""
    if not interview.question(Place(told.id)).repeat:
        yield (Place(told.id),)
        return
    meant = last_called(turtles, clause, told.start)
    if meant and None not in meant:
        yield from ((Place(told.id, turtle),) for turtle in meant)
    else:
        yield tuple(Place(told.id, turtle) for turtle in range(interview.animal_count))


def last_called(turtles: Mapping[int, Turtles], clause: Clause, end: int) -> Turtles:
    """The turtles that are called last before a place in a line, else the only ones of a clause."""
    before = [some for at, some in turtles.items() if at < end]
    here = [some for at, some in turtles.items() if clause.start <= at < clause.stop]
    return before[-1] if before else here[0] if len(here) == 1 else ()


def resolved(
    interview: Interview, mentioned: Iterable[Mentioned], here: int | None
) -> list[Turtles]:
    """The turtles that each mention means; where one is asked of (`here`), told from that."""
    found: list[Turtles] = []
    for one in mentioned:
        last = found[-1][-1] if found else here
        fit = of_kind(interview, one.kind) if one.kind else [*range(interview.animal_count)]
        if one.rank == ALL:
            is_all = len(fit) > 1 and one.number in (0, len(fit))
            found.append(tuple(fit) if is_all else (None,))
        else:
            found.append((_resolve(interview, one, fit, last),))
    return found


def _resolve(interview: Interview, one: Mentioned, fit: list[int], last: int | None) -> int | None:
    """The one turtle that is meant of those whose kind fits."""
    if one.number:
        return fit[one.number - 1] if one.number <= len(fit) else None
    if one.rank == OTHER:
        fit = [turtle for turtle in fit if turtle != last]
        return fit[0] if len(fit) == 1 and last is not None else None
    if one.rank in _BY:
        name, sign = _BY[one.rank]
        answers = [interview.answers.get(Place(name, turtle)) for turtle in fit]
        sizes = [sign * a.value.best for a in answers if a and isinstance(a.value, Reading)]
        most = [turtle for turtle, size in zip(fit, sizes, strict=False) if size == max(sizes)]
        return most[0] if len(sizes) == len(fit) and len(most) == 1 else None
    if one.rank:
        return fit[-1] if fit else None
    return fit[0] if len(fit) == 1 else None


def untold_apart(
    interview: Interview, line: str, mentioned: Sequence[Mentioned]
) -> list[Turtles] | None:
    """Turtles of which nothing is known that sets them apart, in the order their sizes are told.

    None where the line tells no size of one, as then nobody could say later which that was.
    """
    ends = [*(one.start for one in mentioned[1:]), len(line)]
    sized = (amounts_in(line[one.stop : end]) for one, end in zip(mentioned, ends, strict=True))
    ranks = list(dict.fromkeys(one.rank for one in mentioned))
    alike = {
        tuple(
            answer and answer.value
            for question in interview.questionnaire
            if question.repeat
            for answer in [interview.answers.get(Place(question.id, turtle))]
        )
        for turtle in range(interview.animal_count)
    }
    if (
        ALL in ranks
        or not 1 < len(ranks) <= interview.animal_count
        or len(alike) > 1
        or not all(sized)
    ):
        return None
    return [(ranks.index(one.rank),) for one in mentioned]


def amounts_in(words: str) -> list[Part]:
    """The amounts that stand in some words, numbers without a unit among them."""
    return [part for part in read_parts(words) if part.said and part.kind != "part"]
