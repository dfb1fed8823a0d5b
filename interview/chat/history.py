"""How a tank's slow quantities went, as its earlier states tell."""

from __future__ import annotations

import datetime
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from interview import assembly, setups
from interview.advice.what_if.trends import trends
from interview.chat.faces.face import Face
from interview.graph.interview import Interview
from interview.setups.earlier import clock_was_wrong, past_files
from interview.vocabulary.phrases import in_words

__all__ = ["show_trends"]


def show_trends(face: Face, path: Path, interview: Interview) -> None:
    """List how shell, nitrate and lamp age went, in the order of writing."""
    now = datetime.datetime.now()
    today, past = now.date(), list(_past(path))
    states = [*((written.date(), known) for written, known in past), (today, interview.known())]
    rows = []
    for trend in trends(states):
        unit = interview.questionnaire.unit_of(trend.name)
        told = [
            f"{in_words(value, unit, interview.system, trend.name)} "
            f"{'today' if date == today else f'on {date.isoformat()}'}"
            for date, value in trend.points
        ]
        rows.append((assembly.label_of(trend.name), ", ".join(told)))
    if rows:
        face.listing("Over time", rows)
    dates = [written for written, _ in past]
    if rows and (dates != sorted(dates) or any(clock_was_wrong(d, now) for d in dates)):
        face.say(
            "The dates above don't follow each other or can't be: a clock was wrong. What was "
            "written first stands first."
        )


def _past(path: Path) -> Iterator[tuple[datetime.datetime, dict[str, Any]]]:
    """When each earlier state was written and what was known; unreadable ones are left out."""
    for written, file in past_files(path):
        interview = assembly.new_interview()
        try:
            setups.fill(interview, setups.read(file, interview.questionnaire))
        except setups.SetupError:
            continue
        yield written, interview.known()
