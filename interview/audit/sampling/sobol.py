"""A scrambled Sobol sample: points that fill the unit cube evenly, the same every time.

Direction numbers after Joe & Kuo as scipy ships them; scrambled by a random lower triangular
matrix for each dimension and a random shift (Matousek's way), with the very bits that
scipy.stats.qmc.Sobol would draw, so that both give the same points. For the cubes that audits
take, what is scrambled ships beside the direction numbers: loading numpy's generators takes 4 MB.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from pathlib import Path
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

__all__ = ["DIRECTIONS", "SHIPPED", "directions", "scrambled", "sobol_points"]

DIRECTIONS = Path(__file__).with_name("sobol_directions.npz")
SHIPPED = ((420, 11, 20), (2, 6, 3))
"""Dimensions, bits of a point's number and seed of the cubes whose scrambled numbers ship."""
_BITS = 30
_Cube: TypeAlias = tuple[NDArray[np.uint32], NDArray[np.uint32]]


@cache
def directions() -> NDArray[np.uint32]:
    """Direction numbers: a row for each dimension, a column for each bit of a point's number."""
    with np.load(DIRECTIONS) as file:
        found: NDArray[np.uint32] = file["directions"]
    return found


def sobol_points(
    dimensions: int, count: int, seed: int, chosen: Sequence[int] | None = None
) -> NDArray[np.float64]:
    """Points in the unit cube, a row each.

    Args:
        dimensions: of the cube, at most as many as the direction numbers have rows
        count: how many; a power of two fills the cube most evenly
        seed: of the scrambling
        chosen: the coordinates that are wanted, counted from 0; all in order if None
    """
    shift, columns = _cube(dimensions, (count - 1).bit_length(), seed)
    if chosen is not None:
        shift, columns = shift[list(chosen)], columns[list(chosen)]
    points = shift[None, :]
    for column in columns.T:  # Gray code: the next half is the last one backwards
        points = np.concatenate((points, points[::-1] ^ column))
    inside: NDArray[np.float64] = points[:count].astype(np.float64) * 2.0**-_BITS
    return inside


@cache
def _cube(dimensions: int, bits: int, seed: int) -> _Cube:
    """The first point of each dimension, and its scrambled direction numbers."""
    with np.load(DIRECTIONS) as file:
        name = f"{dimensions}_{seed}"
        if f"shift_{name}" in file.files:
            shift, columns = file[f"shift_{name}"], file[f"columns_{name}"]
            if bits <= columns.shape[1]:
                return shift, columns[:, :bits]
    return scrambled(dimensions, bits, seed)


def scrambled(dimensions: int, bits: int, seed: int) -> _Cube:
    """The same made anew, for the first bits of a point's number."""
    rng = np.random.default_rng(seed).spawn(1)[0]
    shift = rng.integers(0, 2, (dimensions, _BITS), np.uint32) @ 2 ** np.arange(
        _BITS, dtype=np.uint32
    )
    return shift, _scrambled(rng, directions()[:dimensions, :bits])


def _scrambled(rng: np.random.Generator, rows: NDArray[np.uint32]) -> NDArray[np.uint32]:
    """The direction numbers times a random matrix of bits with ones on its diagonal."""
    matrix = np.tril(rng.integers(0, 2, (len(rows), _BITS, _BITS), np.uint32))
    matrix[:, np.arange(_BITS), np.arange(_BITS)] = 1
    places = np.arange(_BITS - 1, -1, -1, dtype=np.uint32)
    bits = (rows[:, :, None] >> places) & np.uint32(1)
    mixed = np.einsum("dpk,djk->djp", matrix.astype(np.float64), bits.astype(np.float64))
    mixed = mixed.astype(np.uint32) & np.uint32(1)
    found: NDArray[np.uint32] = np.sum(mixed << places, axis=-1, dtype=np.uint32)
    return found
