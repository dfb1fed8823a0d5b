"""The face for a real terminal: prompt_toolkit hears, rich shows."""

from __future__ import annotations

import sys
from collections.abc import Iterable
from dataclasses import replace

from prompt_toolkit import PromptSession
from prompt_toolkit.application import get_app
from prompt_toolkit.completion import WordCompleter
from prompt_toolkit.filters import shift_selection_mode
from prompt_toolkit.formatted_text import FormattedText
from prompt_toolkit.history import InMemoryHistory
from prompt_toolkit.input.typeahead import get_typeahead
from prompt_toolkit.key_binding import KeyBindings, KeyPressEvent
from prompt_toolkit.keys import Keys
from rich.console import Console
from rich.text import Text

from interview.chat.faces.ended_from_outside import put_back_when_ended
from interview.chat.faces.face import LEAST_WORDS, Asked, Face, Interrupted, Tone
from interview.chat.faces.screen_page import WIDEST, ScreenPage
from interview.chat.faces.waiting import Early, typed_ahead, unused
from interview.report.fitting import wrapped

__all__ = ["TerminalFace"]

_GAUGE = 12
_LABEL = 24
_EDITING = ("c-a", "c-e", "c-k", "c-u", "c-w", "c-y", "home", "end")
_LEADS: dict[Tone, tuple[str, str]] = {
    "remark": ("≈≈ ", "cyan"),
    "refusal": ("Not taken: ", "yellow"),
    "help": ("", "italic"),
    "note": ("", ""),
}


class TerminalFace(ScreenPage, Face):
    """Colour, a gauge that fills like a tank, completion and history."""

    def __init__(self, console: Console | None = None) -> None:
        """Show on the given console, or on standard output."""
        super().__init__(console)
        self._session: PromptSession[str] = PromptSession(
            history=InMemoryHistory(), key_bindings=_over_selection(), enable_suspend=True
        )
        self._standing: Asked | None = None
        self._early = Early()
        self._ended = False

    @property
    def live(self) -> bool:
        """Somebody sits at this terminal."""
        return True

    def _show(self, text: str, style: str = "", lead: str = "  ", lead_style: str = "") -> None:
        """A paragraph behind its lead; the lines after the first stand under the first word."""
        lead = self._fit(lead)
        width = min(self._console.width, WIDEST) - len(lead)
        for number, line in enumerate(wrapped(self._fit(text), width)):
            before = lead if number == 0 else " " * len(lead)
            self._console.print(Text.assemble((before, lead_style), (line, style)), soft_wrap=True)

    def topic(self, name: str, about: str) -> None:
        """A new stop: its name on a line of water."""
        self._standing = None
        self._console.print()
        self._show(f"≈≈≈ {name} ≈≈≈", "bold cyan", "")
        if about:
            self._show(about, "dim")

    def show(self, asked: Asked) -> None:
        """The gauge, the question, how to answer it, its choices.

        Asked again right after a refusal or some help, only the question itself is repeated.
        """
        ahead, ended = typed_ahead(sys.stdin)
        self._ended = self._ended or ended
        if ahead and not self._early.takes(ahead, asked):
            self.say(unused(ahead, "before I asked"), "refusal")
        asking = replace(asked, prefill="", before="", keeps="")
        again, self._standing = asking == self._standing, asking
        self._console.print()
        if not again and asked.topic:
            self._gauge(asked)
        self._show(f"{asked.animal}{asked.label}", "bold")
        if again:
            self._keep_line(asked)
            return
        if asked.hint:
            self._show(asked.hint, "dim")
        for number, label in asked.numbered:
            self._show(label, lead=f"  {number:>2}  ", lead_style="cyan")
        self._keep_line(asked)

    def _keep_line(self, asked: Asked) -> None:
        """What Enter keeps: what stands in the line, or the answer before."""
        if asked.prefill:
            self._show("Enter keeps what stands here; what you type takes its place.", "dim")
        elif asked.before:
            self._show(f"Answered before: {asked.before}. Enter keeps it.", "dim")

    @property
    def _prompt(self) -> str:
        return self._fit("≈ ")

    def heard(self, line: str) -> None:
        """The line behind the prompt."""
        self._show(line, lead=self._prompt, lead_style="bold cyan")

    def hear(self, asked: Asked) -> str:
        """Read a line; an old answer stands in it selected: Enter keeps it, typing replaces it."""
        if early := self._early.heard(asked):
            self.heard(early)
            return early
        if self._ended:
            raise EOFError
        words = WordCompleter(list(asked.completions), ignore_case=True, sentence=True)
        try:
            with put_back_when_ended():
                line = self._session.prompt(
                    FormattedText([("ansicyan bold", self._prompt)]),
                    default=self._fit(asked.prefill),
                    completer=words,
                    complete_while_typing=False,
                    pre_run=_select_all,
                )
        except KeyboardInterrupt:
            raise Interrupted from None
        lines = [part for part in line.splitlines() if part.strip()]
        more = self._pasted_behind()
        if asked.prose and not more and len(line.split()) >= LEAST_WORDS:
            lines = [" ".join(lines)]
        if len(lines) > 1 or more:
            self.say(
                f"That was {len(lines) + more} lines pasted at once. One answer at a time: type "
                "or paste the answer to this question alone.",
                "refusal",
            )
            return ""
        # A byte that is no text in this terminal's encoding can't be saved either.
        typed = "".join(lines).strip() or asked.keeps
        return typed.encode("utf-8", "replace").decode("utf-8")

    def _pasted_behind(self) -> int:
        """How many further lines came in one piece with this one; they are dropped.

        Terminals without bracketed paste send pasted lines as if each was typed. Keys that
        arrived together with Enter would otherwise answer the next question.
        """
        keys = get_typeahead(self._session.app.input)
        return sum(press.key in (Keys.ControlM, Keys.ControlJ) for press in keys)

    def _gauge(self, asked: Asked) -> None:
        full = round(_GAUGE * min(1.0, asked.number / max(asked.about, 1)))
        second = asked.topic[1:2]
        topic = asked.topic if second.isupper() else asked.topic[:1].lower() + asked.topic[1:]
        gauge = Text.assemble(
            (self._fit("≈" * full), "cyan"),
            (self._fit("·" * (_GAUGE - full)), "dim"),
            (self._fit(f"  {topic} · {asked.number} of about {asked.about}"), "dim"),
        )
        self._console.print(gauge, soft_wrap=True)

    def say(self, text: str, tone: Tone = "note") -> None:
        """A paragraph, led by a word or a wave."""
        lead, style = _LEADS[tone]
        for paragraph in text.split("\n"):
            if tone == "refusal":
                self._show(f"{lead}{paragraph}", style)
            else:
                self._show(paragraph, style, f"  {lead}", style)

    def listing(self, title: str, rows: Iterable[tuple[str, str]]) -> None:
        """Two columns under a title."""
        self._standing = None
        self._console.print()
        self._show(title, "bold")
        for label, value in rows:
            lead = f"    {self._fit(label):<{_LABEL}}  "
            self._show(value, lead=lead, lead_style="dim")


def _select_all() -> None:
    buffer = get_app().current_buffer
    if buffer.text:
        buffer.cursor_position = 0
        buffer.start_selection()
        if buffer.selection_state:
            buffer.selection_state.enter_shift_mode()
        buffer.cursor_position = len(buffer.text)


def _over_selection() -> KeyBindings:
    """What is pasted takes the place of what is selected; Enter leaves it as plain text."""
    bindings = KeyBindings()

    @bindings.add(Keys.Enter, filter=shift_selection_mode)
    def keep(event: KeyPressEvent) -> None:
        event.current_buffer.exit_selection()
        event.current_buffer.validate_and_handle()

    @bindings.add(Keys.BracketedPaste, filter=shift_selection_mode)
    def paste(event: KeyPressEvent) -> None:
        event.current_buffer.cut_selection()
        event.current_buffer.insert_text("\n".join(event.data.splitlines()))

    @bindings.add("c-c", filter=shift_selection_mode, eager=True)
    def interrupt(event: KeyPressEvent) -> None:
        event.app.exit(exception=KeyboardInterrupt)

    @bindings.add("c-d", filter=shift_selection_mode, eager=True)
    def leave(event: KeyPressEvent) -> None:
        event.app.exit(exception=EOFError)

    def edit(event: KeyPressEvent) -> None:
        """Give the selection up, then do what the key does."""
        event.current_buffer.exit_selection()
        event.key_processor.feed(event.key_sequence[0], first=True)

    for key in _EDITING:
        bindings.add(key, filter=shift_selection_mode)(edit)
    return bindings
