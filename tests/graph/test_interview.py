"""The state of an interview: what is kept, what counts, what is asked again."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import numpy as np
import pytest

from interview import assembly, setups
from interview.base.places import demo_folder
from interview.core.wiring import quantities
from interview.graph.interview import NOT_ASKED, AnswerRefused, Interview, Place
from interview.words.amounts.reading import Reading
from interview.words.text.refusal import NotUnderstood

from .conftest import PLAIN_TANK, ask_all


def _with(changed: Mapping[str, str]) -> Interview:
    interview = assembly.new_interview()
    ask_all(interview, {**PLAIN_TANK, **changed})
    return interview


def _best(interview: Interview, name: str) -> float:
    value = interview.given()[name].value
    assert isinstance(value, Reading)
    return value.best


# ---- order and several animals


def test_the_questions_of_one_animal_stay_together(empty: Interview) -> None:
    asked = ask_all(empty, {**PLAIN_TANK, "animal_count": "2"})
    animals = [(place.id, place.animal) for place in asked if place.animal is not None]
    assert animals == [
        ("species", 0),
        ("carapace_length", 0),
        ("sex", 0),
        ("species", 1),
        ("carapace_length", 1),
        ("sex", 1),
    ]


def test_an_answer_given_ahead_is_not_asked_again(empty: Interview) -> None:
    empty.record(Place("substrate"), "sand")
    assert empty.next() == Place("stage")
    assert Place("substrate") not in ask_all(empty, PLAIN_TANK)


def test_more_animals_keep_the_first_and_ask_for_the_new(plain_tank: Interview) -> None:
    done = plain_tank.record(Place("animal_count"), "2")
    assert Place("carapace_length", 0) not in done.doubtful
    assert plain_tank.answers[Place("carapace_length", 0)].said == "15 cm"
    assert plain_tank.next() == Place("sex", 0), "who may share a tank hangs on it"
    plain_tank.record(Place("sex", 0), "female")
    assert plain_tank.next() == Place("species", 1)


def test_fewer_animals_drop_the_last_and_doubt_the_rest() -> None:
    interview = _with({"animal_count": "3"})
    done = interview.record(Place("animal_count"), "2")
    assert Place("carapace_length", 2) not in interview.answers
    assert Place("carapace_length", 0) in done.doubtful
    assert len(interview.given()["species"].value) == 2


def test_the_count_is_whole_and_within_reason(empty: Interview) -> None:
    for text in ("0", "31", "1 or 2", "2.5"):
        with pytest.raises((AnswerRefused, NotUnderstood), match=r"Type|type"):
            empty.record(Place("animal_count"), text)
    assert empty.animal_count == 0


def test_a_row_of_animals_is_whole_or_absent(empty: Interview) -> None:
    """One shell nobody has measured leaves the lengths unknown, and breaks nothing."""
    empty.record(Place("animal_count"), "2")
    empty.record(Place("carapace_length", 0), "not sure")
    empty.record(Place("carapace_length", 1), "9 cm")
    assert "carapace_length" not in empty.given()
    ask_all(empty, PLAIN_TANK)
    empty.record(Place("carapace_length", 0), "7 cm")
    assert [r.best for r in empty.given()["carapace_length"].value] == [0.07, 0.09]


def test_weights_may_have_gaps() -> None:
    interview = _with({"animal_count": "2"})
    interview.record(Place("mass", 1), "600 g")
    first, second = interview.given()["mass"].value
    assert first is None
    assert second.best == 0.6


def test_a_sex_nobody_asked_is_assumed(plain_tank: Interview) -> None:
    sex = plain_tank.given()["sex"]
    assert (sex.value, sex.how, sex.said) == (("unknown",), "assumed", NOT_ASKED)
    plain_tank.record(Place("sex", 0), "female")
    sex = plain_tank.given()["sex"]
    assert (sex.value, sex.how, sex.said) == (("female",), "measured", "female")


# ---- relevance


def test_an_irrelevant_answer_is_kept_but_absent_and_comes_back(plain_tank: Interview) -> None:
    plain_tank.record(Place("heater_mount"), "none")
    assert plain_tank.relevance()[Place("heater_power")] is False
    assert plain_tank.answers[Place("heater_power")].said == "200 W"
    assert "heater_power" not in plain_tank.given()
    plain_tank.record(Place("heater_mount"), "horizontal")
    assert _best(plain_tank, "heater_power") == 200


def test_relevance_is_transitive() -> None:
    """No UVB lamp: nothing between it and the turtle, so no mesh to measure."""
    interview = _with({"uvb_path": "mesh", "mesh_wire": "0.3 mm", "mesh_pitch": "3 mm"})
    assert "mesh_wire" in interview.given()
    interview.record(Place("uvb_lamp_kind"), "none")
    for name in ("uvb_path", "mesh_wire", "mesh_pitch"):
        assert interview.relevance()[Place(name)] is False, name
        assert name not in interview.given()
        assert Place(name) in interview.answers


def test_what_is_not_known_leaves_relevance_open(empty: Interview) -> None:
    assert empty.relevance()[Place("heater_power")] is None
    empty.record(Place("heater_mount"), "not sure")
    assert empty.relevance()[Place("heater_power")] is None
    assert empty.relevance()[Place("mesh_wire")] is None


# ---- finer questions and "not sure"


def test_a_finer_question_counts_by_its_assumption(plain_tank: Interview) -> None:
    humidity = plain_tank.given()["room_humidity"]
    assert (humidity.how, humidity.said, humidity.value.best) == ("assumed", NOT_ASKED, 50)
    assert Place("room_humidity") not in plain_tank.answers
    plain_tank.record(Place("room_humidity"), "60 %")
    humidity = plain_tank.given()["room_humidity"]
    assert (humidity.how, humidity.said, humidity.value.best) == ("measured", "60 %", 60)


def test_what_a_finer_answer_brings_up_is_asked_and_meanwhile_assumed() -> None:
    """A UV reading counts before its height is told: a meter lies on the platform, or nearly."""
    interview = _with({})
    assert "uvb_reading_height" not in interview.given()
    interview.record(Place("uvb_reading"), "3.2")
    height = interview.given()["uvb_reading_height"]
    assert isinstance(height.value, Reading)
    assert (height.how, height.said) == ("assumed", NOT_ASKED)
    assert height.value.best == pytest.approx(0.03)
    assert interview.next() == Place("uvb_reading_height")
    interview.record(Place("uvb_reading_height"), "6 cm")
    assert interview.given()["uvb_reading_height"].how == "measured"


def test_a_finer_question_without_a_guess_is_absent(plain_tank: Interview) -> None:
    assert "uvb_reading" not in plain_tank.given()
    assert "electricity_price" not in plain_tank.given()


def test_an_irrelevant_finer_question_is_not_assumed(plain_tank: Interview) -> None:
    assert "heater_count" in plain_tank.given()
    plain_tank.record(Place("heater_mount"), "none")
    assert "heater_count" not in plain_tank.given()


# The words typed at a question, and what they are taken for: low, best, high.
# 1.645 times the one sigma that the question's own assumption gives.
NOT_SURE = [
    ("room_temperature_low", 17 - 1.645 * 2.5, 17.0, 17 + 1.645 * 2.5),
    ("feeds_per_week", 4 - 1.645 * 2, 4.0, 4 + 1.645 * 2),
    ("water_change_share", 0.3 - 1.645 * 0.12, 0.3, 0.3 + 1.645 * 0.12),
    ("platform_height_above_water", 0.03 - 1.645 * 0.015, 0.03, 0.03 + 1.645 * 0.015),
    ("circuit_other_load", 0.0, 300.0, 300 + 1.645 * 300),  # a length or load is never negative
    ("day_length", 3600 * (12 - 1.645), 3600 * 12, 3600 * (12 + 1.645)),
]


@pytest.mark.parametrize(("name", "low", "best", "high"), NOT_SURE, ids=[r[0] for r in NOT_SURE])
def test_not_sure_is_wide(
    plain_tank: Interview, name: str, low: float, best: float, high: float
) -> None:
    answer = plain_tank.record(Place(name), "not sure").answer
    assert isinstance(answer.value, Reading)
    assert answer.how == "assumed"
    got = (answer.value.low, answer.value.best, answer.value.high)
    assert got == pytest.approx((low, best, high))


def test_not_sure_without_a_guess_is_an_answer_without_value(plain_tank: Interview) -> None:
    answer = plain_tank.record(Place("ph"), "no idea").answer
    assert (answer.value, answer.how) == (None, "assumed")
    assert plain_tank.next() is None
    assert "ph" not in plain_tank.given()


def test_unknown_is_a_choice_where_it_is_offered(plain_tank: Interview) -> None:
    answer = plain_tank.record(Place("floor"), "unknown").answer
    assert (answer.value, answer.how) == ("unknown", "measured")


@pytest.mark.parametrize(
    ("said", "how"),
    [("25 °C", "measured"), ("about 25 °C", "estimated"), ("24 to 26 °C", "estimated")],
)
def test_how_an_answer_was_got(plain_tank: Interview, said: str, how: str) -> None:
    assert plain_tank.record(Place("water_temperature"), said).answer.how == how


# ---- edits

# What is changed to what, and which answers must be asked again.
DOUBTFUL = [
    ("tank_size", "100 x 40 x 40 cm", {"stand", "stand_level", "platform_size"}),
    ("heat_lamp_kind", "incandescent", {"heat_lamp_power", "basking_temperature", "lamp_holder"}),
    ("water_line_below_rim", "15 cm", {"basking_temperature", "heat_lamp_height"}),
    ("room_temperature_low", "15 °C", {"room_temperature_high"}),
    ("filter_kind", "sump", {"filter_rated_flow", "filter_age"}),
    ("uvb_lamp_kind", "tube_t8", {"uvb_strength", "uvb_lamp_age", "uvb_path"}),
]


@pytest.mark.parametrize(("name", "said", "again"), DOUBTFUL, ids=[row[0] for row in DOUBTFUL])
def test_a_changed_answer_makes_others_doubtful(
    plain_tank: Interview, name: str, said: str, again: set[str]
) -> None:
    done = plain_tank.record(Place(name), said)
    assert again <= {place.id for place in done.doubtful}
    asked = ask_all(plain_tank, PLAIN_TANK)
    assert set(asked) == set(done.doubtful)
    assert not plain_tank.doubtful


@pytest.mark.parametrize(
    ("name", "same"),
    [("tank_size", "1.2 m x 50 cm x 50 cm"), ("heat_lamp_kind", "HALOGEN"), ("ph", "7.40")],
)
def test_the_same_answer_in_other_words_doubts_nothing(
    plain_tank: Interview, name: str, same: str
) -> None:
    assert plain_tank.record(Place(name), same).doubtful == ()
    assert plain_tank.answers[Place(name)].said == same


def test_only_the_same_animal_is_doubted() -> None:
    interview = _with({"animal_count": "2"})
    for animal in (0, 1):
        interview.record(Place("mass", animal), "500 g")
    done = interview.record(Place("carapace_length", 1), "17 cm")
    assert [p for p in done.doubtful if p.id == "mass"] == [Place("mass", 1)]


def test_what_can_no_longer_be_is_doubtful(plain_tank: Interview) -> None:
    """A lamp above a small turtle may touch a large one, though nobody moved the lamp."""
    plain_tank.record(Place("heat_lamp_height"), "8 cm")
    done = plain_tank.record(Place("carapace_length", 0), "30 cm")
    assert Place("heat_lamp_height") in done.doubtful
    assert plain_tank.next() == Place("heat_lamp_height")


def test_an_answer_that_becomes_relevant_again_is_held_against_the_tank() -> None:
    interview = _with({"platform_kind": "floating", "platform_size": "40 x 25 cm"})
    interview.record(Place("platform_kind"), "none")
    interview.record(Place("tank_size"), "30 x 20 x 20 cm")
    interview.record(Place("tank_size"), "30 x 20 x 20 cm")
    done = interview.record(Place("platform_kind"), "floating")
    assert Place("platform_size") in done.doubtful


def test_the_region_decides_which_gallon(plain_tank: Interview) -> None:
    plain_tank.record(Place("region"), "north america")
    plain_tank.record(Place("filter_rated_flow"), "300 gallons an hour")
    american = _best(plain_tank, "filter_rated_flow")
    plain_tank.record(Place("region"), "united kingdom")
    assert _best(plain_tank, "filter_rated_flow") == pytest.approx(american * 1.20095, rel=1e-5)


def test_what_the_new_region_leaves_open_is_asked_again(plain_tank: Interview) -> None:
    """1,200 g is 1.2 kg for a British keeper and may be 1.2 g for a European one."""
    plain_tank.record(Place("region"), "united kingdom")
    plain_tank.record(Place("mass", 0), "1,200 g")
    done = plain_tank.record(Place("region"), "europe")
    assert Place("mass", 0) not in plain_tank.answers
    assert Place("mass", 0) in done.doubtful
    assert "mass" not in plain_tank.given()


# ---- back and skip


def test_back_goes_all_the_way(plain_tank: Interview) -> None:
    """From the end to the first question through every answer, and no further."""
    chain: list[Place] = []
    place = plain_tank.previous(None)
    while place is not None:
        chain.append(place)
        place = plain_tank.previous(place)
    assert [p.id for p in reversed(chain)] == list(PLAIN_TANK)


def test_back_leaves_out_what_does_not_apply(plain_tank: Interview) -> None:
    plain_tank.record(Place("heater_mount"), "none")
    assert plain_tank.previous(Place("filter_kind")) == Place("heater_mount")


def test_a_skipped_question_is_passed_over_and_can_be_gone_back_to(empty: Interview) -> None:
    empty.record(Place("stage"), "living")
    empty.record(Place("region"), "europe")
    empty.skip(Place("room_temperature_low"))
    assert empty.next() == Place("room_temperature_high")
    assert empty.previous(Place("room_temperature_high")) == Place("room_temperature_low")
    empty.record(Place("room_temperature_low"), "17 °C")
    assert Place("room_temperature_low") not in empty.skipped


# ---- units and questions of a fixture


@pytest.mark.parametrize(
    ("region", "tank", "system"),
    [
        ("europe", "120 x 50 x 50 cm", "metric"),
        ("north america", "36 x 18 x 16 in", "us"),
        ("north america", "120 x 50 x 50 cm", "metric"),
        ("europe", "36 x 18 x 16 in", "us"),
    ],
)
def test_the_keepers_units(empty: Interview, region: str, tank: str, system: str) -> None:
    empty.record(Place("stage"), "living")
    empty.record(Place("region"), region)
    empty.record(Place("tank_size"), tank)
    assert empty.system == system


def test_trying_an_answer_records_nothing(empty: Interview) -> None:
    empty.try_answer(Place("stage"), "living")
    assert empty.answers == {}


def test_a_line_too_long_is_refused(empty: Interview) -> None:
    for name in ("stage", "tank_size", "ph", "live_plants", "decor_hazards", "rcd"):
        with pytest.raises(NotUnderstood, match="too long for one answer"):
            empty.record(Place(name), "duckweed, " * 1000)


def test_control_characters_are_not_kept(empty: Interview) -> None:
    answer = empty.record(Place("live_plants"), "duck\x1b[31mweed\x07, \u202emoss").answer
    assert answer.said == "duck[31mweed, moss"
    assert answer.value == ("duck[31mweed", "moss")


def test_the_warning_leaves_out_what_does_not_matter_here(plain_tank: Interview) -> None:
    """A mesh that is no more is not asked again, but is in doubt should it come back."""
    plain_tank.record(Place("uvb_path"), "mesh")
    plain_tank.record(Place("mesh_wire"), "1 mm")
    plain_tank.record(Place("mesh_pitch"), "6 mm")
    done = plain_tank.record(Place("uvb_path"), "open")
    assert not {"mesh_wire", "mesh_pitch"} & {place.id for place in done.doubtful}
    assert Place("mesh_wire") in plain_tank.doubtful
    plain_tank.record(Place("uvb_path"), "mesh")
    assert plain_tank.next() == Place("mesh_wire")


@pytest.mark.parametrize(
    ("kind", "again", "stays"),
    [
        ("floating", "heat_lamp_height", "platform_height_above_water"),
        ("fixed", "platform_height_above_water", "heat_lamp_height"),
    ],
)
def test_lower_water_asks_again_what_rides_on_it(
    plain_tank: Interview, kind: str, again: str, stays: str
) -> None:
    plain_tank.record(Place("platform_kind"), kind)
    plain_tank.doubtful.clear()
    done = plain_tank.record(Place("water_line_below_rim"), "14 cm")
    doubtful = {place.id for place in done.doubtful}
    assert again in doubtful
    assert stays not in doubtful


def test_what_is_supposed_is_held_against_what_follows_from_it() -> None:
    """A water line under the bed is refused, though the bed is not what was supposed."""
    interview = _with({"substrate": "sand", "substrate_depth": "5 cm"})
    with pytest.raises(AnswerRefused) as refused:
        interview.hold_together({"water_line_below_rim": 0.46})
    assert refused.value.place == Place("substrate_depth")
    interview.hold_together({"water_line_below_rim": 0.10})


def test_what_is_kept_from_answer_to_answer_is_what_is_worked_out_anew() -> None:
    interview = assembly.new_interview()
    setup = setups.read(demo_folder() / "painted_turtles_classroom.yaml", interview.questionnaire)
    setups.fill(interview, setup)
    names = list(quantities().formulas)
    _ = [interview.lookup()(name) for name in names]
    for name, said in (("water_line_below_rim", "20 cm"), ("cover_water", "glass")):
        interview.record(Place(name), said)
        _ = [interview.lookup()(name) for name in names]
    interview.record(Place("carapace_length", 1), "16 cm")
    kept, anew = interview.lookup(), assembly.work_out(interview.known())
    assert sum(kept(name) is not None for name in names) > 80
    for name in names:
        assert np.array_equal(kept(name), anew.get(name)), name


@pytest.mark.parametrize("path", sorted(demo_folder().glob("*.yaml")), ids=lambda path: path.stem)
def test_answers_put_back_one_by_one_leave_nothing_out_of_date(path: Path) -> None:
    """In the file's order, then in another, where what was worked out lies behind each."""
    interview = assembly.new_interview()
    setup = setups.read(path, interview.questionnaire)
    setups.fill(interview, setup)
    relevant, given = interview.relevance(), interview.given()
    for place, answer in reversed([*interview.answers.items()]):
        interview.take_up(place, answer.said, doubtful=True)
        interview.relevance()
    fresh = assembly.new_interview()
    fresh.finer = interview.finer
    fresh.answers.update(interview.answers)
    for one in (interview, fresh):
        assert one.relevance() == relevant and one.given() == given
        assert list(one.given()) == list(given)


def test_a_name_out_of_our_lists_is_kept_as_a_keeper_would_say_it() -> None:
    interview = assembly.new_interview()
    for name, said in (("food_kinds", "pellets, dried_shrimp"), ("filter_kind", "hang_on")):
        interview.record(Place(name), said)
        kept = interview.answers[Place(name)]
        assert kept.said == said.replace("_", " ")
        assert kept.value == interview.try_answer(Place(name), said).value
