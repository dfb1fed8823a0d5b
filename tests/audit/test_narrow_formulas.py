"""A formula that holds over less than its inputs' range concerns itself alone."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from typed_tanks import changed

from interview.audit.sampling.sample import best_values, samples
from interview.care.facts import assumptions, doubts
from interview.core.errors import BeyondFormula
from interview.core.numeric import Num
from interview.core.sheets import read_formula
from interview.core.wiring import Wiring, quantities
from interview.core.working import Working
from interview.graph.interview import Interview
from interview.vocabulary.entries import Entry
from interview.vocabulary.vocabulary import vocabulary

RANGE = (0.02, 0.2)


def lamp_glow(heat_lamp_height: Num) -> Num:
    """Glow of a lamp near by [1].

    Args:
        heat_lamp_height [m, 0.02 to 0.2]

    Source: modelling_choice, made up for this test [assumption]
    """
    return 0.1 / np.asarray(heat_lamp_height, dtype=float)


@pytest.fixture(scope="module")
def wider() -> Wiring:
    """The shipped wiring and one formula more."""
    entries = {**vocabulary(), "lamp_glow": Entry(unit="1")}
    glow = read_formula(lamp_glow, entries)
    return Wiring({**quantities().formulas, "lamp_glow": glow}, entries)


def _tank(wiring: Wiring, base: Interview, height: str) -> tuple[Working, Working]:
    given = changed(base, {"heat_lamp_height": height}).given()
    sample = samples(given, assumptions(), doubts(), wiring.range_of)
    best = best_values(given, assumptions())
    return wiring.working(best), wiring.working(sample, draws=True)


def test_a_narrower_formula_moves_no_other_number(wider: Wiring, base: Interview) -> None:
    """A lamp at 22 cm stays there, in its draws and in every quantity that rests on it."""
    (best, sample), (_, before) = (_tank(w, base, "22 cm") for w in (wider, quantities()))
    drawn: Any = sample.value("heat_lamp_height")
    assert drawn.max() > RANGE[1] and np.median(drawn) == pytest.approx(0.22, abs=1e-3)
    for name in quantities().units:
        assert np.array_equal(sample.get(name), before.get(name)) or name in sample.known, name
    with pytest.raises(BeyondFormula, match=r"heat_lamp_height is 0\.22 m, .* 0\.02 to 0\.2 m"):
        best.value("lamp_glow")
    assert best.value("shell_temperature") > 0
    assert isinstance(sample.why_not("lamp_glow"), BeyondFormula)


def test_a_few_draws_beyond_a_formula_count_as_at_its_end(wider: Wiring, base: Interview) -> None:
    """At 19.5 cm a third of the draws lie past 20 cm; only the one formula sees them there."""
    best, sample = _tank(wider, base, "19.5 cm")
    drawn: Any = sample.value("heat_lamp_height")
    assert 0.2 < np.mean(drawn > RANGE[1]) < 0.4
    glow: Any = sample.value("lamp_glow")
    assert glow.min() == pytest.approx(0.5)
    assert np.array_equal(glow[drawn < RANGE[1]], 0.1 / drawn[drawn < RANGE[1]])
    assert best.value("lamp_glow") == pytest.approx(0.1 / 0.195)


def test_candidates_side_by_side_are_not_draws(wider: Wiring, base: Interview) -> None:
    """A setting that somebody may be told is never quietly taken for another."""
    best, _ = _tank(wider, base, "15 cm")
    several = best.with_known({**best.known, "heat_lamp_height": np.array([0.1, 0.15, 0.25])})
    with pytest.raises(BeyondFormula, match=r"heat_lamp_height is 0\.25 m"):
        several.value("lamp_glow")
