"""`tankside recheck`: audit again after something was moved."""

from __future__ import annotations

import argparse
from pathlib import Path

from interview.commands.options import PLAIN, Commands, is_plain

__all__ = ["add", "run"]


def add(commands: Commands) -> None:
    """Put the command on the command line."""
    recheck = commands.add_parser("recheck", help="audit again after something was moved")
    recheck.add_argument("setup", type=Path, metavar="SETUP")
    recheck.add_argument("--plain", **PLAIN)
    recheck.set_defaults(run=run, greets=False)


def run(arguments: argparse.Namespace) -> int:
    """Hold one recheck, and talk of another tank after it where one is wanted."""
    from interview.chat.rechecks.rechecking import recheck
    from interview.chat.session import choose_face, sit_down
    from interview.chat.talks.guided import Left

    face = choose_face(is_plain(arguments))
    try:
        return recheck(face, arguments.setup)
    except Left:
        return sit_down(face, None, "guided", offers=False)
