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

__all__ = ["BUG", "DONE", "INTERRUPTED", "STOP", "UNUSABLE", "complain", "explain_failure"]

DONE, STOP, UNUSABLE, BUG, INTERRUPTED = 0, 1, 2, 3, 130
_OUTPUT_GONE = (errno.EPIPE, errno.ENOSPC)


def explain_failure(problem: Exception) -> int:
    """One sentence on stderr: 2 for what was given, 3 with a log file for a bug."""
    from interview.setups import SetupError

    if isinstance(problem, OSError) and problem.errno in _OUTPUT_GONE:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        if problem.errno == errno.EPIPE:
            return DONE
        problem = SetupError("The output can't be written: no space is left there.")
    if isinstance(problem, SetupError):
        complain(f"tankside: {problem}")
        return UNUSABLE
    complain(
        f"tankside: something went wrong that is our fault. Every answer given is saved. "
        f"The details are in {_logged(problem)}."
    )
    return BUG


def _logged(problem: Exception) -> str:
    """Where the details of a bug were written."""
    import tempfile
    import traceback

    with tempfile.NamedTemporaryFile(
        "w", prefix="tankside-", suffix=".log", delete=False, encoding="utf-8"
    ) as log:
        traceback.print_exception(problem, file=log)
    return log.name


def complain(text: str) -> None:
    """One sentence on stderr; on a terminal no word is cut in two, in a log it is one line."""
    if sys.stderr.isatty():
        columns = max(shutil.get_terminal_size().columns, 20)
        text = textwrap.fill(text, columns, break_long_words=False, break_on_hyphens=False)
    print(text, file=sys.stderr)
