"""The usual settings of the list: what is wrong with the file is told before anybody plans."""

from __future__ import annotations

from pathlib import Path

import pytest

from interview import assembly
from interview.advice.purchase import usual

TEXT = """
settings: {heat_lamp_height: 30 cm, rcd: yes, media: foam_coarse}
over_sand: {grain_size: 0.5 mm}
rounded: [heat_lamp_height]
together: [[media, media_volume]]
goes_with: [[media, media_volume]]
no_wish: [stage]
instruments: {nitrate: {Test kit: drops}}
"""


def _faults(path: Path, text: str) -> list[str]:
    path.write_text(text, encoding="utf-8")
    return usual.faults(assembly.known_names(), assembly.words_of_answers(), path)


def test_the_file_as_it_is_has_no_faults(tmp_path: Path) -> None:
    assert _faults(tmp_path / "usual.yaml", TEXT) == []
    assert usual.faults(assembly.known_names(), assembly.words_of_answers()) == []


@pytest.mark.parametrize(
    ("old", "new", "wrong"),
    [
        ("30 cm", "30 cmm", "settings, heat_lamp_height: the unit “cmm” of “30 cmm” can't be"),
        ("30 cm", "30 m", "heat_lamp_height: 30 m is outside its range, 0.01 to 10"),
        ("rcd: yes", "rcd: maybe", "settings, rcd: “maybe” is no answer to it; there are yes, no"),
        ("foam_coarse", "foam", "settings, media: “foam” is no answer to it; there are foam_"),
        ("grain_size", "grainsize", "no quantity is called “grainsize”; did you mean “grain_size”"),
        ("media_volume", "mediavolume", "no quantity is called “mediavolume”"),
        ("[stage]", "[stages]", "no quantity is called “stages”"),
        ("instruments: {nitrate", "instruments: {nitrates", "no quantity is called “nitrates”"),
        ("no_wish", "no_wishes", "unknown key “no_wishes”"),
    ],
)
def test_a_fault_is_told_with_file_and_line(tmp_path: Path, old: str, new: str, wrong: str) -> None:
    found = _faults(tmp_path / "usual.yaml", TEXT.replace(old, new, 1))
    assert any(wrong in text for text in found), found
    assert all(text.startswith("usual.yaml, line ") for text in found)


def test_values_are_in_core_units() -> None:
    plain, sandy = (usual.usual().values(sand=sand) for sand in (False, True))
    assert (plain["substrate"], sandy["substrate"]) == ("none", "sand")
    assert plain["water_change_interval"] == 7 * 86400.0
    assert sandy["grain_size"] == pytest.approx(0.0005)
    assert plain["decor_hazards"] == () and plain["rcd"] is True
