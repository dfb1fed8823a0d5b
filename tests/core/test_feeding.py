"""Food and the ammonia it turns into."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from interview.core.animal import body as laws
from interview.core.animal import feeding
from interview.core.errors import Missing, NotApplicable
from interview.core.wiring import quantities

DAY, WEEK = 86400.0, 604800.0
SLIDER = "trachemys_scripta_elegans"
ADULT_MUSK: dict[str, Any] = {
    "species": ("sternotherus_odoratus",),
    "sex": ("female",),
    "carapace_length": np.array([0.11]),
    "body_mass_factor": 1.0,
    "hatchling_length_factor": 2.0,
    "feed_need_factor": 1.0,
    "feed_mass": 0.002,
    "feeds_per_week": 3.0,
    "feed_protein": 0.40,
    "ammonia_per_protein": 0.092,
    "adult_nitrogen_return": 0.55,
}
YOUNG_SLIDER = ADULT_MUSK | {"species": (SLIDER,), "carapace_length": np.array([0.10])}


def _value(name: str, known: dict[str, Any]) -> Any:
    return quantities().working(known).value(name)


def test_feed_rate_averages_over_the_week() -> None:
    assert feeding.feed_rate(0.003, 7) == pytest.approx(0.003 / DAY)
    assert _value("feed_rate", ADULT_MUSK) == pytest.approx(0.006 / WEEK)


# 1.25 or 2.5 times 10 kcal W^0.75 over 3.2 kcal/g, worked by hand at 1 kg: 3.906 and 7.813 g
@pytest.mark.parametrize(("growth", "grams"), [("adult", 3.90625), ("juvenile", 7.8125)])
def test_feed_at_one_kilogram(growth: str, grams: float) -> None:
    assert laws.feed_for_mass(1.0, growth) * DAY * 1000 == pytest.approx(grams, rel=1e-9)


def test_trap_energy_formulas_that_are_too_large_are_not_used() -> None:
    # 32 W^0.75 at 0.4 kg is printed as 16 kcal a day; the gram-based misprint gives 425 at 1 kg
    kilocalories = laws.resting_energy(np.array([0.4, 1.0])) * DAY / 4184
    assert kilocalories[0] < 16 / 3
    assert kilocalories[1] < 425 / 40


def test_energy_lies_between_respirometry_and_one_and_a_half_times_it() -> None:
    # painted turtle, 1281 g: 3.84 kcal a day at 20 degC, times a Q10 of 2 to 2.5 at 30 degC
    kilocalories = laws.resting_energy(1.281) * DAY / 4184
    assert 3.84 * 2.5 < kilocalories < 3.84 * 2 * 1.6


def test_feed_need_of_a_mixed_tank_is_the_sum_by_growth() -> None:
    mixed = ADULT_MUSK | {
        "species": ("sternotherus_odoratus", SLIDER),
        "sex": ("female", "unknown"),
        "carapace_length": np.array([0.11, 0.10]),
    }
    done = _value("growth_done", mixed)
    needs = [
        laws.feed_need_for(kind, length, "adult") * (2 - share)
        for kind, length, share in zip(mixed["species"], (0.11, 0.10), done, strict=True)
    ]
    assert _value("feed_need", mixed) == pytest.approx(sum(needs))
    assert _value("grown_feed_share", mixed) == pytest.approx(needs[0] / sum(needs))
    mean = (needs[0] * done[0] + needs[1] * done[1]) / sum(needs)
    assert _value("feed_share_most", mixed) == pytest.approx(2 - 0.45 * mean)
    assert _value("feed_share_close_most", mixed) == pytest.approx(3 - 0.8 * mean)


def test_plant_eaters_want_more_leaves_and_grown_ones_most() -> None:
    """Sliders and cooters turn to plants as they grow (Bouchard & Bjorndal 2006, Dreslik 1999)."""

    def wanted(kind: str, length: float) -> float:
        tank = {"species": (kind,), "sex": ("female",), "carapace_length": np.array([length])}
        return float(_value("leaves_wanted", ADULT_MUSK | tank))

    musk, slider, cooter = "sternotherus_odoratus", SLIDER, "pseudemys_concinna"
    assert wanted("apalone_spinifera", 0.2) == 0
    assert wanted(musk, 0.1) < 0.25 < wanted(slider, 0.24) < 0.7 < wanted(cooter, 0.24)
    assert wanted(slider, 0.04) < wanted(slider, 0.24) == pytest.approx(0.6)
    mixed = {
        "species": (cooter, musk), "sex": ("female",) * 2, "carapace_length": np.array([0.24, 0.1]),
    }  # fmt: skip
    both = [
        float(_value(name, ADULT_MUSK | mixed)) for name in ("leaves_wanted", "leaves_wanted_least")
    ]
    assert both == pytest.approx([wanted(cooter, 0.24), wanted(musk, 0.1)])


@pytest.mark.parametrize(
    ("length", "line"), [(0.05, 2.37), (0.10, 2.06), (0.15, 1.75), (0.20, 1.44)]
)
def test_the_need_of_a_growing_slider_fades_with_its_length(length: float, line: float) -> None:
    """A slider female, multiples of the resting energy [computed apart from the program]."""
    slider = ADULT_MUSK | {
        "species": (SLIDER,), "sex": ("female",), "carapace_length": np.array([length]),
    }  # fmt: skip
    (done,) = _value("growth_done", slider)
    assert 2.5 - 1.25 * done == pytest.approx(line, abs=0.03)


def test_the_need_has_no_step() -> None:
    lengths = np.linspace(0.03, 0.27, 200)
    needs = [
        float(_value("feed_need", ADULT_MUSK | {
            "species": (SLIDER,), "sex": ("male",), "carapace_length": np.array([length]),
        }))
        for length in lengths
    ]  # fmt: skip
    assert np.max(np.abs(np.diff(np.log(needs)))) < 0.12


def test_a_weighed_animal_eats_by_its_weight() -> None:
    weighed = ADULT_MUSK | {"mass": np.array([0.4])}
    (done,) = _value("growth_done", weighed)
    assert _value("feed_need", weighed) == pytest.approx(
        laws.feed_for_mass(0.4, "adult") * (2 - done)
    )


def test_growing_animals_make_ammonia_by_the_fish_farming_figure() -> None:
    # Timmons and Ebeling (recalled): 10 g a day of 40 % protein gives 0.368 g of nitrogen
    fed = YOUNG_SLIDER | {"feed_mass": 0.010, "feeds_per_week": 7.0}
    assert _value("ammonia_load", fed) * DAY * 1000 == pytest.approx(0.368, abs=5e-4)


def test_grown_animals_give_back_more_but_never_more_than_they_eat() -> None:
    protein_rate = 0.006 / WEEK * 0.40
    share = _value("ammonia_load", ADULT_MUSK) / protein_rate
    assert share == pytest.approx(0.1294, abs=1e-4)
    everything = _value("ammonia_load", ADULT_MUSK | {"adult_nitrogen_return": 1.0})
    assert everything / protein_rate == pytest.approx(0.16)  # all nitrogen in protein


def test_no_food_no_ammonia() -> None:
    assert _value("ammonia_load", ADULT_MUSK | {"feeds_per_week": 0.0}) == 0


def test_unfed_answers_are_named() -> None:
    unasked = {k: v for k, v in ADULT_MUSK.items() if not k.startswith("feed")}
    with pytest.raises(Missing) as missing:
        _value("ammonia_load", unasked)
    assert set(missing.value.names) == {"feed_mass", "feeds_per_week", "feed_protein"}


def test_an_unknown_stage_is_refused_in_words() -> None:
    with pytest.raises(NotApplicable, match="adult or juvenile, not elderly"):
        laws.feed_need_for(SLIDER, 0.1, "elderly")


@given(st.floats(0.0, 1.0), st.floats(0.07, 0.16), st.floats(0.0, 1.0))
def test_ammonia_stays_between_growth_and_all_nitrogen(
    grown: float, per_protein: float, back: float
) -> None:
    load = feeding.ammonia_load(1.0, 1.0, grown, per_protein, back)
    assert per_protein - 1e-12 <= load <= 0.16 + 1e-12


@given(st.floats(0.03, 0.28), st.floats(1.01, 1.5))
def test_need_rises_more_slowly_than_mass(length: float, longer: float) -> None:
    small, large = (laws.feed_need_for(SLIDER, x, "adult") for x in (length, length * longer))
    light, heavy = (laws.mass_from_length(SLIDER, x) for x in (length, length * longer))
    assert 1 < large / small < heavy / light


def test_arrays_give_what_the_scalars_give() -> None:
    draws = {
        "carapace_length": np.array([[0.05], [0.075], [0.11]]),
        "feed_mass": np.array([0.001, 0.002, 0.003]),
        "ammonia_per_protein": np.array([0.08, 0.092, 0.15]),
    }
    for name in ("feed_need", "feed_rate", "grown_feed_share", "ammonia_load"):
        together = _value(name, ADULT_MUSK | draws)
        for i in range(3):
            alone = _value(name, ADULT_MUSK | {key: col[i] for key, col in draws.items()})
            assert np.broadcast_to(together, (3,))[i] == pytest.approx(float(alone))
