"""A thing is never taken for its absence: a lamp is not "no lamp"."""

from __future__ import annotations

import pytest

from interview import assembly
from interview.graph.interview import Place
from interview.words.text.refusal import NotUnderstood


@pytest.mark.parametrize(
    ("place", "text"),
    [
        ("heat_lamp_kind", "heat lamp"),
        ("uvb_lamp_kind", "a UVB lamp"),
        ("heater_mount", "heater"),
        ("cover_basking", "cover"),
        ("uvb_strength", "2%"),
        ("decor_hazards", "both"),
    ],
)
def test_a_bare_noun_is_asked_about(place: str, text: str) -> None:
    with pytest.raises(NotUnderstood):
        assembly.new_interview().try_answer(Place(place), text)


@pytest.mark.parametrize(
    ("place", "text", "name"),
    [
        ("heat_lamp_kind", "no lamp", "none"),
        ("heater_mount", "no heater", "none"),
        ("region", "the united kingdom", "united_kingdom"),
    ],
)
def test_what_denies_or_is_exact_is_taken(place: str, text: str, name: str) -> None:
    assert assembly.new_interview().try_answer(Place(place), text).value == name
