"""What is wrong with the setups that are shown."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from pathlib import Path

from interview.base.places import demo_folder, file_said
from interview.graph.interview import Interview

__all__ = ["faults_of_demos"]


def faults_of_demos(new_interview: Callable[[], Interview]) -> Iterator[str]:
    """What is wrong with the setups that are shown."""
    from interview import setups

    for path in sorted(demo_folder().glob("*.yaml")):
        interview = new_interview()
        try:
            setup = setups.read(path, interview.questionnaire)
        except setups.SetupError as problem:
            yield str(problem)
            continue
        try:
            setups.fill(interview, setup)
        except setups.SetupError as problem:
            for fault in str(problem).split("\n  "):
                yield f"{file_said(path)}, line {_line_of(fault, path)}: {fault}"


def _line_of(fault: str, path: Path) -> int:
    """The line of the answer that a sentence on a setup begins with; 1 if it isn't found."""
    name = re.match(r"\w*", fault)
    wanted = re.compile(rf"\b{name[0] if name else ''}:")
    lines = path.read_text(encoding="utf-8").splitlines()
    return next((n for n, line in enumerate(lines, start=1) if wanted.search(line)), 1)
