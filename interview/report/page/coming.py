"""One audit's page while its advice is still worked out: each part as soon as it is there."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from contextlib import AbstractContextManager
from dataclasses import dataclass
from typing import TYPE_CHECKING, Protocol, TypeAlias

from interview.report.blocks import Block, Paragraph
from interview.report.first_page.blocks import beginning_blocks
from interview.report.first_page.page import first_page
from interview.report.page.whole import layers_of, page_of, with_sources

if TYPE_CHECKING:
    from interview.advice.advise import Advice, Progress
    from interview.audit.audit import Audit

__all__ = ["Coming", "Shows"]

Working: TypeAlias = Callable[[str], AbstractContextManager[None]]
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
        """The first page, the grade at once and the rest with the plans; if `whole` all else.

        While the plans are searched for, a line tells how many there are and where they lead.

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
        """What is worked out now, and how far the plans have come."""
        found = self.advice.plans if self.advice else ()
        number = f"{len(found)} plan{'s' if len(found) > 1 else ''}"
        far = f" ({number}: {found[-1].grades.reached})" if found else ""
        return f"Working out {self._next}; Ctrl-C ends it{far}."

    def _page(self, working: Working) -> Iterator[Block]:
        """What is known with the grade at once; the rest when the plans are there."""
        audit = self.audit
        known = list(beginning_blocks(first_page(audit)))
        yield from known
        while self._searching and self._advanced(working):
            pass
        if audit.tank.lookup("stage") == "planning":
            self.finished(working)  # what to get is worked out last
        yield from list(page_of(audit, advice=self.advice, whole=False))[len(known) :]
