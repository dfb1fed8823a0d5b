"""The files of questions: which keys a question may have, and what they become."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Annotated, ClassVar, Literal, Self

from interview.base.conditions import Condition, Predicate
from interview.base.rows import Names, Row, WrongKey, did_you_mean, read_folder
from interview.base.units import CORE_UNITS
from interview.graph.questions import (
    DIMENSIONS,
    WORD_TYPES,
    Absent,
    Must,
    Question,
    Questionnaire,
    Remark,
    Topic,
    Unsure,
)
from interview.words.choices.choice import Choice
from interview.words.forms.around import WordsAround

__all__ = ["UNITS", "QuestionRow", "load"]

Sentence = Annotated[str, Names("quantity", inside=True)]
UNITS = {
    **DIMENSIONS,
    **WORD_TYPES,
    "size": CORE_UNITS["length"],
    "count": CORE_UNITS["count"],
}
"""Type of a question → core unit of its answer."""


class _Must(Row, frozen=True, kw_only=True):
    EXAMPLE: ClassVar[str] = "{must: from 0 cm to 4 m, alert: That is no length of a tank.}"

    must: Predicate
    alert: Sentence


class _Remark(Row, frozen=True, kw_only=True):
    EXAMPLE: ClassVar[str] = "{when: rcd is no, say: Ask an electrician for one.}"

    say: Sentence
    when: Condition | None = None


class _Choice(Row, frozen=True, kw_only=True):
    EXAMPLE: ClassVar[str] = "{name: sand, label: fine sand, also: [play sand]}"

    name: str
    label: str
    also: tuple[str, ...] = ()
    vague: tuple[str, ...] = ()
    """Of these spellings those that may be another choice, which is asked where they are typed."""


class _Unsure(Row, frozen=True, kw_only=True):
    assume: str = ""
    give_or_take: str = ""
    say: str = ""
    leave: str = ""


class _Absent(Row, frozen=True, kw_only=True):
    things: tuple[str, ...] = ()
    means: Literal["yes", "no"] | None = None
    ask: str = ""


class _Trigger:
    """A question whose new answer makes this one doubtful: `platform_size if ramp is yes`."""

    def __init__(self, name: str, condition: Condition | None) -> None:
        self.name, self.condition = name, condition

    @classmethod
    def read(cls, said: object) -> Self:
        if not isinstance(said, str):
            raise ValueError(f"“{said}” is no name; write it as “tank_size if stage is living”")
        name, _, condition = said.partition(" if ")
        return cls(name, Condition.read(condition) if condition else None)

    @property
    def names(self) -> frozenset[str]:
        return self.condition.names if self.condition else frozenset()


class _Finer:
    """Whether a question is off the usual path: always (`true`), or under a condition."""

    def __init__(self, when: Condition) -> None:
        self.when = when

    @classmethod
    def read(cls, said: object) -> Self:
        return cls(Condition.read([] if said is True else said))

    @property
    def names(self) -> frozenset[str]:
        return self.when.names


class QuestionRow(Row, frozen=True, kw_only=True):
    """One question as written; DEVELOPERS.md says what the keys are for."""

    EXAMPLE: ClassVar[str] = (
        "{id: ph, type: rating, label: What is the pH?, short: pH, hint: Use a drop kit., "
        "help: It decides how poisonous ammonia is., unsure: {assume: 7.6}}"
    )

    id: str
    type: str
    label: str
    short: str
    hint: str
    help: str
    unit: str = ""
    example: str = ""
    choices: tuple[_Choice, ...] = ()
    parts: tuple[str, ...] = ()
    relevant: Condition | None = None
    required: bool = False
    constraint: tuple[_Must, ...] = ()
    unsure: _Unsure = _Unsure()
    absent: _Absent = _Absent()
    stale_when: tuple[_Trigger, ...] = ()
    remark: Sentence | tuple[_Remark, ...] = ()
    finer: _Finer | None = None
    assumed_until_asked: bool = False
    repeat: Literal["animals"] | None = None
    count_of: Literal["animals"] | None = None
    trade_names: tuple[str, ...] = ()
    around: WordsAround = WordsAround()
    clock: bool = False
    beside: str = ""

    def __post_init__(self) -> None:
        """Refuse a type nobody knows, and a unit that isn't the type's."""
        unit = UNITS.get(self.type)
        if unit is None:
            near = did_you_mean(self.type, UNITS) or f"; there are {', '.join(UNITS)}"
            raise WrongKey("type", f"unknown type “{self.type}”{near}")
        if self.unit not in ("", unit):
            raise WrongKey("unit", f"a {self.type} is in {unit}, not {self.unit}; leave it out")
        for name in ("label", "short", "hint", "help"):
            if not getattr(self, name):
                raise WrongKey(name, "says nothing")

    def question(self) -> Question:
        """The question, its constraints about its own answer."""
        unsure, absent = self.unsure, self.absent
        return Question(
            id=self.id,
            type=self.type,
            unit=UNITS[self.type],
            label=self.label,
            short=self.short,
            hint=self.hint,
            help=self.help,
            example=self.example,
            row=self,
            relevant=self.relevant,
            required=self.required,
            constraint=tuple(Must(r.must.about(self.id), r.alert) for r in self.constraint),
            unsure=Unsure(unsure.assume, unsure.give_or_take, unsure.say, unsure.leave),
            absent=Absent(absent.things, absent.means or "", absent.ask),
            stale_when={trigger.name: trigger.condition for trigger in self.stale_when},
            remark=tuple(self._remarks()),
            finer=self.finer.when if self.finer else None,
            assumed_until_asked=self.assumed_until_asked,
            choices=tuple(Choice(c.name, c.label, c.also, (), c.vague) for c in self.choices),
            parts=self.parts,
            around=self.around,
            clock=self.clock,
            beside=self.beside,
            trade_names=self.trade_names,
            repeat=self.repeat or "",
            count_of=self.count_of or "",
        )

    def _remarks(self) -> Iterator[Remark]:
        if isinstance(self.remark, str):
            yield Remark(self.remark)
        else:
            yield from (Remark(row.say, row.when) for row in self.remark)


class TopicRow(Row, frozen=True, kw_only=True):
    """A file of questions."""

    EXAMPLE: ClassVar[str] = "{topic: Tank, about: The glass box., questions: […]}"

    topic: str
    about: str = ""
    questions: tuple[QuestionRow, ...]


def load(folder: Path) -> Questionnaire:
    """Read every topic file in name order; FileError names file and line of the faults."""
    return Questionnaire(
        Topic(row.topic, row.about, tuple(question.question() for question in row.questions))
        for _, row in read_folder(folder, TopicRow)
    )
