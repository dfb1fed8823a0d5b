"""Lengths as people write them: inches, feet and inches, metric, hedged, ranged."""

from __future__ import annotations

from collections.abc import Iterator
from random import Random

from made.spans import (
    CM,
    FOOT,
    INCH,
    MM,
    THOUSANDS,
    Case,
    Made,
    between,
    comma,
    grouped,
    in_words,
    loosely,
    plain,
    point,
)

# What an inch ruler names: halves to sixteenths.
FRACTIONS = [(1, 2), (1, 4), (3, 4), (1, 8), (3, 8), (5, 8), (7, 8), (3, 16), (9, 16)]
GLYPHS = {(1, 2): "½", (1, 4): "¼", (3, 4): "¾", (1, 8): "⅛", (3, 8): "⅜", (5, 8): "⅝", (7, 8): "⅞"}
SPOKEN = {(1, 2): "a half", (1, 4): "a quarter", (3, 4): "three quarters"}

# Question, smallest and largest ordinary value in centimetres.
ORDINARY = {
    "carapace_length": (4, 28),
    "wall_thickness": (0.5, 2),
    "water_line_below_rim": (4, 25),
    "substrate_depth": (2, 10),
    "grain_size": (0.3, 4),
    "joist_span": (200, 600),
    "joist_spacing": (30, 70),
    "heater_length": (15, 40),
    "heater_height": (2, 15),
    "hose_diameter": (0.9, 3),
    "hose_length": (150, 500),
    "intake_height": (3, 15),
    "platform_height_above_water": (2, 8),
    "platform_wall_gap": (1, 20),
    "heat_lamp_height": (18, 60),
    "lamp_plastic_gap": (10, 80),
    "uvb_lamp_length": (30, 150),
    "uvb_lamp_height": (20, 60),
    "uvb_reading_height": (2, 12),
    "mesh_wire": (0.02, 0.15),
    "mesh_pitch": (0.15, 1.2),
    "platform_foam_thickness": (2, 15),
}
FEET = {"joist_span", "hose_length", "uvb_lamp_length", "lamp_plastic_gap", "heat_lamp_height"}
SMALL = {"wall_thickness", "grain_size", "hose_diameter", "platform_wall_gap", "heater_height"}

_HEDGES = (
    "about {}",
    "around {}",
    "approx {}",
    "approx. {}",
    "ca. {}",
    "circa {}",
    "roughly {}",
    "~{}",
    "~ {}",
    "maybe {}",
    "{} or so",
    "{} or thereabouts",
    "{} give or take",
    "{} I think",
    "I'd say {}",
    "it's {}",
    "it is about {}",
    "probably {}",
    "more or less {}",
    "{} roughly",
    "exactly {}",
    "{}, measured",
)


def hedged(rng: Random, text: str, value: float, count: int) -> Made:
    """The same amount, less sure of itself."""
    for hedge in rng.sample(_HEDGES, count):
        yield hedge.format(text), point(value)


def whole_inches(rng: Random, n: int) -> Made:
    """Whole inches, plain and vague."""
    value = n * INCH
    for form in ('{}"', "{} in", "{}in", "{} in.", "{} inches", "{} inch", "{}''", "{}”", "{}″"):
        yield form.format(n), point(value)
    yield f"{in_words(n)} inches", point(value)
    yield f"{in_words(n).capitalize()} inches.", point(value)
    yield from hedged(rng, f"{n} in", value, 3)
    yield from hedged(rng, f"{n} inches", value, 2)
    yield from hedged(rng, f'{n}"', value, 2)
    yield (
        f"{n} inches ({round(n * 2.54)} cm)",
        loosely(min(n * INCH, round(n * 2.54) * CM), max(n * INCH, round(n * 2.54) * CM)),
    )
    yield f"{n} and a bit inches", loosely(value, value + INCH)
    yield f"{n} inches and a bit", loosely(value, value + INCH)
    little = max(INCH, value / 20)
    yield f"just over {n} in", loosely(value, value + little)
    yield f"a bit under {n} inches", loosely(value - little, value)
    yield f"nearly {n} in", loosely(value - little, value)
    yield f"{n}-{n + 1} in", between(value, value + INCH)
    yield f'{n}-{n + 1}"', between(value, value + INCH)
    yield f'{n}" to {n + 1}"', between(value, value + INCH)
    yield f"{n} to {n + 1} inches", between(value, value + INCH)
    yield f"between {n} and {n + 1} inches", between(value, value + INCH)
    yield f"{n} or {n + 1} inches", between(value, value + INCH)
    yield f"{n} in ± 1/2 in", point(value)
    yield f"{n} in +/- 1", point(value)


def broken_inches(rng: Random, n: int, fraction: tuple[int, int]) -> Made:
    """Inches with a fraction, in every spelling of the fraction."""
    top, bottom = fraction
    inches = n + top / bottom
    value = point(inches * INCH)
    for form in (
        '{n} {t}/{b}"',
        '{n}-{t}/{b}"',
        "{n} {t}/{b} in",
        "{n}-{t}/{b} in",
        "{n} {t}/{b}in",
        "{n} {t}/{b} inches",
        "{n}-{t}/{b} inches",
        "{n} {t}/{b} inch",
        "{n} {t}/{b} in.",
        "{n} {t}/{b}''",
        "{n} and {t}/{b} in",
        "{n} and {t}/{b} inches",
        "{n} & {t}/{b} inches",
        "{n} {t}\u2044{b} in",
        "{n} {t} / {b} in",
    ):
        yield form.format(n=n, t=top, b=bottom), value
    yield f'{plain(inches)}"', value
    yield f"{plain(inches)} in", value
    yield f"{plain(inches)}in", value
    yield f"{plain(inches)} inches", value
    yield f"{comma(plain(inches))} in", value
    yield from hedged(rng, f"{n} {top}/{bottom} in", inches * INCH, 2)
    yield from hedged(rng, f'{n}-{top}/{bottom}"', inches * INCH, 1)
    if fraction in GLYPHS:
        yield f'{n}{GLYPHS[fraction]}"', value
        yield f"{n} {GLYPHS[fraction]} in", value
        yield f"{n}{GLYPHS[fraction]} inches", value
    if fraction in SPOKEN:
        yield f"{n} and {SPOKEN[fraction]} inches", value
        yield f"{in_words(n)} and {SPOKEN[fraction]} inches", value
    yield f"{n} {top}/{bottom} to {n + 1} in", between(inches * INCH, (n + 1) * INCH)
    yield f"{n}-{top}/{bottom} to {n + 1} inches", between(inches * INCH, (n + 1) * INCH)
    yield f"{n} to {n} {top}/{bottom} in", between(n * INCH, inches * INCH)


def parts_of_an_inch(fraction: tuple[int, int]) -> Made:
    """Less than an inch."""
    top, bottom = fraction
    value = point(top / bottom * INCH)
    for form in ('{t}/{b}"', "{t}/{b} in", "{t}/{b}in", "{t}/{b} inch", "{t}/{b} of an inch"):
        yield form.format(t=top, b=bottom), value
    yield f"about {top}/{bottom} in", value
    yield f'0 {top}/{bottom}"', value
    if fraction in GLYPHS:
        yield f'{GLYPHS[fraction]}"', value
        yield f"{GLYPHS[fraction]} inch", value
    if fraction == (1, 2):
        yield "half an inch", value
        yield "a half inch", value
    if fraction == (1, 4):
        yield "a quarter of an inch", value
        yield "a quarter inch", value
    if fraction == (3, 4):
        yield "three quarters of an inch", value
        yield "three-quarter inch", value


def feet(rng: Random, f: int, i: int) -> Made:
    """Feet and inches, as builders and everybody else write them."""
    value = point(f * FOOT + i * INCH)
    for form in (
        "{f}'-{i}\"",
        "{f}' {i}\"",
        "{f}'{i}\"",
        "{f}' - {i}\"",
        "{f}′ {i}″",
        "{f}’ {i}”",
        "{f} ft {i} in",
        "{f}ft {i}in",
        "{f} ft. {i} in.",
        "{f} feet {i} inches",
        "{f} foot {i} inches",
        "{f} feet, {i} inches",
        "{f} feet and {i} inches",
        "{f} ft {i}",
        "{f} foot {i}",
        "{f}ft{i}",
        "{f}'{i}",
    ):
        yield form.format(f=f, i=i), value
    top, bottom = rng.choice(FRACTIONS[:7])
    broken = f * FOOT + (i + top / bottom) * INCH
    yield f"{f}'-{i} {top}/{bottom}\"", point(broken)
    yield f"{f}' {i}-{top}/{bottom}\"", point(broken)
    yield f"{f} ft {i} {top}/{bottom} in", point(broken)
    yield from hedged(rng, f"{f} ft {i} in", value.low, 2)
    yield from hedged(rng, f"{f}'-{i}\"", value.low, 1)


def whole_feet(f: int) -> Made:
    """Feet alone, and halves of them."""
    whole, half = point(f * FOOT), point((f + 0.5) * FOOT)
    for form in ("{} ft", "{}ft", "{} feet", "{} foot", "{}'", "{}'-0\"", "{}' 0\"", "{} ft 0 in"):
        yield form.format(f), whole
    yield f"{in_words(f)} feet", whole
    yield f"about {f} ft", whole
    yield f"{f} feet or so", whole
    for form in ("{}.5 ft", "{} 1/2 ft", "{}-1/2 ft", "{}½ ft", "{} and a half feet", "{},5 ft"):
        yield form.format(f), half
    yield f"{in_words(f)} and a half feet", half
    yield f"{f}'-6\"", half
    yield f"{f}-{f + 1} ft", between(f * FOOT, (f + 1) * FOOT)
    yield f"{f} to {f + 1} feet", between(f * FOOT, (f + 1) * FOOT)


def metric(rng: Random, cm: float) -> Made:
    """A length in centimetres, to the half centimetre, in cm and mm and m."""
    value, text = point(cm * CM), plain(cm)
    for form in ("{} cm", "{}cm", "{} cms", "{} cm.", "{} Cm", "{}CM", "{} centimetres"):
        yield form.format(text), value
    yield f"{text} centimeters", value
    yield f"{comma(text)} cm", value
    yield f"{comma(text)}cm", value
    yield f"{plain(cm * 10)} mm", value
    yield f"{plain(cm * 10)}mm", value
    yield f"{plain(cm * 10)} millimetres", value
    yield f"{plain(cm * 10)} millimeters", value
    yield f"{cm / 100:.3f} m", value
    yield f"{comma(f'{cm / 100:.4f}')} m", value
    yield from hedged(rng, f"{text} cm", value.low, 3)
    yield from hedged(rng, f"{comma(text)} cm", value.low, 1)
    yield from hedged(rng, f"{plain(cm * 10)} mm", value.low, 1)
    yield f"{text} ± 1 cm", value
    yield f"{text} cm +/- 1 cm", value
    yield f"{text} cm give or take 1 cm", value
    yield f"{text}ish cm", value
    whole = int(cm)
    yield f"just over {whole} cm", loosely(whole * CM, (whole + 1) * CM)
    yield f"{whole} cm and a bit", loosely(whole * CM, (whole + 1) * CM)
    yield f"not quite {whole} cm", loosely((whole - 1) * CM, whole * CM)
    yield f"{whole} and a half cm", point((whole + 0.5) * CM)
    yield f"{whole} 1/2 cm", point((whole + 0.5) * CM)
    yield f"{whole}½ cm", point((whole + 0.5) * CM)
    if 0 < whole < 1000:
        yield f"{in_words(whole)} centimetres", point(whole * CM)
        yield f"{in_words(whole)} and a half centimetres", point((whole + 0.5) * CM)
    higher = between(whole * CM, (whole + 2) * CM)
    for form in (
        "{a}-{b} cm",
        "{a} - {b} cm",
        "{a}–{b} cm",
        "{a} to {b} cm",
        "{a}cm to {b}cm",
        "{a} cm - {b} cm",
        "between {a} and {b} cm",
        "from {a} to {b} cm",
        "{a} or {b} cm",
        "somewhere between {a} and {b} cm",
    ):
        yield form.format(a=whole, b=whole + 2), higher
    if whole >= 10:
        yield f"{whole}/{whole + 2} cm", higher


def fine(mm: float) -> Made:
    """A few millimetres or less."""
    value, text = point(mm * MM), plain(mm)
    for form in ("{} mm", "{}mm", "{} millimetres", "{} millimeters", "{} mm.", "about {} mm"):
        yield form.format(text), value
    yield f"{comma(text)} mm", value
    yield f"{comma(text)}mm", value
    yield f"ca. {comma(text)} mm", value
    yield f"{plain(mm / 10)} cm", value
    yield f"{comma(plain(mm / 10))} cm", value
    yield f"{text}-{plain(mm * 2)} mm", between(mm * MM, 2 * mm * MM)
    yield f"{text} to {plain(mm * 2)} mm", between(mm * MM, 2 * mm * MM)
    yield f"{comma(text)}-{comma(plain(mm * 2))} mm", between(mm * MM, 2 * mm * MM)
    yield f"{plain(round(mm / 25.4, 4))} in", point(round(mm / 25.4, 4) * INCH)


def metres(rng: Random, cm: int) -> Made:
    """A metre and more: thousands of millimetres, metres with a comma, metres and centimetres."""
    value, rest = point(cm * CM), cm % 100
    for mark in THOUSANDS:
        yield f"{grouped(cm * 10, mark)} mm", value
    yield f"{grouped(cm * 10, ' ')}mm", value
    yield f"{cm / 100:.2f} m", value
    yield f"{cm / 100:.2f}m", value
    yield f"{comma(f'{cm / 100:.2f}')} m", value
    yield f"{comma(f'{cm / 100:.2f}')}m", value
    yield f"{cm / 100:.2f} metres", value
    yield f"{plain(cm / 100)} meters", value
    yield f"{cm} cm", value
    yield f"{cm * 10} mm", value
    if rest:
        yield f"{cm // 100} m {rest} cm", value
        yield f"{cm // 100}m {rest}cm", value
        yield f"{cm // 100} metres {rest} centimetres", value
    if rest >= 10:
        yield f"{cm // 100}m{rest}", value
        yield f"{cm // 100} m {rest}", value
    half = point(cm // 100 + 0.5)
    yield f"{cm // 100} and a half metres", half
    yield f"{in_words(cm // 100)} and a half meters", half
    yield f"{cm // 100} 1/2 m", half
    yield f"{cm // 100}-{cm // 100 + 1} m", between(cm // 100, cm // 100 + 1)
    yield from hedged(rng, f"{plain(cm / 100)} m", value.low, 2)


def _made(rng: Random, question: str) -> Made:
    low, high = ORDINARY[question]
    if high <= 3:
        for _ in range(4):
            yield from fine(round(rng.uniform(low * 10, high * 10), 2 if high < 1 else 1))
    if question in SMALL:
        for fraction in rng.sample(FRACTIONS, 4):
            yield from parts_of_an_inch(fraction)
    if high > 3:
        if low < 100:
            yield from metric(rng, rng.randint(int(low) + 1, int(high)) + rng.choice((0, 0.5)))
            n = rng.randint(int(low / 2.54) + 1, max(int(high / 2.54), int(low / 2.54) + 1))
            yield from whole_inches(rng, n)
            for fraction in rng.sample(FRACTIONS, 2):
                n = rng.randint(int(low / 2.54) + 1, max(int(high / 2.54), int(low / 2.54) + 1))
                yield from broken_inches(rng, n, fraction)
        if high >= 100:
            yield from metres(rng, rng.randint(max(100, int(low)), int(high)))
            yield from metres(rng, rng.randint(max(100, int(low)), int(high)))
    if question in FEET:
        top = int(high / 30.48)
        for _ in range(3):
            yield from feet(rng, rng.randint(1, max(1, top - 1)), rng.randint(1, 11))
        yield from whole_feet(rng.randint(2, max(2, top)))
    if question in ("heat_lamp_height", "lamp_plastic_gap"):
        yield from a_foot()


def a_foot() -> Made:
    """The foot as a word."""
    yield "a foot", point(FOOT)
    yield "one foot", point(FOOT)
    yield "about a foot", point(FOOT)
    yield "a foot or so", point(FOOT)
    yield "a good foot", loosely(FOOT, 1.3 * FOOT)
    yield "just under a foot", loosely(0.75 * FOOT, FOOT)
    yield "a foot and a half", point(1.5 * FOOT)
    yield "one and a half feet", point(1.5 * FOOT)
    yield "half a metre", point(0.5)
    yield "half a meter", point(0.5)
    yield "a foot and 2 inches", point(FOOT + 2 * INCH)
    yield "a foot and a bit", loosely(FOOT, 1.5 * FOOT)


def cases(rng: Random) -> Iterator[Case]:
    """Every length."""
    for question in ORDINARY:
        for text, span in _made(rng, question):
            yield Case(text, question, "length", ((span,),))
