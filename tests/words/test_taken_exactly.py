"""Exactly what is taken: an amount with both ends, how it is said back, each fact of a sentence."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
import yaml

from interview.assembly import lists, questionnaire
from interview.graph.answers import understand
from interview.words.amounts.format import say
from interview.words.amounts.quantity import read_quantity
from interview.words.intents.story import extract_facts
from interview.words.text.refusal import NotUnderstood

ROWS: dict[str, dict[str, Any]] = yaml.load(
    (Path(__file__).parent / "taken_exactly.yaml").read_text("utf-8"), yaml.BaseLoader
)


def _numbers(value: Any) -> list[float]:
    """Low, best and high of an amount, the best of each side of a size."""
    if isinstance(value, tuple):
        return [side.best for side in value]
    return [value.low, value.best, value.high]


def _wanted(words: str) -> list[float]:
    if " x " in words:
        return [float(side) for side in words.split(" x ")]
    numbers = [float(number) for number in words.split()]
    return numbers * 3 if len(numbers) == 1 else numbers


@pytest.mark.parametrize("name", ROWS["typed"])
def test_what_is_typed_is_taken_exactly_so(name: str) -> None:
    question = questionnaire().by_id[name]
    wrong = {}
    for text, wanted in ROWS["typed"][name].items():
        told = wanted.partition("refused: ")[2]
        try:
            read = _numbers(understand(question, text, lists(), "europe").value)
            right = not told and read == pytest.approx(_wanted(wanted), rel=1e-6)
        except NotUnderstood as refusal:
            read = []
            right = bool(told) and told in str(refusal)
        if not right:
            wrong[text] = read
    assert not wrong


@pytest.mark.parametrize("dimension", ROWS["said"])
def test_what_was_taken_is_said_back_so(dimension: str) -> None:
    """What a unit comes to in another is held against NIST SP 811 in test_unit_factors."""
    for text, wanted in ROWS["said"][dimension].items():
        reading = read_quantity(text, dimension, region="europe")
        said = [say(reading, dimension, system) for system in ("metric", "us", "uk")]
        assert said == (wanted if isinstance(wanted, list) else [wanted] * 3), text


@pytest.mark.parametrize("region", ["europe", *ROWS["told_in"]])
def test_what_is_told_is_taken_exactly_so(region: str) -> None:
    wrong = {}
    for text, wanted in (ROWS["told_in"].get(region) or ROWS["told"]).items():
        found = extract_facts(
            text,
            region=region,
            species=lists().options["species"],
            sizes=lists().sizes["tank_size"],
        )
        facts = {
            fact.id if fact.animal is None else f"{fact.id}[{fact.animal}]": fact.said
            for fact in found.facts
        }
        if facts != wanted:
            wrong[text] = facts
    assert not wrong


@pytest.mark.parametrize(
    ("opened", "joined", "taken"),
    [
        ("I wish for", " and", []),
        ("Should I buy", " and", []),
        ("We have", " and", ["200 W"]),
        ("I wish for", ",", []),
        ("We have", ",", ["200 W"]),
    ],
)
def test_a_sentence_too_long_to_hang_together_is_still_wished_or_stated(
    opened: str, joined: str, taken: list[str]
) -> None:
    plants = " and".join([" a lovely green plant"] * 24)
    end = "?" if opened.startswith("Should") else "."
    text = f"{opened}{plants}{joined} a 200 W heater{end}"
    found = extract_facts(text, region="europe", species=(), sizes={})
    assert [fact.said for fact in found.facts] == taken
