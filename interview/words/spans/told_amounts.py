"""What a number may say: with its own unit, or with the one its question would take it in."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from interview.words.amounts.amount import written
from interview.words.amounts.quantity import reads
from interview.words.amounts.spellings import Unit
from interview.words.spans.atoms import Atom
from interview.words.spans.units import Scales
from interview.words.text.tokens import Text

__all__ = ["Heard", "amounts_in", "typed"]

_RANGES = frozenset({"-", "to", "or", "and", "/", "till", "until", "through", "bis"})
_ANSWERS: Mapping[str, tuple[str, ...]] = {
    "temperature": ("temperature", "temperature_difference"),
    "share": ("share", "percent"),
    "part": ("share",),
    "duration": ("duration", "lit_time"),
    "length": ("length", "water_depth"),
}
_IN_THEIR_OWN = (
    *("length", "power", "flow", "concentration", "mass", "volume", "share", "current", "voltage"),
    "angle",
)
_SHORT = {"gallon": "gal", "quart": "qt", "pint": "pint", "fluid_ounce": "fl oz"}
_SHORT |= {"gallon/hour": "gph", "gallon/minute": "gpm"}
_FINE = ("wall_thickness", "hose_diameter", "grain_size", "mesh_wire", "mesh_pitch")
"""Lengths whose bare numbers are millimetres."""
_DEGREES = ("temperature", "temperature_difference", "angle")
_MOST_COUNTED = 40
_OLDEST = 100
_DAY = 24
_CENTS = frozenset(
    {"cent", "cents", "c", "ct", "cts", "¢", "p", "pence", "rappen", "centimes", "centime"}
    | {"paise", "centavos", "öre", "ore", "pennies", "penny"}
)
_MONEY = frozenset(
    {"$", "£", "€", "eur", "euro", "euros", "usd", "gbp", "dollar", "dollars", "pound", "pounds"}
    | {"rand", "rupees", "rupee", "kronor", "kroner", "kr", "chf", "francs", "aud", "cad", "zl"}
    | {"zloty", "reais", "pesos", "inr", "sek", "rs", "us", "australian", "canadian", "of", "a"}
)


@dataclass(frozen=True, slots=True)
class Heard:
    """Some characters of a text, and what they say by the type of question, or by its id."""

    start: int
    stop: int
    says: Mapping[str, str]


def typed(value: float, unit: Unit) -> str:
    """An amount as it would be typed; of gallons the region tells which."""
    bare = unit.removeprefix("?")
    if unit.startswith("?") or bare in _SHORT:
        return f"{value:.6g} {_SHORT.get(bare, bare)}"
    return written(value, unit)


def amounts_in(text: Text, atoms: Sequence[Atom], scales: Scales) -> Iterator[Heard]:
    """Every number, and every range of two."""
    for at, atom in enumerate(atoms):
        following = _range_behind(text, atoms, at)
        unit = atom.unit
        if following is not None:
            yield _heard(text, atom.first, following.end, _of_range(atom, following, scales))
            if unit is None and following.unit and following.kind != "degrees":
                yield _heard(text, atom.first, atom.end, _of_unit(following, atom.value))
                continue
        says = _of_atom(text, atom, scales)
        yield _heard(text, atom.first, atom.end, says)


def _heard(text: Text, first: int, end: int, says: Mapping[str, str]) -> Heard:
    return Heard(text.tokens[first].start, text.tokens[end - 1].end, says)


def _range_behind(text: Text, atoms: Sequence[Atom], at: int) -> Atom | None:
    """The other end, behind a word for it: 62 to 77 °F, 26 °C in the day and 22 at night."""
    atom, following = (
        atoms[at],
        next((one for one in atoms[at + 1 : at + 3] if one.first >= atoms[at].end), None),
    )
    if following is None or following.first != atom.end + 1:
        return None
    if text.word(atom.end) not in _RANGES or "count" in (atom.kind, following.kind):
        return None
    if atom.unit and following.unit and atom.kind != following.kind:
        return None
    return following


def _of_unit(atom: Atom, value: float) -> dict[str, str]:
    said = typed(value, atom.unit or "")
    return dict.fromkeys(_ANSWERS.get(atom.kind, (atom.kind,)), said)


def _of_range(first: Atom, last: Atom, scales: Scales) -> dict[str, str]:
    low, high = sorted((first.value, last.value))
    if first.unit and last.unit and first.unit != last.unit:
        return {}
    unit = last.unit or first.unit
    kind = last.kind if last.unit else first.kind
    ends = f"{low:.6g} to "
    if unit and kind != "degrees":
        said = ends + typed(high, unit)
        return dict.fromkeys(_ANSWERS.get(kind, (kind,)), said)
    says: dict[str, str] = {}
    if scale := scales.temperature(low, high):
        says["temperature"] = ends + typed(high, scale)
    says["temperature_difference"] = ends + typed(high, scales.difference())
    says["angle"] = ends + typed(high, "deg")
    if kind == "degrees":
        return says
    for kind in _IN_THEIR_OWN:
        if unit := scales.of(kind, first.first):
            says[kind] = ends + typed(high, unit)
    says |= {"percent": says["share"], "water_depth": says["length"]}
    says |= {"duration": f"{ends}{high:.6g} days", "age": f"{ends}{high:.6g} years"}
    says |= {"lit_time": f"{ends}{high:.6g} months", "day_length": f"{ends}{high:.6g} hours"}
    says |= dict.fromkeys(("rating", "price"), f"{ends}{high:.6g}")
    return says | {"per_week": f"{ends}{high:.6g} times a week"}


def _of_atom(text: Text, atom: Atom, scales: Scales) -> dict[str, str]:
    if atom.kind == "count":
        return {"count": f"{atom.value:g}"} | (
            {"concentration": "0 mg/L"} if not atom.value else {}
        )
    if atom.kind == "degrees":
        return _of_degrees(atom, scales)
    if atom.unit:
        said = typed(atom.value, atom.unit)
        if atom.terms > 1 or atom.end > atom.number_end + 1:
            own = text.said(atom.first, atom.end)
            said = own if reads(own, atom.kind, "europe") else said
        says = dict.fromkeys(_ANSWERS.get(atom.kind, (atom.kind,)), said)
        return says | _price(text, atom)
    return _of_number(text, atom, scales)


def _of_degrees(atom: Atom, scales: Scales) -> dict[str, str]:
    says = {"temperature_difference": typed(atom.value, scales.difference())}
    if scale := scales.temperature(atom.value, atom.value):
        says["temperature"] = typed(atom.value, scale)
    return says | {"angle": typed(atom.value, "deg")}


def _of_number(text: Text, atom: Atom, scales: Scales) -> dict[str, str]:
    value, number = atom.value, f"{atom.value:.6g}"
    says = _of_degrees(atom, scales)
    for kind in _IN_THEIR_OWN:
        if unit := scales.of(kind, atom.first):
            says[kind] = typed(value, unit)
    says["water_depth"] = says["length"]
    says["percent"] = says["share"]
    if 0 < value < 1:
        says["share"] = f"{100 * value:.6g} %"
    if scales.of("length", atom.first) in ("cm", "m"):
        says |= dict.fromkeys(_FINE, f"{number} mm")
    says |= dict.fromkeys(("rating", "price"), number)
    if value.is_integer() and value <= _MOST_COUNTED:
        says["count"] = number
    if value <= _OLDEST:
        says |= {"duration": f"{number} days", "age": f"{number} years"}
        says |= {"lit_time": f"{number} months", "filter_age": f"{number} months"}
        says["per_week"] = f"{number} times a week"
    else:
        says["lit_time"] = f"{number} hours"
    if value <= _DAY:
        says["day_length"] = f"{number} hours"
    return says | _price(text, atom)


def _price(text: Text, atom: Atom) -> dict[str, str]:
    """Money behind the number, or before it: 31 cents, 0,34 EUR, $0.15."""
    at = atom.number_end
    for here in range(at, at + 3):
        if text.word(here) in _CENTS:
            return {"price": f"{atom.value / 100:.6g}"}
        if text.word(here) not in _MONEY:
            break
    return {"price": f"{atom.value:.6g}"}
