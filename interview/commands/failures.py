"""Problems as exit codes: the one place that knows them.

0 done; 1 done, and the audit says STOP; 2 what was given can't be used; 3 a bug (its log file
is named); 130 interrupted, saved.
"""

from __future__ import annotations

import errno
import os
import shutil
import sys
import textwrap

from interview.base.bug_log import write_log

__all__ = [
    "BUG",
    "DONE",
    "INTERRUPTED",
    "STOP",
    "UNUSABLE",
    "complain",
    "explain_failure",
    "said_of_bug",
]

DONE, STOP, UNUSABLE, BUG, INTERRUPTED = 0, 1, 2, 3, 130
_GONE = {
    errno.ENOSPC: "no space is left there",
    errno.EDQUOT: "your share of the space there is used up",
    errno.EFBIG: "the file would be larger than is allowed here",
    errno.EIO: "the device does not take it",
}


def explain_failure(problem: Exception) -> int:
    """One sentence on stderr: 2 for what was given, 3 with a log file for a bug."""
    from interview.setups.setup import SetupError

    if isinstance(problem, OSError) and problem.errno in (errno.EPIPE, *_GONE):
        _drop_output()
        if problem.errno == errno.EPIPE:
            return DONE
        problem = SetupError(f"The output can't be written: {_GONE[problem.errno]}.")
    if isinstance(problem, SetupError):
        complain(f"tankside: {problem}")
        return UNUSABLE
    complain(said_of_bug(problem))
    return BUG


def said_of_bug(problem: Exception, where: str = "") -> str:
    """The sentence on a bug, once its log file is written; `where` names what it came up with."""
    log = write_log(problem)
    details = f"The details are in {log}." if log else "No file could be written for the details."
    of = f" with {where}" if where else ""
    return (
        f"tankside: something went wrong{of} that is our fault. Every answer given is saved. "
        f"{details}"
    )


def _drop_output() -> None:
    """Send what is still in the buffer nowhere, so that leaving doesn't fail as well."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def complain(text: str) -> None:
    """One sentence on stderr; on a terminal no word is cut in two, in a log it is one line."""
    if sys.stderr.isatty():
        columns = max(shutil.get_terminal_size().columns, 20)
        text = textwrap.fill(text, columns, break_long_words=False, break_on_hyphens=False)
    print(text, file=sys.stderr)
