"""A line said before its question stood there, and whether it means there what it did then."""

from __future__ import annotations

import re
from typing import NamedTuple

from interview.chat.faces.face import Asked
from interview.words.amounts.numbers import read_number
from interview.words.choices.absence import is_absent
from interview.words.choices.choice import SEPARATORS
from interview.words.mentions.parts import read_parts
from interview.words.text.tokens import plain_words, tokenise

__all__ = ["SaidAlready"]

_LONGEST = 20
"""Characters of a number in words."""
_ONLY_DIGITS = re.compile(r"[\d\s?.]+")


class SaidAlready(NamedTuple):
    """A line that is heard at a later prompt, and the question that stood there when it came."""

    line: str
    at: Asked | None = None

    def is_meant_at(self, asked: Asked) -> bool:
        """Whether it means at a prompt what it did when it came: by a number, a place, or none.

        What is gone from a list keeps its number, so that the list itself tells what became of it.
        """
        at, numbers = self.at or Asked(""), _numbers_in(self.line)
        if at.row and asked.row and ";" in self.line:
            return tuple(at.row) == tuple(asked.row)
        if not asked.choices:
            return not numbers or at.place == asked.place is not None
        if (at.animal, at.label) == (asked.animal, asked.label):
            then, now = _named(at), _named(asked)
            return all(now[number] == then.get(number) for number in numbers if number in now)
        return not numbers and not (asked.clear and is_absent(self.line))


def _named(asked: Asked) -> dict[int, str]:
    """What the numbers of a question stand for."""
    names = (name for name, _ in asked.choices)
    return {number: name for (number, _), name in zip(asked.numbered, names, strict=True)}


def _numbers_in(line: str) -> list[int]:
    """The numbers that stand in a line for something that is counted or listed: 2, 5? and 7.

    Who tells an amount, as of two of 9 and 10 cm, tells a story.
    """
    if any(part.unit for part in read_parts(line)):
        return []
    listed = line.split() if _ONLY_DIGITS.fullmatch(line) else SEPARATORS.split(line)
    parts = (plain_words(part) for part in listed)
    found = ((part, read_number(tokenise(part))) for part in parts if 0 < len(part) < _LONGEST)
    return [int(one.value) for part, one in found if one and one.end == len(tokenise(part))]
