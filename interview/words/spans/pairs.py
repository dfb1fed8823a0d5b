"""Amounts that two numbers tell together: off at 78 and on at 76, ten litres in 45 seconds."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from interview.words.spans.atoms import Atom
from interview.words.spans.told_amounts import Heard, typed
from interview.words.spans.units import Scales
from interview.words.text.tokens import Text

__all__ = ["pairs_in"]

_APART = 12
"""Most tokens between the two."""
_WIDEST = 12
"""Degrees; what is farther apart is no swing."""
_HOURS = frozenset({"h", "hr", "hrs", "hour", "hours", "hourly", "stunde", "hora", "heure", "uur"})
_MINUTES = frozenset({"min", "mins", "minute", "minutes"})
_UP_TO = 6
_OPENS = frozenset(
    {"an", "a", "per", "par", "por", "die", "the", "in", "one", "each", "every", "by", "at", "/"}
    | {"-", "of", "and", "water", "single", "pro", "every"}
)
_LITRES = {"liter": "L", "litre": "L", "litres": "L", "liters": "L", "litros": "L", "l": "L"}


def pairs_in(text: Text, atoms: Sequence[Atom], scales: Scales) -> Iterator[Heard]:
    """Swings, flows by the bucket, and flows whose time stands apart."""
    for at, atom in enumerate(atoms):
        if atom.kind in ("number", "degrees", "temperature"):
            yield from _swing(text, atoms, at, scales)
        if atom.kind == "volume" or (atom.kind == "number" and text.word(atom.end) in _LITRES):
            yield from _flow(text, atom)
            yield from _bucket(text, atoms, at)


def _swing(text: Text, atoms: Sequence[Atom], at: int, scales: Scales) -> Iterator[Heard]:
    atom = atoms[at]
    behind = (one for one in atoms[at + 1 : at + 4] if one.first >= atom.end)
    following = next(
        (one for one in behind if one.kind in ("number", "degrees", "temperature")), None
    )
    if following is None or following.first - atom.end > _APART:
        return
    apart = abs(atom.value - following.value)
    ends = sorted((atom.value, following.value))
    unit = atom.unit if atom.kind == "temperature" else following.unit
    scale = unit if unit and unit != "?degree" else scales.temperature(*ends)
    if scale and 0 < apart <= _WIDEST:
        said = {"temperature_difference": typed(round(apart, 3), scale)}
        start, stop = text.tokens[atom.first].start, text.tokens[following.end - 1].end
        yield Heard(start, stop, said)


def _flow(text: Text, atom: Atom) -> Iterator[Heard]:
    """240 litres in one hour, 820 litres par heure."""
    volume = atom.unit or "L"
    for here in range(atom.end, atom.end + _UP_TO):
        word = text.word(here)
        per = "hour" if word in _HOURS else "minute" if word in _MINUTES else ""
        if per:
            said = typed(atom.value, f"{volume}/{per}")
            stop = text.tokens[here].end
            yield Heard(text.tokens[atom.first].start, stop, {"flow": said})
            return
        if word not in _OPENS and word not in _LITRES:
            return


def _bucket(text: Text, atoms: Sequence[Atom], at: int) -> Iterator[Heard]:
    """A 10 litre bucket took 45 seconds."""
    atom = atoms[at]
    for one in atoms[at - 2 if at > 1 else 0 : at + 4]:
        near = abs(one.first - atom.first) <= _APART
        if near and one.unit in ("second", "minute") and atom.unit:
            said = f"{typed(atom.value, atom.unit)} in {typed(one.value, one.unit)}"
            first, last = sorted((atom, one), key=lambda each: each.first)
            start, stop = text.tokens[first.first].start, text.tokens[last.end - 1].end
            yield Heard(start, stop, {"flow": said})
