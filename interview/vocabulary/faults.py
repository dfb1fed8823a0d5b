"""What is wrong with the vocabulary, or between it and the questions."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from typing import Protocol

from interview.base.conditions import Condition
from interview.base.rows import FileError, Row, unknown_names
from interview.vocabulary.entries import Entry

__all__ = ["faults"]


class _Rule(Protocol):
    @property
    def condition(self) -> Condition: ...


class _Question(Protocol):
    @property
    def id(self) -> str: ...
    @property
    def unit(self) -> str: ...
    @property
    def names(self) -> tuple[str, ...]: ...
    @property
    def constraint(self) -> Sequence[_Rule]: ...
    @property
    def row(self) -> Row: ...


def faults(
    entries: Mapping[str, Entry], questions: Iterable[_Question], known: Collection[str]
) -> Iterator[str]:
    """Every fault as a sentence that starts with file and line.

    Args:
        entries: the vocabulary
        questions: what keepers are asked
        known: every name that is asked, assumed, computed or taken by a sum
    """
    yield from unknown_names(entries.values(), {"quantity": entries})
    for name, entry in entries.items():
        if name not in known:
            unused = (
                f"{name} is asked, assumed, computed and taken by nothing: "
                "declare its function in `__all__`, or delete the entry"
            )
            yield str(FileError(entry.where, unused))
    units = {name: entry.unit for name, entry in entries.items()}
    for question in questions:
        for name in dict.fromkeys((question.id, *question.names)):
            for text in _against(name, entries.get(name), question, units):
                yield str(FileError(question.row.where, text))


def _against(
    name: str, entry: Entry | None, question: _Question, units: Mapping[str, str]
) -> Iterator[str]:
    """What a question says otherwise than the vocabulary."""
    if entry is None:
        yield f"{name} stands in no file of the vocabulary; write it there, as {Entry.EXAMPLE}"
    elif entry.unit != question.unit:
        yield f"{name} is asked in [{question.unit}], and the vocabulary has [{entry.unit}]"
    else:
        for end, outwards in zip(entry.span, (-1.0, 1.0), strict=True):
            past = {name: end + outwards * 1e-6 * max(abs(end), 1e-6)}
            unit_of = units.__getitem__
            held = (rule.condition.holds(past.get, unit_of) for rule in question.constraint)
            if math.isfinite(end) and False not in held:
                yield (
                    f"{name} may be answered beyond {end:g} {entry.unit}, where its range in the "
                    f"vocabulary ends; widen the one or narrow the other"
                )
