"""`tankside talk`, and `tankside` alone: the conversation."""

from __future__ import annotations

import argparse
from pathlib import Path

from interview.commands.options import PLAIN, Commands, Parser, is_plain

__all__ = ["add", "add_manner", "add_options", "run"]


def add(commands: Commands) -> None:
    """Put the command on the command line."""
    talk = commands.add_parser("talk", help="talk (the same as no command)")
    add_options(talk)
    talk.add_argument("setup", nargs="?", type=Path, help="a setup file to go on with or start")


def add_options(parser: Parser) -> None:
    """What `talk` takes, for the program without a command too."""
    parser.add_argument("--plain", **PLAIN)
    add_manner(parser)
    parser.set_defaults(run=run, greets=True)


def add_manner(parser: argparse.ArgumentParser) -> None:
    """How to ask, for what else opens a talk too."""
    parser.add_argument(
        "--manner", choices=("guided", "counter"), default=argparse.SUPPRESS, help="how to ask"
    )


def run(arguments: argparse.Namespace) -> int:
    """Hold one conversation."""
    from interview.chat.session import choose_face, sit_down

    setup = getattr(arguments, "setup", None)
    return sit_down(choose_face(is_plain(arguments)), setup, getattr(arguments, "manner", "guided"))
