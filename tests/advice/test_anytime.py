"""The search can be left at any time: what ends a danger comes first, and a budget bounds it."""

from __future__ import annotations

import datetime
from collections import Counter
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from advice_tanks import DEMOS, TANKS, audit_of

from interview.advice.advise import Progress, advise, advise_in_steps
from interview.advice.plans.plan import Plan
from interview.advice.plans.plans import plans, plans_in_steps
from interview.advice.search import budget as budgets
from interview.advice.search.budget import PATH, Budget, Limits, Spent
from interview.advice.search.implicit_hitting_set import ImplicitHittingSet
from interview.advice.search.tables.severity_tables import SeverityTables
from interview.advice.what_if.suppose import changed, measured_again
from interview.audit.audit import Audit
from interview.audit.checks.judging import judge
from interview.audit.checks.loader import all_checks
from interview.audit.grades import grade_all
from interview.base.rows import FileError, read
from interview.core.formula import Formula
from interview.core.heat.losses import TankLoss
from interview.core.numeric import Num
from interview.report.blocks import Paragraph
from interview.report.page.plan_steps import plan_blocks

DAY = datetime.date(2026, 3, 1)


@cache
def _audit(name: str) -> Audit:
    return audit_of((TANKS if name == "crowded" else DEMOS) / f"{name}.yaml")


@cache
def _worked(name: str) -> tuple[tuple[Progress, ...], Counter[str]]:
    """The advice bit by bit, and how often it took a heat loss, a formula, a look at the tank."""
    audit, counts = _audit(name), Counter[str]()
    lost, worked_out, look = TankLoss.__call__, Formula.__call__, SeverityTables._look

    def losses(self: TankLoss, water: Num, room: Num) -> Num:
        counts["losses"] += 1
        return lost(self, water, room)

    def formulas(self: Formula, *given: Any, **rest: Any) -> Any:
        counts["formulas"] += 1
        return worked_out(self, *given, **rest)

    def looks(self: SeverityTables, *given: Any) -> Any:
        counts["looks"] += 1
        return look(self, *given)

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(TankLoss, "__call__", losses)
        patch.setattr(Formula, "__call__", formulas)
        patch.setattr(SeverityTables, "_look", looks)
        return tuple(advise_in_steps(audit, DAY)), counts


def _steps(name: str) -> tuple[Progress, ...]:
    return _worked(name)[0]


def _kinds(plan: Plan) -> list[tuple[str, object]]:
    return [(change.quantity, change.after) for change in plan.changes]


# ---- a budget


def test_a_budget_lends_a_share_and_counts_what_it_lent() -> None:
    budget = Budget(steps=100)
    part = budget.part(0.25)
    part.spend(20)
    with pytest.raises(Spent):
        for _ in range(3):
            part.spend(5)
    assert part.over and not budget.over
    for _ in range(3):
        budget.spend(25)
    with pytest.raises(Spent):
        budget.spend()


def test_time_ends_a_budget_too(monkeypatch: pytest.MonkeyPatch) -> None:
    now = [100.0]
    monkeypatch.setattr(budgets.time, "monotonic", lambda: now[0])
    budget = Budget(seconds=6)
    part = budget.part()
    now[0] = 103.5
    assert part.over and not budget.over
    now[0] = 106.0
    with pytest.raises(Spent):
        budget.spend()
    assert not Budget().over, "without limits it never ends"


def test_the_shipped_limits_are_read_and_say_why(tmp_path: Path) -> None:
    limits = read(PATH, Limits)
    assert limits.steps.value > 20_000 and limits.seconds_in_a_talk.value > 0
    assert limits.steps.why and limits.seconds_in_a_talk.why
    path = tmp_path / "budget.yaml"
    path.write_text(PATH.read_text("utf-8").replace("value: 6\n", "value: soon\n"), "utf-8")
    with pytest.raises(FileError, match=r"budget\.yaml, line \d+: .*“soon” is no number"):
        read(path, Limits)


# ---- bit by bit


@pytest.mark.parametrize("name", ["painted_turtles_classroom", "crowded", "musk_turtle"])
def test_bit_by_bit_ends_with_the_whole_advice(name: str) -> None:
    steps = _steps(name)
    whole = advise(_audit(name), DAY)
    assert steps[-1].next == "" and all(step.next for step in steps[:-1])
    last = steps[-1].advice
    assert (last.duties, last.windows, last.would) == (whole.duties, whole.windows, whole.would)
    assert [_kinds(plan) for plan in last.plans] == [_kinds(plan) for plan in whole.plans]
    assert all(plan.proven for plan in whole.plans)
    assert steps[0].advice.duties and not steps[0].advice.plans


@pytest.mark.parametrize("name", ["painted_turtles_classroom", "crowded"])
def test_what_is_against_a_danger_comes_first(name: str) -> None:
    """Few steps, found before the whole plan; no later word is graver."""
    audit = _audit(name)
    assert audit.grades.stop
    told = [step.advice.plans for step in _steps(name) if step.advice.plans]
    (first,) = told[0]
    assert not first.proven and len(told) > 2
    steps = [len([c for c in plan.changes if c.say]) for plan in (first, told[-1][-1])]
    assert steps[0] < steps[1]
    before = {f.check for f in audit.findings if f.verdict == "danger"}
    after = changed(audit.tank, {c.quantity: c.after for c in first.changes})
    still = {f.check for f in (judge(c, after) for c in all_checks()) if f.verdict == "danger"}
    assert still < before
    stops = [all(plan.grades.stop for plan in found) for found in told]
    assert stops == sorted(stops, reverse=True), "a plan that ends the STOP is not taken back"


def test_a_search_works_nothing_out_twice() -> None:
    """Before what was worked out was kept, the fullest of the demos took 22,000 heat losses, 39,000
    formulas and 5,000 looks at the changed tank for its plans."""
    counts = _worked("painted_turtles_classroom")[1]
    assert counts["losses"] < 3500 and counts["formulas"] < 17_000 and counts["looks"] < 2200, (
        counts
    )


def test_whoever_leaves_keeps_what_there_is() -> None:
    told = advise_in_steps(_audit("crowded"), DAY)
    kept = [next(told) for _ in range(2)][-1]
    told.close()
    assert kept.advice.plans and kept.advice.duties


# ---- bounded


@pytest.mark.parametrize("steps", [0, 300, 1500, 4000])
def test_a_small_budget_gives_the_best_so_far(steps: int, monkeypatch: pytest.MonkeyPatch) -> None:
    audit, tried = _audit("crowded"), 0
    conflict_of = ImplicitHittingSet.conflict_of

    def counted(self: ImplicitHittingSet, *given: object) -> tuple[int, ...]:
        nonlocal tried
        tried += 1
        return conflict_of(self, *given)  # type: ignore[arg-type]

    monkeypatch.setattr(ImplicitHittingSet, "conflict_of", counted)
    found = plans(audit.tank, audit.findings, Budget(steps))
    calls = tried
    assert calls <= steps / 50 + 60, "beyond the budget only the first try of each search"
    whole = [_kinds(plan) for plan in _steps("crowded")[-1].advice.plans]
    assert all(_kinds(plan) in whole for plan in found if plan.proven)
    assert steps > 1500 or not any(plan.proven for plan in found)
    for plan in found:
        assert plan.changes
        after = measured_again(audit.tank, {c.quantity: c.after for c in plan.changes})
        graded = grade_all([judge(check, after) for check in all_checks()])
        assert graded.overall == (plan.meanwhile or plan.grades).overall
    grave = [
        [f for f in of.findings if f.verdict in ("wrong", "danger")] for of in (audit, found[-1])
    ]
    assert len(grave[1]) * 3 < len(grave[0]), "what one step mends needs no search"


def test_plans_in_steps_needs_no_more_than_one_danger_plan() -> None:
    audit = _audit("musk_turtle")
    assert not audit.grades.stop
    first, *_ = plans_in_steps(audit.tank, audit.findings, Budget())
    assert first[0].proven, "without a danger there is nothing to show before"


def test_a_plan_that_is_not_proven_the_least_says_so_on_its_page() -> None:
    """Only a search that ran out leaves the word out of doubt; a proven plan needs no line."""
    audit = _audit("musk_turtle")
    advice = advise(audit, DAY)
    open_ = replace(advice, plans=tuple(replace(plan, proven=False) for plan in advice.plans))
    said = [
        " ".join(block.text for block in plan_blocks(audit, one) if isinstance(block, Paragraph))
        for one in (advice, open_)
    ]
    assert all(plan.proven for plan in advice.plans) and "best that was found" not in said[0]
    assert "The best that was found before the search's time was up" in said[1]
