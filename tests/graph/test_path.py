"""Which questions a keeper is asked: the usual path, and what cannot apply."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from interview import assembly, setups
from interview.base.places import demo_folder
from interview.graph.interview import Interview, Place

from .conftest import PLAIN_TANK, ask_all


def _asked(changed: Mapping[str, str]) -> list[str]:
    interview = assembly.new_interview()
    return [place.id for place in ask_all(interview, {**PLAIN_TANK, **changed})]


def test_a_plain_living_tank_is_asked_exactly_this(empty: Interview) -> None:
    asked = [place.id for place in ask_all(empty, PLAIN_TANK)]
    assert asked == list(PLAIN_TANK), "PLAIN_TANK in tests/graph/conftest.py has them in this order"
    assert 45 <= len(asked) <= 55, "the usual path is full: make another question finer"


def test_every_shown_setup_answers_all_that_the_usual_path_asks() -> None:
    """Else the question goes under “Find out” of six pages that nobody meant to change."""
    left: dict[str, list[str]] = {}
    for path in sorted(demo_folder().glob("*.yaml")):
        interview = assembly.new_interview()
        setups.fill(interview, setups.read(path, interview.questionnaire))
        applies = interview.relevance()
        open_ = [p for p in interview.places() if applies[p] and interview.usual(p)]
        left[path.name] = [p.id for p in open_ if p not in interview.answers]
    assert {name: ids for name, ids in left.items() if ids} == {}, "answer it in transcripts_demo/"


def test_nobody_is_asked_a_question_twice(empty: Interview) -> None:
    asked = ask_all(empty, {**PLAIN_TANK, "animal_count": "3"})
    assert len(asked) == len(set(asked))


BARE = {"platform_kind": "none", "heat_lamp_kind": "none", "uvb_lamp_kind": "none"}
BARE |= {"heater_mount": "none", "filter_kind": "none"}


def test_a_bare_tank_is_asked_less() -> None:
    assert len(_asked(BARE)) < len(_asked({})) - 15


def test_a_planned_tank_is_asked_less() -> None:
    assert len(_asked({"stage": "planning"})) < len(_asked({})) - 5


# What is answered, and what must not be asked then.
NOT_ASKED = [
    (
        {"heat_lamp_kind": "none"},
        "heat_lamp_power heat_lamp_height basking_temperature lamp_holder_rating lamp_holder "
        "lamp_fixings lamp_plastic_gap lamp_control heat_lamp_beam basking_room_temperature",
    ),
    (
        {"uvb_lamp_kind": "none"},
        "uvb_strength uvb_lamp_length uvb_lamp_height uvb_lamp_age uvb_reflector uvb_path "
        "mesh_wire mesh_pitch mesh_light_share uvb_reading uvb_reading_height",
    ),
    ({"uvb_lamp_kind": "metal halide"}, "uvb_strength uvb_lamp_length"),
    ({"uvb_path": "glass"}, "mesh_wire mesh_pitch mesh_light_share"),
    (
        {"platform_kind": "none"},
        "platform_size platform_height_above_water platform_wall_gap platform_foam_volume "
        "ramp_slope heat_lamp_height basking_temperature uvb_lamp_height uvb_reading",
    ),
    ({"platform_kind": "fixed"}, "platform_foam_volume"),
    (
        {"heater_mount": "none"},
        "heater_power heater_count heater_length heater_height heater_body heater_guard "
        "heater_cutout thermostat_setting thermostat_swing",
    ),
    ({"heater_mount": "horizontal"}, "heater_length"),
    (
        {"filter_kind": "none"},
        "filter_rated_flow filter_measured_flow filter_count hose_diameter hose_length media "
        "media_volume intake_height intake_guard filter_age filter_seeded",
    ),
    ({"filter_kind": "sponge"}, "intake_guard intake_height hose_diameter hose_length"),
    ({"filter_kind": "hang-on"}, "hose_diameter hose_length"),
    ({"substrate": "none"}, "substrate_depth grain_size"),
    ({"floor": "slab"}, "floor_position joist_span joist_spacing"),
    ({"tank_origin": "aquarium"}, "tank_rim wall_thickness"),
    ({"stand": "floor"}, "stand_mass"),
    (
        {"stage": "planning"},
        "water_temperature ph ammonia nitrite nitrate filter_age filter_measured_flow "
        "basking_temperature uvb_reading uvb_lamp_age basking_room_temperature",
    ),
]


@pytest.mark.parametrize(("answers", "never"), NOT_ASKED, ids=[str(row[0]) for row in NOT_ASKED])
@pytest.mark.parametrize("finer", [False, True], ids=["usual", "finer"])
def test_what_cannot_apply_is_not_asked(
    answers: Mapping[str, str], never: str, finer: bool
) -> None:
    interview = assembly.new_interview()
    interview.finer = finer
    asked = {place.id for place in ask_all(interview, {**PLAIN_TANK, **answers})}
    forbidden = set(never.split())
    assert forbidden <= set(interview.questionnaire.by_id)
    if finer:  # these are only left out because they are finer
        forbidden -= {"wall_thickness"}
    assert not asked & forbidden


# What is answered, and what must be asked then.
ASKED = [
    ({"tank_origin": "home built"}, "tank_rim wall_thickness"),
    ({"substrate": "sand"}, "substrate_depth grain_size intake_height"),
    ({"substrate": "gravel"}, "substrate_depth"),
    ({"floor": "unknown"}, "floor_position joist_span"),
    ({"heater_mount": "vertical"}, "heater_length heater_height"),
    ({"heater_guard": "no"}, "heater_body"),
    ({"filter_age": "3 weeks"}, "filter_seeded"),
    ({"carapace_length": "4 cm"}, "intake_guard"),
    ({"uvb_path": "mesh"}, "mesh_wire mesh_pitch"),
    ({"platform_kind": "above tank"}, "platform_size heat_lamp_height"),
]


@pytest.mark.parametrize(("answers", "must"), ASKED, ids=[str(row[0]) for row in ASKED])
def test_what_matters_then_is_asked(answers: Mapping[str, str], must: str) -> None:
    assert set(must.split()) <= set(_asked(answers))


def test_finer_questions_come_only_when_wanted(plain_tank: Interview) -> None:
    assert plain_tank.next() is None
    plain_tank.finer = True
    finer = [place.id for place in ask_all(plain_tank, PLAIN_TANK)]
    assert {"room_humidity", "sex", "mass", "circuit_rating", "uvb_reading"} <= set(finer)
    assert not set(finer) & set(PLAIN_TANK)


# ---- progress


@pytest.mark.parametrize(
    "changed", [{}, BARE, {"stage": "planning"}, {"animal_count": "4"}], ids=str
)
def test_progress_is_honest(changed: Mapping[str, str]) -> None:
    """The number goes up by one, is never above “about”, and meets it at the last question."""
    interview = assembly.new_interview()
    seen: list[tuple[str, int, int]] = []
    while (place := interview.next()) is not None:
        seen.append(interview.progress(place))
        interview.record(place, {**PLAIN_TANK, **changed}.get(place.id, "not sure"))
    assert [number for _, number, _ in seen] == list(range(1, len(seen) + 1))
    assert all(number <= about for _, number, about in seen)
    assert seen[-1][1] == seen[-1][2]
    first = seen[0][2]
    assert 0.7 * len(seen) <= first <= 1.8 * len(seen)


@pytest.mark.parametrize("name", sorted(path.stem for path in demo_folder().glob("*.yaml")))
def test_the_last_question_of_a_demo_is_the_last_of_about(name: str) -> None:
    """With all else answered, in whatever order: “64 of about 64”."""
    filled = assembly.new_interview()
    setups.fill(filled, setups.read(demo_folder() / f"{name}.yaml", filled.questionnaire))
    said = {place: answer.said for place, answer in filled.answers.items()}
    interview, seen = assembly.new_interview(), []
    while (place := interview.next()) is not None:
        seen.append(interview.progress(place)[1:])
        interview.record(place, said.get(place, "not sure"))
    assert [number for number, _ in seen] == list(range(1, len(seen) + 1))
    assert seen[-1][0] == seen[-1][1] == len(seen) > 30
    assert abs(seen[-9][1] - len(seen)) <= 3


def test_what_was_told_ahead_is_counted_as_done() -> None:
    """A question left for the end of all others is the last of about so many."""
    interview = assembly.new_interview()
    while (place := interview.next()) is not None:
        if place.id == "kitchen_used":
            interview.skip(place)
        else:
            interview.record(place, PLAIN_TANK.get(place.id, "not sure"))
    interview.skipped.clear()
    _, number, about = interview.progress(Place("kitchen_used"))
    assert number == about > 30


def test_about_follows_what_is_found_out(empty: Interview) -> None:
    """“About” falls when a lamp turns out not to exist and rises with more animals."""
    ask_until(empty, "heat_lamp_kind")
    before = empty.progress(empty.next())[2]  # type: ignore[arg-type]
    empty.record(empty.next(), "none")  # type: ignore[arg-type]
    assert empty.progress(empty.next())[2] < before  # type: ignore[arg-type]


def test_about_rises_with_the_animals(empty: Interview) -> None:
    ask_until(empty, "animal_count")
    one = empty.progress(empty.next())[2]  # type: ignore[arg-type]
    empty.record(empty.next(), "3")  # type: ignore[arg-type]
    kinds_and_lengths, sexes, newcomers = 2 * 2, 3, 1
    more = kinds_and_lengths + sexes + newcomers
    assert empty.progress(empty.next())[2] == one + more  # type: ignore[arg-type]


def test_progress_names_the_topic(plain_tank: Interview) -> None:

    assert plain_tank.progress(Place("stage"))[0] == "Situation"
    assert plain_tank.progress(Place("kitchen_used"))[0] == "Hazards"


def test_progress_at_a_finer_question_one_jumps_to(plain_tank: Interview) -> None:

    _, number, about = plain_tank.progress(Place("room_humidity"))
    assert 1 <= number <= about


def ask_until(interview: Interview, name: str) -> None:
    """Answer the plain tank up to a question."""
    while (place := interview.next()) is not None and place.id != name:
        interview.record(place, PLAIN_TANK[place.id])


@pytest.mark.parametrize("turtles", ["1", "3"])
def test_the_number_of_questions_grows_by_a_tenth_at_most(empty: Interview, turtles: str) -> None:
    empty.in_groups, about = True, []
    while place := empty.next():
        about.append(empty.progress(place)[2])
        empty.record(place, {**PLAIN_TANK, "animal_count": turtles}.get(place.id, "not sure"))
    assert len(about) > 50
    assert max(about) <= 1.1 * about[0]
