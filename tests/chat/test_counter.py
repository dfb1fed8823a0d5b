"""The counter manner: few answers for a usual tank; a mistake in a row costs only itself."""

from __future__ import annotations

from collections.abc import Mapping

import pytest
from fakes import FakeFace

from interview import assembly
from interview.chat.faces.face import Asked, Left
from interview.chat.hearing.in_context import in_context
from interview.chat.together.counter import CounterTalk
from interview.chat.together.guided_talk import GuidedTalk
from interview.graph.interview import Interview, Place

# a usual set-up tank as shop staff would type it
USUAL = {
    "stage": "set up",
    "region": "north america",
    "room_temperature_low": "66 F",
    "room_temperature_high": "78 F",
    "vulnerable_person": "no",
    "animal_count": "1",
    "species": "painted turtle",
    "carapace_length": "5 in",
    "tank_size": "75 gallon",
    "tank_origin": "aquarium",
    "water_line_below_rim": "5 in",
    "substrate": "none",
    "stand": "aquarium stand",
    "stand_level": "yes",
    "floor": "slab",
    "water_temperature": "76 F",
    "heater_mount": "horizontal",
    "heater_power": "200 W",
    "heater_guard": "yes",
    "filter_kind": "canister",
    "filter_rated_flow": "400 gph",
    "filter_age": "2 months",
    "filter_seeded": "none",
    "feed_mass": "3 g",
    "feeds_per_week": "4 times a week",
    "water_change_share": "a third",
    "water_change_interval": "weekly",
    "water_treatment": "conditioner",
    "ph": "7.6",
    "ammonia": "0 mg/L",
    "nitrite": "0 mg/L",
    "nitrate": "20 mg/L",
    "platform_kind": "floating",
    "platform_size": "16 x 10 in",
    "platform_height_above_water": "1 in",
    "platform_wall_gap": "0 in",
    "heat_lamp_kind": "halogen",
    "heat_lamp_power": "75 W",
    "heat_lamp_height": "12 in",
    "basking_temperature": "90 F",
    "lamp_holder_rating": "150 W",
    "lamp_holder": "ceramic",
    "lamp_fixings": "2",
    "lamp_plastic_gap": "10 in",
    "uvb_lamp_kind": "t5 tube",
    "uvb_strength": "high",
    "uvb_lamp_height": "14 in",
    "uvb_lamp_age": "0 hours",
    "uvb_path": "open",
    "cover_basking": "none",
    "cover_water": "mesh",
    "rcd": "yes",
    "drip_loops": "yes",
    "strip_raised": "yes",
    "decor_hazards": "none",
    "kitchen_used": "no",
}


class Clerk(FakeFace):
    """Types the answers of a row at once, as the counter manner asks for them."""

    def __init__(self, talk_of: list[CounterTalk], answers: Mapping[str, str]) -> None:
        super().__init__([])
        self.talk_of, self.answers, self.typed = talk_of, answers, []

    def hear(self, asked: Asked) -> str:
        line = "yes"
        if asked.place is not None:
            group = self.talk_of[0].group(asked.place)
            line = "; ".join(self.answers[place.id] for place in group)
        self.typed.append(line)
        return line


def _sell(answers: Mapping[str, str]) -> tuple[Clerk, Interview]:
    interview, talk_of = assembly.new_interview(), []
    clerk = Clerk(talk_of, answers)
    talk_of.append(CounterTalk(interview, clerk, lambda: None, "counter"))
    talk_of[0].run()
    return clerk, interview


def test_a_usual_tank_takes_at_most_twenty_answers() -> None:
    clerk, interview = _sell(USUAL)
    assert len(clerk.typed) <= 20
    said = {place.id: answer.said for place, answer in interview.answers.items()}
    assert said == USUAL


def test_two_turtles_over_gravel_and_joists_take_at_most_twenty_answers() -> None:
    more = {"stage": "living", "animal_count": "2", "sex": "female", "substrate": "gravel"}
    more |= {"substrate_depth": "1 in", "grain_size": "5 mm"}
    more |= {"floor": "joists across", "floor_position": "wall", "other_animals": "none"}
    clerk, interview = _sell(USUAL | more)
    assert len(clerk.typed) <= 20
    assert interview.animal_count == 2
    assert {answer.how for answer in interview.answers.values()} == {"measured"}


def test_no_choice_is_worded_with_the_sign_that_parts_answers() -> None:
    interview = assembly.new_interview()
    labels = [o.label for q in interview.questionnaire for o in interview.lists.options_of(q)]
    assert len(labels) > 100
    assert not [label for label in labels if ";" in label]


def test_a_short_row_goes_on_into_the_next_topic() -> None:
    rows = ["1", "slider; 10 cm", "100 x 40 x 40 cm; 11 cm", "stop"]
    face, _ = _row("living; europe; no", *rows)
    assert _labels(face)[3] == "Tank size outside; Water below rim; Stand; Floor"
    assert _labels(face)[4].startswith("Stand; Floor; Heater mounting; ")


def _row(line: str, *more: str) -> tuple[FakeFace, Interview]:
    interview = assembly.new_interview()
    face = FakeFace([line, *more])
    talk = CounterTalk(interview, face, lambda: None, "counter")
    try:
        talk.run()
    except Exception as left:
        assert type(left).__name__ == "Left", left
    return face, interview


def test_a_mistake_in_a_row_is_asked_again_alone() -> None:
    face, interview = _row("living; mars; no", "europe")
    assert interview.answers[Place("stage")].value == "living"
    assert interview.answers[Place("vulnerable_person")].value is False
    assert interview.answers[Place("region")].value == "europe"
    assert len(face.tones("refusal")) == 1
    assert face.asked[1].label == "Region"


def test_one_left_empty_comes_alone() -> None:
    face, interview = _row("living; ; no", "europe")
    assert interview.answers[Place("region")].said == "europe"
    assert face.asked[1].place == Place("region")


def _labels(face: FakeFace) -> list[str]:
    return [asked.label for asked in face.asked]


def test_after_a_short_row_the_rest_is_offered_as_a_row() -> None:
    face, interview = _row("living", "europe; no")
    assert _labels(face)[1] == "Region; Person at higher risk"
    assert interview.answers[Place("vulnerable_person")].value is False


def test_after_errors_the_open_ones_are_offered_as_a_row() -> None:
    face, interview = _row("living; mars; warm", "europe; no")
    assert _labels(face)[1] == "Region; Person at higher risk"
    assert interview.answers[Place("vulnerable_person")].value is False
    assert face.tones("refusal")[0].startswith("Region: ")


def test_missed_twice_a_question_comes_alone_and_still_takes_a_row() -> None:
    face, interview = _row("living; mars; warm", "venus; warm", "europe; no")
    assert face.asked[2].label == "Region"
    assert face.asked[2].choices
    assert interview.answers[Place("region")].value == "europe"
    assert interview.answers[Place("vulnerable_person")].value is False


def test_what_is_said_of_an_answer_in_a_row_names_it() -> None:
    interview = assembly.new_interview()
    for name in ("stage", "region", "vulnerable_person", "animal_count"):
        interview.record(Place(name), USUAL[name])
    face = FakeFace(["slider; not sure"])
    try:
        CounterTalk(interview, face, lambda: None, "counter").run()
    except Exception as left:
        assert type(left).__name__ == "Left", left
    assert [text for text in face.tones("note") if text.startswith("Shell length: ")]


def test_commas_do_where_their_number_fits() -> None:
    _, interview = _row("living, europe, no")
    assert interview.answers[Place("vulnerable_person")].value is False


def test_too_many_answers_are_refused_and_nothing_is_taken() -> None:
    face, interview = _row("living; europe; no; yes; 3")
    refused = face.tones("refusal")[0]
    assert "I read 5 answers, but only 3 are asked for here: Stage of the tank, Region" in refused
    assert not interview.answers


def test_what_is_over_and_of_another_kind_is_given_back() -> None:
    face, interview = _row("living; europe; no; few months")
    assert interview.answers[Place("vulnerable_person")].value is False
    assert any("Not used: “few months”." in text for text in face.tones("note"))


def test_each_of_a_row_says_what_can_be_typed() -> None:
    face, _ = _row("living; europe; no", "1", "stop")
    assert dict(face.listings[0][1])["Person at higher risk"] == "yes / no"
    assert dict(face.listings[-1][1])["Shell length"].startswith("e.g. ")


def _told(*lines: str) -> FakeFace:
    """The second row, of a keeper in North America."""
    face, _ = _row("living; north america; no", *lines)
    return face


def test_why_in_a_row_is_about_all_of_it_or_the_one_named() -> None:
    face, interview = _row("why", "why person at higher risk", "how region", "stop")
    by_id = interview.questionnaire.by_id
    rows = dict(face.listings[1][1])
    assert rows["Region"] == by_id["region"].help
    assert rows["Person at higher risk"] == by_id["vulnerable_person"].help
    assert by_id["vulnerable_person"].help in face.tones("help")
    assert by_id["region"].hint in face.tones("help")
    assert not interview.answers


def test_why_means_one_of_the_row_before_others_of_that_name() -> None:
    interview, open_ = assembly.new_interview(), {"stand_level", "water_temperature"}
    interview.at_counter = True
    while (place := interview.next()) and place.id not in open_:
        interview.record(place, USUAL[place.id])
    face = FakeFace(["why temperature", "stop"])
    with pytest.raises(Left):
        CounterTalk(interview, face, lambda: None, "counter").run()
    assert "Water temperature" in face.asked[0].label and "; " in face.asked[0].label
    assert interview.questionnaire.by_id["water_temperature"].help in face.tones("help")
    assert "Which of these do you mean?" not in [asked.label for asked in face.asked]


def test_examples_are_in_the_units_of_the_keeper() -> None:
    rows = dict(_told("1", "stop").listings[-1][1])
    assert rows["Shell length"] == "e.g. 4 3/4 in"
    face, _ = _row("living; europe; no", "1", "stop")
    assert dict(face.listings[-1][1])["Shell length"] == "e.g. 11 cm"


def test_refusals_show_the_form_of_the_keeper() -> None:
    """Inches after inches, wherever they live."""
    face, _ = _row("living; europe; no", "1", "slider; 5 in", "huge; x", "90 ft; x", "stop")
    refused = " ".join(face.tones("refusal"))
    assert "36 x 18 x 16 in" in refused
    assert "100 x 40 x 40 cm" not in refused


@pytest.mark.parametrize(
    ("said", "alike"),
    [
        ("same as the other", {"species", "carapace_length", "sex"}),
        ("same; ditto; same sex", {"species", "carapace_length", "sex"}),
        ("same species; 20 cm; male", {"species"}),
        ("same species", {"species"}),
    ],
)
def test_a_further_turtle_may_be_the_same_as_the_one_before(said: str, alike: set[str]) -> None:
    interview = _turtles("about 1.5 in", "")
    names = ("species", "carapace_length", "sex")
    row = [Place(name, 1) for name in names]
    GuidedTalk(interview, FakeFace([]), lambda: None).take_row(row, said)
    first, second = (
        {name: interview.answers.get(Place(name, animal)) for name in names} for animal in (0, 1)
    )
    assert {name for name in names if first[name] == second[name]} == alike


@pytest.mark.parametrize(
    ("said", "length"),
    [("same as the first one", "10 cm"), ("same size as the first", "10 cm"), ("same", "")],
)
def test_of_several_turtles_the_same_is_that_of_the_one_named(said: str, length: str) -> None:
    interview = _turtles("10 cm", "20 cm", "")
    assert in_context(interview, Place("carapace_length", 2), said) == length


def _turtles(*lengths: str) -> Interview:
    interview = assembly.new_interview()
    told = {"stage": "living", "region": "usa", "animal_count": str(len(lengths))}
    for name, said in told.items():
        interview.record(Place(name), said)
    for animal, length in enumerate(lengths):
        each = {"species": "painted turtle", "carapace_length": length, "sex": "not sure"}
        for name, said in each.items() if length else ():
            interview.record(Place(name, animal), said)
    return interview


@pytest.mark.parametrize(
    "line",
    [
        "A customer has a slider of 20 cm in a 100 x 40 x 40 cm tank",
        "slider of 20 cm, the customer's tank is 100 x 40 x 40 cm",
    ],
)
def test_what_a_customer_has_is_told_as_the_tanks_own(line: str) -> None:
    _, interview = _row(line, "yes")
    assert interview.answers[Place("tank_size")].said == "100 x 40 x 40 cm"
    assert interview.answers[Place("carapace_length", 0)].said == "20 cm"
