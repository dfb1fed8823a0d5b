"""Sizes of tanks and platforms, in every form they are told in: two metres by 60 by 60."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from interview.base.units import convert
from interview.words.amounts.spellings import Unit, smaller, spellings
from interview.words.forms.size import Sizes
from interview.words.spans.atoms import Atom
from interview.words.spans.told_amounts import Heard, typed
from interview.words.spans.units import Scales
from interview.words.text.tokens import Text

__all__ = ["sizes_in"]

_QUESTIONS = {2: "platform_size", 3: "tank_size"}
_LABELS: Mapping[str, str] = {
    **dict.fromkeys(("long", "length", "lengthways", "l", "longueur", "länge", "lang"), "long"),
    **dict.fromkeys(
        ("wide", "width", "broad", "breadth", "w", "across", "largeur", "breite"), "wide"
    ),
    **dict.fromkeys(("front", "front-to-back", "breit", "through", "large"), "wide"),
    **dict.fromkeys(("tall", "high", "height", "h", "hauteur", "höhe", "hoch", "up"), "tall"),
    **dict.fromkeys(("deep", "depth", "d", "profondeur", "tiefe", "tief"), "deep"),
}
_TIMES = frozenset(
    {"x", "by", "×", "*", "on", "op", "mal", "sur", "por", "fois", "auf", "times", "/", "-"}
)
_BETWEEN = frozenset(
    {",", ";", "and", "its", "is", "it", "a", "the", "about", "roughly", "around", "tank", "glass"}
    | {
        "approx",
        "exactly",
        "in",
        "of",
        "to",
        "back",
        "from",
        "=",
        ":",
        "(",
        ")",
        "outside",
        "&",
        "by",
    }
    | {
        "overall",
        "then",
        "with",
        "a",
        "good",
        "just",
        "ca",
        "measures",
        "at",
        "each",
        ".",
        "side",
        "way",
        "comma",
    }
    | {"stands", "goes", "that", "some", "one"}
)
_MOST_BETWEEN = 4
_LONGEST_IN = (("foot", 10.0), ("inch", 120.0), ("cm", 400.0), ("mm", 4000.0))
_SHORTEST, _LONGEST = 0.2, 4.0
_IN_MM = 300
_IN_FEET = 8
_LEAST_SMALLER = 8


@dataclass(frozen=True, slots=True)
class _Side:
    atom: Atom
    label: str
    times: bool
    """Whether a sign for times stands before it."""
    stop: int


def sizes_in(text: Text, atoms: Sequence[Atom], scales: Scales, names: Sizes) -> Iterator[Heard]:
    """Every size of two or three sides, and every trade name."""
    plain = [atom for atom in atoms if atom.kind in ("number", "length", "part")]
    done = -1
    for at, atom in enumerate(plain):
        if atom.first < done:
            continue
        sides = list(_run(text, plain, at))
        for many in (3, 2):
            if len(sides) >= many and (found := _size(text, sides[:many], scales)):
                yield found
                done = max(done, sides[many - 1].atom.end)
    yield from _named(text, atoms, names)


def _named(text: Text, atoms: Sequence[Atom], names: Sizes) -> Iterator[Heard]:
    """Trade names: forty breeder, 75 gallon, a 20 long."""
    for atom in atoms:
        gallons = atom.unit in ("?gallon", "gallon", "g")
        if not gallons and atom.kind != "number":
            continue
        after = atom.end + (text.word(atom.end) == "-")
        number = f"{atom.value:g}"
        form = text.word(after)
        for said, end in (
            (f"{number} gallon {form}", after + 1),
            (f"{number} {form}", after + 1),
            (f"{number} gallon", atom.end),
        ):
            if said in names and (gallons or form in said.split()):
                token = text.tokens[end - 1]
                yield Heard(text.tokens[atom.first].start, token.end, {"tank_size": said})
                break


def _run(text: Text, atoms: Sequence[Atom], at: int) -> Iterator[_Side]:
    """The sides that follow one another, at most three."""
    times, here = False, at
    while here < len(atoms):
        atom = atoms[here]
        label, stop = _label(text, atom)
        yield _Side(atom, label, times, stop)
        following = next(
            (n for n in range(here + 1, min(here + 4, len(atoms))) if atoms[n].first >= stop), None
        )
        if following is None:
            return
        gap = text.words(stop, atoms[following].first)
        times = bool(gap) and gap[0] in _TIMES and len(gap) <= 3
        labelled = all(word in _BETWEEN or word in _LABELS for word in gap)
        if not (times or (gap and len(gap) <= _MOST_BETWEEN and labelled)):
            return
        here = following


def _label(text: Text, atom: Atom) -> tuple[str, int]:
    """Which side it is by the word behind it or before it, and where that ends."""
    at = atom.end
    for here in range(at, at + 3):
        word = text.word(here)
        if word in _LABELS and not (len(word) == 1 and here > at + 1):
            end = here + 1
            while text.word(end) in ("to", "back"):
                end += 1
            return _LABELS[word], end
        if word not in ("of", "in", "(", "-", "(", "cm", "tank", "the", "from"):
            break
    for here in range(atom.first - 1, atom.first - 4, -1):
        word = text.word(here)
        if word in _LABELS and len(word) > 1:
            return _LABELS[word], at
        if len(word) == 1 and word in _LABELS:
            return _LABELS[word], at
        if word not in ("is", "=", ":", "of", "about", "approx"):
            break
    return "", at


def _size(text: Text, sides: Sequence[_Side], scales: Scales) -> Heard | None:
    marked = all(side.times for side in sides[1:])
    named = [side.label for side in sides if side.label]
    if not marked and len(named) < len(sides) - 1:
        return None
    start = text.tokens[sides[0].atom.first].start
    stop, after = _unit_behind(text, sides[-1].stop)
    atoms = _with_units(sides, after, scales)
    if atoms is None:
        return None
    ordered = _ordered(atoms, [side.label for side in sides])
    said = " x ".join(typed(value, unit) for value, unit in ordered)
    end = text.tokens[max(stop, sides[-1].stop) - 1].end
    says = {_QUESTIONS[len(sides)]: said}
    if len(sides) == 3:
        says["platform_size"] = " x ".join(typed(value, unit) for value, unit in ordered[:2])
    return Heard(start, end, says)


def _unit_behind(text: Text, at: int) -> tuple[int, Unit | None]:
    """The unit that is told behind all of them: all in cm."""
    here = at
    while text.word(here) in (
        ",",
        "(",
        "all",
        "everything",
        "in",
        "outer",
        "outside",
        "that",
        "is",
        "of",
        "them",
        "tank",
        "measured",
        "the",
    ):
        here += 1
    unit = spellings("length").get(text.word(here))
    loose = text.word(here) == "in" and not unit
    return (here + 1, unit) if unit and not loose else (at, None)


def _with_units(
    sides: Sequence[_Side], after: Unit | None, scales: Scales
) -> list[tuple[float, Unit]] | None:
    """Each side's number and unit."""
    told = [side.atom.unit for side in sides if side.atom.unit]
    values = [side.atom.value for side in sides]
    if not told:
        unit = after or _likely(values, scales, sides[0].atom.first)
        found = [(value, unit) for value in values]
    else:
        shared = told[-1] or ""
        found = []
        for side in sides:
            before = [one.atom.unit for one in sides[: len(found)] if one.atom.unit]
            unit = side.atom.unit or after or (before[-1] if before else shared)
            larger = max((one.atom.value for one in sides if one.atom.unit == unit), default=0.0)
            bare = bool(found) and not side.atom.unit and side.atom.value > larger
            is_smaller = bare and smaller(unit) and side.atom.value >= _LEAST_SMALLER
            found.append((side.atom.value, smaller(unit) if is_smaller else unit))
    longest = max(convert(value, unit, "m") for value, unit in found)
    return found if 0.03 <= longest <= 5.0 else None


def _likely(values: Sequence[float], scales: Scales, at: int) -> Unit:
    """What sides without any unit are in."""
    if max(values) >= _IN_MM:
        return "mm"
    if len(values) == 3 and max(values) <= _IN_FEET:
        return "foot"
    return scales.sides(at)


def _ordered(
    sides: Sequence[tuple[float, Unit]], labels: Sequence[str]
) -> list[tuple[float, Unit]]:
    """Length, width, height: by their labels, the rest in the order told."""
    order = {"long": 0, "wide": 1, "tall": 2, "deep": 1}
    if len(sides) == 3 and "deep" in labels and "wide" in labels:
        order |= {"deep": 2} if "long" in labels else {"wide": 0, "deep": 1}
    elif len(sides) == 3 and "deep" in labels and "tall" not in labels:
        order["deep"] = 2
    placed: dict[int, tuple[float, Unit]] = {}
    for side, label in zip(sides, labels, strict=True):
        slot = order.get(label, -1)
        if slot >= len(sides) or slot in placed:
            slot = -1
        if slot >= 0:
            placed[slot] = side
    rest = [side for side in sides if side not in placed.values()]
    free = [slot for slot in range(len(sides)) if slot not in placed]
    if len(rest) != len(free):
        return list(sides)
    placed |= dict(zip(free, rest, strict=True))
    first, second, *others = (placed[slot] for slot in range(len(sides)))
    if convert(*second, "m") > convert(*first, "m"):
        first, second = second, first
    return [first, second, *others]
