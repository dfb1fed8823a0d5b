"""Lists of words and phrases of words.yaml as patterns over a line of words."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from functools import cache

from interview.words.lexicon.files import known_words, words

__all__ = ["alternatives", "any_of", "before_thing", "corrections", "meant_by"]


def alternatives(phrases: Iterable[str]) -> str:
    """A regular expression for any of some phrases, longest first, each ending in a space."""
    spoken = sorted({phrase.replace("_", " ") for phrase in phrases}, key=len, reverse=True)
    return "(?:" + "|".join(re.escape(phrase) + " " for phrase in spoken) + ")"


@cache
def meant_by(table: str) -> Mapping[str, str]:
    """What a thing, or a side, is called → which one it is."""
    groups: Mapping[str, tuple[str, ...]] = getattr(words(), table)
    return {way.replace("_", " "): name for name, ways in groups.items() for way in ways}


@cache
def before_thing(thing: str) -> frozenset[str]:
    """Words that may stand between a number and this thing."""
    return frozenset(words().before.get(thing, ()))


@cache
def any_of(name: str) -> re.Pattern[str]:
    """Any phrase of a list: wishes, wishes beyond a plan, names of things."""
    if name == "things":
        return re.compile(f"(?<= ){alternatives(meant_by('things'))}")
    if name == "wishes_beyond_plan":
        return re.compile(f"(?<= ){alternatives(known_words('wishes') - known_words('plans'))}")
    return re.compile(f"(?<= ){alternatives(getattr(words(), name))}")


@cache
def corrections() -> re.Pattern[str]:
    """Where what was just said is taken back: no wait, sorry."""
    return re.compile(
        f"(?:(?<=^ )|(?<=, )){alternatives(words().mended_by)}"
        "(?=, |its (?!not )|it is |thats |<)"
        "|(?<= )(?:no wait |i mean (?=(?:[^ ]+ ){0,2}<)|scratch that |make that |oops )"
    )
