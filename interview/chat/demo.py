"""Replays one invented interview and shows its audit."""

from __future__ import annotations

import sys

from interview import assembly, setups
from interview.base.places import demo_folder
from interview.chat.scripted import ScriptedFace
from interview.chat.session import choose_face
from interview.chat.talk import Left, Talk

__all__ = ["DEMO", "replay"]

DEMO = "musk_turtle.yaml"
_PAUSE = 1.2


def replay(*, plain: bool, fast: bool) -> int:
    """Hold the demo conversation at reading pace, or at once when piped; returns the exit code."""
    interview = assembly.new_interview()
    setup = setups.read(demo_folder() / DEMO, interview.questionnaire)
    face = choose_face(plain)
    face.say("An invented keeper answers; nothing is saved. Ctrl-C ends the demo.")
    pause = 0.0 if fast or not sys.stdout.isatty() else _PAUSE
    try:
        Talk(interview, ScriptedFace(face, setup, pause), save=lambda: None).run()
    except Left as left:
        face.say("The demo ends here.")
        return 130 if left.interrupted else 0
    audit = assembly.audit_of(interview, setup.title)
    face.audit(audit, assembly.advice_of(audit))
    return 1 if audit.grades.stop else 0
