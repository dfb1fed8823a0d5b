"""Volumes, flows and masses as people write them."""

from __future__ import annotations

from collections.abc import Iterator
from random import Random

from made.spans import (
    CM,
    CUBIC_INCH,
    GRAM,
    HOUR,
    IMPERIAL_GALLON,
    IMPERIAL_QUART,
    LITRE,
    MINUTE,
    OUNCE,
    POUND,
    THOUSANDS,
    US_GALLON,
    US_QUART,
    Case,
    Made,
    Span,
    between,
    comma,
    grouped,
    in_words,
    point,
    said,
)

Either = Iterator[tuple[str, tuple[Span, ...]]]
"""Strings, each with the spans of which any is a fair reading."""


def volumes(n: int) -> Made:
    """Litres and cubic inches."""
    litres = (
        "{} L",
        "{}L",
        "{} l",
        "{}l",
        "{} litres",
        "{} liters",
        "{} litre",
        "about {} L",
        "{} ltr",
    )
    yield from said(n * LITRE, str(n), litres)
    yield from said((n + 0.5) * LITRE, f"{n}.5", litres[:6])
    yield from said((n + 0.5) * LITRE, f"{n},5", ("{} L", "{} l", "{} litres"))
    yield from said((n + 0.5) * LITRE, f"{n} 1/2", ("{} L", "{} litres"))
    yield f"{n}½ L", point((n + 0.5) * LITRE)
    yield f"{n} and a half litres", point((n + 0.5) * LITRE)
    yield f"{in_words(n)} litres", point(n * LITRE)
    yield f"{n}-{n + 2} L", between(n * LITRE, (n + 2) * LITRE)
    yield f"{n} to {n + 2} litres", between(n * LITRE, (n + 2) * LITRE)
    yield f"{n} or {n + 1} L", between(n * LITRE, (n + 1) * LITRE)
    yield from said(
        n * LITRE / 10, str(n * 100), ("{} ml", "{}ml", "{} mL", "{} millilitres", "{} cc")
    )
    yield from said(n * LITRE / 10, str(n * 10), ("{} cl",))
    yield from said(n * LITRE, str(n), ("{} dm3", "{} dm³"))
    yield from said(n * LITRE, str(n * 1000), ("{} cm3", "{} cm³", "{} ml"))
    inches = ("{} cubic inches", "{} cu in", "{} in³", "{} in^3", "{} in3")
    yield from said(n * 60 * CUBIC_INCH, str(n * 60), inches)


def gallons(n: int) -> Either:
    """Gallons and quarts of either kind: which, the region decides."""
    gallon = (point(n * US_GALLON), point(n * IMPERIAL_GALLON))
    for form in ("{} gal", "{}gal", "{} gallons", "{} gals", "about {} gallons"):
        yield form.format(n), gallon
    quart = (point(n * US_QUART), point(n * IMPERIAL_QUART))
    for form in ("{} qt", "{} quarts", "{}qt", "{} qts"):
        yield form.format(n), quart
    half = (point((n + 0.5) * US_GALLON), point((n + 0.5) * IMPERIAL_GALLON))
    for form in ("{} 1/2 gal", "{}.5 gallons", "{} and a half gallons", "{}½ gallons"):
        yield form.format(n), half
    yield f"{n} US gal", (point(n * US_GALLON),)
    yield f"{n} US gallons", (point(n * US_GALLON),)
    yield f"{n} imperial gallons", (point(n * IMPERIAL_GALLON),)
    yield f"{n} imp gal", (point(n * IMPERIAL_GALLON),)
    yield "a gallon", (point(US_GALLON), point(IMPERIAL_GALLON))
    yield "half a gallon", (point(US_GALLON / 2), point(IMPERIAL_GALLON / 2))
    yield "half a litre", (point(LITRE / 2),)
    yield "a litre and a half", (point(1.5 * LITRE),)
    yield "a litre", (point(LITRE),)


def flows(rng: Random) -> Either:
    """What a filter moves."""
    n, seconds = rng.randint(6, 39) * 50, rng.choice((30, 40, 45, 50, 60, 75, 90))
    value = (point(n * LITRE / HOUR),)
    for form in (
        "{} L/h", "{}L/h", "{} l/h", "{}l/h", "{} lph", "{} LPH", "{}lph", "{} l/hr",
        "{} litres per hour", "{} liters per hour", "{} litres an hour", "{} litre per hour",
        "{} L/hour", "about {} L/h", "ca. {} l/h", "{} L/h or so", "{} liters/h", "{} l / h",
    ):  # fmt: skip
        yield form.format(n), value
    if n >= 1000:
        for mark in THOUSANDS:
            yield f"{grouped(n, mark)} L/h", value
    yield f"{n}-{n + 200} L/h", (between(n * LITRE / HOUR, (n + 200) * LITRE / HOUR),)
    yield (
        f"{n} to {n + 200} litres per hour",
        (between(n * LITRE / HOUR, (n + 200) * LITRE / HOUR),),
    )
    g = rng.randint(100, 550)
    gallon = (point(g * US_GALLON / HOUR), point(g * IMPERIAL_GALLON / HOUR))
    for form in (
        "{} gph", "{}gph", "{} GPH", "{} gal/h", "{} gal/hr", "{} gallons per hour",
        "{} gallons an hour", "about {} gph", "{} gph I think", "{} gallons/hour",
    ):  # fmt: skip
        yield form.format(g), gallon
    yield f"{g} US gph", gallon[:1]
    yield f"{g}-{g + 50} gph", tuple(between(s.low, s.low / g * (g + 50)) for s in gallon)
    bucket = (point(10 * LITRE / seconds),)
    for form in (
        "10 L in {} seconds",
        "10 l in {} s",
        "10 litres in {} sec",
        "ten litres in {} seconds",
    ):
        yield form.format(seconds), bucket
    yield "10 L in a minute", (point(10 * LITRE / MINUTE),)
    yield "10 litres in 1 minute", (point(10 * LITRE / MINUTE),)
    two = (point(2 * US_GALLON / seconds), point(2 * IMPERIAL_GALLON / seconds))
    yield f"2 gal in {seconds} seconds", two
    yield f"2 gallons in {seconds} s", two
    minute = rng.randint(5, 30)
    yield f"{minute} L/min", (point(minute * LITRE / MINUTE),)
    yield f"{minute} litres a minute", (point(minute * LITRE / MINUTE),)
    yield f"{minute} lpm", (point(minute * LITRE / MINUTE),)
    yield f"{minute / 10} m3/h", (point(minute / 10 / HOUR),)
    yield f"{minute / 10} m³/h", (point(minute / 10 / HOUR),)


def masses(n: int) -> Made:
    """Weights in all sizes."""
    for form in ("{} g", "{}g", "{} grams", "{} gram", "{} grammes", "about {} g", "{} gr", "~{}g"):
        yield form.format(n), point(n * GRAM)
    yield f"{n / 1000:.3f} kg", point(n * GRAM)
    yield f"{comma(f'{n / 1000:.3f}')} kg", point(n * GRAM)
    yield f"{n}-{n + 20} g", between(n * GRAM, (n + 20) * GRAM)
    yield f"{n} to {n + 20} grams", between(n * GRAM, (n + 20) * GRAM)
    yield f"{n}/{n + 20} g", between(n * GRAM, (n + 20) * GRAM)
    ounces = n % 15 + 1
    for form in ("{} oz", "{}oz", "{} ounces", "about {} oz", "{} oz."):
        yield form.format(ounces), point(ounces * OUNCE)
    for form in ("{}.5 oz", "{} 1/2 oz", "{}-1/2 oz", "{}½ oz", "{} and a half ounces"):
        yield form.format(ounces), point((ounces + 0.5) * OUNCE)
    pounds = point(2 * POUND + ounces * OUNCE)
    for form in (
        "2 lb {} oz",
        "2lb {}oz",
        "2 lbs {} oz",
        "2 pounds {} ounces",
        "2 lb, {} oz",
        "2lb{}oz",
    ):
        yield form.format(ounces), pounds


def stands(n: int) -> Made:
    """Weights that two people carry."""
    for form in ("{} kg", "{}kg", "{} kilos", "{} kilograms", "about {} kg", "{} kgs"):
        yield form.format(n), point(n)
    for form in ("{} lb", "{}lb", "{} lbs", "{} pounds", "{}lbs", "around {} lbs"):
        yield form.format(n * 2), point(n * 2 * POUND)
    yield f"{n},5 kg", point(n + 0.5)
    yield f"{n}-{n + 5} kg", between(n, n + 5)
    yield f"{n * 2}-{n * 2 + 10} lbs", between(n * 2 * POUND, (n * 2 + 10) * POUND)
    yield f"{in_words(n)} kilos", point(n)


def cases(rng: Random) -> Iterator[Case]:
    """Every volume, flow and mass."""

    def each(question: str, dimension: str, made: Made) -> Iterator[Case]:
        for text, span in made:
            yield Case(text, question, dimension, ((span,),))

    def any_of(question: str, dimension: str, made: Either) -> Iterator[Case]:
        for text, spans in made:
            yield Case(text, question, dimension, tuple((span,) for span in spans))

    for question in ("decor_volume", "media_volume", "platform_foam_volume"):
        for n in rng.sample(range(2, 12), 3):
            yield from each(question, "volume", volumes(n))
            yield from any_of(question, "volume", gallons(n))
        a, b, c = rng.randint(20, 40), rng.randint(10, 19), rng.randint(3, 8)
        yield Case(f"{a} x {b} x {c} cm", question, "volume", ((point(a * b * c * CM**3),),))
    for question in ("filter_rated_flow", "filter_measured_flow"):
        for _ in range(4):
            yield from any_of(question, "flow", flows(rng))
    for n in rng.sample(range(60, 990), 5):
        yield from each("mass", "mass", masses(n))
    for n in rng.sample(range(12, 90), 4):
        yield from each("stand_mass", "mass", stands(n))
        yield from each("stand_rating", "mass", stands(n))
    for n in rng.sample(range(2, 25), 4):
        yield from each("feed_mass", "mass", masses(n))
