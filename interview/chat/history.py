"""Earlier states of a setup, kept in the folder `history` beside it."""

from __future__ import annotations

import datetime
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

from interview import assembly, setups
from interview.advice.what_if.trends import trends
from interview.chat.faces.face import Face
from interview.vocabulary.phrases import in_words

if TYPE_CHECKING:
    from interview.graph.interview import Interview
    from interview.graph.questions import Questionnaire

__all__ = ["keep_past", "last_whole", "show_trends", "written_at"]

_STAMP = "%Y-%m-%d-%H%M%S-%f"


def written_at(path: Path) -> datetime.datetime:
    """When the setup was last written."""
    return datetime.datetime.fromtimestamp(path.stat().st_mtime)


def keep_past(path: Path, setup: setups.Setup, written: datetime.datetime) -> None:
    """Put the setup as it was beside the new one, under the time it was last written."""
    name = f"{path.stem}-{written.strftime(_STAMP)}.yaml"
    setups.write(path.parent / "history" / name, setup)


def last_whole(path: Path, questionnaire: Questionnaire) -> setups.Setup | None:
    """The latest earlier state in which no answer was in doubt; None if none was kept."""
    for file in reversed(_files(path)):
        try:
            setup = setups.read(file, questionnaire)
        except setups.SetupError:
            continue
        if not setup.doubtful:
            return setup
    return None


def _files(path: Path) -> list[Path]:
    """The earlier states, the oldest first."""
    return sorted((path.parent / "history").glob(f"{path.stem}-*.yaml"))


def show_trends(face: Face, path: Path, interview: Interview) -> None:
    """List how shell, nitrate and lamp age went, where earlier rechecks tell."""
    today = datetime.date.today()
    states = [*_past(path), (today, interview.known())]
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


def _past(path: Path) -> Iterator[tuple[datetime.date, dict[str, Any]]]:
    """When each earlier state was written and what was known then; unreadable ones are left out."""
    for file in _files(path):
        try:
            date = datetime.datetime.strptime(file.stem[len(path.stem) + 1 :], _STAMP).date()
            interview = assembly.new_interview()
            setups.fill(interview, setups.read(file, interview.questionnaire))
        except (ValueError, setups.SetupError):
            continue
        yield date, interview.known()
