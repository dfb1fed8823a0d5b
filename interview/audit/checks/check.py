"""One check: what is measured, what it is held against, what to say and do."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from typing import Any

from interview.audit.checks.verdicts import Level
from interview.audit.grade_rules import HarmClass
from interview.audit.immediate_action import Effect, ImmediateAction
from interview.base.conditions import Condition, Lookup
from interview.base.rows import NOWHERE, Where
from interview.base.templates import names_in

__all__ = ["Band", "Check"]


@dataclass(frozen=True)
class Band:
    """Names of lower and upper bounds; every one must be kept."""

    low: tuple[str, ...] = ()
    high: tuple[str, ...] = ()

    @property
    def names(self) -> tuple[str, ...]:
        """All bounds."""
        return (*self.low, *self.high)


@dataclass(frozen=True)
class Check:
    """One check.

    `overrules_danger` names conditions that count before the danger band, on purpose.
    `hides_nothing` says that no average may hide it when it is wrong, `hides_nothing_when`
    that this is so where one of these conditions decides. `each_animal` says that every
    animal is judged apart, by limits of its own, `can_wait` that no tank in use is changed for it
    while it is close. `harm` says what is at stake where it is dangerous and where it is wrong;
    while `way_out` holds an animal can leave what is dangerous, and `harm_with_way_out` is what is
    at stake in the danger then.
    `say` and `do` hold a sentence for each outcome; one for a condition (`good_when`) counts before
    that for its verdict, and `do` may hold one for what rests on an answer nobody gave (`guessed`).
    `now` says in the fewest words what can't wait; beside an action with the effect
    `superseded_by` only its last clause is said. `takes` tells what has to be at hand for it,
    each thing with its specification.
    `called` is how a keeper hears of it, "" where the id with spaces for underscores says it;
    `fault` how they hear of it where it is wrong or dangerous, "" where the same words say that;
    `lacking` what they hear instead where it is by what isn't there at all, and when that is so.
    By the words of `asked_of` a question after the audit is about it.
    """

    id: str
    section: str
    claim: str
    measures: str
    why: str
    weight: int
    harm: Mapping[Level, HarmClass]
    where: Where = NOWHERE
    hides_nothing: bool = False
    hides_nothing_when: tuple[str, ...] = ()
    each_animal: bool = False
    can_wait: bool = False
    relevant: Condition | None = None
    otherwise: str = ""
    whens: Mapping[str, Condition] = field(default_factory=dict)
    overrules_danger: tuple[str, ...] = ()
    way_out: Condition | None = None
    harm_with_way_out: HarmClass = "refuge"
    good: Band | None = None
    close: Band | None = None
    danger: Band | None = None
    say: Mapping[str, str] = field(default_factory=dict)
    do: Mapping[str, str] = field(default_factory=dict)
    now: Mapping[str, ImmediateAction] = field(default_factory=dict)
    superseded_by: Effect | None = None
    takes: Mapping[str, Mapping[str, str]] = field(default_factory=dict)
    also: str = ""
    status: str = ""
    sources: tuple[str, ...] = ()
    passes: Mapping[str, Any] = field(default_factory=dict)
    fails: Mapping[str, Any] = field(default_factory=dict)
    known_limits: str = ""
    called: str = ""
    fault: str = ""
    lacking: Mapping[str, Condition] = field(default_factory=dict)
    asked_of: tuple[str, ...] = ()

    @cached_property
    def bounds(self) -> tuple[str, ...]:
        """Names of every limit the check compares with."""
        bands = (self.good, self.close, self.danger)
        return tuple(dict.fromkeys(name for band in bands if band for name in band.names))

    @property
    def may_endanger(self) -> bool:
        """Whether any tank is dangerous by it."""
        return self.danger is not None or "danger_when" in self.whens

    @cached_property
    def compared(self) -> tuple[tuple[str, str], ...]:
        """Each (name, name of its bound) the check compares, in bands and conditions."""
        pairs = [(self.measures, name) for name in self.bounds]
        for condition in self.whens.values():
            pairs += condition.compared
        return tuple(dict.fromkeys(pairs))

    def stakes(self, leaves: bool) -> Mapping[Level, HarmClass]:
        """What is at stake by level, where an animal can leave what is dangerous or not."""
        return {**self.harm, "danger": self.harm_with_way_out} if leaves else self.harm

    def leaves(self, lookup: Lookup, unit_of: Callable[[str], str]) -> bool:
        """Whether an animal of this tank can leave what is dangerous; not where nobody knows."""
        return self.way_out is not None and self.way_out.holds(lookup, unit_of) is True

    @cached_property
    def decides(self) -> frozenset[str]:
        """What the verdict looks at: not the words that are only said."""
        conditions = [self.relevant, self.way_out, *self.whens.values()]
        named = {name for condition in conditions if condition for name in condition.names}
        return frozenset(named | {self.measures, *self.bounds})

    @cached_property
    def decides_alone(self) -> frozenset[str]:
        """The same without what only tells of a way out, which a check of its own holds."""
        beside = self.way_out.names if self.way_out else frozenset()
        return self.decides - (beside - {self.measures, *self.bounds})

    @cached_property
    def names(self) -> frozenset[str]:
        """Every name the check speaks of or compares."""
        conditions = [self.relevant, self.way_out, *self.whens.values(), *self.lacking.values()]
        found = {name for c in conditions if c for name in c.names}
        at_once = (text for action in self.now.values() for text in action.texts)
        things = (text for things in self.takes.values() for text in things.values())
        told = (*self.say.values(), *self.do.values(), *at_once, *things)
        texts = (*told, self.otherwise, self.also)
        found |= {name for text in texts for name in names_in(text)} - {"value", "low", "high"}
        return frozenset(found | {self.measures, *self.bounds})
