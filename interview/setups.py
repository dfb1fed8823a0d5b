"""Saved setups: the keeper's own words in a small YAML file, written whole or not at all."""

from __future__ import annotations

import difflib
import os
import tempfile
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import yaml

from interview.base.rows.lines import FileError, Lined, printable, read_words
from interview.graph.interview import MOST_ANIMALS, AnswerRefused, Interview, Place
from interview.graph.questions import Questionnaire
from interview.words.text.refusal import NotUnderstood

__all__ = ["FORMAT", "Setup", "SetupError", "fill", "folder", "of_interview", "read", "write"]

FORMAT = "tankside/1"
_KEYS = ("format", "title", "answers", "doubtful", "finer")
_ANIMALS = (
    "Write a line for each animal under “animals:”, as "
    "- {species: painted turtle, carapace_length: 11 cm, sex: female}."
)


class SetupError(ValueError):
    """A setup file that can't be used, as one sentence with the remedy."""


@dataclass
class Setup:
    """What a setup file holds: answers by place, as typed."""

    title: str = ""
    answers: dict[Place, str] = field(default_factory=dict)
    animals: int = 0
    doubtful: tuple[str, ...] = ()
    finer: bool = False


def folder() -> Path:
    """Where setups are kept: TANKSIDE_FOLDER, or `tankside` in the home folder."""
    named = os.environ.get("TANKSIDE_FOLDER")
    return Path(named).expanduser() if named else Path.home() / "tankside"


def read(path: Path, questionnaire: Questionnaire) -> Setup:
    """Read a setup file; SetupError says what is wrong with it and what to do."""
    try:
        rows = read_words(path)
    except FileNotFoundError:
        raise SetupError(
            f"There is no file {path}. Check the name, or start one with “tankside”."
        ) from None
    except OSError as problem:
        raise SetupError(f"{path} can't be read: {problem.strerror}.") from problem
    except FileError as problem:
        raise SetupError(f"{problem}. A setup file holds format, title and answers.") from problem
    if not isinstance(rows, Lined):
        raise SetupError(f"{path.name} is no setup file: it must begin with “format: {FORMAT}”.")
    if rows.get("format") != FORMAT:
        said = f"“{_short(rows['format'])}”" if "format" in rows else "missing"
        raise SetupError(f"{path.name}: the format is {said}; this program reads “{FORMAT}”.")
    _refuse_unknown(rows, _KEYS, path)
    answers = rows.get("answers") or Lined()
    if not isinstance(answers, Lined):
        raise SetupError(f"{path.name}: “answers:” must hold lines such as “stage: living”.")
    setup = Setup(title=_as_typed(rows, "title", path), finer=rows.get("finer") in ("yes", "true"))
    doubtful = _as_typed(rows, "doubtful", path).split(", ")
    setup.doubtful = tuple(name for name in doubtful if name in questionnaire.by_id)
    _read_answers(answers, setup, questionnaire, path)
    return setup


def _read_answers(rows: Lined, setup: Setup, questionnaire: Questionnaire, path: Path) -> None:
    single = [q.id for q in questionnaire.of_tank]
    each = [q.id for q in questionnaire.repeated]
    if any(q.count_of and q.id in rows for q in questionnaire):
        raise SetupError(f"{path.name}: the animals are counted from their list. {_ANIMALS}")
    _refuse_unknown(rows, (*single, "animals"), path)
    for name, said in rows.items():
        if name == "animals":
            _read_animals(said, each, setup, path)
        elif (text := _as_typed(rows, name, path)) != "":
            setup.answers[Place(name)] = text


def _read_animals(animals: Any, each: list[str], setup: Setup, path: Path) -> None:
    if not isinstance(animals, list) or not all(isinstance(a, Lined) for a in animals):
        raise SetupError(f"{path.name}: “animals:” must be a list. {_ANIMALS}")
    if len(animals) > MOST_ANIMALS:
        raise SetupError(
            f"{path.name} lists {len(animals)} animals; at most {MOST_ANIMALS} are judged together."
        )
    setup.animals = len(animals)
    for number, animal in enumerate(animals):
        _refuse_unknown(animal, each, path)
        for name in animal:
            if (text := _as_typed(animal, name, path)) != "":
                setup.answers[Place(name, number)] = text


def _as_typed(rows: Lined, name: str, path: Path) -> str:
    """The words at a name; a list of words as if typed with commas. Nothing nested."""
    said = rows.get(name, "")
    items = said if isinstance(said, list) else [said]
    if not all(isinstance(item, str) for item in items):
        raise SetupError(
            f"{path.name}, line {rows.line_of(name)}: “{name}” takes one answer in plain words, "
            "or a list of words."
        )
    if isinstance(said, list):
        return ", ".join(printable(item) for item in items) or "none"
    return "" if said in ("", "null", "~") else printable(said)


def _short(text: Any) -> str:
    return printable(text)[:40] if isinstance(text, str) else "no word"


def _refuse_unknown(rows: Lined, known: tuple[str, ...] | list[str], path: Path) -> None:
    for name in rows:
        if name not in known:
            near = difflib.get_close_matches(name[:80], known, n=1, cutoff=0.5)
            listed = ", ".join(known) if len(known) < 10 else "listed by “tankside questions”"
            hint = f"did you mean “{near[0]}”?" if near else f"known are {listed}."
            raise SetupError(
                f"{path.name}, line {rows.line_of(name)}: “{_short(name)}” is not known; {hint}"
            )


def fill(interview: Interview, setup: Setup) -> None:
    """Put a setup's answers into an interview; SetupError names every one that can't be."""
    counter = next(q for q in interview.questionnaire if q.count_of)
    if setup.animals:
        interview.record(Place(counter.id), str(setup.animals))
    interview.finer = setup.finer
    faults: list[str] = []
    for place in _in_order(interview, setup):
        said, doubtful = setup.answers[place], place.id in setup.doubtful
        try:
            interview.take_up(place, said, doubtful=doubtful)
        except NotUnderstood as problem:
            faults.append(f"{place.id}: {problem}")
        except AnswerRefused as problem:
            faults.append(f"{place.id} “{_short(said)}”: {problem.alert}")
    if faults:
        raise SetupError("\n  ".join(faults))


def _in_order(interview: Interview, setup: Setup) -> Iterator[Place]:
    return (place for place in list(interview.places()) if place in setup.answers)


def of_interview(interview: Interview, title: str) -> Setup:
    """The setup to save for an interview."""
    counter = next(q.id for q in interview.questionnaire if q.count_of)
    return Setup(
        title=title,
        answers={p: a.said for p, a in interview.answers.items() if p.id != counter},
        animals=interview.animal_count,
        doubtful=tuple(sorted({p.id for p in interview.doubtful})),
        finer=interview.finer,
    )


def write(path: Path, setup: Setup) -> None:
    """Save a setup whole: a crash or a full disk leaves the old file as it was."""
    path.parent.mkdir(parents=True, exist_ok=True)
    handle, temporary = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.", text=True)
    try:
        with os.fdopen(handle, "w", encoding="utf-8") as file:
            file.write(_text(setup))
            file.flush()
            os.fsync(file.fileno())
        Path(temporary).replace(path)
    except BaseException:
        Path(temporary).unlink(missing_ok=True)
        raise


def _text(setup: Setup) -> str:
    answers: dict[str, Any] = {}
    animals: list[dict[str, str]] = [{} for _ in range(setup.animals)]
    for place, said in setup.answers.items():
        if place.animal is None:
            answers[place.id] = said
        else:
            animals[place.animal][place.id] = said
    if animals:
        answers["animals"] = animals
    rows: dict[str, Any] = {"format": FORMAT, "title": setup.title, "answers": answers}
    if setup.doubtful:
        rows["doubtful"] = list(setup.doubtful)
    if setup.finer:
        rows["finer"] = "yes"
    text: str = yaml.serialize(_node(rows), Dumper=yaml.BaseDumper, allow_unicode=True, width=100)
    return text


def _node(value: Any) -> yaml.Node:
    """Plain scalars stay as typed: `no` is written no, not 'no'."""
    if isinstance(value, dict):
        pairs = [(_node(key), _node(item)) for key, item in value.items()]
        return yaml.MappingNode("tag:yaml.org,2002:map", pairs, flow_style=False)
    if isinstance(value, list):
        rows = [_node(item) for item in value]
        return yaml.SequenceNode("tag:yaml.org,2002:seq", rows, flow_style=False)
    return yaml.ScalarNode("tag:yaml.org,2002:str", str(value))
