"""Sentences of a story, and what in them is wished, asked, denied, doubted or taken back."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from functools import cache, cached_property, lru_cache
from itertools import islice, takewhile

from interview.words.lexicon.files import known_words, meant_by
from interview.words.lexicon.rules import corrections, said_as, wishes_but
from interview.words.mentions.parts import Part

__all__ = ["Sentence", "sentences"]

_ENDS = frozenset({".", "!", "?", "\n", ";"})
_COMMAS = frozenset({",", "(", ")", "|"})
_DROPPED = frozenset({":", "=", '"', "'", "•", "·", ">", "…"})
_SPELLED = {"&": "and", "+": "and", "@": "at", "♂": "male", "♀": "female"}
_BEFORE_MONTHS = frozenset({"in", "since", "until", "by", "last", "next", "this", "early", "late"})
_WRAPPED = 45
"""Characters; a line break after a longer line than this may be a paste's own wrapping."""
_LABEL = 3
"""Words before a question mark that only name what is told next: Tank? Three foot."""
_SHORT = 4
"""Letters of what may be an abbreviation, where sentences begin with capitals."""
_RUN_ON = re.compile(r"[^\W\d_]{5,}\. [a-z]")
_SPREAD = 8
_AFTERWARDS = 12
"""Words behind a phrase in which a denial still denies it: a filter that is not running."""
_DOUBTS = 8
"""Words that a maybe doubts behind it in the same breath; before it half as many."""
_CLAUSE = 5
"""Words in which a clause says that it states something."""
_LONGEST = 90
"""Words; nothing further apart is taken to belong together."""


@dataclass(frozen=True)
class Sentence:
    """Parts that say something; each has one word here, an amount's in angle brackets."""

    parts: tuple[Part, ...]
    asked: bool
    before: Sentence | None = field(default=None, repr=False)
    continued: bool = False
    """The sentence was too long and was cut before this."""
    _wished: dict[str, frozenset[int]] = field(
        default_factory=dict, init=False, repr=False, compare=False
    )

    @cached_property
    def words(self) -> tuple[str, ...]:
        """The word of each part."""
        return tuple(part.text for part in self.parts)

    @cached_property
    def line(self) -> str:
        """The words with one space around each."""
        return f" {' '.join(self.words)} "

    @cached_property
    def known(self) -> frozenset[str]:
        """The words, to look up quickly."""
        return frozenset(self.words)

    @cached_property
    def _places(self) -> dict[int, int]:
        places, at = {}, 1
        for number, word in enumerate(self.words):
            places[at] = number
            at += len(word) + 1
        places[at] = len(self.words)
        return places

    def spots(self, pattern: re.Pattern[str]) -> Iterator[tuple[int, int, re.Match[str]]]:
        """First word and end of every match."""
        for match in pattern.finditer(self.line):
            yield self._places[match.start()], self._places[match.end()], match

    def place(self, offset: int) -> int:
        """The number of the word that starts at an offset of the line."""
        return self._places[offset]

    def word(self, at: int) -> str:
        """A word; "" outside the sentence."""
        return self.words[at] if 0 <= at < len(self.words) else ""

    @cached_property
    def breaths(self) -> tuple[int, ...]:
        """The number of the breath each word belongs to."""
        numbers, number = [], 0
        for word in self.words:
            number += word in known_words("breaths") or word in ("no", "without")
            numbers.append(number)
        return tuple(numbers)

    @cached_property
    def _edges(self) -> dict[int, tuple[int, int]]:
        edges: dict[int, tuple[int, int]] = {}
        for at, number in enumerate(self.breaths):
            edges[number] = edges.get(number, (at, at))[0], at + 1
        return edges

    def breath(self, first: int, end: int) -> tuple[int, int]:
        """First word and end of the breaths that words first to end stand in."""
        return self._edges[self.breaths[first]][0], self._edges[self.breaths[end - 1]][1]

    def speaks(self, listed: str, *, but: str) -> bool:
        """Whether a word of one list stands in it, and none of another."""
        return not known_words(listed).isdisjoint(self.known) and known_words(but).isdisjoint(
            self.known
        )

    @cached_property
    def denials(self) -> tuple[int, ...]:
        """Words that deny, and those a denial reaches through a list: no lid, filter or lamp."""
        corrected = {at for first, end, _ in self.spots(corrections()) for at in range(first, end)}
        found = [
            at
            for at, word in enumerate(self.words)
            if word in known_words("denials") and at not in corrected
        ]
        for at in tuple(found):
            found += self._spread(at)
        return tuple(dict.fromkeys(found))

    def _spread(self, at: int) -> list[int]:
        for here in range(at + 1, min(at + 1 + _SPREAD, len(self.words))):
            word = self.words[here]
            if word in ("or", "nor"):
                return list(range(at + 1, here + 2))
            if word.startswith("<") or word in known_words("states") or word in ("a", "an", "the"):
                break
        return []

    def is_denied(self, first: int, end: int) -> bool:
        """Whether something outside these words, but in their breath, denies them."""
        low, high = self.breath(first, end)
        high = min(high, end + _AFTERWARDS)
        return any(low <= at < high and not first <= at < end for at in self.denials)

    def is_doubted(self, first: int, end: int) -> bool:
        """Whether their breath says maybe or I think."""
        low, high = self.breath(first, end)
        reach = range(max(low, first - _DOUBTS), min(high, end + _DOUBTS // 2))
        return any(at in reach for at in self._doubtful)

    @cached_property
    def _doubtful(self) -> tuple[int, ...]:
        doubts, every = known_words("doubts"), enumerate(self.words)
        return tuple(at for at, word in every if word in doubts and not self._is_no_doubt(at))

    def _is_no_doubt(self, at: int) -> bool:
        """Whether this doubts nothing: expecting in May; a girl for sure."""
        if self.words[at] == "sure":
            return self.word(at - 1) in ("for", "im")
        return self.words[at] == "may" and self.word(at - 1) in _BEFORE_MONTHS

    def wished(self, plans: str = "") -> frozenset[int]:
        """The words near a wish, a question, advice, the past or somebody else's tank.

        Of a keeper who plans the tank, planning is no mere wish: `plans` names the list of words
        that aren't then ("plans", of the animals "plans_of_animals").
        """
        if plans not in self._wished:
            before = self.before.wished(plans) if self.continued and self.before else frozenset()
            self._wished[plans] = self._off(wishes_but(plans), before)
        return self._wished[plans]

    def _off(self, wishes: re.Pattern[str], before: frozenset[int]) -> frozenset[int]:
        if not known_words("dismissed").isdisjoint(self.known):
            return frozenset(range(len(self.words)))
        off: set[int] = set()
        people = self.spots(said_as("somebody")) if self.before is not None else ()
        for at, _, _ in (*self.spots(said_as("others")), *people):
            off.update(range(at, self._revival(at + 1)))
        for at, end, match in self.spots(wishes):
            if not (
                self._answers(at) or self._gave(at) or self._came(at, end) or self._wonders(at)
            ):
                off.update(self._reach(at, end, match.group().strip()))
        if self.word(0) in ("was", "were") and self.word(1)[:1] == "<":  # was: two heaters
            off.update(range(self._revival(1)))
        if self.before is not None and len(self.before.words) - 1 in before:
            off.update(range(self._revival(1)))
        if self.asked:
            off.update(range(self._opened(self._question()), len(self.words)))
        return frozenset(off)

    def _reach(self, first: int, end: int, said: str) -> range:
        """The words a wish covers: its clause, and what follows without a statement of its own."""
        opened = first if said in known_words("wished_ahead") else self._opened(first)
        return range(opened, self._revival(end))

    def _opened(self, first: int) -> int:
        opens = {",", *known_words("revive")}
        return max((at for at in range(first) if self.words[at] in opens), default=0)

    def _revival(self, first: int) -> int:
        """Where "but" or "now", or a clause that states something, takes up what is again."""
        if self.asked:
            return len(self.words)
        words = range(first, len(self.words))
        return next((at for at in words if self._begins_clause(at)), len(self.words))

    def _begins_clause(self, at: int) -> bool:
        """Whether a statement of its own begins behind this word, about something else."""
        if self.words[at] in known_words("revive"):
            return True
        if self.words[at] not in known_words("breaths"):
            return False
        goes_on = known_words("taken_up_by") if self.words[at] != "but" else frozenset()
        if self.word(at + 1) in goes_on | known_words("breaths"):
            return False
        clause = takewhile(lambda word: word not in known_words("breaths"), self.words[at + 1 :])
        return any(map(_states, islice(clause, _CLAUSE)))

    def _answers(self, at: int) -> bool:
        """You asked about the heater: it is 200 W."""
        return self.words[at] == "asked" and self.word(at - 1) == "you"

    def _gave(self, at: int) -> bool:
        """Whether this is somebody from whom the animal or the tank was got."""
        words = self.words
        if words[at] not in known_words("givers") or "from" not in words[max(at - 3, 0) : at]:
            return False
        return not known_words("got").isdisjoint(words[:at])

    def _came(self, first: int, end: int) -> bool:
        """Whether something came from there: media from my other tank; a mate gave it to us."""
        if self.word(end) in ("gave", "gifted", "sold") and self.words[first] in known_words(
            "givers"
        ):
            return True
        before = self.words[max(first - 4, 0) : first]
        if self.words[first] in known_words("giver_owns"):
            return not {"from", "off", "of", "on"}.isdisjoint(before)
        return self.words[end - 1] == "tank" and "from" in before[-2:]

    def _wonders(self, at: int) -> bool:
        """No clue if it's a boy; Norwich, if that helps: nothing is wished for."""
        if self.words[at] != "if":
            return False
        aside = not known_words("asides_with_if").isdisjoint(self.words[at + 1 : at + 5])
        return aside or self.word(at - 1) in known_words("wondered")

    def _question(self) -> int:
        opens = [0] + [at + 1 for at, word in enumerate(self.words) if word in (",", "and", "but")]
        return next((at for at in opens if self.word(at) in known_words("asks")), 0)

    @cached_property
    def corrections(self) -> tuple[int, ...]:
        """Where the keeper takes back what was just said: no wait, sorry."""
        return tuple(first for first, _, _ in self.spots(corrections()))


def _states(word: str) -> bool:
    """Whether a word makes what stands before a wish a statement of its own."""
    return word in known_words("states") or word.startswith("<size")


def sentences(text: str, parts: Sequence[Part]) -> list[Sentence]:
    """The story as sentences; line breaks, full stops and bullets part them."""
    found: list[Sentence] = []
    gathered: list[Part] = []
    for at, part in enumerate(parts):
        if part.kind == "mark" and _is_end(text, parts, at, gathered):
            _close(found, gathered, _is_asked(parts, at, gathered))
            gathered = []
            continue
        word = _word(parts, at, bool(gathered))
        if word and not (word == "," and (not gathered or gathered[-1].text == ",")):
            gathered.append(replace(part, text=word))
    _close(found, gathered, False)
    return found


def _is_asked(parts: Sequence[Part], at: int, gathered: Sequence[Part]) -> bool:
    """Whether a sentence ends as a question; “hes like 9cm??” states, unless it begins as one."""
    if parts[at].text != "?":
        return False
    asks = any(part.text in known_words("asks") for part in gathered[:2])
    return asks or at + 1 == len(parts) or parts[at + 1].text != "?"


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


def _word(parts: Sequence[Part], at: int, inside: bool) -> str:
    """A part's word in its sentence; "" for marks that say nothing."""
    part = parts[at]
    if part.text == "w" and at + 1 < len(parts) and parts[at + 1].text == "/":
        is_change = at + 2 < len(parts) and parts[at + 2].text == "c"
        return "w" if is_change else "with"
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
