"""Holds one tank against one check, doubt included."""

from __future__ import annotations

from collections.abc import Callable, Container, Iterator, Mapping
from dataclasses import replace
from math import isinf
from typing import Any, TypeAlias

import numpy as np

from interview.audit.checks.check import Check
from interview.audit.checks.each_animal import worst
from interview.audit.checks.findings import Finding, Verdict, unjudged
from interview.audit.checks.guesses import (
    behind_danger,
    deciding_danger,
    mostly_by,
    mostly_guessed,
    words_guessed,
)
from interview.audit.checks.outcomes import RULE_VERDICTS, deciding_rule, weigh
from interview.audit.checks.unconfirmed import in_doubt
from interview.audit.checks.verdicts import Chances, Level, Risk, certain, judged
from interview.audit.immediate_action import ImmediateAction
from interview.audit.sampling.sensitivity import doubt_of
from interview.audit.tank import Tank
from interview.base.conditions import Condition
from interview.base.templates import by_number
from interview.care.facts import Fact, assumptions, limits
from interview.core.errors import CannotWorkOut, Missing, NotApplicable, OutOfRange
from interview.core.numeric import is_number
from interview.vocabulary.phrases import fill_known, in_words

__all__ = ["judge"]

_Edges: TypeAlias = tuple[float | None, float | None]


def judge(check: Check, tank: Tank) -> Finding:
    """The finding of one check on one tank; never raises for a tank that lacks something.

    Where each animal has limits of its own, that of the animal that fares worst.
    """
    animals = tank.animals if check.each_animal else ()
    if len(animals) > 1:
        found = worst([(animal, _judged(check, tank.only(animal))) for animal in animals], tank)
    else:
        found = _judged(check, tank)
    return in_doubt(_on_a_guess(found, check, tank), check, tank)


def _judged(check: Check, tank: Tank) -> Finding:
    """The finding as it stands, whoever gave the answers."""
    if check.relevant:
        holds = _relevant(check.relevant, tank)
        if holds is False:
            return _not_for_this_tank(check, tank, check.otherwise)
        if holds is None:
            return _unmeasured(check, tank, _behind(check.relevant.unknown(tank.lookup), tank))
    try:
        rule = _decided(check, tank)
        chances = weigh(check, tank.sample_of, tank.unit_of, rule)
        return _finding(check, tank, rule, chances)
    except NotApplicable as problem:
        return _not_for_this_tank(check, tank, check.otherwise or _sentence(problem.reason))
    except Missing as problem:
        return _unmeasured(check, tank, problem.names)
    except OutOfRange as problem:
        return _unmeasured(check, tank, (), _beyond_formula(problem, tank))
    except CannotWorkOut as problem:
        return _unmeasured(check, tank, (), f"Not judged: {problem}.")


def _relevant(condition: Condition, tank: Tank) -> bool | None:
    """Whether a check applies; of a planned tank what nobody decided yet counts as not given."""

    def decided(name: str) -> Any:
        return None if name in tank.assumed else tank.lookup(name)

    if tank.lookup("stage") == "planning" and condition.holds(decided, tank.unit_of) is False:
        return False
    return condition.holds(tank.lookup, tank.unit_of)


def _behind(names: tuple[str, ...], tank: Tank) -> tuple[str, ...]:
    """The answers that are missing behind unknown names."""
    reasons = {name: tank.best.why_not(name) for name in names}
    lacking = [r.names if isinstance(r, Missing) else (name,) for name, r in reasons.items()]
    return tuple(dict.fromkeys(name for group in lacking for name in group))


def _beyond_formula(problem: OutOfRange, tank: Tank) -> str:
    def shown(value: float) -> str:
        return in_words(value, problem.unit, tank.system, problem.name)

    low, high = problem.low, problem.high
    if isinf(high):
        holds = f"from {shown(low)} upwards"
    else:
        holds = f"up to {shown(high)}" if isinf(low) else f"from {shown(low)} to {shown(high)}"
    label = _sentence(tank.label_of(problem.name)).rstrip(".")
    return f"Not judged: {label} is {shown(problem.value)}, but the formula holds only {holds}."


def _sentence(text: str) -> str:
    text = text[:1].upper() + text[1:]
    return text if text.endswith(".") else f"{text}."


def _decided(check: Check, tank: Tank) -> str:
    """The rule that decides at the best values; raises the reason where nothing is decided."""
    rule = deciding_rule(check, tank.lookup, tank.unit_of)
    if rule is not None:
        return rule
    unknown = {n for when in check.whens.values() for n in when.unknown(tank.lookup)}
    if check.good is None and not unknown:
        return ""
    if check.good is None or (unknown and tank.lookup(check.measures) is None):
        raise _why_unknown(sorted(unknown), tank).with_traceback(None)
    for name in (check.measures, *check.good.names):
        tank.require(name)
    raise Missing(check.measures)


def _why_unknown(names: list[str], tank: Tank) -> CannotWorkOut:
    """The most telling reason why the names have no value."""
    reasons = [tank.best.why_not(name) for name in names]
    for kind in (NotApplicable, Missing):
        if found := next((r for r in reasons if isinstance(r, kind)), None):
            return found
    return next((r for r in reasons if r), Missing(*names))


def _side(check: Check, tank: Tank, rule: str, band: _Edges | None) -> str:
    """On which side of the good band the best value lies, where a band decided."""
    if band is None or rule == "good":
        return ""
    value = tank.lookup(check.measures)
    if band[0] is not None and value < band[0]:
        return "low"
    return "high" if band[1] is not None and value > band[1] else ""


def _edges(check: Check, tank: Tank, rule: str) -> _Edges | None:
    """The tightest bounds of the good band, where a band decided and its bounds are known."""
    if rule.endswith("_when") or check.good is None:
        return None
    if any(tank.lookup(name) is None for name in check.good.names):
        return None
    low = [float(tank.lookup(name)) for name in check.good.low]
    high = [float(tank.lookup(name)) for name in check.good.high]
    return (max(low) if low else None, min(high) if high else None)


def _pick(texts: Mapping[str, str], verdict: str, side: str, rule: str = "") -> str:
    return texts.get(_key(texts, verdict, side, rule), "")


def _key(told: Container[str], verdict: str, side: str, rule: str) -> str:
    """Which outcome's text is told; "" where there is none."""
    decided = rule.endswith("_when") and RULE_VERDICTS[rule] == verdict
    by_rule = rule if decided else ""
    for key in (
        by_rule,
        f"{verdict}_{side}",
        verdict if verdict == "danger" else side,
        side,
        verdict,
    ):
        if key in told:
            return key
    return ""


def _finding(check: Check, tank: Tank, rule: str, chances: Chances) -> Finding:
    leaves = check.leaves(tank.lookup, tank.unit_of)
    found = judged(_level(check, tank, rule, chances), chances, check.stakes(leaves))
    verdict = found.verdict
    band = _edges(check, tank, rule)
    inside = RULE_VERDICTS[rule] == "good"
    side = "" if verdict == "good" else _side(check, tank, rule, band)
    at_edge = verdict == "good" and not inside and "close" in check.say
    said = check.say["close"] if at_edge else _pick(check.say, verdict, side, rule)
    speak = _speaker(check, tank, band)
    do = _pick(check.do, verdict, side, rule) if verdict != "good" else ""
    outcome = (found.risk, verdict, side, rule)
    return Finding(
        check=check.id,
        section=check.section,
        verdict=verdict,
        measures=check.measures,
        claim=check.claim,
        why=check.why,
        say=speak(said) or _fallback(check, verdict),
        do=speak(do),
        now=_filled(check.now.get(_urgent(check.now, *outcome)), speak),
        takes=tuple(_takes(check.takes.get(_urgent(check.takes, *outcome)), speak)),
        also=speak(check.also),
        chance=round(found.chance, 4),
        certainty=found.certainty,
        chances=chances,
        warning=round(found.warning, 4),
        risk=found.risk,
        value=_shown_value(tank.best.get(check.measures)),
        band=band,
        unit=tank.unit_of(check.measures),
        **_provenance(check, tank, verdict, rule),
        weight=check.weight,
        hides_nothing=check.hides_nothing or rule in check.hides_nothing_when,
        assumed=_assumed(check, tank, rule),
        inside=inside,
        leaves=leaves,
        lacks=_lacks(check, tank) if verdict != "good" else "",
    )


def _lacks(check: Check, tank: Tank) -> str:
    """What isn't there at all, where that is why the check isn't good."""
    said = (said for said, when in check.lacking.items() if when.holds(tank.lookup, tank.unit_of))
    return next(said, "")


def _urgent(told: Container[str], risk: Risk, verdict: str, side: str, rule: str) -> str:
    """The outcome of which it is told what can't wait; of what may well be dangerous the danger."""
    if verdict == "good":
        return ""
    return _key(told, verdict, side, rule) or ("danger" if risk == "likely" else "")


def _takes(things: Mapping[str, str] | None, speak: Callable[[str], str]) -> Iterator[str]:
    """What has to be at hand, as far as its numbers are known."""
    for thing, text in (things or {}).items():
        if specification := speak(text):
            yield f"{thing}: {specification}"


def _filled(action: ImmediateAction | None, speak: Callable[[str], str]) -> ImmediateAction | None:
    return action.filled(speak) if action else None


def _level(check: Check, tank: Tank, rule: str, chances: Chances) -> Level:
    """The level of the best values; where these are no readings, wrong is to be likely too."""
    level = RULE_VERDICTS[rule]
    if level != "wrong" or certain(chances.broken) != "open" or not mostly_guessed(check, tank):
        return level
    return "close"


def _fallback(check: Check, verdict: Verdict) -> str:
    """What is said where a number of the sentence is unknown."""
    return check.claim if verdict == "good" else f"This does not hold for sure: {check.claim}"


def _assumed(check: Check, tank: Tank, rule: str) -> tuple[str, ...]:
    """The answers nobody gave without which the rule would not have decided as it did."""

    def told(name: str) -> Any:
        return None if name in tank.assumed else tank.lookup(name)

    if rule and rule not in check.whens:
        names = {check.measures}
    elif rule and check.whens[rule].holds(told, tank.unit_of):
        return ()
    else:
        saves = [when for name, when in check.whens.items() if name != "wrong_when"]
        whens = [check.whens[rule]] if rule else saves
        names = {check.measures} | {name for when in whens for name in when.names}
    return tuple(sorted(names & tank.assumed))


def _on_a_guess(finding: Finding, check: Check, tank: Tank) -> Finding:
    """A verdict that rests on an answer nobody gave says so, and is never called good.

    A number that was guessed and lies further behind counts with its doubt; what is wrong mostly by
    it says that too.
    """
    if not finding.assumed:
        if finding.verdict == "wrong" and (mostly := mostly_by(check, tank)):
            said = f"Not measured yet: {_taken(mostly, tank)}. With that: {finding.say}"
            return replace(finding, say=said, guessed=mostly)
        behind = _guessed_behind(check, tank) if finding.verdict == "danger" else ()
        if not behind:
            return finding
        said = f"Not known yet: {_taken(behind, tank)}. As far as that is so: {finding.say}"
        return replace(finding, say=said, guessed=behind, certainty="open")
    taken = _taken(finding.assumed, tank)
    if finding.verdict == "good":
        say = f"Not judged yet: {taken}. With that it would be all right."
        return unjudged(finding, say, finding.assumed)
    said = f"Not known yet: {taken}. If that is so: {finding.say}"
    speak = _speaker(check, tank, None)
    do = speak(check.do["guessed"]) if "guessed" in check.do else finding.do
    now = _filled(check.now["guessed"], speak) if "guessed" in check.now else finding.now
    return replace(finding, say=said, do=do, now=now, certainty="open")


def _guessed_behind(check: Check, tank: Tank) -> tuple[str, ...]:
    """Answers nobody gave that lie behind a danger: words, and numbers that sway it."""
    behind = behind_danger(check, tank)
    if not behind:
        return ()
    swaying = {share.quantity for name in deciding_danger(check) for share in doubt_of(name, tank)}
    return tuple(sorted(words_guessed(check, tank) | (behind & swaying)))


def _taken(names: tuple[str, ...], tank: Tank) -> str:
    def shown(name: str) -> str:
        return in_words(tank.lookup(name), tank.unit_of(name), tank.system, name)

    taken = [f"“{tank.label_of(name)}” is taken to be “{shown(name)}”" for name in names]
    return f"{' and '.join(taken)} until someone looks"


def _shown_value(value: Any) -> Any:
    if value is None or not is_number(value):
        return value
    return float(np.min(value)) if np.ndim(value) else float(value)


def _speaker(check: Check, tank: Tank, band: _Edges | None) -> Callable[[str], str]:
    """Fills the check's sentences: {value}, {low}, {high} and any name the tank knows."""
    low, high = band or (None, None)
    own = {"value": tank.lookup(check.measures), "low": low, "high": high}
    facts = limits()

    def lookup(name: str) -> Any:
        return own[name] if name in own else tank.lookup(name)

    def unit_of(name: str) -> str:
        return facts[name].unit if name in facts else tank.unit_of(name)

    same = dict.fromkeys(own, check.measures)

    def speak(text: str) -> str:
        return fill_known(by_number(text, tank.several), lookup, unit_of, tank.system, same)

    return speak


def _graded_by(check: Check, verdict: Verdict, rule: str) -> tuple[str, ...]:
    """Names of the bounds that decided: of the condition, of the danger band, or of all bands."""
    if verdict == "danger" and check.danger and not rule.endswith("_when"):
        return check.danger.names
    if rule not in check.whens:
        return check.bounds
    return tuple(dict.fromkeys(bound for _, bound in check.whens[rule].compared))


def _provenance(check: Check, tank: Tank, verdict: Verdict, rule: str = "") -> dict[str, Any]:
    """Status of what graded it, and every source behind bounds, formula and claim."""
    formulas = tank.best.wiring.formulas
    facts: dict[str, Fact] = {**assumptions(), **limits()}
    graded = _graded_by(check, verdict, rule)
    statuses: dict[str, str] = {}
    sources: list[str] = []
    for name in (*graded, *(bound for _, bound in check.compared)):
        if name in facts:
            statuses[name] = facts[name].status
            sources.append(facts[name].source)
        elif name in formulas:
            statuses[name] = formulas[name].sources[0].status
            sources += [c.key for c in formulas[name].sources]
    if check.measures in formulas:
        sources += [c.key for c in formulas[check.measures].sources]
    found = [statuses[name] for name in graded if name in statuses] or [
        check.status or next(iter(statuses.values()), "assumption")
    ]
    return {
        "status": found[0],
        "sources": tuple(dict.fromkeys((*sources, *check.sources))),
        "limits": graded,
    }


def _not_for_this_tank(check: Check, tank: Tank, reason: str) -> Finding:
    said = fill_known(reason, tank.lookup, tank.unit_of, tank.system)
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
        unit=tank.unit_of(check.measures), missing=names, weight=check.weight, certainty="open",
        hides_nothing=check.hides_nothing, **_provenance(check, tank, "unmeasured"),
    )  # fmt: skip
