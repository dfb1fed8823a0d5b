"""What a search that ran out of budget left: mended one by one, by one more setting each."""

from __future__ import annotations

from collections.abc import Collection, Iterator

import numpy as np

from interview.advice.levers.levers import Option, cost_of
from interview.advice.search.tables.severity_tables import SeverityTables, merged
from interview.advice.what_if.severity import NEEDS_CHANGE, OPEN
from interview.advice.what_if.suppose import same

__all__ = ["completed"]

_MOST_TRIED = 2
"""So many settings of a lever are tried on the whole tank."""


def completed(
    tables: SeverityTables,
    options: tuple[Option, ...],
    left: Collection[int],
    allowed: Collection[int],
) -> tuple[Option, ...]:
    """The options, and for each check that is left the cheapest setting that spoils nothing.

    Args:
        tables: what the levers do
        options: what the search has found so far
        left: the checks that it left
        allowed: the levers that may be used
    """
    now = np.maximum(tables.severities_with(options), OPEN)
    for check in sorted(left, key=lambda c: (-int(now[c]), -tables.checks[c].weight)):
        for option in _ways(tables, options, check, allowed) if now[check] >= NEEDS_CHANGE else ():
            then = np.maximum(tables.severities_with([*options, option]), OPEN)
            if then[check] < now[check] and (then <= now).all():
                options, now = (*options, option), then
                break
    return options


def _ways(
    tables: SeverityTables, options: tuple[Option, ...], check: int, allowed: Collection[int]
) -> Iterator[Option]:
    """Settings of one lever that better a check by themselves, the cheapest lever first."""
    taken = merged(options)
    for lever in sorted(allowed, key=lambda n: cost_of(tables.levers[n])):
        meant = tables.levers[lever].meant_for(tables.checks[check].id)
        if not (meant and tables.reach[lever, check]):
            continue
        levels = tables.compact(check, (lever,)).whole()
        for place in np.argsort(levels, kind="stable")[:_MOST_TRIED]:
            option = tables.options[lever][place]
            free = all(same(taken.get(name, v), v) for name, v in option.changes.items())
            if place and free and levels[place] < tables.base[check]:
                yield option
