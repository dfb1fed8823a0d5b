"""Powers, shares, counts, test readings and the rest, as people write them."""

from __future__ import annotations

from collections.abc import Iterator
from math import atan, degrees
from random import Random

from made.spans import (
    Case,
    Made,
    Span,
    between,
    comma,
    in_words,
    loosely,
    plain,
    point,
    said,
)

# From nitrogen to the ion, and from NH3 and NH4 to nitrogen: standard atomic weights
# N 14.007, H 1.008, O 15.999 (IUPAC, abridged).
NITRATE_OF_NITROGEN = (14.007 + 3 * 15.999) / 14.007
NITRITE_OF_NITROGEN = (14.007 + 2 * 15.999) / 14.007
NITROGEN_OF_NH3 = 14.007 / (14.007 + 3 * 1.008)
NITROGEN_OF_NH4 = 14.007 / (14.007 + 4 * 1.008)


def powers(n: int) -> Made:
    """Watts."""
    for form in (
        "{} W", "{}W", "{}w", "{} w", "{} watts", "{} watt", "{} Watts", "{}-watt", "{}watts",
        "about {} W", "it says {} W", "a {} watt one", "{} W.",
    ):  # fmt: skip
        yield form.format(n), point(n)
    yield f"{in_words(n)} watts", point(n)
    yield f"{plain(n / 1000)} kW", point(n)
    yield f"{comma(plain(n / 1000))} kW", point(n)
    yield f"{n}-{n + 25} W", between(n, n + 25)
    yield f"{n} to {n + 25} watts", between(n, n + 25)
    yield f"{n} or {n + 25} W", between(n, n + 25)
    yield f"{n}/{n + 25} W", between(n, n + 25)


def shares(n: int) -> Made:
    """Parts of a whole, in percent."""
    for form in (
        "{} %",
        "{}%",
        "{} percent",
        "{} per cent",
        "{} pct",
        "about {} %",
        "~{}%",
        "{}% or so",
    ):
        yield form.format(n), point(n / 100)
    yield f"{in_words(n)} percent", point(n / 100)
    yield f"0.{n:02d}", point(n / 100)
    yield f"{n}-{n + 10}%", between(n / 100, n / 100 + 0.1)
    yield f"{n} to {n + 10} %", between(n / 100, n / 100 + 0.1)
    yield f"{n},5 %", point(n / 100 + 0.005)
    yield f"{n}", point(n / 100)


def _fractions() -> Made:
    """Parts of a whole with a name."""
    for texts, value in (
        (
            ("a third", "1/3", "one third", "⅓", "about a third", "a third of it", "one in three"),
            1 / 3,
        ),
        (("two thirds", "2/3", "⅔", "about 2/3"), 2 / 3),
        (("a quarter", "1/4", "one quarter", "¼", "a fourth", "a quarter of the water"), 0.25),
        (("three quarters", "3/4", "¾", "three-quarters"), 0.75),
        (("half", "1/2", "½", "a half", "half of it", "about half"), 0.5),
        (("a fifth", "1/5", "one fifth"), 0.2),
        (("a tenth", "1/10", "one tenth"), 0.1),
        (("all of it", "100%", "100 %", "everything", "the whole lot"), 1.0),
        (("a bit over half",), 0.55),
    ):
        for text in texts:
            loose = text.startswith("a bit")
            yield text, loosely(0.5, 0.65) if loose else point(value)
    yield "a quarter to a third", between(0.25, 1 / 3)
    yield "a third to a half", between(1 / 3, 0.5)
    yield "1/4 to 1/3", between(0.25, 1 / 3)
    yield "1/3-1/2", between(1 / 3, 0.5)
    yield "nearly half", loosely(0.4, 0.5)


def concentrations(n: float) -> Made:
    """What the colour card shows."""
    number = plain(n)
    for form in (
        "{} ppm", "{}ppm", "{} mg/L", "{} mg/l", "{}mg/l", "{} mg per litre",
        "about {} ppm", "{} PPM", "{} parts per million", "~{} ppm", "it's {} mg/L", "{}",
    ):  # fmt: skip
        yield form.format(number), point(n)
    yield f"{comma(number)} mg/l", point(n)
    yield f"{number}-{plain(n * 2)} ppm", between(n, 2 * n)
    yield f"{number}-{plain(n * 2)}", between(n, 2 * n)
    yield f"{number} to {plain(n * 2)} mg/L", between(n, 2 * n)
    yield f"between {number} and {plain(n * 2)} ppm", between(n, 2 * n)
    yield f"<{number} mg/L", loosely(0, n)
    yield f"under {number} ppm", loosely(0, n)
    yield f"less than {number} ppm", loosely(0, n)
    yield f"{plain(n * 1000)} µg/L", point(n)


def _none_found() -> Made:
    for text in ("0", "zero", "none", "nil", "0 ppm", "0 mg/L", "0.0", "nothing", "undetectable"):
        yield text, loosely(0, 0.05) if text == "undetectable" else point(0)


def as_nitrogen(question: str, n: float) -> Made:
    """Readings that say their form: converted or asked about, never taken as they are."""
    number = plain(n)
    if question in ("nitrate", "tap_nitrate"):
        value = point(n * NITRATE_OF_NITROGEN)
        for form in (
            "{} mg/L NO3-N",
            "{} ppm as N",
            "{} mg/L nitrate-nitrogen",
            "{} mg/L as nitrogen",
        ):
            yield form.format(number), value
    elif question == "nitrite":
        value = point(n * NITRITE_OF_NITROGEN)
        for form in ("{} mg/L NO2-N", "{} ppm as N", "{} mg/L as nitrogen"):
            yield form.format(number), value
    else:
        for form in ("{} mg/L NH3", "{} ppm NH3"):
            yield form.format(number), point(n * NITROGEN_OF_NH3)
        for form in ("{} mg/L NH4", "{} ppm NH4+"):
            yield form.format(number), point(n * NITROGEN_OF_NH4)


def counts(n: int) -> Made:
    """How many."""
    for form in ("{}", "{} of them", "just {}", "{}.", "I have {}", "{} in all", "there are {}"):
        yield form.format(n), point(n)
        yield form.format(in_words(n)), point(n)


def ratings(n: int, names: tuple[str, ...]) -> Made:
    """Plain numbers of a scale."""
    value = point(n / 10)
    text = plain(n / 10)
    for form in ("{}", "about {}", "around {}", "it's {}", "~{}", *names):
        yield form.format(text), value
    yield comma(text), value
    yield f"{text}-{plain((n + 4) / 10)}", between(n / 10, (n + 4) / 10)
    yield f"{text} to {plain((n + 4) / 10)}", between(n / 10, (n + 4) / 10)


def slopes(n: int) -> Made:
    """Angles."""
    for form in (
        "{} degrees",
        "{}°",
        "{} deg",
        "about {} degrees",
        "{} degree",
        "around {}°",
        "~{}°",
    ):
        yield form.format(n), point(n)
    yield f"{in_words(n)} degrees", point(n)
    yield f"{n}-{n + 5} degrees", between(n, n + 5)
    yield f"{n} to {n + 5}°", between(n, n + 5)
    run = n % 4 + 1
    yield f"1 in {run}", point(degrees(atan(1 / run)))
    yield f"1:{run}", point(degrees(atan(1 / run)))


def electric(question: str) -> Made:
    """Volts, amps and money."""
    if question == "mains_voltage":
        for v in (110, 115, 120, 127, 220, 230, 240):
            yield from said(
                v, str(v), ("{} V", "{}V", "{} volts", "{}v", "about {} V", "{} volt", "{} VAC")
            )
        yield "220-240 V", between(220, 240)
        yield "110 to 120 volts", between(110, 120)
    elif question == "circuit_rating":
        for a in (10, 13, 15, 16, 20, 32):
            forms = (
                "{} A",
                "{}A",
                "{} amps",
                "{} amp",
                "{}-amp",
                "{} amp breaker",
                "{} A fuse",
                "{}a",
            )
            yield from said(a, str(a), forms)
    else:
        for c in (9, 15, 24, 28, 32, 41):
            value = f"{c / 100:.2f}"
            forms = (
                "{}",
                "€{}",
                "${}",
                "£{}",
                "{} €",
                "{} per kWh",
                "{}/kWh",
                "€{} per kWh",
                "about {}",
            )
            yield from said(c / 100, value, forms)
            yield comma(value), point(c / 100)
            yield from said(c / 100, str(c), ("{} cents", "{} ct", "{}p", "{} pence", "{}c"))


def cases(rng: Random) -> Iterator[Case]:
    """Every amount that the other rules leave."""

    def each(question: str, dimension: str, made: Made) -> Iterator[Case]:
        for text, span in made:
            yield Case(text, question, dimension, ((span,),))

    power = ("heater_power", "heat_lamp_power", "lamp_holder_rating", "pump_power", "light_power")
    for question in (*power, "circuit_other_load"):
        for n in rng.sample((20, 25, 40, 50, 60, 75, 90, 100, 150, 200, 250), 3):
            yield from each(question, "power", powers(n))
    for n in (25, 50, 75, 100):
        for form in (f"2 x {n} W", f"2x{n}W", f"two {n} W", f"two of {n} watts"):
            yield Case(form, "heater_power", "power", ((point(n),),))
            yield Case(form, "heat_lamp_power", "power", ((point(2 * n),),))
        yield Case(f"{n} W each", "heater_power", "power", ((point(n),),))
        yield Case(f"{n} W equivalent", "heat_lamp_power", "power")
        yield Case(f"{n} V", "heater_power", "power")
    for question in ("water_change_share", "feed_protein", "mesh_light_share"):
        for n in rng.sample(range(20, 80), 4):
            yield from each(question, "share", shares(n))
        if question != "feed_protein":
            yield from each(question, "share", _fractions())
    for question, ns in (
        ("nitrate", (5, 15, 20, 40)),
        ("tap_nitrate", (5, 12, 25)),
        ("nitrite", (0.05, 0.3, 1.5)),
        ("ammonia", (0.1, 0.25, 0.5)),
    ):
        for n in ns:
            yield from each(question, "concentration", concentrations(n))
            yield from each(question, "concentration", as_nitrogen(question, n))
        yield from each(question, "concentration", _none_found())
    for question in ("animal_count", "heater_count", "filter_count", "lamp_fixings"):
        for n in (1, 2, 3, 4):
            yield from each(question, "count", counts(n))
        for text in ("a pair", "a couple", "both of them"):
            yield Case(text, question, "count", ((point(2),),))
        for text in ("2.5", "half", "2-3", "1 1/2", "a few"):
            yield Case(text, question, "count")
    for n in rng.sample(range(64, 86), 4):
        yield from each(
            "ph", "rating", ratings(n, ("pH {}", "ph{}", "pH = {}", "pH of {}", "ph: {}"))
        )
    for n in rng.sample(range(8, 60), 4):
        yield from each(
            "uvb_reading", "rating", ratings(n, ("UVI {}", "{} UVI", "index {}", "uv index {}"))
        )
    yield Case("120 µW/cm2", "uvb_reading", "rating")
    yield Case("85 uW/cm²", "uvb_reading", "rating")
    for n in rng.sample(range(30, 70), 3):
        for text, span in shares(n):
            if not text.startswith("0."):
                humid = Span(span.low * 100, span.high * 100, span.loose)
                yield Case(text, "room_humidity", "percent", ((humid,),))
    for n in rng.sample(range(15, 60), 4):
        yield from each("ramp_slope", "angle", slopes(n))
    for question, dimension in (
        ("mains_voltage", "voltage"),
        ("circuit_rating", "current"),
        ("electricity_price", "price"),
    ):
        yield from each(question, dimension, electric(question))
