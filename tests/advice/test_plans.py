"""Plans are verified by auditing the changed tank, and no smaller or cheaper mend is missed.

The brute force knows nothing of the search. For every plan of the twelve tanks it tries every
set of levers of the plan's cost classes, with as many changes and no more cost or with fewer:
no set may bring every check as far as the plan does. Its grid is coarse: of each lever's settings
seven at most, evenly from the first to the last, so between them it sees nothing. A set is
given up as soon as one check alone, under the levers that reach it, stays out of reach.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np
import pytest
import yaml
from advice_tanks import DEMOS, TANKS, audit_of

from interview.advice.levers.levers import Option, all_levers, cost_of, options_of
from interview.advice.plans.plan import Plan
from interview.advice.plans.plans import plans
from interview.advice.search.worth_changing import worth_changing
from interview.advice.what_if.candidates import severities
from interview.advice.what_if.severity import NEEDS_CHANGE, OPEN
from interview.advice.what_if.suppose import changed_working, measured_again
from interview.audit.audit import Audit
from interview.audit.checks.check import Check
from interview.audit.checks.findings import Finding
from interview.audit.checks.judging import judge
from interview.audit.checks.loader import all_checks
from interview.audit.tank import Tank

ROWS: list[dict[str, Any]] = yaml.load(
    (Path(__file__).parent / "tanks.yaml").read_text("utf-8"), yaml.BaseLoader
)
CHECKS = tuple(check for check in all_checks() if check.id != "cycling")
_COARSE = 7
_FEW, _FINE = 3, 60
"""With so few changes a grid of so many settings is still quick."""
_REBUILD = 20.0
_NARROW = 5
"""From so many changes on the grid may step over every setting that works."""
_OFF_THE_GRID = {("cold room, weak heater", "Do it properly")}
"""Four levers: too many for the fine grid, and the coarse one has no setting that works."""
_CLASSES = {
    "Move things only": {"free"},
    "Spend a little": {"free", "cheap"},
    "Do it properly": {"free", "cheap", "buy"},
}


@cache
def _audit(name: str) -> Audit:
    row = next(row for row in ROWS if row["tank"] == name)
    return audit_of(TANKS / f"{row['like']}.yaml", row["change"])


@cache
def _plans(name: str) -> tuple[Plan, ...]:
    audit = _audit(name)
    return plans(audit.tank, audit.findings)


def _targets(tank: Tank) -> frozenset[str]:
    row = severities(tank, CHECKS, [{}])[0]
    wanted = worth_changing(tank, CHECKS)
    return frozenset(
        c.id
        for c, severity in zip(CHECKS, row, strict=True)
        if severity >= NEEDS_CHANGE and c.id in wanted
    )


def _fine(finding: Finding) -> bool:
    return finding.verdict == "good" or (finding.verdict == "close" and finding.inside)


def _levers_of(plan: Plan) -> int:
    """Levers moved: a step that tells two acts as one moves two.

    A lever may say the same alone as together with another; alone it is the lever of the file.
    """
    alone = {id(lever) for lever in all_levers()}
    return sum(
        1 + (id(step.lever) not in alone and step.lever.say in step.lever.together.values())
        for step in plan.steps
    )


def test_there_are_twelve_tanks_with_the_faults_they_claim() -> None:
    assert len(ROWS) >= 12 and len({row["tank"] for row in ROWS}) == len(ROWS)
    for row in ROWS:
        assert _targets(_audit(row["tank"]).tank) == set(row["faults"]), row["tank"]


@pytest.mark.parametrize("name", [row["tank"] for row in ROWS])
def test_the_plan_mends_everything_and_spoils_nothing(name: str) -> None:
    audit = _audit(name)
    plan = _plans(name)[-1]
    assert not plan.then or 0 < plan.urgent < len(plan.changes)
    after = measured_again(audit.tank, {c.quantity: c.after for c in plan.changes})
    before = {finding.check: finding for finding in audit.findings}
    targets = _targets(audit.tank)
    assert not plan.left
    for check in all_checks():
        finding = judge(check, after)
        assert finding.verdict != "danger", finding.say
        if check.id in targets:
            assert _fine(finding) or finding.verdict == "unmeasured", (finding.check, finding.say)
        elif _fine(before[check.id]):
            assert _fine(finding), (finding.check, finding.verdict, finding.say)
        told = next(f for f in plan.findings if f.check == check.id)
        assert (told.verdict, told.chance) == (finding.verdict, finding.chance)


# ---- brute force


def _coarse(options: list[Option], most: int) -> list[Option]:
    if len(options) <= most:
        return options
    ordered = sorted(options, key=lambda o: [v for v in o.changes.values() if not _word(v)])
    picked = np.linspace(0, len(ordered) - 1, most).round().astype(int)
    return [ordered[n] for n in picked]


def _word(value: Any) -> bool:
    return isinstance(value, str | bool | tuple)


class BruteForce:
    """All levers of some cost classes with coarse settings, and what they could reach.

    `goals` are the worst levels that will do: as far as a plan brings each check, and no check
    worse than today. `own` are settings that stand in the grid in any case.
    """

    def __init__(
        self, tank: Tank, costs: set[str], reached: Any, own: Any = (), most: int = _COARSE
    ) -> None:
        self.tank = tank
        self.base = severities(tank, CHECKS, [{}])[0]
        self.goals = np.where(reached < self.base, np.maximum(reached, OPEN), self.base)
        self.goals = np.maximum(self.goals, OPEN)
        self.targets = [c for c in range(len(CHECKS)) if self.base[c] > self.goals[c]]
        found = [(lever, list(options_of(lever, tank))) for lever in all_levers()]
        self.levers = [
            (lever, [*_coarse(options, most), *(o for o in own if o.lever is lever)])
            for lever, options in found
            if options and lever.cost in costs
        ]
        self.reach = [self._reach(options) for _, options in self.levers]
        self.useful = [
            frozenset(c for c in reach & set(self.targets) if lever.meant_for(CHECKS[c].id))
            for (lever, _), reach in zip(self.levers, self.reach, strict=True)
        ]
        self._reachable: dict[tuple[int, tuple[int, ...]], bool] = {}

    def _reach(self, options: list[Option]) -> frozenset[int]:
        best = self.tank.best
        moved: set[str] = set()
        for option in options:
            after = changed_working(best, best, option.changes).known
            moved |= {n for n in {*after, *best.known} if after.get(n) is not best.known.get(n)}
        return frozenset(n for n, check in enumerate(CHECKS) if moved & _everything_behind(check))

    def sets(self, size: int, cost: float) -> Iterator[tuple[int, ...]]:
        """Sets under that cost in which each lever is of use to a target or to another lever."""
        wanted = set(self.targets)
        usable = [
            n for n, (lever, _) in enumerate(self.levers) if self.useful[n] or not lever.only_for
        ]
        for chosen in itertools.combinations(usable, size):
            if set().union(*(self.useful[n] for n in chosen)) != wanted:
                continue
            if self.cost(chosen) > cost - 1e-9:
                continue
            others = [
                set().union(wanted, *(self.reach[m] for m in chosen if m != n)) for n in chosen
            ]
            if all(self.reach[n] & around for n, around in zip(chosen, others, strict=True)):
                yield chosen

    def works(self, chosen: tuple[int, ...]) -> bool:
        """Whether some settings of the levers bring every check to its goal."""
        return all(self._alone(c, chosen) for c in self.targets) and self._together(chosen)

    def _alone(self, check: int, chosen: tuple[int, ...]) -> bool:
        """Whether one check can be brought to its goal by those of the levers that reach it."""
        levers = tuple(n for n in chosen if check in self.reach[n])
        if (check, levers) not in self._reachable:
            rows = severities(self.tank, [CHECKS[check]], self._candidates(levers))
            self._reachable[check, levers] = bool((rows <= self.goals[check]).any())
        return self._reachable[check, levers]

    def _together(self, chosen: tuple[int, ...]) -> bool:
        left = self._candidates(chosen)
        touched = sorted(set(self.targets).union(*(self.reach[n] for n in chosen)))
        for check in sorted(touched, key=lambda c: c not in self.targets):
            rows = severities(self.tank, [CHECKS[check]], left)[:, 0]
            left = [
                row
                for row, severity in zip(left, rows, strict=True)
                if severity <= self.goals[check]
            ]
            if not left:
                return False
        return True

    def _candidates(self, chosen: tuple[int, ...]) -> list[dict[str, Any]]:
        combos = itertools.product(*(self.levers[n][1] for n in chosen))
        return [{n: v for o in combo for n, v in o.changes.items()} for combo in combos]

    def cost(self, chosen: tuple[int, ...]) -> float:
        return sum(cost_of(self.levers[n][0]) for n in chosen)

    def names(self, chosen: tuple[int, ...]) -> list[str]:
        return [self.levers[n][0].name for n in chosen]


@cache
def _behind(name: str, tank_wiring: Any) -> frozenset[str]:
    return frozenset({name}) | tank_wiring.upstream(name)


def _everything_behind(check: Check) -> frozenset[str]:
    """Every name a check speaks of, and all those follow from."""
    from interview.core.wiring import quantities

    return frozenset().union(*(_behind(name, quantities()) for name in check.names))


@pytest.mark.parametrize("name", [row["tank"] for row in ROWS])
def test_brute_force_finds_nothing_smaller_or_cheaper(name: str) -> None:
    tank = _audit(name).tank
    assert _plans(name)
    for plan in _plans(name):
        costs = _CLASSES[plan.name] | ({"rebuild"} if plan.cost >= _REBUILD else set())
        after = {change.quantity: change.after for change in plan.changes}
        brute = BruteForce(tank, costs, severities(tank, CHECKS, [after])[0])
        assert brute.targets, plan.name
        size = _levers_of(plan)
        for smaller in range(1, size):
            for chosen in brute.sets(smaller, np.inf):
                assert not brute.works(chosen), f"fewer changes: {brute.names(chosen)}"
        for chosen in brute.sets(size, plan.cost):
            assert not brute.works(chosen), f"cheaper: {brute.names(chosen)}"
        kind = [chosen for chosen in brute.sets(size, np.inf) if brute.cost(chosen) == plan.cost]
        found = any(brute.works(chosen) for chosen in kind)
        if not found and size <= _FEW:
            fine = BruteForce(tank, costs, severities(tank, CHECKS, [after])[0], (), _FINE)
            found = any(fine.works(chosen) for chosen in kind)
        if not found and (name, plan.name) in _OFF_THE_GRID:
            brute = BruteForce(tank, costs, severities(tank, CHECKS, [after])[0], plan.steps)
            own = {id(step.lever) for step in plan.steps}
            found = brute.works(
                tuple(n for n, (lever, _) in enumerate(brute.levers) if id(lever) in own)
            )
        assert found or (kind and size >= _NARROW), "the grid finds a plan as good as this one"


# ---- speed, order and words


@pytest.mark.parametrize("path", sorted(DEMOS.glob("*.yaml")), ids=lambda p: p.stem)
def test_dangers_come_first_and_every_step_has_a_sentence(path: Path) -> None:
    audit = audit_of(path)
    for plan in plans(audit.tank, audit.findings):
        steps = [change.say for change in plan.changes if change.say]
        assert steps and all(step[0].isupper() and step.endswith(".") for step in steps)
        assert not any(mark in step for step in steps for mark in "{}_")
        assert plan.grades.stop == any(f.verdict == "danger" for f in plan.findings)
        left = {f.check for f in plan.left}
        for checks in plan.against:
            assert checks[0] in left and len(checks) > 1
