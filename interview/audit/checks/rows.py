"""A file of checks as typed rows: what stands in it, before it is held against the core."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, ClassVar, Literal

from msgspec import field

from interview.audit.checks.verdicts import Level
from interview.audit.grade_rules import HarmClass
from interview.audit.immediate_action import Effect, ImmediateAction
from interview.base.conditions import Condition, ConditionError
from interview.base.rows import Row, WrongKey
from interview.care.sources import Status, unknown_source

__all__ = ["SECTIONS", "WHENS", "BandRow", "CheckFile", "CheckRow", "Section", "names_of"]

Section = Literal[
    "space",
    "basking",
    "ultraviolet",
    "water",
    "filter",
    "feeding",
    "structure",
    "electricity",
    "hazards",
    "household",
]
SECTIONS: tuple[str, ...] = Section.__args__  # type: ignore[attr-defined]
"""The sections of the page in their order."""
WHENS = ("danger_when", "wrong_when", "good_when", "close_when")
"""Keys of the conditions that decide a verdict."""

_Outcome = Literal[
    "good", "low", "high", "close", "close_low", "close_high", "wrong", "danger", "unmeasured",
    "good_when", "close_when", "danger_when", "guessed",
]  # fmt: skip
_Names = str | tuple[str, ...]


def names_of(said: _Names) -> tuple[str, ...]:
    """One name or a list of them, as a tuple."""
    return (said,) if isinstance(said, str) else said


class BandRow(Row, frozen=True, kw_only=True):
    """Bounds by name, every one of which must be kept."""

    EXAMPLE: ClassVar[str] = "{at_least: [water_band_low], at_most: [water_band_high]}"
    at_least: _Names = ()
    at_most: _Names = ()


class DangerRow(Row, frozen=True, kw_only=True):
    """Bounds by name, beyond any of which it is dangerous."""

    EXAMPLE: ClassVar[str] = "{below: [water_danger_low], above: [water_danger_high]}"
    below: _Names = ()
    above: _Names = ()


class HarmRow(Row, frozen=True, kw_only=True):
    """What is at stake where a check is dangerous, and where it is wrong."""

    EXAMPLE: ClassVar[str] = "{danger: animal, wrong: health}"
    danger: HarmClass
    wrong: HarmClass


class WayOutRow(Row, frozen=True, kw_only=True):
    """As which class a danger counts while an animal can leave it."""

    EXAMPLE: ClassVar[str] = "{harm: refuge, holds: water_temperature at most hot_water_watch}"
    harm: HarmClass
    holds: Condition


class CheckRow(Row, frozen=True, kw_only=True):
    """One check as written; see `Check` for what its keys mean."""

    check: str
    claim: str
    measures: str
    why: str
    weight: Literal[1, 2, 3, 4, 5]
    harm: HarmClass | HarmRow
    say: dict[_Outcome, str]
    passes: dict[str, Any]
    fails: dict[str, Any]
    known_limits: str
    do: dict[_Outcome, str] = field(default_factory=dict)
    now: dict[_Outcome, str | ImmediateAction] = field(default_factory=dict)
    superseded_by: Effect | None = None
    takes: dict[_Outcome, dict[str, str]] = field(default_factory=dict)
    status: Status | None = None
    sources: tuple[str, ...] = ()
    hides_nothing: bool | str | tuple[str, ...] = False
    each_animal: bool = False
    can_wait: bool = False
    called: str = ""
    fault: str = ""
    lacking: dict[str, Condition] = field(default_factory=dict)
    asked_of: tuple[str, ...] = ()
    relevant: Condition | None = None
    otherwise: str = ""
    also: str = ""
    danger_when: _Names = ()
    wrong_when: _Names = ()
    good_when: _Names = ()
    close_when: _Names = ()
    overrules_danger: _Names = ()
    way_out: WayOutRow | None = None
    good: BandRow | None = None
    close: BandRow | None = None
    danger: DangerRow | None = None

    def __post_init__(self) -> None:
        """Refuse sources nobody could look up, unreadable conditions, names of no condition."""
        if wrong := unknown_source(self.sources):
            raise WrongKey("sources", wrong)
        for key in WHENS:
            if getattr(self, key):
                try:
                    Condition.read(getattr(self, key), self.measures)
                except ConditionError as problem:
                    raise WrongKey(key, str(problem)) from problem
        for key in ("overrules_danger", "hides_nothing"):
            for name in self.conditions(key):
                if name not in WHENS or not getattr(self, name):
                    raise WrongKey(key, f"{name} is no condition here")

    def conditions(self, key: str) -> Iterator[str]:
        """The names of conditions that a key holds; none where it holds yes or no."""
        said = getattr(self, key)
        yield from () if isinstance(said, bool) else names_of(said)

    @property
    def harms(self) -> dict[Level, HarmClass]:
        """What is at stake by level."""
        if isinstance(self.harm, str):
            return {"danger": self.harm, "wrong": self.harm}
        return {"danger": self.harm.danger, "wrong": self.harm.wrong}

    @property
    def whens(self) -> dict[str, Condition]:
        """The conditions that decide, by their key."""
        return {
            key: Condition.read(getattr(self, key), self.measures)
            for key in WHENS
            if getattr(self, key)
        }


class CheckFile(Row, frozen=True, kw_only=True):
    """The checks of one section."""

    section: Section
    checks: tuple[CheckRow, ...]
