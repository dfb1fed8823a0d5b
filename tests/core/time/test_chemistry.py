"""Nitrogen and oxygen, step by step, against a measured vessel, tables and solve_ivp.

Closed vessel: a sardine of 47.7 g in 12.3 L at 14.8 °C, salinity 35, from 95.6 to 90.0 % of
saturation in 7500 s (open respirometry data, published); saturation 8.17 mg/L by gsw. That tests
the bookkeeping at no exchange. Hours to 2 mg/L with filter off: closed forms, in a table.
"""

from __future__ import annotations

import gsw
import numpy as np
import pytest
from scipy.integrate import solve_ivp

from interview.core.time.dissolved.chemistry import Water, diluted, stepped, with_oxygen
from interview.core.water.nitrification import mature_film
from interview.core.water.nitrifiers import DAY, FIRST_DOSE, NITRITE_SHARE, guilds
from interview.core.water.properties import oxygen_saturation
from interview.core.water.start_up import StartUp

HOUR = 3600.0
ONE = np.ones(1)


def test_oxygen_in_a_closed_vessel_falls_as_measured() -> None:
    content = gsw.O2sol_SP_pt(35.0, 14.8) * 31.9988e-3 * gsw.rho(35.165, 14.8, 0.0) / 1000
    assert content == pytest.approx(8.17, abs=0.02)
    uptake = 0.220 / HOUR
    oxygen = 0.956 * content * ONE
    for _ in range(125):
        oxygen = with_oxygen(oxygen, 14.8 * ONE, 0.0, uptake, 60.0)
    assert oxygen[0] / content == pytest.approx(0.900, abs=5e-4)


@pytest.mark.parametrize(
    ("exchange", "uptake", "hours"),
    [
        (0.0059, 0.1, 81), (0.0059, 0.3, 23), (0.0059, 0.6, 11), (0.035, 0.1, None),
        (0.035, 0.3, 40), (0.035, 0.6, 13), (0.073, 0.3, None), (0.073, 0.6, 21), (0.35, 0.6, None),
    ],
)  # fmt: skip
def test_hours_until_the_filterless_water_holds_2_mg(
    exchange: float, uptake: float, hours: int | None
) -> None:
    oxygen, found = oxygen_saturation(24.0) * ONE, None
    assert oxygen[0] == pytest.approx(8.418, abs=2e-3)
    for n in range(1, 2001):
        oxygen = with_oxygen(oxygen, 24.0 * ONE, exchange / HOUR, uptake / HOUR, 0.25 * HOUR)
        if oxygen[0] < 2.0:
            found = n / 4
            break
    assert found == (None if hours is None else pytest.approx(hours, abs=0.6))


def test_no_step_makes_oxygen_negative_or_more_than_saturated() -> None:
    low = with_oxygen(0.1 * ONE, 25.0 * ONE, 1e-6, 1e-3, DAY)
    high = with_oxygen(0.1 * ONE, 25.0 * ONE, 1.0, 0.0, DAY)
    assert low[0] == 0.0
    assert high[0] == pytest.approx(oxygen_saturation(25.0))


def _start(film: float) -> Water:
    return Water(
        FIRST_DOSE * ONE, 0 * ONE, 0 * ONE, film * ONE, NITRITE_SHARE * film * ONE, 7.0 * ONE
    )


@pytest.mark.parametrize(("film", "warmth"), [(1e-3, 25.0), (0.05, 22.0)])
def test_a_filter_starts_up_as_by_solve_ivp_and_by_the_steady_sums(
    film: float, warmth: float
) -> None:
    supply, pace = 5e-6, 0.6
    eaters, finishers = guilds(warmth, pace)

    def rate(_: float, y: list[float]) -> list[float]:
        food, nitrite, first, second = y
        grown = eaters.growth * food / (food + eaters.half)
        finished = finishers.growth * nitrite / (nitrite + finishers.half)
        eaten, done = grown * first / eaters.cells, finished * second / finishers.cells
        return [supply * DAY - eaten, eaten - done,
                (grown - eaters.decay) * first, (finished - finishers.decay) * second]  # fmt: skip

    days = 40
    exact = solve_ivp(
        rate, (0, days), [FIRST_DOSE, 0.0, film, NITRITE_SHARE * film], method="LSODA",
        rtol=1e-9, atol=1e-12, t_eval=np.arange(days + 1),
    ).y  # fmt: skip
    ready = float(StartUp.run(supply, warmth, film, pace).ready)
    water, found, clear = _start(film), [], None
    for n in range(days * 24):
        if n % 24 == 0:
            found.append([float(w[0]) for w in (water.ammonia, water.nitrite, water.eaters)])
        water, _ = stepped(water, supply, warmth * ONE, pace, HOUR)
        if clear is None and max(water.ammonia[0], water.nitrite[0]) < 0.25:
            clear = (n + 1) * HOUR
    got = np.array(found)
    assert np.max(np.abs(got[:, :2] - exact[:2, :days].T)) < 0.12
    assert clear == pytest.approx(ready, rel=0.02)


def test_nitrogen_is_kept_and_oxygen_used_by_stoichiometry() -> None:
    water = _start(2.0)
    after, used = stepped(water, 1e-5, 25.0 * ONE, 0.6, DAY)
    assert after.nitrogen == pytest.approx(water.nitrogen + 1e-5 * DAY, rel=1e-12)
    # 4.57 g of oxygen for each g of nitrogen, to nitrate (Zhu and Chen; also Timmons and Ebeling)
    assert used[0] == pytest.approx(3.427 * after.nitrite[0] + 4.57 * after.nitrate[0], rel=2e-3)


def test_a_filter_that_stands_lets_ammonia_climb() -> None:
    water = _start(2.0)
    after, used = stepped(water, 1e-5, 25.0 * ONE, 0.6, DAY, works=0.0)
    assert after.ammonia[0] == pytest.approx(FIRST_DOSE + 1e-5 * DAY)
    assert used[0] == 0.0
    assert after.eaters[0] < water.eaters[0]


def test_a_mature_film_keeps_its_size() -> None:
    film = mature_film(5e-6, 25.0, 0.6)
    water = Water(0.1 * ONE, 0.04 * ONE, 0 * ONE, film * ONE, film / 3 * ONE, 7.0 * ONE)
    for _ in range(4 * 200):
        water, _ = stepped(water, 5e-6, 25.0 * ONE, 0.6, DAY / 4)
    assert water.eaters[0] == pytest.approx(film, rel=1e-3)
    assert 0 < water.ammonia[0] < 0.25 and 0 < water.nitrite[0] < 0.25


def test_a_change_of_water_mixes() -> None:
    assert diluted(40.0, 0.25, 10.0) == pytest.approx(32.5)
