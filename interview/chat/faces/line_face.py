"""The plain face: lines in, lines out, nothing drawn twice; for pipes and screen readers."""

from __future__ import annotations

import io
import sys
import textwrap
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from dataclasses import replace
from typing import TYPE_CHECKING, TextIO

from interview.base.rows.lines import printable
from interview.chat.faces.face import LEAST_WORDS, Asked, Face, Interrupted, Tone
from interview.chat.faces.waiting import Early, line_waits, unused
from interview.report.fitting import to_ascii

if TYPE_CHECKING:
    from interview.report.blocks import Block

__all__ = ["PlainFace"]

_WIDTH = 78
_PROMPT = "Answer: "
_BURST = 0.05
"""Seconds: a line that follows another faster than this was pasted, not typed."""
_LEADS: dict[Tone, str] = {"remark": "So: ", "refusal": "Not taken: ", "help": "", "note": ""}


def _forgiving(stream: TextIO) -> TextIO:
    """The stream, with a question mark for what its encoding can't hold, instead of a failure."""
    if isinstance(stream, io.TextIOWrapper) and stream.errors == "strict":
        stream.reconfigure(errors="replace")
    return stream


class PlainFace(Face):
    """Prints paragraphs and numbered choices; reads answers line by line."""

    def __init__(self, lines: TextIO | None = None, out: TextIO | None = None) -> None:
        """Talk over the given streams, or over standard input and output."""
        self._in = lines or _forgiving(sys.stdin)
        self._out = out or _forgiving(sys.stdout)
        self._echo = not self._in.isatty()
        self._ascii = "utf" not in (self._out.encoding or "utf-8").lower()
        self._standing: Asked | None = None
        self._ended = False
        self._early = Early()
        self._told = ""

    @property
    def live(self) -> bool:
        """Whether a person types: at a terminal, not through a pipe."""
        return not self._echo

    def _fit(self, text: str) -> str:
        """The text as the output can show it, before it is wrapped: ° may become deg."""
        return to_ascii(text) if self._ascii else text

    def _print(self, text: str = "", indent: str = "", taken: int = 0) -> None:
        """Print a paragraph, after `taken` columns of its first line."""
        lines = textwrap.wrap(
            self._fit(printable(text)),
            _WIDTH,
            initial_indent=indent or " " * taken,
            subsequent_indent=indent,
            break_on_hyphens=False,  # a path stays whole, to be copied
        )
        self._emit("\n".join(lines)[taken:])

    def topic(self, name: str, about: str) -> None:
        """A blank line, the topic's name and what it is about."""
        self._standing = None
        self._print()
        self._print(f"Topic: {name}")
        if about:
            self._print(about)

    def show(self, asked: Asked) -> None:
        """Print the question line by line, each choice with its number.

        Asked again right after a refusal or some help, only the question itself is repeated.
        """
        ahead = self._rest(0.0)
        if not self._early.takes(ahead, asked):
            self._drop(ahead, "before I asked")
        asking = replace(asked, prefill="", before="", keeps="")
        again, self._standing = asking == self._standing, asking
        self._print()
        if again:
            self._print(f"{asked.animal}{asked.label}")
            self._keep_line(asked)
            print(_PROMPT, end="", file=self._out, flush=True)
            return
        if asked.topic:
            self._print(f"{asked.topic}, question {asked.number} of about {asked.about}")
        self._print(f"{asked.animal}{asked.label}")
        if asked.hint:
            self._print(asked.hint)
        for number, label in asked.numbered:
            self._print(f"{number}. {label}", "  ")
        if asked.before:
            self._keep_line(asked)
        print(_PROMPT, end="", file=self._out, flush=True)

    def _keep_line(self, asked: Asked) -> None:
        """What Enter alone answers; at first the hint says so of what isn't kept but taken."""
        if asked.before:
            self._print(f"Answered before: {asked.before}. Press Enter to keep it.")
        elif asked.keeps:
            self._print(f"Press Enter for: {asked.keeps}")

    def hear(self, asked: Asked) -> str:
        """Read one line; Enter alone keeps the answer before.

        At a terminal, lines pasted together may be a story where one is asked for, but none
        of them answers this question or the next.
        """
        if early := self._early.heard(asked):
            self.heard(early)
            return early
        line = self._line()
        if not line:
            print(file=self._out)
            raise EOFError
        if self._echo:
            self.heard(line.strip())
        elif more := self._rest(_BURST):
            lines = [part for part in (line.strip(), *more) if part]
            if asked.prose and any(len(part.split()) >= LEAST_WORDS for part in lines):
                return " ".join(lines)
            self._drop(lines, "at once")
            return ""
        return line.strip() or asked.keeps

    def _line(self) -> str:
        if self._ended:
            return ""
        try:
            return self._in.readline()
        except KeyboardInterrupt:
            raise Interrupted from None

    def _rest(self, patience: float) -> list[str]:
        """The lines that already wait at a terminal; a pipe's lines are left where they are."""
        lines: list[str] = []
        while not self._echo and not self._ended and line_waits(self._in, patience):
            line = self._line()
            self._ended = not line
            lines += [line.strip()] if line.strip() else []
        return lines

    def _drop(self, lines: list[str], when: str) -> None:
        """Say which lines were not used."""
        if lines:
            self.say(unused(lines, when), "refusal")

    def heard(self, line: str) -> None:
        """The line, after the prompt."""
        self._print(line, taken=len(_PROMPT))

    def say(self, text: str, tone: Tone = "note") -> None:
        """A paragraph, led by a word that tells what it is."""
        for paragraph in text.split("\n"):
            self._print(f"{_LEADS[tone]}{paragraph}")

    def listing(self, title: str, rows: Iterable[tuple[str, str]]) -> None:
        """Title, then a labelled line a row."""
        self._standing = None
        self._print()
        self._print(title)
        for label, value in rows:
            self._print(f"{label}: {value}" if value else label, "  ")

    def blocks(self, blocks: Iterable[Block]) -> None:
        """Blocks in plain lines, each printed at once."""
        from interview.report.formats.plain import block_lines

        for line in block_lines(blocks):
            self._emit(line)

    @contextmanager
    def working(self, text: str) -> Iterator[None]:
        """One sentence, said once to somebody who waits."""
        if self.live and text != self._told:
            self._told = text
            self._print(text)
        yield

    def _emit(self, line: str) -> None:
        print(line, file=self._out, flush=True)
