"""Slips of the finger are put right in the words that matter, and nowhere else."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from interview.base.near_spelling import nearest, slip_of
from interview.base.places import questions_folder
from interview.words.amounts.quantity import read_quantity
from interview.words.lexicon.files import known_words
from interview.words.text.spelling import mended

SLIPS = {
    "heatr": "heater",
    "heaterr": "heater",
    "haeter": "heater",
    "filtr": "filter",
    "flter": "filter",
    "watr": "water",
    "wats": "watts",
    "wattts": "watts",
    "buld": "bulb",
    "lmap": "lamp",
    "tnak": "tank",
    "incehs": "inches",
    "inchs": "inches",
    "cannister": "canister",
    "temprature": "temperature",
    "temperture": "temperature",
    "condtioner": "conditioner",
    "turtel": "turtle",
    "galon": "gallon",
    "gallosn": "gallon",
    "htr": "heater",
}


@pytest.mark.parametrize("typed", SLIPS)
def test_a_slip_is_put_right(typed: str) -> None:
    assert mended(typed) == SLIPS[typed]


def test_an_ordinary_word_stays_though_it_is_one_letter_away() -> None:
    assert {word: mended(word) for word in known_words("ordinary") if mended(word) != word} == {}


def test_our_own_words_stay() -> None:
    """Questions, care data, checks, levers, code and README, whose words are ordinary English.

    A name that is added to `things` is what a slip may be put right to, so “single” became
    “shingle”: such a word goes under `ordinary:` in words.yaml.
    """
    root = questions_folder().parent
    files = [*questions_folder().glob("*.yaml"), *(root / "interview").rglob("*.py")]
    files += (path for path in (root / "interview").rglob("*.yaml") if path.parts[-2] != "lexicon")
    said = " ".join(path.read_text("utf-8") for path in [*files, root / "README.md"])
    words = set(re.findall(r"[a-z]+", said.casefold())) - CITED
    assert len(words) > 5000
    assert {word: mended(word) for word in words if mended(word) not in (word, "")} == {}


CITED = {"cannister", "heatr", "buld", "wats", "int", "mult", "stokes", "lames", "kiros"}
"""Slips that the code names as such, pieces of code, and names of people and of French papers."""


def test_units_are_read_through_a_slip() -> None:
    assert read_quantity("100 wats", "power").best == 100
    assert read_quantity("4 inchs", "length").best == pytest.approx(0.1016)


def test_two_words_as_near_are_neither() -> None:
    assert slip_of("lomp", {"lamp", "lump"}) == ""
    assert slip_of("bomp", {"lamp"}) == "", "the first letter never slips"


def test_names_are_told_most_alike_first() -> None:
    names = ["lamp to platform", "UVB lamp to platform", "water line"]
    assert nearest("lamp to platfrm", names)[0] == "lamp to platform"
    assert nearest("LAMP TO PL", names) == ["lamp to platform"]
    assert nearest("xyz", names) == []


def test_the_word_files_stand_beside_their_reader() -> None:
    folder = Path(__file__).parents[2] / "interview" / "words" / "lexicon"
    assert {path.name for path in folder.glob("*.yaml")} == {
        "changes.yaml",
        "people.yaml",
        "phrases.yaml",
        "said.yaml",
        "spans.yaml",
        "units.yaml",
        "words.yaml",
    }
