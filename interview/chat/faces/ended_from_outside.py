"""A terminal that is read key by key is put back when the program is ended from outside."""

from __future__ import annotations

import os
import signal
import sys
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from types import FrameType

__all__ = ["put_back_when_ended"]

_USUAL = b"\x1b[?2004l\x1b[?25h\x1b[0m\r\n"
"""Pasting not marked, the cursor shown, no colour, a line of its own for the shell."""


@contextmanager
def put_back_when_ended() -> Iterator[None]:
    """While a line is edited, SIGTERM and SIGHUP end the program on a terminal as it was found.

    The program still dies of the signal; nothing is saved here, as every answer is already.
    """
    if sys.platform == "win32" or not sys.stdin.isatty():
        yield
        return
    import termios

    keys, found = sys.stdin.fileno(), termios.tcgetattr(sys.stdin)

    def end(number: int, _: FrameType | None) -> None:
        with suppress(termios.error):  # a terminal that is gone
            termios.tcsetattr(keys, termios.TCSANOW, found)
        with suppress(OSError):
            os.write(sys.stdout.fileno(), _USUAL)
        signal.signal(number, signal.SIG_DFL)
        os.kill(os.getpid(), number)

    # What is ignored, as by nohup, goes on being ignored.
    ends = [n for n in (signal.SIGTERM, signal.SIGHUP) if signal.getsignal(n) == signal.SIG_DFL]
    for number in ends:
        signal.signal(number, end)
    try:
        yield
    finally:
        for number in ends:
            signal.signal(number, signal.SIG_DFL)
