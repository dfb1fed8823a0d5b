"""The lamp table: what it holds, and how it refuses bad rows."""

from __future__ import annotations

from pathlib import Path

import pytest
import yaml

from interview.base.rows.lines import FileError
from interview.care import lamps as module
from interview.care.lamps import lamps, read_lamps

TABLE = Path(module.__file__).with_name("lamps.yaml")


def test_every_number_has_its_origin() -> None:
    table = lamps()
    figures = [table.anchor_distance, *table.doubts.values(), *table.spectra.values()]
    figures += [row.uv_index for row in table.classes]
    figures += [figure for kind in table.kinds.values() for figure in (kind.lamp_life,)]
    assert all(figure.unit and figure.status and figure.source for figure in figures)
    # What is only recalled says so: no published figure stands behind a class.
    assert {row.uv_index.status for row in table.classes} == {"memory"}


def test_strengths_in_order() -> None:
    for kind in ("tube_t5", "tube_t8", "coil"):
        low, high = (lamps().of(kind, strength) for strength in ("low", "high"))
        pairs = zip(low, high, strict=True)
        assert all(weak.uv_index.value < strong.uv_index.value for weak, strong in pairs)
    arcs = [row.arc_length.value for row in lamps().of("tube_t5", "high") if row.arc_length]
    assert arcs == sorted(arcs) and len(arcs) == 2


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        (
            '{value: 1.6, unit: "1", status: memory',
            "{value: 1.6, unit: m, status: memory",
            "line 20: kinds, tube_t5, reflector_gain, unit: “m” must be “1”",
        ),
        (
            'value: 0.45, unit: "1", status: memory',
            'value: much, unit: "1", status: memory',
            "line 43: tube_t8, uv_index, value: “much” is no number",
        ),
        (
            'value: 0.45, unit: "1", status: memory',
            'value: -1, unit: "1", status: memory',
            "line 43: tube_t8, uv_index, value: -1 is not above zero",
        ),
        (
            'value: 0.45, unit: "1", status: memory',
            'value: 0.45, unit: "1", status: rumour',
            "line 43: tube_t8, uv_index, status: “rumour” is none of published",
        ),
        ("  - kind: coil", "  - kind: candle", "kind “candle” is not among the kinds"),
        (
            "    arc_length: {value: 0.43",
            "    arc: {value: 0.43",
            "line 45: tube_t8: unknown key “arc”",
        ),
        (
            "    source_offset: {value: 0.03, unit: m,",
            "    offset: {value: 0.03, unit: m,",
            "line 28: kinds, coil: unknown key “offset”; there are lamp_life",
        ),
        ("  - kind: metal_halide\n", "  - kind: tube_t5\n", "only tubes, have tube_length"),
        ("spectra:", "spectres:", "unknown key “spectres”; did you mean “spectra”?"),
        (
            '  unit: {value: 1.25, unit: "1", status: assumption, source: modelling_choice',
            '  unit: {value: 1.25, unit: "1", status: assumption',
            "line 8: doubts, unit has no source",
        ),
        ("  any: {value: 1.0,", "  any: 1.0 #", "spectra, any: “1.0” must be a mapping"),
    ],
)
def test_bad_lamp_rows_are_named(tmp_path: Path, old: str, new: str, words: str) -> None:
    text = (TABLE).read_text("utf-8")
    assert old in text
    path = tmp_path / "lamps.yaml"
    path.write_text(text.replace(old, new, 1), encoding="utf-8")
    with pytest.raises(FileError, match=r"^lamps\.yaml") as problem:
        read_lamps(path)
    assert words in str(problem.value)


@pytest.mark.parametrize("part", ["doubts", "kinds", "spectra"])
def test_a_part_must_be_a_mapping(tmp_path: Path, part: str) -> None:
    rows = yaml.safe_load((TABLE).read_text("utf-8"))
    path = tmp_path / "lamps.yaml"
    path.write_text(yaml.safe_dump({**rows, part: "none"}), encoding="utf-8")
    with pytest.raises(FileError, match="must be a mapping"):
        read_lamps(path)


def test_a_kind_is_a_tube_or_a_point(tmp_path: Path) -> None:
    text = (TABLE).read_text("utf-8")
    cut = "\n".join(line for line in text.splitlines() if "source_offset: {value: 0.03" not in line)
    path = tmp_path / "lamps.yaml"
    path.write_text(cut, encoding="utf-8")
    with pytest.raises(FileError, match="line 26: kinds, coil: needs reflector_gain"):
        read_lamps(path)
