"""Heat losses of tanks drawn at random, for the tests that compare them."""

from __future__ import annotations

import numpy as np

from interview.core.heat.losses import TankLoss

COUNT = 40
COVERS = ("none", "mesh", "glass")


def drawn(cover: str) -> TankLoss:
    """As many tanks as COUNT under one cover, the same each time."""
    draw = np.random.default_rng(COVERS.index(cover))
    length = draw.uniform(0.3, 1.8, COUNT)
    share = {"none": 1.0, "mesh": 0.8, "glass": draw.uniform(0.02, 0.3, COUNT)}[cover]
    return TankLoss(
        draw.uniform(25, 75, COUNT),
        length,
        length * draw.uniform(0.3, 0.6, COUNT),
        draw.uniform(0.1, 0.6, COUNT),
        draw.uniform(0.008, 0.07, COUNT),
        draw.uniform(0.3, 4.0, COUNT),
        cover,
        share,
        draw.lognormal(0.0, 0.2, COUNT),
    )
