"""Sizes of tanks and platforms, in every form they are told in: two metres by 60 by 60."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cache

from interview.base.units import convert
from interview.words.amounts.spellings import Unit, smaller, spellings
from interview.words.forms.size import Sizes
from interview.words.lexicon.files import spans
from interview.words.spans.atoms import Atom
from interview.words.spans.heard import Heard, heard, typed
from interview.words.spans.units import Scales
from interview.words.text.tokens import Text

__all__ = ["sizes_in"]

_QUESTIONS = {2: "platform_size", 3: "tank_size"}
_SIDES = frozenset({"number", "length", "part"})
_MOST_BETWEEN, _MOST_AHEAD = 5, 4
_EXTENT = (0.03, 5.0)
"""m; how long a platform or a tank may be."""
_IN_MM, _IN_FEET = 300, 8
"""From here on bare sides are millimetres, and up to there those of a tank feet."""
_NAMED_IN = {"?gallon": "gallon", "gallon": "gallon", "g": "gallon", "L": "litre"}
_LEAST_SMALLER = 8
"""A bare side of so much is in the smaller unit, where the others are told in the larger."""


@dataclass(frozen=True, slots=True)
class _Side:
    atom: Atom
    label: str
    stop: int
    times: bool = False
    """Whether a sign for times stands before it."""

    @property
    def is_placed(self) -> bool:
        """Whether a sign or a name tells that it is a side."""
        return self.times or bool(self.label)


@cache
def _labels() -> dict[str, str]:
    return {word: side for side, said in spans().side_labels.items() for word in said}


def _between(name: str) -> frozenset[str]:
    return frozenset(spans().between_sides[name])


def sizes_in(text: Text, atoms: Sequence[Atom], scales: Scales, names: Sizes) -> Iterator[Heard]:
    """Every size of two or three sides, every square, and every trade name."""
    longest = {atom.first: atom.end for atom in sorted(atoms, key=lambda atom: atom.end)}
    sides = [one for one in atoms if one.kind in _SIDES and one.end == longest[one.first]]
    for at, atom in enumerate(sides):
        if text.word(atom.first - 1) not in _between("times") - {"on", "-", "/"} or at == 0:
            run = list(_run(text, sides, at))
            for many in (3, 2):
                if len(run) >= many:
                    yield from _size(text, run[:many], scales)
        yield from _square(text, sides, at, scales)
    for atom in atoms:
        yield from _named(text, atom, names)


def _named(text: Text, atom: Atom, names: Sizes) -> Iterator[Heard]:
    """Trade names: forty breeder, 75 gallon, a 20 long, 240 litres."""
    unit = _NAMED_IN.get(atom.unit or "")
    if unit is None and atom.kind != "number":
        return
    after = atom.end + (text.word(atom.end) == "-")
    number, form = f"{atom.value:g}", text.word(after)
    ways = [(f"{number} {form}", after + 1)] if form else []
    if unit:
        ways = [(f"{number} {unit} {form}", after + 1), *ways, (f"{number} {unit}", atom.end)]
    for said, end in ways:
        if said in names:
            yield heard(text, atom.first, end, {"tank_size": said})
            return


def _square(text: Text, atoms: Sequence[Atom], at: int, scales: Scales) -> Iterator[Heard]:
    """80 each side and sixty high; ten inches square; a cube of 60 cm."""
    atom = atoms[at]
    behind = (text.words(atom.end, end) for end in (atom.end + 2, atom.end + 1))
    sign = next((said for said in behind if " ".join(said) in _squares()), ())
    before = text.words(max(0, atom.first - 4), atom.first)
    if not sign and {"square", "cube"}.isdisjoint(before):
        return
    one = _Side(atom, "", atom.end + len(sign))
    other = replace(one, times=True)
    yield from _size(text, [one, other], scales, extended=False)
    run = list(_run(text, atoms, at))
    if len(run) > 1 and run[1].label:
        yield from _size(text, [one, other, replace(run[1], times=True)], scales)
    elif "cube" in (*before, *sign):
        yield from _size(text, [one, other, other], scales, extended=False)


@cache
def _squares() -> frozenset[str]:
    return frozenset(one.replace("_", " ") for one in spans().squares)


def _run(text: Text, atoms: Sequence[Atom], at: int) -> Iterator[_Side]:
    """The sides that follow one another."""
    times, here = False, at
    while here < len(atoms):
        atom = atoms[here]
        label, stop = _label(text, atom)
        if label == "long" and text.word(stop - 1) == "tank" and not (atom.unit and here == at):
            label, stop = "", atom.end
        yield _Side(atom, label, stop, times)
        ahead = range(here + 1, min(here + _MOST_AHEAD, len(atoms)))
        following = next((n for n in ahead if atoms[n].first >= stop), None)
        if following is None:
            return
        gap = text.words(stop, atoms[following].first)
        times = bool(gap) and gap[0] in _between("times") and len(gap) <= 3
        known = all(word in _between("between") or word in _labels() for word in gap)
        known = known and not _ends_sentence(text, stop, atoms[following].first)
        if not (times or (known and len(gap) <= _MOST_BETWEEN)):
            return
        here = following


def _ends_sentence(text: Text, first: int, end: int) -> bool:
    """Whether a full stop stands there that ends no abbreviation: 10 cm. The tank."""
    stops = (at for at in range(first, end) if text.word(at) == ".")
    return any(text.tokens[at + 1].raw[:1].isupper() for at in stops)


def _label(text: Text, atom: Atom) -> tuple[str, int]:
    """Which side it is by the word behind it or before it, and where that ends."""
    for here in range(atom.end, atom.end + 4):
        word = text.word(here)
        if word in _labels() and not (len(word) == 1 and here > atom.end + 1):
            end = here + 1
            while text.word(end) in ("to", "back", "end"):
                end += 1
            return _labels()[word], end
        if word not in _between("before_label"):
            break
    for here in range(atom.first - 1, max(-1, atom.first - 4), -1):
        word = text.word(here)
        if word in _labels() and word not in ("tank", "across", "up", "large", "front"):
            return _labels()[word], atom.end
        if word not in _between("behind_label"):
            break
    return "", atom.end


def _size(
    text: Text, sides: Sequence[_Side], scales: Scales, *, extended: bool = True
) -> Iterator[Heard]:
    begins = sides[1].times or bool(sides[0].label)
    if not (begins and all(side.is_placed for side in sides[1:])):
        return
    stop, unit = _unit_behind(text, sides[-1].stop) if extended else (sides[-1].stop, None)
    told = _with_units(sides, unit, scales)
    low, high = _EXTENT
    if not low <= max(convert(*side, "m") for side in told) <= high:
        return
    ordered = _ordered(told, [side.label for side in sides])
    if len(sides) == len(_QUESTIONS) + 1 and convert(*ordered[1], "m") > convert(*ordered[0], "m"):
        ordered[:2] = ordered[1::-1]
    said = " x ".join(typed(*side) for side in ordered)
    says = {_QUESTIONS[len(sides)]: said}
    if len(sides) > len(_QUESTIONS):
        says["platform_size"] = " x ".join(typed(*side) for side in ordered[:2])
    yield heard(text, sides[0].atom.first, min(max(stop, sides[-1].stop), len(text.tokens)), says)


def _unit_behind(text: Text, at: int) -> tuple[int, Unit | None]:
    """The unit that is told behind all of them: all in cm."""
    here = at
    while text.word(here) in _between("before_unit") and here < at + 7:
        here += 1
    unit = spellings("length").get(text.word(here))
    return (here + 1, unit) if unit else (at, None)


def _with_units(
    sides: Sequence[_Side], behind: Unit | None, scales: Scales
) -> list[tuple[float, Unit]]:
    """Each side's number and unit."""
    units = [side.atom.unit for side in sides if side.atom.unit]
    values = [side.atom.value for side in sides]
    if not units:
        unit = behind or _likely(values, scales, sides[0].atom.first)
        return [(value, unit) for value in values]
    found: list[tuple[float, Unit]] = []
    for side in sides:
        atom = side.atom
        before = [one.atom.unit for one in sides[: len(found)] if one.atom.unit]
        unit = atom.unit or (before[-1] if before else None) or units[0]
        largest = max((one.atom.value for one in sides if one.atom.unit == unit), default=0.0)
        bare = atom.unit is None and atom.value >= _LEAST_SMALLER and atom.value > largest
        unit = (behind or smaller(unit) or unit) if bare and found else unit
        found.append((atom.value, unit))
    return found


def _likely(values: Sequence[float], scales: Scales, at: int) -> Unit:
    """What sides without any unit are in."""
    if max(values) >= _IN_MM:
        return "mm"
    if len(values) > len(_QUESTIONS) and max(values) <= _IN_FEET:
        return "foot"
    return scales.sides(at)


def _ordered(
    sides: Sequence[tuple[float, Unit]], labels: Sequence[str]
) -> list[tuple[float, Unit]]:
    """Length, width, height: by their labels, the rest in the order told."""
    order, told = {"long": 0, "wide": 1, "tall": 2, "deep": 1}, {*labels}
    if len(sides) > len(_QUESTIONS):
        if {"deep", "wide"} <= told:
            order |= {"deep": 2} if "long" in told else {"wide": 0, "deep": 1}
        elif "deep" in told and "tall" not in told:
            order["deep"] = 2
    placed: dict[int, tuple[float, Unit]] = {}
    rest = []
    for side, label in zip(sides, labels, strict=True):
        slot = order.get(label, len(sides))
        if slot < len(sides) and slot not in placed:
            placed[slot] = side
        else:
            rest.append(side)
    free = [slot for slot in range(len(sides)) if slot not in placed]
    placed |= dict(zip(free, rest, strict=True))
    return [placed[slot] for slot in range(len(sides))]
