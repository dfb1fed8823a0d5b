"""Rows of a story that name a question before a colon: “water temp: 24 °C”, “lid = glass”."""

from __future__ import annotations

import re
from collections.abc import Iterator

from interview.chat.hearing.references import names_of
from interview.graph.answers import understand
from interview.graph.interview import Interview
from interview.words.intents.reference import called
from interview.words.mentions.clauses import whole_clause
from interview.words.mentions.parts import read_parts
from interview.words.mentions.scope.cutting import sentences
from interview.words.text.refusal import NotUnderstood

__all__ = ["labelled_in"]

_ROW = re.compile(r"\W*(?P<name>[^\W\d][^:=\d]{1,35}?)\s*[:=]\s*(?P<said>\S.*?)[\s.]*")
_APART = re.compile(r"[\n;|]|(?<=\D)\.\s")


def labelled_in(interview: Interview, text: str, region: str) -> Iterator[tuple[str, str]]:
    """The question and the words for it, of each row whose name is that of one question alone.

    Nothing of a question told twice differently, nor of a row near a wish, nor of a text that
    takes something back.
    """
    told: dict[str, set[str]] = {}
    for name, said in _rows_in(interview, text, region):
        told.setdefault(name, set()).add(said)
    if told and any(sentence.corrections for sentence in sentences(text, read_parts(text))):
        return
    yield from ((name, said.pop()) for name, said in told.items() if len(said) == 1)


def _rows_in(interview: Interview, text: str, region: str) -> Iterator[tuple[str, str]]:
    for piece in _APART.split(text):
        row = _ROW.fullmatch(piece)
        clause = whole_clause(row["name"]) if row else None
        found = called(names_of(interview.questionnaire), clause) if clause else []
        if row is None or len(found) != 1:
            continue
        if any(sentence.wished() for sentence in sentences(piece, read_parts(piece))):
            continue
        question = interview.questionnaire.by_id[found[0]]
        for said in dict.fromkeys((row["said"], row["said"].partition(",")[0])):
            try:
                understand(question, said, interview.lists, region)
            except NotUnderstood:
                continue
            yield question.id, said
            break
