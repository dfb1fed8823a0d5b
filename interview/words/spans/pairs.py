"""Amounts that two numbers tell together: off at 78 and on at 76, ten litres in 45 seconds."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from interview.words.spans.atoms import Atom
from interview.words.spans.heard import Heard, heard, typed
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
_DEGREES = frozenset({"number", "degrees", "temperature"})
_OPENS = frozenset(
    {"an", "a", "per", "par", "por", "die", "the", "in", "one", "each", "every", "by", "at", "/"}
    | {"-", "of", "and", "water", "single", "pro", "every"}
)
_OVER = (("in",), (":",), ("over",), ("to",), ("for",))
_DAY = 24
_DARKNESS = frozenset({"dark", "darkness", "night", "blackest", "black", "off", "lightless"})
_OF = frozenset({"of", "out", "the", "a"})
_TO_THE = {"inch": 25.4, "in": 25.4, "cm": 10.0, "centimetre": 10.0}
"""mm; of these wires are counted."""
_LITRES = frozenset({"liter", "litre", "litres", "liters", "l"})
_TOTALS = ("light_power", "pump_power", "circuit_other_load")
"""Questions for what several take together."""
_EACH = frozenset({"each", "apiece", "every"})
_SEVERAL = (2, 3, 4, 5, 6)


def pairs_in(text: Text, atoms: Sequence[Atom], scales: Scales) -> Iterator[Heard]:
    """Swings, flows by the bucket, flows whose time stands apart, sums and so many of each."""
    for at, atom in enumerate(atoms):
        if atom.kind in _DEGREES:
            yield from _swing(text, atoms, at, scales)
        if atom.kind == "volume" or (atom.kind == "number" and text.word(atom.end) in _LITRES):
            yield from _flow(text, atom)
            yield from _bucket(text, atoms, at)
            yield from _share(text, atoms, at)
        yield from _together(text, atoms, at)
        yield from _to_the_inch(text, atom)
        yield from _slope(text, atoms, at)
        yield from _there_and_back(text, atoms, at)
        yield from _dark(text, atom)
        is_each = not _EACH.isdisjoint(text.words(atom.end, atom.end + 2))
        if is_each or text.word(atom.first - 1) == "x":
            yield from _of_each(text, atoms, at)


def _share(text: Text, atoms: Sequence[Atom], at: int) -> Iterator[Heard]:
    """10 gal of the 100."""
    atom = atoms[at]
    whole = next((one for one in atoms[at + 1 : at + 3] if one.first >= atom.end), None)
    gap = text.words(atom.end, whole.first) if whole else ()
    if whole and gap and gap[-1] in ("the", "a", "of") and {"of"} <= {*gap} <= _OF and whole.value:
        share, alike = atom.value / whole.value, whole.unit in (None, atom.unit)
        if share <= 1 and alike and whole.kind in ("volume", "number"):
            yield heard(text, atom.first, whole.end, {"share": f"{100 * share:.4g} %"})


def _to_the_inch(text: Text, atom: Atom) -> Iterator[Heard]:
    """Wires, six to the inch."""
    behind = text.words(atom.number_end, atom.number_end + 3)
    unit = next((u for u in _TO_THE if behind in (("to", "the", u), ("to", "an", u))), "")
    unit = unit or (behind[1] if behind[:1] == ("per",) and behind[1:2] else "")
    if unit in _TO_THE and atom.value > 0:
        said = {"mesh_pitch": f"{round(_TO_THE[unit] / atom.value, 2):g} mm"}
        yield heard(text, atom.first, atom.number_end + len(behind), said)


def _slope(text: Text, atoms: Sequence[Atom], at: int) -> Iterator[Heard]:
    """One in two; 10 cm over 20 cm; 50 %."""
    atom = atoms[at]
    if atom.unit == "%":
        degrees = math.degrees(math.atan(atom.value / 100))
        yield heard(text, atom.first, atom.end, {"ramp_slope": f"{degrees:.3g} degrees"})
    behind = next((one for one in atoms[at + 1 : at + 3] if one.first >= atom.end), None)
    if behind is None or text.words(atom.number_end, behind.first)[-1:] not in _OVER:
        return
    if behind.first <= atom.end + 1 and behind.unit == atom.unit and 0 < atom.value <= behind.value:
        degrees = math.degrees(math.atan(atom.value / behind.value))
        yield heard(text, atom.first, behind.end, {"ramp_slope": f"{degrees:.3g} degrees"})


def _there_and_back(text: Text, atoms: Sequence[Atom], at: int) -> Iterator[Heard]:
    """A hose of 1.5 m in and 1.5 m out."""
    atom = atoms[at]
    behind = next((one for one in atoms[at + 1 : at + 3] if one.first >= atom.end), None)
    same = behind and (behind.kind, behind.unit) == (atom.kind, atom.unit) == ("length", atom.unit)
    if behind and same and behind.first - atom.end <= _UP_TO and atom.unit:
        said = {"hose_length": typed(atom.value + behind.value, atom.unit)}
        yield heard(text, atom.first, behind.end, said)


def _dark(text: Text, atom: Atom) -> Iterator[Heard]:
    """Ten hours of dark leave fourteen of light."""
    if atom.unit != "hour" or atom.value >= _DAY:
        return
    near = [at for at in range(atom.first - 4, atom.end + 3) if text.word(at) in _DARKNESS]
    if near:
        said = {"day_length": f"{_DAY - atom.value:g} hours"}
        yield heard(text, min(near[0], atom.first), max(near[-1] + 1, atom.end), said)


def _together(text: Text, atoms: Sequence[Atom], at: int) -> Iterator[Heard]:
    """TV 150 W and computer 100 W."""
    atom = atoms[at]
    behind = (one for one in atoms[at + 1 : at + 3] if one.first >= atom.end)
    other = next((one for one in behind if one.kind == "power"), None)
    if atom.kind == "power" and other and other.first - atom.end <= _APART:
        said = typed(atom.value + other.value, "W") if atom.unit == other.unit == "W" else ""
        if said:
            yield heard(text, atom.first, other.end, dict.fromkeys(_TOTALS, said))


def _of_each(text: Text, atoms: Sequence[Atom], at: int) -> Iterator[Heard]:
    """Two tubes at 24 W each; hoses of 1500 mm each are two."""
    atom = atoms[at]
    before = (one for one in reversed(atoms[max(0, at - 3) : at]) if one.unit is None)
    several = next((one for one in before if one.value in _SEVERAL), None)
    many = several.value if several else 2
    kinds = {"power": _TOTALS, "length": ("hose_length",), "mass": ("feed_mass",)}
    unit = "W" if atom.kind == "number" else atom.unit
    names = kinds.get("power" if atom.kind == "number" else atom.kind, ())
    if names and unit:
        said = dict.fromkeys(names, typed(many * atom.value, unit))
        end = atom.end + (text.word(atom.end) in _EACH)
        is_times = several and text.word(atom.first - 1) == "x"
        yield heard(text, several.first if several and is_times else atom.first, end, said)


def _swing(text: Text, atoms: Sequence[Atom], at: int, scales: Scales) -> Iterator[Heard]:
    atom = atoms[at]
    behind = (one for one in atoms[at + 1 : at + 4] if one.first >= atom.end)
    following = next((one for one in behind if one.kind in _DEGREES), None)
    if following is None or following.first - atom.end > _APART:
        return
    apart = abs(atom.value - following.value)
    ends = sorted((atom.value, following.value))
    unit = atom.unit if atom.kind == "temperature" else following.unit
    scale = unit if unit and unit != "?degree" else scales.temperature(*ends)
    if scale and 0 < apart <= _WIDEST:
        said = {"temperature_difference": typed(round(apart, 3), scale)}
        yield heard(text, atom.first, following.end, said)


def _flow(text: Text, atom: Atom) -> Iterator[Heard]:
    """240 litres in one hour, 820 litres par heure."""
    volume = atom.unit or "L"
    for here in range(atom.end, atom.end + _UP_TO):
        word = text.word(here)
        per = "hour" if word in _HOURS else "minute" if word in _MINUTES else ""
        if per:
            said = typed(atom.value, f"{volume}/{per}")
            yield heard(text, atom.first, here + 1, {"flow": said})
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
            yield heard(text, first.first, last.end, {"flow": said})
