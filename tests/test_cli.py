"""The door: every command, every exit code, every complaint in one sentence."""

from __future__ import annotations

import datetime
import functools
import io
import json
import os
import re
import subprocess
import sys
import tomllib
from collections.abc import Callable, Sequence
from importlib.metadata import version
from pathlib import Path
from types import SimpleNamespace
from typing import NamedTuple

import pytest
from golden import DAY, DEMOS, audit_page

from interview import __version__, assembly, cli
from interview.advice.advise import Advice
from interview.chat.page_file import may_be_replaced
from interview.commands import failures
from interview.commands.auditing import judged
from interview.core.wiring import laws, quantities

ROOT = Path(__file__).parent.parent
MUSK = DEMOS / "musk_turtle.yaml"
STOPPED = DEMOS / "map_turtle_hatchling.yaml"
ADVICE_OF = assembly.advice_of
COMMANDS = ("talk", "recheck", "audit", "demo", "reckon", "explain", "questions")


_audit_again = functools.cache(judged.audit_file)


def _audit_once(path: Path, supposed: Sequence[str]) -> judged.Audited:
    """The same file gives the same audit, so each is computed once for all tests here."""
    return _audit_again(path, tuple(supposed))


@pytest.fixture(autouse=True)
def _own_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("TANKSIDE_FOLDER", str(tmp_path / "tanks"))
    monkeypatch.setattr(judged, "audit_file", _audit_once)
    # Advice has tests of its own; here it would only cost time.
    monkeypatch.setattr(assembly, "advice_of", lambda audit: None)


def run(
    *arguments: str | Path,
    typed: str = "",
    folder: Path | None = None,
    around: dict[str, str] | None = None,
) -> subprocess.CompletedProcess[str]:
    """The command in a process of its own."""
    return subprocess.run(
        [sys.executable, "-m", "interview", *map(str, arguments)],
        input=typed,
        capture_output=True,
        text=True,
        encoding="utf-8",
        cwd=folder,
        env={**os.environ, "LC_ALL": "C.UTF-8", **(around or {})},
        check=False,
    )


def refused(capsys: pytest.CaptureFixture[str], arguments: Sequence[str | Path]) -> str:
    """Run what can't be used: exit code 2, nothing on stdout, one line on stderr."""
    code = cli.main([str(argument) for argument in arguments])
    shown = capsys.readouterr()
    assert code == 2, shown.err
    assert shown.out == ""
    assert re.fullmatch(r"tankside: [^\n]+[.?]\n", shown.err), shown.err
    return shown.err


# ---- what can be asked of the command itself


def test_help_names_every_command(capsys: pytest.CaptureFixture[str]) -> None:
    assert cli.main(["--help"]) == 0
    shown = capsys.readouterr().out
    for command in COMMANDS:
        assert re.search(rf"^    {command} +\w", shown, re.M), command
    assert "TANKSIDE_FOLDER" in shown


@pytest.mark.parametrize("command", COMMANDS)
def test_every_command_has_help(command: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert cli.main([command, "--help"]) == 0
    assert f"tankside {command}" in capsys.readouterr().out


def test_version(capsys: pytest.CaptureFixture[str]) -> None:
    assert cli.main(["--version"]) == 0
    assert capsys.readouterr().out == f"tankside {__version__}\n"


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["foo"], "foo"),
        (["audit"], "SETUP"),
        (["--nonsense"], "--nonsense"),
        (["--manner", "rude"], "rude"),
    ],
    ids=["command", "nothing named", "option", "choice"],
)
def test_a_wrong_command_line(
    arguments: list[str], words: str, capsys: pytest.CaptureFixture[str]
) -> None:
    complaint = refused(capsys, arguments)
    assert words in complaint
    assert "--help” for what works." in complaint


# ---- audit


def test_audit_says_good_with_0_and_stop_with_1(capsys: pytest.CaptureFixture[str]) -> None:
    assert cli.main(["audit", str(MUSK)]) == 0
    assert "Study window, musk turtle\nGrade " in capsys.readouterr().out
    assert cli.main(["audit", str(STOPPED)]) == 1
    assert "STOP" in capsys.readouterr().out


def test_audit_of_several_files(capsys: pytest.CaptureFixture[str]) -> None:
    assert cli.main(["audit", str(MUSK), str(STOPPED)]) == 1
    shown = capsys.readouterr().out
    assert shown.index("Shop corner") < shown.index("Study window, musk turtle"), "worst first"


def test_a_bad_file_among_several_stops_none_of_the_others(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    assert cli.main(["audit", str(tmp_path / "none.yaml"), str(MUSK)]) == 2
    shown = capsys.readouterr()
    assert "none.yaml" in shown.err
    assert "Study window, musk turtle" in shown.out


def test_json_is_one_document(capsys: pytest.CaptureFixture[str]) -> None:
    assert cli.main(["audit", "--json", str(MUSK)]) == 0
    one = json.loads(capsys.readouterr().out)
    assert one["format"] == "tankside/audit/1"
    assert one["stop"] is False
    (listed,) = one.pop("audits")
    assert listed == {"file": str(MUSK), **one}, "one shape for one setup and for many"
    assert cli.main(["audit", "--json", str(MUSK), str(STOPPED)]) == 1
    both = json.loads(capsys.readouterr().out)
    assert list(both) == ["audits"]
    assert both["audits"][0] == {"file": str(MUSK), **one}
    assert [audit["stop"] for audit in both["audits"]] == [False, True]


def test_markdown_is_the_stored_page_with_a_date(
    capsys: pytest.CaptureFixture[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(judged, "audit_file", _audit_again.__wrapped__)
    monkeypatch.setattr(assembly, "advice_of", lambda audit, today=DAY: ADVICE_OF(audit, today))
    monkeypatch.setattr(datetime, "date", _OnTheDay)  # what is to be done by a day hangs on it
    target = tmp_path / "page.md"
    assert cli.main(["audit", str(MUSK), "--markdown", str(target)]) == 0
    assert capsys.readouterr().out.startswith(f"Saved {target}. Grade ")
    text = target.read_text("utf-8")
    assert text.count(f"Audited on {DAY}.") == 1
    pictures = re.findall(r"^!\[.+\]\((page\.\w+\.svg)\)$", text, re.MULTILINE)
    assert sorted(pictures) == sorted(path.name for path in tmp_path.glob("*.svg"))
    assert {"page.tank.svg", "page.tank_side.svg"} <= {*pictures}
    assert _undrawn(text) == _undrawn(audit_page(MUSK)), "but for the pictures in files beside it"


class _OnTheDay(datetime.date):
    """A date for which it is always the day of the stored pages."""

    @classmethod
    def today(cls) -> datetime.date:
        return DAY


def _undrawn(page: str) -> str:
    """The page without its pictures, in characters or as links."""
    return re.sub(r"^(?:```text\n.*?^```|!\[[^\n]*)\n\n", "", page, flags=re.DOTALL | re.MULTILINE)


def test_markdown_and_json_together(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    target = tmp_path / "page.md"
    assert cli.main(["audit", str(MUSK), "--json", "--markdown", str(target)]) == 0
    assert json.loads(capsys.readouterr().out)["title"] == "Study window, musk turtle"
    assert target.read_text("utf-8").startswith("# Study window, musk turtle\n")


def test_a_layer_is_shown_while_the_file_gets_the_page(
    capsys: pytest.CaptureFixture[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """So that the file is known again as a page, and may be written over."""
    bare = _audit_once(MUSK, ())._replace(advice=Advice((), (), None, (), None))
    monkeypatch.setattr(judged, "audit_file", lambda *_: bare)
    target = tmp_path / "page.md"
    assert cli.main(["audit", str(MUSK), "--numbers", "--markdown", str(target)]) == 0
    shown = capsys.readouterr().out
    assert shown.startswith("Saved ") and "The tank in numbers" in shown
    assert "Sources" not in shown and "## Sources" in target.read_text("utf-8")
    assert may_be_replaced(target)


def test_markdown_with_another_format_is_refused(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    target = tmp_path / "page.md"
    for name in ("plain", "terminal", "markdown"):
        said = refused(capsys, ["audit", MUSK, "--markdown", target, "--format", name])
        assert "leave --format out" in said
    assert not target.exists()


def test_whole_shows_limits_and_sources(capsys: pytest.CaptureFixture[str]) -> None:
    cli.main(["audit", str(MUSK)])
    short = capsys.readouterr().out
    cli.main(["audit", str(MUSK), "--whole"])
    whole = capsys.readouterr().out
    assert "Held against:" in whole
    assert "Held against:" not in short
    assert len(whole) > 2 * len(short)


def test_files_that_cannot_be_used(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    assert "There is no file" in refused(capsys, ["audit", tmp_path / "none.yaml"])
    assert "it is a folder" in refused(capsys, ["audit", tmp_path])
    assert "one setup" in refused(capsys, ["audit", MUSK, STOPPED, "--markdown", tmp_path / "x.md"])


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "tankside/1"),
        ("nonsense", "tankside/1"),
        ("format: other\n", "“other”"),
        ("format: tankside/1\nanswers:\n  tank_sise: 1 m\n", "“tank_size”"),
        ("format: tankside/1\nanswers:\n  stage: flying\n", "stage"),
        ("format: tankside/1\nanswers:\n  tank_size: 100 x 40\n", "tank_size"),
        ("format: tankside/1\nanswers: [1\n", "setup file"),
        ("? [a]\n: b\nformat: tankside/1\n", "setup file"),
        ("format: tankside/1\n\0", "setup file"),
    ],
    ids=["empty", "words", "format", "key", "choice", "size", "broken", "list as key", "zero byte"],
)
def test_a_bad_setup_file_is_named(
    text: str, words: str, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    path = tmp_path / "bad.yaml"
    path.write_text(text, "utf-8")
    complaint = refused(capsys, ["audit", path])
    assert words in complaint
    assert "bad.yaml" in complaint


def test_not_text(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    path = tmp_path / "bad.yaml"
    path.write_bytes(b"format: tankside/1\ntitle: \xff\xfe\n")
    assert "UTF-8" in refused(capsys, ["audit", path])


def test_output_that_cannot_be_written(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    (tmp_path / "file").touch()
    for target in (tmp_path, tmp_path / "none" / "x.md", tmp_path / "file" / "x.md"):
        assert "can't be written" in refused(capsys, ["audit", MUSK, "--markdown", target])


def _never(*_: object) -> None:
    raise AssertionError("worked out for an output that takes nothing")


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="needs a device that is always full")
@pytest.mark.parametrize("form", ["plain", "markdown", "json"])
def test_a_full_output_is_found_out_before_the_work(
    form: str, monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(judged, "judged_file", _never)
    monkeypatch.setattr(judged, "audit_file", _never)
    with Path("/dev/full").open("w") as full:
        monkeypatch.setattr(sys, "stdout", full)
        monkeypatch.setattr(failures, "_drop_output", lambda: None)
        assert cli.main(["audit", str(MUSK), "--format", form]) == 2
        monkeypatch.undo()
    assert "no space is left there" in capfd.readouterr().err


def test_a_full_disk_is_found_out_before_the_work(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str]
) -> None:
    full = SimpleNamespace(f_bfree=0)
    monkeypatch.setattr(os, "fstatvfs", lambda _: full, raising=False)
    monkeypatch.setattr(judged, "audit_file", _never)
    with (tmp_path / "page.txt").open("w") as page:
        monkeypatch.setattr(sys, "stdout", page)
        monkeypatch.setattr(failures, "_drop_output", lambda: None)
        assert cli.main(["audit", str(MUSK)]) == 2
        monkeypatch.undo()
    assert "no space is left there" in capfd.readouterr().err
    assert (tmp_path / "page.txt").read_text() == ""


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="needs a device that is always full")
def test_a_full_disk_is_said() -> None:
    with Path("/dev/full").open("w") as full:
        done = subprocess.run(
            [sys.executable, "-m", "interview", "audit", MUSK],
            stdout=full,
            stderr=subprocess.PIPE,
            text=True,
            check=False,
        )
    assert done.returncode == 2
    assert done.stderr == "tankside: The output can't be written: no space is left there.\n"


@pytest.mark.parametrize("option", ["--plain", "--json"])
def test_a_reader_that_leaves_early(option: str) -> None:
    command = f'"{sys.executable}" -m interview audit "{MUSK}" {option}; echo "code $?" >&2'
    done = subprocess.run(
        ["bash", "-c", f"({command}) | head -1"], capture_output=True, text=True, check=False
    )
    assert done.stderr == "code 0\n"
    assert len(done.stdout.splitlines()) == 1


# ---- single sums


def test_reckon(capsys: pytest.CaptureFixture[str]) -> None:
    arguments = ["reckon", "ammonia_free_share", "ph=8", "water_temperature=25 degC"]
    assert cli.main(arguments) == 0
    shown = capsys.readouterr().out
    assert shown.startswith("ammonia_free_share = 5.4%\n")
    assert "emerson_1975: " in shown
    assert cli.main([*arguments, "--json"]) == 0
    # Emerson et al. 1975, table: 0.0537 at pH 8 and 25 degC
    assert json.loads(capsys.readouterr().out)["value"] == pytest.approx(0.0537, abs=1e-4)


def test_reckon_alone_lists_what_there_is_by_subject(capsys: pytest.CaptureFixture[str]) -> None:
    assert cli.main(["reckon"]) == 0
    shown = capsys.readouterr().out
    basking = shown.partition("\nbasking\n")[2].partition("\n\n")[0].replace("\n    ", " ")
    assert re.search(r"(?m)^  shell_temperature \[degC\]: .*; takes ", basking)
    assert cli.main(["reckon", "--json"]) == 0
    tree = json.loads(capsys.readouterr().out)
    assert tree["water"]["ammonia_free_share"]["takes"] == ["ph", "water_temperature"]
    named = [name for rows in tree.values() for name in rows]
    assert set(named) == {*laws(), *quantities().formulas} and len(named) == len(set(named))


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["amonia_free_share", "ph=8"], "“ammonia_free_share”"),
        (["ammonia_free_share", "ph=8", "water_temp=25"], "“water_temperature”"),
        (["ammonia_free_share", "ph"], "ph=8"),
        (["ammonia_free_share", "ph=8"], "water_temperature"),
        (["ammonia_free_share", "ph=8", "water_temperature=wet"], "water_temperature"),
    ],
    ids=["quantity", "input", "no value", "one missing", "no number"],
)
def test_reckon_refuses(
    arguments: list[str], words: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert words in refused(capsys, ["reckon", *arguments])


def test_explain(capsys: pytest.CaptureFixture[str]) -> None:
    assert cli.main(["explain", str(MUSK), "water_volume"]) == 0
    shown = capsys.readouterr().out
    assert shown.startswith("water_volume = 100 L\n")
    assert "“100 x 40 x 40 cm”" in shown
    assert cli.main(["explain", str(MUSK), "water_volume", "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["quantity"] == "water_volume"


def test_explain_refuses(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    assert "“heat_loss”" in refused(capsys, ["explain", MUSK, "heat_lost"])
    assert "none.yaml" in refused(capsys, ["explain", tmp_path / "none.yaml", "heat_loss"])


# ---- questions and demo


def test_questions_are_listed(capsys: pytest.CaptureFixture[str]) -> None:
    assert cli.main(["questions"]) == 0
    shown = capsys.readouterr().out
    assert "\nTank\n" in shown
    assert "water_line_below_rim: How far" in shown
    assert max(map(len, shown.splitlines())) <= 80


def test_questions_have_no_faults(capsys: pytest.CaptureFixture[str]) -> None:
    assert cli.main(["questions", "--check"]) == 0
    assert capsys.readouterr().out == "No faults.\n"


def test_the_demo_at_once(capsys: pytest.CaptureFixture[str]) -> None:
    assert cli.main(["demo", "--fast", "--plain"]) == 0
    shown = capsys.readouterr().out
    assert shown.startswith("Tankside: ")
    assert "Answer: common musk turtle" in shown
    assert "The vet: " in shown


# ---- the talk through a pipe


class Piped(NamedTuple):
    """How a talk through a pipe ended, and what it showed."""

    code: int
    out: str
    err: str


@pytest.fixture
def piped(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> Callable[..., Piped]:
    """A talk through a pipe, in this process: that it starts in one of its own is tried below."""

    def talk(typed: str, *arguments: str | Path) -> Piped:
        monkeypatch.setattr("sys.stdin", io.StringIO(typed))
        code = cli.main([*map(str, arguments)])
        return Piped(code, *capsys.readouterr())

    return talk


def test_runs_as_a_module_from_any_folder(tmp_path: Path) -> None:
    done = run("--plain", typed="living\n", folder=tmp_path)
    assert done.returncode == 0
    assert done.stderr == ""
    assert done.stdout.startswith("Tankside: ")
    (saved,) = (tmp_path / "tanks").glob("*.yaml")
    assert f"Savedin{saved}." in "".join(done.stdout.split())


def test_nothing_typed_leaves_nothing(tmp_path: Path, piped: Callable[..., Piped]) -> None:
    done = piped("")
    assert done.code == 0
    assert "nothing is kept" in done.out
    assert list((tmp_path / "tanks").iterdir()) == []


def test_without_a_folder_named_answers_go_home(tmp_path: Path) -> None:
    run(typed="living\n", around={"TANKSIDE_FOLDER": "", "HOME": str(tmp_path)})
    (saved,) = (tmp_path / "tankside").iterdir()
    assert "stage: living" in saved.read_text("utf-8")


def test_a_pipe_goes_on_when_it_says_yes(tmp_path: Path, piped: Callable[..., Piped]) -> None:
    piped("living\neurope\n")
    assert "Go on with “New tank”?" in piped("yes\n18 C\n").out
    (saved,) = (tmp_path / "tanks").glob("*.yaml")
    assert "room_temperature_low: 18 C" in saved.read_text("utf-8")


def test_a_pipe_that_knows_nothing_of_the_offer_starts_anew(
    tmp_path: Path, piped: Callable[..., Piped]
) -> None:
    piped("living\neurope\n")
    piped("planning\naustralia\n")
    texts = sorted(path.read_text("utf-8") for path in (tmp_path / "tanks").iterdir())
    assert [re.findall(r"(?:stage|region): (\w+)", text) for text in texts] == [
        ["living", "europe"],
        ["planning", "australia"],
    ]


def test_a_folder_that_takes_no_file_is_said_before_anything_is_typed(
    tmp_path: Path, piped: Callable[..., Piped], monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "file").touch()
    monkeypatch.setenv("TANKSIDE_FOLDER", str(tmp_path / "file" / "tanks"))
    done = piped("living\n")
    assert done.code == 2
    assert "How far along" not in done.out
    assert done.err.startswith("tankside: Nothing can be saved in ")
    assert "TANKSIDE_FOLDER" in done.err
    assert len(done.err.splitlines()) == 1


def test_a_named_file_is_gone_on_with(tmp_path: Path, piped: Callable[..., Piped]) -> None:
    path = tmp_path / "my tank.yaml"
    piped("living\nstop\n", "talk", path)
    done = piped("europe\n", "talk", path)
    assert f"“tankside talk '{path}'”".replace(" ", "") in "".join(done.out.split())
    assert "region: europe" in path.read_text("utf-8")


def test_latin_letters_in_the_pipe_do_no_harm(tmp_path: Path) -> None:
    done = subprocess.run(
        [sys.executable, "-m", "interview", "--plain"],
        input="living\neurope\n18 °C\n".encode("latin-1"),
        capture_output=True,
        check=False,
    )
    assert done.returncode == 0
    assert b"Traceback" not in done.stderr


def test_an_ascii_pipe() -> None:
    done = run("audit", MUSK, "--whole", around={"PYTHONIOENCODING": "ascii", "LC_ALL": "C"})
    assert done.returncode == 0
    assert done.stderr == ""
    assert done.stdout.isascii()
    assert "34 degC" in done.stdout


# ---- bugs


def test_a_bug_is_logged_and_never_shown(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    def broken(*_: object, **__: object) -> int:
        raise RuntimeError("a bug for the test")

    monkeypatch.setenv("TMPDIR", str(tmp_path))
    monkeypatch.setattr("tempfile.tempdir", None)
    monkeypatch.setattr("interview.commands.demo.replay", broken)
    assert cli.main(["demo"]) == 3
    shown = capsys.readouterr()
    assert "Traceback" not in shown.out + shown.err
    assert len(shown.err.splitlines()) == 1
    (log,) = tmp_path.glob("tankside-*.log")
    assert f"The details are in {log}." in shown.err
    told = log.read_text("utf-8")
    assert "RuntimeError\n" in told and "test_cli.py, line" in told
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    needed = [row.partition(">")[0] for row in project["dependencies"]]
    assert f"tankside {__version__}" in told and "missing" not in told
    assert all(f"{name} {version(name)}" in told for name in needed), "what a keeper has"
    assert "a bug for the test" not in told, "a message may repeat what the keeper typed"


def test_ctrl_c_anywhere_is_130(monkeypatch: pytest.MonkeyPatch) -> None:
    def interrupted(*_: object, **__: object) -> int:
        raise KeyboardInterrupt

    monkeypatch.setattr("interview.commands.demo.replay", interrupted)
    assert cli.main(["demo"]) == 130


def test_the_log_of_a_bug_names_the_answer_and_not_its_words(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    from interview.graph.interview import Interview, Place

    real = Interview.take_up

    def broken(self: Interview, place: Place, said: str, **rest: object) -> object:
        if place.id == "heater_power":
            raise RuntimeError(f"“{said}” breaks it")
        return real(self, place, said, **rest)  # type: ignore[arg-type]

    monkeypatch.setattr(judged, "audit_file", _audit_again.__wrapped__)
    monkeypatch.setattr(Interview, "take_up", broken)
    monkeypatch.setattr("sys.argv", ["tankside", "audit", str(MUSK)])
    monkeypatch.setenv("TMPDIR", str(tmp_path))
    for allowed in ("", "yes"):
        monkeypatch.setattr("tempfile.tempdir", None)
        monkeypatch.setenv("TANKSIDE_LOG_WORDS", allowed)
        assert cli.main(["audit", str(MUSK)]) == 3
        log = Path(re.search(r"details are in (.*)\.$", capsys.readouterr().err)[1])  # type: ignore[index]
        told = log.read_text("utf-8")
        assert "at the answer heater_power" in told and "command: audit\n" in told
        assert ("breaks it" in told) == bool(allowed)
        assert (str(MUSK) in told) is False


def test_a_bug_without_room_for_its_log_is_still_told(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken(*_: object, **__: object) -> int:
        raise RuntimeError

    def full(*_: object, **__: object) -> None:
        raise OSError(27, "File too large")

    monkeypatch.setattr("interview.commands.demo.replay", broken)
    monkeypatch.setattr("tempfile.NamedTemporaryFile", full)
    assert cli.main(["demo"]) == 3
    assert "No file could be written for the details." in capsys.readouterr().err
