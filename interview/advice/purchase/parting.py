"""Animals that must be parted: which tank is for whom."""

from __future__ import annotations

from collections.abc import Iterator

from interview.advice.purchase.housing import own_size
from interview.advice.purchase.larger_tank import Needed, fits, needed_by, told_of
from interview.audit.animal import Animal
from interview.audit.tank import Tank

__all__ = ["PARTED_FIRST", "must_part", "stays_here", "tank_each"]

PARTED_FIRST = (
    "Steps and gear here are for all of them in one tank: part them, then audit each anew before "
    "you buy."
)
"""What holds of all advice for animals that must be parted."""

_PLANNED = "Choose one of them, or plan a tank each: "
_LIVING = "Give them a tank each: "
_UNTIL_THEN = "Give each a tank, till then a firm screen: "
_THEN = "; audit each anew: this is for all in one."


def must_part(tank: Tank) -> bool:
    """Whether the animals can't share a tank, whatever its size."""
    severity = tank.lookup("company_severity")
    return severity is not None and float(severity) > float(tank.lookup("company_close"))


def tank_each(tank: Tank) -> str:
    """A sentence on which tank is for whom; empty while kind or length of one isn't known."""
    needs = list(_needs(tank))
    if len(needs) != len(tank.animals) or not needs:
        return ""
    stays = stays_here(tank)
    told = [
        f"{animal.name} in this one"
        if animal == stays and _many(tank, animal) == 1
        else f"{_each(tank, animal)} in one {_as_large(told_of(tank, need))}"
        for animal, need in sorted(needs, key=lambda one: one[0] != stays)
    ]
    return f"{_lead(tank)}{', '.join(told)}{_THEN}"


def _lead(tank: Tank) -> str:
    """How the order begins; those that maim each other are parted today, by an order of its own."""
    if tank.lookup("stage") == "planning":
        return _PLANNED
    grave = float(tank.lookup("company_severity")) > float(tank.lookup("company_wrong"))
    return _LIVING if grave else _UNTIL_THEN


def stays_here(tank: Tank) -> Animal | None:
    """Of the animals whom this tank will do for when grown the one that needs the most of it."""
    size = own_size(tank)
    if size is None or tank.lookup("stage") == "planning":
        return None
    fitting = [(need.area, animal) for animal, need in _needs(tank) if fits(size, need)]
    return max(fitting, key=lambda one: one[0])[1] if fitting else None


def _needs(tank: Tank) -> Iterator[tuple[Animal, Needed]]:
    """What each animal needs by itself when it is grown, where that is known."""
    for animal in tank.animals:
        grown = tank.only(animal).lookup("adult_carapace_length")
        if grown is not None:
            yield animal, needed_by(float(grown), 1.0)


def _many(tank: Tank, animal: Animal) -> int:
    """How many are just like this one."""
    rows = [tank.best.known.get(name) for name in ("species", "carapace_length", "sex")]
    alike = zip(*(map(str, row) for row in rows if row is not None), strict=True)
    every = list(alike)
    return every.count(every[animal.row])


def _each(tank: Tank, animal: Animal) -> str:
    return animal.name if _many(tank, animal) == 1 else f"each {animal.name}"


def _as_large(told: str) -> str:
    return told if told.startswith("with ") else f"of {told}"
