"""What can't wait of a finding's remedy, as data: what it says and how it goes with others."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import ClassVar, Literal

from msgspec import field
from msgspec.structs import replace

from interview.base.rows import Row, WrongKey

__all__ = ["Appliance", "Effect", "ImmediateAction"]

Appliance = Literal["heat_lamp", "uvb_lamp"]
Effect = Literal["tank_emptied", "heat_lamp_raised"]
"""What an action achieves for good, so that what it meets need not be ordered beside it."""

_CALLED: dict[Appliance, str] = {"heat_lamp": "Heat lamp", "uvb_lamp": "UVB lamp"}


class ImmediateAction(Row, frozen=True, kw_only=True):
    """One action: a sentence in clauses parted by semicolons, and how it joins others.

    `isolates` names a lamp that is switched off `until` it hangs so, in clauses likewise; `adjusts`
    names one that may burn on as `say` has it, told by its `until` where another isolates it.
    `then` is a last clause, idle beside an action with the effect `unless`, and kept by the order
    that takes the place of this one. `first` says that it
    goes before all others, as what is live or hot by the water does. `effects` tells what it
    achieves for a check that is `superseded_by` that, `joined` by check the sentence that stands
    for the orders of both. `while_off` is a last clause by lamp, where another order switches that
    one off.
    """

    EXAMPLE: ClassVar[str] = "{isolates: heat_lamp, until: from two fixings}"
    say: str = ""
    isolates: Appliance | None = None
    adjusts: Appliance | None = None
    until: str = ""
    then: str = ""
    unless: Effect | None = None
    first: bool = False
    effects: tuple[Effect, ...] = ()
    joined: Mapping[str, str] = field(default_factory=dict)
    while_off: Mapping[Appliance, str] = field(default_factory=dict)

    def __post_init__(self) -> None:
        """Refuse keys that say nothing without another."""
        if bool(self.say) == bool(self.isolates):
            raise WrongKey("say", "an action has either `say` or `isolates`")
        if bool(self.until) != bool(self.appliance):
            raise WrongKey("until", "`until` goes with `isolates` or `adjusts`")
        if self.unless and not self.then:
            raise WrongKey("unless", "`unless` is about the clause `then`, which isn't there")

    @property
    def appliance(self) -> Appliance | None:
        """What is switched off or adjusted."""
        return self.isolates or self.adjusts

    @property
    def texts(self) -> tuple[str, ...]:
        """Everything it may say."""
        return (self.said, self.until, self.then, *self.joined.values(), *self.while_off.values())

    @property
    def said(self) -> str:
        """The sentence without its last clause."""
        if self.isolates is None:
            return self.say
        *most, last = self.until.split("; ")
        so = f"{', '.join(most)} and {last}" if most else last
        return f"{_CALLED[self.isolates]} off, until it hangs {so}."

    @property
    def text(self) -> str:
        """The whole sentence."""
        return "; ".join(self.clauses()) + "."

    def clauses(self, effects: Iterable[Effect] = ()) -> list[str]:
        """The parts that can stand alone, without what these effects make idle."""
        idle = self.unless is not None and self.unless in effects
        then = self.then.split("; ") if self.then and not idle else []
        return [*self.said.rstrip(".").split("; "), *then]

    def filled(self, speak: Callable[[str], str]) -> ImmediateAction | None:
        """With numbers for the names in its sentences; None where one of them isn't known."""
        told = {key: speak(getattr(self, key)) for key in self._written()}
        if not all(told.values()):
            return None
        joined = {check: speak(text) for check, text in self.joined.items()}
        return replace(self, **told, joined={c: text for c, text in joined.items() if text})

    def _written(self) -> Iterator[str]:
        return (key for key in ("say", "until", "then") if getattr(self, key))
