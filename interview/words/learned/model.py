"""The learned weights as they ship: whole numbers from -127 to 127, a scale for each row.

One compressed file of arrays. A matrix is int8 with `NAME.scale` (float32, one a row) beside it,
what is no matrix is float32; `pieces` and `about` are text, a piece a line and JSON.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Literal

import msgspec
import numpy as np
from numpy.typing import NDArray

from interview.words.learned.encoder import Tensors

__all__ = ["WEIGHTS", "About", "Model", "about", "load", "model"]

WEIGHTS = Path(__file__).with_name("weights.npz")


class About(msgspec.Struct, frozen=True, kw_only=True):
    """What can be heard, in the order of its rows, and what it was learned from."""

    choices: dict[str, tuple[str, ...]]
    """Questions that a text may answer, each with its choices; of several each one by itself."""
    amounts: tuple[str, ...]
    """Questions that an amount in it may answer."""
    heads: int
    learned_from: str
    """Digest of the texts."""


@dataclass(frozen=True, eq=False)
class Model:
    """The weights, and what they know and speak of."""

    about: About
    pieces: Mapping[str, int]
    """The number of each piece of a word."""
    tensors: Tensors

    @property
    def longest(self) -> int:
        """Pieces of the longest text, with those that open and close it."""
        return len(self.tensors["encoder.positions.weight"])


def load(path: Path) -> Model:
    """A file that `tests/words/learning/pack.py` wrote."""
    with np.load(path) as file:
        arrays = {name: file[name] for name in file.files}
    pieces = arrays.pop("pieces").tobytes().decode("utf-8").split("\n")
    said = _about(arrays.pop("about"))
    for name in [name for name in arrays if f"{name}.scale" in arrays]:
        # A text meets the layers' matrices transposed; by columns that takes a tenth less.
        order: Literal["F", "C"] = "F" if name.startswith("encoder.layers") else "C"
        scale = arrays.pop(f"{name}.scale")[:, None]
        arrays[name] = np.multiply(arrays[name], scale, order=order)
    return Model(said, {piece: n for n, piece in enumerate(pieces)}, arrays)


@cache
def model() -> Model:
    """The one that ships, read when the first story is told."""
    return load(WEIGHTS)


@cache
def about() -> About:
    """What the one that ships can hear, without the rest."""
    with np.load(WEIGHTS) as file:
        return _about(file["about"])


def _about(said: NDArray[np.uint8]) -> About:
    return msgspec.json.decode(said.tobytes(), type=About)
