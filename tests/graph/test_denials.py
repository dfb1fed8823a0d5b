"""Everyday ways of saying no, none and not applicable, at the questions they are typed at."""

from __future__ import annotations

import pytest
from every import every

from interview import assembly
from interview.graph.answers import understand
from interview.words.text.refusal import NotUnderstood

QUESTIONS = assembly.questionnaire()
LISTS = assembly.new_interview().lists

THERE_IS_NONE = [
    *("none at all", "n/a", "N/A", "not applicable", "there is none", "There are none."),
    *("there isn't any", "there aren't any", "I have none", "I don't have any", "haven't got any"),
    *("not any", "doesn't apply", "without", "I haven't got one", "don't have any at the moment"),
]


def _value(name: str, said: str) -> object:
    return understand(QUESTIONS.by_id[name], said, LISTS, "europe").value


def _refused(name: str, said: str) -> str:
    with pytest.raises(NotUnderstood) as refusal:
        _value(name, said)
    return str(refusal.value)


@every("said", THERE_IS_NONE)
@every(
    ("name", "value"),
    [
        ("live_plants", ()),
        ("decor_hazards", ()),
        ("heater_mount", "none"),
        ("filter_kind", "none"),
        ("heat_lamp_kind", "none"),
        ("uvb_lamp_kind", "none"),
        ("platform_kind", "none"),
        ("substrate", "none"),
        ("cover_basking", "none"),
        ("cover_water", "none"),
        ("heater_guard", False),
        ("heater_cutout", False),
        ("intake_guard", False),
        ("uvb_reflector", False),
        ("rcd", False),
        ("lamp_timer", False),
    ],
)
def test_there_is_none(name: str, value: object, said: str) -> None:
    assert _value(name, said) == value


@pytest.mark.parametrize(
    "said",
    [
        *("none", "nothing", "no", "nope", "nil", "not yet", "none yet", "no plants", "no plant"),
        *("no live plants", "there are no plants", "I have no live plants", "without plants"),
        *("I don't have any plants", "no real plants", "only fake ones", "just plastic plants"),
        "no plants in the tank",
    ],
)
def test_no_plants(said: str) -> None:
    assert _value("live_plants", said) == ()


@pytest.mark.parametrize("said", ["yes", "some", "a few", "2", "-", "no moss", "not many", "???!"])
def test_no_name_is_taken_for_a_plant(said: str) -> None:
    assert "as names" in _refused("live_plants", said)


@pytest.mark.parametrize(
    "said",
    [
        *("no wood", "there is no wood", "I have no wood", "no driftwood", "there's no wood in it"),
        *("n/a", "there is none", "I don't have any", "no wood in the tank", "without wood"),
    ],
)
def test_without_wood_there_is_nothing_to_soak(said: str) -> None:
    assert _value("wood_soaked", said) is True


@pytest.mark.parametrize("said", ["no", "nope", "not yet", "no it wasn't"])
def test_wood_that_was_not_soaked(said: str) -> None:
    assert _value("wood_soaked", said) is False


@pytest.mark.parametrize("name", ["wood_soaked", "strip_raised"])
@pytest.mark.parametrize("said", ["none", "nothing", "None."])
def test_none_that_can_mean_two_things_is_asked_back(name: str, said: str) -> None:
    refusal = _refused(name, said)
    assert "two things" in refusal
    assert "“no " in refusal


@pytest.mark.parametrize("said", ["none", "nothing", "no", "n/a", "no plastic near it"])
def test_no_plastic_near_a_lamp_is_no_distance_of_nothing(said: str) -> None:
    _refused("lamp_plastic_gap", said)


@pytest.mark.parametrize("said", ["none", "nothing", "there is none", "n/a"])
def test_level_is_yes_or_no(said: str) -> None:
    assert "yes or no" in _refused("stand_level", said)


@every("said", ["no", "none", "n/a", "nope", "nothing", "not"])
@every(
    "name", ["region", "species", "media", "floor", "lamp_holder", "tank_origin", "heat_lamp_beam"]
)
def test_a_denial_is_never_the_start_of_a_name(name: str, said: str) -> None:
    """“no” is not North America, and “n/a” is no common name."""
    _refused(name, said)


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("decor_hazards", "no plants"),
        ("floor", "no wood"),
        ("platform_kind", "no wood"),
        ("stage", "without"),
        ("cover_water", "no glass"),
        ("carapace_length", "no"),
        ("water_line_below_rim", "no"),
    ],
)
def test_what_is_denied_is_not_taken(name: str, said: str) -> None:
    _refused(name, said)


@pytest.mark.parametrize(
    ("name", "said", "value"),
    [
        ("vulnerable_person", "nobody", False),
        ("vulnerable_person", "no one", False),
        ("kitchen_used", "never", False),
        ("night_light", "nothing", False),
        ("heater_guard", "no guard", False),
        ("strip_raised", "no strip", True),
        ("strip_raised", "there is no power strip", True),
        ("stage", "nothing yet", "planning"),
        ("stage", "not yet", "planning"),
        ("water_treatment", "nothing", "none"),
        ("filter_seeded", "no", "none"),
        ("tank_rim", "none", "rimless"),
        ("uvb_path", "nothing", "open"),
    ],
)
def test_what_a_denial_means_at_one_question(name: str, said: str, value: object) -> None:
    assert _value(name, said) == value
