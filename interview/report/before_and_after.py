"""Before and after: what a change did to the audit."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, TypeAlias

from interview.audit.checks.findings import NOTHING
from interview.audit.grades import NO_GRADE
from interview.report.blocks import Block, Heading, Items, Paragraph, Table
from interview.report.naming import capital, inside, spoken
from interview.vocabulary.phrases import in_words, told_apart
from interview.vocabulary.vocabulary import in_table

if TYPE_CHECKING:
    from interview.advice.what_if.comparison import Turn
    from interview.audit.audit import Audit
    from interview.audit.checks.findings import Finding
    from interview.audit.tank import Tank

__all__ = ["comparison_blocks", "in_a_word"]

_RANK = {"danger": 0, "wrong": 1, "close": 2, "good": 3, NOTHING: 3}
_STRONG = 0.25
"""The share of the wanted range, or of its one limit, by which a value moved strongly."""
_STRONG_OUTSIDE = 0.1
"""The same for a value that lies outside what is wanted already."""
_OFF = {"danger": "dangerous", "wrong": "wrong"}
_NAMED = 3
"""Verdicts that are named where a change is told in a word."""
_NEWS = (("What got worse", -1), ("What got better", 1), ("Judged otherwise", 0))
_News: TypeAlias = tuple[int, int, str, tuple[str, ...]]
"""Worse, better or neither; how grave it is now; the lead and what there is to say."""


def _before_and_now(before: str, after: str) -> str:
    """Both grades as a sentence, where one or both are wanting too."""
    if before == after == NO_GRADE:
        return "No grade yet, before and now."
    if before == NO_GRADE:
        return f"No grade before, grade {after} now."
    return f"Grade {before} before, {after} now."


def in_a_word(before: Audit, after: Audit) -> str:
    """Whether a change does good, in a sentence or two: yes, no, both, or no change.

    The gravest is named first; what it makes wrong and nobody could judge before is told too.
    """
    from interview.advice.what_if.comparison import compare

    found = compare(before, after)
    news = sorted((*map(_turned, found.turns), *_shifts(before, after)), key=lambda row: row[1])
    led = [(way, inside(lead.partition(":")[0])) for way, _, lead, _ in news]
    fresh = [one for one in found.turns if one.before not in _RANK and one.after in _OFF]
    fresh.sort(key=lambda turn: _RANK[turn.after])
    first = [f"{inside(spoken(one.check))} would be {_OFF[one.after]}" for one in fresh]
    better, worse = (_in_short([name for way, name in led if way == one]) for one in (1, -1))
    if better and worse:
        said = f"Yes and no: {better} would get better, {worse} worse."
    elif better and first:
        said = f"Yes and no: {better} would get better."
    elif better:
        said = f"Yes, that would help: {better} would get better, and nothing worse."
    elif worse:
        said = f"No, that would do no good: {worse} would get worse, and nothing better."
    elif found.grade_after == NO_GRADE and not first:
        said = "That I can't tell yet: too little of the tank is known."
    else:
        said = "" if first else "No change to speak of: nothing would get better or worse."
    if first:
        said = f"{said} Not judged before: {_in_short(first)}.".strip()
    is_same = found.grade_before == found.grade_after
    return said if is_same else f"{said} {_before_and_now(found.grade_before, found.grade_after)}"


def _in_short(names: Sequence[str]) -> str:
    more = f" and {len(names) - _NAMED} more" if len(names) > _NAMED else ""
    return f"{', '.join(names[:_NAMED])}{more}"


def comparison_blocks(before: Audit, after: Audit) -> Iterator[Block]:
    """What a change did: first what got worse, then what got better, then the figures."""
    from interview.advice.what_if.comparison import compare

    found = compare(before, after)
    yield Heading(2, "Before and after")
    yield Paragraph(_before_and_now(found.grade_before, found.grade_after), True)
    yield from _more_or_fewer(before.tank, after.tank)
    news = sorted((*map(_turned, found.turns), *_shifts(before, after)), key=lambda row: row[1])
    if not news:
        yield Paragraph("No verdict changed.")
    for title, wanted in _NEWS:
        rows = tuple((lead, said) for way, _, lead, said in news if way == wanted)
        if rows:
            yield Heading(3, title)
            yield Items(rows)
    yield from _to_take_again(after)
    figures = tuple(_moved_figures(before, after))
    if figures:
        yield Heading(3, "Figures")
        yield Table(("What", "Before", "Now"), figures)
    sections = tuple((name.capitalize(), old, new) for name, old, new in found.sections)
    if sections:
        yield Heading(3, "Sections")
        yield Table(("Section", "Before", "Now"), sections)


def _more_or_fewer(before: Tank, after: Tank) -> Iterator[Block]:
    """Why so much is judged otherwise, where other turtles than before are the measure of it."""
    many, long = "animal_count", "largest_carapace_length"
    then, now = (float(tank.lookup(many) or 0) for tank in (before, after))
    shells = before.lookup(long), after.lookup(long)
    if then == now or None in shells or shells[0] == shells[1]:
        return
    was, new = told_apart(shells, "m", after.system, long)
    which = "that are left" if now < then else "that are there now"
    yield Paragraph(
        f"{round(then)} turtles before, {round(now)} now: what hangs on size, as reach and room, "
        f"is judged by those {which}. The longest shell was {was} and is {new}."
    )


def _to_take_again(after: Audit) -> Iterator[Block]:
    """Readings taken before the change that don't hold of the tank after it."""
    stale = [after.label_of(name) for name in after.stale]
    if stale:
        yield Paragraph(
            f"Read before the change, so of the tank as it was: {', '.join(stale)}. "
            "What stands here is worked out from that; measure again once it is changed."
        )


def _turned(turn: Turn) -> _News:
    old, new = _RANK.get(turn.before), _RANK.get(turn.after)
    way = 0 if old is None or new is None else (new > old) - (new < old)
    sure = turn.after in ("unmeasured", NOTHING) or turn.certainty == "sure"
    after = turn.after if sure else f"{turn.after}, {turn.certainty}"
    lead = f"{capital(spoken(turn.check))}: {turn.before} → {after}"
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
            nearer = ", but nearer to a limit" if new.verdict == "good" and way < 0 else ""
            lead = f"{capital(spoken(new.check))}: still {new.verdict}{nearer}"
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
    strong = _STRONG if room_then >= 0 else _STRONG_OUTSIDE
    if abs(now - then) < strong * wide or (room_then > wide and room_now > wide):
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
    moved = f"{capital(audit.label_of(finding.measures))} went from {was} to {new}"
    good = finding.verdict == "good"
    if any((_room(value, low, high) >= 0) != good for value in (then, now)):
        return f"{moved}. {finding.say}"  # the band alone doesn't tell what counts
    if len(edges) == 2:
        wanted = " to ".join(edges)
    else:
        wanted = f"{'at least' if high is None else 'at most'} {edges[0]}"
    return f"{moved}; wanted is {wanted}."


def _moved_figures(before: Audit, after: Audit) -> Iterator[tuple[str, ...]]:
    """The figures people know by name that read differently now."""
    for name in in_table("moved"):
        old, new = before.figures.get(name), after.figures.get(name)
        if old is None or new is None or old.value is None or new.value is None:
            continue
        was, now = (in_words(f.value, f.unit, after.system, name) for f in (old, new))
        if was != now:
            pair = told_apart((old.value, new.value), new.unit, after.system, name)
            yield capital(after.label_of(name)), *pair
