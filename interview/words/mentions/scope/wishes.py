"""What in a sentence is wished, asked, advised, past or of somebody else's tank."""

from __future__ import annotations

import re
from itertools import islice, takewhile

from interview.words.lexicon.files import known_words
from interview.words.lexicon.rules import said_as
from interview.words.mentions.scope.no_wishes import is_no_wish
from interview.words.mentions.scope.words import Words

__all__ = ["words_off"]

_CLAUSE = 5
"""Words in which a clause says that it states something."""
_WHICH = frozenset({"what", "how", "which", "where", "whether", "if"})


def words_off(
    said: Words, wishes: re.Pattern[str], before: Words | None, off_before: frozenset[int]
) -> frozenset[int]:
    """The words near a wish, a question, advice, the past or somebody else's tank.

    `before` is the sentence before, if there is one, and `off_before` what is so there if this one
    only goes on with it.
    """
    if not known_words("dismissed").isdisjoint(said.known):
        return frozenset(range(len(said.words)))
    off: set[int] = set()
    people = said.spots(said_as("somebody")) if before is not None else ()
    for at, _, _ in (*said.spots(said_as("others")), *people):
        off.update(range(at, _revival(said, at + 1)))
    for at, end, match in said.spots(wishes):
        if not is_no_wish(said, at, end):
            off.update(_reach(said, at, end, match.group().strip()))
    if said.word(0) in ("was", "were") and said.word(1)[:1] == "<":  # was: two heaters
        off.update(range(_revival(said, 1)))
    if before is not None and len(before.words) - 1 in off_before:
        off.update(range(_revival(said, 1)))
    if said.asked:
        off.update(range(_opened(said, _question(said)), len(said.words)))
    return frozenset(off)


def _reach(said: Words, first: int, end: int, wish: str) -> range:
    """The words a wish covers: its clause, and what follows without a statement of its own."""
    opened = first if wish in known_words("wished_ahead") else _opened(said, first)
    while opened and wish in known_words("gone") and _lacks_subject(said, opened, first):
        opened = _opened(said, opened)
    return range(opened, _revival(said, end))


def _lacks_subject(said: Words, opened: int, first: int) -> bool:
    """Whether nobody is named in a clause whose subject stands before it: …, 18 cm, died."""
    owned = said.words[opened:first]
    return said.words[opened] == "," and {"my", "our", "the", "one"}.isdisjoint(owned)


def _opened(said: Words, first: int) -> int:
    opens = {",", *known_words("revive")}
    found = (at for at in range(first) if said.words[at] in opens or _wonders_behind(said, at))
    return max(found, default=0)


def _wonders_behind(said: Words, at: int) -> bool:
    """Whether “and don't know what”, which asks nothing of what stands before it, begins here."""
    if said.words[at] not in ("and", "but", "so"):
        return False
    behind = said.words[at + 1 : at + _CLAUSE + 1]
    return not (_WHICH.isdisjoint(behind) or known_words("wondered").isdisjoint(behind))


def _revival(said: Words, first: int) -> int:
    """Where "but" or "now", or a clause that states something, takes up what is again."""
    if said.asked:
        return len(said.words)
    words = range(first, len(said.words))
    return next((at for at in words if _begins_clause(said, at)), len(said.words))


def _begins_clause(said: Words, at: int) -> bool:
    """Whether a statement of its own begins behind this word, about something else."""
    if said.words[at] in known_words("revive"):
        return True
    if said.words[at] not in known_words("breaths"):
        return False
    goes_on = known_words("taken_up_by") if said.words[at] != "but" else frozenset()
    if said.word(at + 1) in goes_on | known_words("breaths"):
        return False
    clause = takewhile(lambda word: word not in known_words("breaths"), said.words[at + 1 :])
    return any(map(_states, islice(clause, _CLAUSE)))


def _question(said: Words) -> int:
    opens = [0] + [at + 1 for at, word in enumerate(said.words) if word in (",", "and", "but")]
    return next((at for at in opens if said.word(at) in known_words("asks")), 0)


def _states(word: str) -> bool:
    """Whether a word makes what stands before a wish a statement of its own."""
    return word in known_words("states") or word.startswith("<size")
