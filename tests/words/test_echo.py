"""What is said back when a choice was not typed in so many words."""

from __future__ import annotations

import pytest

from interview.assembly import lists
from interview.words.amounts.quantity import read_quantity
from interview.words.choices.choice import Choice, read_choice, read_choices
from interview.words.choices.echo import echo, echo_yes_no
from interview.words.text.refusal import NotUnderstood

KINDS = (
    Choice("tippable", "something that could tip"),
    Choice("sharp", "sharp edges", ("edges",)),
    Choice("trap_gap", "a narrow gap"),
    Choice("loose_leaves", "loose leaves", ("plastic plants",)),
)


@pytest.mark.parametrize("said", ["sharp", "Sharp edges", "edges", "trap gap", "trap_gap"])
def test_what_is_spelled_out_is_not_echoed(said: str) -> None:
    assert echo(said, [read_choice(said, KINDS)]) == ""


@pytest.mark.parametrize(
    ("said", "label"), [("3", "a narrow gap"), ("sha", "sharp edges"), ("plants", "loose leaves")]
)
def test_a_number_or_a_part_is_echoed(said: str, label: str) -> None:
    assert echo(said, [read_choice(said, KINDS)]) == f'I took "{said}" as {label}.'


@pytest.mark.parametrize(
    ("said", "label"),
    [
        ("slider", "red-eared slider (Trachemys scripta elegans)"),
        ("terrapin", "red-eared slider (Trachemys scripta elegans)"),
        ("cooter", "river cooter (Pseudemys concinna)"),
        ("map", "false map turtle (Graptemys pseudogeographica)"),
        ("map turtle", "false map turtle (Graptemys pseudogeographica)"),
        ("mud turtle", "eastern mud turtle (Kinosternon subrubrum)"),
    ],
)
def test_a_name_of_several_kinds_is_echoed(said: str, label: str) -> None:
    kinds = lists().options["species"]
    assert echo(said, [read_choice(said, kinds)]) == (
        f'I took "{said}" as {label}; if yours is another kind, type “change species”.'
    )
    assert echo("red-eared slider", [read_choice("red-eared slider", kinds)]) == ""


def test_every_word_of_a_list_is_accounted_for() -> None:
    said = "4, 3 and plants"
    assert echo(said, read_choices(said, KINDS)) == (
        'I took "4, 3 and plants" as loose leaves; a narrow gap.'
    )
    with pytest.raises(NotUnderstood, match="There is no choice"):
        read_choices("4, 3 and bananas", KINDS)


def test_a_list_spelled_out_or_empty_is_not_echoed() -> None:
    assert echo("sharp, tippable", read_choices("sharp, tippable", KINDS)) == ""
    assert echo("none", read_choices("none", KINDS)) == ""


def test_a_guarded_yes_is_echoed() -> None:
    assert echo_yes_no("I think so", True) == 'I took "I think so" as yes.'
    assert echo_yes_no("not really", False) == 'I took "not really" as no.'
    assert echo_yes_no("yes please", True) == echo_yes_no("No", False) == ""


def test_a_choice_that_is_not_there_names_those_that_are() -> None:
    many = [Choice(f"kind_{letter}", f"kind {letter}") for letter in "abcdef"]
    with pytest.raises(NotUnderstood, match=r"first letters of kind a, kind b, .* or kind f"):
        read_choice("zebra", many)


def test_words_after_a_plain_number_are_not_called_a_unit() -> None:
    with pytest.raises(NotUnderstood, match='I understood "3", but not "clamps" after it'):
        read_quantity("3 clamps", "count")
