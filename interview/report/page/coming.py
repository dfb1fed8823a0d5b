"""One audit's page while its advice is still worked out: each part as soon as it is there."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from contextlib import AbstractContextManager
from dataclasses import dataclass
from typing import TYPE_CHECKING, Protocol

from interview.report.blocks import Block, Paragraph
from interview.report.page.closing import how_to_read
from interview.report.page.plan_steps import (
    one_plan,
    plan_blocks,
    plan_intro,
    rest_blocks,
    steps_of,
)
from interview.report.page.purchase import specification_blocks
from interview.report.page.whole import details, middle, opening, page_of, with_sources
from interview.report.page.windows import window_blocks

if TYPE_CHECKING:
    from interview.advice.advise import Advice, Progress
    from interview.advice.plans.plans import Plan
    from interview.audit.audit import Audit

__all__ = ["Coming", "Shows"]

_STOPPED = "You stopped the search here; what was found by then stands."


class Shows(Protocol):
    """What a page that comes in parts is shown on."""

    def blocks(self, blocks: Iterable[Block]) -> None:
        """Show each block as soon as it is there."""

    def working(self, text: str) -> AbstractContextManager[None]:
        """Tell what is worked out while that lasts."""


@dataclass
class Coming:
    """An audit whose advice comes bit by bit; it can be left at any time with what there is.

    `stopped` tells that Ctrl-C ended the work; `advice` is then what there was.
    """

    audit: Audit
    steps: Iterator[Progress]
    whole: bool = False
    advice: Advice | None = None
    stopped: bool = False
    _next: str = "what to look after and when"
    _searching: bool = True

    def show(self, on: Shows, *, at_once: bool = False) -> None:
        """The page from the grade on: what to mend, what to measure, each plan, the rest.

        `at_once` shows the usual page, once all is worked out.
        """
        if at_once:
            advice = self.finished(on.working)
            on.blocks(page_of(self.audit, advice=advice, whole=self.whole))
            return
        blocks = self._blocks(on.working)
        on.blocks(with_sources(self.audit, blocks) if self.whole else blocks)

    def finished(self, working: Callable[[str], AbstractContextManager[None]]) -> Advice | None:
        """The advice with all that is still to be worked out; as far as it got if stopped."""
        while self._advanced(working):
            pass
        return self.advice

    def _advanced(self, working: Callable[[str], AbstractContextManager[None]]) -> bool:
        """Take the next bit of advice; False where there is none, or Ctrl-C was pressed."""
        if self.stopped or not self._next:
            return False
        try:
            with working(self._said()):
                progress = next(self.steps, None)
        except KeyboardInterrupt:
            self.stopped = True
            return False
        if progress is None:
            self._next = ""
            return False
        self.advice, self._next = progress.advice, progress.next
        self._searching = progress.searching
        return True

    def _said(self) -> str:
        number = len(self.advice.plans) if self.advice else 0
        found = f" ({number} plan{'s' if number > 1 else ''})" if number else ""
        return f"Working out {self._next}{found}; Ctrl-C ends it."

    def _blocks(self, working: Callable[[str], AbstractContextManager[None]]) -> Iterator[Block]:
        audit, whole = self.audit, self.whole
        yield from opening(audit, "", whole)
        yield from self._plans(working)
        if audit.tank.lookup("stage") == "planning" and (advice := self.finished(working)):
            yield from specification_blocks(advice)
        yield from middle(audit, self.advice, whole)
        if whole:
            yield from details(audit)
            if advice := self.finished(working):
                yield from window_blocks(audit, advice)
            yield from how_to_read(audit)
        if self.stopped:
            yield Paragraph(_STOPPED)

    def _plans(self, working: Callable[[str], AbstractContextManager[None]]) -> Iterator[Block]:
        """Each plan when it is found, numbered; in the end which of them another made needless."""
        shown: list[Plan] = []
        above: list[str] = []
        while self._searching and self._advanced(working) and self.advice:
            for plan in self.advice.plans:
                if any(plan is old for old in shown):
                    continue
                if not shown:
                    yield from plan_intro(self.audit)
                shown.append(plan)
                yield from one_plan(self.audit, plan, above, f"Plan {len(shown)}: ")
                above = steps_of(plan)
        if self.advice is None:
            return
        kept = [n for n, p in enumerate(shown, 1) if any(p is q for q in self.advice.plans)]
        gone = [f"plan {n}" for n in range(1, len(shown) + 1) if n not in kept]
        if gone and kept:
            yield Paragraph(f"Plan {kept[-1]} takes the place of {' and '.join(gone)}.")
        if not shown:
            yield from plan_blocks(self.audit, self.advice)
        else:
            yield from rest_blocks(self.advice)
