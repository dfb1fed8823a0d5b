"""What a clause says as the value of one answer, the words around it aside."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import Any

from interview.words.amounts.reading import Reading
from interview.words.choices.choice import Choice
from interview.words.forms.around import OtherSide
from interview.words.lexicon.files import known_words
from interview.words.mentions.clauses import Clause
from interview.words.text.refusal import NotUnderstood, quoted
from interview.words.text.tokens import plain_words

__all__ = ["Target", "value_in"]


@dataclass(frozen=True)
class Target:
    """What is known of the answer that a clause is held against."""

    kind: str
    """Its type: a dimension, choice, yes_no, size, count."""
    example: str
    read: Callable[[str], Any]
    """What an answer in these words would be; NotUnderstood where it would be none."""
    names: Sequence[str] = ()
    options: Sequence[Choice] = ()


def value_in(clause: Clause, asked: Target, *, fewest: bool = True) -> tuple[str, Any]:
    """The value a clause gives an answer, and the fewest words that say it, where asked for.

    Raises:
        NotUnderstood: when it gives none.
    """
    if asked.kind == "yes_no":
        return _yes_no(clause, asked)
    if asked.kind == "choice":
        return _choice(clause, asked)
    problem: NotUnderstood | None = None
    found: tuple[str, Any] | None = None
    for said, alone in clause.values():
        try:
            value = asked.read(said)
        except OtherSide:
            raise
        except NotUnderstood as refused:
            problem = problem if problem and problem.understood else refused
        else:
            if value is not None and (found is None or _alike(value, found[1])):
                found = said, value
        if found and (alone or not fewest):
            return found
    if found:
        return found
    raise problem or _unsaid(clause, asked)


def _yes_no(clause: Clause, asked: Target) -> tuple[str, Any]:
    """A thing that is only named is there: an rcd, a heater guard."""
    rest = f" {' '.join(clause.words)} "
    for name in sorted(map(plain_words, asked.names), key=len, reverse=True):
        rest = rest.replace(f" {name} ", " ")
    left = [word for word in rest.split() if word not in known_words("changes", "small")]
    said = " ".join(left) or "yes"
    return said, bool(asked.read(said))


def _choice(clause: Clause, asked: Target) -> tuple[str, Any]:
    """The one option that is named whole; a clause with an amount names none."""
    line = f" {' '.join(clause.words)} "
    options: Iterable[Choice] = () if clause.amounts or clause.direction else asked.options
    found = {
        option.name: max(named, key=len)
        for option in options
        if (named := [way for way in option.spellings if f" {way} " in line])
    }
    longest = [name for name, way in found.items() if len(way) == max(map(len, found.values()))]
    if len(longest) != 1:
        raise _unsaid(clause, asked)
    return found[longest[0]], longest[0]


def _alike(one: Any, other: Any) -> bool:
    """Whether two answers mean the same, the words aside."""
    if isinstance(one, Reading) and isinstance(other, Reading):
        return (one.low, one.best, one.high) == (other.low, other.best, other.high)
    return bool(one == other)


def _unsaid(clause: Clause, asked: Target) -> NotUnderstood:
    wrong = f"{quoted(clause.text)} doesn't say how much"
    return NotUnderstood("", wrong, f"a value with it, as {asked.example}")
