"""Of all that a story tells, what holds: not taken back, and not told twice differently."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

from interview.words.forms.size import Sizes
from interview.words.lexicon.files import words
from interview.words.mentions.attributes import Found
from interview.words.mentions.scope.sentence import Sentence
from interview.words.mentions.tank_size import is_same_tank

__all__ = ["agreed", "is_of_turtles", "measured", "not_taken_back", "undisputed"]

_NUMBER = re.compile(r"(?<=[^\W\d_]{3})\d")
"""An amount behind a word."""
_TAKEN_BACK = 20
"""Words in front of a correction that it may take back."""


def not_taken_back(told: Sequence[Sentence], found: list[Found]) -> list[Found]:
    """Without what a correction follows in its sentence, or opens the next sentence with."""
    off: list[tuple[int, int]] = []
    for sentence in told:
        for at in sentence.corrections:
            opened = sentence if at > 0 or sentence.before is None else sentence.before
            first = max(0, at - _TAKEN_BACK) if opened is sentence else 0
            off.append((opened.parts[first].start, sentence.parts[at].start))
    turtles_too = any(is_of_turtles(one) and _starts_in(one, off) for one in found)
    return [
        one for one in found if not (_starts_in(one, off) or (turtles_too and is_of_turtles(one)))
    ]


def _starts_in(found: Found, spans: Sequence[tuple[int, int]]) -> bool:
    return any(start <= found.start < end for start, end in spans)


def is_of_turtles(found: Found) -> bool:
    """About the turtles, who are numbered together: all of them are sure or none is."""
    return found.animal is not None or found.id == "animal_count"


def undisputed(found: list[Found], near: list[Found]) -> list[Found]:
    """What phrases and the nearest topics tell, without that of which they tell two amounts."""
    said = {one.id: _plain(one) for one in found}
    disputed = {one.id for one in near if said.get(one.id, _plain(one)) != _plain(one)}
    return [one for one in (*found, *near) if one.id not in disputed]


def _plain(one: Found) -> str:
    """What is told, without what only hedges an amount: about 25 °C."""
    said = one.said.casefold().replace(" ", "").replace("°", "")
    number = _NUMBER.search(said)
    return said[number.start() :] if number and number.start() else said


def agreed(found: list[Found]) -> list[Found]:
    """Each fact once; none where the story says two things of what is one."""
    told: dict[tuple[str, int | None], dict[str, Found]] = {}
    for one in sorted(found, key=lambda one: (one.start, one.stop)):
        same = told.setdefault((one.id, one.animal), {})
        same.setdefault(_plain(one), one)
    several = words().named_together
    for (name, _), same in tuple(told.items()):
        kinds = Counter(one.sentence.parts[0].start for one in same.values())
        for part in words().of_one_kind.get(name, ()):
            parts = told.get((part, None), {}).values()
            if any(kinds[one.sentence.parts[0].start] > 1 for one in parts):
                del told[part, None]
    return [
        replace(first, said=", ".join(one.said for one in (first, *more)))
        for first, *more in (list(same.values()) for same in told.values())
        if not more or first.id in several
    ]


def measured(found: list[Found], sizes: Sizes, region: str) -> list[Found]:
    """Without the trade name of a tank whose sides come to the same: 75 gallon, 48 x 18 x 21."""
    told = {one.said for one in found if one.id == "tank_size"}
    sides = told - sizes.keys()
    spelled = {
        name for name in told - sides if any(is_same_tank(name, s, sizes, region) for s in sides)
    }
    return [one for one in found if one.said not in spelled]
