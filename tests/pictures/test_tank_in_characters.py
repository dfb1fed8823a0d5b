"""The tank in characters: its proportions, its heights, whatever is known or not of it."""

from __future__ import annotations

import re
from typing import Any
from xml.etree import ElementTree

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from scenes_at_random import CHOICES, LENGTHS, TANK, plate_of, random_plate

from interview.report.pictures.characters.tank import tank_lines
from interview.report.pictures.scene.plate import Pin
from interview.report.pictures.svg.tank import tank_svg

INCH = 0.0254


def _side(lines: tuple[str, ...]) -> list[str]:
    """The side view alone, from the bottom up, without the notes beside it."""
    end = next(n for n, line in enumerate(lines) if line.startswith("└"))
    wide = lines[end].index("┘") + 1
    return [line[:wide] for line in reversed(lines[: end + 1])]


@pytest.mark.parametrize("width", [60, 80, 120])
@pytest.mark.parametrize(
    ("length", "height"), [(36, 17), (48, 21), (20, 10), (72, 24), (24, 24), (12, 20)]
)
def test_a_tank_has_its_proportions(width: int, length: int, height: int) -> None:
    """Cells are twice as high as wide, so 36 × 17 in are 4.2 columns for each row."""
    tank = {"tank_length": length * INCH, "tank_height": height * INCH, "tank_width": 0.3}
    side = _side(tank_lines(plate_of(tank, "us"), width))
    columns, rows = len(side[0]) - 2, sum(line.startswith("│") for line in side)
    inside = (length * INCH - 0.012) / (height * INCH - 0.006)
    assert (columns - 0.5) / (2 * (rows + 0.5)) <= inside <= (columns + 0.5) / (2 * (rows - 0.5))


def test_heights_are_to_scale() -> None:
    """In 120 columns: every height within half a row of what the tape says."""
    side = _side(tank_lines(plate_of(TANK), 120))
    rows = sum(line.startswith("│") for line in side)
    step = 0.394 / rows

    def height_of(sign: str) -> float:
        return next(n for n, line in enumerate(side) if sign in line) * step

    assert height_of("≈") == pytest.approx(0.284, abs=0.75 * step)  # under its surface
    assert height_of("▀") == pytest.approx(0.309, abs=0.75 * step)
    assert height_of("▼") - step == pytest.approx(0.309 + 0.22, abs=0.75 * step)
    assert height_of("━") - step == pytest.approx(0.309 + 0.30, abs=0.75 * step)
    shell = next(line for line in side if "▟" in line)
    columns = len(side[0]) - 2
    assert shell.count("█") + 2 == pytest.approx(0.095 / 0.988 * columns, abs=1)


def test_the_notes_stand_beside_or_below_and_say_what_each_number_is() -> None:
    wide = "\n".join(tank_lines(plate_of(TANK), 80))
    assert "┊" in wide
    assert "heat lamp 22 cm over platform" in wide
    assert "100 × 40 × 40 cm outside" in wide
    assert tank_lines(plate_of(TANK), 60)[-1].startswith("To scale")
    assert tank_lines(plate_of(TANK), 29) == ()
    later = {**TANK, "water_line_below_rim": 0.17}
    assert "below rim → 17 cm" in "\n".join(tank_lines(plate_of(TANK, after=later), 80))
    assert "╌" in "\n".join(tank_lines(plate_of(TANK, after=later), 80))


def test_a_finding_is_pinned_where_it_belongs() -> None:
    pin = Pin(3, "heat_lamp", "lamp holder", ("lamp_power_share",), "danger")
    joined = Pin(
        4, "basking_animal", "basking heat", ("platform_temperature",), "close", "27 to 32"
    )
    legend = " ".join(
        line[34:].strip() for line in tank_lines(plate_of(TANK, pins=(pin, joined)), 80)
    )
    assert "▼ 3 lamp holder (danger)" in legend
    assert "▀ 4 platform 31 °C (a little off, 27 to 32 wanted)" in legend


def test_each_number_stands_by_itself() -> None:
    """Two findings of one lamp are not 12, and 12 is not two findings."""
    pins = tuple(Pin(n, "heat_lamp", "holder", (f"m{n}",), "wrong") for n in (1, 2, 12))
    lines = tank_lines(plate_of(TANK, pins=pins), 120)
    drawn = " ".join(line[:60] for line in lines[:12])
    assert sorted(re.findall(r"\d+", drawn)) == ["1", "12", "2"]


def test_few_lines_keep_the_findings() -> None:
    pin = Pin(1, "bed", "substrate grain", ("grain_size",), "wrong")
    more = {"shell_temperature": 34.0, "uv_index_shell": 2.2, "water_temperature": 24.5}
    more |= {"escape_height": 0.085, "largest_carapace_length": 0.095, "intake_height": 0.06}
    more |= {"filter_kind": "canister", "cover_water": "mesh", "cover_basking": "mesh"}
    plate = plate_of({**TANK, **more}, pins=(pin,))
    assert len(tank_lines(plate, 80)) > 20
    short = tank_lines(plate, 80, from_above=False, most_lines=12)
    assert len(short) == 12
    assert any("░ 1 substrate grain (wrong)" in line for line in short)
    assert any("water line 11 cm below rim" in line for line in short)
    assert not any("sand" in line for line in short)


def test_of_an_unknown_tank_is_said_what_is_unknown() -> None:
    lines = tank_lines(plate_of({}), 80)
    unknown = "water line not known; length, width, height of the tank not known"
    assert lines[-1] == f"Not to scale; {unknown}"
    known = tank_lines(plate_of({**TANK, "tank_width": None}), 80)
    assert known[-1].endswith("outside; width of the tank not known")


_NUMBERS = {
    name: st.none() | st.floats(ends[0] - 0.5, ends[1] * 3) | st.sampled_from([0.0, float("inf")])
    for name, ends in LENGTHS.items()
}
_WORDS = {name: st.none() | st.sampled_from(choices) for name, choices in CHOICES.items()}
_SHELLS = {"carapace_length": st.none() | st.lists(st.floats(-1, 2), max_size=9)}


@settings(max_examples=30)
@given(st.fixed_dictionaries({**_NUMBERS, **_WORDS, **_SHELLS}), st.sampled_from([30, 60, 80, 120]))
@example({"tank_height": 1e-3, "uvb_lamp_height": 9.9, "platform_height_above_water": 0.0}, 80)
@example({"tank_length": 5e-324, "water_line_below_rim": 5e-324}, 60)
@example({"carapace_length": float("nan"), "tank_width": "wide"}, 120)
def test_any_tank_can_be_drawn(tank: dict[str, Any], width: int) -> None:
    lines = tank_lines(plate_of(tank), width)
    assert lines
    assert max(map(len, lines)) <= width
    assert len(lines) < 80
    assert all(line.isascii() for line in tank_lines(plate_of(tank), width, plain_letters=True))
    svg = tank_svg(plate_of(tank), "", "")
    assert ElementTree.fromstring(svg).tag.endswith("svg")
    assert not re.search(r'"[^"]*\b(?:nan|inf)\b', svg)


@pytest.mark.parametrize("width", [60, 80, 120])
def test_scenes_at_random_with_findings_keep_to_the_screen(width: int) -> None:
    for number in range(40):
        plate = random_plate(number)
        lines = tank_lines(plate, width, most_lines=16, from_above=False)
        assert max(map(len, lines)) <= width
        told = " ".join(" ".join(lines).split())
        for pin in plate.pins:
            assert f"{pin.number} " in told
