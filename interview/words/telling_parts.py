"""A keeper's story cut into parts: words, marks, and amounts with their hedges and units."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cache

from interview.words.numbers import Number, read_number
from interview.words.spellings import Unit, spellings
from interview.words.telling_spelling import mended
from interview.words.tokens import Token

__all__ = ["Part", "Side", "read_parts"]


@dataclass(frozen=True, slots=True)
class Side:
    """One side of a size: 18 in wide."""

    said: str
    value: float
    unit: Unit | None
    label: str


@dataclass(frozen=True, slots=True)
class Part:
    """A word, a mark or an amount, and where it stands in the text."""

    kind: str
    """word, mark, number, part (of a whole), size, lengths or a dimension's name."""
    text: str
    """Folded; an amount is its kind in angle brackets, which no typed word can be."""
    start: int
    end: int
    said: str = ""
    """An amount as its question would be told it, hedges included."""
    value: float = 0.0
    unit: Unit | None = None
    sides: tuple[Side, ...] = ()
    """Of a size; of several lengths, one for each."""


_SAME = str.maketrans(
    {
        **dict.fromkeys("”“″„‟", '"'),
        **dict.fromkeys("’‘′`´ʹ", "'"),
        **dict.fromkeys("–—−‐‑‒﹣", "-"),
        **dict.fromkeys("×✕✖╳*", "x"),
        **dict.fromkeys("\u00a0\u2007\u2009\u202f\u200a\u2002\u2003\t\r", " "),
        **dict.fromkeys("º˚", "°"),
        **dict.fromkeys("∼˜≈≃", "~"),
        "⁄": "/",
    }
)
"""One character for one, so that places in the text stay what they are."""
_VULGAR = {"½": "12", "⅓": "13", "⅔": "23", "¼": "14", "¾": "34", "⅛": "18", "⅜": "38", "⅝": "58"}
_PIECE = re.compile(
    r"(?P<number>[0-9]+(?:[.,][0-9]+)*|[.][0-9]+)"
    r"|(?P<word>(?:ft|in|cm|mm|m)(?=x ?[0-9])|[^\W\d_]+(?:'[^\W\d_]+)*)"
    r"|(?P<mark>''|\n|\S)",
    re.IGNORECASE,
)
_KINDS = (
    "length",
    "power",
    "temperature",
    "flow",
    "concentration",
    "mass",
    "volume",
    "share",
    "duration",
)
_NO_UNITS = frozenset({"s", "y", "d", "k", "st", "w", "ins", "mo"})
_LONGEST_UNIT = 5
_WHOLE_UNITS = frozenset(
    {"foot", "inch", "metre", "meter", "hour", "day", "week", "fortnight", "month", "year"}
)
"""Units that "a" may stand before."""
_NOT_INCHES = frozenset(
    {"a", "an", "the", "my", "our", "his", "her", "this", "that", "it", "there", "one", "all"}
    | {"winter", "summer", "total", "here", "their", "with", "and"}
)
"""Words after "in" that make it no unit: 2 in a 40 breeder."""
_LABELS = {
    **dict.fromkeys(("l", "long", "length"), "long"),
    **dict.fromkeys(("w", "wide", "width"), "wide"),
    **dict.fromkeys(("h", "tall", "high", "height"), "tall"),
    **dict.fromkeys(("d", "deep", "depth"), "deep"),
}
_TIMES = frozenset({"x", "by"})
_CLOSE = 1.21
""""6 or 7" is a range; "60 or 75" is a choice that nobody made."""
_BEFORE = tuple(
    tuple(phrase.split())
    for phrase in [
        "about",
        "roughly",
        "around",
        "approximately",
        "approx",
        "circa",
        "ca",
        "~",
        "maybe",
        "probably",
        "perhaps",
        "i think",
        "nearly",
        "almost",
        "just under",
        "just over",
        "a bit under",
        "a bit over",
        "a little under",
        "a little over",
        "slightly under",
        "slightly over",
        "at least",
        "at most",
        "up to",
        "less than",
        "more than",
        "exactly",
    ]
)
_AFTER = tuple(
    tuple(phrase.split())
    for phrase in [
        "or so",
        "ish",
        "- ish",
        "approx",
        "approximately",
        "or thereabouts",
        "max",
        "maximum",
        "tops",
    ]
)


@cache
def _units() -> dict[str, tuple[str, Unit]]:
    """Every spelling of every unit, with its dimension."""
    found: dict[str, tuple[str, Unit]] = {}
    for kind in _KINDS:
        for text, unit in spellings(kind).items():
            if kind == "power" or text not in _NO_UNITS:
                found.setdefault(text, (kind, unit))
    return found | {"℃": ("temperature", "degC"), "℉": ("temperature", "degF")}


class _Cut:
    """The text as tokens, with their places."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.tokens: list[Token] = []
        self.spans: list[tuple[int, int]] = []
        for piece in _PIECE.finditer(text.translate(_SAME)):
            self._add(piece.lastgroup or "mark", piece.group(), piece.start(), piece.end())

    def _add(self, kind: str, raw: str, start: int, end: int) -> None:
        glued = bool(self.spans) and self.spans[-1][1] == start
        if raw in _VULGAR:
            top, bottom = _VULGAR[raw]
            pieces = [("number", top), ("mark", "/"), ("number", bottom)]
            glued = False
        else:
            word = mended(raw.casefold().replace("'", "")) if kind == "word" else raw
            pieces = [(kind, '"' if word == "''" else word)]
        for piece_kind, piece in pieces:
            self.tokens.append(Token(piece_kind, piece, raw, glued))
            self.spans.append((start, end))

    def word(self, at: int) -> str:
        return self.tokens[at].text if 0 <= at < len(self.tokens) else ""

    def said(self, first: int, end: int) -> str:
        return " ".join(self.text[self.spans[first][0] : self.spans[end - 1][1]].split())


@dataclass(frozen=True, slots=True)
class _Amount:
    end: int
    kind: str
    unit: Unit | None
    number: Number


def _unit_at(cut: _Cut, at: int) -> tuple[str, Unit, int] | None:
    """The longest unit that starts here: its dimension, its name and where it ends."""
    found: tuple[str, Unit, int] | None = None
    text = ""
    for end in range(at, min(at + _LONGEST_UNIT, len(cut.tokens))):
        token = cut.tokens[end]
        if token.kind == "number":
            break
        spaced = end > at and token.kind == "word" and cut.tokens[end - 1].kind != "mark"
        text += f" {token.text}" if spaced else token.text
        if text in _units():
            found = (*_units()[text], end + 1)
    if found and cut.word(at) == "in" and found[2] == at + 1 and not cut.tokens[at].glued:
        return None if cut.word(at + 1) in _NOT_INCHES else found
    return found


def _amount(cut: _Cut, at: int) -> _Amount | None:
    """A number with its unit, if it has one; "a" counts only before a whole unit."""
    number = read_number(cut.tokens, at)
    if number is None:
        return None
    after = number.end
    if cut.word(after) == "-" and cut.tokens[after].glued:
        after += 1
    while number.is_part and cut.word(after) in ("of", "a", "an"):
        after += 1
    unit = _unit_at(cut, after)
    if cut.word(at) in ("a", "an") and number.end == at + 1:
        if unit is None or cut.word(after) not in _WHOLE_UNITS or unit[0] == "flow":
            return None
    if unit is None:
        return _Amount(number.end, "part" if _is_part(cut, at, number) else "number", None, number)
    return _Amount(_with_smaller(cut, unit[2], unit[1]), unit[0], unit[1], number)


def _is_part(cut: _Cut, at: int, number: Number) -> bool:
    """Half, a third, two thirds, 1/4: a part of a whole; 0.25 is a number."""
    return number.is_part and (cut.tokens[at].kind == "word" or number.end > at + 1)


def _with_smaller(cut: _Cut, at: int, unit: Unit) -> int:
    """4 ft 2 in, a foot and a half."""
    after = at + 1 if cut.word(at) in ("and", "&") else at
    number = read_number(cut.tokens, after)
    if number is None or unit not in ("foot", "m", "year", "hour"):
        return at
    smaller = _unit_at(cut, number.end)
    pairs = {("foot", "inch"), ("m", "cm"), ("year", "month"), ("hour", "minute")}
    if smaller is not None and (unit, smaller[1]) in pairs and cut.word(after) != "a":
        return smaller[2]
    if smaller is None and after > at and number.is_part:
        return number.end
    return at


def _range(cut: _Cut, at: int, first: _Amount) -> tuple[int, _Amount] | None:
    """6-7 in, 65F to 78F, between 18 and 27 °C: where it ends, and its second amount."""
    mark = cut.word(first.end)
    between = cut.word(at - 1) == "between"
    if mark not in ("-", "to", "or") and not (mark == "and" and between):
        return None
    second = _amount(cut, first.end + 1)
    if second is None or second.number.value <= first.number.value:
        return None
    if first.unit is not None and second.unit != first.unit:
        return None
    close = second.number.value <= _CLOSE * first.number.value
    if mark == "or" and not close and second.number.value - first.number.value != 1:
        return None
    return second.end, second


def _listed(cut: _Cut, at: int, first: _Amount) -> tuple[int, tuple[Side, ...]] | None:
    """Several lengths with one unit at the end: 3, 4 and 5 inches."""
    ends, amounts, here = [at], [first], first
    while here.unit is None and len(amounts) < 8:
        after = here.end
        while cut.word(after) in (",", "and", "&"):
            after += 1
        following = _amount(cut, after) if after > here.end else None
        if following is None:
            return None
        ends.append(after)
        amounts.append(following)
        here = following
    if here.kind != "length" or len(amounts) < 2 or cut.word(ends[-1] - 1) not in ("and", "&"):
        return None
    unit_text = cut.said(here.number.end, here.end)
    return here.end, tuple(
        Side(
            f"{cut.said(start, one.number.end)} {unit_text}".replace(" -", " "),
            float(one.number.value),
            here.unit,
            "",
        )
        for start, one in zip(ends, amounts, strict=True)
    )


def _size(cut: _Cut, at: int) -> tuple[int, tuple[Side, ...]] | None:
    """36 x 18 x 16 in, 48"L x 18"W x 20"H: two or three sides."""
    sides: list[Side] = []
    here = at
    while len(sides) < 4:
        amount = _amount(cut, here)
        if amount is None or amount.kind not in ("length", "number"):
            return None
        said, end = cut.said(here, amount.end), amount.end
        label = _LABELS.get(cut.word(end), "")
        end += bool(label)
        sides.append(Side(said, float(amount.number.value), amount.unit, label))
        if cut.word(end) not in _TIMES:
            return (end, tuple(sides)) if 2 <= len(sides) <= 3 else None
        here = end + 1
    return None


def _after_hedge(cut: _Cut, end: int) -> int:
    for phrase in _AFTER:
        if tuple(cut.word(end + step) for step in range(len(phrase))) == phrase:
            return end + len(phrase)
    return end


def _before_hedge(cut: _Cut, at: int, limit: int) -> int:
    """Where the hedge in front of an amount starts."""
    for phrase in _BEFORE:
        start = at - len(phrase)
        if start >= limit and tuple(cut.word(here) for here in range(start, at)) == phrase:
            return start
    return at


def _part_at(cut: _Cut, at: int) -> tuple[int, Part] | None:
    """The amount that starts here, without a hedge in front."""
    start = cut.spans[at][0]
    size = _size(cut, at)
    if size is not None:
        kind = f"size{len(size[1])}"
        said = cut.said(at, size[0])
        return size[0], Part(
            kind, f"<{kind}>", start, cut.spans[size[0] - 1][1], said, sides=size[1]
        )
    first = _amount(cut, at)
    if first is None:
        return None
    several = _listed(cut, at, first)
    if several is not None:
        end, sides = several
        said = cut.said(at, end)
        return end, Part("lengths", "<lengths>", start, cut.spans[end - 1][1], said, sides=sides)
    end, last = _range(cut, at, first) or (first.end, first)
    ends = _two_ends(cut, at, first, last) if last is not first else ()
    end = _after_hedge(cut, end)
    value, said = float(first.number.value), cut.said(at, end)
    stop = cut.spans[end - 1][1]
    return end, Part(last.kind, f"<{last.kind}>", start, stop, said, value, last.unit, ends)


def _two_ends(cut: _Cut, at: int, first: _Amount, last: _Amount) -> tuple[Side, ...]:
    """Both ends of a range, each with the unit."""
    second = first.end + 1
    unit = cut.said(last.number.end, last.end) if last.end > last.number.end else ""
    low = cut.said(at, first.end) if first.unit else f"{cut.said(at, first.end)} {unit}".strip()
    return (
        Side(low, float(first.number.value), last.unit, ""),
        Side(cut.said(second, last.end), float(last.number.value), last.unit, ""),
    )


def _starts_amount(token: Token) -> bool:
    return token.kind == "number" or token.kind == "word" or token.text in ("~", "/")


def read_parts(text: str) -> list[Part]:
    """The text as parts, in order; amounts take in the hedges around them."""
    return list(_parts(_Cut(text)))


def _parts(cut: _Cut) -> Iterator[Part]:
    waiting: list[tuple[int, Part]] = []
    at = 0
    while at < len(cut.tokens):
        token, (start, end) = cut.tokens[at], cut.spans[at]
        found = _part_at(cut, at) if _starts_amount(token) else None
        if found is None:
            waiting.append((at, Part(token.kind, token.text, start, end)))
            at += 1
            continue
        limit = at - next((n for n, (_, p) in enumerate(reversed(waiting)) if p.said), len(waiting))
        opened = _before_hedge(cut, at, limit)
        if opened == at and found[1].sides and limit < at and " and " in found[1].said:
            opened -= cut.word(at - 1) == "between" and found[1].kind != "lengths"
        waiting = [pair for pair in waiting if pair[0] < opened]
        at, part = found
        if opened < found[0] and cut.spans[opened][0] < part.start:
            begin = cut.spans[opened][0]
            hedge = " ".join(cut.text[begin : part.start].split())
            part = replace(part, start=begin, said=f"{hedge} {part.said}")
        yield from (waited for _, waited in waiting)
        waiting = []
        yield part
    yield from (waited for _, waited in waiting)
