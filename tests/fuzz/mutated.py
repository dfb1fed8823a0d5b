"""Setup files with bytes, lines or values changed: read, or refused in a sentence; never half."""

from __future__ import annotations

import re
import tempfile
from functools import cache
from pathlib import Path

from hypothesis import strategies as st
from tally import Fault, Lost

from interview import assembly, setups
from interview.graph.interview import Interview
from interview.setups import Setup, SetupError
from interview.setups.writing import text_of

__all__ = ["MUTATED", "filled", "mutated"]

ROOT = Path(__file__).parent.parent.parent
_FILES = (
    *sorted((ROOT / "transcripts_demo").glob("*.yaml")),
    *sorted((ROOT / "tests/tanks").glob("*")),
)
_VALUES = (
    "", "~", "null", "yes", "no", "[]", "{}", "[a, b]", "{a: b}", "not sure", "1e999", ".nan",
    "-5 cm", "0 cm", "9" * 300 + " cm", "x" * 5000, "&a [*a]", "*a", "!!python/object:os.system x",
    "!!binary aGk=", "2026-01-01", "12:30", "0x10", "0o17", '"\\0"', '"\\x1b[31m"', "'", "- a",
    "|\n    a\n    b", "? a", "a: b: c", "<<: *a", "10 cm", "10/14 days", "a third", "\ud7ff",
    "\u2028", "50 %", "about 3", ".inf",
)  # fmt: skip


@cache
def _lines(number: int) -> tuple[str, ...]:
    return tuple(_FILES[number].read_text("utf-8").splitlines(keepends=True))


@st.composite
def _mutations(draw: st.DrawFn) -> bytes:
    lines = list(_lines(draw(st.integers(0, len(_FILES) - 1))))
    for _ in range(draw(st.integers(1, 3))):
        at = draw(st.integers(0, len(lines) - 1))
        kind = draw(st.sampled_from(["value", "drop", "twice", "swap", "key", "indent", "other"]))
        if kind == "value":
            key = lines[at].partition(":")[0]
            lines[at] = f"{key}: {draw(st.sampled_from(_VALUES))}\n"
        elif kind == "drop" and len(lines) > 1:
            del lines[at]
        elif kind == "twice":
            lines.insert(at, lines[at])
        elif kind == "swap":
            to = draw(st.integers(0, len(lines) - 1))
            lines[at], lines[to] = lines[to], lines[at]
        elif kind == "key":
            lines[at] = re.sub(r"[a-z]", draw(st.sampled_from("xé:#-&")), lines[at], count=1)
        elif kind == "indent":
            lines[at] = draw(st.sampled_from(["  ", "\t", "    ", " "])) + lines[at].lstrip()
        else:
            other = _lines(draw(st.integers(0, len(_FILES) - 1)))
            lines[at] = other[draw(st.integers(0, len(other) - 1))]
    text = "".join(lines).encode("utf-8", "surrogatepass")
    if draw(st.integers(0, 3)) == 0:
        at = draw(st.integers(0, len(text)))
        return text[:at] + draw(st.binary(max_size=4)) + text[at + draw(st.integers(0, 3)) :]
    return text[: draw(st.integers(0, len(text)))] if draw(st.integers(0, 9)) == 0 else text


MUTATED = _mutations()
"""The bytes of a file."""


def mutated(text: bytes) -> str:
    """Refused in a sentence, or taken and written back as it is."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "tank.yaml"
        path.write_bytes(text)
        try:
            setup = setups.read(path, assembly.questionnaire())
            taken = filled(setup)
        except SetupError as problem:
            if not str(problem).strip():
                raise Fault("refused without a word") from None
            return "refused"
        saved = setups.of_interview(taken, setup.title)
        path.write_text(text_of(saved), "utf-8")
        again = setups.read(path, assembly.questionnaire())
        if again != saved:
            raise Lost(f"written as {saved}, read as {again}")
        if filled(again).given() != taken.given():
            raise Lost("the answers are others after writing and reading")
    return "taken"


def filled(setup: Setup) -> Interview:
    interview = assembly.new_interview()
    setups.fill(interview, setup)
    return interview
