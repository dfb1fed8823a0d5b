"""The same tank with its animals grown: what it will have to serve one day."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from interview.audit.tank import Tank
from interview.core.animal.growth_curves import adult_end
from interview.core.working import Working

__all__ = ["grown"]

_OF_TODAY = ("mass", "age")
"""What was said of an animal and holds no longer once it has grown."""


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
