"""A tank kept worked out as its answers come: little is left when its grade is asked for."""

from __future__ import annotations

import threading
from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from interview import assembly

if TYPE_CHECKING:
    from interview.audit.tank import Tank

__all__ = ["Answers", "Upkeep"]


@dataclass(frozen=True)
class Answers:
    """The answers at one moment, which nobody changes any more."""

    told: Mapping[str, Any]
    system: str

    def given(self) -> Mapping[str, Any]:
        """As of an interview."""
        return self.told


class Upkeep:
    """Judges the newest answers in a thread and keeps the tank alone, with all it came to.

    What the next answers leave as it was need not be worked out again. Nobody else may touch the
    tank before `ended`.
    """

    def __init__(self) -> None:
        self.tank: Tank | None = None
        self._next: Answers | None = None
        self._is_ending = False
        self._thread: threading.Thread | None = None
        self._lock = threading.Lock()

    def begin(self, answers: Answers) -> None:
        """Go on with these answers; what is still to do for earlier ones is left."""
        with self._lock:
            self._next = answers
            if self._thread is None:
                self._thread = threading.Thread(target=self._run, daemon=True)
                self._thread.start()

    def ended(self) -> Tank | None:
        """The tank as far as it is worked out, once the thread has let go of it."""
        with self._lock:
            self._next, self._is_ending, thread = None, True, self._thread
        if thread is not None:
            thread.join()
        self._is_ending = False
        return self.tank

    def _run(self) -> None:
        while (answers := self._taken()) is not None:
            try:
                self._judge(answers)
            except Exception:
                # It is worked out again in the open, where a bug is told and logged.
                self.tank = None

    def _taken(self) -> Answers | None:
        with self._lock:
            answers, self._next = self._next, None
            if answers is None:
                self._thread = None
            return answers

    def _judge(self, answers: Answers) -> None:
        from interview.audit.checks.judging import judge  # heavy: not before the first answer
        from interview.audit.checks.loader import all_checks

        self.tank = tank = assembly.tank_of(answers, drawn=True, before=self.tank)
        for check in sorted(all_checks(), key=lambda one: not one.may_endanger):
            if self._is_ending or self._next is not None:
                return
            judge(check, tank)
