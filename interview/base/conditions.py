"""Small declarative conditions on names: `platform_kind is floating`, `ph at most 8.5`.

Used by the questions (relevant, constraint) and by the audit's checks. A condition
is parsed once and never evaluated as code. Three-valued: a name nobody has answered
makes its term unknown (None). What people name in their own spelling is asked for by
`live_plants names any of ivy, calla`: in the plural and beside other words too.
"""

from __future__ import annotations

import operator
import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from functools import cache
from typing import Any, Self

__all__ = ["Condition", "ConditionError", "Lookup", "Predicate"]

Lookup = Callable[[str], Any]
"""Gives a name's value (core units, str, bool, tuple), or None when nobody knows it."""

_COMPARE = ("at least", "at most", "above", "below")
_TERM = re.compile(
    r"^(?P<name>[a-z_]\w*) "
    r"(?:(?P<given>is given|is not given)"
    r"|is any of (?P<any>.+)|is none of (?P<none>.+)"
    r"|names any of (?P<named>.+)|names none of (?P<unnamed>.+)"
    r"|(?P<has>includes) (?P<item>\w+)"
    r"|is not (?P<isnt>\w+)|is (?P<is>\w+)"
    r"|(?P<compare>at least|at most|above|below) (?P<bound>.+)"
    r"|from (?P<low>.+?) to (?P<high>.+))$"
)
_WORDED = {
    **{"any": "is", "none": "is not", "is": "is", "isnt": "is not"},
    **{"named": "names", "unnamed": "names none"},
}
"""What a group of the pattern that holds words means."""
_NUMBER = re.compile(r"^(-?\d+(?:\.\d+)?(?:e-?\d+)?)\s*(.*)$")


_AS = "write it as “platform_kind is floating” or “ph from 6.5 to 8.5”"


class ConditionError(ValueError):
    """A condition that can't be read; the message quotes it."""


@dataclass(frozen=True)
class _Bound:
    """A number with its unit, or a name to look up."""

    name: str = ""
    number: float = 0.0
    unit: str = ""

    @classmethod
    def read(cls, text: str) -> _Bound:
        text = text.strip()
        if found := _NUMBER.match(text):
            return cls(number=float(found[1]), unit=found[2].strip() or "1")
        if re.fullmatch(r"[a-z_]\w*", text):
            return cls(name=text)
        raise ConditionError(f"“{text}” is neither a name nor a number with a unit; {_AS}")

    def value(self, lookup: Lookup, unit: str) -> Any:
        if self.name:
            return lookup(self.name)
        if self.unit in (unit, "1"):
            return self.number
        return _converted(self.number, self.unit, unit)


@cache
def _converted(number: float, unit: str, wanted: str) -> float:
    from interview.base import units  # here, so that reading the questions needs no pint

    return units.convert(number, unit, wanted)


@dataclass(frozen=True)
class _Term:
    """One comparison: what `name` must be."""

    name: str
    verb: str
    words: tuple[str, ...] = ()
    bounds: tuple[_Bound, ...] = ()

    @classmethod
    def read(cls, text: str) -> _Term:
        found = _TERM.match(text.strip())
        if not found:
            raise ConditionError(f"can't read the condition “{text.strip()}”; {_AS}")
        name = found["name"]
        if found["given"]:
            return cls(name, found["given"])
        if found["compare"]:
            return cls(name, found["compare"], bounds=(_Bound.read(found["bound"]),))
        if found["low"]:
            bounds = (_Bound.read(found["low"]), _Bound.read(found["high"]))
            return cls(name, "from", bounds=bounds)
        for group, verb in _WORDED.items():
            if found[group]:
                return cls(name, verb, tuple(word.strip() for word in found[group].split(",")))
        return cls(name, "includes", (found["item"],))

    @property
    def names(self) -> frozenset[str]:
        return frozenset({self.name, *(bound.name for bound in self.bounds if bound.name)})

    @property
    def compared(self) -> tuple[tuple[str, str], ...]:
        """Each (name, name of its bound) whose numbers are compared; a bare number has no name."""
        return tuple((self.name, bound.name) for bound in self.bounds)

    def each(self, lookup: Lookup, unit_of: Callable[[str], str]) -> Any:
        """Whether the term holds: yes or no, for every draw where there are draws, or None."""
        value = lookup(self.name)
        if self.verb in ("is given", "is not given"):
            return (value is not None) == (self.verb == "is given")
        if value is None or (_many(value) and None in value):
            return None
        if self.verb == "includes":
            return self.words[0] in value
        if self.verb in ("names", "names none"):
            return _named(value, self.words) == (self.verb == "names")
        if self.words:
            return _among(value, self.words) == (self.verb == "is")
        bounds = [bound.value(lookup, unit_of(self.name)) for bound in self.bounds]
        if any(bound is None for bound in bounds):
            return None
        return _compare(value, self.verb, bounds)


def _many(value: Any) -> bool:
    return isinstance(value, tuple | list | frozenset | set)


def _among(value: Any, words: tuple[str, ...]) -> bool:
    """Whether a choice (or any of several) is one of the words; yes/no answers as words."""
    if _many(value):
        return bool(set(value) & set(words))
    return ("yes" if value is True else "no" if value is False else value) in words


def _named(names: Iterable[str], words: tuple[str, ...]) -> bool:
    """Whether a name in somebody's own spelling holds one of these names."""
    return any(_spelled(words).search(name.replace("’", "'")) for name in names)


@cache
def _spelled(words: tuple[str, ...]) -> re.Pattern[str]:
    """Each name in the singular or the plural, its words apart or joined, others beside it."""
    names = ("[ -]?".join(map(_one_or_many, name.split())) for name in words)
    return re.compile(rf"\b(?:{'|'.join(names)})\b")


def _one_or_many(word: str) -> str:
    stem = re.escape(word.removesuffix("y"))
    return f"{stem}(?:y|ies)" if word.endswith("y") else f"{stem}(?:e?s)?"


def _compare(value: Any, verb: str, bounds: list[Any]) -> Any:
    """Hold a number, or draws of one, against bounds; a tuple of numbers must keep them all."""
    if _many(value):
        return all(_compare(item, verb, bounds) for item in value)
    held = _HOLDS[verb](value, *bounds)
    return bool(held) if getattr(held, "ndim", 0) == 0 else held


_HOLDS: dict[str, Callable[..., Any]] = {
    "at least": operator.ge,
    "at most": operator.le,
    "above": operator.gt,
    "below": operator.lt,
    "from": lambda value, low, high: (value >= low) & (value <= high),
}


class Condition:
    """All clauses must hold; a clause holds when any of its terms does."""

    __slots__ = ("clauses", "text")

    def __init__(self, clauses: tuple[tuple[_Term, ...], ...], text: str = "") -> None:
        """Keep the terms of each clause, and the sentences they were read from."""
        self.clauses, self.text = clauses, text

    @classmethod
    def read(cls, source: object, subject: str = "") -> Self:
        """Parse one sentence or a list of them; `subject` is put in front where it is left out."""
        sentences = list(source) if isinstance(source, list | tuple) else [source]
        clauses: list[tuple[_Term, ...]] = []
        for sentence in sentences:
            if not isinstance(sentence, str):
                raise ConditionError(f"a condition is a sentence, not “{sentence}”; {_AS}")
            for clause in sentence.split(" and "):
                terms = clause.split(" or ")
                clauses.append(tuple(_Term.read(_with_subject(t.strip(), subject)) for t in terms))
        return cls(tuple(clauses), "; ".join(map(str, sentences)))

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Condition) and self.clauses == other.clauses

    def __hash__(self) -> int:
        return hash(self.clauses)

    def __repr__(self) -> str:
        return f"{type(self).__name__}({self.text!r})"

    def limits(self) -> Iterable[tuple[str, str]]:
        """Each (name, unit) of a number that the name is held against."""
        for clause in self.clauses:
            for term in clause:
                yield from ((term.name, bound.unit) for bound in term.bounds if not bound.name)

    @property
    def names(self) -> frozenset[str]:
        """Every name the condition mentions."""
        return frozenset().union(*(term.names for clause in self.clauses for term in clause))

    @property
    def compared(self) -> tuple[tuple[str, str], ...]:
        """Each (name, name of its bound) whose numbers are compared; a bare number has no name."""
        return tuple(pair for clause in self.clauses for term in clause for pair in term.compared)

    def words(self) -> Iterable[tuple[str, str]]:
        """Each (name, word) the condition compares, for checking against the choices."""
        for clause in self.clauses:
            for term in clause:
                for word in term.words:
                    yield term.name, word

    def denied(self) -> Iterable[tuple[str, tuple[str, ...]]]:
        """Each (name, words) of a term that holds for every word but these."""
        for clause in self.clauses:
            yield from ((term.name, term.words) for term in clause if term.verb == "is not")

    def holds(self, lookup: Lookup, unit_of: Callable[[str], str] = lambda _: "1") -> bool | None:
        """True, False, or None when what is known does not decide it."""
        verdict = self.each(lookup, unit_of)
        if verdict is None:
            return None
        return bool(verdict.all() if hasattr(verdict, "all") else verdict)

    def each(self, lookup: Lookup, unit_of: Callable[[str], str] = lambda _: "1") -> Any:
        """As `holds`, but draw by draw where a value is a cloud of draws.

        A clause that holds nowhere decides: the names of those after it are not looked up.
        """
        whole: Any = True
        for clause in self.clauses:
            verdict = _any(term.each(lookup, unit_of) for term in clause)
            if verdict is False or (hasattr(verdict, "any") and not verdict.any()):
                return False
            whole = None if whole is None or verdict is None else whole & verdict
        return whole

    def over(self, lookup: Lookup, unit_of: Callable[[str], str] = lambda _: "1") -> Any:
        """Where it holds for sure, draw by draw; what nobody knows does not hold."""
        verdict = self.each(lookup, unit_of)
        return False if verdict is None else verdict

    def unknown(self, lookup: Lookup) -> tuple[str, ...]:
        """The names nobody has given a value, in alphabetical order."""
        return tuple(sorted(name for name in self.names if lookup(name) is None))


class Predicate(Condition):
    """A condition whose subject may be left out: `at least 3 cm`; `about` puts it in."""

    __slots__ = ()

    @classmethod
    def read(cls, source: object, subject: str = "") -> Self:
        """Parse as `Condition.read` does, with the subject open where none is given."""
        return super().read(source, subject or _IT)

    @property
    def names(self) -> frozenset[str]:
        """Every name the condition mentions, but for an open subject."""
        return super().names - {_IT}

    def about(self, subject: str) -> Condition:
        """The condition on `subject`."""
        told = tuple(
            tuple(replace(t, name=subject) if t.name == _IT else t for t in clause)
            for clause in self.clauses
        )
        return Condition(told, self.text)


_IT = "it"
"""What stands for a subject that is still open; no quantity is called so."""


def _any(verdicts: Iterable[Any]) -> Any:
    """Whether one of several holds; an unknown one leaves open what the others don't settle.

    Of draws, those count in which one is known to hold. After one that holds none is asked for.
    """
    whole: Any = False
    unknown = False
    for verdict in verdicts:
        if verdict is True:
            return True
        if verdict is None:
            unknown = True
        else:
            whole = whole | verdict
    settled = not unknown or (hasattr(whole, "any") and whole.any())
    return whole if settled else None


def _with_subject(text: str, subject: str) -> str:
    starts = (*_COMPARE, "from ", "is ", "names ", "includes ")
    return f"{subject} {text}" if subject and text.startswith(starts) else text
