"""How a tank's slow quantities went, as its earlier states tell."""

from __future__ import annotations

import datetime
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from interview import assembly, setups
from interview.advice.what_if.trends import Trend, past_extremes, trends
from interview.chat.faces.face import Face
from interview.graph.interview import Interview
from interview.report.naming import inside
from interview.setups.earlier import clock_was_wrong, past_files
from interview.vocabulary.phrases import in_words

__all__ = ["show_trends"]

_FORGOTTEN = (
    "{label}: within the last year it was {past}, on {date}; {now} counts now. Such days come "
    "again with the season: unless something keeps the room from it, type “change {name}” after "
    "the audit, then {past}."
)


def show_trends(face: Face, path: Path, interview: Interview) -> None:
    """List how shell, nitrate and lamp age went, in the order of writing."""
    now = datetime.datetime.now()
    today, past = now.date(), list(_past(path))
    states = [*((written.date(), known) for written, known in past), (today, interview.known())]
    rows = [(assembly.label_of(t.name), _told(t, interview, today)) for t in trends(states)]
    if rows:
        face.listing("Over time", rows)
    for end in past_extremes(states):
        label = assembly.label_of(end.name)
        face.say(
            _FORGOTTEN.format(
                label=label,
                name=inside(label),
                past=_shown(interview, end.name, end.value),
                now=_shown(interview, end.name, end.now),
                date=end.date.isoformat(),
            )
        )
    dates = [written for written, _ in past]
    if rows and (dates != sorted(dates) or any(clock_was_wrong(d, now) for d in dates)):
        face.say(
            "The dates above don't follow each other or can't be: a clock was wrong. What was "
            "written first stands first."
        )


def _told(trend: Trend, interview: Interview, today: datetime.date) -> str:
    """Its values with their dates; where another lamp burns, that it is one."""
    told = []
    for date, value in trend.points:
        when = "today" if date == today else f"on {date.isoformat()}"
        another = "another lamp, " if date in trend.renewed else ""
        told.append(f"{another}{_shown(interview, trend.name, value)} {when}")
    return "; ".join(told)


def _shown(interview: Interview, name: str, value: float) -> str:
    return in_words(value, interview.questionnaire.unit_of(name), interview.system, name)


def _past(path: Path) -> Iterator[tuple[datetime.datetime, dict[str, Any]]]:
    """When each earlier state was written and what was known; unreadable ones are left out."""
    for written, file in past_files(path):
        interview = assembly.new_interview()
        try:
            setups.fill(interview, setups.read(file, interview.questionnaire))
        except setups.SetupError:
            continue
        yield written, interview.known()
