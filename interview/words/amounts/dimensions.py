"""What the grammar expects of words: a dimension, as the region writes it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from interview.words.lexicon.files import units

if TYPE_CHECKING:
    from interview.words.amounts.spellings import Unit
from interview.words.lexicon.rows import Dimension

__all__ = ["Frame", "dimensions", "example_for"]


def dimensions() -> Mapping[str, Dimension]:
    """Every dimension by its name."""
    return units().dimensions


def example_for(dimension: Dimension, region: str) -> str:
    """An answer of this dimension as the region would type it, in quotation marks."""
    american = dimension.example_us if region == "north_america" else ""
    return f'"{american or dimension.example}"'


@dataclass(frozen=True, slots=True)
class Frame:
    """What is expected of the words: a dimension, in a region's habits."""

    dimension: Dimension
    region: str
    bare_unit: Unit | None = None
    """What a number without a unit is in."""
    signed: bool = False
    """Whether less than nothing is taken even of a dimension that has none by itself."""

    @property
    def example(self) -> str:
        """What to type, for the end of a refusal."""
        return f"for example {example_for(self.dimension, self.region)}"

    @property
    def below_zero(self) -> bool:
        """Whether less than nothing makes sense."""
        return self.signed or self.dimension.signed
