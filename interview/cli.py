"""The door: reads the command line, says the first line, hands over to the command."""

from __future__ import annotations

import gc
import io
import os
import shutil
import sys
import textwrap
from collections.abc import Sequence

from interview.commands import demo, explain, questions, recheck, reckon, setups, talk
from interview.commands.auditing import audit
from interview.commands.failures import INTERRUPTED, UNUSABLE, explain_failure
from interview.commands.forecast import day, mishap, year
from interview.commands.options import Parser

__all__ = ["main"]

_COMMANDS = (
    *(talk, audit, recheck, day, year, mishap),
    *(setups, demo, reckon, explain, questions),
)
_SELDOM = 200_000
"""Objects made between two searches for lost ones; what is loaded at the start is half as many, and
with Python's 700 a sixth of the time would go into looking through it."""
_GREETING = "Tankside: we walk round your turtle tank together, then audit it. No hurry."


def main(argv: Sequence[str] | None = None) -> int:
    """Run the command line; returns the exit code."""
    gc.set_threshold(_SELDOM)
    _make_streams_forgiving()
    try:
        arguments = _parser().parse_args(argv)
    except SystemExit as stop:
        return stop.code if isinstance(stop.code, int) else UNUSABLE
    try:
        if arguments.greets:
            columns = shutil.get_terminal_size().columns
            print(textwrap.fill(_GREETING, max(columns, 20)), flush=True)
        code = int(arguments.run(arguments))
        sys.stdout.flush()
        return code
    except KeyboardInterrupt:
        return INTERRUPTED
    except Exception as problem:
        return explain_failure(problem)


def _make_streams_forgiving() -> None:
    """No character stops the program: output falls back to ASCII, input to a question mark."""
    from interview.report.fitting import ENCODING_ERRORS

    for name in ("stdin", "stdout", "stderr"):
        stream = getattr(sys, name)
        if stream is None or stream.closed:
            # Stays open as long as the program runs.
            stream = open(os.devnull, "r" if name == "stdin" else "w", encoding="utf-8")  # noqa: PTH123, SIM115
            setattr(sys, name, stream)
        if not isinstance(stream, io.TextIOWrapper):
            continue
        if name == "stdin":
            is_ascii = "ascii" in stream.encoding.lower()
            stream.reconfigure(encoding="utf-8" if is_ascii else None, errors="replace")
        else:
            stream.reconfigure(errors=ENCODING_ERRORS)


def _parser() -> Parser:
    from interview import __version__

    parser = Parser(
        prog="tankside",
        description="Interviews you about an indoor turtle tank, computes the whole of it and "
        "ends with a graded audit.",
        epilog="Without a command it talks. Setups are kept in TANKSIDE_FOLDER, or in "
        "“tankside” in your home folder.",
    )
    parser.add_argument("--version", action="version", version=f"tankside {__version__}")
    talk.add_options(parser)
    commands = parser.add_subparsers(metavar="COMMAND")
    for command in _COMMANDS:
        command.add(commands)
    return parser


if __name__ == "__main__":
    sys.exit(main())
