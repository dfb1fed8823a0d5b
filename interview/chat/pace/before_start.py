"""What is told before the first question: how to answer, how long it takes, what to fetch."""

from __future__ import annotations

from collections.abc import Iterator

from interview.graph.interview import Interview

__all__ = ["before_start"]


def before_start(interview: Interview) -> Iterator[str]:
    """How to answer, the minutes of the first look and of the whole, and the tools."""
    yield "Answer one by one, or tell me what you know in a few sentences first."
    yield "Type “why”, “how”, “not sure”, “skip”, “back”, “show” or “stop” at any time."
    first, whole = interview.minutes_left(first_look=True), interview.minutes_left()
    yield (
        f"The first look takes about {round(first)} minutes, all of it about {round(whole)}; "
        "“done” ends with the audit of what is known. Fetch first what you have of: a tape "
        "measure, a thermometer for room and water, an infrared thermometer for the basking "
        "spot, a water test kit, a small scale. “not sure” does for the rest."
    )
