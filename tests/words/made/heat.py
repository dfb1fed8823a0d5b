"""Temperatures, and degrees between two, as people write them."""

from __future__ import annotations

from collections.abc import Iterator
from random import Random

from made.spans import (
    Case,
    Made,
    between,
    celsius,
    comma,
    in_words,
    loosely,
    plain,
    point,
    said,
)

# Question, ordinary degrees Celsius, ordinary degrees Fahrenheit.
ORDINARY = {
    "room_temperature_low": ((13, 21), (56, 69)),
    "room_temperature_high": ((24, 33), (75, 92)),
    "water_temperature": ((21, 28), (71, 82)),
    "tap_temperature": ((12, 26), (55, 78)),
    "basking_temperature": ((29, 37), (85, 97)),
    "basking_room_temperature": ((18, 26), (66, 79)),
    "thermostat_setting": ((20, 30), (68, 86)),
}

_FAHRENHEIT = (
    "{}F", "{} F", "{}°F", "{} °F", "{}° F", "{} ºF", "{} deg F", "{} degF", "{} degrees F",
    "{} degrees Fahrenheit", "{} degrees fahrenheit", "{} Fahrenheit", "{}f", "{} f", "{}oF",
    "{} o F", "about {}F", "around {} F", "~{}F", "{}F or so", "{}ish F", "it's {} F",
    "maybe {} F", "{} F I think", "{}F, measured", "exactly {} F", "{}.0 F",
)  # fmt: skip
_CELSIUS = (
    "{}C", "{} C", "{}°C", "{} °C", "{}° C", "{} ° C", "{} ºC", "{} deg C", "{} degC",
    "{} degrees Celsius", "{} degrees celsius", "{} celsius", "{} centigrade", "{}c", "{} c",
    "{}oC", "{} o C", "about {} °C", "around {} C", "~{} °C", "ca. {} °C", "{}C or so",
    "roughly {}°C", "{} °C, measured", "{} °C ± 1", "{} ± 1 °C", "{}.0 °C",
)  # fmt: skip


def _fahrenheit(f: int) -> Made:
    value = point(celsius(f))
    for form in _FAHRENHEIT:
        yield form.format(f), value
    yield f"{in_words(f)} degrees Fahrenheit", value
    yield f"{in_words(f)} F", value
    yield f"{f}.5 F", point(celsius(f + 0.5))
    yield f"{f} 1/2 F", point(celsius(f + 0.5))
    yield f"{comma(f'{f}.5')} F", point(celsius(f + 0.5))
    both = between(celsius(f), celsius(f + 3))
    for form in (
        "{a}-{b}F",
        "{a}-{b} F",
        "{a} to {b} F",
        "{a} - {b} °F",
        "{a}F to {b}F",
        "{a}F-{b}F",
        "between {a} and {b} F",
        "{a} or {b} F",
        "{a}–{b} degrees F",
        "from {a} to {b} degrees Fahrenheit",
    ):
        yield form.format(a=f, b=f + 3), both
    yield f"{f}/{f + 3} F", both
    other = round(celsius(f))
    yield f"{f}F ({other}C)", loosely(min(celsius(f), other), max(celsius(f), other))
    yield f"{f} °F / {other} °C", loosely(min(celsius(f), other), max(celsius(f), other))


def _celsius(c: int) -> Made:
    value, half = point(c), point(c + 0.5)
    for form in _CELSIUS:
        yield form.format(c), value
    yield f"{in_words(c)} degrees Celsius", value
    yield f"{in_words(c)} Celsius", value
    for form in ("{}.5 °C", "{},5 °C", "{}.5C", "{},5C", "{},5°", "{} 1/2 °C", "{}½ °C"):
        yield form.format(c), half
    yield f"{c} and a half degrees Celsius", half
    both = between(c, c + 2)
    for form in (
        "{a}-{b}C",
        "{a}-{b} °C",
        "{a} to {b} °C",
        "{a} – {b} °C",
        "{a}C to {b}C",
        "between {a} and {b} C",
        "{a} or {b} °C",
        "from {a} to {b} degrees Celsius",
    ):
        yield form.format(a=c, b=c + 2), both
    yield f"{c}/{c + 2} °C", both
    yield f"{c}.5-{c + 2}.5 °C", between(c + 0.5, c + 2.5)
    yield f"{c},5 - {c + 2},5 °C", between(c + 0.5, c + 2.5)


def _tens(f: int) -> Made:
    """The seventies and eighties: only degrees Fahrenheit are spoken of so here."""
    ten = f // 10 * 10
    for word, low, high in (("low", 0, 4), ("mid", 3, 7), ("high", 6, 9.99), ("upper", 6, 9.99)):
        for form in ("{w} {t}s", "{w} {t}s F", "in the {w} {t}s F", "{w}-{t}s F"):
            span = loosely(celsius(ten + low), celsius(ten + high))
            yield form.format(w=word, t=ten), span
    yield f"in the {ten}s F", loosely(celsius(ten), celsius(ten + 9.99))


def _without_unit(question: str, c: int, f: int) -> Iterator[Case]:
    """Degrees of which only one kind can be meant."""
    for form in ("{} degrees", "{}°", "{}", "about {} degrees", "{} deg"):
        yield Case(form.format(c), question, "temperature", ((point(c),),))
        yield Case(form.format(f), question, "temperature", ((point(celsius(f)),),))


def _coldest(rng: Random) -> Made:
    """Told with the exception that counts: the coldest."""
    f, c = rng.randint(63, 70), rng.randint(17, 21)
    for form in ("{a}F, sometimes {b} in winter", "usually {a}F but {b}F on cold nights"):
        yield form.format(a=f, b=f - 5), loosely(celsius(f - 5), celsius(f - 2.5))
    for form in ("{a} °C, in winter {b} °C", "{a} C normally, {b} C on frosty nights"):
        yield form.format(a=c, b=c - 3), loosely(c - 3, c - 1.5)


def _apart(c: int, f: int) -> Made:
    """So many degrees between two temperatures; one of Fahrenheit is five ninths of one."""
    for value, number, degrees in (
        (float(c), c, ("{} °C", "{}C", "{} C", "{}°C", "{} degrees C", "{} K", "about {} °C")),
        (f / 1.8, f, ("{} °F", "{}F", "{} F", "{} degrees F", "{} degrees Fahrenheit", "~{} F")),
    ):
        yield from said(value, str(number), degrees)
    yield f"{in_words(c)} degrees Celsius", point(c)
    yield f"{c}.5 °C", point(c + 0.5)
    yield f"{c},5 °C", point(c + 0.5)
    yield f"{c} 1/2 F", point((c + 0.5) / 1.8)
    yield f"{c} to {c + 1} °C", between(c, c + 1)
    yield f"{c}-{c + 1} °C", between(c, c + 1)
    yield f"{f}-{f + 2} F", between(f / 1.8, (f + 2) / 1.8)


def _from_to(low: int) -> Made:
    """Both temperatures told where the degrees between them are asked for."""
    for form in ("{a} to {b} °C", "{a}-{b} °C", "from {a} to {b} °C", "between {a} and {b} °C"):
        yield form.format(a=low, b=low + 4), point(4)
    f = round(1.8 * low + 32)
    for form in ("{a} to {b} F", "{a}-{b}F", "from {a} to {b} °F"):
        yield form.format(a=f, b=f + 7), point(7 / 1.8)


def _differences(rng: Random) -> Iterator[Case]:
    for question, most in (("room_swing", 8), ("thermostat_swing", 3)):
        for text, span in (
            *_apart(rng.randint(1, most), rng.randint(2, 2 * most)),
            *_from_to(14),
            *_from_to(rng.randint(15, 24)),
        ):
            yield Case(text, question, "temperature_difference", ((span,),))
        for text in ("20 cm", "5 %", "3 hours"):
            yield Case(text, question, "temperature_difference")


def cases(rng: Random) -> Iterator[Case]:
    """Every temperature."""
    for question, (cold, warm) in ORDINARY.items():
        for _ in range(2):
            c, f = rng.randint(*cold), rng.randint(*warm)
            for text, span in (*_celsius(c), *_fahrenheit(f), *_tens(f)):
                yield Case(text, question, "temperature", ((span,),))
            yield from _without_unit(question, c, f)
            yield Case(f"{plain(c + 0.4)}°C", question, "temperature", ((point(c + 0.4),),))
            yield Case(f"{c} W", question, "temperature")
            yield Case(f"{f} cm", question, "temperature")
    for _ in range(8):
        for text, span in _coldest(rng):
            yield Case(text, "room_temperature_low", "temperature", ((span,),))
    yield from _differences(rng)
