"""`tankside questions`: a list for people, and its faults for whoever writes them."""

from __future__ import annotations

import argparse
import textwrap

from interview.commands.options import Commands

__all__ = ["add", "check", "listing", "run"]


def add(commands: Commands) -> None:
    """Put the command on the command line."""
    questions = commands.add_parser("questions", help="list the questions, or check them")
    questions.add_argument("--check", action="store_true", help="look for faults in the data")
    questions.set_defaults(run=run, greets=False)


def run(arguments: argparse.Namespace) -> int:
    """List, or check."""
    return check() if arguments.check else listing()


def listing() -> int:
    """Print every question by topic, with what can be typed."""
    from interview import assembly

    for topic in assembly.questionnaire().topics:
        print(f"\n{topic.name}")
        for question in topic.questions:
            finer = " (finer)" if question.finer is not None else ""
            text = f"{question.id}: {question.label}{finer}"
            print(textwrap.fill(text, 78, initial_indent="  ", subsequent_indent="    "))
            offered = ", ".join(option.name for option in question.choices)
            if offered or question.example:
                said = f"one of {offered}" if offered else f"such as {question.example}"
                print(textwrap.fill(said, 78, initial_indent="      ", subsequent_indent="      "))
    return 0


def check() -> int:
    """Print every fault of the data files and their wiring; 0 when there is none."""
    from interview import assembly
    from interview.base.rows import FileError

    try:
        found = assembly.faults()
    except FileError as problem:
        found = list(problem.faults)
    for fault in found:
        print(fault)
    print(f"{len(found)} fault{'s' * (len(found) > 1)}." if found else "No faults.")
    return 2 if found else 0
