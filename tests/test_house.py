"""Modules and folders stay small; heavy libraries wait until the first question stands."""

from __future__ import annotations

import subprocess
import sys
from collections import Counter
from pathlib import Path
from statistics import median

PACKAGE = Path(__file__).parent.parent / "interview"

LONGEST = 400
MOST_MODULES = 12
"""`__init__.py` among them."""
MEDIAN = 110


def _lengths() -> dict[str, int]:
    return {
        path.relative_to(PACKAGE).as_posix(): len(path.read_text(encoding="utf-8").splitlines())
        for path in PACKAGE.rglob("*.py")
        if path.name != "__init__.py"
    }


def test_no_module_is_long_and_most_are_short() -> None:
    lengths = _lengths()
    assert {name: lines for name, lines in lengths.items() if lines > LONGEST} == {}
    assert median(lengths.values()) <= MEDIAN


def test_no_folder_is_a_corridor() -> None:
    """A folder holds what one can take in at a glance."""
    folders = Counter(path.parent.relative_to(PACKAGE).as_posix() for path in PACKAGE.rglob("*.py"))
    assert {name: many for name, many in folders.items() if many > MOST_MODULES} == {}


def test_nothing_heavy_is_loaded_at_the_first_question() -> None:
    """Neither pint nor numpy nor scipy nor rich.markdown before the keeper has read a word."""
    program = """
import sys
from interview import assembly
from interview.chat.faces.line_face import PlainFace
from interview.chat.talks.guided import Left, Talk

class Stopping(PlainFace):
    def hear(self, asked):
        heavy = {"pint", "numpy", "scipy", "rapidfuzz", "rich.markdown"} & set(sys.modules)
        print("HEAVY", sorted(heavy))
        raise EOFError

try:
    Talk(assembly.new_interview(), Stopping(), save=lambda: None).run()
except Left:
    print("LEFT")
"""
    done = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, check=True
    )
    assert "HEAVY []" in done.stdout
    assert done.stdout.rstrip().endswith("LEFT")


def test_a_sitting_begins_without_numbers_and_pages() -> None:
    """All that a terminal needs up to its first question, without what only the audit needs."""
    program = """
import sys
from interview.chat import session
from interview.chat.faces import screen_face
from interview import assembly
assembly.new_interview().next()
rooms = {".".join(name.split(".")[:2]) for name in sys.modules}
heavy = {"pint", "numpy", "scipy", "interview.audit", "interview.advice", "interview.core"}
print(sorted(heavy & {*rooms, *sys.modules}))
"""
    done = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, check=True
    )
    assert done.stdout == "[]\n"


def test_the_first_line_stands_before_any_library() -> None:
    program = """
import builtins, sys
from interview import cli
shown = []
real = builtins.print
def spy(*words, **rest):
    if not shown:
        heavy = {"yaml", "pint", "numpy", "rapidfuzz", "scipy", "rich", "prompt_toolkit"}
        outside = heavy & set(sys.modules)
        shown.append((words[0], sorted(outside)))
    real(*words, **rest)
builtins.print = spy
sys.stdin.close()
cli.main(["demo", "--fast", "--plain"])
sys.stderr.write(repr(shown[0]))
"""
    done = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, check=True
    )
    assert done.stderr.startswith("('Tankside"), done.stderr
    assert done.stderr.endswith(", [])"), done.stderr
