"""Words with the sources they cite; a page lists the sources its blocks carry."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from interview.care.facts import STATUSES

__all__ = ["Cited", "cited", "joined", "keys_of"]


@dataclass(frozen=True)
class Cited:
    """Words as they stand on the page, and the bibliography's keys that they name."""

    text: str
    sources: tuple[str, ...] = ()

    def inside(self, before: str, after: str) -> Cited:
        """The same with other words around it."""
        return Cited(before + self.text + after, self.sources)


def cited(status: str, keys: Iterable[str]) -> Cited:
    """A status and its sources, as “published: cdc_2017”."""
    named = tuple(dict.fromkeys(keys))
    return Cited(f"{STATUSES[status]}: {', '.join(named)}", named)


def joined(parts: Iterable[Cited], between: str = "; ") -> Cited:
    """Several in a row, none twice."""
    rows = list(dict.fromkeys(parts))
    return Cited(between.join(part.text for part in rows), keys_of(rows))


def keys_of(parts: Iterable[Cited]) -> tuple[str, ...]:
    """All that several parts cite, in the order of first mention."""
    return tuple(dict.fromkeys(key for part in parts for key in part.sources))
