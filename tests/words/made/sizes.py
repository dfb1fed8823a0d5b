"""Sizes of two and three sides: separators, units each or once, labels in any order."""

from __future__ import annotations

from collections.abc import Iterator
from random import Random

from made.spans import CM, FOOT, INCH, Case, Reading, comma, grouped, plain, point

SEPARATORS = (" x ", "x", " X ", "X", " × ", "×", " by ", " * ", "*")


def _sides(numbers: tuple[float, ...], unit: float) -> Reading:
    return tuple(point(number * unit) for number in numbers)


def _joined(
    rng: Random, numbers: tuple[float, ...], unit: float, word: str
) -> Iterator[tuple[str, Reading]]:
    """The unit behind the last side, or behind each."""
    meaning = _sides(numbers, unit)
    for separator in SEPARATORS:
        yield separator.join(map(plain, numbers)) + f" {word}", meaning
        yield separator.join(map(plain, numbers)) + word, meaning
        yield separator.join(f"{plain(n)} {word}" for n in numbers), meaning
    for separator in rng.sample(SEPARATORS, 3):
        yield separator.join(f"{plain(n)}{word}" for n in numbers), meaning
        yield "about " + separator.join(map(plain, numbers)) + f" {word}", meaning
        yield "it's " + separator.join(map(plain, numbers)) + f" {word}", meaning
    yield ", ".join(map(plain, numbers)) + f" {word}", meaning
    yield ", ".join(f"{plain(n)} {word}" for n in numbers), meaning


def _ticks(numbers: tuple[int, ...]) -> Iterator[tuple[str, Reading]]:
    """Inch marks."""
    meaning = _sides(numbers, INCH)
    for mark in ('"', "''", "”", "″"):
        yield " x ".join(f"{n}{mark}" for n in numbers), meaning
        yield "x".join(f"{n}{mark}" for n in numbers), meaning
    yield "x".join(map(str, numbers)) + '"', meaning
    yield " x ".join(map(str, numbers)) + '"', meaning
    yield " by ".join(f'{n}"' for n in numbers), meaning
    yield " by ".join(map(str, numbers)) + " inches", meaning
    yield " times ".join(map(str, numbers)) + " inches", meaning


def _feet(numbers: tuple[int, ...]) -> Iterator[tuple[str, Reading]]:
    """Whole feet, as builders and shops write them."""
    meaning = _sides(numbers, FOOT)
    yield " x ".join(f"{n}'-0\"" for n in numbers), meaning
    yield " x ".join(f"{n}' 0\"" for n in numbers), meaning
    yield " x ".join(f"{n}'" for n in numbers), meaning
    yield "x".join(f"{n}'" for n in numbers), meaning
    yield "x".join(f"{n}ft" for n in numbers), meaning
    yield " by ".join(f"{n} ft" for n in numbers), meaning
    yield " x ".join(map(str, numbers)) + " feet", meaning
    yield "x".join(map(str, numbers)) + "ft", meaning
    yield " by ".join(map(str, numbers)) + " foot", meaning


def _feet_and_inches(rng: Random) -> Iterator[tuple[str, Reading]]:
    """Each side in feet and inches, or each in its own unit."""
    length, width, height = rng.randint(4, 7), rng.randint(1, 2), rng.randint(1, 2)
    i, j, k = rng.randint(1, 11), rng.randint(1, 11), rng.randint(1, 11)
    meaning = tuple(point(f * FOOT + n * INCH) for f, n in ((length, i), (width, j), (height, k)))
    yield f"{length}'-{i}\" x {width}'-{j}\" x {height}'-{k}\"", meaning
    yield f"{length}'{i}\" x {width}'{j}\" x {height}'{k}\"", meaning
    yield f"{length} ft {i} in x {width} ft {j} in x {height} ft {k} in", meaning
    yield f"{length}'-{i}\" by {width}'-{j}\" by {height}'-{k}\"", meaning
    w, h = rng.randint(13, 24), rng.randint(14, 26)
    mixed = (point(length * FOOT), point(w * INCH), point(h * INCH))
    yield f"{length} ft x {w} in x {h} in", mixed
    yield f'{length}\' x {w}" x {h}"', mixed
    yield f"{length}ft by {w}in by {h}in", mixed
    yield f"{length} feet x {w} inches x {h} inches", mixed
    metric = rng.randint(11, 20)
    sides = (point(metric * 0.1), point(w * 2 * CM), point(h * 2 * CM))
    yield f"{metric / 10:.1f} m x {w * 2} cm x {h * 2} cm", sides
    yield f"{comma(f'{metric / 10:.1f}')} m x {w * 2} cm x {h * 2} cm", sides


def _labelled(l: int, w: int, h: int) -> Iterator[tuple[str, Reading]]:  # noqa: E741
    """Sides named by letters or words, in any order."""
    meaning = _sides((l, w, h), INCH)
    yield f"L {l} W {w} H {h} in", meaning
    yield f"L{l} W{w} H{h} in", meaning
    yield f"L {l} x W {w} x H {h} in", meaning
    yield f"{l}L x {w}W x {h}H in", meaning
    yield f'{l}"L x {w}"W x {h}"H', meaning
    yield f'{l}" L x {w}" W x {h}" H', meaning
    yield f"W {w} x L {l} x H {h} in", meaning
    yield f"H {h} x W {w} x L {l} in", meaning
    yield f"{h}H x {w}W x {l}L in", meaning
    yield f"L: {l} in, W: {w} in, H: {h} in", meaning
    yield f"L={l} in, W={w} in, H={h} in", meaning
    yield f"length {l} in, width {w} in, height {h} in", meaning
    yield f"height {h} in, length {l} in, width {w} in", meaning
    yield f"{l} in long, {w} in wide, {h} in high", meaning
    yield f"{l} in long, {w} in wide and {h} in tall", meaning
    yield f"{l} inches long by {w} inches wide by {h} inches tall", meaning
    yield f"{l} long, {w} wide, {h} high, inches", meaning
    yield f"{w} in wide, {l} in long, {h} in high", meaning
    yield f"{h} in high, {l} in long, {w} in deep", meaning
    yield f"{l} in wide, {w} in deep, {h} in high", meaning
    yield f"{l} in (L) x {w} in (W) x {h} in (H)", meaning


def _three(rng: Random) -> Iterator[tuple[str, Reading]]:
    cm = (rng.randint(7, 20) * 10, rng.randint(35, 65), rng.randint(35, 65))
    inches = (rng.randint(30, 72), rng.randint(12, 24), rng.randint(12, 26))
    yield from _joined(rng, cm, CM, "cm")
    yield from _joined(rng, inches, INCH, "in")
    yield from _joined(rng, tuple(n * 10 for n in cm), CM / 10, "mm")
    yield from _ticks(inches)
    yield from _feet((rng.randint(3, 8), rng.randint(1, 2), rng.randint(1, 3)))
    yield from _feet_and_inches(rng)
    yield from _labelled(*inches)
    metres = tuple(n / 100 for n in cm)
    yield " x ".join(map(plain, metres)) + " m", _sides(cm, CM)
    yield " x ".join(comma(plain(m)) for m in metres) + " m", _sides(cm, CM)
    big = (rng.randint(101, 200), *cm[1:])
    for mark in ("'", " ", "\u202f"):
        yield f"{grouped(big[0] * 10, mark)} x {big[1] * 10} x {big[2] * 10} mm", _sides(big, CM)
    half = (inches[0] + 0.5, inches[1] + 0.25, inches[2] + 0.5)
    broken = f"{inches[0]} 1/2 x {inches[1]} 1/4 x {inches[2]} 1/2"
    yield broken + " in", _sides(half, INCH)
    yield broken.replace(" 1/", "-1/") + " in", _sides(half, INCH)
    yield f'{inches[0]}½" x {inches[1]}¼" x {inches[2]}½"', _sides(half, INCH)
    yield f"{inches[0]}.5 x {inches[1]}.25 x {inches[2]}.5 in", _sides(half, INCH)


def _two(rng: Random) -> Iterator[tuple[str, Reading]]:
    cm = (rng.randint(26, 60), rng.randint(12, 25))
    inches = (rng.randint(12, 24), rng.randint(5, 11))
    yield from _joined(rng, cm, CM, "cm")
    yield from _joined(rng, inches, INCH, "in")
    yield from _ticks(inches)
    yield from _feet((2, 1))
    yield f"{inches[0]} in long, {inches[1]} in wide", _sides(inches, INCH)
    yield f"{inches[1]} in wide, {inches[0]} in long", _sides(inches, INCH)
    yield f"{inches[0]} in long by {inches[1]} in wide", _sides(inches, INCH)
    yield f"L {cm[0]} W {cm[1]} cm", _sides(cm, CM)
    yield f"{cm[0] * 10} x {cm[1] * 10} mm", _sides(cm, CM)
    yield f"{comma(plain(cm[0] / 100))} x {comma(plain(cm[1] / 100))} m", _sides(cm, CM)
    yield f"{inches[0]} 1/2 x {inches[1]} in", _sides((inches[0] + 0.5, inches[1]), INCH)
    yield f'{inches[0]}-1/2" x {inches[1]}"', _sides((inches[0] + 0.5, inches[1]), INCH)


def _refusals(rng: Random) -> Iterator[tuple[str, str]]:
    """Sizes that can't be taken as they stand: no unit, or a side missing or too many."""
    a, b, c = rng.randint(70, 150), rng.randint(30, 50), rng.randint(30, 50)
    yield f"{a} x {b} x {c}", "tank_size"
    yield f"{a}x{b}x{c}", "tank_size"
    yield f"{a} by {b} by {c}", "tank_size"
    yield f"{a} x {b} cm", "tank_size"
    yield f"{a} cm", "tank_size"
    yield f"{a} x {b} x {c} x {b} cm", "tank_size"
    yield f"{b} x {c}", "platform_size"
    yield f"{b} cm", "platform_size"
    yield f"{a} L", "platform_size"


def cases(rng: Random) -> Iterator[Case]:
    """Every size."""
    for _ in range(3):
        for text, reading in _three(rng):
            yield Case(text, "tank_size", "size", (reading,))
        for text, reading in _two(rng):
            yield Case(text, "platform_size", "size", (reading, reading[::-1]))
        for text, question in _refusals(rng):
            yield Case(text, question, "size")
