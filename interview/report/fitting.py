"""Text fitted to a screen: wrapped without parting a number from its unit, or put into ASCII."""

from __future__ import annotations

import codecs
import re
import textwrap
import unicodedata

__all__ = ["ENCODING_ERRORS", "to_ascii", "wrapped"]

_BEFORE_UNIT = re.compile(r"(?<=\d) (?=[°%]|\d+/\d|[^\W\d]{1,3}\b)")
_HELD = "\N{NO-BREAK SPACE}"

_PLAINER = {
    "≈": "~",
    "·": "-",
    "°": "deg",
    "×": "x",
    "−": "-",
    "–": "-",
    "—": "-",
    "“": '"',
    "”": '"',
    "‘": "'",
    "’": "'",
    "…": "...",
    "µ": "u",
    "μ": "u",
    "≤": "<=",
    "≥": ">=",
    "→": "->",
    "•": "*",
    "│": "|",
    "─": "-",
    "└": "+",
    "┘": "+",
    "▼": "v",
    "▔": "=",
    "▂": "=",
    "━": "=",
    "░": ":",
    _HELD: " ",
}

ENCODING_ERRORS = "tankside"
"""Name of the handler that writes the nearest ASCII for what a stream can't encode."""


def wrapped(text: str, width: int) -> list[str]:
    """Lines of at most `width` characters; “35 cm” is never parted. One empty line for no text."""
    held = _BEFORE_UNIT.sub(_HELD, text)
    lines = textwrap.wrap(held, max(width, 8), break_on_hyphens=False)
    return [line.replace(_HELD, " ") for line in lines] or [""]


def to_ascii(text: str) -> str:
    """The nearest ASCII: “18 °C” is 18 degC, é is e; what has no likeness is a question mark."""
    return text if text.isascii() else "".join(map(_ascii_of, text))


def _ascii_of(character: str) -> str:
    if character.isascii():
        return character
    if character in _PLAINER:
        return _PLAINER[character]
    apart = unicodedata.normalize("NFKD", character).replace("\N{FRACTION SLASH}", "/")
    return apart.encode("ascii", "ignore").decode() or "?"


def _degrade(problem: UnicodeError) -> tuple[str, int]:
    if not isinstance(problem, UnicodeEncodeError):
        raise problem
    return to_ascii(problem.object[problem.start : problem.end]), problem.end


codecs.register_error(ENCODING_ERRORS, _degrade)
