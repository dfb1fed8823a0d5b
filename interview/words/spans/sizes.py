"""What told sides and trade names say at the questions for a size."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from interview.base.units import convert
from interview.words.amounts.spellings import Unit
from interview.words.forms.size import Sizes, large_unit
from interview.words.spans.atoms import Atom
from interview.words.spans.heard import Heard, heard, typed
from interview.words.spans.sides import ToldSides, told_sides
from interview.words.spans.units import Scales
from interview.words.text.tokens import Text

__all__ = ["sizes_in", "trade_names_in"]

_THREE = 3
_EXTENT = (0.03, 5.0)
"""m; how long a platform or a tank may be."""
_IN_MM = 300
"""From here on bare sides are millimetres."""
_SAME = 0.002
"""m."""
_NAMED_IN = {"?gallon": "gallon", "gallon": "gallon", "g": "gallon", "L": "litre"}


def sizes_in(text: Text, atoms: Sequence[Atom], scales: Scales, names: Sizes) -> Iterator[Heard]:
    """Every size of two or three sides, every square, and every trade name."""
    for told in told_sides(text, atoms):
        yield from _said(text, told, scales, names)
    yield from trade_names_in(text, atoms, names, american=scales.american)


def trade_names_in(
    text: Text, atoms: Sequence[Atom], names: Sizes, *, american: bool = False
) -> Iterator[Heard]:
    """Every trade name of a tank: forty breeder, a 20 long, 240 litres; of Americans, a 90 too."""
    for atom in atoms:
        yield from _named(text, atom, names, american)


def _said(text: Text, told: ToldSides, scales: Scales, names: Sizes) -> Iterator[Heard]:
    values = [value for value, _ in told.lengths]
    unit = "inch" if _is_trade_size(values, names) else _likely(values, scales, told.first)
    sides = [(value, own or unit) for value, own in told.lengths]
    if not _EXTENT[0] <= max(convert(*side, "m") for side in sides) <= _EXTENT[1]:
        return
    first_two = " x ".join(typed(*side) for side in sides[:2])
    says = {"platform_size": first_two}
    if len(sides) == _THREE:
        says["tank_size"] = f"{first_two} x {typed(*sides[2])}"
    yield heard(text, told.first, told.end, says)


def _is_trade_size(values: Sequence[float], names: Sizes) -> bool:
    """Whether numbers without units are the sides of a tank of the trade in inches."""
    inches = [convert(value, "inch", "m") for value in values]
    return any(
        len(sides) == len(inches)
        and all(abs(one - other) < _SAME for one, other in zip(inches, sides, strict=True))
        for sides in names.values()
    )


def _likely(values: Sequence[float], scales: Scales, at: int) -> Unit:
    """What sides without any unit are in."""
    if max(values) >= _IN_MM:
        return "mm"
    return large_unit(values) or scales.sides(at, max(values))


def _named(text: Text, atom: Atom, names: Sizes, american: bool) -> Iterator[Heard]:
    unit = _NAMED_IN.get(atom.unit or "")
    if unit is None and atom.kind != "number":
        return
    after = atom.end + (text.word(atom.end) == "-")
    number, form = f"{atom.value:g}", text.word(after)
    ways = [(f"{number} {form}", after + 1)] if form else []
    if american and unit is None:
        ways.append((f"{number} gallon", atom.end))
    if unit:
        ways = [(f"{number} {unit} {form}", after + 1), *ways, (f"{number} {unit}", atom.end)]
    for said, end in ways:
        if said in names:
            yield heard(text, atom.first, end, {"tank_size": said})
            return
