"""What goes wrong in tanks: scenarios that are run through time, and what is watched in them."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Annotated, ClassVar, Literal

from msgspec import field

from interview.base.conditions import Condition
from interview.base.rows import Amount, Names, Row, WrongKey, read
from interview.care.sources import Sourced

__all__ = ["Curve", "Help", "Mishap", "MishapRules", "Step", "Watched", "mishap_rules"]

Curve = Literal["water", "oxygen", "ammonia_free", "nitrate", "platform", "heater_cover"]
Fault = Literal[
    "heater_dead", "heater_stuck", "lamps_dead", "power_cut", "filter_stopped", "no_care",
    "heat_wave",
]  # fmt: skip


class Watched(Sourced, frozen=True, kw_only=True):
    """A curve of a run against a limit, and how it is said that it is passed."""

    limit: str
    of: Curve
    say: str
    below: Annotated[str, Names("quantity")] | None = None
    above: Annotated[str, Names("quantity")] | None = None

    def __post_init__(self) -> None:
        """Refuse a limit with both sides or with none."""
        super().__post_init__()
        if bool(self.below) == bool(self.above):
            raise WrongKey("limit", "a limit has either “below” or “above”, with a name")

    @property
    def name(self) -> str:
        """The quantity or limit that it is held against."""
        return self.below or self.above or ""


class Help(Row, frozen=True, kw_only=True):
    """What would have bought time: another tank, another fault, or something kept running."""

    EXAMPLE: ClassVar[str] = "{say: a lid over the water, suppose: {cover_water: glass}}"

    say: str
    suppose: dict[str, str] = field(default_factory=dict)
    times: dict[str, float] = field(default_factory=dict)
    """Answers that are so many times as much."""
    share: float = 1.0
    """The part of what fails without it that fails with it."""
    wrapped: bool = False
    """Whether 2 cm of foam or as good a blanket goes round the glass."""
    air: bool = False
    """Whether something keeps moving the water."""
    when: Condition | None = None
    """For which tanks; for all where nothing is said."""


class Step(Row, frozen=True, kw_only=True):
    """One thing to do in a mishap, and for which tanks."""

    EXAMPLE: ClassVar[str] = "{say: Unplug the lamps., when: heat_lamp_kind is not none}"

    say: str
    when: Condition | None = None


class Mishap(Row, frozen=True, kw_only=True):
    """One thing going wrong: when, for how long, what is watched, what helps."""

    mishap: str
    title: str
    season: Literal["coldest", "mean", "warmest"]
    starts: Amount
    """Time of the day."""
    followed: Amount
    fails: tuple[Fault, ...]
    watch: tuple[Annotated[str, Names("watched")], ...]
    do: tuple[Step, ...]
    helps: tuple[Help, ...] = ()
    lasts: Amount | None = None
    """As long as it is followed, where nothing is said."""
    needs: Literal["heater", "filter", "basking", ""] = ""
    house_cools: bool = False
    heat_wave: bool = False
    """Whether it happens in the middle of one."""


class MishapRules(Row, frozen=True, kw_only=True):
    """All limits and all mishaps."""

    limits: tuple[Watched, ...]
    mishaps: tuple[Mishap, ...]

    def watched(self, mishap: Mishap) -> tuple[Watched, ...]:
        """What is watched in a mishap."""
        return tuple(one for one in self.limits if one.limit in mishap.watch)


@cache
def mishap_rules() -> MishapRules:
    """The project's own mishaps."""
    return read(Path(__file__).with_suffix(".yaml"), MishapRules)
