"""A size told twice, by its volume and by its sides: 75 gallon, 48 x 18 x 21 in."""

from __future__ import annotations

import re
from collections.abc import Sequence

from interview.base.units import convert
from interview.words.amounts.amount import written
from interview.words.amounts.quantity import read_quantity
from interview.words.amounts.reading import Reading
from interview.words.amounts.spellings import label
from interview.words.text.refusal import NotUnderstood, quoted

__all__ = ["check_volume", "volume_and_sides"]

_UNIT = r"(?:(?:us|uk|imp\w*)\s+)?(?:gal\w*|g|l|lit\w+)"
_VOLUME = rf"\d[\d.,]*\s*{_UNIT}\b\.?"
_SIDES = r"\d[^()]*(?:[x×*]|\bby\b)[^()]*"
_TANK = r"(?:\s*(?:tank|aquarium))?"
_FIRST = re.compile(rf"(?:an?\s+)?({_VOLUME}){_TANK}\s*[,;:(-]*\s*({_SIDES}?)\)?", re.IGNORECASE)
_LAST = re.compile(rf"({_SIDES}?)\s*[,;:(-]+\s*(?:an?\s+)?({_VOLUME}){_TANK}\)?", re.IGNORECASE)
_FITS = (0.8, 1.3)
"""Volume of the outer box over the label's: the trade's labels are round numbers."""


def volume_and_sides(text: str) -> tuple[str, str] | None:
    """The words of the volume and those of the sides, where a size tells both."""
    if first := _FIRST.fullmatch(text.strip()):
        return first[1], first[2]
    if last := _LAST.fullmatch(text.strip()):
        return last[2], last[1]
    return None


def check_volume(volume: str, sides: str, readings: Sequence[Reading], region: str) -> None:
    """Refuse sides in m that hold far more or less than the volume told beside them.

    Raises NotUnderstood, saying what the sides hold.
    """
    told = read_quantity(re.sub(r"\bg\b", "gal", volume, flags=re.I), "volume", region=region)
    box = readings[0].best * readings[1].best * readings[2].best
    if _FITS[0] <= box / told.best <= _FITS[1]:
        return
    holds = written(round(convert(box, "m**3", told.unit)), "1")
    wrong = f"tanks of {quoted(sides)} hold about {holds} {label(told.unit)}, not {volume.strip()}"
    raise NotUnderstood(
        "", wrong, f"the sides alone, measured outside, for example {quoted(sides)}"
    )
