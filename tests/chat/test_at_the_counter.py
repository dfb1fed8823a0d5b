"""At the counter: the shop is asked once, each customer has a label, nobody sees another's."""

from __future__ import annotations

from pathlib import Path

import pytest
from fakes import FakeFace, demo

from interview import assembly, setups
from interview.chat.hearing.in_context import in_context
from interview.chat.session import sit_down
from interview.chat.talks.asking import asked_at
from interview.chat.together.counter import CounterTalk
from interview.chat.together.row_parts import parts_of
from interview.chat.together.shop import shop_file
from interview.chat.together.shop_told import LONGEST, as_ours, customers_name, owner_first
from interview.graph.interview import Interview, Place
from interview.graph.order.together import all_together
from interview.words.amounts.dimensions import dimensions

SHOP = ("europe", "17 °C", "26 °C")
ROOM = [Place(name) for name in ("stage", "region", "room_temperature_low")]


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("TANKSIDE_FOLDER", str(tmp_path))
    return tmp_path


def _sold(*lines: str) -> FakeFace:
    face = FakeFace(lines)
    face.live = True
    assert sit_down(face, None, "counter") == 0
    return face


def _titles(folder: Path) -> list[str]:
    questionnaire = assembly.questionnaire()
    return sorted(setups.read(path, questionnaire).title for path in folder.glob("*.yaml"))


def test_the_shop_is_asked_once_and_for_all_customers(folder: Path) -> None:
    first = _sold(*SHOP, "Anna 14", "planning; no", "stop")
    assert any("First for the shop, once" in text for text in first.tones("note"))
    told = shop_file().read_text("utf-8")
    assert "room_temperature_low: 17 °C" in told and "mains_voltage" not in told
    second = _sold("Bert", "planning; no", "stop")
    assert not any("First for the shop" in text for text in second.tones("note"))
    home = ("Region", "Europe (without the United Kingdom)")
    told_once = [home, ("Coldest room", "17 °C"), ("Warmest room", "26 °C")]
    told_once.append(("Mains voltage", "230 V, as is usual there"))
    assert ("From the shop:", told_once) in second.listings
    assert second.asked[1].label == "Stage of the tank; Person at higher risk"
    assert _titles(folder) == ["Anna 14", "Bert"]


def test_what_the_shop_types_wrong_is_asked_again(folder: Path) -> None:
    face = _sold("mars", *SHOP, "", "stop")
    assert len(face.tones("refusal")) == 1
    assert "region: europe" in shop_file().read_text("utf-8")


def test_who_leaves_at_the_shops_questions_loses_no_line(folder: Path) -> None:
    _sold("europe", "17 °C", "stop")
    assert not shop_file().exists()
    face = _sold("26 °C", "Bert", "stop")
    assert face.asked[0].label == "How warm do your customers’ rooms get, at their warmest?"
    told = shop_file().read_text("utf-8")
    assert "region: europe" in told and "17 °C" in told and "26 °C" in told
    assert [path.name for path in shop_file().parent.iterdir()] == ["defaults.yaml"]


def test_the_shop_may_name_its_town_or_state(folder: Path) -> None:
    face = _sold("We are in Ohio", *SHOP[1:], "", "stop")
    assert not face.tones("refusal")
    assert "region: north america" in shop_file().read_text("utf-8")


def test_what_the_shop_meant_is_taken_and_said(folder: Path) -> None:
    face = _sold("uk; 17-25 C", "17 °C", "26 °C", "", "stop")
    assert not face.tones("refusal")
    assert "I took “uk; 17-25 C” as United Kingdom." in face.tones("note")


@pytest.mark.parametrize("room", ["17-25 C", "17 to 25 °C", "17 C; 25 C"])
def test_both_ends_of_the_rooms_may_be_told_at_once(folder: Path, room: str) -> None:
    face = _sold("uk", room, "", "stop")
    assert not face.tones("refusal")
    kept = setups.read(shop_file(), assembly.questionnaire()).answers
    assert [kept[Place(f"room_temperature_{end}")][:2] for end in ("low", "high")] == ["17", "25"]


def test_what_cannot_be_used_in_the_shops_file_is_told_and_asked(folder: Path) -> None:
    _sold(*SHOP, "", "stop")
    text = shop_file().read_text("utf-8")
    shop_file().write_text(text.replace("17 °C", "17 parsecs"), "utf-8")
    face = _sold("Bert", "planning; no", "stop")
    assert face.asked[1].label == "Stage of the tank; Person at higher risk"
    (refused,) = face.tones("refusal")
    assert "Coldest room" in refused and "defaults.yaml" in refused
    (rows,) = (rows for title, rows in face.listings if title == "From the shop:")
    assert [name for name, _ in rows] == ["Region", "Warmest room", "Mains voltage"]


def test_next_starts_afresh_and_shows_nothing_of_the_last(folder: Path) -> None:
    face = _sold(*SHOP, "Anna 14", "planning; no", "1", "next", "Bert", "stop")
    labels = [asked.label for asked in face.asked]
    assert labels.count("Which customer is this?") == 2
    last = len(labels) - labels[::-1].index("Which customer is this?")
    after = face.asked[last - 1 :]
    assert not any("Anna" in f"{asked.label} {asked.hint} {asked.prefill}" for asked in after)
    assert not any(asked.label.startswith("Go on with") for asked in face.asked)
    assert _titles(folder) == ["Anna 14"], "Bert said nothing, so nothing is kept"


def test_enter_never_goes_on_with_the_last_customer(folder: Path) -> None:
    _sold(*SHOP, "Anna 14", "planning; no", "stop")
    face = _sold("", "", "stop")
    assert face.asked[1].label == "Stage of the tank; Person at higher risk"
    assert not any("Anna" in text for _, text in face.said)


def test_a_sentence_with_commas_is_no_row() -> None:
    interview = assembly.new_interview()
    said = "We planned this, I think in Europe, and it is cold"
    assert parts_of(interview, ROOM, said) == [said]
    assert parts_of(interview, ROOM, "living, europe, 18 C") == ["living", "europe", "18 C"]


@pytest.mark.parametrize(
    ("said", "ends"),
    [
        ("68 to 76 F", ["68 °F", "76 °F"]),
        ("between 17 and 26 °C", ["17 °C", "26 °C"]),
        ("65-80F", ["65 °F", "80 °F"]),
        ("about 70 F", ["about 70 F"]),
        ("17 C; 26 C", ["17 C", "26 C"]),
    ],
)
def test_a_range_is_how_cold_and_how_warm(said: str, ends: list[str]) -> None:
    room = [Place("room_temperature_low"), Place("room_temperature_high")]
    assert parts_of(assembly.new_interview(), room, said) == ends
    strange = [Place("heater_power"), Place("room_temperature_low")]
    assert parts_of(assembly.new_interview(), strange, "75 to 100 W") == ["75 to 100 W"]


@pytest.mark.parametrize(
    ("row", "said", "parts"),
    [
        (("substrate_depth", "grain_size"), "5 to 6 cm", ["5 to 6 cm"]),
        (("substrate_depth", "grain_size"), "5 cm; 2", ["5 cm", "2"]),
        (("mesh_wire", "mesh_pitch"), "1 mm; 0.3", ["1 mm", "0.3"]),
        (("basking_temperature", "water_temperature"), "32; 24 C", ["32", "24 C"]),
    ],
)
def test_two_of_one_kind_are_no_ends_of_a_range(
    row: tuple[str, str], said: str, parts: list[str]
) -> None:
    """A bed of 5 to 6 cm has no grains of 6 cm, and the larger number is not always the second."""
    assert parts_of(assembly.new_interview(), [Place(name) for name in row], said) == parts


def test_only_what_is_read_in_one_unit_is_asked_for_as_ends() -> None:
    questions = assembly.questionnaire().by_id
    for row in (row for row in all_together() if row.ends):
        assert len(row.ask) == 2
        (kind,) = {questions[name].type for name in row.ask}
        assert kind in dimensions()


def test_two_words_for_one_thing_are_one_answer() -> None:
    row = [Place("cover_water"), Place("cover_basking")]
    assert parts_of(assembly.new_interview(), row, "wire mesh") == ["wire mesh"]
    assert parts_of(assembly.new_interview(), row, "mesh none") == ["mesh", "none"]


def test_who_still_answers_the_row_shown_leaves_out_what_came_up_in_front() -> None:
    row = [Place(name) for name in ("heater_height", "heat_lamp_kind", "platform_kind", "rcd")]
    assert parts_of(assembly.new_interview(), row, "halogen; floating") == [
        *("", "halogen", "floating", ""),
    ]
    assert parts_of(assembly.new_interview(), row, "2 cm; rubbish") == ["2 cm", "rubbish"]


def _yes_no() -> tuple[Interview, list[Place]]:
    names = ("rcd", "drip_loops", "strip_raised")
    return assembly.new_interview(), [Place(name) for name in names]


@pytest.mark.parametrize(
    ("line", "parts"),
    [
        ("yes no yes", ["yes", "no", "yes"]),
        ("no", ["no", "no", "no"]),
        ("not sure", ["not sure"] * 3),
        ("yes; ; no", ["yes", "", "no"]),
        ("yes, no, not sure", ["yes", "no", "not sure"]),
        ("the test button works", ["the test button works"]),
    ],
)
def test_how_a_line_is_shared_out(line: str, parts: list[str]) -> None:
    assert parts_of(*_yes_no(), line) == parts


def test_a_bare_yes_is_said_of_one_where_others_want_a_number() -> None:
    row = [Place("heater_power"), Place("heater_guard")]
    assert parts_of(assembly.new_interview(), row, "yes") == ["yes"]


def test_a_few_words_go_to_the_one_question_of_a_row_that_they_answer() -> None:
    row = [Place("stage"), Place("vulnerable_person")]
    assert parts_of(assembly.new_interview(), row, "her daughter is 9") == ["", "her daughter is 9"]
    assert parts_of(assembly.new_interview(), row, "living; her son is 3") == [
        "living",
        "her son is 3",
    ]


def test_how_cold_and_how_warm_may_be_told_in_one_sentence() -> None:
    interview = assembly.new_interview()
    interview.record(Place("region"), "usa")
    row = [Place("room_temperature_low"), Place("room_temperature_high")]
    assert parts_of(interview, row, "65 at night, 80 in August") == ["65 F", "80 F"]
    assert parts_of(interview, row, "somewhere between 62 and 84") == ["62 F", "84 F"]


def test_parts_between_commas_go_where_they_alone_fit() -> None:
    row = [Place("species", 1), Place("carapace_length", 1), Place("sex", 1)]
    interview = assembly.new_interview()
    interview.record(Place("animal_count"), "2")
    assert parts_of(interview, row, "8 cm, male") == ["", "8 cm", "male"]


@pytest.mark.parametrize(
    ("line", "name"),
    [
        ("Mrs Brown", "Mrs Brown"),
        ("it's for Mr. Hall", "Mr. Hall"),
        ("customer 14", "14"),
        ("the customer is called Anna", "Anna"),
        ("Dr van Dyk", "Dr van Dyk"),
        ("the customer has a slider", ""),
        ("for a musk turtle", ""),
        ("Mr Brown's tank is 100 cm long", ""),
    ],
)
def test_a_customers_name_is_known_by_its_title_or_the_word(line: str, name: str) -> None:
    assert customers_name(line) == name


def test_a_customers_name_at_any_question_names_the_tank(folder: Path) -> None:
    face = _sold(*SHOP, "", "planning; no", "Mrs Brown", "1", "stop")
    assert "In the list this tank goes by “Mrs Brown”." in face.tones("note")
    assert not face.tones("refusal")
    assert _titles(folder) == ["Mrs Brown"]


@pytest.mark.parametrize("line", ["Miss Piggy", "dr who"])
def test_a_name_typed_as_an_answer_does_not_rename_the_customers_tank(
    folder: Path, line: str
) -> None:
    face = _sold(*SHOP, "Anna 14", "planning; no", line, "no", "1", "stop")
    assert f"Shall this tank go by “{line}” in the list?" in [a.label for a in face.asked]
    assert _titles(folder) == ["Anna 14"]


def test_what_is_told_where_a_name_is_agreed_to_is_not_lost(folder: Path) -> None:
    story = "1; we have a slider of 20 cm in a 120 x 50 x 50 cm tank"
    face = _sold(
        *SHOP, "Anna 14", "planning; no", story, "Mrs Brown", "the water is 25 C", "no", "yes"
    )
    assert "the water is 25 C" in face.repeated


def test_a_customers_name_that_is_meant_renames_the_tank_once_agreed(folder: Path) -> None:
    _sold(*SHOP, "Anna 14", "planning; no", "Mrs Brown", "yes", "1", "stop")
    assert _titles(folder) == ["Mrs Brown"]


def test_where_names_are_asked_for_a_title_is_an_answer_first() -> None:
    named: list[str] = []
    interview, face = demo("musk_turtle"), FakeFace(["Miss Piggy", "no"])
    counter = CounterTalk(interview, face, lambda: None, "counter", call_it=named.append)
    asked = asked_at(interview, Place("live_plants"), "counter")
    assert counter.hear(asked) == "Miss Piggy" and not named


def test_a_title_is_no_longer_than_the_list_holds() -> None:
    assert len(customers_name(f"Mrs {'Brown' * 50}")) == LONGEST


def test_a_customer_named_at_the_shops_questions_is_named_later(folder: Path) -> None:
    face = _sold("europe", "Mrs Brown", "17 °C", "26 °C", "planning; no", "stop")
    assert not face.tones("refusal")
    assert _titles(folder) == ["Mrs Brown"]


def test_a_number_in_a_shops_sentence_is_taken_and_said(folder: Path) -> None:
    face = _sold("elsewhere", "17 °C", "26 °C", "standard here, 230", "", "stop")
    assert "I took “standard here, 230” as 230 V." in face.tones("note")


@pytest.mark.parametrize("line", ["usual", "the usual", "standard"])
def test_what_is_usual_leaves_a_shops_line_out(folder: Path, line: str) -> None:
    face = _sold("elsewhere", "17 °C", "26 °C", line, "", "stop")
    assert not face.tones("refusal")
    assert "mains_voltage" not in shop_file().read_text("utf-8")


@pytest.mark.parametrize(
    ("name", "line", "said"),
    [
        ("floor", "don't know the floor", "not sure"),
        ("heater_power", "not sure of the watts", "not sure"),
        ("floor", "she doesn't know", "not sure"),
        ("vulnerable_person", "she doesn't know", "not sure"),
        ("floor", "the customer isn't sure", "not sure"),
        ("floor", "concrete, don't know the kind", ""),
        ("floor", "she is sure", ""),
    ],
)
def test_who_does_not_know_may_say_of_what_and_who(name: str, line: str, said: str) -> None:
    assert in_context(assembly.new_interview(), Place(name), line) == said


def test_of_a_row_what_is_known_is_taken_beside_what_nobody_knows() -> None:
    group = [Place(name) for name in ("stand", "floor", "heater_mount")]
    interview = assembly.new_interview()
    said = parts_of(interview, group, "cabinet, don't know the floor")
    assert said == ["cabinet", "don't know the floor", ""]
    assert parts_of(interview, group, "she doesn't know") == ["she doesn't know"] * 3


def test_both_ends_told_at_one_question_answer_both(folder: Path) -> None:
    face = FakeFace(["living", "europe", "it's cosy in here", "17 to 24 °C", "stop"])
    face.live = True
    sit_down(face, None, "guided")
    (path,) = folder.glob("*.yaml")
    told = setups.read(path, assembly.questionnaire()).answers
    assert told[Place("room_temperature_low")] == "17 °C"
    assert told[Place("room_temperature_high")] == "24 °C"


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ("she's got a red eared slider, 15 cm", "15 cm"),
        ("they have one musk of 9 cm", "9 cm"),
        ("he has a slider and it is 14 cm long", "14 cm"),
    ],
)
def test_she_who_has_a_turtle_is_the_customer_not_the_turtle(
    folder: Path, line: str, told: str
) -> None:
    _sold(*SHOP, "", line, "yes", "stop")
    (path,) = folder.glob("*.yaml")
    answers = setups.read(path, assembly.questionnaire()).answers
    assert answers[Place("carapace_length", 0)] == told
    assert Place("sex", 0) not in answers


@pytest.mark.parametrize("line", ["he has a swollen eye", "she's a slider", "she wants a filter"])
def test_what_she_is_or_wants_is_not_had(line: str) -> None:
    assert as_ours(line) == line


@pytest.mark.parametrize(
    ("line", "name"),
    [
        ("Mrs Reed has a slider of 20 cm", "Mrs Reed"),
        ("customer Reed keeps a slider of 20 cm", "Reed"),
        ("Mr Cole's got a slider, 20 cm", "Mr Cole"),
        ("it's for Miss Ash, she has a slider of 20 cm", "Miss Ash"),
    ],
)
@pytest.mark.parametrize("label", [(), ("",)])
def test_who_has_what_is_told_names_the_tank(
    folder: Path, label: tuple[str, ...], line: str, name: str
) -> None:
    """Where the name was left out at the start, too."""
    face = _sold(*SHOP, *label, line, *(() if label else ("planning; no",)), "yes", "stop")
    assert "I take it that:" in [title for title, _ in face.listings]
    assert _titles(folder) == [name]


@pytest.mark.parametrize("label", [(), ("",)])
def test_what_a_named_customer_wants_is_not_there(folder: Path, label: tuple[str, ...]) -> None:
    line = "Mr Cole wants a 100 W heater for his slider"
    face = _sold(*SHOP, *label, line, *(() if label else ("planning; no",)), "yes", "stop")
    assert not any("100 W" in said for _, rows in face.listings for _, said in rows)
    assert _titles(folder) == ["Mr Cole"]


@pytest.mark.parametrize("line", ["my teacher has a slider of 20 cm", "Dr Hill says it needs UVB"])
def test_who_is_no_customer_names_no_tank(folder: Path, line: str) -> None:
    _sold(*SHOP, "", "planning; no", line, "1", "stop")
    assert not {"my teacher", "Dr Hill"} & {*_titles(folder)}


def test_a_tank_that_has_a_name_keeps_it(folder: Path) -> None:
    _sold(*SHOP, "Anna 14", "planning; no", "Mrs Reed has a slider of 20 cm", "yes", "stop")
    assert _titles(folder) == ["Anna 14"]


@pytest.mark.parametrize(
    ("line", "title", "told"),
    [
        ("lady with the map turtle, mrs Okafor", "mrs Okafor", {"species": "map turtle"}),
        ("a slider of 15 cm, Mr Hall", "Mr Hall", {"carapace_length": "15 cm"}),
        ("Ms. Lindqvist - two map turtles", "Ms. Lindqvist", {"species": "map turtle"}),
        ("Mr Singh, red ears, 120 litre", "Mr Singh", {"species": "red ear"}),
        ("an elderly man with a slider, 12 cm", "an elderly man with a slider", {"sex": ""}),
        ("student, one slider of 4 cm", "student", {"carapace_length": "4 cm"}),
        (
            "big lad with two musks, 9 and 10 cm, in a 3 foot tank",
            "big lad with two musks",
            {"carapace_length": "9 cm"},
        ),
        ("Bert, big tank", "Bert, big tank", {}),
        ("big order, 12", "big order, 12", {}),
    ],
)
def test_a_label_is_the_customers_and_what_is_told_with_it_is_kept(
    folder: Path, line: str, title: str, told: dict[str, str]
) -> None:
    _sold(*SHOP, line, *(["yes", "no"] if told else ["planning; no"]), "1", "stop")
    assert _titles(folder) == [title]
    (path,) = folder.glob("*.yaml")
    answers = setups.read(path, assembly.questionnaire()).answers
    assert {name: answers.get(Place(name, 0), "") for name in told} == told


@pytest.mark.parametrize(
    ("line", "ours"),
    [
        ("Mrs Reed uses a 50 W lamp", "we use a 50 W lamp"),
        ("Mrs Reed lost a slider", "we lost a slider"),
        ("Mrs Reed wants a heater", "we want a heater"),
        ("Mrs Reed's tank is 100 x 40 x 40 cm", "our tank is 100 x 40 x 40 cm"),
        ("Mrs Reed's got a slider", "we have a slider"),
        ("Mrs Reed with a slider", "we have a slider"),
        ("Mrs Reed says it is cold", ""),
        ("Mrs Reed always", ""),
    ],
)
def test_what_a_customer_does_we_do(line: str, ours: str) -> None:
    assert owner_first(line) == (("Mrs Reed", ours) if ours else ("", line))


@pytest.mark.parametrize(
    ("line", "ours"),
    [
        ("she keeps two sliders", "we keep two sliders"),
        ("a young lady who has a map turtle", "we have a map turtle"),
        ("the customer wants a heater", "we want a heater"),
        ("the girl has a swollen eye", "the girl has a swollen eye"),
        ("a couple of sliders with a dock", "a couple of sliders with a dock"),
    ],
)
def test_a_customer_without_a_name_is_we_too(line: str, ours: str) -> None:
    assert as_ours(line) == ours


@pytest.mark.parametrize(
    ("region", "voltage"),
    [("uk", "230 V"), ("ohio", "120 V"), ("australia", "230 V"), ("elsewhere", "")],
)
def test_mains_are_asked_where_no_voltage_is_usual(folder: Path, region: str, voltage: str) -> None:
    face = _sold(region, "17 °C", "26 °C", "", "", "stop")
    asked = "What is the voltage of your mains?" in [one.label for one in face.asked]
    (rows,) = (dict(rows) for title, rows in face.listings if title == "From the shop:")
    assert asked is not bool(voltage)
    assert rows.get("Mains voltage", "") == (f"{voltage}, as is usual there" if voltage else "")
    assert "mains_voltage" not in shop_file().read_text("utf-8")


def test_where_the_shop_is_may_be_told_with_its_rooms(folder: Path) -> None:
    _sold("Leeds, rooms 16 to 24", "", "stop")
    kept = setups.read(shop_file(), assembly.questionnaire()).answers
    assert [kept[at][:2] for at in (Place("region"), *ROOM[2:])] == ["un", "16"]
    assert kept[Place("room_temperature_high")].startswith("24")


def test_what_a_sentence_leaves_over_goes_to_the_question_of_the_row_it_fits(
    folder: Path,
) -> None:
    interview = demo("musk_turtle")
    row = [Place(name) for name in ("heat_lamp_height", "heat_lamp_power", "lamp_holder")]
    for place in (*row, Place("platform_height_above_water")):
        del interview.answers[place]
    face = FakeFace(["yes"])
    line = "30 cm, 100 watts, 3 cm above the water, ceramic socket"
    row.insert(2, Place("platform_height_above_water"))
    CounterTalk(interview, face, lambda: None, "counter").take_row(row, line)
    said = [interview.answers[place].said for place in row]
    assert said == ["30 cm", "100 watts", "3 cm", "ceramic"]


def test_a_depth_told_before_the_tank_is_offered_once_the_tank_is_known(folder: Path) -> None:
    told = "a slider of 15 cm, water about 8 inches, 120 litre"
    face = _sold(*SHOP, told, "yes", "no", "100 x 40 x 40 cm", "yes", "stop")
    (path,) = folder.glob("*.yaml")
    answers = setups.read(path, assembly.questionnaire()).answers
    assert answers[Place("water_line_below_rim")] == "about 19.7 cm"
    assert any("You told “120 litre”. I don't know which tank" in one for _, one in face.said)


def test_what_is_asked_of_the_shops_questions_is_answered(folder: Path) -> None:
    face = _sold("what do I do here", *SHOP, "", "stop")
    assert not face.tones("refusal")
    assert face.tones("help")[0].startswith("First for the shop, once")


def test_a_part_that_names_its_question_answers_it_beside_others(folder: Path) -> None:
    interview = demo("musk_turtle")
    row = [Place(name) for name in ("uvb_lamp_kind", "rcd", "kitchen_used")]
    for place in row:
        del interview.answers[place]
    line = "a T5 tube, yes there's an RCD, not in the kitchen"
    CounterTalk(interview, FakeFace(["yes"]), lambda: None, "counter").take_row(row, line)
    assert [interview.answers[place].said for place in row] == ["T5", "yes", "no"]


def test_where_parts_answer_two_of_a_row_the_line_is_a_story() -> None:
    """Else all of it would go to the one that the whole answers, and the other be lost."""
    row = [Place("stage"), Place("vulnerable_person")]
    said = "still planning, a toddler at home, wants a Reeves turtle"
    assert parts_of(assembly.new_interview(), row, said) == [said]
