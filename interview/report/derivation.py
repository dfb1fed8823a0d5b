"""A derivation as an indented tree for people, or as JSON."""

from __future__ import annotations

import json
import textwrap
from collections.abc import Callable, Iterator
from typing import Any

from interview.care.facts import assumptions, bibliography
from interview.core.derivation import Step
from interview.phrases import in_words
from interview.report.json_form import number

__all__ = ["as_json", "as_lines"]

_WIDTH = 80


def as_lines(step: Step, origin_of: Callable[[str], str], system: str = "metric") -> Iterator[str]:
    """The tree from the result down to the answers, at most 80 columns wide.

    Args:
        step: the derivation
        origin_of: how a leaf was got, as "measured, “11 cm”"
        system: the units numbers are shown in
    """
    yield from _tree(step, "", origin_of, system)
    keys = dict.fromkeys(_keys(step))
    if keys:
        yield ""
        yield "Sources"
    for key in keys:
        text = f"{key}: {bibliography().get(key, 'not in the bibliography')}"
        yield from textwrap.wrap(text, _WIDTH, initial_indent="  ", subsequent_indent="    ")


def _keys(step: Step) -> Iterator[str]:
    yield from (citation.key for citation in step.sources)
    if step.formula is None and step.name in assumptions():
        yield assumptions()[step.name].source
    for below in step.inputs:
        yield from _keys(below)


def _tree(step: Step, indent: str, origin_of: Callable[[str], str], system: str) -> Iterator[str]:
    shown = in_words(step.value, step.unit, system, step.name)
    head = f"{step.name} = {shown}"
    yield from textwrap.wrap(head, _WIDTH, initial_indent=indent, subsequent_indent=indent + "  ")
    below = indent + "    "
    for text in _about(step, origin_of):
        yield from textwrap.wrap(text, _WIDTH, initial_indent=below, subsequent_indent=below)
    for item in step.inputs:
        yield from _tree(item, indent + "  ", origin_of, system)


def _about(step: Step, origin_of: Callable[[str], str]) -> Iterator[str]:
    if step.formula is None:
        yield _origin(step.name, origin_of)
    elif step.shown_before:
        yield "worked out above"
    else:
        yield step.formula.meaning
        for citation in step.sources:
            yield f"{citation.key}, {citation.place} [{citation.status}]".replace(",  [", " [")


def _origin(name: str, origin_of: Callable[[str], str]) -> str:
    fact = assumptions().get(name)
    if fact and not origin_of(name):
        return f"{fact.meaning} [{fact.status}, {fact.source}]"
    return origin_of(name) or "given"


def as_json(step: Step, origin_of: Callable[[str], str]) -> str:
    """The result, its unit, its inputs and sources; nested steps under `steps`."""
    leaves = {leaf.name: number(leaf.value) for leaf in _leaves(step)}
    keys = list(dict.fromkeys(_keys(step)))
    tree = {
        "quantity": step.name,
        "value": number(step.value),
        "unit": step.unit,
        "from": leaves,
        "sources": keys,
        "citations": {key: bibliography().get(key, "") for key in keys},
        "range": _ranges(step),
        "steps": _nested(step, origin_of),
    }
    return json.dumps(tree, indent=1, ensure_ascii=False, allow_nan=False) + "\n"


def _leaves(step: Step) -> Iterator[Step]:
    if step.formula is None:
        yield step
    for item in step.inputs:
        yield from _leaves(item)


def _ranges(step: Step) -> dict[str, list[float]]:
    """The range in which the formula holds, for each input that has one."""
    inputs = step.formula.inputs if step.formula else ()
    return {
        item.name: [number(item.low), number(item.high)]
        for item in inputs
        if number(item.low) != "-infinite" or number(item.high) != "infinite"
    }


def _nested(step: Step, origin_of: Callable[[str], str]) -> dict[str, Any]:
    row: dict[str, Any] = {"name": step.name, "value": number(step.value), "unit": step.unit}
    if step.formula is None:
        row["how"] = _origin(step.name, origin_of)
        return row
    row["formula"] = step.formula.meaning
    row["sources"] = [f"{c.key} {c.place}".strip() for c in step.sources]
    row["inputs"] = [_nested(item, origin_of) for item in step.inputs]
    return row
