"""Numbers typed without their unit where only one unit is in ordinary use: 100 is 100 W."""

from __future__ import annotations

import re

from interview.graph.interview import Interview, Place
from interview.words.amounts.quantity import reads

__all__ = ["with_only_unit"]

_ONLY_UNIT = {"power": "W", "voltage": "V", "current": "A", "angle": "degrees"}
_NUMBER_LAST = re.compile(r"(?:[a-z~ ]{0,30}\s)?[\d.,]{1,12}", re.IGNORECASE)


def with_only_unit(interview: Interview, place: Place, line: str) -> str:
    """The line with its unit put behind the number; empty when there is nothing to put.

    The setup file keeps the line with the unit, as files never leave one out.
    """
    question = interview.question(place)
    unit = "hours" if question.clock else _ONLY_UNIT.get(question.type)
    if unit is None or not _NUMBER_LAST.fullmatch(line.strip()):
        return ""
    with_unit = f"{line.strip()} {unit}"
    kind, region = question.type, interview.region
    is_bare = not reads(line, kind, region)
    return with_unit if is_bare and reads(with_unit, kind, region) else ""
