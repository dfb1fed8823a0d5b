"""Known turtles by their kind and sex: which are sliders, which one is the male."""

from __future__ import annotations

from interview.graph.interview import Interview, Place
from interview.words.lexicon.files import known_words
from interview.words.mentions.turtles.details import sex_of
from interview.words.mentions.turtles.kinds import kinds_of
from interview.words.text.tokens import plain_words

__all__ = ["by_looks", "of_kind"]

_PASSED = frozenset({"to", "from", "by", "for", "with"})


def of_kind(interview: Interview, kind: str) -> list[int]:
    """The turtles that a name fits, counted from 0: a slider may be a yellow-bellied one."""
    name, _ = kinds_of(interview.lists.options["species"]).get(kind, ("", False))
    words = {*plain_words(kind).split()} - known_words("animals", "any")
    found = []
    for turtle in range(interview.animal_count):
        answer = interview.answers.get(Place("species", turtle))
        if answer and (answer.value == name or (words and words <= _kind_words(interview, turtle))):
            found.append(turtle)
    return found


def by_looks(interview: Interview, line: str) -> tuple[int | None, bool]:
    """The only turtle of the kind and the sex that a line names; None where it names none.

    And whether it is told by its sex, too.
    """
    words = plain_words(line).split()
    spoken = {*words} - known_words("animals", "any")
    turtles = range(interview.animal_count)
    sexes = {sex_of(word) for at, word in enumerate(words) if not _is_a_person(words[:at])} - {""}
    kinds = [_kind_words(interview, turtle) for turtle in turtles]
    kind = {word for word in spoken if 0 < sum(word in one for one in kinds) < len(kinds)}
    fit = [
        turtle for turtle in turtles if kind <= kinds[turtle] and sexes <= {_sex(interview, turtle)}
    ]
    return (fit[0] if (kind or sexes) and len(fit) == 1 else None), bool(sexes)


def _is_a_person(before: list[str]) -> bool:
    """Whether whoever stands behind these words got or gave a turtle: sold to a girl."""
    return not _PASSED.isdisjoint(before[-2:])


def _sex(interview: Interview, turtle: int) -> str:
    answer = interview.answers.get(Place("sex", turtle))
    return answer.chosen if answer else ""


def _kind_words(interview: Interview, turtle: int) -> set[str]:
    """The words of a turtle's kind: as it was told, and as it is called."""
    place = Place("species", turtle)
    answer, options = interview.answers.get(place), interview.lists.options_of
    if answer is None:
        return set()
    labels = [one.label for one in options(interview.question(place)) if one.name == answer.chosen]
    return {*plain_words(" ".join([answer.said, *labels])).split()}
