"""The file of levers is read into typed rows; whatever is wrong in it is told with its line."""

from __future__ import annotations

from pathlib import Path

import pytest

from interview import assembly
from interview.advice.levers.faults import faults
from interview.advice.levers.lever import in_core_units
from interview.advice.levers.levers import PATH, all_levers, unit_of
from interview.advice.levers.rows import LeverFile
from interview.audit.checks.loader import all_checks
from interview.base.rows import read
from interview.care.facts import assumptions, limits

WRONG = [
    # what is written, what stands there instead, what is told of it
    ("30 cm, only: more}", "30 cmm, only: more}", "water_line_below_rim, around: the unit “cmm”"),
    ("30 cm, only: more}", "30 W, only: more}", "the unit “W” of “30 W” can't be turned into m"),
    ("reach: 30 cm, only: more}", "reech: 30 cm, only: more}", "“reech”"),
    ("reach: 30 cm, only: more}", "reach: far, only: more}", "“far” is no amount"),
    ("reach: 30 cm, only: more}", "reach: 30 cm, only: up}", "“up”"),
    ("step: 1 cm, near: 15 cm", "step: 0 cm, near: 15 cm", "step and stride must be above"),
    ("near: 15 cm, stride: 5 cm, reach: 30 cm", "near: 40 cm, stride: 5 cm, reach: 30 cm", "near"),
    ("    least: 8 cm\n    most: 80 cm", "    least: 90 cm\n    most: 80 cm", "above least"),
    ("cost: free\n    of: [0 cm]", "cost: little\n    of: [0 cm]", "“little”"),
    ("    of: [ceramic]", "    of: [porcelain]", "“porcelain” is no answer to lamp_holder"),
    ("    of: [thermostat]", "    of: [3]", "lamp_control"),
    ("sets: {lamp_control: dimmer}", "sets: {lamp_contrl: dimmer}", "“lamp_contrl”; did you mean"),
    ("of: [0.5 L, 1 L,", "of: [0.5 L, 1 x,", "platform_foam_volume, of: the unit “x”"),
    ("of: [20 deg]", "of: [steep]", "ramp_slope, of: “steep” is no amount"),
    ("uvb_lamp_length: 55 cm", "uvb_lamp_length: 5500 cm", "55 m lies outside what uvb_lamp"),
    ("times: [1.25, 1.5, 2, 2.5]", "times: [1.25, -1.5, 2, 2.5]", "platform_length, times: -1.5"),
    ("times: [1.25, 1.5, 2, 2.5]", "times: [much]", "“much”"),
    ("only_for: [platform_float]", "only_for: [platform_flot]", "did you mean “platform_float”?"),
    ("due: {uvb_lamp_time_left: 28 day}", "due: {uvb_lamp_time_left: 28 cm}", "due: the unit"),
    ("renewed: {uvb_lamp_age: 0 hour}", "renewed: {uvb_lamp_age: new}", "renewed: “new”"),
    ("not_under: {feed_rate: feed_need}", "not_under: {feed_rate: feed_ned}", "“feed_ned”"),
    ("relevant: heat_lamp_kind is not none\n    say: \"Hang the heat",
     "relevant: heat_lamp_kind is not nine\n    say: \"Hang the heat", "“nine” is no answer"),
    ("relevant: intake_height is given", "relevant: intake_hight is given", "“intake_hight”"),
    ("relevant: intake_height is given", "relevant: intake_height maybe", "can't read"),
    ("Set the water line {value} below", "Set the water line {vlaue} below", "“vlaue”"),
    ("lever: ramp_slope\n", "lever: ramp_slop\n", "no quantity has this name"),
    ("    of: [yes]\n    say: \"Put the lamps on a timer", "    say: \"Put the lamps on a timer",
     "lamp_timer, lever: it changes nothing"),
    ("    trade_sizes: yes\n", "    trade_sizes: many\n", "“many”"),
    ("    bother: 0.25\n", "    bother: little\n", "“little”"),
    ("    say: \"Use a porcelain holder.\"\n", "", "say"),
]  # fmt: skip


def _faults(path: Path) -> list[str]:
    names = {*assembly.known_names(), *limits(), *assumptions()}
    return faults(names, assembly.words_of_answers(), [check.id for check in all_checks()], path)


def test_the_shipped_levers_have_no_fault() -> None:
    assert _faults(PATH) == []
    assert len(all_levers()) > 60


@pytest.mark.parametrize(("written", "instead", "told"), WRONG)
def test_whatever_is_wrong_in_a_lever_is_told(
    tmp_path: Path, written: str, instead: str, told: str
) -> None:
    text = PATH.read_text(encoding="utf-8")
    assert text.count(written) >= 1, written
    path = tmp_path / "levers.yaml"
    path.write_text(text.replace(written, instead, 1), encoding="utf-8")
    found = _faults(path)
    assert any(told in fault for fault in found), found
    start = text[: text.index(written)].count("\n") + 1
    lines = range(start - 6, start + 4)
    places = [f"levers.yaml, line {line}: " for line in lines]
    assert all(any(fault.startswith(place) for place in places) for fault in found), found


def test_every_fault_is_told_at_once(tmp_path: Path) -> None:
    text = PATH.read_text(encoding="utf-8")
    path = tmp_path / "levers.yaml"
    path.write_text(
        text.replace("reach: 30 cm, only: less}", "reach: 30 cmm, only: less}").replace(
            "of: [20 deg]", "of: [20 dog]"
        ),
        encoding="utf-8",
    )
    assert len(_faults(path)) == 2


def test_units_of_levers_are_those_of_the_questions() -> None:
    """What no formula takes has the unit of what a check holds it against, or is a word."""
    units = assembly.known_names()
    for row in read(PATH, LeverFile).levers:
        for name in {*row.sets, *row.sets_if_absent, *(row.of and [row.lever])}:
            told = units[name] if units[name] != "yes/no" else "choice"
            assert unit_of(name) == told or units[name] == "1", name
    assert in_core_units(read(PATH, LeverFile), unit_of)
