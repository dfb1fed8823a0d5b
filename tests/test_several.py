"""Many setups in one go: processes where there are cores, output in the order of the files."""

from __future__ import annotations

import argparse
import functools
import json
import os
import shutil
import time
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from types import SimpleNamespace

import pytest
from golden import DEMOS

from interview import assembly, cli
from interview.commands.auditing import judged, several
from interview.commands.auditing.several import cores, in_order, setups_in
from interview.report.blocks import Table
from interview.report.overview import Summary, overview_blocks

NAMES = [f"{number}.yaml" for number in range(7)]


def _slower_first(path: Path, seconds: float) -> tuple[str, int]:
    time.sleep(seconds if path.name == "0.yaml" else 0.0)
    return path.name, os.getpid()


@pytest.mark.parametrize("processes", [1, 2, 3])
def test_results_come_in_the_order_of_the_files(processes: int) -> None:
    work = functools.partial(_slower_first, seconds=0.2)
    found = list(in_order(work, [Path(name) for name in NAMES], processes))
    assert [name for name, _ in found] == NAMES
    workers = {worker for _, worker in found}
    assert (workers == {os.getpid()}) == (processes == 1)


def test_one_core_starts_no_process(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("multiprocessing.get_context", lambda way: pytest.fail("a process"))
    assert len(list(in_order(str, [Path(name) for name in NAMES], 1))) == len(NAMES)
    assert list(in_order(str, [Path("a")], 8)) == ["a"]


def test_each_is_there_before_the_next_is_begun_where_there_is_one_core() -> None:
    begun: list[Path] = []
    found = in_order(lambda path: begun.append(path), [Path(name) for name in NAMES], 1)
    for number in range(1, 4):
        next(found)
        assert len(begun) == number


def test_a_folders_setups_are_those_that_show(tmp_path: Path) -> None:
    for name in ("b.yaml", "a.yml", ".hidden.yaml", "notes.txt"):
        (tmp_path / name).touch()
    assert list(setups_in([tmp_path])) == [tmp_path / "a.yml", tmp_path / "b.yaml"]
    assert list(setups_in([tmp_path / "none"])) == [tmp_path / "none"]


def test_no_more_cores_than_may_be_used() -> None:
    assert 1 <= cores() <= (os.cpu_count() or 1)


@pytest.mark.parametrize("processes", [1, 2])
def test_a_bad_file_and_a_bug_stop_no_other(
    processes: int,
    capsys: pytest.CaptureFixture[str],
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setenv("TANKSIDE_FOLDER", str(tmp_path / "tanks"))
    monkeypatch.setattr(several, "cores", lambda: processes)
    monkeypatch.setattr(assembly, "advice_of", lambda audit: None)
    read = judged.judged_file

    def breaks(path: Path, supposed: list[str]) -> object:
        if path.stem == "broken":
            raise ZeroDivisionError
        return read(path, supposed)

    monkeypatch.setattr(judged, "judged_file", breaks)
    musk, planned = DEMOS / "musk_turtle.yaml", DEMOS / "reeves_turtle_planned.yaml"
    broken = shutil.copy(musk, tmp_path / "broken.yaml")
    code = cli.main(["audit", str(planned), str(tmp_path / "none.yaml"), str(broken), str(musk)])
    shown = capsys.readouterr()
    assert code == 3
    assert shown.out.index("Study window, musk turtle") < shown.out.index("Reeves")
    assert "Not judged: 2 files, named above." in shown.out
    first, second = shown.err.splitlines()
    assert "none.yaml" in first
    assert "something went wrong with broken.yaml that is our fault" in second
    assert Path(second.partition("The details are in ")[2].rstrip(".")).read_text("utf-8")


def test_processes_and_one_process_write_the_same(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(assembly, "advice_of", lambda audit: None)
    files = [str(DEMOS / f"{name}.yaml") for name in ("musk_turtle", "reeves_turtle_planned")]
    told = []
    for processes in (1, 2):
        monkeypatch.setattr(several, "cores", lambda processes=processes: processes)
        assert cli.main(["audit", "--json", *files]) == 0
        told.append(capsys.readouterr().out)
    assert told[0] == told[1]


def test_json_tells_of_every_file_and_what_is_wrong_with_it(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setattr(assembly, "advice_of", lambda audit: None)
    files = [str(tmp_path / "none.yaml"), str(DEMOS / "musk_turtle.yaml")]
    assert cli.main(["audit", "--json", *files]) == 2
    shown = capsys.readouterr()
    bad, good = json.loads(shown.out)["audits"]
    assert shown.err == f"tankside: {bad['error']}\n" and "none.yaml" in bad["error"]
    assert [bad["file"], good["file"]] == files and set(bad) == {"file", "error"}
    assert good["title"] == "Study window, musk turtle"


def test_json_that_is_interrupted_is_whole(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Ctrl-C after the first of three: what was judged is one document, and the code says so."""

    def interrupted(work: Callable[[Path], object], paths: Sequence[Path], _: int) -> object:
        yield work(paths[0])
        raise KeyboardInterrupt

    monkeypatch.setattr(assembly, "advice_of", lambda audit: None)
    monkeypatch.setattr(several, "in_order", interrupted)
    file = str(DEMOS / "musk_turtle.yaml")
    assert cli.main(["audit", "--json", file, file, file]) == 130
    (only,) = json.loads(capsys.readouterr().out)["audits"]
    assert only["file"] == file


def test_each_page_of_one_document_is_written_before_the_next_is_begun(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Two hundred setups held until the end took as much memory as one of the processes."""
    seen: list[str] = []

    def told(*_: object) -> Iterator[several.Written]:
        for name in "ab":
            yield several.Written(name, 0)
            seen.append(capsys.readouterr().out)

    dress = SimpleNamespace(around=("[", ",", "]"))
    monkeypatch.setattr(judged, "dress_of", lambda _: dress)
    monkeypatch.setattr(judged, "format_of", lambda _: "x")
    monkeypatch.setattr(several, "in_order", told)
    assert several.each_in_order([Path("a"), Path("b")], argparse.Namespace()) == 0
    assert [*seen, capsys.readouterr().out] == ["[a", ",b", "]"]


def test_what_stands_before_and_between_needs_nothing_behind(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """A table with a head is written as it comes: the head once."""
    dress = SimpleNamespace(around=("head\n", "--\n", ""))
    monkeypatch.setattr(judged, "dress_of", lambda _: dress)
    monkeypatch.setattr(judged, "format_of", lambda _: "x")
    told = [several.Written(f"{name}\n", 0) for name in "ab"]
    monkeypatch.setattr(several, "in_order", lambda *_: told)
    assert several.each_in_order([Path("a"), Path("b")], argparse.Namespace()) == 0
    assert capsys.readouterr().out == "head\na\n--\nb\n"


def test_of_two_tanks_with_a_stop_the_one_with_more_dangers_stands_first() -> None:
    rows = [
        Summary("One danger", "STOP", "x", "2026-03-01", "a.yaml", 1, 9),
        Summary("Sound", "A", "nothing", "–", "b.yaml"),
        Summary("Two dangers", "STOP", "x", "2026-03-01", "c.yaml", 2, 0),
        Summary("One, less wrong", "STOP", "x", "2026-03-01", "d.yaml", 1, 3),
    ]
    (table,) = (block for block in overview_blocks(rows, 0) if isinstance(block, Table))
    assert [row[4] for row in table.rows] == ["c.yaml", "a.yaml", "d.yaml", "b.yaml"]
