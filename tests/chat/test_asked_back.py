"""What a keeper asks back is answered from what is known, at any prompt, in four lines."""

from __future__ import annotations

import textwrap
from functools import cache

import pytest
from fakes import demo, talk, up_to

from interview import assembly
from interview.audit.audit import Audit
from interview.chat.asked.parting import parted
from interview.chat.asked.topics_in import answer_to, topic_in
from interview.graph.interview import Interview, Place
from interview.report.asked.topics import Topic, all_topics
from interview.report.first_page.page import first_page

TOPICS = {topic.topic: topic for topic in all_topics()}


@cache
def _audit(name: str) -> Audit:
    return assembly.audit_of(demo(name), "")


@pytest.mark.parametrize("topic", TOPICS.values(), ids=TOPICS)
def test_each_topic_is_found_by_its_example_and_answered_in_four_lines(topic: Topic) -> None:
    assert topic_in(topic.example) is topic
    for name in ("musk_turtle", "reeves_turtle_planned", "painted_turtles_classroom"):
        said = answer_to(_audit(name), topic.example, lambda: None)
        assert said and len(textwrap.wrap(said, 80)) <= 4
    assert answer_to(assembly.audit_of(assembly.new_interview(), ""), topic.example)


@pytest.mark.parametrize(
    ("line", "asking", "telling"),
    [
        ("she has no lamp, is that bad?", "is that bad?", "she has no lamp"),
        ("she has no lamp is that bad", "is that bad", "she has no lamp"),
        ("is it bad that she has no lamp", "is it bad that she has no lamp", "she has no lamp"),
        ("is it bad if she has no lamp", "is it bad if she has no lamp", ""),
        ("200 W, will that do?", "will that do?", "200 W"),
        ("the tub is 40 cm and how big a tank does she need", "and how big a tank does she need",
         "the tub is 40 cm"),
        ("ok how big will she get", "ok how big will she get", ""),
        ("a red-eared slider?", "", "a red-eared slider?"),
        ("9 cm", "", "9 cm"),
    ],
)  # fmt: skip
def test_what_a_line_asks_is_parted_from_what_it_tells(
    line: str, asking: str, telling: str
) -> None:
    assert parted(line) == (asking, telling)


def test_a_question_at_another_is_answered_and_no_answer() -> None:
    held = talk(
        ["how big a tank will she need when shes grown", "24 °C"], up_to("water_temperature")
    )
    (said,) = [one for one in held.face.tones("note") if "grown" in one]
    assert (
        "grown, 100 × 40 × 40 cm or larger" in said and "Which of these" not in held.face.everything
    )
    assert held.said("water_temperature") == "24 °C"
    assert not held.face.tones("refusal")


def test_what_is_told_beside_a_question_is_noted_and_judged_with_it() -> None:
    held = talk(["no filter, does she need a filter", "stop"], up_to("filter_kind"))
    assert held.said("filter_kind") == "no filter"
    assert any("There is no filter" in said for said in held.face.tones("note"))


def test_what_is_asked_behind_a_story_is_answered_once_that_is_noted() -> None:
    story = "she is a common musk turtle of 4 cm in a 60 x 30 x 30 cm tank, we live in Germany"
    held = talk(["living", f"{story}, how big a tank will she need?", "", "stop"])
    assert held.said("carapace_length", 0) == "4 cm" and held.said("tank_size")
    assert "grown, 100 × 40 × 40 cm or larger" in held.face.tones("note")[-1]


def test_of_an_unknown_tank_no_half_of_a_cost_is_told() -> None:
    said = answer_to(assembly.audit_of(assembly.new_interview(), ""), "is it expensive to run")
    assert said == TOPICS["running cost"].lacking


def test_how_the_question_is_answered_stays_with_the_question() -> None:
    for line in ("how do I measure the tank", "where is the rcd?", "is that too cold?"):
        held = talk([line, "stop"], up_to("rcd"))
        assert "Looking" not in held.face.everything
        assert not any(said.startswith("By your answers") for said in held.face.tones("note"))


def test_no_is_no_way_out_at_the_review() -> None:
    held = talk(["no", "stop"], demo("musk_turtle"))
    assert "Then what is to be changed?" in held.face.everything
    assert held.face.ids == ["review", "review"]


def test_of_an_unknown_kind_is_said_what_tells_it() -> None:
    empty = Interview(assembly.questionnaire(), assembly.lists())
    said = answer_to(assembly.audit_of(empty, ""), "how big a tank does she need")
    assert said == TOPICS["size of the tank"].lacking


def test_a_planned_tank_is_sized_by_its_list() -> None:
    audit = _audit("reeves_turtle_planned")
    listed = assembly.advice_of(audit).specification
    assert listed
    sides = [f"{round(100 * listed.settings[f'tank_{side}'])}" for side in ("length", "width")]
    assert f"grown, {' × '.join(sides)}" in answer_to(audit, "how big a tank does he need")


@pytest.mark.parametrize(
    "line", ["is it safe for my baby", "can my toddler feed him", "should I let the kids clean it"]
)
def test_what_is_dangerous_in_this_tank_goes_before_what_holds_of_any(line: str) -> None:
    audit = _audit("painted_turtles_classroom")
    (hygiene,) = (one for one in audit.findings if one.check == "hygiene")
    assert hygiene.verdict == "danger"
    said = answer_to(audit, line, lambda: None)
    assert hygiene.say in said and "keep all of the tank out of the kitchen" in said
    assert answer_to(_audit("musk_turtle"), line).startswith("Whoever is under 5")


@pytest.mark.parametrize(
    ("line", "said", "unsaid"),
    [
        ("what size filter do I need", "filter media", "amount of water"),
        ("what size heater do I need", "No heater", "amount of water"),
        ("is the dock big enough", "A gap to get stuck in (danger", "amount of water"),
        ("should I get something bigger", "Give each a tank", "amount of water"),
        ("what happens if the power goes out tonight", "battery air pump", "First of all"),
        ("the lamp hangs outside the tank is that bad", "lamp that may fall", "pond"),
    ],
)
def test_a_size_is_asked_of_the_thing_that_is_named(line: str, said: str, unsaid: str) -> None:
    told = answer_to(_audit("painted_turtles_classroom"), line)
    assert said in told and unsaid not in told


def test_of_two_of_a_kind_that_differ_it_is_said_of_which() -> None:
    pair = demo("musk_turtle")
    told = {"species": "false map turtle", "carapace_length": "10 cm", "sex": "male"}
    pair.record(Place("animal_count"), "3")
    for animal, change in enumerate(
        ({}, {"carapace_length": "14 cm", "sex": "female"}, {"carapace_length": "11 cm"})
    ):
        for name, said in {**told, **change}.items():
            pair.record(Place(name, animal), said)
    said = answer_to(assembly.audit_of(pair, ""), "how big will they get")
    assert "a false map turtle (10 cm, 11 cm) is" in said
    assert "a false map turtle (14 cm) is" in said
    assert "painted turtle (" not in answer_to(
        _audit("painted_turtles_classroom"), "how old do they get"
    )


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("musk turtle, how big do they get?", "a common musk turtle is up to 14 cm"),
        ("a 12 cm map turtle, do I need a filter", "Without a filter"),
    ],
)
def test_what_is_told_in_front_of_a_question_is_kept(line: str, said: str) -> None:
    held = talk([line, "yes", "stop"], live=True)
    (rows,) = (rows for title, rows in held.face.listings if title == "I take it that:")
    assert "living" in rows[0][1] and held.said("stage") == "living"
    assert said in " ".join(held.face.tones("note"))


def test_how_large_an_unknown_kind_grows_is_not_told_by_its_age() -> None:
    empty = assembly.audit_of(assembly.new_interview(), "")
    assert answer_to(empty, "how big will he get") == TOPICS["how large it grows"].lacking


@pytest.mark.parametrize(
    ("line", "danger"),
    [
        ("can I put my hand in the water", "A bare glass heater (danger"),
        ("is it safe to touch the water with the heater on?", "A bare glass heater (danger"),
        ("is the heater dangerous", "A bare glass heater (danger"),
        ("what happens if the heater breaks", "A bare glass heater (danger"),
        ("where should the water level be", "Deep water without rests for the young (wrong"),
        ("how long does the uvb last", "A worn UVB lamp (wrong"),
        ("can he drown", "A gap to get stuck in (danger"),
        ("is the water too deep for him", "Deep water without rests for the young (wrong"),
    ],
)
def test_what_a_question_is_about_is_never_called_good_beside_a_danger(
    line: str, danger: str
) -> None:
    assert answer_to(_audit("map_turtle_hatchling"), line, lambda: None).startswith(danger)


def test_hands_stay_out_of_live_water_whatever_was_told() -> None:
    for line in ("can I put my hand in the water", "is it safe to touch the water?"):
        assert answer_to(_audit("musk_turtle"), line) == "Plugs out before hands go in, soap after."


def test_what_is_asked_beside_the_last_answer_is_answered_before_the_review() -> None:
    interview = demo("musk_turtle")
    del interview.answers[Place("heater_power")]
    held = talk(["200 W, is tap water ok?", "stop"], interview)
    assert held.said("heater_power") == "200 W" and held.face.ids[-1] == "review"
    assert any("chlorine" in said for said in held.face.tones("note"))


@pytest.mark.parametrize("line", ["can I put my hand in the water", "can I put a second one in"])
def test_where_something_is_put_is_no_question_of_answering(line: str) -> None:
    held = talk([line, "stop"], up_to("water_temperature"))
    assert any(
        said.startswith(("Plugs out", "No turtle needs")) for said in held.face.tones("note")
    )
    for own in ("what do I put here", "can I put about 24"):
        said = talk([own, "stop"], up_to("water_temperature")).face.everything
        assert "Plugs out before" not in said and "judged good" not in said


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("no lamp, is that bad?", "No heat lamp (wrong"),
        ("she has no heat lamp at all, is that bad?", "No heat lamp (wrong"),
        ("the water is at 17 C now, is that too cold?", "Water temperature (wrong"),
        ("no filter, is that ok?", ""),
    ],
)
def test_what_is_told_otherwise_beside_a_question_is_never_soothed(line: str, said: str) -> None:
    held = talk(["change water line", line, "yes", "stop"], demo("musk_turtle"))
    told = [one for one in held.face.tones("note") if "(wrong" in one or "judged good" in one]
    assert [one for one in told if not one.startswith(said)] == [] and bool(told) is bool(said)
    assert "judged good" not in held.face.everything


@pytest.mark.parametrize("at", ["rcd", "water_temperature"])
@pytest.mark.parametrize(
    "line",
    [
        "what's an rcd and is it dangerous without",
        "is it dangerous without an rcd",
        "will he die without an rcd",
        "what is a gfci, is he okay without a gfci?",
    ],
)
def test_of_gear_no_vet_is_called_for(line: str, at: str) -> None:
    said = " ".join(talk([line, "stop"], up_to(at)).face.tones("note"))
    assert "cuts the power within a blink" in said and "veterinarian" not in said


def test_of_gear_no_vet_is_called_for_beside_a_sign_told_before() -> None:
    told = ["his eyes are swollen", "", ""]
    gear = ("what's an rcd and is it dangerous without", "does he die without a drip loop")
    for line in (*gear, "is the wiring dangerous for her"):
        last = talk([*told, line, "stop"], up_to("rcd")).face.tones("note")[-1]
        assert "veterinarian" not in last
    last = talk([*told, "is it dangerous for her", "stop"], up_to("rcd")).face.tones("note")[-1]
    assert "veterinarian" in last


def test_of_an_animal_a_vet_is_still_called_for() -> None:
    for line in ("will he die", "she looks bad, is she in pain", "the rcd tripped, will he die"):
        said = " ".join(talk([line, "stop"], up_to("rcd")).face.tones("note"))
        assert "veterinarian" in said


@pytest.mark.parametrize(
    "line",
    [
        "is the heater still under water enough?",
        "is it dangerous if the heater sticks out of the water?",
        "can the heater be above the water",
        "how much water should be over the heater",
    ],
)
def test_where_a_heater_hangs_is_no_question_of_warmth(line: str) -> None:
    told = [answer_to(_audit(name), line) for name in ("map_turtle_hatchling", "musk_turtle")]
    assert told[0].startswith("A heater out of the water (danger")
    assert "wholly under water" in told[1] and "emperature" not in " ".join(told)
    asked = topic_in("is the water over 26 with that heater")
    assert asked is not TOPICS["water over the heater"]


@pytest.mark.parametrize(
    "line",
    [
        "is a heater guard needed",
        "does the heater need a cover",
        "what does a guard for the heater do",
    ],
)
def test_of_a_heater_guard_the_guard_is_judged_and_not_the_warmth(line: str) -> None:
    names = ("map_turtle_hatchling", "reeves_turtle_planned", "musk_turtle")
    bad, planned, none = (answer_to(_audit(name), line, lambda: None) for name in names)
    assert bad.startswith("A bare glass heater (danger")
    assert "judged good:" in planned and "bare glass heater" in planned
    for said in (planned, none):
        assert "wants a guard" in said and "emperature" not in said
    assert topic_in("how much water should cover the heater") is TOPICS["water over the heater"]


@pytest.mark.parametrize("line", ["what should i sell him first", "what should he buy first"])
def test_who_asks_what_to_get_first_hears_today_then_the_first_of_the_list(line: str) -> None:
    for name in ("map_turtle_hatchling", "reeves_turtle_planned", "musk_turtle"):
        audit = _audit(name)
        advice = assembly.advice_of(audit)
        said = answer_to(audit, line, lambda advice=advice: advice)
        page = first_page(audit, advice)
        assert page.buy[0].partition(":")[0].lower() in said.lower() or page.today
        assert said.startswith("First of all" if page.today else "To get first")
        assert "can't wait" not in said and "can't wait" not in answer_to(audit, line)


@pytest.mark.parametrize(
    "line",
    [
        "is it dangerous that my brother puts his hand in?",
        "can my little brother put his hand in the tank",
        "is it safe if my nephew reaches into the water",
    ],
)
def test_of_a_relatives_hand_both_mains_and_germs_are_told(line: str) -> None:
    assert answer_to(_audit("map_turtle_hatchling"), line).startswith("A bare glass heater (danger")
    for name in ("map_turtle_hatchling", "musk_turtle", "painted_turtles_classroom"):
        assert answer_to(_audit(name), line, lambda: None).endswith("animal, water or gear.")
    notes = talk([line, "stop"], up_to("water_temperature")).face.tones("note")
    assert [one for one in notes if "Here I ask" in one] == []
    assert any(one.startswith("Plugs out before any hand") for one in notes)


def test_of_glass_over_a_tank_uvb_and_cracks_are_told() -> None:
    for line in ("is it ok if I cover it all with glass", "can I put glass on top"):
        assert "stop UVB, and ordinary glass cracks" in answer_to(_audit("musk_turtle"), line)
    assert topic_in("is the tank glass thick enough") is not TOPICS["glass lid"]
