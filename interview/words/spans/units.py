"""The unit of a number that is told without one: of the amount beside it, the text, the region."""

from __future__ import annotations

from bisect import bisect_left
from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence

from interview.base.units import convert, system_for
from interview.words.amounts.spellings import Unit
from interview.words.lexicon.files import spans
from interview.words.spans.atoms import Atom
from interview.words.text.tokens import Text

__all__ = ["Scales"]

_LIKELY = {"degC": (-5.0, 52.0), "degF": (36.0, 140.0)}
_ONLY = {"degC": (8.0, 35.0), "degF": (55.0, 110.0)}
"""In this range warmth in a home is of this scale alone."""
_SCALE_WORDS = {"celsius": "degC", "centigrade": "degC", "fahrenheit": "degF"}
_METRIC: Mapping[str, Unit] = {"flow": "L/hour", "mass": "g", "volume": "L"}
_AMERICAN: Mapping[str, Unit] = {"flow": "?gallon/hour", "mass": "g", "volume": "?gallon"}
_OF_AMERICA = frozenset({"inch", "foot", "degF"})
_OF_OTHERS = frozenset({"cm", "mm", "m", "degC"})
_OF_TRADE = (24, 30, 36, 48, 72)
"""Inches that tanks of the American trade are long."""
_FIXED: Mapping[str, Unit] = {
    **{"power": "W", "current": "A", "voltage": "V", "share": "%", "concentration": "mg/L"},
    "angle": "deg",
}
_NEAR = 14
"""Tokens within which a unit told once is meant of a bare number too."""
_BESIDE = 9
"""Tokens on either side in which a bare number may be the warmth that swings."""
_WIDE = {"flow": 400, "volume": 100}
"""Tokens for what is told in one unit all through a text."""
_LENGTHS: Sequence[Unit] = ("cm", "inch", "mm", "m", "foot")


class Scales:
    """What units a text tells its amounts in."""

    def __init__(self, text: Text, atoms: Sequence[Atom], region: str) -> None:
        self._bare = [(a.first, a.value) for a in atoms if a.kind in ("number", "degrees")]
        self._places: dict[str, list[tuple[int, Unit]]] = defaultdict(list)
        for atom in atoms:
            if atom.unit and not atom.loose:
                self._places[atom.kind].append((atom.first, atom.unit))
        american = _is_american(atoms)
        of_region = system_for(region) == "us"
        self.american = of_region if american is None else american
        self._fahrenheit = of_region if region else self.american
        self._in_us = of_region
        self._scales = {_SCALE_WORDS[t.text] for t in text.tokens if t.text in _SCALE_WORDS}
        self._scales |= {atom.unit for atom in atoms if atom.kind == "temperature" and atom.unit}

    def temperature(self, low: float, high: float) -> Unit:
        """The scale of degrees; "" where no warmth is meant."""
        fits = [unit for unit, ends in _LIKELY.items() if ends[0] <= low <= high <= ends[1]]
        told = [unit for unit in fits if unit in self._scales]
        if len(fits) == 1 or len(told) == 1:
            return (told if len(told) == 1 else fits)[0]
        if not fits:
            return ""
        return "degF" if self._fahrenheit else "degC"

    def difference(self, at: int) -> Unit:
        """The scale of a swing at a token: the text's, or that of the warmth told near it."""
        if len(self._scales) == 1:
            return next(iter(self._scales))
        near = [value for first, value in self._bare if 0 < abs(first - at) <= _BESIDE]
        for unit, (low, high) in _ONLY.items():
            if near and all(low <= value <= high for value in near):
                return unit
        return "degF" if self._fahrenheit else "degC"

    def of(self, kind: str, at: int) -> Unit:
        """The unit of another dimension for a number at a token."""
        if kind in _FIXED:
            return _FIXED[kind]
        return self._near(kind, at, _WIDE.get(kind, _NEAR)) or (
            _AMERICAN if self.american else _METRIC
        ).get(kind, "")

    def lengths(self, value: float, at: int) -> Iterator[tuple[str, Unit]]:
        """The unit of a bare number at each question for a length at which it makes sense."""
        own = self.sides(at)
        in_metres = {unit: convert(value, unit, "m") for unit in (own, *_LENGTHS)}
        for question, (low, high) in spans().usual.items():
            first = () if self.american or question not in spans().fine else ("mm",)
            fits = (unit for unit in (*first, *in_metres) if low <= in_metres[unit] <= high)
            if unit := next(fits, ""):
                yield question, unit

    def sides(self, at: int, longest: float = 0.0) -> Unit:
        """Of a length, or of sides of which the longest is so much: cm or inches."""
        if self._in_us and longest in _OF_TRADE:
            return "inch"
        near = self._near("length", at)
        if near in ("cm", "inch"):
            return near
        return "inch" if self.american else "cm"

    def _near(self, kind: str, at: int, reach: int = _NEAR) -> Unit:
        places = self._places.get(kind, [])
        first = bisect_left(places, (at - reach, ""))
        near = places[first : bisect_left(places, (at + reach + 1, ""))]
        return min(near, key=lambda one: (abs(one[0] - at), one[1]))[1] if near else ""


def _is_american(atoms: Sequence[Atom]) -> bool | None:
    """Whether a text tells its amounts in inches and °F; None where it tells both, or neither."""
    units = {atom.unit for atom in atoms if not atom.loose}
    american, metric = not units.isdisjoint(_OF_AMERICA), not units.isdisjoint(_OF_OTHERS)
    return american if american != metric else None
