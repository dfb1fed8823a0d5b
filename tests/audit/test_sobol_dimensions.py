"""Each name is drawn from a dimension of its own, whatever other names there are."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from msgspec.structs import replace

from interview import assembly
from interview.audit.sampling import sobol_dimensions
from interview.audit.sampling.sample import samples
from interview.audit.sampling.sobol import directions
from interview.audit.sampling.sobol_dimensions import TOGETHER, dimensions_of, order_of_names
from interview.care.facts import assumptions, doubts
from interview.core.wiring import quantities
from interview.graph.interview import MOST_ANIMALS, Interview

CUBE = len(directions())


def _drawn(given: Any, assumed: Any) -> dict[str, Any]:
    return samples(given, assumed, doubts(), quantities().range_of)


def _the_same(before: dict[str, Any], after: dict[str, Any]) -> bool:
    return all(np.array_equal(np.asarray(before[n]), np.asarray(after[n])) for n in before)


@pytest.mark.parametrize("name", ["aaa_new", "heat_new", "zzz_new"])
def test_an_assumption_more_leaves_all_other_draws(base: Interview, name: str) -> None:
    given, fact = base.given(), assumptions()["evaporation_factor"]
    before = _drawn(given, assumptions())
    after = _drawn(given, {**assumptions(), name: replace(fact, spread=5.0, low=None, high=None)})
    assert np.std(after.pop(name)) > 0
    assert after.keys() == before.keys()
    assert _the_same(before, after)


def test_an_answer_less_leaves_all_other_draws(base: Interview) -> None:
    given = base.given()
    before = _drawn(given, assumptions())
    fewer = {name: item for name, item in given.items() if name != "carapace_length"}
    after = _drawn(fewer, assumptions())
    assert before.pop("carapace_length") is not None
    assert _the_same(before, after)


def test_a_listed_name_at_the_end_moves_no_other(monkeypatch: pytest.MonkeyPatch) -> None:
    order = order_of_names()
    wanted = [(n, 0) for n in order.names] + [(n, a) for n in order.of_animals for a in (1, 29)]
    before = dimensions_of(wanted, CUBE)
    longer = type(order)(
        names=(*order.names, "new_name"), of_animals=(*order.of_animals, "new_of_animals")
    )
    monkeypatch.setattr(sobol_dimensions, "order_of_names", lambda: longer)
    sobol_dimensions._listed.cache_clear()
    after = dimensions_of([*wanted, ("new_name", 0), ("new_of_animals", 7)], CUBE)
    sobol_dimensions._listed.cache_clear()
    assert {key: after[key] for key in wanted} == before
    assert after["new_name", 0] == len(order.names)


def test_no_two_share_a_dimension() -> None:
    order = order_of_names()
    assert TOGETHER == MOST_ANIMALS
    every = [(name, 0) for name in order.names]
    every += [(n, animal) for n in order.of_animals for animal in range(1, MOST_ANIMALS)]
    strangers = [(f"stranger_{number}", 0) for number in range(60)]
    found = dimensions_of([*every, *strangers], CUBE)
    assert len(set(found.values())) == len(every) + len(strangers)
    assert min(found.values()) == 0
    assert max(found.values()) < CUBE


def test_names_without_a_dimension_are_told(monkeypatch: pytest.MonkeyPatch) -> None:
    assert not [fault for fault in assembly.faults() if "dimension" in fault]
    order = order_of_names()
    shorter = type(order)(
        names=tuple(n for n in order.names if n not in ("ph", "media_hold_time")),
        of_animals=order.of_animals,
    )
    monkeypatch.setattr(sobol_dimensions, "order_of_names", lambda: shorter)
    told = [fault for fault in assembly.faults() if "dimension" in fault]
    assert [fault.split()[0] for fault in told] == ["media_hold_time", "ph"]


def test_no_name_stands_twice() -> None:
    order = order_of_names()
    assert len(set(order.names)) == len(order.names)
    assert set(order.of_animals) <= set(order.names)
