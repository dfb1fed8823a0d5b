"""Single sums from the command line: names and values as typed → one number and its origin."""

from __future__ import annotations

import difflib
import math
import re
from collections.abc import Callable, Iterable, Mapping, Set
from typing import Any

import numpy as np

from interview import assembly
from interview.audit.draws import best_values
from interview.care.facts import assumptions
from interview.core.derivation import Step, derive, derive_law
from interview.core.errors import CannotWorkOut, Missing
from interview.core.wiring import Formula, laws, quantities
from interview.graph.answers import understand
from interview.graph.interview import Interview
from interview.graph.questions import Question
from interview.phrases import NOT_ASKED
from interview.setups import SetupError
from interview.units import CORE_UNITS
from interview.words.dimensions import DIMENSIONS
from interview.words.quantity import read_quantity
from interview.words.reading import Reading
from interview.words.refusal import NotUnderstood, either, quoted, together
from interview.words.spellings import spellings, system_of
from interview.words.tokens import tokenise

__all__ = ["explain", "reckon", "typed_system"]

_OF_EACH_ANIMAL = (
    *("species", "sex", "carapace_length", "mass", "age"),
    *("body_mass", "each_growth_factor", "life_stage"),
)
_NUMBER = re.compile(r"[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?")
_BELOW_NOTHING = ("degC", "deg", "K", "choice", "yes/no")
"""Units in which anything may be negative."""
_OFFSETS = frozenset(
    (
        *("offset", "along", "height_above", "outlet_lift", "load_offset"),
        *("platform_height_above_water", "escape_height", "platform_freeboard", "heater_cover"),
        *("heat_loss", "evaporation_rate", "surface_grashof", "surface_temperature"),
    )
)
"""Amounts that may be negative, or whose own formula says better why they can't."""
_COUNTED = frozenset(("animal_count", "heater_count", "filter_count", "lamp_fixings", "changes"))
# Units of single sums that no keeper speaks of, in a unit a keeper does speak of.
_SPOKEN = {"h": ("duration", 3600.0), "day": ("duration", 86400.0)}


def reckon(name: str, typed: Iterable[str]) -> Step:
    """Work out one quantity or single sum from `name=value` pairs; SetupError says why not."""
    law, formulas = laws().get(name), quantities().formulas
    pairs, given = _pairs(typed), {}
    if law is None and name not in formulas:
        given = _parts(pairs)
        if name in given and name not in pairs:
            return Step(name, given[name], quantities().units[name])
        raise SetupError(f"No quantity is called “{name}”.{_nearest(name, {*laws(), *formulas})}")
    pairs = _parts(pairs, needed=quantities().upstream(name) if name in formulas else None)
    if law and (name not in formulas or _is_single_sum(law, pairs)):
        return _by_law(law, pairs)
    return _by_quantity(name, pairs)


def explain(interview: Interview, name: str) -> tuple[Step, Callable[[str], str]]:
    """The derivation of one of a tank's numbers, and how each of its answers was got."""
    wiring = quantities()
    given = interview.given()
    if name not in wiring.formulas and name not in given:
        if hint := _elsewhere(name):
            raise SetupError(hint)
        near = _nearest(name, {*wiring.formulas, *given})
        raise SetupError(f"No quantity of this tank is called “{name}”.{near}")
    try:
        step = derive(wiring.working(best_values(given, assumptions())), name)
    except Missing as problem:
        lacking = together(f"{n} (“{assembly.label_of(n)}”)" for n in problem.names)
        raise SetupError(f"{name} can't be worked out yet: it needs {lacking}.") from problem
    except CannotWorkOut as problem:
        raise SetupError(f"{name} has no value for this tank: {problem}.") from problem

    def origin_of(leaf: str) -> str:
        item = given.get(leaf)
        if item is None:
            return ""
        return f"{item.how}: {item.said if item.said == NOT_ASKED else f'“{item.said}”'}"

    return step, origin_of


def _elsewhere(name: str) -> str:
    """Where a name that is no number of the tank is answered; "" if it is no name at all."""
    if name in laws():
        inputs = " ".join(f"{item.name}=…" for item in laws()[name].inputs if not item.optional)
        own = f"{name} is a single sum, not a number of one tank."
        return f"{own} Type: tankside reckon {name} {inputs}"
    question = assembly.questionnaire().by_id.get(name)
    if question is None:
        return ""
    if question.parts:
        return f"{name} is made up of {together(question.parts)}; ask for one of them."
    return f"{name} (“{question.short}”) is an answer, and this tank has none; nothing is derived."


# ---- what was typed


def typed_system(typed: Iterable[str]) -> str:
    """The system of units the values were typed in: us with any inch, pound or °F, else metric."""
    words = {token.text for text in typed for token in tokenise(text.partition("=")[2])}
    units = {units.get(word) for units in map(spellings, DIMENSIONS) for word in words}
    return "us" if any(unit and system_of(unit) == "us" for unit in units) else "metric"


def _pairs(typed: Iterable[str]) -> dict[str, str]:
    pairs: dict[str, str] = {}
    for text in typed:
        name, equals, value = (part.strip() for part in text.partition("="))
        if not equals or not name or not value:
            raise SetupError(f"{quoted(text)} is not name=value; type for example ph=8.")
        if name in pairs:
            raise SetupError(f"{name} is given twice; give it once.")
        pairs[name] = value
    return pairs


def _parts(pairs: Mapping[str, str], needed: Set[str] | None = None) -> dict[str, Any]:
    """A size of several sides becomes its sides, already read; the rest stays as typed.

    Of a size only the sides that are `needed` count, if any are.
    """
    opened: dict[str, Any] = {}
    for name, text in pairs.items():
        question = assembly.questionnaire().by_id.get(name)
        if question is None or not question.parts:
            opened[name] = text
            continue
        sides = _understood(question, text)
        read = dict(zip(question.parts, (side.best for side in sides), strict=True))
        used = {side: value for side, value in read.items() if needed is None or side in needed}
        opened |= used or read
    return opened


def _nearest(name: str, known: Iterable[str]) -> str:
    """Names that hold the word, or the one spelt most like it, as a question; "" if none."""
    names = sorted(known)
    near = [item for item in names if name and name in item][:3]
    near = near or difflib.get_close_matches(name, names, n=1, cutoff=0.5)
    return f" Did you mean {either(f'“{item}”' for item in near)}?" if near else ""


# ---- the two routes


def _is_single_sum(law: Formula, pairs: Mapping[str, Any]) -> bool:
    """Whether the pairs are this law's own inputs, and of one animal at most.

    A name that is a law and a quantity is a single sum only then: several animals,
    fewer inputs or inputs from further upstream speak of a tank.
    """
    names = {item.name for item in law.inputs}
    needed = {item.name for item in law.inputs if not item.optional} - set(assumptions())
    several = any("," in str(pairs[name]) for name in _OF_EACH_ANIMAL if name in pairs)
    return needed <= set(pairs) <= names and not several


def _by_law(law: Formula, pairs: Mapping[str, Any]) -> Step:
    inputs = {item.name: item for item in law.inputs}
    for name in pairs:
        if name not in inputs:
            takes = together(inputs)
            near = _nearest(name, inputs)
            raise SetupError(f"{law.name} has no input “{name}”; it takes {takes}.{near}")
    given: dict[str, Any] = {}
    missing: list[str] = []
    for item in law.inputs:
        if item.name in pairs:
            given[item.name] = _value(item.name, item.unit, pairs[item.name])
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
        return derive_law(law, given)
    except CannotWorkOut as problem:
        raise SetupError(f"{law.name}: {problem}.") from problem


def _by_quantity(name: str, pairs: Mapping[str, Any]) -> Step:
    wiring = quantities()
    upstream = wiring.upstream(name)
    given: dict[str, Any] = {}
    for item, text in pairs.items():
        if item not in upstream:
            near = _nearest(item, upstream)
            raise SetupError(f"{name} does not depend on anything called “{item}”.{near}")
        given[item] = _value(item, wiring.units[item], text)
    _check_rows(given)
    if "species" in given and "sex" in upstream:
        given.setdefault("sex", ("unknown",) * len(given["species"]))
    known = {n: fact.value for n, fact in assumptions().items()} | given
    try:
        return derive(wiring.working(known), name)
    except Missing as problem:
        if name in laws() and set(pairs) <= {item.name for item in laws()[name].inputs}:
            return _by_law(laws()[name], pairs)
        _check_ranges(name, given)
        lacking = together(f"{n} ({_meaning(n)})" for n in problem.names)
        raise SetupError(f"{name} also needs {lacking}.") from problem
    except CannotWorkOut as problem:
        raise SetupError(f"{name}: {problem}.") from problem


def _meaning(name: str) -> str:
    """What a name means: as the questions call it, or by the first data sheet that takes it."""
    if name in assembly.questionnaire().giver:
        return f"“{assembly.label_of(name)}”"
    inputs = (item for formula in quantities().formulas.values() for item in formula.inputs)
    return next(item.meaning for item in inputs if item.name == name)


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
    rows = {name: np.size(given[name]) for name in _OF_EACH_ANIMAL if name in given}
    if len({size for size in rows.values() if size > 1}) > 1:
        counted = together(f"{name} has {size}" for name, size in rows.items())
        raise SetupError(f"Give each animal one value of everything: {counted}.")


# ---- values


def _value(name: str, unit: str, text: Any) -> Any:
    """A value as typed; a bare number is in the core's unit, commas part the animals."""
    if not isinstance(text, str):
        return text
    if name not in _OF_EACH_ANIMAL:
        return _one(name, unit, text)
    values = [_one(name, unit, part.strip()) for part in text.split(",")]
    return tuple(values) if unit == "choice" else np.array(values)


def _one(name: str, unit: str, text: str) -> Any:
    value = _read(name, unit, text)
    if name in _COUNTED and value != int(value):
        raise SetupError(f"{name} is {value:g}, and a whole number is needed here.")
    return value


def _read(name: str, unit: str, text: str) -> Any:
    if unit not in ("choice", "yes/no") and _NUMBER.fullmatch(text):
        return _above_nothing(name, unit, _finite(name, float(text)))
    question = assembly.questionnaire().by_id.get(name)
    if question:
        value = _understood(question, text)
        return value.best if isinstance(value, Reading) else value
    if unit == "choice":
        return text.casefold().replace(" ", "_")
    return _measured(name, unit, text)


def _above_nothing(name: str, unit: str, value: float) -> float:
    if value < 0 and unit not in _BELOW_NOTHING and name not in _OFFSETS:
        said = "" if unit == "1" else f" {unit}"
        raise SetupError(f"{name} is {value:g}{said}, and there is no less than nothing of it.")
    return value


def _finite(name: str, value: float) -> float:
    if not math.isfinite(value):
        raise SetupError(f"{name}: that number is too large to reckon with.")
    return value


def _understood(question: Question, text: str) -> Any:
    """The answer as at its question, for a keeper who knows it."""
    try:
        answer = understand(question, text, assembly.lists(), "europe")
    except NotUnderstood as problem:
        raise SetupError(f"{question.id}: {problem}") from problem
    if answer.value is None or answer.how == "assumed":
        raise SetupError(f"{question.id}: a single sum needs a value, not {quoted(text)}.")
    return answer.value


def _measured(name: str, unit: str, text: str) -> float:
    """A number with a unit; in units without a dimension of ours only the core's own."""
    dimension, size = _SPOKEN.get(unit, ("", 1.0))
    if unit == "1":
        dimension = "share" if text.endswith("%") else "number"
    dimension = dimension or next((d for d, core in CORE_UNITS.items() if core == unit), "")
    if not dimension:
        number = text.removesuffix(unit).strip()
        if not _NUMBER.fullmatch(number):
            raise SetupError(f"{name}: {quoted(text)} is not in {unit}. Type the number alone.")
        return _finite(name, float(number))
    try:
        return read_quantity(text, dimension).best / size
    except NotUnderstood as problem:
        raise SetupError(f"{name}: {problem}") from problem
