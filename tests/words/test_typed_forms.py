"""The tables of typed forms: every line is what a keeper may type and what it must mean."""

from __future__ import annotations

from collections import Counter
from pathlib import Path
from typing import Any

import pytest
import yaml
from every import every

from interview.base.units import CORE_UNITS, convert
from interview.words.amounts.quantity import read_quantity
from interview.words.amounts.reading import Reading
from interview.words.choices.absence import is_unsure
from interview.words.choices.choice import (
    Choice,
    read_choice,
    read_choices,
    read_names,
    read_yes_no,
)
from interview.words.forms.size import read_size
from interview.words.text.refusal import NotUnderstood

HERE = Path(__file__).parent
INCH = 0.0254
TRADE_NAMES = {
    "40 breeder": (36 * INCH, 18 * INCH, 16 * INCH),
    "75 gallon": (48 * INCH, 18 * INCH, 21 * INCH),
    "20 long": (30 * INCH, 12 * INCH, 12 * INCH),
    "20 high": (24 * INCH, 12 * INCH, 16 * INCH),
}
SPECIES = (
    Choice("common_musk", "common musk turtle", ("stinkpot",)),
    Choice("razorback_musk", "razorback musk turtle"),
    Choice("slider", "slider", ("red-eared slider", "Trachemys scripta")),
    Choice("painted", "painted turtle"),
    Choice("none", "none"),
)


class OnceLoader(yaml.SafeLoader):
    """YAML that refuses a form listed twice, and leaves yes and no as typed."""

    def construct_mapping(self, node: Any, deep: bool = False) -> dict[Any, Any]:
        keys = [self.construct_object(key, deep=deep) for key, _ in node.value]
        twice = [key for key, times in Counter(keys).items() if times > 1]
        assert not twice, f"listed twice: {twice}"
        return super().construct_mapping(node, deep)


def _load(name: str) -> Any:
    return yaml.load((HERE / name).read_text("utf-8"), OnceLoader)


def _rows(name: str, kind: str) -> list[Any]:
    return [
        pytest.param(
            block[kind], block.get("region", "europe"), text, meaning, id=f"{block[kind]}: {text}"
        )
        for block in _load(name)
        for text, meaning in block["forms"].items()
    ]


def _named(section: str) -> list[Any]:
    return [
        pytest.param(str(text), meaning, id=str(text))
        for text, meaning in _load("typed_choices.yaml")[section].items()
    ]


FORMS = _rows("typed_forms.yaml", "dimension")
SIZES = _rows("typed_sizes.yaml", "sides")


def _split(meaning: str) -> tuple[str, str]:
    value, _, says = meaning.partition("; says ")
    return value, says


def _check_said(understood: str, says: str) -> None:
    if says:
        assert says in understood
    else:
        assert understood == ""


def _expected(value: str, dimension: str) -> tuple[float, float, float]:
    """low, best and high in the core's unit of "6 to 7 inch, best 6.3"."""
    ends, _, best = value.partition(", best ")
    numbers, _, unit = ends.rpartition(" ")
    low, _, high = numbers.partition(" to ")
    if dimension == "temperature_difference":
        unit = {"K": "K"}[unit]
    low_core, high_core = (
        convert(float(end), unit, CORE_UNITS[dimension]) for end in (low, high or low)
    )
    middle = (low_core + high_core) / 2
    return (
        low_core,
        convert(float(best), unit, CORE_UNITS[dimension]) if best else middle,
        high_core,
    )


@every(("dimension", "region", "text", "meaning"), FORMS)
def test_typed_form(dimension: str, region: str, text: str, meaning: str) -> None:
    if meaning.startswith("refused: "):
        with pytest.raises(NotUnderstood) as refusal:
            read_quantity(text, dimension, region=region)
        assert meaning.removeprefix("refused: ") in str(refusal.value)
        return
    value, says = _split(meaning)
    reading = read_quantity(text, dimension, region=region)
    got = (reading.low, reading.best, reading.high)
    assert got == pytest.approx(_expected(value, dimension), rel=1e-9, abs=1e-12)
    assert reading.said == text.strip()
    _check_said(reading.understood, says)


@every(("sides", "region", "text", "meaning"), SIZES)
def test_typed_size(sides: int, region: str, text: str, meaning: str) -> None:
    if meaning.startswith("refused: "):
        with pytest.raises(NotUnderstood) as refusal:
            read_size(text, sides, region=region, names=TRADE_NAMES)
        assert meaning.removeprefix("refused: ") in str(refusal.value)
        return
    value, says = _split(meaning)
    *numbers, unit = value.split()
    readings = read_size(text, sides, region=region, names=TRADE_NAMES)
    expected = [convert(float(number), unit, "m") for number in numbers]
    assert [reading.best for reading in readings] == pytest.approx(expected, rel=1e-9)
    _check_said(readings[0].understood, says)


def test_about_a_size_is_about_every_side() -> None:
    readings = read_size("about 36 x 18 x 16 in", 3)
    assert [reading.low / reading.best for reading in readings] == pytest.approx([0.9] * 3)
    assert [reading.high / reading.best for reading in readings] == pytest.approx([1.1] * 3)


def test_a_refusal_of_one_side_keeps_its_parts() -> None:
    with pytest.raises(NotUnderstood) as refusal:
        read_quantity("18", "length")
    assert refusal.value.understood == '"18"'
    assert refusal.value.wrong == "it has no unit"
    assert refusal.value.example == '"18 cm" or "18 in"'


@every(("text", "meaning"), _named("species"))
def test_typed_choice(text: str, meaning: str) -> None:
    if meaning.startswith("refused: "):
        with pytest.raises(NotUnderstood) as refusal:
            read_choice(text, SPECIES)
        assert meaning.removeprefix("refused: ") in str(refusal.value)
    else:
        assert read_choice(text, SPECIES).name == meaning


@pytest.mark.parametrize(("text", "meaning"), _named("several"))
def test_typed_choices(text: str, meaning: str) -> None:
    options = SPECIES[:-1]
    if meaning.startswith("refused: "):
        with pytest.raises(NotUnderstood) as refusal:
            read_choices(text, options)
        assert meaning.removeprefix("refused: ") in str(refusal.value)
    else:
        assert [option.name for option in read_choices(text, options)] == meaning.split()


@pytest.mark.parametrize(("text", "meaning"), _named("yes or no"))
def test_typed_yes_no(text: str, meaning: bool | str) -> None:
    if isinstance(meaning, str):
        with pytest.raises(NotUnderstood) as refusal:
            read_yes_no(text)
        assert meaning.removeprefix("refused: ") in str(refusal.value)
    else:
        assert read_yes_no(text) is meaning


@pytest.mark.parametrize(("text", "meaning"), _named("unsure"))
def test_typed_unsure(text: str, meaning: bool) -> None:
    assert is_unsure(text) is meaning


@pytest.mark.parametrize(("text", "meaning"), _named("names"))
def test_typed_names(text: str, meaning: str) -> None:
    assert read_names(text) == tuple(meaning.split("|") if meaning else ())


def test_counts_are_whole() -> None:
    said = [read_quantity(text, "count").best for text in ("two", "3", "none")]
    assert said == [2, 3, 0]
    with pytest.raises(NotUnderstood, match="a whole number is needed here"):
        read_quantity("2.5", "count")


def test_a_reading_is_finite_and_in_order() -> None:
    for low, best, high in ((2.0, 1.0, 3.0), (1.0, 4.0, 3.0), (0.0, 1.0, float("inf"))):
        with pytest.raises(ValueError, match="a reading"):
            Reading(low, best, high, "", "m")


def test_the_tables_are_as_large_as_promised() -> None:
    forms = [(row.values[0], row.values[2]) for row in FORMS]
    assert len(set(forms)) >= 300
    assert len(FORMS) + len(SIZES) >= 400
