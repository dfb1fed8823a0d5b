"""Setups as released versions wrote them: read, whole, and judged; none is ever taken out.

A file in `released/VERSION` stays as that version wrote it. Where a later format reads an older
one otherwise, that is seen here.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest
import yaml

from interview import __version__, assembly, cli, setups
from interview.base.rows.lines import Lined, words_in
from interview.graph.interview import Place
from interview.setups.formats import STEPS, brought_up

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


# ---- formats


def test_every_format_there_was_is_brought_up() -> None:
    assert set(STEPS) == set(range(1, int(setups.FORMAT.removeprefix("tankside/"))))


def _renamed(rows: Lined) -> Lined:
    rows["answers"]["filter_flow"] = rows["answers"].pop("pump_flow")
    return rows


def _titled(rows: Lined) -> Lined:
    rows["title"] = f"{rows['answers']['filter_flow']} pump"
    return rows


@pytest.mark.parametrize(("told", "name"), [(1, "pump_flow"), (2, "filter_flow")])
def test_an_older_format_takes_every_step_from_its_own_on(told: int, name: str) -> None:
    rows = words_in(f"format: tankside/{told}\nanswers: {{{name}: 300 L/h}}\n", Path("tank.yaml"))
    now = brought_up(rows, Path("tank.yaml"), "tankside/3", {1: _renamed, 2: _titled})
    assert now["answers"] == {"filter_flow": "300 L/h"} and now["title"] == "300 L/h pump"


@pytest.mark.parametrize("command", ["talk", "audit", "recheck"])
def test_a_file_of_a_newer_program_is_refused_and_left_as_it_is(
    command: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "tank.yaml"
    path.write_text("format: tankside/7\nlater: {a: b}\n", "utf-8")
    assert cli.main([command, str(path)]) == 2
    assert "“tankside/7”, of a newer Tankside" in " ".join(capsys.readouterr().err.split())
    assert [p.name for p in tmp_path.iterdir()] == ["tank.yaml"]
    assert path.read_text("utf-8") == "format: tankside/7\nlater: {a: b}\n"
