"""What lies in the folder: links and modes, leftovers, earlier versions, and what is done to it."""

from __future__ import annotations

import datetime
import os
import stat
import time
from pathlib import Path

import pytest

from interview import assembly, cli, setups
from interview.base.files.writing import sweep
from interview.graph.interview import Place
from interview.setups import Setup, SetupError
from interview.setups.earlier import clock_was_wrong, keep_past, past_files, previous_file
from interview.setups.kept import Kept, is_started, new_file, old_file

on_posix = pytest.mark.skipif(os.name != "posix", reason="needs links and modes")


def _setup(stage: str = "living", title: str = "Tank") -> Setup:
    return Setup(title=title, answers={Place("stage"): stage})


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("TANKSIDE_FOLDER", str(tmp_path))
    return tmp_path


# ---- links and modes


@on_posix
def test_saving_through_a_link_writes_the_file_behind_it(tmp_path: Path) -> None:
    (tmp_path / "elsewhere").mkdir()
    real, link = tmp_path / "elsewhere" / "real.yaml", tmp_path / "tank.yaml"
    setups.write(real, _setup())
    link.symlink_to(real)
    setups.write(link, _setup("planning"))
    assert link.is_symlink() and "stage: planning" in real.read_text("utf-8")
    assert {p.name for p in tmp_path.iterdir()} == {"elsewhere", "tank.yaml"}


@on_posix
@pytest.mark.parametrize("mode", [0o664, 0o600, 0o640])
def test_a_file_keeps_its_mode(tmp_path: Path, mode: int) -> None:
    path = tmp_path / "tank.yaml"
    setups.write(path, _setup())
    assert stat.S_IMODE(path.stat().st_mode) == 0o600
    path.chmod(mode)
    setups.write(path, _setup("planning"))
    assert stat.S_IMODE(path.stat().st_mode) == mode


@on_posix
def test_the_longest_name_a_file_can_have_is_saved(tmp_path: Path) -> None:
    path = tmp_path / ("ü" * 125 + ".yaml")
    setups.write(path, _setup())
    assert path.exists()


# ---- what kills leave behind


def _aged(path: Path, hours: float) -> Path:
    then = time.time() - hours * 3600
    os.utime(path, (then, then))
    return path


@pytest.mark.parametrize(
    ("name", "text", "hours", "stays"),
    [
        (".tank.yaml.ab12cd_9.tankside-part", "# A page", 2, False),
        (".tank.yaml.ab12cd_9.tankside-part", "", 0.5, True),
        (".tank.yaml.ab12cd_9", "format: tankside/1\ntitle: x", 2, False),
        (".tank.yaml.ab12cd_9", "format: tan", 2, False),
        (".tank.yaml.ab12cd_9", "", 2, False),
        (".tank.yaml.ab12cd_9", "format: tankside/1\ntitle: x", 0.5, True),
        (".notes.txt.ab12cd_9", "mine", 2, True),
        (".bashrc", "", 2, True),
        ("tank.yaml.ab12cd_9", "format: tankside/1", 2, True),
    ],
)
def test_leftovers_are_swept_when_they_are_ours_and_old(
    tmp_path: Path, name: str, text: str, hours: float, stays: bool
) -> None:
    left = tmp_path / name
    left.write_text(text, "utf-8")
    _aged(left, hours)
    sweep(tmp_path, "format: tankside/1")
    assert left.exists() == stays


def test_a_start_sweeps(folder: Path) -> None:
    left = folder / ".tank.yaml.ab12cd_9"
    left.write_text("format: tankside/1\n", "utf-8")
    _aged(left, 2)
    new_file()
    assert not left.exists()


def test_a_file_that_a_killed_talk_reserved_is_gone_on_with(folder: Path) -> None:
    reserved = new_file().path
    assert not is_started(reserved)
    again = new_file(reserved)
    assert again.new and not again.save(_setup())
    assert "stage: living" in reserved.read_text("utf-8")


def test_reserved_files_of_yesterday_are_swept(folder: Path) -> None:
    old, mine = folder / "tank-2026-01-01.yaml", folder / "empty.yaml"
    for path in (old, mine):
        path.touch()
        _aged(path, 30)
    young = new_file().path
    new_file()
    assert not old.exists() and mine.exists() and young.exists()


# ---- the version before


def test_the_version_a_talk_found_is_kept(tmp_path: Path) -> None:
    path = tmp_path / "tank.yaml"
    setups.write(path, _setup("planning"))
    _aged(path, 48)
    found, kept = path.stat().st_mtime, old_file(path)
    kept.save(_setup("planning"))
    assert not previous_file(path).exists(), "nothing was changed"
    kept.save(_setup("set_up"))
    kept.save(_setup("living"))
    assert "stage: planning" in previous_file(path).read_text("utf-8")
    assert previous_file(path).stat().st_mtime == pytest.approx(found, abs=172_800)
    assert "stage: living" in path.read_text("utf-8")


def test_a_new_tank_has_no_version_before(tmp_path: Path) -> None:
    kept = new_file(tmp_path / "tank.yaml")
    kept.save(_setup())
    kept.save(_setup("planning"))
    assert not previous_file(kept.path).exists()


def test_a_file_that_somebody_else_wrote_is_left_alone(tmp_path: Path) -> None:
    path = tmp_path / "tank.yaml"
    setups.write(path, _setup("planning"))
    kept: Kept = old_file(path)
    setups.write(path, _setup("set_up", "Somebody else's"))
    assert kept.save(_setup("living"))
    assert "Somebody else's" in path.read_text("utf-8") and kept.path != path


# ---- the history and the clock


def test_the_history_is_in_the_order_of_writing(tmp_path: Path) -> None:
    path = tmp_path / "tank.yaml"
    dates = [datetime.datetime(year, 1, 1) for year in (2026, 2200, 1970, 2027)]
    for number, date in enumerate(dates):
        keep_past(path, _setup(title=str(number)), date)
    assert [date for date, _ in past_files(path)] == dates
    titles = [setups.read(f, assembly.questionnaire()).title for _, f in past_files(path)]
    assert titles == ["0", "1", "2", "3"]


def test_a_history_from_before_it_was_numbered_comes_first(tmp_path: Path) -> None:
    (tmp_path / "history").mkdir()
    for stamp in ("2026-02-01-120000-000001", "2026-01-01-120000-000001"):
        setups.write(tmp_path / "history" / f"tank-{stamp}.yaml", _setup(title=stamp))
    path = tmp_path / "tank.yaml"
    keep_past(path, _setup(), datetime.datetime(2025, 6, 1))
    assert [date.isoformat()[:10] for date, _ in past_files(path)] == [
        "2026-01-01", "2026-02-01", "2025-06-01",
    ]  # fmt: skip


def test_no_other_tank_is_in_the_history(tmp_path: Path) -> None:
    one, other = tmp_path / "tank-2026-01-01.yaml", tmp_path / "tank-2026-01-01-2.yaml"
    keep_past(other, _setup(), datetime.datetime(2026, 1, 2))
    assert past_files(one) == [] and len(past_files(other)) == 1


@pytest.mark.parametrize(
    ("year", "wrong"), [(1970, True), (2025, False), (2026, False), (2027, True), (2200, True)]
)
def test_a_clock_is_wrong_after_today_and_before_there_were_setups(year: int, wrong: bool) -> None:
    written = datetime.datetime(year, 3, 1)
    assert clock_was_wrong(written, datetime.datetime(2026, 11, 28)) == wrong


# ---- tankside setups


@pytest.fixture
def shelf(folder: Path) -> Path:
    """Two tanks, the kitchen's the newer."""
    setups.write(folder / "study.yaml", _setup(title="Study window"))
    _aged(folder / "study.yaml", 48)
    setups.write(folder / "kitchen.yaml", _setup("planning", title="Kitchen [red]shelf[/red]"))
    return folder


def _setups(capsys: pytest.CaptureFixture[str], *arguments: str, code: int = 0) -> str:
    assert cli.main(["setups", *arguments]) == code
    shown = capsys.readouterr()
    return shown.out + shown.err


def test_the_saved_setups_are_listed(shelf: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (shelf / "broken.yaml").write_text("nonsense", "utf-8")
    _aged(shelf / "broken.yaml", 72)
    lines = _setups(capsys).splitlines()
    assert lines[0] == f"Saved in {shelf}, the newest first:"
    assert lines[1].startswith("  1. Kitchen [red]shelf[/red] (kitchen.yaml, 1 answer, 20")
    assert lines[2].startswith("  2. Study window (study.yaml, 1 answer, 20")
    assert lines[3].startswith("  3. broken (broken.yaml, can't be read, 20")


def test_nothing_saved_is_said(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert "Nothing is saved" in _setups(capsys)


@pytest.mark.parametrize("meant", ["2", "study.yaml", "study", "study window", "Window"])
def test_a_setup_is_renamed(shelf: Path, meant: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert "was “Study window”" in _setups(capsys, "rename", meant, "Bay window")
    assert setups.read(shelf / "study.yaml", assembly.questionnaire()) == _setup(title="Bay window")


@pytest.mark.parametrize("meant", ["3", "0", "", "attic", "../study.yaml", "x" * 300])
def test_a_setup_that_is_not_there_is_2(
    shelf: Path, meant: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert "“tankside setups” lists them" in _setups(capsys, "delete", meant, "--yes", code=2)
    assert len(list(shelf.glob("*.yaml"))) == 2


def test_words_that_fit_several_ask_for_a_name(
    shelf: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    setups.write(shelf / "third.yaml", _setup(title="Study shelf"))
    said = _setups(capsys, "rename", "study shelf", "x") + _setups(
        capsys, "rename", "window", "Study"
    )
    assert "third.yaml" in said
    assert "may be any of" in _setups(capsys, "delete", "s", code=2)


def test_a_title_must_be_one(shelf: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert "A title has" in _setups(capsys, "rename", "1", "  ", code=2)


def test_the_version_before_is_offered_and_changes_places(
    shelf: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = shelf / "study.yaml"
    old_file(path).save(_setup("set_up", title="Study window"))
    path_date = path.stat().st_mtime
    assert "The version before is kept: “tankside setups back 1”." in _setups(capsys)
    _setups(capsys, "back", "study")
    assert "stage: living" in path.read_text("utf-8") and path.stat().st_mtime < path_date
    _setups(capsys, "back", "study")
    assert "stage: set_up" in path.read_text("utf-8")
    assert "No version before this one" in _setups(capsys, "back", "kitchen", code=2)


def test_deleting_asks_and_takes_the_earlier_versions_along(
    shelf: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    path, page = shelf / "study.yaml", shelf / "study.md"
    page.write_text("# Study window\n", "utf-8")
    keep_past(path, _setup(), datetime.datetime(2026, 1, 1))
    old_file(path).save(_setup("set_up"))
    asked: list[str] = []
    monkeypatch.setattr("builtins.input", lambda said: asked.append(said) or "no")
    assert "Nothing was deleted" in _setups(capsys, "delete", "study")
    assert path.exists() and asked[0].startswith("Delete “Tank”, ")
    monkeypatch.setattr("builtins.input", lambda asked: "yes")
    assert "are deleted" in _setups(capsys, "delete", "study")
    left = {p.name for p in shelf.rglob("*") if p.is_file()}
    assert left == {"kitchen.yaml", "study.md"}


def test_a_setup_is_opened(
    shelf: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("sys.stdin", open(os.devnull))  # noqa: PTH123, SIM115
    assert "Going on with Study window" in _setups(capsys, "open", "window")


def test_a_setup_is_opened_at_the_counter(
    shelf: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("sys.stdin", open(os.devnull))  # noqa: PTH123, SIM115
    said = _setups(capsys, "open", "window", "--manner", "counter")
    assert "In a row, with ; between" in said
    assert "“tankside talk --manner counter " in " ".join(said.split())


def test_a_folder_of_nobody_is_said(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("TANKSIDE_FOLDER", "~nobodyofthisname")
    assert "nobody's home folder" in _setups(capsys, code=2)
    with pytest.raises(SetupError):
        setups.folder()
