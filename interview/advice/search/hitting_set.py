"""The fewest and cheapest levers that hold one of each group: branch and bound, exact.

Best first. A bound counts groups that share no lever: each of them takes a lever of its own.
"""

from __future__ import annotations

import heapq
from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from math import isfinite

__all__ = ["least_hitting_set"]

_Bound = tuple[int, float]
"""Levers, and their cost."""
_Node = tuple[_Bound, int, int, float, list[int]]
"""At least so much, of the sets that hold the first levers and none of the second (bits); the
cost of the first, and what may answer each group that they don't."""


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
    prices = {1 << n: cost for n, cost in enumerate(costs) if isfinite(cost)}
    open_bits = sum(prices)
    wanted = _least(_bits(group) & open_bits for group in groups)
    whole = [_bits(levers) for levers in but]
    cheapest: dict[int, float] = {}
    heap: list[_Node] = []
    _push(heap, prices, cheapest, (0, 0, 0.0, wanted))
    while heap:
        spend()
        _, chosen, barred, cost, unmet = heapq.heappop(heap)
        if any(levers & chosen == levers for levers in whole):
            continue
        if not unmet:
            return tuple(n for n in range(len(costs)) if chosen >> n & 1)
        open_to = min(unmet, key=_fewest_first)
        closed = 0
        while open_to:
            lever = open_to & -open_to
            left = [group & ~closed for group in unmet if not group & lever]
            child = chosen | lever, barred | closed, cost + prices[lever], left
            _push(heap, prices, cheapest, child)
            open_to, closed = open_to ^ lever, closed | lever
    return None


def _push(
    heap: list[_Node],
    prices: Mapping[int, float],
    cheapest: dict[int, float],
    node: tuple[int, int, float, list[int]],
) -> None:
    """Put a set on the heap with what it takes at least; not where it can't be completed."""
    chosen, barred, cost, unmet = node
    count, least, used = chosen.bit_count(), cost, 0
    for left in sorted(unmet, key=int.bit_count):
        if not left:
            return
        if not left & used:
            used |= left
            if left not in cheapest:
                cheapest[left] = min(price for lever, price in prices.items() if lever & left)
            count, least = count + 1, least + cheapest[left]
    heapq.heappush(heap, ((count, round(least, 6)), chosen, barred, cost, unmet))


def _bits(numbers: Iterable[int]) -> int:
    return sum(1 << n for n in set(numbers))


def _fewest_first(group: int) -> tuple[int, int]:
    return group.bit_count(), group


def _least(groups: Iterable[int]) -> list[int]:
    """The groups without those that hold another whole: who hits that one hits them too."""
    found: list[int] = []
    for group in sorted(set(groups), key=_fewest_first):
        for other in found:
            if other & group == other:
                break
        else:
            found.append(group)
    return found
