"""What the keeper said and what it was taken to mean; files keep only the former."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from functools import lru_cache
from math import isclose
from typing import Literal, TypeAlias

from interview.base.rows.lines import printable
from interview.graph.examples import example_in
from interview.graph.questions import Question
from interview.words.amounts.quantity import apart, read_quantity
from interview.words.amounts.reading import Reading
from interview.words.amounts.spellings import label
from interview.words.choices.absence import is_absent, is_bare_denial, is_unsure
from interview.words.choices.choice import (
    Choice,
    read_choice,
    read_choices,
    read_names,
    read_yes_no,
)
from interview.words.choices.echo import echo, echo_yes_no
from interview.words.forms.around import one_side, without
from interview.words.forms.clock import hours_by_clock
from interview.words.forms.lit_hours import lit_hours
from interview.words.forms.size import Sizes, read_size
from interview.words.spans.plainly import plain_rhythm, plain_size
from interview.words.text.refusal import NotUnderstood, quoted
from interview.words.text.tokens import plain_words

__all__ = ["Answer", "How", "Lists", "Value", "understand"]

How: TypeAlias = Literal["measured", "estimated", "assumed", "decided"]
Value: TypeAlias = Reading | tuple[Reading, ...] | str | bool | tuple[str, ...] | None

_BY_NUMBER = re.compile(r"\d+(?:[\s,;&]+\d+)*")
"""A choice by its place in the list: its name is kept, since places change."""
_CALENDAR = ("day", "week", "month", "year")
_LIT_SHARE = 0.5  # 12 h a day, the usual day of these tanks
_NINETY_FIVE = 1.645  # standard normal 95 % point: low and high are 5 % and 95 % points


_MOST_MONTHS = 60
"""That a lamp is in use, where a bare number is given back with units to choose from."""
_WIDTH_OF = {"temperature": "temperature_difference", "lit_time": "duration"}
_LONGEST = 300
_KEPT = 2000
"""Answers that are not read again: of a told line each is asked for several times."""


@dataclass(frozen=True, eq=False)
class Lists:
    """What the care data adds to the questions: species to choose from, trade names of tanks."""

    options: Mapping[str, tuple[Choice, ...]] = field(default_factory=dict)
    sizes: Mapping[str, Sizes] = field(default_factory=dict)

    def options_of(self, question: Question) -> tuple[Choice, ...]:
        """What can be chosen at a question: its own choices, or those the care data adds."""
        return question.choices or self.options.get(question.id, ())


@dataclass(frozen=True)
class Answer:
    """One answer: the words, the value in core units, how it was got, what was guessed."""

    said: str
    value: Value
    how: How = "measured"
    understood: str = ""

    @property
    def chosen(self) -> str:
        """The name of the choice, “yes” and “no” among them; of no use where none was offered."""
        return (
            {True: "yes", False: "no"}[self.value]
            if isinstance(self.value, bool)
            else str(self.value)
        )


@lru_cache(_KEPT)
def understand(
    question: Question,
    text: str,
    lists: Lists,
    region: str,
    system: str = "",
    *,
    guess: bool = True,
) -> Answer:
    """Read what was typed at a question; NotUnderstood says what to type instead.

    Args:
        question: where it was typed
        text: the words
        lists: what the care data adds to the choices
        region: decides gallons and decimal marks
        system: the units the examples of a refusal are in; "" shows every form
        guess: whether a size without a unit may be taken in the region's; what was taken then
            stands among the words, so that a file never has to guess again
    """
    said = " ".join(printable(" ".join(text.split())).split())
    if len(said) > _LONGEST:
        wrong = f"That is {len(said)} characters, too long for one answer"
        raise NotUnderstood("", wrong, question.example or "a few words")
    if is_unsure(said) and not _is_a_choice(question, said):
        return _assumed(question, said, lists, region)
    try:
        if question.type == "size":
            return _size(question, said, lists, region, guess=guess)
        value, understood = _value(question, said, lists, region)
        if question.unit == "choice" and _BY_NUMBER.fullmatch(said):
            names = value if isinstance(value, tuple) else (value,)
            said = ", ".join(map(str, names)) or "none"
    except NotUnderstood as problem:
        raise _with_example(problem, question, system) from None
    return Answer(said, value, _how(value), understood)


def _size(question: Question, said: str, lists: Lists, region: str, *, guess: bool) -> Answer:
    """A size of several sides; a unit that had to be guessed is written behind it.

    Words that with it read otherwise are refused: the file could not keep them.
    """
    names = lists.sizes.get(question.id, {})
    parts = len(question.parts)
    try:
        told = sides = _sides(said, parts, region, names, guess=False)
    except NotUnderstood:
        if not guess:
            raise
        told = _sides(said, parts, region, names, guess=True)
        said = f"{said} {label(told[0].unit)}"
        sides = _sides(said, parts, region, names, guess=False)
        if not all(isclose(a.best, b.best) for a, b in zip(sides, told, strict=True)):
            raise
    understood = next((side.understood for side in told if side.understood), "")
    return Answer(said, sides, _how(sides), understood)


def _sides(said: str, parts: int, region: str, names: Sizes, *, guess: bool) -> tuple[Reading, ...]:
    """The sides of a size, also where it is told more loosely than sizes are written."""
    try:
        return read_size(said, parts, region=region, names=names, guess=guess)
    except NotUnderstood:
        plain = plain_size(said, parts, names)
        if not plain:
            raise
        first, *others = read_size(plain, parts, region=region, names=names, guess=guess)
    first = replace(first, understood=first.understood or f"I took {quoted(said)} as {plain}.")
    return first, *others


def _is_a_choice(question: Question, said: str) -> bool:
    """Whether the words are one of the choices themselves, as “unknown” may be."""
    return any(said.casefold() in (o.name, o.label.casefold()) for o in question.choices)


def _with_example(problem: NotUnderstood, question: Question, system: str) -> NotUnderstood:
    """The form of the question's own example, unless the words already tell how to mend it.

    An example never reads as the answer to give, so a count names no number of its own.
    """
    shown = example_in(question, system)
    only, general, _ = problem.example.rpartition("for example")
    general = general or "one number" * problem.example.startswith("one number")
    if not (question.example and general) or question.unit in ("choice", "yes/no"):
        return problem
    if only:
        return NotUnderstood(problem.understood, problem.wrong, only.rstrip(" ,or"))
    form = f"it like this: {shown}"
    if question.type == "count":
        form = "a whole number: 1, 2, 3 and so on"
    return NotUnderstood(problem.understood, problem.wrong, form)


def _value(question: Question, said: str, lists: Lists, region: str) -> tuple[Value, str]:
    kind = question.type
    if kind in ("choice", "choices"):
        options = lists.options_of(question)
        if kind == "choice":
            option = read_choice(said, options)
            return option.name, echo(said, [option])
        chosen = read_choices(said, options)
        return tuple(option.name for option in chosen), echo(said, chosen)
    if kind == "yes_no":
        absent = _absent(question, said)
        yes = read_yes_no(said) if absent is None else absent
        return yes, echo_yes_no(said, yes)
    if kind == "names":
        return tuple(name.casefold() for name in read_names(said)), ""
    if question.absent.ask and _denies(said, question.absent.things):
        raise NotUnderstood(quoted(said), "that can mean two things", question.absent.ask)
    reading = _quantity(question, said, region)
    return _lit(reading) if kind == "lit_time" else (reading, reading.understood)


def _quantity(question: Question, said: str, region: str) -> Reading:
    """The reading of an amount, without what may stand around it at this question."""
    kind = "duration" if question.type == "lit_time" else question.type
    hours = hours_by_clock(said) if question.clock else None
    if hours is not None:
        lit = hours * 3600
        return Reading(lit, lit, lit, said, "hour", f"I took {quoted(said)} as {hours:g} hours.")
    if question.type == "lit_time" and (by_day := lit_hours(said, region)):
        return by_day
    alone = without(said, question.around)
    alone = one_side(alone, question.around) if question.type == "length" else alone
    alone = apart(alone, kind, question.beside, region) if question.beside else alone
    try:
        reading = read_quantity(alone, kind, region=region)
    except NotUnderstood:
        plain = plain_rhythm(said, question.id) or plain_rhythm(said, question.type)
        if question.type == "lit_time" and alone.isdecimal():
            longer = "months" if int(alone) <= _MOST_MONTHS else "days"
            either_way = f"{quoted(f'{alone} hours')} or {quoted(f'{alone} {longer}')}"
            raise NotUnderstood(quoted(said), "it has no unit", either_way) from None
        if alone == said and not plain:
            raise
        reading = read_quantity(plain or said, kind, region=region)
        if plain:
            taken = f"I took {quoted(said)} as {plain}."
            reading = replace(reading, understood=reading.understood or taken)
    return replace(reading, said=said)


def _denies(said: str, things: tuple[str, ...]) -> bool:
    return is_absent(said, things) or plain_words(said) == "no"


def _absent(question: Question, said: str) -> bool | None:
    """Yes or no where the words say that there is none of what is asked about; None elsewhere."""
    absent = question.absent
    if not is_absent(said, absent.things):
        return None
    if absent.means and not (absent.ask and is_bare_denial(said)):
        return absent.means == "yes"
    if absent.ask:
        raise NotUnderstood(quoted(said), "that can mean two things", absent.ask)
    raise NotUnderstood("", f"I can't read {quoted(said)} as yes or no", '"yes" or "no"')


def _lit(reading: Reading) -> tuple[Value, str]:
    """Hours are lit hours; days, weeks, months and years are the calendar's, half of them lit."""
    if reading.unit not in _CALENDAR:
        return reading, reading.understood
    share = _LIT_SHARE
    lit = replace(
        reading, low=reading.low * share, best=reading.best * share, high=reading.high * share
    )
    hours = lit.best / 3600
    if hours == 0:
        return lit, ""
    return lit, f"At 12 hours a day I count that as {hours:.0f} hours lit."


def _how(value: Value) -> How:
    readings = value if isinstance(value, tuple) else (value,)
    wide = any(isinstance(r, Reading) and r.low != r.high for r in readings)
    return "estimated" if wide else "measured"


def _assumed(question: Question, said: str, lists: Lists, region: str) -> Answer:
    """The question's own honest guess; a guess that is a quantity's name is left to the core."""
    unsure = question.unsure
    if not unsure.assume or re.fullmatch(r"[a-z]+(_[a-z]+)+", unsure.assume):
        is_word = unsure.assume in {option.name for option in question.choices}
        return Answer(said, unsure.assume if is_word else None, "assumed")
    value, _ = _value(question, unsure.assume, lists, region)
    if unsure.give_or_take and isinstance(value, Reading):
        value = _widened(value, unsure.give_or_take, question.type, region)
    return Answer(said, value, "assumed")


def _widened(reading: Reading, give_or_take: str, kind: str, region: str) -> Reading:
    """Spread a guess by one sigma, given in its own unit or as a share of it."""
    if give_or_take.endswith("%") and kind not in ("share", "percent"):
        sigma = reading.best * float(give_or_take.rstrip("% ")) / 100
    else:
        dimension = _WIDTH_OF.get(kind, kind)
        sigma = read_quantity(give_or_take, dimension, region=region).best
    half = _NINETY_FIVE * sigma
    low = reading.best - half
    if kind not in ("temperature", "angle"):
        low = max(low, 0.0)
    return replace(reading, low=low, high=reading.best + half)
