"""The fewest and cheapest levers that hold one of each group: branch and bound, exact.

Best first. A bound counts groups that share no lever: each of them takes a lever of its own.
"""

from __future__ import annotations

import heapq
from collections.abc import Callable, Collection, Iterable, Sequence
from math import isfinite

__all__ = ["least_hitting_set"]

_Bound = tuple[int, float]
"""Levers, and their cost."""
_Node = tuple[_Bound, int, int]
"""At least so much, of the sets that hold the first levers and none of the second (bits)."""


def least_hitting_set(
    costs: Sequence[float],
    groups: Iterable[Collection[int]],
    but: Iterable[Collection[int]] = (),
    spend: Callable[[], None] = lambda: None,
) -> tuple[int, ...] | None:
    """Numbers of the levers, rising; of equal sets always the same one. None if none serves.

    Args:
        costs: of each lever; infinite for one that may not be taken
        groups: numbers of levers, of each of which at least one is taken
        but: sets that may not be taken whole
        spend: called for each set that is weighed; what it raises ends the search
    """
    prices = {n: cost for n, cost in enumerate(costs) if isfinite(cost)}
    classes = [(p, _bits(n for n in prices if prices[n] == p)) for p in sorted({*prices.values()})]
    wanted = _least(_bits(n for n in group if n in prices) for group in groups)
    whole = [_bits(levers) for levers in but]
    heap: list[_Node] = []
    _push(heap, classes, wanted, 0, 0)
    while heap:
        spend()
        _, chosen, barred = heapq.heappop(heap)
        if any(levers & chosen == levers for levers in whole):
            continue
        unmet = [group & ~barred for group in wanted if not group & chosen]
        if not unmet:
            return tuple(n for n in prices if chosen >> n & 1)
        open_to = min(unmet, key=lambda group: (group.bit_count(), group))
        while open_to:
            lever = open_to & -open_to
            _push(heap, classes, wanted, chosen | lever, barred)
            open_to, barred = open_to ^ lever, barred | lever
    return None


def _push(
    heap: list[_Node],
    classes: Sequence[tuple[float, int]],
    wanted: Sequence[int],
    chosen: int,
    barred: int,
) -> None:
    """Put a set on the heap with what it takes at least; not where it can't be completed."""
    count = chosen.bit_count()
    cost = sum(price * (chosen & levers).bit_count() for price, levers in classes)
    used = 0
    for left in sorted((g & ~barred for g in wanted if not g & chosen), key=int.bit_count):
        if not left:
            return
        if not left & used:
            used |= left
            count, cost = count + 1, cost + next(p for p, levers in classes if levers & left)
    heapq.heappush(heap, ((count, round(cost, 6)), chosen, barred))


def _bits(numbers: Iterable[int]) -> int:
    return sum(1 << n for n in set(numbers))


def _least(groups: Iterable[int]) -> list[int]:
    """The groups without those that hold another whole: who hits that one hits them too."""
    found: list[int] = []
    for group in sorted(set(groups), key=lambda group: (group.bit_count(), group)):
        if not any(other & group == other for other in found):
            found.append(group)
    return found
