"""What is told in passing and can't wait for any answer: a shock, a fire, a person, a flood."""

from __future__ import annotations

from interview.words.intents.accidents import EMERGENCIES, tells_of
from interview.words.lexicon.files import sayings

__all__ = ["said_before_all"]


def said_before_all(line: str) -> str:
    """What can't wait, the gravest a line tells of; "" where it tells of nothing such."""
    told = next((one for one in EMERGENCIES if tells_of(one, line)), "")
    return str(getattr(sayings().emergencies, told)) if told else ""
