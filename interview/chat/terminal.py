"""The face for a real terminal: prompt_toolkit hears, rich shows."""

from __future__ import annotations

import sys
from collections.abc import Iterable
from typing import TYPE_CHECKING

from prompt_toolkit import PromptSession
from prompt_toolkit.completion import WordCompleter
from prompt_toolkit.formatted_text import FormattedText
from prompt_toolkit.history import InMemoryHistory
from rich.console import Console
from rich.padding import Padding
from rich.table import Table
from rich.text import Text

from interview.chat.face import Asked, Interrupted, Tone

if TYPE_CHECKING:
    from interview.audit.audit import Audit

__all__ = ["TerminalFace"]

_GAUGE = 12
_LEADS: dict[Tone, tuple[str, str]] = {
    "remark": ("≈ ", "cyan"),
    "refusal": ("Not taken: ", "yellow"),
    "help": ("  ", "italic"),
    "note": ("  ", ""),
}


class TerminalFace:
    """Colour, a gauge that fills like a tank, completion and history."""

    def __init__(self, console: Console | None = None) -> None:
        """Show on the given console, or on standard output."""
        self._console = console or Console(highlight=False)
        self._ascii = "utf" not in (self._console.encoding or "").lower()
        self._session: PromptSession[str] = PromptSession(history=InMemoryHistory())

    def _show(self, text: Text, indent: int = 2) -> None:
        if self._ascii:
            text = Text(text.plain.replace("≈", "~").encode("ascii", "replace").decode())
        width = min(self._console.width, 88)
        self._console.print(Padding(text, (0, 0, 0, indent)), width=width)

    def topic(self, name: str, about: str) -> None:
        """A new stop: its name on a line of water."""
        self._console.print()
        wave = "~" if self._ascii else "≈"
        self._show(Text(f"{wave * 3} {name} {wave * 3}", "bold cyan"), 0)
        if about:
            self._show(Text(about, "dim"))

    def show(self, asked: Asked) -> None:
        """The gauge, the question, how to answer it, its choices."""
        self._console.print()
        if asked.topic:
            self._show(self._gauge(asked), 0)
        self._show(Text(f"{asked.animal}{asked.label}", "bold"))
        if asked.hint:
            self._show(Text(asked.hint, "dim"))
        for number, (_, label) in enumerate(asked.choices, start=1):
            self._show(Text.assemble((f"{number:>2}  ", "cyan"), label))

    @property
    def _prompt(self) -> str:
        return "~ " if self._ascii else "≈ "

    def heard(self, line: str) -> None:
        """The line behind the prompt."""
        self._console.print(Text.assemble((self._prompt, "bold cyan"), line))

    def hear(self, asked: Asked) -> str:
        """Read a line; the old answer stands in it ready to edit."""
        try:
            line = self._session.prompt(
                FormattedText([("ansicyan bold", self._prompt)]),
                default=asked.prefill,
                completer=WordCompleter(list(asked.completions), ignore_case=True, sentence=True),
                complete_while_typing=False,
            )
        except KeyboardInterrupt:
            raise Interrupted from None
        lines = [part for part in line.splitlines() if part.strip()]
        if len(lines) > 1:
            self.say(
                f"That was {len(lines)} lines pasted at once. One answer at a time: type or "
                "paste the answer to this question alone.",
                "refusal",
            )
            return ""
        return line.strip()

    def _gauge(self, asked: Asked) -> Text:
        full = round(_GAUGE * min(1.0, asked.number / max(asked.about, 1)))
        wet, dry = ("~", "-") if self._ascii else ("≈", "·")
        return Text.assemble(
            (wet * full, "cyan"),
            (dry * (_GAUGE - full), "dim"),
            (f"  {asked.topic.lower()}, {asked.number} of about {asked.about}", "dim"),
        )

    def say(self, text: str, tone: Tone = "note") -> None:
        """A paragraph, led by a word or a wave."""
        lead, style = _LEADS[tone]
        for paragraph in text.split("\n"):
            self._show(Text(f"{lead}{paragraph}", style), 2 if tone in ("remark", "refusal") else 0)

    def listing(self, title: str, rows: Iterable[tuple[str, str]]) -> None:
        """Two columns under a title."""
        self._console.print()
        self._show(Text(title, "bold"), 2)
        table = Table(box=None, show_header=False, padding=(0, 2, 0, 0), pad_edge=False)
        table.add_column(style="dim")
        table.add_column(overflow="fold")
        for label, value in rows:
            table.add_row(Text(label), Text(value))
        self._console.print(Padding(table, (0, 0, 0, 4)))

    def audit(self, audit: Audit, *, whole: bool = False) -> None:
        """The audit in colour."""
        from interview.report.terminal import audit_view

        self._console.print(audit_view(audit, whole=whole), width=min(self._console.width, 100))
        sys.stdout.flush()
