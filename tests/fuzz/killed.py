"""Talks ended from outside at a random moment: what was acknowledged is in the file."""

from __future__ import annotations

import fcntl
import os
import pty
import re
import select
import signal
import struct
import subprocess
import sys
import tempfile
import termios
import time
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import IO

import pyte
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
_PATIENCE = 60.0
_ROWS, _COLUMNS = 45, 80


@dataclass(frozen=True)
class Killing:
    """How a talk ends: the signal, after how many answers and seconds, and on which face."""

    signal: str
    after: int
    moment: float
    face: str


KILLED = st.builds(
    Killing,
    st.sampled_from(sorted(_SIGNALS)),
    st.integers(0, _QUESTIONS - 2),
    st.floats(0, 0.12),
    st.sampled_from(["pipe", "plain", "drawn", "drawn"]),
)
"""Half of them end the face that is drawn."""


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
    """The program with plain words through a pipe: its typed lines and what it showed."""

    enter = "\n"
    prompt = re.compile(rb"Answer: ")
    terminal = False

    def __init__(self, folder: Path) -> None:
        around = {**os.environ, "TANKSIDE_FOLDER": str(folder), "LC_ALL": "C.UTF-8"}
        around |= {"PYTHONFAULTHANDLER": "1", "TERM": "dumb"}
        self.shown = b""
        self._start(around)

    def _start(self, around: Mapping[str, str]) -> None:
        self.process = self._run(around, subprocess.PIPE, "--plain")
        self._out, self._in = _number(self.process.stdout), _number(self.process.stdin)

    @staticmethod
    def _run(around: Mapping[str, str], end: int, *options: str) -> subprocess.Popen[bytes]:
        return subprocess.Popen(
            [sys.executable, "-m", "interview", *options], stdin=end, stdout=end,
            stderr=subprocess.STDOUT, env=around, start_new_session=True, preexec_fn=_endable,
        )  # fmt: skip

    @property
    def prompts(self) -> int:
        """How often an answer was asked for."""
        return len(self.prompt.findall(self.shown))

    def read(self, seconds: float) -> bool:
        """Take what is shown within some time; False at the end."""
        if not select.select([self._out], [], [], seconds)[0]:
            return True
        try:
            piece = os.read(self._out, 65536)
        except OSError:  # how Linux tells that nobody is at the other end of a terminal
            return False
        self._take(piece)
        return bool(piece)

    def _take(self, piece: bytes) -> None:
        self.shown += piece

    def prompted(self, count: int) -> None:
        """Wait for so many prompts; a program that hangs or ends before is a fault."""
        end = time.monotonic() + _PATIENCE
        while self.prompts < count:
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
        os.write(self._in, f"{line}{self.enter}".encode())

    def close(self) -> None:
        if self.process.poll() is None:
            self.process.kill()
        self.process.wait()
        for stream in (self.process.stdin, self.process.stdout):
            if stream:
                stream.close()


def _endable() -> None:
    """The signals end the program even where nohup started all this."""
    for number in _SIGNALS.values():
        if number != signal.SIGKILL:
            signal.signal(number, signal.SIG_DFL)


class _OnTerminal(_Program):
    """The same words on a terminal."""

    options: tuple[str, ...] = ("--plain",)
    terminal = True

    def _start(self, around: Mapping[str, str]) -> None:
        self._out, theirs = pty.openpty()
        self._in = self._out
        fcntl.ioctl(theirs, termios.TIOCSWINSZ, struct.pack("4H", _ROWS, _COLUMNS, 0, 0))
        self.process = self._run(around, theirs, *self.options)
        os.close(theirs)

    def left_as_found(self) -> bool:
        """Whether the terminal shows what is typed and hands on whole lines."""
        usual = termios.ECHO | termios.ICANON
        return termios.tcgetattr(self._out)[3] & usual == usual

    def close(self) -> None:
        super().close()
        os.close(self._out)


class _Screen(pyte.HistoryScreen):
    """A screen that answers what a program asks it, as a terminal does."""

    reply: Callable[[str], None]

    def write_process_input(self, data: str) -> None:
        self.reply(data)


class _Drawn(_OnTerminal):
    """The face that is drawn: prompts are counted on the screen, as they are drawn many times."""

    enter = "\r"
    options = ()

    def _start(self, around: Mapping[str, str]) -> None:
        self._screen = _Screen(_COLUMNS, _ROWS, history=2000, ratio=0.5)
        self._screen.reply = self._answer
        self._stream = pyte.ByteStream(self._screen)
        super()._start({**around, "TERM": "xterm-256color"})

    def _answer(self, data: str) -> None:
        os.write(self._in, data.encode())

    def _take(self, piece: bytes) -> None:
        super()._take(piece)
        self._stream.feed(piece)

    @property
    def prompts(self) -> int:
        """How many lines begin as a prompt does; gauge, remarks and topics have more waves."""
        gone = ["".join(row[n].data for n in range(2)) for row in self._screen.history.top]
        return sum(line.startswith("≈ ") for line in (*gone, *self._screen.display))


_FACES = {"pipe": _Program, "plain": _OnTerminal, "drawn": _Drawn}


def _number(stream: IO[bytes] | None) -> int:
    assert stream is not None
    return stream.fileno()


@contextmanager
def _started(folder: Path, face: str) -> Iterator[_Program]:
    program = _FACES[face](folder)
    try:
        yield program
    finally:
        program.close()


def killed(how: Killing) -> str:
    """All that was acknowledged is saved, in one whole file; what was just typed may be."""
    answers = _typed()
    names = list(answers)
    with tempfile.TemporaryDirectory() as named:
        folder = Path(named)
        with _started(folder, how.face) as program:
            for number in range(how.after):
                program.prompted(number + 1)
                program.type(answers[names[number]])
            if how.after:
                program.prompted(how.after + 1)
                program.type(answers[names[how.after]])
            time.sleep(how.moment)
            program.process.send_signal(_SIGNALS[how.signal])
            limit = time.monotonic() + _PATIENCE
            while program.read(0.2) and time.monotonic() < limit:
                if program.process.poll() is not None and not program.terminal:
                    break
            program.process.wait(_PATIENCE)
            _left_well(how, program)
        acknowledged = names[: max(0, min(program.prompts - 1, how.after + 1))]
        _holds(folder, {name: answers[name] for name in acknowledged})
    return f"{how.signal} {how.face}"


def _left_well(how: Killing, program: _Program) -> None:
    if b"Traceback" in program.shown:
        raise Fault(f"a traceback: {program.shown.decode('utf-8', 'replace')[-2000:]}")
    kept = not isinstance(program, _OnTerminal) or program.left_as_found()
    if how.signal != "KILL" and not kept:
        raise Fault("the terminal no longer shows what is typed")


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
