"""A water test from before the changes, which says nothing of the water after them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from interview.vocabulary.phrases import rounded

if TYPE_CHECKING:
    from interview.audit.tank import Tank

__all__ = ["read_before"]

_PEAK = "nitrate_peak"


def read_before(was: Tank, now: Tank) -> str:
    """A sentence where nitrate will come up to another level than the kit could read; or "".

    Args:
        was: the tank before the changes
        now: the same as the changes should leave it, calibrated by the reading of before
    """
    before, after = (tank.lookup(_PEAK) for tank in (was, now))
    if before is None or after is None or was.lookup("nitrate") is None:
        return ""
    old, new = (rounded(value, was.unit_of(_PEAK), was.system, _PEAK) for value in (before, after))
    if old == new:
        return ""
    return (
        f"Your nitrate reading is from before the change. By it nitrate should reach {new} "
        f"between changes now, {old} before: test again in two weeks."
    )
