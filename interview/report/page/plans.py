"""The advice as blocks of the page: plans, windows, what to buy, the calendar."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from typing import TYPE_CHECKING, TypeAlias

from interview.audit.grades import NO_GRADE
from interview.base.phrases import in_words, told_apart
from interview.report.blocks import Block, Heading, Items, Paragraph, Table, capital

if TYPE_CHECKING:
    from interview.advice.advise import Advice
    from interview.advice.plans.plans import Change, Plan
    from interview.advice.what_if.comparison import Turn
    from interview.audit.audit import Audit
    from interview.audit.checks.findings import Finding
    from interview.audit.grades import Grades

__all__ = [
    "calendar_blocks", "change_blocks", "comparison_blocks", "plan_blocks", "spoken",
]  # fmt: skip


def spoken(check: str) -> str:
    """A check's id as people say it."""
    words = check.replace("_", " ")
    return words.replace("uv ", "UV ").replace("rcd", "RCD or GFCI")


def change_blocks(audit: Audit, advice: Advice) -> Iterator[Block]:
    """What to get, and the plans."""
    yield from _specification(advice)
    yield from plan_blocks(audit, advice)


def calendar_blocks(advice: Advice) -> Iterator[Block]:
    """What is due when."""
    if advice.duties:
        yield Heading(2, "Calendar")
        yield Table(("When", "What"), tuple((d.when, d.what) for d in advice.duties))


# ---- plans


def plan_blocks(audit: Audit, advice: Advice) -> Iterator[Block]:
    """The plans, each with the grade it leads to, checked by auditing the changed tank."""
    if not advice.plans:
        if advice.would:
            wrong = [f for f in audit.findings if f.applies and f.verdict in ("wrong", "danger")]
            yield Heading(2, "What would put it right")
            yield Paragraph(f"Nothing that is moved or bought for this tank mends: {_said(wrong)}.")
            yield Paragraph(advice.would)
        return
    yield Heading(2, "The smallest set of changes")
    yield Paragraph(
        "Each plan was tried on the whole tank, with everything that moves along, and the "
        "changed tank audited again."
    )
    above: list[str] = []
    for plan in advice.plans:
        yield Heading(3, f"{plan.name}: leads to {_grade(plan.grades)}{_once_ripe(plan)}")
        said = [change.say for change in plan.changes if change.say]
        yield from _steps(plan, said, above)
        yield from _afterwards(audit, plan)
        above = said
    if advice.would:
        yield Heading(3, "What would mend the rest")
        yield Paragraph(advice.would)


def _and(items: Sequence[str]) -> str:
    """a; a and b; a, b and c."""
    *most, last = items
    return f"{', '.join(most)} and {last}" if most else last


def _steps(plan: Plan, said: Sequence[str], above: Sequence[str]) -> Iterator[Block]:
    """The steps, those of the day first; those of the plan above only named."""
    without = [str(n) for n, step in enumerate(above, start=1) if step not in said]
    if above and len(without) * 4 <= len(above):
        but = f" without {_and(without)}" if without else ""
        yield Paragraph(f"The steps above{but}, and:")
        yield _list([step for step in said if step not in above], len(above))
    elif plan.then:
        yield Paragraph(f"Today, before anything else; this alone leads to {_grade(plan.then)}:")
        yield _list(said[: plan.urgent])
        yield Paragraph("Then, in the days after:")
        yield _list(said[plan.urgent :], plan.urgent)
    else:
        yield _list(said)


def _list(said: Sequence[str], before: int = 0) -> Items:
    return Items(tuple((step, ()) for step in said), numbered=True, start=before + 1)


def _grade(grades: Grades) -> str:
    if grades.overall == NO_GRADE:
        return "no grade yet"
    return "STOP still" if grades.stop else f"grade {grades.overall}"


def _once_ripe(plan: Plan) -> str:
    """That a new filter has to ripen first, and the grade until then."""
    if plan.meanwhile is None:
        return ""
    return f" once the new filter is ripe, {_grade(plan.meanwhile)} until then"


def _afterwards(audit: Audit, plan: Plan) -> Iterator[Block]:
    if plan.moved:
        moved = "; ".join(f"{audit.label_of(m.quantity)} {_to(audit, m)}" for m in plan.moved)
        yield Paragraph(f"Moves along by itself: {moved}.")
    for section, before, after in plan.worse:
        yield Paragraph(f"The price: {section} goes from {before} to {after}.")
    if plan.left:
        yield Paragraph(f"Not mended by this: {_said(plan.left)}.")
    if risky := [f for f in plan.findings if f.applies and f.warning]:
        chances = "; ".join(f"{spoken(f.check)} ({f.warning:.0%})" for f in risky)
        yield Paragraph(f"A chance of danger stays, until it is measured: {chances}.")
    left = {finding.check for finding in (*plan.left, *risky)}
    if nearer := [finding for finding in plan.nearer if finding.check not in left]:
        yield Paragraph(f"Nearer to a limit than today: {_said(nearer)}.")
    for check, *others in plan.against:
        cost = " and ".join(map(spoken, others))
        yield Paragraph(f"{capital(spoken(check))} could only be mended at the cost of {cost}.")


def _said(findings: Iterable[Finding]) -> str:
    return "; ".join(f"{spoken(f.check)} ({f.verdict})" for f in findings)


def _to(audit: Audit, change: Change) -> str:
    ends = change.before, change.after
    before, after = told_apart(ends, change.unit, audit.system, change.quantity)
    return f"from {before} to {after}"


# ---- planning


def _specification(advice: Advice) -> Iterator[Block]:
    specification = advice.specification
    if specification is None:
        return
    yield Heading(2, "What to get, by specification")
    if specification.impossible:
        yield Paragraph(specification.impossible, True)
    if not specification.rows:
        return
    turtle = "turtles" if specification.tank.several else "turtle"
    serves = "for the years until then" if specification.impossible else "now and grown"
    yield Paragraph(
        f"The least that serves the {turtle} {serves}. The audit of what you have decided so far "
        "stands by itself."
    )
    yield Table(
        ("What", "Specification"), tuple((r.what, r.specification) for r in specification.rows)
    )
    if specification.kept:
        yield Paragraph(f"Kept as you decided: {'; '.join(specification.kept)}.")
    if specification.refused:
        yield Heading(3, "What you decided and the list can't keep")
        yield Items(tuple((capital(r.what), (r.why,)) for r in specification.refused))
    yield Heading(3, "In this order")
    yield Items(tuple((step, ()) for step in specification.sequence), numbered=True)


# ---- before and after

_RANK = {"danger": 0, "wrong": 1, "close": 2, "good": 3}
_STRONG = 0.25
"""The share of the wanted range, or of its one limit, by which a value moved strongly."""


def _before_and_now(before: str, after: str) -> str:
    """Both grades as a sentence, where one or both are wanting too."""
    if before == after == NO_GRADE:
        return "No grade yet, before and now."
    if before == NO_GRADE:
        return f"No grade before, grade {after} now."
    return f"Grade {before} before, {after} now."


def comparison_blocks(before: Audit, after: Audit) -> Iterator[Block]:
    """What a change did: first what got worse, then what got better, then the figures."""
    from interview.advice.what_if.comparison import compare

    found = compare(before, after)
    yield Heading(2, "Before and after")
    yield Paragraph(_before_and_now(found.grade_before, found.grade_after), True)
    if not found.turns:
        yield Paragraph("No verdict changed.")
    news = sorted((*map(_turned, found.turns), *_shifts(before, after)), key=lambda row: row[1])
    for title, wanted in _NEWS:
        rows = tuple((lead, said) for way, _, lead, said in news if way == wanted)
        if rows:
            yield Heading(3, title)
            yield Items(rows)
    figures = tuple(_moved_figures(before, after))
    if figures:
        yield Heading(3, "Figures")
        yield Table(("What", "Before", "Now"), figures)
    sections = tuple((name.capitalize(), old, new) for name, old, new in found.sections)
    if sections:
        yield Heading(3, "Sections")
        yield Table(("Section", "Before", "Now"), sections)


_NEWS = (("What got worse", -1), ("What got better", 1), ("Judged otherwise", 0))
_News: TypeAlias = tuple[int, int, str, tuple[str, ...]]
"""Worse, better or neither; how grave it is now; the lead and what there is to say."""


def _turned(turn: Turn) -> _News:
    old, new = _RANK.get(turn.before), _RANK.get(turn.after)
    way = 0 if old is None or new is None else (new > old) - (new < old)
    lead = f"{capital(spoken(turn.check))}: {turn.before} → {turn.after}"
    return way, len(_RANK) if new is None else new, lead, (turn.say,)


def _shifts(before: Audit, after: Audit) -> Iterator[_News]:
    """Findings whose verdict stood while the value left its band, came in or moved strongly."""
    old = {finding.check: finding for finding in before.findings}
    for new in after.findings:
        was = old[new.check]
        pair = was.value, new.value
        if was.verdict != new.verdict or not (was.applies and new.applies) or not new.band:
            continue
        if not all(isinstance(v, float | int) and not isinstance(v, bool) for v in pair):
            continue
        now, then = float(new.value), float(was.value)  # type: ignore[arg-type]
        way = _way(then, now, new.band)
        if way:
            lead = f"{capital(spoken(new.check))}: still {new.verdict}"
            yield way, len(_RANK) + 1, lead, (_shift(after, new, then, now),)


def _way(then: float, now: float, band: tuple[float | None, float | None]) -> int:
    """-1 where the value left the band or went far towards its edge, 1 the other way, else 0."""
    low, high = band
    if not (math.isfinite(then) and math.isfinite(now)):
        return 0
    room_then, room_now = _room(then, low, high), _room(now, low, high)
    if (room_then >= 0) != (room_now >= 0):
        return 1 if room_now >= 0 else -1
    wide = high - low if low is not None and high is not None else abs(low or high or 0.0)
    if abs(now - then) < _STRONG * wide or (room_then > wide and room_now > wide):
        return 0
    return (room_now > room_then) - (room_now < room_then)


def _room(value: float, low: float | None, high: float | None) -> float:
    """How far inside its band a value lies; under nothing where it is outside."""
    above = math.inf if low is None else value - low
    below = math.inf if high is None else high - value
    return min(above, below)


def _shift(audit: Audit, finding: Finding, then: float, now: float) -> str:
    low, high = finding.band or (None, None)
    values = [then, now, *(edge for edge in (low, high) if edge is not None)]
    was, new, *edges = told_apart(values, finding.unit, audit.system, finding.measures)
    if len(edges) == 2:
        wanted = " to ".join(edges)
    else:
        wanted = f"{'at least' if high is None else 'at most'} {edges[0]}"
    label = audit.label_of(finding.measures)
    return f"{capital(label)} went from {was} to {new}; wanted is {wanted}."


def _moved_figures(before: Audit, after: Audit) -> Iterator[tuple[str, str, str]]:
    """The figures people know by name that read differently now."""
    for name in _KNOWN:
        old, new = before.figures.get(name), after.figures.get(name)
        if old is None or new is None or old.value is None or new.value is None:
            continue
        was, now = (in_words(f.value, f.unit, after.system, name) for f in (old, new))
        if was != now:
            yield capital(after.label_of(name)), was, now


_KNOWN = (
    "water_line_below_rim",
    "water_volume",
    "water_depth",
    "escape_height",
    "heat_lamp_height",
    "uvb_lamp_height",
    "platform_temperature",
    "shell_temperature",
    "shell_temperature_hot_day",
    "uv_index_shell",
    "heater_cover",
    "heat_loss",
    "heater_margin",
    "stuck_heater_temperature",
    "turnover",
    "nitrate_peak",
    "filled_mass",
    "energy_per_month",
)
