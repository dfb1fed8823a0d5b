"""Talks ended from outside at a random moment: what was acknowledged is in the file."""

from __future__ import annotations

import os
import pty
import select
import signal
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import IO

from hypothesis import strategies as st
from tally import Fault, Lost

from interview import assembly, setups
from interview.base.files.writing import sweep
from interview.graph.interview import Place

__all__ = ["KILLED", "Killing", "killed"]

_ANSWERS = {
    "stage": "living", "region": "europe", "room_temperature_low": "17 °C",
    "room_temperature_high": "27 °C", "vulnerable_person": "no", "animal_count": "1",
    "species": "common musk turtle", "carapace_length": "9.5 cm", "tank_size": "100 x 40 x 40 cm",
    "tank_origin": "aquarium", "tank_material": "glass",
}  # fmt: skip
_QUESTIONS = 11
_SIGNALS = {"KILL": signal.SIGKILL, "TERM": signal.SIGTERM, "HUP": signal.SIGHUP}
_PROMPT = b"Answer: "
_PATIENCE = 60.0


@dataclass(frozen=True)
class Killing:
    """How a talk ends: the signal, after how many answers and seconds, on a pipe or a terminal."""

    signal: str
    after: int
    moment: float
    terminal: bool


KILLED = st.builds(
    Killing,
    st.sampled_from(sorted(_SIGNALS)),
    st.integers(0, _QUESTIONS - 2),
    st.floats(0, 0.12),
    st.booleans(),
)


@cache
def _typed() -> dict[str, str]:
    """What is typed at the first questions, in the order in which a talk asks them."""
    interview = assembly.new_interview()
    while len(interview.answers) < _QUESTIONS:
        place = interview.next()
        assert place is not None
        example = assembly.questionnaire().by_id[place.id].example
        interview.record(place, _ANSWERS.get(place.id) or example.partition(" or ")[0])
    return {place.id: answer.said for place, answer in interview.answers.items()}


class _Program:
    """The program with its typed lines and what it showed."""

    def __init__(self, folder: Path, terminal: bool) -> None:
        around = {**os.environ, "TANKSIDE_FOLDER": str(folder), "LC_ALL": "C.UTF-8"}
        around |= {"PYTHONFAULTHANDLER": "1", "TERM": "dumb"}
        command = [sys.executable, "-m", "interview", "--plain"]
        self.terminal, self.shown = terminal, b""
        if terminal:
            self._hold, theirs = pty.openpty()
            self.process = subprocess.Popen(
                command, stdin=theirs, stdout=theirs, stderr=theirs, env=around,
                start_new_session=True,
            )  # fmt: skip
            os.close(theirs)
            self._out = self._in = self._hold
        else:
            self.process = subprocess.Popen(
                command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.STDOUT,
                env=around, start_new_session=True,
            )  # fmt: skip
            self._out, self._in = _number(self.process.stdout), _number(self.process.stdin)

    def read(self, seconds: float) -> bool:
        """Take what is shown within some time; False at the end."""
        if not select.select([self._out], [], [], seconds)[0]:
            return True
        try:
            piece = os.read(self._out, 65536)
        except OSError:  # how Linux tells that nobody is at the other end of a terminal
            return False
        self.shown += piece
        return bool(piece)

    def prompts(self, count: int) -> None:
        """Wait for so many prompts; a program that hangs or ends before is a fault."""
        end = time.monotonic() + _PATIENCE
        while self.shown.count(_PROMPT) < count:
            if time.monotonic() > end:
                raise Fault(f"hangs; {self._left()}")
            if not self.read(0.5):
                raise Fault(f"ended by itself, {self.process.wait()}; {self._left()}")

    def _left(self) -> str:
        if self.process.poll() is None:
            self.process.send_signal(signal.SIGABRT)  # faulthandler writes every thread's stack
            while self.read(1.0) and self.process.poll() is None:
                pass
        return f"it showed: {self.shown.decode('utf-8', 'replace')[-4000:]}"

    def type(self, line: str) -> None:
        os.write(self._in, f"{line}\n".encode())

    def close(self) -> None:
        if self.process.poll() is None:
            self.process.kill()
        self.process.wait()
        for stream in (self.process.stdin, self.process.stdout):
            if stream:
                stream.close()
        if self.terminal:
            os.close(self._hold)


def _number(stream: IO[bytes] | None) -> int:
    assert stream is not None
    return stream.fileno()


@contextmanager
def _started(folder: Path, terminal: bool) -> Iterator[_Program]:
    program = _Program(folder, terminal)
    try:
        yield program
    finally:
        program.close()


def killed(how: Killing) -> str:
    """All that was acknowledged is saved, in one whole file; what was just typed may be."""
    answers, end = _typed(), ""
    names = list(answers)
    with tempfile.TemporaryDirectory() as named:
        folder = Path(named)
        with _started(folder, how.terminal) as program:
            for number in range(how.after):
                program.prompts(number + 1)
                program.type(answers[names[number]])
            if how.after:
                program.prompts(how.after + 1)
                program.type(answers[names[how.after]])
            time.sleep(how.moment)
            program.process.send_signal(_SIGNALS[how.signal])
            limit = time.monotonic() + _PATIENCE
            while program.read(0.2) and time.monotonic() < limit:
                if program.process.poll() is not None and not how.terminal:
                    break
            code = program.process.wait(_PATIENCE)
            end = _how_it_left(how, code, program.shown)
        shown = program.shown.count(_PROMPT) - 1
        acknowledged = names[: max(0, min(shown, how.after + 1))]
        _holds(folder, {name: answers[name] for name in acknowledged})
    return end


def _how_it_left(how: Killing, code: int, shown: bytes) -> str:
    if b"Traceback" in shown:
        raise Fault(f"a traceback on screen: {shown.decode('utf-8', 'replace')[-2000:]}")
    return f"{how.signal} {'terminal' if how.terminal else 'pipe'}"


def _holds(folder: Path, acknowledged: Mapping[str, str]) -> None:
    """The folder holds one readable setup with these answers, and nothing else that stays."""
    files = sorted(path for path in folder.glob("*.yaml") if path.stat().st_size)
    if not files and not acknowledged:
        return
    if len(files) != 1:
        raise Lost(f"{len(files)} setups for {len(acknowledged)} acknowledged answers")
    setup = setups.read(files[0], assembly.questionnaire())
    said = {place.id: words for place, words in setup.answers.items()}
    said |= {"animal_count": str(setup.animals)} if setup.animals else {}
    gone = {name: words for name, words in acknowledged.items() if said.get(name) != words}
    if gone:
        raise Lost(f"acknowledged and gone: {gone}; saved: {said}")
    if Place("stage") not in setup.answers and acknowledged:
        raise Lost("the first answer is gone")
    for left in folder.glob(".*"):
        os.utime(left, (0, 0))
    sweep(folder, "format: tankside/1")
    if hidden := [path.name for path in folder.glob(".*")]:
        raise Fault(f"left behind and not swept: {hidden}")
