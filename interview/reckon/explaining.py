"""The derivation of one of a tank's numbers."""

from __future__ import annotations

from collections.abc import Callable

from interview import assembly
from interview.audit.sampling.sample import best_values
from interview.care.facts import assumptions
from interview.core.derivation import Step, derive
from interview.core.errors import CannotWorkOut, Missing
from interview.core.wiring import quantities
from interview.graph.given import NOT_ASKED
from interview.graph.interview import Interview
from interview.reckon.unknown_names import did_you_mean, elsewhere
from interview.setups import SetupError
from interview.words.text.refusal import together

__all__ = ["explain", "origins"]


def explain(interview: Interview, name: str) -> tuple[Step, Callable[[str], str]]:
    """The derivation of one of a tank's numbers, and how each of its answers was got."""
    wiring = quantities()
    given = interview.given()
    if name not in wiring.formulas and name not in given:
        if hint := elsewhere(name):
            raise SetupError(hint)
        near = did_you_mean(name, {*wiring.formulas, *given})
        raise SetupError(f"No quantity of this tank is called “{name}”.{near}")
    try:
        step = derive(wiring.working(best_values(given, assumptions())), name)
    except Missing as problem:
        lacking = together(f"{n} (“{assembly.label_of(n)}”)" for n in problem.names)
        raise SetupError(f"{name} can't be worked out yet: it needs {lacking}.") from problem
    except CannotWorkOut as problem:
        raise SetupError(f"{name} has no value for this tank: {problem}.") from problem

    return step, origins(interview)


def origins(interview: Interview) -> Callable[[str], str]:
    """How each answer was got, as “measured: “11 cm””; "" for what is none."""
    given = interview.given()

    def origin_of(leaf: str) -> str:
        item = given.get(leaf)
        if item is None:
            return ""
        return f"{item.how}: {item.said if item.said == NOT_ASKED else f'“{item.said}”'}"

    return origin_of
