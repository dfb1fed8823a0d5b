"""A line typed for several questions at once, shared out over them."""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import combinations

from interview.chat.hearing.in_context import (
    in_context,
    is_same,
    nobody_knows,
    with_only_unit,
)
from interview.chat.hearing.replies import NO, YES, word_of
from interview.chat.hearing.told.story import read_story
from interview.graph.interview import AnswerRefused, Interview, Place
from interview.graph.order.together import together_with
from interview.words.amounts.quantity import ends_of
from interview.words.choices.absence import is_unsure
from interview.words.lexicon.files import known_words, phrases
from interview.words.mentions.parts import read_parts
from interview.words.text.refusal import NotUnderstood
from interview.words.text.tokens import plain_words

__all__ = ["answers_at", "ends_of_row", "ends_told", "over", "parts_of"]

_ENDS = ("room_temperature_low", "room_temperature_high")
_OR_OVER = re.compile(r" or \w+$")
"""Behind the lower end of “never below 17 or over 24” it belongs to the other."""
_WARMTH, _ABOVE = {"number", "temperature"}, {"over", "above"}
_LEAST_WORDS = 3
"""A shorter line may be of any of them."""


def parts_of(interview: Interview, group: Sequence[Place], line: str) -> list[str]:
    """The answers in a line: between semicolons; else between commas or spaces.

    Without semicolons a line is shared out only where every part answers its question, so that
    a sentence with commas stays a sentence; and at spaces only where it is no answer to the first
    question as it stands. One “yes”, “no” or “not sure” is said of all, as is “same as the other”
    of a further turtle, and the ends of a range answer two questions that ask for them, as how
    cold and how warm a room gets.
    """
    kind = interview.question(group[0]).type if _ask_for_ends(group) else ""
    if ";" in line:
        parts = [part.strip() for part in line.split(";")]
        if kind and all(parts) and not _all_answer(interview, group, parts):
            parts = list(ends_of(" to ".join(parts), kind, interview.region) or parts)
        return _in_place(interview, group, parts)
    if (
        is_unsure(line)
        or nobody_knows(line)
        or is_same(line)
        or (word_of(line) in (*YES, *NO) and _all_yes_no(interview, group))
    ):
        return [line] * len(group)
    in_full = (kind and with_only_unit(interview, group[0], line)) or line
    if kind and (ends := ends_of(in_full, kind, interview.region)):
        return list(ends)
    if kind == "temperature" and (told := ends_told(interview, line)):
        return told
    ways = [line.split(", ")]
    if not answers_at(interview, group[0], line):
        ways.append(line.split(" "))
    for parts in ways:
        found = [part.strip() for part in parts if part.strip()]
        if len(found) != len(group):
            continue
        if _all_answer(interview, group, found):
            return found
    return _at_some(interview, group, line) or _at_the_one(interview, group, line)


def _at_some(interview: Interview, group: Sequence[Place], line: str) -> list[str]:
    """Parts between commas at the only questions they all answer, in order; else nothing."""
    parts = [part.strip() for part in line.split(", ")]
    if not 1 < len(parts) < len(group) or not all(parts):
        return []
    ways = [
        chosen
        for chosen in combinations(range(len(group)), len(parts))
        if _all_answer(interview, [group[number] for number in chosen], parts)
    ]
    said = dict(zip(ways[0], parts, strict=True)) if len(ways) == 1 else {}
    return [said.get(number, "") for number in range(len(group))] if said else []


def _at_the_one(interview: Interview, group: Sequence[Place], line: str) -> list[str]:
    """A few words at the only question of a group that they answer; else at the first.

    Where a part of them answers another one by itself they are a story.
    """
    if len(line.split()) < _LEAST_WORDS:
        return [line]
    fit = [number for number, place in enumerate(group) if answers_at(interview, place, line)]
    if len(fit) != 1:
        return [line]
    others = [place for number, place in enumerate(group) if number != fit[0]]
    parts = line.split(", ")
    tells = len(parts) > 1 and any(
        answers_at(interview, place, part) for place in others for part in parts
    )
    return [line] if tells else [""] * fit[0] + [line]


def ends_told(interview: Interview, line: str) -> list[str]:
    """How cold and how warm rooms get, told in one sentence; else nothing."""
    told = dict(read_story(interview, f"the room is {line}").answers)
    ends = [told.get(Place(name), "") for name in _ENDS]
    return ends if all(ends) else _by_their_words(line)


def _by_their_words(line: str) -> list[str]:
    """The colder and the warmer of two amounts beside words of both: 15 at night, summer 26."""
    amounts = [part for part in read_parts(line) if part.said]
    kinds, units = {part.kind for part in amounts}, {part.unit for part in amounts}
    near = [(row.id, {*row.cues}) for row in phrases().near if row.id in _ENDS]
    spoken = {*plain_words(line).split()}
    told = {name for name, cues in near if not cues.isdisjoint(spoken)}
    told |= {_ENDS[1]} if not _ABOVE.isdisjoint(spoken) else set()
    if not len(amounts) == len(told) == len(_ENDS) or len(units) > 1 or not kinds <= _WARMTH:
        return []
    ends = sorted(amounts, key=lambda part: part.value)
    return [_OR_OVER.sub("", part.said) if part.kind == "number" else part.said for part in ends]


def ends_of_row(interview: Interview, place: Place, line: str) -> list[Place]:
    """Both questions of a row that asks for ends, where a line tells both at one of them.

    What was answered before is told anew only where both ends are named: coldest 19, warmest 27.
    """
    row = together_with(place.id)
    both = [Place(name) for name in row.ask] if row is not None and row.ends else []
    if not both:
        return []
    ends = known_words("warmth", "extremes").intersection(plain_words(line).split())
    if any(one in interview.answers for one in both):
        parts = ends_told(interview, line) if len(ends) > 1 else []
    else:
        parts = parts_of(interview, both, line)
    return both if all(parts) and len(parts) == len(both) else []


def over(interview: Interview, group: Sequence[Place], parts: Sequence[str]) -> Sequence[str]:
    """The last parts where they are over for sure: none could be meant for these questions."""
    last = parts[len(group) :]
    is_sure = _all_answer(interview, group, parts) and not any(
        answers_at(interview, place, said) for place in group for said in last
    )
    return last if is_sure else ()


def _ask_for_ends(group: Sequence[Place]) -> bool:
    """Whether a group is asked for both ends of one range: any other two keep their order."""
    row = together_with(group[0].id)
    return row is not None and row.ends and [place.id for place in group] == [*row.ask]


def _in_place(interview: Interview, group: Sequence[Place], parts: list[str]) -> list[str]:
    """The parts at the questions they answer, where a few answer later ones instead.

    What came up in front since the row was shown is left out by who still answers that row.
    """
    fewer = len(parts) < len(group) and all(parts)
    if not fewer or _all_answer(interview, group, parts):
        return parts
    for chosen in combinations(range(len(group)), len(parts)):
        if _all_answer(interview, [group[number] for number in chosen], parts):
            said = dict(zip(chosen, parts, strict=True))
            return [said.get(number, "") for number in range(len(group))]
    return parts


def _all_answer(interview: Interview, group: Sequence[Place], parts: Sequence[str]) -> bool:
    return all(answers_at(interview, p, said) for p, said in zip(group, parts, strict=False))


def _all_yes_no(interview: Interview, group: Sequence[Place]) -> bool:
    return all(interview.question(place).type == "yes_no" for place in group)


def answers_at(interview: Interview, place: Place, said: str) -> bool:
    """Whether words answer a question, be it that the answer is refused."""
    if is_unsure(said) or word_of(said) == "skip":
        return True
    try:
        in_full = with_only_unit(interview, place, said) or in_context(interview, place, said)
        interview.try_answer(place, in_full or said)
    except AnswerRefused:
        return True  # understood, and refused with its own sentence
    except NotUnderstood:
        return False
    return True
