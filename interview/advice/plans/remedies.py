"""What would put right what no plan does: another tank, another place, another circuit."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping

from interview.advice.purchase.larger_tank import where_cramped
from interview.advice.purchase.parting import must_part, tank_each
from interview.audit.tank import Tank
from interview.core.electricity.energy import continuous_load_limit
from interview.vocabulary.phrases import fill, in_words

__all__ = ["what_would"]

_ENGINEER = "A licensed structural engineer has the last word, in a rented home the landlord too."
_ELECTRICIAN = (
    "plug other things in elsewhere, take lamps and heaters of less power, or have a licensed "
    "electrician give the tank a circuit of its own."
)


def what_would(tank: Tank, left: Collection[str]) -> str:
    """Sentences on what would mend the checks that no change of the tank's gear mends.

    Args:
        tank: the tank as it is
        left: ids of the checks that are wrong or dangerous in spite of the best plan
    """
    said = [tank_each(tank) if must_part(tank) else where_cramped(tank, left)]
    said += [say(tank) for check, say in _SAY.items() if check in left]
    return " ".join(text for text in said if text)


def _floor(tank: Tank) -> str:
    mass, share = tank.lookup("filled_mass"), tank.lookup("joist_share")
    if mass is None:
        return ""
    if tank.lookup("floor") == "unknown":
        lighter, know = tank.lookup("heavy_tank_mass"), "find out first how the joists run; "
    elif share:
        limit = float(tank.lookup("joist_limit_share"))
        lighter, know = float(mass) * limit / float(share), ""
    else:
        return ""
    if float(mass) <= float(lighter):
        return ""

    def shown(value: float) -> str:
        return in_words(value, "kg", tank.system)

    return (
        f"The floor: {know}what eases it is a place across the joists and against the wall they "
        f"rest on, a concrete floor on the ground, or less water or a smaller tank: the screening "
        f"objects from about {shown(float(lighter))} on, and this one has {shown(float(mass))}. "
        f"{_ENGINEER}"
    )


def _circuit(tank: Tank) -> str:
    volts, rating = tank.lookup("supply_voltage"), tank.lookup("supply_rating")
    text = "The circuit: {connected_load} on the tank and {circuit_other_load} beside it"
    said = fill(text, tank.lookup, tank.unit_of, tank.system)
    if volts is None or rating is None or said is None:
        return ""
    limit = in_words(float(continuous_load_limit(volts, rating)), "W", tank.system)
    return f"{said}, where {limit} may be carried for hours: {_ELECTRICIAN}"


def _raft(tank: Tank) -> str:
    text = (
        "The raft: {foam_volume_required} of closed-cell foam carries these animals with a double "
        "reserve; a larger raft dips less at its edge, and a shelf fixed to the glass or a box on "
        "the rim not at all."
    )
    return fill(text, tank.lookup, tank.unit_of, tank.system) or ""


_SAY: Mapping[str, Callable[[Tank], str]] = {
    "floor_load": _floor,
    "circuit": _circuit,
    "platform_float": _raft,
}
