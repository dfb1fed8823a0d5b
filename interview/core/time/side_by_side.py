"""Unlike tanks as the lanes of one run: it costs as much as the longest, not as all together."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import fields, replace
from typing import Any, TypeAlias

import numpy as np
from numpy.typing import NDArray

from interview.core.heat.losses import TankLoss
from interview.core.time.loss_table import Losses, SideBySide
from interview.core.time.tank import Evaporation, Filter, TankInTime

__all__ = ["joined"]

Floats: TypeAlias = NDArray[np.float64]


def joined(tanks: Sequence[TankInTime]) -> TankInTime:
    """Tanks beside each other, in their order; what lies under a lamp is left out.

    Neighbours under the same cover are worked out together, so order them by it.

    Args:
        tanks: all with a filter of the same age, or all without one
    """
    first = tanks[0]
    apart = {"losses", "evaporation", "weather", "basking", "filter", "uv_index", "lacking"}
    arrays: dict[str, Any] = {
        item.name: np.concatenate([getattr(tank, item.name) for tank in tanks])
        for item in fields(TankInTime)
        if item.name not in {*apart, "count"}
    }
    filters = [tank.filter for tank in tanks if tank.filter]
    whole = len(filters) == len(tanks)
    return replace(
        first,
        count=sum(tank.count for tank in tanks),
        losses=_losses(tanks),
        evaporation=Evaporation(
            first.evaporation.law,
            {
                name: np.concatenate([tank.evaporation.given[name] for tank in tanks])
                for name in first.evaporation.given
            },
        ),
        weather=_beside([tank.weather for tank in tanks]),
        basking=None,
        filter=_filter(filters, [tank.count for tank in tanks]) if whole else None,
        uv_index=None,
        **arrays,
    )


def _beside(rows: Sequence[Any]) -> Any:
    """Rows of arrays, each joined along the tanks."""
    names = [item.name for item in fields(rows[0])]
    return replace(
        rows[0], **{name: np.concatenate([getattr(row, name) for row in rows]) for name in names}
    )


def _filter(filters: Sequence[Filter], counts: Sequence[int]) -> Filter:
    def spread(name: str) -> Floats:
        each = zip(filters, counts, strict=True)
        return np.concatenate([np.broadcast_to(getattr(one, name), many) for one, many in each])

    changes: dict[str, Any] = {
        item.name: spread(item.name) for item in fields(Filter) if item.name != "age"
    }
    return replace(filters[0], **changes)


def _losses(tanks: Sequence[TankInTime]) -> Losses:
    parts: list[tuple[Losses, slice]] = []
    at = 0
    for _, group in itertools.groupby(tanks, lambda tank: _cover(tank.losses)):
        alike = list(group)
        end = at + sum(tank.count for tank in alike)
        parts.append((_alike([tank.losses for tank in alike]), slice(at, end)))
        at = end
    return parts[0][0] if len(parts) == 1 else SideBySide(tuple(parts))


def _cover(losses: Losses) -> object:
    return losses.cover_water if isinstance(losses, TankLoss) else losses


def _alike(losses: Sequence[Losses]) -> Losses:
    """Losses under the same cover as one."""
    first = losses[0]
    if len(losses) == 1 or not isinstance(first, TankLoss):
        return first
    names = [item.name for item in fields(TankLoss) if item.name != "cover_water"]
    changes: dict[str, Any] = {
        name: np.concatenate([getattr(one, name) for one in losses]) for name in names
    }
    return replace(first, **changes)
