"""Whether a typed line is waiting at a terminal: what comes faster than a person types."""

from __future__ import annotations

import select
import sys
import time
from typing import TextIO

__all__ = ["line_waits"]

_STEP = 0.01


def line_waits(stream: TextIO, patience: float = 0.0) -> bool:
    """Whether a line, or the end of input, is there to be read from a terminal.

    Args:
        stream: the terminal's input
        patience: how long to wait for one [s]
    """
    if sys.platform == "win32":
        return _keys_wait(patience)
    try:
        return bool(select.select([stream], [], [], patience)[0])
    except (OSError, ValueError):  # no file behind the stream: nothing can wait in it
        return False


if sys.platform == "win32":  # pragma: no cover

    def _keys_wait(patience: float) -> bool:
        import msvcrt

        end = time.monotonic() + patience
        while not msvcrt.kbhit():
            if time.monotonic() >= end:
                return False
            time.sleep(_STEP)
        return True
