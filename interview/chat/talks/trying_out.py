"""A what-if within the talk: the tank as it would be beside the tank as it is."""

from __future__ import annotations

from interview.chat.faces.face import Face
from interview.chat.talks.ahead import Ahead
from interview.graph.interview import Interview

__all__ = ["try_out"]


def try_out(interview: Interview, face: Face, ahead: Ahead, line: str) -> None:
    """Audit the tank as it would be, and show what moves; nothing is recorded."""
    from interview.chat.hearing.what_if import NotAnIf, read_what_if, said_back
    from interview.supposing import suppose

    try:
        changes = read_what_if(interview, line)
    except NotAnIf as problem:
        face.say(str(problem), "refusal")
        return
    face.say(said_back(interview, changes))
    before = ahead.audit(interview, "")
    face.compare(before, suppose(before, interview.given(), changes))
    face.say("That was only a what-if; your answers stand as they are.")
