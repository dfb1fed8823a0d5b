"""Readings that can't be right are questioned, and good tanks are left in peace."""

from __future__ import annotations

from pathlib import Path

import pytest
import yaml
from typed_tanks import TESTS, Audited

from interview import assembly, setups
from interview.audit.inconsistencies import (
    Inconsistency,
    all_inconsistencies,
    faults,
    inconsistencies,
    read_inconsistencies,
)
from interview.base.places import demo_folder
from interview.base.rows.lines import FileError
from interview.graph.interview import Interview, Place
from interview.report.formats.markdown import markdown


def _demo(name: str, **changes: str) -> Interview:
    interview = assembly.new_interview()
    setup = setups.read(demo_folder() / f"{name}.yaml", interview.questionnaire)
    setup.answers |= {
        Place(k, 0 if k == "carapace_length" else None): v for k, v in changes.items()
    }
    setups.fill(interview, setup)
    return interview


def _told(interview: Interview) -> tuple[Inconsistency, ...]:
    return inconsistencies(interview.lookup(), interview.unit_of, interview.system)


def _found(interview: Interview) -> set[str]:
    return {inconsistency.id for inconsistency in _told(interview)}


@pytest.mark.parametrize("name", [p.stem for p in sorted(demo_folder().glob("*.yaml"))])
def test_the_demo_tanks_raise_none(name: str) -> None:
    assert _found(_demo(name)) == set()


ROWS = yaml.load((TESTS / "setups_bad.yaml").read_text(encoding="utf-8"), Loader=yaml.BaseLoader)


def test_every_misfit_is_met_by_a_bad_setup() -> None:
    """test_tanks.py holds each of them to all the misfits it raises, the good ones to none."""
    assert {m for row in ROWS for m in row.get("misfits", ())} == {
        m.misfit for m in all_inconsistencies()
    }
    assert len(all_inconsistencies()) >= 17


def test_a_misfit_tells_the_answer_the_slip_and_its_limits() -> None:
    (inconsistency,) = _told(_demo("musk_turtle", basking_temperature="20 °C"))
    assert (inconsistency.quantity, inconsistency.fit) == ("basking_temperature", "unlikely")
    assert inconsistency.say == f"{inconsistency.fact} {inconsistency.slip}"
    assert inconsistency.fact.startswith("The spot under the lamp reads 20 °C, with the room at")
    assert inconsistency.slip.startswith("Perhaps the lamp had burned for less than an hour")
    assert [fact.name for fact in inconsistency.limits] == ["basking_least_warming"]


BARELY = [
    ({"heater_mount": "none", "water_temperature": "24.5 °C"}, "a little over the warmest room"),
    ({"filter_rated_flow": "600 L/h", "filter_measured_flow": "620 L/h"}, "within the doubt"),
    ({"heat_lamp_height": "1.3 m"}, "under the ceiling"),
    ({"stand": "floor", "heat_lamp_height": "1.7 m"}, "with the tank on the floor"),
    ({"cover_basking": "glass", "uvb_path": "open", "uvb_reading": "2",
      "uvb_reading_height": "4 cm"}, "a meter has seen the UVB under the lid"),
]  # fmt: skip


@pytest.mark.parametrize(("changes", "why"), BARELY, ids=[row[1] for row in BARELY])
def test_what_is_odd_but_possible_raises_none(changes: dict[str, str], why: str) -> None:
    assert _found(_demo("musk_turtle", **changes)) - {"basking_too_hot_for_lamp"} == set(), why


def test_what_rests_on_a_doubted_answer_is_not_good(audited: Audited) -> None:
    """3 mg/L in a filter of 14 months: neither age nor kit is believed."""
    found = {f.check: f for f in audited(ammonia="3 mg/L").findings}
    assert (found["cycling"].verdict, found["cycling"].fit) == ("close", "unlikely")
    assert set(found["cycling"].doubted) == {"ammonia", "filter_age"}
    assert found["cycling"].say.startswith("All right if “")
    assert "which hardly fits the other answers" in found["cycling"].say
    assert found["turnover"].verdict == "good" and not found["turnover"].doubted


def test_an_impossible_answer_judges_nothing(audited: Audited) -> None:
    audit = audited(filter_measured_flow="1800 L/h")
    turnover = next(f for f in audit.findings if f.check == "turnover")
    assert (turnover.verdict, turnover.chance, turnover.fit) == ("unmeasured", None, "impossible")
    assert turnover.missing == ("filter_measured_flow", "filter_rated_flow")
    assert dict(audit.grades.sections)["filter"] == "C" and audit.grades.overall == "C"
    assert audit.measure_next[0] in turnover.missing


def test_a_danger_stays_one_whatever_is_doubted(audited: Audited) -> None:
    bath = next(
        f for f in audited(water_temperature="37 °C").findings if f.check == "water_temperature"
    )
    assert (bath.verdict, bath.doubted) == ("danger", ("water_temperature",))
    assert "hardly fits the other answers" in bath.say


def test_answers_to_confirm_stand_before_every_finding(audited: Audited) -> None:
    text = markdown(audited(ammonia="3 mg/L"))
    heads = [line for line in text.splitlines() if line.startswith("## ")]
    assert text.index("**Confirm**: ") < text.index(heads[0]), "on the first page already"
    first = heads.index("## Confirm these answers first")
    assert first < heads.index("## Every check, section by section")
    rests = "filter media, ripeness of the filter, ammonia, nitrate between changes"
    assert f"On it rest: {rests}." in text
    assert "rests on an answer that hardly fits the others" in text


# ---- bad files

MISFIT = """\
# misfits of a test
- misfit: warm
  about: [water_temperature]
  fit: unlikely
  when: water_temperature above water_danger_high
  say: "It reads {water_temperature}."
  slip: Perhaps not.
"""
BAD = {
    "no slip": ("  slip: Perhaps not.\n", "", "warm has no slip", 2),
    "another fit": ("unlikely", "odd", "“odd” is none of impossible, unlikely", 4),
    "an unknown key": ("  fit", "  grade: 3\n  fit", "unknown key “grade”", 4),
    "a bare number": ("water_danger_high", "40 degC", "bare number", 5),
    "an unreadable condition": ("above water_danger_high", "rather high", "can't read", 5),
}


@pytest.mark.parametrize("fault", BAD)
def test_a_bad_misfit_is_refused_with_file_and_line(fault: str, tmp_path: Path) -> None:
    old, new, message, line = BAD[fault]
    path = tmp_path / "misfits.yaml"
    path.write_text(MISFIT.replace(old, new, 1), encoding="utf-8")
    with pytest.raises(FileError, match=message) as caught:
        read_inconsistencies(path)
    assert str(caught.value).startswith(f"misfits.yaml, line {line}: ")


def test_a_misfit_with_another_unit_is_a_fault(tmp_path: Path) -> None:
    path = tmp_path / "misfits.yaml"
    path.write_text(MISFIT.replace("water_danger_high", "dip_good"), encoding="utf-8")
    (fault,) = faults(read_inconsistencies(path), {"water_temperature": "degC"})
    assert fault == (
        "misfits.yaml, line 5: warm holds water_temperature [degC] against dip_good in [K]"
    )
