"""Whether a typed line is waiting at a terminal: what comes faster than a person types."""

from __future__ import annotations

import os
import re
import select
import sys
import time
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TextIO

from interview.chat.faces.face import LEAST_WORDS, Asked
from interview.words.text.refusal import quoted

__all__ = ["Early", "line_waits", "typed_ahead", "unused"]

_STEP = 0.01
_QUOTED = 3
_REPLY = re.compile(r"\x1b\[[\d;?]*[A-Za-z~]")
"""What a terminal itself answers, as where its cursor is."""


@dataclass
class Early:
    """A story typed before a question stood there, kept until one is there to hear it.

    At the first question another line may be heard, one that was said before that.
    """

    _story: str = ""

    def takes(self, lines: Sequence[str], asked: Asked) -> bool:
        """Keep lines that tell a story, where one is asked for; else they are of no use.

        A single word was meant for what stood there, or for nothing.
        """
        is_told = asked.prose and any(len(line.split()) >= LEAST_WORDS for line in lines)
        if is_told:
            self._story = " ".join(line for line in (self._story, *lines) if line)
        return is_told

    def heard(self, asked: Asked) -> str:
        """The story, at the question that hears it; "" where there is none, or no question."""
        story, self._story = (self._story, "") if asked.place else ("", self._story)
        return story


def unused(lines: Sequence[str], when: str) -> str:
    """The sentence about lines that answer nothing, with how they came, as “at once”."""
    names = ", ".join(map(quoted, lines[:_QUOTED]))
    more = f" and {len(lines) - _QUOTED} more" if len(lines) > _QUOTED else ""
    number = "1 line" if len(lines) == 1 else f"{len(lines)} lines"
    return (
        f"{number} came {when}, and I used none: {names}{more}. Answer one question at a "
        "time, once it is asked."
    )


def typed_ahead(stream: TextIO) -> tuple[list[str], bool]:
    """The lines that wait at a terminal that nobody has read from yet, and whether it ended.

    They are read past the stream's own buffer, which would hide them from `line_waits`.
    """
    lines: list[str] = []
    while sys.platform != "win32" and line_waits(stream):
        piece = os.read(stream.fileno(), 4096)
        if not piece:
            return lines, True
        text = _REPLY.sub("", piece.decode("utf-8", "replace"))
        lines += [line.strip() for line in text.splitlines() if line.strip()]
    return lines, False


def line_waits(stream: TextIO, patience: float = 0.0) -> bool:
    """Whether a terminal has a line, or the end of input, to be read within some seconds."""
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
