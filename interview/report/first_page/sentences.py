"""Sentences for a page that has room for few."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Sequence

__all__ = ["TWO_LINES", "beginning", "enumerated", "lines_of", "named", "sentences"]

TWO_LINES = 150
"""Characters that take two lines of 80 columns."""

_ACROSS = 61  # characters beside label and number

_SENTENCE = re.compile(r"(?<=[.!?]) (?=[A-Z“])")


def lines_of(step: str) -> int:
    """Lines that a step takes on a page of 80 columns."""
    return len(textwrap.wrap(step, _ACROSS))


def sentences(text: str) -> list[str]:
    """Its sentences, each with its full stop."""
    return _SENTENCE.split(text)


def beginning(text: str, most: float) -> str:
    """The first sentence, and those after it while all together stay under `most` characters."""
    told = ""
    for sentence in sentences(text):
        longer = f"{told} {sentence}".strip()
        if told and len(longer) > most:
            break
        told = longer
    return told


def enumerated(items: Sequence[str]) -> str:
    """a; a and b; a, b and c."""
    *most, last = items
    return f"{', '.join(most)} and {last}" if most else last


def named(names: Sequence[str], most: int) -> str:
    """So many of the names at most, the last of them the number of those left out."""
    few = names if len(names) <= most else [*names[: most - 1], f"{len(names) - most + 1} more"]
    return enumerated(few)
