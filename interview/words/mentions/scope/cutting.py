"""A story cut into sentences."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from functools import cache, lru_cache

from interview.words.lexicon.files import known_words, meant_by
from interview.words.mentions.parts import Part
from interview.words.mentions.scope.sentence import Sentence

__all__ = ["sentences"]

_ENDS = frozenset({".", "!", "?", "\n", ";"})
_COMMAS = frozenset({",", "(", ")", "|"})
_DROPPED = frozenset({":", "=", '"', "'", "•", "·", ">", "…"})
_SPELLED = {"&": "and", "+": "and", "@": "at", "♂": "male", "♀": "female"}
_WRAPPED = 45
"""Characters; a line break after a longer line than this may be a paste's own wrapping."""
_LED = frozenset({"and", "so", "but", "or", "now"})
"""What may lead up to a question at the end of a sentence."""
_LABEL = 3
"""Words before a question mark that only name what is told next: Tank? Three foot."""
_SHORT = 4
"""Letters of what may be an abbreviation, where sentences begin with capitals."""
_RUN_ON = re.compile(r"[^\W\d_]{5,}\. [a-z]")
_LONGEST = 90
"""Words; nothing further apart is taken to belong together."""


def sentences(text: str, parts: Sequence[Part]) -> list[Sentence]:
    """The story as sentences; line breaks, full stops and bullets part them."""
    found: list[Sentence] = []
    gathered: list[Part] = []
    for at, part in enumerate(parts):
        if part.kind == "mark" and _is_end(text, parts, at, gathered):
            asked = _is_asked(parts, at, gathered)
            told = _told_before_asking(gathered) if asked else 0
            _close(found, gathered[:told], False)
            _close(found, gathered[told:], asked)
            gathered = []
            continue
        word = _word(parts, at, bool(gathered))
        if word and not (word == "," and (not gathered or gathered[-1].text == ",")):
            gathered.append(part if part.text == word else replace(part, text=word))
    _close(found, gathered, False)
    return found


def _is_asked(parts: Sequence[Part], at: int, gathered: Sequence[Part]) -> bool:
    """Whether a sentence ends as a question; “hes like 9cm??” states, unless it begins as one."""
    if parts[at].text != "?":
        return False
    asks = any(part.text in known_words("asks") for part in gathered[:2])
    return asks or at + 1 == len(parts) or parts[at + 1].text != "?"


def _told_before_asking(gathered: Sequence[Part]) -> int:
    """How many words tell, before a question that follows a comma, as “what do we need?”."""
    words = [part.text for part in gathered]
    asks = known_words("asks")
    if not asks.isdisjoint(words[:2]) or known_words("tells_first").isdisjoint(words):
        return 0
    for at in range(len(words) - 1, 0, -1):
        opener = next((word for word in words[at + 1 :] if word not in _LED), "")
        if words[at] == "," and opener in asks - _LED:
            return at if not known_words("tells_first").isdisjoint(words[:at]) else 0
    return 0


def _close(found: list[Sentence], gathered: list[Part], asked: bool) -> None:
    """Add a sentence, cut where it is too long to hang together."""
    start = 0
    while start < len(gathered):
        stop = _cut(gathered, start)
        before = found[-1] if found else None
        parts = tuple(gathered[start:stop])
        found.append(Sentence(parts, asked, before, continued=start > 0))
        start = stop


def _cut(gathered: list[Part], start: int) -> int:
    if len(gathered) - start <= _LONGEST:
        return len(gathered)
    tail = range(start + _LONGEST, start + _LONGEST // 2, -1)
    return next((at for at in tail if gathered[at].text == ","), start + _LONGEST)


def _is_end(text: str, parts: Sequence[Part], at: int, gathered: Sequence[Part]) -> bool:
    mark = parts[at].text
    if mark == "?" and at < len(parts) - 1 and len(gathered) <= _LABEL:
        return not any(part.text in _topics() for part in gathered)
    if mark == "\n":
        return not _is_wrapped(text, parts, at)
    if mark == "." and 0 < at < len(parts) - 1:
        before, after = parts[at - 1], parts[at + 1]
        word = text[before.start : before.end].casefold()
        if len(word) == 1 and before.kind == "word" and text[before.start].isupper():
            return not text[after.start].islower()  # P. does that one
        if word in known_words("abbreviations"):
            return after.text == "\n" or text[after.start].isupper()
        if len(word.rpartition(" ")[2]) <= _SHORT and (text[after.start] == "," or _is_tidy(text)):
            return not (text[after.start] in ",;)" or text[after.start].islower())
        if after.start == parts[at].end:
            return after.kind != "word" or before.kind != "word"
    return mark in _ENDS


@lru_cache(maxsize=4)
def _is_tidy(text: str) -> bool:
    """Whether sentences begin with capitals: a full stop before a small letter ends none."""
    return text.lstrip()[:1].isupper() and not _RUN_ON.search(text)


@cache
def _topics() -> frozenset[str]:
    return frozenset({*meant_by("things"), *meant_by("topics")})


def _is_wrapped(text: str, parts: Sequence[Part], at: int) -> bool:
    """A line break inside a sentence: after a long line, before a small letter or a digit."""
    place = parts[at].start
    line = text[:place].rpartition("\n")[2].rstrip()
    following = text[place + 1 : place + 2]
    return (
        len(line) >= _WRAPPED
        and line[-1] not in ".:;!?"
        and (following.islower() or following.isdigit())
    )


def _is_put_on(parts: Sequence[Part], at: int) -> bool:
    """Whether somebody put on an amount, which is no amount of now."""
    spoken = [part.text for part in parts[at : at + 2]]
    return spoken == ["put", "on"] and any(
        part.kind in ("length", "mass") for part in parts[at + 2 : at + 3]
    )


def _word(parts: Sequence[Part], at: int, inside: bool) -> str:
    """A part's word in its sentence; "" for marks that say nothing."""
    part = parts[at]
    if part.text == "w" and at + 1 < len(parts) and parts[at + 1].text == "/":
        is_change = at + 2 < len(parts) and parts[at + 2].text == "c"
        return "w" if is_change else "with"
    if _is_put_on(parts, at):
        return "gained"
    if at and _is_put_on(parts, at - 1):
        return ""
    if part.kind != "mark":
        return part.text
    mark = part.text
    if mark == "/" and at > 0 and parts[at - 1].text == "w":
        return ""
    if mark in _COMMAS:
        return ","
    if mark == "-":
        glued = at + 1 < len(parts) and parts[at + 1].start == part.end
        glued_before = at > 0 and parts[at - 1].end == part.start
        return "" if (glued and glued_before) or not inside else ","
    return "" if mark in _DROPPED | _ENDS else _SPELLED.get(mark, mark)
