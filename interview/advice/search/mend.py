"""What a search finds: settings to change, and what they leave."""

from __future__ import annotations

from dataclasses import dataclass

from interview.advice.levers.lever import Option
from interview.advice.levers.levers import cost_of

__all__ = ["Mend"]


@dataclass(frozen=True)
class Mend:
    """Settings to change, and the checks that still need a change afterwards.

    `against` names, for a check that is left, the checks it can't be brought in line with.
    `proven` says that nothing smaller or cheaper does as much; else the budget ended before.
    """

    options: tuple[Option, ...]
    left: tuple[str, ...]
    against: tuple[tuple[str, ...], ...] = ()
    proven: bool = True

    @property
    def cost(self) -> float:
        """Cost of all changes on the common scale."""
        return sum(cost_of(option.lever) for option in self.options)
