"""A keeper who answers from a setup file: for the demo and the golden conversations."""

from __future__ import annotations

import time
from collections.abc import Iterable
from typing import TYPE_CHECKING

from interview.chat.face import Asked, Face, Tone
from interview.setups import Setup

if TYPE_CHECKING:
    from interview.advice.advise import Advice
    from interview.audit.audit import Audit
    from interview.graph.interview import Place

__all__ = ["ScriptedFace"]


class ScriptedFace:
    """Shows everything on another face and types the setup's answers itself."""

    def __init__(self, inner: Face, setup: Setup, pause: float = 0.0) -> None:
        """Answer from `setup`, waiting `pause` seconds before each answer."""
        self._inner, self._setup, self._pause = inner, setup, pause
        self._last: Place | None = None

    def topic(self, name: str, about: str) -> None:
        """Pass on."""
        self._inner.topic(name, about)

    def show(self, asked: Asked) -> None:
        """Pass on."""
        self._inner.show(asked)

    def hear(self, asked: Asked) -> str:
        """The setup's answer to the question; a question it lacks is skipped.

        An answer that isn't taken would be typed for ever, so the keeper leaves instead.
        """
        if asked.place is not None and asked.place == self._last:
            raise EOFError
        self._last = asked.place
        if asked.place is None:
            line = "yes"
        elif asked.place.id == "animal_count":
            line = str(self._setup.animals)
        else:
            line = self._setup.answers.get(asked.place, "skip")
        time.sleep(self._pause)
        self._inner.heard(line)
        return line

    def heard(self, line: str) -> None:
        """Pass on."""
        self._inner.heard(line)

    def say(self, text: str, tone: Tone = "note") -> None:
        """Pass on."""
        self._inner.say(text, tone)

    def listing(self, title: str, rows: Iterable[tuple[str, str]]) -> None:
        """Pass on."""
        self._inner.listing(title, rows)

    def compare(self, before: Audit, after: Audit) -> None:
        """Pass on."""
        self._inner.compare(before, after)

    def audit(self, audit: Audit, advice: Advice | None = None, *, whole: bool = False) -> None:
        """Pass on."""
        self._inner.audit(audit, advice, whole=whole)
