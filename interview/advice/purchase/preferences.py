"""What the keeper has decided already: kept where it works, else named with the reason."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence, Set
from dataclasses import dataclass, replace
from typing import Any

from interview.advice.purchase.usual import usual
from interview.advice.what_if.candidates import reached_by, severities
from interview.advice.what_if.severity import OPEN
from interview.advice.what_if.suppose import changed, changed_working, same
from interview.audit.checks.check import Check
from interview.audit.checks.judging import judge
from interview.audit.tank import Tank
from interview.core.numeric import alike
from interview.vocabulary.phrases import in_words

__all__ = ["Pair", "Refused", "Wish", "weigh_wishes", "wish_of", "wishes_of"]

Pair = tuple[Tank, Tank]
"""The planned tank with its animals as they are, and with them grown."""
Wish = dict[str, Any]
"""Answers of the keeper that make one thing, by name, in core units."""


@dataclass(frozen=True)
class Refused:
    """Something decided that does not work: what, and why not."""

    what: str
    why: str


def wishes_of(tank: Tank, settings: Mapping[str, Any]) -> Iterator[Wish]:
    """The keeper's own answers where the list has another, thing by thing."""
    own = {
        name: tank.best.known[name]
        for name in {**settings, **usual().over_sand}
        if name not in tank.assumed | tank.decided | set(usual().no_wish)
        and name in tank.best.known
    }
    together = usual().together
    grouped = {name for group in together for name in group}
    alone = [(name,) for name in own if name not in grouped]
    for group in (*together, *alone):
        wish = {name: own[name] for name in group if name in own}
        if any(not same(settings.get(name), value) for name, value in wish.items()):
            yield wish


def wish_of(tank: Tank, wish: Wish) -> str:
    """A wish in words; the sides of one size stand together."""
    shown: dict[str, list[str]] = {}
    for name, value in wish.items():
        said = in_words(value, tank.unit_of(name), tank.system, name)
        shown.setdefault(tank.label_of(name), []).append(said)
    return ", ".join(f"{label} {' × '.join(said)}" for label, said in shown.items())


def weigh_wishes(
    pair: Pair,
    wishes: Sequence[Wish],
    checks: Sequence[Check],
    with_it: Callable[[Pair, Wish], tuple[Wish, Wish]],
    settable: Set[str],
) -> tuple[list[tuple[Wish, Wish, Wish]], list[tuple[Wish, str]]]:
    """Which wishes may stand beside those before, and why the others may not.

    Args:
        pair: the planned tank now and grown
        wishes: what the keeper has decided, thing by thing
        checks: what is judged
        with_it: a wish with what is set anew for its sake, now and grown
        settable: answers that may be others once the animals are grown

    Returns:
        each wish that stands with its changes now and grown; each that can't, with the reason
    """
    kept: list[tuple[Wish, Wish, Wish]] = []
    refused: list[tuple[Wish, str]] = []
    for wish in wishes:
        now, later = with_it(pair, wish)
        why = _worse(pair[0], now, checks)
        grown = "" if why else _worse(pair[1], later, checks)
        if grown and set(wish) <= settable:
            later, grown = {}, ""
        if why or grown:
            refused.append((wish, why or f"Grown: {grown}"))
        else:
            kept.append((wish, now, later))
            pair = changed(pair[0], now), changed(pair[1], later)
    return kept, refused


def _moved(tank: Tank, changes: Wish) -> set[str]:
    """Every answer, reading and calibration that is another after the changes."""
    before = tank.best
    after = changed_working(before, before, changes, reread=False).known
    return {n for n in {*before.known, *after} if not alike(before.get(n), after.get(n))}


def _worse(tank: Tank, changes: Wish, checks: Sequence[Check]) -> str:
    """What a check says that the changes make worse, the gravest first; "" if none is."""
    reached = reached_by(checks, tank.best.wiring, _moved(tank, changes))
    checks = [check for check, moves in zip(checks, reached, strict=True) if moves]
    before, after = severities(tank, checks, [{}, changes])
    worse = [n for n in range(len(checks)) if after[n] > max(before[n], OPEN)]
    if not worse:
        return ""
    gravest = max(worse, key=lambda n: (after[n], checks[n].weight))
    would = changed(tank, changes)
    return judge(checks[gravest], replace(would, sample=would.best)).say
