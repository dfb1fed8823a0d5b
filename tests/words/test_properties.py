"""Properties of the grammar: it reads back what it writes, and refuses kindly and fast."""

from __future__ import annotations

import random
import statistics
import string
import time
from collections.abc import Callable

import pytest
from every import every
from hypothesis import given, settings
from hypothesis import strategies as st
from often import often
from pace import slowness, within

from interview import assembly
from interview.base.units import CORE_UNITS, convert
from interview.graph.answers import understand
from interview.words.amounts.dimensions import dimensions as known_dimensions
from interview.words.amounts.format import say
from interview.words.amounts.hedges import Hedge, hedged
from interview.words.amounts.quantity import read_quantity
from interview.words.amounts.reading import Reading
from interview.words.amounts.spellings import regional, spellings
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

DIMENSIONS = known_dimensions()

QUESTIONS = assembly.questionnaire()
LISTS = assembly.new_interview().lists
REGIONS = ("europe", "north_america", "united_kingdom", "australia", "elsewhere")
SYSTEMS = ("metric", "us", "uk")
OPTIONS = tuple(
    Choice(f"kind_{number}", f"turtle of kind {number}", (f"latin {number}",))
    for number in range(30)
)


def _listed(words: str) -> list[str]:
    return words.split()


PIECES = _listed(
    "about under over at least nearly between and to or half a an third quarter dozen in cm mm m "
    "ft ' \" of 6 7 18 1/2 ½ - – 1,000 12.5 0.25 1 000 gal L l/h gph W V A kg lb oz % ppm mg/l "
    "°C F degrees every other twice times x week day days h months years by × ( ) ± + none not "
    "sure ? pH $ per kWh on"
)

phrases = st.lists(st.sampled_from(PIECES), min_size=1, max_size=8).map(" ".join)
texts = st.one_of(st.text(max_size=80), st.text(string.printable, max_size=80), phrases)
dimensions = st.sampled_from(sorted(DIMENSIONS))
QUICK = settings(max_examples=often(250), deadline=2000)


@pytest.fixture(scope="module", autouse=True)
def _warm() -> None:
    """Load the registry and build the tables, so that the deadlines time the grammar."""
    for dimension in DIMENSIONS:
        for unit in set(spellings(dimension).values()) - {"?degree"}:
            for region in ("europe", "united_kingdom"):
                convert(1.0, regional(unit, region), CORE_UNITS[dimension])


def _same(one: Reading, other: Reading) -> None:
    # `say` keeps six figures: half of the sixth is 5e-6 of the largest number written.
    width = 1e-5 * max(abs(one.low), abs(one.high), 1e-12)
    if one.unit in ("degF", "degC", "K"):
        width += 1e-4 * 5  # a temperature's six figures count from another zero
    for end in ("low", "best", "high"):
        assert getattr(other, end) == pytest.approx(getattr(one, end), rel=1e-5, abs=width)
    assert other.understood == ""


@QUICK
@given(texts, dimensions, st.sampled_from(REGIONS))
def test_any_text_is_a_reading_or_a_refusal(text: str, dimension: str, region: str) -> None:
    try:
        reading = read_quantity(text, dimension, region=region)
    except NotUnderstood as refusal:
        assert refusal.wrong and refusal.example
        assert str(refusal).endswith(".") and "Type " in str(refusal)
        return
    assert reading.low <= reading.best <= reading.high
    assert reading.said == text.strip()
    convert(reading.best, CORE_UNITS[dimension], reading.unit)  # raises for a wrong dimension
    for system in SYSTEMS:
        back = read_quantity(say(reading, dimension, system), dimension, region=region)
        _same(reading, back)


@QUICK
@given(texts)
def test_any_text_is_an_answer_or_a_refusal_elsewhere(text: str) -> None:
    readers: tuple[Callable[[], object], ...] = (
        lambda: read_choice(text, OPTIONS),
        lambda: read_choices(text, OPTIONS),
        lambda: read_yes_no(text),
        lambda: read_size(text, 3, names={"40 breeder": (0.9144, 0.4572, 0.4064)}),
        lambda: read_size(text, 2),
        lambda: read_names(text),
    )
    for reader in readers:
        try:
            reader()
        except NotUnderstood as refusal:
            assert refusal.wrong and refusal.example
    assert is_unsure(text) in (True, False)


NUMBERS = st.decimals(min_value="0.01", max_value="9999", places=2, allow_nan=False)


@QUICK
@given(NUMBERS, NUMBERS, dimensions, st.sampled_from(REGIONS), st.sampled_from(SYSTEMS), st.data())
def test_what_is_said_reads_back(
    one: float, other: float, dimension: str, region: str, system: str, data: st.DataObject
) -> None:
    if dimension == "count":
        return
    units = sorted(set(spellings(dimension).values()) - {"?degree"}) or [CORE_UNITS[dimension]]
    unit = regional(data.draw(st.sampled_from(units)), region)
    if dimension == "price":
        unit = "1"
    core = CORE_UNITS[dimension]
    low, high = sorted(convert(float(value), unit, core) for value in (one, other))
    if DIMENSIONS[dimension].bare is not None and unit == "1":
        low, high = min(low, 199.0), min(high, 199.0)
    kind = data.draw(st.sampled_from(["exact", "about", "ends", "best and ends"]))
    best = {"exact": low, "about": high, "ends": (low + high) / 2, "best and ends": high}[kind]
    if kind == "exact":
        high = low
    if kind == "about":
        span = hedged(Hedge.ABOUT, best, DIMENSIONS[dimension])
        low, high = span.low, span.high
    reading = Reading(low, best, high, "", unit)
    _same(reading, read_quantity(say(reading, dimension, system), dimension, region=region))


@QUICK
@given(NUMBERS, st.sampled_from(["length", "volume", "mass", "power", "flow", "temperature"]))
def test_a_unit_of_another_dimension_is_refused(number: float, dimension: str) -> None:
    foreign = {
        "length": ("kg", "L", "W", "°C", "m2", "l/h"),
        "volume": ("kg", "cm", "W", "°C", "m2", "l/h"),
        "mass": ("cm", "L", "W", "°C", "m2", "l/h"),
        "power": ("kg", "cm", "L", "°C", "V", "l/h", "W/K"),
        "flow": ("kg", "cm", "L", "W", "°C", "m3"),
        "temperature": ("kg", "cm", "L", "W", "l/h"),
    }
    for unit in foreign[dimension]:
        with pytest.raises(NotUnderstood, match="is needed here"):
            read_quantity(f"{number} {unit}", dimension)


@QUICK
@given(st.integers(1, 30), st.integers(1, 11), st.sampled_from([2, 4, 8, 16]), st.data())
def test_feet_inches_and_fractions_add_up(
    feet: int, inches: int, bottom: int, data: st.DataObject
) -> None:
    top = data.draw(st.integers(1, bottom - 1))
    expected = (feet * 12 + inches + top / bottom) * 0.0254
    for text in (
        f"{feet}' {inches} {top}/{bottom}\"",
        f"{feet} ft {inches} {top}/{bottom} in",
        f"{feet} feet and {inches}-{top}/{bottom} inches",
    ):
        assert read_quantity(text, "length").best == pytest.approx(expected, rel=1e-12)


@QUICK
@given(st.integers(1, 999))
def test_number_words(number: int) -> None:
    assert read_quantity(f"{_in_words(number)} mm", "length").best == number / 1000


def _in_words(number: int) -> str:
    ones = _listed(
        "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen "
        "fifteen sixteen seventeen eighteen nineteen"
    )
    tens = _listed(". . twenty thirty forty fifty sixty seventy eighty ninety")
    if number < 20:
        return ones[number]
    if number < 100:
        rest = f"-{ones[number % 10]}" if number % 10 else ""
        return tens[number // 10] + rest
    rest = f" and {_in_words(number % 100)}" if number % 100 else ""
    return f"{ones[number // 100]} hundred{rest}"


def _nonsense(seed: int) -> list[str]:
    draw = random.Random(seed)
    letters = string.ascii_letters + string.digits + " .,-/'\"½°%+×()"
    mixed = ["".join(draw.choice(letters) for _ in range(60)) for _ in range(60)]
    wordy = [" ".join(draw.choice(PIECES) for _ in range(30))[:60] for _ in range(60)]
    return [*mixed, *wordy, "-" * 60, "1-" * 30, "(" * 60, "9^" * 30, "1 " * 30, "a " * 30]


def _median_time(read: Callable[[str], object]) -> float:
    times = []
    for text in _nonsense(7):
        start = time.process_time()
        try:
            read(text)
        except NotUnderstood:
            times.append(time.process_time() - start)
    assert len(times) > 60
    return statistics.median(times)


@every("dimension", sorted(DIMENSIONS))
def test_nonsense_is_refused_in_under_a_millisecond(dimension: str) -> None:
    assert within(1e-3, lambda: _median_time(lambda text: read_quantity(text, dimension)))


def test_nonsense_choices_and_sizes_are_refused_in_under_a_millisecond() -> None:
    assert within(1e-3, lambda: _median_time(lambda text: read_choice(text, OPTIONS)))
    assert within(1e-3, lambda: _median_time(read_yes_no))
    assert within(1e-3, lambda: _median_time(lambda text: read_size(text, 3)))


@every("name", [q.id for q in QUESTIONS if q.type != "names"])
def test_nonsense_is_refused_in_under_a_millisecond_at_every_question(name: str) -> None:
    """With the species, the trade names of tanks and the choices as they are."""
    question = QUESTIONS.by_id[name]

    def read(text: str) -> object:
        return understand(question, text, LISTS, "north_america")

    assert within(1e-3, lambda: _median_time(read))


def test_no_text_takes_long() -> None:
    """The worst of many awkward texts, not only the median."""
    for text in ("9^9^9^9 cm", "1/" * 70 + "2", "1 - " * 39, "half a " * 20, "1,000" * 30):
        start = time.process_time()
        with pytest.raises(NotUnderstood):
            read_quantity(text, "length")
        assert time.process_time() - start < 0.05 * slowness()


@pytest.mark.parametrize(
    "text", ["¹⁄₄ in", "¹/₄ in", "²⁄₃ cm", "1 000.1.5 cm", "1 200.5.3 cm", "1.2,3.4 cm", "20/18 cm"]
)
def test_odd_figures_are_refused_not_crashed_on(text: str) -> None:
    with pytest.raises(NotUnderstood):
        read_quantity(text, "length")
