"""Which of the amounts of a text tells what is noted, where several are as large.

A note says “35 cm above the platform”, and the text has a tank of “50 by 35”, too. Taught that both
are the lamp's height, a network learns to hear one in any bare number.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from interview.words.learned.candidates import Candidate
from interview.words.learned.names import asked_by
from interview.words.learned.readings import NONE

__all__ = ["which"]

_NEAR = 40
"""Characters on either side in which a counted thing is named (assumption)."""
_COUNTED = {
    "filter_count": re.compile(r"filt|canist|hang|hob\b|intern|extern|spong|sump|pump", re.I),
    "heater_count": re.compile(r"heat|watt|\d ?w\b", re.I),
}
"""Words for what is counted: nearly every text has a “one” besides."""
_OF_NO_KIND = {"carapace_length", "water_temperature"}
"""What only a number without a unit can answer, both of them."""


def which(
    text: str, found: Sequence[tuple[Candidate, Sequence[str]]]
) -> list[tuple[Candidate, Sequence[str]]]:
    """The same amounts, each with the questions it does answer.

    Args:
        text: in which they stand
        found: each with the questions whose noted answer is as large, or NONE

    Returns:
        Of what a bare number and one with a unit may tell, only the latter does; where several
        are left in different places, NONE is right, too.
    """
    meant = {name: _which(name, text, found) for name in {name for _, row in found for name in row}}
    rows = (
        [right for name in names for right in meant[name].get(n, ())]
        for n, (_, names) in enumerate(found)
    )
    return [
        (one, [*dict.fromkeys(row)] or [NONE]) for (one, _), row in zip(found, rows, strict=True)
    ]


def _which(
    name: str, text: str, found: Sequence[tuple[Candidate, Sequence[str]]]
) -> Mapping[int, Sequence[str]]:
    """What is right of each amount that tells this, by its place."""
    told = {n: one for n, (one, names) in enumerate(found) if name in names}
    if name == NONE:
        return dict.fromkeys(told, (NONE,))
    thing = _COUNTED.get(asked_by(name)[0])
    if thing:
        near = {n: text[max(0, one.start - _NEAR) : one.stop + _NEAR] for n, one in told.items()}
        told = {n: one for n, one in told.items() if thing.search(near[n])}
    sure = {n: one for n, one in told.items() if not one.says.keys() >= _OF_NO_KIND}
    told = sure or told
    return dict.fromkeys(told, (name,) if _in_one_place([*told.values()]) else (name, NONE))


def _in_one_place(told: Sequence[Candidate]) -> bool:
    return all(one.start < told[0].stop and told[0].start < one.stop for one in told)
