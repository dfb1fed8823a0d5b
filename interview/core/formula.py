"""One formula of the core, with what its data sheet says, and how it is computed."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any

import numpy as np

from interview.core.errors import CannotWorkOut, Impossible
from interview.core.numeric import is_number
from interview.core.sheet_lines import Citation, Input

__all__ = ["Formula"]


@dataclass(frozen=True)
class Formula:
    """A core function with its data sheet."""

    name: str
    unit: str
    meaning: str
    inputs: tuple[Input, ...]
    sources: tuple[Citation, ...]
    function: Callable[..., Any]
    low: float = -np.inf
    """What no result may be below; single draws of a cloud may."""
    written: str = ""
    """What the `Formula:` line of the data sheet says is solved."""
    dear: bool = False
    """Whether it solves or steps through something: a thousand times as long as a product."""

    @cached_property
    def names(self) -> tuple[str, ...]:
        """The names of its inputs."""
        return tuple(item.name for item in self.inputs)

    def __call__(self, given: Mapping[str, Any], *, draws: bool = False) -> Any:
        """Check each given input against its range, compute, and refuse a result that can't be.

        Args:
            given: the inputs by name; one that is not known is left out
            draws: whether arrays are draws of doubt, of which a few may leave a formula's range:
                in this formula alone they count as at its end
        """
        taken = dict(given)
        for item in self.inputs:
            value = given.get(item.name)
            if value is None:
                continue
            if draws:
                taken[item.name] = item.held(value)
            else:
                item.check(value)
        try:
            result = self.function(**taken)
        except ZeroDivisionError as problem:
            nothing = [name for name, value in given.items() if is_number(value) and not value]
            raise CannotWorkOut(
                f"there is no {self.name} where {' or '.join(nothing)} is 0"
            ) from problem
        if self.low > -np.inf and is_number(result) and np.all(np.less(result, self.low)):
            raise Impossible(self.name, float(np.min(result)), self.low, self.unit)
        return result
