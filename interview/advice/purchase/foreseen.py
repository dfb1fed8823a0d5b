"""The tank as it will be: with its animals grown, or built as its list has it."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from interview.advice.what_if.suppose import changed, changed_working
from interview.audit.measure_next import best_tool
from interview.audit.sampling.sample import samples
from interview.audit.tank import Tank
from interview.care.facts import doubts
from interview.core.animal.growth_curves import adult_end
from interview.core.working import Working

__all__ = ["as_built", "grown"]

_OF_TODAY = ("mass", "age")
"""What was said of an animal and holds no longer once it has grown."""
_SURFACE = "basking_temperature"
_SURFACES = np.arange(20.0, 60.0, 0.1)  # degC, a tenth as instruments show


@dataclass(frozen=True)
class _At:
    """A reading, exact but for what it was taken with."""

    low: float
    best: float
    high: float
    instrument: str


@dataclass(frozen=True)
class _Read:
    """An answer with its reading."""

    name: str
    value: _At
    unit: str = "degC"
    how: str = "measured"

    @property
    def question(self) -> str:
        """Its question goes by the same name."""
        return self.name


def grown(tank: Tank) -> Tank:
    """The tank with every animal at the upper end of its kind's adult range.

    An animal already longer stays as long as it is. Needs species, sex and carapace_length.
    """
    known = tank.best.known
    ends = np.maximum(adult_end(known["species"], known["sex"]), known["carapace_length"])

    def aged(working: Working) -> Working:
        left = {name: v for name, v in working.known.items() if name not in _OF_TODAY}
        shape = np.shape(left["carapace_length"])
        return working.with_known({**left, "carapace_length": np.broadcast_to(ends, shape)})

    return replace(tank, best=aged(tank.best), sample=aged(tank.sample))


def as_built(tank: Tank) -> Tank:
    """The tank of a list, set up and its lamp moved until the shell's top reads as it should.

    The reading has the doubt of the best instrument for it. What only shows once it runs, as
    nitrate today, stays open as it does in planning.
    """
    built = changed(tank, {"stage": "planning"})
    reading = _on_target(built)
    if reading is None:
        return built
    lit = changed(built, {_SURFACE: reading})
    tool = best_tool(_SURFACE)
    told = _Read(_SURFACE, _At(reading, reading, reading, tool.name if tool else ""))
    ranges = lit.best.wiring.range_of
    drawn = samples({_SURFACE: told}, {}, doubts(), ranges)[_SURFACE]
    return replace(lit, sample=lit.sample.with_known({**lit.sample.known, _SURFACE: drawn}))


def _on_target(tank: Tank) -> float | None:
    """The surface's temperature under the lamp [degC] at which the shell is amid its band."""
    ends = [tank.lookup(f"basking_band_{end}") for end in ("low", "high")]
    if None in ends or tank.lookup("heat_lamp_kind") in (None, "none"):
        return None
    lit = changed_working(tank.best, tank.best, {_SURFACE: _SURFACES})
    shell = lit.get("shell_temperature")
    if shell is None:
        return None
    return float(_SURFACES[int(np.argmin(np.abs(np.asarray(shell) - sum(ends) / 2)))])
