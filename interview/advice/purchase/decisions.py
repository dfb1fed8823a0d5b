"""What nobody has decided yet of a tank in planning is decided by its list."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from interview.advice.purchase.housing import SIDES
from interview.advice.purchase.planning import own_answers, sized_for, specify
from interview.advice.purchase.usual import usual
from interview.advice.what_if.suppose import same
from interview.audit.tank import Tank

__all__ = ["decisions"]

_NOT_LISTED = ("stage", "filter_age", "uvb_lamp_age")
"""What the list takes for granted and is nothing that anybody decides."""


def decisions(tank: Tank) -> dict[str, Any]:
    """Answers, in core units, that the list gives where the keeper has not decided; {} without one.

    What belongs to a thing that the keeper has decided otherwise (the count of their own heaters)
    stays open. Where the list needs another tank than the keeper's, what is sized goes by theirs,
    and the list's platform is theirs if it fits in.

    Args:
        tank: a tank in planning
    """
    specification = specify(tank)
    if specification is None or not specification.rows:
        return {}
    own = own_answers(tank)
    listed: Mapping[str, Any] = specification.settings
    if any(side in own and not same(own[side], listed[side]) for side in SIDES):
        listed = {**_platform_that_fits(tank, listed), **sized_for(tank)}
    other = set(_other_things(own, listed))
    return {
        name: value
        for name, value in listed.items()
        if name not in own and name not in other and name not in _NOT_LISTED
    }


def _platform_that_fits(tank: Tank, listed: Mapping[str, Any]) -> dict[str, Any]:
    """The list's platform where the keeper's tank has room for it, else none."""
    for side in ("length", "width"):
        inside = tank.lookup(f"inside_{side}")
        if inside is None or listed[f"platform_{side}"] > inside:
            return {}
    return {name: listed[name] for name in listed if name.startswith("platform_")}


def _other_things(own: Mapping[str, Any], listed: Mapping[str, Any]) -> Iterator[str]:
    """Names that belong to something which the keeper has decided and the list has otherwise."""
    for group in usual().goes_with:
        if any(n in own and n in listed and not same(own[n], listed[n]) for n in group):
            yield from group
