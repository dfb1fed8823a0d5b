"""Everything a lever can get wrong, told before a keeper meets it."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from math import isinf
from pathlib import Path
from typing import Any

from interview.advice.levers.lever import Around, Lever, in_core_units
from interview.advice.levers.levers import PATH, unit_of
from interview.advice.levers.rows import LeverFile, LeverRow
from interview.base.places import file_said
from interview.base.rows import FileError, read, unknown_names
from interview.core.numeric import is_number
from interview.core.wiring import quantities

__all__ = ["faults"]

_OWN = (
    *("value", "sold_as", "outside", "footprint", "lid", "foam_thick", "filter", "uvb_lamp"),
    *("rcd_sold", "brim_mass", "grown_tank"),
)
"""Names that a lever's sentence may hold besides those of quantities."""


def faults(
    names: Collection[str],
    words: Mapping[str, Collection[str]],
    checks: Collection[str],
    path: Path = PATH,
) -> list[str]:
    """All faults of a file of levers as sentences with file, line and a remedy.

    Args:
        names: every answer, quantity, limit and assumption
        words: what may be answered where the answer is a word, or yes or no
        checks: ids of the checks
        path: the file
    """
    try:
        file = read(path, LeverFile)
        known = {
            "quantity": names,
            "check": checks,
            "cost": file.costs,
            "name in a lever's sentence": {*names, *_OWN},
        }
        found = list(unknown_names(file.levers, known))
        levers = in_core_units(file, unit_of)
    except FileError as problem:
        return list(problem.faults)
    for row, lever in zip(file.levers, levers, strict=True):
        for key, wrong in (*_lacking(row, names), *_wrong_words(row, lever, words)):
            found.append(_at(row, key, wrong))
        found += [_at(row, key, wrong) for key, wrong in _wrong_numbers(lever)]
    return found


def _at(row: LeverRow, key: str, wrong: str) -> str:
    place = f"{file_said(row.where.path)}, line {row.where.line_of(key)}"
    return str(FileError(place, f"{row.lever}, {key}: {wrong}"))


def _lacking(row: LeverRow, names: Collection[str]) -> Iterator[tuple[str, str]]:
    """A lever that moves nothing, or gives values to a name nobody knows."""
    given = [key for key in ("of", "times", "around", "to") if getattr(row, key)]
    if given and row.lever not in names:
        yield "lever", f"no quantity has this name, so {given[0]} can give it no value"
    if not (given or row.sets or row.sets_if_absent or row.trade_sizes):
        yield "lever", "it changes nothing; say how with of, times, around or sets"
    for key in ("least", "most"):
        if getattr(row, key) is not None and row.around is None:
            yield key, "bounds nothing without around"


def _wrong_words(
    row: LeverRow, lever: Lever, words: Mapping[str, Collection[str]]
) -> Iterator[tuple[str, str]]:
    for key, name, value in _values(lever):
        for word in value if isinstance(value, tuple) else (value,):
            said = {True: "yes", False: "no"}.get(word, word) if isinstance(word, bool) else word
            if isinstance(said, str) and said not in words.get(name, (said,)):
                yield key, f"“{said}” is no answer to {name}; {_offered(words[name])}"
            if isinstance(said, float) and name in words:
                yield key, f"{said:g} is no answer to {name}; {_offered(words[name])}"
    for name, word in row.relevant.words() if row.relevant else ():
        if word not in words.get(name, (word,)):
            yield "relevant", f"“{word}” is no answer to {name}; {_offered(words[name])}"


def _offered(words: Iterable[str]) -> str:
    return f"there are {', '.join(words)}"


def _values(lever: Lever) -> Iterator[tuple[str, str, Any]]:
    """Each value a lever gives: the key it stands under, the answer's name, the value."""
    yield from (("of", lever.name, value) for value in lever.of)
    for key in ("sets", "sets_if_absent"):
        for name, values in getattr(lever, key).items():
            yield from ((key, name, value) for value in values)
    yield from (("renewed", name, value) for name, value in lever.renewed.items())


def _wrong_numbers(lever: Lever) -> Iterator[tuple[str, str]]:
    for factor in lever.times:
        if factor <= 0 or factor == 1:
            yield "times", f"{factor:g} must be above 0 and other than 1"
    if lever.around:
        yield from _wrong_around(lever.around)
    for key, name, value in _values(lever):
        low, high = quantities().range_of(name)
        if is_number(value) and not low <= value <= high:
            unit = unit_of(name)
            yield key, f"{value:g} {unit} lies outside what {name} can be: {_range(low, high)}"


def _wrong_around(around: Around) -> Iterator[tuple[str, str]]:
    if around.step <= 0 or around.stride <= 0:
        yield "around", "step and stride must be above nothing"
    if not 0 < around.near <= around.reach:
        yield "around", "near must lie above nothing, and reach no nearer"
    if around.least >= around.most:
        yield "most", "it must lie above least"


def _range(low: float, high: float) -> str:
    if isinf(high):
        return f"from {low:g}"
    return f"to {high:g}" if isinf(low) else f"{low:g} to {high:g}"
