"""Ultraviolet at the shell: class table, worked examples, calibration, covers, refusals."""

from __future__ import annotations

import math
import time
from pathlib import Path

import numpy as np
import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st
from scipy.special import ndtr

from interview.care.lamps import lamps
from interview.core.basking import basking
from interview.core.errors import BeyondFormula, Missing, NotApplicable, OutOfRange
from interview.core.light import ultraviolet, uvb_lamp
from interview.core.sheets import read_formula
from interview.core.wiring import Wiring
from interview.core.working import Working

MODULES = (basking, uvb_lamp, ultraviolet)
WIRING = Wiring({n: read_formula(getattr(m, n)) for m in MODULES for n in m.__all__})
CARE = Path(ultraviolet.__file__).parents[2] / "care"
ASSUMED_ROWS = yaml.safe_load((CARE / "assumptions" / "light.yaml").read_text("utf-8"))
ASSUMED = {name: row["value"] for name, row in ASSUMED_ROWS.items()}
HOUR = 3600.0
T5 = {
    "uvb_lamp_kind": "tube_t5",
    "uvb_strength": "high",
    "uvb_lamp_length": 0.55,
    "uvb_reflector": True,
    "uvb_lamp_height": 0.40,
    "uvb_lamp_age": 1000 * HOUR,
    "uvb_path": "mesh",
    "mesh_wire": 0.28e-3,
    "mesh_pitch": 1.41e-3,
    "shell_height": 0.08,
}
NEW_AND_OPEN = {"uvb_lamp_age": 0.0, "uvb_path": "open"}


def tank(**changes: object) -> Working:
    known = {**ASSUMED, **T5, **changes}
    return WIRING.working({n: v for n, v in known.items() if v is not None})


# Class table: figure at 30 cm carried to other distances by the source shape ------------------

DISTANCES = np.array([0.15, 0.20, 0.25, 0.30, 0.35, 0.40, 0.45, 0.60])
TABLE = [
    # as printed, so that the last figure of each gives its tolerance
    ("tube_t8", "low", 0.45, "1.18 0.81 0.59 0.45 0.35 0.28 0.23 0.14"),
    ("tube_t8", "high", 0.45, "2.35 1.63 1.19 0.9 0.70 0.56 0.46 0.27"),
    ("tube_t5", "low", 0.55, "4.9 3.5 2.6 2.0 1.6 1.3 1.06 0.64"),
    ("tube_t5", "high", 0.55, "9.8 6.9 5.2 4.0 3.2 2.6 2.1 1.28"),
    ("tube_t5", "low", 0.85, "4.8 3.5 2.7 2.2 1.8 1.5 1.28 0.82"),
    ("tube_t5", "high", 0.85, "9.6 7.1 5.5 4.4 3.6 3.0 2.6 1.65"),
    ("coil", "low", None, "0.84 0.51 0.35 0.25 0.19 0.15 0.12 0.07"),
    ("coil", "high", None, "2.4 1.4 1.0 0.7 0.5 0.4 0.33 0.19"),
    ("mercury_vapour", None, None, "15 9.8 6.8 5 3.8 3.0 2.5 1.45"),
    ("metal_halide", None, None, "15 9.8 6.8 5 3.8 3.0 2.5 1.45"),
]


def _half_a_unit(printed: str) -> float:
    return 0.51 * 10.0 ** -len(printed.partition(".")[2])


def _is_printed_as(value: float, printed: str) -> bool:
    return value == pytest.approx(float(printed), abs=_half_a_unit(printed))


@pytest.mark.parametrize(("kind", "strength", "length", "expected"), TABLE)
def test_class_table(kind, strength, length, expected) -> None:
    lamp = {"uvb_lamp_kind": kind, "uvb_strength": strength, "uvb_lamp_length": length}
    of = tank(**lamp, **NEW_AND_OPEN, uvb_reflector=None, uvb_lamp_height=DISTANCES)
    got = of.value("uv_index_platform")
    cells = expected.split()
    assert got[3] == pytest.approx(float(cells[3]), rel=1e-9)
    assert [_is_printed_as(*pair) for pair in zip(got, cells, strict=True)] == [True] * 8


def test_longer_tube_of_the_same_make_follows_its_arc() -> None:
    # 54 W, 1.15 m: as bright a metre as the 39 W tube, so more at every distance, and
    # falling more slowly.
    near, far = (
        tank(**NEW_AND_OPEN, uvb_lamp_length=length, uvb_lamp_height=np.array([0.3, 0.6])).value(
            "uv_index_platform"
        )
        for length in (0.85, 1.15)
    )
    assert (far > near).all()
    assert far[0] < 4.4 * 1.11 / 0.81
    assert far[1] / far[0] > near[1] / near[0]


@given(st.floats(0.3, 1.5))
def test_index_rises_with_length(length: float) -> None:
    shorter, longer = (
        float(tank(uvb_lamp_length=size).value("uv_index_new")) for size in (length, length * 1.02)
    )
    assert 0 < shorter < longer


@pytest.mark.parametrize(
    ("kind", "fitted", "gain"),
    [
        ("tube_t5", True, 1.0),
        ("tube_t5", None, 1.0),
        ("tube_t5", False, 1 / 1.6),
        ("tube_t8", True, 1.6),
        ("tube_t8", None, 1.0),
        ("tube_t8", False, 1.0),
        ("coil", True, 1.0),
        ("coil", False, 1.0),
    ],
)
def test_reflector_gain_is_not_counted_twice(kind: str, fitted: bool | None, gain: float) -> None:
    length = {"tube_t5": 0.55, "tube_t8": 0.45}.get(kind)
    of = tank(uvb_lamp_kind=kind, uvb_lamp_length=length, uvb_reflector=fitted)
    figure = {"tube_t5": 4.0, "tube_t8": 0.9, "coil": 0.7}[kind]
    assert float(of.value("uv_index_new")) == pytest.approx(figure * gain)


# Worked examples -----------------------------------------------------------------------------


def test_unmetered_ladder() -> None:
    # T5 55 cm "high" with reflector, axis 0.40 m over the platform, shell 8 cm, insect screen,
    # 1000 h: 4.0 × 0.909 = 3.63; × 0.642; × 0.924; 2.16 at the shell, 1.52 on the platform.
    of = tank()
    assert float(of.value("uv_index_new")) == pytest.approx(4.0)
    output = float(of.value("uvb_lamp_output"))
    assert output == pytest.approx(0.924, abs=5e-4)
    uncovered = float(of.value("uv_index_shell_uncovered"))
    assert uncovered / output / 4.0 == pytest.approx(0.909, abs=1.6e-3)
    assert uncovered / output == pytest.approx(3.63, abs=6e-3)
    assert float(of.value("uvb_transmission")) == pytest.approx(0.642, abs=5e-4)
    assert of.value("uv_calibration") == 1.0
    assert float(of.value("uv_index_shell")) == pytest.approx(2.16, abs=5e-3)
    assert float(of.value("uv_index_platform")) == pytest.approx(1.52, abs=5e-3)
    low, high = (2.16 * math.exp(s * lamps().log_sigma("tube_t5")) for s in (-1, 1))
    assert (low, high) == pytest.approx((1.17, 3.97), abs=0.01)


def test_doubts_in_quadrature() -> None:
    # 1.84 for a tube (95 %: 3.3), 2.21 for a coil (4.7), 2.71 for a flood (7.0).
    for kind, one, two in (("tube_t8", 1.84, 3.3), ("coil", 2.21, 4.7), ("metal_halide", 2.71, 7)):
        sigma = lamps().log_sigma(kind)
        assert math.exp(sigma) == pytest.approx(one, abs=0.006)
        assert math.exp(1.96 * sigma) == pytest.approx(two, abs=0.06)


def test_draws_and_lamp_table_doubt_alike() -> None:
    classes = {"tube_t5": "tube", "tube_t8": "tube", "coil": "coil"}
    for kind, row in lamps().kinds.items():
        name = f"uvb_class_factor_{classes.get(kind, 'flood')}"
        assert ASSUMED_ROWS[name]["factor"] == row.class_factor.value
    for part, name in (
        ("unit", "uvb_unit_factor"),
        ("mesh", "uvb_mesh_factor"),
        ("geometry", "uvb_geometry_factor"),
        ("reflector", "reflector_gain"),
    ):
        assert ASSUMED_ROWS[name]["factor"] == lamps().doubts[part].value


@pytest.mark.parametrize(
    ("median", "chances"),
    [
        (0.5, (0.87, 0.13, 0.00, 0.00)),
        (1, (0.50, 0.46, 0.04, 0.00)),
        (2, (0.13, 0.60, 0.25, 0.02)),
        (3, (0.04, 0.44, 0.45, 0.07)),
        (4, (0.01, 0.29, 0.55, 0.16)),
        (6, (0.00, 0.12, 0.52, 0.37)),
    ],
)
def test_chances_of_an_unmetered_tube(median: float, chances: tuple[float, ...]) -> None:
    limits = np.log(np.array([1e-12, 1.0, 2.9, 7.4, 1e12]) / median)
    got = np.diff(ndtr(limits / lamps().log_sigma("tube_t5")))
    assert got == pytest.approx(chances, abs=0.0101)


def test_no_unmetered_estimate_proves_zone_3() -> None:
    medians = np.linspace(0.1, 30, 3000)
    sigma = lamps().log_sigma("tube_t5")
    chance = ndtr(np.log(7.4 / medians) / sigma) - ndtr(np.log(2.9 / medians) / sigma)
    assert chance.max() == pytest.approx(0.56, abs=0.006)
    assert medians[chance.argmax()] == pytest.approx(4.6, abs=0.05)


@pytest.mark.parametrize(
    ("lamp", "length", "gains"),
    [
        ("tube_t5", 0.55, (1.63, 1.54, 1.42)),
        ("point", None, (2.16, 1.86, 1.56)),
    ],
)
def test_shell_top_gets_more_than_the_platform(lamp, length, gains) -> None:
    # 8 cm of shell under a lamp 25, 30 and 40 cm up: line source of 52 cm, and a bare point.
    heights = np.array([0.25, 0.30, 0.40])
    kind = "coil" if lamp == "point" else lamp
    # A virtual source 3 cm inside the coil: lower the lamp by as much to get the point.
    inside = 0.03 if lamp == "point" else 0.0
    of = tank(uvb_lamp_kind=kind, uvb_lamp_length=length, uvb_lamp_height=heights - inside)
    ratio = of.value("uv_index_shell") / of.value("uv_index_platform")
    assert ratio == pytest.approx(gains, abs=6e-3)


# One reading ---------------------------------------------------------------------------------


def test_metered_ladder() -> None:
    # Predicted 4.0, read 2.5 with m = 0.25: w 0.856, k 0.669, UV index 2.67.
    metered = {"uvb_reading": 2.5, "uvb_reading_height": 0.0, "uv_meter_error": 0.25}
    of = tank(**NEW_AND_OPEN, **metered, uvb_lamp_height=0.30)
    assert float(of.value("uv_index_at_reading")) == pytest.approx(4.0)
    assert float(of.value("uv_calibration")) == pytest.approx(0.669, abs=5e-4)
    assert float(of.value("uv_index_platform")) == pytest.approx(2.67, abs=0.01)


def test_reading_as_expected_changes_nothing() -> None:
    expected = tank(uvb_reading_height=0.08).value("uv_index_at_reading")
    assert float(expected) == pytest.approx(float(tank().value("uv_index_shell")))
    of = tank(uvb_reading_height=0.08, uvb_reading=expected)
    assert float(of.value("uv_calibration")) == pytest.approx(1.0)


def test_calibration_stays_when_the_lamp_is_moved() -> None:
    metered = {"uvb_reading": 3.0, "uvb_reading_height": 0.08}
    before = tank(**metered)
    moved = tank(**metered, uvb_lamp_height=0.50, uvb_lamp_height_when_measured=0.40)
    assert float(moved.value("uv_calibration")) == float(before.value("uv_calibration"))
    unmetered = tank(uvb_lamp_height=0.50)
    ratio = moved.value("uv_index_shell") / unmetered.value("uv_index_shell")
    assert float(ratio) == pytest.approx(float(before.value("uv_calibration")))


def test_draws_shrink_to_the_posterior() -> None:
    # 1/(1/s² + 1/m²) for the log-variance: the drawn prior and reading must come out at it.
    rng = np.random.default_rng(7)
    sigma, error = lamps().log_sigma("tube_t5"), 0.25
    prior = np.exp(rng.normal(0, sigma, 20_000))
    read = 2.5 * np.exp(rng.normal(0, error, 20_000))
    of = tank(
        **NEW_AND_OPEN,
        uvb_class_factor_tube=prior,
        uvb_lamp_height=0.30,
        uvb_reading=read,
        uvb_reading_height=0.0,
        uv_meter_error=error,
    )
    spread = np.std(np.log(of.value("uv_index_platform")))
    assert spread == pytest.approx((sigma**-2 + error**-2) ** -0.5, rel=0.03)
    assert np.exp(spread) == pytest.approx(1.26, abs=0.01)


def test_reading_needs_its_place() -> None:
    with pytest.raises(Missing, match="uvb_reading_height"):
        tank(uvb_reading=2.0).value("uv_index_shell")


def test_reading_of_nothing_under_a_lamp_is_refused() -> None:
    """Neither "no UVB" nor "no danger to the eyes" may rest on a meter that may be off."""
    of = tank(uvb_reading=0.0, uvb_reading_height=0.0)
    for name in ("uv_index_shell", "uv_index_platform", "photokeratitis_margin"):
        with pytest.raises(BeyondFormula, match="uvb_reading of 0"):
            of.value(name)


@pytest.mark.parametrize("sheet", ["glass", "plastic"])
def test_reading_of_nothing_behind_a_sheet_is_as_expected(sheet: str) -> None:
    of = tank(uvb_path=sheet, uvb_reading=0.0, uvb_reading_height=0.0)
    assert float(of.value("uv_calibration")) == 1.0
    assert float(of.value("uv_index_shell")) == 0.0


def test_a_shut_mesh_is_no_mesh() -> None:
    """Left out as if it hadn't been told, it would only be asked for again."""
    of = tank(uvb_path="mesh", mesh_wire=0.002, mesh_pitch=0.002)
    for name in ("uvb_transmission", "uv_index_shell"):
        with pytest.raises(BeyondFormula, match="leaves no opening"):
            of.value(name)


# What lies between ---------------------------------------------------------------------------


@pytest.mark.parametrize("sheet", ["glass", "plastic"])
def test_sheets_take_the_uvb_out(sheet: str) -> None:
    # Every glass tested stopped UVB (Duarte et al. 2009); common practice says the same.
    of = tank(uvb_path=sheet)
    assert of.value("uvb_transmission") == 0.0
    assert float(of.value("uv_index_shell")) == 0.0
    # A meter behind window glass still reads the UVA tail: no proof of UVB.
    read = tank(uvb_path=sheet, uvb_reading=0.5, uvb_reading_height=0.0)
    assert float(read.value("uv_index_shell")) == 0.0
    # But for over-exposure the sheet is not credited: some pass a third.
    open_air = tank(uvb_path="open")
    assert float(of.value("uv_index_ceiling")) == float(open_air.value("uv_index_shell")) > 3.0


def test_ceiling_under_mesh_is_the_estimate() -> None:
    of = tank()
    assert float(of.value("uv_index_ceiling")) == float(of.value("uv_index_shell"))


def test_mesh_by_meter_by_measure_or_as_usual() -> None:
    assert tank(mesh_light_share=0.5).value("uvb_transmission") == 0.5
    assert float(tank().value("uvb_transmission")) == pytest.approx(0.642, abs=5e-4)
    assert tank(mesh_wire=None).value("uvb_transmission") == ASSUMED["usual_mesh_light_share"]
    draws = tank(mesh_light_share=0.9, uvb_mesh_factor=np.array([1.0, 1.3]))
    assert draws.value("uvb_transmission") == pytest.approx([0.9, 1.0])


@pytest.mark.parametrize(
    ("kind", "hours"),
    [
        ("coil", 1500),
        ("tube_t8", 2000),
        ("mercury_vapour", 2500),
        ("metal_halide", 3000),
        ("tube_t5", 4500),
    ],
)
def test_output_at_the_end_of_life(kind: str, hours: float) -> None:
    of = tank(uvb_lamp_kind=kind, uvb_lamp_age=np.array([0.0, hours, 2 * hours]) * HOUR)
    assert of.value("uvb_lamp_output") == pytest.approx([1.0, 0.7, 0.49])


# Lamps that aren't there, and lamps that add ---------------------------------------------------


def test_no_lamp_is_index_zero() -> None:
    bare = WIRING.working(
        {**ASSUMED, "uvb_lamp_kind": "none", "shell_height": 0.08, "uv_zone_high": 7.4}
    )
    for name in ("uv_index_new", "uv_index_platform", "uv_index_shell", "uv_index_ceiling"):
        assert float(bare.value(name)) == 0.0
    assert np.isinf(bare.value("photokeratitis_margin"))
    assert np.isinf(bare.value("face_time"))
    with pytest.raises(NotApplicable, match="there is no UVB lamp"):
        WIRING.working({"uvb_lamp_kind": "none", "uvb_lamp_age": 0.0}).value("uvb_lamp_output")


def test_heating_bulb_adds_its_own() -> None:
    bulb = {"heat_lamp_kind": "mercury_vapour", "heat_lamp_height": 0.30}
    alone = tank(**bulb, uvb_lamp_kind="none", uvb_path="open")
    assert float(alone.value("uv_index_platform")) == pytest.approx(5.0)
    both = tank(**bulb, **NEW_AND_OPEN, uvb_lamp_height=0.30)
    assert float(both.value("uv_index_platform")) == pytest.approx(9.0)
    same = tank(**bulb, **NEW_AND_OPEN, uvb_lamp_kind="mercury_vapour", uvb_lamp_height=0.30)
    assert float(same.value("uv_index_platform")) == pytest.approx(5.0)
    read = tank(
        **bulb, uvb_lamp_kind="none", uvb_path="open", uvb_reading=2.5, uvb_reading_height=0.0
    )
    assert 2.5 < float(read.value("uv_index_platform")) < 2.7
    with pytest.raises(Missing, match="heat_lamp_height"):
        tank(heat_lamp_kind="mercury_vapour").value("uv_index_shell")


@pytest.mark.parametrize(
    ("absent", "missing"),
    [
        ("uvb_strength", "uvb_strength"),
        ("uvb_lamp_length", "uvb_lamp_length"),
        ("uvb_lamp_height", "uvb_lamp_height"),
        ("uvb_lamp_age", "uvb_lamp_age"),
        ("uvb_path", "uvb_path"),
        ("shell_height", "shell_height"),
    ],
)
def test_says_what_is_missing(absent: str, missing: str) -> None:
    with pytest.raises(Missing) as problem:
        tank(**{absent: None}).value("uv_index_shell")
    assert problem.value.names == (missing,)


def test_refusals() -> None:
    with pytest.raises(OutOfRange, match="lamp_height"):
        tank(uvb_lamp_height=0.06).value("uv_index_shell")
    with pytest.raises(NotApplicable, match="candle; known: tube_t5"):
        tank(uvb_lamp_kind="candle").value("uv_index_new")
    with pytest.raises(NotApplicable, match="middling; known: low, high"):
        tank(uvb_strength="middling").value("uv_index_new")
    with pytest.raises(NotApplicable, match="not a tube"):
        tank(uvb_lamp_kind="coil").value("uvb_lamp_arc")


def test_limits_for_eyes() -> None:
    index = np.array([2.0, 7.4, 10.0])
    of = tank(uv_zone_high=7.4, uv_index_shell=index, uv_index_ceiling=index)
    assert of.value("photokeratitis_margin") == pytest.approx([3.7, 1.0, 0.74])
    # ICNIRP 2004, worst spectrum: 10, 2.7 and 2 minutes.
    assert of.value("face_time") == pytest.approx([600, 1200 / 7.4, 120])


@given(st.floats(0.15, 1.0), st.floats(1.02, 2), st.sampled_from([t[:3] for t in TABLE]))
def test_further_is_weaker(height: float, further: float, lamp: tuple) -> None:
    kind, strength, length = lamp
    of = tank(
        uvb_lamp_kind=kind,
        uvb_strength=strength,
        uvb_lamp_length=length,
        uvb_lamp_height=np.array([height, height * further]),
    )
    near, far = of.value("uv_index_shell")
    assert 0 < far < near


def test_draws_equal_scalars_and_cost_less_than_a_hundred() -> None:
    heights = np.linspace(0.2, 0.6, 2048)
    ages = np.linspace(0, 5000, 2048) * HOUR
    metered = {"uvb_reading": 2.0, "uvb_reading_height": 0.05}
    start = time.process_time()
    together = tank(uvb_lamp_height=heights, uvb_lamp_age=ages, **metered).value("uv_index_shell")
    spent = time.process_time() - start
    start = time.process_time()
    for i in (0, 900, 2047):
        alone = tank(uvb_lamp_height=heights[i], uvb_lamp_age=ages[i], **metered)
        assert together[i] == pytest.approx(float(alone.value("uv_index_shell")))
    assert spent < 100 * (time.process_time() - start) / 3
