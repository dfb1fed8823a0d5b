"""Grades worked by hand from the rule in care/grades.yaml."""

from __future__ import annotations

from itertools import product
from pathlib import Path

import pytest

from interview.audit.checks.findings import Finding, Verdict
from interview.audit.checks.loader import all_checks
from interview.audit.checks.rows import SECTIONS
from interview.audit.checks.verdicts import Risk
from interview.audit.grade_rules import PATH, Rules, rules
from interview.audit.grades import NO_GRADE, STOP, Grades, grade_all
from interview.audit.inconsistencies import Fit
from interview.base.rows import FileError, read


def _f(
    verdict: Verdict,
    weight: int = 3,
    section: str = "water",
    hides: bool = False,
    applies: bool = True,
    inside: bool = False,
    risk: Risk = "",
    fit: Fit = "",
    lacks: str = "",
) -> Finding:
    return Finding(
        f"{verdict}_check", section, verdict, "ph", "claim", "why", "say",
        weight=weight, hides_nothing=hides, applies=applies, inside=inside, risk=risk,
        fit=fit, missing=(lacks,) if lacks else (),
    )  # fmt: skip


def _letter(*findings: Finding, section: str = "water") -> str:
    return dict(grade_all(findings).sections)[section]


def _grades(*findings: Finding) -> Grades:
    return grade_all(findings)


# letters: A from 0.9, B from 0.75, C from 0.55, D from 0.3; close counts 0.7, or 0.9 where the
# best value is inside; wrong counts nothing
BY_HAND = [
    ("all good", [_f("good", 5), _f("good", 1)], "A"),
    ("(3 + 2 x 0.7) / 5 = 0.88", [_f("good", 3), _f("close", 2)], "B"),
    ("(9 x 1 + 2 x 0.7) / 11 = 0.945", [_f("good", 3)] * 3 + [_f("close", 2)], "A"),
    ("0.7 all through", [_f("close", 3), _f("close", 3)], "C"),
    ("3 of 6 is 0.5", [_f("good", 3), _f("wrong", 3)], "D"),
    ("5 of 8 is 0.625", [_f("good", 5), _f("wrong", 3)], "C"),
    ("2 of 8 is 0.25", [_f("good", 2), _f("wrong", 3), _f("wrong", 3)], "E"),
    ("a wrong caps at B, 15 of 16 is 0.94", [_f("good", 5)] * 3 + [_f("wrong", 1)], "B"),
    ("a wrong that tells on health caps at C, 0.94", [_f("good", 5)] * 9 + [_f("wrong", 3)], "C"),
    ("a weighty close caps at B, 0.925", [_f("good", 3)] * 4 + [_f("close", 4)], "B"),
    ("a weighty close inside does not", [_f("close", 5, inside=True)] * 3, "A"),
    ("unless danger is in it, (12 + 4 x 0.7) / 16 = 0.925",
     [_f("good", 3)] * 4 + [_f("close", 4, inside=True, risk="possible")], "C"),
    ("a danger that can't be ruled out caps at C", [_f("good", 5)] * 9 + [_f("good", 1,
     risk="possible")], "C"),
    ("a likely one at D, whatever it weighs", [_f("good", 5)] * 9 + [_f("close", 1,
     risk="likely")], "D"),
    ("a light close does not, 0.94", [_f("good", 3)] * 4 + [_f("close", 3)], "A"),
    ("a weighty unmeasured caps at B", [_f("good", 3)] * 4 + [_f("unmeasured", 4)], "B"),
    ("so does one of weight 2", [_f("good", 3)] * 4 + [_f("unmeasured", 2)], "B"),
    ("one of weight 1 does not", [_f("good", 3)] * 4 + [_f("unmeasured", 1)], "A"),
    ("an unmeasured matter of life caps at C", [_f("good", 5)] * 4 + [_f("unmeasured", 5)], "C"),
    ("3 of 7 judged is under a half: C", [_f("good", 3), _f("unmeasured", 4)], "C"),
    ("3 of 6 judged is a half: B", [_f("good", 3), _f("unmeasured", 3)], "B"),
    ("an impossible answer caps at C",
     [_f("good", 5)] * 4 + [_f("close", 1, fit="impossible")], "C"),
    ("an unlikely answer caps at B", [_f("good", 5)] * 4 + [_f("close", 1, fit="unlikely")], "B"),
    ("for want of an animal: C", [_f("good", 5)] * 4 + [_f("unmeasured", 3, lacks="species")], "C"),
    ("for want of its length: none", [_f("good", 5)] * 4
     + [_f("unmeasured", 4, lacks="carapace_length")], NO_GRADE),
    ("but a danger stays E", [_f("danger", 5), _f("unmeasured", 5, lacks="species")], "E"),
    ("hides nothing: D, mean 0.89", [_f("good", 5)] * 8 + [_f("wrong", 5, hides=True)], "D"),
    ("a danger: E, mean 0.89", [_f("good", 5)] * 8 + [_f("danger", 5)], "E"),
    ("what does not apply is left out", [_f("good", 3), _f("good", 5, applies=False)], "A"),
    ("only what does not apply", [_f("good", 3, applies=False)], NO_GRADE),
    ("nothing judged", [_f("unmeasured", 3)], NO_GRADE),
]  # fmt: skip


@pytest.mark.parametrize(("why", "findings", "letter"), BY_HAND, ids=[row[0] for row in BY_HAND])
def test_a_section_by_hand(why: str, findings: list[Finding], letter: str) -> None:
    assert _letter(*findings) == letter


@pytest.mark.parametrize(("unknown", "overall"), [(7, "A"), (8, NO_GRADE)])
def test_too_little_judged_is_no_grade(unknown: int, overall: str) -> None:
    """3 of 10 judged is three tenths, which is enough; 3 of 11 is not."""
    findings = [_f("good", 1, "water")] * 3 + [_f("unmeasured", 1, "filter")] * unknown
    assert _grades(*findings).overall == overall


def test_an_important_wrong_limits_the_whole_to_c() -> None:
    findings = [_f("good", 5, section) for section in SECTIONS for _ in range(20)]
    assert _grades(*findings, _f("wrong", 3)).overall == "C"
    assert _grades(*findings, _f("wrong", 2)).overall == "B", "an A with a wrong is not believed"


def test_any_danger_stops_the_whole() -> None:
    findings = [_f("good", 5, section) for section in SECTIONS for _ in range(20)]
    assert _grades(*findings).overall == "A"
    for section in SECTIONS:
        grades = _grades(*findings, _f("danger", 1, section))
        assert (grades.overall, grades.stop, grades.headline) == (STOP, True, "STOP.")
        assert dict(grades.sections)[section] == "E"
        assert "Mend it before anything else" in grades.say


def test_no_average_hides_a_wrong_that_hides_nothing() -> None:
    """However much is good around it, section and whole are D."""
    findings = [_f("good", 5, section) for section in SECTIONS for _ in range(50)]
    for section in SECTIONS:
        grades = _grades(*findings, _f("wrong", 1, section, hides=True))
        assert dict(grades.sections)[section] == "D"
        assert grades.overall == "D"


def test_the_whole_is_one_letter_above_the_worst_section_at_best() -> None:
    good = [_f("good", 5, section) for section in SECTIONS[1:] for _ in range(20)]
    for worst, whole in (("E", "D"), ("D", "C"), ("C", "B"), ("B", "B")):
        share = {"E": [0, 5], "D": [2, 3], "C": [3, 2], "B": [4, 1]}[worst]
        rows = [_f("good", 1, "space")] * share[0] + [_f("wrong", 1, "space")] * share[1]
        grades = _grades(*good, *rows)
        assert dict(grades.sections)["space"] == worst
        assert grades.overall == whole


def test_what_is_open_and_important_keeps_the_whole_from_an_a() -> None:
    findings = [_f("good", 5, section) for section in SECTIONS for _ in range(50)]
    verdicts: tuple[Verdict, ...] = ("close", "unmeasured")
    for verdict in verdicts:
        assert _grades(*findings, _f(verdict, 4)).overall == "B"
        assert _grades(*findings, _f(verdict, 3)).overall == "A"
    assert _grades(*findings, _f("unmeasured", 5)).overall == "C"


def test_no_animal_is_no_grade_for_the_whole() -> None:
    findings = [_f("good", 5, section) for section in SECTIONS for _ in range(50)]
    grades = _grades(*findings, _f("unmeasured", 4, lacks="species"))
    assert (grades.overall, grades.stop) == (NO_GRADE, False)
    assert [(cap.section, cap.letter) for cap in grades.caps] == [
        ("", NO_GRADE),
        ("water", NO_GRADE),
    ]
    assert grades.caps[0].say.startswith("no animal was judged")


def test_what_lowered_a_letter_is_told_and_nothing_else() -> None:
    good = [_f("good", 5, section) for section in SECTIONS for _ in range(50)]
    assert _grades(*good).caps == ()
    lowered = _grades(*good, _f("unmeasured", 5, "basking", lacks="basking_temperature"))
    assert [(c.section, c.letter, c.checks, c.missing) for c in lowered.caps] == [
        (section, "C", ("unmeasured_check",), ("basking_temperature",))
        for section in ("", "basking")
    ]
    by_mean = _grades(_f("good", 3), _f("wrong", 1), _f("wrong", 2))
    assert by_mean.sections[3] == ("water", "D") and not [c for c in by_mean.caps if c.section]


def test_the_worst_section_is_told_where_it_lowers_the_whole() -> None:
    good = [_f("good", 5, section) for section in SECTIONS[1:] for _ in range(20)]
    grades = _grades(*good, _f("wrong", 1, "space"))
    assert (grades.overall, [c.say for c in grades.caps]) == ("D", ["space is E"])


def test_nothing_known_has_no_grade() -> None:
    grades = _grades(_f("unmeasured", 5))
    assert (grades.overall, grades.headline) == (NO_GRADE, "No grade yet.")
    assert "Too little is known" in grades.say


def test_a_worse_verdict_never_makes_a_better_grade() -> None:
    """Every pair of verdicts in one section, with the other findings the same."""
    order = ("good", "close", "wrong", "danger")
    letters = "ABCDE"
    for one, two, hides, weight in product(order, order, (False, True), (1, 3, 5)):
        if order.index(one) < order.index(two):
            rest = [_f("good", 3), _f("close", 3), _f("good", 2)]
            better = _letter(*rest, _f(one, weight, hides=hides))  # type: ignore[arg-type]
            worse = _letter(*rest, _f(two, weight, hides=hides))  # type: ignore[arg-type]
            assert letters.index(better) <= letters.index(worse), (one, two, hides, weight)


def test_what_can_kill_or_burn_hides_nothing() -> None:
    """Heat, UV, drowning, escape, mains, fire, floor and hygiene are never averaged away."""
    hiding = {c.id for c in all_checks() if c.hides_nothing}
    assert hiding >= {
        "swim_depth", "escape", "platform_gap", "basking_heat", "basking_hot_day", "lamp_holder",
        "lamp_plastic", "lamp_fixing", "uv_zone", "uv_barrier", "uv_overdose", "water_temperature",
        "heater_stuck", "heater_cover", "heater_glass", "intake", "floor_load", "tank_glass",
        "circuit", "rcd", "drip_loops", "strip", "decor", "hygiene", "heater_power",
    }  # fmt: skip
    by_rule = {c.id: c.hides_nothing_when for c in all_checks() if c.hides_nothing_when}
    no_platform, gives_way = ("wrong_when",), ("danger_when",)
    assert by_rule == {
        "platform_space": no_platform,
        "platform_float": gives_way,
        "outgrow": ("wrong_when",),  # outgrows every indoor tank
        "invasive_law": ("wrong_when",),  # may not be bought
        "uvb_reach": gives_way,  # as hot as a heat lamp
        "compact_lamp": ("wrong_when",),  # hurt eyes are published for such distances
        "arc_lamp": ("wrong_when",),
        "turnover": ("wrong_when",),  # no filter, and little water changed
        "water_change_dip": ("wrong_when",),  # most of it cold from the tap
    }
    for check in all_checks():
        assert not check.danger or check.hides_nothing, check.id
        hides = check.hides_nothing or "danger_when" in check.hides_nothing_when
        assert "danger_when" not in check.whens or hides, check.id


def test_a_rule_that_is_written_wrong_is_refused_with_its_line(tmp_path: Path) -> None:
    """A comma in an unquoted text makes a key of what follows it."""
    text = PATH.read_text(encoding="utf-8")
    line = 1 + text[: text.index('"outside what is good by')].count("\n")
    path = tmp_path / "grades.yaml"
    path.write_text(
        text.replace('"outside what is good by', "outside, what is good by", 1).replace(
            'only advised against"', "only advised against", 1
        ),
        encoding="utf-8",
    )
    with pytest.raises(FileError, match=rf"^grades\.yaml, line {line}: scores, close: unknown key"):
        read(path, Rules)
    assert rules() == read(PATH, Rules)
