"""A page never takes the place of a setup, nor of a file that is no page, without a yes."""

from __future__ import annotations

import os
import stat
from contextlib import AbstractContextManager, nullcontext
from pathlib import Path
from typing import Any

import pytest

from interview import assembly, cli
from interview.chat import saving_page
from interview.chat.faces.face import Left
from interview.chat.page_file import may_be_replaced, write_page
from interview.report.page.coming import Coming
from interview.setups import SetupError, fill, read

ROOT = Path(__file__).parent.parent
MUSK = ROOT / "transcripts_demo" / "musk_turtle.yaml"
PAGE = ROOT / "transcripts_demo" / "musk_turtle.audit.md"

on_posix = pytest.mark.skipif(os.name != "posix", reason="needs modes and links")


@pytest.fixture
def setup(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A setup in a folder of its own; the advice has tests of its own."""
    monkeypatch.setattr(assembly, "advice_of", lambda audit: None)
    path = tmp_path / "musk.yaml"
    path.write_bytes(MUSK.read_bytes())
    return path


def _audit(*arguments: str | Path) -> int:
    return cli.main(["audit", *map(str, arguments)])


# ---- from the command line


@pytest.mark.parametrize("force", [[], ["--force"]])
def test_a_page_never_takes_the_place_of_a_setup(
    setup: Path, force: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    before = setup.read_bytes()
    assert _audit(setup, "--markdown", setup, *force) == 2
    assert "is a setup" in capsys.readouterr().err
    assert setup.read_bytes() == before


def test_a_page_never_takes_the_place_of_a_setup_behind_a_link(setup: Path) -> None:
    link = setup.parent / "page.md"
    link.symlink_to(setup)
    assert _audit(setup, "--markdown", link, "--force") == 2
    assert setup.read_bytes() == MUSK.read_bytes()


def test_another_file_is_written_over_by_force_alone(
    setup: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    notes = setup.parent / "notes.md"
    notes.write_text("# My notes\n", "utf-8")
    assert _audit(setup, "--markdown", notes) == 2
    assert "--force" in capsys.readouterr().err
    assert notes.read_text("utf-8") == "# My notes\n"
    assert _audit(setup, "--markdown", notes, "--force") == 0
    assert notes.read_text("utf-8").startswith("# Study window, musk turtle\n")


def test_an_earlier_page_is_written_anew(setup: Path) -> None:
    page = setup.parent / "page.md"
    page.write_bytes(PAGE.read_bytes())
    assert _audit(setup, "--markdown", page) == 0
    assert page.read_bytes() != PAGE.read_bytes()
    assert may_be_replaced(page), "what was written is known as a page again"


@pytest.mark.parametrize("option", ["--handout", "--ics"])
def test_handout_and_calendar_follow_the_same_rules(
    setup: Path, option: str, capsys: pytest.CaptureFixture[str]
) -> None:
    target = setup.parent / "sheet"
    assert _audit(setup, option, target) == 0
    assert capsys.readouterr().out == f"Saved {target}. Grade D.\n"
    assert may_be_replaced(target), "what was written is known again"
    if os.name == "posix":
        assert stat.S_IMODE(target.stat().st_mode) == 0o600
    assert _audit(setup, option, target) == 0
    target.write_text("<!doctype html>\nnotes", "utf-8")
    assert _audit(setup, option, target) == 2
    assert target.read_text("utf-8") == "<!doctype html>\nnotes"
    assert _audit(setup, option, setup, "--force") == 2
    assert _audit(setup, setup, option, target, "--force") == 2
    assert _audit(setup, option, target, "--force", "--format", "plain") == 2


def test_the_pictures_of_a_page_stand_beside_it(
    setup: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    page = setup.parent / "my page.md"
    assert _audit(setup, "--markdown", page) == 0
    picture = setup.parent / "my page.tank_side.svg"
    assert picture.read_text("utf-8").startswith("<!-- Tankside picture -->\n<svg ")
    assert "](my%20page.tank_side.svg)\n" in page.read_text("utf-8")
    assert may_be_replaced(picture), "what was written is known again"
    assert _audit(setup, "--markdown", page) == 0
    picture.write_text("<svg>mine</svg>", "utf-8")
    capsys.readouterr()
    assert _audit(setup, "--markdown", page, "--force") == 2
    assert "no picture of Tankside's" in capsys.readouterr().err
    assert picture.read_text("utf-8") == "<svg>mine</svg>"


def test_two_files_need_two_names(setup: Path, capsys: pytest.CaptureFixture[str]) -> None:
    target = setup.parent / "sheet"
    assert _audit(setup, "--handout", target, "--ics", target) == 2
    assert "each needs one of its own" in capsys.readouterr().err
    assert not target.exists()


@pytest.mark.parametrize("demo", sorted((ROOT / "transcripts_demo").glob("*.audit.md")))
def test_every_stored_page_is_known_as_one(demo: Path) -> None:
    assert may_be_replaced(demo)


@pytest.mark.parametrize("demo", sorted((ROOT / "transcripts_demo").glob("*.yaml")))
def test_every_demo_is_known_as_a_setup(demo: Path) -> None:
    with pytest.raises(SetupError, match="is a setup"):
        may_be_replaced(demo)


@on_posix
def test_a_page_is_for_its_owner_alone(setup: Path) -> None:
    """It may name children or a pregnancy."""
    page = setup.parent / "page.md"
    assert _audit(setup, "--markdown", page) == 0
    assert stat.S_IMODE(page.stat().st_mode) == 0o600
    page.chmod(0o644)
    assert _audit(setup, "--markdown", page) == 0
    assert stat.S_IMODE(page.stat().st_mode) == 0o644, "the keeper's own choice stays"


@on_posix
def test_a_stream_is_written_to_and_stays_what_it_is(setup: Path) -> None:
    assert _audit(setup, "--markdown", "/dev/null") == 0
    assert stat.S_ISCHR(Path("/dev/null").stat().st_mode)


@on_posix
def test_a_full_disk_leaves_the_old_page(
    setup: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    page = setup.parent / "page.md"
    page.write_bytes(PAGE.read_bytes())

    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    assert _audit(setup, "--markdown", page) == 2
    assert "can't be written: No space left" in capsys.readouterr().err
    assert page.read_bytes() == PAGE.read_bytes()
    assert {p.name for p in setup.parent.iterdir()} == {"musk.yaml", "page.md"}


# ---- in a talk


class _Typing:
    """A face that types lines and remembers what was asked and said."""

    live = True

    def __init__(self, *lines: str) -> None:
        self.lines, self.heard = list(lines), []

    def show(self, asked: Any) -> None:
        self.heard.append(asked.label)

    def hear(self, asked: Any) -> str:
        if not self.lines:
            raise EOFError
        return self.lines.pop(0)

    def say(self, text: str, tone: str = "note") -> None:
        self.heard.append(text)

    def working(self, text: str) -> AbstractContextManager[None]:
        return nullcontext()


@pytest.fixture
def offered(setup: Path, monkeypatch: pytest.MonkeyPatch) -> Any:
    """Offers the page until it is settled; returns the face and what is in the folder."""
    monkeypatch.chdir(setup.parent)
    monkeypatch.setattr(
        saving_page,
        "write_dressed",
        lambda page, form, target: write_page(PAGE.read_text("utf-8"), target),
    )

    def offer(*lines: str) -> tuple[list[str], set[str]]:
        face: Any = _Typing(*lines)
        audit: Any = None
        shown = Coming(audit, iter(()))
        try:
            while not saving_page.page_settled(face, shown, Path("musk.md")):
                pass
        except Left:
            pass
        return face.heard, {p.name for p in setup.parent.iterdir()} - {"musk.yaml"}

    return offer


def test_a_page_saved_in_the_talk_has_its_pictures_beside_it(setup: Path) -> None:
    interview = assembly.new_interview()
    fill(interview, read(setup, assembly.questionnaire()))
    shown = Coming(assembly.audit_of(interview, "Musk"), iter(()))
    face: Any = _Typing("yes")
    target = setup.parent / "musk.md"
    assert saving_page.page_settled(face, shown, target)
    pictures = [p.name for p in setup.parent.glob("musk.*.svg")]
    assert "musk.tank_side.svg" in pictures
    assert all(f"]({name})" in target.read_text("utf-8") for name in pictures)


def test_the_usual_name_is_asked_about_where_another_file_has_it(offered: Any, setup: Path) -> None:
    usual = setup.parent / "musk.md"
    usual.write_text("my own notes", "utf-8")
    heard, _ = offered("yes", "no", "other.md")
    assert "musk.md exists and is no page of mine. Write over it?" in heard
    assert usual.read_text("utf-8") == "my own notes"
    assert (setup.parent / "other.md").exists()
    offered("yes", "yes")
    assert usual.read_bytes() == PAGE.read_bytes()


@pytest.mark.parametrize(
    "line", ["20 cm", "glass", "about 11 cm", "12", "2.5", "living", "100 W", "europe"]
)
def test_a_name_that_reads_like_an_answer_is_asked_about(offered: Any, line: str) -> None:
    heard, files = offered(line, "no", "no")
    assert any(f"“{line}” reads like an answer" in said for said in heard), heard
    assert not files
    _, files = offered(line, "yes")
    assert len(files) == 1


@pytest.mark.parametrize("line", ["back", "what if the lamp is higher", "change lamp", "?"])
def test_a_command_is_no_name(offered: Any, line: str) -> None:
    heard, files = offered(line, "no")
    assert any("That comes next" in said for said in heard) and not files


@pytest.mark.parametrize("line", ["not sure", "maybe"])
def test_who_is_undecided_may_save_later(offered: Any, line: str) -> None:
    heard, files = offered(line, "no")
    assert any("That is no hurry" in said for said in heard) and not files


@pytest.mark.parametrize(
    "line", ["none", "n/a", "nothing", "never mind", "not yet", "don't bother"]
)
def test_who_wants_no_page_has_none(offered: Any, line: str) -> None:
    heard, files = offered(line)
    assert not files and not any("Save the page as" in said for said in heard)


def test_save_saves_the_page_under_its_usual_name(offered: Any) -> None:
    heard, files = offered("save")
    assert len(files) == 1 and any("Saved" in said for said in heard)


@pytest.mark.parametrize("line", ["page.md", "glass.md", "./20 cm", "Karl", "summary"])
def test_a_name_is_taken_as_it_stands(offered: Any, line: str) -> None:
    heard, files = offered(line)
    assert not any("?" in said for said in heard[1:]) and len(files) == 1


def test_a_setup_is_no_name_for_a_page(offered: Any, setup: Path) -> None:
    heard, _ = offered("musk.yaml", "no")
    assert any("is a setup, and I overwrite nothing" in said for said in heard)
    assert setup.read_bytes() == MUSK.read_bytes()
