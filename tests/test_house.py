"""No room imports from above; heavy libraries wait until the first question stands."""

from __future__ import annotations

import ast
import subprocess
import sys
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parent.parent / "interview"

# Each room and the rooms of ours that it may import.
ALLOWED = {
    "base": {"base"},
    "vocabulary": {"base", "vocabulary"},
    "words": {"base", "words"},
    "care": {"base", "care"},
    "core": {"care", "vocabulary", "core"},
    "graph": {"base", "vocabulary", "words", "graph"},
    "audit": {"base", "vocabulary", "core", "care", "audit"},
    "advice": {"base", "vocabulary", "core", "care", "audit", "advice"},
    "report": {"base", "vocabulary", "care", "core", "audit", "advice", "report"},
    "setups": {"base", "vocabulary", "graph", "words", "setups"},
}


def _room(path: Path) -> str:
    return path.relative_to(PACKAGE).parts[0].removesuffix(".py")


def _imports(path: Path) -> set[str]:
    names: set[str] = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom) and node.module:
            base = node.module.split(".")
            if base == ["interview"]:
                names |= {alias.name for alias in node.names}
            elif base[0] == "interview":
                names.add(base[1])
        elif isinstance(node, ast.Import):
            names |= {a.name.split(".")[1] for a in node.names if a.name.startswith("interview.")}
    return names - {"__version__"}


@pytest.mark.parametrize(
    "path",
    [p for p in sorted(PACKAGE.rglob("*.py")) if _room(p) in ALLOWED],
    ids=lambda p: str(p.relative_to(PACKAGE)),
)
def test_a_room_knows_only_the_rooms_below(path: Path) -> None:
    above = _imports(path) - ALLOWED[_room(path)]
    assert not above, f"{path.name} imports {', '.join(sorted(above))} from above"


def test_every_room_is_ruled() -> None:
    free = {"assembly", "chat", "cli", "commands", "reckon", "supposing", "__main__", "__init__"}
    rooms = {_room(path) for path in PACKAGE.rglob("*.py")}
    assert rooms <= set(ALLOWED) | free


def test_modules_stay_small() -> None:
    longest = {p: len(p.read_text(encoding="utf-8").splitlines()) for p in PACKAGE.rglob("*.py")}
    assert {p.name: n for p, n in longest.items() if n > 450} == {}


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
