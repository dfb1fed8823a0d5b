"""`tankside demo`: replays one invented interview and shows its audit."""

from __future__ import annotations

import argparse
import sys

from interview.commands.options import PLAIN, Commands, is_plain

__all__ = ["DEMO", "add", "replay", "run"]

DEMO = "musk_turtle.yaml"
_PAUSE = 1.2


def add(commands: Commands) -> None:
    """Put the command on the command line."""
    demo = commands.add_parser(
        "demo",
        help="replay one invented interview and its audit; --fast shows it at once",
        description="Replays one invented interview at reading pace, then its audit. "
        "With --fast it is shown at once.",
    )
    demo.add_argument("--plain", **PLAIN)
    demo.add_argument("--fast", action="store_true", help="at once, not at reading pace")
    demo.set_defaults(run=run, greets=True)


def run(arguments: argparse.Namespace) -> int:
    """Replay the demo."""
    return replay(plain=is_plain(arguments), fast=arguments.fast)


def replay(*, plain: bool, fast: bool) -> int:
    """Hold the demo conversation at reading pace, or at once when piped; returns the exit code."""
    from interview import assembly, setups
    from interview.base.places import demo_folder
    from interview.chat.afterwards import JUDGING, show_advised
    from interview.chat.faces.scripted_face import ScriptedFace
    from interview.chat.session import choose_face
    from interview.chat.talks.guided import Left
    from interview.chat.together.guided_talk import GuidedTalk

    interview = assembly.new_interview()
    setup = setups.read(demo_folder() / DEMO, interview.questionnaire)
    face = choose_face(plain)
    face.say("An invented keeper answers; nothing is saved. Ctrl-C ends the demo.")
    pause = 0.0 if fast or not sys.stdout.isatty() else _PAUSE
    try:
        GuidedTalk(interview, ScriptedFace(face, setup, pause), save=lambda: None).run()
    except Left as left:
        face.say("The demo ends here.")
        return 130 if left.interrupted else 0
    with face.working(JUDGING):
        audit = assembly.audit_of(interview, setup.title)
    show_advised(face, audit)
    return 1 if audit.grades.stop else 0
