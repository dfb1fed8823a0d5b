"""The points and quantiles the sample is made of, against scipy and Python's statistics.

With UPDATE_GOLDEN=1 the direction numbers are taken from scipy anew.
"""

from __future__ import annotations

import os
from statistics import NormalDist

import numpy as np
import pytest
from scipy.special import ndtri

from interview.assembly import questionnaire
from interview.audit.sampling import sobol
from interview.audit.sampling.normal import normal_quantile
from interview.audit.sampling.sobol import (
    DIRECTIONS,
    SHIPPED,
    directions,
    scrambled,
    sobol_points,
)
from interview.care.facts import assumptions
from interview.graph.interview import MOST_ANIMALS

_COLUMNS = 20


def _of_scipy(dimensions: int) -> np.ndarray:
    """Direction numbers out of scipy's plain points: point 2**j is the sum of the last two."""
    from scipy.stats import qmc

    columns: list[np.ndarray] = []
    for column in range(_COLUMNS):
        points = qmc.Sobol(dimensions, scramble=False)
        points.fast_forward(2**column)
        mixed = (points.random(1)[0] * 2.0**30).astype(np.uint32)
        columns.append(mixed ^ columns[-1] if columns else mixed)
    return np.stack(columns, axis=-1)


def test_direction_numbers_are_those_of_scipy() -> None:
    if os.environ.get("UPDATE_GOLDEN") == "1":
        np.savez_compressed(DIRECTIONS, directions=_of_scipy(420))
        directions.cache_clear()
        cubes = {(size, seed): scrambled(size, bits, seed) for size, bits, seed in SHIPPED}
        shifts = {f"shift_{n}_{seed}": shift for (n, seed), (shift, _) in cubes.items()}
        columns = {f"columns_{n}_{seed}": found for (n, seed), (_, found) in cubes.items()}
        np.savez_compressed(DIRECTIONS, directions=directions(), **shifts, **columns)
    shipped = directions()
    assert np.array_equal(shipped, _of_scipy(len(shipped)))


def test_there_are_enough_for_any_tank() -> None:
    questions = questionnaire()
    parts = sum(len(question.parts) for question in questions)
    each = len(questions.repeated) * MOST_ANIMALS
    assert len(directions()) >= len(assumptions()) + len(list(questions)) + parts + each


@pytest.mark.parametrize("dimensions", [1, 2, 7, 111, 420])
@pytest.mark.parametrize("count", [1, 2, 256, 2048, 3000])
@pytest.mark.filterwarnings("ignore:The balance properties")
def test_points_are_those_of_scipy(dimensions: int, count: int) -> None:
    assert np.array_equal(sobol_points(dimensions, count, 20), _points(dimensions, count, 20))


def _points(dimensions: int, count: int, seed: int) -> np.ndarray:
    from scipy.stats import qmc

    # A generator of ours gives what `rng=20` gives there, on any version of scipy.
    rng = np.random.default_rng(seed)
    return qmc.Sobol(dimensions, scramble=True, seed=rng).random(count)


@pytest.mark.parametrize("cube", SHIPPED)
def test_what_ships_scrambled_is_made_by_no_generator(
    cube: tuple[int, int, int], monkeypatch: pytest.MonkeyPatch
) -> None:
    """The cubes that an audit takes: the same points, and numpy's generators stay unloaded."""
    dimensions, bits, seed = cube
    scipys = _points(dimensions, 2**bits, seed)
    monkeypatch.setattr(sobol, "scrambled", None)
    sobol._cube.cache_clear()
    assert np.array_equal(sobol_points(dimensions, 2**bits, seed), scipys)


def test_quantiles_are_those_of_scipy() -> None:
    edges = [1e-300, 1e-9, 1e-3, 0.0749, 0.075, 0.0751, 0.5, 0.925, 0.9251, 1 - 1e-9]
    shares = np.concatenate((edges, np.linspace(1e-4, 1 - 1e-4, 5001)))
    assert normal_quantile(shares) == pytest.approx(ndtri(shares), rel=2e-14, abs=2e-15)
    ours, theirs = normal_quantile(np.array(edges)), [NormalDist().inv_cdf(e) for e in edges]
    assert ours == pytest.approx(theirs, rel=2e-15)
