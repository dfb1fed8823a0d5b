"""Settings moved on until a danger that they end at best values is ended with all doubt too."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from interview.advice.levers.levers import Option
from interview.advice.plans.audited import Audited
from interview.advice.plans.choosing import BADNESS, when_ripe
from interview.advice.search.search import Mend, Search
from interview.audit.checks.findings import Finding
from interview.audit.grades import grade_all
from interview.core.numeric import is_number

__all__ = ["firm"]

_APART = (1, 2, 3, 4, 6, 8, 12, 16, 24)
"""So many settings further on, to both sides: near ones one by one, far ones in strides."""
_MOST_TRIED = 3
"""So many settings that clear the danger are tried on the whole tank."""
_MOST_MORE = 12
"""So many settings are tried of a lever that the plan does not move yet."""
_RISKS = ("", "possible", "likely")

_Options = tuple[Option, ...]


def firm(search: Search, mend: Mend, before: Sequence[Finding], audited: Audited) -> Mend:
    """The mend with settings that keep clear of danger by what the readings leave in doubt.

    Only where the grade is better for it and nothing else becomes wrong.
    """
    options = mend.options
    for check in _in_doubt(audited(options)):
        options = _further(search, options, check, before, audited) or options
    return mend if options is mend.options else search.with_only(mend, options)


def _in_doubt(findings: Sequence[Finding]) -> list[str]:
    """Checks that are dangerous, or may be, the likeliest first."""
    found = [f for f in findings if f.applies and _peril(f)]
    return [f.check for f in sorted(found, key=_peril, reverse=True)]


def _peril(finding: Finding) -> int:
    return len(_RISKS) if finding.verdict == "danger" else _RISKS.index(finding.risk)


def _further(
    search: Search, options: _Options, check: str, before: Sequence[Finding], audited: Audited
) -> _Options | None:
    """The options with one setting moved on, or a free one more; None where none is better."""
    now = audited(options)
    peril = _peril(next(f for f in now if f.check == check))
    tried = 0
    for moved in _ways(search, options, check):
        if _peril(audited.of(check, moved)) >= peril:
            continue
        if _betters(check, now, audited(moved), before):
            return moved
        tried += 1
        if tried == _MOST_TRIED:
            break
    return None


def _ways(search: Search, options: _Options, check: str) -> Iterator[_Options]:
    """The options with one of their settings moved on; then with one more that costs nothing."""
    for step in search.reaching(options, [check]):
        for other in _settings_near(search, step):
            yield tuple(other if o is step else o for o in options)
    set_already = {name for option in options for name in option.changes}
    for row in search.tables.options:
        lever = row[0].lever
        free = lever.cost == "free" and lever.price < 1 and lever.meant_for(check)
        more = [o for o in row[1:] if not set_already & set(o.changes)] if free else []
        if more and search.reaching(more[:1], [check]):
            for other in sorted(more, key=lambda o: o.steps)[:: max(1, len(more) // _MOST_MORE)]:
                yield (*options, other)


def _settings_near(search: Search, step: Option) -> Iterator[Option]:
    """Other settings of the step's lever that differ in its number only, the nearest first."""
    name = step.lever.name
    value = step.changes.get(name)
    if value is None or not is_number(value) or len(step.changes) != 1:
        return
    number = next((n for n, lev in enumerate(search.tables.levers) if lev is step.lever), None)
    if number is None:
        return
    alike = [o for o in search.tables.options[number] if set(o.changes) == {name}]
    offered = [o for o in alike if o.changes[name] is not None]  # None: not told
    offered.sort(key=lambda option: option.changes[name])
    at = next((n for n, o in enumerate(offered) if o.changes[name] == value), -1)
    for apart in _APART if at >= 0 else ():
        for place in (at + apart, at - apart):
            if 0 <= place < len(offered) and offered[place].steps:
                yield offered[place]


def _betters(
    check: str, now: Sequence[Finding], then: Sequence[Finding], before: Sequence[Finding]
) -> bool:
    """Whether a danger is ended or the grade better, and no other danger likelier.

    For a danger something may become wrong; for a mere chance of one nothing may.
    """
    was = {f.check: f for f in now}
    if any(_peril(f) > _peril(was[f.check]) for f in then if f.applies):
        return False
    if was[check].verdict == "danger":
        return True
    worse = any(f.verdict in BADNESS and was[f.check].verdict not in BADNESS for f in then)
    ranks = [grade_all(when_ripe(findings, before)).rank for findings in (then, now)]
    return not worse and ranks[0] < ranks[1]
