"""A full disk ends nothing: the answer stays in mind, is shown, and is saved when it can be."""

from __future__ import annotations

import errno
import os
from pathlib import Path

import pytest
from fakes import CTRL_C, FakeFace

from interview import assembly, setups
from interview.chat.safekeeping import auto_title
from interview.chat.session import sit_down
from interview.graph.interview import Place
from interview.setups import SetupError


class _Disk:
    """A disk on which nothing more can be written while it is full."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch) -> None:
        self.full, self._sync = False, os.fsync
        self.full_in = ""
        monkeypatch.setattr(os, "fsync", self._fsync)

    def _fsync(self, handle: int) -> None:
        if self.full and self.full_in in str(Path(f"/proc/self/fd/{handle}").readlink()):
            raise OSError(errno.ENOSPC, "No space left on device")
        self._sync(handle)


class _Typing(FakeFace):
    """Fills the disk before one line and empties it before another."""

    def __init__(self, disk: _Disk, *lines: str, live: bool = False) -> None:
        super().__init__(lines)
        self.disk, self.live = disk, live

    def hear(self, asked: object) -> str:
        while self.lines and self.lines[0] in ("<full>", "<room>"):
            self.disk.full = self.lines.pop(0) == "<full>"
        return super().hear(asked)  # type: ignore[arg-type]


@pytest.fixture
def disk(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> _Disk:
    if not Path("/proc/self/fd").exists():
        pytest.skip("asks Linux which file is written")
    monkeypatch.setenv("TANKSIDE_FOLDER", str(tmp_path / "tanks"))
    return _Disk(monkeypatch)


def _answers(path: Path) -> dict[str, str]:
    setup = setups.read(path, assembly.questionnaire())
    return {place.id: said for place, said in setup.answers.items()}


def _saved(tmp_path: Path) -> dict[str, str]:
    (path,) = (tmp_path / "tanks").glob("*.yaml")
    return _answers(path)


def test_an_answer_that_is_not_saved_is_shown_and_saved_with_the_next(
    disk: _Disk, tmp_path: Path
) -> None:
    face = _Typing(disk, "living", "<full>", "europe", "17 °C", "<room>", "25 °C", "stop")
    assert sit_down(face, None, "guided") == 0
    missed = [text for text in face.tones("note") if "kept in mind" in text]
    assert "kept in mind: Region: europe." in missed[0] and "No space left" in missed[0]
    assert "Region: europe; Coldest room: 17 °C." in missed[1]
    assert any("All answers are saved in" in text for text in face.tones("note"))
    assert len(_saved(tmp_path)) == 4


def test_what_stays_unsaved_at_the_end_is_shown_and_is_2(disk: _Disk, tmp_path: Path) -> None:
    face = _Typing(disk, "living", "<full>", "europe", "stop")
    with pytest.raises(SetupError, match=r"The answers above are not all saved\..*No space left"):
        sit_down(face, None, "guided")
    assert "Region: Europe (without the United Kingdom)" in face.everything
    assert _saved(tmp_path) == {"stage": "living"}, "the old file is whole"
    assert [p.name[:5] for p in (tmp_path / "tanks").iterdir()] == ["tank-"]


def test_somebody_who_sits_there_may_save_elsewhere(disk: _Disk, tmp_path: Path) -> None:
    disk.full_in = "/tanks/"
    other = tmp_path / "stick" / "mine.yaml"
    face = _Typing(disk, "living", "<full>", "europe", "stop", str(other), live=True)
    assert sit_down(face, None, "guided") == 0
    assert _answers(other) == {"stage": "living", "region": "europe"}
    assert any(f"Saved in {other}" in text for text in face.tones("note"))


def test_ctrl_c_at_the_offer_to_save_elsewhere_shows_the_answers(
    disk: _Disk, tmp_path: Path
) -> None:
    face = _Typing(disk, "<full>", "living", "stop", CTRL_C, live=True)
    with pytest.raises(SetupError, match="not all saved"):
        sit_down(face, None, "guided")
    assert "a turtle lives in it" in face.everything


def test_the_audit_is_still_shown(
    disk: _Disk, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Of answers that are only in mind, too."""
    shown = []
    monkeypatch.setattr(
        FakeFace, "blocks", lambda face, blocks: shown.append(next(iter(blocks)).text)
    )
    monkeypatch.setattr(assembly, "advice_of", lambda audit: None)
    path = tmp_path / "tanks" / "musk.yaml"
    path.parent.mkdir()
    text = Path(__file__).parent.parent.parent / "transcripts_demo" / "musk_turtle.yaml"
    path.write_bytes(text.read_bytes())
    face = _Typing(disk, "<full>", "change tap nitrate", "20 mg/L", "yes", "no", "stop")
    with pytest.raises(SetupError):
        sit_down(face, path, "guided")
    assert shown == ["Study window, musk turtle"]
    assert path.read_bytes() == text.read_bytes()


def test_a_title_is_made_of_what_was_understood() -> None:
    """Not of what was typed: sides in order, in one unit, as the tank is labelled."""
    interview = assembly.new_interview()
    assert auto_title(interview) == "New tank"
    interview.record(Place("animal_count"), "1")
    interview.record(Place("species", 0), "reeves")
    interview.record(Place("tank_size"), "1.2m by 500mm by 50 cm")
    assert auto_title(interview) == "Reeves' turtle, 120 × 50 × 50 cm"
    for name, animal, said in (
        ("animal_count", None, "4"),
        *(("species", n, kind) for n, kind in enumerate(("slider", "musk", "slider", "mud"))),
    ):
        interview.record(Place(name, animal), said)
    many = "Red-eared slider and common musk turtle and others, 120 × 50 × 50 cm"
    assert auto_title(interview) == many
    interview.record(Place("animal_count"), "3")
    assert auto_title(interview) == many.replace(" and others", "")
