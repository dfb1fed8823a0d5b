"""Programs started at a terminal by a process that has loaded what they need: half a second less.

How the program starts by itself, with nothing loaded, is tried wherever `Keeper` is told of an
environment, by a shell (test_suspended.py), in a pipe (test_whole_interview.py) and in test_cli.py.
"""

from __future__ import annotations

import atexit
import json
import os
import signal
import subprocess
import sys
import termios
from collections.abc import Mapping
from functools import cache
from typing import Any

from pexpect.fdpexpect import fdspawn

__all__ = ["Started"]

# Answers each line of standard input, with the number of a new child at its own terminal or with
# how a child ended. What a child does then is what `python -m interview` does.
_DRIVER = """
import gc, json, os, runpy, sys
from interview import assembly, cli
from interview.chat import page_file, session
from interview.chat.faces import screen_face
from interview.words.lexicon.rules import make_patterns
assembly.new_interview()
assembly.warm()
assembly.warm_for_audit()
make_patterns()
gc.freeze()
for line in sys.stdin:
    asked = json.loads(line)
    if "ended" in asked:
        print(os.waitstatus_to_exitcode(os.waitpid(asked["ended"], 0)[1]), flush=True)
        continue
    terminal = os.open(asked["terminal"], os.O_RDWR | os.O_NOCTTY)
    child = os.fork()
    if not child:
        os.login_tty(terminal)
        os.environ.clear()
        os.environ.update(asked["around"])
        sys.argv[1:] = asked["arguments"]
        for name, number in (("stdin", 0), ("stdout", 1), ("stderr", 2)):
            stream = open(number, "w" if number else "r", encoding="utf-8", closefd=False)
            setattr(sys, name, stream)
        runpy.run_module("interview", run_name="__main__", alter_sys=True)
    os.close(terminal)
    print(child, flush=True)
"""


@cache
def _driver() -> subprocess.Popen[str]:
    pipes: dict[str, Any] = {"stdin": subprocess.PIPE, "stdout": subprocess.PIPE}
    around = {**os.environ, "LC_ALL": "C.UTF-8"}
    driver = subprocess.Popen([sys.executable, "-c", _DRIVER], text=True, env=around, **pipes)
    atexit.register(driver.communicate)  # nothing more is asked: it ends, and is waited for
    return driver


def _asked(**what: Any) -> int:
    driver = _driver()
    assert driver.stdin and driver.stdout
    driver.stdin.write(json.dumps(what) + "\n")
    driver.stdin.flush()
    return int(driver.stdout.readline())


class Started(fdspawn):
    """The program at a terminal of its own, as `pexpect.spawn` has it."""

    def __init__(
        self, arguments: list[str], around: Mapping[str, str], size: tuple[int, int], timeout: float
    ) -> None:
        ours, theirs = os.openpty()
        termios.tcsetwinsize(theirs, size)
        terminal = os.ttyname(theirs)
        self._number = _asked(terminal=terminal, arguments=arguments, around=dict(around))
        os.close(theirs)
        super().__init__(ours, timeout=timeout)
        self.terminated = False

    def getecho(self) -> bool:
        """Whether the terminal shows what is typed."""
        return bool(termios.tcgetattr(self.child_fd)[3] & termios.ECHO)

    def kill(self, number: int) -> None:
        """Send a signal."""
        os.kill(self._number, number)

    def wait(self) -> int | None:
        """Wait for the end; the exit code, None after a signal."""
        if not self.terminated:
            code = _asked(ended=self._number)
            self.terminated = True
            self.exitstatus, self.signalstatus = (code, None) if code >= 0 else (None, -code)
        return self.exitstatus

    def close(self, force: bool = False) -> None:
        """Wait for the end and hang up; `force` ends it."""
        if force and not self.terminated:
            self.kill(signal.SIGKILL)
        self.wait()
        super().close()
