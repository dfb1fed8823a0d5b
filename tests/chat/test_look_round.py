"""Rare faults are asked of in lists: one line tells of all of them which is so."""

from __future__ import annotations

from contextlib import suppress
from dataclasses import replace

import pytest
from fakes import FakeFace, Held, demo, up_to

from interview import assembly
from interview.audit.checks.loader import all_checks
from interview.chat.faces.face import Asked, Left
from interview.chat.pace.said_already import SaidAlready
from interview.chat.together.guided_talk import GuidedTalk
from interview.chat.together.look_talk import _numbered
from interview.graph.interview import Interview, Place
from interview.graph.order.look_round import all_looks, look_with
from interview.words.choices.choice import Choice
from interview.words.text.refusal import NotUnderstood

ROUND, WATER = all_looks()
CHECKS = {check.id: check for check in all_checks()}
FINDS = {
    "tank_damage": "none", "stand_level": "yes", "drip_loops": "yes", "strip_raised": "yes",
    "cords": "none", "lamp_fixings": "2", "lamp_holder": "ceramic",
    "lamp_plastic_gap": "at least 20 cm", "tank_origin": "aquarium",
}  # fmt: skip
"""What “none” tells of a musk turtle's tank on a stand made for it."""

NAMED = {
    "tank_damage": {
        "crack": "crack", "rim_removed": "a rim or brace taken off", "leak": "leak", "chip": "chip",
    },
    "stand_signs": {
        "swollen": "swollen, bowed or soft", "wobbles": "wobbles", "overhang": "over its edge",
    },
    "cords": {
        "chained_strips": "a strip in a strip", "damaged_cord": "damaged cord",
        "extension_cord": "an extension", "splashed_lamp": "lamp within splash",
    },
    "decor_hazards": {
        "tippable": "tip", "sharp": "cut", "trap_gap": "trap", "loose_leaves": "bitten off",
        "stones_on_sand": "stones rest on sand",
    },
    "water_additives": {
        "copper": "copper or an algae or snail killer", "medicine_unprescribed": "medicine",
        "medicine_prescribed": "medicine", "salt": "salt",
    },
    "other_animals": {
        "newcomer_mixed": "a new turtle", "newcomer_apart": "a new turtle",
        "wild_caught": "from the wild", "pet_in_reach": "in reach", "tank_mates": "fish",
        "amphibians": "frogs",
    },
    "warning_signs": {
        "gasping": "gasping", "lists": "swimming askew", "bleeding": "bleeding, a burn",
        "limp": "limpness", "red_flush": "a red flush",
        "swallowed": "straining, something swallowed", "nose_bubbles": "nose",
        "swollen_eyes": "eyes, ears", "soft_shell": "shell", "not_eating": "no appetite",
        "another_emergency": "anything else that ails", "another_illness": "anything else",
    },
}  # fmt: skip
"""Where an item of a list says each choice that its “none” denies."""


def _guided(lines: list[str], interview: Interview) -> Held:
    held = Held(FakeFace(lines), interview, [])
    try:
        GuidedTalk(interview, held.face, lambda: None).run()
    except Left as left:
        held.left = left
    return held


def _said(held: Held) -> dict[str, str]:
    return {place.id: answer.said for place, answer in held.interview.answers.items()}


def test_every_answer_of_a_list_is_one_of_its_question() -> None:
    interview = demo("musk_turtle")
    for look in all_looks():
        assert len(look.items) <= 10, "it fits a screen, and its numbers one line"
        for item in look.items:
            question = interview.questionnaire.by_id[item.ask]
            assert look_with(item.ask) is look
            assert not question.repeat, "a list is asked once, whatever the number of turtles"
            for said in filter(None, (item.clear, item.found)):
                interview.try_answer(Place(item.ask), said)


def test_none_denies_nothing_that_a_list_does_not_say() -> None:
    items = {item.ask: item for look in all_looks() for item in look.items}
    questions = demo("musk_turtle").questionnaire.by_id
    assert NAMED.keys() == {name for name in items if questions[name].type == "choices"}
    for name, said in NAMED.items():
        assert said.keys() == {option.name for option in questions[name].choices}
        for option, words in said.items():
            assert words in items[name].say, f"{name}: {option}"


def test_what_is_clear_is_no_fault() -> None:
    """A list whose “none” were itself a fault would raise one wherever it is asked."""
    interview = demo("musk_turtle")
    for look in all_looks():
        for item in look.items:
            if interview.relevance().get(Place(item.ask)):
                interview.record(Place(item.ask), item.clear)
    audit = assembly.audit_of(interview, "")
    names = {item.ask for look in all_looks() for item in look.items}
    worries = [f for f in audit.findings if f.applies and f.verdict in ("wrong", "danger")]
    fed = {
        finding.check
        for finding in worries
        for name in names
        if name in CHECKS[finding.check].decides
    }
    assert not fed


def test_none_tells_of_all_of_them() -> None:
    held = _guided(["none", "stop"], up_to("lamp_fixings"))
    assert held.face.asked[0].label == ROUND.label
    assert [say for _, say in held.face.asked[0].choices] == [
        item.say for item in ROUND.items if item.ask in FINDS
    ]
    assert FINDS.items() <= _said(held).items()
    assert held.face.asked[1].label == WATER.label


def test_what_none_notes_is_said_to_somebody_who_is_there() -> None:
    face = FakeFace(["none"])
    face.live = True
    with suppress(Left):
        GuidedTalk(up_to("lamp_fixings"), face, lambda: None).run()
    said = next(text for text in face.tones("note") if "“change …” mends it" in text)
    assert "Level and supported: yes" in said
    assert "Lamp socket: ceramic" in said


def test_what_is_found_is_recorded_or_asked_next() -> None:
    numbers = {place: n for n, (place, _) in enumerate(_asked_first().choices, 1)}
    line = f"{numbers['strip_raised']} and {numbers['cords']}, {numbers['lamp_fixings']}"
    held = _guided([line, "chained strips", "1", "stop"], up_to("lamp_fixings"))
    assert held.face.ids[1:3] == ["cords", "lamp_fixings"]
    found = {"strip_raised": "no", "cords": "chained strips", "lamp_fixings": "1"}
    assert {**FINDS, **found}.items() <= _said(held).items()


def test_what_a_fault_brings_up_is_asked_right_after_it() -> None:
    """A tank bought second hand: its rim and its glass; a heater in reach: what it is made of."""
    lines = [f"{_number('tank_origin')}", "second hand", "trimmed; 6 mm", "glass", "none", "stop"]
    held = _guided(lines, up_to("lamp_fixings"))
    assert held.face.ids[1:4] == ["tank_origin", "tank_rim", "tank_material"]
    assert [place.id for place in held.face.asked[2].row] == ["tank_rim", "wall_thickness"]
    assert held.face.asked[4].label == WATER.label
    numbers = {place: n for n, (place, _) in enumerate(held.face.asked[4].choices, 1)}
    lines[4:] = [f"{numbers['heater_guard']}", "stop"]
    held = _guided(lines, up_to("lamp_fixings"))
    assert held.face.ids[5:] == ["heater_body"]


def _number(name: str) -> int:
    return [place for place, _ in _asked_first().choices].index(name) + 1


def _asked_first() -> Asked:
    return _guided(["stop"], up_to("lamp_fixings")).face.asked[0]


def test_what_is_in_doubt_is_asked_by_itself_or_left_open() -> None:
    numbers = {place: n for n, (place, _) in enumerate(_asked_first().choices, 1)}
    line = f"{numbers['drip_loops']}?, {numbers['cords']}?"
    held = _guided([line, "no", "stop"], up_to("lamp_fixings"))
    assert held.face.ids[1] == "drip_loops"
    assert _said(held)["drip_loops"] == "no"
    assert Place("cords") not in held.interview.answers
    assert _said(held)["strip_raised"] == "yes"


def test_not_sure_asks_one_thing_at_a_time() -> None:
    held = _guided(["not sure", "2", "stop"], up_to("lamp_fixings"))
    assert held.face.ids[:2] == ["tank_origin", "lamp_fixings"]
    assert "Then I ask one thing at a time." in held.face.tones("note")
    assert not {"strip_raised", "cords"} & _said(held).keys()


def test_what_is_not_understood_loses_nothing() -> None:
    held = _guided(["seventeen bananas", "he is gasping", "none", "stop"], up_to("lamp_fixings"))
    assert len(held.face.tones("refusal")) == 1
    assert any("call a reptile veterinarian now" in said for said in held.face.tones("note"))
    assert FINDS.items() <= _said(held).items()


def test_none_denies_no_illness_told_before() -> None:
    for lines in (
        ["none", "he is gasping and bleeds", "gasps, bleeds", "none", "stop"],
        ["he is gasping", "none", "gasps, bleeds", "none", "stop"],
    ):
        held = _guided(lines, up_to("lamp_fixings"))
        assert _said(held)["warning_signs"] == "gasps, bleeds"
        assert _said(held)["kitchen_used"] == "no"
        second = [a for a in held.face.asked if a.label == WATER.label][-1]
        assert Place("warning_signs") not in second.row
        left = _guided([*lines[:2], "stop"], up_to("lamp_fixings"))
        assert Place("warning_signs") not in left.interview.answers


def test_illness_told_after_none_asks_of_signs_again() -> None:
    held = _guided(["none", "none", "she is gasping", "stop"], up_to("lamp_fixings"))
    assert Place("warning_signs") in held.interview.doubtful
    assert "That may have changed: Signs of illness. I'll ask again." in held.face.tones("note")


def test_what_a_story_told_meanwhile_is_not_overwritten() -> None:
    story = "Everything is plugged into an extension cord; there are drip loops on every cord."
    held = _guided([story, "yes", "none", "stop"], up_to("lamp_fixings"))
    assert _said(held)["cords"] == "extension cord"
    assert _said(held)["strip_raised"] == "yes"


def test_a_question_is_no_answer_to_a_list() -> None:
    for asked in ("none?", "drip loops?", "cords?"):
        held = _guided([asked, "stop"], up_to("lamp_fixings"))
        assert not FINDS.keys() & _said(held).keys(), asked
        assert len(held.face.tones("refusal")) == 1


def test_why_and_how_take_the_number_of_a_list() -> None:
    numbers = {place: n for n, (place, _) in enumerate(_asked_first().choices, 1)}
    line = f"why {numbers['drip_loops']}"
    held = _guided([line, f"how {numbers['cords']}", "stop"], up_to("lamp_fixings"))
    question = held.interview.questionnaire.by_id
    assert question["drip_loops"].help in held.face.tones("help")
    assert question["cords"].hint in held.face.tones("help")
    assert [asked.label for asked in held.face.asked] == [ROUND.label] * 3
    beyond = _guided(["why 40", f"why {9 * '9'}", "stop"], up_to("lamp_fixings"))
    assert beyond.face.asked[1].label == ROUND.label


def test_change_asks_of_one_of_them_alone() -> None:
    held = _guided(["change cords", "none", "stop"], up_to("heat_lamp_kind"))
    assert held.face.ids[:2] == ["heat_lamp_kind", "cords"]
    assert held.face.asked[1].row == ()


def test_change_asks_of_a_row_as_a_row() -> None:
    """Lamp socket, its rating and its distance go together, though two of them are in the list."""
    held = _guided(["change lamp socket", "ceramic; 100 W; 25 cm", "stop"], up_to("lamp_fixings"))
    assert [place.id for place in held.face.asked[1].row] == [
        *("lamp_holder", "lamp_holder_rating", "lamp_plastic_gap")
    ]
    assert held.face.asked[1].label != ROUND.label
    told = {"lamp_holder": "ceramic", "lamp_holder_rating": "100 W", "lamp_plastic_gap": "25 cm"}
    assert told.items() <= _said(held).items()
    held = _guided(["change drip loops", "yes; no", "stop"], up_to("lamp_fixings"))
    assert {"drip_loops": "yes", "strip_raised": "no"}.items() <= _said(held).items()


def test_a_planned_tank_is_not_looked_at() -> None:
    interview = assembly.new_interview()
    interview.record(Place("stage"), "planning")
    assert interview.look_of(Place("cords")) is None
    interview.record(Place("stage"), "set up")
    assert interview.look_of(Place("cords")) is ROUND


def test_one_unit_does_for_both_of_a_row() -> None:
    held = _guided(["16C; 24", "stop"], up_to("room_temperature_low"))
    assert _said(held)["room_temperature_high"] == "24 °C"
    held = _guided(["about 16 to 24", "stop"], up_to("room_temperature_low"))
    assert _said(held)["room_temperature_low"] == "16 °C"
    assert _said(held)["room_temperature_high"] == "24 °C"
    assert not held.face.tones("refusal")


def test_one_thing_told_at_a_list_is_taken_once_it_is_agreed_to() -> None:
    told = "the 150 W clip lamp is touching the plastic lid"
    held = _guided([told, "yes", "stop"], up_to("lamp_holder"))
    assert held.said("lamp_plastic_gap") == "0 in"


TOLD = "Everything is plugged into an extension cord; there are drip loops on every cord."


def _looked(held: Held) -> list[dict[str, int]]:
    """The number of each that was shown, each time the list was."""
    shown = [asked for asked in held.face.asked if asked.clear]
    return [
        dict(zip((name for name, _ in a.choices), (n for n, _ in a.numbered), strict=True))
        for a in shown
    ]


def test_what_is_left_of_a_list_keeps_its_numbers() -> None:
    """What is told in between is gone, and the line that waited means what it was typed for."""
    first = _number("lamp_fixings"), _number("lamp_holder")
    line = f"yes, {first[0]} and {first[1]}"
    held = _guided([TOLD, line, "1", "plastic", "stop"], up_to("lamp_fixings"))
    before, after = _looked(held)[:2]
    assert before.keys() - after.keys() == {"drip_loops", "cords"}
    assert after.items() <= before.items()
    assert held.face.ids[3:5] == ["lamp_fixings", "lamp_holder"]
    found = {"cords": "extension cord", "lamp_fixings": "1", "lamp_holder": "plastic"}
    assert {**FINDS, **found}.items() <= _said(held).items()
    numbered = held.face.asked[0]
    assert [n for n, _ in numbered.numbered] == [*range(1, len(numbered.choices) + 1)]


def test_a_number_that_is_gone_denies_nothing() -> None:
    loops, cords = _number("drip_loops"), _number("cords")
    for typed in (f"{loops}", f"{loops}?", f"{cords}?"):
        held = _guided([TOLD, "yes", typed, "stop"], up_to("lamp_fixings"))
        assert len(held.face.tones("refusal")) == 1, typed
        assert "stands as" in held.face.tones("refusal")[0]
        assert _said(held).keys() & FINDS.keys() == {"drip_loops", "cords"}
    held = _guided([TOLD, "yes", f"{cords}", "stop"], up_to("lamp_fixings"))
    assert {**FINDS, "cords": "extension cord"}.items() <= _said(held).items()
    why = _guided([TOLD, "yes", f"why {_number('lamp_holder')}", "stop"], up_to("lamp_fixings"))
    assert demo("musk_turtle").questionnaire.by_id["lamp_holder"].help in why.face.tones("help")


def test_a_number_typed_at_one_list_answers_no_other() -> None:
    told = {"drip_loops": "yes", "cords": "extension cord", "lamp_fixings": "Two"}
    for typed in ("2 and 3", "none of the others"):
        interview = up_to("lamp_fixings")
        for name, said in FINDS.items():
            if name not in told:
                interview.record(Place(name), said)
        line = f"{TOLD} Two fixings hold the heat lamp."
        held = _guided([line, f"yes, {typed}", "stop"], interview)
        assert told.items() <= _said(held).items()
        assert [a.label for a in held.face.asked if a.clear] == [ROUND.label, WATER.label]
        assert not _said(held).keys() & {item.ask for item in WATER.items}, typed
        assert any(typed in said for said in held.face.tones("refusal"))


def test_a_waiting_number_means_what_stood_there_when_it_was_typed() -> None:
    socket = Asked("Socket?", choices=[("ceramic", "Ceramic"), ("plastic", "Plastic")])
    filters = Asked("Filter?", choices=[("sponge", "Sponge"), ("none", "None")])
    count = Asked("How many filters?", place=Place("filter_count"))
    row = Asked("Room?", row=(Place("room_temperature_low"), Place("room_temperature_high")))
    left = replace(filters, choices=filters.choices[1:], numbers=[2])
    for line in ("2", "two", "1 and 2", "2?", "1 2"):
        waiting = SaidAlready(line, filters)
        assert waiting.is_meant_at(filters) and waiting.is_meant_at(left)
        assert not waiting.is_meant_at(socket) and not SaidAlready(line).is_meant_at(filters)
        assert not waiting.is_meant_at(replace(filters, choices=[*reversed(filters.choices)]))
        assert not waiting.is_meant_at(count) and SaidAlready(line, count).is_meant_at(count)
    for line in ("2 turtles", "sponge", "20 to 24 C", "done", "none"):
        assert SaidAlready(line, filters).is_meant_at(socket)
    told = SaidAlready("16 C; 24 C", replace(count, row=(Place("ph"), Place("nitrate"))))
    assert not told.is_meant_at(row) and SaidAlready(told.line).is_meant_at(row)
    story = SaidAlready("he is fed daily; the lamp is on all day", count)
    assert story.is_meant_at(row), "a sentence behind a question is no row of answers"


@pytest.mark.parametrize("line", ["turtle 2: 9 cm", "the second one is 9 cm", "#2 is 9 cm"])
def test_what_is_told_of_a_turtle_at_a_list_is_kept_for_it_and_the_list_comes_again(
    line: str,
) -> None:
    interview = demo("musk_turtle")
    second = {"species": "map", "carapace_length": "8 cm", "sex": "male"}
    interview.record(Place("animal_count"), "2")
    for name, said in second.items():
        interview.record(Place(name, 1), said)
    interview.doubtful.clear()
    for item in ROUND.items:
        interview.answers.pop(Place(item.ask), None)
    face = FakeFace([line, "yes", "none"])
    with suppress(Left):
        GuidedTalk(interview, face, lambda: None, "guided").run()
    assert interview.answers[Place("carapace_length", 1)].said == "9 cm"
    assert [asked.label for asked in face.asked].count(ROUND.label) == 2


@pytest.mark.parametrize(
    ("line", "found", "doubted"),
    [
        ("so 2, and 3 maybe?", {"b"}, {"c"}),
        ("I think 3", set(), {"c"}),
        ("2, 3?", {"b"}, {"c"}),
        ("just 1 and 2", {"a", "b"}, set()),
        ("yes, 2", {"b"}, set()),
    ],
)
def test_a_number_is_told_or_doubted_whatever_stands_beside_it(
    line: str, found: set[str], doubted: set[str]
) -> None:
    options = [Choice(name, f"thing {name}") for name in "abc"]
    assert _numbered(line, options) == (found, doubted)


@pytest.mark.parametrize("line", ["we have 2 turtles", "none?", "2 is fine"])
def test_what_tells_more_than_a_number_is_none(line: str) -> None:
    with pytest.raises(NotUnderstood):
        _numbered(line, [Choice(name, f"thing {name}") for name in "abc"])
