"""Mishaps as a page, and the sentence on each that other pages take."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping, Sequence

from interview.advice.forecast.mishaps import Helped, Outcome, Passed
from interview.core.errors import CannotWorkOut
from interview.report.blocks import Block, Heading, Items, Paragraph
from interview.report.cited import Cited, keys_of, source_name
from interview.report.forecast.charts import mishap_drawings
from interview.report.forecast.said import CAUTION, in_hours, lacking_said
from interview.report.naming import capital
from interview.vocabulary.phrases import rounded

__all__ = ["in_short_blocks", "mishap_blocks", "mishap_sentence"]

_UNITS = {
    "water": "degC", "platform": "degC", "oxygen": "mg/L", "ammonia_free": "mg/L",
    "nitrate": "mg/L", "heater_cover": "m",
}  # fmt: skip
_WORTH_SAYING = 0.1
_TENTHS = 10
_OPEN = "not judged, as no limit is known of this tank yet"


def mishap_blocks(
    title: str,
    outcomes: Sequence[Outcome],
    lacking: Mapping[str, CannotWorkOut],
    label_of: Callable[[str], str],
    system: str,
) -> Iterator[Block]:
    """The page of all mishaps; arguments as of `day_blocks`."""
    yield Heading(1, f"If something fails: {title}")
    yield Items(tuple((one.mishap.title, _told(one, system)) for one in outcomes))
    yield from mishap_drawings(outcomes, system)
    yield from lacking_said(lacking, label_of, system)
    yield Paragraph(CAUTION)


def in_short_blocks(
    outcomes: Sequence[Outcome],
    lacking: Mapping[str, CannotWorkOut],
    label_of: Callable[[str], str],
    system: str,
) -> Iterator[Block]:
    """A sentence for each mishap that passes a limit; the others, and those not judged, by name.

    Arguments as of `day_blocks`.
    """
    told = [mishap_sentence(one, system) for one in outcomes if one.first]
    quiet = [one.mishap.title for one in outcomes if one.passed and not one.first]
    open_ = [one.mishap.title for one in outcomes if not one.passed]
    yield Heading(2, "If something fails")
    if told:
        parted = (one.text.partition(": ") for one in told)
        yield Items(tuple((title, (said,)) for title, _, said in parted))
        keys = keys_of(told)
        yield Paragraph(f"The limits: {', '.join(map(source_name, keys))}.", sources=keys)
    if quiet:
        yield Paragraph(f"Nothing watched passes its limit in: {'; '.join(quiet)}.")
    if open_:
        yield Paragraph(f"{capital(_OPEN)}: {'; '.join(open_)}.")
    yield from lacking_said(lacking, label_of, system)
    if any("blanket" in one.text for one in told):
        yield Paragraph("Before a blanket goes round a tank its lamps are unplugged.")
    yield Paragraph("“tankside mishap SETUP” shows each with its doubt and what to do.")
    yield Paragraph(CAUTION)


def mishap_sentence(outcome: Outcome, system: str) -> Cited:
    """What is passed first and when, and what would have bought most time, in one sentence."""
    title, first = outcome.mishap.title, outcome.first
    if first is None:
        what = "nothing that is watched passes its limit" if outcome.passed else _OPEN
        return Cited(f"{title}: {what}.")
    said = f"{title}: {_passing(first, system)}"
    if outcome.helped:
        best = max(outcome.helped, key=lambda one: one.when)
        said += f"; {_helping(best, system)}"
    return Cited(f"{said}.", (first.watched.source,))


def _told(outcome: Outcome, system: str) -> tuple[str, ...]:
    said = [
        capital(_passing(one, system, doubt=True)) + "." for one in outcome.passed if _comes(one)
    ]
    if outcome.heaters > 1 and outcome.mishap.needs == "heater":
        said.insert(0, f"It is one of {outcome.heaters}; the others work on.")
    never = [one for one in outcome.passed if not _comes(one)]
    maybe = [one for one in never if one.chance >= _WORTH_SAYING]
    if not outcome.passed:
        said.append(f"{capital(_OPEN)}.")
    if never and not any(map(_comes, outcome.passed)):
        said.append("Nothing that is watched passes its limit.")
    said += [capital(_perhaps(one, system)) for one in maybe]
    if outcome.helped:
        said.append(capital("; ".join(_helping(one, system) for one in outcome.helped)) + ".")
    if any(one.watched.of == "water" for one in outcome.passed):
        end = "falls to" if outcome.lowest else "reaches"
        said.append(f"The water {end} {rounded(outcome.water.best, 'degC', system)}.")
    return (*said, " ".join(outcome.do))


def _comes(one: Passed) -> bool:
    return math.isfinite(one.when.best)


def _limit(one: Passed, system: str) -> str:
    value = rounded(one.value, _UNITS[one.watched.of], system)
    return one.watched.say.replace("{limit}", value)


def _passing(one: Passed, system: str, *, doubt: bool = False) -> str:
    what = _limit(one, system)
    if one.when.best < 60:
        return f"{what} before it begins"
    said = f"{what} after {in_hours(one.when.best, system)}"
    return f"{said} ({_likely(one, system)})" if doubt else said


def _likely(one: Passed, system: str) -> str:
    early, late = (in_hours(when, system) for when in (one.when.low, one.when.high))
    if late == "never":
        return (
            "likely at any time, or never" if early == "at once" else f"from {early} on, or never"
        )
    return f"likely within {late}" if early == "at once" else f"likely {early} to {late}"


def _perhaps(one: Passed, system: str) -> str:
    odds = max(round(one.chance * _TENTHS), 1)
    soonest = in_hours(one.when.low, system) if math.isfinite(one.when.low) else ""
    when = f", at the soonest after {soonest}" if soonest and soonest != "at once" else ""
    often = "once" if odds == 1 else f"{odds} times"
    return f"with the doubt of what was told, {often} in 10 {_limit(one, system)}{when}."


def _helping(one: Helped, system: str) -> str:
    if math.isinf(one.when):
        return f"with {one.say} not within that time"
    return f"with {one.say} not before {in_hours(one.when, system)}"
