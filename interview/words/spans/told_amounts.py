"""What a number may say: with its own unit, or with the one its question would take it in."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from interview.words.amounts.amount import written
from interview.words.amounts.quantity import reads
from interview.words.lexicon.files import spans
from interview.words.spans.atoms import Atom
from interview.words.spans.heard import Heard, heard, hedges_around, typed
from interview.words.spans.units import Scales
from interview.words.text.tokens import Text

__all__ = ["amounts_in"]

_ANSWERS: Mapping[str, tuple[str, ...]] = {
    "temperature": ("temperature", "temperature_difference"),
    "share": ("share", "percent"),
    "part": ("share",),
    "duration": ("duration", "lit_time"),
    "length": ("length", "water_depth"),
}
"""Types of questions that an amount with its unit may answer, where it isn't its own alone."""
_ANY = ("power", "flow", "concentration", "mass", "volume", "share", "current", "voltage")
_ENDS = ("room_temperature_low", "room_temperature_high")
"""Of a range each of these is one end."""
_FLOWS = ("L", "?gallon", "gallon")
"""Of a filter it may be left out that so much is in an hour."""
_OPENS = frozenset({"between", "from"})
_HEAVY = ("stand_mass", "stand_rating")
_MOST_COUNTED = 40
_OLDEST, _DAY, _WEEK = 100, 24, 7


def amounts_in(text: Text, atoms: Sequence[Atom], scales: Scales) -> Iterator[Heard]:
    """Every number, and every range of two."""
    for at, atom in enumerate(atoms):
        following = _range_behind(text, atoms, at)
        if following is not None:
            says = _of_range(atom, following, scales)
            yield heard(text, atom.first, following.end, says)
            if atom.unit is None and following.unit and following.kind != "degrees":
                yield heard(text, atom.first, atom.end, _in_unit_of(following, atom))
                continue
        first, end = hedges_around(text, atom.first, atom.end)
        before, behind = (
            " ".join(text.words(*ends)) for ends in ((first, atom.first), (atom.end, end))
        )
        says = _of_atom(text, atom, scales)
        if before or behind:
            says = {
                name: said if name == "count" else f"{before} {said} {behind}".strip()
                for name, said in says.items()
            }
        yield heard(text, first, end, says)


def _range_behind(text: Text, atoms: Sequence[Atom], at: int) -> Atom | None:
    """The other end, behind a word for it: 62 to 77 °F."""
    atom, joined = atoms[at], text.word(atoms[at].end)
    behind = (one for one in atoms[at + 1 : at + 4] if one.first == atom.end + 1)
    other = next((one for one in behind if one.kind != "count"), None)
    if other is None or atom.kind == "count" or (atom.unit and other.unit not in (atom.unit, None)):
        return None
    warm = {atom.kind, other.kind} & {"temperature", "degrees"}
    opened = not _OPENS.isdisjoint(text.words(max(0, atom.first - 2), atom.first))
    ways = spans().ranges
    is_range = joined in ways["any"] or (joined in ways["close"] and bool(warm or opened))
    return other if is_range and (warm or atom.value < other.value) else None


def _in_unit_of(atom: Atom, bare: Atom) -> dict[str, str]:
    said = typed(bare.said or bare.value, atom.unit or "")
    return dict.fromkeys(_ANSWERS.get(atom.kind, (atom.kind,)), said)


def _of_range(first: Atom, last: Atom, scales: Scales) -> dict[str, str]:
    low, high = sorted((first.value, last.value))
    unit, ends = last.unit or first.unit, f"{low:.6g} to "
    kind = last.kind if last.unit else first.kind
    if unit and kind not in ("degrees", "temperature"):
        return dict.fromkeys(_ANSWERS.get(kind, (kind,)), ends + typed(high, unit))
    says: dict[str, str] = {}
    if scale := (unit if kind == "temperature" else scales.temperature(low, high)):
        says["temperature"] = ends + typed(high, scale)
        says["temperature_difference"] = typed(round(high - low, 3), scale)
        says |= {name: typed(end, scale) for name, end in zip(_ENDS, (low, high), strict=True)}
    says["angle"] = ends + typed(high, "deg")
    if unit:
        return says
    for name in _ANY:
        if unit := scales.of(name, first.first):
            says[name] = ends + typed(high, unit)
    lows = dict(scales.lengths(low, first.first))
    highs = scales.lengths(high, first.first)
    says |= {name: ends + typed(high, unit) for name, unit in highs if lows.get(name) == unit}
    says |= {"percent": says["share"], "per_week": f"{ends}{high:.6g} times a week"}
    says |= dict.fromkeys(("rating", "price"), f"{ends}{high:.6g}")
    says |= {"duration": f"{ends}{high:.6g} days", "age": f"{ends}{high:.6g} years"}
    return says | {"lit_time": f"{ends}{high:.6g} months", "day_length": f"{ends}{high:.6g} hours"}


def _of_atom(text: Text, atom: Atom, scales: Scales) -> dict[str, str]:
    if atom.kind == "count":
        none = {} if atom.value else {"concentration": "0 mg/L"}
        return {"count": f"{atom.value:g}", **none}
    if atom.kind == "degrees":
        return _of_degrees(atom, scales)
    if not atom.unit:
        return _of_number(text, atom, scales)
    said = atom.said
    if not said or not reads(said, atom.kind, "europe"):
        said = typed(atom.thousands or atom.value, atom.unit)
    if atom.thousands and scales.american and "," in said:
        said = typed(atom.thousands, atom.unit)
    says = dict.fromkeys(_ANSWERS.get(atom.kind, (atom.kind,)), said)
    if atom.unit in _FLOWS:
        says["flow"] = typed(atom.value, f"{atom.unit}/hour")
    if atom.unit == "day" and atom.value <= _WEEK:
        says["per_week"] = f"{atom.value:g} times a week"
    return says | _price(text, atom)


def _of_degrees(atom: Atom, scales: Scales) -> dict[str, str]:
    number = atom.value
    says = {"temperature_difference": typed(number, scales.difference(atom.first))}
    if scale := scales.temperature(number, number):
        says["temperature"] = typed(number, scale)
    return says | {"angle": typed(number, "deg")}


def _of_number(text: Text, atom: Atom, scales: Scales) -> dict[str, str]:
    value, number, plain = atom.value, atom.said or f"{atom.value:.6g}", written(atom.value, "1")
    if not (atom.thousands or reads(number, "number", "europe")):
        number = plain
    says = _of_degrees(atom, scales)
    for kind in _ANY:
        if unit := scales.of(kind, atom.first):
            says[kind] = typed(number, unit)
    lengths = scales.lengths(value, atom.first)
    says |= {question: typed(number, unit) for question, unit in lengths}
    says |= dict.fromkeys(_HEAVY, typed(number, "pound" if scales.american else "kg"))
    says["percent"] = says["share"]
    if 0 < value < 1:
        says["share"] = f"{100 * value:.6g} %"
    says |= dict.fromkeys(("rating", "price"), plain)
    if value.is_integer() and value <= _MOST_COUNTED:
        says["count"] = plain
    if value <= _OLDEST:
        says |= {"duration": f"{plain} days", "age": f"{plain} years"}
        says |= {"lit_time": f"{plain} months", "filter_age": f"{plain} months"}
        says["per_week"] = f"{plain} times a week"
    else:
        says["lit_time"] = f"{plain} hours"
    if value <= _DAY:
        says["day_length"] = f"{plain} hours"
    return says | _price(text, atom)


def _price(text: Text, atom: Atom) -> dict[str, str]:
    """Money behind the number, or before it: 31 cents, 0,34 EUR, $0.15."""
    for here in range(atom.number_end, atom.number_end + 3):
        if text.word(here) in spans().cents:
            return {"price": f"{atom.value / 100:.6g}"}
        if text.word(here) not in spans().money:
            break
    return {"price": f"{atom.value:.6g}"}
