"""Before and after: worse before better, and what moved although its verdict stood."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest
from report_tanks import DEMOS, audit_at

from interview.audit.audit import Audit
from interview.report.before_and_after import _before_and_now, comparison_blocks
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


def test_two_audits_of_one_tank_have_no_news(demos: dict[str, Audit]) -> None:
    audit = demos["musk_turtle"]
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
