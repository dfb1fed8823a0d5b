"""The told paragraphs and snippets that may be learned from, and what is right in each."""

from __future__ import annotations

import hashlib
from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from learning.which_amount import which
from told_score import TOLD, alike, facts_of, is_bare_test, paragraphs

from interview import assembly
from interview.chat.hearing.own_words import at_question
from interview.chat.hearing.told.second_hearing import asked_amounts
from interview.graph.answers import understand
from interview.words.amounts.quantity import read_quantity
from interview.words.learned.candidates import WATER_DEPTH, Candidate, candidates
from interview.words.learned.names import MOST_TURTLES, SET, asked_by, of_turtle, one_of
from interview.words.learned.readings import NONE
from interview.words.text.refusal import NotUnderstood

PARAGRAPHS = (
    *("tuning", "tuning_further", "voices_tuned"),
    *("two_writers", "two_more_writers", "two_other_writers"),
    *(f"to_learn/stories_{n}" for n in range(1, 37)),
)
SENTENCES = ("sentences", *(f"to_learn/snippets_{n}" for n in range(1, 14)))
"""Put together at random to texts as long as a paragraph."""
ANSWERS = ("to_learn/answers_1", "to_learn/answers_2")
"""Said at a question."""
WITH_SETS = frozenset(
    {
        *(f"to_learn/stories_{n}" for n in (1, 2, 4, 6, *range(9, 37))),
        *(f"to_learn/snippets_{n}" for n in range(6, 14)),
    }
)
"""In which it is noted, too, where several choices may hold at once."""
LEARNED_FROM = (*PARAGRAPHS, *SENTENCES, *ANSWERS)
"""The files of told texts; none of those that are only counted."""
_COUNT, _MOST_COUNTED = "animal_count", 6
"""Counted by how many are told of, too; one is never told apart from none."""
_LISTS, _QUESTIONS = assembly.lists(), assembly.questionnaire().by_id
_ASKED = asked_amounts(_QUESTIONS.values())


@dataclass(frozen=True)
class Example:
    """A text and what of it is right."""

    text: str
    choices: Mapping[str, Sequence[str]]
    """Of each question that is told, or may be: what is right, NONE among it where it only may."""
    amounts: Sequence[tuple[Candidate, Sequence[str]]]
    """Each with the questions that it answers, or NONE."""
    held_to: frozenset[str]
    """The questions of which it is known what the text tells, and what it doesn't."""


def digest() -> str:
    """Of the texts; when they change, learn anew."""
    files = (TOLD / f"{name}.yaml" for name in LEARNED_FROM)
    return hashlib.sha256(b"".join(path.read_bytes() for path in files)).hexdigest()[:16]


def options() -> dict[str, tuple[str, ...]]:
    """The questions that are told by a choice, each with its choices; of several each by itself."""
    found: dict[str, tuple[str, ...]] = {}
    for question in _QUESTIONS.values():
        if question.type == "yes_no":
            found[question.id] = ("yes", "no")
        elif question.type == "choice":
            names = tuple(one.name for one in _LISTS.options_of(question))
            found.update(dict.fromkeys(_heard_of(question.id), names))
        elif question.type == "choices":
            found.update((one_of(question.id, one.name), ("yes",)) for one in question.choices)
    return found | {_COUNT: tuple(map(str, range(2, _MOST_COUNTED + 1)))}


def amounts() -> tuple[str, ...]:
    """The questions that are told by an amount, and how deep the water is."""
    return (*(name for question in _ASKED for name in _heard_of(question)), WATER_DEPTH)


def _heard_of(question: str) -> Sequence[str]:
    """The names by which a question is heard, of each turtle if it is asked of each."""
    turtles = range(MOST_TURTLES if _QUESTIONS[question].repeat else 1)
    return [of_turtle(question, animal) for animal in turtles]


def examples(half: str) -> Iterator[Example]:
    """Every text of a file."""
    held_to = frozenset(name for name in options() if SET not in name or half in WITH_SETS)
    for row in paragraphs(half):
        told = dict(facts_of(row["facts"]))
        region = str(_value("region", dict(row["facts"]).get("region", "europe"), ""))
        facts, may = _values(row["facts"], region), _values(row.get("may", {}), region)
        choices = {
            name: right
            for name, names in options().items()
            if (right := _right(names, facts.get(name), may.get(name)))
        }
        choices |= _counted(row["facts"], row.get("may", {}))
        found = candidates(
            row["text"],
            _ASKED,
            region=region if any(place.id == "region" for place in told) else "",
            sizes=_LISTS.sizes["tank_size"],
        )
        wanted = {name: [*facts.get(name, ()), *may.get(name, ())] for name in amounts()}
        told_amounts = [(one, _told(one, wanted, region)) for one in found]
        yield Example(row["text"], choices, which(row["text"], told_amounts), held_to)


def answers(half: str) -> Iterator[Example]:
    """Every answer of a file, behind what was asked."""
    for row in paragraphs(half):
        asked, choice = row["question"], row["choice"]
        right = [choice if choice in options()[asked] else NONE]
        text = at_question(_QUESTIONS[asked], row["say"])
        yield Example(text, {asked: right}, [], frozenset({asked}))


def _right(
    names: Sequence[str], told: Sequence[Any] | None, may: Sequence[Any] | None
) -> Sequence[str]:
    """Empty where nothing is told; all where what is told is none of the choices."""
    right = [name for name in names if name in (told or may or ())]
    if told is None:
        return [*right, NONE] if right else []
    return right or [*names, NONE]


def _counted(facts: Mapping[str, Any], may: Mapping[str, Any]) -> Mapping[str, Sequence[str]]:
    """How many turtles are told of, where it may be more than one."""
    told, likely = (
        int(rows.get(_COUNT, "0")) or len(rows.get("animals", ())) for rows in (facts, may)
    )
    some = str(min(max(told, likely), _MOST_COUNTED))
    return {_COUNT: [some] if told > 1 else [some, NONE]} if int(some) > 1 else {}


def _told(candidate: Candidate, wanted: Mapping[str, Sequence[Any]], region: str) -> Sequence[str]:
    right = []
    for name, values in wanted.items():
        question, _ = asked_by(name)
        said = candidate.says.get(question) if values else None
        value = None if said is None else _value(question, said, region)
        if value is not None and any(alike(value, one) for one in values):
            right.append(name)
    return right or [NONE]


def _values(rows: Mapping[str, Any], region: str) -> dict[str, list[Any]]:
    found: dict[str, list[Any]] = defaultdict(list)
    for place, said in facts_of(dict(rows)):
        value = _value(place.id, said, region)
        found[of_turtle(place.id, place.animal)].append(value)
        if isinstance(value, tuple) and _QUESTIONS[place.id].type == "choices":
            found.update((one_of(place.id, name), ["yes"]) for name in value)
    return found


def _value(name: str, said: str, region: str) -> Any:
    """What is understood at a question; None where nothing is."""
    try:
        if name == WATER_DEPTH:
            return read_quantity(said, "length", region=region)
        value = understand(_QUESTIONS[name], said, _LISTS, region).value
    except NotUnderstood:
        is_bare = name in _QUESTIONS and is_bare_test(_QUESTIONS[name], said)
        return _value(name, f"{said} mg/L", region) if is_bare else None
    return {True: "yes", False: "no"}[value] if isinstance(value, bool) else value
