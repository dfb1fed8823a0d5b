"""Labels beside a picture: each as near to its place as the others let it be, none over another."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

__all__ = ["Label", "apart"]


@dataclass(frozen=True)
class Label:
    """A label: where it wants its middle to be, and how high it is."""

    wanted: float
    height: float


def apart(labels: Sequence[Label], least: float, most: float) -> tuple[float, ...]:
    """The upper edge of each label, in their order, downwards from `least`.

    They keep to `most` where they fit; where they don't, the last ones go beyond it.
    """
    placed: list[float] = []
    free = least
    for label in labels:
        start = max(label.wanted - label.height / 2, free)
        placed.append(start)
        free = start + label.height
    limit = max(most, least + sum(label.height for label in labels))
    for number in range(len(labels) - 1, -1, -1):
        placed[number] = min(placed[number], limit - labels[number].height)
        limit = placed[number]
    return tuple(placed)
