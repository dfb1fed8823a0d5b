"""Questions that are asked in one go: data."""

from __future__ import annotations

from collections.abc import Container, Mapping
from functools import cache
from pathlib import Path
from typing import Annotated, ClassVar

from interview.base.rows import Names, Row, WrongKey, read

__all__ = ["PATH", "Together", "all_together", "together_with"]

PATH = Path(__file__).with_name("together.yaml")


class Together(Row, frozen=True, kw_only=True):
    """Questions of one topic, and how they are asked as one."""

    EXAMPLE: ClassVar[str] = (
        "{ask: [feed_mass, feeds_per_week], label: How much?, hints: [Weigh it., Count the days.]}"
    )

    ask: tuple[Annotated[str, Names("question")], ...]
    label: str
    hints: tuple[str, ...]
    """How to answer each of them."""
    ends: bool = False
    """Whether they are the low and the high end of one range, which may be typed as such."""

    def __post_init__(self) -> None:
        if len(self.hints) != len(self.ask):
            raise WrongKey("hints", f"write one for each of {', '.join(self.ask)}")

    def hint_of(self, asked: Container[str]) -> str:
        """How to answer those of them that are asked."""
        each = zip(self.ask, self.hints, strict=True)
        return " ".join(hint for name, hint in each if name in asked)


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
