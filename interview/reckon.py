"""Single sums from the command line: names and values as typed → one number and its origin."""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Iterable, Mapping, Set
from dataclasses import replace
from typing import Any, NamedTuple

import numpy as np

from interview import assembly
from interview.audit.sampling.sample import best_values
from interview.base.show import to_show
from interview.base.spelling import nearest
from interview.base.units import CORE_UNITS, system_for
from interview.care.facts import assumptions
from interview.core.derivation import Step, derive, derive_law
from interview.core.errors import CannotWorkOut, Missing
from interview.core.sheets import Formula
from interview.core.wiring import laws, quantities
from interview.graph.answers import understand
from interview.graph.given import NOT_ASKED
from interview.graph.interview import Interview
from interview.graph.questions import Question
from interview.setups import SetupError
from interview.vocabulary.entries import Entry
from interview.vocabulary.vocabulary import vocabulary
from interview.words.amounts.dimensions import DIMENSIONS, example_for
from interview.words.amounts.quantity import read_quantity
from interview.words.amounts.reading import Reading
from interview.words.amounts.spellings import spellings, system_of
from interview.words.text.refusal import NotUnderstood, either, quoted, together
from interview.words.text.tokens import tokenise

__all__ = ["explain", "reckon", "typed_system"]

_NUMBER = re.compile(r"[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?")
_HEMISPHERE = re.compile(r"([^-].*?)(?:\s+|(?<=[\d°]))(n|s|north|south)", re.IGNORECASE)
_BELOW_NOTHING = ("degC", "deg", "K", "choice", "yes/no")
"""Units in which anything may be negative."""
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
        near = _nearest(name, {*laws(), *formulas})
        raise SetupError(_not_computed(name) or f"No quantity is called “{name}”.{near}")
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


def _not_computed(name: str) -> str:
    """What a name is that goes into sums and comes out of none; "" if it is no name at all."""
    question = assembly.questionnaire().by_id.get(name)
    parts = (question and question.parts) or (name,)
    formulas = (*quantities().formulas.values(), *laws().values())
    users = (f for f in formulas if any(item.name in parts for item in f.inputs))
    user = next(users, None)
    if question is None and user is None:
        return ""
    what = "an assumption" if name in assumptions() else "an input of other sums"
    if assembly.questionnaire().giver.get(name) or question:
        what = f"an answer (“{assembly.label_of(name)}”), which the keeper measures or tells"
    if user is None:
        return f"{name} is {what}; nothing computes it, and no sum takes it."
    others = {i.name for i in user.inputs if not i.optional} - {*parts, *assumptions()}
    typed = " ".join(f"{item}=…" for item in (name, *sorted(others)))
    return (
        f"{name} is {what}; nothing computes it. Type it as an input: "
        f"tankside reckon {user.name} {typed}"
    )


# ---- what was typed


def typed_system(typed: Iterable[str]) -> str:
    """The system of units the values were typed in, us with any inch, pound or °F; else metric.

    Where a region is among them, its own.
    """
    for name, _, text in (pair.partition("=") for pair in typed):
        if name.strip() == "region":
            return system_for(_understood(assembly.questionnaire().by_id["region"], text))
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
    near = near or nearest(name, names, most=1)
    return f" Did you mean {either(f'“{item}”' for item in near)}?" if near else ""


# ---- the two routes


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
            near = _nearest(name, inputs)
            raise SetupError(f"{law.name} has no input “{name}”; it takes {takes}.{near}")
    given: dict[str, Any] = {}
    taken: dict[str, str] = {}
    missing: list[str] = []
    for item in law.inputs:
        if item.name in pairs:
            wanted = _Wanted(item.name, item.unit, item.low, item.high)
            given[item.name], taken[item.name] = _value(wanted, pairs[item.name])
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
            near = _nearest(item, upstream)
            raise SetupError(f"{name} does not depend on anything called “{item}”.{near}")
        wanted = _Wanted(item, wiring.units[item], *_range_on_the_way(item, name))
        given[item], taken[item] = _value(wanted, text)
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
    each = quantities().each_animal
    rows = {name: np.size(value) for name, value in given.items() if name in each}
    if len({size for size in rows.values() if size > 1}) > 1:
        counted = together(f"{name} has {size}" for name, size in rows.items())
        raise SetupError(f"Give each animal one value of everything: {counted}.")


# ---- values


class _Wanted(NamedTuple):
    """What a value is typed for: `low` and `high` are infinite where it has no valid range."""

    name: str
    unit: str
    low: float
    high: float

    @property
    def entry(self) -> Entry:
        """What the vocabulary says of it."""
        return vocabulary()[self.name]

    @property
    def signed(self) -> bool:
        """Whether it may be less than nothing."""
        below = self.unit in _BELOW_NOTHING or self.entry.signed
        return below or -math.inf < self.low < 0


def _value(wanted: _Wanted, text: Any) -> tuple[Any, str]:
    """A value as typed, and what its words were taken for where they left that open.

    A bare number is in the core's unit, commas part the animals.
    """
    if not isinstance(text, str):
        return text, ""
    if wanted.name not in quantities().each_animal:
        value = _one(wanted, text)
        return (value.best, value.understood) if isinstance(value, Reading) else (value, "")
    read = (_one(wanted, part.strip()) for part in text.split(","))
    values = [value.best if isinstance(value, Reading) else value for value in read]
    return (tuple(values) if wanted.unit == "choice" else np.array(values)), ""


def _one(wanted: _Wanted, text: str) -> Any:
    value = _read(wanted, text)
    number = value.best if isinstance(value, Reading) else value
    if wanted.entry.whole and number != int(number):
        raise SetupError(f"{wanted.name} is {number:g}, and a whole number is needed here.")
    return value


def _read(wanted: _Wanted, text: str) -> Any:
    name, unit = wanted.name, wanted.unit
    if unit not in ("choice", "yes/no"):
        text = _by_hemisphere(text) if name == "latitude" else text.replace("−", "-")
        if text.casefold() in wanted.entry.named:
            return float(wanted.entry.named.index(text.casefold()))
        if _NUMBER.fullmatch(text):
            return _above_nothing(wanted, float(text))
    question = assembly.questionnaire().by_id.get(name)
    if question and not (wanted.signed and text.startswith("-")):
        return _understood(question, text)
    if unit == "choice":
        return text.casefold().replace(" ", "_")
    return _measured(wanted, text)


def _by_hemisphere(text: str) -> str:
    """A latitude with its sign: north is positive, so 35° S is -35°."""
    text = text.replace("−", "-")
    found = _HEMISPHERE.fullmatch(text)
    return f"{'-' if found[2].casefold().startswith('s') else ''}{found[1]}" if found else text


def _above_nothing(wanted: _Wanted, value: float) -> float:
    """A number typed alone, finite, and below nothing only where that can be."""
    if not math.isfinite(value):
        raise SetupError(f"{wanted.name}: that number is too large to reckon with.")
    if value < 0 and not wanted.signed:
        said = "" if wanted.unit == "1" else f" {wanted.unit}"
        ranged = math.isfinite(wanted.low) and math.isfinite(wanted.high)
        takes = f"{wanted.low:g} to {wanted.high:g}{said}" if ranged else "nothing below 0"
        raise SetupError(f"{wanted.name} is {value:g}{said}; it takes {takes}.")
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


def _measured(wanted: _Wanted, text: str) -> Reading | float:
    """A number with a unit; in units without a dimension of ours only the core's own."""
    name, unit = wanted.name, wanted.unit
    dimension, size = _SPOKEN.get(unit, ("", 1.0))
    if unit == "1":
        dimension = "share" if text.endswith("%") else "number"
    dimension = dimension or next((d for d, core in CORE_UNITS.items() if core == unit), "")
    if not dimension:
        number = text.removesuffix(unit).strip()
        if not _NUMBER.fullmatch(number):
            raise SetupError(f"{name}: {quoted(text)} is not in {unit}. Type the number alone.")
        return _above_nothing(wanted, float(number))
    try:
        read = read_quantity(text, dimension, signed=wanted.signed)
    except NotUnderstood as problem:
        usual = example_for(DIMENSIONS[dimension], "europe")
        example = problem.example.replace(usual, f'"{_example(wanted, dimension, size)}"')
        raise SetupError(
            f"{name}: {NotUnderstood(problem.understood, problem.wrong, example)}"
        ) from problem
    return replace(read, low=read.low / size, best=read.best / size, high=read.high / size)


def _example(wanted: _Wanted, dimension: str, size: float) -> str:
    """What to type for it, inside its valid range."""
    usual = wanted.entry.typed or DIMENSIONS[dimension].example
    if wanted.low <= read_quantity(usual, dimension).best / size <= wanted.high:
        return usual
    middle = math.sqrt(wanted.low * wanted.high) if wanted.low > 0 else wanted.high / 2
    kind = dimension if dimension == "share" else None
    return to_show(middle * size, CORE_UNITS[dimension], "metric", kind=kind, digits=1)
