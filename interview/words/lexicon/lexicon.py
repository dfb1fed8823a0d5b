"""The words of words.yaml, made ready for looking up and matching."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache

from interview.words.lexicon.files import words

__all__ = ["Lexicon", "alternatives", "lexicon"]


@dataclass(frozen=True)
class Lexicon:
    """Which words link, deny, doubt, wish; what things are called."""

    things: re.Pattern[str]
    thing_of: Mapping[str, str]
    before: Mapping[str, frozenset[str]]
    linking: frozenset[str]
    fillers: frozenset[str]
    states: frozenset[str]
    wishes: re.Pattern[str]
    wishes_beyond_plan: re.Pattern[str]
    revive: frozenset[str]
    asks: frozenset[str]
    corrections: re.Pattern[str]
    denials: frozenset[str]
    doubts: frozenset[str]
    breaths: frozenset[str]


def alternatives(phrases: Iterable[str]) -> str:
    """A regular expression for any of some phrases, longest first, each ending in a space."""
    spoken = sorted({phrase.replace("_", " ") for phrase in phrases}, key=len, reverse=True)
    return "(?:" + "|".join(re.escape(phrase) + " " for phrase in spoken) + ")"


def _any_of(phrases: Iterable[str]) -> re.Pattern[str]:
    return re.compile(f"(?<= ){alternatives(phrases)}")


@cache
def lexicon() -> Lexicon:
    """The lexicon of words.yaml."""
    raw = words()
    thing_of = {
        name.replace("_", " "): thing for thing, names in raw["things"].items() for name in names
    }
    beyond = [phrase for phrase in raw["wishes"] if phrase not in raw["plans"]]
    taken_back = alternatives(raw["mended_by"])
    return Lexicon(
        things=_any_of(thing_of),
        thing_of=thing_of,
        before={thing: frozenset(words) for thing, words in raw["before"].items()},
        linking=frozenset(raw["linking"]),
        fillers=frozenset(raw["fillers"]),
        states=frozenset(raw["states"]),
        wishes=_any_of(raw["wishes"]),
        wishes_beyond_plan=_any_of(beyond),
        revive=frozenset(raw["revive"]),
        asks=frozenset(raw["asks"]),
        corrections=re.compile(
            f"(?:(?<=^ )|(?<=, )){taken_back}(?=, |its (?!not )|it is |thats |<)"
            f"|(?<= )(?:no wait |i mean |scratch that |make that |oops )"
        ),
        denials=frozenset(raw["denials"]),
        doubts=frozenset(raw["doubts"]),
        breaths=frozenset(raw["breaths"]),
    )
