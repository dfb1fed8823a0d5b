"""What a line says is to become of which answers: told outright, or so much more or less.

What was, what is and how far something moved are told apart; then facts are taken as of a story,
without its reserve about wishes: who asks “what if” or tells of a change means what it says.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import partial

from interview.words.choices.choice import Choice
from interview.words.forms.size import Sizes
from interview.words.lexicon.files import changes, known_words, meant_by
from interview.words.lexicon.rules import NO_QUESTION
from interview.words.mentions.attributes import facts_in, of_a_turtle
from interview.words.mentions.being import whose
from interview.words.mentions.nearby.nearest import nearest_in
from interview.words.mentions.negation import Found
from interview.words.mentions.parts import read_parts
from interview.words.mentions.scope.cutting import sentences
from interview.words.mentions.scope.sentence import Sentence
from interview.words.mentions.shared_scale import with_shared_scale
from interview.words.mentions.tank_size import with_trade_names
from interview.words.mentions.turtles.kinds import KIND, with_kinds

__all__ = ["Read", "Told", "told_in"]

_list = partial(known_words, "changes")
_MORE = re.compile(r"\b(more|extra|additional) (watts?|inch(?:es)?|cm|degrees|grams|hours?|gph)\b")
"""Fifty more watts, which is 50 watts more."""
_BY = re.compile(
    r"\b((?:low|high|long|short|wid|near|clos|deep|warm|cool)er|up|down), by\b", re.IGNORECASE
)
"""The lamp lower, by 3 cm: how far is told behind a comma."""
_OTHER = "<else>"
"""In place of an amount that tells how something was, or how far it moved."""
_NONE = "none"
_ITS_AMOUNT = {"filter_count": "filter_rated_flow", "heater_count": "heater_power"}
_OF_A_TURTLE = {"<length>": "carapace_length", "<mass>": "mass", "<duration>": "age"}
_FAR = 4
"""Words behind an amount that may say which way it moved something."""


@dataclass(frozen=True)
class Told:
    """What a line says of one answer."""

    id: str
    said: str
    """The new answer, as it would be typed; how far it moved, where `way` isn't 0."""
    start: int
    stop: int
    way: int = 0
    """0 for a new answer, 1 for so much more, -1 for so much less."""
    word: str = ""
    """The word that says which way, as longer or wider."""
    form: str = ""
    """by where that can't be where it is instead; apart for an amount behind a comma."""


@dataclass(frozen=True)
class Read:
    """All that a line tells, and where amounts stand that nothing was made of."""

    told: tuple[Told, ...]
    left: tuple[int, ...]


def told_in(text: str, *, region: str, species: Sequence[Choice], sizes: Sizes) -> Read:
    """What a line tells; the arguments are those of a story."""
    line = _BY.sub(r"\1 by", _MORE.sub(r"\2 \1", text.replace(": ", ", ")))
    parts = with_trade_names(with_shared_scale(read_parts(line)), sizes)
    told: list[Told] = []
    left: list[int] = []
    for sentence in with_kinds(list(map(_as_it_is, sentences(line, parts))), species):
        was = _was(sentence)
        here = list(_told(sentence, was, sizes, region))
        left += (
            part.start
            for at, part in enumerate(sentence.parts)
            if part.said
            and part.text != KIND  # whose it is, not what it is now
            and at not in was
            and part.said not in _list("lone_numbers")
            and not any(one.start <= part.start < one.stop for one in here)
        )
        told += here
    return Read(tuple(told), tuple(left))


def _as_it_is(sentence: Sentence) -> Sentence:
    """In the present, as a what-if tells how it would be; from 20 to 25 cm as 25 cm."""
    now, opened = changes().now, 0
    while sentence.word(opened) in _list("opens"):
        opened += 1
    parts = [replace(part, text=now.get(part.text, part.text)) for part in sentence.parts[opened:]]
    for at, part in enumerate(parts[1:], start=1):
        if len(part.sides) == 2 and parts[at - 1].text == "from" and part.kind[:4] != "size":
            end = part.sides[1]
            parts[at - 1] = replace(parts[at - 1], text="to")
            parts[at] = replace(part, said=end.said, value=end.value, sides=())
    return replace(sentence, parts=tuple(parts), asked=False, before=None)


def _told(sentence: Sentence, was: frozenset[int], sizes: Sizes, region: str) -> Iterator[Told]:
    amounts = {at for at, part in enumerate(sentence.parts) if part.said}
    ways = {at: way for at in amounts - was if (way := _way(sentence, at))}

    def near(now: Sentence, name: str) -> list[Found]:
        return list(nearest_in(now, was, was, sizes, region, name))

    added = near(sentence, "added")
    of_new = {_ITS_AMOUNT[one.id] for one in added if one.id in _ITS_AMOUNT}
    for one in near(_masked(sentence, amounts - ways.keys()), "moved"):
        if one.id in of_new:
            continue  # a second filter, 800 l/h: the first moves what it did
        at = next(n for n in range(one.first, one.end) if n in ways)
        word, form = ways[at]
        said = sentence.parts[at].said
        yield Told(one.id, said, one.start, one.stop, _sign(word), word, form)
    for one in added:
        yield Told(one.id, one.said, one.start, one.stop, 1)
    own = {at: name for at in amounts - was - ways.keys() if (name := _of_the_turtle(sentence, at))}
    for at, name in own.items():
        part = sentence.parts[at]
        yield Told(name, part.said, part.start, part.end)
    was |= own.keys()
    still = _masked(sentence, (was | ways.keys()) & amounts)
    found, old = near(still, "told"), was
    was = was.union(_gone(sentence), *(range(one.first, one.end) for one in found)) - amounts
    was |= {at for at in amounts if any(_made_of(one, at) for one in found)}
    found = [one for one in found if one.id != NO_QUESTION]
    found = _with(found, facts_in(still, was, sizes, region))
    found = _with(found, facts_in(still, was, sizes, region, of="turtle"))
    taken = frozenset(at for at in amounts if any(_made_of(one, at) for one in found))
    found = _with(found, nearest_in(still, was, taken | old, sizes, region))
    new = {one.id for one in found if one.said != _NONE}
    for one in dict.fromkeys(found):
        if one.said != _NONE or one.id not in new:  # the dock went for another one
            yield Told(one.id, one.said, one.start, one.stop)


def _of_the_turtle(sentence: Sentence, at: int) -> str:
    """The question that an amount answers which is told as a turtle's own: he is 11 cm now."""
    name, part = _OF_A_TURTLE.get(sentence.word(at), ""), sentence.parts[at]
    if not name or part.sides or whose(sentence, at) not in ("turtle", "name"):
        return ""
    if any(map(_is_a_person, sentence.words[:at])):  # my son says she is 5 years old
        return ""
    return name if of_a_turtle(name, part.value, part.unit) else ""


def _is_a_person(word: str) -> bool:
    return meant_by("topics").get(word) == "people" and word not in ("i", "im")


def _made_of(found: Found, at: int) -> bool:
    return found.first <= at < found.end and found.sentence.parts[at].said in found.said


def _with(found: list[Found], more: Iterable[Found]) -> list[Found]:
    """With what is told of other answers; the first that tells of one is believed."""
    known = {one.id for one in found if one.said != _NONE}
    return found + [one for one in more if one.id not in known]


def _masked(sentence: Sentence, hidden: Collection[int]) -> Sentence:
    """The sentence with some amounts as words that no phrase asks for."""
    parts = (
        replace(part, text=_OTHER, kind="else") if at in hidden else part
        for at, part in enumerate(sentence.parts)
    )
    return replace(sentence, parts=tuple(parts))


def _was(sentence: Sentence) -> frozenset[int]:
    """The words that tell how it was: swapped *the 75 W bulb* for a 50; *from 20* to 25 cm."""
    found: set[int] = set()
    words = sentence.words
    for at, word in enumerate(words):
        closed = sentence.breath(at, at + 1)[1]
        if word in _list("traded"):
            ways = (n for n in range(at + 1, len(words)) if words[n] in _list("traded_for"))
            found.update(range(at + 1, next(ways, at + 1)))
        elif word == "from" and "to" in words[at:closed]:
            found.update(range(at + 1, words.index("to", at)))
        elif word in _list("ended"):
            found.update(range(sentence.breath(at, at + 1)[0], at))
        elif word in ("not", "than") or (word == "of" and words[at - 1] in _list("instead")):
            found.update(range(at + 1, closed))
    return frozenset(found)


def _gone(sentence: Sentence) -> Iterator[int]:
    """What was taken out: how it was, too, to all but the rows that tell so."""
    gone = False
    for at, word in enumerate(sentence.words):
        gone = (gone or word in _list("gone")) and word not in known_words("breaths") | {"and"}
        if gone:
            yield at


def _way(sentence: Sentence, at: int) -> tuple[str, str] | None:
    """The word by which an amount is more or less, and its form; None where it says how it is."""
    words = sentence.words
    low, high = sentence.breath(at, at + 1)
    between = _list("between")
    is_goal = words[at - 1 : at] == ("to",) or sentence.parts[at].kind != "length"
    of_what = (word for word in words[at + 1 : high] if word == "water" or word not in between)
    if not is_goal and next(of_what, "") == "water":
        spoken = {*words[low:high]}
        before = (
            words[sentence.breath(low - 1, low)[0] : low] if words[low] == "with" and low else ()
        )
        if any(_sign(word) > 0 for word in before):
            return "more", "by"  # topped up with 2 cm of water
        lets_out = not spoken.isdisjoint(_list("let_out"))
        if lets_out or not spoken.isdisjoint(_list("let_in")):
            is_less = lets_out or not spoken.isdisjoint(_list("outward"))
            return ("less" if is_less else "more"), "by"
    behind = next((word for word in words[at + 1 : high][:_FAR] if word not in between), "")
    led = next((word for word in reversed(words[low:at]) if word not in _list("leads")), ",")
    moves = not _list("moves").isdisjoint(words[low:at])
    if _sign(behind) and (moves or behind not in _list("upward")):
        led_by = next((word for word in words[low:at] if _sign(word)), "")
        return (behind if behind not in _list("further") else led_by or behind), "by"
    if behind in _list("measured") or led in _list("at") or (led == "," and behind):
        return None
    opened = sentence.breath(low - 1, low)[0] if led == "," and low else low
    word = next((word for word in reversed(words[opened:at]) if _sign(word)), "")
    if led == "," and word in _list("compared"):
        return None
    form = "by" if led == "by" or word in _list("only_by") else "apart" if led == "," else ""
    return (word, form) if word else None


def _sign(word: str) -> int:
    return (word in _list("more")) - (word in _list("less"))
