"""What is wrong with checks that can be read: bounds nobody knows, units that don't fit."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from interview.audit.checks.check import Check
from interview.base.rows import FileError, Where
from interview.care.facts import assumptions, limits
from interview.core.wiring import quantities

__all__ = ["faults", "faults_at_load", "names_judged"]


def faults_at_load(check: Check) -> Iterator[str]:
    """What makes a check worthless: bands upside down, bounds unknown or in another unit."""
    yield from _order_of_bands(check)
    yield from _bounds_at_load(check)


def _order_of_bands(check: Check) -> Iterator[str]:
    """Limits that stand upside down: danger low < close low < good low < good high < …."""
    bands = (check.danger, check.close, check.good)
    rising = [band.low for band in bands if band] + [band.high for band in bands[::-1] if band]
    facts = limits()
    before: list[tuple[str, float]] = []
    for names in rising:
        here = [(name, facts[name].value or 0.0) for name in names if name in facts]
        for name, value in here:
            for lower, floor in before:
                if floor > value:
                    yield f"{check.id}: the band is upside down, {lower} is above {name}"
        before += here


def _bounds_at_load(check: Check) -> Iterator[str]:
    """Bounds nobody knows, or in another unit than the quantity they bound."""
    units = quantities().units
    known = {**units, **{name: fact.unit for name, fact in limits().items()}}
    for name, bound in check.compared:
        if not bound:
            yield f"{check.id} compares {name} with a bare number; give it a name in care/limits"
        elif bound not in known:
            yield f"{check.id} holds {name} against {bound}, which nobody knows"
        elif name in units and known[bound] != units[name]:
            yield f"{check.id} holds {name} [{units[name]}] against {bound} in [{known[bound]}]"


def names_judged(checks: Iterable[Check]) -> frozenset[str]:
    """Every name some check speaks of."""
    return frozenset().union(*(check.names for check in checks))


def faults(
    checks: Iterable[Check], units: Mapping[str, str], also: Iterable[str] = ()
) -> Iterator[str]:
    """Bounds nobody knows or in another unit than what they bound; names nobody gives.

    Args:
        checks: the checks
        units: unit of every answer and quantity
        also: names of limits that are used elsewhere
    """
    known = {**units, **{name: fact.unit for name, fact in limits().items()}}
    used: set[str] = set(also)
    checks = tuple(checks)
    yield from (str(FileError(where, fault)) for where, fault in _apart(checks))
    for check in checks:
        yield from (str(FileError(check.where, f)) for f in _faults_of(check, known))
        yield from (str(FileError(check.where.at(key), f)) for key, f in _wanting(check))
        used |= check.names
    for name in sorted(set(limits()) - used):
        yield f"the limit {name} is used by no check and no misfit"
    for name, fact in assumptions().items():
        if fact.unit != units.get(name):
            taken = f"formulas take it in [{units[name]}]" if name in units else "nothing takes it"
            yield str(FileError(fact.where, f"{name} is assumed in [{fact.unit}], but {taken}"))


def _apart(checks: Sequence[Check]) -> Iterator[tuple[Where, str]]:
    """Orders that are joined with no check, and effects that none has or that make none idle."""
    ids = {check.id for check in checks}
    actions = [(check, action) for check in checks for action in check.now.values()]
    had = {effect for _, action in actions for effect in action.effects}
    wanted = {check.superseded_by for check in checks} | {action.unless for _, action in actions}
    for check in checks:
        if check.superseded_by and check.superseded_by not in had:
            yield check.where, f"{check.id}: no check's `now` has the effect {check.superseded_by}"
    for check, action in actions:
        for name in sorted(action.joined.keys() - ids):
            yield check.where, f"{check.id}: `joined` names {name}, which is no check"
        if action.unless and action.unless not in had:
            yield check.where, f"{check.id}: no check's `now` has the effect {action.unless}"
        for effect in sorted(set(action.effects) - wanted):
            yield check.where, f"{check.id}: nothing is superseded by {effect}"


def _wanting(check: Check) -> Iterator[tuple[str, str]]:
    """What a possible verdict wants in the row, and under which key: words, or what to do.

    A number that is compared may be close, as it is read with doubt.
    """
    wanted: list[tuple[str, ...]] = [("good",)]
    if check.compared:
        wanted.append(("close", "close_low", "close_high"))
    if check.may_endanger:
        wanted.append(("danger",))
    if "wrong_when" in check.whens:
        wanted.append(("wrong",))
    if check.good:
        bounds = (("low", check.good.low), ("high", check.good.high))
        wanted += [(side, f"close_{side}") for side, names in bounds if names]
    for outcomes in wanted:
        if not set(outcomes) & set(check.say):
            verdict, *others = outcomes
            way = f"`{verdict}`" + "".join(f" or `{other}`" for other in others)
            yield "say", f"{check.id} can be {verdict}, and `say` has no words for it: write {way}"
    for outcome in check.say:
        if outcome not in ("good", "unmeasured") and not {outcome, "close"} & set(check.do):
            yield "do", f"{check.id}: `{outcome}` is said, and `do` doesn't say what to do then"
    if condition := check.whens.get("good_when"):
        for name, denied in condition.denied():
            if name == "species":
                yield (
                    "good_when",
                    f"{check.id} is good for every species but {len(denied)}, so for each that "
                    "is added: write “species is any of …”, or ask for a fact of their profiles",
                )


def _faults_of(check: Check, known: Mapping[str, str]) -> Iterator[str]:
    for name in sorted(check.names - set(known)):
        yield f"{check.id} speaks of {name}, which nobody knows"
    for name, bound in check.compared:
        unit = known.get(name)
        if unit and known.get(bound, unit) != unit:
            yield f"{check.id} holds {name} [{unit}] against {bound} in [{known[bound]}]"
    if check.good is None and not check.whens:
        yield f"{check.id} has neither a band nor a condition"
