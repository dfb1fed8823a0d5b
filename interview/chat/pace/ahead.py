"""The audit of the answers as they stand, worked out while the keeper still reads."""

from __future__ import annotations

import gc
import threading
from dataclasses import replace
from functools import cache
from itertools import islice, takewhile
from typing import TYPE_CHECKING

from interview import assembly
from interview.chat.pace.upkeep import Answers, Upkeep
from interview.words.lexicon.rules import make_patterns

if TYPE_CHECKING:
    from interview.audit.audit import Audit, Judged
    from interview.audit.tank import Tank
    from interview.graph.interview import Interview

__all__ = ["Ahead"]


_FEW = 6
"""With fewer questions open in a round its end is near."""


class Ahead:
    """Judges answers in the background; only an audit of the very same answers is given out.

    The thread gets the answers as they stood, writes nothing and shows nothing. What goes wrong
    in it comes up again, with the keeper's line behind it, when the audit is asked for.
    """

    def __init__(self) -> None:
        self._answers: Answers | None = None
        self._thread: threading.Thread | None = None
        self._found: dict[int, Audit] = {}
        self._prepared = False
        self._upkeep = Upkeep()

    def answered(self, interview: Interview) -> None:
        """Prepare for what is judged next, after an answer: little is left to do then.

        What the audit needs is loaded once, and not before the first answer, which that would
        delay. Where a round of questions ends soon, its answers are judged as they come.
        """
        if not self._prepared:
            self._prepared = True
            threading.Thread(target=_load, daemon=True).start()
        elif _ends_soon(interview):
            self._upkeep.begin(_answers_of(interview))

    def begin(self, interview: Interview) -> None:
        """Start on the answers as they stand, unless that is done or going on."""
        answers = _answers_of(interview)
        if answers == self._answers:
            return
        self._answers, self._found = answers, {}
        self._thread = threading.Thread(target=_judge, args=(answers, self._found), daemon=True)
        self._thread.start()

    def judged(self, interview: Interview) -> Judged:
        """The findings and the grades of the answers as they stand."""
        from interview.audit.audit import judged  # heavy: not before the first answer

        return judged(self.tank(interview))

    def tank(self, interview: Interview) -> Tank:
        """The tank of the answers as they stand, for whoever judges it check by check."""
        self._upkeep.tank = tank = assembly.tank_to_judge(interview, self._upkeep.ended())
        return tank

    def audit(self, interview: Interview, title: str) -> Audit:
        """The audit of the answers as they stand: what was begun, or made now and kept."""
        answers = _answers_of(interview)
        if answers == self._answers and self._thread is not None:
            self._thread.join()
        if answers != self._answers or not self._found:
            self._answers, self._thread = answers, None
            self._found = {0: assembly.audit_of(interview, title)}
        return replace(self._found[0], title=title)


def _answers_of(interview: Interview) -> Answers:
    return Answers(dict(interview.given()), interview.system)


def _ends_soon(interview: Interview) -> bool:
    """Whether few questions are open in the round that the next one belongs to."""
    order, open_ = interview.order, interview.open_places()
    first = next(open_, None)
    if first is None:
        return False
    same = takewhile(lambda p: order.round_of(p.id) == order.round_of(first.id), open_)
    return sum(1 for _ in islice(same, _FEW)) < _FEW


@cache
def _load() -> None:
    """Load the audit, and spare the answers to come a search for garbage in what stays anyway.

    Once for the process: what later talks leave behind is collected. A search for what loading
    left behind would hold up the keeper's next answer.
    """
    assembly.warm_for_audit()
    make_patterns()
    gc.freeze()


def _judge(answers: Answers, found: dict[int, Audit]) -> None:
    try:
        found[0] = assembly.audit_of(answers, "")
    except Exception:
        # It is worked out again in the open, where a bug is told and logged.
        found.clear()
