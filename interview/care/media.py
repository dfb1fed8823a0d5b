"""Filter media: how much surface each kind really offers to bacteria."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from pathlib import Path
from types import MappingProxyType
from typing import Literal

from interview.base.rows import WrongKey, read
from interview.care.sources import Sourced

__all__ = ["Media", "media"]


class Media(Sourced, frozen=True, kw_only=True):
    """One kind of filter media, with where its figures come from."""

    area_per_volume: float
    low: float
    high: float
    unit: Literal["m**2/m**3"]
    meaning: str

    def __post_init__(self) -> None:
        """Refuse a figure outside its own bounds."""
        super().__post_init__()
        if not 0 < self.low <= self.area_per_volume <= self.high:
            raise WrongKey("low", "low, area_per_volume and high are not in order, or not above 0")


@cache
def media() -> Mapping[str, Media]:
    """Every kind of media by the name the keeper chooses it by."""
    return MappingProxyType(read(Path(__file__).with_suffix(".yaml"), dict[str, Media]))
