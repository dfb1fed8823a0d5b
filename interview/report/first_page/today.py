"""What can't wait: every danger, what may be one, and whatever says itself that it is for today."""

from __future__ import annotations

import itertools
import re
from collections.abc import Callable, Collection, Iterable, Iterator, Sequence
from dataclasses import replace
from math import inf
from typing import TYPE_CHECKING, TypeAlias

import msgspec

from interview.audit.checks.loader import checks_by_id
from interview.audit.gravity import gravity, stake_of
from interview.audit.immediate_action import Effect, ImmediateAction
from interview.report.first_page.orders import Order, action_of, fewest, in_one, joined
from interview.report.first_page.sentences import lines_of, sentences
from interview.report.first_page.step import Step, numbered, remedy, step_of

if TYPE_CHECKING:
    from interview.audit.audit import Audit
    from interview.audit.checks.findings import Finding

__all__ = ["is_unseen", "steps_soon", "steps_today"]

_MOST_TODAY = 3
_LINES = 2
"""Lines of a page of 80 columns that a step takes at most; one that nobody reads helps nobody."""
_MOST_LINES = 3
"""Those that it takes rather than that a danger is left out."""
_AIMS = ("people", "animal")
_ILL = "warning_signs"
_AT_ONCE = re.compile(r"\b(?:today|now)\b|\bUnplug\b")
_KEEP_OUT = Step(
    0,
    "Don't put it in before ammonia and nitrite have both read near zero for a week.",
    ("cycling",),
    "The turtle",
)

_NOT_YET = ImmediateAction(say="No turtle in before ammonia and nitrite stay near zero for a week.")

_Said: TypeAlias = tuple[tuple[str, ...], str]
"""An order in words, after the checks that it meets."""


def steps_today(audit: Audit, settled: Collection[str] = ()) -> tuple[Step, ...]:
    """What can't wait, the gravest first; at most three steps of two lines.

    More than three are told in the fewest words, several in a step; for a danger, or to keep a
    turtle out, a step takes a third line rather than that it is left out.

    Args:
        audit: the tank
        settled: checks that are met otherwise, by the list that a planned tank is bought by
    """
    urgent, hurried = _orders(audit)
    urgent = [order for order in urgent if order.finding.check not in settled]
    waits = [_KEEP_OUT] if _unripe_and_empty(audit) else []
    if len(waits) + len(urgent) + len(hurried) <= _MOST_TODAY:
        return numbered([*waits, *map(_alone, joined([*urgent, *hurried]))], 0)
    return numbered(_packed(urgent, waits, hurried), 0)


def steps_soon(audit: Audit, others: Sequence[Step]) -> tuple[Step, ...]:
    """What would be for today if there were room, and no other step mends; no danger is.

    Args:
        audit: the tank
        others: the steps of today and of the plan
    """
    met = {check for step in others for check in step.about}
    _, hurried = _orders(audit)
    soon = [Step(0, o.action.text, o.about, takes=o.finding.takes) for o in hurried]
    if _unripe_and_empty(audit) and not any("cycling" in step.about for step in soon):
        soon = [Step(0, _NOT_YET.text, ("cycling",)), *soon]
    return tuple(step for step in soon if step.about[0] not in met)


def _orders(audit: Audit) -> tuple[list[Order], list[Order]]:
    """The orders against what is or may be dangerous, and those for what says it is for today."""
    urgent, hurried = _urgent(audit)
    orders = fewest([*urgent, *hurried])
    dangers = [order for order in orders if order.finding in urgent]
    return dangers, [order for order in orders if order not in dangers]


def _urgent(audit: Audit) -> tuple[list[Finding], list[Finding]]:
    """What is or may be dangerous, and what says that it is for today; the gravest first."""
    judged = sorted((f for f in audit.findings if f.applies), key=gravity)
    dangers = [f for f in judged if f.verdict == "danger"]
    dangers += [f for f in judged if f.risk == "likely" and f.verdict != "danger"]
    dangers += [f for f in judged if f.check == _ILL and f.verdict == "wrong" and not f.risk]
    # Before a button is pressed, what is hot or live is unplugged; whatever ails an animal, a
    # veterinarian sees it before the tank is put right.
    dangers.sort(key=lambda f: (is_unseen(f), _before_a_veterinarian(f)))
    if audit.tank.lookup("stage") == "planning":
        return dangers, []
    return dangers, [f for f in judged if f not in dangers and _says_today(f)]


def _before_a_veterinarian(finding: Finding) -> int:
    """What threatens people goes before an ill animal, that before all the rest."""
    if finding.check == _ILL:
        return 1
    return 0 if stake_of(checks_by_id()[finding.check], "danger") == 0 else 2


def _says_today(finding: Finding) -> bool:
    """Whether what is wrong is to be mended at once, by its own words."""
    return finding.verdict in ("wrong", "close") and bool(_AT_ONCE.search(finding.do))


def _unripe_and_empty(audit: Audit) -> bool:
    """Whether a filled tank still waits for its first turtle and its filter for its bacteria."""
    ripe = any(f.check == "cycling" and f.applies and f.verdict == "good" for f in audit.findings)
    return audit.tank.lookup("stage") == "set_up" and not ripe


def is_unseen(finding: Finding) -> bool:
    """Whether a danger is one only because nobody has looked yet."""
    return finding.verdict == "danger" and finding.measures in finding.assumed


def _alone(order: Order) -> Step:
    """One finding's remedy with its lead, as many sentences for today as two lines hold.

    Where the order asks for more than the finding, in the order's words.
    """
    finding = order.finding
    step = replace(step_of(finding, 0), about=order.about)
    lead = f"{step.lead} that is known of" if is_unseen(finding) else step.lead
    own = _ways(finding) if order.action == action_of(finding) else ()
    ways = [replace(step, lead=lead, do=do) for do in (*own, order.action.text)]
    ways.append(replace(ways[-1], lead=""))
    return next((way for way in ways if lines_of(way.text) <= _LINES), ways[-1])


def _ways(finding: Finding) -> Iterator[str]:
    """The remedy in ever fewer words."""
    told = sentences(remedy(finding, inf))
    if finding.verdict != "danger" and finding.risk != "likely":
        told = [said for said in told if _AT_ONCE.search(said)] or told[:1]
    for many in range(len(told), 0, -1):
        yield " ".join(told[:many])


def _packed(
    urgent: Sequence[Order], waits: Sequence[Step], hurried: Sequence[Order]
) -> Iterator[Step]:
    """Three steps of a few short orders each, what threatens people first.

    What is hurried, and nothing else, is left out where no step has room for it.
    """
    ordered = in_one(sorted(urgent, key=_by_aim))
    must = [(o.about, o.action) for o in ordered]
    must += [(step.about, _NOT_YET) for step in waits]
    takes = {order.finding.check: order.finding.takes for order in (*ordered, *hurried)}
    effects = [effect for _, action in must for effect in action.effects]
    said: list[_Said] = []
    for about, action in must:
        for clauses in _parts(action, effects):
            said.append((about, _anew(clauses, said)))
    steps = _shared_out(said)
    for order in hurried:
        one = (order.about, _anew(order.action.clauses(effects), itertools.chain(*steps)))
        if min(longer := [_lines([*step, one]) for step in steps]) == _LINES:
            steps[longer.index(_LINES)].append(one)
    for step in filter(None, steps):
        about = tuple(dict.fromkeys(itertools.chain(*(checks for checks, _ in step))))
        things = itertools.chain(*(takes.get(checks[0], ()) for checks, _ in step))
        yield Step(0, _text(step), about, takes=tuple(things))


def _parts(action: ImmediateAction, effects: Collection[Effect]) -> list[list[str]]:
    """The clauses of an action; the last ones by themselves where one step can't hold them all."""
    clauses = action.clauses(effects)
    if lines_of("; ".join(clauses)) <= _MOST_LINES:
        return [clauses]
    first = len(msgspec.structs.replace(action, then="", unless=None).clauses())
    return [part for part in (clauses[:first], clauses[first:]) if part]


def _anew(clauses: Sequence[str], before: Iterable[_Said]) -> str:
    """A sentence of the clauses that stand in none before it; "" where all do."""
    told = {clause.casefold() for _, do in before for clause in do.rstrip(".").split("; ")}
    text = "; ".join(clause for clause in clauses if clause.casefold() not in told)
    return f"{text[:1].upper()}{text[1:]}." if text else ""


def _shared_out(said: Sequence[_Said]) -> list[list[_Said]]:
    """The orders shared out to three steps; the long ones first where a step grows too long."""
    steps = _spread(said, _lines)
    if max(map(_lines, steps)) <= _MOST_LINES:
        return steps
    longest = sorted(said, key=lambda one: -len(one[1]))
    levelled = [sorted(step, key=said.index) for step in _spread(longest, lambda s: len(_text(s)))]
    return sorted(levelled, key=lambda step: said.index(step[0]) if step else len(said))


def _spread(said: Sequence[_Said], size: Callable[[Sequence[_Said]], int]) -> list[list[_Said]]:
    """Each in turn where the step that holds it is the smallest."""
    steps: list[list[_Said]] = [[] for _ in range(_MOST_TODAY)]
    for one in said:
        min(steps, key=lambda step: size([*step, one])).append(one)
    return steps


def _lines(step: Sequence[_Said]) -> int:
    return max(lines_of(_text(step)), _LINES)


def _text(step: Iterable[_Said]) -> str:
    return " ".join(do for _, do in step if do)


def _by_aim(order: Order) -> tuple[bool, int]:
    """What is hot or live by the water first; then people, the animals, the rest."""
    harm = checks_by_id()[order.finding.check].harm["danger"]
    aim = _AIMS.index(harm) if harm in _AIMS else len(_AIMS)
    return not order.action.first, aim
