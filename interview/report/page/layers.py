"""The layers under the first page, each of which can be asked for by its name."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from types import MappingProxyType
from typing import TYPE_CHECKING, TypeAlias

from interview.core.errors import CannotWorkOut
from interview.report.blocks import Block, Heading, Paragraph
from interview.report.naming import spoken
from interview.report.page.closing import calendar_blocks, safety_notes
from interview.report.page.figures import numbers
from interview.report.page.plan_steps import plan_blocks
from interview.report.page.purchase import shopping_blocks, specification_blocks
from interview.report.page.sections import (
    finding_blocks,
    section_blocks,
    section_blocks_in_short,
)
from interview.report.page.to_measure import inconsistency_blocks, measure_blocks
from interview.report.regional import Worded

if TYPE_CHECKING:
    from interview.advice.advise import Advice
    from interview.audit.audit import Audit
    from interview.audit.checks.findings import Finding

__all__ = [
    *("LAYERS", "buy_layer", "checks_layer", "layer_blocks", "mishap_layer", "why_blocks"),
]


_MOST_AT_ONCE = 4


def buy_layer(audit: Audit, advice: Advice) -> Iterator[Block]:
    """Everything to get: for a planned tank by its list, else by the plans."""
    if advice.specification:
        yield from specification_blocks(advice)
    else:
        yield from shopping_blocks(audit, advice)


def checks_layer(audit: Audit) -> Iterator[Block]:
    """What to confirm, then every check with what it was held against."""
    yield from inconsistency_blocks(audit)
    yield from section_blocks(audit)


def _more(audit: Audit, advice: Advice) -> Iterator[Block]:
    """What is off and why, what to measure, and the safety notes, in short."""
    yield from inconsistency_blocks(audit)
    yield from section_blocks_in_short(audit)
    yield from measure_blocks(audit)
    yield from safety_notes(audit, whole=False)


def _plans(audit: Audit, advice: Advice) -> Iterator[Block]:
    yield from _or(plan_blocks(audit, advice), "No plan is needed: nothing wants a change.")


def _numbers(audit: Audit, advice: Advice) -> Iterator[Block]:
    yield from _or(numbers(audit), "Too little is known for any number yet.")


def _buy(audit: Audit, advice: Advice) -> Iterator[Block]:
    yield from _or(buy_layer(audit, advice), "Nothing has to be bought.")


def _calendar(audit: Audit, advice: Advice) -> Iterator[Block]:
    yield from _or(calendar_blocks(audit, advice), "A tank in planning has no calendar yet.")


def mishap_layer(audit: Audit) -> Iterator[Block]:
    """A sentence for each thing that may fail: what follows first, when, what would buy time."""
    from interview.advice.forecast.lanes import Lanes
    from interview.advice.forecast.side_by_side import mishaps_in_short
    from interview.report.forecast.mishap_page import in_short_blocks
    from interview.report.forecast.said import lacking_said

    try:
        lanes = Lanes.best(audit.tank.best)
    except CannotWorkOut as problem:
        yield Heading(2, "If something fails")
        yield from lacking_said({"mishap": problem}, audit.label_of, audit.system)
        return
    outcomes = mishaps_in_short(audit.tank, lanes)
    yield from in_short_blocks(outcomes, lanes.tank.lacking, audit.label_of, audit.system)


def _mishaps(audit: Audit, advice: Advice) -> Iterator[Block]:
    return mishap_layer(audit)


def layer_blocks(name: str, audit: Audit, advice: Advice) -> Iterator[Block]:
    """One layer, in the words of the keeper's region."""
    yield from Worded(audit.tank.lookup("region")).blocks(LAYERS[name](audit, advice))


def why_blocks(audit: Audit, about: str) -> list[Block]:
    """One check, or the few that go by these words, in full; empty where none does."""
    words = about.casefold().replace("_", " ").split()
    named = [f for f in audit.findings if words in (_words(f), f.check.split("_"))]
    found = named or [f for f in audit.findings if words and set(words) <= {*_words(f)}]
    blocks = finding_blocks(audit, found) if len(found) <= _MOST_AT_ONCE else ()
    return list(Worded(audit.tank.lookup("region")).blocks(blocks))


def _words(finding: Finding) -> list[str]:
    return [*spoken(finding.check).casefold().split()]


def _or(blocks: Iterator[Block], nothing: str) -> Iterator[Block]:
    """The blocks, or a sentence where there are none."""
    some = list(blocks)
    yield from some or [Paragraph(nothing)]


Layer: TypeAlias = "Callable[[Audit, Advice], Iterator[Block]]"
LAYERS: MappingProxyType[str, Layer] = MappingProxyType(
    {
        "more": _more,
        "plans": _plans,
        "numbers": _numbers,
        "buy": _buy,
        "calendar": _calendar,
        "mishaps": _mishaps,
    }
)
"""What a keeper can ask for after the first page, by the word they type."""
