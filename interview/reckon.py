"""Single sums from the command line: names and values as typed → one number and its origin."""

from __future__ import annotations

import difflib
from collections.abc import Callable, Iterable, Mapping
from typing import Any

import numpy as np

from interview import assembly
from interview.audit.draws import best_values
from interview.care.facts import assumptions
from interview.core.derivation import Step, derive, derive_law
from interview.core.errors import CannotWorkOut, Missing
from interview.core.wiring import Formula, laws, quantities
from interview.graph.interview import Interview
from interview.setups import SetupError
from interview.units import dimension_for
from interview.words.choice import read_choice, read_yes_no
from interview.words.quantity import read_quantity
from interview.words.refusal import NotUnderstood

__all__ = ["explain", "reckon"]


def reckon(name: str, typed: Iterable[str]) -> Step:
    """Work out one quantity or single sum from `name=value` pairs; SetupError says why not."""
    law = laws().get(name)
    if law is None and name not in quantities().formulas:
        raise SetupError(_unknown(name, {*laws(), *quantities().formulas}, "quantity"))
    pairs = dict(_pair(text) for text in typed)
    if law and set(pairs) <= {item.name for item in law.inputs}:
        return _by_law(law, pairs)
    return _by_quantity(name, pairs)


def explain(interview: Interview, name: str) -> tuple[Step, Callable[[str], str]]:
    """The derivation of one of a tank's numbers, and how each of its answers was got."""
    wiring = quantities()
    given = interview.given()
    if name not in wiring.formulas and name not in given:
        raise SetupError(_unknown(name, {*wiring.formulas, *given}, "quantity"))
    try:
        step = derive(wiring.working(best_values(given, assumptions())), name)
    except Missing as problem:
        lacking = ", ".join(f"{n} (“{assembly.label_of(n)}”)" for n in problem.names)
        raise SetupError(f"{name} can't be worked out yet: it needs {lacking}.") from problem
    except CannotWorkOut as problem:
        raise SetupError(f"{name} has no value for this tank: {problem}.") from problem

    def origin_of(leaf: str) -> str:
        item = given.get(leaf)
        return f"{item.how}: “{item.said}”" if item else ""

    return step, origin_of


def _pair(text: str) -> tuple[str, str]:
    name, equals, value = text.partition("=")
    if not equals or not name.strip() or not value.strip():
        raise SetupError(f"“{text}” is not name=value; type for example ph=8.")
    return name.strip(), value.strip()


def _unknown(name: str, known: Iterable[str], what: str) -> str:
    near = difflib.get_close_matches(name, sorted(known), n=1, cutoff=0.5)
    hint = f" Did you mean “{near[0]}”?" if near else ""
    return f"No {what} is called “{name}”.{hint}"


def _by_law(law: Formula, pairs: Mapping[str, str]) -> Step:
    given: dict[str, Any] = {}
    for item in law.inputs:
        if item.name in pairs:
            given[item.name] = _value(item.name, item.unit, pairs[item.name])
        elif item.name in assumptions():
            given[item.name] = assumptions()[item.name].value
        elif not item.optional:
            raise SetupError(f"{law.name} also needs {item.name} ({item.meaning}).")
    try:
        return derive_law(law, given)
    except CannotWorkOut as problem:
        raise SetupError(f"{law.name}: {problem}.") from problem


def _by_quantity(name: str, pairs: Mapping[str, str]) -> Step:
    wiring = quantities()
    if name not in wiring.formulas:
        law = laws()[name]
        extra = next(n for n in pairs if n not in {item.name for item in law.inputs})
        raise SetupError(_unknown(extra, {item.name for item in law.inputs}, f"input of {name}"))
    known: dict[str, Any] = {n: f.value for n, f in assumptions().items()}
    for given, text in pairs.items():
        if given not in wiring.units:
            raise SetupError(_unknown(given, wiring.upstream(name), f"input of {name}"))
        known[given] = _value(given, wiring.units[given], text)
    try:
        return derive(wiring.working(known), name)
    except Missing as problem:
        names = " and ".join(problem.names)
        raise SetupError(f"{name} can't be worked out without {names}.") from problem
    except CannotWorkOut as problem:
        raise SetupError(f"{name}: {problem}.") from problem


def _value(name: str, unit: str, text: str) -> Any:
    """A value as typed; a bare number is in the core's unit."""
    try:
        if unit == "choice":
            return _choice(name, text)
        if unit == "yes/no":
            return read_yes_no(text)
        parts = text.split(",") if name in _EACH else [text]
        numbers = [_number(unit, part.strip()) for part in parts]
    except NotUnderstood as problem:
        raise SetupError(f"{name}: {problem}") from problem
    return np.array(numbers) if name in _EACH else numbers[0]


_EACH = ("carapace_length", "mass", "age")


def _number(unit: str, text: str) -> float:
    try:
        return float(text)
    except ValueError:
        return read_quantity(text, dimension_for(unit)).best


def _choice(name: str, text: str) -> Any:
    question = assembly.questionnaire().by_id.get(name)
    options = assembly.lists().options.get(name) or (question.choices if question else ())
    if name in ("species", "sex"):
        return tuple(read_choice(part.strip(), options).name for part in text.split(","))
    return read_choice(text, options).name if options else text
