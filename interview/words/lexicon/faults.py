"""Phrases that nothing can fit: a group, an amount or a thing that doesn't exist.

A phrase with one of these is read without complaint and never taken, so that only its own test
would tell.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Mapping

from interview.base.rows import FileError, did_you_mean, unknown_names
from interview.words.lexicon.files import changes, people, phrases, spans, units, words
from interview.words.lexicon.rows import ChangeFile, Fact, PhraseFile
from interview.words.lexicon.rules import NO_QUESTION

__all__ = ["faults"]

_MADE_BY_READER = {"amount", "clock", "degrees", "kind", "part", "size2", "size3", "trade"}
"""Amounts that are no dimension: what `words/mentions` makes of several words."""
_ANIMALS = {"turtles", "turtles_beside"}
"""What facts are about that are told apart by `words/mentions/turtles`."""
_NO_ANSWER = ("water_depth",)
"""What is told and no question asks: the water line is."""
_UNITLESS = {"1", "%"}
"""Of amounts that may stand for others: “heater at 25”."""
_GROUP, _SLOT = re.compile(r"@(\w+)"), re.compile(r"\{(?:uncaught_)?(\w+)\}|<(\w+)>")


def faults(asked: Mapping[str, str]) -> Iterator[str]:
    """Every such phrase, as a sentence with file, line and a remedy; by each answer's core unit."""
    known = {*words().things, *words().topics, *_ANIMALS, NO_QUESTION, ""}
    for file in (phrases(), changes()):
        rows = _rows(file)
        yield from unknown_names(rows, {"thing": known})
        for name, said in file.words.items():
            where = file.where.at("words")
            yield from (str(FileError(where, f"{name}: {wrong}")) for wrong in _wrong(said, file))
        for row in rows:
            for said in row.phrases:
                for wrong in (*_wrong(said, file), *_of_another_kind(row.id, said, asked)):
                    where = row.where.at("phrases")
                    yield str(FileError(where, f"{row.id}, “{said}”: {wrong}"))
    yield from _of_no_question({*asked, *_NO_ANSWER})


def _of_no_question(known: Collection[str]) -> Iterator[str]:
    """Amounts that words stand for at no question there is."""
    file = spans()
    for key in ("usual", "fine", "amounts_in_words"):
        for name in getattr(file, key):
            if name not in known:
                wrong = f"no question is called “{name}”{did_you_mean(name, known)}"
                yield str(FileError(file.where.at(key), wrong))


def _rows(file: PhraseFile | ChangeFile) -> tuple[Fact, ...]:
    if isinstance(file, PhraseFile):
        return (*file.facts, *file.near)
    return (*file.told, *file.moved, *file.added)


def _wrong(said: str, file: PhraseFile | ChangeFile) -> Iterator[str]:
    groups = {*words().groups, *phrases().words, *changes().words, *people().regions}
    for name in _GROUP.findall(said):
        if name not in groups:
            yield f"@{name} is no list of words{did_you_mean(name, groups) or _ADDED}"
    amounts = {*units().dimensions, *phrases().slots, *_MADE_BY_READER}
    for braced, angled in _SLOT.findall(said):
        name = braced or angled
        if name not in amounts:
            near = did_you_mean(name, amounts) or f"; there are {', '.join(sorted(amounts))}"
            yield f"{name} is no kind of amount{near}"


_ADDED = "; write it under `words:`, or without @"


def _of_another_kind(question: str, said: str, asked: Mapping[str, str]) -> Iterator[str]:
    """An amount with a unit that the question can't take; what is put in words is left out."""
    wanted = asked.get(question, "choice")
    if wanted in ("choice", "text", "yes/no"):
        return
    for name in re.findall(r"\{(\w+)\}", said):
        kind = None if name in phrases().slots else units().dimensions.get(name)
        if kind and kind.core_unit not in {wanted, *_UNITLESS}:
            fits = [d.name for d in units().dimensions.values() if d.core_unit == wanted]
            meant = f"; write {{{'} or {'.join(fits)}}}" if fits else ""
            yield f"{{{name}}} is {kind.noun}, and {question} takes [{wanted}]{meant}"
