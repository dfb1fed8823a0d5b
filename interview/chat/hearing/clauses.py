"""One clause of a what-if or of what was moved: which way, how much, and by what name."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

from interview.graph.answers import understand
from interview.graph.interview import Interview
from interview.graph.questions import DIMENSIONS, Question
from interview.words.amounts.quantity import read_quantity
from interview.words.amounts.reading import Reading
from interview.words.text.refusal import NotUnderstood, quoted
from interview.words.text.tokens import plain_words

__all__ = ["FALLING", "Amounts", "denies", "direction_of", "moved_thing", "rules_for"]

FALLING = ("water_line_below_rim",)
"""Answers that grow when the thing is lower."""

_LESS = (
    r"lower(?:ed)?|down|less|fewer|nearer|closer|smaller|weaker|shorter|shallower|colder|cooler|"
    r"drop(?:ped)?|drain(?:ed)?"
)
_MORE = (
    r"higher|up|more|farther|further|larger|bigger|stronger|longer|deeper|warmer|hotter|"
    r"raised?|lift(?:ed)?|fill(?:ed)?"
)
_LOWER, _HIGHER = re.compile(rf"\b(?:{_LESS})\b"), re.compile(rf"\b(?:{_MORE})\b")
_GOAL = re.compile(r"(?<!\d )(?<!\w\d )\bto (?:about |around |roughly )?(?:\d|half|an? |one |two )")
"""Raised to 25 cm tells where it is, raised 5 cm how far."""
_DENIAL = re.compile(r"\b(?:not|never|isnt|wasnt|dont|doesnt)\b|n't\b")
_RULES: tuple[tuple[str, tuple[str, ...]], ...] = (
    (r"\bboth (?:the )?(?:lamps|lights|bulbs)\b", ("heat_lamp_height", "uvb_lamp_height")),
    (r"\b(?:lamps?|lights?|bulbs?)\b.*\bhours?\b", ("day_length",)),
    (r"\broom\b.*\b(?:night|winter|coldest|low)\b", ("room_temperature_low",)),
    (r"\broom\b.*\b(?:day|summer|warmest|high)\b", ("room_temperature_high",)),
    (r"\bfeed\b|\bfed\b|\bmeals?\b", ("feeds_per_week", "feed_mass")),
    (r"\bwater changes?\b|\bchanges?\b", ("water_change_share", "water_change_interval")),
    (r"\buvb?\b|\btube\b", ("uvb_lamp_height",)),
    (r"\bwater\b.*(?:\d ?(?:°|deg|c\b|f\b)|\bwarm|\bcold)", ("water_temperature",)),
    (r"\bwarmer water|\bcolder water", ("water_temperature",)),
    (r"\bwater\b(?! temp)|\blevel\b|\bfill|\bdeeper\b|\bshallower\b", ("water_line_below_rim",)),
    (r"\bheaters\b", ("heater_count",)),
    (r"\bheater\b", ("heater_power",)),
    (r"\b(?:lamp|bulb|halogen)\b.*\d ?w(?:atts?)?\b", ("heat_lamp_power",)),
    (r"\d ?w(?:atts?)?\b.*\b(?:lamp|bulb|halogen)\b", ("heat_lamp_power",)),
    (r"\blamp\b|\bhalogen\b|\bbulb\b", ("heat_lamp_height",)),
)
"""What is spoken of in one way only, tried from the top."""
_SMALL = re.compile(
    r"\b(?:i|we|you|the|a|an|is|are|was|were|be|it|its|had|has|have|with|my|to|at|set|put|make|"
    r"made|use|used|add|added|get|got|there|instead|on|only|new|would|could)\b"
)
_FIGURE = re.compile(
    r"\d|\b(?:half|third|quarter|once|twice|daily|weekly|every|one|two|three|four|five|six|seven|"
    r"eight|nine|ten|twelve)\b|\ban? (?:foot|inch|metre|meter|week|day|month|fortnight)\b"
)
_MOST_WORDS = 16


def direction_of(clause: str) -> int:
    """1 for more or higher, -1 for less or lower, 0 where a new value is told."""
    if _GOAL.search(clause):
        return 0
    if _LOWER.search(clause):
        return -1
    return 1 if _HIGHER.search(clause) else 0


def denies(clause: str) -> bool:
    """Whether a clause says how something is not."""
    return bool(_DENIAL.search(clause))


def rules_for(clause: str) -> Iterator[tuple[str, ...]]:
    """The answers a clause speaks of by the words of everyday speech, likeliest first."""
    for pattern, names in _RULES:
        if re.search(pattern, clause):
            yield names


def moved_thing(clause: str) -> str:
    """A clause without its figures and its words of direction."""
    return re.sub(r"\d\S*", " ", _LOWER.sub(" ", _HIGHER.sub(" ", clause)))


class Amounts:
    """What a clause says as an answer to one question, the words around it aside."""

    def __init__(self, interview: Interview, question: Question, clause: str) -> None:
        self.interview, self.question, self.clause = interview, question, clause

    def value(self) -> Any:
        """The longest run of words that answers the question.

        Raises:
            NotUnderstood: when none does.
        """
        if self.question.type == "yes_no":
            return self._yes_no()
        if self.question.type == "choice":
            return self._choice()
        best: NotUnderstood | None = None
        for run in self._runs():
            try:
                value = self._understood(run)
            except NotUnderstood as problem:
                best = best if best and best.understood else problem
            else:
                if value is not None:
                    return value
        raise best or self._unsaid()

    def words(self) -> str:
        """The fewest words that answer the question as its whole value does.

        Raises:
            NotUnderstood: when none does.
        """
        value = self.value()
        for run in reversed(list(self._runs())):
            try:
                if _alike(self._understood(run), value):
                    return run
            except NotUnderstood:
                continue
        return str(value).replace("_", " ")

    def step(self) -> float:
        """How far something moves, in the core's unit; NotUnderstood without an amount."""
        kind = self.question.type
        kind = {"temperature": "temperature_difference", "lit_time": "duration"}.get(kind, kind)
        best: NotUnderstood | None = None
        for run in self._runs():
            try:
                return read_quantity(run, kind, region=self.interview.region).best
            except NotUnderstood as problem:
                best = best if best and best.understood else problem
        raise best or self._unsaid()

    def _understood(self, run: str) -> Any:
        return understand(self.question, run, self.interview.lists, self.interview.region).value

    def _yes_no(self) -> bool:
        """A thing that is only named is there: an rcd, a heater guard."""
        question = self.question
        names = (question.short, question.id.replace("_", " "), *question.trade_names)
        names += question.absent.things
        rest = self.clause
        for name in sorted(names, key=len, reverse=True):
            rest = rest.replace(name.casefold(), " ")
        rest = " ".join(_SMALL.sub(" ", rest).split())
        return bool(self._understood(rest)) if rest else True

    def _choice(self) -> str:
        """The one option that is named whole; a clause with a figure names none."""
        words, found = f" {plain_words(self.clause)} ", {}
        for option in () if re.search(r"\d", words) else self.question.choices:
            named = [way for way in option.spellings if f" {way} " in words]
            if named:
                found[option.name] = max(map(len, named))
        longest = [name for name, size in found.items() if size == max(found.values())]
        if len(longest) != 1 or direction_of(self.clause):
            raise self._unsaid()
        return longest[0]

    def _runs(self) -> Iterator[str]:
        """Runs of the clause's words, the longest first; a figure is never cut in two."""
        words = self.clause.split()[:_MOST_WORDS]
        if self.question.type in DIMENSIONS:
            words = _HIGHER.sub(" ", _LOWER.sub(" ", " ".join(words))).split()
        for size in range(len(words), 0, -1):
            for first in range(len(words) - size + 1):
                run = " ".join(words[first : first + size])
                if not _is_cut(words[:first], run) and _says(run, self.question):
                    yield run

    def _unsaid(self) -> NotUnderstood:
        wrong = f"{quoted(self.clause)} doesn't say how much"
        return NotUnderstood("", wrong, f"a value with it, as {self.question.example}")


def _alike(one: Any, other: Any) -> bool:
    """Whether two answers mean the same, the words aside."""
    if isinstance(one, Reading) and isinstance(other, Reading):
        return (one.low, one.best, one.high) == (other.low, other.best, other.high)
    return bool(one == other)


def _is_cut(before: list[str], run: str) -> bool:
    """Whether a run begins inside an amount or a range: 1/2 in of 18 1/2 in."""
    if not before or not re.match(r"\d|half|quarter|third", run):
        return False
    if before[-1] in ("to", "or", "-", "and", "by", "x", "×"):
        return len(before) > 1 and bool(re.search(r"\d", before[-2]))
    return bool(re.search(r"\d$", before[-1]))


def _says(run: str, question: Question) -> bool:
    """Whether a run may answer at all: a figure for an amount, more than a small word else."""
    if question.type in DIMENSIONS or question.type in ("size", "count"):
        return bool(_FIGURE.search(run))
    return bool(_SMALL.sub(" ", run).strip())
