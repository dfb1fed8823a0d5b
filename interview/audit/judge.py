"""Holds one tank against one check, doubt included."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, TypeVar

import numpy as np

from interview.audit.checks import Band, Check
from interview.audit.findings import Finding, Verdict
from interview.care.facts import Fact, assumptions, limits
from interview.core.errors import CannotWorkOut, Missing, NotApplicable
from interview.core.wiring import Working
from interview.phrases import fill

__all__ = ["Tank", "judge"]

_T = TypeVar("_T")
_SURE = 0.9
_DANGER = 0.5
_WARN = 0.1


@dataclass(frozen=True)
class Tank:
    """One tank at its best values and as a cloud, and how to speak to its keeper."""

    best: Working
    cloud: Working
    unit_of: Callable[[str], str]
    label_of: Callable[[str], str]
    system: str
    assumed: frozenset[str] = frozenset()

    def lookup(self, name: str) -> Any:
        """Best value of a limit, answer or quantity; None if unknown."""
        fact = limits().get(name)
        return fact.value if fact else self.best.get(name)

    def drawn(self, name: str) -> Any:
        """The cloud of a limit, answer or quantity; its best value where the cloud fails."""
        if name in limits():
            return limits()[name].value
        value = self.cloud.get(name)
        return self.best.value(name) if value is None else value


def judge(check: Check, tank: Tank) -> Finding:
    """The finding of one check on one tank; never raises for a tank that lacks something."""
    if check.relevant:
        holds = check.relevant.holds(tank.lookup, tank.unit_of)
        if holds is False:
            return _not_for_this_tank(check, tank, check.otherwise)
        if holds is None:
            return _unmeasured(check, tank, check.relevant.unknown(tank.lookup))
    try:
        return _by_conditions(check, tank) or _by_band(check, tank)
    except NotApplicable as problem:
        return _not_for_this_tank(check, tank, check.otherwise or _sentence(problem.reason))
    except Missing as problem:
        return _unmeasured(check, tank, problem.names)
    except CannotWorkOut as problem:
        return _unmeasured(check, tank, (), f"Not judged: {problem}.")


def _sentence(text: str) -> str:
    text = text[:1].upper() + text[1:]
    return text if text.endswith(".") else f"{text}."


def _by_conditions(check: Check, tank: Tank) -> Finding | None:
    """The verdict of the first condition that holds; None leaves it to the band."""
    unknown: set[str] = set()
    for key, condition in check.whens.items():
        holds = condition.holds(tank.lookup, tank.unit_of)
        if holds:
            return _finding(check, tank, key.removesuffix("_when"), 1.0, side="")  # type: ignore[arg-type]
        if holds is None:
            unknown |= set(condition.unknown(tank.lookup))
    if unknown and (check.good is None or tank.lookup(check.measures) is None):
        raise _why_unknown(sorted(unknown), tank)
    if check.good is None:
        return _finding(check, tank, "wrong", 1.0, side="")
    return None


def _why_unknown(names: list[str], tank: Tank) -> CannotWorkOut:
    """The most telling reason why the names have no value."""
    reasons = [tank.best.why_not(name) for name in names]
    for kind in (NotApplicable, Missing):
        if found := next((r for r in reasons if isinstance(r, kind)), None):
            return found
    return next((r for r in reasons if r), Missing(*names))


def _by_band(check: Check, tank: Tank) -> Finding:
    value = tank.best.value(check.measures)
    assert check.good is not None
    band = _edges(check.good, tank)
    side = (
        "low"
        if band[0] is not None and value < band[0]
        else ("high" if band[1] is not None and value > band[1] else "")
    )
    inside = _share(check.good, tank, check.measures)
    kept = max(inside, _share(check.close, tank, check.measures)) if check.close else inside
    danger = _danger_share(check.danger, tank, check.measures) if check.danger else 0.0
    verdict, chance = _verdict(inside, kept, danger)
    warning = danger if _WARN <= danger < _DANGER else 0.0
    return _finding(check, tank, verdict, chance, side=side, band=band, warning=warning)


def _verdict(inside: float, kept: float, danger: float) -> tuple[Verdict, float]:
    if danger >= _DANGER:
        return "danger", danger
    if inside >= _SURE and danger < _WARN:
        return "good", inside
    if 1 - kept >= _SURE:
        return "wrong", 1 - kept
    return "close", inside


def _edges(band: Band, tank: Tank) -> tuple[float | None, float | None]:
    """The tightest lower and upper bound at best values."""
    low = [float(tank.best.value(n) if n not in limits() else tank.lookup(n)) for n in band.low]
    high = [float(tank.best.value(n) if n not in limits() else tank.lookup(n)) for n in band.high]
    return (max(low) if low else None, min(high) if high else None)


def _share(band: Band, tank: Tank, measures: str) -> float:
    """Share of the draws inside a band."""
    value = np.asarray(tank.drawn(measures))
    inside = np.ones(np.shape(value), dtype=bool)
    for name in band.low:
        inside = inside & (value >= np.asarray(tank.drawn(name)))
    for name in band.high:
        inside = inside & (value <= np.asarray(tank.drawn(name)))
    return float(np.mean(inside))


def _danger_share(band: Band, tank: Tank, measures: str) -> float:
    """Share of the draws beyond a safety limit (below a lower or above an upper one)."""
    value = np.asarray(tank.drawn(measures))
    beyond = np.zeros(np.shape(value), dtype=bool)
    for name in band.low:
        beyond = beyond | (value < np.asarray(tank.drawn(name)))
    for name in band.high:
        beyond = beyond | (value > np.asarray(tank.drawn(name)))
    return float(np.mean(beyond))


def _pick(texts: Any, verdict: str, side: str) -> str:
    for key in (f"{verdict}_{side}", verdict if verdict == "danger" else side, side, verdict):
        if key in texts:
            return str(texts[key])
    return ""


def _finding(
    check: Check,
    tank: Tank,
    verdict: Verdict,
    chance: float,
    *,
    side: str,
    band: tuple[float | None, float | None] | None = None,
    warning: float = 0.0,
) -> Finding:
    speak = _speaker(check, tank, band)
    if verdict == "good":
        side = ""

    do = _pick(check.do, verdict, side) if verdict != "good" else ""
    value = tank.best.get(check.measures)
    return Finding(
        check=check.id,
        section=check.section,
        verdict=verdict,
        measures=check.measures,
        claim=check.claim,
        why=check.why,
        say=speak(_pick(check.say, verdict, side)) or _fallback(check, verdict),
        do=speak(do),
        also=speak(check.also),
        chance=round(chance, 4),
        warning=round(warning, 4),
        value=_shown_value(value),
        band=band,
        unit=tank.unit_of(check.measures),
        **_provenance(check, tank, verdict),
        weight=check.weight,
        hides_nothing=check.hides_nothing,
        assumed=_assumed(check, tank),
    )


def _fallback(check: Check, verdict: Verdict) -> str:
    """What is said where a number of the sentence is unknown."""
    return check.claim if verdict == "good" else f"This does not hold for sure: {check.claim}"


def _assumed(check: Check, tank: Tank) -> tuple[str, ...]:
    """The answers the check looks at itself that were assumed."""
    names = {check.measures} | {n for when in check.whens.values() for n in when.names}
    return tuple(sorted(names & tank.assumed))


def _shown_value(value: Any) -> Any:
    if value is None or isinstance(value, str | bool | tuple):
        return value
    return float(np.min(value)) if np.ndim(value) else float(value)


def _speaker(
    check: Check, tank: Tank, band: tuple[float | None, float | None] | None
) -> Callable[[str], str]:
    """Fills the check's sentences: {value}, {low}, {high} and any name the tank knows."""
    low, high = band or (None, None)
    own = {"value": tank.lookup(check.measures), "low": low, "high": high}
    facts = limits()

    def lookup(name: str) -> Any:
        return own[name] if name in own else tank.lookup(name)

    def unit_of(name: str) -> str:
        return facts[name].unit if name in facts else tank.unit_of(name)

    same = dict.fromkeys(own, check.measures)
    return lambda text: fill(text, lookup, unit_of, tank.system, same) or ""


def _provenance(check: Check, tank: Tank, verdict: Verdict) -> dict[str, Any]:
    """Status of what graded it, and every source behind bounds, formula and claim."""
    bounds = check.danger.names if verdict == "danger" and check.danger else check.bounds
    statuses, sources = [], []
    formulas = tank.best.wiring.formulas
    facts: dict[str, Fact] = {**assumptions(), **limits()}
    for name in bounds:
        if name in facts:
            statuses.append(facts[name].status)
            sources.append(facts[name].source)
        elif name in formulas:
            statuses.append(formulas[name].sources[0].status)
            sources += [c.key for c in formulas[name].sources]
    if check.measures in formulas:
        sources += [c.key for c in formulas[check.measures].sources]
    status = statuses[0] if statuses else check.status
    return {
        "status": status,
        "sources": tuple(dict.fromkeys((*sources, *check.sources))),
        "limits": tuple(bounds),
    }


def _not_for_this_tank(check: Check, tank: Tank, reason: str) -> Finding:
    said = fill(reason, tank.lookup, tank.unit_of, tank.system) if reason else ""
    return Finding(
        check=check.id, section=check.section, verdict="good", measures=check.measures,
        claim=check.claim, why=check.why, say=said or "This tank has nothing to judge here.",
        chance=1.0, unit=tank.unit_of(check.measures), weight=check.weight,
        hides_nothing=check.hides_nothing, applies=False,
        **_provenance(check, tank, "good"),
    )  # fmt: skip


def _unmeasured(check: Check, tank: Tank, missing: tuple[str, ...], reason: str = "") -> Finding:
    names = tuple(dict.fromkeys(missing))
    labels = ", ".join(f"“{tank.label_of(name)}”" for name in names)
    say = reason or f"Not judged yet: nothing is known of {labels}."
    return Finding(
        check=check.id, section=check.section, verdict="unmeasured", measures=check.measures,
        claim=check.claim, why=check.why, say=say, do=check.do.get("unmeasured", ""),
        unit=tank.unit_of(check.measures), missing=names, weight=check.weight,
        hides_nothing=check.hides_nothing, **_provenance(check, tank, "unmeasured"),
    )  # fmt: skip
