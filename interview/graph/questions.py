"""The interview as data: topics and questions, and how they are found."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field

from interview.base.conditions import Condition
from interview.base.rows import FileError, Row
from interview.base.units import CORE_UNITS
from interview.words.choices.choice import Choice
from interview.words.forms.around import WordsAround

__all__ = ["Absent", "Must", "Question", "Questionnaire", "Remark", "Topic", "Unsure"]

DIMENSIONS = {
    **{
        name: CORE_UNITS[name]
        for name in (
            *("length", "temperature", "temperature_difference", "volume", "flow", "mass"),
            *("duration", "angle", "power", "voltage", "current", "concentration"),
            *("share", "percent", "rating", "per_week", "price"),
        )
    },
    "lit_time": CORE_UNITS["duration"],
}
WORD_TYPES = {"choice": "choice", "choices": "choice", "names": "choice", "yes_no": "yes/no"}


@dataclass(frozen=True)
class Must:
    """A constraint on an answer and what to say when it is broken."""

    condition: Condition
    alert: str


@dataclass(frozen=True)
class Unsure:
    """What "not sure" means here: an assumption with its width, or none, saying why."""

    assume: str = ""
    give_or_take: str = ""
    say: str = ""
    leave: str = ""


@dataclass(frozen=True)
class Absent:
    """What “there is none” means here: a yes or a no, or two things, which is asked back."""

    things: tuple[str, ...] = ()
    """Of what there may be none: then “no wood” says it too."""
    means: str = ""
    ask: str = ""
    """What to type instead, where a bare “none” can mean two things."""


@dataclass(frozen=True)
class Remark:
    """What is worth saying back, and when."""

    say: str
    when: Condition | None = None


@dataclass(frozen=True, eq=False)
class Question:
    """One question of the interview."""

    id: str
    type: str
    unit: str
    label: str
    short: str
    hint: str
    help: str
    example: str
    row: Row
    """The row of the file it was read from."""
    relevant: Condition | None = None
    required: bool = False
    constraint: tuple[Must, ...] = ()
    unsure: Unsure = Unsure()
    absent: Absent = Absent()
    stale_when: Mapping[str, Condition | None] = field(default_factory=dict)
    """Answers whose change makes this one doubtful, and under which condition where not always."""
    remark: tuple[Remark, ...] = ()
    finer: Condition | None = None
    assumed_until_asked: bool = False
    """Whether its assumption counts on the usual path too, while it has no answer."""
    choices: tuple[Choice, ...] = ()
    parts: tuple[str, ...] = ()
    around: WordsAround = field(default_factory=WordsAround)
    clock: bool = False
    """Whether the hours may be told by the clock: 8 am to 8 pm."""
    beside: str = ""
    """The kind of amount that may be told in one breath with it: a quarter, every week."""
    trade_names: tuple[str, ...] = ()
    """What a keeper calls it after “change”; several questions may share a name."""
    repeat: str = ""
    count_of: str = ""

    @property
    def names(self) -> tuple[str, ...]:
        """The quantities the answer gives the core."""
        return self.parts or (self.id,)

    @property
    def comes_up_by(self) -> frozenset[str]:
        """The names whose answers decide whether it applies, or is finer."""
        conditions = filter(None, (self.relevant, self.finer))
        return frozenset(name for condition in conditions for name in condition.names)


@dataclass(frozen=True)
class Topic:
    """A file of questions: one stop on the walk round the tank."""

    name: str
    about: str
    questions: tuple[Question, ...]


class Questionnaire:
    """All topics in order; finds questions by id or by the part they give."""

    def __init__(self, topics: Iterable[Topic]) -> None:
        """Index the topics; FileError if an id or part is given twice."""
        self.topics = tuple(topics)
        self.questions = tuple(q for topic in self.topics for q in topic.questions)
        self.by_id: dict[str, Question] = {}
        self.giver: dict[str, Question] = {}
        self.topic_of: dict[str, Topic] = {}
        for topic in self.topics:
            for question in topic.questions:
                if question.id in self.by_id:
                    raise FileError(question.row.where, f"{question.id} is asked twice")
                self.by_id[question.id] = question
                self.topic_of[question.id] = topic
                for name in question.names:
                    if name in self.giver:
                        raise FileError(question.row.where, f"{name} is asked twice")
                    self.giver[name] = question

    def __iter__(self) -> Iterator[Question]:
        return iter(self.questions)

    def unit_of(self, name: str) -> str:
        """Core unit of an answer or a part of one; "1" for what no question gives."""
        question = self.giver.get(name)
        return question.unit if question else "1"

    def called(self, name: str) -> Question | None:
        """The question with this id, or with this counter wording, in any case, _ for spaces."""
        if name in self.by_id:
            return self.by_id[name]
        wanted = _spaced(name)
        found = [q for q in self.questions if wanted in (_spaced(q.id), _spaced(q.short))]
        return found[0] if len(found) == 1 else None

    def follows_finer(self, question: Question) -> bool:
        """Whether a question only comes up with the answer to a finer one."""
        names = question.relevant.names if question.relevant else frozenset()
        return any(self.giver[name].finer for name in names if name in self.giver)

    @property
    def of_tank(self) -> tuple[Question, ...]:
        """The questions asked once, about the tank and its room."""
        return tuple(q for q in self.questions if not q.repeat and not q.count_of)

    @property
    def repeated(self) -> tuple[Question, ...]:
        """The questions asked for each animal."""
        return tuple(q for q in self.questions if q.repeat)


def _spaced(name: str) -> str:
    return " ".join(name.replace("_", " ").casefold().split())
