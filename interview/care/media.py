"""Filter media: how much surface each kind really offers to bacteria."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from types import MappingProxyType

from interview.base.rows.lines import read

__all__ = ["Media", "media"]


@dataclass(frozen=True)
class Media:
    """One kind of filter media, with where its figures come from."""

    area_per_volume: float
    low: float
    high: float
    unit: str
    status: str
    source: str
    meaning: str


@cache
def media() -> Mapping[str, Media]:
    """Every kind of media by the name the keeper chooses it by."""
    rows = read(Path(__file__).with_suffix(".yaml"))
    return MappingProxyType({name: Media(**row) for name, row in rows.items()})
