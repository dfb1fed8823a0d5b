"""The workable windows as blocks of the page: where each check holds as a lever moves."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from interview.advice.plans.choosing import told
from interview.report.blocks import Block, Drawing, Heading, Paragraph
from interview.report.charted import chart_blocks, drawing_of
from interview.report.first_page.sentences import enumerated
from interview.report.naming import spoken
from interview.report.pictures.charts.of_windows import window_map
from interview.report.pictures.window_chart import window_chart
from interview.vocabulary.phrases import ranged, rounded

if TYPE_CHECKING:
    from interview.advice.advise import Advice
    from interview.advice.window import Pairing, Window
    from interview.audit.audit import Audit

__all__ = ["window_blocks"]

_WATER, _LAMP = "water_line_below_rim", "heat_lamp_height"
_TITLES = {
    _WATER: "The workable water line",
    _LAMP: "The workable height of the heat lamp",
}


def window_blocks(audit: Audit, advice: Advice) -> Iterator[Block]:
    """The windows in which the levers may move, each as a chart."""
    for window in advice.windows:
        yield from _window(audit, window)
    if advice.together:
        yield from _together(audit, advice, advice.together)
    elif _unmeasured(audit):
        yield Heading(2, _TITLES[_LAMP])
        yield Paragraph(
            "Nothing can be told of it before the basking surface is measured: read it under the "
            "lamp with an infrared thermometer, an hour after the lamp came on."
        )
    yield from chart_blocks(audit, advice)


def _unmeasured(audit: Audit) -> bool:
    """Whether there is a heat lamp over a tank in use whose warmth nobody has read."""
    look = audit.tank.lookup
    return (
        look("stage") != "planning"
        and look("heat_lamp_kind") not in (None, "none")
        and look("lamp_heat") is None
    )


def _window(audit: Audit, window: Window) -> Iterator[Block]:
    if not window.spans and not window.never:
        return
    yield Heading(2, _TITLES[window.lever])
    yield Paragraph(_verdict(audit, window))
    if not window.spans:
        return
    words = "; ".join(
        f"{spoken(s.check)} from {_between(audit, window, s.low, s.high)}" for s in window.spans
    )
    yield Drawing(window_chart(window, audit.system), f"Each holds so far: {words}.")


def _verdict(audit: Audit, window: Window) -> str:
    label = audit.label_of(window.lever)
    now = f"Now: {rounded(window.now, window.unit, audit.system, window.lever)}."
    never = f" {_never(window.never)}" if window.never else ""
    if window.low is not None and window.high is not None:
        span = _between(audit, window, window.low, window.high)
        what = "all the rest" if never else "all that this decides"
        return f"{label}: {what} holds from {span}. {now}{never}"
    return f"{label}: no single setting suits all; {_clash(window.against)}. {now}{never}"


def _never(checks: Sequence[str]) -> str:
    """What holds at no setting: another change has to mend it."""
    wants = "that wants" if len(checks) == 1 else "those want"
    return f"At no setting of this alone: {_named(checks)}; {wants} another change."


def _clash(checks: Sequence[str]) -> str:
    return f"{_named(checks)} exclude each other"


def _named(checks: Sequence[str]) -> str:
    return enumerated([*map(spoken, checks)])


def _together(audit: Audit, advice: Advice, found: Pairing) -> Iterator[Block]:
    yield Heading(2, "Water line and heat lamp together")
    if not any(row.low is not None for row in found.rows):
        yield Paragraph(
            "No water line and lamp height suit all that these two decide: "
            f"{_clash(found.against)}."
        )
        return
    plan = told(advice.plans)
    after = plan.carried_out(audit.tank) if plan else None
    drawn = [drawing_of(picture) for picture in window_map(audit.tank, after, found)]
    yield from drawn
    if drawn:
        return
    for row in found.rows:
        if row.low is not None and row.high is not None:
            line = rounded(row.water_line_below_rim, "m", audit.system, _WATER)
            lamps = ranged(row.low, row.high, "m", audit.system, _LAMP, spoken=True)
            yield Paragraph(f"All holds with the water line at {line} and the lamp at {lamps}.")


def _between(audit: Audit, window: Window, low: float, high: float) -> str:
    return ranged(low, high, window.unit, audit.system, window.lever, spoken=True)
