"""The audit of the answers as they stand, worked out while the keeper still reads."""

from __future__ import annotations

import gc
import threading
from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cache
from typing import TYPE_CHECKING, Any

from interview import assembly

if TYPE_CHECKING:
    from interview.audit.audit import Audit
    from interview.graph.interview import Interview

__all__ = ["Ahead"]


@dataclass(frozen=True)
class _Answers:
    """The answers at one moment, which nobody changes any more."""

    told: Mapping[str, Any]
    system: str

    def given(self) -> Mapping[str, Any]:
        """As of an interview."""
        return self.told


class Ahead:
    """Judges answers in the background; only an audit of the very same answers is given out.

    The thread gets the answers as they stood, writes nothing and shows nothing. What goes wrong
    in it comes up again, with the keeper's line behind it, when the audit is asked for.
    """

    def __init__(self) -> None:
        self._answers: _Answers | None = None
        self._thread: threading.Thread | None = None
        self._found: dict[int, Audit] = {}
        self._prepared = False

    def prepare(self) -> None:
        """Load what the audit needs, once; not before the first answer, which it would delay."""
        if not self._prepared:
            self._prepared = True
            threading.Thread(target=_load, daemon=True).start()

    def begin(self, interview: Interview) -> None:
        """Start on the answers as they stand, unless that is done or going on."""
        answers = _Answers(dict(interview.given()), interview.system)
        if answers == self._answers:
            return
        self._answers, self._found = answers, {}
        work = (answers, self._found)
        self._thread = threading.Thread(target=_judge, args=work, daemon=True)
        self._thread.start()

    def ready(self) -> Audit | None:
        """The audit that was begun, once it is there; of the answers as they stood then."""
        return self._found.get(0)

    def audit(self, interview: Interview, title: str) -> Audit:
        """The audit of the answers as they stand: what was begun, or made now and kept."""
        answers = _Answers(dict(interview.given()), interview.system)
        if answers == self._answers and self._thread is not None:
            self._thread.join()
        if answers != self._answers or not self._found:
            self._answers, self._thread = answers, None
            self._found = {0: assembly.audit_of(interview, title)}
        return replace(self._found[0], title=title)


@cache
def _load() -> None:
    """Load the audit, and spare the answers to come a search for garbage in what stays anyway.

    Once for the process: what later talks leave behind is collected.
    """
    assembly.warm_for_audit()
    gc.collect()
    gc.freeze()


def _judge(answers: _Answers, found: dict[int, Audit]) -> None:
    try:
        found[0] = assembly.audit_of(answers, "")
    except Exception:
        # It is worked out again in the open, where a bug is told and logged.
        found.clear()
