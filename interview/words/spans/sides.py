"""Two or three sides of one thing, in any form: two metres by 60 by 60, ten inches square."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cache
from itertools import islice
from typing import TypeAlias

from interview.base.units import convert
from interview.words.amounts.spellings import Unit, smaller, spellings
from interview.words.lexicon.files import spans
from interview.words.spans.atoms import Atom
from interview.words.text.tokens import Text

__all__ = ["Length", "ToldSides", "told_sides"]

Length: TypeAlias = tuple[float, Unit | None]
"""A number, and its unit if one is told of it or of all sides."""
_SIDES = frozenset({"number", "length", "part"})
_THREE = 3
_MOST_BETWEEN, _MOST_AHEAD, _MOST_BEFORE_UNIT = 5, 4, 7
_REACH = 4
_SAME_SIGN = dict.fromkeys(("by", "*", "×", "times"), "x")
_LETTERS = frozenset("lwhdb")
_NEVER_BEFORE = frozenset({"tank", "across", "up", "large", "front"})
_LEAST_SMALLER = 8
"""A bare side of so much is in the smaller unit, where the others are told in the larger."""


@dataclass(frozen=True, slots=True)
class ToldSides:
    """The sides, length, width and height, and their place by tokens."""

    first: int
    end: int
    lengths: tuple[Length, ...]


@dataclass(frozen=True, slots=True)
class _Side:
    atom: Atom
    label: str
    stop: int
    times: bool = False
    """Whether a sign for times stands before it."""
    first: int = 0
    """Where it begins, with its name."""

    @property
    def is_placed(self) -> bool:
        """Whether a sign or a name tells that it is a side."""
        return self.times or bool(self.label)


@cache
def _labels() -> dict[str, str]:
    return {word: side for side, said in spans().side_labels.items() for word in said}


@cache
def _between(name: str) -> frozenset[str]:
    return frozenset(spans().between_sides[name])


@cache
def _squares() -> frozenset[str]:
    return frozenset(one.replace("_", " ") for one in spans().squares)


def told_sides(text: Text, atoms: Sequence[Atom]) -> Iterator[ToldSides]:
    """Every run of three sides and of two, and every square."""
    firm = [_lettered(text, one) for one in atoms if not one.loose]
    longest = {atom.first: atom.end for atom in sorted(firm, key=lambda atom: atom.end)}
    sides = [one for one in firm if one.kind in _SIDES and one.end == longest[one.first]]
    for at, atom in enumerate(sides):
        if at == 0 or text.word(atom.first - 1) not in _between("times") - {"on", "-", "/"}:
            run = list(islice(_run(text, sides, at), _THREE + 1))
            goes_on = len(run) > _THREE and run[-1].times
            for many in (2,) if goes_on else (_THREE, 2):
                if len(run) >= many and (run[1].times or run[0].label):
                    yield from _placed(text, run[:many])
        yield from _square(text, sides, at)


def _lettered(text: Text, atom: Atom) -> Atom:
    """A number whose unit is rather the letter of its side: 72L x 24W x 25H."""
    end = atom.number_end
    before, behind = text.word(atom.first - 1), text.word(end + 1)
    is_letter = "x" in (before, behind) or behind in ("=", ":") or before in _LETTERS | {"="}
    if text.word(end) in _LETTERS and end < len(text.tokens) and is_letter:
        return replace(atom, end=end, kind="number", unit=None)
    return atom


def _square(text: Text, atoms: Sequence[Atom], at: int) -> Iterator[ToldSides]:
    """80 each side and sixty high; ten inches square; a cube of 60 cm."""
    atom = atoms[at]
    behind = (text.words(atom.end, end) for end in (atom.end + 2, atom.end + 1))
    sign = next((said for said in behind if " ".join(said) in _squares()), ())
    before = text.words(max(0, atom.first - 4), atom.first)
    if not sign and {"square", "cube"}.isdisjoint(before):
        return
    one = _Side(atom, "", atom.end + len(sign), first=atom.first)
    other = replace(one, times=True)
    yield from _placed(text, [one, other])
    run = list(islice(_run(text, atoms, at), 2))
    if len(run) > 1 and run[1].label:
        yield from _placed(text, [one, other, replace(run[1], times=True)])
    elif "cube" in (*before, *sign):
        yield from _placed(text, [one, other, other])


def _run(text: Text, atoms: Sequence[Atom], at: int) -> Iterator[_Side]:
    """The sides that follow one another."""
    times, here, sign = False, at, ""
    named_before = bool(_label_before(text, atoms[at])[0]) and not _is_named_behind(text, atoms[at])
    while here < len(atoms):
        atom = atoms[here]
        label, stop = _label_behind(text, atom)
        first = atom.first
        if named_before:
            (label, first), stop = _label_before(text, atom), atom.end
        elif label == "long" and text.word(stop - 1) == "tank" and not (atom.unit and here == at):
            label, stop = "", atom.end
        elif not label and not times:
            label, first = _label_before(text, atom)
        yield _Side(atom, label, stop, times, first)
        if other := _same_side(text, stop):
            stop += len(other)
            yield _Side(atom, _labels()[other[-1]], stop, False, first)
        ahead = range(here + 1, min(here + _MOST_AHEAD, len(atoms)))
        following = next((n for n in ahead if atoms[n].first >= stop), None)
        if following is None:
            return
        gap = text.words(stop, atoms[following].first)
        times = bool(gap) and gap[0] in _between("times") and len(gap) <= _THREE
        if times and _SAME_SIGN.get(sign, sign) not in ("", _SAME_SIGN.get(gap[0], gap[0])):
            return  # 72 x 24 x 24 on four piers
        sign = gap[0] if times else sign
        known = all(word in _between("between") or word in _labels() for word in gap)
        known = known and not _ends_sentence(text, stop, atoms[following].first)
        if not (times or (known and len(gap) <= _MOST_BETWEEN)):
            return
        here = following


def _is_named_behind(text: Text, atom: Atom) -> bool:
    """Whether the name behind it is its own, and not that of the number after that."""
    label, end = _label_behind(text, atom)
    token = text.tokens[end] if end < len(text.tokens) else None
    is_next = token is not None and (token.kind == "number" or token.text in ("=", ":"))
    return bool(label) and not is_next


def _same_side(text: Text, at: int) -> tuple[str, ...]:
    """The words for another side of the same: 40 cm wide and high; and the same high."""
    words = text.words(at, at + 4)
    for end in (2, 4):
        one = words[:end]
        if one[:1] == ("and",) and one[1:-1] in ((), ("the", "same")) and one[-1:] != ("and",):
            follows = text.tokens[at + end] if at + end < len(text.tokens) else None
            if one[-1] in _labels() and (follows is None or follows.kind != "number"):
                return one
    return ()


def _ends_sentence(text: Text, first: int, end: int) -> bool:
    """Whether a full stop stands there that ends no abbreviation: 10 cm. The tank."""
    stops = (at for at in range(first, end) if text.word(at) == ".")
    return any(text.tokens[at + 1].raw[:1].isupper() for at in stops)


def _label_behind(text: Text, atom: Atom) -> tuple[str, int]:
    """Which side it is by the word behind it, and where that ends: 18 in of height."""
    for here in range(atom.end, atom.end + _REACH):
        word = text.word(here)
        if word in _labels() and not (len(word) == 1 and here > atom.end + 1):
            end = here + 1
            while text.word(end) in ("to", "back", "end"):
                end += 1
            return _labels()[word], end
        if word not in _between("before_label"):
            break
    return "", atom.end


def _label_before(text: Text, atom: Atom) -> tuple[str, int]:
    """Which side it is by the word before it, and where that stands: height: 50."""
    for here in range(atom.first - 1, max(-1, atom.first - _REACH), -1):
        word = text.word(here)
        if word in _labels() and word not in _NEVER_BEFORE:
            return _labels()[word], here
        if word not in _between("behind_label"):
            break
    return "", atom.first


def _placed(text: Text, sides: Sequence[_Side]) -> Iterator[ToldSides]:
    """Sides of which each is one, with their units and in their order."""
    if all(side.is_placed for side in sides[1:]):
        end, unit = _unit_behind(text, sides[-1].stop)
        ordered = _ordered(_with_units(sides, unit), [side.label for side in sides])
        yield ToldSides(sides[0].first, end, tuple(ordered))


def _unit_behind(text: Text, at: int) -> tuple[int, Unit | None]:
    """The unit that is told behind all of them, and where it ends: all in cm."""
    closed = at + 1 >= len(text.tokens) or text.tokens[at + 1].kind == "mark"
    if text.word(at) == "in" and closed:  # 72L x 24W x 25H in, glass
        return at + 1, "inch"
    here = at
    while text.word(here) in _between("before_unit") and here < at + _MOST_BEFORE_UNIT:
        here += 1
    unit = spellings("length").get(text.word(here))
    end = here + 1 if unit else at
    return end + (unit is not None and text.word(end) == ")"), unit


def _with_units(sides: Sequence[_Side], behind: Unit | None) -> list[Length]:
    """Each side's number and unit."""
    units = [side.atom.unit for side in sides if side.atom.unit]
    if not units:
        return [(side.atom.value, behind) for side in sides]
    found: list[Length] = []
    for side in sides:
        atom = side.atom
        before = [one.atom.unit for one in sides[: len(found)] if one.atom.unit]
        unit = atom.unit or (before[-1] if before else None) or units[0]
        largest = max((one.atom.value for one in sides if one.atom.unit == unit), default=0.0)
        bare = atom.unit is None and atom.value >= _LEAST_SMALLER and atom.value > largest
        found.append((atom.value, (behind or smaller(unit) or unit) if bare and found else unit))
    return found


def _ordered(sides: Sequence[Length], labels: Sequence[str]) -> list[Length]:
    """Length, width, height: by their labels, the rest in the order told."""
    order, told = {"long": 0, "wide": 1, "tall": 2, "deep": 1}, {*labels}
    if len(sides) == _THREE:
        if {"deep", "wide"} <= told:
            order |= {"deep": 2} if "long" in told else {"wide": 0, "deep": 1}
        elif "deep" in told and "tall" not in told:
            order["deep"] = 2
    placed: dict[int, Length] = {}
    rest = []
    for side, label in zip(sides, labels, strict=True):
        slot = order.get(label, len(sides))
        if slot < len(sides) and slot not in placed:
            placed[slot] = side
        else:
            rest.append(side)
    free = [slot for slot in range(len(sides)) if slot not in placed]
    placed |= dict(zip(free, rest, strict=True))
    first, second, *height = (placed[slot] for slot in range(len(sides)))
    if height and "long" not in told and _is_longer(second, first):
        first, second = second, first
    return [first, second, *height]


def _is_longer(one: Length, other: Length) -> bool:
    in_metres = [convert(value, unit or other[1] or "m", "m") for value, unit in (one, other)]
    return in_metres[0] > in_metres[1]
