"""What a line leaves in doubt: an answer told so is asked about, never taken."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from interview.graph.interview import Interview, Place
from interview.words.amounts.quantity import read_quantity, reads
from interview.words.intents.changes import Told
from interview.words.lexicon.rules import any_of, said_as
from interview.words.mentions.clauses import Clause

__all__ = ["AS_NEW", "HANGING", "Around", "around", "in_doubt", "is_much_nearer"]

HANGING = ("heat_lamp_height", "uvb_lamp_height")
"""Answers that do harm where they are far too small."""
_ENDS = re.compile(r"[.!?;\n]")
AS_NEW = ("0 h", "0 days")
"""Ages of what is new."""
_NOT_THERE = ("none", "no", "open")
_CAN_BE_CUT_AWAY = {"uvb_path": ("mesh", "glass")}
_OF_THINGS = ("length", "power")
_WISHES = (("plans",), ("plans_of_animals",), ("changes", "wished"))


@dataclass(frozen=True)
class Around:
    """The words of a clause, and of its sentence on either side, with a space on both ends."""

    own: str
    behind: str
    """From the beginning of the sentence to the end of the clause."""
    ahead: str
    """From the clause to the end of the sentence."""
    but: str
    """The clause, with what follows in “but …”."""


def around(clauses: Sequence[Clause], at: int) -> Around:
    """What stands around a clause in its sentence."""
    first, last = at, at
    while first > 0 and _are_of_one(clauses[first - 1], clauses[first]):
        first -= 1
    while last + 1 < len(clauses) and _are_of_one(clauses[last], clauses[last + 1]):
        last += 1
    goes_on = at < last and clauses[at + 1].words[0] == "but"
    return Around(
        _words(clauses[at : at + 1]),
        _words(clauses[first : at + 1]),
        _words(clauses[at : last + 1]),
        _words(clauses[at : at + 1 + goes_on]),
    )


def in_doubt(
    interview: Interview, place: Place, told: Told, said: Around, *, supposed: bool
) -> bool:
    """Whether what is told of an answer may be meant otherwise.

    In a what-if, `supposed`, a wish and a past tense are meant.
    """
    kind, new = interview.question(place).type, told.said if not told.way else ""
    nearer = bool(new) and is_much_nearer(interview, place, new)
    fitted = new == "yes" or new in _CAN_BE_CUT_AWAY.get(place.id, ())
    doubts = (
        _says("not_done", said.but),
        new not in _NOT_THERE and _says("ended_with", said.own),
        fitted and _says("undone", said.own),
        new in _NOT_THERE and _says("for_a_moment", said.ahead),
        new == "none" and place.id == "uvb_lamp_kind" and _says("in_between", said.own),
        new in AS_NEW and (_says("dated", said.own) or _says("long_ago", said.ahead)),
        kind == "length" and _says("sideways", said.own),
        (told.way or kind == "length") and _says("as_another", said.own),
        kind == "length"
        and bool(new)
        and _says("upwards", said.own)
        and (not _says("hangs_up", said.own) or nearer),
        not supposed and any_of(*_WISHES).search(said.behind) is not None,
        not supposed and fitted and _says("once_fitted", said.own),
        not supposed and kind in _OF_THINGS and bool(new) and _says("as_it_was", said.own),
    )
    return any(doubts)


def is_much_nearer(interview: Interview, place: Place, said: str) -> bool:
    """Whether a length told is less than half of what is known."""
    now = interview.known().get(place.id)
    if not isinstance(now, float) or interview.question(place).type != "length":
        return False
    if not reads(said, "length", interview.region):
        return False
    return float(read_quantity(said, "length", region=interview.region).best) < now / 2


def _says(name: str, words: str) -> bool:
    return said_as("changes", name).search(words) is not None


def _are_of_one(clause: Clause, following: Clause) -> bool:
    return _ENDS.search(clause.source[clause.stop : following.start]) is None


def _words(clauses: Sequence[Clause]) -> str:
    return f" {' , '.join(' '.join(clause.words) for clause in clauses)} "
