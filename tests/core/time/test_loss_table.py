"""The table of heat losses against the laws it was made from: within 0.5 %."""

from __future__ import annotations

import numpy as np
import pytest
from losses_drawn import COUNT, COVERS, drawn

from interview.core.time.loss_table import LossTable, SideBySide


@pytest.mark.parametrize("cover", COVERS)
@pytest.mark.parametrize("rooms", [(15.0, 27.0), (4.0, 20.0), (18.0, 36.0)])
def test_table_is_within_half_a_percent_of_the_laws(cover: str, rooms: tuple[float, float]) -> None:
    """Worst where the published law of a level plate jumps by 6 %, and under a lid in heat."""
    loss = drawn(cover)
    table = LossTable(loss, rooms, (-14.0, 46.0), COUNT)
    draw = np.random.default_rng(7)
    missed = []
    for middle in np.linspace(*rooms, 7):
        by = table.about(np.full(COUNT, middle))
        for _ in range(40):
            room = middle + draw.uniform(-2.0, 2.0, COUNT)
            water = room + draw.uniform(-3.0, 25.0, COUNT)
            exact, usual = loss(water, room), loss(room + 3.0, room)
            missed.append(np.abs(by(water, room)[0] - exact) / np.maximum(np.abs(exact), usual))
    assert np.percentile(missed, 98) < 5e-3
    assert np.sqrt(np.mean(np.square(missed))) < 2e-3
    assert np.max(missed) < 1.7e-2


def test_less_water_wets_less_of_the_walls() -> None:
    loss = drawn("glass")
    table = LossTable(loss, (18.0, 22.0), (-14.0, 46.0), COUNT)
    room, water = np.full(COUNT, 20.0), np.full(COUNT, 26.0)
    whole, half = (table.about(room, share)(water, room)[0] for share in (1.0, 0.5))
    assert np.allclose(whole - half, 0.5 * loss.walls(water, room), rtol=5e-3)


def test_beyond_the_table_it_goes_on_straight() -> None:
    by = LossTable(drawn("none"), (18.0, 22.0), (0.0, 10.0), COUNT).about(np.full(COUNT, 20.0))
    room = np.full(COUNT, 20.0)
    (near, slope), (far, _) = by(room + 9.5, room), by(room + 14.5, room)
    assert np.allclose(far, near + 5.0 * slope)


def test_losses_beside_each_other_are_those_of_each_alone() -> None:
    open_tank, lidded = drawn("none"), drawn("glass")
    both = SideBySide(((open_tank, slice(0, COUNT)), (lidded, slice(COUNT, 2 * COUNT))))
    water, room = np.linspace(22.0, 30.0, 2 * COUNT), np.linspace(16.0, 24.0, 2 * COUNT)
    for part in ("__call__", "walls", "floor"):
        alone = [
            getattr(one, part)(water[rows], room[rows])
            for one, rows in ((open_tank, slice(0, COUNT)), (lidded, slice(COUNT, None)))
        ]
        np.testing.assert_array_equal(getattr(both, part)(water, room), np.concatenate(alone))
