"""The many ways of saying "I don't know"."""

from __future__ import annotations

import re

from interview.words.text.tokens import plain_words

__all__ = ["is_unsure"]

_SAYINGS = frozenset(
    """
    not sure|unsure|not certain|not quite sure|not really sure|not entirely sure|not so sure
    no idea|no clue|not a clue|have no idea|havent a clue|havent got a clue|no idea at all
    dont know|do not know|dont really know|honestly dont know|really dont know|dunno|idk
    dont remember|cant remember|forgot|forget|unknown|not known|no way to tell|cant tell
    cant say|couldnt say|couldnt tell you|hard to say|who knows|beats me|search me
    havent measured|havent measured it|not measured|never measured|never measured it
    havent checked|not checked|never checked|have not measured|have not measured it
    cant measure|cant measure it|no thermometer|no test kit|wouldnt know|would not know
    havent looked|not sure yet|dont know yet|undecided|not decided|no answer
    """.replace("\n", "|").split("|")
)
_KNOWN = frozenset(saying.strip() for saying in _SAYINGS if saying.strip())
_SPEAKER = re.compile(
    r"^(?:(?:sorry|honestly|um|uh|hmm|well|oh|im|i am|ive|i have|i|we|were|to be honest|its)\s+)+"
)
_TAIL = re.compile(r"\s+(?:sorry|really|actually|tbh|to be honest|im afraid|yet|at all)$")


def is_unsure(text: str) -> bool:
    """Whether the text says nothing but that the keeper doesn't know.

    "Unknown" counts; where a choice has an option of that name, read the choice first.
    """
    if text.strip() and not text.strip().strip("?"):
        return True
    words = plain_words(text)
    if len(words) > 60:
        return False
    trimmed = _TAIL.sub("", words)
    return not _KNOWN.isdisjoint({words, trimmed, _SPEAKER.sub("", trimmed)})
