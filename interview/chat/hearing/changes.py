"""What a line says is to become of which answers: one reader for what-if, recheck and change.

A clause tells a new answer or a move, names an answer alone, or several that it may be about.
"""

from __future__ import annotations

import math
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from interview.chat.hearing.in_context import in_context, with_only_unit
from interview.chat.hearing.in_doubt import Around, around, in_doubt
from interview.chat.hearing.references import matches, names_of
from interview.chat.hearing.turtles.called import Turtles, each_as_mine, last_called, places_of
from interview.chat.hearing.turtles.told_anew import told_anew
from interview.graph.answers import understand
from interview.graph.interview import AnswerRefused, Interview, Place
from interview.graph.questions import DIMENSIONS
from interview.words.amounts.format import say
from interview.words.amounts.numbers import read_number
from interview.words.amounts.quantity import read_quantity, reads
from interview.words.amounts.reading import Reading
from interview.words.forms.around import OtherSide
from interview.words.intents.changes import Read, Told, told_in
from interview.words.intents.reference import names_in
from interview.words.mentions.clauses import Clause, clauses_in
from interview.words.text.refusal import NotUnderstood
from interview.words.text.tokens import tokenise

__all__ = [
    "FALLING", "SIDES", "Change", "LeftAt", "as_size", "changes_in", "in_full", "left_at",
    "number_at", "number_now", "spoken", "step_of",
]  # fmt: skip

FALLING = ("water_line_below_rim",)
"""Answers that grow when the thing is lower; what carries others along moves first."""
_STEPS = {"temperature": "temperature_difference", "lit_time": "duration"}
_SPOKEN = {
    "duration": ("duration", "day"),
    "lit_time": ("duration", "hour"),
    "length": ("length", "cm"),
    "flow": ("flow", "L/hour"),
    "mass": ("mass", "g"),
    "volume": ("volume", "L"),
}
"""How a figure is read and in which unit it is told, where the core's own is not spoken."""
_FIGURES = re.compile(r"\d+\.\d+")
SIDES = (
    ("long", "longer", "shorter"),
    ("wide", "wider", "narrower"),
    ("high", "higher", "tall", "taller"),
)
_NEVER_BY_NAME = ("count", "names", "choices")
_LABELS = ("choice", "yes/no")
_STAGE = "stage"
_LONG_NAME = 3
"""Words of a name that nobody says of something else."""
_LEAST_F = 50
"""No tank is as warm in degrees Celsius."""
_ONLY_UNIT = {"concentration": "mg/L"}
_DENIED = "Say how it would be, not how it would not be."


@dataclass(frozen=True)
class Change:
    """What a clause says of one answer; of several or of none where it doesn't say of which."""

    clause: Clause
    places: tuple[Place, ...]
    told: Told | None = None
    """None where it only names them."""
    problem: str = ""
    """Why what it says can't be taken, where it says anything."""

    @property
    def place(self) -> Place | None:
        """The one answer it is about."""
        return self.places[0] if len(self.places) == 1 else None

    @property
    def has_bare_number(self) -> bool:
        """Whether its clause tells one amount, and that without a unit."""
        return [self.clause.words[at] for at in self.clause.amounts] == ["<number>"]


def changes_in(interview: Interview, line: str, *, supposed: bool = False) -> list[Change]:
    """What a line says, clause by clause; the water first, which carries others along.

    In a what-if, `supposed`, wishes are meant as they are said.
    """
    as_mine, turtles = each_as_mine(interview, line)
    read = _read(interview, as_mine)
    if turtles and not any(interview.question(Place(one.id)).repeat for one in read.told):
        read, as_mine, turtles = _read(interview, line), line, {}
    facts = _relevant(interview, read.told)
    changes: list[Change] = []
    clauses = clauses_in(as_mine)
    for at, clause in enumerate(clauses):
        if clause.is_of_others:
            changes.append(Change(clause, ()))
            continue
        here = [told for told in facts if clause.start <= told.start < clause.stop]
        if full := _full_name(interview, clause, here):
            changes += (_if_sure(interview, one, around(clauses, at), supposed) for one in full)
            continue
        every = [
            one
            for told in here
            for places in places_of(interview, clause, told, turtles)
            if (one := _told_of(interview, clause, told, places))
        ]
        found = [one for one in every if not _is_so(interview, one)]
        left = any(clause.start <= at < clause.stop for at in read.left)
        if not found or left:
            named = (_of_called(one, turtles) for one in _by_name(interview, clause))
            more = [one for one in named if not _is_so(interview, one)]
            found += more if left or not every or any(one.told for one in more) else every
        if "both" in clause.words and len(found) == 1:
            found = [replace(found[0], told=None)]  # the other one is named before
        found = [_if_sure(interview, one, around(clauses, at), supposed) for one in found]
        changes += (one for one in found if not _is_known(one, changes))
    told = [change for change in changes if change.told]
    about = {place for change in told for place in change.places}
    rest = [one for one in changes if not one.told and _is_open(one, about)]
    if told:
        telling = (one for one in rest if one.places or one.clause.amounts)
        rest = [one for one in telling if not one.clause.says("aside")]
    told_now = () if supposed else told_anew(interview, line)
    if anew := [Change(clause, (at,), one) for clause, at, one in told_now if at not in about]:
        told += anew
        rest = [one for one in rest if any(at.animal is None for at in one.places)]
    return sorted([*told, *rest], key=lambda one: not one.place or one.place.id not in FALLING)


def _read(interview: Interview, line: str) -> Read:
    species, sizes = interview.lists.options["species"], interview.lists.sizes["tank_size"]
    return told_in(line, region=interview.region, species=species, sizes=sizes)


def _relevant(interview: Interview, told: Sequence[Told]) -> list[Told]:
    """What matters once all of it is so: how deep the sand is, where sand was put in."""
    known = dict(interview.known())
    for one in told:
        question = interview.questionnaire.by_id[one.id]
        if question.type == "choice" and not question.repeat:
            known[one.id] = understand(question, one.said, interview.lists, "").value
    rules = {one.id: interview.questionnaire.by_id[one.id].relevant for one in told}
    return [
        one
        for one in told
        if (rule := rules[one.id]) is None or rule.holds(known.get, interview.unit_of) is not False
    ]


def _if_sure(interview: Interview, change: Change, said: Around, supposed: bool) -> Change:
    """A change, which only names its answers where it is in doubt."""
    told = change.told
    if told is None or not change.places:
        return change
    doubted = in_doubt(interview, change.places[0], told, said, supposed=supposed)
    return replace(change, told=None) if doubted else change


def _is_open(change: Change, about: set[Place]) -> bool:
    """Whether a clause that only names answers asks for more than the line tells of them."""
    return bool(change.clause.amounts) or about.isdisjoint(change.places)


def _is_known(change: Change, found: Sequence[Change]) -> bool:
    return bool(change.places) and any(
        change.places == one.places and (change.told is None or one.told) for one in found
    )


def _is_so(interview: Interview, change: Change) -> bool:
    """Whether a fact is as it was already."""
    told, place = change.told, change.place
    now = interview.answers.get(place) if place else None
    if place is None or told is None or told.way or now is None:
        return False
    question, region = interview.question(place), interview.region
    return now.value == understand(question, told.said, interview.lists, region).value


def _told_of(
    interview: Interview, clause: Clause, told: Told, places: tuple[Place, ...]
) -> Change | None:
    """A fact that is told as a change of one of some answers; None where it can't be one."""
    question = interview.question(Place(told.id))
    if question.parts:
        told = _whole_size(interview, clause, told)
    if not places or (question.parts and told.way):
        return Change(clause, places)  # no turtle is counted yet; which side is bigger isn't said
    if told.id == _STAGE and interview.known().get(_STAGE) == "living":
        return None  # a tank that is lived in is not planned again
    if told.way:
        return Change(clause, places, told)
    told = replace(told, said=in_full(interview, places[0], told.said))
    try:
        interview.try_answer(places[0], told.said)
    except NotUnderstood:
        return Change(clause, places)
    except AnswerRefused as refused:
        return Change(clause, places, None, refused.alert)
    return Change(clause, places, told)


def _of_called(change: Change, turtles: Mapping[int, Turtles]) -> Change:
    """A change that only names its answers, of turtles that are called in its clause alone."""
    called = last_called(turtles, change.clause, change.clause.stop)
    places = tuple(at for at in change.places if at.animal is None or at.animal in called)
    return replace(change, places=places) if places and not change.told else change


def in_full(interview: Interview, place: Place, said: str) -> str:
    """An answer as it would be typed in full: half full, 50 for 50 W, 96 for 96 F."""
    kind, tokens = interview.question(place).type, tokenise(said)
    number = read_number(tokens)
    bare = f"{float(number.value):g}" if number and number.end == len(tokens) else ""
    if bare and kind == "temperature":
        return f"{bare} F" if float(bare) >= _LEAST_F else f"{bare} C"
    if bare and kind in _ONLY_UNIT:
        return f"{bare} {_ONLY_UNIT[kind]}"
    said = bare or said
    return with_only_unit(interview, place, said) or in_context(interview, place, said) or said


def _whole_size(interview: Interview, clause: Clause, told: Told) -> Told:
    """One side told, as it is or by how much it grew, as the size of all sides."""
    question, known = interview.question(Place(told.id)), interview.known()
    sides = [known[name] for name in question.parts if name in known]
    spoken_of = {told.word, *clause.words}
    of_all = len(sides) if told.way else 0
    side = next((n for n, words in enumerate(SIDES) if not spoken_of.isdisjoint(words)), of_all)
    one_side = told.way or reads(told.said, "length", interview.region)
    if not one_side or len(sides) < len(question.parts) or side >= len(sides):
        return told
    far = float(read_quantity(told.said, "length", region=interview.region).best)
    sides[side] = far if not told.way else sides[side] + told.way * far
    return replace(told, said=as_size(interview, sides), way=0)


def as_size(interview: Interview, sides: Sequence[float]) -> str:
    """All sides of a tank [m] as they would be typed."""
    unit, size = ("in", 0.0254) if interview.system in ("us", "uk_inches") else ("cm", 0.01)
    return " x ".join(f"{round(one / size, 1):g}" for one in sides) + f" {unit}"


def _by_name(interview: Interview, clause: Clause) -> list[Change]:
    """What a clause says of an answer that it names, in front of what it shall be."""
    if clause.is_denied:
        return [Change(clause, (), None, _DENIED)]
    told_as = () if clause.is_gone or clause.direction else clause.named_and_said()
    for name, said in told_as:
        fit = []
        for place in matches(interview, name):
            question = interview.question(place)
            if question.type in _NEVER_BY_NAME or (question.unit in _LABELS and clause.amounts):
                continue  # the number of something else, or of a choice
            full = in_context(interview, place, said) or said
            try:
                understand(question, full, interview.lists, interview.region)
            except OtherSide as refused:
                return [Change(clause, (place,), None, str(refused))]
            except NotUnderstood:
                continue
            else:
                told = Told(place.id, full, clause.start, clause.stop)
                fit.append(Change(clause, (place,), told))
        if fit:
            return fit if len(fit) == 1 else [Change(clause, tuple(one.places[0] for one in fit))]
    return [Change(clause, tuple(matches(interview, clause)))]


def _full_name(interview: Interview, clause: Clause, here: Sequence[Told]) -> list[Change]:
    """What is said of an answer called by its full name, where the facts tell of others."""
    of_tank = {question.id for question in interview.questionnaire.of_tank}
    names = [one for one in names_of(interview.questionnaire) if one.id in of_tank]
    name = next(iter(names_in(names, clause)), "")
    length = len(interview.questionnaire.by_id[name].short.split()) if name else 0
    if length < _LONG_NAME - 1 or any(told.id == name for told in here):
        return []
    said = [one for one in _by_name(interview, clause) if one.told and one.places[0].id == name]
    return said or ([Change(clause, (Place(name),))] if length >= _LONG_NAME else [])


# ------------------------------------------------------------------ where it leaves an answer


@dataclass(frozen=True)
class LeftAt:
    """Where a change leaves an answer, as it would be typed; both where it can mean both."""

    amount: str = ""
    """The amount told, in the keeper's words."""
    at: str = ""
    by: str = ""

    @property
    def is_open(self) -> bool:
        """Whether it can be where it is now, and how far it was moved."""
        return bool(self.at and self.by)


def number_now(interview: Interview, place: Place) -> float | None:
    """What was answered at a place, or follows from answers, where that is a number."""
    held = interview.answers.get(place)
    if held and isinstance(held.value, Reading):
        return held.value.best
    return None if place.animal is not None else number_at(interview.known(), place)


def number_at(known: Mapping[str, Any], place: Place) -> float | None:
    """What is known at a place, where that is a number."""
    value = known.get(place.id)
    if isinstance(value, tuple) and place.animal is not None and place.animal < len(value):
        value = value[place.animal]
    return value if isinstance(value, float) else None


def step_of(interview: Interview, change: Change) -> float:
    """How far a change moves an answer, in the core's unit: less than 0 where it is less."""
    told, place = change.told, change.places[0]
    if told is None or not told.way:
        return 0.0
    kind = interview.question(place).type
    kind = _STEPS.get(kind, kind)
    said = told.said
    if kind == "temperature_difference" and not reads(said, kind, interview.region):
        said = f"{said} {'F' if interview.system == 'us' else 'C'}"  # two degrees
    far = float(read_quantity(said, kind, region=interview.region).best)
    of_itself = told.word in ("less", "more") and "below" in change.clause.text
    return far * (-told.way if place.id in FALLING and not of_itself else told.way)


def left_at(interview: Interview, change: Change, now: float | None) -> LeftAt:
    """Where a change leaves its answer: told outright, or moved from where it was.

    A bare amount tells where it is; how far it moved is said with “by”, “5 cm higher” or
    “raised it 5 cm”. A move that would leave less than half of a distance is never taken alone.
    """
    told, place = change.told, change.places[0]
    if told is None:
        return LeftAt()
    at = told.said if interview.takes(place, told.said) else ""
    if now is None or interview.question(place).type not in (*DIMENSIONS, "count"):
        return LeftAt(told.said, at="" if told.way else at)
    answer = interview.try_answer(place, at).value if at else None
    then = answer.best if isinstance(answer, Reading) else now
    try:
        step = step_of(interview, change)
    except NotUnderstood:
        return LeftAt(told.said, at=at)
    if not step:
        moved = change.clause.is_moved and then < now / 2
        return LeftAt(told.said, at="" if moved else at)
    if then == now or (then > now) != (step > 0):
        at = ""
    by = spoken(interview, place, now + step) if now + step > 0 else ""
    by = by if by and interview.takes(place, by) else ""
    return _weighed(told, LeftAt(told.said, at, by), (now + step) / now if now > 0 else 1.0)


def _weighed(told: Told, left: LeftAt, share: float) -> LeftAt:
    """The readings of a move that can be meant, by how it is said and what would be left."""
    risky = not 0.5 <= share <= 1.5
    if told.form == "by":
        return replace(left, at=left.at if risky and left.by else "")
    if told.form == "apart":
        return replace(left, by="" if risky and left.at else left.by)
    return left if risky else replace(left, at="" if left.by else left.at)


def spoken(interview: Interview, place: Place, value: float) -> str:
    """A worked out value as a keeper would type it."""
    question = interview.question(place)
    spoken_as = "lit_time" if question.clock else question.type
    kind, unit = _SPOKEN.get(spoken_as, (question.type, question.unit))
    exact = float(value)
    said = say(Reading(exact, exact, exact, "", unit), kind, interview.system)
    return _FIGURES.sub(_three_digits, said)


def _three_digits(number: re.Match[str]) -> str:
    """A figure that nobody would type, in three digits or whole."""
    value = float(number[0])
    return f"{round(value, max(0, 2 - math.floor(math.log10(value)))):g}" if value else "0"
