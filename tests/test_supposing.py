"""Suppositions: read from `name=value`, audited with everything moved along, recorded nowhere."""

from __future__ import annotations

import json
from typing import Any

import pytest

from interview import assembly, cli, setups
from interview.base.places import demo_folder
from interview.chat.hearing.what_if import read_what_if
from interview.graph.given import Place
from interview.graph.interview import Interview
from interview.setups import SetupError
from interview.supposing import hold_together, read_supposition, suppose

MUSK = demo_folder() / "musk_turtle.yaml"


@pytest.mark.parametrize(
    ("text", "changes"),
    [
        ("water_line_below_rim=14cm", {"water_line_below_rim": 0.14}),
        ("heat_lamp_height = 10 in", {"heat_lamp_height": 0.254}),
        ("Lamp to platform=9in", {"heat_lamp_height": 0.2286}),
        ("lamp_to_platform=9in", {"heat_lamp_height": 0.2286}),
        ("heat lamp height=9in", {"heat_lamp_height": 0.2286}),
        ("tank_size=1 x 0.5 x 0.5 m", {"tank_length": 1.0, "tank_width": 0.5, "tank_height": 0.5}),
        ("rcd=no", {"rcd": False}),
        ("raise the lamp 2 inches", {"heat_lamp_height": 0.2708}),
        ("3 cm deeper", {"water_line_below_rim": 0.08}),
        ("a 75 watt bulb", {"heat_lamp_power": 75.0}),
        ("without the lid", {"cover_water": "none"}),
        ("heat_lamp_kind=halogen", {"heat_lamp_kind": "halogen"}),
    ],
)
def test_what_is_supposed(musk: Interview, text: str, changes: dict[str, Any]) -> None:
    assert read_supposition(musk, text, read_what_if) == pytest.approx(changes)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("14 cm", "is not name=value"),
        ("heat_lamp_height=", "is not name=value"),
        ("lamp to platfrm=9in", "Did you mean “Lamp to platform”"),
        ("heat_lamp_hight=9in", "Did you mean “heat_lamp_height”"),
        ("species=slider", "is no answer that can be supposed"),
        ("heat_lamp_height=9 kg", "a length is needed here"),
        ("ph=not sure", "leaves it open"),
    ],
)
def test_what_cant_be_supposed_is_said(musk: Interview, text: str, words: str) -> None:
    with pytest.raises(SetupError, match=words):
        read_supposition(musk, text, read_what_if)


def test_the_supposed_tank_moves_along_and_nothing_is_recorded(musk: Interview) -> None:
    before, answers = assembly.audit_of(musk, "Musk"), dict(musk.answers)
    after = suppose(before, musk.given(), {"water_line_below_rim": 0.14})
    # 3 cm less water: the raft sinks with it, so the lamps stand 3 cm farther off
    assert float(after.tank.best.known["heat_lamp_height"]) == pytest.approx(0.25)
    assert float(before.tank.best.known["heat_lamp_height"]) == pytest.approx(0.22)
    assert float(after.tank.best.value("water_depth")) == pytest.approx(
        float(before.tank.best.value("water_depth")) - 0.03
    )
    assert after.tank.best.value("platform_temperature") < before.tank.best.value(
        "platform_temperature"
    )
    assert musk.answers == answers


def _figures(capsys: pytest.CaptureFixture[str], *arguments: str) -> dict[str, Any]:
    assert cli.main(["audit", str(MUSK), "--json", *arguments]) in (0, 1)
    return dict(json.loads(capsys.readouterr().out)["quantities"])


def test_audit_suppose_shows_the_tank_as_it_would_be(capsys: pytest.CaptureFixture[str]) -> None:
    now = _figures(capsys)
    then = _figures(
        capsys, "--suppose", "water_line_below_rim=14cm", "--suppose", "Heater power=80W"
    )
    assert now["heat_lamp_height"]["value"] == pytest.approx(0.22)
    assert then["heat_lamp_height"]["value"] == pytest.approx(0.25)
    assert then["heater_power"]["value"] == 80
    assert then["water_volume"]["value"] < now["water_volume"]["value"]


def test_audit_suppose_refuses_an_unknown_name(capsys: pytest.CaptureFixture[str]) -> None:
    assert cli.main(["audit", str(MUSK), "--suppose", "lamp=9in"]) == 2
    assert "“lamp” is no answer that can be supposed" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("water_line_below_rim=60cm", "only 40 cm high, so it would be dry"),
        ("platform_size=50 x 45 cm", "the tank is only 40 cm wide"),
    ],
)
def test_a_tank_that_cannot_be_is_refused_in_the_questions_words(
    musk: Interview, text: str, words: str
) -> None:
    with pytest.raises(SetupError, match=words):
        hold_together(musk, read_supposition(musk, text, read_what_if))


def test_what_only_fits_together_is_taken_together(musk: Interview) -> None:
    """A water line 45 cm down needs the taller tank that is supposed with it."""
    deep = read_supposition(musk, "water_line_below_rim=45cm", read_what_if)
    with pytest.raises(SetupError):
        hold_together(musk, deep)
    hold_together(musk, deep | read_supposition(musk, "tank_size=100 x 40 x 60 cm", read_what_if))


def _said(**answers: str) -> Interview:
    """The same interview with some answers typed anew, as a file would have them."""
    interview = assembly.new_interview()
    setups.fill(interview, setups.read(MUSK, interview.questionnaire))
    for name, said in answers.items():
        interview.record(Place(name), said)
    return interview


@pytest.mark.parametrize(
    ("name", "said"), [("basking_temperature", "36 °C"), ("basking_temperature", "28 °C")]
)
def test_a_reading_that_is_supposed_calibrates_as_in_the_file(
    musk: Interview, name: str, said: str
) -> None:
    """36 °C under the lamp is STOP in a setup file, so it is when supposed."""
    supposed = read_supposition(musk, f"{name}={said}", read_what_if)
    after = suppose(assembly.audit_of(musk, "Musk"), musk.given(), supposed)
    filed = assembly.audit_of(_said(**{name: said}), "Musk")
    assert after.grades.overall == filed.grades.overall
    assert [f.verdict for f in after.findings] == [f.verdict for f in filed.findings]
    for quantity in ("shell_temperature", "shell_temperature_hot_day", "lamp_heat"):
        assert after.tank.best.value(quantity) == pytest.approx(filed.tank.best.value(quantity))
    assert after.stale == ()


def test_a_uv_index_that_is_supposed_calibrates_as_in_the_file(musk: Interview) -> None:
    supposed: dict[str, Any] = {}
    for text in ("uvb_reading=7", "uvb_reading_height=5 cm"):
        supposed |= read_supposition(musk, text, read_what_if)
    hold_together(musk, supposed)
    after = suppose(assembly.audit_of(musk, "Musk"), musk.given(), supposed)
    filed = assembly.audit_of(_said(uvb_reading="7", uvb_reading_height="5 cm"), "Musk")
    for quantity in ("uv_calibration", "uv_index_shell"):
        assert after.tank.best.value(quantity) == pytest.approx(filed.tank.best.value(quantity))


@pytest.mark.parametrize(
    ("texts", "words"),
    [
        (["uvb_reading=7"], "Suppose “UV index reading” and “Meter above platform” together"),
        (["basking_room_temperature=18 °C"], "is part of a reading"),
        (["basking_temperature=33 °C", "heat_lamp_kind=none"], "nothing is there"),
    ],
)
def test_half_a_reading_is_refused_with_a_sentence(
    musk: Interview, texts: list[str], words: str
) -> None:
    supposed: dict[str, Any] = {}
    for text in texts:
        supposed |= read_supposition(musk, text, read_what_if)
    with pytest.raises(SetupError, match=words):
        hold_together(musk, supposed)


def test_a_reading_that_a_move_makes_stale_is_said_to_be(
    musk: Interview, capsys: pytest.CaptureFixture[str]
) -> None:
    before = assembly.audit_of(musk, "Musk")
    moved = suppose(before, musk.given(), {"heat_lamp_height": 0.30})
    assert moved.stale == ("basking_temperature",)
    read = {item.name: item for item in moved.readings}["basking_temperature"]
    assert read.how == "assumed" and "take it again" in read.said
    sunk = suppose(before, musk.given(), {"water_line_below_rim": 0.14})
    assert "basking_temperature" in sunk.stale, "the raft took the spot away from its lamp"
    assert suppose(before, musk.given(), {"rcd": True}).stale == ()
    cli.main(["audit", str(MUSK), "--plain", "--suppose", "heat_lamp_height=30 cm"])
    assert "Read before the change" in capsys.readouterr().out
