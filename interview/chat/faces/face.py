"""What a face of the conversation can do; the talk knows nothing else of the screen."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from contextlib import AbstractContextManager
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal, Protocol, TypeAlias

if TYPE_CHECKING:
    from interview.audit.audit import Audit
    from interview.graph.interview import Place
    from interview.report.blocks import Block

__all__ = ["LEAST_WORDS", "Asked", "Face", "Interrupted", "Left", "Tone"]

LEAST_WORDS = 6
"""A line of fewer words is an answer, not a story."""

Tone: TypeAlias = Literal["remark", "refusal", "help", "note"]


@dataclass(frozen=True)
class Asked:
    """One question as the keeper sees it."""

    label: str
    hint: str = ""
    topic: str = ""
    number: int = 0
    about: int = 0
    animal: str = ""
    choices: Sequence[tuple[str, str]] = ()
    numbers: Sequence[int] = ()
    """Of the choices, where some that stood there before are gone; from one on where empty."""
    completions: Sequence[str] = ()
    prefill: str = ""
    """What stands in the line to begin with, where the face has such a line."""
    before: str = ""
    """The answer given before, as it is shown."""
    keeps: str = ""
    """The same as typed: what Enter alone answers."""
    help: str = ""
    """What “?” says first at a prompt that is no question; the hint where empty."""
    place: Place | None = None
    row: Sequence[Place] = ()
    """All that is asked for, where several questions are asked in one go."""
    clear: Sequence[str] = ()
    """Where faults are asked of in a list: of each in the row, the answer where it has none."""
    prose: bool = False
    """Whether several lines pasted together are a story, not several answers."""

    @property
    def numbered(self) -> Iterable[tuple[int, str]]:
        """The choices as they are shown, each behind its number."""
        labels = [label for _, label in self.choices]
        return zip(self.numbers or range(1, len(labels) + 1), labels, strict=True)


class Left(Exception):
    """The keeper left before the end; everything is saved. `anew` for another tank."""

    def __init__(self, *, interrupted: bool = False, anew: bool = False) -> None:
        self.interrupted, self.anew = interrupted, anew
        super().__init__("left")


class Interrupted(Left):
    """The keeper pressed Ctrl-C at a prompt, and leaves unless asked whether to."""

    def __init__(self) -> None:
        super().__init__(interrupted=True)


class Face(Protocol):
    """A way of showing the conversation and hearing answers.

    `live` tells that somebody sits there who can be asked back; lines from a pipe can't.
    """

    @property
    def live(self) -> bool:
        """Whether a person types."""

    def topic(self, name: str, about: str) -> None:
        """A new stop on the walk round the tank."""

    def show(self, asked: Asked) -> None:
        """Put a question on the screen."""

    def hear(self, asked: Asked) -> str:
        """Return the line typed at the question shown.

        Raises Interrupted on Ctrl-C and EOFError at the end of input.
        """

    def heard(self, line: str) -> None:
        """Show a line as if it had been typed."""

    def say(self, text: str, tone: Tone = "note") -> None:
        """One paragraph from the assistant."""

    def listing(self, title: str, rows: Iterable[tuple[str, str]]) -> None:
        """Label and value, row by row."""

    def compare(self, before: Audit, after: Audit) -> None:
        """What changed between two audits: grades and verdicts, before and after."""
        from interview.report.before_and_after import comparison_blocks

        self.blocks(comparison_blocks(before, after))

    def blocks(self, blocks: Iterable[Block]) -> None:
        """Parts of a page, each as soon as it is there."""

    def working(self, text: str) -> AbstractContextManager[None]:
        """Tell what is worked out while that lasts."""
