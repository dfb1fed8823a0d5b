"""Company: pairs that veterinarians, an official report and keepers warn of, or don't.

Outside values: group C (softshells) of the German report of 1997 is kept singly; European pond
turtles beside sliders lost weight and many died (Cadi and Joly 2004, abstract). The other rows
are common practice, no source; the ratios of size are our own assumption.
"""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from interview.core.animal.company import REASONS, company_reason, company_severity
from interview.core.errors import NotApplicable
from interview.vocabulary.vocabulary import vocabulary

Animal = tuple[str, str, float]

SLIDER, PAINTED, REEVES = "trachemys_scripta_elegans", "chrysemys_picta", "mauremys_reevesii"
SOFTSHELL, MUSK, EMYS = "apalone_spinifera", "sternotherus_odoratus", "emys_orbicularis"
COOTER, TERRAPIN, HELMETED = "pseudemys_concinna", "malaclemys_terrapin", "pelomedusa_subrufa"
GOOD, CLOSE, WRONG, DANGER = range(4)

HERDS: list[tuple[str, int, str, list[Animal]]] = [
    ("two slider males", WRONG, "males", [(SLIDER, "male", 0.2)] * 2),
    ("two Reeves' males", DANGER, "males", [(REEVES, "male", 0.13)] * 2),
    (
        "a pair of painted turtles",
        WRONG,
        "one_of_each",
        [(PAINTED, "male", 0.12), (PAINTED, "female", 0.14)],
    ),
    ("a pair of cooters", CLOSE, "one_of_each", [(COOTER, "male", 0.22), (COOTER, "female", 0.27)]),
    (
        "one male, two females",
        CLOSE,
        "male_with_females",
        [(SLIDER, "male", 0.2), (SLIDER, "female", 0.22), (SLIDER, "female", 0.23)],
    ),
    (
        "two males, three females",
        WRONG,
        "males",
        [(SLIDER, "male", 0.2)] * 2 + [(SLIDER, "female", 0.21)] * 3,
    ),
    ("two females", CLOSE, "females", [(SLIDER, "female", 0.21), (SLIDER, "female", 0.22)]),
    ("adults nobody looked at", WRONG, "unknown", [(SLIDER, "unknown", 0.22)] * 2),
    ("two young", CLOSE, "young", [(SLIDER, "unknown", 0.05)] * 2),
    (
        "a hatchling with an adult",
        DANGER,
        "sizes",
        [(SLIDER, "unknown", 0.04), (SLIDER, "female", 0.22)],
    ),
    (
        "a softshell with a musk turtle",
        DANGER,
        "singly",
        [(SOFTSHELL, "female", 0.2), (MUSK, "female", 0.11)],
    ),
    ("two musk females", CLOSE, "singly", [(MUSK, "female", 0.11)] * 2),
    ("two musk males", DANGER, "males", [(MUSK, "male", 0.11)] * 2),
    (
        "helmeted with anything",
        DANGER,
        "singly",
        [(HELMETED, "female", 0.2), (COOTER, "female", 0.25)],
    ),
    (
        "a slider with a pond turtle",
        DANGER,
        "kinds",
        [(SLIDER, "female", 0.21), (EMYS, "female", 0.18)],
    ),
    (
        "a terrapin with a slider",
        WRONG,
        "kinds",
        [(TERRAPIN, "female", 0.19), (SLIDER, "female", 0.21)],
    ),
    ("females of one family", CLOSE, "kinds", [(COOTER, "female", 0.27), (SLIDER, "female", 0.25)]),
    (
        "one male with females of two slider forms",
        CLOSE,
        "male_with_females",
        [
            (SLIDER, "male", 0.2),
            (SLIDER, "female", 0.22),
            ("trachemys_scripta_scripta", "female", 0.23),
        ],
    ),
    (
        "males of two slider forms",
        WRONG,
        "males",
        [(SLIDER, "male", 0.2), ("trachemys_scripta_scripta", "male", 0.19)],
    ),
]


def _columns(herd: list[Animal]) -> dict[str, Any]:
    species, sex, length = zip(*herd, strict=True)
    return {"species": species, "sex": sex, "carapace_length": np.array(length)}


@pytest.mark.parametrize("said, severity, reason, herd", HERDS, ids=[row[0] for row in HERDS])
def test_the_worst_pair_counts(said: str, severity: int, reason: str, herd: list[Animal]) -> None:
    assert company_severity(**_columns(herd)) == severity
    assert REASONS[int(company_reason(**_columns(herd)))] == reason


def test_the_order_of_the_animals_counts_for_nothing() -> None:
    for _, severity, _, herd in HERDS:
        assert company_severity(**_columns(herd[::-1])) == severity


def test_females_with_room_places_and_broken_views_are_good() -> None:
    room = {"swim_area": 1.2, "required_swim_area": 0.7, "platform_area": 0.2,
            "platform_area_needed": 0.1}  # fmt: skip
    females = _columns([(SLIDER, "female", 0.21), (SLIDER, "female", 0.22)])
    assert company_severity(**females, **room, sight_barriers=True) == GOOD
    assert company_severity(**females, **room, sight_barriers=False) == CLOSE
    assert company_severity(**females, **{**room, "swim_area": 0.5}, sight_barriers=True) == CLOSE
    males = _columns([(SLIDER, "male", 0.2)] * 2)
    assert company_severity(**males, **room, sight_barriers=True) == WRONG


@pytest.mark.parametrize(
    "share, severity",
    [(0.81, CLOSE), (0.79, CLOSE), (0.66, CLOSE), (0.64, WRONG), (0.51, WRONG), (0.49, DANGER)],
)
def test_sizes_on_both_sides_of_each_ratio(share: float, severity: int) -> None:
    young = _columns([(SLIDER, "unknown", 0.1), (SLIDER, "unknown", 0.1 * share)])
    assert company_severity(**young) == severity


def test_a_male_that_is_small_by_nature_is_not_too_small() -> None:
    pair = [
        ("graptemys_pseudogeographica", "male", 0.1),
        ("graptemys_pseudogeographica", "female", 0.22),
    ]
    assert company_severity(**_columns(pair)) == CLOSE


def test_each_draw_has_its_own_ratio() -> None:
    columns = _columns([(SLIDER, "unknown", 0.1), (SLIDER, "unknown", 0.1)])
    columns["carapace_length"] = np.array([[0.1, 0.1], [0.1, 0.06], [0.1, 0.04]])
    assert list(company_severity(**columns)) == [CLOSE, WRONG, DANGER]


def test_one_turtle_has_no_company() -> None:
    with pytest.raises(NotApplicable, match="only one turtle"):
        company_severity(**_columns([(SLIDER, "male", 0.2)]))


def test_every_reason_has_a_word() -> None:
    assert len(vocabulary()["company_reason"].named) == len(REASONS)
