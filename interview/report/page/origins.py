"""Where each number of the page comes from: status and source, and how far off it may be."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import TYPE_CHECKING

from interview.audit.sampling.sensitivity import sensitivities
from interview.care.facts import Fact, assumptions, doubts
from interview.report.blocks import Block, Heading, Paragraph, Table
from interview.report.cited import Cited, cited, joined, keys_of
from interview.report.naming import capital
from interview.vocabulary.phrases import rounded

if TYPE_CHECKING:
    from interview.audit.audit import Audit, Figure, GivenLike

__all__ = [
    "NO_ERROR",
    "assumed_for",
    "assumption_blocks",
    "doubt_for",
    "fact_said",
    "formula_origin",
    "limit_said",
    "readings_error",
    "usual_error",
]

NO_ERROR = "–"
"""Where nothing is known of how far off it may be, or it is no number or no formula's."""
_SWAYS = 0.1  # share of a number's variance from which an assumption is told
_NINETY_FIVE = 1.645  # sigmas from the middle to the 5 % and 95 % points


def fact_said(fact: Fact, system: str) -> Cited:
    """A limit or an assumption with what it is and where it comes from."""
    shown = limit_said(fact, system)
    return cited(fact.status, [fact.source]).inside(f"{shown}, {fact.meaning} (", ")")


def limit_said(fact: Fact, system: str) -> str:
    """A limit as people speak of it, without a sign: so much below, or so much of a rise."""
    value, below = fact.value, ""
    if isinstance(value, float) and value < 0 and fact.unit in ("m", "K"):
        value, below = -value, " below" if fact.unit == "m" else ""
    return f"{rounded(value, fact.unit, system, fact.name)}{below}"


def formula_origin(audit: Audit, name: str) -> Cited:
    """Status and sources of a computed quantity, statuses apart."""
    formula = audit.tank.best.wiring.formulas.get(name)
    if formula is None:
        return Cited(NO_ERROR)
    by_status: dict[str, list[str]] = {}
    for citation in formula.sources:
        by_status.setdefault(citation.status, []).append(citation.key)
    return joined(cited(status, keys) for status, keys in by_status.items())


def doubt_for(item: GivenLike) -> Fact | None:
    """What is known of how far off an answer may be; None for words and exact counts."""
    usual = doubts().get(item.name) or doubts().get(item.question)
    return usual and usual.by(getattr(item.value, "instrument", ""))


def usual_error(fact: Fact, system: str) -> str:
    """One sigma in words: “± 5 mm”, “± 5%”, “a factor of 1.25”; "" where there is none."""
    parts = []
    if fact.spread:
        unit = "K" if fact.unit == "degC" else fact.unit
        parts.append(f"± {rounded(fact.spread, unit, system, fact.name)}")
    if fact.relative:
        parts.append(f"± {100 * fact.relative:.3g}%")
    if fact.factor > 1:
        parts.append(f"a factor of {fact.factor:.3g}")
    return " and ".join(parts)


def readings_error(audit: Audit, parts: Sequence[GivenLike]) -> Cited:
    """How far off an answer usually is, why, and where that comes from."""
    first = parts[0]
    fact = doubt_for(first)
    low, high = (getattr(first.value, end, None) for end in ("low", "high"))
    if first.how == "assumed" and low is not None and high is not None and low < high:
        sigma = (high - low) / 2 / _NINETY_FIVE
        unit = "K" if first.unit == "degC" else first.unit
        return Cited(f"± {rounded(sigma, unit, audit.system, first.name)}")
    if fact is None or first.unit in ("choice", "yes/no"):
        return Cited(NO_ERROR)
    said = usual_error(fact, audit.system)
    if fact.status == "assumption":
        return Cited(said)
    return cited(fact.status, [fact.source]).inside(f"{said} (", ")")


def assumed_for(audit: Audit) -> tuple[Fact, ...]:
    """The assumptions that some figure or finding of this tank rests on."""
    best, given = audit.tank.best, {item.name for item in audit.readings}
    used: set[str] = set()
    wanted = [f.name for f in audit.figures.values() if f.how == "computed" and _asked(audit, f)]
    for name in wanted:
        used |= best.wiring.upstream(name)
    return tuple(
        fact for name, fact in sorted(assumptions().items()) if name in used and name not in given
    )


def _asked(audit: Audit, figure: Figure) -> bool:
    """Whether a figure has a number for this tank."""
    return figure.value is not None and figure.name in audit.tank.best.wiring.formulas


def assumption_blocks(audit: Audit, names: Iterable[str]) -> Iterator[Block]:
    """What the sums take for granted and what sways one of these numbers."""
    swaying = {
        source
        for name in names
        for source, share in sensitivities(name, audit.tank).items()
        if share >= _SWAYS
    }
    facts = [fact for fact in assumed_for(audit) if fact.name in swaying]
    if not facts:
        return
    yield Heading(2, "What the sums take for granted")
    yield Paragraph(
        "Nobody can be asked for these. Each goes into the sums with its doubt, as readings do. "
        "Here stand those that make a tenth or more of the doubt about a number above."
    )
    origins = [cited(fact.status, [fact.source]) for fact in facts]
    rows = (
        (
            capital(fact.meaning),
            rounded(fact.value, fact.unit, audit.system, fact.name),
            usual_error(fact, audit.system) or NO_ERROR,
            origin.text,
        )
        for fact, origin in zip(facts, origins, strict=True)
    )
    yield Table(
        ("What", "Taken as", "Usual error", "From"),
        tuple(rows),
        sources=keys_of(origins),
    )
