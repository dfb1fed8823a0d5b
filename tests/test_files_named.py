"""What people name as a file: only small, regular text is read, and at once."""

from __future__ import annotations

import ctypes
import os
import resource
import subprocess
import sys
import threading
from collections.abc import Callable
from pathlib import Path

import pytest

from interview.base.files.reading import MOST_BYTES, FileRefused, read_small

ROOT = Path(__file__).parent.parent
MUSK = ROOT / "transcripts_demo" / "musk_turtle.yaml"

on_posix = pytest.mark.skipif(os.name != "posix", reason="needs pipes and devices")


def _tankside(
    *arguments: str, typed: str = "", folder: Path | str = "/tmp/none", **rest: object
) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "interview", *arguments],
        input=typed,
        capture_output=True,
        text=True,
        timeout=60,
        cwd=ROOT,
        env={**os.environ, "TANKSIDE_FOLDER": str(folder)},
        **rest,  # type: ignore[call-overload]
    )


def _as_anybody() -> None:
    """Before a program starts: what is forbidden to its owner is forbidden, to root as well."""
    if os.getuid() == 0:
        for override in (1, 2):  # CAP_DAC_OVERRIDE, CAP_DAC_READ_SEARCH, by PR_CAPBSET_DROP
            ctypes.CDLL(None).prctl(24, override, 0, 0, 0)


def _pipe(folder: Path) -> Path:
    os.mkfifo(folder / "pipe.yaml")
    return folder / "pipe.yaml"


def _huge(folder: Path) -> Path:
    path = folder / "huge.yaml"
    with path.open("wb") as file:
        file.truncate(100_000_000)
    return path


def _dangling(folder: Path) -> Path:
    (folder / "link.yaml").symlink_to(folder / "nowhere.yaml")
    return folder / "link.yaml"


def _utf16(folder: Path) -> Path:
    path = folder / "wide.yaml"
    path.write_bytes(MUSK.read_text("utf-8").encode("utf-16"))
    return path


def _titled(folder: Path) -> Path:
    path = folder / "titled.yaml"
    path.write_text(f"format: tankside/1\ntitle: {'a b' * 300_000}\nanswers: {{}}\n", "utf-8")
    return path


UNUSABLE: list[tuple[Callable[[Path], Path], str]] = [
    (_pipe, "it is a pipe"),
    (_huge, "larger than 1 MB"),
    (_utf16, "not UTF-8 text but UTF-16"),
    (_titled, "the title is 900,000 letters long"),
    (_dangling, "link to a file that is not there"),
    (lambda folder: folder, "it is a folder"),
    (lambda _: Path("/dev/zero"), "it is a device"),
    (lambda _: Path("/dev/urandom"), "it is a device"),
    (lambda _: Path(), "No file is named"),
    (lambda folder: folder / ("n" * 300), "File name too long"),
]


# A talk starts a new tank behind a link to nothing.
UNUSABLE_TO = [
    pytest.param(command, make, said, id=f"{command}-{said}")
    for command in ("audit", "recheck", "talk", "explain")
    for make, said in UNUSABLE
    if (command, make) != ("talk", _dangling)
]


@on_posix
@pytest.mark.parametrize(("command", "make", "said"), UNUSABLE_TO)
def test_an_unusable_file_is_2_with_one_sentence(
    command: str,
    make: Callable[[Path], Path],
    said: str,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    from interview import cli

    path = make(tmp_path)
    monkeypatch.setenv("TANKSIDE_FOLDER", str(tmp_path / "tanks"))
    monkeypatch.setattr("sys.stdin", open(os.devnull))  # noqa: PTH123, SIM115
    name = "" if path == Path() else str(path)
    more = ["water_volume"] if command == "explain" else []
    assert cli.main([command, name, *more]) == 2
    told = capsys.readouterr().err
    assert told.startswith("tankside: ") and said in told and len(told) < 500


@pytest.mark.skipif(not Path("/proc/self/status").exists(), reason="asks Linux for memory")
@pytest.mark.parametrize(
    "make", [_pipe, _huge, _titled, lambda _: Path("/dev/zero"), lambda _: Path("/dev/urandom")],
    ids=["pipe", "100 MB", "title", "zero", "urandom"],
)  # fmt: skip
def test_an_unusable_file_costs_next_to_nothing(
    make: Callable[[Path], Path], tmp_path: Path
) -> None:
    """In two seconds of work and 60 MB, before pint, numpy or scipy is loaded."""
    path = make(tmp_path)
    code = (
        "import resource, sys; from interview import cli;"
        f"code = cli.main(['audit', {str(path)!r}]);"
        "heavy = sorted({'pint', 'numpy', 'scipy'} & set(sys.modules));"
        "used = resource.getrusage(resource.RUSAGE_SELF);"
        "status = dict(line.split(':', 1) for line in open('/proc/self/status'));"
        "light = int(status['VmHWM'].split()[0]) < 60_000;"
        "print(code, heavy, light, used.ru_utime + used.ru_stime < 2)"
    )
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, timeout=60, cwd=ROOT
    )
    assert done.stdout == "2 [] True True\n", done.stderr


@on_posix
def test_nothing_is_waited_for(tmp_path: Path) -> None:
    """Who opened the pipe would wait for ever."""
    pipe, told = _pipe(tmp_path), list[str]()

    def read() -> None:
        try:
            read_small(pipe)
        except FileRefused as refused:
            told.append(str(refused))

    reading = threading.Thread(target=read, daemon=True)
    reading.start()
    reading.join(60)
    assert not reading.is_alive()
    assert len(told) == 1 and "a pipe" in told[0]


def test_the_largest_file_is_read_and_one_byte_more_is_not(tmp_path: Path) -> None:
    path = tmp_path / "full.yaml"
    path.write_bytes(b"a" * MOST_BYTES)
    assert len(read_small(path)) == MOST_BYTES
    path.write_bytes(b"a" * (MOST_BYTES + 1))
    with pytest.raises(FileRefused, match="larger than 1 MB"):
        read_small(path)


@on_posix
def test_a_folder_with_links_to_nothing_and_pipes_stops_no_talk(tmp_path: Path) -> None:
    _dangling(tmp_path)
    _pipe(tmp_path)
    done = _tankside("talk", "--plain", typed="living\n", folder=tmp_path)
    assert done.returncode == 0, done.stderr
    (saved,) = (p for p in tmp_path.glob("tank-*.yaml"))
    assert "stage: living" in saved.read_text("utf-8")


@pytest.mark.parametrize("named", ["~nobodyofthisname", "/dev/null/tanks"])
def test_a_folder_that_cannot_be_is_2_with_a_sentence(named: str) -> None:
    done = _tankside("talk", "--plain", folder=named)
    assert done.returncode == 2, done.stderr
    assert "TANKSIDE_FOLDER" in done.stderr and "Traceback" not in done.stderr


@on_posix
def test_a_folder_without_search_permission_is_2_with_a_sentence(tmp_path: Path) -> None:
    locked = tmp_path / "locked"
    locked.mkdir()
    (locked / "tank.yaml").write_text(MUSK.read_text("utf-8"), "utf-8")
    locked.chmod(0o600)
    try:
        for arguments in (["talk", "--plain"], ["talk", str(locked / "tank.yaml")]):
            done = _tankside(*arguments, folder=locked, preexec_fn=_as_anybody)
            assert done.returncode == 2, done.stderr
            assert "Permission denied" in done.stderr and "fault" not in done.stderr
    finally:
        locked.chmod(0o700)


def test_it_works_without_docstrings() -> None:
    """`python -OO` drops the docstrings, which are the data sheets of the core."""
    reckon = ["-m", "interview", "reckon", "brim_volume", "tank_length=1m", "tank_width=40cm",
              "tank_height=40cm", "wall_thickness=6mm"]  # fmt: skip
    plain, bare = (
        subprocess.run(
            [sys.executable, *options, *reckon], capture_output=True, text=True, cwd=ROOT
        )
        for options in ([], ["-OO"])
    )
    assert bare.returncode == 0, bare.stderr
    assert bare.stdout == plain.stdout


@on_posix
def test_a_limit_on_the_size_of_files_is_said(tmp_path: Path) -> None:
    """The answer stays in mind and is shown; nothing is half written, no traceback shows."""

    def limited() -> None:
        resource.setrlimit(resource.RLIMIT_FSIZE, (0, 0))

    done = _tankside(
        "talk", "--plain", typed="living\neurope\nstop\n", folder=tmp_path, preexec_fn=limited
    )
    assert done.returncode == 2
    assert "Traceback" not in done.stdout + done.stderr and "fault" not in done.stderr
    shown = " ".join(done.stdout.split())
    assert "Not saved, but kept in mind: Stage of the tank: living. Nothing can be saved" in shown
    assert "Stage of the tank: a turtle lives in it Region: Europe" in shown
    assert done.stderr.startswith("tankside: The answers above are not all saved.")
    assert not [p for p in tmp_path.iterdir() if p.stat().st_size]


@on_posix
@pytest.mark.parametrize("command", [["questions"], ["demo", "--fast", "--plain"]], ids=str)
def test_output_into_a_file_that_may_not_grow_is_2_with_a_sentence(
    tmp_path: Path, command: list[str]
) -> None:
    def limited() -> None:
        resource.setrlimit(resource.RLIMIT_FSIZE, (0, 0))

    with (tmp_path / "out.txt").open("w", encoding="utf-8") as out:
        done = subprocess.run(
            [sys.executable, "-m", "interview", *command],
            stdout=out,
            stderr=subprocess.PIPE,
            text=True,
            cwd=ROOT,
            preexec_fn=limited,
        )
    assert done.returncode == 2
    assert "larger than is allowed here" in done.stderr and "Traceback" not in done.stderr
