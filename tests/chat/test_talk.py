"""The talk: commands at every kind of question, refusals, edits, leaving; nothing is lost."""

from __future__ import annotations

import re
from collections.abc import Mapping

import pytest
from fakes import CTRL_C, Held, demo, talk, up_to

from interview import assembly
from interview.graph.interview import Place

QUESTIONS = assembly.questionnaire()

# One question of each kind, and what would answer it.
KINDS = {
    "stage": "living",  # choice, required, the first
    "room_temperature_low": "17 °C",  # temperature
    "vulnerable_person": "no",  # yes or no
    "animal_count": "2",  # count
    "species": "painted turtle",  # choice from the care data, for each animal
    "carapace_length": "9 cm",  # length, for each animal
    "tank_size": "90 x 45 x 45 cm",  # size
    "heater_power": "100 W",  # power
    "filter_rated_flow": "600 L/h",  # flow
    "filter_age": "1 year",  # duration
    "feed_mass": "2 g",  # mass
    "feeds_per_week": "4",  # times a week
    "water_change_share": "a third",  # share
    "ph": "7.5",  # rating
    "nitrate": "20 mg/L",  # concentration
    "uvb_lamp_age": "100 hours",  # lit time
    "decor_hazards": "sharp",  # several choices
}
KIND = pytest.mark.parametrize("name", KINDS)


@KIND
def test_why_and_how(name: str) -> None:
    held = talk(["why", "How?", "WHY."], up_to(name))
    question = QUESTIONS.by_id[name]
    told = held.face.tones("help")
    why = told[: told.index(question.hint)]
    assert why[0] == question.help
    assert told == [*why, question.hint, *why]
    assert set(held.face.ids) == {name}


@KIND
@pytest.mark.parametrize("word", ["?", "help", "Help"])
def test_help_lists_the_commands(name: str, word: str) -> None:
    held = talk([word], up_to(name))
    (_, rows), *_ = held.face.listings
    commands = {command.split()[0] for command, _ in rows}
    assert {"why", "how", "not", "skip", "back", "change", "show", "stop"} <= commands
    assert held.face.ids == [name, name]


@KIND
def test_show_lists_what_is_known_and_asks_again(name: str) -> None:
    held = talk(["show"], up_to(name))
    assert held.face.ids == [name, name]
    shown = [label for _, rows in held.face.listings for label, _ in rows]
    expected = [QUESTIONS.by_id[p.id].short for p in held.interview.answers]
    assert sorted(shown) == sorted(expected)


@KIND
def test_skip_leaves_it_open_unless_it_is_required(name: str) -> None:
    held = talk(["skip"], up_to(name))
    if QUESTIONS.by_id[name].required:
        assert held.face.ids == [name, name]
        assert QUESTIONS.by_id[name].help in held.face.said[-1][1]
        assert not held.interview.skipped
    else:
        assert name not in held.face.ids[1:]
        assert [place.id for place in held.interview.skipped] == [name]


@KIND
def test_back_offers_the_answer_before_and_returns(name: str) -> None:
    interview = up_to(name)
    before = interview.previous(interview.next())
    if before is None:
        held = talk(["back"], interview)
        assert held.face.ids == [name, name]
        assert held.face.said == [("note", "This is the first question.")]
        return
    held = talk(["back", ""], interview)  # Enter keeps the answer
    assert held.face.ids == [name, before.id, name]
    assert held.face.asked[1].prefill == interview.answers[before].said


@KIND
def test_change_goes_there_and_returns(name: str) -> None:
    interview = up_to(name)
    if name == "stage":
        held = talk(["change stage", "living"], interview)
        assert held.face.ids[:3] == ["stage", "stage", "region"]
        return
    held = talk(["change stage", "living"], interview)
    assert held.face.ids == [name, "stage", name]


@KIND
@pytest.mark.parametrize("word", ["stop", "Stop.", "quit", "exit"])
def test_stop_leaves_saved(name: str, word: str) -> None:
    interview = up_to(name)
    known = dict(interview.answers)
    held = talk([word], interview)
    assert held.left and not held.left.interrupted
    assert held.interview.answers == known


@KIND
def test_not_sure_says_what_is_assumed(name: str) -> None:
    unsure = QUESTIONS.by_id[name].unsure
    held = talk(["not sure"], up_to(name))
    assert (unsure.say or unsure.leave) in held.face.tones("note")
    assert len(held.saves) == 1


@KIND
@pytest.mark.parametrize("nonsense", ["blorp", "17 bananas", "'; drop table", "<b>", "-"])
def test_a_refusal_keeps_the_question_and_loses_nothing(name: str, nonsense: str) -> None:
    interview = up_to(name)
    known = dict(interview.answers)
    held = talk([nonsense, KINDS[name]], interview)
    if name == "decor_hazards" and not held.face.tones("refusal"):
        pytest.fail("nonsense was taken for a hazard")
    (refusal,) = held.face.tones("refusal")
    assert "Type " in refusal
    assert held.face.ids[:2] == [name, name]
    assert known.items() <= held.interview.answers.items()
    assert held.saves[-1][name] == KINDS[name]
    assert len(held.saves) == 1


@KIND
@pytest.mark.parametrize("line", ["instead of that, bananas", "17 bananas, rather than the lamp"])
def test_what_something_is_instead_of_is_no_answer(name: str, line: str) -> None:
    held = talk([line, KINDS[name]], up_to(name))
    assert held.face.ids[:2] == [name, name]
    assert held.saves[0][name] == KINDS[name] and len(held.saves) == 1


@KIND
@pytest.mark.parametrize("line", ["", "   ", "\t"])
def test_an_empty_line_is_no_answer(name: str, line: str) -> None:
    held = talk([line], up_to(name))
    assert held.face.ids == [name, name]
    assert "not sure" in held.face.said[-1][1]
    assert held.saves == []


# ---- leaving


@KIND
def test_ctrl_c_twice_leaves_saved(name: str) -> None:
    interview = up_to(name)
    known = dict(interview.answers)
    held = talk([CTRL_C, CTRL_C], interview)
    assert held.left and held.left.interrupted
    assert held.face.said[-1][1].startswith("Leave now? Everything is saved.")
    assert held.interview.answers == known


@KIND
def test_ctrl_c_once_asks_and_enter_goes_on(name: str) -> None:
    held = talk([CTRL_C, "", KINDS[name]], up_to(name))
    assert held.face.ids[:2] == [name, name]
    assert held.saves[0][name] == KINDS[name]


@pytest.mark.parametrize("word", ["yes", "y", "stop", "quit"])
def test_yes_to_leaving_leaves_and_answers_nothing(word: str) -> None:
    """At a yes/no question “yes” after Ctrl-C means leave, not yes."""
    held = talk([CTRL_C, word], up_to("vulnerable_person"))
    assert held.left and held.left.interrupted
    assert Place("vulnerable_person") not in held.interview.answers


def test_no_to_leaving_goes_on_and_answers_nothing() -> None:
    held = talk([CTRL_C, "no"], up_to("vulnerable_person"))
    assert held.face.ids == ["vulnerable_person"] * 2
    assert Place("vulnerable_person") not in held.interview.answers


def test_an_answer_typed_after_ctrl_c_is_not_lost() -> None:
    held = talk([CTRL_C, "16 °C"], up_to("room_temperature_low"))
    assert held.said("room_temperature_low") == "16 °C"


@KIND
def test_the_end_of_input_leaves_saved(name: str) -> None:
    interview = up_to(name)
    known = dict(interview.answers)
    held = talk([], interview)
    assert held.left and not held.left.interrupted
    assert held.interview.answers == known


def test_the_end_of_input_after_ctrl_c_leaves() -> None:
    assert talk([CTRL_C], up_to("ph")).left


def test_each_answer_is_saved_before_the_next_question() -> None:
    held = talk(["living", "europe", "17 °C", "26 °C"])
    assert [len(save) for save in held.saves] == [1, 2, 3, 4]


# ---- what the talk says back


def _remarks(name: str, lines: list[str], changed: Mapping[str, str] | None = None) -> list[str]:
    return talk(lines, up_to(name, changed)).face.tones("remark")


METRIC = {"region": "europe", "room_temperature_low": "17 °C", "room_temperature_high": "26 °C"}
AMERICAN = {
    "region": "north america",
    "room_temperature_low": "63 F",
    "room_temperature_high": "79 F",
    "carapace_length": "4 in",
    "tank_size": "36 x 18 x 16 in",
}


@pytest.mark.parametrize(
    ("changed", "typed", "units", "others"),
    [
        (METRIC, "11 cm", r"\d L\b.*\d cm\b", r"gal|\bin\b of"),
        (AMERICAN, "4 in", r"\d gal\b.*\d in\b", r"\d L\b|\d cm\b"),
    ],
    ids=["metric", "american"],
)
def test_remarks_are_in_the_keepers_units(
    changed: Mapping[str, str], typed: str, units: str, others: str
) -> None:
    (remark,) = _remarks("water_line_below_rim", [typed], changed)
    assert re.search(units, remark), remark
    assert not re.search(others, remark), remark


def test_the_remark_computes_this_tank() -> None:
    """100 x 40 x 40 cm with 4 x 1 cm of glass: 98 x 38 x (39 - 11) cm is 104 L of water."""
    interview = up_to("water_line_below_rim")
    interview.record(Place("wall_thickness"), "10 mm")
    (remark,) = talk(["11 cm"], interview).face.tones("remark")
    litres = float(re.search(r"([\d.]+) L", remark)[1])  # type: ignore[index]
    assert litres == pytest.approx(9.8 * 3.8 * 2.8, abs=5)  # up to 2 L of wood is assumed
    assert "28 cm" in remark


def test_a_remark_on_one_animal_speaks_of_it_alone() -> None:
    (remark,) = _remarks("carapace_length", ["9.5 cm"])
    assert "its shell stands" in remark
    interview = up_to("animal_count")
    lines = ["2", "painted turtle", "9 cm", "female", "painted turtle", "12 cm", "female"]
    (remark,) = talk(lines, interview).face.tones("remark")
    assert "all the turtles together" in remark


@pytest.mark.parametrize(
    ("typed", "changed", "told"),
    [
        ("38 cm", {}, "Then it hangs in the air: unplug it now, and let it cool"),
        ("10 cm", {"heater_mount": "vertical", "heater_length": "25 cm"}, "unplug it now"),
        ("38 cm", {"stage": "planning"}, "Then it would stand out of the water: plan it lower."),
        ("3 cm", {}, "of water over it."),
    ],
)
def test_a_heater_out_of_the_water_is_told_to_be_unplugged(
    typed: str, changed: Mapping[str, str], told: str
) -> None:
    interview = demo("musk_turtle")
    for name, said in changed.items():
        interview.record(Place(name), said)
    (remark,) = talk(["change heater above the bottom", typed], interview).face.tones("remark")
    assert told in remark and "-" not in remark and "−" not in remark
    assert ("nplug" in remark) is ("nplug" in told)


def test_no_remark_shows_a_brace() -> None:
    for name in ("musk_turtle", "river_cooter_adult", "painted_turtles_classroom"):
        interview = demo(name)
        lines = []
        for place in interview.places():
            if interview.relevance()[place] and place in interview.answers:
                lines += [f"change {_spoken(interview, place)}", interview.answers[place].said]
        held = talk(lines, interview)
        assert held.face.tones("remark")
        assert not [text for _, text in held.face.said if "{" in text or "}" in text]


def _spoken(interview, place: Place) -> str:  # type: ignore[no-untyped-def]
    return place.id if place.animal is None else f"turtle {place.animal + 1} {place.id}"


def test_what_was_guessed_is_said_back() -> None:
    held = talk(["40 breeder"], up_to("tank_size"))
    (said, *_) = held.face.tones("note")
    assert said.startswith('I took "40 breeder" as ')


def test_a_change_warns_what_it_makes_doubtful_and_asks_it_again() -> None:
    interview = demo("musk_turtle")
    held = talk(["change heat lamp", "incandescent"], interview)
    (warning,) = [text for text in held.face.tones("note") if "may have changed" in text]
    assert warning.startswith("That may have changed: ")
    for name in ("Heat lamp power", "Basking surface", "Lamp socket"):
        assert name in warning
    assert held.face.ids[2] == "heat_lamp_height", "of the doubtful ones it is worth most"
    assert held.face.asked[2].prefill == held.said("heat_lamp_height")


def test_several_turtles_are_told_apart() -> None:
    held = talk(["2", "painted turtle"], up_to("animal_count"))
    assert [a.animal for a in held.face.asked] == ["", "Turtle 1: ", "Turtle 1: "]
    assert talk(["1"], up_to("animal_count")).face.asked[1].animal == ""


def test_after_a_refusal_the_line_starts_empty_and_enter_still_keeps() -> None:
    held = talk(["change coldest room", "warm", ""], demo("musk_turtle"))
    first, second = held.face.asked[1:3]
    assert (first.prefill, first.keeps) == ("18 °C", "18 °C")
    assert (second.prefill, second.keeps) == ("", "18 °C")
    assert held.said("room_temperature_low") == "18 °C"


def test_not_sure_is_never_put_into_the_line() -> None:
    interview = demo("musk_turtle")
    interview.record(Place("ph"), "not sure")
    asked = talk(["change ph"], interview).face.asked[1]
    assert (asked.prefill, asked.before) == ("", "not sure")


def test_the_answer_before_is_shown_in_the_words_of_the_choice() -> None:
    interview = demo("musk_turtle")
    interview.record(Place("heat_lamp_kind"), "3")
    asked = talk(["change heat_lamp_kind"], interview).face.asked[1]
    assert (asked.before, asked.keeps) == ("mercury vapour, heat and UVB in one", "mercury_vapour")


@pytest.mark.parametrize(
    ("name", "typed", "kept"),
    [
        ("heat_lamp_power", "60", "60 W"),
        ("heat_lamp_power", "about 60", "about 60 W"),
        ("heater_power", "75W", "75W"),
    ],
)
def test_watts_need_no_unit(name: str, typed: str, kept: str) -> None:
    held = talk([typed], up_to(name))
    assert held.said(name) == kept
    echoed = f"I took “{typed}” as {kept}." in held.face.tones("note")
    assert echoed is (typed != kept)


@pytest.mark.parametrize(("name", "typed"), [("water_temperature", "40"), ("grain_size", "2")])
def test_where_two_units_are_in_use_one_is_needed(name: str, typed: str) -> None:
    (refusal,) = talk([typed], up_to(name)).face.tones("refusal")
    assert "it has no unit" in refusal


@pytest.mark.parametrize(
    ("name", "typed", "kept"),
    [
        ("water_line_below_rim", "about half full", "about 20 cm"),
        ("water_line_below_rim", "28 cm deep", "about 12 cm"),
        ("water_line_below_rim", "about 30 cm of water in there", "about 10 cm"),
        ("water_line_below_rim", "it's a foot deep", "about 9.5 cm"),
        ("water_line_below_rim", "three quarters full", "about 10 cm"),
        ("water_line_below_rim", "they filled it about three quarters", "about 10 cm"),
        ("water_line_below_rim", "halfway up", "about 20 cm"),
        ("water_temperature", "room temp", "18 °C to 25 °C"),
        ("water_temperature", "about 66", "about 66 °F"),
        ("water_temperature", "26", "26 °C"),
        ("water_temperature", "about 23 to 25", "about 23 to 25 °C"),
        ("water_temperature", "between 74 and 78", "between 74 and 78 °F"),
        ("basking_temperature", "about 90, infrared gun", "about 90 °F, infrared gun"),
        ("basking_temperature", "31 with a probe", "31 °C with a probe"),
        ("day_length", "12", "12 hours"),
    ],
)
def test_what_is_known_already_is_reckoned_in(name: str, typed: str, kept: str) -> None:
    held = talk([f"change {name}", typed], demo("musk_turtle"))
    assert held.said(name) == kept
    assert f"I took “{typed}” as {kept}." in held.face.tones("note")


def test_two_answers_in_one_breath_are_both_taken() -> None:
    held = talk(["a quarter every week"], up_to("water_change_share"))
    assert held.said("water_change_share") == "a quarter every week"
    assert held.said("water_change_interval") == "a quarter every week"
    assert "I took “Between changes” from that too." in held.face.tones("note")
    assert "water_change_interval" not in held.face.ids
    known = held.interview.known()
    assert known["water_change_share"] == 0.25
    assert known["water_change_interval"] == 7 * 86400


def test_an_answer_given_already_is_not_taken_again() -> None:
    held = talk(["change share changed", "half every month"], demo("musk_turtle"))
    before = demo("musk_turtle").known()["water_change_interval"]
    assert held.interview.known()["water_change_interval"] == before


def test_full_without_a_share_is_no_water_line() -> None:
    held = talk(["change water line", "it is full"], demo("musk_turtle"))
    assert held.face.tones("refusal")


# ---- moving about


@pytest.mark.parametrize(
    ("typed", "name"),
    [
        ("change water line", "water_line_below_rim"),
        ("change water_line_below_rim", "water_line_below_rim"),
        ("Change Water Below Rim", "water_line_below_rim"),
        ("change ph", "ph"),
        ("change heat lamp power", "heat_lamp_power"),
        ("change lamp to platform", "heat_lamp_height"),
        ("change tank size", "tank_size"),
        ("change basking surfce", "basking_temperature"),
        ("change species", "species"),
        ("change room humidity", "room_humidity"),  # a finer question, not asked so far
        ("change shell length", "carapace_length"),
        ("change the water line by 2 inches", "water_line_below_rim"),
    ],
)
def test_change_finds_the_answer_meant(typed: str, name: str) -> None:
    held = talk([typed], demo("musk_turtle"))
    assert held.face.ids == ["review", name]


@pytest.mark.parametrize(
    ("typed", "place", "value"),
    [
        ("change heat lamp to one hundred watts", "heat_lamp_power", 100),
        ("change the halogen to one hundred watts", "heat_lamp_power", 100),
        ("change lamp to platform to two and a half feet", "heat_lamp_height", 0.762),
        (
            "change the water line to a couple of inches below the rim",
            "water_line_below_rim",
            0.0508,
        ),
        ("change water temperature to seventy-eight F", "water_temperature", (78 - 32) / 1.8),
        ("change water changes to every other week", "water_change_interval", 14 * 86400),
        ("change the water line 2 inches lower", "water_line_below_rim", 0.161),
        ("change heat_lamp_height by -2 in", "heat_lamp_height", 0.169),
        ("change water_line_below_rim by -2 cm", "water_line_below_rim", 0.09),
        ("change water below rim 2 cm more", "water_line_below_rim", 0.13),
        ("change the heat lamp, 3 cm higher", "heat_lamp_height", 0.25),
        ("change water temperature 2 degrees warmer", "water_temperature", 26.5),
    ],
)
def test_change_takes_what_it_tells(typed: str, place: str, value: float) -> None:
    held = talk([typed], demo("musk_turtle"))
    assert held.interview.known()[place] == pytest.approx(value)
    assert place not in held.face.ids


def test_two_hours_are_from_and_until() -> None:
    held = talk(["change day_length", "8 to 20"], demo("musk_turtle"))
    assert held.interview.known()["day_length"] == 12 * 3600


def test_change_to_a_word_takes_a_choice() -> None:
    held = talk(["change filter to canister"], demo("musk_turtle"))
    assert held.interview.known()["filter_kind"] == "canister"
    held = talk(["change heat lamp to incandescent"], demo("musk_turtle"))
    assert held.interview.known()["heat_lamp_kind"] == "incandescent"


@pytest.mark.parametrize(
    "typed", ["change lamp 5 cm to the left", "change lamp to platform to 8 cm"]
)
def test_a_lamp_is_never_put_much_nearer_without_asking(typed: str) -> None:
    held = talk([typed, "1", "stop"], demo("musk_turtle"))
    assert held.interview.known()["heat_lamp_height"] == pytest.approx(0.22)


@pytest.mark.parametrize(
    ("typed", "place", "problem"),
    [
        ("water line to 80 cm", "water_line_below_rim", "I understood 80 cm below the rim"),
        ("lamp to platform to 2 mm", "heat_lamp_height", "I understood 2 mm from lamp"),
        ("nitrate to 30 C", "nitrate", 'I understood "30 C", which is a temperature'),
        ("ph to 20", "ph", "I understood pH 20."),
        (
            "water line 30 cm lower",
            "water_line_below_rim",
            "I can't take “30 cm lower” from about 11 cm. Type where it is now, as ",
        ),
        ("ph by -0.5", "ph", "I can't take “-0.5” from 7.6. Type where it is now, as "),
    ],
)
def test_change_says_why_an_amount_is_not_taken(typed: str, place: str, problem: str) -> None:
    held = talk([f"change {typed}"], demo("musk_turtle"))
    (said,) = held.face.said
    assert said[0] == "refusal" and said[1].startswith(problem)
    assert held.face.ids == ["review", place]


def test_what_no_answer_can_be_is_asked_for() -> None:
    held = talk(["change lamp to platform to one hundred watts"], demo("musk_turtle"))
    assert held.face.ids == ["review", "heat_lamp_power"]
    assert held.interview.known()["heat_lamp_power"] == 50


@pytest.mark.parametrize(
    ("typed", "offered", "pick", "name"),
    [
        ("temperature", "Water temperature", "water", "water_temperature"),
        ("lamp height", "UVB lamp to platform", "uvb", "uvb_lamp_height"),
        ("i raised the lamp", "Lamp to platform", "1", "heat_lamp_height"),
    ],
)
def test_change_asks_which_when_several_fit(typed: str, offered: str, pick: str, name: str) -> None:
    held = talk([f"change {typed}", pick], demo("musk_turtle"))
    which = held.face.asked[1]
    assert which.label == "Which of these do you mean?"
    assert offered in [label for _, label in which.choices]
    assert 2 <= len(which.choices) <= 9
    assert held.face.asked[2].place == Place(name)


def test_none_of_them_stays() -> None:
    held = talk(["change temperature", ""], demo("musk_turtle"))
    assert held.face.ids == ["review"] * 3
    assert talk(["change temperature", "stop"], demo("musk_turtle")).left


def test_change_reaches_each_turtle() -> None:
    held = talk(["change turtle 2 shell length", "13 cm"], demo("painted_turtles_classroom"))
    assert held.face.asked[1].place == Place("carapace_length", 1)
    assert held.said("carapace_length", 1) == "13 cm"
    assert held.said("carapace_length", 0) == "4 in"


@pytest.mark.parametrize("typed", ["change", "change ", "change qqqqqq", "change zzz xxx qqq vvv"])
def test_change_that_finds_nothing_says_so_and_stays(typed: str) -> None:
    held = talk([typed], up_to("ph"))
    assert held.face.ids == ["ph", "ph"]
    assert held.face.tones("note")


def test_back_many_times_then_on_again() -> None:
    interview = up_to("floor")
    held = talk(["back", "back", "back", "", "slab"], interview)
    assert held.face.ids[:5] == ["floor", "stand", "water_line_below_rim", "tank_size", "floor"]


def test_an_answer_that_was_skipped_is_asked_when_taken_up_again() -> None:
    interview = up_to("ph")
    talk(["skip"], interview)
    assert talk([], interview).face.ids == ["ph"]


def test_topics_open_once_on_the_way() -> None:
    held = talk(["living", "europe", "17 C", "26 C", "no", "1", "slider"])
    assert held.face.topics == ["Situation", "Animals"]


def test_the_counter_manner_is_short() -> None:
    held = talk([], up_to("ph"), manner="counter")
    assert (held.face.asked[0].label, held.face.asked[0].hint) == ("pH", "e.g. 7.6")


def test_at_the_counter_a_yes_or_no_is_not_answered_beforehand() -> None:
    held = talk([], up_to("vulnerable_person"), manner="counter")
    assert held.face.asked[0].hint == "yes / no"


# ---- the review


def _review(*lines: str) -> Held:
    return talk(list(lines), demo("musk_turtle"))


@pytest.mark.parametrize("word", ["", "yes", "y", "Yes.", "audit", "ready"])
def test_the_review_ends_in_the_audit(word: str) -> None:
    held = _review(word)
    assert held.left is None
    assert held.face.ids == ["review"]
    assert [title for title, _ in held.face.listings][:2] == ["Situation", "Animals"]


@pytest.mark.parametrize("word", ["no", "n", "stop", "quit"])
def test_the_review_can_be_left(word: str) -> None:
    assert _review(word).left


def test_the_review_changes_an_answer_and_comes_back() -> None:
    held = _review("change ph", "7.9", "yes")
    assert held.face.ids == ["review", "ph", "review"]
    assert held.said("ph") == "7.9"
    assert held.left is None


def test_the_review_goes_back() -> None:
    assert _review("back", "yes", "yes").face.ids == ["review", "wood_soaked", "review"]


def test_the_review_asks_the_finer_questions() -> None:
    held = _review("finer")
    assert held.interview.finer
    assert held.face.ids[:2] == ["review", "heater_height"]
    assert held.saves
    assert "finer" in held.face.asked[0].hint


def test_the_review_shows_again() -> None:
    held = _review("show")
    titles = [title for title, _ in held.face.listings]
    assert titles.count("Situation") == 2


@pytest.mark.parametrize("word", ["perhaps", "why", "not sure", "42", "\x1b[2J"])
def test_the_review_says_what_can_be_typed(word: str) -> None:
    held = _review(word)
    assert "Type yes for the audit" in held.face.said[-1][1]
    assert held.face.ids == ["review"] * 2


def test_ctrl_c_at_the_review_does_not_start_the_audit() -> None:
    held = _review(CTRL_C, "", "stop")
    assert held.left
    assert held.face.ids == ["review", "review"]


def test_the_review_counts_what_is_open() -> None:
    interview = demo("musk_turtle")
    for name in ("ph", "kitchen_used"):
        interview.record(Place(name), "not sure")  # left open
    interview.record(Place("joist_span"), "not sure")  # has an assumption
    held = talk(["yes"], interview)
    assert held.face.said[-1][1].startswith("2 left open")


def test_the_review_tells_assumed_from_open() -> None:
    interview = demo("musk_turtle")
    for name in ("ph", "water_change_interval", "rcd", "joist_span", "cover_water"):
        interview.record(Place(name), "not sure")
    rows = dict(row for _, rows in talk([], interview).face.listings for row in rows)
    assert rows["pH"] == "not sure (left open)"
    assert rows["Between changes"] == "not sure (assumed 10 days)"
    assert rows["GFCI or RCD"] == "no (assumed)"
    assert rows["Joist span"] == "not sure (the usual is assumed)"
    assert rows["Cover over the water"] == "nothing (assumed)"
    assert rows["Heater guarded"] == "yes"


# ---- impossible tanks

# Where, what was answered before, what is typed, and what the sentence must name.
IMPOSSIBLE = [
    ("water_line_below_rim", {}, "45 cm", ("45 cm", "40 cm")),
    ("water_line_below_rim", {}, "3 m", ("3 m", "11 cm")),
    ("tank_size", {}, "40 x 100 x 40 cm", ("40 cm long", "1 m from front", "100 x 40 x 40 cm")),
    ("tank_size", {}, "12 x 5 x 5 mm", ("1.2 cm", "100 x 40 x 40 cm")),
    ("substrate_depth", {}, "35 cm", ("35 cm", "4 cm")),
    ("grain_size", {}, "3 cm", ("3 cm", "you said sand", "0.5 mm")),
    ("grain_size", {"substrate": "stones"}, "1 mm", ("1 mm", "gravel or sand", "6 cm")),
    ("heater_length", {"heater_mount": "angled"}, "99 cm", ()),
    ("heater_length", {"heater_mount": "vertical"}, "50 cm", ("50 cm", "40 cm", "25 cm")),
    ("heater_length", {"heater_mount": "vertical"}, "1.2 m", ("1.2 m", "30 cm")),
    ("heater_height", {"heater_mount": "vertical"}, "55 cm", ("55 cm", "40 cm high", "5 cm")),
    ("intake_height", {}, "55 cm", ("55 cm", "40 cm high", "5 cm")),
    ("platform_size", {}, "150 x 20 cm", ("1.5 m", "1 m", "above tank")),
    ("platform_size", {}, "110 x 105 cm", ("1.1 m", "1 m")),
    ("platform_height_above_water", {}, "60 cm", ("60 cm", "40 cm", "3 cm")),
    ("platform_wall_gap", {}, "1.2 m", ("1.2 m", "1 m", "1 cm")),
    ("heat_lamp_height", {}, "3 cm", ("3 cm", "touch the lamp", "25 cm")),
    ("basking_temperature", {}, "10 °C", ("10 °C", "18 °C", "33 °C")),
    ("room_temperature_high", {}, "12 °C", ("12 °C", "18 °C")),
    ("mesh_pitch", {"uvb_path": "mesh", "mesh_wire": "1 mm"}, "0.8 mm", ("0.8 mm", "1 mm")),
    ("uvb_lamp_height", {}, "4 m", ("4 m", "35 cm")),
    ("carapace_length", {}, "2 m", ("2 m", "11 cm")),
    ("animal_count", {}, "99", ("99", "30")),
    ("ph", {}, "14", ("14", "7.6")),
    ("water_temperature", {}, "77 °C", ("77 °C", "25 °C")),
]


@pytest.mark.parametrize(
    ("name", "before", "typed", "words"), IMPOSSIBLE, ids=[f"{r[0]}: {r[2]}" for r in IMPOSSIBLE]
)
def test_an_impossible_answer(
    name: str, before: Mapping[str, str], typed: str, words: tuple[str, ...]
) -> None:
    interview = up_to(name, before)
    known = dict(interview.answers)
    held = talk([typed], interview)
    if not words:  # only just possible: a slanted heater as long as the tank
        assert not held.face.tones("refusal")
        return
    (refusal,) = held.face.tones("refusal")
    for word in words:
        assert word in refusal
    assert "{" not in refusal
    assert held.face.ids == [name, name]
    assert held.interview.answers == known


# ---- whatever is pasted

PASTED = [
    "[bold]red[/bold]",
    "[link=file:///etc/passwd]x[/link]",
    "# heading\n\n* item **bold** `code` <script>alert(1)</script>",
    "\x1b[31mred\x1b[0m",
    "\x1b]0;title\x07",
    "\x9b2J",
    "a\rb\bc\x00d",
    "\u202egnp.exe",
    "x" * 10_000,
    "9" * 10_000,
    "(" * 5_000,
    "9^9^9 cm",
    "__import__('os').system('true')",
    "{tank_size} {0} %s %d",
    "🐢" * 500,
    "１００ｃｍ",
    "\ud800",
    "line one\nline two\nline three",
    "not sure " * 300,
]


@pytest.mark.parametrize("name", ["stage", "tank_size", "ph", "rcd", "decor_hazards", "species"])
@pytest.mark.parametrize("pasted", PASTED, ids=lambda text: ascii(text)[:24])
def test_what_is_pasted_does_no_harm(name: str, pasted: str) -> None:
    held = talk([pasted, "show"], up_to(name))
    assert set(held.face.ids) == {name}
    assert held.face.said
    _fit_for_a_screen(held)
    assert held.saves == []


@pytest.mark.parametrize("pasted", PASTED, ids=lambda text: ascii(text)[:24])
def test_names_may_hold_anything_but_commands_to_the_screen(pasted: str) -> None:
    held = talk(["change live plants", pasted, "show"], demo("musk_turtle"))
    _fit_for_a_screen(held)
    held.face.everything.encode("utf-8")


def _fit_for_a_screen(held: Held) -> None:
    for letter in held.face.everything.replace("\n", ""):
        assert letter.isprintable(), ascii(letter)
    assert max(len(line) for line in held.face.everything.splitlines()) < 2500


def test_a_choice_by_number_is_kept_by_its_name() -> None:
    interview = demo("musk_turtle")
    interview.record(Place("heat_lamp_kind"), "2")
    assert interview.answers[Place("heat_lamp_kind")].said == "incandescent"
    interview.record(Place("decor_hazards"), "1, 3")
    assert interview.answers[Place("decor_hazards")].said == "tippable, trap_gap"


def test_yes_takes_what_was_probably_meant() -> None:
    held = talk(["sllider", "1"], up_to("species"))
    assert "did you mean" in held.face.tones("refusal")[0]
    one = talk(["red eard slider", "yes"], up_to("species"))
    assert "Type yes, or" in one.face.tones("refusal")[0]
    assert one.said("species", 0) == "trachemys scripta elegans"


@pytest.mark.parametrize("name", ["filter flow", "rated flow"])
def test_a_change_of_what_hangs_on_the_open_question_says_so(name: str) -> None:
    held = talk([f"change {name}", "canister"], up_to("filter_kind"))
    said = "“Rated flow” comes after “Filter kind”; answer that first."
    assert held.face.tones("note")[0] == said
    assert held.interview.answers[Place("filter_kind")].value == "canister"
