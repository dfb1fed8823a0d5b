"""What is guessed of a story by what was learned: from which texts, and what never is."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import msgspec
import pytest
import yaml
from learning.examples import LEARNED_FROM, digest
from told_score import paragraphs

from interview import assembly
from interview.chat.hearing.told.story import read_story
from interview.chat.hearing.told.story_lines import label_of, lines_of
from interview.chat.hearing.told.taken import Story
from interview.data_files.agreeing import faults_between
from interview.graph.interview import Place
from interview.words.intents.story import extract_facts
from interview.words.learned import model as weights
from interview.words.learned.candidates import Candidate
from interview.words.learned.readings import NONE, heard

WITNESS = yaml.safe_load((Path(__file__).parent / "learning" / "witness.yaml").read_text("utf-8"))
HEARD = "A stick of 150 watts stands in the water."
"""What no phrase takes, and is surely heard."""
SURE = "We keep a red-eared slider of 15 cm in a tank of 120 x 50 x 50 cm in Leeds."


def _read(more: str) -> Story:
    return read_story(assembly.new_interview(), f"{SURE} {more}")


def test_the_weights_were_learned_from_these_texts() -> None:
    """After a change: python tests/words/learn.py."""
    assert weights.about().learned_from == digest()


def test_nothing_was_learned_from_what_is_only_counted() -> None:
    kinds = ("voices", "natural", "people", "strangers", "neighbours", "short")
    bounds = (f"tuning_bounds_{n}" for n in (1, 2, 3))
    halves = (
        *(f"{kind}_counted" for kind in kinds),
        *("held_out", "trial", "tuning_newest", "tuning_evening", "tuning_afternoon", *bounds),
    )
    counted = {row["text"] for half in halves for row in paragraphs(half)}
    texts = {row["text"] for half in LEARNED_FROM for row in paragraphs(half)}
    assert len(texts) > 300
    assert counted.isdisjoint(texts)


@pytest.mark.parametrize("row", WITNESS, ids=lambda row: ascii(row["text"][:30]))
def test_what_ships_hears_what_was_learned(row: dict[str, Any]) -> None:
    """Outside: torch in float32, of which whole numbers take little (learning/witness.py)."""
    model = weights.model()
    found = heard(model, row["text"], [])
    for name, (choice, chance) in row["choices"].items():
        assert found.choices[name].chances[choice] == pytest.approx(chance, abs=0.1), name
    told = {name for name, one in found.choices.items() if one.chances[NONE] < 0.4}
    assert told <= row["choices"].keys()
    given = [Candidate(*span, dict.fromkeys(fit, "")) for span, fit, _, _ in row["amounts"]]
    for chances, (_, _, name, chance) in zip(
        heard(model, row["text"], given).amounts, row["amounts"], strict=True
    ):
        assert chances[name] == pytest.approx(chance, abs=0.1)


def test_a_question_that_can_be_heard_but_not_asked_is_told(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    heard_of = msgspec.structs.replace(
        weights.about(), amounts=("heater_power", "heater_pwr"), choices={"floor": ("slab", "slop")}
    )
    monkeypatch.setattr(weights, "about", lambda: heard_of)
    asked = {"floor": ("slab", "joists"), "heater_power": ()}
    told = [one for one in faults_between(asked, {}) if "learns anew" in one]
    assert [one.split(": ")[1] for one in told] == [
        "there is no question heater_pwr",
        "“slop” is no choice at the question floor",
    ]


@pytest.mark.parametrize(
    ("more", "place", "said", "shown"),
    [
        (HEARD, "heater_power", "150 watts", "150 watts"),
        ("The canister's tubes measure 16 mm across.", "hose_diameter", "16 mm", "16 mm"),
        (
            *("Nobody here is younger than thirty.", "vulnerable_person", "no"),
            "no (my guess, from “Nobody here is younger than thirty”)",
        ),
    ],
)
def test_what_no_phrase_takes_is_guessed_and_marked(
    more: str, place: str, said: str, shown: str
) -> None:
    story = _read(more)
    assert {one.id: words for one, words in story.answers if one in story.heard} == {place: said}
    lines = [line for _, line in lines_of(assembly.new_interview(), story) if "my guess" in line]
    assert lines == [shown if "guess" in shown else f"{shown} (my guess)"]
    assert not [phrase for phrase in story.unused if phrase in more]


@pytest.mark.parametrize(
    "more",
    [
        "I would like a stick of 150 watts in the water.",
        "There is no stick of 150 watts in the water.",
        "Maybe a stick of 150 watts stands in the water.",
        "A stick of 150 watts stands in the water, no wait, 100.",
        "A stick of 150 watts stands in the water. Sorry, it was 100.",
        "My friend's stick of 150 watts stands in the water.",
        "Last year a stick of 150 watts stood in the water.",
        "Does a stick of 150 watts stand in the water?",
        "No heater. A stick of 150 watts stands in the water.",
        "The heater has 100 W. A stick of 150 watts stands in the water.",
        "A stick of 15000 watts stands in the water.",
        "Is 25 °C right for the water?",
    ],
)
def test_nothing_is_guessed_of_what_is_not_so(more: str) -> None:
    assert not _read(more).heard


def test_nothing_is_guessed_where_phrases_took_too_little() -> None:
    assert not read_story(assembly.new_interview(), "A stick of 150 watts inside.").heard


@pytest.mark.parametrize(
    ("more", "name"),
    [
        ("I doubt we have an RCD.", "rcd"),
    ],
)
def test_what_phrases_take_but_a_story_hardly_tells_is_asked_instead(more: str, name: str) -> None:
    told = extract_facts(more, region="", species=(), sizes={})
    assert name in {fact.id for fact in told.facts}
    story = _read(more)
    assert name not in {place.id for place, _ in story.answers}
    assert [phrase for phrase in story.unused if phrase in more]


def test_what_phrases_take_of_a_doubtful_sentence_is_shown_as_a_guess() -> None:
    doubtful = _read(
        "The tank came second hand with a normal bulb in the hood that I mean to swap."
    )
    plain = _read("The tank came second hand, and a normal bulb of 60 W warms his dock.")
    lines = [dict(lines_of(assembly.new_interview(), one)) for one in (doubtful, plain)]
    doubted, sure = (one["Heat lamp"] for one in lines)
    assert "(my guess, from “normal bulb”)" in doubted
    assert "incandescent" in sure
    assert "guess" not in sure


def test_a_guess_of_several_choices_is_shown_in_words() -> None:
    story = _read("Our cat sits on the lid all day and puts a paw in.")
    assert dict(story.answers)[Place("other_animals")] == "pet_in_reach"
    shown = dict(lines_of(assembly.new_interview(), story))["Newcomers and other pets"]
    assert shown.startswith("a dog, cat or other pet can reach them (my guess")


def test_no_turtle_is_guessed_of_where_nobody_said_how_many() -> None:
    told = "Percy is about 5 inches. The tank is 120 x 50 x 50 cm, the heater 100 W."
    assert Place("carapace_length", 0) not in read_story(assembly.new_interview(), told).heard


def test_many_turtles_are_taken_though_they_are_not_told_apart() -> None:
    many = (
        "My eight sliders live in a tank of 200 x 70 x 70 cm with a sump and two heaters of 300 W."
    )
    told = dict(
        read_story(assembly.new_interview(), f"{many} The floor is solid concrete.").answers
    )
    assert told[Place("animal_count")] == "8"
    assert told[Place("species", 7)] == "slider"


def test_of_more_turtles_than_are_heard_none_is_left_out() -> None:
    three = "A slider, a musk and a cooter share a tank of 180 x 60 x 60 cm with a canister filter"
    told = read_story(
        assembly.new_interview(), f"{three} in Leeds. The cooter is 25 cm, by the way. {HEARD}"
    )
    assert Place("heater_power") in told.heard
    assert not [place for place in told.heard if place.animal is not None]


def test_one_turtle_of_the_story_is_heard_though_phrases_count_another_s() -> None:
    two = (
        "My turtle is a musk, 11 cm, 6 years old. My wife's slider lives in her own tank. Mine has "
    )
    read = read_story(assembly.new_interview(), f"{two} 80 x 40 x 40 cm and a heater of 100 W.")
    told = dict(read.answers)
    assert told[Place("animal_count")] == "1"
    assert told[Place("carapace_length", 0)] == "11 cm"
    assert told[Place("age", 0)] == "6 years"
    assert Place("species", 1) not in told


def test_a_new_turtle_s_length_is_not_guessed_of_the_one_there_is() -> None:
    interview = assembly.new_interview()
    interview.record(Place("animal_count"), "1")
    more = (
        "We have a new turtle, a musk of 8 cm, so now there are two of them in the tank with 60 W."
    )
    heard = read_story(interview, f"{more} {HEARD}").heard
    assert Place("heater_power") in heard
    assert Place("carapace_length", 0) not in heard


def test_a_line_of_the_second_turtle_says_so() -> None:
    interview = assembly.new_interview()
    interview.record(Place("animal_count"), "2")
    assert label_of(interview, Story((), (), ""), Place("species", 0)) == "Turtle 1: Species"


def test_an_answer_that_there_is_is_not_guessed_again() -> None:
    interview = assembly.new_interview()
    interview.record(_read(HEARD).answers[-1][0], "100 W")
    assert not read_story(interview, f"{SURE} {HEARD}").heard


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ("Hose is 16 mm and 1.5 m long.", {"hose_diameter", "hose_length"}),
        ("We are planning a tank for a mud turtle.", {"species"}),
        ("The T8 has a reflector.", {"uvb_reflector"}),
    ],
)
def test_what_phrases_make_of_a_few_words_is_not_doubted(line: str, told: set[str]) -> None:
    story = read_story(assembly.new_interview(), line)
    assert told <= {place.id for place, _ in story.answers}
