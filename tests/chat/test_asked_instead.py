"""A question asked in place of an answer, a sentence that nearly answers, a story told twice."""

from __future__ import annotations

import pytest
from fakes import FakeFace, demo, talk, up_to

from interview import assembly
from interview.chat.faces.face import Asked, Left
from interview.chat.hearing.asked_instead import asks, steps_back
from interview.chat.hearing.replies import says
from interview.chat.talks.asides import named_in
from interview.chat.talks.listening import hear_aside
from interview.chat.together.guided_talk import GuidedTalk
from interview.graph.interview import Place
from interview.words.lexicon.files import words

STORY = "I have one red eared slider in a 75 gallon tank with a canister filter and a 200 W heater"


def test_a_word_is_explained_and_the_question_asked_again() -> None:
    held = talk(["what is carapace", "9 cm"], up_to("carapace_length"))
    (said,) = held.face.tones("note")[:1]
    assert said.startswith("The carapace is the upper shell. Here I ask: How long is the shell")
    assert held.said("carapace_length", 0) == "9 cm"
    assert not held.face.tones("refusal")


def test_a_name_is_explained_by_its_question() -> None:
    held = talk(["what is the water change interval"], up_to("ph"))
    (said,) = held.face.tones("note")
    assert "How long is it from one water change to the next?" in said
    assert "What is the pH of the tank water?" in said


def test_what_can_not_be_told_is_said_so() -> None:
    held = talk(["how warm do they get", "is that too cold?"], up_to("room_temperature_high"))
    said = [*held.face.tones("help"), *held.face.tones("note")]
    assert len(said) == 2
    assert all(one.startswith("That I can't tell you here") for one in said)


def test_a_question_is_no_plant() -> None:
    interview = assembly.new_interview()
    for name in words().glossary:
        assert asks(f"what is {name}"), name
    assert not asks("what") and not asks("9 cm")
    held = talk(["change plants", "what is pothos", "", "stop"], up_to("kitchen_used"))
    assert Place("live_plants") not in {*interview.answers}
    assert all("pothos" not in answer.said for answer in held.interview.answers.values())


@pytest.mark.parametrize(
    ("line", "steps"),
    [
        ("back", 1),
        ("go back", 1),
        ("go back two", 2),
        ("can we go back 3 questions please", 3),
        ("the filter is at the back", 0),
        ("back wall", 0),
        ("go back 40", 0),
        ("go on", 0),
    ],
)
def test_how_far_back_is_heard(line: str, steps: int) -> None:
    assert steps_back(line) == steps


def test_back_goes_as_far_as_is_said() -> None:
    one_by_one = talk(["back", "back", "stop"], up_to("filter_rated_flow"))
    held = talk(["go back two", "stop"], up_to("filter_rated_flow"))
    assert held.face.ids == ["filter_rated_flow", one_by_one.face.ids[-1]]
    assert len({*one_by_one.face.ids}) == 3


def test_skipping_is_asked_for_in_many_words() -> None:
    assert says("can I skip this one?", "skip") and says("could we leave this out please", "skip")
    assert not says("I skip every second feeding", "skip")
    held = talk(["can I skip this?", "stop"], up_to("heater_guard"))
    assert Place("heater_guard") in held.interview.skipped


def test_the_one_amount_of_a_sentence_is_offered() -> None:
    line = "the strip was somewhere between 7.2 and 7.6"
    held = talk([line, "yes"], up_to("ph"))
    assert "Do you mean “between 7.2 and 7.6”? “yes” takes that." in held.face.tones("note")
    assert held.said("ph") == "between 7.2 and 7.6"
    untaken = talk([line, "stop"], up_to("ph"))
    assert Place("ph") not in untaken.interview.answers


def test_a_water_line_is_no_depth_unless_it_is_called_so() -> None:
    held = talk(["water 11 cm", "yes"], up_to("water_line_below_rim"))
    assert "Do you mean “11 cm”? “yes” takes that." in held.face.tones("note")
    assert held.said("water_line_below_rim") == "11 cm"


def test_an_answer_with_a_question_mark_is_offered_back() -> None:
    held = talk(["somewhere between 7.2 and 7.6?", "yes"], up_to("ph"))
    assert held.said("ph") == "between 7.2 and 7.6"
    held = talk(["a red eard slider?", "stop"], up_to("species"))
    assert "did you mean red-eared slider" in held.face.tones("refusal")[0]


def test_what_a_question_nearly_names_is_not_taken_unsaid() -> None:
    held = talk(["is cannister", "yes", "stop"], up_to("filter_kind"))
    assert Place("filter_kind") not in held.interview.answers


def test_of_two_kinds_named_neither_is_taken() -> None:
    held = talk(["stinkpot i think, or maybe a mud turtle", "yes"], up_to("species"))
    assert "“stinkpot” or “mud turtle”?" in held.face.tones("note")[0]
    assert Place("species", 0) not in held.interview.answers


def test_a_story_told_twice_is_known() -> None:
    held = talk(["living", STORY, "yes", STORY])
    assert "All that I took from that stands already; “show” lists it." in held.face.tones("note")
    assert not any("didn't find" in said for said in held.face.tones("note"))


@pytest.mark.parametrize("line", ["what is that", "what's this?"])
def test_what_that_is_is_told_of_the_question_itself(line: str) -> None:
    held = talk([line], up_to("rcd"))
    (said,) = held.face.tones("note")
    question = held.interview.question(Place("rcd"))
    assert said == f"{question.help} {question.hint}"


SKIPPED = [
    "do it later",
    "can we do that one later",
    "later",
    "later please",
    "not now",
    "ask me later",
    "come back to this one",
    "let's come back to that later",
    "can we come back to it",
    "I'll tell you later",
    "let me get back to you on that",
    "leave that for now",
    "I'll measure that tomorrow",
    "I don't want to answer that",
    "rather not say",
    "I'd rather not say",
    "can we move on",
    "move on please",
    "next one please",
    "could I answer that one later?",
    "no time for that now",
    "I'll do that one tomorrow",
    "can I skip it for now",
    "let's leave this one until later",
    "let me check that later",
    "please ask me that again at the end",
    "we can do this one some other time",
    "I can't answer that",
    "shall we move on?",
    "let's move on to the next question",
    "haven't got time for that",
    "you can skip this one",
    "I don't want to say",
    "I don't want to answer that question",
    "don't want this question",
]
WAITED_FOR = [
    "I'd have to check",
    "I'll have to measure it",
    "I need to look it up first",
    "we have to weigh him first",
    "I will ask him",
    "I would have to go and look",
    "I'll find out",
    "let me check",
    "hold on",
    "one moment please",
    "wait a minute",
    "brb",
    "just a sec",
    "back in a minute",
]
ANSWERED = [
    "once a week, later maybe more",
    "I check it every week",
    "we measure the water on Sundays",
    "no",
    "not sure",
    "I moved the dock later",
    "we do not have one",
    "I don't",
    "never",
    "I can't tell the sex",
    "not today's water, that was 24 C",
    "we feed her later in the day",
    "the next one up, a 5 ft",
    "I don't want it",
    "we don't want that one of the shop",
]


@pytest.mark.parametrize("line", SKIPPED)
def test_who_wants_to_answer_later_skips(line: str) -> None:
    assert says(line, "skip") and not says(line, "waits") and named_in(line) != "leave"


@pytest.mark.parametrize("line", WAITED_FOR)
def test_who_goes_to_look_is_waited_for(line: str) -> None:
    held = talk([line, "11 cm"], up_to("water_line_below_rim"))
    assert "I wait here" in held.face.tones("note")[0]
    assert held.said("water_line_below_rim") == "11 cm"


@pytest.mark.parametrize("line", ANSWERED)
def test_what_answers_neither_skips_nor_waits(line: str) -> None:
    assert not says(line, "skip") and not says(line, "waits")


@pytest.mark.parametrize("line", ["let's finish this tomorrow", "I'll do the rest later"])
def test_who_finishes_later_leaves(line: str) -> None:
    assert named_in(line) == "leave"


def test_next_at_a_question_at_home_starts_no_other_tank() -> None:
    held = talk(["next", "100 x 40 x 40 cm"], up_to("tank_size"), live=True)
    assert "“skip” goes on" in held.face.tones("note")[0]
    assert held.said("tank_size") == "100 x 40 x 40 cm"


def test_a_filter_that_hangs_on_is_no_request_to_wait() -> None:
    held = talk(["hang on"], up_to("filter_kind"))
    assert held.interview.answers[Place("filter_kind")].value == "hang_on"


def test_a_kind_of_which_nobody_knows_which_is_offered() -> None:
    line = "the man said he was a mud turtle of some kind, don't know which"
    held = talk([line, "yes"], up_to("species"))
    assert held.face.tones("note")[0].startswith("Do you mean “mud turtle”?")
    assert held.said("species", 0) == "mud turtle"


@pytest.mark.parametrize("line", ["12", "3", "no. 4"])
def test_a_number_is_no_kind_of_turtle_as_none_is_numbered(line: str) -> None:
    held = talk([line], up_to("species"))
    assert Place("species", 0) not in held.interview.answers and not held.face.asked[0].choices
    signs = Place("warning_signs")
    assert demo("musk_turtle").record(signs, "3").answer.value


def test_a_sentence_that_names_no_kind_gets_no_list_of_twenty() -> None:
    held = talk(["it's a big clear plastic crate"], up_to("species"))
    (said,) = held.face.tones("note")
    assert "compare clear photographs" in said and "razorback" not in said


def test_who_asks_how_to_tell_is_told() -> None:
    held = talk(["no idea, how would I even tell?"], up_to("species"))
    assert held.face.tones("note")[0].startswith("Type the trade name")


@pytest.mark.parametrize("line", ["I don't think we have one", "we don't believe there is any"])
def test_who_thinks_there_is_none_has_none(line: str) -> None:
    assert talk([line], up_to("uvb_lamp_kind")).said("uvb_lamp_kind") == line


def test_a_length_from_elsewhere_is_asked_about_and_not_taken() -> None:
    line = "it hangs something like 30 cm above the water, I think"
    held = talk([line, "25 cm"], up_to("heat_lamp_height"))
    assert held.face.ids[:2] == ["heat_lamp_height"] * 2
    assert held.face.tones("note")[0].startswith("Do you mean")
    assert held.said("heat_lamp_height") == "25 cm"


def test_a_number_that_is_only_about_so_is_offered_with_its_scale() -> None:
    held = talk(["60ish at night I think", "yes"], up_to("room_temperature_low"))
    assert held.face.tones("note")[0].startswith("Do you mean “60ish °F”?")
    assert held.interview.answers[Place("room_temperature_low")].how == "estimated"


def test_an_earlier_answer_is_mended_by_a_sentence_once_agreed() -> None:
    line = "sorry I made a mistake before, he's 12 cm not 9"
    held = talk([line, "yes", "7.6"], up_to("ph"))
    assert held.face.asked[1].label == "Shell length: 12 cm in place of 9.5 cm?"
    assert held.said("carapace_length", 0) == "12 cm" and held.said("ph") == "7.6"
    kept = talk([line, "no"], up_to("ph"))
    assert kept.said("carapace_length", 0) == "9.5 cm"


def test_what_was_told_and_the_way_back_are_asked_for_in_words() -> None:
    held = talk(["what have I told you so far", "oops, go back please"], up_to("ph"))
    assert held.face.listings
    assert held.face.ids[2] == "water_change_share"


@pytest.mark.parametrize("line", ["do i have to know that?", "do I really need to answer this"])
@pytest.mark.parametrize("name", ["carapace_length", "water_change_interval", "heater_power"])
def test_who_asks_whether_an_answer_must_be_is_told_how_to_go_on(line: str, name: str) -> None:
    held = talk([line, "stop"], up_to(name))
    assert any(said.startswith("No: “not sure” goes on") for said in held.face.tones("note"))
    assert not held.face.tones("refusal")


@pytest.mark.parametrize(
    "line", ["is this important?", "is it really necessary?", "does it matter"]
)
@pytest.mark.parametrize("name", ["rcd", "carapace_length"])
def test_who_asks_what_an_answer_is_worth_is_told_why(line: str, name: str) -> None:
    held = talk([line, "stop"], up_to(name))
    (said,) = held.face.tones("note")[:1]
    assert said.startswith(held.interview.questionnaire.by_id[name].help)
    assert "“not sure” goes on without it" in said and not said.startswith("No")


@pytest.mark.parametrize(
    "line", ["which one is turtle 1?", "which turtle is 1", "which one is it?"]
)
def test_which_turtle_is_asked_about_is_told_by_its_kind(line: str) -> None:
    interview = demo("painted_turtles_classroom")
    del interview.answers[Place("sex", 0)]
    held = talk(["yes", line, "male"], interview)
    assert "Turtle 1 is the one you told as painted turtle, 4 in." in held.face.tones("note")


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("which one is the second?", "Turtle 2 is the one"),
        ("which turtle is number three", "Turtle 3 is the one"),
        ("which one is turtle 9?", "I count 3 turtles."),
    ],
)
def test_which_turtle_goes_by_a_number_is_told(line: str, said: str) -> None:
    interview = demo("painted_turtles_classroom")
    del interview.answers[Place("sex", 0)]
    held = talk(["yes", line, "male"], interview)
    assert any(told.startswith(said) for told in held.face.tones("note"))


def test_turtles_nobody_told_of_are_numbered_as_they_are_told() -> None:
    held = talk(["which one is turtle 1?", "stop"], up_to("species", {"animal_count": "2"}))
    assert any("in the order you tell me" in said for said in held.face.tones("note"))


TOLD_TWICE = {
    "they have carpet on an upper floor": "upper floor",
    "timber floor, upstairs bedroom": "timber floor",
}


@pytest.mark.parametrize("line", TOLD_TWICE)
def test_one_choice_told_in_two_ways_is_offered_once(line: str) -> None:
    held = talk([line, "yes", "stop"], up_to("floor"))
    assert f"Do you mean “{TOLD_TWICE[line]}”? “yes” takes that." in held.face.tones("note")
    assert held.interview.answers[Place("floor")].value == "unknown"


def test_what_a_line_as_a_whole_tells_is_taken_at_once() -> None:
    held = talk(["customer says wood floor upstairs", "stop"], up_to("floor"))
    taken = "I took “customer says wood floor upstairs” as not known, or another upper floor."
    assert taken in held.face.tones("note")


def test_two_choices_are_still_asked_between() -> None:
    held = talk(["maybe parallel to it or else perpendicular", "stop"], up_to("floor"))
    assert any(" or “" in said for said in held.face.tones("note"))
    assert Place("floor") not in held.interview.answers


DEEP = [
    "25 cm deep",
    "it's about 25 cm deep I think",
    "it stands 25 cm deep",
    "we keep it 25 cm deep",
    "25 cm up from the bottom",
    "water level 25 cm from the bottom",
    "25 cm high",
    "25 cm of water in there I reckon",
    "25 cm deep, the air gap is small",
    "the water is 25 cm deep, just under the lid",
]


@pytest.mark.parametrize(
    "line", ["5 cm, from the top, deep enough", "5 cm; below the rim, so deep"]
)
def test_a_gap_told_beside_what_is_deep_is_no_depth(line: str) -> None:
    held = talk([line, "yes", "stop"], up_to("water_line_below_rim"))
    assert held.said("water_line_below_rim") == "5 cm"


@pytest.mark.parametrize("line", DEEP)
def test_a_depth_told_at_the_water_line_is_never_what_is_above_it(line: str) -> None:
    held = talk([line, "stop"], up_to("water_line_below_rim"))
    assert held.said("water_line_below_rim") == "about 15 cm"
    unknown = up_to("water_line_below_rim")
    unknown.answers.pop(Place("tank_size"), None)
    unknown.skipped.add(Place("tank_size"))
    asked = talk(["change water line", line, line, "yes", "", "stop"], unknown)
    assert Place("water_line_below_rim") not in asked.interview.answers
    assert "how high the tank is I don't know yet" in asked.face.tones("refusal")[0]


@pytest.mark.parametrize(
    "line",
    [
        "2 in from the top, quite high",
        "a 12 cm high gap",
        "10 cm of water missing at the top",
        "4 cm from the bottom of the rim",
    ],
)
def test_what_is_told_from_the_rim_is_no_depth(line: str) -> None:
    held = talk([line, "stop"], up_to("water_line_below_rim"))
    assert Place("water_line_below_rim") not in held.interview.answers
    assert not any("deep the water is" in said for said in held.face.tones("refusal"))
    high = talk(
        ["it is high, about 3 cm below the top", "yes", "stop"], up_to("water_line_below_rim")
    )
    assert high.said("water_line_below_rim") == "about 3 cm"


def test_of_two_depths_each_is_offered_as_a_water_line() -> None:
    line = "water is roughly 25 cm deep, maybe 26"
    held = talk([line, "yes", "stop"], up_to("water_line_below_rim"))
    assert held.said("water_line_below_rim") == "about 15 cm"
    high = talk(["50 cm deep", "yes", "stop"], up_to("water_line_below_rim"))
    assert "the tank is no higher than that" in high.face.tones("refusal")[0]


@pytest.mark.parametrize(
    "line",
    [
        "what does it mean if he is gasping while basking",
        "what is wrong with the basking?",
        "what's the best grade of gravel",
    ],
)
def test_who_asks_more_than_a_word_is_not_put_off_with_its_meaning(line: str) -> None:
    face = FakeFace([line, "no"])
    assert hear_aside(face, Asked("Save this audit?")) == line
    assert not face.said
    ill = talk(["what does it mean if he is gasping while basking", "stop"], up_to("lamp_fixings"))
    assert any("call a reptile veterinarian now" in text for _, text in ill.face.said)


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("what does STOP mean", "STOP stands in the place of a grade"),
        ("what is stop?", "STOP stands in the place of a grade"),
        ("what does wrong mean", "What is wrong lies clearly outside"),
        ("what does grade D mean?", "A grade tells how well a tank does"),
        ("what does likely mean", "Likely says how certain a verdict is"),
    ],
)
def test_our_own_words_are_explained_at_every_prompt(line: str, said: str) -> None:
    """At a question, a list of faults, a list to agree to and where a page is offered."""
    told = "Everything is plugged into an extension cord; there are drip loops on every cord."
    places = {
        "room_temperature_low": [line],
        "lamp_fixings": [line, told, line, "yes"],
        "heat_lamp_kind": [line],
    }
    for place, lines in places.items():
        interview = up_to(place)
        face = FakeFace([*lines, "stop"])
        with pytest.raises(Left):
            GuidedTalk(interview, face, lambda: None).run()
        told_of = [text for _, text in face.said if text.startswith(said)]
        assert len(told_of) == lines.count(line), place
        assert not face.tones("refusal")
    face = FakeFace([line, "no"])
    assert hear_aside(face, Asked("Save this audit?")) == "no"
    assert face.tones("help")[0].startswith(said)


@pytest.mark.parametrize(
    "line", ["whats that thing", "what is this here", "what do you mean by that"]
)
def test_what_is_asked_of_that_thing_is_asked_of_the_question(line: str) -> None:
    held = talk(["change ph", line, "stop"], demo("musk_turtle"))
    assert "pH decides how much" in " ".join(held.face.tones("note") + held.face.tones("help"))
