"""One whole interview through a real terminal, and the same lines through a pipe."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

from keeper import Keeper

sys.path.insert(0, str(Path(__file__).parent.parent))
from golden import DEMOS, typed

MUSK = DEMOS / "musk_turtle.yaml"


def _page(folder: Path) -> str:
    (page,) = folder.glob("*.md")
    return page.read_text(encoding="utf-8")


def _through_a_terminal(folder: Path, lines: tuple[str, ...]) -> int:
    offered = 0
    with Keeper(folder) as keeper:
        for line in lines:
            keeper.answer(line)
            if keeper.words.count("Shall we go on?") > offered:
                keeper.enter()  # a pipe isn't asked
                offered += 1
        assert offered
        keeper.sees("Save this audit as Markdown?")
        keeper.answer("yes")
        keeper.sees("What next?")
        return keeper.last_answer("stop")


def _through_a_pipe(folder: Path, lines: tuple[str, ...]) -> int:
    done = subprocess.run(
        [sys.executable, "-m", "interview", "--plain"],
        input="\n".join([*lines, "yes", ""]),
        capture_output=True,
        env={"TANKSIDE_FOLDER": str(folder), "LC_ALL": "C.UTF-8", "HOME": str(folder)},
        text=True,
        encoding="utf-8",
        check=False,
    )
    assert done.stderr == ""
    assert "\x1b" not in done.stdout
    return done.returncode


def test_a_terminal_and_a_pipe_give_the_same(tmp_path: Path) -> None:
    """The same Markdown, the same setup file, the same exit code."""
    lines = typed(MUSK)
    terminal, pipe = tmp_path / "terminal", tmp_path / "pipe"
    codes = _through_a_terminal(terminal, lines), _through_a_pipe(pipe, lines)
    assert codes == (0, 0)
    page = _page(pipe)
    assert page.startswith("# Common musk turtle, 100 × 40 × 40 cm\n")
    assert len(page.splitlines()) > 100
    assert _page(terminal) == page
    files = [next(folder.glob("*.yaml")).read_bytes() for folder in (terminal, pipe)]
    assert files[0] == files[1]
