"""What a number may say: with its own unit, or with the one its question would take it in."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from interview.words.amounts.amount import written
from interview.words.amounts.quantity import reads
from interview.words.amounts.spellings import Unit
from interview.words.mentions.parts import hedges_around
from interview.words.spans.atoms import Atom
from interview.words.spans.units import Scales
from interview.words.text.tokens import Text

__all__ = ["Heard", "amounts_in", "typed"]

_RANGES = frozenset({"-", "to", "or", "and", "/", "till", "until", "through", "bis", "then"})
_ANSWERS: Mapping[str, tuple[str, ...]] = {
    "temperature": ("temperature", "temperature_difference"),
    "share": ("share", "percent"),
    "part": ("share",),
    "duration": ("duration", "lit_time"),
    "length": ("length", "water_depth"),
}
_IN_THEIR_OWN = (
    *("power", "flow", "concentration", "mass", "volume", "share", "current", "voltage"),
)
_SHORT = {"gallon": "gal", "quart": "qt", "pint": "pint", "fluid_ounce": "fl oz"}
_SHORT |= {"gallon/hour": "gph", "gallon/minute": "gpm"}
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


def typed(number: float | str, unit: Unit) -> str:
    """An amount as it would be typed; of gallons the region tells which."""
    bare = unit.removeprefix("?")
    if unit.startswith("?") or bare in _SHORT:
        value = number if isinstance(number, str) else f"{number:.6g}"
        return f"{value} {_SHORT.get(bare, bare)}"
    if isinstance(number, str):
        return f"{number} {written(1, unit).removeprefix('1').strip()}"
    return written(number, unit)


def amounts_in(text: Text, atoms: Sequence[Atom], scales: Scales) -> Iterator[Heard]:
    """Every number, and every range of two."""
    for at, atom in enumerate(atoms):
        following = _range_behind(text, atoms, at)
        if following is not None:
            says = _of_range(atom, following, scales)
            yield _heard(text, atom.first, following.end, says)
            if atom.unit is None and following.unit and following.kind != "degrees":
                yield _heard(text, atom.first, atom.end, _in_unit_of(following, atom))
                continue
        first, end = hedges_around(text, atom.first, atom.end)
        says = _of_atom(text, atom, scales)
        if (first, end) == (atom.first, atom.end):
            yield _heard(text, first, end, says)
            continue
        before = " ".join(text.words(first, atom.first))
        behind = " ".join(text.words(atom.end, end))
        says = {kind: f"{before} {said} {behind}".strip() for kind, said in says.items()}
        yield _heard(text, first, end, says)


def _heard(text: Text, first: int, end: int, says: Mapping[str, str]) -> Heard:
    return Heard(text.tokens[first].start, text.tokens[end - 1].end, says)


def _range_behind(text: Text, atoms: Sequence[Atom], at: int) -> Atom | None:
    """The other end, behind a word for it: 62 to 77 °F."""
    atom = atoms[at]
    behind = (one for one in atoms[at + 1 : at + 4] if one.first == atom.end + 1)
    following = next((one for one in behind if one.kind != "count"), None)
    if following is None or text.word(atom.end) not in _RANGES or atom.kind == "count":
        return None
    if atom.unit and following.unit and atom.kind != following.kind:
        return None
    return following


def _in_unit_of(atom: Atom, bare: Atom) -> dict[str, str]:
    said = typed(bare.said or bare.value, atom.unit or "")
    return dict.fromkeys(_ANSWERS.get(atom.kind, (atom.kind,)), said)


def _of_range(first: Atom, last: Atom, scales: Scales) -> dict[str, str]:
    low, high = sorted((first.value, last.value))
    if first.unit and last.unit and first.unit != last.unit:
        return {}
    unit = last.unit or first.unit
    kind = last.kind if last.unit else first.kind
    ends = f"{low:.6g} to "
    if unit and kind not in ("degrees", "temperature"):
        said = ends + typed(high, unit)
        return dict.fromkeys(_ANSWERS.get(kind, (kind,)), said)
    says: dict[str, str] = {}
    if scale := (unit if kind == "temperature" else scales.temperature(low, high)):
        says["temperature"] = ends + typed(high, scale)
        says["temperature_difference"] = typed(high - low, scale)
    says["angle"] = ends + typed(high, "deg")
    if unit:
        return says
    for kind in _IN_THEIR_OWN:
        if unit := scales.of(kind, first.first):
            says[kind] = ends + typed(high, unit)
    lows = dict(scales.lengths(low, first.first))
    highs = scales.lengths(high, first.first)
    says |= {name: ends + typed(high, unit) for name, unit in highs if lows.get(name) == unit}
    says |= {"percent": says["share"]}
    says |= {"duration": f"{ends}{high:.6g} days", "age": f"{ends}{high:.6g} years"}
    says |= {"lit_time": f"{ends}{high:.6g} months", "day_length": f"{ends}{high:.6g} hours"}
    says |= dict.fromkeys(("rating", "price"), f"{ends}{high:.6g}")
    return says | {"per_week": f"{ends}{high:.6g} times a week"}


def _of_atom(text: Text, atom: Atom, scales: Scales) -> dict[str, str]:
    if atom.kind == "count":
        none = {} if atom.value else {"concentration": "0 mg/L"}
        return {"count": f"{atom.value:g}", **none}
    if atom.kind == "degrees":
        return _of_degrees(atom, scales)
    if atom.unit:
        said = atom.said
        if not said or not reads(said, atom.kind, "europe"):
            said = typed(atom.value, atom.unit)
        says = dict.fromkeys(_ANSWERS.get(atom.kind, (atom.kind,)), said)
        return says | _price(text, atom)
    return _of_number(text, atom, scales)


def _of_degrees(atom: Atom, scales: Scales) -> dict[str, str]:
    number = atom.value
    says = {"temperature_difference": typed(number, scales.difference())}
    if scale := scales.temperature(number, number):
        says["temperature"] = typed(number, scale)
    return says | {"angle": typed(number, "deg")}


def _of_number(text: Text, atom: Atom, scales: Scales) -> dict[str, str]:
    value, number = atom.value, atom.said or f"{atom.value:.6g}"
    says = _of_degrees(atom, scales)
    for kind in _IN_THEIR_OWN:
        if unit := scales.of(kind, atom.first):
            says[kind] = typed(number, unit)
    lengths = scales.lengths(value, atom.first)
    says |= {question: typed(number, unit) for question, unit in lengths}
    says["percent"] = says["share"]
    if 0 < value < 1:
        says["share"] = f"{100 * value:.6g} %"
    plain = f"{value:.6g}"
    says |= dict.fromkeys(("rating", "price"), plain)
    if value.is_integer() and value <= _MOST_COUNTED:
        says["count"] = plain
    if value <= _OLDEST:
        says |= {"duration": f"{plain} days", "age": f"{plain} years"}
        says |= {"lit_time": f"{plain} months", "filter_age": f"{plain} months"}
        says["per_week"] = f"{plain} times a week"
    else:
        says["lit_time"] = f"{number} hours"
    if value <= _DAY:
        says["day_length"] = f"{plain} hours"
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
