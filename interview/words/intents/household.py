"""Who is at home, as it is told where that is asked: a 4 year old, all adults, my mum who is 71."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from enum import Enum
from itertools import takewhile

from interview.words.intents.ages import UNITS, ages_in, is_decade, said_of_people, words_of
from interview.words.intents.of_whom import is_a_turtle
from interview.words.lexicon.files import known_words, meant_by
from interview.words.mentions.parts import Part, read_parts

__all__ = ["at_risk_at_home", "tells_of_age_at_risk"]

_CHILD, _ELDER = 5.0, 65.0
_CHILDREN = {"baby", "babies", "newborn", "infant", "toddler", "toddlers"}
"""Who has none of these may be old, or live with somebody who is."""
_PEOPLE = ("ageless", "persons", "weak")
_BUTS = frozenset({"but", "though", "although"})
_CUTS = _BUTS | {",", ";", ".", "!", ":", "(", ")"}
_ARTICLES = frozenset({"a", "an", "one", "my", "our"})
_VERBS = {"is", "s", "are", "has", "have", "lives", "live", "stays", "visits", "comes"}
_OF_US = [[who, has] for who in ("we", "i", "there") for has in ("have", "had", "is", "are", "s")]
"""Who tells of the house, and no more of who lives there."""
_LEADS = re.compile(
    r"(?:(?P<yes>yes|yeah|yep|yup|yea|aye|y)|(?P<no>no|nope|nah|n|not really|dont think so))\b"
    r"(?! (?:idea|clue|way|<number>|little|elderly|under|over|babies|toddlers?|kids?|child|"
    r"children|pensioners?))"
)


class _Told(Enum):
    """What a clause tells."""

    AT_RISK = 1
    NOBODY_AT_RISK = 2
    OPEN = 3
    """It hangs on an age that isn't told."""


def at_risk_at_home(text: str) -> bool | None:
    """Whether somebody under 5, of 65 or more, pregnant or weakened is told of.

    None where the words leave it open, ask, or tell of more than people.
    """
    parts = [part for part in read_parts(text) if part.text != "-"]
    if not parts or text.rstrip().endswith("?") or _is_of_more(parts):
        return None
    told = set(_told(parts))
    lead = _LEADS.match(words_of(part for part in parts if part.kind != "mark"))
    if _Told.AT_RISK in told:
        return True
    if lead and lead["no"]:
        but = any(part.text in _BUTS for part in parts)
        return None if but and _Told.OPEN in told else False  # no, but granny stays here
    if lead:
        return True if told != {_Told.NOBODY_AT_RISK} else None
    return False if told == {_Told.NOBODY_AT_RISK} else None


def tells_of_age_at_risk(text: str) -> bool:
    """Whether a line, whatever was asked, tells of a relative's age under 5 or of 65 or more."""
    parts = [part for part in read_parts(text) if part.text != "-"]
    return any(
        said_of_people("ageless").search(words := words_of(clause))
        and not said_of_people("turtles").search(words)
        and _of_clause(clause, True) is _Told.AT_RISK
        for clause in _clauses(parts)
    )


def _is_of_more(parts: Sequence[Part]) -> bool:
    """Whether the tank is told of too, which is a story."""
    things = meant_by("things")
    amounts = (part for part in parts if part.unit is not None and not is_decade(part))
    of_size = (part.unit not in UNITS for part in amounts)
    return any(of_size) or any(part.text in things for part in parts)


def _told(parts: Sequence[Part]) -> Iterator[_Told]:
    """What each clause tells."""
    of_people = False
    for clause in _clauses(parts):
        words = words_of(clause)
        of_people |= any(said_of_people(name).search(words) for name in _PEOPLE)
        if told := _of_clause(clause, of_people):
            yield told


def _clauses(parts: Sequence[Part]) -> list[list[Part]]:
    """The clauses, without those of people who live elsewhere."""
    clauses: list[list[Part]] = [[]]
    for at, part in enumerate(parts):
        more = part.text == "and" and _opens_another(clauses[-1], parts[at + 1 :])
        if more or part.text in _CUTS:
            clauses.append([])
        else:
            clauses[-1].append(part)
    kept: list[list[Part]] = []
    for clause in filter(None, clauses):
        if said_of_people("away").search(words_of(clause)):
            kept = kept[:-1]
        elif not said_of_people("not_there").search(words_of(clause)):
            kept.append(clause)
    return kept


def _is_denied(parts: Iterable[Part]) -> bool:
    return any(part.text in known_words("denials") for part in parts)


def _opens_another(before: Sequence[Part], rest: Sequence[Part]) -> bool:
    """Whether “and” opens a clause of its own: and my wife is pregnant, and we have no lid.

    Behind a denial “and a …” denies nothing: no job and a newborn, but not “don't have a dog and a
    toddler”.
    """
    own = list(takewhile(lambda part: part.text not in _CUTS, rest))
    if [part.text for part in own[:2]] in _OF_US:
        return True
    if not _is_denied(before) or _is_denied(own):
        return False
    named = own[:1] and (own[0].text in _ARTICLES or own[0].kind == "number")
    has_a = any(part.text == "no" for part in before) and named
    weak = said_of_people("weak").search(words_of(own))
    return any(part.text in _VERBS for part in own) or bool(has_a and weak)


def _of_clause(clause: Sequence[Part], of_people: bool) -> _Told | None:
    words = words_of(clause)
    weak, ageless = said_of_people("weak").search(words), said_of_people("ageless").search(words)
    if weak and is_a_turtle(words, weak.end()):
        weak = None  # our baby is a slider
    ages = list(ages_in(clause, of_people))
    at_risk = [age for age in ages if age < _CHILD or age >= _ELDER]
    if _is_denied(clause):
        bounded = said_of_people("bound").search(words)
        if at_risk and not bounded:
            return _Told.OPEN  # not 5 yet
        settles = set(said_of_people("weak").findall(words)) - _CHILDREN
        spoken = " ".join(f"{part.text} {part.said.casefold()}" for part in clause)
        young, old = (said_of_people(name).search(spoken) for name in ("under", "over"))
        both = (young or ageless) and old  # that there are no kids says nothing of the old
        return _Told.NOBODY_AT_RISK if settles or both else None
    if weak or at_risk:
        return _Told.AT_RISK
    if ages:
        return _Told.NOBODY_AT_RISK
    if ageless:
        return _Told.OPEN
    return _Told.NOBODY_AT_RISK if said_of_people("grown").search(words) else None
