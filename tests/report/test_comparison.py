"""Before and after: worse before better, and what moved although its verdict stood."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest
from report_tanks import DEMOS, audit_at, audit_of

from interview import assembly
from interview.audit.audit import Audit
from interview.report.before_and_after import _before_and_now, comparison_blocks, in_a_word
from interview.report.blocks import Block, Heading, Items, Paragraph


@pytest.fixture
def compared(tmp_path: Path, demos: dict[str, Audit]) -> list[Block]:
    """The river cooter's tank before and after its lamp is raised and its GFCI taken away."""
    text = (DEMOS / "river_cooter_adult.yaml").read_text(encoding="utf-8")
    text = text.replace("rcd: yes", "rcd: no").replace("ramp_slope: 35", "ramp_slope: 20")
    text = text.replace("basking_temperature: 89 F", "basking_temperature: 86 F")
    path = tmp_path / "after.yaml"
    path.write_text(text, encoding="utf-8")
    return list(comparison_blocks(demos["river_cooter_adult"], audit_at(path)))


def _under(blocks: list[Block], title: str) -> list[tuple[str, tuple[str, ...]]]:
    at = next(n for n, b in enumerate(blocks) if isinstance(b, Heading) and b.text == title)
    items = blocks[at + 1]
    assert isinstance(items, Items)
    return list(items.rows)


def test_what_got_worse_comes_first(compared: list[Block]) -> None:
    titles = [b.text for b in compared if isinstance(b, Heading)]
    assert titles[:3] == ["Before and after", "What got worse", "What got better"]
    assert _under(compared, "What got worse")[0][0] == "GFCI or RCD: good → danger"
    assert "Ramp: close → good" in [lead for lead, _ in _under(compared, "What got better")]


def test_a_value_that_moved_far_is_told_although_its_verdict_stood(tmp_path: Path) -> None:
    """The river cooter's dock far too hot, and hotter still."""
    text = (DEMOS / "river_cooter_adult.yaml").read_text(encoding="utf-8")
    for name in ("100 F", "110 F"):
        hot = text.replace("basking_temperature: 89 F", f"basking_temperature: {name}")
        (tmp_path / f"{name}.yaml").write_text(hot, encoding="utf-8")
    before, after = (audit_at(tmp_path / f"{name}.yaml") for name in ("100 F", "110 F"))
    compared = list(comparison_blocks(before, after))
    assert "No verdict changed." not in [b.text for b in compared if isinstance(b, Paragraph)]
    told = {lead: said for b in compared if isinstance(b, Items) for lead, said in b.rows}
    still = {lead: said[0] for lead, said in told.items() if ": still " in lead}
    assert still
    for said in still.values():
        found = re.search(r"went from (.+) to (.+); wanted is .+\.$", said)
        assert found and found[1] != found[2], said
    assert any(lead.startswith("Basking") for lead in still), still


def test_a_change_is_told_in_a_word_first(tmp_path: Path, demos: dict[str, Audit]) -> None:
    text = (DEMOS / "river_cooter_adult.yaml").read_text(encoding="utf-8")
    rcd = text.replace("rcd: yes", "rcd: no")
    for name, said in {"rcd": rcd, "both": rcd.replace("ramp_slope: 35", "ramp_slope: 20")}.items():
        (tmp_path / f"{name}.yaml").write_text(said, encoding="utf-8")
    was, without, both = (
        demos["river_cooter_adult"],
        *(audit_at(tmp_path / f"{n}.yaml") for n in ("rcd", "both")),
    )
    assert in_a_word(was, without).startswith(
        "No, that would do no good: GFCI or RCD would get worse"
    )
    assert in_a_word(was, without).endswith("STOP now.")
    assert in_a_word(without, was).startswith("Yes, that would help: GFCI or RCD would get better")
    assert in_a_word(was, both).startswith("Yes and no: ramp would get better, GFCI or RCD worse.")


def test_what_becomes_dangerous_and_was_not_judged_is_told_in_a_word(
    demos: dict[str, Audit],
) -> None:
    was, without = (
        demos["river_cooter_adult"],
        audit_of(DEMOS / "river_cooter_adult.yaml", {"rcd": "no"}),
    )
    hidden = [replace(f, verdict="unmeasured") if f.check == "rcd" else f for f in was.findings]
    said = in_a_word(replace(was, findings=tuple(hidden)), without)
    assert said.startswith("Not judged before: GFCI or RCD would be dangerous.")
    cold = [replace(f, verdict="wrong") if f.check == "water_temperature" else f for f in hidden]
    said = in_a_word(replace(was, findings=tuple(cold)), without)
    assert said.startswith("Yes and no: water temperature would get better. Not judged before: ")
    empty = assembly.audit_of(assembly.new_interview(), "")
    assert in_a_word(empty, empty) == "That I can't tell yet: too little of the tank is known."


def test_two_audits_of_one_tank_have_no_news(demos: dict[str, Audit]) -> None:
    audit = demos["musk_turtle"]
    assert in_a_word(audit, audit).startswith("No change to speak of")
    blocks = list(comparison_blocks(audit, audit))
    assert not [b for b in blocks if isinstance(b, Items)]
    assert [b.text for b in blocks if isinstance(b, Paragraph)][-1] == "No verdict changed."


@pytest.mark.parametrize(
    ("before", "after", "said"),
    [
        ("no grade", "no grade", "No grade yet, before and now."),
        ("no grade", "D", "No grade before, grade D now."),
        ("D", "no grade", "Grade D before, no grade now."),
        ("STOP", "B", "Grade STOP before, B now."),
    ],
)
def test_a_grade_that_is_wanting_reads_as_a_sentence(before: str, after: str, said: str) -> None:
    assert _before_and_now(before, after) == said


def test_a_plan_for_a_tank_without_a_grade_says_that_there_is_none_yet(
    demos: dict[str, Audit],
) -> None:
    grades = next(iter(demos.values())).grades
    assert replace(grades, overall="no grade", stop=False).reached == "no grade yet"
    assert replace(grades, overall="D", stop=False).reached == "grade D"


def _told(before: Audit, after: Audit) -> dict[str, str]:
    blocks = comparison_blocks(before, after)
    return {lead: said[0] for b in blocks if isinstance(b, Items) for lead, said in b.rows}


def test_a_value_outside_its_band_that_is_good_is_told_with_what_counts() -> None:
    """A shell may be warmer than the surface's band: the band alone would say it was too hot."""
    path = DEMOS / "musk_turtle.yaml"
    warm, mild = (audit_of(path, {"basking_temperature": t}) for t in ("32 C", "27 C"))
    said = _told(warm, mild)["Basking heat: still good"]
    assert "went from 3" in said and "wanted is" not in said and "on the shell" in said


def test_what_has_nothing_to_judge_was_not_good_before() -> None:
    path = DEMOS / "musk_turtle.yaml"
    musk = {"species": "common musk turtle", "carapace_length": "9.5 cm", "sex": "female"}
    joined = {"species": "common musk turtle", "carapace_length": "9 cm", "sex": "male"}
    one = audit_of(path, {"animals": [musk], "other_animals": ""})
    two = audit_of(path, {"animals": [musk, joined], "other_animals": "none"})
    came, left = _told(one, two), _told(two, one)
    assert "Company: nothing to judge → wrong" in came
    assert "Company: wrong → nothing to judge" in left
    assert not any("good → good" in lead or lead.startswith("Quarantine") for lead in came)


def test_where_the_largest_turtle_is_gone_it_is_said_by_whom_is_judged() -> None:
    path = DEMOS / "musk_turtle.yaml"
    large = {"species": "red-eared slider", "carapace_length": "18 cm", "sex": "female"}
    small = {"species": "common musk turtle", "carapace_length": "9.5 cm", "sex": "female"}
    two = audit_of(path, {"animals": [large, small]})
    one = audit_of(path, {"animals": [small]})
    said = " ".join(b.text for b in comparison_blocks(two, one) if isinstance(b, Paragraph))
    assert "2 turtles before, 1 now" in said and "was 18 cm and is 9.5 cm" in said
    assert "turtles before" not in " ".join(
        b.text for b in comparison_blocks(one, one) if isinstance(b, Paragraph)
    )
