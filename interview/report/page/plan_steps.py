"""The plans as blocks of the page: steps, where they lead, what they cost."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import TYPE_CHECKING

from interview.advice.plans.leaving import NotMended
from interview.advice.purchase.parting import PARTED_FIRST, must_part
from interview.report.blocks import Block, Heading, Items, Paragraph
from interview.report.first_page.sentences import enumerated
from interview.report.naming import capital, inside, spoken, verdict_of
from interview.report.page.sections import judged_as
from interview.vocabulary.phrases import told_apart

if TYPE_CHECKING:
    from interview.advice.advise import Advice
    from interview.advice.plans.plan import Change, Plan
    from interview.audit.audit import Audit
    from interview.audit.checks.findings import Finding

__all__ = ["plan_blocks"]


_UNPROVEN = (
    "The best that was found before the search's time was up: fewer or cheaper steps may do "
    "as much."
)
_MORE = "“more” says what."


def plan_blocks(audit: Audit, advice: Advice) -> Iterator[Block]:
    """The plans, each with the grade it leads to, checked by auditing the changed tank."""
    if not advice.plans:
        if advice.would:
            wrong = [f for f in audit.findings if f.applies and f.verdict in ("wrong", "danger")]
            yield Heading(2, "What would put it right")
            yield Paragraph(f"Nothing that is moved or bought for this tank mends: {_said(wrong)}.")
            yield Paragraph(advice.would)
        return
    yield from _intro(parts=must_part(audit.tank))
    above: list[str] = []
    for number, plan in enumerate(advice.plans, start=1):
        yield from _one_plan(audit, plan, above, later=advice.plans[number:])
        above = _steps_of(plan)
    yield from _rest(advice)


def _intro(*, parts: bool) -> Iterator[Block]:
    """What stands over the plans."""
    yield Heading(2, "Plans: the smallest set of changes")
    yield Paragraph(
        "Each plan was tried on the whole tank, with everything that moves along, and the "
        "changed tank audited again."
    )
    if parts:
        yield Paragraph(PARTED_FIRST, True)


def _steps_of(plan: Plan) -> list[str]:
    """The sentences of a plan's steps."""
    return [change.say for change in plan.changes if change.say]


def _one_plan(
    audit: Audit,
    plan: Plan,
    above: Sequence[str],
    later: Sequence[Plan] = (),
) -> Iterator[Block]:
    """One plan; the steps that stand in the plan above it are only named.

    `later` are the dearer plans, as far as they are known: what they mend is told.
    """
    yield Heading(3, f"{plan.name}: leads to {plan.grades.reached}{_once_ripe(plan)}")
    yield from _steps(plan, _steps_of(plan), above)
    yield from _afterwards(audit, plan, later)


def _rest(advice: Advice) -> Iterator[Block]:
    """What would mend what the plans leave."""
    if advice.would:
        yield Heading(3, "What would mend the rest")
        yield Paragraph(advice.would)


def _steps(plan: Plan, said: Sequence[str], above: Sequence[str]) -> Iterator[Block]:
    """The steps, those of the day first, the grade's next; those of the plan above only named."""
    without = [str(n) for n, step in enumerate(above, start=1) if step not in said]
    needed, extra = said[: plan.needed], said[plan.needed :]
    before = 0
    if above and len(without) * 4 <= len(above):
        but = f" without {enumerated(without)}" if without else ""
        needed, extra = ([s for s in part if s not in above] for part in (needed, extra))
        before = len(above)
        yield Paragraph(f"The steps above{but}{', and:' if needed else '.'}")
    elif plan.then:
        yield Paragraph(f"Today, before anything else; this alone leads to {plan.then.reached}:")
        yield _list(said[: plan.urgent])
        needed, before = needed[plan.urgent :], plan.urgent
        if needed:
            yield Paragraph("Then, in the days after:")
    if needed:
        yield _list(needed, before)
    if extra:
        yield Paragraph("Also worth it, though the grade doesn't need it:")
        yield _list(extra, before + len(needed))


def _list(said: Sequence[str], before: int = 0) -> Items:
    return Items(tuple((step, ()) for step in said), numbered=True, start=before + 1)


def _once_ripe(plan: Plan) -> str:
    """That a new filter has to ripen first, and the grade until then."""
    if plan.meanwhile is None:
        return ""
    return f" once the new filter is ripe, {plan.meanwhile.reached} until then"


def _afterwards(audit: Audit, plan: Plan, later: Sequence[Plan]) -> Iterator[Block]:
    if not plan.proven:
        yield Paragraph(_UNPROVEN)
    if plan.moved:
        moved = "; ".join(f"{audit.label_of(m.quantity)} {_to(audit, m)}" for m in plan.moved)
        yield Paragraph(f"Moves along by itself: {moved}.")
    if plan.take_again:
        again = enumerated([audit.label_of(name) for name in plan.take_again])
        yield Paragraph(f"Measure again afterwards, as it was read before the change: {again}.")
    for section, before, after in plan.worse:
        yield Paragraph(f"The price: {section} goes from {before} to {after}.")
    if plan.rest:
        yield Paragraph("Not mended by this:")
        yield Items(tuple(_alike(_left(audit, one, later) for one in plan.rest)))
    if risky := [f for f in plan.findings if f.applies and f.warning]:
        chances = "; ".join(f"{spoken(f.check)} ({f.warning:.0%})" for f in risky)
        yield Paragraph(f"A chance of danger stays, until it is measured: {chances}.")
    left = {finding.check for finding in (*(one.finding for one in plan.rest), *risky)}
    if nearer := [finding for finding in plan.nearer if finding.check not in left]:
        yield Paragraph(f"Nearer to a limit than today: {_said(nearer)}.")


def _alike(rows: Iterable[tuple[str, tuple[str, ...]]]) -> Iterator[tuple[str, tuple[str, ...]]]:
    """The rows, those of which the same is said in one."""
    found: dict[tuple[str, ...], list[str]] = {}
    for lead, said in rows:
        found.setdefault(said, []).append(lead)
    for said, leads in found.items():
        yield "; ".join([leads[0], *map(inside, leads[1:])]), said


def _left(audit: Audit, left: NotMended, later: Sequence[Plan]) -> tuple[str, tuple[str, ...]]:
    """What is left, and why: a dearer plan, a look, another check, time or people mend it."""
    finding = left.finding
    lead = f"{capital(spoken(finding.check))} ({verdict_of(finding)})"
    mends = [p for p in later if finding.check not in {one.finding.check for one in p.rest}]
    by = tuple(f"“{plan.name}” mends it." for plan in mends[:1])
    if left.rests_on:
        names = enumerated([audit.label_of(name) for name in left.rests_on])
        return lead, (f"It rests on what nobody has told yet, so look first: {names}.",)
    if left.against:
        cost = enumerated([spoken(check) for check in left.against])
        check = capital(spoken(finding.check))
        return lead, (f"{check} could only be mended at the cost of {cost}.", *by)
    if by:
        return lead, by
    told_later = any(finding.check in {one.finding.check for one in p.rest} for p in later)
    own = finding.verdict in ("wrong", "danger") and not (told_later or left.parted)
    how = finding.do if own else "" if told_later or left.parted or not finding.do else _MORE
    return lead, tuple(part for part in (f"{capital(left.reason)}.", how) if part)


def _said(findings: Iterable[Finding]) -> str:
    return "; ".join(
        f"{spoken(f.check)} ({judged_as(verdict_of(f), f.certainty)})" for f in findings
    )


def _to(audit: Audit, change: Change) -> str:
    ends = change.before, change.after
    before, after = told_apart(ends, change.unit, audit.system, change.quantity)
    return f"from {before} to {after}"
