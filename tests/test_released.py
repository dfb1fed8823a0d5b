"""Setups as released versions wrote them: read, whole, and judged; none is ever taken out.

A file in `released/VERSION` stays as that version wrote it. Where a later format reads an older
one otherwise, that is seen here.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest
import yaml

from interview import __version__, assembly, setups
from interview.graph.interview import Place

RELEASED = Path(__file__).parent / "released"
FILES = sorted(RELEASED.glob("*/*.yaml"))


def _number(version: str) -> tuple[int, ...]:
    return tuple(int(part) for part in version.split("."))


def test_every_released_version_has_its_setups() -> None:
    changes = (RELEASED.parent.parent / "CHANGELOG.md").read_text("utf-8")
    released = re.findall(r"(?m)^## (\d+\.\d+\.\d+)", changes)
    assert __version__ in released
    assert {path.parent.name for path in FILES} == set(released)
    assert all(_number(version) <= _number(__version__) for version in released)


@pytest.mark.parametrize("path", FILES, ids=lambda path: f"{path.parent.name}-{path.stem}")
def test_a_released_setup_is_read_whole(path: Path, tmp_path: Path) -> None:
    kept = setups.read(path, assembly.questionnaire())
    interview = assembly.new_interview()
    setups.fill(interview, kept)
    written = yaml.load(path.read_text("utf-8"), Loader=yaml.BaseLoader)["answers"]
    animals = written.pop("animals", [])
    for name, said in written.items():
        words = ", ".join(said) or "none" if isinstance(said, list) else said
        assert interview.answers[Place(name)].said == words
        assert interview.answers[Place(name)].value is not None or words == "not sure"
    for number, animal in enumerate(animals):
        for name, said in animal.items():
            assert interview.answers[Place(name, number)].said == said
    setups.write(tmp_path / "now.yaml", setups.of_interview(interview, kept.title))
    again = assembly.new_interview()
    setups.fill(again, setups.read(tmp_path / "now.yaml", assembly.questionnaire()))
    assert again.given() == interview.given()


@pytest.mark.parametrize("path", FILES[::3], ids=lambda path: f"{path.parent.name}-{path.stem}")
def test_a_released_setup_is_judged(path: Path) -> None:
    interview = assembly.new_interview()
    setups.fill(interview, setups.read(path, assembly.questionnaire()))
    tank = assembly.tank_of(interview, drawn=False)
    assert {"water_volume", "swim_area"} <= {
        name for name in tank.best.wiring.formulas if tank.best.get(name) is not None
    }
