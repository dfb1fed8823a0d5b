"""Earlier answers told otherwise: only 45 high; the musk is more like 11; we can't tell the RCD."""

from __future__ import annotations

import re

from interview.chat.hearing.agreed.told_before import OF_ANY, not_told_yet
from interview.chat.hearing.asked_instead import asks
from interview.chat.hearing.changes import SIDES, as_size, changes_in, in_full, number_now
from interview.chat.hearing.in_context import length_unit
from interview.chat.hearing.references import matches
from interview.chat.hearing.told.elsewhere import topics_in
from interview.chat.hearing.turtles.known_turtles import told_of
from interview.graph.interview import Interview, Place
from interview.words.amounts.quantity import read_quantity, reads
from interview.words.amounts.reading import Reading
from interview.words.intents.contrast import asserted
from interview.words.lexicon.files import known_words
from interview.words.lexicon.rules import any_named, said_as
from interview.words.mentions.clauses import whole_clause
from interview.words.mentions.parts import read_parts
from interview.words.text.tokens import plain_words

__all__ = ["corrections_in", "names_sides"]

_UNKNOWN = "not sure"
_CLAUSES = re.compile(r"[,;.]\s+(?:(?:and|but|oh|then)\s+)*|\s+and\s+", re.IGNORECASE)
_KIND = "species"
_LIKE = re.compile(r"^(?:more )?like ")
_SIDED = re.compile(r"\d[\d.,]*(?: ?[a-z]{2,6})? (?:long|wide|high|tall)\b.*", re.IGNORECASE)
_NUMBER = re.compile(r"\d[\d.,]*")


def corrections_in(
    interview: Interview, line: str, *, adds: bool = False
) -> list[tuple[Place, str]]:
    """The answers that a line tells otherwise, and how; clause by clause where it tells several.

    Args:
        interview: the answers so far
        line: what was typed
        adds: whether what has no answer yet is told so, too
    """
    if asks(line):
        return []
    sided = _is_plain(asserted(line))
    clauses = (_corrected(interview, one, adds=adds, sided=sided) for one in _CLAUSES.split(line))
    each = dict(filter(None, clauses))
    whole = None if len(each) > 1 else _corrected(interview, line, adds=adds, sided=sided)
    return [whole] if whole else [*each.items()]


def names_sides(line: str) -> bool:
    """Whether a line tells how long, wide or high something is."""
    return _SIDED.search(line) is not None


def _corrected(
    interview: Interview, line: str, *, adds: bool, sided: bool
) -> tuple[Place, str] | None:
    """The one answer that a clause tells; `sided`: a side of nothing named is the tank's."""
    meant = asserted(line)
    if all(part.said for part in read_parts(meant)):
        return None  # of a bare amount nobody knows that it is of an earlier answer
    found = _unsure_of(interview, line) or _told(interview, line) or _told(interview, meant)
    if _is_plain(meant):
        in_units = _with_units(interview, _of_the_tank(meant) if sided else meant)
        if topics_in(in_units):
            found = found or _near(interview, _told(interview, in_units))
        found = _sides_of(interview, in_units) or found or _number_of(interview, meant)
    elif found and interview.question(found[0]).parts and names_sides(meant):
        found = None  # sides may be another tank's
    place, said = found or (None, "")
    said = _LIKE.sub("about ", said)
    held = interview.answers.get(place) if place else None
    if place is None or not (held or adds) or not interview.takes(place, said):
        return None
    is_news = held is None or held.value != interview.try_answer(place, said).value
    return (place, said) if is_news else None


def _near(interview: Interview, found: tuple[Place, str] | None) -> tuple[Place, str] | None:
    """What was found by a unit that nobody told, unless it is far from what stands there."""
    held = number_now(interview, found[0]) if found else None
    now = interview.try_answer(*found).value if found and held and interview.takes(*found) else None
    far = isinstance(now, Reading) and held and not 0.5 <= now.best / held <= 2
    return None if far else found


def _is_plain(text: str) -> bool:
    """Whether words say no more than what something is: the musk is more like 11."""
    words = f" {plain_words(text)} "
    little = known_words("asked_instead", "plainly")
    left = any_named("things", "topics").sub("", words).split()
    else_ = known_words("pronouns") | known_words("in_context", "past")  # she is 6: years, perhaps
    return else_.isdisjoint(words.split()) and all(
        word in little or word[0].isdigit() for word in left
    )


def _told(interview: Interview, text: str) -> tuple[Place, str] | None:
    """The one answer that a text tells for sure, as a change or as a story does."""
    named = OF_ANY | ({_KIND} if _NUMBER.search(text) else set())  # beside an amount: whose it is
    changes = changes_in(interview, text)
    told = [(one.place, one.told) for one in changes if one.told and one.told.id not in named]
    if len(told) == 1 and told[0][0] and not told[0][1].way:
        return told[0][0], told[0][1].said
    story = not_told_yet(interview, told_of(interview, text, None)[0])
    news = [row for row in story.answers if row[0].id not in named and row[0] not in story.heard]
    return news[0] if len(news) == 1 and not told else None


def _of_the_tank(text: str) -> str:
    """The text, of the tank where a side is told of nothing: make that 45 high."""
    sided = _SIDED.search(text)
    return f"the tank is {sided[0]}" if sided and not topics_in(text) - {"tank"} else text


def _sides_of(interview: Interview, text: str) -> tuple[Place, str] | None:
    """The tank's size, where some of its sides are told, each named behind its amount."""
    question, known = interview.questionnaire.giver["tank_height"], interview.known()
    clause = whole_clause(text)
    if clause is None or "tank" not in clause.words or any(n not in known for n in question.parts):
        return None
    sides = {name: float(known[name]) for name in question.parts}
    told = dict[str, float]()
    for at in clause.amounts:
        said, behind = clause.said.parts[at].said, clause.said.word(at + 1)
        if reads(said, "length", interview.region):
            far = float(read_quantity(said, "length", region=interview.region).best)
            told |= {n: far for n, ways in zip(sides, SIDES, strict=True) if behind in ways}
    return (Place(question.id), as_size(interview, [*(sides | told).values()])) if told else None


def _with_units(interview: Interview, text: str) -> str:
    """The text with the keeper's unit of length behind each bare number."""
    unit, with_unit = length_unit(interview), text
    for part in reversed(read_parts(text) if unit else ()):
        if part.kind == "number" and _NUMBER.search(part.said):
            with_unit = f"{with_unit[: part.end]} {unit}{with_unit[part.end :]}"
    return with_unit


def _number_of(interview: Interview, text: str) -> tuple[Place, str] | None:
    """A bare number beside the name of one answer: summer is up to 30."""
    named = [one for one in changes_in(interview, text) if one.places]
    if len(named) != 1 or named[0].place is None or not named[0].has_bare_number:
        return None
    number = _NUMBER.findall(named[0].clause.text)
    return named[0].place, in_full(interview, named[0].place, number[-1]) if number else ""


def _unsure_of(interview: Interview, line: str) -> tuple[Place, str] | None:
    """The one answer that nobody knows after all, as a line says and nothing else."""
    spoken = f" {plain_words(line)} "
    unsure = said_as("asked_instead", "unsure_of").search(spoken)
    if unsure is None or _NUMBER.search(line):
        return None
    name = spoken[unsure.end() :].split()
    found = matches(interview, " ".join(name))
    if len(found) != 1:
        return None
    question = interview.question(found[0])
    own = {*known_words("asked_instead", "beside_unsure"), *known_words("unsure_edges", "after")}
    for way in (question.short, question.label, *question.trade_names):
        own.update(plain_words(way).split())
    return (found[0], _UNKNOWN) if own.issuperset(name) else None
