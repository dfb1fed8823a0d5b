"""A setup file read: the keeper's own words, every fault with file, line and remedy."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from interview.base.files.reading import FileRefused, read_small, refuse_unreadable
from interview.base.near_spelling import nearest
from interview.base.rows.lines import FileError, Lined, printable, words_in
from interview.graph.interview import MOST_ANIMALS, Place
from interview.graph.questions import Questionnaire
from interview.setups.formats import brought_up
from interview.setups.setup import FORMAT, Setup, SetupError, short
from interview.words.choices.absence import is_unsure

__all__ = ["LONGEST_TITLE", "read", "refuse"]

_KEYS = ("format", "title", "answers", "doubtful", "finer")
LONGEST_TITLE = 500
_ANIMALS = (
    "Write a line for each animal under “animals:”, as "
    "- {species: painted turtle, carapace_length: 11 cm, sex: female}."
)


def refuse(path: Path) -> None:
    """SetupError for a file that is no small, regular one; costs nothing, so it comes first."""
    try:
        refuse_unreadable(path)
    except FileRefused as problem:
        raise SetupError(str(problem)) from problem


def read(path: Path, questionnaire: Questionnaire) -> Setup:
    """Read a setup file; SetupError says what is wrong with it and what to do."""
    try:
        rows = words_in(read_small(path), path)
    except FileRefused as problem:
        raise SetupError(str(problem)) from problem
    except FileError as problem:
        raise SetupError(f"{problem}. A setup file holds format, title and answers.") from problem
    if not isinstance(rows, Lined):
        raise SetupError(f"{path.name} is no setup file: it must begin with “format: {FORMAT}”.")
    rows = brought_up(rows, path)
    _refuse_unknown(rows, _KEYS, path)
    answers = rows.get("answers") or Lined()
    if not isinstance(answers, Lined):
        raise SetupError(f"{path.name}: “answers:” must hold lines such as “stage: living”.")
    if len(title := _as_typed(rows, "title", path)) > LONGEST_TITLE:
        raise SetupError(
            f"{path.name}, line {rows.line_of('title')}: the title is {len(title):,} letters long; "
            f"at most {LONGEST_TITLE} are taken."
        )
    setup = Setup(title=title, finer=rows.get("finer") in ("yes", "true"))
    doubtful = _as_typed(rows, "doubtful", path).split(", ")
    setup.doubtful = tuple(name for name in doubtful if name in questionnaire.by_id)
    _read_answers(answers, setup, questionnaire, path)
    return setup


def _read_answers(rows: Lined, setup: Setup, questionnaire: Questionnaire, path: Path) -> None:
    single = [q.id for q in questionnaire.of_tank]
    each = [q.id for q in questionnaire.repeated]
    counted = [q.id for q in questionnaire if q.count_of and q.id in rows]
    if not all(is_unsure(_as_typed(rows, name, path)) for name in counted):
        raise SetupError(f"{path.name}: the animals are counted from their list. {_ANIMALS}")
    _refuse_unknown(rows, (*single, *counted, "animals"), path)
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


def _refuse_unknown(rows: Lined, known: tuple[str, ...] | list[str], path: Path) -> None:
    for name in rows:
        if name not in known:
            near = nearest(name[:80], known, most=1)
            listed = ", ".join(known) if len(known) < 10 else "listed by “tankside questions”"
            hint = f"did you mean “{near[0]}”?" if near else f"known are {listed}."
            raise SetupError(
                f"{path.name}, line {rows.line_of(name)}: “{short(name)}” is not known; {hint}"
            )
