"""Topics that keepers ask of, and what is told of each."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Annotated, ClassVar, Literal

from interview.base.rows import Names, Row, read

__all__ = ["Shown", "Topic", "all_topics"]

Shown = Literal["today", "buy", "first"]
_Sentence = Annotated[str, Names("said", inside=True)]


class Topic(Row, frozen=True, kw_only=True):
    """One row of topics.yaml, whose head tells what each key says."""

    EXAMPLE: ClassVar[str] = "{topic: company, asked: [lonely], example: is he lonely, says: []}"

    topic: str
    asked: tuple[str, ...]
    example: str
    but: tuple[str, ...] = ()
    says: tuple[_Sentence, ...] = ()
    shows: tuple[Shown, ...] = ()
    checks: tuple[Annotated[str, Names("check")], ...] = ()
    notes: tuple[Annotated[str, Names("note")], ...] = ()
    of_now: bool = False
    only_off: bool = False
    before_trying: bool = False
    lacking: str = ""
    ends: _Sentence = ""


@cache
def all_topics() -> tuple[Topic, ...]:
    """The shipped topics in the order of the file."""
    return read(Path(__file__).with_name("topics.yaml"), tuple[Topic, ...])
