"""Words with the sources they cite; a page lists the sources its blocks carry."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache

from interview.care.facts import STATUSES, bibliography

__all__ = ["Cited", "cited", "is_named", "joined", "keys_of", "source_name"]

_OF_STATUS = {"modelling_choice": "assumption", "common_practice": "practice", "recalled": "memory"}
"""Sources that are none: what stands for a status of its own."""
_INITIALS = frozenset({
    "apha", "bmel", "cdc", "ch", "cpsc", "esfi", "eu", "hpa", "irc", "na", "nds", "nec", "nfpa",
    "nsw", "osstf", "smhi", "us",
})  # fmt: skip
"""Words of keys that no citation spells, and that are initials."""
_NAMED = {"modelling_choice": "our own choice", "geometry": "geometry", "physics": "physics"}


@dataclass(frozen=True)
class Cited:
    """Words as they stand on the page, and the bibliography's keys that they name."""

    text: str
    sources: tuple[str, ...] = ()

    def inside(self, before: str, after: str) -> Cited:
        """The same with other words around it."""
        return Cited(before + self.text + after, self.sources)


def cited(status: str, keys: Iterable[str]) -> Cited:
    """A status and its sources, as “published: CDC 2017”; none that only repeats the status."""
    named = tuple(key for key in dict.fromkeys(keys) if _OF_STATUS.get(key) != status)
    said = ", ".join(map(source_name, named))
    return Cited(f"{STATUSES[status]}: {said}" if said else STATUSES[status], named)


def is_named(key: str) -> bool:
    """Whether a key names something that can be looked up."""
    return key not in _OF_STATUS and key not in _NAMED


@cache
def source_name(key: str) -> str:
    """How a page names a source: the words of its key as its citation spells them."""
    if key in _NAMED:
        return _NAMED[key]
    spelt = {word.casefold(): word for word in re.findall(r"\w+", bibliography().get(key, ""))}
    return " ".join(spelt.get(word) or _written(word) for word in key.split("_"))


def _written(word: str) -> str:
    return word.upper() if word in _INITIALS else word.capitalize()


def joined(parts: Iterable[Cited], between: str = "; ") -> Cited:
    """Several in a row, none twice."""
    rows = list(dict.fromkeys(parts))
    return Cited(between.join(part.text for part in rows), keys_of(rows))


def keys_of(parts: Iterable[Cited]) -> tuple[str, ...]:
    """All that several parts cite, in the order of first mention."""
    return tuple(dict.fromkeys(key for part in parts for key in part.sources))
