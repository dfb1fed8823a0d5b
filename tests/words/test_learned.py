"""What is guessed of a story by learned weights: from which texts, and what never is."""

from __future__ import annotations

import pytest
from learn import LEARNED_FROM, Example, digest, learned
from told_score import paragraphs

from interview import assembly
from interview.chat.hearing.told.guessed import NONE
from interview.chat.hearing.told.story import Story, lines_of, read_story
from interview.graph.interview import Place
from interview.words.learned.weights import Heard, weights

SURE = "We keep a red-eared slider of 15 cm in a tank of 120 x 50 x 50 cm in Leeds."


def _read(more: str) -> Story:
    return read_story(assembly.new_interview(), f"{SURE} {more}")


def test_the_weights_are_of_these_texts_learned_in_this_way() -> None:
    """After a change: python tests/words/learn.py."""
    assert weights().learned_from == digest()


def test_nothing_was_learned_from_what_is_only_counted() -> None:
    counted = {row["text"] for half in ("held_out", "voices_counted") for row in paragraphs(half)}
    texts = {row["text"] for half in LEARNED_FROM for row in paragraphs(half)}
    assert len(texts) > 300
    assert counted.isdisjoint(texts)


def test_a_word_speaks_for_what_it_stands_with_and_against_the_rest() -> None:
    heater, lamp = ("heater_power", ""), ("heat_lamp_power", "")
    told = [Example(["B:stick"], [NONE, heater, lamp], [heater])] * 9
    told += [Example(["B:globe"], [NONE, heater, lamp], [lamp])] * 9
    told += [Example(["B:lamp"], [NONE, heater, lamp], [lamp])] * 9
    found = learned(told)
    assert found["B:stick"][heater] > 0 > found["B:stick"][lamp]
    assert found["B:globe"][lamp] > 0 > found["B:globe"][heater]
    assert found["B:bulb"][lamp] > 0, "a word of its question that no text has, as “lamp” is one"
    assert heater not in found.get("B:bulb", {})


@pytest.mark.parametrize(
    ("more", "place", "said", "shown"),
    [
        ("A stick of 150 watts stands in the water.", "heater_power", "150 watts", "150 watts"),
        ("The tubing measures 16 mm inside.", "hose_diameter", "16 mm", "16 mm"),
        (
            *("Solid flagstone floor laid on earth.", "floor", "slab"),
            "a solid concrete floor on the ground",
        ),
    ],
)
def test_what_no_phrase_takes_is_guessed_and_marked(
    more: str, place: str, said: str, shown: str
) -> None:
    story = _read(more)
    assert {one.id: words for one, words in story.answers if one in story.heard} == {place: said}
    lines = [line for _, line in lines_of(assembly.new_interview(), story) if "my guess" in line]
    clause = "" if place != "floor" else f", from “{more[:-1]}”"
    assert lines == [f"{shown} (my guess{clause})"]
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
    ],
)
def test_nothing_is_guessed_of_what_is_not_so(more: str) -> None:
    assert not _read(more).heard


def test_nothing_is_guessed_where_phrases_took_too_little() -> None:
    assert not read_story(
        assembly.new_interview(), "A stick of 150 watts stands in the water."
    ).heard


def test_no_turtle_is_guessed_of_where_nobody_said_how_many() -> None:
    told = "Percy is about 5 inches. The tank is 120 x 50 x 50 cm, the heater 100 W."
    assert Place("carapace_length", 0) not in read_story(assembly.new_interview(), told).heard


def test_an_answer_that_there_is_is_not_guessed_again() -> None:
    interview = assembly.new_interview()
    interview.record(_read("A stick of 150 watts stands in the water.").answers[-1][0], "100 W")
    assert not read_story(interview, f"{SURE} A stick of 150 watts stands in the water.").heard


def test_a_clause_speaks_of_questions_by_its_own_words() -> None:
    heard: Heard = weights().clauses
    assert "floor" in heard.spoken_of(["W:slab"])
    assert heard.spoken_of(["tb:heater", "W:zzz"]) == set()
