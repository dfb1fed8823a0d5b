"""One quantity or single sum from names and values."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from typing import Any

import numpy as np

from interview import assembly
from interview.care.facts import assumptions
from interview.core.derivation import Step, derive, derive_law
from interview.core.errors import CannotWorkOut, Missing
from interview.core.formula import Formula
from interview.core.wiring import laws, quantities
from interview.reckon.pairs import pairs_in, parts_opened
from interview.reckon.unknown_names import did_you_mean, not_computed
from interview.reckon.values import Wanted, value_of
from interview.setups import SetupError
from interview.vocabulary.vocabulary import vocabulary
from interview.words.text.refusal import together

__all__ = ["reckon"]


def reckon(name: str, typed: Iterable[str]) -> Step:
    """Work out one quantity or single sum from `name=value` pairs; SetupError says why not."""
    law, formulas = laws().get(name), quantities().formulas
    pairs, given = pairs_in(typed), {}
    if law is None and name not in formulas:
        given = parts_opened(pairs)
        if name in given and name not in pairs:
            return Step(name, given[name], quantities().units[name])
        near = did_you_mean(name, {*laws(), *formulas})
        raise SetupError(not_computed(name) or f"No quantity is called “{name}”.{near}")
    pairs = parts_opened(pairs, needed=quantities().upstream(name) if name in formulas else None)
    if law and (name not in formulas or _is_single_sum(law, pairs)):
        return _by_law(law, pairs)
    return _by_quantity(name, pairs)


def _is_single_sum(law: Formula, pairs: Mapping[str, Any]) -> bool:
    """Whether the pairs are this law's own inputs, and of one animal at most.

    A name that is a law and a quantity is a single sum only then: several animals,
    fewer inputs or inputs from further upstream speak of a tank.
    """
    names = {item.name for item in law.inputs}
    needed = {item.name for item in law.inputs if not item.optional} - set(assumptions())
    several = any("," in str(pairs[name]) for name in quantities().each_animal if name in pairs)
    return needed <= set(pairs) <= names and not several


def _by_law(law: Formula, pairs: Mapping[str, Any]) -> Step:
    inputs = {item.name: item for item in law.inputs}
    for name in pairs:
        if name not in inputs:
            takes = together(inputs)
            near = did_you_mean(name, inputs)
            raise SetupError(f"{law.name} has no input “{name}”; it takes {takes}.{near}")
    given: dict[str, Any] = {}
    taken: dict[str, str] = {}
    missing: list[str] = []
    for item in law.inputs:
        if item.name in pairs:
            wanted = Wanted(item.name, item.unit, item.low, item.high)
            given[item.name], taken[item.name] = value_of(wanted, pairs[item.name])
        elif item.name in assumptions():
            given[item.name] = assumptions()[item.name].value
        elif item.name == "sex" and "species" in given:
            given["sex"] = ("unknown",) * len(given["species"])
        elif not item.optional:
            missing.append(f"{item.name} ({item.meaning})")
    if missing:
        raise SetupError(f"{law.name} also needs {together(missing)}.")
    _check_rows(given)
    try:
        return _taken(derive_law(law, given), taken)
    except CannotWorkOut as problem:
        raise SetupError(f"{law.name}: {problem}.") from problem


def _by_quantity(name: str, pairs: Mapping[str, Any]) -> Step:
    wiring = quantities()
    upstream = wiring.upstream(name)
    given: dict[str, Any] = {}
    taken: dict[str, str] = {}
    for item, text in pairs.items():
        if item not in upstream:
            near = did_you_mean(item, upstream)
            raise SetupError(f"{name} does not depend on anything called “{item}”.{near}")
        wanted = Wanted(item, wiring.units[item], *_range_on_the_way(item, name))
        given[item], taken[item] = value_of(wanted, text)
    _check_rows(given)
    if "species" in given and "sex" in upstream:
        given.setdefault("sex", ("unknown",) * len(given["species"]))
    known = {n: fact.value for n, fact in assumptions().items()} | given
    try:
        return _taken(derive(wiring.working(known), name), taken)
    except Missing as problem:
        if name in laws() and set(pairs) <= {item.name for item in laws()[name].inputs}:
            return _by_law(laws()[name], pairs)
        _check_ranges(name, given)
        lacking = together(f"{n} ({_meaning(n)})" for n in problem.names)
        raise SetupError(f"{name} also needs {lacking}.") from problem
    except CannotWorkOut as problem:
        raise SetupError(f"{name}: {problem}.") from problem


def _range_on_the_way(item: str, name: str) -> tuple[float, float]:
    """Where every formula that leads from an input to a quantity holds."""
    wiring = quantities()
    low, high = wiring.range_of(item)
    for user in (name, *wiring.upstream(name)):
        for given in wiring.formulas[user].inputs if user in wiring.formulas else ():
            if given.name == item:
                low, high = max(low, given.low), min(high, given.high)
    return low, high


def _taken(step: Step, taken: Mapping[str, str]) -> Step:
    """The same derivation, each leaf with what its words were taken for."""
    inputs = tuple(_taken(item, taken) for item in step.inputs)
    said = taken.get(step.name, "") if step.formula is None else ""
    return replace(step, inputs=inputs, taken=said)


def _meaning(name: str) -> str:
    """What a name means: as the questions call it, or the vocabulary."""
    if name in assembly.questionnaire().giver:
        return f"“{assembly.label_of(name)}”"
    return vocabulary()[name].meaning


def _check_ranges(name: str, given: Mapping[str, Any]) -> None:
    """Say that a value is out of range where the wiring only knows that a way is closed."""
    wiring = quantities()
    for formula in (wiring.formulas[n] for n in wiring.upstream(name) if n in wiring.formulas):
        for item in formula.inputs:
            if item.name in given:
                try:
                    item.check(given[item.name])
                except CannotWorkOut as problem:
                    raise SetupError(f"{name}: {problem}.") from problem


def _check_rows(given: Mapping[str, Any]) -> None:
    """Rows of animals must be equally long; one value stands for all."""
    each = quantities().each_animal
    rows = {name: np.size(value) for name, value in given.items() if name in each}
    if len({size for size in rows.values() if size > 1}) > 1:
        counted = together(f"{name} has {size}" for name, size in rows.items())
        raise SetupError(f"Give each animal one value of everything: {counted}.")
