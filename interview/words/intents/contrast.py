"""What a contrast tells once its denied half is left out: it isn't 100 W, it's 150 W."""

from __future__ import annotations

import re

__all__ = ["asserted"]

_DENIED = r"(?:[^\s,;]+ ){0,5}?[^\s,;]+"
"""Few words: more of them tell something of their own."""
_NOT_THIS_BUT_THAT = re.compile(
    r"(?P<of>.*?(?:\b(?:is|are|was|were|has|have|its|s?hes|thats)|['’](?:s|re)))(?:n['’]?t| not) "
    rf"{_DENIED}(?:,? but(?: rather)?(?! (?:it|that|they|he|she|we|i|the|there|my|our)\b)"
    r"|[,;.]?(?: but)? (?:it|that|they|he|she)(?:['’]?s|['’]re| is| are))"
    r" (?P<told>.+)",
    re.IGNORECASE,
)
_BARE = re.compile(rf"not {_DENIED},? but (?P<told>.+)", re.IGNORECASE)
_THAT_NOT_THIS = re.compile(
    rf"(?P<told>.*\b(?:is|are|has|have|its|it['’]s)\b .+?),? (?:and )?not {_DENIED}", re.IGNORECASE
)


def asserted(line: str) -> str:
    """The line without what it denies in favour of something else; else as it is."""
    line = line.strip(" .!")
    if found := _NOT_THIS_BUT_THAT.fullmatch(line):
        return f"{found['of']} {found['told']}"
    found = _BARE.fullmatch(line) or _THAT_NOT_THIS.fullmatch(line)
    return found["told"] if found else line
