"""Questions that are asked in one go: data."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Annotated, ClassVar

from interview.base.rows import Names, Row, read

__all__ = ["PATH", "Together", "all_together", "together_with"]

PATH = Path(__file__).with_name("together.yaml")


class Together(Row, frozen=True, kw_only=True):
    """Questions of one topic, and how they are asked as one."""

    EXAMPLE: ClassVar[str] = "{ask: [feed_mass, feeds_per_week], label: How much?, hint: Weigh it.}"

    ask: tuple[Annotated[str, Names("question")], ...]
    label: str
    hint: str
    ends: bool = False
    """Whether they are the low and the high end of one range, which may be typed as such."""


@cache
def all_together() -> tuple[Together, ...]:
    """The shipped groups; FileError names file and line of what is wrong."""
    return read(PATH, tuple[Together, ...])


@cache
def _by_question() -> Mapping[str, Together]:
    return {name: row for row in all_together() for name in row.ask}


def together_with(question: str) -> Together | None:
    """The group a question belongs to; None where it is asked by itself."""
    return _by_question().get(question)
