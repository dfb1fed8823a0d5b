"""The interview as data: topics and questions, read from questions/*.yaml."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, fields
from pathlib import Path
from typing import Any

from interview.base.conditions import Condition, ConditionError
from interview.base.rows.lines import FileError, Lined, read_folder
from interview.base.units import CORE_UNITS
from interview.words.choices.choice import Option
from interview.words.forms.around import Around

__all__ = ["Absent", "Must", "Question", "Questionnaire", "Remark", "Topic", "Unsure", "load"]

DIMENSIONS = {
    **{
        name: CORE_UNITS[name]
        for name in (
            *("length", "temperature", "volume", "flow", "mass", "duration", "angle"),
            *("power", "voltage", "current", "concentration"),
            *("share", "percent", "rating", "per_week", "price"),
        )
    },
    "lit_time": CORE_UNITS["duration"],
}
WORD_TYPES = {"choice": "choice", "choices": "choice", "names": "choice", "yes_no": "yes/no"}
_KEYS = {
    *("id", "type", "unit", "label", "short", "hint", "help", "example", "choices", "parts"),
    *("relevant", "required", "constraint", "unsure", "stale_when", "remark", "finer"),
    *("repeat", "count_of", "absent", "trade_names", "around", "clock", "beside"),
}


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


@dataclass(frozen=True)
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
    where: Lined
    relevant: Condition | None = None
    required: bool = False
    constraint: tuple[Must, ...] = ()
    unsure: Unsure = Unsure()
    absent: Absent = Absent()
    stale_when: Mapping[str, Condition | None] = field(default_factory=dict)
    """Answers whose change makes this one doubtful, and under which condition where not always."""
    remark: tuple[Remark, ...] = ()
    finer: Condition | None = None
    choices: tuple[Option, ...] = ()
    parts: tuple[str, ...] = ()
    around: Around = field(default_factory=Around)
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
                    raise FileError(question.where, f"{question.id} is asked twice")
                self.by_id[question.id] = question
                self.topic_of[question.id] = topic
                for name in question.names:
                    if name in self.giver:
                        raise FileError(question.where, f"{name} is asked twice")
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


def load(folder: Path) -> Questionnaire:
    """Read every topic file in name order; FileError names file and line of the first fault."""
    return Questionnaire(_topic(rows, path) for path, rows in read_folder(folder))


def _topic(rows: Any, path: Path) -> Topic:
    if not isinstance(rows, Lined) or not isinstance(rows.get("questions"), list):
        raise FileError(path.name, "a topic file holds `topic:`, `about:` and `questions:`")
    questions = tuple(_question(row, path) for row in rows["questions"])
    return Topic(str(rows.get("topic", path.stem)), str(rows.get("about", "")), questions)


def _question(row: Any, path: Path) -> Question:
    if not isinstance(row, Lined) or not isinstance(row.get("id"), str):
        where = row if isinstance(row, Lined) else path.name
        raise FileError(where, "every question needs an `id:`, as `id: water_temperature`")
    if unknown := set(row) - _KEYS:
        raise FileError(row, f"{row['id']}: unknown key {', '.join(sorted(unknown))}")
    for key in ("type", "label", "short", "hint", "help"):
        if not row.get(key):
            raise FileError(row, f"{row['id']} has no {key}")
    try:
        return Question(
            id=row["id"],
            type=row["type"],
            unit=_unit(row),
            where=row,
            relevant=Condition.read(row["relevant"]) if "relevant" in row else None,
            required=bool(row.get("required", False)),
            constraint=_constraints(row),
            unsure=_unsure(row),
            absent=_absent(row),
            stale_when=_stale_when(row),
            remark=_remarks(row),
            finer=_finer(row.get("finer")),
            choices=tuple(_option(row, choice) for choice in row.get("choices", ())),
            parts=_words(row, "parts"),
            around=_around(row),
            clock=bool(row.get("clock", False)),
            beside=str(row.get("beside", "")),
            trade_names=_words(row, "trade_names"),
            repeat=row.get("repeat", ""),
            count_of=row.get("count_of", ""),
            example=str(row.get("example", "")),
            **{key: _line(row[key]) for key in ("label", "short", "hint", "help")},
        )
    except (ConditionError, TypeError) as problem:
        raise FileError(row, f"{row['id']}: {problem}") from problem


def _spaced(name: str) -> str:
    return " ".join(name.replace("_", " ").casefold().split())


def _line(text: object) -> str:
    return " ".join(str(text).split())


def _finer(said: object) -> Condition | None:
    """Never, always (`true`), or when a condition holds."""
    if said is True:
        return Condition.read([])
    return Condition.read(str(said)) if said else None


def _unit(row: Lined) -> str:
    kind = row["type"]
    if kind in WORD_TYPES:
        return WORD_TYPES[kind]
    unit = {"size": CORE_UNITS["length"], "count": CORE_UNITS["count"]}.get(kind) or DIMENSIONS.get(
        kind
    )
    if unit is None:
        raise FileError(row, f"{row['id']}: unknown type “{kind}”")
    if (said := str(row.get("unit", unit))) != unit:
        raise FileError(row, f"{row['id']}: a {kind} is in {unit}, not {said}")
    return unit


def _words(row: Lined, key: str) -> tuple[str, ...]:
    words = row.get(key, [])
    if not isinstance(words, list) or not all(isinstance(word, str) for word in words):
        raise FileError(row, f"{row.get('id', key)}: {key} is a list of names, as [tank_size]")
    return tuple(words)


def _unsure(row: Lined) -> Unsure:
    said = row.get("unsure") or Lined()
    _only(row, said, "unsure", ("assume", "give_or_take", "say", "leave"), ())
    return Unsure(**{key: _line(text) for key, text in said.items()})


def _absent(row: Lined) -> Absent:
    said = row.get("absent") or Lined()
    _only(row, said, "absent", ("things", "means", "ask"), ())
    means, things = str(said.get("means", "")), _words(said, "things") if said else ()
    if means not in ("", "yes", "no"):
        raise FileError(said, f"{row['id']}: absent means yes or no, in quotation marks")
    return Absent(things, means, _line(said.get("ask", "")))


def _stale_when(row: Lined) -> dict[str, Condition | None]:
    """Names, each with the condition behind its “if”."""
    pairs = (item.partition(" if ") for item in _words(row, "stale_when"))
    return {name: Condition.read(said) if said else None for name, _, said in pairs}


def _around(row: Lined) -> Around:
    said = row.get("around") or Lined()
    keys = [one.name for one in fields(Around)]
    _only(row, said, "around", keys, ())
    listed = {key: _words(said, key) for key in said if key != "each"}
    return Around(**listed, each=bool(said.get("each", False)))


def _constraints(row: Lined) -> tuple[Must, ...]:
    rules = row.get("constraint", [])
    for rule in _rows(row, "constraint", rules):
        _only(row, rule, "constraint", ("must", "alert"), ("must", "alert"))
    return tuple(Must(Condition.read(r["must"], row["id"]), _line(r["alert"])) for r in rules)


def _remarks(row: Lined) -> tuple[Remark, ...]:
    said = row.get("remark", [])
    if isinstance(said, str):
        return (Remark(_line(said)),)
    for rule in _rows(row, "remark", said):
        _only(row, rule, "remark", ("when", "say"), ("say",))
    return tuple(
        Remark(_line(r["say"]), Condition.read(r["when"]) if "when" in r else None) for r in said
    )


def _rows(row: Lined, key: str, rules: Any) -> list[Any]:
    if not isinstance(rules, list):
        raise FileError(row, f"{row['id']}: {key} is a list")
    return rules


def _only(row: Lined, said: Any, key: str, known: Iterable[str], needed: Iterable[str]) -> None:
    """Refuse a part of a question with a key too many or too few."""
    if not isinstance(said, Lined):
        raise FileError(row, f"{row['id']}: {key} holds {', '.join(known)}")
    if unknown := set(said) - set(known):
        raise FileError(said, f"{row['id']}: unknown key {', '.join(sorted(unknown))} in {key}")
    if missing := set(needed) - set(said):
        raise FileError(said, f"{row['id']}: {key} has no {', '.join(sorted(missing))}")


def _option(row: Lined, choice: Any) -> Option:
    if not isinstance(choice, Lined) or not {"name", "label"} <= set(choice):
        raise FileError(row, f"{row['id']}: each choice needs a name and a label")
    also = tuple(str(word) for word in choice.get("also", ()))
    return Option(str(choice["name"]), str(choice["label"]), also)
