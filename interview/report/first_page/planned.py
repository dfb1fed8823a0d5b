"""What the first page says of a tank that isn't set up yet: what comes before and after buying."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from interview.care.facts import limits
from interview.report.first_page.sentences import sentences
from interview.report.first_page.step import Step, step_of
from interview.report.naming import capital
from interview.vocabulary.phrases import fill, in_words

if TYPE_CHECKING:
    from interview.advice.advise import Advice
    from interview.advice.purchase.planning import Specification
    from interview.audit.audit import Audit
    from interview.audit.checks.findings import Finding

__all__ = ["before_buying", "forbidden_by_law", "in_order", "listed_by", "settled_by"]

_BEFORE_BUYING = ("invasive_law", "hygiene")
_FINE = ("good", "unmeasured")
_ENDED = ("good", "close")
_GRAVE = ("wrong", "danger")
_STEPS = (
    "Buy what is listed, no turtle yet. Put the empty tank on its level stand, fill it, and "
    "watch two days for leaks.",
    "Heater under water, conditioner in, then plug in behind a GFCI or RCD. Move the lamps until "
    "the basking spot reads {basking_band_low} to {basking_band_high}.",
    "Filter on, daily a pinch of food. Ammonia and nitrite rise; when both stay near zero for a "
    "week, get the turtle.",
)
"""The order of setting up in short; the list has it in full."""
_SALE = "us_sale_length"


def listed_by(audit: Audit, advice: Advice | None) -> Specification | None:
    """The list that a planned tank is bought by; None where there is none."""
    planned = audit.tank.lookup("stage") == "planning"
    listed = advice.specification if advice else None
    return listed if planned and listed and listed.rows else None


def forbidden_by_law(audit: Audit) -> bool:
    """Whether a tank is planned for an animal that may not be bought."""
    law = next((f for f in audit.findings if f.check == "invasive_law"), None)
    planned = audit.tank.lookup("stage") == "planning"
    return bool(planned and law and law.applies and law.verdict in _GRAVE)


def before_buying(audit: Audit, listed: Specification | None) -> Iterator[Step]:
    """What is decided before anything is bought: the law, who lives there, the floor."""
    found = {f.check: f for f in audit.findings if f.applies and f.verdict not in _FINE}
    for finding in filter(None, map(found.get, _BEFORE_BUYING)):
        yield replace(step_of(finding), do=f"{finding.say} {finding.do}")
    for row in listed.rows if listed else ():
        if row.what == "Floor":
            first, *rest = sentences(row.specification)
            whom_to_ask = (said for said in rest if "engineer" in said)
            told = dict.fromkeys((first, *whom_to_ask, *rest[-1:]))
            yield Step(0, capital(" ".join(told)), ("floor_load",), "The floor")


def settled_by(listed: Specification | None, before: Sequence[Step]) -> frozenset[str]:
    """The checks whose danger the list ends, or what is decided before buying settles.

    Args:
        listed: the list; without one nothing is settled
        before: what is decided before anything is bought
    """
    if listed is None:
        return frozenset()
    ended = {f.check for f in listed.findings if not f.applies or _is_fine(f)}
    return frozenset(ended.union(*(step.about for step in before)))


def _is_fine(finding: Finding) -> bool:
    """Whether it is known to be right; not what nobody has measured or what is likely wrong."""
    return finding.verdict in _ENDED and finding.risk != "likely"


def in_order(audit: Audit, listed: Specification | None) -> Iterator[Step]:
    """How it is set up, in three steps; the turtle is of a size that may be sold."""
    if listed is None:
        return
    tank = listed.tank
    law = next((f for f in audit.findings if f.check == "small_turtle_law" and f.applies), None)
    young = law is not None and law.verdict not in _FINE
    least = limits()[_SALE]
    small = f", none under {in_words(least.value, least.unit, tank.system)}" if young else ""
    for step in _STEPS:
        said = fill(step, tank.lookup, tank.unit_of, tank.system)
        if said:
            said = said.replace("get the turtle", f"get the turtle{small}")
            yield Step(0, said.replace("turtle", "turtles") if audit.tank.several else said)
