"""The dimension of the Sobol sample that each name is drawn from: its own, whatever else there is.

A name added to the data leaves the draws of all others as they were.
"""

from __future__ import annotations

import zlib
from collections.abc import Iterable
from functools import cache
from pathlib import Path

from interview.base.rows import Row, read

__all__ = ["PATH", "TOGETHER", "dimensions_of", "order_of_names", "without_a_dimension"]

PATH = Path(__file__).with_name("sobol_dimensions.yaml")
TOGETHER = 30
"""Animals that have dimensions of their own."""


class Order(Row, frozen=True, kw_only=True):
    """The names in the order of their dimensions, and those that every animal has."""

    names: tuple[str, ...]
    of_animals: tuple[str, ...]


@cache
def order_of_names() -> Order:
    """The shipped order; FileError names file and line of what is wrong."""
    return read(PATH, Order)


def without_a_dimension(names: Iterable[str]) -> list[str]:
    """Those of the names that have no place in the order."""
    return sorted({*names} - {*order_of_names().names})


def dimensions_of(wanted: Iterable[tuple[str, int]], most: int) -> dict[tuple[str, int], int]:
    """A dimension for each name and animal, counted from 0.

    Args:
        wanted: names, each with the number of its animal (0 for the first and for the tank)
        most: how many dimensions there are

    What stands in no list gets a free one by its name's checksum, the next if that is taken.
    """
    found: dict[tuple[str, int], int] = {}
    strangers: list[tuple[int, str, int]] = []
    for name, animal in wanted:
        dimension = _listed().get((name, animal), most)
        if dimension < 0:
            dimension += most
        if dimension < most:
            found[name, animal] = dimension
        else:
            strangers.append((zlib.crc32(f"{name} {animal}".encode()), name, animal))
    first, end = len(order_of_names().names), most - len(order_of_names().of_animals) * TOGETHER
    taken: set[int] = set()
    for number, name, animal in sorted(strangers):
        place = number % (end - first)
        while place in taken:
            place = (place + 1) % (end - first)
        taken.add(place)
        found[name, animal] = first + place
    return found


@cache
def _listed() -> dict[tuple[str, int], int]:
    """Dimensions by the list; those of further animals are negative, counted from the end."""
    order = order_of_names()
    listed = {(name, 0): place for place, name in enumerate(order.names)}
    for place, name in enumerate(order.of_animals):
        for animal in range(1, TOGETHER):
            listed[name, animal] = -(place * TOGETHER + animal)
    return listed
