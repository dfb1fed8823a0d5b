"""A derivation as an indented tree for people, or as JSON."""

from __future__ import annotations

import json
import textwrap
from collections.abc import Callable, Iterator
from typing import Any

import numpy as np

from interview.care.facts import Fact, assumptions, bibliography
from interview.core.derivation import Step
from interview.core.sheet_lines import Citation
from interview.report.derivations.expression import expression, opened
from interview.report.formats.json_values import number
from interview.vocabulary.phrases import exactly, in_words, ranged
from interview.vocabulary.showing import why_a_word

__all__ = ["as_json", "as_lines"]

_WIDTH = 80
_SIGNS = {"**2": "²", "**3": "³", "*": "·"}
OriginOf = Callable[[str], str]


def as_lines(step: Step, origin_of: OriginOf, system: str = "metric") -> Iterator[str]:
    """The result, how and from what it came, its valid range and sources, in 80 columns.

    Args:
        step: the derivation
        origin_of: how a leaf was got, as "measured: “11 cm”"
        system: the units numbers are shown in
    """
    why = _why(step)
    yield from _wrapped(f"{step.name} = {_banded(step, system)}{why and f': {why}'}", "")
    if exact := _exact(step, system):
        yield f"  in core units {exact}"
    yield from _section("How", (line for text in _about(step) for line in _wrapped(text, "  ")))
    yield from _section("Low and high", _ends(step, system))
    yield from _section("From", _inputs(step, "  ", origin_of, system, set()))
    yield from _section("Single sums", _sums(step))
    yield from _section("Holds for", _ranges(step, system))
    yield from _section("Sources", _sources(step))


def _section(title: str, lines: Iterator[str]) -> Iterator[str]:
    body = list(lines)
    if body:
        yield from ("", title, *body)


def _wrapped(text: str, indent: str, below: str = "  ") -> Iterator[str]:
    yield from textwrap.wrap(
        text,
        _WIDTH,
        initial_indent=indent,
        subsequent_indent=indent + below,
        break_on_hyphens=False,
    )


def _about(step: Step) -> Iterator[str]:
    """What a formula is, how it reads and where it is from; nothing for a leaf."""
    if step.formula:
        yield step.formula.meaning
        if text := expression(step.formula):
            yield f"= {text}"
        yield from map(_cited, step.sources)


def _cited(citation: Citation) -> str:
    place = f", {citation.place}" if citation.place else ""
    return f"{citation.key}{place} [{citation.status}]"


def _sums(step: Step) -> Iterator[str]:
    """The single sums that the formulas call, each written out once."""
    for head, text in _called(step).items():
        yield from _wrapped(f"{head} = {text}", "  ")


def _called(step: Step) -> dict[str, str]:
    found: dict[str, str] = {}
    for item in step.steps:
        if item.formula:
            found |= opened(item.formula)
    return found


def _inputs(
    step: Step, indent: str, origin_of: OriginOf, system: str, seen: set[str]
) -> Iterator[str]:
    if step.formula is None and (origin := _origin(step, origin_of)):
        yield from _wrapped(origin, indent)
    for item in step.inputs:
        yield from _input(item, indent, origin_of, system, seen)


def _input(
    item: Step, indent: str, origin_of: OriginOf, system: str, seen: set[str]
) -> Iterator[str]:
    shown = _shown(item, system) if item.formula or _assumed(item) else _as_given(item, system)
    head = f"- {item.name} = {shown}"
    if item.name in seen:
        yield from _wrapped(f"{head} (as above)", indent)
        return
    seen.add(item.name)
    if item.formula is None:
        origin = _origin(item, origin_of)
        yield from _wrapped(f"{head}, {origin}" if origin else head, indent)
        return
    yield from _wrapped(head, indent)
    for text in _about(item):
        yield from _wrapped(text, indent + "  ")
    yield from _inputs(item, indent + "  ", origin_of, system, seen)


def _origin(leaf: Step, origin_of: OriginOf) -> str:
    """How a leaf was got: as the keeper said it, by assumption, or "" if simply given."""
    if said := origin_of(leaf.name):
        return said
    if fact := _assumed(leaf):
        return f"assumed: {fact.meaning} [{fact.status}, {fact.source}]"
    return "the usual value" if leaf.usual else leaf.taken


def _assumed(leaf: Step) -> Fact | None:
    """The assumption a leaf stands at, if nobody gave it another value."""
    fact = assumptions().get(leaf.name) if leaf.formula is None else None
    return fact if fact and np.all(fact.value == leaf.value) else None


def _shown(step: Step, system: str) -> str:
    return _signed(in_words(step.value, step.unit, system, step.name))


def _banded(step: Step, system: str) -> str:
    """The result, with its low and high line in brackets: “5 weeks (4 to 7 weeks)”."""
    if not step.band:
        return _shown(step, system)
    shown: list[str] = []
    for row in zip(*(np.ravel(item.value) for item in (step, *step.band)), strict=True):
        best, low, high = (in_words(value, step.unit, system, step.name) for value in row)
        ends = ranged(row[1], row[2], step.unit, system, step.name)
        shown.append(best if low == high else f"{best} ({ends})")
    return _signed(", ".join(shown))


def _ends(step: Step, system: str) -> Iterator[str]:
    """What the low and the high line of the result are, and where they are from."""
    for end in step.band:
        yield from _wrapped(f"{end.name} = {_shown(end, system)}", "  ")
        for text in _about(end):
            yield from _wrapped(text, "    ")


def _why(step: Step) -> str:
    """Why the result is a word such as "impossible"; "" where it is a number."""
    values = np.atleast_1d(step.value)
    only = values.dtype.kind == "f" and values.size == 1
    return why_a_word(float(values.flat[0]), step.name) if only else ""


def _as_given(leaf: Step, system: str) -> str:
    """An answer with the digits it was given in: what is worked out with them can be redone."""
    return _signed(exactly(leaf.value, leaf.unit, system, leaf.name))


def _signed(text: str) -> str:
    for plain, sign in _SIGNS.items():
        text = text.replace(plain, sign)
    return text


def _exact(step: Step, system: str) -> str:
    """The result to five figures in the core's unit, unless that is how it is shown already."""
    values = np.atleast_1d(step.value)
    if values.dtype.kind != "f" or not np.isfinite(values).all():
        return ""
    unit = "" if step.unit == "1" else f" {step.unit}"
    exact = _signed(", ".join(f"{value:.5g}" for value in values.ravel()) + unit)
    return "" if exact == _shown(step, system) else exact


def _ranges(step: Step, system: str) -> Iterator[str]:
    """The valid range of each input somebody gave, names in one column."""
    given = {item.name for item in step.steps if item.formula is None and not _assumed(item)}
    ranges = {name: ends for name, ends in step.ranges.items() if name in given}
    width = max(map(len, ranges), default=0)
    for name, (unit, low, high) in ranges.items():
        least, most = (_signed(in_words(end, unit, system, name)) for end in (low, high))
        if unit == "s" and low == 0:
            yield f"  {name:<{width}}  up to {most}"
            continue
        label = most.partition(" ")[2]
        yield f"  {name:<{width}}  {least.removesuffix(' ' + label)} to {most}"


def _sources(step: Step) -> Iterator[str]:
    for key in _keys(step):
        yield from _wrapped(f"{key}: {bibliography().get(key, 'not in the bibliography')}", "  ")


def _keys(step: Step) -> list[str]:
    """Every source the tree rests on, in the order of their first use."""
    keys: dict[str, None] = {}
    for item in (*step.steps, *step.band):
        keys |= dict.fromkeys(citation.key for citation in item.sources)
        if fact := _assumed(item):
            keys[fact.source] = None
    return list(keys)


def as_json(step: Step, origin_of: OriginOf) -> str:
    """The result, its unit, its inputs, sources and valid range; the tree under `steps`."""
    keys = _keys(step)
    tree = {
        "quantity": step.name,
        "value": _number(step.value),
        "unit": step.unit,
        **({"means": f"{_shown(step, 'metric')}: {why}"} if (why := _why(step)) else {}),
        **dict(zip(("low", "high"), (_number(end.value) for end in step.band), strict=False)),
        "from": {item.name: _number(item.value) for item in step.steps if item.formula is None},
        "sources": keys,
        "citations": {key: bibliography().get(key, "") for key in keys},
        "sums": _called(step),
        "range": {
            name: [number(low), number(high)] for name, (_, low, high) in step.ranges.items()
        },
        "steps": _nested(step, origin_of),
    }
    return json.dumps(tree, indent=1, ensure_ascii=False, allow_nan=False) + "\n"


def _number(value: Any) -> Any:
    """A value for JSON; what holds of one animal alone is no row."""
    plain = number(value)
    return plain[0] if isinstance(plain, list) and len(plain) == 1 else plain


def _nested(step: Step, origin_of: OriginOf) -> dict[str, Any]:
    row: dict[str, Any] = {"name": step.name, "value": _number(step.value), "unit": step.unit}
    if step.formula is None:
        row["how"] = _origin(step, origin_of) or "given"
        return row
    row["meaning"] = step.formula.meaning
    row["formula"] = expression(step.formula)
    row["sources"] = [_cited(citation) for citation in step.sources]
    row["inputs"] = [_nested(item, origin_of) for item in step.inputs]
    return row
