"""One audit's page while its advice is still worked out: each part as soon as it is there."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from contextlib import AbstractContextManager
from dataclasses import dataclass
from typing import TYPE_CHECKING, Protocol, TypeAlias

from interview.report.blocks import Block, Labelled, Paragraph
from interview.report.first_page.blocks import beginning_blocks, plan_block, rest_blocks
from interview.report.first_page.page import first_page
from interview.report.first_page.sentences import enumerated
from interview.report.page.figures import drawing
from interview.report.page.whole import layers_of, page_of, with_sources

if TYPE_CHECKING:
    from interview.advice.advise import Advice, Progress
    from interview.advice.plans.plan import Plan
    from interview.audit.audit import Audit

__all__ = ["Coming", "Shows"]

Working: TypeAlias = Callable[[str], AbstractContextManager[None]]
_ORDINALS = ("first", "second", "third", "fourth")
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
        """The first page from the grade on, each plan when it is found; if `whole` the rest.

        `at_once` shows the usual page, once all is worked out.
        """
        if at_once:
            advice = self.finished(on.working)
            on.blocks(page_of(self.audit, advice=advice, whole=self.whole))
            return
        on.blocks(self._page(on.working))
        if self.whole:
            advice = self.finished(on.working)
            on.blocks(with_sources(self.audit, layers_of(self.audit, advice)))
        if self.stopped:
            on.blocks([Paragraph(_STOPPED)])

    def finished(self, working: Working) -> Advice | None:
        """The advice with all that is still to be worked out; as far as it got if stopped."""
        while self._advanced(working):
            pass
        return self.advice

    def _advanced(self, working: Working) -> bool:
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

    def _page(self, working: Working) -> Iterator[Block]:
        """What is known with the grade at once, each plan when it is found, then what follows."""
        audit, taken = self.audit, list(beginning_blocks(first_page(self.audit)))
        yield from taken
        for block in self._plans(working):
            taken.append(block)
            yield block
        if audit.tank.lookup("stage") == "planning":
            self.finished(working)  # what to get is worked out last
        page = first_page(audit, self.advice)
        yield from rest_blocks(page, lambda most, last: drawing(audit, page, most, last), taken)

    def _plans(self, working: Working) -> Iterator[Block]:
        """A line for each plan when it is found; in the end which another made needless.

        One that is found anew and reads the same takes the old one's place without a word.
        """
        shown: list[Plan] = []
        lines: list[Block] = []
        while self._searching and self._advanced(working) and self.advice:
            for plan in self.advice.plans:
                if any(plan is old for old in shown):
                    continue
                line = plan_block(plan, 0, stop=self.audit.grades.stop)
                if line in lines:
                    shown[lines.index(line)] = plan
                    continue
                yield plan_block(plan, len(shown), stop=self.audit.grades.stop)
                shown.append(plan)
                lines.append(line)
        if self.advice is None:
            return
        gone = [p for p in shown if not any(p is q for q in self.advice.plans)]
        if gone and len(gone) < len(shown):
            names = enumerated([f"the {_ORDINALS[shown.index(plan)]}" for plan in gone])
            yield Labelled("", (("", f"The last takes the place of {names}."),))
