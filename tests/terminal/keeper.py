"""A keeper at a real terminal: types on a pseudo-terminal, reads the screen it draws."""

from __future__ import annotations

import os
import sys
import time
from collections.abc import Callable
from pathlib import Path
from types import TracebackType
from typing import Any, Self

import pexpect
import pyte
from started import Started

PASTE = "\x1b[200~{}\x1b[201~"
_PATIENCE = 60.0


class _Screen(pyte.HistoryScreen):
    """A screen that answers what a program asks it, as a terminal does."""

    reply: Callable[[str], Any]

    def write_process_input(self, data: str) -> None:
        self.reply(data)


class Keeper:
    """One run of the program in a terminal.

    `margin` gives the screen more columns than the program is told it has, so that a line
    that is too wide shows as such instead of wrapping.
    """

    def __init__(
        self,
        folder: Path,
        *arguments: str,
        columns: int = 80,
        rows: int = 24,
        margin: int = 0,
        **environment: str,
    ) -> None:
        around = {
            name: value
            for name, value in os.environ.items()
            if name not in ("NO_COLOR", "COLUMNS", "LINES", "PYTHONIOENCODING", "PYTHONUTF8")
        }
        around |= {"TERM": "xterm-256color", "LC_ALL": "C.UTF-8", "TANKSIDE_FOLDER": str(folder)}
        size = rows, columns
        self._child: Any
        if environment:
            around |= environment
            command = ["-m", "interview", *arguments]
            self._child = pexpect.spawn(
                sys.executable, command, dimensions=size, env=around, timeout=_PATIENCE
            )
        else:
            self._child = Started([*arguments], around, size, _PATIENCE)
        self._child.delaybeforesend = None
        self._screen = _Screen(columns + margin, rows, history=20_000, ratio=0.5)
        self._screen.reply = self._child.send
        self._stream = pyte.ByteStream(self._screen)
        self._ended = False
        self.raw = b""
        """All bytes so far: only for tests of which bytes are never sent."""

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        problem: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self._child.close(force=True)

    # ---- reading

    @property
    def screen(self) -> str:
        """What stands on the screen now, without trailing blanks."""
        return "\n".join(line.rstrip() for line in self._screen.display).rstrip()

    @property
    def lines(self) -> list[str]:
        """Everything shown so far, what has scrolled away included."""
        columns = range(self._screen.columns)
        gone = ["".join(row[n].data for n in columns) for row in self._screen.history.top]
        return [line.rstrip() for line in (*gone, *self._screen.display)]

    @property
    def words(self) -> str:
        """Everything shown so far as running text."""
        return " ".join(" ".join(self.lines).split())

    @property
    def typing(self) -> str:
        """The line the cursor is in."""
        return self._screen.display[self._screen.cursor.y].rstrip()

    def _row(self) -> int:
        return len(self._screen.history.top) + self._screen.cursor.y

    def _pull(self, seconds: float = 0.02) -> bool:
        """Feed what has arrived to the screen; False when there was nothing."""
        try:
            piece = b"" if self._ended else self._child.read_nonblocking(65536, timeout=seconds)
        except pexpect.TIMEOUT:
            return False
        except pexpect.EOF:
            self._ended = True
            return False
        self.raw += piece
        self._stream.feed(piece)
        return bool(piece)

    def wait(self, ready: Callable[[], bool], what: str) -> None:
        """Read on until something holds; AssertionError shows the screen when it never does."""
        end = time.monotonic() + _PATIENCE
        while time.monotonic() < end:
            if not self._pull() and ready():
                return
            if self._ended:
                break
        raise AssertionError(f"never saw {what}; the screen shows:\n{self.screen}")

    def sees(self, text: str) -> None:
        """Wait until the screen shows a text, however it is wrapped."""
        wanted = " ".join(text.split())
        self.wait(lambda: wanted in " ".join(self.screen.split()), f"“{text}”")

    def prompted(self, start: str = "≈") -> None:
        """Wait for a line to type in."""
        self.wait(lambda: self.typing.startswith(start), "a prompt")

    # ---- typing

    def press(self, keys: str) -> None:
        """Press keys, Enter not included."""
        self._child.send(keys)

    def answer(self, text: str, start: str = "≈") -> None:
        """Type a line at a prompt and wait for the next one."""
        self.prompted(start)
        self.press(text)
        self.wait(lambda: text[-20:] in self.typing or len(text) > 60, f"“{text}” typed")
        self.enter(start)

    def enter(self, start: str = "≈") -> None:
        """Press Enter on what stands in the line and wait for the next prompt."""
        row = self._row()
        self.press("\r")
        self.wait(lambda: self._row() > row and self.typing.startswith(start), "the next prompt")

    def enter_and_go_on_typing(self, text: str) -> None:
        """Press Enter, and type on as soon as the line is taken, before the next prompt."""
        row = self._row()
        self.press("\r")
        self.wait(lambda: self._row() > row, "the line taken")
        self.press(text)

    def last_answer(self, text: str) -> int:
        """Type a line after which the program ends; returns its exit code."""
        self.press(f"{text}\r")
        return self.leaves()

    def ended_by(self, number: int) -> bool:
        """End the program by a signal; whether the terminal shows again what is typed."""
        self._child.kill(number)
        end = time.monotonic() + _PATIENCE
        while not self._ended and time.monotonic() < end:
            self._pull()
        assert self._child.wait() is None and self._child.signalstatus == number
        return bool(self._child.getecho())

    def leaves(self) -> int:
        """Wait for the end of the program; returns its exit code."""
        end = time.monotonic() + _PATIENCE
        while not self._ended and time.monotonic() < end:
            self._pull()
        assert self._ended, f"it doesn't end; the screen shows:\n{self.screen}"
        self._child.close()
        assert self._child.exitstatus is not None, "killed by a signal"
        return int(self._child.exitstatus)
